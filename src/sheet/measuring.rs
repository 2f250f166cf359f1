//! The measuring sheet: blanks in the order in which one walks the deck with a tape.
//!
//! First the stations from the transom forward, with the half-width to either side; then the diagonals that
//! check them; then what is built onto the deck, each by two of its corners and two tapes to each; then the
//! lashing points. A plan that is there already gives the names.

use super::{Align, Column, Page, Paper, Pen, Table, TableStyle, width_mm, wrap};
use crate::layout::{Boat, FixtureKind, Plan};
use crate::units::System;

/// How the sheet is printed.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// On what.
    pub paper: Paper,
    /// In which units the blanks are to be filled in.
    pub units: System,
}

const MARGIN_MM: f64 = 14.0;
const TEXT_PT: f64 = 9.0;
const HEADING_PT: f64 = 12.5;
const LEADING_MM: f64 = 4.1;

/// Room for a hand that writes on a knee in a boat.
const ROW_MM: f64 = 8.2;

const STATIONS: usize = 12;
const DIAGONALS: usize = 6;
const FIXTURES: usize = 8;
const LASHING_POINTS: usize = 12;

/// The title of the document.
pub fn title(plan: Option<&Plan>) -> String {
    match plan {
        Some(plan) => format!("Measuring sheet – {}", plan.boat.name),
        None => "Measuring sheet".to_owned(),
    }
}

/// The pages of the sheet, with the names that the plan knows, or with blanks alone.
pub fn pages(plan: Option<&Plan>, options: Options) -> Vec<Page> {
    let mut sheet = Sheet {
        pages: vec![Page::new(options.paper)],
        y: MARGIN_MM,
        options,
    };
    sheet.head(plan);
    sheet.figure();
    sheet.stations();
    sheet.diagonals();
    sheet.fixtures(plan.map(|plan| &plan.boat));
    sheet.lashing_points(plan.map(|plan| &plan.boat));
    sheet.foot(&title(plan));
    sheet.pages
}

struct Sheet {
    pages: Vec<Page>,
    y: f64,
    options: Options,
}

impl Sheet {
    fn page(&mut self) -> &mut Page {
        if self.pages.is_empty() {
            self.pages.push(Page::new(self.options.paper));
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    fn right(&self) -> f64 {
        self.options.paper.width_mm() - MARGIN_MM
    }

    fn bottom(&self) -> f64 {
        self.options.paper.height_mm() - MARGIN_MM - 5.0
    }

    fn turn_over(&mut self) {
        self.pages.push(Page::new(self.options.paper));
        self.y = MARGIN_MM;
    }

    fn unit(&self) -> &'static str {
        match self.options.units {
            System::Metric => "m",
            System::Us => "ft in",
        }
    }

    fn small_unit(&self) -> &'static str {
        match self.options.units {
            System::Metric => "cm",
            System::Us => "in",
        }
    }

    fn line_of_text(&mut self, size_pt: f64, text: &str) {
        let y = self.y + 0.8 * size_pt * 25.4 / 72.0;
        self.page().text((MARGIN_MM, y), size_pt, Align::Left, text);
        self.y += size_pt * 25.4 / 72.0 * 1.3;
    }

    fn paragraph(&mut self, text: &str) {
        let most = self.right() - MARGIN_MM;
        for line in wrap(text, TEXT_PT, most) {
            self.line_of_text(TEXT_PT, &line);
        }
    }

    /// A heading that does not stand alone at the foot of a page.
    fn heading(&mut self, number: u8, text: &str) {
        if self.y + 38.0 > self.bottom() {
            self.turn_over();
        } else {
            self.y += 3.5;
        }
        self.line_of_text(HEADING_PT, &format!("{number}  {text}"));
    }

    /// Blanks in a row: what is asked, and a line to write on.
    fn blanks(&mut self, blanks: &[(&str, f64)]) {
        self.y += 6.6;
        let (mut x, y) = (MARGIN_MM, self.y);
        for (label, width) in blanks {
            let begins = x + width_mm(label, TEXT_PT) + 1.5;
            let page = self.page();
            page.text((x, y), TEXT_PT, Align::Left, label);
            page.line(
                &[(begins, y + 0.6), (x + width - 4.0, y + 0.6)],
                false,
                Pen::solid(0.2),
            );
            x += width;
        }
        self.y += 2.0;
    }

