//! What would have held: the plan as issued, each remedy alone, and the smallest set of them.
//!
//! A stowage held if every cylinder in question stays put through the wanted roll. Sets of up to
//! [`EXHAUSTIVE`] remedies are tried one and all; if none of them is enough, remedies are added one by one,
//! each time the one that raises the weakest most, and the report says that a smaller set may exist.

use std::fmt::Write as _;

use schemars::JsonSchema;
use serde::Serialize;

use super::needed::{GoesWith, Needed};
use super::remedy::{Remedy, with_all};
use super::trial::Trial;
use super::{Moment, Progress};
use crate::engine::numbers::{CylinderNumbers, LimitNumbers};
use crate::layout::Id;

/// Up to so many remedies together, every set is tried.
pub const EXHAUSTIVE: usize = 3;

/// What one stowage comes to for the cylinders in question.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Outcome {
    /// Does every cylinder in question hold through the wanted roll?
    pub holds: bool,

    /// The first of them to go; nothing where none is aboard.
    pub first: Option<Id>,

    /// What that one needs.
    pub needed: Option<Needed>,
}

impl Outcome {
    /// Who goes first: `P5 tips at 8.4° of roll`, or nobody as far as is searched.
    pub fn first_words(&self) -> String {
        match (&self.first, &self.needed) {
            (Some(_), Some(needed)) if needed.with == GoesWith::MoreThanSearched => {
                let deg = LimitNumbers::SEARCHED_ROLL_DEG;
                let unknown = if needed.if_unknowns_hold {
                    ", if what nobody knows holds"
                } else {
                    ""
                };
                format!("none of them up to {deg:.0}° of roll{unknown}")
            }
            (Some(first), Some(needed)) => format!("{first} {}", needed.words),
            _ => "none of them aboard".to_owned(),
        }
    }
}

/// A remedy or a set of them, with what it comes to.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Tried {
    /// What is done.
    pub labels: Vec<String>,

    /// What that comes to.
    pub outcome: Outcome,
}

/// What would have held, by one account.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Held {
    /// The roll that was to be held, in degrees to a tenth.
    pub wanted_roll_deg: f64,

    /// Where that comes from.
    pub wanted_from: String,

    /// The cylinders in question.
    pub cylinders: Vec<Id>,

    /// As found.
    pub as_found: Outcome,

    /// The plan as issued.
    pub as_planned: Outcome,

    /// Each remedy alone.
    pub singles: Vec<Tried>,

    /// The smallest set that would have held; nothing where none was found, or nothing was needed.
    pub smallest: Option<Tried>,

    /// How far was searched.
    pub searched: String,
}

/// What is asked of a stowage.
pub(super) struct Question<'a> {
    pub(super) planned: &'a Moment,
    pub(super) found: &'a Moment,
    pub(super) cylinders: &'a [Id],
    pub(super) wanted_roll_deg: f64,
    pub(super) wanted_from: &'a str,
    /// Remedies that there would be beyond those that are tried.
    pub(super) left_out: usize,
}

impl Question<'_> {
    pub(super) fn outcome(&self, cylinders: &[CylinderNumbers]) -> Outcome {
        let needed = self.cylinders.iter().filter_map(|id| {
            let aboard = cylinders.iter().any(|body| body.cylinder == *id);
            aboard.then(|| (id, Needed::of(cylinders, id)))
        });
        let first = needed.min_by(|(a, x), (b, y)| {
            let order = x.roll_or_end().total_cmp(&y.roll_or_end());
            order.then_with(|| a.cmp(b))
        });
        Outcome {
            holds: first
                .as_ref()
                .is_none_or(|(_, needed)| needed.holds_at(self.wanted_roll_deg)),
            first: first.as_ref().map(|(id, _)| (*id).clone()),
            needed: first.map(|(_, needed)| needed),
        }
    }

    fn tried(&self, trial: &mut Trial, remedies: &[&Remedy]) -> Option<Tried> {
        let after = with_all(self.planned, self.found, remedies)?;
        Some(Tried {
            labels: remedies.iter().map(|it| it.label.clone()).collect(),
            outcome: self.outcome(&trial.cylinders_of(&after)),
        })
    }
}

fn end(tried: &Tried) -> f64 {
    let needed = tried.outcome.needed.as_ref();
    needed.map_or(f64::INFINITY, Needed::roll_or_end)
}

