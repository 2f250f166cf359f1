//! A motion replayed over the stowage shown: roll, pitch and every cylinder's margin over time, one cursor for plots
//! and plan, at the speed of the sea or another, and what went when.
//!
//! While it is open it takes the whole window. It changes nothing in the plan. Time runs by the window's stopwatch.

mod command;
mod job;
mod place;
mod plan;
mod plots;

pub(crate) use self::command::ReplayCommand;
pub(crate) use self::place::replay_ui;

use std::path::PathBuf;

use self::job::ReplayJob;
use crate::audit::replay::{Mounting, ReplayReport};
use crate::layout::Id;

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

/// How fast time runs in the window, against the sea.
pub(super) const SPEEDS: [f64; 6] = [0.25, 1.0, 4.0, 16.0, 60.0, 300.0];

/// The one that it begins with.
const AT_FIRST: usize = 1;

/// How long an assumed motion is replayed, s.
pub(super) const ASSUMED_S: f64 = 600.0;

/// The place where a motion is replayed.
#[derive(Debug)]
pub(crate) struct ReplayPlace {
    pub(super) source: Source,
    pub(super) seed: u64,
    pub(super) mounting: Mounting,
    job: Option<ReplayJob>,
    /// Where the cursor is, s of the replay.
    pub(super) cursor_s: f64,
    pub(super) speed: usize,
    /// While time runs: the stopwatch and the cursor when it began.
    pub(super) playing: Option<(f64, f64)>,
    /// The cylinder whose margin is drawn strongly.
    pub(super) picked: Option<Id>,
}

impl Default for ReplayPlace {
    fn default() -> Self {
        Self {
            source: Source::default(),
            seed: 1,
            mounting: Mounting::default(),
            job: None,
            cursor_s: 0.0,
            speed: AT_FIRST,
            playing: None,
            picked: None,
        }
    }
}

impl ReplayPlace {
    /// What was found, once it is.
    pub(super) fn found(&self) -> Option<&ReplayReport> {
        self.job.as_ref()?.found()?.as_ref().ok()
    }

    /// Is it being worked out?
    pub(super) fn is_busy(&self) -> bool {
        self.job.as_ref().is_some_and(ReplayJob::is_busy)
    }

    /// When the replay begins and ends, s.
    pub(super) fn span_s(&self) -> [f64; 2] {
        let times = self.found().map(|found| found.tracks.time_s.as_slice());
        match times {
            Some([first, .., last]) => [*first, *last],
            _ => [0.0, 0.0],
        }
    }

    /// Lets the cursor follow the stopwatch; tells whether time runs.
    pub(super) fn follow(&mut self, now_s: f64) -> bool {
        let Some((began_s, from_s)) = self.playing else {
            return false;
        };
        let [_, end_s] = self.span_s();
        self.cursor_s = from_s + (now_s - began_s) * SPEEDS[self.speed.min(SPEEDS.len() - 1)];
        if self.cursor_s >= end_s {
            self.cursor_s = end_s;
            self.playing = None;
        }
        self.playing.is_some()
    }

    /// Puts the cursor somewhere; time goes on from there if it runs.
    pub(super) fn put_cursor(&mut self, at_s: f64, now_s: f64) {
        let [start_s, end_s] = self.span_s();
        self.cursor_s = at_s.clamp(start_s, end_s.max(start_s));
        if let Some((began_s, from_s)) = &mut self.playing {
            (*began_s, *from_s) = (now_s, self.cursor_s);
        }
    }

    /// The bucket of the cursor.
    pub(super) fn bucket(&self) -> Option<usize> {
        let times = &self.found()?.tracks.time_s;
        let after = times.partition_point(|time_s| *time_s < self.cursor_s);
        let nearer = |a: usize, b: usize| {
            let off = |i: usize| (times[i] - self.cursor_s).abs();
            if off(b) < off(a) { b } else { a }
        };
        match (after.checked_sub(1), after < times.len()) {
            (Some(before), true) => Some(nearer(before, after)),
            (Some(before), false) => Some(before),
            (None, true) => Some(after),
            (None, false) => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn without_a_replay_the_cursor_stays() {
        let mut place = ReplayPlace {
            playing: Some((3.0, 0.0)),
            ..ReplayPlace::default()
        };
        assert!(!place.follow(5.0));
        place.put_cursor(7.0, 5.0);
        assert!(place.cursor_s.abs() < 1e-12 && place.bucket().is_none());
    }
}
