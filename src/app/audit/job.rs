//! A record is opened and audited beside the window, and so are the pages of its report and the file that is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;

use super::super::beside::{Beside, Came};
use super::super::over_time::Stand;
use super::super::words::audit as words;
use crate::audit::{Audit, Case, Progress, Sight, sights};
use crate::sheet::{self, Page, Paper, audit as sheets};
use crate::store::{self, Watch};

/// Reading the files is this share of the work.
const READING: f64 = 0.3;

/// A record with all that is computed of it.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    pub(super) audit: Audit,
    /// The decks of each account.
    pub(super) sights: Vec<Vec<Sight>>,
    /// What stands by each account, for the plan over time.
    pub(super) stands: Vec<Stand>,
}

/// A record that is being audited.
#[derive(Debug)]
pub(crate) struct AuditJob {
    pub(super) path: PathBuf,
    beside: Beside<Result<Seen, String>>,
}

impl AuditJob {
    pub(super) fn begin(ctx: &Context, path: PathBuf) -> std::io::Result<Self> {
        let file = path.clone();
        let beside = Beside::begin(ctx, "audit", move |watch| audited(&file, watch))?;
        Ok(Self { path, beside })
    }

    pub(super) fn share(&self) -> f32 {
        self.beside.share()
    }

    /// What came of it; nothing while it is worked on.
    pub(super) fn collect(&self) -> Option<Result<Seen, String>> {
        match self.beside.collect() {
            Came::NotYet => None,
            Came::Here(found) => Some(found),
            Came::Nothing => Some(Err(words::ENDED.to_owned())),
        }
    }
}

fn audited(path: &Path, watch: &Watch) -> Result<Seen, String> {
    // The log's reader tells its share of the whole; what follows begins where reading ended.
    let opened = store::open_record_watched(path, watch).map_err(|error| error.to_string())?;
    watch.set(READING);
    let case = Case::of(opened).map_err(|error| error.to_string())?;
    let mut told = |share: f64| {
        watch.set(READING + (1.0 - READING) * share);
        !watch.is_given_up()
    };
    let audit = Audit::watched(&case, &mut Progress::new(&mut told));
    let audit = audit.ok_or_else(|| words::NOTHING_TO_AUDIT.to_owned())?;
    let spot = case.opened.record.marked_spot.as_ref().map(|spot| spot.at);
    let accounts = case.accounts.iter();
    Ok(Seen {
        sights: audit.accounts.iter().map(|it| sights(&case, it)).collect(),
        stands: accounts
            .map(|told| Stand::of(&told.moment.scene(), spot))
            .collect(),
        audit,
    })
}

/// The pages of a report on one paper, made or being made.
#[derive(Debug)]
pub(super) struct Pages {
    paper: Paper,
    beside: Option<Beside<Vec<Page>>>,
    made: Option<Arc<Vec<Page>>>,
}

impl Pages {
    /// Begins to make them; nothing where no thread can be had.
    pub(super) fn begin(ctx: &Context, seen: &Arc<Seen>, paper: Paper) -> Option<Self> {
        let seen = Arc::clone(seen);
        let work = move |_: &Watch| sheets::pages(&seen.audit, &seen.sights, paper);
        Some(Self {
            paper,
            beside: Some(Beside::begin(ctx, "report", work).ok()?),
            made: None,
        })
    }

    pub(super) fn is_on(&self, paper: Paper) -> bool {
        self.paper == paper
    }

    pub(super) fn collect(&mut self) {
        let Some(beside) = &self.beside else { return };
        self.made = match beside.collect() {
            Came::NotYet => return,
            Came::Here(pages) => Some(Arc::new(pages)),
            Came::Nothing => Some(Arc::default()),
        };
        self.beside = None;
    }

    /// The pages, once they are made.
    pub(super) fn made(&self) -> Option<&Arc<Vec<Page>>> {
        self.made.as_ref()
    }
}

/// A report that is being written.
#[derive(Debug)]
pub(super) struct Saving {
    pub(super) path: PathBuf,
    beside: Beside<Result<(), String>>,
}

impl Saving {
    pub(super) fn begin(
        ctx: &Context,
        path: PathBuf,
        seen: &Arc<Seen>,
        (paper, is_svg): (Paper, bool),
    ) -> std::io::Result<Self> {
        let (seen, out) = (Arc::clone(seen), path.clone());
        let beside = Beside::begin(ctx, "report", move |_| {
            let pages = sheets::pages(&seen.audit, &seen.sights, paper);
            let bytes = if is_svg {
                sheet::svg(&pages).into_bytes()
            } else {
                let title = sheets::title(&seen.audit);
                sheet::pdf(&pages, &title).map_err(|error| error.to_string())?
            };
            store::write_atomic(&out, &bytes).map_err(|error| error.to_string())
        })?;
        Ok(Self { path, beside })
    }

    /// Whether it was written; nothing while it is.
    pub(super) fn collect(&self) -> Option<Result<(), String>> {
        match self.beside.collect() {
            Came::NotYet => None,
            Came::Here(written) => Some(written),
            Came::Nothing => Some(Err(words::ENDED.to_owned())),
        }
    }
}
