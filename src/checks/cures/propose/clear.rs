//! Making room: shifts that clear a walkway, a touch or what must be reached; stowing what is loose.

use super::super::moves::{change_gear, enough, move_by};
use super::one;
use crate::checks::check::Subject;
use crate::checks::rules::walked::kind_of;
use crate::checks::{CheckContext, Finding, Proposal, figures};
use crate::engine::numbers::{FitKind, FitThing};
use crate::layout::{Edit, Id, Placing, Point, ThingKind};

/// Moves a thing by at least this shift.
fn moved(ctx: &CheckContext<'_>, (kind, id): (ThingKind, &str), by: Point) -> Option<Proposal> {
    let by = enough(by);
    let edits = move_by(ctx, kind, id, by)?;
    Some(one(
        format!("Move {} {}", ctx.name(kind, id), figures::shift(by)),
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
        let labels: Vec<String> = proposals
            .iter()
            .map(|item| item.label.to_string())
            .collect();
        let edits: Vec<Edit> = proposals.into_iter().flat_map(|item| item.edits).collect();
        (!edits.is_empty()).then(|| one(labels.join("; "), edits))
    };
    [all(stows), all(moves)].into_iter().flatten().collect()
}
