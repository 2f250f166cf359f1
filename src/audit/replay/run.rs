//! The replay itself: attitude after attitude, what goes, and what it takes along.

use std::collections::{BTreeMap, BTreeSet};

use rayon::prelude::*;

use super::batch::Batch;
use super::margins::Margins;
use super::mounting::Mounting;
use super::report::{ReplayEvent, ReplayReport, Why};
use crate::engine::numbers::Way;
use crate::engine::{FreeStanding, Stowed, Takes};
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::mechanics::attitude::{Attitude, Differences};
use crate::mechanics::motion_log::Sample;
use crate::mechanics::recorded::LogPiece;
use crate::mechanics::rocking::{Impact, Outcome, Rocking, Upright};

/// After a break that goes back in time or lasts longer than this the replay's clock goes on by a second, s.
const LONGEST_GAP_S: f64 = 86_400.0;

/// Times beyond it are no times, s: three hundred thousand years.
const LATEST_S: f64 = 1e13;

/// What was handed on.
#[derive(Clone, Debug, Default)]
pub(super) struct Counted {
    pub(super) samples: u64,
    /// Of these, with neighbours near enough.
    pub(super) judged: u64,
    pub(super) breaks: u64,
    /// From sample to sample, breaks left out: all of it, s.
    pub(super) recorded_s: f64,
    /// How many steps that were.
    pub(super) steps: u64,
}

/// One cylinder while the motion runs.
#[derive(Clone, Debug)]
pub(super) struct Running {
    pub(super) takes: Takes,
    /// Without loss, and with Housner's.
    pub(super) rocking: Option<[Rocking; 2]>,
    /// When it went, s.
    pub(super) went_s: Option<f64>,
}

impl Running {
    fn new(takes: Takes) -> Self {
        let rocking = takes.free.as_ref().map(|free| both(&free.upright));
        Self {
            takes,
            rocking,
            went_s: None,
        }
    }

    /// What became of it by rocking: without loss, and with Housner's.
    pub(super) fn outcomes(&self) -> Option<[Outcome; 2]> {
        let [lossless, housner] = self.rocking.as_ref()?;
        Some([*lossless.outcome(), *housner.outcome()])
    }
}

/// That a cylinder would go within a batch.
#[derive(Copy, Clone, Debug)]
struct Going {
    /// The attitude of the batch at which it does.
    at: usize,
    time_s: f64,
    towards: Option<Vec2>,
    why: Why,
}

/// A motion that is replayed over a stowage, in bounded memory.
///
/// What has gone is out of its place from then on, and so is what it took along. Who is held otherwise without them is
/// judged anew from then on: a lashing that went round several is slack, the front that one went through is open, a
/// row has lost a member, who leaned on one stands by itself.
#[derive(Debug)]
pub struct Replay<'a> {
    stowed: &'a Stowed<'a>,
    /// The same after some have gone.
    now: Option<Stowed<'a>>,
    /// Fronts that something went through, by rack and name.
    opened: BTreeSet<(Id, Id)>,
    mounting: Mounting,
    has_vertical: bool,
    differences: Differences,
    batch: Batch,
    margins: Margins,
    running: Vec<Running>,
    gone: BTreeSet<Id>,
    events: Vec<ReplayEvent>,
    counted: Counted,
    /// From the log's clock to the replay's, s.
    clock_s: f64,
    last_s: Option<f64>,
    is_broken: bool,
}

impl<'a> Replay<'a> {
    /// `takes` are those of the stowage; they are asked for, so that a plan that is replayed twice works them out
    /// once.
    pub fn new(stowed: &'a Stowed<'a>, takes: Vec<Takes>, mounting: Mounting) -> Self {
        Self {
            stowed,
            now: None,
            opened: BTreeSet::new(),
            mounting,
            has_vertical: false,
            differences: Differences::default(),
            batch: Batch::default(),
            margins: Margins::new(takes.len()),
            running: takes.into_iter().map(Running::new).collect(),
            gone: BTreeSet::new(),
            events: Vec::new(),
            counted: Counted::default(),
            clock_s: 0.0,
            last_s: None,
            is_broken: false,
        }
    }

    /// Keeps the points of a stretch of time alone, as fine as there is room for. All that goes before it goes as
    /// ever: who is gone by then has no margin in it.
    #[must_use]
    pub fn closely(mut self, stretch_s: [f64; 2]) -> Self {
        self.margins.keep_within(stretch_s);
        self
    }

    /// Takes the next piece of a log.
    pub fn take(&mut self, piece: LogPiece<'_>) {
        match piece {
            LogPiece::Samples(samples) => self.push(samples),
            LogPiece::Break => self.break_off(),
        }
    }

    /// Takes the next samples in time.
    pub fn push(&mut self, samples: &[Sample]) {
        for sample in samples {
            self.counted.samples += 1;
            if sample.time_s.abs() > LATEST_S {
                continue;
            }
            // A record without any has zeros.
            self.has_vertical |= sample.vertical != 0.0;
            let time_s = self.on_the_clock(sample.time_s);
            let right = self.mounting.put_right(&Sample { time_s, ..*sample });
            let Some(at) = self.differences.push(right) else {
                continue;
            };
            self.counted.judged += 1;
            self.batch
                .push(self.mounting.at_the_axes(at, self.has_vertical));
            if self.batch.is_full() {
                self.look();
            }
        }
    }

