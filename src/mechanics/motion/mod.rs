//! What a body feels while the boat rolls, pitches, heaves and is pushed.
//!
//! The boat swings harmonically about a roll axis and a pitch axis. At the end of a swing its
//! angular speed is zero and its angular acceleration is at its largest; that instant is the worst
//! for whatever stands on deck. With the signs `s`, `q`, `e` = ±1 of roll, pitch and heave:
//!
//! ```text
//! phi = phi_s + s phi_a      P = s w_phi^2 phi_a          (roll,  starboard down > 0)
//! theta = theta_s + q theta_a    Q = q w_theta^2 theta_a  (pitch, bow down > 0)
//! f = (g + e a_v) (sin theta, -sin phi cos theta, -cos phi cos theta) - W x r
//! W = (-P, -Q cos phi, +Q sin phi)
//! ```
//!
//! `r` runs from the axes to the body's own centre of gravity. Straight pushes of the boat are taken
//! off: `f_x -= a_forward`, `f_y -= a_port`.
//!
//! # Assumptions
//!
//! * Roll, pitch and heave reach their extremes together; over random cases this instant is the
//!   worst of the whole cycle for all but 0.003 % of bodies above the roll axis.
//! * A quartering sea has `sqrt(1/2)` of each: the slope components of a sea at 45 degrees.
//! * One straight push at a time; sideways acceleration of the boat by the wave itself is left out.
//! * Periods are positive. A zero amplitude may have any positive period.
//! * Of a range of roll periods only the ends are tried. The force is `f_0 + w^2 f_1`, a straight line in `w^2`; what
//!   a body can bear is convex (friction cones, limit analysis), so that what is borne at both ends is borne
//!   between them.
//!
//! # References
//!
//! Derived in `docs/method.md`, "Motion". Standard gravity: CGPM 1901.

mod cases;

#[cfg(test)]
mod tests;

pub use self::cases::{Cases, Extremes, Governing, load_cases};

use std::f64::consts::{FRAC_1_SQRT_2, TAU};

use super::vector::{Vec3, vec3};
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// Standard gravity, m/s² (CGPM 1901).
pub const GRAVITY: f64 = 9.80665;

/// Accelerations of the boat as a whole along its deck, m/s², each zero or more.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct StraightPushes {
    /// The boat gathers speed.
    pub forward: f64,

    /// The boat stops or stuffs its bow.
    pub aft: f64,

    /// The boat is accelerated to port, as in a turn to port: v²/R.
    pub to_port: f64,

    /// The boat is accelerated to starboard, as in a turn to starboard: v²/R.
    pub to_starboard: f64,
}

/// Where the boat turns about, in the boat frame.
#[expect(clippy::struct_field_names, reason = "the common ending is the unit")]
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Axes {
    /// Height of the roll axis above the still waterline, m; it runs along the centreline.
    pub roll_height_m: f64,

    /// Place of the pitch axis, m forward of the origin.
    pub pitch_x_m: f64,

    /// Height of the pitch axis above the still waterline, m.
    pub pitch_height_m: f64,
}

/// The motion of the boat during a part of the day.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Motion {
    /// Roll amplitude about the steady heel.
    pub roll_amplitude_rad: f64,

    /// Roll period; of a range the shortest.
    pub roll_period_s: f64,

    /// The longest roll period, where only a range is known: both ends are load cases then.
    pub longest_roll_period_s: Option<f64>,

    /// Pitch amplitude about the steady trim.
    pub pitch_amplitude_rad: f64,

    /// Pitch period.
    pub pitch_period_s: f64,

    /// Amplitude of the vertical acceleration (heave and slamming), m/s².
    pub vertical_amplitude: f64,

    /// Steady heel, starboard down > 0. It is the boat's attitude, not a share of its motion.
    pub heel_rad: f64,

    /// Steady trim, bow down > 0.
    pub trim_rad: f64,

    /// Straight pushes.
    pub push: StraightPushes,

    /// The axes of roll and pitch.
    pub axes: Axes,
}

impl Motion {
    /// The motion with roll, pitch, heave and pushes all multiplied by `share`.
    ///
    /// Steady heel and trim stay: they are there at rest already.
    #[must_use]
    pub fn scaled(&self, share: f64) -> Self {
        Self {
            roll_amplitude_rad: self.roll_amplitude_rad * share,
            pitch_amplitude_rad: self.pitch_amplitude_rad * share,
            vertical_amplitude: self.vertical_amplitude * share,
            push: StraightPushes {
                forward: self.push.forward * share,
                aft: self.push.aft * share,
                to_port: self.push.to_port * share,
                to_starboard: self.push.to_starboard * share,
            },
            ..*self
        }
    }

