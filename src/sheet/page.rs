mod cut;
mod extent;

use std::fmt::Write as _;

use super::font::POINT_MM;

/// A size of paper, upright, or a piece cut to size for one drawing.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 210 × 297 mm.
    #[default]
    A4,
    /// US Letter, 8.5 × 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// So many millimetres wide and high.
    Cut {
        /// Width in millimetres.
        wide: u32,
        /// Height in millimetres.
        high: u32,
    },
}

impl Paper {
    /// Width in millimetres.
    pub fn width_mm(self) -> f64 {
        match self {
            Self::A4 => 210.0,
            Self::Letter => 8.5 * 25.4,
            Self::Cut { wide, .. } => f64::from(wide),
        }
    }

    /// Height in millimetres.
    pub fn height_mm(self) -> f64 {
        match self {
            Self::A4 => 297.0,
            Self::Letter => 11.0 * 25.4,
            Self::Cut { high, .. } => f64::from(high),
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

/// Something drawn on a page, in millimetres from its upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Mark {
    /// A line of text.
    Text(Line),
    /// A shape or a line.
    Path(Path),
}

/// A line of text.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Line {
    /// Where it begins, has its middle or ends, on the foot of its letters.
    pub(super) at: (f64, f64),
    pub(super) size_pt: f64,
    pub(super) align: Align,
    /// Turned about that point, in degrees with the clock.
    pub(super) turn_deg: f64,
    /// Drawn with thicker strokes.
    pub(super) bold: bool,
    /// From 0 (black) to 1 (white).
    pub(super) grey: f64,
    pub(super) text: String,
}

/// A shape or a line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Path {
    pub(super) points: Vec<(f64, f64)>,
    pub(super) closed: bool,
    /// From 0 (black) to 1 (white).
    pub(super) fill: Option<f64>,
    pub(super) pen: Option<Pen>,
}

/// How much thicker the strokes of bold letters are, as a share of the size of the letters.
pub(super) const BOLD_EM: f64 = 0.035;

/// Dashes and the gaps between them, in millimetres.
pub(super) const DASHES_MM: [f64; 2] = [1.6, 1.1];

/// One page: lines and texts at places in millimetres from the upper left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its size.
    pub paper: Paper,
    marks: Vec<Mark>,
}

impl Page {
    /// An empty page.
    pub fn new(paper: Paper) -> Self {
        Self {
            paper,
            marks: Vec::new(),
        }
    }

    /// A line of text whose foot stands at the point; the size is in points.
    pub fn text(&mut self, at: (f64, f64), size_pt: f64, align: Align, text: &str) {
        self.write(at, size_pt, align, text, |_| {});
    }

    /// A line of text in thicker letters.
    pub fn bold(&mut self, at: (f64, f64), size_pt: f64, align: Align, text: &str) {
        self.write(at, size_pt, align, text, |line| line.bold = true);
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
        self.write(at, size_pt, align, text, |line| line.turn_deg = turn_deg);
    }

    fn write(
        &mut self,
        at: (f64, f64),
        size_pt: f64,
        align: Align,
        text: &str,
        change: impl FnOnce(&mut Line),
    ) {
        if text.trim().is_empty() || !(at.0.is_finite() && at.1.is_finite()) {
            return;
        }
        let mut line = Line {
            at,
            size_pt,
            align,
            turn_deg: 0.0,
            bold: false,
            grey: 0.0,
            text: super::font::printable(text),
        };
        change(&mut line);
        self.marks.push(Mark::Text(line));
    }

    /// A line from point to point; closed, it comes back to the first.
    pub fn line(&mut self, points: &[(f64, f64)], closed: bool, pen: Pen) {
        self.path(points, closed, None, Some(pen));
    }

    /// A filled shape, from 0 (black) to 1 (white), with an edge if there is a pen.
    pub fn fill(&mut self, points: &[(f64, f64)], grey: f64, pen: Option<Pen>) {
        self.path(points, true, Some(grey), pen);
    }

