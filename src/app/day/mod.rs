//! The day along the top of the window: one cell for each part, the work on deck, days laid out from a pattern, the
//! deck secured for the night or opened for diving.
//!
//! What it shows follows from the plan and is kept until the plan changes. The moments between parts are not looked
//! at anew while something is being dragged.

mod cell;
mod dialog;
mod strip;

pub(crate) use self::dialog::{DayDialog, day_dialog_ui};
pub(crate) use self::strip::{day_ui, part_menu_ui};

use std::sync::Arc;

use super::Editor;
use super::files::Dialog;
use crate::day::{DayStrip, Deckwork, Draft, Pattern, Purpose, Work, lay_out, secure};
use crate::layout::{Id, Plan};

/// What follows from the plan for the strip and its dialogs.
#[derive(Debug, Default)]
pub(crate) struct Day {
    /// What the strip was made from: the plan and the trip.
    of: Option<(Arc<Plan>, Id)>,

    /// What the work was made from; older while something is dragged.
    work_of: Option<(Arc<Plan>, Id)>,

    pub(super) strip: DayStrip,
    pub(super) work: Work,

    /// What a dialog asked for.
    answer: Option<Answer>,
}

/// What was worked out for a dialog.
#[derive(Debug)]
struct Answer {
    of: (Arc<Plan>, Id, usize),
    what: Answered,
}

/// See [`Answer`].
#[derive(Debug)]
enum Answered {
    /// A day laid out, with its work.
    Draft(Box<Draft>, Work),
    /// A deck made ready.
    Ready(Option<Box<Deckwork>>, Purpose),
}

fn is_same(old: Option<&(Arc<Plan>, Id)>, plan: &Arc<Plan>, trip: &str) -> bool {
    old.is_some_and(|(of, id)| Arc::ptr_eq(of, plan) && id == trip)
}

impl Editor {
    /// Works out anew what follows from the plan, if it changed.
    pub(super) fn look_after_day(&mut self) {
        let plan = Arc::clone(self.history.plan());
        let Some(trip) = plan.trip(&self.trip) else {
            return;
        };
        let key = || Some((Arc::clone(&plan), self.trip.clone()));
        if !is_same(self.day.of.as_ref(), &plan, &self.trip) {
            let stale = !is_same(self.day.work_of.as_ref(), &plan, &self.trip);
            let parts = trip.parts.len() == self.day.work.parts.len();
            if stale && !(self.history.is_open() && parts) {
                self.day.work = Work::of(&plan, trip);
                self.day.work_of = key();
            }
            let (assessor, findings) = (self.live.assessor(), self.live.findings());
            self.day.strip = DayStrip::of(trip, assessor, findings, &self.day.work);
            self.day.of = key();
        } else if !self.history.is_open() && !is_same(self.day.work_of.as_ref(), &plan, &self.trip)
        {
            // Let go after a drag that ended where the plan was last looked at.
            self.day.of = None;
            self.look_after_day();
            return;
        }
        self.answer_dialog(&plan);
    }

    /// Works out what the open dialog shows, once for each plan.
    fn answer_dialog(&mut self, plan: &Arc<Plan>) {
        let Some(Dialog::Day(dialog)) = &self.dialog else {
            self.day.answer = None;
            return;
        };
        let Some(trip) = plan.trip(&self.trip) else {
            return;
        };
        let fits = self.day.answer.as_ref().is_some_and(|answer| {
            let (of, id, part) = &answer.of;
            let same = Arc::ptr_eq(of, plan) && *id == self.trip && *part == self.part;
            same && match (&answer.what, dialog) {
                (Answered::Draft(draft, _), DayDialog::LayOut(pattern)) => {
                    draft.pattern == *pattern
                }
                (Answered::Ready(_, purpose), DayDialog::Ready(asked)) => purpose == asked,
                _ => false,
            }
        });
        if fits {
            return;
        }
        let what = match dialog {
            DayDialog::Work { .. } => {
                self.day.answer = None;
                return;
            }
            DayDialog::LayOut(pattern) => {
                let draft = lay_out(plan, trip, *pattern);
                let work = draft.work(plan, trip);
                Answered::Draft(Box::new(draft), work)
            }
            DayDialog::Ready(purpose) => {
                let deckwork = secure(plan, trip, self.part, *purpose);
                Answered::Ready(deckwork.map(Box::new), *purpose)
            }
        };
        self.day.answer = Some(Answer {
            of: (Arc::clone(plan), self.trip.clone(), self.part),
            what,
        });
    }

    /// Opens a dialog about the day.
    pub(super) fn ask_about_day(&mut self, dialog: DayDialog) {
        self.dialog = Some(Dialog::Day(dialog));
    }
}

impl Day {
    /// The day as laid out for the open dialog, with its work.
    fn draft(&self) -> Option<(&Draft, &Work)> {
        match &self.answer.as_ref()?.what {
            Answered::Draft(draft, work) => Some((draft, work)),
            Answered::Ready(..) => None,
        }
    }

    /// What makes the deck ready for the open dialog.
    fn deckwork(&self) -> Option<&Deckwork> {
        match &self.answer.as_ref()?.what {
            Answered::Ready(deckwork, _) => deckwork.as_deref(),
            Answered::Draft(..) => None,
        }
    }
}

/// The dialog of a pattern.
pub(super) fn first_pattern() -> DayDialog {
    DayDialog::LayOut(Pattern::TwoDives)
}
