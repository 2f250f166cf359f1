//! All load cases of a motion, prepared once and asked at many positions.

use std::f64::consts::FRAC_1_SQRT_2;

use super::{
    Attitude, Axes, Force, GRAVITY, LoadCase, Motion, PeriodEnd, Push, Swing, Turned,
    apparent_gravity, boat_acceleration, pushed,
};
use crate::geometry::{Vec2, vec2};
use crate::mechanics::vector::{Vec3, vec3};

/// The force field of one load case without a push, ready to be asked at any position.
#[derive(Copy, Clone, Debug)]
struct Field {
    case: LoadCase,
    g: f64,
    attitude: Attitude,
}

/// Every load case of a motion: see [`Cases`].
pub fn load_cases(motion: &Motion) -> Vec<LoadCase> {
    let cases = Cases::new(motion);
    cases
        .forces(vec3(0.0, 0.0, 0.0))
        .map(|(case, _)| case)
        .collect()
}

/// Steady 2, rolling 4, pitching 4, quartering 8; rolling and quartering at both ends of a range of periods.
const MOST_FIELDS: usize = 30;

/// None, forward, aft, to port, to starboard.
const MOST_PUSHES: usize = 5;

/// To either side.
const BOTH: [i8; 2] = [1, -1];

/// All load cases of one motion, prepared once and then asked at many positions.
///
/// Steady, rolling, pitching and quartering, each in every sign of roll, pitch and heave, each
/// without a push and with every push that is not zero; rolling and quartering at both ends of a range of periods. Cases that a zero amplitude makes equal to
/// another are left out. Nothing is allocated.
#[derive(Copy, Clone, Debug)]
pub struct Cases {
    fields: [Field; MOST_FIELDS],
    field_count: usize,
    pushes: [(Push, Vec2); MOST_PUSHES],
    push_count: usize,
    axes: Axes,
}

/// Bounds of what a body feels.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Extremes {
    /// The most along the deck, m/s².
    pub a_h: f64,

    /// The least and the most that presses onto the deck, m/s².
    pub a_n: [f64; 2],

    /// The largest angular acceleration, rad/s².
    pub turning: f64,
}

impl Cases {
    /// Prepares the load cases of a motion.
    pub fn new(motion: &Motion) -> Self {
        let short = PeriodEnd::Shortest;
        let still = [Turned::roll(motion, short, 0.0), Turned::pitch(motion, 0.0)];
        let rest = Field {
            case: LoadCase::AT_REST,
            g: GRAVITY,
            attitude: Attitude::of(&still[0], &still[1]),
        };
        let mut cases = Self {
            fields: [rest; MOST_FIELDS],
            field_count: 0,
            pushes: [(Push::None, vec2(0.0, 0.0)); MOST_PUSHES],
            push_count: 1,
            axes: motion.axes,
        };
        let (roll_signs, pitch_signs) = (
            signs(motion.roll_amplitude_rad),
            signs(motion.pitch_amplitude_rad),
        );
        let ends = match motion.longest_roll_period_s {
            Some(_) => &[short, PeriodEnd::Longest][..],
            None => &[short],
        };
        // Each sine once: the same roll meets several pitches.
        let [roll, pitch] = still;
        let rolled = |end: PeriodEnd, share: f64| {
            BOTH.map(|sign| (sign, Turned::roll(motion, end, share * f64::from(sign))))
        };
        let pitched =
            |share: f64| BOTH.map(|sign| (sign, Turned::pitch(motion, share * f64::from(sign))));
        cases.add(motion, (Swing::Steady, short), &[(0, roll)], &[(0, pitch)]);
        if roll_signs.len() > 1 {
            for end in ends {
                let rolls = rolled(*end, 1.0);
                cases.add(motion, (Swing::Rolling, *end), &rolls, &[(0, pitch)]);
            }
        }
        if pitch_signs.len() > 1 {
            cases.add(
                motion,
                (Swing::Pitching, short),
                &[(0, roll)],
                &pitched(1.0),
            );
        }
        if roll_signs.len() > 1 && pitch_signs.len() > 1 {
            let pitches = pitched(FRAC_1_SQRT_2);
            for end in ends {
                let rolls = rolled(*end, FRAC_1_SQRT_2);
                cases.add(motion, (Swing::Quartering, *end), &rolls, &pitches);
            }
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

    fn add(
        &mut self,
        motion: &Motion,
        (swing, end): (Swing, PeriodEnd),
        rolls: &[(i8, Turned)],
        pitches: &[(i8, Turned)],
    ) {
        for (roll_sign, roll) in rolls {
            for (pitch_sign, pitch) in pitches {
                let attitude = Attitude::of(roll, pitch);
                for &vertical_sign in signs(motion.vertical_amplitude) {
                    self.fields[self.field_count] = Field {
                        case: LoadCase {
                            swing,
                            roll_sign: *roll_sign,
                            pitch_sign: *pitch_sign,
                            vertical_sign,
                            push: Push::None,
                            end,
                        },
                        g: apparent_gravity(motion, vertical_sign),
                        attitude,
                    };
                    self.field_count += 1;
                }
            }
        }
    }

    /// Between what a body whose centre of gravity is at `position` feels in all cases: quickly found, as each bound is
    /// taken by itself.
    pub fn extremes(&self, position: Vec3) -> Extremes {
        let mut extremes = Extremes {
            a_h: 0.0,
            a_n: [f64::INFINITY, f64::NEG_INFINITY],
            turning: 0.0,
        };
        let (mut along2, mut turning2) = (0.0_f64, 0.0_f64);
        for field in &self.fields[..self.field_count] {
            let force = field.attitude.force_at(&self.axes, field.g, position);
            let a_n = force.a_n();
            extremes.a_n = [extremes.a_n[0].min(a_n), extremes.a_n[1].max(a_n)];
            let turning = vec2(force.roll_acceleration, force.pitch_acceleration);
            turning2 = turning2.max(turning.length_squared());
            for &(_, acceleration) in &self.pushes[..self.push_count] {
                along2 = along2.max(pushed(force, acceleration).along_deck().length_squared());
            }
        }
        (extremes.a_h, extremes.turning) = (along2.sqrt(), turning2.sqrt());
        extremes
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

    /// The same as a list.
    pub fn list_of_forces(&self, position: Vec3) -> Vec<(LoadCase, Force)> {
        let mut list = Vec::with_capacity(self.field_count * self.push_count);
        // Plain loops, as in `governing`.
        for field in &self.fields[..self.field_count] {
            let force = field.attitude.force_at(&self.axes, field.g, position);
            for &(push, acceleration) in &self.pushes[..self.push_count] {
                let case = LoadCase { push, ..field.case };
                list.push((case, pushed(force, acceleration)));
            }
        }
        list
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
    if amplitude == 0.0 { &[0] } else { &BOTH }
}
