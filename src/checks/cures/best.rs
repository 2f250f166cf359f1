//! The cures that raise the limit of a part of the day most, one after the other.

use schemars::JsonSchema;
use serde::Serialize;

use super::{Clinic, Search, proposals};
use crate::checks::CheckContext;
use crate::checks::check::{Cure, Finding, Proposal, Signal};
use crate::checks::digest::{first_to_go, good_to};

/// One of the cures that raise the limit most.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct BestCure {
    /// The cure.
    pub cure: Cure,

    /// How far the stowage is good after it and those before it.
    pub sentence: String,
}

/// What a part of the day looks like on the way.
struct Look {
    sentence: String,
    candidates: Vec<(Finding, Vec<Proposal>)>,
}

impl Clinic<'_> {
    /// Cures whoever goes first in this part of the day, then whoever goes first after that, and so on: at
    /// most so many.
    pub fn raising_most(&mut self, part: &str, most: usize) -> Vec<BestCure> {
        let mut course = self.ground.start.clone();
        let mut cures: Vec<BestCure> = Vec::new();
        loop {
            let look = self.inspect(&course, part, look);
            let Some(Some(look)) = look else { break };
            if let Some(last) = cures.last_mut() {
                last.sentence = look.sentence;
            }
            if cures.len() == most {
                break;
            }
            let mut candidates = look.candidates.into_iter();
            let best = candidates.find_map(|(finding, proposals)| {
                let outcomes = self.tried(&course, &finding, proposals, Search::Best);
                outcomes.into_iter().next()
            });
            let Some(best) = best else { break };
            course = best.course;
            cures.push(BestCure {
                cure: best.cure,
                sentence: String::new(),
            });
        }
        cures
    }
}

/// How far the stowage is good, and what would be tried for what goes first; `None` on an empty deck.
fn look(ctx: &CheckContext<'_>, findings: &[&Finding]) -> Option<Look> {
    let first = first_to_go(ctx.numbers)?;
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
    Some(Look {
        sentence: good_to(id, &first.limit, &ctx.numbers.motion),
        candidates: about
            .into_iter()
            .map(|finding| (finding.clone(), proposals(ctx, finding)))
            .collect(),
    })
}
