//! Letters as outlines, for pictures that must look the same where the font is not there.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use ttf_parser::{GlyphId, OutlineBuilder};

use super::font;
use super::page::{Line, Mark, Page};

/// The outlines of all letters on these pages, once each, to be used by [`Line::letters`].
pub(super) fn definitions(pages: &[Page]) -> String {
    let lines = pages
        .iter()
        .flat_map(Page::marks)
        .filter_map(|mark| match mark {
            Mark::Text(line) => Some(line),
            Mark::Path(_) => None,
        });
    let letters: BTreeSet<char> = lines.flat_map(|line| line.text.chars()).collect();
    let ids: BTreeSet<u16> = letters.into_iter().map(glyph).collect();
    let mut out = String::from("<defs>\n");
    for id in ids {
        let mut outline = Outline(String::new());
        let found = font::face().and_then(|face| face.outline_glyph(GlyphId(id), &mut outline));
        if found.is_some() {
            writeln!(out, r#"<path id="g{id}" d="{}"/>"#, outline.0).ok();
        }
    }
    out.push_str("</defs>\n");
    out
}

/// The number of a letter in the font; 0, an empty box, for what it does not have.
fn glyph(letter: char) -> u16 {
    let found = font::face().and_then(|face| face.glyph_index(letter));
    found.map_or(0, |id| id.0)
}

/// The outline of a letter as an SVG path, in the font's own units, y up.
struct Outline(String);

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        write!(self.0, "M{x} {y}").ok();
    }

    fn line_to(&mut self, x: f32, y: f32) {
        write!(self.0, "L{x} {y}").ok();
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        write!(self.0, "Q{x1} {y1} {x} {y}").ok();
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        write!(self.0, "C{x1} {y1} {x2} {y2} {x} {y}").ok();
    }

    fn close(&mut self) {
        self.0.push('Z');
    }
}

impl Line {
    /// The line as outlines of its letters, from where it begins on: `x` and `y` in millimetres, the letters of this
    /// size in millimetres.
    pub(super) fn letters(&self, (x, y): (f64, f64), size_mm: f64, attributes: &str) -> String {
        let em = font::face().map_or(1000.0, |face| f64::from(face.units_per_em()));
        let scale = size_mm / em;
        let mut out = format!(
            r#"<g transform="translate({x:.3} {y:.3}) scale({scale:.6} -{scale:.6})"{attributes}>"#
        );
        let mut along = 0.0;
        for letter in self.text.chars() {
            if !letter.is_whitespace() {
                write!(
                    out,
                    r##"<use xlink:href="#g{}" x="{along:.0}"/>"##,
                    glyph(letter)
                )
                .ok();
            }
            along += font::width_mm(letter.encode_utf8(&mut [0; 4]), 1.0) / font::POINT_MM * em;
        }
        out.push_str("</g>\n");
        out
    }
}