    /// A filled rectangle from its upper left corner.
    pub fn rectangle(&mut self, at: (f64, f64), size: (f64, f64), grey: f64, pen: Option<Pen>) {
        let ((x, y), (w, h)) = (at, size);
        self.fill(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)], grey, pen);
    }

    fn path(&mut self, points: &[(f64, f64)], closed: bool, fill: Option<f64>, pen: Option<Pen>) {
        let is_point = |(x, y): &(f64, f64)| x.is_finite() && y.is_finite();
        if points.len() < 2 || !points.iter().all(is_point) {
            return;
        }
        self.marks.push(Mark::Path(Path {
            points: points.to_vec(),
            closed,
            fill,
            pen,
        }));
    }

    /// Puts another page onto this one, its upper left corner at a point.
    pub fn put(&mut self, other: &Self, (left, top): (f64, f64)) {
        let moved = |(x, y): (f64, f64)| (x + left, y + top);
        self.marks.extend(other.marks.iter().map(|mark| match mark {
            Mark::Text(line) => Mark::Text(Line {
                at: moved(line.at),
                ..line.clone()
            }),
            Mark::Path(path) => Mark::Path(Path {
                points: path.points.iter().copied().map(moved).collect(),
                ..path.clone()
            }),
        }));
    }

    /// What is drawn on it, in the order in which it was drawn.
    pub(super) fn marks(&self) -> &[Mark] {
        &self.marks
    }

    /// The texts on it, in the order in which they were drawn.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Text(line) => Some(line.text.as_str()),
            Mark::Path(_) => None,
        })
    }

    /// What is drawn on it as SVG, without the page round it.
    pub(super) fn body(&self) -> String {
        let mut out = String::new();
        for mark in &self.marks {
            match mark {
                Mark::Text(line) => line.svg(&mut out),
                Mark::Path(path) => path.svg(&mut out),
            }
        }
        out
    }
}

impl Line {
    /// Outlines of the letters, and over them the same words unseen, to be found and copied.
    fn svg(&self, out: &mut String) {
        let size = self.size_pt * POINT_MM;
        let width = super::font::width_mm(&self.text, self.size_pt);
        let back = match self.align {
            Align::Left => 0.0,
            Align::Middle => 0.5 * width,
            Align::Right => width,
        };
        let (x, y) = (self.at.0 - back, self.at.1);
        let mut attributes = String::new();
        if self.grey > 0.0 {
            write!(attributes, r#" fill="{}""#, shade(self.grey)).ok();
        }
        if self.bold {
            let em = super::font::face().map_or(1000.0, |face| f64::from(face.units_per_em()));
            let (shade, width) = (shade(self.grey), BOLD_EM * em);
            write!(attributes, r#" stroke="{shade}" stroke-width="{width:.1}""#).ok();
        }
        if self.turn_deg != 0.0 {
            let (turn, (x, y)) = (self.turn_deg, self.at);
            write!(out, r#"<g transform="rotate({turn:.1} {x:.3} {y:.3})">"#).ok();
        }
        out.push_str(&self.letters((x, y), size, &attributes));
        writeln!(
            out,
            r#"<text x="{x:.3}" y="{y:.3}" font-size="{size:.4}" textLength="{width:.3}" lengthAdjust="spacingAndGlyphs" fill="none">{}</text>"#,
            escape(&self.text)
        )
        .ok();
        if self.turn_deg != 0.0 {
            out.push_str("</g>\n");
        }
    }
}

impl Path {
    fn svg(&self, out: &mut String) {
        out.push_str(r#"<path d=""#);
        for (i, (x, y)) in self.points.iter().enumerate() {
            let step = if i == 0 { 'M' } else { 'L' };
            write!(out, "{step}{x:.3} {y:.3}").ok();
        }
        if self.closed {
            out.push('Z');
        }
        let fill = self.fill.map_or_else(|| "none".to_owned(), shade);
        write!(out, r#"" fill="{fill}""#).ok();
        if let Some(pen) = self.pen {
            let (stroke, width) = (shade(pen.grey), pen.width_mm);
            write!(
                out,
                r#" stroke="{stroke}" stroke-width="{width:.3}" stroke-linejoin="round""#
            )
            .ok();
            if pen.dashed {
                let [dash, gap] = DASHES_MM;
                write!(out, r#" stroke-dasharray="{dash} {gap}""#).ok();
            }
        }
        out.push_str("/>\n");
    }
}

/// A grey from 0 (black) to 1 (white) as a byte.
pub(super) fn level(grey: f64) -> u8 {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to a byte"
    )]
    let level = (grey * 255.0).round().clamp(0.0, 255.0) as u8;
    level
}

fn shade(grey: f64) -> String {
    let level = level(grey);
    format!("#{level:02x}{level:02x}{level:02x}")
}

/// A text as it may stand between the tags of XML 1.0: markup written out.
fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
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
