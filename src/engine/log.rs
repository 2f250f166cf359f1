//! A recorded motion in place of an estimate, and how often each cylinder's limit is passed in it.

use std::f64::consts::TAU;

use super::numbers::PartNumbers;
use crate::geometry::Elementary as _;
use crate::layout::{Boat, Id, MotionInput, MotionSource};
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::motion_log::{Sample, SwingMeter, Swings, WatchedBody};

/// What was measured of a log.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct LogMeasures {
    /// Roll, radians.
    pub roll: Swings,
    /// Pitch, radians; `None` where the log has none.
    pub pitch: Option<Swings>,
    /// Vertical acceleration, m/s²; `None` where the log has none.
    pub vertical: Option<Swings>,
    /// Time recorded, hours.
    pub hours: f64,
}

/// What a log has beside time and roll.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub struct LogColumns {
    /// Pitch.
    pub pitch: bool,
    /// Vertical acceleration.
    pub vertical: bool,
}

/// Measures a log sample by sample, in bounded memory.
#[derive(Clone, Debug)]
pub struct LogMeter {
    roll: SwingMeter,
    pitch: SwingMeter,
    vertical: SwingMeter,
    seconds: f64,
    last_s: Option<f64>,
}

impl Default for LogMeter {
    fn default() -> Self {
        Self {
            roll: SwingMeter::of_angles(),
            pitch: SwingMeter::of_angles(),
            vertical: SwingMeter::of_accelerations(),
            seconds: 0.0,
            last_s: None,
        }
    }
}

impl LogMeter {
    /// Takes the next samples in time.
    pub fn push(&mut self, samples: &[Sample]) {
        for sample in samples {
            let step = self.last_s.map_or(0.0, |last| sample.time_s - last);
            self.seconds += step;
            self.last_s = Some(sample.time_s);
            self.roll.push(sample.time_s, sample.roll_rad);
            self.pitch.push(sample.time_s, sample.pitch_rad);
            self.vertical.push(sample.time_s, sample.vertical);
        }
    }

    /// The record is broken here.
    pub fn break_off(&mut self) {
        self.last_s = None;
        self.roll.break_off();
        self.pitch.break_off();
        self.vertical.break_off();
    }

    /// What was measured, of what the log has.
    pub fn measures(&self, has: LogColumns) -> LogMeasures {
        LogMeasures {
            roll: self.roll.swings(),
            pitch: has.pitch.then(|| self.pitch.swings()),
            vertical: has.vertical.then(|| self.vertical.swings()),
            hours: self.seconds / 3600.0,
        }
    }
}

/// The motion that a log stands for: the largest swings, at the mean time between swings.
///
/// `before`: the motion of the part so far, of which a log without pitch or acceleration leaves these.
pub fn recorded_motion(name: &str, log: &LogMeasures, before: Option<&MotionInput>) -> MotionInput {
    let before = before.cloned().unwrap_or_default();
    let period = |swings: &Swings| (swings.count > 0).then(|| swings.period_s.clamp(0.5, 30.0));
    let mut made = format!(
        "log {name}: {:.2} h, {} rolls, significant {:.1}°, largest {:.1}°",
        log.hours,
        log.roll.count,
        log.roll.significant.to_degrees(),
        log.roll.largest.to_degrees()
    );
    if log.pitch.is_none() {
        made.push_str("; no pitch in it");
    }
    if log.vertical.is_none() {
        made.push_str(
            "; no accelerations in it: in waves shorter than the boat's own period up to 30 % more",
        );
    }
    MotionInput {
        source: MotionSource::Recorded,
        made_from: Some(made),
        roll_amplitude_deg: log.roll.largest.to_degrees().min(60.0),
        roll_period_s: period(&log.roll).or(before.roll_period_s),
        pitch_amplitude_deg: log.pitch.map_or(before.pitch_amplitude_deg, |pitch| {
            pitch.largest.to_degrees().min(45.0)
        }),
        pitch_period_s: log.pitch.as_ref().map_or(before.pitch_period_s, period),
        vertical_g: log.vertical.map_or(before.vertical_g, |vertical| {
            (vertical.largest / GRAVITY).min(5.0)
        }),
        heel_deg: log.roll.mean.to_degrees().clamp(-45.0, 45.0),
        trim_deg: log.pitch.map_or(before.trim_deg, |pitch| {
            pitch.mean.to_degrees().clamp(-45.0, 45.0)
        }),
        ..before
    }
}