    /// The replay's own time, which only goes on.
    fn on_the_clock(&mut self, time_s: f64) -> f64 {
        if let Some(last) = self.last_s {
            let step = time_s + self.clock_s - last;
            if self.is_broken && !(0.0..=LONGEST_GAP_S).contains(&step) {
                self.clock_s = last + 1.0 - time_s;
            }
            if !self.is_broken {
                self.counted.recorded_s += step.max(0.0);
                self.counted.steps += 1;
            }
        }
        self.is_broken = false;
        let time_s = time_s + self.clock_s;
        self.last_s = Some(time_s);
        time_s
    }

    /// The record is broken here: what rocks stands at rest where it goes on.
    pub fn break_off(&mut self) {
        self.look();
        self.counted.breaks += 1;
        self.is_broken = true;
        self.differences.break_off();
        for running in &mut self.running {
            for rocking in running.rocking.iter_mut().flatten() {
                rocking.break_off();
            }
        }
    }

    /// The time that has been looked at, s.
    pub fn time_s(&self) -> f64 {
        self.last_s.unwrap_or(0.0)
    }

    /// Looks at what has come together.
    fn look(&mut self) {
        if self.batch.is_empty() {
            return;
        }
        let runs = self.margins.begin(&self.batch);
        let batch = &self.batch;
        let mut going: Vec<(Going, usize)> = (self.running.par_iter_mut())
            .zip(self.margins.cylinders.par_iter_mut())
            .enumerate()
            .filter_map(|(number, (running, margin))| {
                let used = margin.look(batch, &running.takes);
                Some((look_at(batch, running, used, 0)?, number))
            })
            .collect();
        // One after the other: each changes how those are held that are left.
        while let Some(next) = earliest(&going) {
            let (event, number) = going.swap_remove(next);
            if self.running[number].went_s.is_some() {
                continue;
            }
            let changed = self.goes(&event, number);
            going.retain(|(later, other)| {
                later.time_s <= event.time_s || !changed.contains_key(other)
            });
            let from = (self.batch.at).partition_point(|at| at.time_s <= event.time_s);
            for (other, takes) in changed {
                let again = self.judge_anew(other, takes, from);
                going.extend(again.map(|again| (again, other)));
            }
        }
        let batch = &self.batch;
        (self.running.par_iter())
            .zip(self.margins.cylinders.par_iter_mut())
            .for_each(|(running, margin)| {
                let end = running.went_s.map_or(batch.len(), |went| {
                    batch.at.partition_point(|at| at.time_s <= went)
                });
                margin.take(batch, &runs, end);
            });
        self.batch.clear();
    }

    /// One that is held otherwise from an attitude of the batch on, and whether it goes.
    fn judge_anew(&mut self, number: usize, takes: Takes, from: usize) -> Option<Going> {
        let running = &mut self.running[number];
        let was_free = running.takes.free.is_some();
        running.takes = takes;
        if let Some(free) = running.takes.free.as_ref().filter(|_| !was_free) {
            let mut rocking = both(&free.upright);
            let last = from.checked_sub(1).and_then(|last| self.batch.at.get(last));
            if let Some(last) = last {
                let felt = last.felt(running.takes.place_m);
                for rocking in &mut rocking {
                    rocking.rests_until(last.time_s, &felt);
                }
            }
            running.rocking = Some(rocking);
        }
        let used = (self.margins.cylinders[number]).look_from(&self.batch, &running.takes, from);
        look_at(&self.batch, running, used, from)
    }

    /// A cylinder goes, and takes along what it does. Tells who of those that are left is held otherwise then, and
    /// what that one takes.
    fn goes(&mut self, going: &Going, number: usize) -> BTreeMap<usize, Takes> {
        let cylinder = self.running[number].takes.cylinder.clone();
        let at: Attitude = self.batch.at[going.at];
        let felt = at.felt(self.running[number].takes.place_m);
        let before = self.now.as_ref().unwrap_or(self.stowed);
        let way = match going.why {
            Why::WentOver => Way::Tips,
            Why::Slid => Way::Slides,
            Why::LiftedOff => Way::Lifts,
            Why::LimitPassed | Why::ThrownOver => {
                let found = before.way(&cylinder, &felt);
                found.map_or(Way::Tips, |(way, _)| way)
            }
        };
        self.gone.insert(cylinder.clone());
        self.running[number].went_s = Some(going.time_s);
        if way != Way::Lifts {
            self.opened.extend(before.presses_on(&cylinder, &felt));
        }
        let falls = !matches!(way, Way::Slides | Way::Lifts);
        let fallen =
            (falls.then(|| before.fall(&cylinder, &at, going.towards, &self.gone))).flatten();
        let taken: Vec<Id> = fallen
            .as_ref()
            .map_or_else(Vec::new, |fallen| fallen.fall.chain.clone());
        self.gone.extend(taken.iter().cloned());
        let after = self.stowed.without(&self.gone, &self.opened);
        let what = (&cylinder, going.time_s);
        let mut event = ReplayEvent::new(what, way, going.why, &at, fallen.as_ref());
        event.left_slack = after.slack_since(before);
        self.events.push(event);
        let mut changed = BTreeMap::new();
        for takes in after.changed_since(before) {
            let found =
                (self.running).binary_search_by(|it| it.takes.cylinder.cmp(&takes.cylinder));
            if let Ok(number) = found {
                changed.insert(number, takes);
            }
        }
        for id in taken {
            let found = self.running.iter_mut().find(|it| it.takes.cylinder == id);
            if let Some(running) = found
                && running.went_s.is_none()
            {
                running.went_s = Some(going.time_s);
                let event = ReplayEvent::taken_along((&id, going.time_s), &cylinder, &at);
                self.events.push(event);
            }
        }
        self.now = Some(after);
        changed
    }

