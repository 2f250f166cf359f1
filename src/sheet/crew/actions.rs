//! The seven things that hands do, as small pictures of our own.

use super::{LIST_PT, centred, cut};
use crate::brief::{Brief, HandAction};
use crate::geometry::Elementary as _;
use crate::sheet::flow::{Flow, MARGIN_MM};
use crate::sheet::{Page, Paper, Pen};

/// Side of the square that a picture fills, in millimetres.
const SIDE: u32 = 16;

/// Height of the pictures with their words, in millimetres.
const STRIP_MM: f64 = 17.1;

/// How large the pictures stand on the sheet, as a share of their own size.
const SHARE: f64 = 0.8;

/// Corners of a round thing.
const ROUND: u32 = 32;

/// Those that occur when this is loaded, side by side.
pub(super) fn strip(flow: &mut Flow, brief: &Brief) {
    flow.gap(1.5);
    flow.room(STRIP_MM);
    let occurs = |action: &HandAction| {
        let mut steps = brief.loading.steps.iter();
        matches!(action, HandAction::Push | HandAction::KeepClear)
            || steps.any(|step| step.actions.contains(action))
    };
    let actions: Vec<HandAction> = HandAction::ALL.into_iter().filter(occurs).collect();
    let pitch = flow.width() / actions.len() as f64;
    let (top, side) = (flow.y, SHARE * f64::from(SIDE));
    for (index, action) in actions.into_iter().enumerate() {
        let left = MARGIN_MM + pitch * index as f64 + 0.5 * (pitch - side);
        flow.page().put(&drawn(action, side), (left, top));
        let words = cut(action.words(), LIST_PT, pitch);
        centred(
            flow.page(),
            (left + 0.5 * side, top + side + 2.4),
            LIST_PT,
            &words,
        );
    }
    flow.gap(STRIP_MM);
}

/// The picture of one of them, on a square piece of its own.
pub fn picture(action: HandAction) -> Page {
    drawn(action, f64::from(SIDE))
}

/// The same with a side of so many millimetres, on a piece that has room for the larger.
fn drawn(action: HandAction, side: f64) -> Page {
    let mut page = Page::new(Paper::Cut {
        wide: SIDE,
        high: SIDE,
    });
    page.rectangle(
        (0.1, 0.1),
        (side - 0.2, side - 0.2),
        1.0,
        Some(Pen::solid(0.2)),
    );
    let mut drawing = Drawing {
        page: &mut page,
        side,
    };
    let draw = match action {
        HandAction::StandInSlot => stand_in_slot,
        HandAction::HookCord => hook_cord,
        HandAction::StrapAtHeight => strap_at_height,
        HandAction::LayDown => lay_down,
        HandAction::Chock => chock,
        HandAction::Push => push,
        HandAction::KeepClear => keep_clear,
    };
    draw(&mut drawing);
    page
}

/// A square of side 1 on the page, from its upper left corner.
struct Drawing<'a> {
    page: &'a mut Page,
    side: f64,
}

impl Drawing<'_> {
    fn at(&self, [x, y]: [f64; 2]) -> (f64, f64) {
        (self.side * x, self.side * y)
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
        let points: Vec<[f64; 2]> = (0..ROUND)
            .map(|step| {
                let turn = f64::from(step) * std::f64::consts::TAU / f64::from(ROUND);
                let (sin, cos) = turn.sine_cosine();
                [x + radius * cos, y + radius * sin]
            })
            .collect();
        self.shape(&points, grey);
    }

    /// A cylinder on its foot, its middle at x, its foot at y.
    fn upright(&mut self, x: f64, y: f64) {
        let (half, high) = (0.10, 0.50);
        self.shape(
            &[
                [x - half, y],
                [x - half, y - high + 0.09],
                [x - 0.7 * half, y - high + 0.035],
                [x - 0.035, y - high],
                [x + 0.035, y - high],
                [x + 0.7 * half, y - high + 0.035],
                [x + half, y - high + 0.09],
                [x + half, y],
            ],
            0.82,
        );
        self.shape(
            &[
                [x - 0.035, y - high],
                [x - 0.035, y - high - 0.05],
                [x - 0.075, y - high - 0.05],
                [x - 0.075, y - high - 0.10],
                [x + 0.035, y - high - 0.10],
                [x + 0.035, y - high],
            ],
            0.25,
        );
    }

    fn deck(&mut self) {
        self.line(&[[0.06, 0.90], [0.94, 0.90]], 0.7);
    }

    /// A hand with its palm towards the right, its palm at the point.
    fn hand(&mut self, [x, y]: [f64; 2]) {
        self.shape(
            &[
                [x - 0.30, y - 0.05],
                [x - 0.14, y - 0.06],
                [x - 0.09, y - 0.13],
                [x - 0.045, y - 0.13],
                [x - 0.055, y - 0.05],
                [x, y - 0.05],
                [x, y + 0.09],
                [x - 0.10, y + 0.10],
                [x - 0.30, y + 0.08],
            ],
            1.0,
        );
        for finger in [-0.015, 0.02, 0.055] {
            self.line(&[[x - 0.06, y + finger], [x, y + finger]], 0.2);
        }
    }

    /// An arrow with its head at the end.
    fn arrow(&mut self, from: [f64; 2], to: [f64; 2]) {
        let (dx, dy) = (to[0] - from[0], to[1] - from[1]);
        let length = dx.hypotenuse(dy).max(1e-9);
        let (ux, uy) = (0.10 * dx / length, 0.10 * dy / length);
        self.line(&[from, [to[0] - 0.6 * ux, to[1] - 0.6 * uy]], 0.7);
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
    d.upright(0.45, 0.74);
    for x in [0.26, 0.56] {
        d.shape(
            &[[x, 0.90], [x, 0.60], [x + 0.08, 0.60], [x + 0.08, 0.90]],
            1.0,
        );
    }
    d.arrow([0.82, 0.22], [0.82, 0.62]);
}

