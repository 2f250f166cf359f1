//! What the rules find in a stowage, those alone that rest on a published clause; and where published rules
//! do not agree with each other.

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use crate::catalogue::published::{Limit, Status, limit, limits};
use crate::checks::{self, Signal};
use crate::engine::Assessor;
use crate::layout::Placing;

/// A finding with the clauses that it rests on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CitedFinding {
    /// The rule's code.
    pub code: &'static str,

    /// How much it matters.
    pub signal: Signal,

    /// What, in one sentence.
    pub sentence: String,

    /// The clauses, each with edition and how well it is known.
    pub clauses: Vec<String>,
}

/// Published rules that do not agree.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Conflict {
    /// On what.
    pub about: &'static str,

    /// What each says, with its clause.
    pub rules: Vec<String>,
}

/// A text without commas and doubled spaces, for finding a clause in it.
fn plain(text: &str) -> String {
    let text = text.replace(',', " ");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The published limits whose clause stands in a source line.
fn cited(source: &str) -> Vec<&'static Limit> {
    let source = plain(source);
    let is_cited = |limit: &&'static Limit| {
        !matches!(limit.status, Status::CommonPractice | Status::Derived)
            && source.contains(&plain(limit.clause))
    };
    limits().filter(is_cited).collect()
}

/// What the rules find with a clause, gravest first; CAUTION and above.
pub(super) fn cited_findings(moment: &Moment) -> Vec<CitedFinding> {
    let Some(trip) = moment.trip() else {
        return Vec::new();
    };
    let findings = checks::run(&mut Assessor::default(), &moment.plan, trip);
    let mut told: Vec<CitedFinding> = Vec::new();
    for finding in findings.iter().filter(|it| it.signal >= Signal::Caution) {
        let mut clauses: Vec<String> = Vec::new();
        for limit in cited(&finding.source) {
            let citation = limit.citation();
            if !clauses.contains(&citation) {
                clauses.push(citation);
            }
        }
        if !clauses.is_empty() {
            told.push(CitedFinding {
                code: finding.code,
                signal: finding.signal,
                sentence: finding.sentence.to_string(),
                clauses,
            });
        }
    }
    told
}

/// Where published rules that touch this stowage do not agree: all of them are told.
pub(super) fn conflicts(moments: &[&Moment]) -> Vec<Conflict> {
    let any_lies = moments.iter().any(|moment| {
        let trip = moment.trip();
        let mut cylinders = trip.iter().flat_map(|trip| &trip.cylinders);
        cylinders.any(|cylinder| matches!(cylinder.placing, Placing::Lying { .. }))
    });
    let any_walkway = moments
        .iter()
        .any(|moment| !moment.plan.boat.walkways.is_empty());
    let mut told = Vec::new();
    let mut tell = |about, ids: &[&str]| {
        let rules = ids.iter().filter_map(|id| limit(id));
        told.push(Conflict {
            about,
            rules: rules
                .map(|limit| format!("{} [{}]", limit.says, limit.citation()))
                .collect(),
        });
    };
    if any_lies {
        tell(
            "may cylinders lie?",
            &["upright-only", "lying-tiers", "lying-allowed"],
        );
    }
    if any_walkway {
        tell(
            "how wide is a way to be?",
            &[
                "aisle-width-short",
                "escape-width",
                "aisle-width-long",
                "door-width",
                "accessible-width",
            ],
        );
    }
    told
}
