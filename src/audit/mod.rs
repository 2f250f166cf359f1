//! After something went wrong: how the stowage was found, held against how it was planned.
//!
//! Both sides are read for one part of the day and made into a plan of that moment alone; what differs is
//! told thing by thing, each with what that one difference does to the limit of the cylinders it touches.
//! Nothing here says who is to blame.

mod compare;
pub mod fleet;
mod moment;
mod reach;
pub mod replay;
pub mod uncertainty;

pub use self::compare::{Comparison, Difference, DifferenceKind, LimitChange, compare};
pub use self::moment::{Moment, MomentError};
pub use self::reach::{Arrival, Candidate, reach};
