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
pub use self::timeline::{margins_plot, plot as roll_plot};

use crate::audit::Audit;

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
