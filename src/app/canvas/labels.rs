//! Names on the plan: those that fit, the more important first, none over another. Names of lashings, racks and
//! points stand close to them, clear of cylinders and of each other.

use std::sync::Arc;

use egui::{FontId, Galley, Painter, Pos2, Rect, Stroke, Vec2};

use super::super::theme::{MARK, PLAN_TEXT, PLAN_TEXT_SMALL, Palette, RULER};
use super::drawing::{Drawing, Form, Ink, Label, Spot};
use super::view::View;

/// Names that are much wider than their thing are left out.
const OVERHANG: f32 = 1.15;

/// No name can be read in less room than this, in points: on a large deck seen from afar none is tried.
const LEAST_ROOM: f32 = 4.0;

/// A metre must be as long as this, in points, for names to be looked a place for beside their things.
const LEAST_METRE: f32 = 30.0;

/// How far from its point a name may stand, in points on the screen.
const AWAY: [f32; 4] = [3.0, 9.0, 18.0, 30.0];

/// From here on a line leads to it.
const LED: f32 = 12.0;

/// Ways in which a name stands off, as shares of a turn: to the sides first.
const WAYS: [f32; 8] = [0.0, 0.5, 0.25, 0.75, 0.125, 0.375, 0.625, 0.875];

/// Paints the names that fit.
pub(super) fn paint(painter: &Painter, view: &View, palette: &Palette, drawing: &Drawing) {
    let is_beside = |label: &Label| matches!(label.spot, Spot::Beside(_));
    let is_near = view.points(1.0) >= LEAST_METRE;
    let shown = drawing.labels.iter();
    let mut order: Vec<&Label> = shown.filter(|label| is_near || !is_beside(label)).collect();
    order.sort_by_key(|label| (is_beside(label), std::cmp::Reverse(label.rank)));
    let mut kept: Vec<Rect> = Vec::new();
    let mut taken = if is_near {
        Taken::of(view, drawing)
    } else {
        Taken::new(Rect::ZERO)
    };
    for label in order {
        match &label.spot {
            Spot::In { at, room_m } => {
                let room = view.points(*room_m);
                if room < LEAST_ROOM {
                    continue;
                }
                let Some(galley) = fitting(painter, palette, label, room) else {
                    continue;
                };
                let center = view.screen_from_world(*at);
                let rect = Rect::from_center_size(center, galley.size());
                let is_free = !kept.iter().any(|other| other.intersects(rect));
                if view.rect().intersects(rect) && is_free {
                    kept.push(rect);
                    taken.take(rect);
                    painter.galley(rect.min, galley, palette.text);
                }
            }
            Spot::Beside(points) => {
                let points = points.iter().map(|point| view.screen_from_world(*point));
                let points: Vec<Pos2> = points.filter(|at| view.rect().contains(*at)).collect();
                if points.is_empty() {
                    continue;
                }
                let font = FontId::proportional(PLAN_TEXT - 1.0);
                let galley = painter.layout_no_wrap(label.text.clone(), font, palette.text);
                if let Some((rect, from)) = taken.beside(&points, galley.size()) {
                    taken.take(rect);
                    lead(painter, palette, rect, from);
                    painter.galley(rect.min, galley, palette.text);
                }
            }
        }
    }
}

/// A thin line from what is named to a name that does not stand close to it.
fn lead(painter: &Painter, palette: &Palette, rect: Rect, from: Pos2) {
    let end = from.clamp(rect.min, rect.max);
    if end.distance(from) > LED {
        let stroke = Stroke::new(0.7 * palette.line_scale, palette.text_faint);
        painter.line_segment([from, end], stroke);
    }
}

/// Side of the squares in which the screen is taken, in points.
const SQUARE: f32 = 6.0;

/// What of the screen is taken, square by square: as quick with thousands of things as with few.
struct Taken {
    rect: Rect,
    across: usize,
    squares: Vec<bool>,
}

impl Taken {
    /// Cylinders, people, gear and signs.
    fn of(view: &View, drawing: &Drawing) -> Self {
        // The rulers lie over the upper and the left edge.
        let mut room = view.rect();
        room.min += Vec2::new(RULER + 12.0, RULER);
        let mut taken = Self::new(room);
        for item in &drawing.items {
            match &item.form {
                Form::Area(shape) => {
                    let is_body = matches!(
                        item.ink,
                        Ink::Cylinder
                            | Ink::Leaning
                            | Ink::Held(_)
                            | Ink::Kit
                            | Ink::Person
                            | Ink::Gear
                            | Ink::Slot
                    );
                    if is_body {
                        let bounds = shape.bounds();
                        let corners = [bounds.min, bounds.max].map(|p| view.screen_from_world(p));
                        taken.take(Rect::from_two_pos(corners[0], corners[1]));
                    }
                }
                Form::Sign { at, .. } => {
                    let at = view.screen_from_world(*at);
                    taken.take(Rect::from_center_size(at, Vec2::splat(1.5 * MARK)));
                }
                _ => {}
            }
        }
        taken
    }

