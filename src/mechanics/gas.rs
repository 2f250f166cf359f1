//! How much a compressed gas weighs: real-gas density from pressure and temperature.
//!
//! Ideal gas errs by −11 % to +19 % at filling pressures, so the compressibility factor is taken
//! from a closed form with four numbers a gas, fitted to CoolProp 8.0.0 (HEOS equations of state):
//!
//! ```text
//! Z = 1 + Σ xᵢ [(a0 + a1 τ) p + (b0 + b1 τ) p²] + x_He (1 − x_He) [(e0 + e1 τ) p + (f0 + f1 τ) p²]
//! p = absolute pressure / 100 bar,  τ = (t − 15 °C) / 100,  density = P M / (Z R T)
//! ```
//!
//! # Accuracy
//!
//! Against CoolProp, −5 to 50 °C and up to 301 bar absolute: air and oxygen-nitrogen mixtures within
//! 0.5 %, helium 0.06 %, trimix 0.8 %, any mixture with 8–35 % oxygen and 10–90 % helium 2 %. At the
//! limits of the accepted range (−20 and 70 °C, 330 bar): air 1.3 %, oxygen 2 %, trimix 1.2 %. The
//! helium-oxygen pair of the reference is not fitted to data: allow another 1 % for trimix at 300 bar.
//!
//! # References
//!
//! CoolProp 8.0.0: air Lemmon et al. (2000), oxygen Schmidt and Wagner (1985), nitrogen Span et al.
//! (2000), helium Ortiz-Vega et al., mixtures Gernert and GERG-2008. R: CODATA 2018.

/// Standard atmosphere, bar: what a gauge shows as zero.
pub const ATMOSPHERE_BAR: f64 = 1.01325;
/// Molar gas constant, J/(mol K).
const MOLAR_GAS_CONSTANT: f64 = 8.314462618;
/// Coldest gas for which the closed form was tried, °C.
pub const COLDEST_C: f64 = -20.0;
/// Warmest gas for which the closed form was tried, °C.
pub const WARMEST_C: f64 = 70.0;
/// Highest pressure for which the closed form was tried, bar gauge.
pub const HIGHEST_BAR: f64 = 330.0;
/// Temperature at which cylinders are taken to be filled unless another is given, °C.
pub const FILLING_TEMPERATURE_C: f64 = 15.0;

/// Coefficients a0, a1, b0, b1 of one gas (or e0, e1, f0, f1 of the helium excess).
type Coefficients = [f64; 4];

const OXYGEN: Coefficients = [-0.08962, 0.13891, 0.02667, -0.03105];
const NITROGEN: Coefficients = [-0.02727, 0.09476, 0.02462, -0.02669];
const HELIUM: Coefficients = [0.04963, -0.01805, -0.00048, 0.00022];
const ARGON: Coefficients = [-0.08634, 0.13320, 0.02648, -0.03032];
const DRY_AIR: Coefficients = [-0.04159, 0.10347, 0.02522, -0.02763];
const HELIUM_EXCESS: Coefficients = [0.19102, -0.31729, -0.02645, 0.08048];

const OXYGEN_G_MOL: f64 = 31.9988;
const NITROGEN_G_MOL: f64 = 28.0134;
const HELIUM_G_MOL: f64 = 4.002602;
const ARGON_G_MOL: f64 = 39.948;
const DRY_AIR_G_MOL: f64 = 28.9655;

/// Why a density cannot be given.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum GasError {
    /// Fractions are negative, not finite, or do not add up to one.
    #[error("the parts of a gas mixture must not be negative and must add up to 100 %")]
    NotAMixture,
    /// The pressure is outside the range that was tried.
    #[error("{gauge_bar} bar is outside 0 to {HIGHEST_BAR} bar, where gas density is known here")]
    PressureOutside {
        /// Pressure asked for, bar gauge.
        gauge_bar: f64,
    },
    /// The temperature is outside the range that was tried.
    #[error(
        "{temperature_c} °C is outside {COLDEST_C} to {WARMEST_C} °C, where gas density is known here"
    )]
    TemperatureOutside {
        /// Temperature asked for, °C.
        temperature_c: f64,
    },
}

/// A mixture of oxygen, nitrogen, helium and argon by mole fraction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mixture {
    oxygen: f64,
    nitrogen: f64,
    helium: f64,
    argon: f64,
}

/// Fractions as entered may miss one by rounding; more than this is a mistake.
const FRACTION_TOLERANCE: f64 = 1e-6;

impl Mixture {
    /// A mixture from mole fractions, which must add up to one.
    pub fn new(oxygen: f64, nitrogen: f64, helium: f64, argon: f64) -> Result<Self, GasError> {
        let parts = [oxygen, nitrogen, helium, argon];
        let sum: f64 = parts.iter().sum();
        if parts.iter().all(|part| part.is_finite() && *part >= 0.0)
            && (sum - 1.0).abs() <= FRACTION_TOLERANCE
        {
            Ok(Self {
                oxygen,
                nitrogen,
                helium,
                argon,
            })
        } else {
            Err(GasError::NotAMixture)
        }
    }

    /// Oxygen and helium given, the rest nitrogen.
    pub fn with_rest_nitrogen(oxygen: f64, helium: f64) -> Result<Self, GasError> {
        // Rounding may leave a rest of −1e-17 in a mixture without nitrogen.
        let rest = 1.0 - oxygen - helium;
        let nitrogen = if rest.abs() <= FRACTION_TOLERANCE {
            0.0
        } else {
            rest
        };
        Self::new(oxygen, nitrogen, helium, 0.0)
    }

