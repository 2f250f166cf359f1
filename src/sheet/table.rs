use super::font::{STROKES, width_mm, wrap};
use super::page::{Align, Page, Pen};

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What stands above it.
    pub heading: String,
    /// Its width in millimetres.
    pub width_mm: f64,
}

/// How a table is drawn.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct TableStyle {
    /// Size of its text, in points.
    pub size_pt: f64,
    /// The least height of a row in millimetres: room for a hand that writes.
    pub row_mm: f64,
    /// Between a text and the line beside it, in millimetres; half of it above and below.
    pub pad_mm: f64,
    /// Lines between columns?
    pub ruled: bool,
}

/// A table that is drawn row by row, from page to page.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Its columns, from left to right.
    pub columns: Vec<Column>,
    /// Its rows, a text for each column, broken where the text is; short rows are filled with blanks.
    pub rows: Vec<Vec<String>>,
    /// How it is drawn.
    pub style: TableStyle,
}

/// Fewer rows than this do not stand at the head or the foot of a page, if there are more.
const FEWEST_ROWS: usize = 2;

/// So many rows stand above what follows a table on a page of its own.
const TAKEN_ALONG: usize = 3;

/// A column that others take room from keeps this share of its width.
const LEAST_SHARE: f64 = 0.75;

/// From line to line of a text, as a share of its size.
const LEADING: f64 = 1.12;

impl Table {
    /// Draws the heading and as many rows as fit between `top` and `bottom`, from row `from` on. Tells the
    /// next row and where the drawing ended.
    ///
    /// A row that is higher than a whole page is drawn all the same, so that every call gets on.
    pub fn draw(
        &self,
        page: &mut Page,
        left: f64,
        (top, bottom): (f64, f64),
        from: usize,
        is_first_on_page: bool,
    ) -> (usize, f64) {
        let headings: Vec<String> = self.columns.iter().map(|c| c.heading.clone()).collect();
        let heading_mm = self.heading_mm();
        let first_mm = self.rows.get(from).map_or(0.0, |row| self.row_height(row));
        if top + heading_mm + first_mm > bottom && !is_first_on_page {
            return (from, top);
        }
        let width: f64 = self.columns.iter().map(|c| c.width_mm).sum();
        page.rectangle((left, top), (width, heading_mm), 0.9, None);
        self.texts(page, (left, top), &headings, true);
        let (mut y, mut next) = (top + heading_mm, from);
        page.line(&[(left, y), (left + width, y)], false, Pen::solid(0.25));
        while let Some(row) = self.rows.get(next) {
            let height = self.row_height(row);
            if y + height > bottom && next > from {
                break;
            }
            self.texts(page, (left, y), row, false);
            y += height;
            page.line(&[(left, y), (left + width, y)], false, Pen::grey(0.2));
            next += 1;
        }
        if self.style.ruled {
            let mut x = left;
            for column in &self.columns {
                page.line(&[(x, top), (x, y)], false, Pen::grey(0.15));
                x += column.width_mm;
            }
            page.line(&[(x, top), (x, y)], false, Pen::grey(0.15));
        }
        (next, y)
    }

    /// The same with columns as wide as their widest words ask for, as far as other columns have room to spare; none
    /// becomes narrower than three quarters of what it was.
    #[must_use]
    pub fn with_room_for_words(mut self) -> Self {
        let style = self.style;
        let widest = |text: &str| {
            // Behind a stroke a word may be broken.
            let pieces = text
                .split_whitespace()
                .flat_map(|word| word.split_inclusive(STROKES));
            pieces
                .map(|piece| width_mm(piece, style.size_pt))
                .fold(0.0, f64::max)
        };
        let needed = self.columns.iter().enumerate().map(|(index, column)| {
            let cells = self.rows.iter().filter_map(|row| row.get(index));
            let of_cells = cells.map(|text| widest(text)).fold(0.0, f64::max);
            // Bold letters are a little wider than the plain ones that are measured.
            let of_all = of_cells.max(1.03 * widest(&column.heading));
            (of_all + 2.0 * style.pad_mm + 0.01).max(LEAST_SHARE * column.width_mm)
        });
        let needed: Vec<f64> = needed.collect();
        let pairs = || self.columns.iter().map(|it| it.width_mm).zip(&needed);
        let lack: f64 = pairs().map(|(has, needs)| (needs - has).max(0.0)).sum();
        let spare: f64 = pairs().map(|(has, needs)| (has - needs).max(0.0)).sum();
        if lack <= 0.0 || spare <= 0.0 {
            return self;
        }
        let (taken, given) = ((lack / spare).min(1.0), (spare / lack).min(1.0));
        for (column, needs) in self.columns.iter_mut().zip(&needed) {
            let more = needs - column.width_mm;
            column.width_mm += more * if more > 0.0 { given } else { taken };
        }
        self
    }

