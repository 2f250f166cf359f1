//! The cures that raise the limit of a part of the day most, one after the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::{Clinic, Search, proposals, propose};
use crate::checks::check::{Cure, Finding, Proposal, Signal};
use crate::checks::digest::{first_to_go_but, good_to, height};
use crate::checks::security::goes;
use crate::checks::{CheckContext, words};
use crate::layout::{Id, ThingKind};
use crate::units::Said;

/// One of the cures that raise the limit most.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct BestCure {
    /// The cure.
    pub cure: Cure,

    /// How far the stowage is good after it and those before it.
    pub sentence: String,

    /// Who still goes before that, as nothing that was tried cures them; the sentence counts without them.
    pub without: Vec<Id>,
}

/// What raises the limit of a part of the day.
#[derive(Clone, Debug, Default)]
pub struct Raising {
    /// The cures that raise it most, one after the other.
    pub cures: Vec<BestCure>,

    /// A sentence for each cylinder that goes and that nothing cures, with what can still be done.
    pub not_cured: Vec<String>,
}

/// So many cures together count as one that raises the limit, where cylinders go at the very same limit: on a boat
/// with equal cylinders none of them raises it alone.
const MOST_TOGETHER: usize = 8;

/// What a part of the day looks like on the way.
struct Look {
    first: Id,
    /// How high its limit is.
    height: (f64, f64),
    /// Does it go within the motion?
    goes: bool,
    /// How far the stowage is good.
    sentence: String,
    /// What to say if nothing cures it.
    no_cure: String,
    candidates: Vec<(Finding, Vec<Proposal>)>,
}

/// Cures that were taken and have not raised the limit yet.
struct Together {
    cure: Cure,
    count: usize,
    /// How high the limit was before them.
    before: (f64, f64),
}

impl Together {
    fn and(self, more: Cure) -> Self {
        let (mut edits, mut moves_trouble_to) = (self.cure.edits, self.cure.moves_trouble_to);
        edits.extend(more.edits);
        for sentence in more.moves_trouble_to {
            if !moves_trouble_to.contains(&sentence) {
                moves_trouble_to.push(sentence);
            }
        }
        Self {
            cure: Cure {
                label: Said::joined([&self.cure.label, &more.label], "; "),
                edits,
                gear: self.cure.gear.or(more.gear),
                clears: self.cure.clears && more.clears,
                moves_trouble_to,
                ..more
            },
            count: self.count + 1,
            before: self.before,
        }
    }
}

/// Is one limit higher than another, by more than rounding?
fn is_higher((roll, share): (f64, f64), (old_roll, old_share): (f64, f64)) -> bool {
    let more = |new: f64, old: f64| new > old + 1e-9 + 1e-6 * old.abs();
    more(roll, old_roll) || !more(old_roll, roll) && more(share, old_share)
}

impl Clinic<'_> {
    /// Cures whoever goes first in this part of the day, then whoever goes first after that, and so on: at
    /// most so many, and only what raises the limit. Who goes and cannot be cured is passed over and told.
    pub fn raising_most(&mut self, part: &str, most: usize) -> Raising {
        let mut course = self.ground.start.clone();
        let mut raising = Raising::default();
        let mut passed_over: Vec<Id> = Vec::new();
        let mut together: Option<Together> = None;
        loop {
            let looked = self.inspect(&course, part, |ctx, findings| {
                look(ctx, findings, &passed_over)
            });
            let look = looked.flatten();
            let has_risen = |before| {
                let now = look.as_ref().map(|look| look.height);
                now.is_none_or(|now| is_higher(now, before))
            };
            together = match together {
                Some(taken) if has_risen(taken.before) => {
                    let sentence = look.as_ref().map(|look| look.sentence.as_str());
                    raising.cures.push(BestCure {
                        cure: taken.cure,
                        sentence: told_without(&passed_over, sentence),
                        without: passed_over.clone(),
                    });
                    None
                }
                Some(taken) if taken.count >= MOST_TOGETHER => break,
                taken => taken,
            };
            let Some(look) = look.filter(|_| raising.cures.len() < most) else {
                break;
            };
            let mut candidates = look.candidates.into_iter();
            let best = candidates.find_map(|(finding, proposals)| {
                let outcomes = self.tried(&course, &finding, proposals, Search::Best);
                let mut outcomes = outcomes.into_iter();
                outcomes.find(|outcome| {
                    let after = self.inspect(&outcome.course, part, |ctx, _| {
                        let mut all = ctx.numbers.cylinders.iter();
                        let its = all.find(|item| item.cylinder == look.first);
                        its.map(|item| height(&item.limit))
                    });
                    let after = after.flatten();
                    after.is_none_or(|after| is_higher(after, look.height))
                })
            });
            match best {
                Some(best) => {
                    course = best.course;
                    together = Some(match together {
                        Some(taken) => taken.and(best.cure),
                        None => Together {
                            cure: best.cure,
                            count: 1,
                            before: look.height,
                        },
                    });
                }
                None if look.goes => {
                    raising.not_cured.push(look.no_cure);
                    passed_over.push(look.first);
                }
                None => break,
            }
        }
        raising
    }
}

