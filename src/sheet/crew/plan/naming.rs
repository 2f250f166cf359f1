//! Names on the deck plan: cylinders, racks, lashings, fronts and points as the lists call them, and what is
//! built on. None stands over another, and what is not named for want of room is told.

use super::super::Brief;
use super::super::labels::{Area, Named, Off, inside};
use super::Picture;
use crate::engine::DeckScene;
use crate::engine::numbers::ThingSort;
use crate::geometry::Vec2;
use crate::layout::{Id, Plan};
use crate::sheet::width_mm;

/// Room beside a deck for the names of what stands at its edge, in millimetres: between these two.
const BESIDE_MM: (f64, f64) = (9.0, 24.0);

/// The same where there is room to spare.
const BESIDE_WIDE_MM: f64 = 42.0;

/// How near the edge something must be for its name to stand outside, in millimetres on paper.
const NEAR_EDGE_MM: f64 = 7.0;

/// Names of cylinders, in points: where there is room, and where there is little.
const NAME_PT: f64 = 8.0;
const NAME_SMALL_PT: f64 = 7.0;

/// All other names, in points: nothing on a plan is smaller.
pub(super) const THING_PT: f64 = 7.0;

/// From this scale on (1:75) names of cylinders have room, in millimetres for a metre.
const NAME_MM_PER_M: f64 = 1000.0 / 75.0;

/// From this scale on (1:100) a number may stand below its name, in millimetres for a metre.
pub(super) const ROOMY_MM_PER_M: f64 = 10.0;

/// So much farther off a name stands clear of what is shut before its cylinder, in millimetres.
const ACROSS_MM: f64 = 1.4;

/// How far from its cylinder a name may stand, in millimetres.
const CYLINDER_MM: f64 = 15.0;

/// How far off it may stand where it found no room otherwise, in millimetres.
const FAR_MM: f64 = 37.0;

/// How far a name of the lists may stand from its thing, in millimetres.
pub(super) const LISTED_MM: f64 = 60.0;

/// Half of a point's mark, in millimetres.
pub(super) const POINT_MM: f64 = 0.8;

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
        let listed = names.map(|name| width_mm(name, THING_PT) + 8.0);
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

/// Points along a body, and how far it reaches to their sides, in millimetres: several where it is long.
struct Along {
    points: Vec<(f64, f64)>,
    radius: f64,
}

impl Along {
    /// The areas that it takes, as one name's own.
    fn areas(&self) -> Vec<Area> {
        let at = self.points.iter();
        at.map(|at| Area::round(*at, self.radius)).collect()
    }
}

/// A cylinder that is to be named.
struct ToName {
    id: Id,
    /// Its middle on the deck and on paper.
    middle: Vec2,
    at: (f64, f64),
    along: Along,
    names: Vec<String>,
    sides: Vec<(Off, f64)>,
}

impl ToName {
    /// The shortest name that will do.
    fn short(&self) -> &str {
        self.names.get(1).unwrap_or(&self.names[0])
    }
}

