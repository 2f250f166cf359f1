//! The signs of the signal words: each has a shape of its own and its first letter, so that colour is
//! never needed.

use egui::{Align2, FontId, Painter, Pos2, Shape, Stroke, vec2};

use super::super::theme::Palette;
use crate::checks::Signal;

/// The letter in the sign.
fn letter(signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => "D",
        Signal::Warning => "W",
        Signal::Caution => "C",
        Signal::Notice => "N",
    }
}

/// Paints the sign of a signal word, `half` points to each side.
pub(crate) fn signal(painter: &Painter, palette: &Palette, at: Pos2, signal: Signal, half: f32) {
    let fill = palette.signal(signal);
    let ink = palette.on_signal();
    let edge = Stroke::new(1.4 * palette.line_scale, ink);
    match signal {
        // A square on its point.
        Signal::Danger => {
            let reach = 1.25 * half;
            let points = vec![
                at + vec2(0.0, -reach),
                at + vec2(reach, 0.0),
                at + vec2(0.0, reach),
                at + vec2(-reach, 0.0),
            ];
            painter.add(Shape::convex_polygon(points, fill, edge));
        }
        // A triangle.
        Signal::Warning => {
            let points = vec![
                at + vec2(0.0, -1.25 * half),
                at + vec2(1.25 * half, 0.95 * half),
                at + vec2(-1.25 * half, 0.95 * half),
            ];
            painter.add(Shape::convex_polygon(points, fill, edge));
        }
        // A square.
        Signal::Caution => {
            let rect = egui::Rect::from_center_size(at, egui::Vec2::splat(1.8 * half));
            painter.rect(rect, 2.0, fill, edge, egui::StrokeKind::Middle);
        }
        // A disc.
        Signal::Notice => {
            painter.circle(at, half, fill, edge);
        }
    }
    let drop = if signal == Signal::Warning {
        0.22 * half
    } else {
        0.0
    };
    painter.text(
        at + vec2(0.0, drop),
        Align2::CENTER_CENTER,
        letter(signal),
        FontId::proportional(1.25 * half),
        ink,
    );
}

/// A ring round the sign of the chosen line.
pub(crate) fn ring(painter: &Painter, palette: &Palette, at: Pos2, half: f32) {
    let stroke = Stroke::new(2.5 * palette.line_scale, palette.selected);
    painter.circle_stroke(at, 1.7 * half, stroke);
}
