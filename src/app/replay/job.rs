//! A replay is worked out in a thread of its own, with progress.

use std::sync::Arc;

use super::super::beside::{Beside, Came};
use super::super::over_time::read_log;
use super::{ASSUMED_S, Source};
use crate::audit::Moment;
use crate::audit::replay::{
    Assumed, DrawnSea, Mounting, Replay, ReplayReport, Steady, Tracks, replay_assumed,
};
use crate::engine::{Assessor, Stowed};
use crate::layout::{Id, Plan};
use crate::store::Watch;
use crate::store::motion_log::{LogError, LogUnits};

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
            // They are asked for below it.
            LogError::NoUnit { .. } => Self::NoUnit(error.what()),
            other => Self::Other(other.to_string()),
        }
    }
}

type Found = Result<ReplayReport, Trouble>;

/// A replay that is worked out, or was.
#[derive(Debug)]
pub(super) struct ReplayJob {
    /// What it is of.
    pub(super) wanted: Wanted,
    beside: Option<Beside<Found>>,
    found: Option<Found>,
}

impl ReplayJob {
    /// Begins.
    pub(super) fn start(ctx: &egui::Context, wanted: Wanted) -> Self {
        let of_thread = wanted.clone();
        let begun = Beside::begin(ctx, "replay", move |watch| work(&of_thread, watch, None));
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

/// The points of a stretch of it, finer.
pub(super) fn closely(
    wanted: &Wanted,
    watch: &Watch,
    stretch_s: [f64; 2],
) -> Result<Tracks, String> {
    match work(wanted, watch, Some(stretch_s)) {
        Ok(found) => Ok(found.tracks),
        Err(Trouble::NoUnit(why) | Trouble::Other(why)) => Err(why),
    }
}

/// All of it, or with the points of a stretch alone; that ends where the stretch does.
fn work(wanted: &Wanted, watch: &Watch, stretch_s: Option<[f64; 2]>) -> Found {
    let moment = Moment::of(&wanted.plan, Some(&wanted.trip), Some(&wanted.part))
        .map_err(|error| Trouble::of(&error))?;
    let plan = &moment.plan;
    let nothing = || Trouble::Other("there is no such part of the day".to_owned());
    let trip = plan.trips.first().ok_or_else(nothing)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), wanted.mounting);
    if let Some(stretch_s) = stretch_s {
        replay = replay.closely(stretch_s);
    }
    let goes_on = |time_s: f64| stretch_s.is_none_or(|[_, to_s]| time_s <= to_s);
    let source = match &wanted.source {
        Source::Log(path) => {
            read_log(path, wanted.units, watch, &mut |piece| {
                if goes_on(replay.time_s()) {
                    replay.take(piece);
                }
            })?;
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
                !watch.is_given_up() && goes_on(time_s)
            });
            assumed.words()
        }
    };
    Ok(replay.finish(source))
}
