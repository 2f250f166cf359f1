//! A free-standing body that rocks on its foot edges in time: does it come back, or does it go over?
//!
//! The body rocks in an upright plane along the unit vector `d`. It stands on one of two edges: `s = +1` on the one
//! towards `d` (lean `th > 0`, its top goes towards `d`), `s = -1` on the other. With `b_s` from below the centre of
//! gravity to that edge, `h` the height of the centre, `k2 = I_cg / m`, `R_s^2 = h^2 + b_s^2` and
//! `al_s = atan(b_s / h)`:
//!
//! ```text
//! (k2 + R_s^2) th'' = f_d R_s cos(al_s - |th|) - s a_n R_s sin(al_s - |th|) - k2 Phi''
//! starts    f_d h - k2 Phi'' > a_n b_R  (s = +1)   or   -(f_d h - k2 Phi'') > a_n b_L  (s = -1)
//! impact    th'+ = th'- [k2 + h^2 - b_R b_L] / (k2 + R_new^2)        Housner's, angular momentum about the new edge
//! ```
//!
//! `f_d` is the apparent force along the deck towards `d` and `a_n` the one onto the deck, both with their signs, at
//! the moving centre of gravity; `Phi''` is the deck's own angular acceleration, positive when it turns the top
//! towards `d`. Where `a_n` is not positive nothing presses the body down: it lifts off, and the model ends.
//!
//! # Assumptions
//!
//! * A rigid body on a rigid deck, no sliding, no bouncing, in one plane. A real round foot also walks round its rim,
//!   so that the plane model is the lower bound of mischief.
//! * A verdict takes no credit for what an impact takes away: [`Impact::Lossless`] beside [`Impact::Housner`], and the
//!   worse of the two stands. Without loss is nearly, not strictly, the worst: of 150 choppy records one went over
//!   with Housner's loss only, 25 without loss only.
//! * Swings below [`REST_RAD`] are rest.
//!
//! # Accuracy
//!
//! Runge and Kutta's method of the fourth order; impacts are found within a step to rounding, so that the order holds
//! across them (a test measures it by halving the step). The force runs straight between two samples.
//!
//! # References
//!
//! G. W. Housner (1963), Bulletin of the Seismological Society of America 53(2), 403-417, for the block; with the
//! cylinder's inertia, two unequal edges and a turning deck derived in `docs/method.md`, "Rocking in time".

use crate::geometry::Elementary as _;

mod swing;
mod upright;

#[cfg(test)]
mod tests;

pub use self::swing::{Ended, Swing};
pub use self::upright::{Felt, Outcome, Rocking, Upright};

/// A lean beyond which nothing on a boat brings a body back: 45 degrees.
pub const OVER_RAD: f64 = std::f64::consts::FRAC_PI_4;

/// Swings that stay below this lean count as rest: six thousandths of a degree.
pub const REST_RAD: f64 = 1e-4;

/// Longest step of the integration, s: the time constant of the lightest cylinders is ten times as long.
pub const LONGEST_STEP_S: f64 = 0.02;

/// What an impact of the foot on the deck takes away.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Impact {
    /// Nothing: what a verdict counts on.
    Lossless,
    /// What keeps the angular momentum about the new edge (Housner).
    Housner,
}

/// A body as it stands in the plane in which it rocks.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Rocker {
    /// `h`: height of the centre of gravity above the deck, m.
    pub centre_height_m: f64,

    /// `b_R` and `b_L`: from below the centre of gravity to the edge towards `d` and to the one away from it, m.
    pub reach_m: [f64; 2],

    /// `I_cg / m` about the level axis square to the plane, m².
    pub kappa2_m2: f64,
}

/// What the body feels in its plane.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Drive {
    /// `f_d`: along the deck towards `d`, m/s².
    pub along: f64,

    /// `a_n`: onto the deck, m/s².
    pub onto: f64,

    /// `Phi''`: angular acceleration of the deck that turns the top towards `d`, rad/s².
    pub turning: f64,
}

impl Drive {
    /// Part of the way from this one to another.
    #[must_use]
    pub fn towards(&self, other: &Self, share: f64) -> Self {
        let between = |a: f64, b: f64| a + share * (b - a);
        Self {
            along: between(self.along, other.along),
            onto: between(self.onto, other.onto),
            turning: between(self.turning, other.turning),
        }
    }
}

/// The edge on which a body stands.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Side {
    /// Towards `d`: it leans that way.
    Towards,
    /// Away from `d`.
    Away,
}

