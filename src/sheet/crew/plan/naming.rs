//! Names on the deck plan: cylinders, racks, lashings, fronts and points as the lists call them, and what is
//! built on. None stands over another, and what is not named for want of room is told.

use super::super::Brief;
use super::super::labels::{Area, Labels, Named, Off, inside};
use super::{OVERHEAD_M, Picture, STEP_RAD, vec};
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Vec2;
use crate::layout::{Id, Plan, Point};
use crate::sheet::{Align, width_mm, wrap};

/// Room beside a deck for the names of what stands at its edge, in millimetres: between these two.
const BESIDE_MM: (f64, f64) = (9.0, 24.0);

/// The same where there is room to spare.
const BESIDE_WIDE_MM: f64 = 42.0;

/// How near the edge something must be for its name to stand outside, in millimetres on paper.
const NEAR_EDGE_MM: f64 = 7.0;

const NAME_PT: f64 = 7.0;
pub(super) const THING_PT: f64 = 6.5;
const FAST_PT: f64 = 6.0;

/// From line to line of a name that takes several, in millimetres.
const LINE_MM: f64 = 2.6;

/// From this scale on (1:100) a number may stand below its name, in millimetres for a metre.
const ROOMY_MM_PER_M: f64 = 10.0;

/// How far from its cylinder a name may stand, in millimetres.
const CYLINDER_MM: f64 = 15.0;

/// How far a name of the lists may stand from its thing, in millimetres.
const LISTED_MM: f64 = 60.0;

/// How far a name may stand from what is too small for it, and how wide it is then before it is broken, in
/// millimetres.
const SMALL_MM: f64 = 15.5;
const BROKEN_MM: f64 = 18.0;

/// Half of a point's mark, in millimetres.
const POINT_MM: f64 = 0.8;

/// Room beside a deck for the names that stand outside it; where there is much, also for those of lashings and
/// points.
pub(super) fn beside_mm(plan: &Plan, brief: &Brief, deck: &DeckScene, is_wide: bool) -> f64 {
    let longest = deck
        .things
        .iter()
        .filter(|thing| thing.sort == ThingSort::Cylinder)
        .map(|thing| width_mm(&names_of(brief, &thing.thing.id)[0], NAME_PT) + 4.5)
        .fold(0.0, f64::max);
    let points = plan.boat.lashing_points.iter();
    let has_lashings = !brief.legs.is_empty() && points.clone().any(|it| it.deck == deck.deck);
    if has_lashings && is_wide {
        let rows = brief.lashing_list.iter();
        let names = rows.flat_map(|row| [&row.lashing, &row.from, &row.to]);
        let listed = names.map(|name| width_mm(name, FAST_PT) + 8.0);
        return listed
            .fold(longest, f64::max)
            .clamp(BESIDE_MM.0, BESIDE_WIDE_MM);
    }
    longest.clamp(BESIDE_MM.0, BESIDE_MM.1)
}

/// What a cylinder is called on the plan: the slot as painted or its own name, then its number; where there is a
/// number, then the shortest, and all of it in two lines.
fn names_of(brief: &Brief, cylinder: &str) -> Vec<String> {
    let row = brief.row(cylinder);
    let slot = row.map_or("", |row| row.slot.as_str());
    let number = row.map_or("", |row| row.number.as_str());
    let mut parts: Vec<&str> = Vec::new();
    for part in [slot, cylinder, number] {
        if !part.is_empty() && !parts.contains(&part) {
            parts.push(part);
        }
    }
    let mut names = vec![parts.join(" ")];
    if parts.len() > 1 {
        names.push(parts[0].to_owned());
        let (last, first) = (parts[parts.len() - 1], &parts[..parts.len() - 1]);
        names.push(format!("{}\n{last}", first.join(" ")));
    }
    names
}

/// Points along a body from its middle, and how far it reaches to their sides, in millimetres: several where it lies.
fn along_body((x, y): (f64, f64), (wide, high): (f64, f64)) -> (Vec<(f64, f64)>, f64) {
    let thin = wide.min(high);
    let (across, down) = (wide - thin, high - thin);
    let shares = if across.max(down) > thin {
        &[0.0, 0.5, -0.5, 1.0, -1.0][..]
    } else {
        &[0.0][..]
    };
    let points = shares
        .iter()
        .map(|share| (x + share * across, y + share * down));
    (points.collect(), thin)
}