    /// The motion with another roll amplitude at the same period, everything else held.
    #[must_use]
    pub fn with_roll(&self, roll_amplitude_rad: f64) -> Self {
        Self {
            roll_amplitude_rad,
            ..*self
        }
    }
}

/// Which swing is at its extreme.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Swing {
    /// None: steady heel and trim.
    Steady,

    /// Full roll.
    Rolling,

    /// Full pitch.
    Pitching,

    /// `sqrt(1/2)` of each.
    Quartering,
}

/// Which straight push acts.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Push {
    /// None.
    None,

    /// Gathering speed.
    Forward,

    /// Stopping.
    Aft,

    /// Accelerated to port.
    ToPort,

    /// Accelerated to starboard.
    ToStarboard,
}

/// Which end of a range of roll periods; where there is one period it is both.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum PeriodEnd {
    /// The quickest roll.
    #[default]
    Shortest,

    /// The slowest roll.
    Longest,
}

/// One combination of extremes that is tried.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct LoadCase {
    /// Which swing is at its extreme.
    pub swing: Swing,

    /// `s`: +1 starboard down, -1 port down, 0 no roll in this case.
    pub roll_sign: i8,

    /// `q`: +1 bow down, -1 bow up, 0 no pitch in this case.
    pub pitch_sign: i8,

    /// `e`: +1 heavy, -1 light, 0 no vertical acceleration.
    pub vertical_sign: i8,

    /// Which straight push acts.
    pub push: Push,

    /// At which end of a range of roll periods.
    pub end: PeriodEnd,
}

impl LoadCase {
    /// The boat at its steady heel and trim, nothing moving.
    pub const AT_REST: Self = Self {
        swing: Swing::Steady,
        roll_sign: 0,
        pitch_sign: 0,
        vertical_sign: 0,
        push: Push::None,
        end: PeriodEnd::Shortest,
    };

    fn swing_shares(self) -> (f64, f64) {
        let share = match self.swing {
            Swing::Quartering => FRAC_1_SQRT_2,
            Swing::Steady | Swing::Rolling | Swing::Pitching => 1.0,
        };
        (
            share * f64::from(self.roll_sign),
            share * f64::from(self.pitch_sign),
        )
    }
}

/// What a body feels per unit mass, and how the deck turns under it.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Force {
    /// Apparent force per unit mass in the boat frame, m/s²: gravity less the body's acceleration.
    pub f: Vec3,

    /// `P`, rad/s²: signed `w^2 phi` of the roll; the deck's own angular acceleration is `-P`.
    pub roll_acceleration: f64,

    /// `Q`, rad/s²: the same of the pitch.
    pub pitch_acceleration: f64,

    /// `W` of the module's formula, rad/s²: how the force changes from place to place.
    pub turning: Vec3,
}

impl Force {
    /// The part along the deck, m/s².
    pub fn along_deck(&self) -> Vec2 {
        self.f.horizontal()
    }

    /// What a body feels in the same load case whose centre of gravity is `offset` away, in metres.
    #[must_use]
    pub fn moved_by(&self, offset: Vec3) -> Self {
        Self {
            f: self.f - self.turning.cross(offset),
            ..*self
        }
    }

    /// `a_h`: size of the part along the deck, m/s².
    pub fn a_h(&self) -> f64 {
        self.along_deck().length()
    }

    /// `a_n`: what presses the body onto the deck, m/s²; negative when it lifts off.
    pub fn a_n(&self) -> f64 {
        -self.f.z
    }

    /// Overturning moment per unit mass, m²/s², pointing the way it tips.
    ///
    /// `lever_m` is the height at which the force acts; `kappa2_m2 = I_cg / m` adds what it takes to
    /// turn the body with the deck: `P` along -y, `Q` along +x.
    pub fn tipping(&self, lever_m: f64, kappa2_m2: f64) -> Vec2 {
        vec2(
            self.f.x * lever_m + kappa2_m2 * self.pitch_acceleration,
            self.f.y * lever_m - kappa2_m2 * self.roll_acceleration,
        )
    }
}