    /// How high the headings with the first two rows are, in millimetres: less room is no beginning.
    pub fn begin_mm(&self) -> f64 {
        let first = self.rows.iter().take(FEWEST_ROWS);
        self.heading_mm() + first.map(|row| self.row_height(row)).sum::<f64>()
    }

    /// How high all of it is on one page, in millimetres.
    pub fn high_mm(&self) -> f64 {
        self.heading_mm()
            + self
                .rows
                .iter()
                .map(|row| self.row_height(row))
                .sum::<f64>()
    }

    /// How many rows from one on stand well in a room of this height: no row stands alone at the head or at the foot
    /// of a page, and what follows the table on the same page takes its last rows along. On an empty page it is one
    /// row at least.
    pub fn rows_for(&self, from: usize, room_mm: f64, follows_mm: f64, is_first: bool) -> usize {
        let rows = self.rows.get(from..).unwrap_or_default();
        let (mut high, mut fit) = (self.heading_mm(), 0);
        for row in rows {
            high += self.row_height(row);
            if high > room_mm + 1e-9 {
                break;
            }
            fit += 1;
        }
        let left = rows.len() - fit;
        if left == 0 && high + follows_mm > room_mm {
            fit = fit.saturating_sub(TAKEN_ALONG);
        } else if left > 0 && left < FEWEST_ROWS {
            fit = fit.saturating_sub(FEWEST_ROWS - left);
        }
        if fit < FEWEST_ROWS && fit < rows.len() {
            fit = 0;
        }
        if is_first { fit.max(1) } else { fit }
    }

    fn heading_mm(&self) -> f64 {
        let headings: Vec<String> = self.columns.iter().map(|c| c.heading.clone()).collect();
        self.height(&headings, 0.0)
    }

    fn row_height(&self, row: &[String]) -> f64 {
        self.height(row, self.style.row_mm)
    }

    fn lines(&self, column: usize, text: &str) -> Vec<String> {
        let most = self.columns.get(column).map_or(0.0, |c| c.width_mm) - 2.0 * self.style.pad_mm;
        let parts = text
            .lines()
            .flat_map(|part| wrap(part, self.style.size_pt, most));
        let lines: Vec<String> = parts.collect();
        if lines.is_empty() {
            vec![String::new()]
        } else {
            lines
        }
    }

    fn leading_mm(&self) -> f64 {
        self.style.size_pt * super::font::POINT_MM * LEADING
    }

    fn height(&self, row: &[String], least: f64) -> f64 {
        let lines = row
            .iter()
            .enumerate()
            .map(|(i, text)| self.lines(i, text).len());
        let lines = lines.take(self.columns.len()).max().unwrap_or(1);
        (lines as f64 * self.leading_mm() + self.style.pad_mm).max(least)
    }

