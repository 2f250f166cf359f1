//! What each rule may try: the ways of putting things right, by name.

use super::free_floor;
use super::moves::{change_gear, enough, move_by, place, put_cylinder, replace_lashing};
use super::slots::{into_slot, shut};
use super::stores::{spare_boot, spare_chocks};
use super::straps::{
    hand_tension_kn, height_m, other_points, other_strap, strap_lying, strap_standing,
};
use crate::checks::check::Subject;
use crate::checks::rules::walked::kind_of;
use crate::checks::rules::{chock_too_low, valve_points_into_walkway};
use crate::checks::security::{self, Security, Why};
use crate::checks::{CheckContext, Finding, Proposal, words};
use crate::engine::numbers::{CylinderNumbers, FitKind, FitThing, Way};
use crate::layout::{Chocks, Edit, Id, Kit, Known, Lashing, Placing, Point, ThingKind};

/// The cylinder that a finding is about.
fn cylinder<'a>(ctx: &CheckContext<'a>, finding: &Finding) -> Option<&'a CylinderNumbers> {
    let mut about = finding.about.iter();
    let subject = about.find(|subject| subject.kind == ThingKind::Cylinder)?;
    ctx.cylinder(&subject.id)
}

/// The lashings that a finding is about, as they are in this part.
fn lashings<'a>(ctx: &CheckContext<'a>, finding: &Finding) -> Vec<&'a Lashing> {
    let about = finding
        .about
        .iter()
        .filter(|subject| subject.kind == ThingKind::Lashing);
    let states = &ctx.day.lashings;
    about
        .filter_map(|subject| {
            let mut all = states.iter().map(|state| &state.lashing);
            all.find(|lashing| lashing.id == subject.id)
        })
        .collect()
}

fn one(label: String, edits: Vec<Edit>) -> Proposal {
    Proposal {
        label,
        edits,
        gear: None,
    }
}

/// For an unsecured cylinder: shut what is open, put it in a slot, strap it, lay it down.
pub(in crate::checks) fn secure(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let mut proposals = Vec::new();
    match security::of(ctx, cylinder) {
        Security::Unsecured(Why::SlotOpen {
            rack,
            front: Some(front),
        }) => proposals.push(shut_it(ctx, rack, front)),
        Security::Unsecured(Why::LashingOpen { lashing, left, .. }) if left.is_empty() => {
            proposals.push(one(
                format!("Shut {}", ctx.name(ThingKind::Lashing, lashing)),
                vec![Edit::SetLashingShut {
                    trip: ctx.trip.id.clone(),
                    part: ctx.part_index,
                    lashing: lashing.clone(),
                    shut: true,
                }],
            ));
        }
        Security::Unsecured(Why::OffShell(lashing)) => {
            proposals.extend(to_height(ctx, lashing, cylinder));
        }
        _ => {}
    }
    let straps = strap_standing(ctx, cylinder);
    // The two surest first, so that a trial of a dozen sees each sort.
    let (first, rest) = straps.split_at(straps.len().min(4));
    proposals.extend(into_slot(ctx, cylinder));
    proposals.extend(first.iter().cloned());
    proposals.extend(lay_down(ctx, cylinder));
    proposals.extend(rest.iter().cloned());
    proposals
}

fn shut_it(ctx: &CheckContext<'_>, rack: &str, front: &str) -> Proposal {
    one(
        format!("Shut {front} across {}", ctx.name(ThingKind::Rack, rack)),
        vec![shut(ctx, rack, front)],
    )
}

/// For the open front of a rack.
pub(in crate::checks) fn shut_front(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    match security::of(ctx, cylinder) {
        Security::Unsecured(Why::SlotOpen {
            rack,
            front: Some(front),
        }) => vec![shut_it(ctx, rack, front)],
        _ => into_slot(ctx, cylinder),
    }
}

