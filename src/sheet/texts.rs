//! Lines of text that are set into columns.

use std::ops::Range;

use super::flow::LEADING;
use super::font::{POINT_MM, wrap};
use super::{Align, Page, Pen};

/// How exactly columns are made equally deep, in millimetres.
const EQUAL_MM: f64 = 0.1;

/// Headings, paragraphs and points, wrapped to a width.
#[derive(Clone, Debug)]
pub(super) struct Texts {
    width_mm: f64,
    lines: Vec<Set>,
}

/// One line, or a gap between two.
#[derive(Clone, Debug)]
struct Set {
    height_mm: f64,
    /// How far its mark stands in, and how far its text from there.
    left_mm: f64,
    indent_mm: f64,
    size_pt: f64,
    text: String,
    /// What hangs before it.
    mark: String,
    /// A heading: bold, with a line below.
    heading: bool,
    /// Never the last of a column: a heading, or the first of several lines.
    with_next: bool,
    /// What stands there in place of a text.
    drawing: Option<Page>,
}

impl Set {
    /// A line without anything special about it.
    fn line(height_mm: f64, size_pt: f64, text: &str) -> Self {
        Self {
            height_mm,
            left_mm: 0.0,
            indent_mm: 0.0,
            size_pt,
            text: text.to_owned(),
            mark: String::new(),
            heading: false,
            with_next: false,
            drawing: None,
        }
    }
}

impl Texts {
    pub(super) fn new(width_mm: f64) -> Self {
        Self {
            width_mm,
            lines: Vec::new(),
        }
    }

    pub(super) fn width_mm(&self) -> f64 {
        self.width_mm
    }

    /// How deep all of it is in one column.
    pub(super) fn depth_mm(&self) -> f64 {
        self.lines.iter().map(|set| set.height_mm).sum()
    }

    pub(super) fn len(&self) -> usize {
        self.lines.len()
    }

    pub(super) fn heading(&mut self, size_pt: f64, text: &str) {
        self.gap(2.4);
        self.lines.push(Set {
            heading: true,
            with_next: true,
            ..Set::line(size_pt * POINT_MM * LEADING + 1.2, size_pt, text)
        });
    }

    pub(super) fn gap(&mut self, mm: f64) {
        if !self.lines.is_empty() {
            self.lines.push(Set::line(mm, 0.0, ""));
        }
    }

    pub(super) fn paragraph(&mut self, size_pt: f64, text: &str) {
        self.point(size_pt, "", text);
    }

    /// A paragraph behind a mark that hangs before it.
    pub(super) fn point(&mut self, size_pt: f64, mark: &str, text: &str) {
        self.point_among(size_pt, mark, mark, text);
    }

    /// A point with others below it, from which it is not parted.
    pub(super) fn point_over(&mut self, size_pt: f64, mark: &str, text: &str) {
        self.point(size_pt, mark, text);
        if let Some(last) = self.lines.last_mut() {
            last.with_next = true;
        }
    }

    /// A step below a point, behind its number; nothing without words.
    pub(super) fn step(&mut self, size_pt: f64, (mark, widest): (&str, &str), text: &str) {
        if text.is_empty() {
            return;
        }
        let from = self.lines.len();
        let indent = 1.4 * size_pt * POINT_MM;
        self.width_mm -= indent;
        self.point_among(size_pt, mark, widest, text);
        self.width_mm += indent;
        for line in &mut self.lines[from..] {
            line.left_mm = indent;
        }
    }

    /// The same among others, of which the widest mark is this: all texts stand in one line.
    pub(super) fn point_among(&mut self, size_pt: f64, mark: &str, widest: &str, text: &str) {
        let indent = match widest.chars().count() {
            0 => 0.0,
            1 => 1.4,
            2 => 2.1,
            _ => 2.8,
        } * size_pt
            * POINT_MM;
        let lines = wrap(text, size_pt, self.width_mm - indent);
        let count = lines.len();
        for (i, line) in lines.into_iter().enumerate() {
            self.lines.push(Set {
                indent_mm: indent,
                mark: if i == 0 {
                    mark.to_owned()
                } else {
                    String::new()
                },
                // No line of a paragraph stands alone in a column.
                with_next: count > 1 && (i == 0 || i + 2 == count),
                ..Set::line(size_pt * POINT_MM * LEADING, size_pt, &line)
            });
        }
    }

    /// A drawing that stands in the column as a whole, so high.
    pub(super) fn drawing(&mut self, page: Page, high_mm: f64) {
        self.lines.push(Set {
            drawing: Some(page),
            ..Set::line(high_mm, 1.0, "")
        });
    }

    /// The first line from here on that is no gap.
    pub(super) fn skip_gaps(&self, from: usize) -> usize {
        let is_gap = |set: &&Set| set.size_pt <= 0.0;
        from + self.lines.iter().skip(from).take_while(is_gap).count()
    }

    /// Up to which line a column of this depth reaches; at least one line on.
    pub(super) fn reach(&self, from: usize, depth_mm: f64) -> usize {
        let (mut depth, mut to) = (0.0, from);
        for set in self.lines.iter().skip(from) {
            depth += set.height_mm;
            if depth > depth_mm + 1e-9 {
                break;
            }
            to += 1;
        }
        while to > from && to < self.lines.len() && self.lines[to - 1].with_next {
            to -= 1;
        }
        if to == from { from + 1 } else { to }
    }