    fn new(rect: Rect) -> Self {
        let (across, down) = (squares(rect.width()) + 1, squares(rect.height()) + 1);
        Self {
            rect,
            across,
            squares: vec![false; across * down],
        }
    }

    /// The squares that a rectangle lies on, as far as they are on the screen.
    fn beneath(&self, rect: Rect) -> impl Iterator<Item = usize> + use<> {
        let on = rect.intersect(self.rect);
        let is_there = on.is_positive();
        let (left, top) = (
            squares(on.left() - self.rect.left()),
            squares(on.top() - self.rect.top()),
        );
        let (right, bottom) = (
            squares(on.right() - self.rect.left()),
            squares(on.bottom() - self.rect.top()),
        );
        let across = self.across;
        let rows = (top..=bottom).take(if is_there { usize::MAX } else { 0 });
        rows.flat_map(move |row| (left..=right).map(move |column| row * across + column))
    }

    fn take(&mut self, rect: Rect) {
        for square in self.beneath(rect) {
            if let Some(square) = self.squares.get_mut(square) {
                *square = true;
            }
        }
    }

    fn is_free(&self, rect: Rect) -> bool {
        let is_taken = |square: usize| self.squares.get(square).copied().unwrap_or(true);
        self.rect.contains_rect(rect) && !self.beneath(rect).any(is_taken)
    }

    /// Where a name of this size is free beside one of these points, as near as can be, and that point.
    fn beside(&self, points: &[Pos2], size: Vec2) -> Option<(Rect, Pos2)> {
        for away in AWAY {
            for at in points {
                for way in WAYS {
                    let (sin, cos) = (way * std::f32::consts::TAU).sin_cos();
                    let off = Vec2::new(
                        cos * (away + MARK * 0.6 + 0.5 * size.x),
                        sin * (away + MARK * 0.6 + 0.5 * size.y),
                    );
                    let rect = Rect::from_center_size(*at + off, size);
                    if self.is_free(rect) {
                        return Some((rect, *at));
                    }
                }
            }
        }
        None
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a place on the screen, not below zero"
)]
fn squares(points: f32) -> usize {
    (points / SQUARE).max(0.0) as usize
}

/// The name as it fits: on one line, or on several where the thing is wide enough for its words.
fn fitting(painter: &Painter, palette: &Palette, label: &Label, room: f32) -> Option<Arc<Galley>> {
    let size = if label.rank == 0 {
        PLAN_TEXT - 2.0
    } else {
        PLAN_TEXT
    };
    let color = if label.rank == 0 {
        palette.text_faint
    } else {
        palette.text
    };
    let font = FontId::proportional(size);
    let line = painter.layout_no_wrap(label.text.clone(), font.clone(), color);
    if line.size().x <= OVERHANG * room {
        return Some(line);
    }
    // A short name is better small than not at all.
    let small = painter.layout_no_wrap(
        label.text.clone(),
        FontId::proportional(PLAN_TEXT_SMALL),
        color,
    );
    if small.size().x <= OVERHANG * room {
        return Some(small);
    }
    // On several lines, but never within a word.
    let word = |word: &str| {
        painter
            .layout_no_wrap(word.to_owned(), font.clone(), color)
            .size()
            .x
    };
    let longest = label.text.split(' ').map(word).fold(0.0, f32::max);
    if longest > room {
        return None;
    }
    let broken = painter.layout(label.text.clone(), font.clone(), color, room);
    (broken.rows.len() <= 3).then_some(broken)
}

#[cfg(test)]
mod tests {
    use egui::pos2;

    use super::*;

    #[test]
    fn names_beside_a_point_never_meet_each_other_nor_what_is_there() {
        let mut taken = Taken::new(Rect::from_min_max(pos2(0.0, 0.0), pos2(400.0, 300.0)));
        let body = Rect::from_center_size(pos2(200.0, 150.0), Vec2::splat(40.0));
        taken.take(body);
        let mut kept = vec![body];
        let mut found = 0;
        for _ in 0..40 {
            let Some((rect, _)) = taken.beside(&[pos2(200.0, 150.0)], Vec2::new(50.0, 12.0)) else {
                break;
            };
            assert!(
                !kept.iter().any(|other| other.intersects(rect)),
                "{rect:?} on {kept:?}"
            );
            taken.take(rect);
            kept.push(rect);
            found += 1;
        }
        assert!(
            (4..40).contains(&found),
            "{found}: several, and not without end"
        );
    }

    #[test]
    fn a_name_stays_on_the_screen() {
        let taken = Taken::new(Rect::from_min_max(pos2(0.0, 0.0), pos2(100.0, 50.0)));
        let (rect, _) = taken
            .beside(&[pos2(98.0, 25.0)], Vec2::new(40.0, 12.0))
            .unwrap();
        assert!(rect.right() <= 100.0, "{rect:?}");
        assert_eq!(
            taken.beside(&[pos2(98.0, 25.0)], Vec2::new(140.0, 12.0)),
            None
        );
    }
}
