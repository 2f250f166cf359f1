//! Roll period, metacentric height and roll damping of a boat.
//!
//! The two formulas are one: `T = 2 C B / sqrt(GM)` with a coefficient `C` from the dimensions, or the
//! rolling-period test `GM = (f B / T)^2` with `f` from a table (`f = 2 C`). Both are for single
//! displacement hulls of ordinary form; [`Refusal`] says why others get nothing from them.
//!
//! # References
//!
//! * `C = 0.373 + 0.023 B/d - 0.043 L/100`: 2008 IS Code, part A, 2.3 (value from memory), which is 46 CFR
//!   28.575 with its length in feet.
//! * Largest B/d: the same section of the IS Code speaks of B/d below 3.5 (value from memory). A
//!   published study found the formula poor for small craft of high B/d (Deakin, 2008).
//! * The rolling-period test: [`stopwatch`]. Damping: [`damping`].

pub mod damping;
pub mod stopwatch;

use crate::geometry::Elementary as _;
use thiserror::Error;

/// What the formulas need to know of the form of a hull.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum HullForm {
    /// One displacement hull.
    Displacement,
    /// Two hulls side by side.
    Twin,
    /// A hull that planes.
    Planing,
    /// Rigid or soft with inflatable tubes.
    Inflatable,
}

/// Why a formula gives nothing for a boat.
#[derive(Copy, Clone, Debug, PartialEq, Error)]
pub enum Refusal {
    /// Nobody said what sort of hull it is.
    #[error("nobody said what form of hull it is, and the formula is for one displacement hull")]
    FormNotGiven,

    /// Two hulls: stiffness comes from the distance between them, inertia lies far out.
    #[error("two hulls roll about the water between them; the formula was fitted to single hulls")]
    Twin,

    /// The wetted shape of a planing boat at rest is not that of the formula's ships.
    #[error(
        "hard chines and a flat bottom roll faster and are damped harder than the ships that the formula was \
         fitted to"
    )]
    Planing,

    /// Tubes come into the water as it heels, so that no single GM holds.
    #[error("the tubes dip as it heels, so that no one GM holds")]
    Inflatable,

    /// B/d above the range.
    #[error("B/d is {ratio:.1}, and the formula is for less than {LARGEST_BEAM_TO_DRAUGHT}")]
    TooBeamy {
        /// Beam over draught.
        ratio: f64,
    },

    /// The draught is missing.
    #[error("the draught is not given")]
    NoDraught,

    /// GM is missing.
    #[error("GM is not given")]
    NoGm,
}

/// Largest beam over draught for which the coefficient is used.
pub const LARGEST_BEAM_TO_DRAUGHT: f64 = 3.5;

/// What the formula asks of a boat; metres.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Dimensions {
    /// The form; `None` if nobody said.
    pub form: Option<HullForm>,
    /// Length on the waterline.
    pub length_m: f64,
    /// Beam.
    pub beam_m: f64,
    /// Mean draught.
    pub draught_m: Option<f64>,
    /// Metacentric height.
    pub gm_m: Option<f64>,
}

impl Dimensions {
    /// Why formulas for ordinary single hulls do not hold for this form, if they do not.
    pub fn refused_form(&self) -> Option<Refusal> {
        match self.form {
            Some(HullForm::Displacement) => None,
            None => Some(Refusal::FormNotGiven),
            Some(HullForm::Twin) => Some(Refusal::Twin),
            Some(HullForm::Planing) => Some(Refusal::Planing),
            Some(HullForm::Inflatable) => Some(Refusal::Inflatable),
        }
    }

    /// `C` of the IS Code, or why there is none.
    pub fn coefficient(&self) -> Result<f64, Refusal> {
        if let Some(refusal) = self.refused_form() {
            return Err(refusal);
        }
        let draught_m = self.draught_m.ok_or(Refusal::NoDraught)?;
        let ratio = self.beam_m / draught_m;
        if ratio >= LARGEST_BEAM_TO_DRAUGHT {
            return Err(Refusal::TooBeamy { ratio });
        }
        Ok(coefficient(self.length_m, self.beam_m, draught_m))
    }

    /// Roll period in seconds from dimensions and GM, or why there is none.
    pub fn period_s(&self) -> Result<f64, Refusal> {
        let c = self.coefficient()?;
        let gm_m = self.gm_m.ok_or(Refusal::NoGm)?;
        Ok(period_s(c, self.beam_m, gm_m))
    }

    /// GM in metres that a timed roll period means with the coefficient of the formula.
    pub fn gm_from_period_m(&self, period_s: f64) -> Result<f64, Refusal> {
        let c = self.coefficient()?;
        Ok((2.0 * c * self.beam_m / period_s).whole_power(2))
    }
}

/// `C = 0.373 + 0.023 B/d - 0.043 L/100`, metres, whatever the boat.
pub fn coefficient(length_m: f64, beam_m: f64, draught_m: f64) -> f64 {
    0.373 + 0.023 * beam_m / draught_m - 0.043 * length_m / 100.0
}

/// `T = 2 C B / sqrt(GM)`, seconds.
pub fn period_s(coefficient: f64, beam_m: f64, gm_m: f64) -> f64 {
    2.0 * coefficient * beam_m / gm_m.sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::assert_close;

    fn boat() -> Dimensions {
        Dimensions {
            form: Some(HullForm::Displacement),
            length_m: 16.0,
            beam_m: 5.0,
            draught_m: Some(1.5),
            gm_m: Some(0.9),
        }
    }

    #[test]
    fn the_formula_is_the_same_both_ways() {
        let period_s = boat().period_s().unwrap();
        let gm_m = boat().gm_from_period_m(period_s).unwrap();
        assert_close(gm_m, 0.9, 1e-12);
    }

    #[test]
    fn boats_of_other_forms_get_nothing_and_the_reason() {
        for (form, word) in [
            (None, "form"),
            (Some(HullForm::Twin), "two hulls"),
            (Some(HullForm::Planing), "chines"),
            (Some(HullForm::Inflatable), "tubes"),
        ] {
            let boat = Dimensions { form, ..boat() };
            let refusal = boat.period_s().unwrap_err().to_string();
            assert!(refusal.contains(word), "{refusal}");
        }
        let flat = Dimensions {
            draught_m: Some(1.0),
            ..boat()
        };
        assert_eq!(flat.period_s(), Err(Refusal::TooBeamy { ratio: 5.0 }));
        let unknown = Dimensions {
            gm_m: None,
            ..boat()
        };
        assert_eq!(unknown.period_s(), Err(Refusal::NoGm));
    }
}
