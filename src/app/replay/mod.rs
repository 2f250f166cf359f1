//! A motion replayed over the stowage shown: roll, pitch and every cylinder's margin over time, one cursor for plots
//! and plan, at the speed of the sea or another, and what went when.
//!
//! While it is open it takes the whole window. It changes nothing in the plan. Time runs by the window's stopwatch.

mod command;
mod job;
mod place;

pub(crate) use self::command::ReplayCommand;
pub(crate) use self::place::replay_ui;

use std::path::PathBuf;

use self::job::ReplayJob;
use super::over_time::{Closely, Looked, TimeView};
use crate::audit::replay::{Mounting, ReplayReport};
use crate::store::motion_log::LogUnits;

/// What is replayed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Source {
    /// The motion of the part, swing after swing.
    #[default]
    Steady,
    /// The sea of the part, drawn at random.
    Sea,
    /// A log.
    Log(PathBuf),
}

/// How long an assumed motion is replayed, s.
pub(super) const ASSUMED_S: f64 = 600.0;

/// The place where a motion is replayed.
#[derive(Debug)]
pub(crate) struct ReplayPlace {
    pub(super) source: Source,
    pub(super) seed: u64,
    pub(super) mounting: Mounting,
    /// Units of the log's columns whose headings do not say them.
    pub(super) units: LogUnits,
    job: Option<ReplayJob>,
    pub(super) view: TimeView,
    /// The stretch that is looked at closely.
    pub(super) close: Closely,
}

impl Default for ReplayPlace {
    fn default() -> Self {
        Self {
            source: Source::default(),
            seed: 1,
            mounting: Mounting::default(),
            units: LogUnits::default(),
            job: None,
            view: TimeView::default(),
            close: Closely::default(),
        }
    }
}

impl ReplayPlace {
    /// What was found, once it is.
    pub(super) fn found(&self) -> Option<&ReplayReport> {
        self.job.as_ref()?.found()?.as_ref().ok()
    }

    /// What is looked at, once it is found.
    pub(super) fn looked(&self) -> Option<Looked<'_>> {
        Some(Looked::new(self.found()?, 0, &self.close))
    }

    /// Is it being worked out, or a stretch of it?
    pub(super) fn is_busy(&self) -> bool {
        self.job.as_ref().is_some_and(ReplayJob::is_busy) || self.close.is_busy()
    }
}
