//! The boat at an instant of a recorded or assumed motion: attitude, rates and accelerations, and what a body feels.
//!
//! With `r = (x, y, z)` from the axes of roll and pitch to the body's own centre of gravity, `P = -phi''`,
//! `Q = -theta''` and the vertical acceleration `w` of the boat:
//!
//! ```text
//! f_x =  (g + w) sin th           + Q cos ph z + Q sin ph y + th'^2 x
//! f_y = -(g + w) sin ph cos th    - P z        - Q sin ph x + ph'^2 y
//! f_z = -(g + w) cos ph cos th    + P y        - Q cos ph x + (ph'^2 + th'^2) z
//! ```
//!
//! A log has angles; rates and accelerations are differences over [`LOOK_S`] to both sides, which reads a swing of
//! 2 s to 0.8 % and smooths what a sensor rounds.
//!
//! # References
//!
//! Derived in `docs/method.md`, "Motion" and "Rocking in time": the vector form of the extremes with the terms of the
//! rates, which are zero there.

use std::collections::VecDeque;

use super::motion::GRAVITY;
use super::motion_log::Sample;
use super::rocking::Felt;
use super::vector::vec3;
use crate::geometry::Elementary as _;

/// How far before and after an instant the differences look, s.
pub const LOOK_S: f64 = 0.1;

/// Samples further apart than this tell no angular accelerations, s.
pub const COARSEST_S: f64 = 0.5;

/// Samples that are kept for the differences, at most.
const MOST_KEPT: usize = 1024;

/// The boat at an instant.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Attitude {
    /// s.
    pub time_s: f64,

    /// Starboard down > 0, rad.
    pub roll_rad: f64,

    /// Bow down > 0, rad.
    pub pitch_rad: f64,

    /// Vertical acceleration at the axes, up > 0, m/s².
    pub vertical: f64,

    /// rad/s.
    pub roll_rate: f64,

    /// rad/s.
    pub pitch_rate: f64,

    /// rad/s².
    pub roll_acceleration: f64,

    /// rad/s².
    pub pitch_acceleration: f64,
}

impl Attitude {
    /// What a body feels whose centre of gravity is there: forward of the pitch axis, to port, above the roll axis, m.
    pub fn felt(&self, [x, y, z]: [f64; 3]) -> Felt {
        let field = Field::of(self);
        Felt {
            f: vec3(
                field.along + field.q_cos * z + field.q_sin * y + field.pitch_rate2 * x,
                field.across - field.p * z - field.q_sin * x + field.roll_rate2 * y,
                -field.down + field.p * y - field.q_cos * x
                    + (field.roll_rate2 + field.pitch_rate2) * z,
            ),
            roll_acceleration: self.roll_acceleration,
            pitch_acceleration: self.pitch_acceleration,
        }
    }
}

/// What an attitude makes of every place, in the terms of the module's formula.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Field {
    /// `(g + w) sin th`.
    pub along: f64,
    /// `-(g + w) sin ph cos th`.
    pub across: f64,
    /// `(g + w) cos ph cos th`.
    pub down: f64,
    /// `P`.
    pub p: f64,
    /// `Q cos ph`.
    pub q_cos: f64,
    /// `Q sin ph`.
    pub q_sin: f64,
    /// `ph'^2`.
    pub roll_rate2: f64,
    /// `th'^2`.
    pub pitch_rate2: f64,
}

impl Field {
    /// Of an attitude.
    pub fn of(at: &Attitude) -> Self {
        let (sin_roll, cos_roll) = at.roll_rad.sine_cosine();
        let (sin_pitch, cos_pitch) = at.pitch_rad.sine_cosine();
        let g = GRAVITY + at.vertical;
        let q = -at.pitch_acceleration;
        Self {
            along: g * sin_pitch,
            across: -g * sin_roll * cos_pitch,
            down: g * cos_roll * cos_pitch,
            p: -at.roll_acceleration,
            q_cos: q * cos_roll,
            q_sin: q * sin_roll,
            roll_rate2: at.roll_rate * at.roll_rate,
            pitch_rate2: at.pitch_rate * at.pitch_rate,
        }
    }
}

/// Makes attitudes of samples, in bounded memory.
#[derive(Clone, Debug, Default)]
pub struct Differences {
    kept: VecDeque<Sample>,
    told_s: Option<f64>,
}

impl Differences {
    /// Takes the next sample; tells the attitude at the middle of what it has seen, a little while ago.
    pub fn push(&mut self, sample: Sample) -> Option<Attitude> {
        self.kept.push_back(sample);
        while self.kept.len() > MOST_KEPT
            || (self.kept.len() > 3
                && (self.kept.get(1))
                    .is_some_and(|second| sample.time_s - second.time_s >= 1.999 * LOOK_S))
        {
            self.kept.pop_front();
        }
        // As many samples before the middle one as after it; in time it need not be halfway.
        let half_way = self.kept.len() / 2;
        let middle = *self.kept.get(half_way)?;
        let first = *self.kept.get(2 * half_way + 1 - self.kept.len())?;
        let (before, after) = (middle.time_s - first.time_s, sample.time_s - middle.time_s);
        let half = 0.5 * (before + after);
        let told_already = self.told_s.is_some_and(|told| middle.time_s <= told);
        let is_read = (0.5 * LOOK_S..=COARSEST_S).contains(&half);
        if before <= 0.0 || after <= 0.0 || !is_read || told_already {
            return None;
        }
        self.told_s = Some(middle.time_s);
        let slopes = |a: f64, b: f64, c: f64| ((b - a) / before, (c - b) / after);
        // Of the parabola through the three.
        let rate = |(early, late): (f64, f64)| (early * after + late * before) / (before + after);
        let roll = slopes(first.roll_rad, middle.roll_rad, sample.roll_rad);
        let pitch = slopes(first.pitch_rad, middle.pitch_rad, sample.pitch_rad);
        Some(Attitude {
            time_s: middle.time_s,
            roll_rad: middle.roll_rad,
            pitch_rad: middle.pitch_rad,
            vertical: middle.vertical,
            roll_rate: rate(roll),
            pitch_rate: rate(pitch),
            roll_acceleration: (roll.1 - roll.0) / half,
            pitch_acceleration: (pitch.1 - pitch.0) / half,
        })
    }

