//! After something went wrong: how the stowage was found, held against how it was planned.
//!
//! Both sides are read for one part of the day and made into a plan of that moment alone; what differs is
//! told thing by thing, each with what that one difference does to the limit of the cylinders it touches.
//! A [`Case`] is made of a record with its files, an [`Audit`] of a case: what each cylinder needed to go,
//! who could have reached the marked spot, what would have held. Nothing here says who is to blame.

mod between;
mod case;
mod compare;
mod findings;
pub mod fleet;
mod held;
mod log_told;
mod moment;
mod needed;
mod over_time;
mod progress;
mod reach;
mod remedy;
pub mod replay;
mod result;
mod reverse;
mod sight;
mod summary;
mod trial;
pub mod uncertainty;

pub use self::between::{Between, Hinders};
pub use self::case::{Case, CaseError, Told};
pub use self::compare::{
    Comparison, Difference, DifferenceKind, DifferentThing, LimitChange, LimitUndone, compare,
};
pub use self::findings::{CitedFinding, Conflict};
pub use self::held::{EXHAUSTIVE, Held, Outcome, Tried};
pub use self::log_told::{LogAssumed, LogTold};
pub use self::moment::{Moment, MomentError};
pub use self::needed::{Beside, GoesWith, Needed, PlausibleRange};
pub use self::over_time::{HowSure, NearestToGoing, OverTime, WentAt};
pub use self::progress::Progress;
pub use self::reach::{Arrival, ReachRow, reach};
pub use self::remedy::MOST_REMEDIES;
pub use self::result::{
    AUDIT_CAUTIONS, AUDIT_VERSION, AccountAudit, Audit, Disputed, FoundRow, PROGRAM,
};
pub use self::reverse::{BesideRange, ReverseRow, WithRemedy};
pub use self::sight::{SeenLine, SeenThing, Sight, seen_things, sights};

#[cfg(test)]
mod tests;