    fn texts(&self, page: &mut Page, (left, top): (f64, f64), row: &[String], bold: bool) {
        let mut x = left;
        for (i, (column, text)) in self.columns.iter().zip(row).enumerate() {
            for (k, line) in self.lines(i, text).iter().enumerate() {
                let y = top + 0.5 * self.style.pad_mm + (k as f64 + 0.8) * self.leading_mm();
                let at = (x + self.style.pad_mm, y);
                if bold {
                    page.bold(at, self.style.size_pt, Align::Left, line);
                } else {
                    page.text(at, self.style.size_pt, Align::Left, line);
                }
            }
            x += column.width_mm;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::Paper;
    use super::*;

    #[test]
    fn rows_go_on_where_the_page_before_ended() {
        let column = |heading: &str| Column {
            heading: heading.to_owned(),
            width_mm: 30.0,
        };
        let table = Table {
            columns: vec![column("Number"), column("Remark")],
            rows: (1..=20)
                .map(|i| {
                    vec![
                        i.to_string(),
                        "two or three lines of remark in it".to_owned(),
                    ]
                })
                .collect(),
            style: TableStyle {
                size_pt: 9.0,
                row_mm: 6.0,
                pad_mm: 1.2,
                ruled: true,
            },
        };
        let mut from = 0;
        let mut pages = 0;
        while from < table.rows.len() {
            let mut page = Page::new(Paper::A4);
            let (next, y) = table.draw(&mut page, 10.0, (10.0, 90.0), from, true);
            assert!(next > from && y <= 90.0, "{next} {y}");
            for row in &table.rows[from..next] {
                assert!(page.body().contains(&format!(">{}<", row[0])), "{row:?}");
            }
            (from, pages) = (next, pages + 1);
        }
        assert!(pages > 1, "{pages}");
        let mut page = Page::new(Paper::A4);
        let no_room = table.draw(&mut page, 10.0, (85.0, 90.0), 0, false);
        assert_eq!(no_room, (0, 85.0));
    }

    #[test]
    fn no_row_stands_alone_and_what_follows_takes_rows_along() {
        let table = Table {
            columns: vec![Column {
                heading: "step".to_owned(),
                width_mm: 30.0,
            }],
            rows: (1..=10).map(|i| vec![i.to_string()]).collect(),
            style: TableStyle {
                size_pt: 9.0,
                row_mm: 10.0,
                pad_mm: 1.2,
                ruled: true,
            },
        };
        let rows = |count: usize| table.heading_mm() + 10.0 * count as f64;
        let fits = |room: usize, follows_mm: f64, is_first: bool| {
            table.rows_for(0, rows(room), follows_mm, is_first)
        };
        assert_eq!(fits(10, 0.0, false), 10);
        assert_eq!(fits(9, 0.0, false), 8, "two stand overleaf");
        assert_eq!(fits(8, 0.0, false), 8);
        assert_eq!(fits(1, 0.0, false), 0, "none alone at the foot");
        assert_eq!(fits(1, 0.0, true), 1, "but it gets on");
        assert_eq!(fits(10, 5.0, false), 7, "three above what follows");
        assert_eq!(fits(12, 5.0, false), 10, "where there is room for both");
        assert!((table.begin_mm() - rows(2)).abs() < 1e-9);
        assert!((table.high_mm() - rows(10)).abs() < 1e-9);
        assert_eq!(
            table.rows_for(8, rows(2), 5.0, true),
            1,
            "it gets on with two left, too"
        );
    }

    /// A column takes room from others for its widest word, and all of them stay as wide together.
    #[test]
    fn columns_make_room_for_words() {
        let column = |heading: &str, width_mm: f64| Column {
            heading: heading.to_owned(),
            width_mm,
        };
        let table = |name: &str| {
            let table = Table {
                columns: vec![
                    column("diver", 12.0),
                    column("kind", 28.0),
                    column("at", 8.0),
                ],
                rows: vec![vec![name.to_owned(), "Steel 12 L short".to_owned()]],
                style: TableStyle {
                    size_pt: 8.5,
                    row_mm: 7.5,
                    pad_mm: 0.8,
                    ruled: true,
                },
            };
            table.with_room_for_words()
        };
        let widths =
            |table: &Table| -> Vec<f64> { table.columns.iter().map(|it| it.width_mm).collect() };
        assert_eq!(widths(&table("Ann")), [12.0, 28.0, 8.0], "all have room");
        let wide = table("Maximilian");
        assert_eq!(wide.lines(0, "Maximilian"), ["Maximilian"], "not broken");
        let all: f64 = widths(&wide).iter().sum();
        assert!((all - 48.0).abs() < 1e-9, "{all}");
        assert!(widths(&wide)[1] >= 0.75 * 28.0 && widths(&wide)[2] >= 0.75 * 8.0);
    }
}