/// Attitude and angular accelerations of the boat at one extreme of its swing.
#[derive(Copy, Clone, Debug)]
struct Attitude {
    /// Direction of gravity in the boat frame.
    down: Vec3,
    /// `P`.
    roll: f64,
    /// `Q`.
    pitch: f64,
    /// `Q cos phi`.
    pitch_cos: f64,
    /// `Q sin phi`.
    pitch_sin: f64,
}

/// Roll or pitch at a share of its swing.
#[derive(Copy, Clone, Debug)]
struct Turned {
    acceleration: f64,
    sin: f64,
    cos: f64,
}

impl Turned {
    fn roll(motion: &Motion, end: PeriodEnd, share: f64) -> Self {
        let swing = share * motion.roll_amplitude_rad;
        let period_s = match (end, motion.longest_roll_period_s) {
            (PeriodEnd::Longest, Some(longest_s)) => longest_s,
            _ => motion.roll_period_s,
        };
        Self::new(motion.heel_rad, swing, period_s)
    }

    fn pitch(motion: &Motion, share: f64) -> Self {
        let swing = share * motion.pitch_amplitude_rad;
        Self::new(motion.trim_rad, swing, motion.pitch_period_s)
    }

    fn new(steady_rad: f64, swing_rad: f64, period_s: f64) -> Self {
        let (sin, cos) = (steady_rad + swing_rad).sine_cosine();
        Self {
            acceleration: angular_acceleration(swing_rad, period_s),
            sin,
            cos,
        }
    }
}

impl Attitude {
    fn new(motion: &Motion, case: LoadCase) -> Self {
        let (roll_share, pitch_share) = case.swing_shares();
        Self::of(
            &Turned::roll(motion, case.end, roll_share),
            &Turned::pitch(motion, pitch_share),
        )
    }

    fn of(roll: &Turned, pitch: &Turned) -> Self {
        Self {
            down: vec3(pitch.sin, -roll.sin * pitch.cos, -roll.cos * pitch.cos),
            roll: roll.acceleration,
            pitch: pitch.acceleration,
            pitch_cos: pitch.acceleration * roll.cos,
            pitch_sin: pitch.acceleration * roll.sin,
        }
    }

    /// `(g + e a_v) down - W x r`, with `r` taken from the roll axis for `P` and from the pitch
    /// axis for `Q`.
    fn force_at(&self, axes: &Axes, g: f64, position: Vec3) -> Force {
        let above_roll = position.z - axes.roll_height_m;
        let above_pitch = position.z - axes.pitch_height_m;
        let ahead = position.x - axes.pitch_x_m;
        Force {
            f: vec3(
                g * self.down.x + self.pitch_cos * above_pitch + self.pitch_sin * position.y,
                g * self.down.y - self.pitch_sin * ahead - self.roll * above_roll,
                g * self.down.z + self.roll * position.y - self.pitch_cos * ahead,
            ),
            roll_acceleration: self.roll,
            pitch_acceleration: self.pitch,
            turning: vec3(-self.roll, -self.pitch_cos, self.pitch_sin),
        }
    }
}

/// `w^2` times the swing; no swing has none, whatever its period.
fn angular_acceleration(swing_rad: f64, period_s: f64) -> f64 {
    if swing_rad == 0.0 {
        return 0.0;
    }
    let w = TAU / period_s;
    w * w * swing_rad
}

fn apparent_gravity(motion: &Motion, vertical_sign: i8) -> f64 {
    GRAVITY + f64::from(vertical_sign) * motion.vertical_amplitude
}

fn boat_acceleration(pushes: &StraightPushes, push: Push) -> Vec2 {
    match push {
        Push::None => vec2(0.0, 0.0),
        Push::Forward => vec2(pushes.forward, 0.0),
        Push::Aft => vec2(-pushes.aft, 0.0),
        Push::ToPort => vec2(0.0, pushes.to_port),
        Push::ToStarboard => vec2(0.0, -pushes.to_starboard),
    }
}

/// The force on a body while the boat is accelerated along its deck.
fn pushed(force: Force, acceleration: Vec2) -> Force {
    let f = force.f - vec3(acceleration.x, acceleration.y, 0.0);
    Force { f, ..force }
}

/// What a body whose centre of gravity is at `position` feels in one load case.
///
/// `position` is in the boat frame.
pub fn force_at(motion: &Motion, case: &LoadCase, position: Vec3) -> Force {
    let g = apparent_gravity(motion, case.vertical_sign);
    let force = Attitude::new(motion, *case).force_at(&motion.axes, g, position);
    pushed(force, boat_acceleration(&motion.push, case.push))
}
