//! What is done with what must be put right.

use super::super::Editor;
use super::super::canvas::{hit, marks};
use super::super::selection::Selection;
use super::beside;
use crate::layout::ThingRef;

impl Editor {
    /// Unfolds a line of what must be put right, selects what it is about and frames it.
    pub(super) fn choose(&mut self, index: Option<usize>) {
        self.chosen = index;
        self.sum_shown = false;
        let Some(finding) = index.and_then(|index| self.live.findings().get(index)) else {
            return;
        };
        let about: Vec<ThingRef> = finding
            .about
            .iter()
            .map(|subject| ThingRef {
                kind: subject.kind,
                id: subject.id.clone(),
            })
            .collect();
        let Some(here) = self.here() else { return };
        let deck = finding.deck.clone();
        let deck = deck.or_else(|| hit::deck_of(&here, about.first()?));
        let bounds = marks::bounds(&here, finding);
        if let Some(deck) = deck {
            self.deck = deck;
        }
        // The first one is the one to put right: its card is shown.
        let mut about = about;
        about.reverse();
        self.selection = Selection::of(about);
        if let Some(bounds) = bounds {
            self.plan_view.frame(bounds);
        }
    }

    pub(super) fn choose_beside(&mut self, step: isize) {
        let lines: Vec<usize> = self.lines().iter().map(|line| line.findings[0]).collect();
        let next = beside(&lines, self.chosen.as_ref(), step);
        self.choose(next);
    }

    /// Applies a cure as one step.
    pub(super) fn cure(&mut self, line: usize, which: usize) {
        let cure = self.cures.of(line).and_then(|cures| cures.get(which));
        let Some(cure) = cure else { return };
        let (label, edits) = (cure.label.clone(), cure.edits.clone());
        self.chosen = None;
        self.step(label, &edits, None);
    }
}
