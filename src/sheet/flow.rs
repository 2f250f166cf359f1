use super::font::{POINT_MM, wrap};
use super::texts::Texts;
use super::{Align, Page, Paper, Pen, Table};

/// From the edge of the paper, in millimetres: what any printer leaves, and room for a clip.
pub(super) const MARGIN_MM: f64 = 10.0;

/// Room for the line at the foot of a page, in millimetres.
const FOOT_MM: f64 = 5.0;

/// Size of the line at the foot, in points.
pub(super) const FOOT_PT: f64 = 8.0;

/// Room for the number of the page at the end of that line, in millimetres.
pub(super) const NUMBER_MM: f64 = 26.0;

/// From line to line of a text, as a share of its size.
pub(super) const LEADING: f64 = 1.22;

/// Room for a heading with the line below it, in millimetres.
const HEADING_MM: f64 = 6.0;

/// Between two columns, in millimetres.
pub(super) const GUTTER_MM: f64 = 6.0;

/// Less than this is not begun at the foot of a page, in millimetres.
const LEAST_MM: f64 = 16.0;

/// Pages that are filled from top to bottom, one after the other.
pub(super) struct Flow {
    paper: Paper,
    pages: Vec<Page>,
    /// Where the next thing goes, in millimetres from the top.
    pub(super) y: f64,
}

impl Flow {
    pub(super) fn new(paper: Paper) -> Self {
        Self {
            paper,
            pages: vec![Page::new(paper)],
            y: MARGIN_MM,
        }
    }

    pub(super) fn page(&mut self) -> &mut Page {
        if self.pages.is_empty() {
            self.pages.push(Page::new(self.paper));
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    pub(super) fn page_count(&self) -> usize {
        self.pages.len()
    }

    pub(super) fn width(&self) -> f64 {
        self.paper.width_mm() - 2.0 * MARGIN_MM
    }

    /// How wide one of two columns is.
    pub(super) fn half(&self) -> f64 {
        0.5 * (self.width() - GUTTER_MM)
    }

    pub(super) fn bottom(&self) -> f64 {
        self.paper.height_mm() - MARGIN_MM - FOOT_MM
    }

    pub(super) fn turn_over(&mut self) {
        self.pages.push(Page::new(self.paper));
        self.y = MARGIN_MM;
    }

    /// Turns over if less than this is left of the page.
    pub(super) fn room(&mut self, needed_mm: f64) {
        if self.y + needed_mm > self.bottom() && self.y > MARGIN_MM {
            self.turn_over();
        }
    }

    pub(super) fn gap(&mut self, mm: f64) {
        self.y += mm;
    }

    fn one_line(&mut self, size_pt: f64, bold: bool, text: &str) {
        let height = size_pt * POINT_MM * LEADING;
        self.room(height);
        let at = (MARGIN_MM, self.y + 0.8 * size_pt * POINT_MM);
        if bold {
            self.page().bold(at, size_pt, Align::Left, text);
        } else {
            self.page().text(at, size_pt, Align::Left, text);
        }
        self.y += height;
    }

    pub(super) fn line(&mut self, size_pt: f64, text: &str) {
        self.one_line(size_pt, false, text);
    }

    /// A title, in several lines if it must be.
    pub(super) fn title(&mut self, size_pt: f64, text: &str) {
        // Bold letters are a little wider than the plain ones that are measured.
        for line in wrap(text, size_pt, 0.97 * self.width()) {
            self.one_line(size_pt, true, &line);
        }
    }

    /// A heading that does not stand alone at the foot of a page.
    pub(super) fn heading(&mut self, size_pt: f64, text: &str) {
        self.heading_over(size_pt, text, LEAST_MM);
    }

    /// A heading with so much below it on the same page, in millimetres.
    pub(super) fn heading_over(&mut self, size_pt: f64, text: &str, below_mm: f64) {
        self.gap(2.0);
        self.room(below_mm + HEADING_MM);
        self.title(size_pt, text);
        let (y, right) = (self.y, MARGIN_MM + self.width());
        self.page()
            .line(&[(MARGIN_MM, y), (right, y)], false, Pen::solid(0.3));
        self.gap(1.0);
    }

    /// Texts over the whole width.
    pub(super) fn texts(&mut self, texts: &Texts) {
        self.columns(texts, 0, 1);
    }

    /// Texts in a column at the right of the page, down to a depth; tells what did not find room.
    pub(super) fn beside(&mut self, texts: &Texts, depth_mm: f64) -> usize {
        let (top, left) = (self.y, MARGIN_MM + self.half() + GUTTER_MM);
        let reached = texts.reach_whole(0, depth_mm);
        texts.draw(self.page(), 0..reached, (left, top));
        reached
    }

    /// Texts from one line on in columns of equal depth, over as many pages as it takes.
    pub(super) fn columns(&mut self, texts: &Texts, from: usize, count: usize) {
        let mut from = texts.skip_gaps(from);
        while from < texts.len() {
            if self.bottom() - self.y < LEAST_MM && self.y > MARGIN_MM {
                self.turn_over();
            }
            let (left, top, room) = (MARGIN_MM, self.y, self.bottom() - self.y);
            let depth = texts.least_depth(from, count, room).unwrap_or(room);
            let mut deepest: f64 = 0.0;
            for column in 0..count {
                let to = texts.reach(from, depth);
                let across = left + column as f64 * (texts.width_mm() + GUTTER_MM);
                deepest = deepest.max(texts.draw(self.page(), from..to, (across, top)));
                from = texts.skip_gaps(to);
            }
            self.y = top + deepest;
            if from < texts.len() {
                self.turn_over();
            }
        }
    }

    /// A table over as many pages as it takes, its heading on each.
    pub(super) fn table(&mut self, table: &Table) {
        self.table_before(table, 0.0);
    }

    /// The same with so much room below its last rows, in millimetres, for what must not stand without them.
    pub(super) fn table_before(&mut self, table: &Table, follows_mm: f64) {
        let mut from = 0;
        while from < table.rows.len() {
            let is_first = self.y <= MARGIN_MM;
            let (top, bottom) = (self.y, self.bottom());
            let count = table.rows_for(from, bottom - top, follows_mm, is_first);
            if count > 0 {
                let rows = table.rows.iter().skip(from).take(count).cloned();
                let of_page = Table {
                    rows: rows.collect(),
                    ..table.clone()
                };
                let (_, y) = of_page.draw(self.page(), MARGIN_MM, (top, f64::INFINITY), 0, true);
                self.y = y;
                from += count;
            }
            if from < table.rows.len() {
                self.turn_over();
            }
        }
    }

    /// The pages, each with this at its foot and its number.
    pub(super) fn finish(mut self, foot: &str) -> Vec<Page> {
        let count = self.pages.len();
        let y = self.paper.height_mm() - MARGIN_MM;
        let (left, right) = (MARGIN_MM, self.paper.width_mm() - MARGIN_MM);
        for (index, page) in self.pages.iter_mut().enumerate() {
            page.line(&[(left, y - 3.6), (right, y - 3.6)], false, Pen::grey(0.15));
            page.text((left, y), FOOT_PT, Align::Left, foot);
            let number = format!("page {} of {count}", index + 1);
            page.text((right, y), FOOT_PT, Align::Right, &number);
        }
        self.pages
    }
}
