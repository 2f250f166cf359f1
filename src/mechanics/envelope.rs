//! What a body takes before it goes, by the direction of the push and by what presses it down, as a table that is
//! quickly asked.
//!
//! The largest force along the deck is found once for [`DIRECTIONS`] directions and [`PRESSES`] values of `a_n`. In
//! between, its inverse runs straight from direction to direction, and itself from `a_n` to `a_n`: exact for a round
//! foot, and on the safe side in `a_n` for whatever a limit analysis holds (its safe forces make a convex set).
//!
//! # Accuracy
//!
//! Within 1 % of the share that was asked for the table, but where a wall half holds: there up to 6 % of the push too much; held by the tests of
//! `audit::replay`.
//!
//! # References
//!
//! Derived in `docs/method.md`, "A motion in time".

mod many;

pub use self::many::MANY;

use self::many::Cells;
use super::motion::GRAVITY;
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// Directions of the table: nine degrees apart on average, both axes among them.
pub const DIRECTIONS: usize = 40;

/// Values of `a_n` in the table.
pub const PRESSES: usize = 11;

/// The least of them, m/s²: below it the body takes what it takes there.
const LEAST_PRESS: f64 = -0.5 * GRAVITY;

/// From one to the next, m/s².
const PRESS_STEP: f64 = 0.25 * GRAVITY;

/// Inverses of what is taken, s²/m: from "everything" to "nothing".
const INVERSES: [f64; 2] = [1e-6, 1e6];

/// A push less than this along the deck counts as this, m/s²: a body that goes without any must show.
const LEAST_PUSH: f64 = 1e-3;

/// See the module.
#[derive(Clone, Debug, PartialEq)]
pub enum Envelope {
    /// It goes where `a_h` reaches this share of `a_n`, whatever the direction.
    Ratio(f64),

    /// By `a_n` and by direction.
    Table(Table),
}

/// What is taken in each direction at each `a_n`.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// By `a_n`, then by direction; the first direction again at the end. Inverses, s²/m.
    rows: Vec<[f64; DIRECTIONS + 1]>,

    /// The same once more, for many forces at once.
    cells: Cells,
}

impl Envelope {
    /// From the largest push along the deck, m/s², that is taken towards a unit vector at an `a_n`; infinite where
    /// any is.
    pub fn table(mut takes: impl FnMut(Vec2, f64) -> f64) -> Self {
        let rows = (0..PRESSES).map(|press| {
            let mut row = [0.0; DIRECTIONS + 1];
            for (number, inverse) in row.iter_mut().enumerate().take(DIRECTIONS) {
                let most = takes(direction(number), press_at(press));
                *inverse = (1.0 / most.max(0.0)).clamp(INVERSES[0], INVERSES[1]);
            }
            row[DIRECTIONS] = row[0];
            row
        });
        let rows: Vec<_> = rows.collect();
        let cells = Cells::of(&rows);
        Self::Table(Table { rows, cells })
    }

    /// The share of what it takes that a force uses; 1 or more means that it goes.
    pub fn used(&self, f_x: f64, f_y: f64, a_n: f64) -> f64 {
        match self {
            Self::Ratio(ratio) => {
                if a_n <= 0.0 {
                    f64::INFINITY
                } else {
                    f_x.hypotenuse(f_y) / (ratio * a_n)
                }
            }
            Self::Table(table) => looked_up(&table.rows, f_x, f_y, a_n),
        }
    }

    /// As [`Self::used`] for up to [`MANY`] forces in single precision, their three parts side by side.
    pub fn used_by_many(&self, [f_x, f_y, a_n]: [&[f32]; 3], used: &mut [f32]) {
        match self {
            Self::Ratio(ratio) => {
                let inverse = single(1.0 / ratio);
                let forces = f_x.iter().zip(f_y).zip(a_n);
                for (share, ((f_x, f_y), a_n)) in used.iter_mut().zip(forces) {
                    let value = inverse * (f_x * f_x + f_y * f_y).sqrt() / a_n;
                    *share = if *a_n > 0.0 { value } else { f32::INFINITY };
                }
            }
            Self::Table(table) => table.cells.look_up([f_x, f_y, a_n], used),
        }
    }
}

/// The unit vector of a direction of the table: evenly spaced round the square `|x| + |y| = 1`, which needs no
/// angles to be found again.
fn direction(number: usize) -> Vec2 {
    let round = 4.0 * number as f64 / DIRECTIONS as f64;
    let (x, side) = if round <= 2.0 {
        (1.0 - round, 1.0)
    } else {
        (round - 3.0, -1.0)
    };
    let corner = vec2(x, side * (1.0 - x.abs()));
    (1.0 / corner.length()) * corner
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "seven digits are more than any input is known to"
)]
fn single(value: f64) -> f32 {
    value as f32
}

fn press_at(press: usize) -> f64 {
    LEAST_PRESS + PRESS_STEP * press as f64
}

/// A place between 0 and `count - 1` as the whole number below it and the rest.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to the table"
)]
#[inline]
fn place(at: f64, count: usize) -> (usize, f64) {
    let at = at.clamp(0.0, (count - 1) as f64 - 1e-9);
    let whole = at as usize;
    (whole, at - whole as f64)
}