impl Picture<'_> {
    /// Writes all names: what is handed aboard first, then what must be found at once, then what holds it (points,
    /// which have one place only, before lashings), then where it stands.
    pub(super) fn names(&mut self, lit: Option<&Id>) {
        self.bodies();
        if self.extent.again.has_first() {
            self.is_first_turn = true;
            self.handed_and_found(lit);
            self.racks_by_name();
            self.walkways_by_name();
            self.is_first_turn = false;
        }
        self.handed_and_found(lit);
        let cut_short = self.built_on();
        self.racks_by_name();
        self.walkways_by_name();
        self.beside_what_is_small(cut_short);
    }

    fn handed_and_found(&mut self, lit: Option<&Id>) {
        self.cylinders(lit);
        self.free_slots_by_name();
        self.set_down_name();
        self.what_must_be_found();
        self.points();
        self.lashings_and_fronts();
    }

    /// In how large letters cylinders are named.
    fn name_pt(&self) -> f64 {
        if self.paper.mm_per_m >= NAME_MM_PER_M - 1e-9 {
            NAME_PT
        } else {
            NAME_SMALL_PT
        }
    }

    /// The cylinders that are on the piece.
    fn shown_cylinders(&self) -> Vec<ToName> {
        let things = self.of_sort(ThingSort::Cylinder);
        let cylinders = things.map(|thing| {
            let (from, to, radius) = self.stretch_of(thing);
            let (from, to, radius) = (
                self.paper.at(from),
                self.paper.at(to),
                radius * self.paper.mm_per_m,
            );
            let long = (to.0 - from.0).abs().max((to.1 - from.1).abs());
            let shares = if long > radius {
                &[0.5, 0.25, 0.75, 0.0, 1.0][..]
            } else {
                &[0.5][..]
            };
            let on = |share: &f64| {
                (
                    from.0 + share * (to.0 - from.0),
                    from.1 + share * (to.1 - from.1),
                )
            };
            let middle = thing.shape.centroid();
            let (wide, high) = self.extent(thing);
            let single = shares.len() == 1;
            let along = Along {
                points: shares.iter().map(on).collect(),
                radius: if single { wide.max(high) } else { radius },
            };
            let id = thing.thing.id.clone();
            ToName {
                names: names_of(self.brief, &id),
                at: self.paper.at(middle),
                sides: self.sides(middle, (wide, high)),
                id,
                middle,
                along,
            }
        });
        let mut cylinders: Vec<ToName> = cylinders.collect();
        cylinders.retain(|it| self.is_shown(it.at));
        cylinders
    }

    /// On which sides of a cylinder its name may stand, the best first: away from the middle of the boat.
    fn sides(&self, middle: Vec2, (wide, high): (f64, f64)) -> Vec<(Off, f64)> {
        let outboard = Vec2 {
            x: 0.0,
            y: if middle.y < 0.0 { -1.0 } else { 1.0 },
        };
        let forward = Vec2 { x: 1.0, y: 0.0 };
        let ways = [outboard, -outboard, forward, -forward].into_iter();
        let sides = ways.map(|way| {
            let off = self.off(way);
            let far = if off.is_level() { wide } else { high };
            (off, self.beyond_edge(middle, way, far).max(far))
        });
        let close: Vec<(Off, f64)> = sides.collect();
        // Then across what is shut before it.
        let across = close.iter().map(|(off, far)| (*off, far + ACROSS_MM));
        close.iter().copied().chain(across).collect()
    }

    /// What no name may cover.
    fn bodies(&mut self) {
        for cylinder in self.shown_cylinders() {
            self.labels.take_named(cylinder.along.areas());
        }
        for (_, at, radius) in self.free_slots() {
            self.labels.take_named(vec![Area::round(at, radius)]);
        }
        for (_, (x, y), _) in self.points_here() {
            let side = POINT_MM;
            let corners = [(x - side, y), (x, y - side), (x + side, y), (x, y + side)];
            self.page.fill(&corners, 0.0, None);
            self.labels.take_mark(Area::round((x, y), side));
        }
    }

    /// First those whose whole name stands in line with them, then the others, in what room is left.
    fn cylinders(&mut self, lit: Option<&Id>) {
        let mut left = Vec::new();
        for cylinder in self.shown_cylinders() {
            if Some(&cylinder.id) == lit
                || self.is_on_a_part(cylinder.middle.x)
                || !self.has_turn(cylinder.short(), cylinder.at)
            {
                continue;
            }
            if self
                .beside(&cylinder, &cylinder.names[..1], false)
                .is_none()
            {
                left.push(cylinder);
            }
        }
        for cylinder in left {
            self.name_in_what_room_is_left(&cylinder);
        }
    }

    fn beside(&mut self, cylinder: &ToName, names: &[String], over_lines: bool) -> Option<usize> {
        let named = Named {
            at: cylinder.at,
            radius: 0.0,
            names,
            size_pt: self.name_pt(),
            over_lines,
        };
        self.labels.beside(self.page, &named, &cylinder.sides)
    }

    fn name_in_what_room_is_left(&mut self, cylinder: &ToName) {
        let size_pt = self.name_pt();
        let Along { points, radius } = &cylinder.along;
        let here = (&points[..], *radius);
        let names = &cylinder.names;
        // A deck that is too full for its scale has larger plans of its parts: there all of it is told.
        let has_room = self.is_part || self.paper.mm_per_m >= ROOMY_MM_PER_M;
        if let Some(name) = names.get(2).filter(|_| has_room)
            && (self.labels).near(self.page, (name, size_pt), here, CYLINDER_MM)
        {
            return;
        }
        if self.beside(cylinder, &names[..1], true).is_some() {
            return;
        }
        if self.extent.again.bent && self.far_off(names, here) {
            return;
        }
        let short = cylinder.short().to_owned();
        let is_named = [size_pt, NAME_SMALL_PT]
            .into_iter()
            .any(|size_pt| inside(self.page, cylinder.at, *radius, (&short, size_pt)))
            || self
                .beside(cylinder, std::slice::from_ref(&short), true)
                .is_some()
            || (self.labels).near(self.page, (&short, size_pt), here, CYLINDER_MM);
        if !is_named || names.len() > 1 {
            self.leave_out(&short, cylinder.at, is_named);
        }
    }

    /// The whole name far off, in one line or in two, where a line leads to it, straight or bent.
    fn far_off(&mut self, names: &[String], here: (&[(f64, f64)], f64)) -> bool {
        let size_pt = self.name_pt();
        let mut wholes = names.get(2).into_iter().chain(names.first());
        wholes.any(|name| {
            let name = (name.as_str(), size_pt);
            self.labels.near(self.page, name, here, FAR_MM)
                || self.labels.bent(self.page, name, here, FAR_MM)
        })
    }

    /// The names that are painted at slots that stay free, smaller than those of cylinders.
    fn free_slots_by_name(&mut self) {
        for (name, at, radius) in self.free_slots() {
            let middle = self.paper.deck_point(at);
            if self.is_on_a_part(middle.x)
                || !self.has_turn(&name, at)
                || inside(self.page, at, radius, (&name, THING_PT))
            {
                continue;
            }
            let sides = self.sides(middle, (radius, radius));
            let named = Named {
                at,
                radius: 0.0,
                names: std::slice::from_ref(&name),
                size_pt: THING_PT,
                over_lines: true,
            };
            if self.labels.beside(self.page, &named, &sides).is_none() {
                self.name_near(&name, (&[at], radius), CYLINDER_MM);
            }
        }
    }

    /// A name close to something, or farther away with a line to it; what has no room is told.
    pub(super) fn name_near(
        &mut self,
        name: &str,
        (points, radius): (&[(f64, f64)], f64),
        most_mm: f64,
    ) {
        let shown = points.iter().copied().filter(|at| self.is_shown(*at));
        let shown: Vec<(f64, f64)> = shown.collect();
        let Some(first) = shown.first().copied() else {
            // On a part of the deck it is no part of.
            return;
        };
        if !self.has_turn(name, first) {
            return;
        }
        let (what, here) = ((name, THING_PT), (&shown[..], radius));
        let is_named = self.labels.near(self.page, what, here, most_mm)
            || (self.extent.again.bent && self.labels.bent(self.page, what, here, most_mm));
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
}
