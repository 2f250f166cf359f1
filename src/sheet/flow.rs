use super::{Align, Page, Paper, Pen, Table, wrap};

/// From the edge of the paper, in millimetres: what any printer leaves.
pub(super) const MARGIN_MM: f64 = 14.0;

/// Room for the line at the foot of a page, in millimetres.
const FOOT_MM: f64 = 6.0;

/// A point of the printer's, in millimetres.
const POINT_MM: f64 = 25.4 / 72.0;

/// From line to line of a text, as a share of its size.
const LEADING: f64 = 1.3;

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

    pub(super) fn width(&self) -> f64 {
        self.paper.width_mm() - 2.0 * MARGIN_MM
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

    pub(super) fn line(&mut self, size_pt: f64, indent: f64, text: &str) {
        let height = size_pt * POINT_MM * LEADING;
        self.room(height);
        let y = self.y + 0.8 * size_pt * POINT_MM;
        self.page()
            .text((MARGIN_MM + indent, y), size_pt, Align::Left, text);
        self.y += height;
    }

    pub(super) fn paragraph(&mut self, size_pt: f64, indent: f64, text: &str) {
        for line in wrap(text, size_pt, self.width() - indent) {
            self.line(size_pt, indent, &line);
        }
    }

    /// A paragraph behind a mark that hangs before it.
    pub(super) fn point(&mut self, size_pt: f64, mark: &str, text: &str) {
        let indent = 1.8 * size_pt * POINT_MM;
        self.room(size_pt * POINT_MM * LEADING);
        let y = self.y + 0.8 * size_pt * POINT_MM;
        self.page().text((MARGIN_MM, y), size_pt, Align::Left, mark);
        self.paragraph(size_pt, indent, text);
    }

    /// A heading that does not stand alone at the foot of a page.
    pub(super) fn heading(&mut self, size_pt: f64, text: &str) {
        self.gap(2.5);
        self.room(26.0);
        self.line(size_pt, 0.0, text);
        let (y, right) = (self.y, MARGIN_MM + self.width());
        self.page()
            .line(&[(MARGIN_MM, y), (right, y)], false, Pen::solid(0.3));
        self.gap(1.2);
    }

    /// A table over as many pages as it takes, its heading on each.
    pub(super) fn table(&mut self, table: &Table) {
        let mut from = 0;
        while from < table.rows.len() {
            let is_first = self.y <= MARGIN_MM;
            let (top, bottom) = (self.y, self.bottom());
            let (next, y) = table.draw(self.page(), MARGIN_MM, (top, bottom), from, is_first);
            self.y = y;
            if next < table.rows.len() {
                self.turn_over();
            }
            from = next;
        }
    }

    /// The pages, each with this at its foot and its number.
    pub(super) fn finish(mut self, foot: &str) -> Vec<Page> {
        let count = self.pages.len();
        let y = self.paper.height_mm() - MARGIN_MM;
        let (left, right) = (MARGIN_MM, self.paper.width_mm() - MARGIN_MM);
        for (index, page) in self.pages.iter_mut().enumerate() {
            page.line(&[(left, y - 4.0), (right, y - 4.0)], false, Pen::grey(0.15));
            page.text((left, y), 7.0, Align::Left, foot);
            let number = format!("page {} of {count}", index + 1);
            page.text((right, y), 7.0, Align::Right, &number);
        }
        self.pages
    }
}
