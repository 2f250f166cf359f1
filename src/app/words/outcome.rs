//! What is told of a cylinder's hold: under the cursor, on the card, on the plan.

use crate::engine::numbers::{Stance, Way};

/// How it is held, as the beginning of a sentence in small letters.
pub(crate) fn stance(stance: Stance) -> &'static str {
    match stance {
        Stance::StandsFree => "stands free",
        Stance::Backed => "stands against its backing",
        Stance::InRack => "in its rack",
        Stance::Lashed => "lashed",
        Stance::HeldByHand => "held by hand",
        Stance::OnWhip => "on the filling whip",
        Stance::UpsideDown => "upside down in its cage",
        Stance::Hanging => "hanging",
        Stance::Lying => "lying",
        Stance::InCradle => "lying in its cradle",
        Stance::InCrate => "loose in its crate",
        Stance::OnDiver => "on a diver's back",
    }
}

/// The way in which it goes.
pub(crate) fn way(way: Way) -> &'static str {
    match way {
        Way::Tips => "tips",
        Way::Slides => "slides",
        Way::Lifts => "lifts out",
        Way::FootKicksOut => "its foot kicks out",
        Way::RackGives => "its rack gives",
        Way::LashingGives => "its lashing gives",
        Way::RollsAway => "rolls away",
        Way::SlidesAlong => "slides along",
        Way::LeavesGroove => "leaves its groove",
    }
}

/// "slot P6".
pub(crate) fn slot(name: &str) -> String {
    format!("slot {name}")
}

/// "stands free: goes at 8°".
pub(crate) fn told(place: &str, outcome: &str) -> String {
    format!("{place}: {outcome}")
}

/// "goes at 8°".
pub(crate) fn goes_at(deg: &str) -> String {
    format!("goes at {deg}")
}

/// "goes at 70 % of this motion".
pub(crate) fn goes_at_share(percent: &str) -> String {
    format!("goes at {percent} of this motion")
}

/// "unsecured, goes at 17°".
pub(crate) fn unsecured(outcome: &str) -> String {
    format!("unsecured, {outcome}")
}

/// "holds with 40 % to spare".
pub(crate) fn holds_with(percent: &str) -> String {
    format!("holds with {percent} to spare")
}

/// "holds up to 17°".
pub(crate) fn holds_up_to(deg: &str) -> String {
    format!("holds up to {deg}")
}

/// Followed by what must be found out.
pub(crate) fn if_it_holds(outcome: &str) -> String {
    format!("{outcome}, if what is not known holds")
}

pub(crate) const GOES_AT_REST: &str = "does not stay even at rest";
pub(crate) const GOES_WITHOUT_ROLL: &str = "goes without any roll, from pitch or pushes alone";
pub(crate) const HOLDS_ALL: &str = "holds as far as is searched";
pub(crate) const NOT_ON_DECK: &str = "not on deck in this part of the day";
pub(crate) const NOTHING_STOWED: &str = "nothing is stowed";
