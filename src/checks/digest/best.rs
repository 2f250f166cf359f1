//! The cures that raise the limit of a part of the day most, one after the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::headline::{first_to_go, good_to};
use crate::checks::check::{Cure, Finding, Signal};
use crate::checks::cures::Clinic;
use crate::checks::run;
use crate::engine::Assessor;
use crate::layout::{Plan, Trip};

/// How many cures stand in a headline.
const MOST: usize = 3;

/// One of the cures that raise the limit most.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct BestCure {
    /// The cure.
    pub cure: Cure,

    /// How far the stowage is good after it and those before it.
    pub sentence: String,
}

/// Cures whoever goes first, then whoever goes first after that, and so on.
pub(super) fn best_cures(
    plan: &Plan,
    trip: &Trip,
    findings: &[Finding],
    part: &str,
) -> Vec<BestCure> {
    let mut plan = plan.clone();
    let mut findings = findings.to_vec();
    let mut assessor = Assessor::default();
    let mut cures = Vec::new();
    while cures.len() < MOST {
        let Some((cure, after)) = next_cure(&mut assessor, &plan, &trip.id, &findings, part) else {
            break;
        };
        plan = after;
        let Some(trip) = plan.trip(&trip.id) else {
            break;
        };
        findings = run(&mut assessor, &plan, trip);
        let numbers = assessor
            .assessment()
            .parts
            .iter()
            .find(|item| item.part == part);
        let first = numbers.and_then(|numbers| Some((first_to_go(numbers)?, numbers)));
        let sentence = first.map_or_else(String::new, |(first, numbers)| {
            good_to(&first.cylinder, &first.limit, &numbers.motion)
        });
        cures.push(BestCure { cure, sentence });
    }
    cures
}

/// The best cure of what goes first in this part, with the plan after it.
fn next_cure(
    assessor: &mut Assessor,
    plan: &Plan,
    trip: &str,
    findings: &[Finding],
    part: &str,
) -> Option<(Cure, Plan)> {
    let parts = &assessor.assess(plan, plan.trip(trip)?).parts;
    let numbers = parts.iter().find(|item| item.part == part)?;
    let first = first_to_go(numbers)?.cylinder.clone();
    let mut about: Vec<&Finding> = findings
        .iter()
        .filter(|finding| finding.part == part && finding.signal > Signal::Notice)
        .filter(|finding| finding.about.iter().any(|subject| subject.id == first))
        // Where it falls is not why it goes.
        .filter(|finding| !finding.code.starts_with('F'))
        .collect();
    about.sort_by(|a, b| b.signal.cmp(&a.signal).then_with(|| a.code.cmp(b.code)));
    let mut clinic = Clinic::new(plan, trip, findings);
    for finding in about {
        let cured = clinic.cures(finding).into_iter().next();
        let Some(cure) = cured else { continue };
        let mut after = plan.clone();
        if cure.edits.iter().all(|edit| after.apply(edit).is_ok()) {
            return Some((cure, after));
        }
    }
    None
}
