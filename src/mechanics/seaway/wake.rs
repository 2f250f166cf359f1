//! A few regular waves of a boat that passes: roll from rest, in time.
//!
//! ```text
//! phi'' + 2 zeta_0 w_0 phi' + b |phi'| phi' + w_0^2 phi = w_0^2 a(t),   a(t) = k H/2 c sin w t   for n waves
//! force along the deck per unit mass, level z above the roll axis
//!     by roll               g phi - z phi''
//!     by roll less slope    g (phi - a) - z phi''
//! ```
//!
//! `c` averages the slope over the beam. The boat is at rest before; after the last wave it swings out.
//! A boat that is made fast is not carried sideways by the wave: then the first form is the one that
//! holds; the larger governs in any case.
//!
//! # References
//!
//! One degree of freedom, integrated in time (Runge and Kutta, fourth order). At resonance with linear damping
//! the swing grows as `a / (2 zeta) (1 - exp(-zeta w_0 t))`, `tests/outside/seaway.rs`.

use std::f64::consts::TAU;

use super::response::Hull;
use crate::geometry::Elementary as _;
use crate::mechanics::motion::GRAVITY;

/// A train of equal waves.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct WaveTrain {
    /// From trough to crest, m.
    pub height_m: f64,
    /// Period, s.
    pub period_s: f64,
    /// How many waves.
    pub waves: u32,
}

impl WaveTrain {
    /// Largest slope, averaged over a beam.
    pub fn slope_rad(&self, beam_m: f64) -> f64 {
        let w = TAU / self.period_s;
        let k = w * w / GRAVITY;
        let half = 0.5 * k * beam_m;
        let average = if half < 1e-4 { 1.0 } else { half.sine() / half };
        0.5 * k * self.height_m * average.abs()
    }

    /// Amplitude of the vertical acceleration on the waves, m/s².
    pub fn vertical_m_s2(&self) -> f64 {
        let w = TAU / self.period_s;
        0.5 * w * w * self.height_m
    }
}

/// What a wave train does to a boat on its beam.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct WakeRoll {
    /// Largest roll to either side, rad.
    pub roll_rad: f64,
    /// Largest force along the deck by roll, m/s².
    pub by_roll: f64,
    /// Largest force along the deck by roll less slope, m/s².
    pub by_roll_less_slope: f64,
    /// When the largest roll is reached, s after the first wave came.
    pub at_s: f64,
}

/// Steps in the shorter of the two periods.
const STEPS_PER_PERIOD: f64 = 200.0;

/// Most steps in all: a bound for odd input.
const MOST_STEPS: u32 = 400_000;

/// Rolls the boat over the waves and one of its own periods more.
pub fn roll(hull: &Hull, train: &WaveTrain) -> WakeRoll {
    let w = TAU / train.period_s;
    let natural = hull.natural_rad_s();
    let last_s = f64::from(train.waves) * train.period_s;
    let slope = |t: f64| {
        if t < last_s {
            train.slope_rad(hull.beam_m) * (w * t).sine()
        } else {
            0.0
        }
    };
    let acceleration = |t: f64, roll: f64, rate: f64| {
        natural * natural * (slope(t) - roll)
            - (2.0 * hull.damping.linear * natural + hull.damping.quadratic * rate.abs()) * rate
    };
    let step = train.period_s.min(hull.roll_period_s) / STEPS_PER_PERIOD;
    let end_s = last_s + hull.roll_period_s;
    let mut largest = WakeRoll::default();
    let (mut t, mut roll, mut rate) = (0.0, 0.0_f64, 0.0_f64);
    for _ in 0..MOST_STEPS {
        let here = acceleration(t, roll, rate);
        if roll.abs() > largest.roll_rad {
            largest.roll_rad = roll.abs();
            largest.at_s = t;
        }
        let swing = -hull.lever_m * here;
        largest.by_roll = largest.by_roll.max((GRAVITY * roll + swing).abs());
        let relative = (GRAVITY * (roll - slope(t)) + swing).abs();
        largest.by_roll_less_slope = largest.by_roll_less_slope.max(relative);
        if t >= end_s {
            break;
        }
        let half = 0.5 * step;
        let (v1, a1) = (rate, here);
        let (v2, a2) = (
            rate + half * a1,
            acceleration(t + half, roll + half * v1, rate + half * a1),
        );
        let (v3, a3) = (
            rate + half * a2,
            acceleration(t + half, roll + half * v2, rate + half * a2),
        );
        let (v4, a4) = (
            rate + step * a3,
            acceleration(t + step, roll + step * v3, rate + step * a3),
        );
        roll += step / 6.0 * (v1 + 2.0 * v2 + 2.0 * v3 + v4);
        rate += step / 6.0 * (a1 + 2.0 * a2 + 2.0 * a3 + a4);
        t += step;
    }
    largest
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;
    use crate::mechanics::rolling::damping::Damping;

    const HULL: Hull = Hull {
        length_m: 11.0,
        beam_m: 3.6,
        roll_period_s: 3.5,
        damping: Damping {
            linear: 0.1,
            quadratic: 0.0,
        },
        lever_m: 1.2,
    };

    fn train(period_s: f64, waves: u32) -> WaveTrain {
        WaveTrain {
            height_m: 0.4,
            period_s,
            waves,
        }
    }

    #[test]
    fn more_waves_roll_more_until_damping_ends_it() {
        let rolls: Vec<f64> = (1..=12)
            .map(|waves| roll(&HULL, &train(3.5, waves)).roll_rad)
            .collect();
        assert!(rolls.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9));
        let steady = train(3.5, 1).slope_rad(HULL.beam_m) / 0.2;
        assert!(rolls[11] < steady * 1.001 && rolls[11] > 0.99 * steady);
        assert!(rolls[0] < 0.6 * steady);
    }

    #[test]
    fn a_long_swell_is_rolled_over_and_hardly_felt() {
        let swell = roll(&HULL, &train(14.0, 4));
        assert!(swell.by_roll_less_slope < 0.35 * swell.by_roll);
        assert_close(
            swell.roll_rad,
            train(14.0, 4).slope_rad(3.6),
            0.2 * swell.roll_rad,
        );
    }

    #[test]
    fn no_waves_no_roll() {
        assert_eq!(roll(&HULL, &train(3.5, 0)), WakeRoll::default());
    }
}
