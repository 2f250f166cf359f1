//! An upright body that leans about its foot edge: moment and energy, in the plane of its fall.
//!
//! With `d` the lean, `b` the reach of the foot edge and `h` the height of the centre of gravity,
//! the centre stands `x = h sin d - b cos d` beyond the edge and `z = h cos d + b sin d` above it:
//!
//! ```text
//! M(d) / m = a_h z + a_n x + spin
//! E(d) / m = a_h (h sin d + b (1 - cos d)) + a_n (h (1 - cos d) - b sin d) + spin d
//! ```
//!
//! `E` is the work of the overturning force less that of the weight, from upright to `d`;
//! `M = dE/dd`.
//!
//! # References
//!
//! Statics, derived in `docs/method.md`, "Slack and snatch".

use super::motion::Force;
use super::standing::{Body, unit_or_x};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// The apparent force on a body in the upright plane in which it falls, per unit mass.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct PlaneForce {
    /// Along the deck, towards the fall, m/s².
    pub a_h: f64,

    /// Pressing onto the deck, m/s².
    pub a_n: f64,

    /// `kappa^2` times the angular acceleration that the deck asks of the body, m²/s²; positive when
    /// it helps the fall.
    pub spin: f64,
}

impl PlaneForce {
    /// The force in the plane in which the body would tip on a round foot.
    ///
    /// `a_h h + spin` is the size of [`Force::tipping`]; where the two parts do not point the same
    /// way the difference is put into `spin`.
    pub fn worst(force: &Force, body: &Body) -> Self {
        Self::worst_and_whither(force, body).0
    }

    /// The same with the [`tipping_direction`].
    pub fn worst_and_whither(force: &Force, body: &Body) -> (Self, Vec2) {
        let moment = force.tipping(body.centre_height_m, body.kappa2_m2);
        let (size, a_h) = (moment.length(), force.a_h());
        let plane = Self {
            a_h,
            a_n: force.a_n(),
            spin: size - a_h * body.centre_height_m,
        };
        (plane, unit_or_x(moment, size))
    }

    /// The part of the force in the plane of the unit vector `direction`.
    pub fn towards(force: &Force, body: &Body, direction: Vec2) -> Self {
        Self {
            a_h: force.along_deck().dot(direction),
            a_n: force.a_n(),
            spin: force.tipping(0.0, body.kappa2_m2).dot(direction),
        }
    }
}

/// Unit vector towards which the force tips a body; `+x` when it tips nowhere.
pub fn tipping_direction(force: &Force, body: &Body) -> Vec2 {
    let moment = force.tipping(body.centre_height_m, body.kappa2_m2);
    unit_or_x(moment, moment.length())
}

/// How a body stands in its plane of fall.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Stance {
    /// `h`: height of the centre of gravity, m.
    pub centre_height_m: f64,

    /// `b`: from below the centre of gravity to the foot edge, m.
    pub reach_m: f64,
}

impl Stance {
    /// Overturning moment about the foot edge per unit mass at a lean, m²/s²; negative while the
    /// weight rights it.
    pub fn moment(&self, force: &PlaneForce, lean_rad: f64) -> f64 {
        self.moment_at(force, lean_rad.sine_cosine())
    }

    /// [`Self::moment`] at a lean of which sine and cosine are known.
    pub(super) fn moment_at(&self, force: &PlaneForce, (sin, cos): (f64, f64)) -> f64 {
        let beyond = self.centre_height_m * sin - self.reach_m * cos;
        let above = self.centre_height_m * cos + self.reach_m * sin;
        force.a_h * above + force.a_n * beyond + force.spin
    }

    /// Work of the force from upright to a lean per unit mass, m²/s².
    pub fn energy(&self, force: &PlaneForce, lean_rad: f64) -> f64 {
        let (h, b) = (self.centre_height_m, self.reach_m);
        let sin = lean_rad.sine();
        // 1 - cos, without the loss of digits at a small lean.
        let versine = 2.0 * (0.5 * lean_rad).sine().whole_power(2);
        force.a_h * (h * sin + b * versine)
            + force.a_n * (h * versine - b * sin)
            + force.spin * lean_rad
    }

    /// From the foot edge to the centre of gravity, m.
    pub fn edge_to_centre_m(&self) -> f64 {
        self.centre_height_m.hypotenuse(self.reach_m)
    }

    /// Lean at which the centre of gravity stands over the foot edge, rad.
    pub fn tip_angle_rad(&self) -> f64 {
        super::standing::static_tip_angle_rad(self.reach_m, self.centre_height_m)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::motion::GRAVITY;
    use crate::mechanics::testing::{AL80, AL80_BASE_M, assert_close};
    use crate::mechanics::vector::vec3;
    use proptest::prelude::*;

    const STANCE: Stance = Stance {
        centre_height_m: AL80.centre_height_m,
        reach_m: AL80_BASE_M,
    };

    /// Table of `docs/method.md`, "Slack and snatch": strap at 0.44 m, slack 20 mm.
    #[test]
    fn lean_into_a_slack_strap_matches_the_table() {
        let force = PlaneForce {
            a_h: 0.4 * GRAVITY,
            a_n: 0.95 * GRAVITY,
            spin: 0.0,
        };
        let lean = 0.02 / 0.44;
        assert_close(AL80.mass_kg * STANCE.energy(&force, lean), 0.44804, 0.5e-5);
        assert_close(AL80.mass_kg * STANCE.moment(&force, lean), 11.18423, 0.5e-5);
    }

    #[test]
    fn the_worst_plane_keeps_the_whole_tipping_moment() {
        let force = Force {
            f: vec3(1.0, -2.0, -9.0),
            roll_acceleration: 0.8,
            pitch_acceleration: 0.4,
            ..Force::default()
        };
        let plane = PlaneForce::worst(&force, &AL80);
        let whole = force.tipping(AL80.centre_height_m, AL80.kappa2_m2).length();
        assert_close(plane.a_h * AL80.centre_height_m + plane.spin, whole, 1e-12);
        let d = tipping_direction(&force, &AL80);
        let towards = PlaneForce::towards(&force, &AL80, d);
        assert_close(
            towards.a_h * AL80.centre_height_m + towards.spin,
            whole,
            1e-12,
        );
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(128))]

        #[test]
        fn the_moment_is_the_slope_of_the_energy(
            a_h in -5.0..5.0_f64, a_n in 2.0..14.0_f64, spin in -0.1..0.1_f64, lean in 0.0..1.2_f64,
        ) {
            let force = PlaneForce { a_h, a_n, spin };
            let step = 1e-5;
            let slope = (STANCE.energy(&force, lean + step) - STANCE.energy(&force, lean - step)) / (2.0 * step);
            prop_assert!((slope - STANCE.moment(&force, lean)).abs() < 1e-7);
        }
    }
}
