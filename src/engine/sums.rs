//! The formula of a utilisation with its figures put in, line by line, for "show the sum".

use super::numbers::Way;
use super::ways::Judge;
use crate::geometry::Vec2;
use crate::mechanics::lean::tipping_direction;
use crate::mechanics::lying::LyingForce;
use crate::mechanics::motion::{Force, GRAVITY};

/// The lines for one way of going under one force.
pub(super) fn lines(judge: &Judge<'_>, way: Way, value: f64, force: &Force) -> Vec<String> {
    let mut lines = vec![format!(
        "apparent force: a_h = {:.2} m/s² along the deck, a_n = {:.2} m/s² onto it",
        force.a_h(),
        force.a_n()
    )];
    match way {
        Way::Tips | Way::FootKicksOut if judge.hold.slot.is_none() => {
            tipping(judge, value, force, &mut lines);
        }
        Way::Slides | Way::SlidesAlong => sliding(judge, way, value, force, &mut lines),
        Way::Lifts => lines.push(format!(
            "weight taken off: (g - a_n) / g = ({GRAVITY:.2} - {:.2}) / {GRAVITY:.2}, with what holds it down: {}",
            force.a_n(),
            shown(value)
        )),
        Way::RackGives | Way::FootKicksOut => in_slot(judge, way, value, force, &mut lines),
        Way::RollsAway | Way::LeavesGroove => rolling(judge, value, force, &mut lines),
        Way::Tips | Way::LashingGives => {}
    }
    lines
}

fn shown(value: f64) -> String {
    if value.is_finite() {
        format!("{value:.2}")
    } else {
        "no limit: it goes".to_owned()
    }
}

fn tipping(judge: &Judge<'_>, value: f64, force: &Force, lines: &mut Vec<String>) {
    let body = judge.body.upright();
    let direction = tipping_direction(force, &body);
    let moment = force.tipping(body.centre_height_m, body.kappa2_m2).length();
    let turning = force.tipping(0.0, body.kappa2_m2).length();
    lines.push(format!(
        "overturning: a_h h + κ² ω² φ = {:.2} × {:.3} + {turning:.3} = {moment:.3} m²/s²",
        force.a_h(),
        body.centre_height_m,
    ));
    let ray = judge.body.base.ray(direction);
    let righting = force.a_n() * ray;
    lines.push(format!(
        "righting: a_n b = {:.2} × {ray:.4} = {righting:.3} m²/s²",
        force.a_n()
    ));
    if judge.hold.is_restrained() {
        lines.push(format!(
            "with what holds it, over all directions (limit analysis): used up {}",
            shown(value)
        ));
    } else {
        lines.push(format!(
            "used up: {moment:.3} / {righting:.3} = {}",
            shown(value)
        ));
    }
}

fn sliding(judge: &Judge<'_>, way: Way, value: f64, force: &Force, lines: &mut Vec<String>) {
    let friction = judge.body.friction.value;
    let along = match (&judge.body.lying, way) {
        (Some(lying), Way::SlidesAlong) => LyingForce::new(force, lying.axis_rad).along.abs(),
        (Some(lying), _) => LyingForce::new(force, lying.axis_rad).across.abs(),
        (None, _) => force.a_h(),
    };
    lines.push(match friction {
        Some(friction) => format!(
            "used up: a / (μ a_n) = {along:.2} / ({friction:.2} × {:.2}) = {}",
            force.a_n(),
            shown(value)
        ),
        None => format!(
            "friction not known; needed: a / a_n = {along:.2} / {:.2} = {:.2}",
            force.a_n(),
            along / force.a_n()
        ),
    });
    lines.push(format!("friction: {}", judge.body.friction.source));
}

fn in_slot(judge: &Judge<'_>, way: Way, value: f64, force: &Force, lines: &mut Vec<String>) {
    let Some(slot) = &judge.hold.slot else { return };
    let forces = judge.slot_forces(slot, force);
    if way == Way::FootKicksOut {
        lines.push(format!(
            "kick-out: a_h |h - r| / (a_n (b + μ r)) with h = {:.3} m, r = {:.3} m: used up {}",
            judge.body.cg_height_m,
            slot.edge_height_m,
            shown(value)
        ));
        return;
    }
    lines.push(format!(
        "held at {:.2} m, leans {:.1}°: {:.0} N on the edge, {:.0} N on the front",
        slot.edge_height_m,
        forces.rail.lean_rad.to_degrees(),
        forces.edge_n,
        forces.front_n
    ));
    if let Some(strength) = slot.edge_n {
        lines.push(format!(
            "strength of the edge and of what stops the foot ({:.0} N): {strength:.0} N",
            forces.stop_n()
        ));
    }
    if let Some(front) = &slot.front
        && let Some(strength) = front.strength_n
    {
        let pull = front.pull_n(judge.body, slot, force);
        lines.push(match &front.row {
            None => format!("pull in the front: {pull:.0} N of {strength:.0} N"),
            Some(row) => format!(
                "pull in the front: {} behind it push {:.0} N together, × {:.2} = {pull:.0} N of {strength:.0} N",
                row.len(),
                pull / front.pull_per_push,
                front.pull_per_push
            ),
        });
    }
    for strap in judge
        .hold
        .straps
        .iter()
        .filter(|strap| strap.state.counts())
    {
        lines.push(format!(
            "{} round it is not counted: the slot is",
            strap.state.id
        ));
    }
    lines.push(format!("used up: {}", shown(value)));
}

fn rolling(judge: &Judge<'_>, value: f64, force: &Force, lines: &mut Vec<String>) {
    let Some(lying) = &judge.body.lying else {
        return;
    };
    let own = LyingForce::new(force, lying.axis_rad);
    lines.push(format!(
        "across its axis: {:.2} / {:.2} = {:.3} of what presses it down; used up {}",
        own.across.abs(),
        own.a_n,
        own.across.abs() / own.a_n,
        shown(value)
    ));
    if let Some(row) = &judge.hold.row {
        lines.push(format!(
            "{} touch: the stop at the end carries {:.0} kg, n = {}",
            row.members.join(", "),
            row.mass_kg,
            row.count
        ));
    }
    if judge.hold.carries_at_rad.is_some() {
        lines.push("another rests on it and presses it outwards".to_owned());
    }
    let axis = Vec2::from_angle(lying.axis_rad);
    lines.push(if axis.y.abs() > axis.x.abs() {
        "it lies athwartships: pitch rolls it, roll slides it".to_owned()
    } else {
        "it lies fore and aft: roll rolls it, pitch slides it".to_owned()
    });
}
