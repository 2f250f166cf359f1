//! Names on the plan: those that fit, the more important first, none over another.

use std::sync::Arc;

use egui::{FontId, Galley, Painter, Rect};

use super::super::theme::{PLAN_TEXT, PLAN_TEXT_SMALL, Palette};
use super::drawing::Label;
use super::view::View;

/// Names that are much wider than their thing are left out.
const OVERHANG: f32 = 1.15;

/// No name can be read in less room than this, in points: on a large deck seen from afar none is tried.
const LEAST_ROOM: f32 = 4.0;

/// Paints the names that fit.
pub(super) fn paint(painter: &Painter, view: &View, palette: &Palette, labels: &[Label]) {
    let mut order: Vec<&Label> = labels.iter().collect();
    order.sort_by_key(|label| std::cmp::Reverse(label.rank));
    let mut kept: Vec<Rect> = Vec::new();
    for label in order {
        let room = view.points(label.room_m);
        if room < LEAST_ROOM {
            continue;
        }
        let Some(galley) = fitting(painter, palette, label, room) else {
            continue;
        };
        let center = view.screen_from_world(label.at);
        let rect = Rect::from_center_size(center, galley.size());
        if !view.rect().intersects(rect) || kept.iter().any(|other| other.intersects(rect)) {
            continue;
        }
        kept.push(rect);
        painter.galley(rect.min, galley, palette.text);
    }
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
