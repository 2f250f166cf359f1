//! Rules from numbers to what must be put right: one rule, one file.
//!
//! A rule is one file in [`rules`]: its documentation, its code and its tests. To add one, write the
//! file, add its static to [`ALL`], and run `UPDATE_DOCS=1 cargo test`.
//!
//! [`run`] is a pure function of what an [`Assessor`] computed. [`digest`] folds its findings into what
//! a crew reads; [`cures`] tries ways of putting them right.

mod card;
mod check;
mod draft;
mod figures;
mod girth;
mod index;
mod left_standing;
mod names;
mod security;
mod stow;
pub mod words;

pub mod fixture;
pub mod rules;

pub mod cures;
pub mod digest;
pub mod guide;

pub use self::card::{CuredLimit, LimitCard, MarginAt, limit_cards, limit_cards_for_paper};
pub use self::check::{Check, CheckContext, Cure, Finding, Measure, Proposal, Signal, Subject};
pub use self::digest::Digest;
pub use self::index::Index;
pub use self::left_standing::{LeftStanding, left_standing};
pub use self::names::{natural, natural_order, runs};
pub use self::stow::{place_to_lie, unsecured};

use crate::engine::Assessor;
use crate::layout::{Plan, TakenOn, Trip};

/// Every check, sorted by code.
pub static ALL: &[&Check] = &[
    &rules::emergency_gear_blocked::EMERGENCY_GEAR_BLOCKED,
    &rules::must_stay_open_obstructed::MUST_STAY_OPEN_OBSTRUCTED,
    &rules::no_floor_for_casualty::NO_FLOOR_FOR_CASUALTY,
    &rules::deck_overloaded::DECK_OVERLOADED,
    &rules::deck_share_over_half::DECK_SHARE_OVER_HALF,
    &rules::near_oxygen_heat_or_fuel::NEAR_OXYGEN_HEAT_OR_FUEL,
    &rules::heavy_lift_by_hand::HEAVY_LIFT_BY_HAND,
    &rules::falls_on_people::FALLS_ON_PEOPLE,
    &rules::falls_on_walkway_or_gear::FALLS_ON_WALKWAY_OR_GEAR,
    &rules::falls_on_cylinders::FALLS_ON_CYLINDERS,
    &rules::lashing_too_weak::LASHING_TOO_WEAK,
    &rules::lashing_point_overloaded::LASHING_POINT_OVERLOADED,
    &rules::lashing_too_slack::LASHING_TOO_SLACK,
    &rules::shock_cord_alone::SHOCK_CORD_ALONE,
    &rules::lashing_too_steep::LASHING_TOO_STEEP,
    &rules::guard_rail_as_lashing_point::GUARD_RAIL_AS_LASHING_POINT,
    &rules::strap_off_straight_shell::STRAP_OFF_STRAIGHT_SHELL,
    &rules::one_lashing_round_several::ONE_LASHING_ROUND_SEVERAL,
    &rules::worn_lashing::WORN_LASHING,
    &rules::lashing_bends::LASHING_BENDS,
    &rules::catalogue_value_changed::CATALOGUE_VALUE_CHANGED,
    &rules::things_overlap::THINGS_OVERLAP,
    &rules::off_deck::OFF_DECK,
    &rules::off_its_rack::OFF_ITS_RACK,
    &rules::hatch_covered::HATCH_COVERED,
    &rules::place_floor_taken::PLACE_FLOOR_TAKEN,
    &rules::rack_edge_too_weak::RACK_EDGE_TOO_WEAK,
    &rules::rack_edge_below_centre::RACK_EDGE_BELOW_CENTRE,
    &rules::lifts_out_of_rack::LIFTS_OUT_OF_RACK,
    &rules::foot_kicks_out::FOOT_KICKS_OUT,
    &rules::wrong_bore::WRONG_BORE,
    &rules::cord_alone_across_front::CORD_ALONE_ACROSS_FRONT,
    &rules::rack_unfixed::RACK_UNFIXED,
    &rules::rack_fixings_overloaded::RACK_FIXINGS_OVERLOADED,
    &rules::shelf_overloaded_on_landing::SHELF_OVERLOADED_ON_LANDING,
    &rules::slot_not_closed::SLOT_NOT_CLOSED,
    &rules::front_too_weak::FRONT_TOO_WEAK,
    &rules::rack_side_too_weak::RACK_SIDE_TOO_WEAK,
    &rules::opened_for_others::OPENED_FOR_OTHERS,
    &rules::cylinder_tips::CYLINDER_TIPS,
    &rules::cylinder_slides::CYLINDER_SLIDES,
    &rules::cylinder_lifts::CYLINDER_LIFTS,
    &rules::backing_too_weak::BACKING_TOO_WEAK,
    &rules::unsecured_upright_cylinder::UNSECURED_UPRIGHT_CYLINDER,
    &rules::round_base_without_boot::ROUND_BASE_WITHOUT_BOOT,
    &rules::held_by_hand_not_enough::HELD_BY_HAND_NOT_ENOUGH,
    &rules::walkway_blocked::WALKWAY_BLOCKED,
    &rules::walkway_narrow::WALKWAY_NARROW,
    &rules::walkway_trip_hazard::WALKWAY_TRIP_HAZARD,
    &rules::thing_in_walkway::THING_IN_WALKWAY,
    &rules::lashing_across_walkway::LASHING_ACROSS_WALKWAY,
    &rules::line_across_walkway::LINE_ACROSS_WALKWAY,
    &rules::headroom_too_low::HEADROOM_TOO_LOW,
    &rules::boat_own_tight_spot::BOAT_OWN_TIGHT_SPOT,
    &rules::cylinder_rolls_away::CYLINDER_ROLLS_AWAY,
    &rules::chock_too_low::CHOCK_TOO_LOW,
    &rules::cylinder_slides_along::CYLINDER_SLIDES_ALONG,
    &rules::tier_leaves_groove::TIER_LEAVES_GROOVE,
    &rules::valve_unprotected::VALVE_UNPROTECTED,
    &rules::valve_points_into_walkway::VALVE_POINTS_INTO_WALKWAY,
];

