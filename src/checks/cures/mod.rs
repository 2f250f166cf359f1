//! Putting things right: what may be tried, and what of it was tried on a copy of the plan and found to
//! help.
//!
//! A rule names what may be tried (its `cures`, from `propose`); [`Clinic`] tries each on a copy, checks
//! the copy with the same rules, and says whether the finding is gone, what came instead, and how far the
//! stowage is good afterwards.

mod best;
mod free_floor;
mod mat;
mod moves;
pub(in crate::checks) mod propose;
mod slots;
mod stores;
mod straps;
mod trial;

pub use self::best::{BestCure, Raising};

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use self::trial::{Attempt, Course, Ground, Mark, PartView};
use super::check::{Cure, Finding, Proposal, Signal};
use super::{CheckContext, order_of};
use crate::engine::Assessor;
use crate::engine::numbers::LimitNumbers;
use crate::layout::{Id, Plan, Trip};
use crate::units::Said;

/// The most cures that are shown for one finding.
pub const MOST_CURES: usize = 3;

/// The most proposals that are tried for one finding.
const MOST_TRIED: usize = 8;

/// The most findings of a fold that are cured one by one.
const MOST_STEPS: usize = 12;

/// A limit that rises by less than this share of the motion is no better.
const CLEARLY_BETTER: f64 = 0.05;

/// Tries cures on copies of a plan. It keeps what the engine computed and what was tried before, so that
/// each try costs what the change costs, and the same try costs nothing.
#[derive(Debug)]
pub struct Clinic<'a> {
    ground: Arc<Ground<'a>>,
    assessor: Assessor,
}

/// What a try came to.
#[derive(Debug)]
struct Outcome {
    course: Course,
    cure: Cure,
}

/// A try that helps in its own part of the day.
#[derive(Debug)]
struct Candidate<'g, 'a> {
    attempt: Attempt<'g, 'a>,
    proposal: Proposal,
    own: Arc<PartView>,
    effect: Effect,
    /// The new findings of its own part, or, once known, of the whole day.
    new: Vec<Mark>,
    /// Is the whole day known?
    is_whole: bool,
}

/// How far is searched among the proposals.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Search {
    /// All of them.
    All,
    /// Up to the first that none of the others can be better than.
    Best,
    /// Up to the first that leaves nothing to be wished.
    Good,
}

impl<'a> Clinic<'a> {
    /// For the findings of a trip. `before` are all of them.
    pub fn new(plan: &'a Plan, trip: &'a Trip, before: &'a [Finding]) -> Self {
        let mut assessor = Assessor::default();
        let ground = Arc::new(Ground::new(&mut assessor, plan, trip, before));
        Self { ground, assessor }
    }

    /// Another one for the same findings, for another thread; what one has tried the other knows.
    #[must_use]
    pub fn beside(&self) -> Self {
        Self {
            ground: Arc::clone(&self.ground),
            assessor: self.assessor.clone(),
        }
    }

    /// The cures of one finding, best first; at most [`MOST_CURES`].
    pub fn cures(&mut self, finding: &Finding) -> Vec<Cure> {
        let start = self.ground.start.clone();
        let proposals = self.inspect(&start, &finding.part, |ctx, _| proposals(ctx, finding));
        let outcomes = self.tried(&start, finding, proposals.unwrap_or_default(), Search::All);
        outcomes
            .into_iter()
            .take(MOST_CURES)
            .map(|outcome| outcome.cure)
            .collect()
    }

