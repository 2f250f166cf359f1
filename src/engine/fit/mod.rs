//! What does not fit where it is: in each other, off the deck, in the way of what must open or stay
//! clear, too near to heat, fuel or oil.
//!
//! People are left out: they move. A sieve of bounds finds the pairs worth a look, so that the time
//! grows with the number of things and not with that of their pairs.

mod clear;
mod distances;
mod grounds;
mod overlaps;
mod supports;

use self::grounds::Grounds;
use super::Scene;
use super::numbers::FitNumbers;
use crate::geometry::Shape;
use crate::layout::{Boat, Condition, DayState, Id};

/// Bodies that are nearer, or deeper in each other, by less than this touch: outlines are measured
/// with a tape to the millimetre, and each of two may be off by one.
pub(super) const TOUCHING_M: f64 = 0.002;

/// What decides whether things fit in one part of the day.
#[derive(Copy, Clone, Debug)]
pub(super) struct FitInput<'a> {
    /// The boat.
    pub(super) boat: &'a Boat,

    /// Everything as it is in this part.
    pub(super) day: &'a DayState,

    /// Where everything is.
    pub(super) scene: &'a Scene,

    /// What the boat is doing.
    pub(super) condition: Condition,

    /// The bare shells of the cylinders whose shape in the scene has soft kit on it, in the order of
    /// their names: kit may touch its neighbours and hang over an edge.
    pub(super) shells: &'a [(Id, Shape)],
}

/// Everything that does not fit, deck by deck, by kind, then by name.
pub(super) fn fits(input: FitInput<'_>) -> Vec<FitNumbers> {
    let mut all = Vec::new();
    for deck in &input.scene.decks {
        let grounds = Grounds::new(input, deck);
        let mut found = Vec::new();
        overlaps::find(&grounds, &mut found);
        supports::find(&grounds, &mut found);
        clear::find(&grounds, &mut found);
        distances::find(&grounds, &mut found);
        found.sort_by(|a, b| (a.kind, &a.things).cmp(&(b.kind, &b.things)));
        all.extend(found);
    }
    all
}

#[cfg(test)]
mod tests;