/// What more could be done where nobody has told what is aboard.
const NO_GEAR: &str =
    " No gear aboard is told: with straps, chocks, mats or boots in its list more can be tried.";

/// How far the stowage is good without those that still go; `None` where nobody else is on deck.
fn told_without(passed_over: &[Id], sentence: Option<&str>) -> String {
    let sentence = sentence.unwrap_or("No other cylinder is on deck.");
    if passed_over.is_empty() {
        return sentence.to_owned();
    }
    let (still_go, them) = match passed_over {
        [_] => ("still goes", "it"),
        _ => ("still go", "them"),
    };
    let mut passed_over = passed_over.to_vec();
    passed_over.sort();
    format!(
        "{} {still_go} first until taken off the deck or stowed elsewhere. Without {them}: {sentence}",
        words::list(&passed_over)
    )
}

/// How far the stowage is good, and what would be tried for what goes first, some passed over; `None` where
/// no other is on deck.
fn look(ctx: &CheckContext<'_>, findings: &[&Finding], passed_over: &[Id]) -> Option<Look> {
    let first = first_to_go_but(ctx.numbers, passed_over)?;
    let id = &first.cylinder;
    let mut about: Vec<&Finding> = findings
        .iter()
        .copied()
        .filter(|finding| finding.signal > Signal::Notice)
        .filter(|finding| finding.about.iter().any(|subject| subject.id == *id))
        // Where it falls is not why it goes.
        .filter(|finding| !finding.code.starts_with('F'))
        .collect();
    about.sort_by(|a, b| b.signal.cmp(&a.signal).then_with(|| a.code.cmp(b.code)));
    let with = |finding: &Finding, proposals: Vec<Proposal>| (finding.clone(), proposals);
    let own = about
        .iter()
        .map(|finding| with(finding, proposals(ctx, finding)));
    // Where the rules know nothing: another slot, a strap, laid down.
    let is_of_it = |finding: &&&Finding| {
        let mut subjects = finding.about.iter();
        let cylinder = subjects.find(|subject| subject.kind == ThingKind::Cylinder);
        cylinder.is_some_and(|subject| subject.id == *id)
    };
    let stowed_anew = about
        .iter()
        .filter(is_of_it)
        .map(|finding| with(finding, propose::secure(ctx, finding)));
    let motion = &ctx.numbers.motion;
    Some(Look {
        first: id.clone(),
        height: height(&first.limit),
        goes: goes(first),
        sentence: good_to(id, &first.limit, motion),
        no_cure: format!(
            "Nothing that was tried cures {id}: {}. Take it off the deck for this part of the day, lay it down \
             where there is room, or stow it elsewhere.{}",
            words::goes_at(&first.limit, motion),
            if ctx.trip.gear_aboard.is_empty() {
                NO_GEAR
            } else {
                ""
            },
        ),
        candidates: own.chain(stowed_anew).collect(),
    })
}
