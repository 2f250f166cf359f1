//! What a recorded motion says: swings, their periods and sizes, sample by sample, in bounded memory; and how
//! often a body at some place would have gone.
//!
//! A swing runs from one passing of the running mean upwards to the next; its amplitude is half its range, so
//! that an error of the mean does not matter. The significant amplitude is the mean of the highest third, from a
//! histogram of fixed bins.
//!
//! # References
//!
//! Zero-crossing analysis (textbook). The counting of [`Watch`]: `docs/method.md`, "A motion log".

use super::motion::GRAVITY;
use crate::geometry::Elementary as _;

/// One row of a log. Roll > 0 puts starboard down, pitch > 0 the bow.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Sample {
    /// Seconds.
    pub time_s: f64,
    /// Radians.
    pub roll_rad: f64,
    /// Radians; 0 where the log has none.
    pub pitch_rad: f64,
    /// Vertical acceleration less its mean, m/s²; 0 where the log has none.
    pub vertical: f64,
}

/// Bins of the histogram of amplitudes.
const BINS: usize = 2000;

/// Time over which the mean is taken, s: many swings, and shorter than a change of heel.
const MEAN_OVER_S: f64 = 60.0;

/// What the swings of one signal were.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Swings {
    /// Swings counted.
    pub count: u64,
    /// Mean of the signal.
    pub mean: f64,
    /// Mean time between swings, s; 0 without any.
    pub period_s: f64,
    /// Mean amplitude of the highest third.
    pub significant: f64,
    /// Largest amplitude.
    pub largest: f64,
}

/// Measures the swings of one signal.
#[derive(Clone, Debug)]
pub struct SwingMeter {
    bin: f64,
    dead_band: f64,
    counts: Vec<u64>,
    sums: Vec<f64>,
    samples: u64,
    total: f64,
    mean: f64,
    weight_s: f64,
    last: Option<(f64, f64)>,
    range: [f64; 2],
    began_s: Option<f64>,
    armed: bool,
    swings: u64,
    swing_time_s: f64,
    largest: f64,
}

impl SwingMeter {
    /// `full_scale`: amplitudes above it count as it in the significant one. Swings smaller than
    /// `dead_band` to either side are noise.
    pub fn new(full_scale: f64, dead_band: f64) -> Self {
        Self {
            bin: full_scale / BINS as f64,
            dead_band,
            counts: vec![0; BINS],
            sums: vec![0.0; BINS],
            samples: 0,
            total: 0.0,
            mean: 0.0,
            weight_s: 0.0,
            last: None,
            range: [f64::INFINITY, f64::NEG_INFINITY],
            began_s: None,
            armed: false,
            swings: 0,
            swing_time_s: 0.0,
            largest: 0.0,
        }
    }

    /// For angles in radians: to 90 degrees, swings below a tenth of a degree are noise.
    pub fn of_angles() -> Self {
        Self::new(std::f64::consts::FRAC_PI_2, 0.1_f64.to_radians())
    }

    /// For accelerations: to 100 m/s², swings below 0.05 m/s² are noise.
    pub fn of_accelerations() -> Self {
        Self::new(100.0, 0.05)
    }

    /// Takes the next value in time.
    pub fn push(&mut self, time_s: f64, value: f64) {
        self.samples += 1;
        self.total += value;
        match self.last {
            None => self.mean = value,
            Some((before, _)) => {
                let step = time_s - before;
                self.weight_s = (self.weight_s + step).min(MEAN_OVER_S);
                if self.weight_s > 0.0 {
                    self.mean += (value - self.mean) * (step / self.weight_s).min(1.0);
                }
            }
        }
        self.range = [self.range[0].min(value), self.range[1].max(value)];
        let above = value - self.mean;
        if above < -self.dead_band {
            self.armed = true;
        } else if above > self.dead_band && self.armed {
            self.armed = false;
            self.end_swing(time_s);
        }
        self.last = Some((time_s, value));
    }

    fn end_swing(&mut self, time_s: f64) {
        if let Some(began_s) = self.began_s {
            let amplitude = 0.5 * (self.range[1] - self.range[0]);
            self.swings += 1;
            self.swing_time_s += time_s - began_s;
            self.largest = self.largest.max(amplitude);
            let bin = bin_of(amplitude / self.bin);
            self.counts[bin] += 1;
            self.sums[bin] += amplitude;
        }
        self.began_s = Some(time_s);
        self.range = [f64::INFINITY, f64::NEG_INFINITY];
    }