    /// The record is broken here.
    pub fn break_off(&mut self) {
        self.kept.clear();
        self.told_s = None;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::motion::{LoadCase, Motion, Swing, force_at};
    use crate::mechanics::property::assert_close;

    /// The last row of the table of `docs/method.md`, "Motion": roll and pitch at `sqrt(1/2)` of each, at the end of
    /// both swings.
    #[test]
    fn at_the_end_of_a_swing_it_is_the_engines_force() {
        let motion = Motion {
            roll_amplitude_rad: 20.0_f64.to_radians(),
            roll_period_s: 4.0,
            pitch_amplitude_rad: 8.0_f64.to_radians(),
            pitch_period_s: 3.2,
            heel_rad: 3.0_f64.to_radians(),
            trim_rad: 1.0_f64.to_radians(),
            vertical_amplitude: 0.1 * GRAVITY,
            ..Motion::default()
        };
        let case = LoadCase {
            swing: Swing::Quartering,
            roll_sign: 1,
            pitch_sign: 1,
            vertical_sign: -1,
            ..LoadCase::AT_REST
        };
        let force = force_at(&motion, &case, vec3(4.0, 2.0, 1.8));
        let half = std::f64::consts::FRAC_1_SQRT_2;
        let acceleration = |deg: f64, period: f64| {
            -(std::f64::consts::TAU / period).whole_power(2) * half * deg.to_radians()
        };
        let attitude = Attitude {
            roll_rad: (3.0 + half * 20.0_f64).to_radians(),
            pitch_rad: (1.0 + half * 8.0_f64).to_radians(),
            vertical: -0.1 * GRAVITY,
            roll_acceleration: acceleration(20.0, 4.0),
            pitch_acceleration: acceleration(8.0, 3.2),
            ..Attitude::default()
        };
        let felt = attitude.felt([4.0, 2.0, 1.8]);
        for (ours, engine, table) in [
            (felt.f.x, force.f.x, 1.90223),
            (felt.f.y, force.f.y, -4.12886),
            (felt.f.z, force.f.z, -8.61392),
        ] {
            assert_close(ours, engine, 1e-12);
            assert_close(ours, table, 0.5e-5);
        }
    }

    /// Against the second difference of the body's place in the earth's frame.
    #[test]
    fn in_mid_swing_it_is_gravity_less_the_bodys_acceleration() {
        let (w, amplitude) = (1.7, 0.35);
        let roll = |t: f64| amplitude * (w * t).sine();
        let r = [1.0, 1.3, 1.6];
        // y to port and z up in the earth's frame, rolling starboard down.
        let place = |t: f64| {
            let (sin, cos) = roll(t).sine_cosine();
            [r[1] * cos - r[2] * sin, r[1] * sin + r[2] * cos]
        };
        let (t, d) = (0.4, 1e-4);
        let acceleration: Vec<f64> = (0..2)
            .map(|i| (place(t + d)[i] - 2.0 * place(t)[i] + place(t - d)[i]) / (d * d))
            .collect();
        let (sin, cos) = roll(t).sine_cosine();
        let earth = [-acceleration[0], -GRAVITY - acceleration[1]];
        let attitude = Attitude {
            roll_rad: roll(t),
            roll_rate: amplitude * w * (w * t).cosine(),
            roll_acceleration: -amplitude * w * w * (w * t).sine(),
            ..Attitude::default()
        };
        let felt = attitude.felt(r);
        assert_close(felt.f.y, earth[0] * cos + earth[1] * sin, 1e-6);
        assert_close(felt.f.z, -earth[0] * sin + earth[1] * cos, 1e-6);
    }

    #[test]
    fn differences_read_a_swing() {
        let w = std::f64::consts::TAU / 3.0;
        for rate_hz in [100.0, 25.0, 10.0, 4.0] {
            let mut differences = Differences::default();
            let mut told = 0;
            for i in 0..200_u32 {
                let time_s = f64::from(i) / rate_hz;
                let sample = Sample {
                    time_s,
                    roll_rad: 0.3 * (w * time_s).sine(),
                    pitch_rad: 0.1 * (w * time_s).cosine(),
                    vertical: 0.0,
                };
                let Some(at) = differences.push(sample) else {
                    continue;
                };
                told += 1;
                let half: f64 = (1.0_f64 / rate_hz).max(LOOK_S);
                let tolerance = 0.3 * w * w * (w * half).whole_power(2) / 8.0 + 1e-9;
                assert_close(
                    at.roll_acceleration,
                    -0.3 * w * w * (w * at.time_s).sine(),
                    tolerance,
                );
                assert_close(at.roll_rate, 0.3 * w * (w * at.time_s).cosine(), tolerance);
                assert_close(
                    at.pitch_acceleration,
                    -0.1 * w * w * (w * at.time_s).cosine(),
                    tolerance,
                );
            }
            assert!(told >= 175, "{rate_hz} Hz: {told}");
        }
    }

    #[test]
    fn samples_too_far_apart_tell_nothing() {
        let mut differences = Differences::default();
        for i in 0..20_u32 {
            let sample = Sample {
                time_s: f64::from(i) * 0.8,
                ..Sample::default()
            };
            assert_eq!(differences.push(sample), None);
        }
    }
}
