//! What is done with what must be put right.

use super::super::canvas::{hit, marks};
use super::super::files::Dialog;
use super::super::selection::Selection;
use super::super::{Editor, words};
use super::beside;
use crate::layout::{Edit, TakenOn, ThingRef};

impl Editor {
    /// Unfolds a line of what must be put right, selects what it is about and frames it.
    pub(in super::super) fn choose(&mut self, index: Option<usize>) {
        self.chosen = index;
        self.sum_shown = false;
        let Some(finding) = index.and_then(|index| self.live.findings().get(index)) else {
            return;
        };
        let part = finding.part.clone();
        if let Some((part, _)) = self.trip().and_then(|trip| trip.part(&part)) {
            self.part = part;
        }
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
        let lines = self.lines();
        let lines = lines.iter().filter(|line| self.is_looked_for(line));
        let lines: Vec<Vec<usize>> = lines.map(|line| line.findings.clone()).collect();
        let now = (self.chosen)
            .and_then(|index| lines.iter().find(|line| line.contains(&index)).cloned());
        let next = beside(&lines, now.as_ref(), step).map(|line| line[0]);
        self.choose(next);
    }

    /// Applies a cure as one step.
    pub(super) fn cure(&mut self, line: usize, which: usize) {
        let cure = self.cures.of(line).and_then(|cures| cures.get(which));
        let Some(cure) = cure else { return };
        let label = cure.label.show(self.settings.units).into_owned();
        let edits = cure.edits.clone();
        self.chosen = None;
        self.step(label, &edits, None);
    }

    /// Applies the first so many of the cures that raise the limit most, as one step.
    pub(super) fn raise_limit(&mut self, count: usize) {
        let part = self.trip().and_then(|trip| trip.parts.get(self.part));
        let step = part.and_then(|part| self.cures.raising_step(&part.id, count));
        let Some((label, edits)) = step else { return };
        let label = label.show(self.settings.units).into_owned();
        self.chosen = None;
        self.step(label, &edits, None);
    }

    /// Asks who takes the chosen line on, and why.
    pub(super) fn ask_who_takes_on(&mut self) {
        if let Some(finding) = self.chosen {
            self.dialog = Some(Dialog::TakeOn {
                finding,
                by: String::new(),
                reason: String::new(),
            });
        }
    }

    /// Takes a finding on; it is kept in the file and stays in sight.
    pub(super) fn take_on(&mut self, finding: usize, by: String, reason: String) {
        self.dialog = None;
        let trip = self.trip.clone();
        let Some(finding) = self.live.findings().get(finding) else {
            return;
        };
        let taken_on = TakenOn {
            code: finding.code.to_owned(),
            about: finding
                .about
                .iter()
                .map(|subject| subject.id.clone())
                .collect(),
            part: Some(finding.part.clone()),
            by,
            reason,
            when: None,
        };
        let label = words::step_take_on(&taken_on.by);
        self.step(label, &[Edit::TakeOn { trip, taken_on }], None);
    }
}