    /// The record is broken here: the swing that was under way does not count.
    pub fn break_off(&mut self) {
        self.last = None;
        self.weight_s = 0.0;
        self.began_s = None;
        self.armed = false;
        self.range = [f64::INFINITY, f64::NEG_INFINITY];
    }

    /// What was measured so far.
    pub fn swings(&self) -> Swings {
        let third = self.swings.div_ceil(3);
        let (mut left, mut sum) = (third, 0.0);
        for (count, bin_sum) in self.counts.iter().zip(&self.sums).rev() {
            if left == 0 {
                break;
            }
            if *count <= left {
                sum += bin_sum;
                left -= count;
            } else {
                sum += bin_sum * left as f64 / *count as f64;
                left = 0;
            }
        }
        let per = |total: f64, count: u64| {
            if count > 0 { total / count as f64 } else { 0.0 }
        };
        Swings {
            count: self.swings,
            mean: per(self.total, self.samples),
            period_s: per(self.swing_time_s, self.swings),
            significant: per(sum, third),
            largest: self.largest,
        }
    }
}

/// A place in the histogram; the last for what is beyond, the first for what is no number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the bins"
)]
fn bin_of(place: f64) -> usize {
    place.clamp(0.0, (BINS - 1) as f64) as usize
}

/// A body whose going is counted: it goes where the force along the deck reaches this share of the force onto it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct WatchedBody {
    /// Forward of the pitch axis, to port, above the roll axis, m.
    pub place_m: [f64; 3],
    /// `a_h / a_n` at which it goes.
    pub ratio: f64,
}

/// How far before and after a sample the angular acceleration looks, s.
const LOOK_S: f64 = 0.1;

/// Samples that are kept for it, at most.
const MOST_KEPT: usize = 1024;

/// Counts how often bodies would have gone in a recorded motion.
#[derive(Clone, Debug)]
pub struct Watch {
    x: Vec<f64>,
    y: Vec<f64>,
    z: Vec<f64>,
    ratio2: Vec<f64>,
    gone: Vec<u32>,
    times: Vec<u64>,
    kept: std::collections::VecDeque<Sample>,
}

impl Watch {
    /// Watches these bodies.
    pub fn new(bodies: &[WatchedBody]) -> Self {
        let part = |i: usize| bodies.iter().map(|body| body.place_m[i]).collect();
        Self {
            x: part(0),
            y: part(1),
            z: part(2),
            ratio2: bodies.iter().map(|body| body.ratio * body.ratio).collect(),
            gone: vec![0; bodies.len()],
            times: vec![0; bodies.len()],
            kept: std::collections::VecDeque::new(),
        }
    }

    /// Takes the next samples in time.
    pub fn push(&mut self, samples: &[Sample]) {
        for sample in samples {
            self.push_one(*sample);
        }
    }

    fn push_one(&mut self, sample: Sample) {
        self.kept.push_back(sample);
        // Three samples, LOOK_S apart, give the angular accelerations at the middle one.
        while self.kept.len() > MOST_KEPT
            || self
                .kept
                .get(1)
                .is_some_and(|second| sample.time_s - second.time_s >= 2.0 * LOOK_S)
        {
            self.kept.pop_front();
        }
        let Some(first) = self.kept.front().copied() else {
            return;
        };
        let half = 0.5 * (sample.time_s - first.time_s);
        if !(0.5 * LOOK_S..=2.0 * LOOK_S).contains(&half) {
            return;
        }
        let Some(middle) = self.kept.get(self.kept.len() / 2).copied() else {
            return;
        };
        // The middle one need not be halfway.
        let (before, after) = (middle.time_s - first.time_s, sample.time_s - middle.time_s);
        if before <= 0.0 || after <= 0.0 {
            return;
        }
        let second = |a: f64, b: f64, c: f64| ((c - b) / after - (b - a) / before) / half;
        let roll = second(first.roll_rad, middle.roll_rad, sample.roll_rad);
        let pitch = second(first.pitch_rad, middle.pitch_rad, sample.pitch_rad);
        self.count(&middle, roll, pitch);
    }

    /// `f = gravity - acceleration` at each body, small squares of the rates left out.
    fn count(&mut self, at: &Sample, roll: f64, pitch: f64) {
        let (sin_roll, cos_roll) = at.roll_rad.sine_cosine();
        let (sin_pitch, cos_pitch) = at.pitch_rad.sine_cosine();
        let g = GRAVITY + at.vertical;
        let along = g * sin_pitch;
        let across = -g * sin_roll * cos_pitch;
        let down = g * cos_roll * cos_pitch;
        let n = self.ratio2.len();
        let (xs, ys, zs) = (&self.x[..n], &self.y[..n], &self.z[..n]);
        let (ratio2, gone, times) = (&self.ratio2[..n], &mut self.gone[..n], &mut self.times[..n]);
        for i in 0..n {
            let f_x = along - pitch * zs[i];
            let f_y = across + roll * zs[i];
            let a_n = down + roll * ys[i] - pitch * xs[i];
            let goes = u32::from(a_n <= 0.0 || f_x * f_x + f_y * f_y >= ratio2[i] * a_n * a_n);
            times[i] += u64::from(goes & (1 - gone[i]));
            gone[i] = goes;
        }
    }

