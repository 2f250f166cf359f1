//! The deck plan to scale, turned to the way the reader faces.

use super::labels::{Area, Labels, Named, Off, inside};
use super::{Brief, LIST_PT, centred, cut, whole};
use crate::brief::LashingLeg;
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Vec2;
use crate::layout::{Id, Place, Plan, Point, Rack};
use crate::sheet::{Align, Page, Paper, Pen, width_mm, wrap};

/// Which way somebody with the sheet in hand looks; that is up on paper.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum Facing {
    /// Towards the bow.
    Ahead,
    /// Towards the stern.
    Astern,
    /// Towards the port side.
    Port,
    /// Towards the starboard side.
    Starboard,
}

/// The scales that a rule can be laid on.
const SCALES: [f64; 15] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 75.0, 100.0, 125.0, 150.0, 200.0, 300.0, 500.0,
];

/// Room before bow and stern for their names, in millimetres.
const ENDS_MM: f64 = 12.0;

/// Room beside a deck for the names of what stands at its edge, in millimetres: between these two.
const BESIDE_MM: (f64, f64) = (9.0, 24.0);

/// How near the edge something must be for its name to stand outside, in millimetres on paper.
const NEAR_EDGE_MM: f64 = 7.0;

/// Angle of the steps in which round things are drawn.
const STEP_RAD: f64 = 0.2;

/// What begins above this height is over the heads of those who load, in metres.
const OVERHEAD_M: f64 = 1.5;

const NAME_PT: f64 = 7.0;
const THING_PT: f64 = 6.5;
const POINT_PT: f64 = 6.0;

/// From line to line of a name that takes several, in millimetres.
const LINE_MM: f64 = 2.6;

impl Facing {
    /// What lies to the right and what lies ahead of the reader, on the deck plan.
    fn axes(self) -> (Vec2, Vec2) {
        let (x, y) = (Vec2 { x: 1.0, y: 0.0 }, Vec2 { x: 0.0, y: 1.0 });
        let (minus_x, minus_y) = (Vec2 { x: -1.0, y: 0.0 }, Vec2 { x: 0.0, y: -1.0 });
        match self {
            Self::Ahead => (minus_y, x),
            Self::Astern => (y, minus_x),
            Self::Port => (x, y),
            Self::Starboard => (minus_x, minus_y),
        }
    }

    fn words(self) -> &'static str {
        match self {
            Self::Ahead => "ahead",
            Self::Astern => "astern",
            Self::Port => "to port",
            Self::Starboard => "to starboard",
        }
    }

    /// From the hand-over place one looks inboard, away from the nearest edge; without one the bow is to the
    /// right, as in the window.
    fn from(at: Option<Point>, deck: Option<&[Point]>) -> Self {
        let (Some([x, y]), Some(deck)) = (at, deck) else {
            return Self::Port;
        };
        let span = |axis: usize| {
            let along = deck.iter().map(|point| point[axis]);
            along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
                (low.min(value), high.max(value))
            })
        };
        let ((aft, fore), (starboard, port)) = (span(0), span(1));
        let edges = [
            (port - y, Self::Starboard),
            (y - starboard, Self::Port),
            (x - aft, Self::Ahead),
            (fore - x, Self::Astern),
        ];
        let nearest = edges.into_iter().min_by(|a, b| a.0.total_cmp(&b.0));
        nearest.map_or(Self::Port, |(_, facing)| facing)
    }

    /// Does the boat stand along the page rather than across it?
    pub(super) fn is_along(self) -> bool {
        matches!(self, Self::Ahead | Self::Astern)
    }
}

/// From the deck plan to the paper.
struct Paperwise {
    right: Vec2,
    up: Vec2,
    /// What stands in the upper left corner, along right and up, in metres.
    corner: (f64, f64),
    left_mm: f64,
    top_mm: f64,
    mm_per_m: f64,
}

impl Paperwise {
    fn at(&self, point: Vec2) -> (f64, f64) {
        let (along, above) = (point.dot(self.right), point.dot(self.up));
        (
            self.left_mm + self.mm_per_m * (along - self.corner.0),
            self.top_mm + self.mm_per_m * (self.corner.1 - above),
        )
    }