/// For a round bottom.
pub(in crate::checks) fn boot(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let id = &cylinder.cylinder;
    let gear = spare_boot(ctx);
    let from = gear
        .as_ref()
        .map_or_else(String::new, |gear| format!(" ({gear})"));
    let booted = put_cylinder(ctx, id, |cylinder| cylinder.boot = true).map(|edit| Proposal {
        label: format!("Put a boot on {id}{from}"),
        edits: vec![edit],
        gear,
    });
    let mut proposals: Vec<Proposal> = booted.into_iter().collect();
    proposals.extend(into_slot(ctx, cylinder));
    proposals.extend(lay_down(ctx, cylinder));
    proposals
}

/// For a cylinder that goes although something holds it.
pub(in crate::checks) fn hold_better(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    if let Some(towards) = valve_points_into_walkway::valve_towards_deg(ctx, cylinder) {
        let mut proposals = strap_lying(ctx, cylinder, towards);
        proposals.extend(super::mat::under(ctx, cylinder));
        proposals.extend(into_slot(ctx, cylinder));
        return proposals;
    }
    let mut proposals = into_slot(ctx, cylinder);
    proposals.extend(strap_standing(ctx, cylinder));
    proposals.extend(super::mat::under(ctx, cylinder));
    proposals.extend(lay_down(ctx, cylinder));
    proposals
}

/// For a slot that does not suit its cylinder.
pub(in crate::checks) fn another_slot(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    cylinder(ctx, finding).map_or_else(Vec::new, |cylinder| into_slot(ctx, cylinder))
}

/// Lays the cylinder on the nearest free floor: on its kit, else between chocks that are high enough.
fn lay_down(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Vec<Proposal> {
    let id = &cylinder.cylinder;
    let (Some(state), Some((at, valve_towards_deg))) =
        (ctx.state(id), free_floor::nearest(ctx, cylinder))
    else {
        return Vec::new();
    };
    let on_kit = state.kit == Kit::On;
    let chocks = spare_chocks(ctx);
    let needed = needed_chock_m(cylinder);
    let chock = chocks
        .iter()
        .find(|(_, height)| *height >= needed)
        .or(chocks.last());
    let (how, chocks, gear) = if on_kit {
        ("on its kit".to_owned(), None, None)
    } else if let Some((gear, height_m)) = chock {
        let how = format!("between {gear} of {}, fixed", words::metres(*height_m));
        let chocks = Chocks::Blocks {
            height_m: *height_m,
            gap_m: 0.0,
            fixed: true,
        };
        (how, Some(chocks), Some(gear.clone()))
    } else {
        return Vec::new();
    };
    let shift = [at[0] - cylinder.at[0], at[1] - cylinder.at[1]];
    let whither = if shift[0].hypot(shift[1]) < 0.01 {
        "where it is".to_owned()
    } else {
        words::shift(shift)
    };
    let placing = Placing::Lying {
        deck: cylinder.deck.clone(),
        at,
        valve_towards_deg,
        on: None,
        on_kit,
        chocks,
        upon: Vec::new(),
    };
    vec![Proposal {
        label: format!(
            "Lay {id} down {whither}, valve {}, {how}",
            words::towards(valve_towards_deg)
        ),
        edits: vec![place(ctx, id, placing)],
        gear,
    }]
}

/// The chock height for a cylinder at its worst force along the deck, in metres.
fn needed_chock_m(cylinder: &CylinderNumbers) -> f64 {
    let worst = cylinder
        .utilisations
        .iter()
        .map(|item| chock_too_low::needed_m(cylinder, item));
    worst.fold(0.0, f64::max)
}

/// For a lying cylinder that rolls: chocks that are high enough, its kit, a turn, a slot.
pub(in crate::checks) fn keep_from_rolling(
    ctx: &CheckContext<'_>,
    finding: &Finding,
) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let id = &cylinder.cylinder;
    let mut proposals = into_slot(ctx, cylinder);
    let Some(placing @ Placing::Lying { .. }) = ctx.state(id).map(|state| &state.placing) else {
        return proposals;
    };
    let rolls = cylinder.utilisation(Way::RollsAway);
    let needed = rolls.map_or(0.0, |item| chock_too_low::needed_m(cylinder, item));
    let spare = spare_chocks(ctx);
    let aboard = spare.iter().find(|(_, height)| *height >= needed);
    let (height, from) = match aboard {
        Some((gear, height)) => (*height, format!(" ({gear})")),
        None => (needed, String::new()),
    };
    let chocks = Chocks::Blocks {
        height_m: height,
        gap_m: 0.0,
        fixed: true,
    };
    proposals.push(Proposal {
        label: format!(
            "Chock {id} on both sides with {}, snug and fixed{from}",
            words::metres(height)
        ),
        edits: vec![place(ctx, id, with_chocks(placing, Some(chocks), false))],
        gear: aboard.map(|(gear, _)| gear.clone()),
    });
    if ctx.state(id).is_some_and(|state| state.kit == Kit::On) {
        proposals.push(one(
            format!("Turn {id} so that it lies on its kit"),
            vec![place(ctx, id, with_chocks(placing, None, true))],
        ));
    }
    proposals.extend(turned(ctx, cylinder, &[90.0]));
    if let Some(towards) = valve_points_into_walkway::valve_towards_deg(ctx, cylinder) {
        proposals.extend(strap_lying(ctx, cylinder, towards));
    }
    proposals
}

