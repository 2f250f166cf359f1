//! The table of an envelope, asked for many forces at once.
//!
//! Each step is done for all forces before the next, so that the compiler can do several at a time; only the corners
//! are fetched one by one. Single precision: seven digits are more than any input is known to.

use super::{DIRECTIONS, LEAST_PRESS, LEAST_PUSH, PRESS_STEP, PRESSES};

/// Forces that are looked at together.
pub const MANY: usize = 64;

/// The four corners of each cell of the table: the lower `a_n` first, then by direction. Inverses, s²/m.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Cells(Vec<[f32; 4]>);

/// The largest number below another, so that what is cut off stays below it.
const fn below(count: usize) -> f32 {
    single(count as f64).next_down()
}

#[expect(clippy::cast_possible_truncation, reason = "see the module")]
const fn single(value: f64) -> f32 {
    value as f32
}

impl Cells {
    pub(super) fn of(rows: &[[f64; DIRECTIONS + 1]]) -> Self {
        let pairs = rows.windows(2).flat_map(|pair| {
            let (low, high) = (pair[0], pair[1]);
            (0..DIRECTIONS)
                .map(move |at| [low[at], low[at + 1], high[at], high[at + 1]].map(single))
        });
        Self(pairs.collect())
    }

    /// As [`super::looked_up`], for up to [`MANY`] forces.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to the table"
    )]
    pub(super) fn look_up(&self, [f_x, f_y, a_n]: [&[f32]; 3], used: &mut [f32]) {
        let n = used.len().min(MANY);
        let (f_x, f_y, a_n, used) = (&f_x[..n], &f_y[..n], &a_n[..n], &mut used[..n]);
        let (mut cell, mut on, mut up) = ([0_u32; MANY], [0.0_f32; MANY], [0.0_f32; MANY]);
        for i in 0..n {
            let size = f_x[i].abs() + f_y[i].abs();
            let x = if size > 0.0 { f_x[i] / size } else { 1.0 };
            let round = if f_y[i] >= 0.0 { 1.0 - x } else { 3.0 + x };
            let round = (single(0.25 * DIRECTIONS as f64) * round).clamp(0.0, below(DIRECTIONS));
            let press = (a_n[i] - single(LEAST_PRESS)) * single(1.0 / PRESS_STEP);
            let press = press.clamp(0.0, below(PRESSES - 1));
            let (number, row) = (round as u32, press as u32);
            cell[i] = row * DIRECTIONS as u32 + number;
            (on[i], up[i]) = (round - number as f32, press - row as f32);
        }
        let (mut low, mut high) = ([0.0_f32; MANY], [0.0_f32; MANY]);
        for i in 0..n {
            // None is missing: its place was clamped to the table.
            let corners = self.0.get(cell[i] as usize).unwrap_or(&[f32::INFINITY; 4]);
            low[i] = corners[0] + on[i] * (corners[1] - corners[0]);
            high[i] = corners[2] + on[i] * (corners[3] - corners[2]);
        }
        for i in 0..n {
            let push = (f_x[i] * f_x[i] + f_y[i] * f_y[i]).sqrt();
            let push = push.max(single(LEAST_PUSH));
            used[i] = push * low[i] * high[i] / ((1.0 - up[i]) * high[i] + up[i] * low[i]);
        }
    }
}
