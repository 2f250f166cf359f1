//! Laying a cylinder down, and keeping a lying one where it is: chocks, its kit, a turn, a strap over it.

use super::super::free_floor;
use super::super::mat;
use super::super::moves::{place, put_cylinder};
use super::super::slots::into_slot;
use super::super::stores::spare_chocks;
use super::super::straps::strap_lying;
use super::{cylinder, one};
use crate::checks::rules::{chock_too_low, valve_points_into_walkway};
use crate::checks::{CheckContext, Finding, Proposal, figures, words};
use crate::engine::numbers::{CylinderNumbers, Way};
use crate::geometry::Elementary as _;
use crate::layout::{Chocks, Kit, Placing};

/// Lays the cylinder on the nearest free floor: on its kit, else between chocks that are high enough.
pub(in crate::checks) fn lay_down(
    ctx: &CheckContext<'_>,
    cylinder: &CylinderNumbers,
) -> Vec<Proposal> {
    let id = &cylinder.cylinder;
    let (Some(state), Some((at, valve_towards_deg))) =
        (ctx.state(id), free_floor::nearest(ctx, cylinder))
    else {
        return Vec::new();
    };
    let on_kit = state.kit == Kit::On;
    let chocks = spare_chocks(ctx, id);
    let needed = needed_chock_m(cylinder);
    let chock = chocks
        .iter()
        .find(|(_, height)| *height >= needed)
        .or(chocks.last());
    let (how, chocks, gear) = if on_kit {
        ("on its kit".to_owned(), None, None)
    } else if let Some((gear, height_m)) = chock {
        let how = format!("between {gear} of {}, fixed", figures::metres(*height_m));
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
    let whither = if shift[0].hypotenuse(shift[1]) < 0.01 {
        "where it is".to_owned()
    } else {
        figures::shift(shift)
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
        )
        .into(),
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
    let spare = spare_chocks(ctx, id);
    // The lowest that do, else the highest: they may help, and the trial tells.
    let aboard = spare.iter().find(|(_, height)| *height >= needed);
    let aboard = aboard.or(spare.last());
    proposals.extend(aboard.map(|(gear, height)| {
        let chocks = Chocks::Blocks {
            height_m: *height,
            gap_m: 0.0,
            fixed: true,
        };
        Proposal {
            label: format!(
                "Chock {id} on both sides with {}, snug and fixed ({gear})",
                figures::metres(*height)
            )
            .into(),
            edits: vec![place(ctx, id, with_chocks(placing, Some(chocks), false))],
            gear: Some(gear.clone()),
        }
    }));
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
    proposals.extend(mat::under(ctx, cylinder));
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
