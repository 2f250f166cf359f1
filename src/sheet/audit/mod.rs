//! The report of an audit on paper: what was planned, what was found, what it took, what would have held.
//!
//! Plain black on white in the same style as the crew's sheet. Everything that is said stands in the audit
//! already; here it is only set. The signatures are by role, and the comments of the operator stand behind
//! them as an annex, as they are.

mod answers;
mod fall;
mod plan;
mod report;
mod setting;
mod tables;
mod timeline;

pub use self::fall::picture as fall_picture;
pub use self::plan::picture as plan_picture;
pub use self::report::pages;
pub use self::timeline::plot as roll_plot;

use super::Paper;
use crate::audit::Audit;

/// How the report is printed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Options {
    /// On what.
    pub paper: Paper,

    /// The recorded roll, `[seconds, degrees]`, already thinned for a plot; empty without a log.
    pub roll: Vec<[f64; 2]>,

    /// What was replayed, in sentences; empty without a log.
    pub replay: Vec<String>,
}

/// The title of the document.
pub fn title(audit: &Audit) -> String {
    format!("Audit of a stowage – {}, {}", audit.boat, audit.title)
}

const TITLE_PT: f64 = 15.0;
const HEADING_PT: f64 = 11.0;
const PART_PT: f64 = 9.5;
const TEXT_PT: f64 = 9.5;
const LIST_PT: f64 = 8.0;
const SMALL_PT: f64 = 7.0;

#[cfg(test)]
mod tests;