    /// Ends it and tells what came of it.
    pub fn finish(mut self, source: String) -> ReplayReport {
        self.look();
        let mut assumptions = self.mounting.words();
        if !self.has_vertical {
            assumptions.push(
                "no vertical acceleration in the record: none is assumed; in waves shorter than the boat's own period \
                 the force along the deck may be up to 30 % more"
                    .to_owned(),
            );
        }
        ReplayReport::new(
            source,
            assumptions,
            &self.counted,
            &self.running,
            &self.margins,
            self.events,
        )
    }
}

/// The one that goes first, ties in the order of the cylinders.
fn earliest(going: &[(Going, usize)]) -> Option<usize> {
    let all = going.iter().enumerate();
    let first = all.min_by(|(_, (a, one)), (_, (b, other))| {
        a.time_s.total_cmp(&b.time_s).then(one.cmp(other))
    });
    first.map(|(place, _)| place)
}

/// Without loss, and with Housner's.
fn both(upright: &Upright) -> [Rocking; 2] {
    [Impact::Lossless, Impact::Housner].map(|impact| Rocking::new(upright, impact))
}

/// One cylinder over a batch, from an attitude on, with the share that it uses at each: whether it goes.
fn look_at(batch: &Batch, running: &mut Running, used: &[f32], from: usize) -> Option<Going> {
    let is_gone = running.went_s.is_some();
    let used = used.get(from..).unwrap_or_default();
    let Some(free) = &running.takes.free else {
        let at = (!is_gone).then(|| used.iter().position(|share| *share >= 1.0));
        let at = from + at.flatten()?;
        return Some(Going {
            at,
            time_s: batch.at[at].time_s,
            towards: None,
            why: Why::LimitPassed,
        });
    };
    // Nearly always nothing is near (a tenth is more than a table is off): then neither its foot lifts nor does it
    // slide.
    let may_move = used.iter().any(|share| *share >= 0.9);
    let rocks = (running.rocking.iter().flatten()).any(Rocking::rocks);
    let place = running.takes.place_m;
    let both = running.rocking.as_mut()?;
    let mut going: Option<Going> = None;
    if may_move || rocks {
        for (number, at) in batch.at.iter().enumerate().skip(from) {
            let felt = at.felt(place);
            for rocking in both.iter_mut() {
                let had_gone = rocking.outcome().went_s().is_some();
                rocking.push(&free.upright, at.time_s, &felt);
                if going.is_none() && !had_gone && rocking.outcome().went_s().is_some() {
                    going = Some(gone_by_rocking(batch, rocking.outcome(), number));
                }
            }
            if going.is_none() && slides(free, felt.f.horizontal().length(), felt.onto()) {
                going = Some(Going {
                    at: number,
                    time_s: at.time_s,
                    towards: None,
                    why: Why::Slid,
                });
            }
        }
    } else if let Some(last) = batch.at.get(from..).and_then(<[Attitude]>::last) {
        // It goes on from here.
        let felt = last.felt(place);
        for rocking in both.iter_mut() {
            rocking.rests_until(last.time_s, &felt);
        }
    }
    going.filter(|_| !is_gone)
}

/// Told with the attitude at which its foot left the deck, as far as the batch goes back: what it strikes is judged by
/// the force of then, not by that of the moment at which it is down.
fn gone_by_rocking(batch: &Batch, outcome: &Outcome, at: usize) -> Going {
    let left = (outcome.last_uplift_s).filter(|_| outcome.over_s.is_some());
    let at = left.map_or(at, |s| batch.at.partition_point(|at| at.time_s < s).min(at));
    let why = if outcome.over_s.is_some() {
        Why::WentOver
    } else {
        Why::LiftedOff
    };
    Going {
        at,
        time_s: outcome.went_s().unwrap_or(0.0),
        towards: outcome.towards,
        why,
    }
}

fn slides(free: &FreeStanding, along: f64, onto: f64) -> bool {
    free.friction
        .is_some_and(|friction| onto > 0.0 && along >= friction * onto)
}
