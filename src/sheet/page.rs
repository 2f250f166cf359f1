use std::fmt::Write as _;

use super::font::{FAMILY, POINT_MM, WEIGHT};

/// A size of paper, upright.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    #[default]
    A4,
    /// US Letter, 8.5 × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// Width in millimetres.
    pub fn width_mm(self) -> f64 {
        match self {
            Self::A4 => 210.0,
            Self::Letter => 8.5 * 25.4,
        }
    }

    /// Height in millimetres.
    pub fn height_mm(self) -> f64 {
        match self {
            Self::A4 => 297.0,
            Self::Letter => 11.0 * 25.4,
        }
    }
}

/// Where a text stands in relation to its point.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum Align {
    /// Begins there.
    #[default]
    Left,
    /// Its middle is there.
    Middle,
    /// Ends there.
    Right,
}

/// How a line is drawn.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Pen {
    /// Width in millimetres.
    pub width_mm: f64,
    /// From 0 (black) to 1 (white).
    pub grey: f64,
    /// In dashes?
    pub dashed: bool,
}

impl Pen {
    /// A solid black line.
    pub const fn solid(width_mm: f64) -> Self {
        Self {
            width_mm,
            grey: 0.0,
            dashed: false,
        }
    }

    /// A grey line.
    pub const fn grey(width_mm: f64) -> Self {
        Self {
            width_mm,
            grey: 0.55,
            dashed: false,
        }
    }

    /// A grey line in dashes.
    pub const fn dashed(width_mm: f64) -> Self {
        Self {
            width_mm,
            grey: 0.35,
            dashed: true,
        }
    }
}

/// One page: lines and texts at places in millimetres from the upper left corner.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// Its size.
    pub paper: Paper,
    body: String,
}

impl Page {
    /// An empty page.
    pub fn new(paper: Paper) -> Self {
        Self {
            paper,
            body: String::new(),
        }
    }

    /// A line of text whose foot stands at the point; the size is in points.
    pub fn text(&mut self, at: (f64, f64), size_pt: f64, align: Align, text: &str) {
        if text.trim().is_empty() {
            return;
        }
        let anchor = match align {
            Align::Left => "start",
            Align::Middle => "middle",
            Align::Right => "end",
        };
        let (x, y, size) = (at.0, at.1, size_pt * POINT_MM);
        writeln!(
            self.body,
            r#"<text x="{x:.3}" y="{y:.3}" font-size="{size:.4}" text-anchor="{anchor}">{}</text>"#,
            escape(text)
        )
        .ok();
    }

    /// A line of text turned about its point, in degrees with the clock; for what is too long for its place.
    pub fn text_turned(
        &mut self,
        at: (f64, f64),
        size_pt: f64,
        align: Align,
        turn_deg: f64,
        text: &str,
    ) {
        let (x, y) = at;
        writeln!(
            self.body,
            r#"<g transform="rotate({turn_deg:.1} {x:.3} {y:.3})">"#
        )
        .ok();
        self.text(at, size_pt, align, text);
        self.body.push_str("</g>\n");
    }

    /// A line from point to point; closed, it comes back to the first.
    pub fn line(&mut self, points: &[(f64, f64)], closed: bool, pen: Pen) {
        self.path(points, closed, "none", Some(pen));
    }

    /// A filled shape, from 0 (black) to 1 (white), with an edge if there is a pen.
    pub fn fill(&mut self, points: &[(f64, f64)], grey: f64, pen: Option<Pen>) {
        self.path(points, true, &shade(grey), pen);
    }

    /// A filled rectangle from its upper left corner.
    pub fn rectangle(&mut self, at: (f64, f64), size: (f64, f64), grey: f64, pen: Option<Pen>) {
        let ((x, y), (w, h)) = (at, size);
        self.fill(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)], grey, pen);
    }

    fn path(&mut self, points: &[(f64, f64)], closed: bool, fill: &str, pen: Option<Pen>) {
        if points.len() < 2
            || points
                .iter()
                .any(|(x, y)| !(x.is_finite() && y.is_finite()))
        {
            return;
        }
        self.body.push_str(r#"<path d=""#);
        for (i, (x, y)) in points.iter().enumerate() {
            let step = if i == 0 { 'M' } else { 'L' };
            write!(self.body, "{step}{x:.3} {y:.3}").ok();
        }
        if closed {
            self.body.push('Z');
        }
        write!(self.body, r#"" fill="{fill}""#).ok();
        if let Some(pen) = pen {
            let (stroke, width) = (shade(pen.grey), pen.width_mm);
            write!(
                self.body,
                r#" stroke="{stroke}" stroke-width="{width:.3}" stroke-linejoin="round""#
            )
            .ok();
            if pen.dashed {
                self.body.push_str(r#" stroke-dasharray="1.6 1.1""#);
            }
        }
        self.body.push_str("/>\n");
    }

    /// The page as an SVG of its own.
    pub(super) fn svg(&self) -> String {
        let (w, h) = (self.paper.width_mm(), self.paper.height_mm());
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w:.3}mm\" height=\"{h:.3}mm\" \
             viewBox=\"0 0 {w:.3} {h:.3}\" font-family=\"{FAMILY}\" font-weight=\"{WEIGHT}\">\n\
             <rect width=\"{w:.3}\" height=\"{h:.3}\" fill=\"#fff\"/>\n{}</svg>\n",
            self.body
        )
    }

    /// What is drawn on it, without the page round it.
    pub(super) fn body(&self) -> &str {
        &self.body
    }
}

fn shade(grey: f64) -> String {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to a byte"
    )]
    let level = (grey * 255.0).round().clamp(0.0, 255.0) as u8;
    format!("#{level:02x}{level:02x}{level:02x}")
}

/// A text as it may stand between the tags of XML 1.0: markup written out, what XML forbids left out.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_with_markup_stay_names() {
        let mut page = Page::new(Paper::A4);
        page.text((10.0, 10.0), 10.0, Align::Left, "Rock & <Roll>\u{0}");
        assert!(page.body().contains("Rock &amp; &lt;Roll&gt; <"));
    }

    #[test]
    fn what_has_no_place_is_not_drawn() {
        let mut page = Page::new(Paper::Letter);
        page.line(&[(0.0, f64::NAN), (1.0, 1.0)], false, Pen::solid(0.2));
        page.line(&[(0.0, 1.0)], false, Pen::solid(0.2));
        page.text((0.0, 0.0), 9.0, Align::Left, "  ");
        assert_eq!(page.body(), "");
    }
}
