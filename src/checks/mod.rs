//! Rules from numbers to what must be put right: one rule, one file.
//!
//! A rule is one file in [`rules`]: its documentation, its code and its tests. To add one, write the
//! file, add its static to [`ALL`], and run `UPDATE_DOCS=1 cargo test`.

mod check;
pub mod rules;

pub use self::check::{Check, CheckContext, Cure, Finding, Measure, Proposal, Signal, Subject};

use crate::engine::Assessor;
use crate::layout::{Plan, Trip};

/// Every check, sorted by code.
pub static ALL: &[&Check] = &[];

/// The check with this code.
pub fn find(code: &str) -> Option<&'static Check> {
    ALL.iter().copied().find(|check| check.code == code)
}

/// Everything to put right in the trip, all parts of the day: by signal word, then part, code and
/// name. The numbers stay in the assessor.
pub fn run(assessor: &mut Assessor, plan: &Plan, trip: &Trip) -> Vec<Finding> {
    assessor.assess(plan, trip);
    let assessor = &*assessor;
    let mut findings = Vec::new();
    let parts = trip
        .parts
        .iter()
        .zip(assessor.days())
        .zip(assessor.scenes());
    let parts = parts.zip(&assessor.assessment().parts).enumerate();
    for (part_index, (((part, day), scene), numbers)) in parts {
        let ctx = CheckContext {
            plan,
            trip,
            part_index,
            part,
            day,
            scene,
            numbers,
        };
        for check in ALL {
            (check.run)(&ctx, &mut findings);
        }
    }
    findings.sort_by(|a, b| {
        let order = b.signal.cmp(&a.signal).then_with(|| a.code.cmp(b.code));
        order.then_with(|| a.about.cmp(&b.about))
    });
    findings
}