/// The check with this code.
pub fn find(code: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.code == code)
}

/// Everything to put right in the trip, all parts of the day: by signal word, then family and code, what it is
/// about, and the part's place in the day. The numbers stay in the assessor.
pub fn run(assessor: &mut Assessor, plan: &Plan, trip: &Trip) -> Vec<Finding> {
    assessor.assess(plan, trip);
    let mut findings = Vec::new();
    each_context(assessor, plan, trip, |ctx| findings.extend(of_part(ctx)));
    for finding in &mut findings {
        finding.taken_on = taken_on(trip, finding);
    }
    // Stable, so that within a rule and its things the parts stay in the order of the day.
    findings.sort_by(|a, b| {
        let order = b.signal.cmp(&a.signal);
        order
            .then_with(|| order_of(a.code).cmp(&order_of(b.code)))
            .then_with(|| a.about.cmp(&b.about))
    });
    findings
}

/// What the rules find in one part of the day, the gravest first.
fn of_part(ctx: &CheckContext<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    for check in ALL {
        (check.run)(ctx, &mut findings);
    }
    findings.sort_by(|a: &Finding, b: &Finding| {
        let order = b.signal.cmp(&a.signal).then_with(|| a.code.cmp(b.code));
        order
            .then_with(|| a.about.cmp(&b.about))
            .then_with(|| a.sentence.cmp(&b.sentence))
    });
    findings
}

/// The families of rules in the order in which they are put right: what stands unsecured first, what
/// follows from it after.
const FAMILIES: &str = "UTRLYWFPEN";

/// Within a signal word, what comes first: by family, then by code.
fn order_of(code: &'static str) -> (usize, &'static str) {
    let letter = code.bytes().next();
    let family = FAMILIES.bytes().position(|family| Some(family) == letter);
    (family.unwrap_or(FAMILIES.len()), code)
}

/// Calls a function with each part of the day, from the last assessment.
fn each_context(
    assessor: &Assessor,
    plan: &Plan,
    trip: &Trip,
    mut with: impl FnMut(&CheckContext<'_>),
) {
    let parts = trip
        .parts
        .iter()
        .zip(assessor.days())
        .zip(assessor.scenes());
    let parts = parts.zip(&assessor.assessment().parts).enumerate();
    for (part_index, (((part, day), scene), numbers)) in parts {
        let index = Index::new(day, numbers);
        with(&CheckContext {
            plan,
            trip,
            part_index,
            part,
            day,
            days: assessor.days(),
            scene,
            numbers,
            index: &index,
        });
    }
}

/// Who took this finding on: the rule, everything it is about and the part must agree.
fn taken_on(trip: &Trip, finding: &Finding) -> Option<TakenOn> {
    if trip.taken_on.is_empty() {
        return None;
    }
    let about: Vec<&str> = finding.about.iter().map(|item| item.id.as_str()).collect();
    let fits = |taken: &&TakenOn| {
        let part = taken.part.as_ref();
        taken.code == finding.code
            && part.is_none_or(|part| *part == finding.part)
            && taken.about.len() == about.len()
            && taken.about.iter().all(|id| about.contains(&id.as_str()))
    };
    trip.taken_on.iter().find(fits).cloned()
}

#[cfg(test)]
mod tests;