    /// One cure for all findings of a fold: the best cure of the first, then for each that is left a good
    /// one on what those before it left; `None` if nothing helps any of them.
    pub fn cure_together(&mut self, members: &[&Finding]) -> Option<Cure> {
        let first = members.first()?;
        let mut course = self.ground.start.clone();
        let mut done: Vec<Cure> = Vec::new();
        let mut steps = 0;
        for member in members {
            if steps == MOST_STEPS {
                break;
            }
            let view = self.part_of(&course, &member.part)?;
            if !stands(&view, member) {
                // An earlier one has cured this one too.
                continue;
            }
            let search = if steps == 0 {
                Search::Best
            } else {
                Search::Good
            };
            steps += 1;
            let now = self.inspect(&course, &member.part, |ctx, findings| {
                let now = findings.iter().find(|now| is_same_finding(now, member))?;
                Some((Finding::clone(now), proposals(ctx, now)))
            });
            let Some((now, proposals)) = now.flatten() else {
                continue;
            };
            let outcomes = self.tried(&course, &now, proposals, search);
            if let Some(outcome) = outcomes.into_iter().next() {
                course = outcome.course;
                done.push(outcome.cure);
            }
        }
        if done.is_empty() {
            return None;
        }
        let ground = Arc::clone(&self.ground);
        let before = ground.resume(&ground.start).whole(&mut self.assessor);
        let after = ground.resume(&course).whole(&mut self.assessor);
        let new: Vec<Mark> = all_new(&before, &after).cloned().collect();
        let limit = &after.iter().find(|view| view.part == first.part)?.limit;
        let left = |member: &Finding| {
            let mut views = after.iter().filter(|view| view.part == member.part);
            views.any(|view| stands(view, member))
        };
        Some(Cure {
            label: join_labels(&done),
            edits: done.iter().flat_map(|cure| cure.edits.clone()).collect(),
            gear: one_gear(&done),
            clears: !members.iter().any(|member| left(member)),
            moves_trouble_to: sentences(&new),
            limit_share_after: limit.as_ref().and_then(|limit| limit.share),
            limit_roll_after_deg: limit.as_ref().and_then(|limit| limit.roll_deg),
        })
    }

    /// Looks at one part of the day on this course, and at what the rules find in it.
    fn inspect<T>(
        &mut self,
        course: &Course,
        part: &str,
        look: impl FnOnce(&CheckContext<'_>, &[&Finding]) -> T,
    ) -> Option<T> {
        self.ground.inspect(&mut self.assessor, course, part, look)
    }

    fn part_of(&mut self, course: &Course, part: &str) -> Option<Arc<PartView>> {
        let ground = Arc::clone(&self.ground);
        ground.resume(course).part(&mut self.assessor, part)
    }

    /// The proposals that help, tried: all of them, best first; or the best; or the first good one.
    fn tried(
        &mut self,
        course: &Course,
        finding: &Finding,
        proposals: Vec<Proposal>,
        search: Search,
    ) -> Vec<Outcome> {
        let ground = Arc::clone(&self.ground);
        let Some(before) = self.part_of(course, &finding.part) else {
            return Vec::new();
        };
        let mut candidates: Vec<Candidate<'_, '_>> = Vec::new();
        for proposal in proposals.into_iter().take(MOST_TRIED) {
            let edits = [course.edits.as_slice(), &proposal.edits].concat();
            let Some(attempt) = ground.attempt(&self.assessor, edits) else {
                continue;
            };
            let candidate = self.candidate(attempt, &before, finding, proposal);
            let Some(mut candidate) = candidate else {
                continue;
            };
            let good = candidate.effect.clears
                && candidate.effect.better > -CLEARLY_BETTER
                && sentences(&candidate.new).is_empty();
            if search == Search::Good && good {
                return vec![candidate.outcome()];
            }
            if search == Search::Best && good && candidate.is_ceiling(finding) {
                self.see_whole(&mut candidate, course);
                if sentences(&candidate.new).is_empty() {
                    return vec![candidate.outcome()];
                }
            }
            candidates.push(candidate);
        }
        self.ranked(course, finding, candidates, search)
    }

    /// The candidates that help over the whole day, best first; of [`Search::All`] all, else the best alone.
    fn ranked<'g, 'b>(
        &mut self,
        course: &Course,
        finding: &Finding,
        mut candidates: Vec<Candidate<'g, 'b>>,
        search: Search,
    ) -> Vec<Outcome> {
        let mut outcomes = Vec::new();
        loop {
            // Of equal ones, what was proposed first. A candidate can only get worse by what it brings about in
            // other parts of the day, so that one that is known and still first is the best.
            let order = |a: &Candidate<'g, 'b>, b: &Candidate<'g, 'b>| {
                let key = |item: &Candidate<'g, 'b>| (!item.effect.clears, item.grave(finding));
                let order = key(a).cmp(&key(b));
                order.then(b.effect.better.total_cmp(&a.effect.better))
            };
            let places = 0..candidates.len();
            let Some(best) = places.min_by(|a, b| order(&candidates[*a], &candidates[*b])) else {
                return outcomes;
            };
            if !candidates[best].is_whole {
                self.see_whole(&mut candidates[best], course);
                let candidate = &candidates[best];
                if !candidate.effect.helps(candidate.grave(finding)) {
                    candidates.remove(best);
                }
                continue;
            }
            outcomes.push(candidates.remove(best).outcome());
            if search != Search::All {
                return outcomes;
            }
        }
    }

    /// Tries one proposal in its own part of the day; `None` if it does not help there.
    fn candidate<'g, 'b>(
        &mut self,
        mut attempt: Attempt<'g, 'b>,
        before: &PartView,
        finding: &Finding,
        proposal: Proposal,
    ) -> Option<Candidate<'g, 'b>> {
        let first_look = attempt.first_look(&mut self.assessor, finding.code, &finding.part);
        let hopeless = |look: PartView| !Effect::of(&look, before, finding).helps(0);
        if first_look.is_some_and(hopeless) {
            return None;
        }
        let own = attempt.part(&mut self.assessor, &finding.part)?;
        let candidate = Candidate {
            effect: Effect::of(&own, before, finding),
            new: new_marks(before, &own).cloned().collect(),
            is_whole: false,
            attempt,
            proposal,
            own,
        };
        let helps = candidate.effect.helps(candidate.grave(finding));
        helps.then_some(candidate)
    }

    /// Looks at the other parts of the day too.
    fn see_whole(&mut self, candidate: &mut Candidate<'_, '_>, course: &Course) {
        let ground = Arc::clone(&self.ground);
        let before = ground.resume(course).whole(&mut self.assessor);
        let after = candidate.attempt.whole(&mut self.assessor);
        candidate.new = all_new(&before, &after).cloned().collect();
        candidate.is_whole = true;
    }
}

impl Candidate<'_, '_> {
    /// How many of the new findings are as grave as the one that is to be cured.
    fn grave(&self, finding: &Finding) -> usize {
        let grave = self.new.iter().filter(|mark| mark.signal >= finding.signal);
        grave.count()
    }