/// The cylinders of a part that go at some roll, with the ratio of forces at which they do.
pub fn watched(boat: &Boat, numbers: &PartNumbers) -> Vec<(Id, WatchedBody)> {
    let w = TAU / numbers.motion.roll_period_s;
    let axis_m = boat.roll_axis_height();
    (numbers.cylinders.iter())
        .filter_map(|cylinder| {
            let roll = cylinder.limit.roll_deg?.to_radians();
            let (y, z) = (cylinder.at[1], cylinder.cg_above_waterline_m - axis_m);
            let along = GRAVITY * roll.sine() + w * w * roll * z;
            let onto = GRAVITY * roll.cosine() - w * w * roll * y.abs();
            let body = WatchedBody {
                place_m: [cylinder.at[0] - boat.pitch_axis_x(), y, z],
                ratio: if onto > 0.0 {
                    along.max(0.0) / onto
                } else {
                    f64::MAX.sqrt()
                },
            };
            Some((cylinder.cylinder.clone(), body))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ten seconds, a gap of a minute and a half, ten seconds: twenty seconds were recorded, and no swing runs across
    /// the gap.
    #[test]
    fn a_gap_is_not_time_that_was_recorded() {
        let stretch = |from_s: f64| -> Vec<Sample> {
            let samples = (0..=100).map(|i| {
                let time_s = from_s + 0.1 * f64::from(i);
                Sample {
                    time_s,
                    roll_rad: 0.2 * (TAU * time_s / 2.5).sine(),
                    ..Sample::default()
                }
            });
            samples.collect()
        };
        let has = LogColumns {
            pitch: false,
            vertical: false,
        };
        let mut meter = LogMeter::default();
        meter.push(&stretch(0.0));
        meter.break_off();
        meter.push(&stretch(100.0));
        let with_gap = meter.measures(has);
        assert!(
            (with_gap.hours * 3600.0 - 20.0).abs() < 1e-6,
            "{with_gap:?}"
        );
        assert!((with_gap.roll.period_s - 2.5).abs() < 0.05, "{with_gap:?}");
        let mut through = LogMeter::default();
        through.push(&stretch(0.0));
        through.push(&stretch(100.0));
        let hours = through.measures(has).hours;
        assert!((hours * 3600.0 - 110.0).abs() < 1e-6, "{hours}");
    }

    #[test]
    fn a_log_without_accelerations_says_so_and_keeps_them() {
        let log = LogMeasures {
            roll: Swings {
                count: 900,
                mean: 0.02,
                period_s: 3.9,
                significant: 0.1,
                largest: 0.2,
            },
            hours: 1.0,
            ..LogMeasures::default()
        };
        let before = MotionInput {
            vertical_g: 0.3,
            pitch_amplitude_deg: 5.0,
            ..MotionInput::default()
        };
        let motion = recorded_motion("a.csv", &log, Some(&before));
        assert_eq!(motion.source, MotionSource::Recorded);
        assert!((motion.roll_amplitude_deg - 0.2_f64.to_degrees()).abs() < 1e-12);
        assert!((motion.pitch_amplitude_deg - 5.0).abs() < 1e-12);
        assert!((motion.vertical_g - 0.3).abs() < 1e-12 && motion.roll_period_s == Some(3.9));
        assert!((motion.heel_deg - 0.02_f64.to_degrees()).abs() < 1e-12);
        assert!(motion.made_from.unwrap().contains("no accelerations"));
    }
}
