//! Paragraphs, points and headings of parts, as the report sets them.

use super::{PART_PT, TEXT_PT};
use crate::sheet::Page;
use crate::sheet::flow::{Flow, MARGIN_MM};
use crate::sheet::texts::Texts;

/// Room for a heading, a heading of a part and a few rows, in millimetres.
pub(super) const BEGIN_MM: f64 = 46.0;

pub(super) fn whole(mm: f64) -> u32 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a size on paper, clamped"
    )]
    let whole = mm.ceil().clamp(1.0, 5000.0) as u32;
    whole
}

pub(super) fn say(flow: &mut Flow, size_pt: f64, lines: &[String]) {
    let mut texts = Texts::new(flow.width());
    for line in lines {
        texts.paragraph(size_pt, line);
        texts.gap(0.8);
    }
    flow.texts(&texts);
}

pub(super) fn points(flow: &mut Flow, lines: &[String]) {
    let mut texts = Texts::new(flow.width());
    for line in lines {
        texts.point(TEXT_PT, "–", line);
    }
    flow.texts(&texts);
}

/// A heading within a section that does not stand alone at the foot of a page.
pub(super) fn part(flow: &mut Flow, text: &str) {
    flow.gap(1.2);
    flow.room(18.0);
    flow.title(PART_PT, text);
    flow.gap(0.4);
}

/// A plot over the whole width.
pub(super) fn put_plot(flow: &mut Flow, piece: &Page) {
    let high = piece.paper.height_mm();
    flow.room(high + 2.0);
    let y = flow.y;
    flow.page().put(piece, (MARGIN_MM, y));
    flow.gap(high + 1.0);
}