    fn table(&mut self, columns: &[(&str, f64)], rows: Vec<Vec<String>>) {
        let table = Table {
            columns: columns
                .iter()
                .map(|(heading, width_mm)| Column {
                    heading: (*heading).to_owned(),
                    width_mm: *width_mm,
                })
                .collect(),
            rows,
            style: TableStyle {
                size_pt: TEXT_PT,
                row_mm: ROW_MM,
                pad_mm: 1.4,
                ruled: true,
            },
        };
        let mut from = 0;
        self.y += 1.0;
        while from < table.rows.len() {
            let is_first = self.y <= MARGIN_MM;
            let (span, bottom) = (self.y, self.bottom());
            let (next, y) = table.draw(self.page(), MARGIN_MM, (span, bottom), from, is_first);
            (from, self.y) = (next, y);
            if from < table.rows.len() {
                self.turn_over();
            }
        }
    }

    fn head(&mut self, plan: Option<&Plan>) {
        self.line_of_text(18.0, "Measuring sheet");
        let whole = self.right() - MARGIN_MM;
        match plan {
            Some(plan) => self.line_of_text(HEADING_PT, &plan.boat.name),
            None => self.blanks(&[("Boat", whole)]),
        }
        self.blanks(&[
            ("Measured by", 0.45 * whole),
            ("Date", 0.25 * whole),
            ("Tape read to ±", 0.3 * whole),
        ]);
        self.y += 1.5;
        let unit = match self.options.units {
            System::Metric => "metres to the centimetre, better to the half (3.425)",
            System::Us => "feet and inches to the quarter (11 ft 2 1/4 in)",
        };
        self.paragraph(&format!(
            "Write {unit}. Stretch a line along the middle of the deck from the transom to the stem: it is the \
             centreline. Lay the tape along it with its zero at the inside of the transom and leave it there. Two \
             people: one holds the zero, one reads. Pull the tape level and straight, read twice, write at once."
        ));
    }

    /// A deck from above with what each blank means.
    fn figure(&mut self) {
        let (left, width) = (MARGIN_MM + 22.0, self.right() - MARGIN_MM - 44.0);
        let (middle, half) = (self.y + 22.0, 16.0);
        let at = |along: f64, across: f64| (left + along * width, middle - across * half);
        let edge = [
            (0.0, 0.86),
            (0.3, 0.97),
            (0.55, 1.0),
            (0.75, 0.86),
            (0.9, 0.52),
            (0.97, 0.22),
            (1.0, 0.0),
        ];
        let mut outline: Vec<_> = edge.iter().map(|(x, y)| at(*x, *y)).collect();
        outline.extend(edge.iter().rev().map(|(x, y)| at(*x, -y)));
        let page = self.page();
        page.line(&outline, true, Pen::solid(0.4));
        page.line(&[at(-0.03, 0.0), at(1.04, 0.0)], false, Pen::dashed(0.2));
        for (i, (x, y)) in edge.iter().take(5).enumerate() {
            page.line(&[at(*x, -y), at(*x, *y)], false, Pen::grey(0.2));
            page.text(at(*x + 0.006, 0.06), 8.0, Align::Left, &(i + 1).to_string());
        }
        page.line(&[at(0.0, 0.86), at(0.75, -0.86)], false, Pen::dashed(0.25));
        page.text(at(0.565, -0.32), 8.0, Align::Left, "diagonal 1 P – 4 S");
        // A box by two corners and two tapes to each.
        let corners = [(0.36, 0.3), (0.5, 0.3), (0.5, 0.72), (0.36, 0.72)];
        page.fill(&corners.map(|(x, y)| at(x, y)), 0.88, Some(Pen::solid(0.3)));
        page.line(
            &[at(0.0, 0.86), at(0.36, 0.3), at(0.0, -0.86)],
            false,
            Pen::solid(0.15),
        );
        page.line(
            &[at(0.0, 0.86), at(0.36, 0.72), at(0.0, -0.86)],
            false,
            Pen::solid(0.15),
        );
        page.text(at(0.365, 0.34), 7.5, Align::Left, "corner 1");
        page.text(at(0.365, 0.58), 7.5, Align::Left, "corner 2");
        page.text(at(-0.015, 0.86), 8.0, Align::Right, "A = 1 P");
        page.text(at(-0.015, -0.92), 8.0, Align::Right, "B = 1 S");
        page.text(at(-0.05, -0.05), 8.0, Align::Right, "transom");
        page.text(at(1.02, 0.1), 8.0, Align::Left, "stem");
        page.text(at(0.62, 1.08), 8.0, Align::Left, "port");
        page.text(at(0.62, -1.22), 8.0, Align::Left, "starboard");
        self.y += 45.0;
    }

