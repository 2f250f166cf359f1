//! Names beside what they name, where there is room.

mod area;

pub(in crate::sheet) use self::area::Area;
pub(super) use self::area::Segment;

use super::centred;
use crate::geometry::Elementary as _;
use crate::sheet::font::POINT_MM;
use crate::sheet::{Align, Page, Pen, width_mm};

/// Between a name and what it stands beside, in millimetres.
const APART_MM: f64 = 0.7;

/// How much a name should keep off a line.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(in crate::sheet) enum Weight {
    /// An edge or a broken line, over which a name is read all the same.
    Thin,
    /// A broad line, or one that leads to a name.
    Heavy,
}

impl Weight {
    /// As so many millimetres farther away.
    fn mm(self) -> f64 {
        match self {
            Self::Thin => 2.5,
            Self::Heavy => 9.0,
        }
    }
}

/// Which way a name stands off from what it names, on paper.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(in crate::sheet) enum Off {
    Left,
    Right,
    Up,
    Down,
}

impl Off {
    /// To the left or to the right?
    pub(super) fn is_level(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }
}

/// The areas of a picture that are taken.
#[derive(Clone, Debug)]
pub(in crate::sheet) struct Labels {
    paper: Area,
    /// Bodies that no name may cover.
    bodies: Vec<Area>,
    /// Marks that stand for things with names of their own.
    marks: Vec<Area>,
    /// Names that stand there already.
    names: Vec<Area>,
    /// Lines that names should keep off.
    lines: Vec<(Segment, Weight)>,
}

/// How far from what it names a name may stand, in millimetres; those that are not close are led to by a line.
const AWAY_MM: [f64; 15] = [
    0.7, 1.4, 2.4, 3.6, 5.0, 6.8, 9.0, 12.0, 15.5, 19.5, 24.0, 30.0, 37.0, 45.0, 54.0,
];

/// From line to line of a name that has several, as a share of its size.
const LINES: f64 = 0.95;

/// From here on a line leads to the name, in millimetres.
const LED_MM: f64 = 1.2;

/// A line that is so near a name or a mark touches it, in millimetres.
const TOUCH_MM: f64 = 0.25;

/// A name that is so near a mark is taken for its name, in millimetres.
const MISREAD_MM: f64 = 1.0;

/// Ways in which a name stands off, a turn in so many steps.
const WAYS: u32 = 16;

/// What is to be named.
#[derive(Copy, Clone, Debug)]
pub(in crate::sheet) struct Named<'a> {
    /// Its middle on paper.
    pub(in crate::sheet) at: (f64, f64),
    /// How far it reaches from there, in millimetres.
    pub(in crate::sheet) radius: f64,
    /// The name, from the longest that says all to the shortest that will do.
    pub(in crate::sheet) names: &'a [String],
    pub(in crate::sheet) size_pt: f64,
}

impl Labels {
    pub(in crate::sheet) fn new(paper: Area) -> Self {
        Self {
            paper,
            bodies: Vec::new(),
            marks: Vec::new(),
            names: Vec::new(),
            lines: Vec::new(),
        }
    }

    /// A body stands there.
    pub(in crate::sheet) fn take(&mut self, area: Area) {
        self.bodies.push(area);
    }

    /// A small mark stands there that has a name: no name may cover it, and what leads to another name keeps off it.
    pub(super) fn take_mark(&mut self, area: Area) {
        self.marks.push(area);
    }

    /// A name stands there already.
    pub(super) fn take_name(&mut self, area: Area) {
        self.names.push(area);
    }

    /// A line runs there, from point to point.
    pub(in crate::sheet) fn keep_off(&mut self, points: &[(f64, f64)], weight: Weight) {
        let pairs = points.windows(2);
        self.lines
            .extend(pairs.map(|pair| ((pair[0], pair[1]), weight)));
    }

    /// Is there neither a body nor a name, and is it on the paper?
    pub(super) fn is_free(&self, area: Area) -> bool {
        self.paper.holds(area) && self.is_clear(area)
    }

    /// Is there neither a body nor a name, wherever it is?
    pub(super) fn is_clear(&self, area: Area) -> bool {
        let mut taken = self.bodies.iter().chain(&self.marks).chain(&self.names);
        !taken.any(|other| other.meets(area))
    }

    /// Does a line run through a name?
    pub(super) fn strikes_name(&self, line: Segment) -> bool {
        self.names.iter().any(|area| area.is_crossed(line))
    }

