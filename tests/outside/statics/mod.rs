//! Small decks against hand calculation: what goes by statics must be told, and what nobody knows must
//! not pass.
//!
//! Each test names its balance, or the rule of common practice that it holds the program to.

#![expect(clippy::doc_markdown, reason = "formulas in plain text")]

mod lashed;
mod lying;
mod racked;
mod standing;
mod unknown;

use snugdown::checks::{self, Finding, Signal, fixture};
use snugdown::engine::Assessor;
use snugdown::engine::numbers::{CylinderNumbers, PartNumbers, Way};

const G: f64 = 9.80665;

/// Findings and numbers of the last part of a tiny deck.
#[track_caller]
fn judged(text: &str) -> (Vec<Finding>, PartNumbers) {
    let plan = match fixture::plan(text) {
        Ok(plan) => plan,
        Err(trouble) => panic!("{trouble}"),
    };
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, &plan, &plan.trips[0]);
    let part = assessor.assessment().parts.last().unwrap().clone();
    let of_part = findings.into_iter().filter(|item| item.part == part.part);
    (of_part.collect(), part)
}

#[track_caller]
fn cylinder(text: &str, id: &str) -> CylinderNumbers {
    let (_, part) = judged(text);
    let found = part.cylinders.iter().find(|item| item.cylinder == id);
    found.unwrap().clone()
}

fn used(cylinder: &CylinderNumbers, way: Way) -> f64 {
    let item = cylinder.utilisation(way).unwrap();
    item.value.unwrap_or(f64::INFINITY)
}

/// The worst of all ways.
fn worst(cylinder: &CylinderNumbers) -> f64 {
    let values = cylinder.utilisations.iter();
    values
        .map(|item| item.value.unwrap_or(f64::INFINITY))
        .fold(0.0, f64::max)
}

fn listed(findings: &[Finding]) -> String {
    let lines = findings.iter().map(|item| {
        let about: Vec<&str> = item.about.iter().map(|about| about.id.as_str()).collect();
        format!("{} {} {about:?} {}", item.signal, item.code, item.sentence)
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// Is something told with at least this signal word, one of these codes, about this thing?
#[track_caller]
fn told(text: &str, least: Signal, codes: &[&str], about: &str) {
    let (findings, _) = judged(text);
    let found = findings.iter().any(|item| {
        item.signal >= least
            && codes.contains(&item.code)
            && item.about.iter().any(|subject| subject.id == about)
    });
    assert!(
        found,
        "{text}\nexpected one of {codes:?} about {about}, found:\n{}",
        listed(&findings)
    );
}

/// Is it told that nobody knows something about this thing?
#[track_caller]
fn not_known(text: &str, about: &str) {
    let (findings, _) = judged(text);
    let found = findings
        .iter()
        .any(|item| item.not_known && item.about.iter().any(|subject| subject.id == about));
    assert!(
        found,
        "{text}\nnothing not known about {about}:\n{}",
        listed(&findings)
    );
}
