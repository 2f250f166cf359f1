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
//!
//! # References
//!
//! Derived in `docs/method.md`, "Motion". Standard gravity: CGPM 1901.

use std::f64::consts::{FRAC_1_SQRT_2, TAU};

use super::vector::{Vec3, vec3};
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

    /// Roll period.
    pub roll_period_s: f64,

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
}

impl LoadCase {
    /// The boat at its steady heel and trim, nothing moving.
    pub const AT_REST: Self = Self {
        swing: Swing::Steady,
        roll_sign: 0,
        pitch_sign: 0,
        vertical_sign: 0,
        push: Push::None,
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
}

impl Force {
    /// The part along the deck, m/s².
    pub fn along_deck(&self) -> Vec2 {
        self.f.horizontal()
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

impl Attitude {
    fn new(motion: &Motion, case: LoadCase) -> Self {
        let (roll_share, pitch_share) = case.swing_shares();
        let roll_swing = roll_share * motion.roll_amplitude_rad;
        let pitch_swing = pitch_share * motion.pitch_amplitude_rad;
        let roll = angular_acceleration(roll_swing, motion.roll_period_s);
        let pitch = angular_acceleration(pitch_swing, motion.pitch_period_s);
        let (sin_phi, cos_phi) = (motion.heel_rad + roll_swing).sin_cos();
        let (sin_theta, cos_theta) = (motion.trim_rad + pitch_swing).sin_cos();
        Self {
            down: vec3(sin_theta, -sin_phi * cos_theta, -cos_phi * cos_theta),
            roll,
            pitch,
            pitch_cos: pitch * cos_phi,
            pitch_sin: pitch * sin_phi,
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
        }
    }
}

/// The force field of one load case without a push, ready to be asked at any position.
#[derive(Copy, Clone, Debug)]
struct Field {
    case: LoadCase,
    g: f64,
    attitude: Attitude,
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

/// Every load case of a motion: see [`Cases`].
pub fn load_cases(motion: &Motion) -> Vec<LoadCase> {
    let cases = Cases::new(motion);
    cases
        .forces(vec3(0.0, 0.0, 0.0))
        .map(|(case, _)| case)
        .collect()
}

/// Steady 2, rolling 4, pitching 4, quartering 8.
const MOST_FIELDS: usize = 18;

/// None, forward, aft, to port, to starboard.
const MOST_PUSHES: usize = 5;

/// All load cases of one motion, prepared once and then asked at many positions.
///
/// Steady, rolling, pitching and quartering, each in every sign of roll, pitch and heave, each
/// without a push and with every push that is not zero. Cases that a zero amplitude makes equal to
/// another are left out. Nothing is allocated.
#[derive(Copy, Clone, Debug)]
pub struct Cases {
    fields: [Field; MOST_FIELDS],
    field_count: usize,
    pushes: [(Push, Vec2); MOST_PUSHES],
    push_count: usize,
    axes: Axes,
}

impl Cases {
    /// Prepares the load cases of a motion.
    pub fn new(motion: &Motion) -> Self {
        let rest = Field {
            case: LoadCase::AT_REST,
            g: GRAVITY,
            attitude: Attitude::new(motion, LoadCase::AT_REST),
        };
        let mut cases = Self {
            fields: [rest; MOST_FIELDS],
            field_count: 0,
            pushes: [(Push::None, vec2(0.0, 0.0)); MOST_PUSHES],
            push_count: 1,
            axes: motion.axes,
        };
        let rolls = signs(motion.roll_amplitude_rad);
        let pitches = signs(motion.pitch_amplitude_rad);
        cases.add(motion, Swing::Steady, &[0], &[0]);
        if rolls.len() > 1 {
            cases.add(motion, Swing::Rolling, rolls, &[0]);
        }
        if pitches.len() > 1 {
            cases.add(motion, Swing::Pitching, &[0], pitches);
        }
        if rolls.len() > 1 && pitches.len() > 1 {
            cases.add(motion, Swing::Quartering, rolls, pitches);
        }
        for push in [Push::Forward, Push::Aft, Push::ToPort, Push::ToStarboard] {
            let acceleration = boat_acceleration(&motion.push, push);
            if acceleration != vec2(0.0, 0.0) {
                cases.pushes[cases.push_count] = (push, acceleration);
                cases.push_count += 1;
            }
        }
        cases
    }

    fn add(&mut self, motion: &Motion, swing: Swing, rolls: &[i8], pitches: &[i8]) {
        for &roll_sign in rolls {
            for &pitch_sign in pitches {
                let case = LoadCase {
                    swing,
                    roll_sign,
                    pitch_sign,
                    vertical_sign: 0,
                    push: Push::None,
                };
                let attitude = Attitude::new(motion, case);
                for &vertical_sign in signs(motion.vertical_amplitude) {
                    self.fields[self.field_count] = Field {
                        case: LoadCase {
                            vertical_sign,
                            ..case
                        },
                        g: apparent_gravity(motion, vertical_sign),
                        attitude,
                    };
                    self.field_count += 1;
                }
            }
        }
    }

    /// What a body whose centre of gravity is at `position` feels, case by case.
    pub fn forces(&self, position: Vec3) -> impl Iterator<Item = (LoadCase, Force)> + '_ {
        let pushes = &self.pushes[..self.push_count];
        self.fields[..self.field_count]
            .iter()
            .flat_map(move |field| {
                let force = field.attitude.force_at(&self.axes, field.g, position);
                pushes.iter().map(move |&(push, acceleration)| {
                    (LoadCase { push, ..field.case }, pushed(force, acceleration))
                })
            })
    }

    /// The case in which `measure` is largest; of equal ones the first.
    ///
    /// A measure that is not a number governs, so that it cannot hide.
    pub fn governing(
        &self,
        position: Vec3,
        mut measure: impl FnMut(&LoadCase, &Force) -> f64,
    ) -> Governing {
        let mut best = Governing {
            value: f64::NEG_INFINITY,
            case: LoadCase::AT_REST,
            force: Force::default(),
        };
        // Plain loops: twice as fast as over `forces`, and this is asked for every body.
        for field in &self.fields[..self.field_count] {
            let force = field.attitude.force_at(&self.axes, field.g, position);
            for &(push, acceleration) in &self.pushes[..self.push_count] {
                let force = pushed(force, acceleration);
                let case = LoadCase { push, ..field.case };
                let value = measure(&case, &force);
                if value.is_nan() {
                    return Governing { value, case, force };
                }
                if value > best.value {
                    best = Governing { value, case, force };
                }
            }
        }
        best
    }
}

/// The load case that governs a measure.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Governing {
    /// The largest value of the measure.
    pub value: f64,

    /// In which load case.
    pub case: LoadCase,

    /// The force in that case.
    pub force: Force,
}

/// An amplitude of zero needs one case only.
fn signs(amplitude: f64) -> &'static [i8] {
    if amplitude == 0.0 { &[0] } else { &[1, -1] }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::testing::assert_close;