    /// What the lines cost that run through an area.
    pub(super) fn lines_through(&self, area: Area) -> f64 {
        let through = self.lines.iter().filter(|(line, _)| area.is_crossed(*line));
        through.map(|(_, weight)| weight.mm()).sum()
    }

    /// What a line costs that leads from a point to a name; `None` if it would run through another name.
    fn leading(&self, line: Segment, name: Area) -> Option<f64> {
        if self.names.iter().any(|area| area.is_crossed(line)) {
            return None;
        }
        let touches = |area: &&Area| area.grown(TOUCH_MM).is_crossed(line);
        let touched = self.names.iter().filter(touches).count();
        let mut others = (self.marks.iter()).filter(|area| !area.grown(TOUCH_MM).contains(line.0));
        let marks = others.clone().filter(touches).count();
        // Beside another mark it would be taken for the name of that.
        let misread = if others.any(|area| area.grown(MISREAD_MM).meets(name)) {
            12.0
        } else {
            0.0
        };
        let bodies = self.bodies.iter();
        let over = bodies.filter(|area| !area.contains(line.0) && area.is_crossed(line));
        let crossed = self
            .lines
            .iter()
            .filter(|(other, weight)| *weight == Weight::Heavy && cross(*other, line));
        let near = 6.0 * touched as f64 + 25.0 * marks as f64;
        Some(near + misread + 8.0 * over.count() as f64 + 3.0 * crossed.count() as f64)
    }

    /// Writes a name level, in several lines if it has them, as near as there is room to one of these points and clear of lines if that can be,
    /// with a line to it unless it stands close. Tells whether there was room within so many millimetres.
    pub(super) fn near(
        &mut self,
        page: &mut Page,
        (name, size_pt): (&str, f64),
        (points, radius): (&[(f64, f64)], f64),
        most_mm: f64,
    ) -> bool {
        let (wide, more) = (widest(name, size_pt), name.lines().count().max(1) - 1);
        let half = (
            0.5 * wide + 0.3,
            (0.42 + 0.5 * LINES * more as f64) * size_pt * POINT_MM,
        );
        let mut best: Option<(f64, Area, Option<Segment>)> = None;
        for away in AWAY_MM.into_iter().filter(|away| *away <= most_mm) {
            if best.as_ref().is_some_and(|(cost, ..)| *cost <= away) {
                break;
            }
            for at in points {
                for step in 0..WAYS {
                    let turn = f64::from(step) * std::f64::consts::TAU / f64::from(WAYS);
                    let (sin, cos) = turn.sine_cosine();
                    let off = radius + away;
                    let area = Area::about(
                        (at.0 + cos * (off + half.0), at.1 + sin * (off + half.1)),
                        half,
                    );
                    let least = best.as_ref().map_or(f64::INFINITY, |(cost, ..)| *cost);
                    if away >= least || !self.is_free(area) {
                        continue;
                    }
                    let end = area.nearest(*at);
                    let far = (end.0 - at.0).hypotenuse(end.1 - at.1).max(1e-9);
                    let share = (radius / far).min(1.0);
                    let start = (at.0 + share * (end.0 - at.0), at.1 + share * (end.1 - at.1));
                    let led = (far - radius > LED_MM).then_some((start, end));
                    let leads = led.map_or(Some(0.0), |line| self.leading(line, area));
                    let Some(leads) = leads else { continue };
                    let cost = away + leads + self.lines_through(area);
                    if cost < least - 1e-9 {
                        best = Some((cost, area, led));
                    }
                }
            }
        }
        let Some((_, area, led)) = best else {
            return false;
        };
        if let Some((start, end)) = led {
            page.line(&[start, end], false, Pen::solid(0.12));
            self.keep_off(&[start, end], Weight::Heavy);
        }
        self.write_level(page, area, (name, size_pt));
        true
    }

    /// White beneath a name, over lines and over grey that a printer without greys makes of dots.
    pub(super) fn whiten(page: &mut Page, area: Area) {
        let size = (area.right - area.left, area.bottom - area.top);
        page.rectangle((area.left, area.top), size, 1.0, None);
    }

    /// Writes a name level into an area that is free, on white.
    pub(super) fn write_level(
        &mut self,
        page: &mut Page,
        area: Area,
        (name, size_pt): (&str, f64),
    ) {
        Self::whiten(page, area);
        let middle = (
            0.5 * (area.left + area.right),
            0.5 * (area.top + area.bottom),
        );
        let lines: Vec<&str> = name.lines().collect();
        let step = LINES * size_pt * POINT_MM;
        let first = middle.1 - 0.5 * step * (lines.len().max(1) - 1) as f64;
        for (index, line) in lines.iter().enumerate() {
            centred(page, (middle.0, first + step * index as f64), size_pt, line);
        }
        self.take_name(area);
    }

