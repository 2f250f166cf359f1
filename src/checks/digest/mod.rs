//! What a crew reads: findings folded into lines, and above them one sentence for each part of the day.
//!
//! [`Digest::of`] is cheap enough for every frame of a drag. [`Digest::fill_cures`] tries cures on copies
//! of the plan, which takes as long as checking the plan some dozens of times; it is asked for when
//! somebody wants to read them.

mod headline;
mod line;
mod not_known;
mod shares;
mod when;

pub use self::headline::{PartDigest, first_to_go};
pub(super) use self::headline::{first_to_go_but, good_to, height, only_if};
pub use self::line::Line;
pub use self::not_known::{NotKnown, ToFindOut};
pub use self::when::when;

use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

use super::check::{Finding, Signal};
use super::cures::Clinic;
pub use super::cures::{BestCure, Raising};
use crate::engine::numbers::Assessment;
use crate::layout::{Plan, Trip};

/// How many cures stand in a headline.
pub const MOST_BEST: usize = 3;

/// The findings of a trip as a crew reads them.
#[derive(Clone, Debug, Default, Serialize, JsonSchema)]
pub struct Digest {
    /// One sentence for each part of the day, in the order of the day.
    pub parts: Vec<PartDigest>,

    /// What is to be put right, the gravest first. What was taken on stands last.
    pub lines: Vec<Line>,
}

impl Digest {
    /// Folds the findings of a trip of this plan.
    pub fn of(plan: &Plan, trip: &Trip, findings: &[Finding], assessment: &Assessment) -> Self {
        let lines = line::fold(trip, findings, |_| true);
        let parts = trip
            .parts
            .iter()
            .zip(&assessment.parts)
            .map(|(part, numbers)| PartDigest::of((plan, trip), part, numbers, &lines))
            .collect();
        Self { parts, lines }
    }

    /// The lines alone, of one part of the day or of all, for who shows what is being dragged. Their findings
    /// keep their places in the list.
    pub fn lines_of(trip: &Trip, findings: &[Finding], part: Option<&str>) -> Vec<Line> {
        line::fold(trip, findings, |finding| {
            part.is_none_or(|part| finding.part == part)
        })
    }

    /// The signal words of those of its lines that are not taken on: as many as [`Self::lines_of`] has, found
    /// without making them.
    pub fn signals_of(findings: &[Finding], part: Option<&str>) -> impl Iterator<Item = Signal> {
        line::signals(findings, move |finding| {
            part.is_none_or(|part| finding.part == part)
        })
    }

    /// Tries cures for every line, and for each part of the day the cures that raise the limit most.
    pub fn fill_cures(&mut self, plan: &Plan, trip: &Trip, findings: &[Finding]) {
        if self.lines.is_empty() {
            return;
        }
        let clinic = Clinic::new(plan, trip, findings);
        self.lines.par_iter_mut().for_each_init(
            || clinic.beside(),
            |clinic, line| line.fill_cure(clinic, findings),
        );
        self.parts
            .par_iter_mut()
            .for_each_init(|| clinic.beside(), |clinic, part| part.fill(clinic));
    }

    /// Tries, for each part of the day, the cures that raise the limit most, and nothing else.
    pub fn fill_best(&mut self, plan: &Plan, trip: &Trip, findings: &[Finding]) {
        let clinic = Clinic::new(plan, trip, findings);
        self.parts
            .par_iter_mut()
            .for_each_init(|| clinic.beside(), |clinic, part| part.fill(clinic));
    }

    /// How many lines there are of this signal word, taken-on ones not counted.
    pub fn count(&self, signal: Signal) -> usize {
        let counted = self.lines.iter().filter(|line| line.taken_on.is_none());
        counted.filter(|line| line.signal == signal).count()
    }

    /// The gravest signal word of what is not taken on.
    pub fn gravest(&self) -> Option<Signal> {
        let counted = self.lines.iter().filter(|line| line.taken_on.is_none());
        counted.map(|line| line.signal).max()
    }
}

#[cfg(test)]
mod tests;