/// Answers the question with the cylinders as planned and these remedies; `None` where it is given up.
pub(super) fn held(
    question: &Question<'_>,
    trial: &mut Trial,
    (planned, pool): (&[CylinderNumbers], &[Remedy]),
    progress: &mut Progress<'_>,
) -> Option<Held> {
    let found = trial
        .numbers()
        .map(|numbers| numbers.cylinders.clone())
        .unwrap_or_default();
    let as_found = question.outcome(&found);
    let mut singles: Vec<Tried> = Vec::new();
    for remedy in pool {
        singles.extend(question.tried(trial, &[remedy]));
    }
    let (smallest, mut searched) = if as_found.holds {
        (None, "As found it held; nothing was searched.".to_owned())
    } else {
        smallest(question, trial, (pool, &singles), progress)?
    };
    if question.left_out > 0 && !as_found.holds {
        let count = question.left_out;
        write!(searched, " {count} more were not tried.").ok();
    }
    Some(Held {
        wanted_roll_deg: question.wanted_roll_deg,
        wanted_from: question.wanted_from.to_owned(),
        cylinders: question.cylinders.to_vec(),
        as_planned: question.outcome(planned),
        as_found,
        singles,
        smallest,
        searched,
    })
}

/// The smallest set that holds, with how far was searched.
fn smallest(
    question: &Question<'_>,
    trial: &mut Trial,
    (pool, singles): (&[Remedy], &[Tried]),
    progress: &mut Progress<'_>,
) -> Option<(Option<Tried>, String)> {
    let count = pool.len();
    let all: usize = (1..=EXHAUSTIVE.min(count))
        .map(|size| sets(count, size).len())
        .sum();
    let mut tried = 0_usize;
    for size in 1..=EXHAUSTIVE.min(count) {
        let mut best: Option<Tried> = None;
        if size == 1 {
            tried += singles.len();
            for single in singles.iter().filter(|single| single.outcome.holds) {
                if best.as_ref().is_none_or(|old| end(single) > end(old)) {
                    best = Some(single.clone());
                }
            }
        } else {
            for set in sets(count, size) {
                let remedies: Vec<&Remedy> = set.iter().map(|index| &pool[*index]).collect();
                tried += 1;
                progress.at(tried as f64 / all.max(1) as f64)?;
                let Some(result) = question.tried(trial, &remedies) else {
                    continue;
                };
                let better = best.as_ref().is_none_or(|old| end(&result) > end(old));
                if result.outcome.holds && better {
                    best = Some(result);
                }
            }
        }
        if best.is_some() {
            let remedies = if count == 1 { "remedy" } else { "remedies" };
            return Some((
                best,
                format!(
                    "Every set of up to {size} out of {count} {remedies} was tried, {tried} in all: none \
                     smaller holds, and of this size none holds more."
                ),
            ));
        }
    }
    let greedy = one_by_one(question, trial, pool);
    let words = format!(
        "Every set of up to {} out of {count} remedies was tried, {tried} in all: none holds. Beyond that \
         remedies were added one by one, each time the one that raises the weakest most{}",
        EXHAUSTIVE.min(count),
        if greedy.is_some() {
            "; a smaller set may exist."
        } else {
            "; that did not hold either."
        }
    );
    Some((greedy, words))
}

fn one_by_one(question: &Question<'_>, trial: &mut Trial, pool: &[Remedy]) -> Option<Tried> {
    let mut chosen: Vec<&Remedy> = Vec::new();
    while chosen.len() < pool.len() {
        let mut best: Option<(&Remedy, Tried)> = None;
        for remedy in pool {
            if chosen.iter().any(|old| old.label == remedy.label) {
                continue;
            }
            let mut set = chosen.clone();
            set.push(remedy);
            let Some(result) = question.tried(trial, &set) else {
                continue;
            };
            if best.as_ref().is_none_or(|(_, old)| end(&result) > end(old)) {
                best = Some((remedy, result));
            }
        }
        let (remedy, result) = best?;
        if result.outcome.holds {
            return Some(result);
        }
        chosen.push(remedy);
    }
    None
}

/// All ways to choose so many out of `count`, in order.
pub(super) fn sets(count: usize, size: usize) -> Vec<Vec<usize>> {
    fn grow(
        from: usize,
        count: usize,
        size: usize,
        set: &mut Vec<usize>,
        all: &mut Vec<Vec<usize>>,
    ) {
        if set.len() == size {
            all.push(set.clone());
            return;
        }
        for next in from..count {
            set.push(next);
            grow(next + 1, count, size, set, all);
            set.pop();
        }
    }
    let mut all = Vec::new();
    grow(0, count, size, &mut Vec::new(), &mut all);
    all
}

#[cfg(test)]
mod tests;