fn hook_cord(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.33, 0.89);
    d.upright(0.60, 0.89);
    d.line(&[[0.08, 0.64], [0.80, 0.64]], 1.1);
    d.line(
        &[
            [0.80, 0.64],
            [0.86, 0.57],
            [0.93, 0.60],
            [0.92, 0.69],
            [0.86, 0.72],
        ],
        0.9,
    );
    d.disc([0.90, 0.46], 0.035, 1.0);
    d.arrow([0.90, 0.20], [0.90, 0.40]);
    d.disc([0.08, 0.64], 0.04, 1.0);
}

fn strap_at_height(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.58, 0.89);
    d.shape(
        &[[0.46, 0.58], [0.70, 0.58], [0.70, 0.66], [0.46, 0.66]],
        0.15,
    );
    d.line(&[[0.70, 0.62], [0.95, 0.80]], 1.0);
    d.line(&[[0.46, 0.62], [0.32, 0.80]], 1.0);
    d.arrow([0.16, 0.76], [0.16, 0.62]);
    d.arrow([0.16, 0.76], [0.16, 0.90]);
    d.line(&[[0.08, 0.62], [0.40, 0.62]], 0.25);
}

fn lay_down(d: &mut Drawing<'_>) {
    d.deck();
    d.shape(
        &[
            [0.16, 0.89],
            [0.16, 0.69],
            [0.58, 0.69],
            [0.65, 0.73],
            [0.665, 0.76],
            [0.665, 0.82],
            [0.65, 0.85],
            [0.58, 0.89],
        ],
        0.82,
    );
    d.shape(
        &[[0.665, 0.755], [0.76, 0.755], [0.76, 0.825], [0.665, 0.825]],
        0.25,
    );
    d.line(
        &[
            [0.24, 0.20],
            [0.40, 0.20],
            [0.56, 0.25],
            [0.69, 0.34],
            [0.77, 0.45],
        ],
        0.7,
    );
    d.arrow([0.77, 0.45], [0.82, 0.62]);
    d.line(&[[0.16, 0.58], [0.16, 0.14]], 0.2);
}

fn chock(d: &mut Drawing<'_>) {
    d.deck();
    d.disc([0.5, 0.67], 0.22, 0.82);
    d.disc([0.5, 0.67], 0.05, 0.25);
    d.shape(&[[0.08, 0.89], [0.33, 0.71], [0.33, 0.89]], 0.1);
    d.shape(&[[0.92, 0.89], [0.67, 0.71], [0.67, 0.89]], 0.1);
    d.arrow([0.06, 0.56], [0.22, 0.56]);
    d.arrow([0.94, 0.56], [0.78, 0.56]);
}

fn push(d: &mut Drawing<'_>) {
    d.deck();
    d.upright(0.60, 0.89);
    d.shape(
        &[[0.48, 0.62], [0.72, 0.62], [0.72, 0.69], [0.48, 0.69]],
        0.15,
    );
    d.hand([0.50, 0.36]);
    d.line(&[[0.74, 0.24], [0.74, 0.46]], 0.5);
    d.line(&[[0.82, 0.24], [0.82, 0.46]], 0.5);
    d.arrow([0.30, 0.17], [0.56, 0.17]);
}

fn keep_clear(d: &mut Drawing<'_>) {
    d.line(&[[0.16, 0.94], [0.16, 0.08]], 0.8);
    d.line(&[[0.84, 0.94], [0.84, 0.08]], 0.8);
    d.arrow([0.34, 0.92], [0.34, 0.12]);
    d.disc([0.62, 0.52], 0.13, 0.82);
    d.disc([0.62, 0.52], 0.045, 0.25);
    d.line(&[[0.46, 0.36], [0.78, 0.68]], 1.2);
    d.line(&[[0.78, 0.36], [0.46, 0.68]], 1.2);
}
