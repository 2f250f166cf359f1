//! The seven things that hands do, as small pictures of our own.

use super::{centred, cut};
use crate::sheet::flow::{Flow, MARGIN_MM};
use crate::sheet::{Page, Pen};

/// Height of a picture with its words, in millimetres.
const STRIP_MM: f64 = 27.0;

/// Side of the square that a picture fills.
const SIDE_MM: f64 = 19.0;

const WORDS_PT: f64 = 7.0;

/// A thing that hands do: its words, and what draws it into a square of side 1 from its upper left corner.
type Action = (&'static str, fn(&mut Drawing<'_>));

const ACTIONS: [Action; 7] = [
    ("stand in slot", stand_in_slot),
    ("hook cord", hook_cord),
    ("strap at height", strap_at_height),
    ("lay down", lay_down),
    ("chock", chock),
    ("push", push),
    ("keep clear", keep_clear),
];

/// All seven, side by side.
pub(super) fn strip(flow: &mut Flow) {
    flow.gap(2.0);
    flow.room(STRIP_MM);
    let pitch = flow.width() / ACTIONS.len() as f64;
    let top = flow.y;
    for (index, (words, draw)) in ACTIONS.iter().enumerate() {
        let left = MARGIN_MM + pitch * index as f64 + 0.5 * (pitch - SIDE_MM);
        let page = flow.page();
        page.rectangle((left, top), (SIDE_MM, SIDE_MM), 1.0, Some(Pen::grey(0.2)));
        draw(&mut Drawing { page, left, top });
        let words = cut(words, WORDS_PT, pitch);
        centred(
            flow.page(),
            (left + 0.5 * SIDE_MM, top + SIDE_MM + 3.0),
            WORDS_PT,
            &words,
        );
    }
    flow.gap(STRIP_MM);
}

/// A square of side 1 on the page.
struct Drawing<'a> {
    page: &'a mut Page,
    left: f64,
    top: f64,
}

impl Drawing<'_> {
    fn at(&self, [x, y]: [f64; 2]) -> (f64, f64) {
        (self.left + SIDE_MM * x, self.top + SIDE_MM * y)
    }

    fn line(&mut self, points: &[[f64; 2]], width_mm: f64) {
        let points: Vec<_> = points.iter().map(|point| self.at(*point)).collect();
        self.page.line(&points, false, Pen::solid(width_mm));
    }

    fn shape(&mut self, points: &[[f64; 2]], grey: f64) {
        let points: Vec<_> = points.iter().map(|point| self.at(*point)).collect();
        self.page.fill(&points, grey, Some(Pen::solid(0.3)));
    }

    fn disc(&mut self, [x, y]: [f64; 2], radius: f64, grey: f64) {
        let points: Vec<[f64; 2]> = (0..24)
            .map(|step| {
                let (sin, cos) = (f64::from(step) * std::f64::consts::TAU / 24.0).sin_cos();
                [x + radius * cos, y + radius * sin]
            })
            .collect();
        self.shape(&points, grey);
    }

    /// A cylinder on its foot, its middle at x, its foot at y.
    fn upright(&mut self, x: f64, y: f64) {
        let (half, high) = (0.09, 0.46);
        self.shape(
            &[
                [x - half, y],
                [x - half, y - high + 0.06],
                [x - 0.04, y - high],
                [x + 0.04, y - high],
                [x + half, y - high + 0.06],
                [x + half, y],
            ],
            0.8,
        );
        self.shape(
            &[
                [x - 0.025, y - high],
                [x - 0.025, y - high - 0.08],
                [x + 0.025, y - high - 0.08],
                [x + 0.025, y - high],
            ],
            0.3,
        );
    }

    fn deck(&mut self) {
        self.line(&[[0.08, 0.86], [0.92, 0.86]], 0.7);
    }

    /// An arrow with its head at the end.
    fn arrow(&mut self, from: [f64; 2], to: [f64; 2]) {
        self.line(&[from, to], 0.6);
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let length = dx.hypot(dy).max(1e-9);
        let (ux, uy) = (0.09 * dx / length, 0.09 * dy / length);
        self.shape(
            &[
                to,
                [to[0] - ux - 0.6 * uy, to[1] - uy + 0.6 * ux],
                [to[0] - ux + 0.6 * uy, to[1] - uy - 0.6 * ux],
            ],
            0.0,
        );
    }
}

fn stand_in_slot(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.5, 0.72);
    d.shape(
        &[[0.30, 0.86], [0.30, 0.56], [0.38, 0.56], [0.38, 0.86]],
        1.0,
    );
    d.shape(
        &[[0.62, 0.86], [0.62, 0.56], [0.70, 0.56], [0.70, 0.86]],
        1.0,
    );
    d.arrow([0.84, 0.18], [0.84, 0.52]);
}

fn hook_cord(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.36, 0.84);
    d.upright(0.62, 0.84);
    d.line(
        &[
            [0.12, 0.60],
            [0.80, 0.60],
            [0.86, 0.55],
            [0.91, 0.60],
            [0.86, 0.65],
        ],
        0.8,
    );
    d.disc([0.12, 0.60], 0.035, 1.0);
}

fn strap_at_height(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.56, 0.84);
    d.shape(
        &[[0.46, 0.56], [0.66, 0.56], [0.66, 0.63], [0.46, 0.63]],
        0.2,
    );
    d.line(&[[0.46, 0.60], [0.16, 0.72]], 0.8);
    d.line(&[[0.66, 0.60], [0.92, 0.72]], 0.8);
    d.arrow([0.26, 0.84], [0.26, 0.46]);
    d.arrow([0.26, 0.46], [0.26, 0.84]);
}

fn lay_down(d: &mut Drawing<'_>) {
    d.deck();
    d.shape(
        &[
            [0.26, 0.84],
            [0.26, 0.66],
            [0.70, 0.66],
            [0.77, 0.71],
            [0.77, 0.79],
            [0.70, 0.84],
        ],
        0.8,
    );
    d.shape(
        &[[0.77, 0.725], [0.85, 0.725], [0.85, 0.775], [0.77, 0.775]],
        0.3,
    );
    d.line(
        &[[0.34, 0.20], [0.50, 0.22], [0.64, 0.32], [0.70, 0.42]],
        0.6,
    );
    d.arrow([0.70, 0.42], [0.72, 0.54]);
}

fn chock(d: &mut Drawing<'_>) {
    d.deck();
    d.disc([0.5, 0.66], 0.20, 0.8);
    d.shape(&[[0.10, 0.86], [0.32, 0.70], [0.32, 0.86]], 0.1);
    d.shape(&[[0.90, 0.86], [0.68, 0.70], [0.68, 0.86]], 0.1);
}

fn push(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.60, 0.84);
    d.shape(
        &[[0.50, 0.58], [0.70, 0.58], [0.70, 0.63], [0.50, 0.63]],
        0.2,
    );
    d.arrow([0.14, 0.34], [0.54, 0.34]);
    d.line(&[[0.80, 0.30], [0.80, 0.44]], 0.4);
    d.line(&[[0.86, 0.30], [0.86, 0.44]], 0.4);
}

fn keep_clear(d: &mut Drawing<'_>) {
    d.line(&[[0.22, 0.92], [0.22, 0.10]], 0.5);
    d.line(&[[0.78, 0.92], [0.78, 0.10]], 0.5);
    d.arrow([0.36, 0.90], [0.36, 0.14]);
    d.disc([0.60, 0.52], 0.12, 0.85);
    d.line(&[[0.48, 0.40], [0.72, 0.64]], 0.9);
    d.line(&[[0.72, 0.40], [0.48, 0.64]], 0.9);
}
