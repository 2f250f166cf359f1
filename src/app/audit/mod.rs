//! After an incident: a record opened and looked at, beside the deck plan that is open in the window.
//!
//! It takes the whole window and changes nothing: neither the record nor the plan. Which account and which
//! page is looked at is only of the window; the report is the one that the command line saves. What takes long is
//! done beside the window (`job`).

mod command;
mod job;
mod place;
mod tables;

pub(crate) use self::command::AuditCommand;
pub(crate) use self::job::AuditJob;
pub(crate) use self::place::{audit_ui, audit_working_ui};

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;

use self::job::{Pages, Saving, Seen};
use super::over_time::{Closely, Looked, TimeView};
use super::page_pictures::PagePictures;
use crate::audit::Audit;
use crate::audit::replay::ReplayReport;
use crate::sheet::{Page, Paper};
use crate::store::Watch;
use crate::units::System;

/// What is looked at.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Look {
    /// In plain words.
    #[default]
    Words,
    /// The deck with ghosts and arrows, and the differences.
    Found,
    /// What each cylinder needed to go.
    Needed,
    /// Who could have reached the marked spot.
    Reach,
    /// What would have held.
    Held,
    /// The recorded motion over time.
    OverTime,
    /// The accounts beside each other.
    Accounts,
    /// The report, page by page.
    Report,
}

impl Look {
    /// All of them.
    pub(crate) const ALL: [Self; 8] = [
        Self::Words,
        Self::Found,
        Self::Needed,
        Self::Reach,
        Self::Held,
        Self::OverTime,
        Self::Accounts,
        Self::Report,
    ];
}

/// The place where a record is looked at.
#[derive(Debug)]
pub(crate) struct AuditPlace {
    pub(super) path: PathBuf,
    pub(super) look: Look,
    /// Which account, counted from 0.
    pub(super) account: usize,
    /// Which page of the report, counted from 0.
    pub(super) page: usize,
    pub(super) paper: Paper,
    /// How the recorded motion is looked at: one cursor for all accounts.
    pub(super) view: TimeView,
    /// The stretch of it that is looked at closely.
    close: Closely,
    seen: Arc<Seen>,
    pages: Option<Pages>,
    saving: Option<Saving>,
    pub(super) drawn: PagePictures,
}

impl AuditPlace {
    fn new(path: &Path, seen: Seen, units: System) -> Self {
        let mut place = Self {
            path: path.to_owned(),
            look: Look::default(),
            account: 0,
            page: 0,
            paper: match units {
                System::Metric => Paper::A4,
                System::Us => Paper::Letter,
            },
            view: TimeView::default(),
            close: Closely::default(),
            seen: Arc::new(seen),
            pages: None,
            saving: None,
            drawn: PagePictures::default(),
        };
        let seen = Arc::clone(&place.seen);
        if let Some(found) = replay_of(&seen, 0) {
            place.view.restart(found);
        }
        place
    }

    /// The audit.
    pub(super) fn audit(&self) -> &Audit {
        &self.seen.audit
    }

    /// The recorded motion over the account that is looked at.
    pub(super) fn replay(&self) -> Option<&ReplayReport> {
        replay_of(&self.seen, self.account)
    }

    /// What is looked at over time.
    pub(super) fn looked(&self) -> Option<Looked<'_>> {
        Some(Looked::new(self.replay()?, self.account, &self.close))
    }

    /// Has the stretch worked out that is looked at closely.
    pub(super) fn look_closely(&mut self, ctx: &Context) {
        let Some(found) = replay_of(&self.seen, self.account) else {
            return;
        };
        let of = (self.account, &self.view, found);
        self.close.look_after(ctx, of, |stretch_s| {
            let (seen, account) = (Arc::clone(&self.seen), self.account);
            move |watch: &Watch| seen.closely(account, stretch_s, watch)
        });
    }

    /// Are pages made, a report written, or a stretch looked at closely?
    pub(super) fn is_busy(&self) -> bool {
        let makes = (self.pages.as_ref()).is_some_and(|pages| pages.made().is_none());
        let draws = self.drawn.is_busy() || self.close.is_busy();
        makes || draws || self.saving.is_some()
    }

    /// The pages of the report; they are made beside the window, nothing until then.
    pub(super) fn pages(&mut self, ctx: &Context) -> Option<Arc<Vec<Page>>> {
        if !(self.pages.as_ref()).is_some_and(|pages| pages.is_on(self.paper)) {
            self.pages = Pages::begin(ctx, &self.seen, self.paper);
        }
        let pages = self.pages.as_mut()?;
        pages.collect();
        pages.made().cloned()
    }
}

fn replay_of(seen: &Seen, account: usize) -> Option<&ReplayReport> {
    let account = seen.audit.accounts.get(account)?;
    Some(&account.over_time.as_ref()?.replay)
}
