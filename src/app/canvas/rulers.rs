//! Metre grid, rulers and scale bar.

use egui::{Align2, Color32, FontId, Painter, Rect, Stroke, pos2, vec2};

use super::super::theme::{PLAN_TEXT, Palette, RULER};
use super::super::words;
use super::view::View;
use crate::geometry::vec2 as world;
use crate::units::{Quantity, System};

/// Steps between grid lines in metres, smallest first.
const STEPS_M: [f64; 8] = [0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0];
/// The same in feet: two inches to fifty feet.
const STEPS_FT: [f64; 8] = [1.0 / 6.0, 0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 50.0];
const FOOT_M: f64 = 0.3048;

/// A step whose lines are at least so many points apart, in metres.
fn step_m(view: &View, system: System, apart: f64) -> f64 {
    let (steps, unit) = match system {
        System::Metric => (STEPS_M, 1.0),
        System::Us => (STEPS_FT, FOOT_M),
    };
    let fits = |step: &&f64| **step * unit * view.points_per_metre() >= apart;
    unit * steps.iter().find(fits).copied().unwrap_or(steps[7])
}

/// The lines of a grid between two values.
fn lines(from: f64, to: f64, step: f64) -> impl Iterator<Item = f64> {
    let first = (from / step).ceil();
    let count = ((to / step).floor() - first).clamp(-1.0, 400.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 0..=401 just before"
    )]
    let count = (count + 1.0) as u32;
    (0..count).map(move |i| (first + f64::from(i)) * step)
}

/// The grid, under everything.
pub(super) fn grid(painter: &Painter, view: &View, palette: &Palette, system: System) {
    let visible = view.visible();
    let step = step_m(view, system, 26.0);
    let rect = view.rect();
    for x in lines(visible.min.x, visible.max.x, step) {
        let at = view.screen_from_world(world(x, 0.0)).x;
        painter.vline(at, rect.y_range(), Stroke::new(1.0, palette.grid));
    }
    for y in lines(visible.min.y, visible.max.y, step) {
        let at = view.screen_from_world(world(0.0, y)).y;
        let middle = y.abs() < 1e-9;
        let stroke = if middle {
            Stroke::new(1.0 * palette.line_scale, palette.faint(palette.text_faint))
        } else {
            Stroke::new(1.0, palette.grid)
        };
        painter.hline(rect.x_range(), at, stroke);
    }
}

/// Rulers along the top and the left, over everything.
pub(super) fn rulers(painter: &Painter, view: &View, palette: &Palette, system: System) {
    let rect = view.rect();
    let top = Rect::from_min_size(rect.min, vec2(rect.width(), RULER));
    let left = Rect::from_min_size(rect.min, vec2(RULER + 12.0, rect.height()));
    let ground = palette.panel;
    painter.rect_filled(top, 0.0, ground);
    painter.rect_filled(left, 0.0, ground);
    let tick = Stroke::new(1.0, palette.text_faint);
    let font = FontId::proportional(PLAN_TEXT - 1.5);
    let visible = view.visible();
    let step = step_m(view, system, 56.0);
    for x in lines(visible.min.x, visible.max.x, step) {
        let at = view.screen_from_world(world(x, 0.0)).x;
        // Half a number beside the corner would be another number.
        if at < left.max.x + 10.0 {
            continue;
        }
        painter.vline(at, top.max.y - 5.0..=top.max.y, tick);
        let center = pos2(at, top.center().y - 2.0);
        let text = number(x, step, system);
        painter.text(
            center,
            Align2::CENTER_CENTER,
            text,
            font.clone(),
            palette.text_faint,
        );
    }
    for y in lines(visible.min.y, visible.max.y, step) {
        let at = view.screen_from_world(world(0.0, y)).y;
        if at < top.max.y + 6.0 {
            continue;
        }
        painter.hline(left.max.x - 5.0..=left.max.x, at, tick);
        let place = pos2(left.max.x - 7.0, at);
        let text = number(y, step, system);
        painter.text(
            place,
            Align2::RIGHT_CENTER,
            text,
            font.clone(),
            palette.text_faint,
        );
    }
    let corner = Rect::from_min_max(rect.min, pos2(left.max.x, top.max.y));
    painter.rect_filled(corner, 0.0, palette.panel);
    let unit = match system {
        System::Metric => Quantity::Length.symbol(System::Metric),
        System::Us => Quantity::Length.symbol(System::Us),
    };
    painter.text(
        corner.center(),
        Align2::CENTER_CENTER,
        unit,
        font,
        palette.text_faint,
    );
}

fn number(value_m: f64, step_m: f64, system: System) -> String {
    let (value, step) = match system {
        System::Metric => (value_m, step_m),
        System::Us => (value_m / FOOT_M, step_m / FOOT_M),
    };
    let decimals = if step < 0.1 {
        2
    } else {
        usize::from(step < 0.99)
    };
    let text = format!("{value:.decimals$}");
    if text.trim_start_matches(['-', '0', '.']).is_empty() {
        "0".to_owned()
    } else {
        text
    }
}

/// A bar of a round length, with which way the bow is.
pub(super) fn scale_bar(painter: &Painter, view: &View, palette: &Palette, system: System) {
    let rect = view.rect();
    let step = step_m(view, system, 80.0);
    let length = view.points(step);
    let left = rect.left() + RULER + 26.0;
    let y = rect.bottom() - 16.0;
    let ink = Stroke::new(2.0 * palette.line_scale, palette.text);
    let text = Quantity::Length.show(step, system);
    let font = FontId::proportional(PLAN_TEXT);
    let galley = painter.layout_no_wrap(text, font.clone(), palette.text);
    // On a ground of its own, as the deck may lie beneath it.
    let ground = Rect::from_min_max(
        pos2(left - 6.0, y - 9.0),
        pos2(left + length + galley.size().x + 14.0, y + 9.0),
    );
    painter.rect_filled(ground, 3.0, palette.label_ground());
    painter.line_segment([pos2(left, y), pos2(left + length, y)], ink);
    for x in [left, left + length] {
        painter.line_segment([pos2(x, y - 4.0), pos2(x, y + 4.0)], ink);
    }
    let color: Color32 = palette.text;
    let end = pos2(left + length + 8.0, y - 0.5 * galley.size().y);
    painter.galley(end, galley, color);
    let right = pos2(rect.right() - 10.0, y);
    painter.text(right, Align2::RIGHT_CENTER, words::BOW, font.clone(), color);
    let up = pos2(rect.right() - 10.0, rect.top() + RULER + 12.0);
    painter.text(up, Align2::RIGHT_CENTER, words::PORT_UP, font, color);
}