    /// Writes the longest name that has room on one of these sides, the first sides first; tells which one had.
    pub(in crate::sheet) fn beside(
        &mut self,
        page: &mut Page,
        named: &Named<'_>,
        sides: &[(Off, f64)],
    ) -> Option<usize> {
        // Clear of lines if that can be, then over them; a whole name over a line before a part of it clear of all.
        let names = named.names.iter().enumerate();
        let tries = names.flat_map(|name| [true, false].map(|clear| (clear, name)));
        for (clear, (index, name)) in tries {
            for (off, beyond) in sides {
                let area = area_of(named, name, *off, *beyond);
                let is_clear = !clear || self.lines_through(area) < Weight::Heavy.mm();
                if is_clear && self.is_free(area) {
                    Self::whiten(page, area);
                    self.take_name(area);
                    write(page, named, name, (*off, *beyond));
                    return Some(index);
                }
            }
        }
        None
    }

    /// Writes a name along a line, on one side of it or the other; tells whether there was room.
    pub(in crate::sheet) fn along(
        &mut self,
        page: &mut Page,
        (x, y): (f64, f64),
        (name, size_pt): (&str, f64),
        is_level: bool,
    ) -> bool {
        let (half, thick) = (
            0.5 * width_mm(name, size_pt) + 0.3,
            0.42 * size_pt * POINT_MM,
        );
        for sign in [-1.0, 1.0] {
            let off = sign * (thick + 0.5);
            let (middle, reach) = if is_level {
                ((x, y + off), (half, thick))
            } else {
                ((x + off, y), (thick, half))
            };
            let area = Area {
                left: middle.0 - reach.0,
                right: middle.0 + reach.0,
                top: middle.1 - reach.1,
                bottom: middle.1 + reach.1,
            };
            // Clear of what holds, which would strike it through.
            if self.is_free(area) && self.lines_through(area) < Weight::Heavy.mm() {
                self.take_name(area);
                let drop = 0.35 * size_pt * POINT_MM;
                if is_level {
                    page.text((middle.0, middle.1 + drop), size_pt, Align::Middle, name);
                } else {
                    let at = (middle.0 + drop, middle.1);
                    page.text_turned(at, size_pt, Align::Middle, -90.0, name);
                }
                return true;
            }
        }
        false
    }
}

/// How wide a name is that may have several lines.
fn widest(name: &str, size_pt: f64) -> f64 {
    let lines = name.lines().map(|line| width_mm(line, size_pt));
    lines.fold(0.0, f64::max)
}

