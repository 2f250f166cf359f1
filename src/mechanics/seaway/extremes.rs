//! From the standard deviation of a slow random swing to its largest in a time, and to how often a
//! limit is passed.
//!
//! Both sides count: a swing of |x| beyond a limit happens twice as often as one to a given side.
//!
//! ```text
//! N = t / Tz,  Tz = 2 pi sqrt(m0 / m2)
//! times |x| passes x*      2 N exp(-x*^2 / 2 sigma^2)
//! most probable largest    sigma sqrt(2 ln 2N)
//! passed with chance p     sigma sqrt(2 ln(2N / -ln(1 - p)))
//! ```
//!
//! # References
//!
//! S. O. Rice (1944); D. E. Cartwright, M. S. Longuet-Higgins (1956), for a narrow band. The most probable
//! largest is passed in 63 of 100 such times.

use crate::geometry::Elementary as _;
use std::f64::consts::TAU;

/// What is known of a random swing.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct RandomSwing {
    /// Standard deviation.
    pub sigma: f64,
    /// Standard deviation of its rate, per second.
    pub sigma_rate: f64,
}

impl RandomSwing {
    /// From `m0` and `m2`.
    pub fn from_moments(m0: f64, m2: f64) -> Self {
        Self {
            sigma: m0.max(0.0).sqrt(),
            sigma_rate: m2.max(0.0).sqrt(),
        }
    }

    /// Mean time between passing the middle upwards, s; infinite if nothing moves.
    pub fn zero_crossing_period_s(&self) -> f64 {
        if self.sigma_rate > 0.0 {
            TAU * self.sigma / self.sigma_rate
        } else {
            f64::INFINITY
        }
    }

    /// Swings in a time.
    pub fn swings(&self, duration_s: f64) -> f64 {
        duration_s / self.zero_crossing_period_s()
    }

    /// The most probable largest to either side in a time. Below two swings, where the formula has no
    /// meaning, the largest of two.
    pub fn most_probable_largest(&self, duration_s: f64) -> f64 {
        let n = self.swings(duration_s).max(2.0);
        self.sigma * (2.0 * (2.0 * n).natural_logarithm()).sqrt()
    }

    /// What is passed to either side in a time with this chance (0 to 1, both excluded).
    pub fn passed_with_chance(&self, duration_s: f64, chance: f64) -> f64 {
        let n = self.swings(duration_s).max(2.0);
        let ratio = 2.0 * n / -(1.0 - chance).natural_logarithm();
        self.sigma * (2.0 * ratio.max(1.0).natural_logarithm()).sqrt()
    }

    /// How often a limit is passed to either side in a time, on average.
    pub fn times_passed(&self, limit: f64, duration_s: f64) -> f64 {
        if self.sigma <= 0.0 {
            return if limit > 0.0 { 0.0 } else { f64::INFINITY };
        }
        let n = self.swings(duration_s);
        2.0 * n * (-limit * limit / (2.0 * self.sigma * self.sigma)).exponential()
    }
}

/// Share of waves higher than `height_m` in a sea of this significant height (Rayleigh).
pub fn share_of_higher_waves(height_m: f64, significant_height_m: f64) -> f64 {
    (-2.0 * (height_m / significant_height_m).whole_power(2)).exponential()
}

/// The height passed by one wave in `waves`.
pub fn one_wave_in_m(waves: f64, significant_height_m: f64) -> f64 {
    significant_height_m * (0.5 * waves.natural_logarithm()).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    const SWING: RandomSwing = RandomSwing {
        sigma: 6.0,
        sigma_rate: 10.0,
    };

    #[test]
    fn the_most_probable_largest_is_passed_once() {
        let largest = SWING.most_probable_largest(3600.0);
        assert_close(SWING.times_passed(largest, 3600.0), 1.0, 1e-9);
        let rare = SWING.passed_with_chance(3600.0, 0.1);
        assert_close(
            1.0 - (-SWING.times_passed(rare, 3600.0)).exponential(),
            0.1,
            1e-9,
        );
    }

    #[test]
    fn nothing_that_moves_passes_nothing() {
        let still = RandomSwing::default();
        assert_close(still.most_probable_largest(3600.0), 0.0, 0.0);
        assert_close(still.times_passed(1.0, 3600.0), 0.0, 0.0);
    }
}
