//! Roll and the force along the deck of a box hull in beam seas, against a panel method for linear potential
//! flow: capytaine 3.0.0, `data/box_hull.py`, whose values are stored in `data/box_hull.csv`.
//!
//! The hull: 14 m × 4.6 m × 1.0 m, GM 0.9 m, radius of gyration 0.40 of the beam, no speed, deep water. What
//! settles which form of the force along the deck governs is `docs/method.md`, "Motion from the boat and the
//! sea".

use std::f64::consts::{FRAC_PI_2, TAU};

use snugdown::mechanics::motion::GRAVITY;
use snugdown::mechanics::rolling::damping::Damping;
use snugdown::mechanics::rolling::{coefficient, period_s};
use snugdown::mechanics::seaway::response::{BoatInSea, Hull, Seaway, Spreading};
use snugdown::mechanics::seaway::spectrum::{Shape, Spectrum};

const STORED: &str = include_str!("data/box_hull.csv");
const BEAM_M: f64 = 4.6;
const LENGTH_M: f64 = 14.0;
/// Above the centre of gravity about which the stored motions turn: a body on deck.
const LEVERS_M: [f64; 3] = [0.5, 1.5, 2.5];

/// One frequency of the stored table, per metre of wave amplitude.
#[derive(Copy, Clone, Debug)]
struct Row {
    w: f64,
    /// Complex amplitudes, real and imaginary.
    roll: [f64; 2],
    sway: [f64; 2],
}

impl Row {
    fn slope(&self) -> f64 {
        self.w * self.w / GRAVITY
    }

    fn roll_amplitude(&self) -> f64 {
        self.roll[0].hypot(self.roll[1])
    }

    /// `f_y = -g phi - y'' + phi'' z`, m/s² for each metre of wave amplitude.
    fn along_deck(&self, lever_m: f64) -> f64 {
        let w2 = self.w * self.w;
        let part =
            |i: usize| -GRAVITY * self.roll[i] + w2 * self.sway[i] - w2 * lever_m * self.roll[i];
        part(0).hypot(part(1))
    }
}

fn rows(ratio: f64) -> Vec<Row> {
    let lines = STORED.lines().skip(2);
    let cells = lines.map(|line| {
        let cells = line.split(',').map(|cell| cell.parse::<f64>().unwrap());
        cells.collect::<Vec<f64>>()
    });
    let complex = |amplitude: f64, phase_deg: f64| {
        let (sin, cos) = phase_deg.to_radians().sin_cos();
        [amplitude * cos, amplitude * sin]
    };
    cells
        .filter(|cells| (cells[0] - ratio).abs() < 1e-9)
        .map(|cells| Row {
            w: cells[1],
            roll: complex(cells[2], cells[3]),
            sway: complex(cells[4], cells[5]),
        })
        .collect()
}

/// From the first line of the table.
fn stored_period_s() -> f64 {
    let line = STORED.lines().next().unwrap();
    let after = line.split("natural roll period ").nth(1).unwrap();
    after.split(' ').next().unwrap().parse().unwrap()
}

fn hull(ratio: f64, lever_m: f64) -> Hull {
    Hull {
        length_m: LENGTH_M,
        beam_m: BEAM_M,
        roll_period_s: stored_period_s(),
        damping: Damping::linear(ratio),
        lever_m,
    }
}

/// Variance of a stored amplitude in a sea, over the stored frequencies (trapezoids).
fn sigma(rows: &[Row], sea: &Spectrum, amplitude: impl Fn(&Row) -> f64) -> f64 {
    let value = |row: &Row| amplitude(row).powi(2) * sea.density(row.w);
    let pairs = rows.windows(2);
    let sum: f64 = pairs
        .map(|pair| 0.5 * (value(&pair[0]) + value(&pair[1])) * (pair[1].w - pair[0].w))
        .sum();
    sum.sqrt()
}