/// Do two lines cross?
fn cross((a, b): Segment, (c, d): Segment) -> bool {
    let side = |p: (f64, f64), q: (f64, f64), r: (f64, f64)| {
        (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0)
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

fn length_mm(named: &Named<'_>, name: &str) -> f64 {
    // Bold letters are a little wider than the plain ones that are measured.
    width_mm(name, named.size_pt) + 0.6
}

fn area_of(named: &Named<'_>, name: &str, off: Off, beyond: f64) -> Area {
    let (x, y) = named.at;
    let (near, half) = (
        named.radius.max(beyond) + APART_MM,
        0.42 * named.size_pt * POINT_MM,
    );
    let far = near + length_mm(named, name);
    match off {
        Off::Right => Area {
            left: x + near,
            right: x + far,
            top: y - half,
            bottom: y + half,
        },
        Off::Left => Area {
            left: x - far,
            right: x - near,
            top: y - half,
            bottom: y + half,
        },
        Off::Down => Area {
            left: x - half,
            right: x + half,
            top: y + near,
            bottom: y + far,
        },
        Off::Up => Area {
            left: x - half,
            right: x + half,
            top: y - far,
            bottom: y - near,
        },
    }
}

fn write(page: &mut Page, named: &Named<'_>, name: &str, (off, beyond): (Off, f64)) {
    let (x, y) = named.at;
    let near = named.radius.max(beyond) + APART_MM;
    let drop = 0.35 * named.size_pt * POINT_MM;
    match off {
        Off::Right => page.text((x + near, y + drop), named.size_pt, Align::Left, name),
        Off::Left => page.text((x - near, y + drop), named.size_pt, Align::Right, name),
        // Turned names are read from the right of the sheet.
        Off::Down => {
            page.text_turned(
                (x + drop, y + near),
                named.size_pt,
                Align::Right,
                -90.0,
                name,
            );
        }
        Off::Up => {
            page.text_turned(
                (x + drop, y - near),
                named.size_pt,
                Align::Left,
                -90.0,
                name,
            );
        }
    }
}

/// The smallest letters, in points.
const LEAST_PT: f64 = 4.0;

/// Writes a name in a round thing, as large as it fits; tells whether it fitted.
pub(in crate::sheet) fn inside(
    page: &mut Page,
    at: (f64, f64),
    radius: f64,
    name: &str,
    most_pt: f64,
) -> bool {
    let at_one_pt = width_mm(name, 1.0).max(1e-9);
    let size = (1.75 * radius / at_one_pt).min(most_pt);
    if size >= LEAST_PT {
        centred(page, at, size, name);
    }
    size >= LEAST_PT
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Paper;

    #[test]
    fn a_name_takes_the_first_side_with_room_or_a_shorter_name_does() {
        let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
        let paper = Area {
            left: 0.0,
            top: 0.0,
            right: 60.0,
            bottom: 40.0,
        };
        let mut labels = Labels::new(paper);
        let names = ["P1 38001P".to_owned(), "P1".to_owned()];
        let named = |x: f64| Named {
            at: (x, 20.0),
            radius: 1.5,
            names: &names,
            size_pt: 8.0,
        };
        let sides = [(Off::Right, 0.0), (Off::Left, 0.0)];
        assert_eq!(labels.beside(&mut page, &named(20.0), &sides), Some(0));
        assert_eq!(labels.beside(&mut page, &named(20.0), &sides), Some(0));
        assert_eq!(page.texts().collect::<Vec<_>>(), ["P1 38001P", "P1 38001P"]);
        assert_eq!(
            labels.beside(&mut page, &named(20.0), &sides),
            None,
            "both sides are taken"
        );
        let short = labels.beside(&mut page, &named(53.0), &sides[..1]);
        assert_eq!(short, Some(1));
        assert_eq!(
            page.texts().last(),
            Some("P1"),
            "the long name would be cut off"
        );
    }

    fn paper() -> Area {
        Area {
            left: 0.0,
            top: 0.0,
            right: 60.0,
            bottom: 40.0,
        }
    }

    #[test]
    fn a_name_stands_clear_of_bodies_names_and_lines_or_is_led_to() {
        let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
        let mut labels = Labels::new(paper());
        let at = [(30.0, 20.0)];
        assert!(labels.near(&mut page, ("cord one", 6.0), (&at, 1.0), 30.0));
        assert_eq!(
            page.marks().len(),
            2,
            "close by, so no line leads to it: white and a name"
        );
        // All round it is taken: the name goes farther away, and a line leads to it.
        labels.take(Area::about((30.0, 20.0), (9.0, 7.0)));
        assert!(labels.near(&mut page, ("cord two", 6.0), (&at, 1.0), 30.0));
        assert_eq!(page.marks().len(), 5, "a line, white and a name");
        let second = labels.names[1];
        assert!(
            !second.meets(Area::about((30.0, 20.0), (9.0, 7.0))),
            "{second:?}"
        );
        // Where all of the paper is taken there is no room.
        labels.take(Area::about((30.0, 20.0), (30.0, 20.0)));
        assert!(!labels.near(&mut page, ("cord three", 6.0), (&at, 1.0), 30.0));
        assert!(page.texts().all(|text| text != "cord three"), "not written");
    }

    #[test]
    fn names_keep_off_broad_lines() {
        let mut page = Page::new(Paper::Cut { wide: 60, high: 40 });
        let mut labels = Labels::new(paper());
        labels.keep_off(&[(0.0, 20.0), (60.0, 20.0)], Weight::Heavy);
        labels.keep_off(&[(30.0, 0.0), (30.0, 40.0)], Weight::Thin);
        assert!(labels.near(&mut page, ("strap", 6.0), (&[(30.0, 20.0)], 0.5), 30.0));
        assert!(
            labels.lines_through(labels.names[0]) < 1e-9,
            "{:?}",
            labels.names[0]
        );
    }

    #[test]
    fn lines_run_through_areas_and_past_them() {
        let area = Area::about((10.0, 10.0), (2.0, 1.0));
        for (line, through) in [
            (((0.0, 10.0), (20.0, 10.0)), true),
            (((0.0, 8.0), (20.0, 8.0)), false),
            (((7.0, 8.0), (9.5, 10.5)), true),
            (((6.0, 10.5), (9.0, 13.5)), false),
            (((10.0, 0.0), (10.0, 8.9)), false),
        ] {
            assert_eq!(area.is_crossed(line), through, "{line:?}");
        }
    }
}