    fn all(&self, points: &[Vec2]) -> Vec<(f64, f64)> {
        points.iter().map(|point| self.at(*point)).collect()
    }
}

/// Which way the reader of a brief faces.
pub(super) fn facing(plan: &Plan, brief: &Brief) -> Facing {
    let place = hand_over(plan, brief);
    let deck = place.and_then(|place| plan.boat.deck(&place.deck));
    Facing::from(
        place.map(|place| place.at),
        deck.map(|deck| deck.outline.as_slice()),
    )
}

/// The decks that something of the stowage is on, or the only one there is.
pub(super) fn decks_to_draw(brief: &Brief) -> Vec<&DeckScene> {
    let decks = &brief.scene.decks;
    let is_used =
        |deck: &&DeckScene| decks.len() == 1 || deck.things.iter().any(|thing| !thing.of_boat);
    decks
        .iter()
        .filter(|deck| deck.floor.is_some())
        .filter(is_used)
        .collect()
}

/// What stands above a deck.
pub(super) fn caption(deck: &DeckScene, scale: f64, facing: Facing) -> String {
    format!(
        "{}, scale 1:{scale:.0}, drawn as you see it facing {}",
        deck.name,
        facing.words()
    )
}

/// The deck of a cylinder, or the first that is drawn, with the cylinder lit.
pub fn deck_picture(plan: &Plan, brief: &Brief, lit: Option<&Id>) -> Page {
    let decks = decks_to_draw(brief);
    let has = |deck: &&&DeckScene| {
        let mut things = deck.things.iter();
        things.any(|thing| thing.sort == ThingSort::Cylinder && Some(&thing.thing.id) == lit)
    };
    let deck = decks.iter().find(has).or(decks.first());
    match deck {
        Some(deck) => {
            let room = (super::ALONE_MM, super::ALONE_MM);
            piece(plan, brief, deck, facing(plan, brief), room, lit).1
        }
        None => Page::new(Paper::Cut {
            wide: 100,
            high: 40,
        }),
    }
}

/// The place over which cylinders are handed aboard: there the reader stands.
fn hand_over<'a>(plan: &'a Plan, brief: &Brief) -> Option<&'a Place> {
    plan.boat.place(brief.loading.hand_over_place.as_ref()?)
}

/// One deck on a piece of its own that has this much room at most; tells its scale.
pub(super) fn piece(
    plan: &Plan,
    brief: &Brief,
    deck: &DeckScene,
    facing: Facing,
    room: (f64, f64),
    lit: Option<&Id>,
) -> (f64, Page) {
    let Some(floor) = &deck.floor else {
        return (1.0, Page::new(Paper::Cut { wide: 10, high: 10 }));
    };
    let (right, up) = facing.axes();
    let outline = floor.outline().vertices();
    let span = |axis: Vec2| {
        let along = outline.iter().map(|point| point.dot(axis));
        along.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        })
    };
    let ((left_m, right_m), (bottom_m, top_m)) = (span(right), span(up));
    let beside = beside_mm(brief, deck);
    let (side, end) = if facing.is_along() {
        (beside, ENDS_MM - 4.0)
    } else {
        (ENDS_MM, beside)
    };
    // The reader's mark stands below, under the scale bar and, along the page, the word for the end.
    let below = end.max(if facing.is_along() { 14.0 } else { 9.0 });
    let fits = |scale: &f64| {
        let mm_per_m = 1000.0 / scale;
        mm_per_m * (right_m - left_m) + 2.0 * side <= room.0
            && mm_per_m * (top_m - bottom_m) + end + below <= room.1
    };
    let found = SCALES.into_iter().find(|scale| fits(scale));
    let scale = found.unwrap_or(1000.0);
    let mm_per_m = 1000.0 / scale;
    let wide = mm_per_m * (right_m - left_m) + 2.0 * side;
    let high = mm_per_m * (top_m - bottom_m) + end + below;
    let mut page = Page::new(Paper::Cut {
        wide: whole(wide),
        high: whole(high),
    });
    let paper = Paperwise {
        right,
        up,
        corner: (left_m, top_m),
        left_mm: side,
        top_mm: end,
        mm_per_m,
    };
    let mut labels = Labels::new(Area {
        left: 0.0,
        top: 0.0,
        right: wide,
        bottom: high,
    });
    let mut picture = Picture {
        page: &mut page,
        paper: &paper,
        labels: &mut labels,
        plan,
        brief,
        deck,
        outline,
    };
    picture.draw(lit);
    (scale, page)
}

