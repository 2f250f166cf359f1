//! Putting things right: what may be tried, and what of it was tried on a copy of the plan and found to
//! help.
//!
//! A rule names what may be tried (its `cures`, from `propose`); [`Clinic`] tries each on a copy, checks
//! the copy with the same rules, and says whether the finding is gone, what came instead, and how far the
//! stowage is good afterwards.

mod free_floor;
mod mat;
mod moves;
pub(in crate::checks) mod propose;
mod slots;
mod stores;
mod straps;

use std::collections::BTreeSet;

use super::check::{Cure, Finding, Proposal, Signal};
use super::run_parts;
use crate::engine::Assessor;
use crate::engine::numbers::LimitNumbers;
use crate::layout::{Edit, Id, Plan};

/// The most cures that are shown for one finding.
pub const MOST_CURES: usize = 3;

/// The most proposals that are tried for one finding.
const MOST_TRIED: usize = 6;

/// A limit that rises by less than this share of the motion is no better.
const CLEARLY_BETTER: f64 = 0.05;

/// Tries cures on copies of a plan. It keeps what the engine computed, so that each try costs what the
/// change costs.
#[derive(Debug)]
pub struct Clinic<'a> {
    plan: &'a Plan,
    trip: &'a str,
    before: &'a [Finding],
    assessor: Assessor,
}

/// What a try came to.
#[derive(Debug)]
struct Outcome {
    plan: Plan,
    findings: Vec<Finding>,
    cure: Cure,
    better: f64,
    grave: usize,
}

impl<'a> Clinic<'a> {
    /// For the findings of a trip. `before` are all of them.
    pub fn new(plan: &'a Plan, trip: &'a str, before: &'a [Finding]) -> Self {
        Self {
            plan,
            trip,
            before,
            assessor: Assessor::default(),
        }
    }

    /// The cures of one finding, best first; at most [`MOST_CURES`].
    pub fn cures(&mut self, finding: &Finding) -> Vec<Cure> {
        let proposals = proposals(&mut self.assessor, self.plan, self.trip, finding);
        let outcomes = self.tried(self.plan, self.before, finding, proposals);
        outcomes
            .into_iter()
            .take(MOST_CURES)
            .map(|outcome| outcome.cure)
            .collect()
    }

    /// One cure for all findings of a fold, by the best cure of each in turn, each on what the one before
    /// left; `None` if nothing helps the first.
    pub fn cure_together(&mut self, members: &[&Finding]) -> Option<Cure> {
        let mut plan = self.plan.clone();
        let mut findings = self.before.to_vec();
        let mut labels: Vec<String> = Vec::new();
        let mut edits: Vec<Edit> = Vec::new();
        let mut last: Option<Cure> = None;
        for member in members {
            let Some(member) = findings.iter().find(|item| is_same(item, member)).cloned() else {
                // An earlier one has cured this one too.
                continue;
            };
            let proposals = proposals(&mut self.assessor, &plan, self.trip, &member);
            let before = std::mem::take(&mut findings);
            let best = self
                .tried(&plan, &before, &member, proposals)
                .into_iter()
                .next();
            match best {
                Some(outcome) => {
                    plan = outcome.plan;
                    findings = outcome.findings;
                    labels.push(outcome.cure.label.clone());
                    edits.extend(outcome.cure.edits.iter().cloned());
                    last = Some(outcome.cure);
                }
                None => findings = before,
            }
        }
        let last = last?;
        let gone = members
            .iter()
            .all(|member| !findings.iter().any(|item| is_same(item, member)));
        Some(Cure {
            label: join_labels(&labels),
            edits,
            clears: gone,
            moves_trouble_to: new_trouble(self.before, &findings),
            ..last
        })
    }

    /// Every proposal that helps, tried, best first.
    fn tried(
        &mut self,
        plan: &Plan,
        before: &[Finding],
        finding: &Finding,
        proposals: Vec<Proposal>,
    ) -> Vec<Outcome> {
        let limit_before = self.limit(plan, &finding.part);
        let mut outcomes: Vec<Outcome> = proposals
            .into_iter()
            .take(MOST_TRIED)
            .filter_map(|proposal| {
                self.attempt(plan, before, finding, limit_before.as_ref(), proposal)
            })
            .collect();
        // Stable: of equal ones, what was proposed first stays first.
        outcomes.sort_by(|a, b| {
            let key = |outcome: &Outcome| (!outcome.cure.clears, outcome.grave);
            key(a).cmp(&key(b)).then(b.better.total_cmp(&a.better))
        });
        outcomes
    }