fn with_chocks(placing: &Placing, new: Option<Chocks>, lies_on_kit: bool) -> Placing {
    let mut placing = placing.clone();
    if let Placing::Lying { chocks, on_kit, .. } = &mut placing {
        *chocks = new;
        *on_kit = lies_on_kit;
    }
    placing
}

/// The cylinder turned about its middle by these angles.
fn turned(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers, by_deg: &[f64]) -> Vec<Proposal> {
    let id = &cylinder.cylinder;
    let Some(placing) = ctx.state(id).map(|state| &state.placing) else {
        return Vec::new();
    };
    let proposals = by_deg.iter().filter_map(|by| {
        let mut placing = placing.clone();
        let (Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        }) = &mut placing
        else {
            return None;
        };
        *valve_towards_deg = normal_deg(*valve_towards_deg + by);
        let towards = words::towards(*valve_towards_deg);
        Some(one(
            format!(
                "Turn {id} by {:.0}° so that its valve points {towards}",
                by.abs()
            ),
            vec![place(ctx, id, placing)],
        ))
    });
    proposals.collect()
}

/// The same direction from -180° (not included) to 180°.
fn normal_deg(deg: f64) -> f64 {
    let turned = deg.rem_euclid(360.0);
    if turned > 180.0 {
        turned - 360.0
    } else {
        turned
    }
}

/// For a valve that points where people walk.
pub(in crate::checks) fn turn_round(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    cylinder(ctx, finding).map_or_else(Vec::new, |cylinder| {
        turned(ctx, cylinder, &[180.0, 90.0, -90.0])
    })
}

/// For a lying cylinder that slides along, or an upper tier: a strap over it.
pub(in crate::checks) fn lash_down(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let towards = valve_points_into_walkway::valve_towards_deg(ctx, cylinder).unwrap_or(0.0);
    let mut proposals = strap_lying(ctx, cylinder, towards);
    proposals.extend(super::mat::under(ctx, cylinder));
    proposals.extend(turned(ctx, cylinder, &[90.0]));
    proposals.extend(into_slot(ctx, cylinder));
    proposals
}

/// For a bare valve.
pub(in crate::checks) fn cap(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let id = finding.first();
    let edit = put_cylinder(ctx, id, |cylinder| cylinder.valve_protected = true);
    let proposal = edit.map(|edit| one(format!("Cap or guard the valve of {id}"), vec![edit]));
    proposal.into_iter().collect()
}

/// For a lashing that is too weak or worn: a better one, other points, a slot.
pub(in crate::checks) fn stronger_lashing(
    ctx: &CheckContext<'_>,
    finding: &Finding,
) -> Vec<Proposal> {
    let mut proposals = Vec::new();
    for lashing in lashings(ctx, finding) {
        proposals.extend(other_strap(ctx, lashing));
        proposals.extend(other_points(ctx, lashing));
    }
    if let Some(cylinder) = cylinder(ctx, finding) {
        proposals.extend(into_slot(ctx, cylinder));
    }
    proposals
}