    fn stations(&mut self) {
        self.heading(1, "Stations, from the transom forward");
        self.paragraph(
            "At the transom, wherever the edge bends, and closer together towards the bow. Hold the half-width \
             square to the centreline. P is the point on the port edge, S the one to starboard.",
        );
        let (unit, whole) = (self.unit(), self.right() - MARGIN_MM);
        let rows = (1..=STATIONS).map(|i| {
            let mut row = vec![i.to_string()];
            if i == 1 {
                row.push("0".to_owned());
            }
            row
        });
        self.table(
            &[
                ("Station", 16.0),
                (&format!("From the transom, {unit}"), 0.21 * whole),
                (&format!("Half-width port, {unit}"), 0.21 * whole),
                (&format!("Half-width starboard, {unit}"), 0.21 * whole),
                ("Remark", 0.37 * whole - 16.0),
            ],
            rows.collect(),
        );
        self.blanks(&[
            (&format!("Stem from the transom, {unit}"), 0.5 * whole),
            (
                "Bow: square / straight / round / fair from station",
                0.5 * whole,
            ),
        ]);
        self.blanks(&[
            (&format!("Deck above the water, {unit}"), 0.5 * whole),
            ("Deck of (aluminium, painted, grating, mat)", 0.5 * whole),
        ]);
    }

    fn diagonals(&mut self) {
        self.heading(2, "Diagonals, to check the stations");
        self.paragraph(
            "Across the deck from a station's port edge to another one's starboard edge and the other way round. \
             If the two of a pair differ on a deck that is the same on both sides, the centreline was not in the \
             middle.",
        );
        let (unit, whole) = (self.unit(), self.right() - MARGIN_MM);
        let reading = format!("Reading, {unit}");
        let mut rows = vec![vec!["1 P".to_owned()], vec!["1 S".to_owned()]];
        rows.resize(DIAGONALS, Vec::new());
        self.table(
            &[
                ("From", 0.2 * whole),
                ("To", 0.2 * whole),
                (&reading, 0.25 * whole),
                ("Remark", 0.35 * whole),
            ],
            rows,
        );
    }

    fn fixtures(&mut self, boat: Option<&Boat>) {
        self.heading(3, "What is built onto the deck");
        self.paragraph(
            "Bench, console, engine box, hatch, wheelhouse, ladder, gate, winch, oxygen kit, extinguisher. For each \
             the two corners nearest to you, each by two tapes from two points that are known already (1 P and 1 S, \
             or write others); the tapes should meet at more than 30°. Then its length and width, and how high its \
             top is.",
        );
        let (unit, small, whole) = (self.unit(), self.small_unit(), self.right() - MARGIN_MM);
        let mut rows: Vec<Vec<String>> = Vec::new();
        for fixture in boat.map_or(&[][..], |boat| &boat.fixtures) {
            if fixture.kind != FixtureKind::Tube {
                let name = fixture.name.as_ref().unwrap_or(&fixture.id);
                rows.push(vec![name.clone(), "1 P, 1 S".to_owned()]);
            }
        }
        rows.resize(rows.len().max(FIXTURES - 2) + 2, Vec::new());
        let tape = 0.115 * whole;
        let by = |corner: u8, point: char| format!("Corner {corner} from {point}, {unit}");
        self.table(
            &[
                ("What", whole - 4.0 * tape - 52.0),
                ("From A, B", 18.0),
                (&by(1, 'A'), tape),
                (&by(1, 'B'), tape),
                (&by(2, 'A'), tape),
                (&by(2, 'B'), tape),
                (&format!("Length × width, {unit}"), 20.0),
                (&format!("Height, {small}"), 14.0),
            ],
            rows,
        );
    }