    /// Half of the last digit of the table of values in `docs/method.md`, "Motion".
    const TABLE: f64 = 0.5e-5;

    fn rolling() -> Motion {
        Motion {
            roll_amplitude_rad: 20.0_f64.to_radians(),
            roll_period_s: 4.0,
            heel_rad: 3.0_f64.to_radians(),
            ..Motion::default()
        }
    }

    fn pitching() -> Motion {
        Motion {
            pitch_amplitude_rad: 8.0_f64.to_radians(),
            pitch_period_s: 3.2,
            trim_rad: 1.0_f64.to_radians(),
            ..Motion::default()
        }
    }

    fn both() -> Motion {
        Motion {
            roll_amplitude_rad: 20.0_f64.to_radians(),
            roll_period_s: 4.0,
            heel_rad: 3.0_f64.to_radians(),
            ..pitching()
        }
    }

    fn case(swing: Swing, roll_sign: i8, pitch_sign: i8, vertical_sign: i8) -> LoadCase {
        LoadCase {
            swing,
            roll_sign,
            pitch_sign,
            vertical_sign,
            push: Push::None,
        }
    }

    #[test]
    fn rolling_matches_the_table() {
        let at = vec3(0.0, 2.0, 1.8);
        let low = force_at(&rolling(), &case(Swing::Rolling, 1, 0, 0), at);
        assert_close(low.f.y, -5.38208, TABLE);
        assert_close(low.f.z, -7.30450, TABLE);
        let high = force_at(&rolling(), &case(Swing::Rolling, -1, 0, 0), at);
        assert_close(high.f.y, 4.41750, TABLE);
        assert_close(high.f.z, -11.10072, TABLE);
    }

    #[test]
    fn pitching_matches_the_table() {
        let at = vec3(4.0, 0.0, 1.8);
        let down = force_at(&pitching(), &case(Swing::Pitching, 0, 1, 0), at);
        assert_close(down.f.x, 2.50304, TABLE);
        assert_close(down.f.z, -11.83913, TABLE);
        let up = force_at(&pitching(), &case(Swing::Pitching, 0, -1, 0), at);
        assert_close(up.f.x, -2.16408, TABLE);
        assert_close(up.f.z, -7.58034, TABLE);
    }

