//! Who stands unsecured while something shut is opened for somebody else.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::{CheckContext, Index, security, words};
use crate::engine::Assessor;
use crate::engine::numbers::LimitNumbers;
use crate::layout::{DayState, Id, Opening, Part, Placing, Plan, Trip};

/// A cylinder that nothing holds while a strap, cord or front is open for another.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LeftStanding {
    /// Which.
    pub cylinder: Id,

    /// The roll at which it goes meanwhile, in degrees, where roll decides.
    pub limit_roll_deg: Option<f64>,

    /// The share of the part's whole motion at which it goes meanwhile.
    pub limit_share: Option<f64>,

    /// Does it go within the motion of the part?
    pub goes: bool,

    /// When it goes meanwhile, as a clause.
    pub sentence: String,
}

/// Who of the others behind it nothing else holds while it is open, with their limits then in the motion of this
/// part: first who goes first.
///
/// It is looked at as a moment of its own: everything is as it was before, but this is open.
pub fn left_standing(
    plan: &Plan,
    trip: &Trip,
    part: &Part,
    before: &DayState,
    opening: &Opening,
) -> Vec<LeftStanding> {
    if opening.others.is_empty() {
        return Vec::new();
    }
    let moment = trip.of_moment(part, &before.with_open(&opening.what));
    let moment = with_neighbours_alone(moment, opening);
    let left = in_moment(plan, &moment, |ctx| {
        let others = ctx.numbers.cylinders.iter().filter(|cylinder| {
            opening.others.contains(&cylinder.cylinder) && security::is_unsecured(ctx, cylinder)
        });
        let left = others.map(|cylinder| {
            let limit = &cylinder.limit;
            let standing = LeftStanding {
                cylinder: cylinder.cylinder.clone(),
                limit_roll_deg: limit.roll_deg,
                limit_share: limit.share,
                goes: security::goes(cylinder),
                sentence: words::goes_at(limit, &ctx.numbers.motion),
            };
            (order_of(limit), standing)
        });
        left.collect::<Vec<_>>()
    });
    let mut left = left.unwrap_or_default();
    left.sort_by(|a, b| {
        let order = a.0.total_cmp(&b.0);
        order.then_with(|| a.1.cylinder.cmp(&b.1.cylinder))
    });
    left.into_iter().map(|(_, standing)| standing).collect()
}

/// Looks at a moment by itself, at its cylinders and what holds them: walkways, falls and fits are left out, as this is
/// asked for again and again while something is dragged.
pub(super) fn in_moment<T>(
    plan: &Plan,
    moment: &Trip,
    look: impl FnOnce(&CheckContext<'_>) -> T,
) -> Option<T> {
    let days = DayState::of_trip(plan, moment);
    let (scene, numbers) = Assessor::default().what_if_held(plan, moment, &days, 0)?;
    let day = days.first()?;
    Some(look(&CheckContext {
        plan,
        trip: moment,
        part_index: 0,
        part: moment.parts.first()?,
        day,
        days: &days,
        scene: &scene,
        numbers: &numbers,
        index: &Index::new(day, &numbers),
    }))
}

/// The less, the sooner it goes.
fn order_of(limit: &LimitNumbers) -> f64 {
    if limit.goes_at_rest {
        -1.0
    } else if limit.goes_without_roll {
        0.0
    } else {
        // To a ten-thousandth of a degree: the limits promise no more, and ties break by name.
        let roll = limit.roll_deg.unwrap_or(f64::INFINITY);
        (1e4 * roll).round()
    }
}

/// Without the cylinders that have nothing to do with it, on deck or in other racks: they cost time and change
/// nothing.
fn with_neighbours_alone(mut trip: Trip, opening: &Opening) -> Trip {
    let rack_of = |placing: &Placing| match placing {
        Placing::InSlot { rack, .. } => Some(rack.clone()),
        _ => None,
    };
    let neighbours = trip.cylinders.iter();
    let neighbours = neighbours.filter(|cylinder| opening.others.contains(&cylinder.id));
    let racks: BTreeSet<Id> = neighbours
        .filter_map(|cylinder| rack_of(&cylinder.placing))
        .collect();
    let mut kept: BTreeSet<&Id> = opening.others.iter().chain(&opening.for_whom).collect();
    let of_neighbours = trip.lashings.clone();
    let of_neighbours = of_neighbours
        .iter()
        .filter(|lashing| lashing.round.iter().any(|id| opening.others.contains(id)));
    for lashing in of_neighbours.clone() {
        kept.extend(&lashing.round);
    }
    let is_kept = |round: &[Id]| round.iter().all(|id| kept.contains(id));
    trip.lashings.retain(|lashing| is_kept(&lashing.round));
    trip.cylinders.retain(|cylinder| {
        let elsewhere = match rack_of(&cylinder.placing) {
            Some(rack) => !racks.contains(&rack),
            None => cylinder.stands_by_itself(),
        };
        kept.contains(&cylinder.id) || !elsewhere
    });
    trip
}
