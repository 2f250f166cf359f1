//! The figures of a utilisation, for "show the sum".

use super::limits::Worst;
use super::numbers::sum::{Figures, InFront, InSlot, Of, Rolling, Tipping};
use super::numbers::{Sum, Way};
use super::ways::Judge;
use crate::geometry::Vec2;
use crate::mechanics::lean::tipping_direction;
use crate::mechanics::lying::LyingForce;
use crate::mechanics::motion::Force;

/// The sum of one way of going under the force at which it is worst. `front_pull_n` is the pull in the front of
/// its slot in that load case.
pub(super) fn sum(judge: &Judge<'_>, worst: &Worst, front_pull_n: impl FnOnce() -> f64) -> Sum {
    let force = &worst.force;
    let of = match worst.way {
        Way::Tips | Way::FootKicksOut if judge.hold.slot.is_none() => tipping(judge, force),
        Way::Slides | Way::SlidesAlong => sliding(judge, worst.way, force),
        Way::Lifts => Of::Lifting,
        Way::FootKicksOut => kick_out(judge),
        Way::RackGives => in_slot(judge, force, front_pull_n),
        Way::RollsAway | Way::LeavesGroove => rolling(judge, force),
        Way::Tips | Way::LashingGives => Of::Nothing,
    };
    Sum(Some(Figures {
        a_h: force.a_h(),
        a_n: force.a_n(),
        value: worst.value,
        of,
    }))
}

fn tipping(judge: &Judge<'_>, force: &Force) -> Of {
    let body = judge.body.upright();
    let direction = tipping_direction(force, &body);
    Of::Tipping(Tipping {
        centre_height_m: body.centre_height_m,
        moment: force.tipping(body.centre_height_m, body.kappa2_m2).length(),
        turning: force.tipping(0.0, body.kappa2_m2).length(),
        ray_m: judge.body.base.ray(direction),
        restrained: judge.hold.is_restrained(),
    })
}

fn sliding(judge: &Judge<'_>, way: Way, force: &Force) -> Of {
    let along = match (&judge.body.lying, way) {
        (Some(lying), Way::SlidesAlong) => LyingForce::new(force, lying.axis_rad).along.abs(),
        (Some(lying), _) => LyingForce::new(force, lying.axis_rad).across.abs(),
        (None, _) => force.a_h(),
    };
    Of::Sliding {
        along,
        friction: judge.body.friction.value,
        source: judge.body.friction.source.clone(),
    }
}

fn kick_out(judge: &Judge<'_>) -> Of {
    judge
        .hold
        .slot
        .as_ref()
        .map_or(Of::Nothing, |slot| Of::KickOut {
            centre_height_m: judge.body.cg_height_m,
            edge_height_m: slot.edge_height_m,
        })
}

fn in_slot(judge: &Judge<'_>, force: &Force, front_pull_n: impl FnOnce() -> f64) -> Of {
    let Some(slot) = &judge.hold.slot else {
        return Of::Nothing;
    };
    let forces = judge.slot_forces(slot, force);
    let front = slot.front.as_ref();
    let front = front.and_then(|front| Some((front, front.strength_n?)));
    let counting = judge
        .hold
        .straps
        .iter()
        .filter(|strap| strap.state.counts());
    Of::InSlot(Box::new(InSlot {
        edge_height_m: slot.edge_height_m,
        lean_rad: judge.edge(slot).lean_rad(),
        edge_n: forces.edge_n,
        front_n: forces.front_n,
        stop_n: forces.stop_n,
        edge_strength_n: slot.edge_n,
        front: front.map(|(front, strength_n)| InFront {
            pull_n: front_pull_n(),
            strength_n,
            pull_per_push: front.pull_per_push,
            behind: front.row.as_ref().map(|row| row.len()),
        }),
        not_counted: counting.map(|strap| strap.state.id.clone()).collect(),
    }))
}

fn rolling(judge: &Judge<'_>, force: &Force) -> Of {
    let Some(lying) = &judge.body.lying else {
        return Of::Nothing;
    };
    let own = LyingForce::new(force, lying.axis_rad);
    let axis = Vec2::from_angle(lying.axis_rad);
    let row = judge.hold.row.as_ref();
    Of::Rolling(Rolling {
        across: own.across.abs(),
        a_n: own.a_n,
        row: row.map(|row| (row.members.clone(), row.mass_kg, row.count)),
        carries: judge.hold.carries_at_rad.is_some(),
        athwartships: axis.y.abs() > axis.x.abs(),
    })
}
