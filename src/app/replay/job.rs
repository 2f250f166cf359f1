//! A replay is worked out in a thread of its own, with progress.

use std::io::{BufRead, Error, Read};
use std::path::Path;
use std::sync::Arc;

use super::super::beside::{Beside, Came};
use super::{ASSUMED_S, Source};
use crate::audit::Moment;
use crate::audit::replay::{
    Assumed, DrawnSea, Mounting, Replay, ReplayReport, Steady, replay_assumed,
};
use crate::engine::{Assessor, Stowed};
use crate::layout::{Id, Plan};
use crate::store::Watch;
use crate::store::motion_log::{LogError, LogUnits, open_motion_log, read_motion_log};

/// What is replayed over which stowage.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) plan: Arc<Plan>,
    pub(super) trip: Id,
    pub(super) part: Id,
    pub(super) source: Source,
    pub(super) seed: u64,
    pub(super) mounting: Mounting,
    pub(super) units: LogUnits,
}

impl Wanted {
    fn is_same(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan)
            && (&self.trip, &self.part, &self.source) == (&other.trip, &other.part, &other.source)
            && (self.seed, self.mounting, self.units) == (other.seed, other.mounting, other.units)
    }
}

/// Why there is none.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Trouble {
    /// A column of the log has no unit: it is asked for.
    NoUnit(String),
    /// Anything else.
    Other(String),
}

impl Trouble {
    fn of(error: &dyn std::fmt::Display) -> Self {
        Self::Other(error.to_string())
    }
}

impl From<LogError> for Trouble {
    fn from(error: LogError) -> Self {
        match error {
            LogError::NoUnit { .. } => Self::NoUnit(error.to_string()),
            other => Self::Other(other.to_string()),
        }
    }
}

type Found = Result<ReplayReport, Trouble>;

/// A replay that is worked out, or was.
#[derive(Debug)]
pub(super) struct ReplayJob {
    wanted: Wanted,
    beside: Option<Beside<Found>>,
    found: Option<Found>,
}

impl ReplayJob {
    /// Begins.
    pub(super) fn start(ctx: &egui::Context, wanted: Wanted) -> Self {
        let of_thread = wanted.clone();
        let begun = Beside::begin(ctx, "replay", move |watch| work(&of_thread, watch));
        let (beside, found) = match begun {
            Ok(beside) => (Some(beside), None),
            Err(error) => (None, Some(Err(Trouble::of(&error)))),
        };
        Self {
            wanted,
            beside,
            found,
        }
    }

    /// Takes in what was found; tells whether it came just now.
    pub(super) fn collect(&mut self) -> bool {
        let Some(beside) = &self.beside else {
            return false;
        };
        self.found = match beside.collect() {
            Came::NotYet => return false,
            Came::Here(found) => Some(found),
            Came::Nothing => Some(Err(Trouble::Other(String::new()))),
        };
        self.beside = None;
        true
    }

    /// What was found; nothing while it is worked out.
    pub(super) fn found(&self) -> Option<&Found> {
        self.found.as_ref()
    }

    /// Is it still worked out?
    pub(super) fn is_busy(&self) -> bool {
        self.found.is_none()
    }

    /// How much of it is done, 0 to 1.
    pub(super) fn progress(&self) -> f32 {
        self.beside.as_ref().map_or(1.0, Beside::share)
    }

    /// Is it of what is wanted now?
    pub(super) fn is_of(&self, wanted: &Wanted) -> bool {
        self.wanted.is_same(wanted)
    }
}

fn work(wanted: &Wanted, watch: &Watch) -> Found {
    let moment = Moment::of(&wanted.plan, Some(&wanted.trip), Some(&wanted.part))
        .map_err(|error| Trouble::of(&error))?;
    let plan = &moment.plan;
    let nothing = || Trouble::Other("there is no such part of the day".to_owned());
    let trip = plan.trips.first().ok_or_else(nothing)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), wanted.mounting);
    let source = match &wanted.source {
        Source::Log(path) => {
            let mut reader = Counted {
                inner: open_motion_log(path).map_err(LogError::Read)?,
                read: 0,
                size: size_of(path),
                watch,
            };
            read_motion_log(&mut reader, wanted.units, &mut |piece| replay.take(piece))?;
            let name = path.file_name().map(|name| name.to_string_lossy());
            format!("log {}", name.unwrap_or_default())
        }
        assumed => {
            let mut assessor = Assessor::default();
            let numbers = (assessor.assess(plan, trip).parts.first()).ok_or_else(nothing)?;
            let sea = trip.parts.first().and_then(|part| part.sea.as_ref());
            let mut assumed = if *assumed == Source::Sea {
                let drawn = DrawnSea::of(&plan.boat, sea, numbers, wanted.seed);
                Assumed::Drawn(Box::new(drawn.map_err(|error| Trouble::of(&error))?))
            } else {
                Assumed::Steady(Steady::of(&numbers.motion))
            };
            replay_assumed(&mut assumed, ASSUMED_S, &mut replay, &mut |time_s| {
                watch.set(time_s / ASSUMED_S);
                !watch.is_given_up()
            });
            assumed.words()
        }
    };
    Ok(replay.finish(source))
}

fn size_of(path: &Path) -> u64 {
    std::fs::metadata(path).map_or(0, |about| about.len())
}

/// Tells how much of a log is read, and ends the reading when nobody wants it any more.
struct Counted<'a> {
    inner: Box<dyn BufRead>,
    read: u64,
    size: u64,
    watch: &'a Watch,
}

impl Read for Counted<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize, Error> {
        self.inner.read(buffer)
    }
}

impl BufRead for Counted<'_> {
    fn fill_buf(&mut self) -> Result<&[u8], Error> {
        if self.watch.is_given_up() {
            return Err(Error::other("given up"));
        }
        self.inner.fill_buf()
    }

    fn consume(&mut self, amount: usize) {
        self.read += amount as u64;
        self.watch.set(self.read as f64 / self.size.max(1) as f64);
        self.inner.consume(amount);
    }
}
