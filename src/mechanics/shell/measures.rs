//! Outside measures of a shell and whether they can belong together.

use crate::geometry::Elementary as _;
use std::f64::consts::PI;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Radius of the bore through the neck (M25 thread).
pub(super) const BORE_RADIUS_M: f64 = 0.0125;
/// Depth of the bore that the valve's shank fills; enters only the volume check.
const BORE_DEPTH_M: f64 = 0.030;
/// Shells slimmer than this have the smaller neck.
const SLIM_DIAMETER_M: f64 = 0.12;
/// A listed length that differs more than this from the one that volume and mass need is doubtful.
pub const CLOSURE_WARNING_SHARE: f64 = 0.05;

/// What the shell is made of.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ShellMaterial {
    /// Chromium-molybdenum steel.
    Steel,
    /// Wrought aluminium alloy.
    Aluminium,
}

impl ShellMaterial {
    /// Density in kg/m³ (handbook values, from memory: 34CrMo4 7850, 6061 and 6082 2700).
    pub const fn density_kg_m3(self) -> f64 {
        match self {
            Self::Steel => 7850.0,
            Self::Aluminium => 2700.0,
        }
    }
}

/// The form of the bottom.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum BaseForm {
    /// A hemisphere: stands only in a boot.
    Round,
    /// Flat, or a standing ring: stands by itself.
    Flat,
}

/// What is measured or stamped on a bare shell, without valve and boot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShellMeasures {
    /// Outside diameter.
    pub outside_diameter_m: f64,
    /// Length from the lowest point to the top of the neck.
    pub length_m: f64,
    /// Mass of the empty shell.
    pub mass_kg: f64,
    /// Material of the shell.
    pub material: ShellMaterial,
    /// Form of the bottom.
    pub base: BaseForm,
}

/// Why the measures cannot be those of a gas cylinder.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ShellError {
    /// A measure is zero, negative or not a number.
    #[error("{what} must be a positive number, found {value}")]
    NotPositive {
        /// Which measure.
        what: &'static str,
        /// What was given.
        value: f64,
    },
    /// The rounded ends alone are longer than the whole.
    #[error(
        "a length of {:.0} mm is too short for this diameter: the ends alone take {:.0} mm",
        length_m * 1000.0,
        least_m * 1000.0
    )]
    TooShort {
        /// Length given.
        length_m: f64,
        /// Least length that the ends take.
        least_m: f64,
    },
    /// Even a wall of a tenth of a millimetre is heavier.
    #[error("{mass_kg:.2} kg is too light for a shell of this size")]
    TooLight {
        /// Mass given.
        mass_kg: f64,
    },
    /// Even with hardly any cavity left it is lighter.
    #[error("{mass_kg:.2} kg is too heavy for a shell of this size")]
    TooHeavy {
        /// Mass given.
        mass_kg: f64,
    },
    /// Gas space and metal do not fit into the outside measures.
    #[error(
        "a solid cylinder of this size holds {:.1} L, but gas space and metal need {:.1} L: \
         diameter, length, capacity or mass is wrong",
        solid_m3 * 1000.0,
        needed_m3 * 1000.0
    )]
    SolidTooSmall {
        /// Volume of the solid cylinder with the outside measures.
        solid_m3: f64,
        /// Water capacity and volume of the metal together.
        needed_m3: f64,
    },
}

/// Diameter and height of the neck by material and size.
pub(super) fn neck_m(material: ShellMaterial, outside_diameter_m: f64) -> (f64, f64) {
    match (material, outside_diameter_m > SLIM_DIAMETER_M) {
        (ShellMaterial::Steel, true) => (0.050, 0.028),
        (ShellMaterial::Steel, false) => (0.042, 0.022),
        (ShellMaterial::Aluminium, true) => (0.065, 0.028),
        (ShellMaterial::Aluminium, false) => (0.050, 0.022),
    }
}

fn positive(what: &'static str, value: f64) -> Result<(), ShellError> {
    if value.is_finite() && value > 0.0 {
        Ok(())
    } else {
        Err(ShellError::NotPositive { what, value })
    }
}

impl ShellMeasures {
    pub(super) fn checked(&self) -> Result<(), ShellError> {
        positive("outside diameter", self.outside_diameter_m)?;
        positive("length", self.length_m)?;
        positive("empty mass", self.mass_kg)?;
        let least_m = self.straight_from_m() + self.outside_diameter_m / 2.0 + self.neck_height_m();
        if self.length_m <= least_m {
            return Err(ShellError::TooShort {
                length_m: self.length_m,
                least_m,
            });
        }
        Ok(())
    }

    /// Height of the neck above the shoulder.
    pub fn neck_height_m(&self) -> f64 {
        neck_m(self.material, self.outside_diameter_m).1
    }

    /// Where the straight part of the shell begins, above its lowest point.
    pub fn straight_from_m(&self) -> f64 {
        match self.base {
            BaseForm::Round => self.outside_diameter_m / 2.0,
            BaseForm::Flat => 0.0,
        }
    }

    /// Where the straight part ends and the shoulder begins, above the lowest point.
    pub fn straight_to_m(&self) -> f64 {
        self.length_m - self.neck_height_m() - self.outside_diameter_m / 2.0
    }

    /// The length that the shell must have if diameter, mass and water capacity are right.
    ///
    /// The outside volume must equal gas space plus metal plus the part of the bore that the valve
    /// fills:
    ///
    /// ```text
    /// L = (V + m/ρ + V_bore − n (2/3) π R³ − A_neck h_neck) / (π R²) + n R + h_neck
    /// n = 2 with a round base, 1 with a flat one
    /// ```
    ///
    /// # Accuracy
    ///
    /// For the eleven catalogue kinds all of whose measures come from data tables the listed length
    /// differs by −4.8 % to −0.5 % (bank cylinders with a concave base: up to +5.2 %).
    pub fn closure(&self, water_capacity_m3: f64) -> Result<Closure, ShellError> {
        self.checked()?;
        positive("water capacity", water_capacity_m3)?;
        let r = self.outside_diameter_m / 2.0;
        let area = PI * r * r;
        let metal_m3 = self.mass_kg / self.material.density_kg_m3();
        let needed_m3 = water_capacity_m3 + metal_m3;
        let solid_m3 = area * self.length_m;
        if solid_m3 < needed_m3 {
            return Err(ShellError::SolidTooSmall {
                solid_m3,
                needed_m3,
            });
        }
        let (neck_diameter, neck_height) = neck_m(self.material, self.outside_diameter_m);
        let round_ends = match self.base {
            BaseForm::Round => 2.0,
            BaseForm::Flat => 1.0,
        };
        let bore_m3 = PI * BORE_RADIUS_M * BORE_RADIUS_M * BORE_DEPTH_M;
        let ends_m3 = round_ends * 2.0 / 3.0 * PI * r.whole_power(3)
            + PI * (neck_diameter / 2.0).whole_power(2) * neck_height;
        let length_needed_m = (needed_m3 + bore_m3 - ends_m3) / area + round_ends * r + neck_height;
        Ok(Closure {
            length_needed_m,
            share: self.length_m / length_needed_m - 1.0,
        })
    }
}

/// How well outside measures, mass and water capacity agree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closure {
    /// The length that capacity, mass and diameter need.
    pub length_needed_m: f64,
    /// Listed length over needed length, minus one.
    pub share: f64,
}

impl Closure {
    /// Whether the four measures fail to agree within [`CLOSURE_WARNING_SHARE`].
    pub fn is_doubtful(&self) -> bool {
        self.share.abs() > CLOSURE_WARNING_SHARE
    }
}
