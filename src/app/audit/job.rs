//! A record is opened and audited beside the window, and so are the pages of its report and the file that is saved.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use egui::Context;

use super::super::beside::{Beside, Came};
use super::super::over_time::{Stand, read_log};
use super::super::words::audit as words;
use crate::audit::replay::{Mounting, Tracks, close_up};
use crate::audit::{Audit, Case, Moment, Progress, Sight, sights};
use crate::record::{Opened, SensorMounting};
use crate::sheet::{self, Page, Paper, audit as sheets};
use crate::store::motion_log::LogUnits;
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
    /// The stowage by each account.
    moments: Vec<Moment>,
    /// The motion log, where it was read.
    log: Option<Log>,
}

/// A motion log as it was when the record was opened.
#[derive(Clone, Debug)]
struct Log {
    path: PathBuf,
    sha256: Option<String>,
    units: LogUnits,
    mounting: Option<SensorMounting>,
}

impl Log {
    fn of(record: &Path, opened: &Opened) -> Option<Self> {
        opened.motion_log.recorded()?;
        let file = opened.record.motion_log.as_ref()?;
        let input = opened.inputs.iter().find(|it| it.path == file.path);
        let folder = record.parent().unwrap_or_else(|| Path::new(""));
        Some(Self {
            path: folder.join(&file.path),
            sha256: input.and_then(|input| input.sha256.clone()),
            units: store::log_units(file.units.unwrap_or_default()),
            mounting: file.mounting.clone(),
        })
    }
}

impl Seen {
    /// A stretch of the recorded motion over one account, with finer points. The log is read again, if it still is the
    /// one that was audited: it may be too long to be kept.
    pub(super) fn closely(
        &self,
        account: usize,
        stretch_s: [f64; 2],
        watch: &Watch,
    ) -> Result<Tracks, String> {
        let (Some(moment), Some(log)) = (self.moments.get(account), &self.log) else {
            return Err(words::NO_LOG.to_owned());
        };
        let now = store::sha256_of(&log.path);
        if now.ok() != log.sha256 {
            return Err(words::LOG_CHANGED.to_owned());
        }
        let mounting = Mounting::of_told(log.mounting.as_ref(), &moment.plan.boat);
        close_up(moment, mounting, stretch_s, |each| {
            read_log(&log.path, log.units, watch, each).map(|_| ())
        })
        .map_err(|error| error.to_string())
    }
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
        log: Log::of(path, &case.opened),
        moments: accounts.clone().map(|told| told.moment.clone()).collect(),
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