    /// The same, but no paragraph goes on elsewhere: nothing at all rather than a part of one.
    pub(super) fn reach_whole(&self, from: usize, depth_mm: f64) -> usize {
        let begins = |set: &Set| {
            set.heading || !set.mark.is_empty() || set.drawing.is_some() || set.size_pt <= 0.0
        };
        let mut to = self.reach(from, depth_mm);
        while to > from && self.lines.get(to).is_some_and(|set| !begins(set)) {
            to -= 1;
        }
        while to > from && to < self.lines.len() && self.lines[to - 1].with_next {
            to -= 1;
        }
        to
    }

    /// How deep so many columns must be to hold everything from a line on; `None` if that is more than there
    /// is.
    pub(super) fn least_depth(&self, from: usize, count: usize, most_mm: f64) -> Option<f64> {
        let fits = |depth: f64| {
            let mut at = from;
            for _ in 0..count {
                if at < self.lines.len() {
                    let to = self.reach(at, depth);
                    // Nothing stands alone in a column that could be deeper.
                    let is_alone = to < self.lines.len() && self.lines[to - 1].with_next;
                    if is_alone && depth < most_mm {
                        return false;
                    }
                    at = self.skip_gaps(to);
                }
            }
            at >= self.lines.len()
        };
        if !fits(most_mm) {
            return None;
        }
        let (mut low, mut high) = (0.0, most_mm);
        while high - low > EQUAL_MM {
            let middle = 0.5 * (low + high);
            if fits(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(high)
    }

    /// Draws some lines from an upper left corner down; tells how deep that is.
    pub(super) fn draw(
        &self,
        page: &mut Page,
        lines: Range<usize>,
        (left, top): (f64, f64),
    ) -> f64 {
        let mut y = top;
        for set in self.lines.get(lines).unwrap_or_default() {
            if let Some(drawing) = &set.drawing {
                page.put(drawing, (left, y));
            }
            let foot = y + 0.8 * set.size_pt * POINT_MM;
            let left = left + set.left_mm;
            page.bold((left, foot), set.size_pt, Align::Left, &set.mark);
            let at = (left + set.indent_mm, foot);
            if set.heading {
                page.bold(at, set.size_pt, Align::Left, &set.text);
                let below = y + set.height_mm - 0.7;
                let right = left + self.width_mm;
                page.line(&[(left, below), (right, below)], false, Pen::solid(0.25));
            } else {
                page.text(at, set.size_pt, Align::Left, &set.text);
            }
            y += set.height_mm;
        }
        y - top
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts() -> Texts {
        let mut texts = Texts::new(60.0);
        for chapter in 0..6 {
            texts.heading(11.0, &format!("Chapter {chapter}"));
            for point in 0..=chapter {
                texts.point(
                    10.0,
                    "–",
                    &format!("point {point} of {chapter} {}", "words ".repeat(20)),
                );
            }
        }
        texts
    }

    #[test]
    fn columns_hold_everything_once_and_no_heading_is_last() {
        let texts = texts();
        for depth in [12.0, 30.0, 77.0] {
            let (mut at, mut seen) = (0, Vec::new());
            while at < texts.len() {
                let to = texts.reach(at, depth);
                assert!(to > at, "it gets on");
                assert!(
                    to == texts.len() || !texts.lines[to - 1].with_next || to == at + 1,
                    "{depth}"
                );
                seen.extend(at..to);
                at = to;
            }
            assert_eq!(seen, (0..texts.len()).collect::<Vec<_>>());
        }
    }

    #[test]
    fn beside_a_drawing_no_paragraph_is_broken() {
        let texts = texts();
        for depth in [3.0, 12.0, 30.0, 77.0, 140.0] {
            let to = texts.reach_whole(0, depth);
            let high: f64 = texts.lines[..to].iter().map(|set| set.height_mm).sum();
            assert!(high <= depth, "{high} in {depth}");
            let next = &texts.lines[to];
            let begins = next.heading || !next.mark.is_empty() || next.size_pt <= 0.0;
            assert!(begins, "{:?} goes on elsewhere, {depth}", next.text);
            assert!(to == 0 || !texts.lines[to - 1].with_next, "{depth}");
        }
        assert!(texts.reach_whole(0, 77.0) > 4);
    }

    #[test]
    fn a_heading_stands_in_the_column_of_what_it_is_over() {
        let mut texts = Texts::new(60.0);
        texts.heading(11.0, "Limit card");
        texts.drawing(
            Page::new(crate::sheet::Paper::Cut { wide: 60, high: 14 }),
            15.0,
        );
        let depth = texts.least_depth(0, 2, 200.0).unwrap();
        assert_eq!(
            texts.reach(0, depth),
            2,
            "both in the first column, {depth}"
        );
    }

    #[test]
    fn two_columns_are_as_deep_as_they_must_be() {
        let texts = texts();
        let depth = texts.least_depth(0, 2, 500.0).unwrap();
        let all: f64 = texts.lines.iter().map(|set| set.height_mm).sum();
        assert!(
            depth >= 0.5 * all - 8.0 && depth < 0.5 * all + 12.0,
            "{depth} of {all}"
        );
        assert_eq!(texts.least_depth(0, 2, 0.4 * all), None);
    }
}