    /// Tries one proposal; `None` if it cannot be done or does not help.
    fn attempt(
        &mut self,
        plan: &Plan,
        before: &[Finding],
        finding: &Finding,
        limit_before: Option<&LimitNumbers>,
        proposal: Proposal,
    ) -> Option<Outcome> {
        let mut after = plan.clone();
        for edit in &proposal.edits {
            after.apply(edit).ok()?;
        }
        let trip = after.trip(self.trip)?;
        let findings = run_parts(&mut self.assessor, &after, trip);
        let same: Vec<&Finding> = findings
            .iter()
            .filter(|item| is_same(item, finding))
            .collect();
        let clears = same.is_empty();
        let lesser = same.iter().all(|item| item.signal < finding.signal);
        let moves_trouble_to = new_trouble(before, &findings);
        let grave = count_new(before, &findings, finding.signal);
        let limit = self.limit_now(&finding.part);
        let better = share(limit.as_ref()) - share(limit_before);
        let no_worse = better > -CLEARLY_BETTER;
        // What clears it may bring graver trouble elsewhere if the stowage is no worse for it: it is shown
        // with that trouble. What does not clear it must be clearly better and bring nothing as grave.
        let helps = clears && (grave == 0 || no_worse);
        let improves = grave == 0 && (better > CLEARLY_BETTER || (lesser && no_worse));
        if !helps && !improves {
            return None;
        }
        let cure = Cure {
            label: proposal.label,
            edits: proposal.edits,
            gear: proposal.gear,
            clears,
            moves_trouble_to,
            limit_share_after: limit.as_ref().and_then(|limit| limit.share),
            limit_roll_after_deg: limit.as_ref().and_then(|limit| limit.roll_deg),
        };
        Some(Outcome {
            plan: after,
            findings,
            cure,
            better,
            grave,
        })
    }

    /// How far the stowage is good in a part of the day.
    fn limit(&mut self, plan: &Plan, part: &str) -> Option<LimitNumbers> {
        let trip = plan.trip(self.trip)?;
        self.assessor.assess(plan, trip);
        self.limit_now(part)
    }

    /// The same for what was assessed last.
    fn limit_now(&self, part: &str) -> Option<LimitNumbers> {
        let parts = &self.assessor.assessment().parts;
        let part = parts.iter().find(|numbers| numbers.part == part)?;
        part.limit.first.clone()
    }
}

/// What the finding's rule would try, on this plan.
fn proposals(assessor: &mut Assessor, plan: &Plan, trip: &str, finding: &Finding) -> Vec<Proposal> {
    let (Some(trip), Some(check)) = (plan.trip(trip), super::find(finding.code)) else {
        return Vec::new();
    };
    assessor.assess(plan, trip);
    let mut proposals = Vec::new();
    super::with_context(assessor, plan, trip, &finding.part, |ctx| {
        proposals = (check.cures)(ctx, finding);
    });
    proposals
}

/// The share of the motion up to which the stowage is good; as far as is searched where it holds.
fn share(limit: Option<&LimitNumbers>) -> f64 {
    let share = limit.and_then(|limit| limit.share);
    share.unwrap_or(LimitNumbers::SEARCHED_SHARE)
}

/// Is it the same trouble: rule, things, part and whether it waits for what nobody knows?
fn is_same(a: &Finding, b: &Finding) -> bool {
    a.code == b.code
        && a.part == b.part
        && a.not_known == b.not_known
        && a.about.first() == b.about.first()
}

/// What is there that was not there before, as sentences in the order of the findings, each once.
fn new_trouble(before: &[Finding], after: &[Finding]) -> Vec<String> {
    let mut told: BTreeSet<&str> = BTreeSet::new();
    new_ones(before, after)
        .filter(|item| item.signal > Signal::Notice && told.insert(&item.sentence))
        .map(|item| item.sentence.clone())
        .collect()
}

/// How many new findings are as grave as this.
fn count_new(before: &[Finding], after: &[Finding], signal: Signal) -> usize {
    new_ones(before, after)
        .filter(|item| item.signal >= signal)
        .count()
}

fn new_ones<'f>(before: &[Finding], after: &'f [Finding]) -> impl Iterator<Item = &'f Finding> {
    let known: BTreeSet<(&str, Id, Vec<Id>)> = before.iter().map(key).collect();
    let new: Vec<&Finding> = after
        .iter()
        .filter(|item| !known.contains(&key(item)))
        .collect();
    new.into_iter()
}

fn key(finding: &Finding) -> (&str, Id, Vec<Id>) {
    let about = finding
        .about
        .iter()
        .take(1)
        .map(|subject| subject.id.clone());
    (finding.code, finding.part.clone(), about.collect())
}

/// Labels one after the other, the beginning that all share said once.
fn join_labels(labels: &[String]) -> String {
    labels.join("; ")
}