/// The IS Code's formula was fitted to ships of about this radius of gyration; for the box (beyond the range
/// in which the program uses it) the two agree within 2 %.
#[test]
fn the_roll_period_formula_agrees_with_the_panel_method() {
    let formula = period_s(coefficient(LENGTH_M, BEAM_M, 1.0), BEAM_M, 0.9);
    let stored = stored_period_s();
    assert!(
        (formula / stored - 1.0).abs() < 0.02,
        "{formula} against {stored}"
    );
}

/// In long swell the box follows the slope, and nearly nothing acts along the deck: within 3 % of g times the
/// slope, where roll alone would make all of it. Ours is as small.
#[test]
fn long_swell_gives_nearly_no_sideways_force() {
    let longest = rows(0.10)[0];
    let period_s = TAU / longest.w;
    assert!(period_s > 4.0 * stored_period_s(), "it is a long swell");
    for lever_m in LEVERS_M {
        let roll_alone = GRAVITY * longest.roll_amplitude();
        let felt = longest.along_deck(lever_m);
        assert!(felt < 0.1 * roll_alone, "{felt} of {roll_alone}");
        let ours = hull(0.10, lever_m);
        let relative = ours.relative_gain2(longest.w, 0.10).sqrt() * longest.slope();
        let absolute = ours.absolute_gain2(longest.w, 0.10).sqrt() * longest.slope();
        assert!(relative < 0.1 * absolute, "{relative} of {absolute}");
    }
}

/// In waves of half the boat's period more acts along the deck, low on it, than the roll alone makes; ours says
/// so too and lies above the panel method.
#[test]
fn waves_of_half_the_period_give_more_than_absolute_roll() {
    let half = 2.0 * TAU / stored_period_s();
    let rows = rows(0.10);
    let row = rows
        .iter()
        .min_by(|a, b| (a.w - half).abs().total_cmp(&(b.w - half).abs()))
        .unwrap();
    let lever_m = 0.5;
    let roll_alone = (GRAVITY + row.w * row.w * lever_m) * row.roll_amplitude();
    let felt = row.along_deck(lever_m);
    assert!(felt > 2.0 * roll_alone, "{felt} against {roll_alone}");
    let ours = hull(0.10, lever_m);
    let relative = ours.relative_gain2(row.w, 0.10);
    assert!(relative > ours.absolute_gain2(row.w, 0.10));
    assert!(relative.sqrt() * row.slope() > felt);
}

/// Seas from half a metre and 2.2 s to swell of 12 s, two dampings, three heights above the axis: the larger of
/// the two forms is never below the panel method and at most three and a half times it; roll less slope alone is never
/// below it; absolute roll alone is below it in the shortest sea.
#[test]
fn the_larger_form_is_never_below_the_panel_method() {
    let mut least_of_roll = f64::INFINITY;
    for ratio in [0.10, 0.15] {
        let rows = rows(ratio);
        for lever_m in LEVERS_M {
            for (height_m, peak_s) in [
                (0.5, 2.2),
                (0.5, 3.5),
                (1.0, 4.0),
                (1.0, 5.2),
                (1.0, 5.9),
                (2.0, 7.6),
                (1.88, 8.8),
                (1.0, 12.0),
            ] {
                let spectrum = Spectrum::new(height_m, peak_s, Shape::Bretschneider);
                let sea = Seaway {
                    spectrum,
                    spreading: Spreading::LongCrested,
                    from_rad: FRAC_PI_2,
                    speed_m_s: 0.0,
                };
                let ours = BoatInSea::new(hull(ratio, lever_m), &sea).respond().rolling;
                let panel = sigma(&rows, &spectrum, |row| row.along_deck(lever_m));
                let by_roll = ours.by_roll.sigma / panel;
                let relative = ours.by_roll_less_slope.sigma / panel;
                let larger = by_roll.max(relative);
                assert!(
                    relative > 1.5 && larger < 3.5,
                    "{relative}, {larger} at {height_m} m, {peak_s} s, {lever_m} m"
                );
                least_of_roll = least_of_roll.min(by_roll);
                let roll = sigma(&rows, &spectrum, Row::roll_amplitude);
                assert!(ours.roll.sigma > 1.5 * roll, "roll is over-stated too");
            }
        }
    }
    assert!(least_of_roll < 0.8, "{least_of_roll}");
}