    /// Does another cylinder go first now, or none, so that no cure of this one raises the limit further?
    fn is_ceiling(&self, finding: &Finding) -> bool {
        let holds = self
            .own
            .limit
            .as_ref()
            .is_none_or(|limit| limit.share.is_none());
        let mut about = finding.about.iter();
        holds || !about.any(|subject| Some(&subject.id) == self.own.first.as_ref())
    }

    fn outcome(self) -> Outcome {
        let limit = self.own.limit.as_ref();
        Outcome {
            cure: Cure {
                label: self.proposal.label,
                edits: self.proposal.edits,
                gear: self.proposal.gear,
                clears: self.effect.clears,
                moves_trouble_to: sentences(&self.new),
                limit_share_after: limit.and_then(|limit| limit.share),
                limit_roll_after_deg: limit.and_then(|limit| limit.roll_deg),
            },
            course: self.attempt.course().clone(),
        }
    }
}

/// What a try does to the finding in its own part of the day.
#[derive(Copy, Clone, Debug)]
struct Effect {
    clears: bool,
    lesser: bool,
    better: f64,
}

impl Effect {
    fn of(after: &PartView, before: &PartView, finding: &Finding) -> Self {
        let same = || after.marks.iter().filter(|mark| is_same(mark, finding));
        Self {
            clears: same().next().is_none(),
            lesser: same().all(|mark| mark.signal < finding.signal),
            better: share(after.limit.as_ref()) - share(before.limit.as_ref()),
        }
    }

