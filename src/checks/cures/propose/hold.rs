//! Holding an upright cylinder: a front shut or tied, a slot, a strap, a boot, or laid down.

use super::super::mat;
use super::super::moves::put_cylinder;
use super::super::slots::{into_slot, shut};
use super::super::stores::spare_boot;
use super::super::straps::{strap_lying, strap_standing};
use super::lash::to_height;
use super::lie::lay_down;
use super::{cylinder, one};
use crate::checks::rules::valve_points_into_walkway;
use crate::checks::security::{self, Security, Why};
use crate::checks::{CheckContext, Finding, Proposal};
use crate::layout::{Edit, Front, FrontKind, Placing, Thing, ThingKind};

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
    let booted = spare_boot(ctx).and_then(|gear| {
        Some(Proposal {
            label: format!("Put a boot on {id} ({gear})").into(),
            edits: vec![put_cylinder(ctx, id, |cylinder| cylinder.boot = true)?],
            gear: Some(gear),
        })
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
        proposals.extend(mat::under(ctx, cylinder));
        proposals.extend(into_slot(ctx, cylinder));
        return proposals;
    }
    let mut proposals = into_slot(ctx, cylinder);
    proposals.extend(strap_standing(ctx, cylinder));
    proposals.extend(mat::under(ctx, cylinder));
    proposals.extend(lay_down(ctx, cylinder));
    proposals
}

/// For a slot that does not suit its cylinder.
pub(in crate::checks) fn another_slot(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    cylinder(ctx, finding).map_or_else(Vec::new, |cylinder| into_slot(ctx, cylinder))
}

/// For the front of a rack that is too weak or too slack: tie it between every two slots, pull it tight.
pub(in crate::checks) fn tie_front(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(rack) = ctx.plan.boat.rack(finding.first()) else {
        return Vec::new();
    };
    let of_finding = |front: &&Front| {
        let served = front.slots.iter();
        let mut served = served.flat_map(|slot| {
            let inside = ctx.day.cylinders.iter().map(|state| &state.cylinder);
            inside.filter(move |cylinder| {
                let here = (&rack.id, slot);
                matches!(&cylinder.placing, Placing::InSlot { rack, slot } if (rack, slot) == here)
            })
        });
        served.any(|cylinder| {
            finding
                .about
                .iter()
                .any(|subject| subject.id == cylinder.id)
        })
    };
    let change = |front: &Front, how: &dyn Fn(&mut Front)| {
        let mut rack = rack.clone();
        let mut fronts = rack.fronts.iter_mut();
        if let Some(same) = fronts.find(|other| other.id == front.id) {
            how(same);
        }
        vec![Edit::Put {
            trip: None,
            thing: Box::new(Thing::Rack(rack)),
        }]
    };
    let name = ctx.name(ThingKind::Rack, &rack.id);
    let mut proposals = Vec::new();
    for front in rack.fronts.iter().filter(of_finding) {
        let is_soft = front.kind != FrontKind::Bar;
        if is_soft && !front.tied_between_slots && front.slots.len() > 1 {
            proposals.push(one(
                format!(
                    "Tie {} across {name} between every two slots",
                    front.called()
                ),
                change(front, &|front| front.tied_between_slots = true),
            ));
        }
        if is_soft && front.slack_m.is_some() {
            proposals.push(one(
                format!("Pull {} across {name} tight", front.called()),
                change(front, &|front| front.slack_m = None),
            ));
        }
    }
    proposals
}
