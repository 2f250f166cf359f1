//! After an incident: a record opened and looked at, beside the deck plan that is open in the window.
//!
//! It takes the whole window and changes nothing: neither the record nor the plan. Which account and which
//! page is looked at is only of the window; the report is the one that the command line saves.

mod command;
mod place;
mod tables;

pub(crate) use self::command::AuditCommand;
pub(crate) use self::place::audit_ui;

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::page_pictures::PagePictures;
use crate::audit::{Audit, Case, Sight, sights};
use crate::sheet::{self, Page, Paper, audit as sheets};
use crate::store;
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
    /// The accounts beside each other.
    Accounts,
    /// The report, page by page.
    Report,
}

impl Look {
    /// All of them.
    pub(crate) const ALL: [Self; 7] = [
        Self::Words,
        Self::Found,
        Self::Needed,
        Self::Reach,
        Self::Held,
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
    pub(super) audit: Audit,
    sights: Vec<Vec<Sight>>,
    roll: Vec<[f64; 2]>,
    replay: Vec<String>,
    pages: Option<(Paper, Arc<Vec<Page>>)>,
    pub(super) drawn: PagePictures,
}

impl AuditPlace {
    /// Opens a record; the error is what to tell.
    pub(super) fn open(path: &Path, units: System) -> Result<Self, String> {
        let opened = store::open_record(path).map_err(|error| error.to_string())?;
        let case = Case::of(opened).map_err(|error| error.to_string())?;
        let audit =
            Audit::of(&case).ok_or_else(|| super::words::audit::NOTHING_TO_AUDIT.to_owned())?;
        let (mut roll, mut replay) = (Vec::new(), Vec::new());
        if let Some(log) = &case.opened.motion_log {
            match store::roll_of(log) {
                Ok(read) => roll = read,
                Err(error) => replay.push(format!("Motion log: {error}.")),
            }
        }
        Ok(Self {
            path: path.to_owned(),
            look: Look::default(),
            account: 0,
            page: 0,
            paper: match units {
                System::Metric => Paper::A4,
                System::Us => Paper::Letter,
            },
            sights: audit.accounts.iter().map(|it| sights(&case, it)).collect(),
            audit,
            roll,
            replay,
            pages: None,
            drawn: PagePictures::default(),
        })
    }

    /// The pages of the report, made once.
    pub(super) fn pages(&mut self) -> Arc<Vec<Page>> {
        if let Some((paper, pages)) = &self.pages
            && *paper == self.paper
        {
            return Arc::clone(pages);
        }
        let options = sheets::Options {
            paper: self.paper,
            roll: self.roll.clone(),
            replay: self.replay.clone(),
        };
        let pages = Arc::new(sheets::pages(&self.audit, &self.sights, &options));
        self.pages = Some((self.paper, Arc::clone(&pages)));
        pages
    }

    /// The report as the bytes of a file with this ending.
    pub(super) fn report(&mut self, is_svg: bool) -> Result<Vec<u8>, String> {
        let pages = self.pages();
        if is_svg {
            return Ok(sheet::svg(&pages).into_bytes());
        }
        sheet::pdf(&pages, &sheets::title(&self.audit)).map_err(|error| error.to_string())
    }

    /// The decks of the account that is looked at.
    pub(super) fn decks(&self) -> &[Sight] {
        self.sights.get(self.account).map_or(&[], Vec::as_slice)
    }
}