    #[test]
    fn quartering_matches_the_table() {
        let at = vec3(4.0, 2.0, 1.8);
        let calm = force_at(&both(), &case(Swing::Quartering, 1, 1, 0), at).f;
        assert_close(calm.x, 2.01591, TABLE);
        assert_close(calm.y, -4.41596, TABLE);
        assert_close(calm.z, -9.54470, TABLE);
        let motion = Motion {
            vertical_amplitude: 0.1 * GRAVITY,
            ..both()
        };
        let light = force_at(&motion, &case(Swing::Quartering, 1, 1, -1), at).f;
        assert_close(light.x, 1.90223, TABLE);
        assert_close(light.y, -4.12886, TABLE);
        assert_close(light.z, -8.61392, TABLE);
    }

    #[test]
    fn a_full_motion_has_every_case_once() {
        let motion = Motion {
            vertical_amplitude: 1.0,
            push: StraightPushes {
                aft: 2.0,
                ..StraightPushes::default()
            },
            ..both()
        };
        let mut cases = load_cases(&motion);
        assert_eq!(cases.len(), (2 + 4 + 4 + 8) * 2);
        cases.sort();
        cases.dedup();
        assert_eq!(cases.len(), 36);
        assert_eq!(load_cases(&Motion::default()), [LoadCase::AT_REST]);
    }

    #[test]
    fn prepared_cases_agree_with_single_ones() {
        let motion = Motion {
            vertical_amplitude: 0.7,
            push: StraightPushes {
                forward: 0.5,
                aft: 3.0,
                to_port: 1.0,
                to_starboard: 1.5,
            },
            axes: Axes {
                roll_height_m: 0.2,
                pitch_x_m: 5.0,
                pitch_height_m: -0.1,
            },
            ..both()
        };
        let at = vec3(3.0, -1.5, 1.6);
        let mut count = 0;
        for (case, force) in Cases::new(&motion).forces(at) {
            let single = force_at(&motion, &case, at);
            assert!((single.f - force.f).length() < 1e-12, "{case:?}");
            count += 1;
        }
        assert_eq!(count, 90);
    }

    #[test]
    fn stopping_throws_things_forward() {
        let motion = Motion {
            push: StraightPushes {
                aft: 3.0,
                to_port: 1.0,
                ..StraightPushes::default()
            },
            ..Motion::default()
        };
        let stop = LoadCase {
            push: Push::Aft,
            ..LoadCase::AT_REST
        };
        assert_close(force_at(&motion, &stop, Vec3::default()).f.x, 3.0, 1e-12);
        let turn = LoadCase {
            push: Push::ToPort,
            ..LoadCase::AT_REST
        };
        assert_close(force_at(&motion, &turn, Vec3::default()).f.y, -1.0, 1e-12);
    }

    /// Double numerical differentiation of the body's place over the ground, with the boat's
    /// rotation as matrices: no formula of this file is used.
    #[test]
    fn agrees_with_differentiated_motion() {
        let motion = both();
        let (w_roll, w_pitch) = (TAU / 4.0, TAU / 3.2);
        let at = vec3(4.0, 2.0, 1.8);
        let earth_from_boat = |t: f64, v: Vec3| {
            let phi =
                motion.heel_rad + motion.roll_amplitude_rad * FRAC_1_SQRT_2 * (w_roll * t).cos();
            let theta =
                motion.trim_rad + motion.pitch_amplitude_rad * FRAC_1_SQRT_2 * (w_pitch * t).cos();
            let (s, c) = phi.sin_cos();
            let rolled = vec3(v.x, c * v.y - s * v.z, s * v.y + c * v.z);
            let (s, c) = theta.sin_cos();
            vec3(
                c * rolled.x + s * rolled.z,
                rolled.y,
                c * rolled.z - s * rolled.x,
            )
        };
        let dt = 1e-3;
        let place = |t| earth_from_boat(t, at);
        let acceleration = (1.0 / (dt * dt)) * (place(dt) + place(-dt) - 2.0 * place(0.0));
        let felt = vec3(0.0, 0.0, -GRAVITY) - acceleration;
        let in_boat = |axis| earth_from_boat(0.0, axis).dot(felt);
        let f = force_at(&motion, &case(Swing::Quartering, 1, 1, 0), at).f;
        assert_close(f.x, in_boat(vec3(1.0, 0.0, 0.0)), 1e-4);
        assert_close(f.y, in_boat(vec3(0.0, 1.0, 0.0)), 1e-4);
        assert_close(f.z, in_boat(vec3(0.0, 0.0, 1.0)), 1e-4);
    }
}
