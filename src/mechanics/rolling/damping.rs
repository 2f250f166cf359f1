//! How fast a roll dies away.
//!
//! Linear damping is a share `zeta` of the critical. Real roll damping grows with the roll:
//! `phi'' + 2 zeta_0 w_0 phi' + b |phi'| phi' + w_0^2 phi = w_0^2 alpha`. For a response of standard
//! deviation `sigma` the equivalent share is `zeta_0 + sqrt(2/pi) b sigma_phi' / w_0`; for the largest
//! swing `zeta_0 + 4/(3 pi) b phi_max w / w_0`.
//!
//! # References
//!
//! Equivalent linearisation: textbook (energy of a cycle; mean square error for a Gaussian response), here
//! checked by integrating in time (`tests/outside/seaway.rs`). The bands by form: values from memory and our
//! judgement, as each says. Bertin's `N`: [`quadratic_of_bertin`].

use std::f64::consts::PI;

use super::HullForm;

/// Linear and quadratic roll damping.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Damping {
    /// `zeta_0`: share of the critical at small rolls.
    pub linear: f64,
    /// `b`, 1/rad: 0 where the damping is taken as linear.
    pub quadratic: f64,
}

impl Damping {
    /// Damping that does not grow with the roll.
    pub fn linear(ratio: f64) -> Self {
        Self {
            linear: ratio,
            quadratic: 0.0,
        }
    }

    /// The share of the critical that is equivalent for a Gaussian response.
    pub fn for_deviation(&self, sigma_rate_rad_s: f64, natural_rad_s: f64) -> f64 {
        self.linear + (2.0 / PI).sqrt() * self.quadratic * sigma_rate_rad_s / natural_rad_s
    }

    /// The share of the critical that is equivalent for swings of this amplitude.
    pub fn for_amplitude(&self, amplitude_rad: f64, w_rad_s: f64, natural_rad_s: f64) -> f64 {
        self.linear + 4.0 / (3.0 * PI) * self.quadratic * amplitude_rad * w_rad_s / natural_rad_s
    }
}

/// `b` in 1/rad from Bertin's coefficient `N` per degree: loss of angle per half swing `N phi_m^2`.
///
/// With `N` 0.0106 at 20 to 25 degrees (explanatory notes to the weather criterion of the IS Code) it
/// is 0.456.
pub fn quadratic_of_bertin(n_per_deg: f64) -> f64 {
    0.75 * n_per_deg.to_degrees()
}

/// Roll damping of a form of hull: from, usual, to.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct DampingBand {
    /// The least; it rolls most.
    pub low: f64,
    /// What is taken.
    pub usual: f64,
    /// The most.
    pub high: f64,
    /// Where the figures come from.
    pub source: &'static str,
}

impl DampingBand {
    /// The band for a form of hull; cautious where nobody said which.
    pub fn of(form: Option<HullForm>) -> Self {
        let (low, usual, high, source) = match form {
            None => (
                0.05,
                0.10,
                0.15,
                "small craft of any form; value from memory, the middle is our judgement",
            ),
            Some(HullForm::Displacement) => (
                0.05,
                0.10,
                0.15,
                "small craft without bilge keels; value from memory, the middle is our judgement",
            ),
            Some(HullForm::Twin) => (0.08, 0.12, 0.20, "two hulls; common practice, no source"),
            Some(HullForm::Planing) => (
                0.10,
                0.15,
                0.20,
                "hard chine or bilge keels; value from memory, the middle is our judgement",
            ),
            Some(HullForm::Inflatable) => (
                0.10,
                0.15,
                0.25,
                "tubes near the water; common practice, no source",
            ),
        };
        Self {
            low,
            usual,
            high,
            source,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    #[test]
    fn bertin_as_in_the_method() {
        assert_close(quadratic_of_bertin(0.0106), 0.4555, 2e-4);
    }

    #[test]
    fn linear_damping_does_not_grow() {
        let damping = Damping::linear(0.1);
        assert_close(damping.for_deviation(0.5, 1.5), 0.1, 0.0);
        assert_close(damping.for_amplitude(0.5, 1.5, 1.5), 0.1, 0.0);
    }

    #[test]
    fn every_band_is_in_order() {
        use HullForm::{Displacement, Inflatable, Planing, Twin};
        let forms = [Displacement, Twin, Planing, Inflatable].map(Some);
        for form in forms.into_iter().chain([None]) {
            let band = DampingBand::of(form);
            assert!(band.low < band.usual && band.usual < band.high);
            assert!(band.source.contains("source") || band.source.contains("memory"));
        }
    }
}