    /// The record is broken here.
    pub fn break_off(&mut self) {
        self.kept.clear();
        self.gone.fill(0);
    }

    /// How often each body would have gone, in their order.
    pub fn times(&self) -> &[u64] {
        &self.times
    }
}

/// A made-up log for tests and benches: roll as a sum of sines near one period, pitch at another; the same for
/// the same seed.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Synthetic {
    /// Samples each second.
    pub rate_hz: f64,
    /// Mean roll period, s.
    pub roll_period_s: f64,
    /// Largest roll, rad.
    pub roll_rad: f64,
    /// Largest pitch, rad, every 2.5 s.
    pub pitch_rad: f64,
}

impl Synthetic {
    /// The sample with this number.
    pub fn sample(&self, number: u64) -> Sample {
        let time_s = number as f64 / self.rate_hz;
        let w = std::f64::consts::TAU / self.roll_period_s;
        // Two close periods beat: groups of large and small swings.
        let beat = 0.5 * ((w * time_s).sine() + (1.07 * w * time_s).sine());
        Sample {
            time_s,
            roll_rad: self.roll_rad * beat,
            pitch_rad: self.pitch_rad * (std::f64::consts::TAU * time_s / 2.5).sine(),
            vertical: 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    #[test]
    fn a_sine_about_a_heel_is_measured() {
        let mut meter = SwingMeter::of_angles();
        for i in 0..60_000_u32 {
            let t = f64::from(i) * 0.02;
            meter.push(t, 0.05 + 0.2 * (std::f64::consts::TAU * t / 4.0).sine());
        }
        let swings = meter.swings();
        assert!((296..=300).contains(&swings.count), "{}", swings.count);
        assert_close(swings.period_s, 4.0, 1e-3);
        assert_close(swings.largest, 0.2, 1e-4);
        assert_close(swings.significant, 0.2, 1e-4);
        assert_close(swings.mean, 0.05, 1e-3);
    }

    #[test]
    fn the_highest_third_is_significant() {
        let mut meter = SwingMeter::of_angles();
        // Swings of 1, 2, 3 tenths in turn: the highest third are those of three.
        for i in 0..36_000_u32 {
            let t = f64::from(i) * 0.01;
            let swing = i / 200 % 3 + 1;
            let amplitude = f64::from(swing) * 0.1;
            meter.push(t, amplitude * (std::f64::consts::PI * t).sine());
        }
        let swings = meter.swings();
        assert_close(swings.significant, 0.3, 0.01);
        assert_close(swings.period_s, 2.0, 0.02);
    }

    #[test]
    fn a_body_goes_when_its_ratio_is_passed() {
        let body = |ratio| WatchedBody {
            place_m: [0.0, 0.0, 1.0],
            ratio,
        };
        // The beat's largest is 0.2 rad; with w^2 z the ratio there is 0.2 + 0.25 about.
        let w2 = (std::f64::consts::TAU / 4.0_f64).whole_power(2) * 1.035_f64.whole_power(2);
        let largest = (0.2 * (1.0 + w2 / GRAVITY)).abs();
        let mut watch = Watch::new(&[body(0.9 * largest), body(1.1 * largest)]);
        let log = Synthetic {
            rate_hz: 50.0,
            roll_period_s: 4.0,
            roll_rad: 0.2,
            pitch_rad: 0.0,
        };
        let samples: Vec<Sample> = (0..30_000).map(|i| log.sample(i)).collect();
        watch.push(&samples);
        assert!(watch.times()[0] > 5, "{:?}", watch.times());
        assert_eq!(watch.times()[1], 0);
    }

    #[test]
    fn a_break_ends_the_swing() {
        let mut meter = SwingMeter::of_angles();
        for i in 0..100_u32 {
            let t = f64::from(i) * 0.1;
            meter.push(t, (std::f64::consts::TAU * t / 4.0).sine());
            if i % 30 == 29 {
                meter.break_off();
            }
        }
        assert_eq!(meter.swings().count, 0, "no swing is whole");
    }
}
