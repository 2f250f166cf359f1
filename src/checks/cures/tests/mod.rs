//! Cures on tiny decks: what is proposed, what comes of it, and where nothing is.

mod clear;
mod hold;
mod lash;
mod lie;
mod together;
mod trials;

use crate::checks::cures::Clinic;
use crate::checks::{Cure, Finding, fixture, run};
use crate::engine::Assessor;
use crate::layout::Plan;

/// A tiny deck and everything to put right on it.
struct Case {
    plan: Plan,
    findings: Vec<Finding>,
}

impl Case {
    #[track_caller]
    fn new(text: &str) -> Self {
        match fixture::plan(text) {
            Ok(plan) => Self::of(plan),
            Err(trouble) => panic!("{trouble}"),
        }
    }

    fn of(plan: Plan) -> Self {
        let findings = run(&mut Assessor::default(), &plan, &plan.trips[0]);
        Self { plan, findings }
    }

    fn clinic(&self) -> Clinic<'_> {
        Clinic::new(&self.plan, &self.plan.trips[0], &self.findings)
    }

    /// The first finding of this rule about this thing.
    fn finding(&self, code: &str, about: &str) -> Option<&Finding> {
        let mut found = self.findings.iter();
        found.find(|finding| finding.code == code && finding.first() == about)
    }

    /// The cures of the finding of this rule about this thing.
    #[track_caller]
    fn cures(&self, code: &str, about: &str) -> Vec<Cure> {
        let Some(finding) = self.finding(code, about) else {
            panic!("no {code} about {about}: {:#?}", self.findings);
        };
        self.clinic().cures(finding)
    }

    /// The same deck with a cure done.
    #[track_caller]
    fn after(&self, cure: &Cure) -> Self {
        let plan = self.plan.with(&cure.edits).unwrap();
        Self::of(plan)
    }

    /// Expects a cure in these words, does it, and expects the finding to be gone as the cure says.
    #[track_caller]
    fn cured_by(&self, code: &str, about: &str, words: &str) -> Self {
        let cures = self.cures(code, about);
        let Some(cure) = cures.iter().find(|cure| cure.label.contains(words)) else {
            panic!("no cure says {words:?}: {cures:#?}");
        };
        assert!(cure.clears, "{cure:#?}");
        let after = self.after(cure);
        let left = after.finding(code, about);
        assert!(left.is_none(), "{} leaves {left:#?}", cure.label);
        after
    }

    /// Expects no cure to have these words in it.
    #[track_caller]
    fn not_cured_by(&self, code: &str, about: &str, words: &str) {
        let cures = self.cures(code, about);
        let none = !cures.iter().any(|cure| cure.label.contains(words));
        assert!(none, "{cures:#?}");
    }
}
