//! Names of what is built on and of loose gear on the deck plan.

use super::super::labels::{Area, Labels};
use super::naming::{LISTED_MM, THING_PT};
use super::{OVERHEAD_M, Picture, STEP_RAD};
use crate::engine::SceneThing;
use crate::engine::numbers::ThingSort;
use crate::geometry::Shape;
use crate::layout::FixtureKind;
use crate::sheet::font::wrap_words;
use crate::sheet::{Align, width_mm};

/// From line to line of a name that takes several, in millimetres.
const LINE_MM: f64 = 2.7;

/// How far a name may stand from what is too small for it, and how wide it is then before it is broken, in
/// millimetres.
const SMALL_MM: f64 = 15.5;
const BROKEN_MM: f64 = 18.0;

/// What is longer than this and thinner than the second is an edge of the deck and has no name, in millimetres.
const LONG_MM: f64 = 7.0;
const THIN_MM: f64 = 2.4;

/// What is so near something touches it, in millimetres.
const TOUCHING_MM: f64 = 0.3;

/// What has more corners is round.
const MANY_CORNERS: usize = 12;

/// A thing that is too small for its name, with points along its edge, and what else there is.
pub(super) struct CutShort {
    name: String,
    points: Vec<(f64, f64)>,
    others: Vec<Area>,
}