    fn lashing_points(&mut self, boat: Option<&Boat>) {
        self.heading(4, "Lashing points");
        self.paragraph(
            "Pad eyes, cleats, rails, ring bolts: two tapes each, how high above the deck, and whether it is \
             bolted through. Strength only if it is marked or the maker says so; otherwise leave it blank: not \
             known.",
        );
        let (unit, small, whole) = (self.unit(), self.small_unit(), self.right() - MARGIN_MM);
        let mut rows: Vec<Vec<String>> = Vec::new();
        for point in boat.map_or(&[][..], |boat| &boat.lashing_points) {
            rows.push(vec![point.id.clone(), "1 P, 1 S".to_owned()]);
        }
        rows.resize(rows.len().max(LASHING_POINTS - 2) + 2, Vec::new());
        let tape = 0.14 * whole;
        self.table(
            &[
                ("Name, what it is", whole - 2.0 * tape - 88.0),
                ("From A, B", 18.0),
                (&format!("From A, {unit}"), tape),
                (&format!("From B, {unit}"), tape),
                (&format!("Height, {small}"), 16.0),
                ("Bolted through", 18.0),
                ("Strength, if marked", 36.0),
            ],
            rows,
        );
    }

    fn foot(&mut self, title: &str) {
        let count = self.pages.len();
        let (paper, right) = (self.options.paper, self.right());
        let y = paper.height_mm() - MARGIN_MM + LEADING_MM;
        for (i, page) in self.pages.iter_mut().enumerate() {
            page.text((MARGIN_MM, y), 8.0, Align::Left, title);
            let number = format!("Page {} of {count}", i + 1);
            page.text((right, y), 8.0, Align::Right, &number);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::{pdf, svg};

    fn bare(paper: Paper, units: System) -> Vec<Page> {
        pages(None, Options { paper, units })
    }

    #[test]
    fn the_blanks_stand_in_the_order_of_the_walk() {
        for paper in [Paper::A4, Paper::Letter] {
            let text = svg(&bare(paper, System::Metric));
            let places = [
                "Stations, from the transom forward",
                "Half-width port, m",
                "Diagonals, to check",
                "What is built onto the deck",
                "Lashing points",
            ];
            let found: Vec<_> = places.map(|place| text.find(place)).into();
            assert!(found.iter().all(Option::is_some), "{found:?}");
            assert!(found.is_sorted(), "{found:?}");
        }
        assert!(svg(&bare(Paper::A4, System::Us)).contains("Half-width port, ft in"));
    }

    #[test]
    fn a_plan_gives_the_names_and_every_page_its_number() {
        let mut plan = Plan::new("Otter & Son", 7.0, 2.6);
        for i in 0..40 {
            let fixture = format!(
                r#"{{"id": "box {i}", "deck": "main", "kind": "locker", "outline": [[1, 0], [2, 0], [2, 1]],
                    "height_m": 0.4}}"#
            );
            plan.boat
                .fixtures
                .push(serde_json::from_str(&fixture).unwrap());
        }
        let pages = pages(Some(&plan), Options::default());
        let text = svg(&pages);
        assert!(text.contains("Otter &amp; Son"));
        for i in 0..40 {
            assert_eq!(text.matches(&format!(">box {i}<")).count(), 1, "box {i}");
        }
        assert!(text.contains(&format!("Page {0} of {0}", pages.len())));
        assert!(pdf(&pages, &title(Some(&plan))).is_ok());
    }

    /// Everything stays within the margins, on both papers.
    #[test]
    fn nothing_is_drawn_off_the_page() {
        for paper in [Paper::A4, Paper::Letter] {
            let text = svg(&bare(paper, System::Metric));
            let mut seen = 0;
            for part in text.split("<text x=\"").skip(1) {
                let x: f64 = part.split('"').next().unwrap().parse().unwrap();
                assert!((5.0..=paper.width_mm() - 5.0).contains(&x), "{x}");
                seen += 1;
            }
            for part in text.split(" y=\"").skip(1) {
                let y: f64 = part.split('"').next().unwrap().parse().unwrap();
                assert!((5.0..=paper.height_mm() - 5.0).contains(&y), "{y}");
            }
            assert!(seen > 50, "{seen} texts");
        }
    }
}