impl Picture<'_> {
    /// Writes all names: what is handed aboard first, then what holds it, then where it stands.
    pub(super) fn names(&mut self, lit: Option<&Id>) {
        self.bodies();
        self.cylinders(lit);
        self.set_down_name();
        let cut_short = self.built_on();
        self.lashings_and_fronts();
        self.racks_by_name();
        self.points();
        self.walkways_by_name();
        self.beside_what_is_small(&cut_short);
    }

    /// What no name may cover.
    fn bodies(&mut self) {
        let cylinders: Vec<(Vec2, (f64, f64))> = self
            .of_sort(ThingSort::Cylinder)
            .map(|thing| (thing.shape.centroid(), self.extent(thing)))
            .collect();
        for (middle, (wide, high)) in cylinders {
            let at = self.paper.at(middle);
            if !self.is_shown(at) {
                continue;
            }
            self.labels.take(Area::about(at, (0.9 * wide, 0.9 * high)));
        }
        for (_, at, radius) in self.free_slots() {
            self.labels.take(Area::round(at, 0.9 * radius));
        }
        for (_, (x, y), _) in self.points_here() {
            let side = POINT_MM;
            let corners = [(x - side, y), (x, y - side), (x + side, y), (x, y + side)];
            self.page.fill(&corners, 0.0, None);
            self.labels.take_mark(Area::round((x, y), side));
        }
    }

    fn cylinders(&mut self, lit: Option<&Id>) {
        let cylinders: Vec<(Id, Vec2, (f64, f64))> = self
            .of_sort(ThingSort::Cylinder)
            .map(|thing| {
                let id = thing.thing.id.clone();
                (id, thing.shape.centroid(), self.extent(thing))
            })
            .collect();
        for (id, middle, (wide, high)) in &cylinders {
            let at = self.paper.at(*middle);
            if Some(id) == lit || !self.is_shown(at) {
                continue;
            }
            let outboard = Vec2 {
                x: 0.0,
                y: if middle.y < 0.0 { -1.0 } else { 1.0 },
            };
            let forward = Vec2 { x: 1.0, y: 0.0 };
            let sides: Vec<(Off, f64)> = [outboard, -outboard, forward, -forward]
                .into_iter()
                .map(|way| {
                    let off = self.off(way);
                    let far = if off.is_level() { *wide } else { *high };
                    (off, self.beyond_edge(*middle, way, far).max(far))
                })
                .collect();
            let names = names_of(self.brief, id);
            let named = |names| Named {
                at,
                radius: 0.0,
                names,
                size_pt: NAME_PT,
            };
            let (along, radius) = along_body(at, (*wide, *high));
            let here = (&along[..], radius);
            let beside = self.labels.beside(self.page, &named(&names[..1]), &sides);
            // A deck that is too full for its scale has larger plans of its parts: there all of it is told.
            let has_room = self.is_part || self.paper.mm_per_m >= ROOMY_MM_PER_M;
            let two_lines = names.get(2).filter(|_| beside.is_none() && has_room);
            let has_all = beside.is_some()
                || two_lines.is_some_and(|name| {
                    self.labels
                        .near(self.page, (name, NAME_PT), here, CYLINDER_MM)
                });
            if has_all {
                continue;
            }
            let short = names.get(1).unwrap_or(&names[0]);
            let of_short = std::slice::from_ref(short);
            let beside = self.labels.beside(self.page, &named(of_short), &sides);
            let is_named = beside.is_some()
                || self
                    .labels
                    .near(self.page, (short, NAME_PT), here, CYLINDER_MM)
                || inside(self.page, at, radius, short, NAME_PT);
            if !is_named || names.len() > 1 {
                self.leave_out(short, at, is_named);
            }
        }
        for (name, at, radius) in self.free_slots() {
            if !inside(self.page, at, radius, &name, NAME_PT) {
                self.name_near(&name, FAST_PT, (&[at], radius), CYLINDER_MM);
            }
        }
    }

    /// A name close to something, or farther away with a line to it; what has no room is told.
    fn name_near(
        &mut self,
        name: &str,
        size_pt: f64,
        (points, radius): (&[(f64, f64)], f64),
        most_mm: f64,
    ) {
        let shown = points.iter().copied().filter(|at| self.is_shown(*at));
        let shown: Vec<(f64, f64)> = shown.collect();
        let Some(first) = shown.first().copied() else {
            // On a part of the deck it is no part of.
            return;
        };
        let is_named = self
            .labels
            .near(self.page, (name, size_pt), (&shown, radius), most_mm);
        if !is_named {
            self.leave_out(name, first, false);
        }
    }

    /// A way on the deck as a way on paper.
    fn off(&self, way: Vec2) -> Off {
        let (x, y) = (way.dot(self.paper.right), way.dot(self.paper.up));
        match (x.abs() > y.abs(), x > 0.0, y > 0.0) {
            (true, true, _) => Off::Right,
            (true, false, _) => Off::Left,
            (false, _, true) => Off::Up,
            (false, _, false) => Off::Down,
        }
    }

    /// Where the edge of the deck runs close before a cylinder, its name stands beyond the edge: how far that is
    /// from its middle, in millimetres.
    pub(super) fn beyond_edge(&self, from: Vec2, way: Vec2, radius: f64) -> f64 {
        let corners = self.outline.iter();
        let next = self.outline.iter().cycle().skip(1);
        let edges = corners.zip(next);
        let hits = edges.filter_map(|(a, b)| {
            let (along, to) = (*b - *a, *a - from);
            let cross = way.cross(along);
            (cross.abs() > 1e-9).then(|| (to.cross(along) / cross, to.cross(way) / cross))
        });
        let ahead = hits.filter(|(far, share)| *far > 0.0 && (0.0..=1.0).contains(share));
        let nearest = ahead.map(|(far, _)| far).fold(f64::INFINITY, f64::min);
        let mm = nearest * self.paper.mm_per_m;
        if mm - radius < NEAR_EDGE_MM { mm } else { 0.0 }
    }

    /// What holds: each lashing once, at the leg that has most room, and each front that is shut.
    fn lashings_and_fronts(&mut self) {
        let mut lashings: Vec<(String, Vec<[(f64, f64); 2]>)> = Vec::new();
        for (name, ends) in self.leg_lines() {
            match lashings.iter_mut().find(|(other, _)| *other == name) {
                Some((_, legs)) => legs.push(ends),
                None => lashings.push((name, vec![ends])),
            }
        }
        let fronts = self.front_lines();
        lashings.extend(
            fronts
                .into_iter()
                .map(|(row, line)| (row.front, vec![line])),
        );
        for (name, lines) in lashings {
            let along = |[a, b]: &[(f64, f64); 2]| {
                [0.5, 0.3, 0.7].map(|share| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
            };
            let points: Vec<(f64, f64)> = lines.iter().flat_map(along).collect();
            self.name_near(&name, FAST_PT, (&points, 0.35), LISTED_MM);
        }
    }

    /// Racks by the names that the load list has, at one of their edges.
    fn racks_by_name(&mut self) {
        let named: Vec<(String, Vec<(f64, f64)>)> = self
            .racks()
            .into_iter()
            .filter_map(|rack| {
                let mut things = self.of_sort(ThingSort::Rack);
                let thing = things.find(|thing| thing.thing.id == rack.id)?;
                let corners = self.paper.all(&thing.shape.to_polygon(STEP_RAD)?);
                let next = corners.iter().cycle().skip(1);
                let edges = corners.iter().zip(next);
                let points = edges.flat_map(|(a, b)| {
                    [0.5, 0.2, 0.8]
                        .map(|share| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1)))
                });
                let name = rack.name.clone().unwrap_or_else(|| rack.id.clone());
                Some((name, points.collect()))
            })
            .collect();
        for (name, points) in named {
            self.name_near(&name, THING_PT, (&points, 0.0), LISTED_MM);
        }
    }

    /// The lashing points of the deck: name, place on paper, and whether a lashing of the list goes to it.
    fn points_here(&self) -> Vec<(String, (f64, f64), bool)> {
        let points = self.plan.boat.lashing_points.iter();
        let is_listed = |name: &str| {
            let mut rows = self.brief.lashing_list.iter();
            rows.any(|row| row.from == name || row.to == name)
        };
        points
            .filter(|point| point.deck == self.deck.deck)
            .map(|point| {
                let name = point.name.clone().unwrap_or_else(|| point.id.clone());
                let listed = is_listed(&name);
                (name, self.paper.at(vec(&point.at)), listed)
            })
            .filter(|(_, at, _)| self.is_shown(*at))
            .collect()
    }

    /// Those that a lashing of the list goes to; the others are marks without a name.
    fn points(&mut self) {
        let points = self.points_here().into_iter();
        for (name, at, _) in points.filter(|(_, _, is_listed)| *is_listed) {
            self.name_near(&name, FAST_PT, (&[at], POINT_MM), LISTED_MM);
        }
    }

    /// The name of each walkway over the middle of its longest leg.
    fn walkways_by_name(&mut self) {
        let ways = self.plan.boat.walkways.iter();
        for way in ways.filter(|way| way.deck == self.deck.deck) {
            let length = |leg: &&[Point]| (vec(&leg[1]) - vec(&leg[0])).length();
            let legs = way.line.windows(2);
            let Some(leg) = legs.max_by(|a, b| length(a).total_cmp(&length(b))) else {
                continue;
            };
            let (a, b) = (self.paper.at(vec(&leg[0])), self.paper.at(vec(&leg[1])));
            let name = way.name.as_deref().unwrap_or(&way.id);
            let is_level = (b.0 - a.0).abs() >= (b.1 - a.1).abs();
            let on_leg = |share: f64| (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
            let shares = [0.5, 0.3, 0.7, 0.15, 0.85];
            let shown = shares
                .into_iter()
                .filter(|share| self.is_shown(on_leg(*share)));
            let shown: Vec<f64> = shown.collect();
            let is_named = shown.into_iter().any(|share| {
                let what = (name, THING_PT);
                self.labels.along(self.page, on_leg(share), what, is_level)
            });
            if !is_named {
                self.name_near(name, THING_PT, (&[on_leg(0.5)], 0.3), LISTED_MM);
            }
        }
    }

    /// The names of what is built on, and of loose gear, in the middle of it, the long way; tells those that
    /// would be cut there, with where they are.
    fn built_on(&mut self) -> Vec<(String, (f64, f64))> {
        let mut cut_short = Vec::new();
        let things: Vec<&SceneThing> = self
            .deck
            .things
            .iter()
            .filter(|thing| matches!(thing.sort, ThingSort::Fixture | ThingSort::Gear))
            .filter(|thing| thing.from_m <= OVERHEAD_M)
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
            if wide.max(high) < 7.0 || wide.min(high) < 2.4 || !self.is_shown(at) {
                continue;
            }
            let lines = wrap(&thing.name, THING_PT, wide - 1.0);
            let fits = |line: &String| width_mm(line, THING_PT) <= wide - 0.8;
            if lines.iter().all(fits) && lines.len() as f64 * LINE_MM <= high {
                self.name_in(&lines, at, (wide, high));
            } else if width_mm(&thing.name, THING_PT) > high - 1.0 {
                cut_short.push((thing.name.clone(), at));
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
    fn beside_what_is_small(&mut self, named: &[(String, (f64, f64))]) {
        for (name, at) in named {
            let lines = wrap(name, FAST_PT, BROKEN_MM).join("\n");
            self.labels
                .near(self.page, (&lines, FAST_PT), (&[*at], 0.5), SMALL_MM);
        }
    }

    /// Lines of a name one below the other in something, in its middle if that is free, else towards one of its
    /// ends.
    fn name_in(&mut self, lines: &[String], (x, y): (f64, f64), (wide, high): (f64, f64)) {
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
            return;
        };
        let area = Area::about((x, y), half);
        Labels::whiten(self.page, area);
        let first = y - 0.5 * LINE_MM * (lines.len() - 1) as f64;
        for (index, line) in lines.iter().enumerate() {
            let at = (x, first + LINE_MM * index as f64);
            super::super::centred(self.page, at, THING_PT, line);
        }
        self.labels.take_name(area);
    }
}
