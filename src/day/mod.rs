//! The day as a whole: each part in a few figures, the work on deck that each part begins with, days laid out from
//! a pattern, and the deck secured for the night or opened for diving.
//!
//! Nothing here is judged anew: limits and what must be put right come from [`crate::checks`]. What is laid out or
//! secured is a list of [`Edit`](crate::layout::Edit)s that the front ends apply as one step.

mod before_or_after;
mod edits;
mod hands;
mod pattern;
mod secure;
mod spots;
mod strip;
mod turns;
mod work;

pub use self::pattern::{Draft, Pattern, lay_out};
pub use self::secure::{Deckwork, LimitThen, Purpose, secure};
pub use self::strip::{Away, Changed, CylinderCount, DayStrip, FirstToGo, PartCell, SignalCount};
pub use self::work::{DeckStep, PartWork, StepKind, Work};

#[cfg(test)]
mod tests;