impl Side {
    /// `s`.
    pub fn sign(self) -> f64 {
        match self {
            Self::Towards => 1.0,
            Self::Away => -1.0,
        }
    }

    /// The other edge.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Towards => Self::Away,
            Self::Away => Self::Towards,
        }
    }
}

impl Rocker {
    /// A body with the same reach to both sides.
    pub const fn even(centre_height_m: f64, reach_m: f64, kappa2_m2: f64) -> Self {
        Self {
            centre_height_m,
            reach_m: [reach_m, reach_m],
            kappa2_m2,
        }
    }

    /// A solid cylinder of this radius and height on its flat foot: `I_o / m = 5 r^2 / 4 + H^2 / 3`.
    pub fn solid_cylinder(radius_m: f64, height_m: f64) -> Self {
        let kappa2_m2 = radius_m * radius_m / 4.0 + height_m * height_m / 12.0;
        Self::even(0.5 * height_m, radius_m, kappa2_m2)
    }

    /// `b_s`.
    pub fn reach(&self, side: Side) -> f64 {
        match side {
            Side::Towards => self.reach_m[0],
            Side::Away => self.reach_m[1],
        }
    }

    /// `(I_cg + m R_s^2) / m`: inertia about the edge over mass, m².
    pub fn inertia(&self, side: Side) -> f64 {
        let reach = self.reach(side);
        self.kappa2_m2 + self.centre_height_m * self.centre_height_m + reach * reach
    }

    /// `al_s`: the lean at which the centre of gravity stands over the edge, rad.
    pub fn balance_rad(&self, side: Side) -> f64 {
        self.reach(side).arc_tangent_over(self.centre_height_m)
    }

    /// `p = sqrt(g R / (I_o / m))` of a level deck under `gravity`, rad/s: how quickly a fall grows.
    pub fn frequency_rad_s(&self, side: Side, gravity: f64) -> f64 {
        let arm = self.centre_height_m.hypotenuse(self.reach(side));
        (gravity * arm / self.inertia(side)).sqrt()
    }

    /// Angular acceleration at a lean on an edge, rad/s². It is carried on smoothly beyond the impact, for the trials
    /// of a step.
    pub fn acceleration(&self, side: Side, lean_rad: f64, drive: &Drive) -> f64 {
        let (h, b, s) = (self.centre_height_m, self.reach(side), side.sign());
        let (sin, cos) = sin_cos(s * lean_rad);
        // R cos(al - |th|) and R sin(al - |th|).
        let above = h * cos + b * sin;
        let within = b * cos - h * sin;
        (drive.along * above - s * drive.onto * within - self.kappa2_m2 * drive.turning)
            / self.inertia(side)
    }

    /// By how much the push exceeds what keeps a body at rest on its foot, to the one side and the other, m²/s²:
    /// positive where it lifts.
    pub fn excess(&self, side: Side, drive: &Drive) -> f64 {
        let push = drive.along * self.centre_height_m - self.kappa2_m2 * drive.turning;
        side.sign() * push - drive.onto * self.reach(side)
    }

    /// The share of the angular speed that an impact leaves, going over to the edge `onto`.
    pub fn speed_kept(&self, onto: Side, impact: Impact) -> f64 {
        match impact {
            Impact::Lossless => 1.0,
            Impact::Housner => {
                let h = self.centre_height_m;
                let kept = self.kappa2_m2 + h * h - self.reach_m[0] * self.reach_m[1];
                // A squat body would be thrown back by it: it comes to rest.
                (kept / self.inertia(onto)).max(0.0)
            }
        }
    }
}

/// Sine and cosine of an angle of at most a radian, to 3e-14: the same on every machine, and faster than the
/// library's.
fn sin_cos(x: f64) -> (f64, f64) {
    if x.abs() > 1.0 {
        return x.sine_cosine();
    }
    let q = x * x;
    let sin = x
        * (1.0
            - q / 6.0
                * (1.0
                    - q / 20.0
                        * (1.0
                            - q / 42.0
                                * (1.0
                                    - q / 72.0
                                        * (1.0
                                            - q / 110.0
                                                * (1.0 - q / 156.0 * (1.0 - q / 210.0)))))));
    let cos = 1.0
        - q / 2.0
            * (1.0
                - q / 12.0
                    * (1.0
                        - q / 30.0
                            * (1.0
                                - q / 56.0
                                    * (1.0 - q / 90.0 * (1.0 - q / 132.0 * (1.0 - q / 182.0))))));
    (sin, cos)
}
