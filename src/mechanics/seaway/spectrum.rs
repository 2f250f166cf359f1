//! Wave spectra: how the variance of the surface lies over angular frequency.
//!
//! ```text
//! Bretschneider  S(w) = 5/16 Hs^2 wp^4 / w^5 exp(-5/4 (wp/w)^4)
//! JONSWAP        A S(w) gamma^exp(-(w - wp)^2 / (2 s^2 wp^2)),  s = 0.07 for w <= wp, else 0.09
//! ```
//!
//! `Hs = 4 sqrt(m0)`. `A` is taken by integration, so that `m0` is `Hs^2 / 16` exactly; the usual
//! `1 - 0.287 ln gamma` leaves it 0.24 % high at 3.3.
//!
//! # References
//!
//! Bretschneider's form as ITTC and ISSC use it; JONSWAP: K. Hasselmann et al. (1973). Significant height:
//! US Army ERDC/CHL. Deep water throughout: `k = w^2 / g`.

use crate::geometry::Elementary as _;
use std::f64::consts::TAU;

/// How the energy lies round the peak.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Shape {
    /// A sea that has grown over open water.
    Bretschneider,
    /// A young sea over a limited fetch: a sharper peak.
    Jonswap {
        /// Peak enhancement; 3.3 is usual, 1 is Bretschneider.
        gamma: f64,
    },
}

/// A sea: its height, its period, its shape.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Spectrum {
    significant_height_m: f64,
    peak_rad_s: f64,
    shape: Shape,
    /// `A`.
    scale: f64,
}

/// Peak enhancement of the mean JONSWAP sea.
pub const USUAL_GAMMA: f64 = 3.3;

impl Spectrum {
    /// A sea of this significant height (m) and peak period (s), both above 0.
    pub fn new(significant_height_m: f64, peak_period_s: f64, shape: Shape) -> Self {
        let scale = match shape {
            Shape::Bretschneider => 1.0,
            Shape::Jonswap { gamma } => jonswap_scale(gamma),
        };
        Self {
            significant_height_m,
            peak_rad_s: TAU / peak_period_s,
            shape,
            scale,
        }
    }

    /// `Hs`, m.
    pub fn significant_height_m(&self) -> f64 {
        self.significant_height_m
    }

    /// `Tp`, s.
    pub fn peak_period_s(&self) -> f64 {
        TAU / self.peak_rad_s
    }

    /// Variance of the surface per unit of angular frequency, m² s; 0 at no frequency.
    pub fn density(&self, w_rad_s: f64) -> f64 {
        if w_rad_s <= 0.0 {
            return 0.0;
        }
        let height2 = self.significant_height_m * self.significant_height_m;
        let x = self.peak_rad_s / w_rad_s;
        let x4 = x.whole_power(4);
        let plain = 0.3125 * height2 * x4 / w_rad_s * (-1.25 * x4).exponential();
        match self.shape {
            Shape::Bretschneider => plain,
            Shape::Jonswap { gamma } => plain * self.scale * peak_factor(1.0 / x, gamma),
        }
    }

    /// `m_n`: the integral of `w^n S` over 0.2 to 40 times the peak frequency.
    ///
    /// The tail falls as `w^-5`: `m_4` has no limit and is refused (`None`), as is anything above.
    pub fn moment(&self, n: u32) -> Option<f64> {
        if n > 3 {
            return None;
        }
        let order = i32::try_from(n).ok()?;
        let f = |w: f64| w.whole_power(order) * self.density(w);
        Some(logarithmic(
            0.2 * self.peak_rad_s,
            40.0 * self.peak_rad_s,
            4000,
            f,
        ))
    }
}

/// `gamma^r` at `w / wp`.
fn peak_factor(ratio: f64, gamma: f64) -> f64 {
    let s = if ratio <= 1.0 { 0.07 } else { 0.09 };
    let r = (-(ratio - 1.0).whole_power(2) / (2.0 * s * s)).exponential();
    gamma.power(r)
}

/// `A`: what the enhanced peak is multiplied by so that the variance stays.
fn jonswap_scale(gamma: f64) -> f64 {
    let plain = |ratio: f64| {
        let x4 = ratio.whole_power(-4);
        1.25 * x4 / ratio * (-1.25 * x4).exponential() * 4.0
    };
    // The variance of the plain form is 1 in these units; only the peak needs integrating.
    let (low, high, steps) = (0.5, 1.8, 520);
    let step = (high - low) / f64::from(steps);
    let added: f64 = (0..steps)
        .map(|i| {
            let ratio = low + (f64::from(i) + 0.5) * step;
            plain(ratio) * (peak_factor(ratio, gamma) - 1.0) * step
        })
        .sum();
    1.0 / (1.0 + added)
}

/// The integral of `f` over `low` to `high` in equal steps of the logarithm, middle of each.
fn logarithmic(low: f64, high: f64, steps: u32, f: impl Fn(f64) -> f64) -> f64 {
    let step = (high / low).natural_logarithm() / f64::from(steps);
    (0..steps)
        .map(|i| {
            let w = low * ((f64::from(i) + 0.5) * step).exponential();
            f(w) * w * step
        })
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    #[test]
    fn both_shapes_have_the_height_they_are_asked_for() {
        for gamma in [1.0, 2.0, USUAL_GAMMA, 7.0] {
            let sea = Spectrum::new(1.88, 8.8, Shape::Jonswap { gamma });
            assert_close(sea.moment(0).unwrap(), 0.2209, 2e-4 * 0.2209);
        }
        let sea = Spectrum::new(1.88, 8.8, Shape::Bretschneider);
        assert_close(sea.moment(0).unwrap(), 0.2209, 1e-5 * 0.2209);
        assert!(sea.moment(4).is_none());
    }

    #[test]
    fn a_gamma_of_one_is_bretschneider() {
        let plain = Spectrum::new(1.0, 5.0, Shape::Bretschneider);
        let sharp = Spectrum::new(1.0, 5.0, Shape::Jonswap { gamma: 1.0 });
        for w in [0.7, 1.2, 1.3, 2.0, 5.0] {
            assert_close(sharp.density(w), plain.density(w), 1e-12);
        }
        assert_close(plain.density(0.0), 0.0, 0.0);
    }
}