    /// Mole fraction of oxygen.
    pub const fn oxygen(&self) -> f64 {
        self.oxygen
    }

    /// Mole fraction of helium.
    pub const fn helium(&self) -> f64 {
        self.helium
    }
}

/// A gas as filled into a cylinder.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gas {
    /// Dry air, taken as one gas (argon included).
    Air,
    /// Any other gas or mixture.
    Mixture(Mixture),
}

impl Gas {
    /// Pure oxygen.
    pub const OXYGEN: Self = Self::Mixture(Mixture {
        oxygen: 1.0,
        nitrogen: 0.0,
        helium: 0.0,
        argon: 0.0,
    });

    /// Mole fraction of oxygen.
    pub const fn oxygen_fraction(&self) -> f64 {
        match self {
            Self::Air => 0.2096,
            Self::Mixture(mixture) => mixture.oxygen,
        }
    }

    /// Molar mass, kg/mol.
    fn molar_mass_kg_mol(&self) -> f64 {
        let grams = match self {
            Self::Air => DRY_AIR_G_MOL,
            Self::Mixture(m) => {
                m.oxygen * OXYGEN_G_MOL
                    + m.nitrogen * NITROGEN_G_MOL
                    + m.helium * HELIUM_G_MOL
                    + m.argon * ARGON_G_MOL
            }
        };
        grams / 1000.0
    }

    /// Compressibility factor Z at a gauge pressure and temperature.
    pub fn compressibility(&self, gauge_bar: f64, temperature_c: f64) -> Result<f64, GasError> {
        if !(0.0..=HIGHEST_BAR).contains(&gauge_bar) {
            return Err(GasError::PressureOutside { gauge_bar });
        }
        if !(COLDEST_C..=WARMEST_C).contains(&temperature_c) {
            return Err(GasError::TemperatureOutside { temperature_c });
        }
        let p = (gauge_bar + ATMOSPHERE_BAR) / 100.0;
        let tau = (temperature_c - 15.0) / 100.0;
        let term = |c: Coefficients| (c[0] + c[1] * tau) * p + (c[2] + c[3] * tau) * p * p;
        let departure = match self {
            Self::Air => term(DRY_AIR),
            Self::Mixture(m) => {
                m.oxygen * term(OXYGEN)
                    + m.nitrogen * term(NITROGEN)
                    + m.helium * term(HELIUM)
                    + m.argon * term(ARGON)
                    + m.helium * (1.0 - m.helium) * term(HELIUM_EXCESS)
            }
        };
        Ok(1.0 + departure)
    }

    /// Density in kg/m³ at a gauge pressure (bar) and temperature (°C); also grams per litre of
    /// water capacity. At 0 bar the cylinder is full of gas at one atmosphere.
    pub fn density_kg_m3(&self, gauge_bar: f64, temperature_c: f64) -> Result<f64, GasError> {
        let z = self.compressibility(gauge_bar, temperature_c)?;
        let pascal = (gauge_bar + ATMOSPHERE_BAR) * 1e5;
        let kelvin = temperature_c + 273.15;
        Ok(pascal * self.molar_mass_kg_mol() / (z * MOLAR_GAS_CONSTANT * kelvin))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn outside_the_tried_range_there_is_no_number() {
        assert!(matches!(
            Gas::Air.density_kg_m3(331.0, 15.0),
            Err(GasError::PressureOutside { .. })
        ));
        assert!(matches!(
            Gas::Air.density_kg_m3(-0.1, 15.0),
            Err(GasError::PressureOutside { .. })
        ));
        assert!(matches!(
            Gas::Air.density_kg_m3(f64::NAN, 15.0),
            Err(GasError::PressureOutside { .. })
        ));
        assert!(matches!(
            Gas::Air.density_kg_m3(200.0, 71.0),
            Err(GasError::TemperatureOutside { .. })
        ));
        assert!(Gas::Air.density_kg_m3(330.0, -20.0).is_ok());
        assert!(Gas::Air.density_kg_m3(0.0, 70.0).is_ok());
    }

    #[test]
    fn a_mixture_adds_up() {
        assert_eq!(Mixture::new(0.5, 0.2, 0.2, 0.0), Err(GasError::NotAMixture));
        assert_eq!(
            Mixture::with_rest_nitrogen(0.6, 0.5),
            Err(GasError::NotAMixture)
        );
        let heliox = Mixture::with_rest_nitrogen(0.2, 0.8).unwrap();
        assert!(heliox.nitrogen.abs() < f64::EPSILON);
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(128))]

        /// More pressure is always more gas, warmer gas is always lighter.
        #[test]
        fn density_is_monotone(
            oxygen in 0.0_f64..1.0,
            rest in 0.0_f64..1.0,
            bar in 0.0_f64..320.0,
            celsius in -20.0_f64..60.0,
        ) {
            let mixture = Mixture::with_rest_nitrogen(oxygen, (1.0 - oxygen) * rest).unwrap();
            for gas in [Gas::Air, Gas::Mixture(mixture)] {
                let here = gas.density_kg_m3(bar, celsius).unwrap();
                prop_assert!(gas.density_kg_m3(bar + 10.0, celsius).unwrap() > here);
                prop_assert!(gas.density_kg_m3(bar, celsius + 10.0).unwrap() < here);
            }
        }
    }
}
