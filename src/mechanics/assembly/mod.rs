//! What stands on deck as one rigid body: shell, gas, valve, boot, net, kit, twin or side cylinder.
//!
//! The **item frame** has its origin on the deck (or shelf) below the cylinder's axis, or midway
//! between the axes of a twin: `x` towards the side that the kit faces (across the pair of a twin),
//! `y` to the left of it (along the pair), `z` up. Directions run from `+x` towards `+y`.
//!
//! What it is not: it knows no catalogue (see `catalogue::cylinder`) and no motion.
//!
//! # References
//!
//! Adding masses and the parallel-axis theorem are textbook. Where the kit sits on the cylinder, and
//! its masses, are from memory (common practice, no source); so is every foot radius.

use crate::geometry::Elementary as _;

mod build;
mod moments;
mod parts;

pub use build::{from_measures, single, twin};
pub use parts::{
    BARE_FOOT_SHARE, Boot, Cylinder, GivenMeasures, Kit, SideCylinder, TwinParts, Valve,
};

/// What a body stands on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Base {
    /// A round foot centred on the axis; radius 0: it cannot stand.
    Disc {
        /// Radius of the ring it stands on.
        radius_m: f64,
    },
    /// Two equal round feet at `y` = ± half the spacing.
    Twin {
        /// Radius of each foot.
        foot_radius_m: f64,
        /// Distance between their centres.
        spacing_m: f64,
    },
    /// A rectangle centred on the origin.
    Rectangle {
        /// Extent along `x`.
        depth_m: f64,
        /// Extent along `y`.
        width_m: f64,
    },
}

impl Base {
    /// Distance between the two centres, if it is a pair side by side: on two feet, or on two bare round
    /// bottoms, which touch the deck at two points.
    pub fn pair_spacing_m(&self) -> Option<f64> {
        match *self {
            Self::Twin { spacing_m, .. } => Some(spacing_m),
            Self::Rectangle { depth_m, width_m } if depth_m <= 0.0 => Some(width_m),
            Self::Rectangle { .. } | Self::Disc { .. } => None,
        }
    }

    /// Smallest extent of the base through its middle: the D of the height-to-base ratio.
    pub fn least_diameter_m(&self) -> f64 {
        match *self {
            Self::Disc { radius_m } => 2.0 * radius_m,
            Self::Twin { foot_radius_m, .. } => 2.0 * foot_radius_m,
            Self::Rectangle { depth_m, width_m } => depth_m.min(width_m),
        }
    }
}

/// A round body of the assembly as seen from above.
#[expect(clippy::struct_field_names, reason = "the unit belongs in the name")]
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Column {
    /// Centre, towards the front.
    pub x_m: f64,
    /// Centre, to the left.
    pub y_m: f64,
    /// Radius of the shell.
    pub radius_m: f64,
    /// Lowest point above the deck.
    pub from_m: f64,
    /// Top of the valve above the deck.
    pub to_m: f64,
}

/// One rigid body on deck.
#[derive(Debug, Clone, PartialEq)]
pub struct Assembled {
    /// Mass of everything.
    pub mass_kg: f64,
    /// Height of the centre of gravity above what it stands on.
    pub cg_height_m: f64,
    /// How far the centre of gravity lies in front of the middle of the base (towards the kit).
    pub cg_offset_m: f64,
    /// How far the centre of gravity lies to the left of the middle of the base.
    pub cg_left_m: f64,
    /// Inertia about the horizontal axis along `y` through the centre of gravity: tipping forward.
    pub inertia_fore_aft_kg_m2: f64,
    /// Inertia about the horizontal axis along `x` through the centre of gravity: tipping sideways.
    pub inertia_sideways_kg_m2: f64,
    /// Product Σ m x y about the centre of gravity; not zero when something sits askew.
    pub inertia_product_kg_m2: f64,
    /// Inertia about the upright axis through the centre of gravity.
    pub inertia_spin_kg_m2: f64,
    /// What it stands on.
    pub base: Base,
    /// Height over all, with valve or first stage.
    pub height_overall_m: f64,
    /// Radius of the body that a rack or a strap holds; half the lesser side of a given body.
    pub body_radius_m: f64,
    /// Lowest height at which a strap may sit: above boot and bottom.
    pub strap_from_m: f64,
    /// Greatest height at which a strap may sit: below the shoulder.
    pub strap_to_m: f64,
    /// Height of the top of the neck, where the valve begins.
    pub neck_m: f64,
    /// Round bodies seen from above, the main one or the pair first.
    pub columns: Vec<Column>,
    /// How far the kit reaches in front of the origin; 0 without kit.
    pub kit_reach_m: f64,
}

impl Assembled {
    /// Inertia for tipping towards a direction (radians from the front) over mass, κ² = I/m.
    ///
    /// The axis of tipping is horizontal and square to the direction.
    pub fn kappa2_m2(&self, direction_rad: f64) -> f64 {
        let (s, c) = direction_rad.sine_cosine();
        let inertia = self.inertia_fore_aft_kg_m2 * c * c
            + self.inertia_sideways_kg_m2 * s * s
            + 2.0 * self.inertia_product_kg_m2 * s * c;
        inertia / self.mass_kg
    }

    /// Height over all divided by the least diameter of the base; infinite if it cannot stand.
    pub fn height_to_base(&self) -> f64 {
        self.height_overall_m / self.base.least_diameter_m()
    }
}

#[cfg(test)]
mod tests;
