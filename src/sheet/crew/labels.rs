//! Names beside what they name, where there is room and where nobody takes them for the name of something else.

mod area;
mod bent;
mod clear;
#[cfg(test)]
mod tests;
mod write;

pub(in crate::sheet) use self::area::Area;
pub(super) use self::area::Segment;
pub(super) use self::write::{centred_turned, inside};

use crate::geometry::Elementary as _;
use crate::sheet::font::POINT_MM;
use crate::sheet::{Page, Pen, width_mm};

/// Between a name and what it stands beside, in millimetres.
const APART_MM: f64 = 0.7;

/// How much a name should keep off a line.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(in crate::sheet) enum Weight {
    /// An edge or a broken line, over which a name is read all the same.
    Thin,
    /// A broad line.
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
    /// Bodies with names of their own, each as one area or several: no name may stand where it would be taken for
    /// theirs.
    named: Vec<Vec<Area>>,
    /// Marks that stand for things with names of their own.
    marks: Vec<Area>,
    /// Names that stand there already.
    names: Vec<Area>,
    /// Lines that lead to names: nothing stands on them and nothing crosses them.
    leaders: Vec<Segment>,
    /// Lines that names should keep off.
    lines: Vec<(Segment, Weight)>,
    /// What a name is for now rather not written into, as it would be read as the name of that.
    grounds: Vec<Area>,
}

/// How far from what it names a name may stand, in millimetres; those that are not close are led to by a line.
const AWAY_MM: [f64; 15] = [
    0.7, 1.4, 2.4, 3.6, 5.0, 6.8, 9.0, 12.0, 15.5, 19.5, 24.0, 30.0, 37.0, 45.0, 54.0,
];

/// From line to line of a name that has several, as a share of its size.
const LINES: f64 = 0.95;

/// From here on a line leads to the name, in millimetres.
const LED_MM: f64 = 1.2;

/// Round a name of several lines, in millimetres.
const AROUND_MM: f64 = 0.45;

/// What a place costs in something else, in millimetres farther away.
const IN_OTHER: f64 = 8.0;

/// What a place costs that is neither beside nor above nor below, in millimetres farther away at most.
const OBLIQUE: f64 = 0.8;

/// Ways in which a name stands off, a turn in so many steps.
const WAYS: u32 = 16;

/// Half the height of a line of text, as a share of its size.
const HALF_HIGH: f64 = 0.42;

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
    /// May it stand over a broad line, if it must?
    pub(in crate::sheet) over_lines: bool,
}

impl Labels {
    pub(in crate::sheet) fn new(paper: Area) -> Self {
        Self {
            paper,
            bodies: Vec::new(),
            named: Vec::new(),
            marks: Vec::new(),
            names: Vec::new(),
            leaders: Vec::new(),
            lines: Vec::new(),
            grounds: Vec::new(),
        }
    }

    /// A body stands there.
    pub(in crate::sheet) fn take(&mut self, area: Area) {
        self.bodies.push(area);
    }

    /// A body that has a name of its own stands there.
    pub(super) fn take_named(&mut self, areas: Vec<Area>) {
        self.named.push(areas);
    }

    /// A small mark stands there that has a name: no name may cover it, and what leads to another name keeps off it.
    pub(super) fn take_mark(&mut self, area: Area) {
        self.marks.push(area);
    }

    /// A name stands there already.
    pub(super) fn take_name(&mut self, area: Area) {
        self.names.push(area);
    }

    /// A line leads from there to a name.
    pub(super) fn take_leader(&mut self, line: Segment) {
        self.leaders.push(line);
    }

    /// From now on names are rather not written into these.
    pub(super) fn keep_out_of(&mut self, grounds: Vec<Area>) {
        self.grounds = grounds;
    }

    /// A line runs there, from point to point.
    pub(in crate::sheet) fn keep_off(&mut self, points: &[(f64, f64)], weight: Weight) {
        let pairs = points.windows(2);
        self.lines
            .extend(pairs.map(|pair| ((pair[0], pair[1]), weight)));
    }

    /// What the lines cost that run through an area.
    pub(super) fn lines_through(&self, area: Area) -> f64 {
        let through = self.lines.iter().filter(|(line, _)| area.is_crossed(*line));
        through.map(|(_, weight)| weight.mm()).sum()
    }

    /// Writes a name level, in several lines if it has them, as near as there is room to one of these points and
    /// clear of lines if that can be, with a line to it unless it stands close. It stands nowhere where it could be
    /// taken for the name of something else. Tells whether there was room within so many millimetres.
    pub(super) fn near(
        &mut self,
        page: &mut Page,
        (name, size_pt): (&str, f64),
        (points, radius): (&[(f64, f64)], f64),
        most_mm: f64,
    ) -> bool {
        let half = write::half_of((name, size_pt));
        let has_lines = name.lines().count() > 1;
        let others = self.others(points);
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
                    // Lines of a name are nearer to each other than to another name.
                    let room = if has_lines {
                        area.grown(AROUND_MM)
                    } else {
                        area
                    };
                    if away >= least || !self.is_free(room) {
                        continue;
                    }
                    let Some((leads, led)) = self.led_from((*at, radius), area, &others) else {
                        continue;
                    };
                    let oblique = OBLIQUE * (sin * cos).abs();
                    let grounds = self.grounds.iter().filter(|it| it.meets(area)).count();
                    let over = self.lines_through(area) + IN_OTHER * grounds as f64;
                    let cost = away + leads + oblique + over;
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
            self.take_leader((start, end));
        }
        self.write_level(page, area, (name, size_pt));
        true
    }

    /// Writes the longest name that has room on one of these sides, the first sides first, in line with what it
    /// names and with nothing between; tells which one had.
    pub(in crate::sheet) fn beside(
        &mut self,
        page: &mut Page,
        named: &Named<'_>,
        sides: &[(Off, f64)],
    ) -> Option<usize> {
        let others = self.others(&[named.at]);
        // Clear of lines if that can be, then over them; a whole name over a line before a part of it clear of all.
        let names = named.names.iter().enumerate();
        let tries = names.flat_map(|name| [true, false].map(|clear| (clear, name)));
        for (clear, (index, name)) in tries {
            if !clear && !named.over_lines {
                continue;
            }
            for (off, beyond) in sides {
                let area = write::area_of(named, name, *off, *beyond);
                let is_clear = !clear || self.lines_through(area) < Weight::Heavy.mm();
                if is_clear && self.is_free(area) && self.is_in_line(named.at, area, *off, &others)
                {
                    Self::whiten(page, area);
                    self.take_name(area);
                    write::write(page, named, name, (*off, *beyond));
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
            HALF_HIGH * size_pt * POINT_MM,
        );
        for sign in [-1.0, 1.0] {
            let off = sign * (thick + 0.5);
            let (middle, reach) = if is_level {
                ((x, y + off), (half, thick))
            } else {
                ((x + off, y), (thick, half))
            };
            let area = Area::about(middle, reach);
            // Clear of what holds, which would strike it through, and of what has a name.
            if self.is_free(area)
                && self.is_apart(area)
                && self.lines_through(area) < Weight::Heavy.mm()
            {
                self.take_name(area);
                write::centred_turned(page, middle, (name, size_pt), is_level);
                return true;
            }
        }
        false
    }
}