impl Picture<'_> {
    /// The names of what is built on, and of loose gear, in the middle of it, the long way; tells those that
    /// would be cut there, with where they are.
    pub(super) fn built_on(&mut self) -> Vec<CutShort> {
        let mut cut_short = Vec::new();
        let things: Vec<&SceneThing> = self
            .deck
            .things
            .iter()
            .filter(|thing| matches!(thing.sort, ThingSort::Fixture | ThingSort::Gear))
            .filter(|thing| thing.from_m <= OVERHEAD_M && !self.must_be_found(thing))
            .filter(|thing| !self.is_of_the_edge(thing))
            .collect();
        for thing in things {
            let Some(outline) = thing.shape.to_polygon(STEP_RAD) else {
                continue;
            };
            let outline = self.paper.all(&outline);
            let span = |of: fn(&(f64, f64)) -> f64| {
                let along = outline.iter().map(of);
                along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                    (low.min(value), high.max(value))
                })
            };
            let ((left, right), (top, bottom)) = (span(|p| p.0), span(|p| p.1));
            let (wide, high) = (right - left, bottom - top);
            let at = self.paper.at(thing.shape.centroid());
            if !self.is_shown(at) || (wide.max(high) > LONG_MM && wide.min(high) < THIN_MM) {
                continue;
            }
            let lines = wrap_words(&thing.name, THING_PT, wide - 1.0);
            let fits = |line: &String| width_mm(line, THING_PT) <= wide - 0.8;
            if lines.iter().all(fits) && lines.len() as f64 * LINE_MM <= high {
                self.name_in(&lines, at, (wide, high));
            } else if wide < LINE_MM || width_mm(&thing.name, THING_PT) > high - 1.0 {
                cut_short.push(CutShort {
                    name: thing.name.clone(),
                    points: self.edge_of(thing),
                    others: self.others_than(thing, 0.0),
                });
            } else {
                let half = 0.5 * width_mm(&thing.name, THING_PT) + 0.3;
                let area = Area::about(at, (1.1, half));
                if self.labels.is_free(area) {
                    Labels::whiten(self.page, area);
                    self.labels.take_name(area);
                    self.page.text_turned(
                        (at.0 + 0.8, at.1),
                        THING_PT,
                        Align::Middle,
                        -90.0,
                        &thing.name,
                    );
                }
            }
        }
        cut_short
    }

    /// Whole names beside what is too small for them, where there is room still; nothing hangs on them.
    pub(super) fn beside_what_is_small(&mut self, named: Vec<CutShort>) {
        for it in named {
            let lines = wrap_words(&it.name, THING_PT, BROKEN_MM).join("\n");
            self.labels.keep_out_of(it.others);
            self.labels
                .near(self.page, (&lines, THING_PT), (&it.points, 0.0), SMALL_MM);
        }
        self.labels.keep_out_of(Vec::new());
    }

    /// Is it what people look for in need, or what something that is still open is about?
    fn must_be_found(&self, thing: &SceneThing) -> bool {
        use FixtureKind::{Extinguisher, Liferaft, OxygenKit};
        let fixture = self.plan.boat.fixture(&thing.thing.id);
        let fixture = fixture.filter(|_| thing.sort == ThingSort::Fixture);
        let is_for_need =
            fixture.is_some_and(|it| matches!(it.kind, OxygenKit | Extinguisher | Liferaft));
        let mut open = self.brief.open_points.iter().flat_map(|it| &it.about);
        let is_named = matches!(thing.sort, ThingSort::Fixture | ThingSort::Gear);
        is_named && (is_for_need || open.any(|name| *name == thing.name))
    }

    /// Is it a piece of the deck's edge, whose name nobody looks for?
    fn is_of_the_edge(&self, thing: &SceneThing) -> bool {
        use FixtureKind::{Bulwark, FreeingPort, GuardRail, Sill};
        let fixture = self.plan.boat.fixture(&thing.thing.id);
        fixture.is_some_and(|it| matches!(it.kind, Bulwark | FreeingPort | GuardRail | Sill))
    }

    /// The names of such things, before those of all others: in them or near them. What has no room is told.
    pub(super) fn what_must_be_found(&mut self) {
        let things = self.deck.things.iter();
        let mut things: Vec<&SceneThing> = things.filter(|it| self.must_be_found(it)).collect();
        // A bent hose is several.
        things.dedup_by(|next, first| next.thing == first.thing);
        for thing in things {
            let at = self.paper.at(thing.shape.centroid());
            let half = self.extent(thing);
            let size = (2.0 * half.0, 2.0 * half.1);
            let lines = wrap_words(&thing.name, THING_PT, size.0 - 1.0);
            let is_overhead = thing.from_m > OVERHEAD_M;
            let widest = lines.iter().map(|line| width_mm(line, THING_PT));
            let fits = widest.fold(0.0, f64::max) <= size.0 - 0.8
                && lines.len() as f64 * LINE_MM <= size.1;
            let is_long = matches!(thing.shape, Shape::Stadium { .. });
            let name = if is_overhead {
                format!("{} (overhead)", thing.name)
            } else {
                thing.name.clone()
            };
            let name = wrap_words(&name, THING_PT, BROKEN_MM).join("\n");
            let points = self.edge_of(thing);
            // Otherwise it is not in what is drawn, and its turn never comes.
            let first = points.iter().find(|at| self.is_shown(**at));
            if first.is_some_and(|at| !self.has_turn(&name, *at)) {
                continue;
            }
            let is_in = fits
                && !is_long
                && !is_overhead
                && self.is_shown(at)
                && self.name_in(&lines, at, size);
            if is_in {
                continue;
            }
            self.labels.keep_out_of(self.others_than(thing, 0.0));
            self.name_near(&name, (&points, 0.0), LISTED_MM);
            self.labels.keep_out_of(Vec::new());
        }
    }

    /// Points along the edge of a thing, on paper.
    fn edge_of(&self, thing: &SceneThing) -> Vec<(f64, f64)> {
        let corners = thing.shape.to_polygon(STEP_RAD).unwrap_or_default();
        let corners = self.paper.all(&corners);
        let many = corners.len() > MANY_CORNERS;
        let next = corners.iter().cycle().skip(1);
        let edges = corners.iter().zip(next);
        let points = edges.flat_map(|(a, b)| {
            let shares = if many {
                &[0.5][..]
            } else {
                &[0.5, 0.2, 0.8][..]
            };
            shares
                .iter()
                .map(|share| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
        });
        let points: Vec<(f64, f64)> = points.collect();
        let others = self.others_than(thing, TOUCHING_MM);
        let is_apart = |at: &&(f64, f64)| !others.iter().any(|other| other.contains(**at));
        let apart: Vec<(f64, f64)> = points.iter().filter(is_apart).copied().collect();
        if apart.is_empty() { points } else { apart }
    }

    /// What else there is with a ground of its own, with so much round it in millimetres: where a thing stands against
    /// that, its name would be read as the name of that.
    fn others_than(&self, thing: &SceneThing, round_mm: f64) -> Vec<Area> {
        let others = self.deck.things.iter().filter(|other| {
            let has_ground = matches!(other.sort, ThingSort::Fixture | ThingSort::Gear);
            has_ground && other.thing != thing.thing && other.from_m <= OVERHEAD_M
        });
        let areas = others.map(|other| {
            let (wide, high) = self.extent(other);
            let at = self.paper.at(other.shape.centroid());
            Area::about(at, (wide + round_mm, high + round_mm))
        });
        areas.collect()
    }

    /// Lines of a name one below the other in something, in its middle if that is free, else towards one of its
    /// ends.
    fn name_in(&mut self, lines: &[String], (x, y): (f64, f64), (wide, high): (f64, f64)) -> bool {
        let longest = lines.iter().map(|line| width_mm(line, THING_PT));
        let half = (
            0.5 * longest.fold(0.0, f64::max) + 0.2,
            0.5 * LINE_MM * lines.len() as f64 - 0.1,
        );
        let spare = (
            (0.5 * wide - half.0 - 0.4).max(0.0),
            (0.5 * high - half.1 - 0.2).max(0.0),
        );
        let shifts = [0.0, 0.35, -0.35, 0.7, -0.7, 1.0, -1.0];
        let free = shifts.iter().flat_map(|down| {
            let across = shifts.iter();
            across.map(move |across| (x + across * spare.0, y + down * spare.1))
        });
        let mut free = free.filter(|at| self.labels.is_free(Area::about(*at, half)));
        let Some((x, y)) = free.next() else {
            return false;
        };
        let area = Area::about((x, y), half);
        Labels::whiten(self.page, area);
        let first = y - 0.5 * LINE_MM * (lines.len() - 1) as f64;
        for (index, line) in lines.iter().enumerate() {
            let at = (x, first + LINE_MM * index as f64);
            super::super::centred(self.page, at, THING_PT, line);
        }
        self.labels.take_name(area);
        true
    }
}
