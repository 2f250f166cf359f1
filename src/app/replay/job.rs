//! A replay is worked out in a thread of its own, with progress.

use std::io::{BufRead, Error, Read};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use super::{ASSUMED_S, Source};
use crate::audit::Moment;
use crate::audit::replay::{
    Assumed, DrawnSea, Mounting, Replay, ReplayReport, Steady, replay_assumed, replay_log,
};
use crate::engine::{Assessor, Stowed};
use crate::layout::{Id, Plan};
use crate::store::motion_log::{LogUnits, open_motion_log};

/// What is replayed over which stowage.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) plan: Arc<Plan>,
    pub(super) trip: Id,
    pub(super) part: Id,
    pub(super) source: Source,
    pub(super) seed: u64,
    pub(super) mounting: Mounting,
}

impl Wanted {
    fn is_same(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan)
            && (&self.trip, &self.part, &self.source) == (&other.trip, &other.part, &other.source)
            && (self.seed, self.mounting) == (other.seed, other.mounting)
    }
}

/// A replay that is worked out, or was.
#[derive(Debug)]
pub(super) struct ReplayJob {
    wanted: Wanted,
    stop: Arc<AtomicBool>,
    /// Thousandths done.
    done: Arc<AtomicU64>,
    results: Receiver<Result<ReplayReport, String>>,
    found: Option<Result<ReplayReport, String>>,
}

impl Drop for ReplayJob {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl ReplayJob {
    /// Begins.
    pub(super) fn start(ctx: &egui::Context, wanted: Wanted) -> Self {
        let (stop, done) = (
            Arc::new(AtomicBool::new(false)),
            Arc::new(AtomicU64::new(0)),
        );
        let (send, results) = mpsc::channel();
        let of_thread = (wanted.clone(), Arc::clone(&stop), Arc::clone(&done));
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("replay".to_owned());
        let started = thread.spawn(move || {
            let (wanted, stop, done) = of_thread;
            // Nobody listens if another was asked for meanwhile.
            send.send(work(&wanted, &stop, &done)).ok();
            ctx.request_repaint();
        });
        Self {
            wanted,
            stop,
            done,
            results,
            found: started.err().map(|err| Err(err.to_string())),
        }
    }

    /// Takes in what was found; tells whether it came just now.
    pub(super) fn collect(&mut self) -> bool {
        match self.results.try_recv() {
            Ok(found) => {
                self.found = Some(found);
                true
            }
            Err(TryRecvError::Disconnected) if self.found.is_none() => {
                self.found = Some(Err(String::new()));
                true
            }
            Err(TryRecvError::Empty | TryRecvError::Disconnected) => false,
        }
    }

    /// What was found; nothing while it is worked out.
    pub(super) fn found(&self) -> Option<&Result<ReplayReport, String>> {
        self.found.as_ref()
    }

    /// Is it still worked out?
    pub(super) fn is_busy(&self) -> bool {
        self.found.is_none()
    }

    /// How much of it is done, 0 to 1.
    pub(super) fn progress(&self) -> f32 {
        let done = u16::try_from(self.done.load(Ordering::Relaxed)).unwrap_or(1000);
        (f32::from(done) / 1000.0).clamp(0.0, 1.0)
    }

    /// Is it of what is wanted now?
    pub(super) fn is_of(&self, wanted: &Wanted) -> bool {
        self.wanted.is_same(wanted)
    }
}

fn work(wanted: &Wanted, stop: &AtomicBool, done: &Arc<AtomicU64>) -> Result<ReplayReport, String> {
    let moment = Moment::of(&wanted.plan, Some(&wanted.trip), Some(&wanted.part))
        .map_err(|err| err.to_string())?;
    let plan = &moment.plan;
    let nothing = || "there is no such part of the day".to_owned();
    let trip = plan.trips.first().ok_or_else(nothing)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), wanted.mounting);
    let goes_on = || !stop.load(Ordering::Relaxed);
    let source = match &wanted.source {
        Source::Log(path) => {
            let inner = open_motion_log(path).map_err(|err| err.to_string())?;
            let mut reader = Counted {
                inner,
                read: 0,
                size: size_of(path),
                done: Arc::clone(done),
            };
            replay_log(&mut reader, LogUnits::default(), &mut replay, &mut |_| {
                goes_on()
            })
            .map_err(|err| err.to_string())?;
            let name = path.file_name().map(|name| name.to_string_lossy());
            format!("log {}", name.unwrap_or_default())
        }
        assumed => {
            let mut assessor = Assessor::default();
            let numbers = (assessor.assess(plan, trip).parts.first()).ok_or_else(nothing)?;
            let sea = trip.parts.first().and_then(|part| part.sea.as_ref());
            let mut assumed = if *assumed == Source::Sea {
                let drawn = DrawnSea::of(&plan.boat, sea, numbers, wanted.seed);
                Assumed::Drawn(Box::new(drawn.map_err(|err| err.to_string())?))
            } else {
                Assumed::Steady(Steady::of(&numbers.motion))
            };
            replay_assumed(&mut assumed, ASSUMED_S, &mut replay, &mut |time_s| {
                done.store(thousandths(time_s / ASSUMED_S), Ordering::Relaxed);
                goes_on()
            });
            assumed.words()
        }
    };
    Ok(replay.finish(source))
}

fn size_of(path: &Path) -> u64 {
    std::fs::metadata(path).map_or(0, |about| about.len())
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a share"
)]
fn thousandths(share: f64) -> u64 {
    (1000.0 * share.clamp(0.0, 1.0)) as u64
}

/// Tells how much of a log is read.
struct Counted {
    inner: Box<dyn BufRead>,
    read: u64,
    size: u64,
    done: Arc<AtomicU64>,
}

impl Read for Counted {
    fn read(&mut self, buffer: &mut [u8]) -> Result<usize, Error> {
        self.inner.read(buffer)
    }
}

impl BufRead for Counted {
    fn fill_buf(&mut self) -> Result<&[u8], Error> {
        self.inner.fill_buf()
    }

    fn consume(&mut self, amount: usize) {
        self.read += amount as u64;
        let share = self.read as f64 / self.size.max(1) as f64;
        self.done.store(thousandths(share), Ordering::Relaxed);
        self.inner.consume(amount);
    }
}
