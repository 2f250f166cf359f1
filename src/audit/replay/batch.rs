//! Attitudes side by side, so that many bodies are looked at quickly.

use crate::engine::Takes;
use crate::mechanics::attitude::{Attitude, Field};
use crate::mechanics::envelope::Envelope;

/// Attitudes that are looked at together: what a core keeps near.
pub const BATCH: usize = 4096;

/// A run of attitudes, each quantity by itself.
#[derive(Clone, Debug, Default)]
pub struct Batch {
    /// The attitudes.
    pub at: Vec<Attitude>,
    along: Vec<f64>,
    across: Vec<f64>,
    down: Vec<f64>,
    p: Vec<f64>,
    q_cos: Vec<f64>,
    q_sin: Vec<f64>,
    roll_rate2: Vec<f64>,
    pitch_rate2: Vec<f64>,
}

impl Batch {
    /// Adds the next attitude.
    pub fn push(&mut self, at: Attitude) {
        let field = Field::of(&at);
        self.at.push(at);
        self.along.push(field.along);
        self.across.push(field.across);
        self.down.push(field.down);
        self.p.push(field.p);
        self.q_cos.push(field.q_cos);
        self.q_sin.push(field.q_sin);
        self.roll_rate2.push(field.roll_rate2);
        self.pitch_rate2.push(field.pitch_rate2);
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
    pub fn used(&self, takes: &Takes, used: &mut Vec<f32>) {
        let n = self.len();
        used.clear();
        used.resize(n, 0.0);
        let [x, y, z] = takes.place_m;
        let turning_z = z + takes.turns_above_m;
        let (along, across, down) = (&self.along[..n], &self.across[..n], &self.down[..n]);
        let (p, q_cos, q_sin) = (&self.p[..n], &self.q_cos[..n], &self.q_sin[..n]);
        let (roll2, pitch2) = (&self.roll_rate2[..n], &self.pitch_rate2[..n]);
        let force = |i: usize| {
            let f_x = along[i] + q_cos[i] * turning_z + q_sin[i] * y + pitch2[i] * x;
            let f_y = across[i] - p[i] * turning_z - q_sin[i] * x + roll2[i] * y;
            let a_n = down[i] - p[i] * y + q_cos[i] * x - (roll2[i] + pitch2[i]) * z;
            (f_x, f_y, a_n)
        };
        match &takes.envelope {
            Envelope::Ratio(ratio) => {
                let inverse = 1.0 / ratio;
                for (i, share) in used.iter_mut().enumerate() {
                    let (f_x, f_y, a_n) = force(i);
                    let value = inverse * (f_x * f_x + f_y * f_y).sqrt() / a_n;
                    *share = single(if a_n > 0.0 { value } else { f64::INFINITY });
                }
            }
            table @ Envelope::Table(_) => {
                for (i, share) in used.iter_mut().enumerate() {
                    let (f_x, f_y, a_n) = force(i);
                    *share = single(table.used(f_x, f_y, a_n));
                }
            }
        }
    }
}

/// Seven digits are more than any input is known to.
#[expect(clippy::cast_possible_truncation, reason = "a share for a plot")]
#[inline]
fn single(value: f64) -> f32 {
    value as f32
}