    /// Is that a help, if it brings so many new findings that are as grave? What clears it may bring graver
    /// trouble elsewhere if the stowage is no worse for it: it is shown with that trouble. What does not
    /// clear it must be clearly better and bring nothing as grave.
    fn helps(self, grave: usize) -> bool {
        let no_worse = self.better > -CLEARLY_BETTER;
        let improves = self.better > CLEARLY_BETTER || (self.lesser && no_worse);
        (self.clears && (grave == 0 || no_worse)) || (grave == 0 && improves)
    }
}

/// What the finding's rule would try.
fn proposals(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let check = super::find(finding.code);
    check.map_or_else(Vec::new, |check| (check.cures)(ctx, finding))
}

/// The share of the motion up to which the stowage is good; as far as is searched where it holds.
fn share(limit: Option<&LimitNumbers>) -> f64 {
    let share = limit.and_then(|limit| limit.share);
    share.unwrap_or(LimitNumbers::SEARCHED_SHARE)
}

/// Is it the same trouble, in the same part: rule, things, and whether it waits for what nobody knows?
fn is_same(mark: &Mark, finding: &Finding) -> bool {
    mark.code == finding.code
        && mark.not_known == finding.not_known
        && mark.about.first() == finding.about.first()
}

/// The same, of two findings of one part.
fn is_same_finding(a: &Finding, b: &Finding) -> bool {
    a.code == b.code && a.not_known == b.not_known && a.about.first() == b.about.first()
}

/// Is this finding still there?
fn stands(view: &PartView, finding: &Finding) -> bool {
    view.marks.iter().any(|mark| is_same(mark, finding))
}

/// What is there in a part that was not there before, or not as grave: a mat that stops the slide may turn
/// a tip with something to spare into one that goes.
fn new_marks<'v>(before: &PartView, after: &'v PartView) -> impl Iterator<Item = &'v Mark> {
    let mut known: BTreeMap<(&str, Option<&str>), Signal> = BTreeMap::new();
    for mark in &before.marks {
        let gravest = known.entry(mark.key()).or_insert(mark.signal);
        *gravest = mark.signal.max(*gravest);
    }
    let is_new = |mark: &&Mark| known.get(&mark.key()).is_none_or(|was| *was < mark.signal);
    let new: Vec<&Mark> = after.marks.iter().filter(is_new).collect();
    new.into_iter()
}

/// The same over the whole day; parts that are as they were are passed over.
fn all_new<'v>(
    before: &[Arc<PartView>],
    after: &'v [Arc<PartView>],
) -> impl Iterator<Item = &'v Mark> {
    let changed = before.iter().zip(after);
    let changed = changed.filter(|(before, after)| !Arc::ptr_eq(before, after));
    let new: Vec<&Mark> = changed
        .flat_map(|(before, after)| new_marks(before, after))
        .collect();
    new.into_iter()
}

/// What a cure brings about, as sentences, the gravest first; of one rule and one thing only the gravest, not
/// once for each part of the day.
fn sentences(new: &[Mark]) -> Vec<Said> {
    let mut new: Vec<&Mark> = new
        .iter()
        .filter(|mark| mark.signal > Signal::Notice)
        .collect();
    new.sort_by(|a, b| {
        let order = b.signal.cmp(&a.signal);
        order
            .then_with(|| order_of(a.code).cmp(&order_of(b.code)))
            .then_with(|| a.about.cmp(&b.about))
    });
    let mut told: BTreeSet<(&str, Option<&str>)> = BTreeSet::new();
    new.retain(|mark| told.insert(mark.key()));
    new.into_iter().map(|mark| mark.sentence.clone()).collect()
}

/// Labels one after the other, each once.
fn join_labels(cures: &[Cure]) -> Said {
    let mut labels: Vec<&Said> = Vec::new();
    for cure in cures {
        if !labels.contains(&&cure.label) {
            labels.push(&cure.label);
        }
    }
    Said::joined(labels, "; ")
}

/// The gear that all of them use, if it is one sort.
fn one_gear(cures: &[Cure]) -> Option<Id> {
    let mut gear = cures.iter().filter_map(|cure| cure.gear.as_ref());
    let first = gear.next()?;
    gear.all(|other| other == first).then(|| first.clone())
}

#[cfg(test)]
mod tests;
