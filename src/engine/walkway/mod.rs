//! How wide the walkways are, where they are tight, and what lies in them.
//!
//! Three figures (docs, walkways): the clear width over any route with only what one cannot step
//! over as walls; the same with low things as walls too; and what lies in the drawn strip itself.
//! Each is held beside the figure of the empty boat, so that the stowage only answers for what it
//! takes away.
//!
//! [`WalkwayCache`] keeps the prepared walls of the empty boat while the boat is the same, those of the
//! stowage that stays while something is moved, and the figures of a deck while nothing on it changes.

mod ask;
mod cache;
mod ends;
mod intruders;
mod leg;
mod stowed;
mod tags;

pub(super) use self::cache::WalkwayCache;
pub(super) use self::leg::LashingLeg;
pub(super) use self::tags::lies_within;
use super::Scene;
use super::numbers::WalkwayNumbers;
use crate::geometry::{Strip, Vec2};
use crate::layout::{Boat, Walkway};

/// An aisle up to this length needs [`SHORT_WIDTH_M`]: 15 ft, 46 CFR 177.820(d).
const SHORT_LENGTH_M: f64 = 4.572;

/// The width of a short aisle, 46 CFR 177.820(d).
const SHORT_WIDTH_M: f64 = 0.61;

/// The width of a longer aisle, 46 CFR 177.820(d).
const LONG_WIDTH_M: f64 = 0.76;

/// Wider ways are not measured: two thirds more than the widest that is asked for unless a deck says
/// otherwise. Common practice, no source.
const WIDEST_M: f64 = 1.25;

/// Where a deck asks for more than [`WIDE_M`], at least this width is measured, and a quarter more than what is
/// asked for. Wider walls are walls to far more things, so that only such decks pay for it.
const WIDEST_OF_WIDE_M: f64 = 2.0;
const WIDER_SHARE: f64 = 1.25;
const WIDE_M: f64 = 1.1;

/// Up to which clear width a deck is measured whose widest walkway wants this one.
fn widest_m(most_wanted_m: f64) -> f64 {
    if most_wanted_m > WIDE_M {
        WIDEST_OF_WIDE_M.max(WIDER_SHARE * most_wanted_m)
    } else {
        WIDEST_M
    }
}

/// A clear width that differs by less is the same: a thousandth of what is measured.
const SAME_WIDTH_M: f64 = 1e-6;

/// The figures of every walkway in one part of the day, in the order of their names.
///
/// `part` is the part's place in the day; it only says where to look for what was computed before.
/// A walkway on a deck whose outline cannot be used is left out.
pub(super) fn walkways(
    boat: &Boat,
    scene: &Scene,
    legs: &[LashingLeg],
    part: usize,
    cache: &mut WalkwayCache,
) -> Vec<WalkwayNumbers> {
    cache.start(boat, scene.decks.len(), part);
    let mut all = Vec::with_capacity(boat.walkways.len());
    for (index, deck) in scene.decks.iter().enumerate() {
        if !boat
            .walkways
            .iter()
            .any(|walkway| walkway.deck == deck.deck)
        {
            continue;
        }
        let legs: Vec<&LashingLeg> = legs.iter().filter(|leg| leg.deck == deck.deck).collect();
        all.extend(cache.deck(boat, scene, index, &legs, part));
    }
    all.sort_by(|a, b| a.walkway.cmp(&b.walkway));
    all
}

/// The strip that is to be kept free for a walkway; `None` if its line is no line.
pub(super) fn strip_of(walkway: &Walkway) -> Option<Strip> {
    let line: Vec<Vec2> = walkway.line.iter().map(|p| Vec2::from(*p)).collect();
    let length_m = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
    Strip::new(line, wanted(walkway, length_m).0).ok()
}

/// The clear width wanted and where that comes from.
fn wanted(walkway: &Walkway, length_m: f64) -> (f64, String) {
    match walkway.clear_width_m {
        Some(width_m) => (width_m, "given for this walkway".to_owned()),
        None if length_m <= SHORT_LENGTH_M => (
            SHORT_WIDTH_M,
            "46 CFR 177.820(d), aisle up to 15 ft (4.572 m) long".to_owned(),
        ),
        None => (
            LONG_WIDTH_M,
            "46 CFR 177.820(d), aisle longer than 15 ft (4.572 m)".to_owned(),
        ),
    }
}

#[cfg(test)]
mod tests;
