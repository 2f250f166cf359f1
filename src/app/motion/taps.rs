//! Taps on the stopwatch, one each time the boat comes back to the same side: from taps to a run.

use crate::layout::RollTestRun;

/// A second tap within this time is a bounce of the finger, in seconds: no boat rolls so fast.
const BOUNCE_S: f64 = 0.4;

/// A swing that took so many times the shortest is told: one was probably missed.
const MISSED: f64 = 1.6;

/// When was tapped, in seconds.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Taps(Vec<f64>);

/// What the taps so far say.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Timing {
    /// Full swings.
    pub(super) swings: u32,
    /// From the first tap to the last, in seconds.
    pub(super) total_s: f64,
    /// Mean time of a swing, in seconds.
    pub(super) mean_s: f64,
    /// The shortest and the longest, in seconds.
    pub(super) spread_s: [f64; 2],
    /// The last, in seconds.
    pub(super) last_s: f64,
}

impl Timing {
    /// Was a swing probably missed?
    pub(super) fn has_missed_one(&self) -> bool {
        self.swings > 1 && self.spread_s[1] > MISSED * self.spread_s[0]
    }
}

impl Taps {
    /// A tap now; a bounce, or a clock that went back, is none.
    pub(super) fn tap(&mut self, now_s: f64) {
        if self.0.last().is_none_or(|last| now_s - last >= BOUNCE_S) {
            self.0.push(now_s);
        }
    }

    /// The last tap was wrong.
    pub(super) fn take_back(&mut self) {
        self.0.pop();
    }

    /// How many there are.
    pub(super) fn count(&self) -> usize {
        self.0.len()
    }

    /// What they say; nothing before the second.
    pub(super) fn timing(&self) -> Option<Timing> {
        let (first, last) = (self.0.first()?, self.0.last()?);
        let times = || self.0.windows(2).map(|pair| pair[1] - pair[0]);
        let swings = u32::try_from(times().count()).ok()?;
        let last_s = times().next_back()?;
        let total_s = last - first;
        Some(Timing {
            swings,
            total_s,
            mean_s: total_s / f64::from(swings),
            spread_s: [
                times().fold(f64::INFINITY, f64::min),
                times().fold(0.0, f64::max),
            ],
            last_s,
        })
    }

    /// The run that they are, in whole milliseconds.
    pub(super) fn run(&self) -> Option<RollTestRun> {
        let timing = self.timing()?;
        Some(RollTestRun {
            swings: timing.swings,
            total_s: (1000.0 * timing.total_s).round() / 1000.0,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taps(at_s: &[f64]) -> Taps {
        let mut taps = Taps::default();
        for now_s in at_s {
            taps.tap(*now_s);
        }
        taps
    }

    #[test]
    fn one_swing_is_enough_and_one_tap_is_not() {
        assert_eq!(taps(&[3.0]).timing(), None);
        let run = taps(&[3.0, 6.5]).run().unwrap();
        assert_eq!(run.swings, 1);
        assert!((run.total_s - 3.5).abs() < 1e-9);
    }

    #[test]
    fn the_spread_is_of_single_swings() {
        let timing = taps(&[0.0, 3.0, 6.5, 9.5]).timing().unwrap();
        assert_eq!(timing.swings, 3);
        assert!((timing.mean_s - 9.5 / 3.0).abs() < 1e-12);
        assert!((timing.spread_s[0] - 3.0).abs() < 1e-12);
        assert!((timing.spread_s[1] - 3.5).abs() < 1e-12);
        assert!((timing.last_s - 3.0).abs() < 1e-12);
        assert!(!timing.has_missed_one());
        let missed = taps(&[0.0, 3.0, 9.0]).timing().unwrap();
        assert!(missed.has_missed_one());
    }

    #[test]
    fn a_bounce_is_no_tap_and_a_wrong_one_is_taken_back() {
        let mut taps = taps(&[0.0, 0.1, 3.0, 4.2]);
        assert_eq!(taps.count(), 3);
        taps.take_back();
        taps.tap(6.0);
        let timing = taps.timing().unwrap();
        assert_eq!(timing.swings, 2);
        assert!((timing.mean_s - 3.0).abs() < 1e-12);
    }
}