/// For a lashing point or the run of a lashing.
pub(in crate::checks) fn another_point(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let lashings = lashings(ctx, finding);
    let mut proposals: Vec<Proposal> = Vec::new();
    for lashing in lashings {
        proposals.extend(other_points(ctx, lashing));
    }
    proposals
}

/// For a slack lashing.
pub(in crate::checks) fn tighten(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let lashings = lashings(ctx, finding).into_iter();
    let proposals = lashings.filter_map(|lashing| {
        let tension = hand_tension_kn(&lashing.material);
        let edits = replace_lashing(ctx, &lashing.id, |lashing| {
            lashing.slack_m = None;
            lashing.pretension_kn = Some(Known::Value(tension));
        })?;
        Some(one(
            format!(
                "Tighten {} until it is really tight (about {})",
                ctx.name(ThingKind::Lashing, &lashing.id),
                words::pull(1000.0 * tension)
            ),
            edits,
        ))
    });
    proposals.collect()
}

/// For a strap that is not on the straight shell.
pub(in crate::checks) fn strap_height(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let lashings = lashings(ctx, finding).into_iter();
    lashings
        .filter_map(|lashing| to_height(ctx, &lashing.id, cylinder))
        .collect()
}

fn to_height(
    ctx: &CheckContext<'_>,
    lashing: &str,
    cylinder: &CylinderNumbers,
) -> Option<Proposal> {
    let height = height_m(cylinder);
    let edits = replace_lashing(ctx, lashing, |lashing| lashing.height_m = height)?;
    Some(one(
        format!(
            "Move {} to {} up",
            ctx.name(ThingKind::Lashing, lashing),
            words::metres(height)
        ),
        edits,
    ))
}

/// Moves a thing by at least this shift.
fn moved(ctx: &CheckContext<'_>, (kind, id): (ThingKind, &str), by: Point) -> Option<Proposal> {
    let by = enough(by);
    let edits = move_by(ctx, kind, id, by)?;
    Some(one(
        format!("Move {} {}", ctx.name(kind, id), words::shift(by)),
        edits,
    ))
}

/// For a tight spot in a walkway: the shift that opens it; stow what is loose.
pub(in crate::checks) fn clear_way(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(way) = finding.about.first() else {
        return Vec::new();
    };
    let numbers = ctx
        .numbers
        .walkways
        .iter()
        .find(|item| item.walkway == way.id);
    let spots = numbers
        .into_iter()
        .flat_map(|item| [&item.clear_spot, &item.clear_of_low_spot]);
    let shifts = spots.flatten().filter_map(|spot| spot.shift.as_ref());
    let mut proposals: Vec<Proposal> = Vec::new();
    for shift in shifts {
        let kind = kind_of(shift.kind);
        let proposal = moved(ctx, (kind, &shift.thing), shift.by_m);
        for proposal in proposal.into_iter().chain(stowed(ctx, kind, &shift.thing)) {
            if !proposals.contains(&proposal) {
                proposals.push(proposal);
            }
        }
    }
    for subject in finding.about.iter().skip(1) {
        proposals.extend(stowed(ctx, subject.kind, &subject.id));
        proposals.extend(out_of_strip(ctx, subject, &way.id));
    }
    let mut unique: Vec<Proposal> = Vec::new();
    for proposal in proposals {
        if !unique.contains(&proposal) {
            unique.push(proposal);
        }
    }
    unique
}

fn out_of_strip(ctx: &CheckContext<'_>, subject: &Subject, way: &str) -> Option<Proposal> {
    let numbers = ctx
        .numbers
        .walkways
        .iter()
        .find(|item| item.walkway == way)?;
    let mut intruders = numbers.intruders.iter();
    let intruder = intruders.find(|item| item.thing == subject.id)?;
    moved(ctx, (subject.kind, &subject.id), intruder.shift_m)
}

fn stowed(ctx: &CheckContext<'_>, kind: ThingKind, id: &str) -> Option<Proposal> {
    if kind != ThingKind::Gear {
        return None;
    }
    let edit = change_gear(ctx, id, None, Some(true))?;
    Some(one(format!("Stow {} away", ctx.name(kind, id)), vec![edit]))
}