/// Room beside a deck for the names that stand outside it.
fn beside_mm(brief: &Brief, deck: &DeckScene) -> f64 {
    let longest = deck
        .things
        .iter()
        .filter(|thing| thing.sort == ThingSort::Cylinder)
        .map(|thing| width_mm(&names(brief, &thing.thing.id)[0], NAME_PT) + 4.5)
        .fold(0.0, f64::max);
    longest.clamp(BESIDE_MM.0, BESIDE_MM.1)
}

/// What a cylinder is called on the plan: the slot as painted or its own name, then its number; then shorter.
fn names(brief: &Brief, cylinder: &str) -> Vec<String> {
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
    }
    names
}

/// A deck as it is being drawn.
struct Picture<'a> {
    page: &'a mut Page,
    paper: &'a Paperwise,
    labels: &'a mut Labels,
    plan: &'a Plan,
    brief: &'a Brief,
    deck: &'a DeckScene,
    outline: &'a [Vec2],
}

impl Picture<'_> {
    fn draw(&mut self, lit: Option<&Id>) {
        let paper = self.paper;
        self.page
            .fill(&paper.all(self.outline), 1.0, Some(Pen::solid(0.5)));
        let holes = self
            .deck
            .floor
            .iter()
            .flat_map(crate::geometry::Region::holes);
        for hole in holes {
            self.page
                .fill(&paper.all(hole.vertices()), 0.6, Some(Pen::solid(0.3)));
        }
        for thing in &self.deck.things {
            draw_thing(self.page, paper, thing);
        }
        self.walkways();
        self.slots();
        self.fronts();
        self.lashings();
        if let Some(lit) = lit {
            self.light(lit);
        }
        self.reader();
        self.set_down();
        self.cylinders(lit);
        self.points();
        self.things();
        self.names_of_walkways();
        ends(self.page, paper, self.outline);
        let low = paper
            .all(self.outline)
            .iter()
            .map(|(_, y)| *y)
            .fold(0.0, f64::max);
        scale_bar(self.page, (paper.left_mm, low + 6.0), paper.mm_per_m);
    }

    fn walkways(&mut self) {
        let ways = self.plan.boat.walkways.iter();
        for way in ways.filter(|way| way.deck == self.deck.deck) {
            let line: Vec<Vec2> = way.line.iter().map(vec).collect();
            self.page
                .line(&self.paper.all(&line), false, Pen::dashed(0.35));
        }
    }

    /// The name of each walkway over the middle of its longest leg.
    fn names_of_walkways(&mut self) {
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
            for share in [0.5, 0.3, 0.7, 0.15, 0.85] {
                let at = (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1));
                if self.labels.along(self.page, at, (name, THING_PT), is_level) {
                    break;
                }
            }
        }
    }

    /// Slots as painted that stay free.
    fn slots(&mut self) {
        let racks = self.plan.boat.racks.iter();
        let racks: Vec<&Rack> = racks.filter(|rack| rack.deck == self.deck.deck).collect();
        for rack in racks {
            for name in &rack.slot_names {
                let taken = self
                    .brief
                    .load_list
                    .iter()
                    .any(|row| row.rack == rack.id && row.slot == *name);
                let Some(slot) = rack.slot(name).filter(|_| !taken) else {
                    continue;
                };
                let at = self.paper.at(vec(&slot.at));
                let radius = 0.4 * rack.pitch_m.min(0.25) * self.paper.mm_per_m;
                self.page.line(&round(at, radius), true, Pen::grey(0.2));
                inside(self.page, at, radius, name, NAME_PT);
            }
        }
    }

    /// What closes the fronts of racks, as a line before the slots that it serves.
    fn fronts(&mut self) {
        let racks = self.plan.boat.racks.iter();
        let here: Vec<&Rack> = racks.filter(|rack| rack.deck == self.deck.deck).collect();
        for row in self.brief.front_list.iter().filter(|row| row.shut) {
            let Some(rack) = here.iter().find(|rack| rack.id == row.rack_id) else {
                continue;
            };
            let slots = row.slots.iter().filter_map(|name| rack.slot(name));
            let slots: Vec<Vec2> = slots.map(|slot| vec(&slot.at)).collect();
            let (Some(first), Some(last)) = (slots.first(), slots.last()) else {
                continue;
            };
            let (sin, cos) = rack.turn_deg.to_radians().sin_cos();
            let (along, out) = (Vec2 { x: cos, y: sin }, Vec2 { x: sin, y: -cos });
            let reach = 0.45 * rack.pitch_m;
            let end =
                |at: Vec2, sign: f64| self.paper.at(at + along * (sign * reach) + out * reach);
            let sign = if (*last - *first).dot(along) < 0.0 {
                -1.0
            } else {
                1.0
            };
            self.page.line(
                &[end(*first, -sign), end(*last, sign)],
                false,
                Pen::solid(0.7),
            );
        }
    }

    fn lashings(&mut self) {
        let deck = self.deck;
        let is_here = |leg: &&LashingLeg| {
            let mut things = deck.things.iter();
            things.any(|thing| {
                thing.sort == ThingSort::Cylinder && leg.round.contains(&thing.thing.id)
            })
        };
        for leg in self.brief.legs.iter().filter(is_here) {
            let flat = |[x, y, _]: [f64; 3]| self.paper.at(Vec2 { x, y });
            let ends = [flat(leg.ends[0]), flat(leg.ends[1])];
            self.page.line(&ends, false, Pen::solid(0.7));
        }
    }

    fn of_sort(&self, sort: ThingSort) -> impl Iterator<Item = &SceneThing> {
        let things = self.deck.things.iter();
        things.filter(move |thing| thing.sort == sort)
    }

    /// How far a thing reaches on paper.
    fn radius_mm(&self, thing: &SceneThing) -> f64 {
        let middle = thing.shape.centroid();
        let corners = thing.shape.to_polygon(STEP_RAD).unwrap_or_default();
        let far = corners.iter().map(|corner| (*corner - middle).length());
        far.fold(0.0, f64::max) * self.paper.mm_per_m
    }

    fn cylinders(&mut self, lit: Option<&Id>) {
        let cylinders: Vec<(Id, Vec2, f64)> = self
            .of_sort(ThingSort::Cylinder)
            .map(|thing| {
                (
                    thing.thing.id.clone(),
                    thing.shape.centroid(),
                    self.radius_mm(thing),
                )
            })
            .collect();
        for (_, middle, radius) in &cylinders {
            self.labels
                .take(Area::round(self.paper.at(*middle), 0.9 * radius));
        }
        for (id, middle, radius) in &cylinders {
            let at = self.paper.at(*middle);
            if Some(id) == lit {
                continue;
            }
            let outboard = Vec2 {
                x: 0.0,
                y: if middle.y < 0.0 { -1.0 } else { 1.0 },
            };
            let forward = Vec2 { x: 1.0, y: 0.0 };
            let sides: Vec<(Off, f64)> = [outboard, -outboard, forward, -forward]
                .into_iter()
                .map(|way| (self.off(way), self.beyond_edge(*middle, way, *radius)))
                .collect();
            let names = names(self.brief, id);
            let named = Named {
                at,
                radius: *radius,
                names: &names,
                size_pt: NAME_PT,
            };
            if !self.labels.beside(self.page, &named, &sides) {
                let shortest = names.last().map_or("", String::as_str);
                inside(self.page, at, *radius, shortest, NAME_PT);
            }
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
    fn beyond_edge(&self, from: Vec2, way: Vec2, radius: f64) -> f64 {
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

    /// A ring round a cylinder that is black itself.
    fn light(&mut self, lit: &Id) {
        let found = self
            .of_sort(ThingSort::Cylinder)
            .find(|thing| thing.thing.id == *lit)
            .map(|thing| {
                (
                    thing.shape.centroid(),
                    self.radius_mm(thing),
                    thing.shape.clone(),
                )
            });
        let Some((middle, radius, shape)) = found else {
            return;
        };
        let at = self.paper.at(middle);
        for (further, width) in [(2.2, 1.2), (4.8, 0.6)] {
            self.page
                .line(&round(at, radius + further), true, Pen::solid(width));
        }
        if let Some(outline) = shape.to_polygon(STEP_RAD) {
            self.page
                .fill(&self.paper.all(&outline), 0.0, Some(Pen::solid(0.8)));
        }
        self.labels.take(Area::round(at, radius + 4.0));
    }

    /// Where the reader stands, told below the plan, where it covers no name if that can be.
    fn reader(&mut self) {
        let place = hand_over(self.plan, self.brief);
        let Some(place) = place.filter(|place| place.deck == self.deck.deck) else {
            return;
        };
        let (x, y) = self.paper.at(vec(&place.at));
        let words = "you stand here";
        let width = width_mm(words, LIST_PT) + 2.4;
        let wide = self.page.paper.width_mm();
        let low = self.page.paper.height_mm() - 4.4;
        let named: Vec<f64> = self
            .of_sort(ThingSort::Cylinder)
            .map(|thing| self.paper.at(thing.shape.centroid()).0)
            .collect();
        let lefts = [x - 0.5 * width, x - width + 1.0, x - 1.0];
        let lefts = lefts.map(|left| left.clamp(0.0, (wide - width).max(0.0)));
        let covers = |left: f64| {
            let beneath = |at: &&f64| **at > left - 1.6 && **at < left + width + 1.6;
            named.iter().filter(beneath).count()
        };
        let left = lefts.into_iter().min_by_key(|left| covers(*left));
        let left = left.unwrap_or(lefts[0]);
        self.page.line(&[(x, y), (x, low)], false, Pen::solid(0.25));
        self.page.fill(
            &[(x - 2.0, y + 2.2), (x, y - 2.2), (x + 2.0, y + 2.2)],
            0.0,
            Some(Pen::solid(0.2)),
        );
        self.page
            .rectangle((left, low), (width, 4.2), 1.0, Some(Pen::solid(0.3)));
        centred(self.page, (left + 0.5 * width, low + 2.1), LIST_PT, words);
        self.labels.take(Area {
            left,
            right: left + width,
            top: low,
            bottom: low + 4.2,
        });
        self.labels.take(Area::round((x, y), 2.4));
        self.labels.take(Area {
            left: x - 0.4,
            right: x + 0.4,
            top: y,
            bottom: low,
        });
    }

    /// Where cylinders are laid down if the chain stalls.
    fn set_down(&mut self) {
        let id = self.brief.loading.set_down_place.as_ref();
        let place = id.and_then(|id| self.plan.boat.place(id));
        let Some(place) = place.filter(|place| place.deck == self.deck.deck) else {
            return;
        };
        let at = self.paper.at(vec(&place.at));
        let side = 2.0;
        self.page.rectangle(
            (at.0 - side, at.1 - side),
            (2.0 * side, 2.0 * side),
            1.0,
            Some(Pen::dashed(0.4)),
        );
        self.labels.take(Area::round(at, side));
        self.beside(at, side, "set down", THING_PT);
    }

    fn points(&mut self) {
        let points = self.plan.boat.lashing_points.iter();
        let here: Vec<(String, (f64, f64))> = points
            .filter(|point| point.deck == self.deck.deck)
            .map(|point| {
                let name = point.name.clone().unwrap_or_else(|| point.id.clone());
                (name, self.paper.at(vec(&point.at)))
            })
            .collect();
        for (_, (x, y)) in &here {
            let (x, y, side) = (*x, *y, 0.8);
            let corners = [(x - side, y), (x, y - side), (x + side, y), (x, y + side)];
            self.page.fill(&corners, 0.0, None);
            self.labels.take(Area::round((x, y), side));
        }
        // Only those that a lashing of the list is made fast to.
        let used = |name: &str| {
            let mut rows = self.brief.lashing_list.iter();
            rows.any(|row| row.from == name || row.to == name)
        };
        let named: Vec<_> = here.into_iter().filter(|(name, _)| used(name)).collect();
        for (name, at) in named {
            self.beside(at, 0.8, &name, POINT_PT);
        }
    }

    fn beside(&mut self, at: (f64, f64), radius: f64, name: &str, size_pt: f64) {
        let names = [name.to_owned()];
        let named = Named {
            at,
            radius,
            names: &names,
            size_pt,
        };
        let sides = [Off::Right, Off::Left, Off::Up, Off::Down].map(|off| (off, 0.0));
        self.labels.beside(self.page, &named, &sides);
    }

    fn name_thing(&mut self, (x, y): (f64, f64), name: &str) {
        let half = 0.5 * width_mm(name, THING_PT);
        self.labels.take(Area {
            left: x - half,
            right: x + half,
            top: y - 1.1,
            bottom: y + 1.1,
        });
        centred(self.page, (x, y), THING_PT, name);
    }

    /// The names of what is built on, and of loose gear, in the middle of it, the long way.
    fn things(&mut self) {
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
            if wide.max(high) < 7.0 || wide.min(high) < 2.4 {
                continue;
            }
            let lines = wrap(&thing.name, THING_PT, wide - 1.0);
            let fits = |line: &String| width_mm(line, THING_PT) <= wide - 0.8;
            if lines.iter().all(fits) && lines.len() as f64 * LINE_MM <= high {
                let first = at.1 - 0.5 * LINE_MM * (lines.len() - 1) as f64;
                for (index, line) in lines.iter().enumerate() {
                    let at = (at.0, first + LINE_MM * index as f64);
                    self.name_thing(at, line);
                }
                continue;
            }
            let name = cut(&thing.name, THING_PT, wide.max(high) - 1.0);
            if wide >= high {
                self.name_thing(at, &name);
            } else {
                self.page
                    .text_turned((at.0 + 0.8, at.1), THING_PT, Align::Middle, -90.0, &name);
            }
        }
    }
}

fn vec([x, y]: &Point) -> Vec2 {
    Vec2 { x: *x, y: *y }
}

fn round((x, y): (f64, f64), radius: f64) -> Vec<(f64, f64)> {
    let steps = (0..48).map(|step| f64::from(step) * std::f64::consts::TAU / 48.0);
    let corners = steps.map(|turn| (x + radius * turn.cos(), y + radius * turn.sin()));
    corners.collect()
}

fn draw_thing(page: &mut Page, paper: &Paperwise, thing: &SceneThing) {
    let Some(outline) = thing.shape.to_polygon(STEP_RAD) else {
        return;
    };
    let outline = paper.all(&outline);
    // An awning hides nothing from who stands beneath it.
    if thing.from_m > OVERHEAD_M {
        page.line(&outline, true, Pen::dashed(0.2));
        return;
    }
    let (grey, pen) = match thing.sort {
        ThingSort::Fixture | ThingSort::Place | ThingSort::Edge => (0.88, Pen::grey(0.2)),
        ThingSort::Rack | ThingSort::Cylinder => (1.0, Pen::solid(0.35)),
        ThingSort::Gear | ThingSort::Lashing => (0.94, Pen::grey(0.2)),
        // Who stands where when loading is for the crew to say.
        ThingSort::Person => return,
    };
    page.fill(&outline, grey, Some(pen));
}

/// Bow and stern, so that nobody turns the sheet round.
fn ends(page: &mut Page, paper: &Paperwise, outline: &[Vec2]) {
    let ahead = outline.iter().max_by(|a, b| a.x.total_cmp(&b.x));
    let astern = outline.iter().min_by(|a, b| a.x.total_cmp(&b.x));
    for (end, words, sign) in [(ahead, "bow", 1.0), (astern, "stern", -1.0)] {
        let Some(end) = end else { continue };
        let away = 5.5 / paper.mm_per_m;
        let at = paper.at(Vec2 {
            x: end.x + sign * away,
            y: 0.0,
        });
        centred(page, at, LIST_PT, words);
    }
}

fn scale_bar(page: &mut Page, (x, y): (f64, f64), mm_per_m: f64) {
    page.line(
        &[
            (x, y - 1.0),
            (x, y),
            (x + mm_per_m, y),
            (x + mm_per_m, y - 1.0),
        ],
        false,
        Pen::solid(0.3),
    );
    page.text((x + mm_per_m + 1.0, y), LIST_PT, Align::Left, "1 m");
}