#[inline]
fn looked_up(rows: &[[f64; DIRECTIONS + 1]], f_x: f64, f_y: f64, a_n: f64) -> f64 {
    let size = f_x.abs() + f_y.abs();
    let x = if size > 0.0 { f_x / size } else { 1.0 };
    let round = if f_y >= 0.0 { 1.0 - x } else { 3.0 + x };
    let (number, on) = place(0.25 * DIRECTIONS as f64 * round, DIRECTIONS + 1);
    let (press, up) = place((a_n - LEAST_PRESS) / PRESS_STEP, PRESSES);
    let (Some(low), Some(high)) = (rows.get(press), rows.get(press + 1)) else {
        return f64::INFINITY;
    };
    let between = |row: &[f64; DIRECTIONS + 1]| row[number] + on * (row[number + 1] - row[number]);
    let (low, high) = (between(low), between(high));
    let push = (f_x * f_x + f_y * f_y).sqrt().max(LEAST_PUSH);
    // What is taken runs straight between 1 / low and 1 / high.
    push * low * high / (high + up * (low - high))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::property::{assert_close, cases};
    use proptest::prelude::*;

    #[test]
    fn directions_are_even_in_quarters_and_of_length_one() {
        for quarter in 0..4 {
            let at = direction(quarter * DIRECTIONS / 4).angle();
            let expected = std::f64::consts::FRAC_PI_2 * quarter as f64;
            assert_close((at - expected).sine(), 0.0, 1e-12);
        }
        assert!((0..DIRECTIONS).all(|number| (direction(number).length() - 1.0).abs() < 1e-12));
    }

    #[test]
    fn the_rim_of_the_table_is_met_by_many_too() {
        let table = Envelope::table(|_, a_n| 1.0 + 0.2 * a_n.max(0.0));
        let (x, y) = ([0.0, 1.0, -1.0, 0.0, 0.0], [0.0, 0.0, 0.0, -1.0, 0.0]);
        let n = [-100.0, 100.0, 22.0, -4.9, f32::NAN];
        let mut used = [0.0; 5];
        table.used_by_many([&x, &y, &n], &mut used);
        for (i, used) in used.into_iter().enumerate().take(4) {
            let one = table.used(f64::from(x[i]), f64::from(y[i]), f64::from(n[i]));
            assert_close(f64::from(used), one, 1e-6);
        }
        assert!(used[4].is_nan(), "{used:?}");
    }

    #[test]
    fn what_goes_without_a_push_shows() {
        let table = Envelope::table(|_, a_n| if a_n > 0.1 { 2.0 } else { 0.0 });
        assert!(table.used(0.0, 0.0, -1.0) >= 1.0);
        assert!(table.used(0.0, 0.0, GRAVITY) < 0.01);
        let any = Envelope::table(|_, _| f64::INFINITY);
        assert!(any.used(30.0, 20.0, 9.0) < 1e-3);
    }

    proptest! {
        #![proptest_config(cases(300))]

        #[test]
        fn a_round_foot_is_exact(fx in -5.0..5.0_f64, fy in -5.0..5.0_f64, a_n in 0.1..19.0_f64) {
            let table = Envelope::table(|_, a_n| 0.26 * a_n.max(0.0));
            let ratio = Envelope::Ratio(0.26);
            let (a, b) = (table.used(fx, fy, a_n), ratio.used(fx, fy, a_n));
            prop_assume!(fx.hypotenuse(fy) > 0.01);
            // The step of the table from a_n 0 on is a straight line through nothing.
            prop_assert!((a / b - 1.0).abs() < 1e-4, "{a} {b}");
        }

        /// Many at once, in single precision, are what one by one in double precision gives.
        #[test]
        fn many_at_once_are_as_one_by_one(
            edge in -3.1..3.1_f64, ratio in 0.05..1.0_f64, strength in 0.5..8.0_f64,
            forces in prop::collection::vec((-12.0..12.0_f64, -12.0..12.0_f64, -9.0..30.0_f64), 1..MANY),
        ) {
            let normal = Vec2::from_angle(edge);
            let table = Envelope::table(|towards, a_n| {
                let into = towards.dot(normal);
                let held = if into > 1e-9 { strength / into } else { f64::INFINITY };
                held + ratio * a_n.max(0.0)
            });
            let part = |of: fn(&(f64, f64, f64)) -> f64| {
                forces.iter().map(|force| single(of(force))).collect::<Vec<_>>()
            };
            let (x, y, n) = (part(|it| it.0), part(|it| it.1), part(|it| it.2));
            for envelope in [table, Envelope::Ratio(ratio)] {
                let mut many = vec![0.0_f32; forces.len()];
                envelope.used_by_many([&x, &y, &n], &mut many);
                for (i, many) in many.iter().enumerate() {
                    let one = envelope.used(f64::from(x[i]), f64::from(y[i]), f64::from(n[i]));
                    let many = f64::from(*many);
                    // Near the rim of a cell what lies across it is 1e-6 of a step off.
                    let both_go = one.is_infinite() && many.is_infinite();
                    prop_assert!(both_go || (many - one).abs() < 1e-5 * one + 1e-4, "{one} {many}");
                }
            }
        }

        #[test]
        fn a_straight_edge_is_near(fx in -5.0..5.0_f64, fy in -5.0..5.0_f64, edge in -3.1..3.1_f64) {
            let normal = Vec2::from_angle(edge);
            let table = Envelope::table(|towards, _| {
                let into = towards.dot(normal);
                if into > 1e-9 { 3.0 / into } else { f64::INFINITY }
            });
            let push = fx.hypotenuse(fy) / 3.0;
            let exact = (vec2(fx, fy).dot(normal) / 3.0).max(0.0);
            let told = table.used(fx, fy, 9.0);
            prop_assert!(told >= exact - 0.006 * push, "{told} {exact}");
            // Where the edge is just not reached the table rounds the corner, on the safe side.
            let over = if exact > 0.25 * push { 0.006 } else { 0.06 };
            prop_assert!(told <= exact + over * push + 1e-4, "{told} {exact}");
        }
    }
}