/// For something in a walkway's strip.
pub(in crate::checks) fn move_out(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let [thing, way, ..] = finding.about.as_slice() else {
        return Vec::new();
    };
    let numbers = ctx
        .numbers
        .walkways
        .iter()
        .find(|item| item.walkway == way.id);
    let intruders = numbers.into_iter().flat_map(|item| &item.intruders);
    let mut shifts = intruders.filter(|item| item.thing == thing.id);
    let moved = shifts.find_map(|item| moved(ctx, (thing.kind, &thing.id), item.shift_m));
    let mut proposals: Vec<Proposal> = moved.into_iter().collect();
    proposals.extend(stowed(ctx, thing.kind, &thing.id));
    proposals
}

/// For a hose or line.
pub(in crate::checks) fn stow_gear(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let mut proposals: Vec<Proposal> = stowed(ctx, ThingKind::Gear, finding.first())
        .into_iter()
        .collect();
    proposals.extend(move_out(ctx, finding));
    proposals.dedup();
    proposals
}

/// For something that does not fit where it is: the shift that clears it, of the one or of the other.
pub(in crate::checks) fn shift_off(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let first = finding.about.first();
    let second = finding.about.get(1);
    let is = |thing: &FitThing, subject: Option<&Subject>| {
        subject.is_some_and(|subject| subject.id == thing.id && subject.kind == kind_of(thing.kind))
    };
    let fits = ctx.numbers.fit.iter().filter(|fit| {
        is(&fit.things[0], first) && (second.is_none() || is(&fit.things[1], second))
    });
    let mut proposals: Vec<Proposal> = Vec::new();
    for fit in fits {
        let Some(by) = fit.shift_m else { continue };
        let [thing, other] = &fit.things;
        let back = by.map(|value| -value);
        let ways = [(thing, by), (other, back)];
        let both = if fit.kind == FitKind::Overlap {
            &ways[..]
        } else {
            &ways[..1]
        };
        for (thing, by) in both {
            let kind = kind_of(thing.kind);
            let (kind, id) = mover(ctx, kind, &thing.id);
            proposals.extend(moved(ctx, (kind, &id), *by));
        }
    }
    proposals.dedup();
    proposals
}

/// What is moved to move a thing: a cylinder in a rack goes with its rack.
fn mover(ctx: &CheckContext<'_>, kind: ThingKind, id: &str) -> (ThingKind, Id) {
    let placing = ctx.state(id).map(|cylinder| &cylinder.placing);
    match placing {
        Some(Placing::InSlot { rack, .. }) if kind == ThingKind::Cylinder => {
            (ThingKind::Rack, rack.clone())
        }
        _ => (kind, id.to_owned()),
    }
}

/// For what is in the way of something that must be reached or opened: move each out of it, or stow it.
pub(in crate::checks) fn uncover(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(of) = finding.about.first() else {
        return Vec::new();
    };
    let mut moves: Vec<Proposal> = Vec::new();
    let mut stows: Vec<Proposal> = Vec::new();
    for fit in &ctx.numbers.fit {
        let here = fit.things[1].id == of.id && kind_of(fit.things[1].kind) == of.kind;
        let thing = &fit.things[0];
        let kind = kind_of(thing.kind);
        if !here || !finding.about.iter().any(|subject| subject.id == thing.id) {
            continue;
        }
        let (mover_kind, id) = mover(ctx, kind, &thing.id);
        let moved = fit.shift_m.and_then(|by| moved(ctx, (mover_kind, &id), by));
        moves.extend(moved.filter(|proposal| !moves.contains(proposal)));
        let stowed = stowed(ctx, kind, &thing.id);
        stows.extend(stowed.filter(|proposal| !stows.contains(proposal)));
    }
    let all = |proposals: Vec<Proposal>| -> Option<Proposal> {
        let labels: Vec<String> = proposals.iter().map(|item| item.label.clone()).collect();
        let edits: Vec<Edit> = proposals.into_iter().flat_map(|item| item.edits).collect();
        (!edits.is_empty()).then(|| one(labels.join("; "), edits))
    };
    [all(stows), all(moves)].into_iter().flatten().collect()
}
