//! Attitudes side by side, so that many bodies are looked at quickly.

use crate::engine::Takes;
use crate::mechanics::attitude::{Attitude, Field};
use crate::mechanics::envelope::MANY;

/// Attitudes that are looked at together: what a core keeps near.
pub const BATCH: usize = 4096;

/// A run of attitudes, each quantity by itself.
#[derive(Clone, Debug, Default)]
pub struct Batch {
    /// The attitudes.
    pub at: Vec<Attitude>,
    along: Vec<f32>,
    across: Vec<f32>,
    down: Vec<f32>,
    p: Vec<f32>,
    q_cos: Vec<f32>,
    q_sin: Vec<f32>,
    roll_rate2: Vec<f32>,
    pitch_rate2: Vec<f32>,
}

impl Batch {
    /// Adds the next attitude.
    pub fn push(&mut self, at: Attitude) {
        let field = Field::of(&at);
        self.at.push(at);
        self.along.push(single(field.along));
        self.across.push(single(field.across));
        self.down.push(single(field.down));
        self.p.push(single(field.p));
        self.q_cos.push(single(field.q_cos));
        self.q_sin.push(single(field.q_sin));
        self.roll_rate2.push(single(field.roll_rate2));
        self.pitch_rate2.push(single(field.pitch_rate2));
    }

    /// How many it holds.
    pub fn len(&self) -> usize {
        self.at.len()
    }

    /// Holds it none?
    pub fn is_empty(&self) -> bool {
        self.at.is_empty()
    }

    /// Is it time to look at it?
    pub fn is_full(&self) -> bool {
        self.len() >= BATCH
    }

    /// Leaves nothing in it.
    pub fn clear(&mut self) {
        let Self {
            at,
            along,
            across,
            down,
            p,
            q_cos,
            q_sin,
            roll_rate2,
            pitch_rate2,
        } = self;
        at.clear();
        for part in [
            along,
            across,
            down,
            p,
            q_cos,
            q_sin,
            roll_rate2,
            pitch_rate2,
        ] {
            part.clear();
        }
    }

    /// How much of what a cylinder takes is used up at each attitude, into `used`.
    pub fn used<'a>(&'a self, takes: &Takes, used: &mut Vec<f32>) {
        used.clear();
        used.resize(self.len(), 0.0);
        let [x, y, z] = takes.place_m.map(single);
        let turning_z = z + single(takes.turns_above_m);
        let [mut f_x, mut f_y, mut a_n] = [[0.0_f32; MANY]; 3];
        for (number, used) in used.chunks_mut(MANY).enumerate() {
            let n = used.len();
            let part = |of: &'a [f32]| &of[number * MANY..][..n];
            let (along, across, down) = (part(&self.along), part(&self.across), part(&self.down));
            let (p, q_cos, q_sin) = (part(&self.p), part(&self.q_cos), part(&self.q_sin));
            let (roll2, pitch2) = (part(&self.roll_rate2), part(&self.pitch_rate2));
            for i in 0..n {
                f_x[i] = along[i] + q_cos[i] * turning_z + q_sin[i] * y + pitch2[i] * x;
                f_y[i] = across[i] - p[i] * turning_z - q_sin[i] * x + roll2[i] * y;
                a_n[i] = down[i] - p[i] * y + q_cos[i] * x - (roll2[i] + pitch2[i]) * z;
            }
            let forces = [&f_x[..n], &f_y[..n], &a_n[..n]];
            takes.envelope.used_by_many(forces, used);
        }
    }
}

/// Seven digits are more than any input is known to.
#[expect(clippy::cast_possible_truncation, reason = "a share for a plot")]
#[inline]
fn single(value: f64) -> f32 {
    value as f32
}
