//! What is drawn, in metres and as plain data, from back to front.

use super::super::here::{Here, at};
use super::super::moving::placing_point;
use super::super::outcome::{self, Tone};
use super::super::selection::Selection;
use super::super::things::reference;
use super::hit;
use super::marks::{self, FindingMark};
use crate::checks::Finding;
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::{Region, Shape, Vec2, vec2};
use crate::layout::{
    Cylinder, Fill, FixtureKind, Kit, Placing, Rack, RackKind, ThingKind, ThingRef,
};

/// What sort of line or ground something has.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Ink {
    /// The floor.
    Deck,
    /// A fixture.
    Fixture,
    /// Something overhead: outline only.
    Overhead,
    /// A rack.
    Rack,
    /// A free slot.
    Slot,
    /// A cylinder.
    Cylinder,
    /// A cylinder that goes at the lean shown.
    Leaning,
    /// A cylinder by how well it holds.
    Held(Tone),
    /// The deck round a cylinder, by how well it holds.
    Heat(Tone),
    /// Kit on a cylinder.
    Kit,
    /// Somebody.
    Person,
    /// Loose gear.
    Gear,
    /// A lashing.
    Lashing,
    /// A walkway.
    Walkway,
    /// What a falling cylinder sweeps.
    Sweep,
    /// The tape, a band, a guide.
    Guide,
}

/// How something stands out.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(crate) enum Stress {
    /// Not at all.
    Plain,
    /// The pointer is on it.
    Hovered,
    /// It is selected.
    Selected,
    /// It is only thought of.
    Thought,
    /// It is on another deck.
    Faint,
}

/// A form in metres.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Form {
    /// Filled and outlined.
    Area(Shape),
    /// A floor with its holes.
    Floor(Region),
    /// A line; open lashings and the like are broken.
    Line { points: Vec<Vec2>, broken: bool },
    /// A strip along a line.
    Strip { points: Vec<Vec2>, width_m: f64 },
    /// A sign of fixed size on the screen.
    Sign { at: Vec2, sign: Sign },
    /// A short line with two heads and its length.
    Width { from: Vec2, to: Vec2 },
}

/// A sign of fixed size on the screen.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(crate) enum Sign {
    /// A lashing point.
    Point,
    /// A place.
    Place,
    /// A corner that can be moved.
    Corner,
    /// Which way somebody faces.
    Facing(f64),
}

/// One thing drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Item {
    /// What it is.
    pub(crate) form: Form,
    /// How it is drawn.
    pub(crate) ink: Ink,
    /// How it stands out.
    pub(crate) stress: Stress,
}

/// A name on the plan.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    /// What it says.
    pub(crate) text: String,
    /// Where its middle is.
    pub(crate) at: Vec2,
    /// The room that it has, in metres; it is left out if it does not fit.
    pub(crate) room_m: f64,
    /// Drawn first and kept where two meet.
    pub(crate) rank: u8,
}

/// All that is drawn in one frame.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Drawing {
    /// From back to front.
    pub(crate) items: Vec<Item>,
    /// Names.
    pub(crate) labels: Vec<Label>,
    /// What must be put right.
    pub(crate) marks: Vec<FindingMark>,
}

/// What the drawing depends on beside the plan.
#[derive(Debug)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a switch of its own in a menu"
)]
pub(crate) struct Looks<'a> {
    /// What is selected.
    pub(crate) selection: &'a Selection,
    /// What the pointer is on.
    pub(crate) hovered: Option<&'a ThingRef>,
    /// What must be put right, in the part shown.
    pub(crate) findings: &'a [(usize, &'a Finding)],
    /// The one that is chosen.
    pub(crate) chosen: Option<usize>,
    /// The cylinders that go at the lean shown.
    pub(crate) leaning: &'a [String],
    /// Do other decks show through?
    pub(crate) other_decks: bool,
    /// Are names shown?
    pub(crate) names: bool,
    /// Are walkways shown?
    pub(crate) walkways: bool,
    /// Are cylinders coloured and numbered by how well they hold?
    pub(crate) margins: bool,
}

impl Drawing {
    /// Decides what is drawn.
    pub(crate) fn of(here: &Here<'_>, looks: &Looks<'_>) -> Self {
        let mut drawing = Self::default();
        if looks.other_decks {
            for deck in here
                .scene
                .decks
                .iter()
                .filter(|deck| deck.deck != here.deck)
            {
                drawing.faint(deck);
            }
        }
        let Some(deck) = here.deck_scene() else {
            return drawing;
        };
        if let Some(floor) = &deck.floor {
            drawing.push(Form::Floor(floor.clone()), Ink::Deck, Stress::Plain);
        }
        if looks.walkways {
            drawing.walkways(here, looks);
        }
        let sorts = [ThingSort::Fixture, ThingSort::Rack];
        for thing in deck.things.iter().filter(|item| sorts.contains(&item.sort)) {
            drawing.body(here, looks, thing);
        }
        if looks.margins {
            drawing.heat(here, &deck.things);
        }
        drawing.falls(here, looks);
        for thing in deck
            .things
            .iter()
            .filter(|item| !sorts.contains(&item.sort))
        {
            drawing.body(here, looks, thing);
        }
        drawing.lashings(here, looks);
        drawing.points_and_places(here, looks);
        drawing.marks = marks::of(here, looks);
        drawing
    }

    /// What a thought adds: things that are new or elsewhere than they were.
    pub(crate) fn of_thought(now: &Here<'_>, thought: &Here<'_>, touched: &[ThingRef]) -> Self {
        let mut drawing = Self::default();
        let none = Selection::none();
        let looks = Looks {
            selection: &none,
            hovered: None,
            findings: &[],
            chosen: None,
            leaning: &[],
            other_decks: false,
            names: false,
            walkways: false,
            margins: false,
        };
        let Some(deck) = thought.deck_scene() else {
            return drawing;
        };
        for thing in deck
            .things
            .iter()
            .filter(|thing| touched.contains(&thing.thing))
        {
            drawing.body(thought, &looks, thing);
        }
        let lashings = thought.day.lashings.iter().map(|state| &state.lashing);
        for lashing in lashings.filter(|item| now.trip.lashing(&item.id).is_none()) {
            if let Some(points) = hit::lashing_line(thought, lashing) {
                let form = Form::Line {
                    points,
                    broken: false,
                };
                drawing.push(form, Ink::Lashing, Stress::Thought);
            }
        }
        for item in &mut drawing.items {
            item.stress = Stress::Thought;
        }
        drawing
    }

    /// The floors, and all that stands on them: the grid goes between.
    pub(crate) fn split(&self) -> (Self, Self) {
        let is_floor = |item: &&Item| matches!(item.form, Form::Floor(_));
        let of = |items: Vec<Item>| Self {
            items,
            ..Self::default()
        };
        let (floors, rest): (Vec<&Item>, Vec<&Item>) = self.items.iter().partition(is_floor);
        (
            of(floors.into_iter().cloned().collect()),
            of(rest.into_iter().cloned().collect()),
        )
    }

    /// A drawing of these items alone.
    pub(crate) fn plain(items: Vec<Item>) -> Self {
        Self {
            items,
            ..Self::default()
        }
    }

    pub(super) fn push(&mut self, form: Form, ink: Ink, stress: Stress) {
        self.items.push(Item { form, ink, stress });
    }

    fn label(&mut self, text: impl Into<String>, at: Vec2, room_m: f64, rank: u8) {
        self.labels.push(Label {
            text: text.into(),
            at,
            room_m,
            rank,
        });
    }

    fn faint(&mut self, deck: &DeckScene) {
        if let Some(floor) = &deck.floor {
            self.push(Form::Floor(floor.clone()), Ink::Deck, Stress::Faint);
        }
        for thing in &deck.things {
            let ink = match thing.sort {
                ThingSort::Fixture | ThingSort::Edge | ThingSort::Place => Ink::Fixture,
                ThingSort::Rack => Ink::Rack,
                ThingSort::Cylinder => Ink::Cylinder,
                ThingSort::Gear => Ink::Gear,
                ThingSort::Person => Ink::Person,
                ThingSort::Lashing => Ink::Lashing,
            };
            self.push(Form::Area(thing.shape.clone()), ink, Stress::Faint);
        }
    }

    fn body(&mut self, here: &Here<'_>, looks: &Looks<'_>, thing: &SceneThing) {
        let stress = looks.stress(&thing.thing);
        let id = thing.thing.id.as_str();
        match thing.sort {
            ThingSort::Fixture => self.fixture(here, looks, thing, stress),
            ThingSort::Rack => {
                if let Some(rack) = here.plan.boat.rack(id) {
                    self.rack(here, looks, rack, &thing.shape, stress);
                }
            }
            ThingSort::Cylinder => {
                if let Some(cylinder) = here.day.cylinder(id) {
                    self.cylinder(here, looks, cylinder, &thing.shape, stress);
                }
            }
            ThingSort::Person => {
                self.push(Form::Area(thing.shape.clone()), Ink::Person, stress);
                let people = here.day.people.iter().map(|state| &state.person);
                if let Some(person) = people.into_iter().find(|person| person.id == id) {
                    let sign = Sign::Facing(person.faces_deg.to_radians());
                    let at = at(person.at);
                    self.push(Form::Sign { at, sign }, Ink::Person, stress);
                }
                if looks.names {
                    self.label(id, thing.shape.centroid(), 0.6, 2);
                }
            }
            ThingSort::Gear => {
                self.push(Form::Area(thing.shape.clone()), Ink::Gear, stress);
                if looks.names {
                    self.label(&thing.name, thing.shape.centroid(), room(&thing.shape), 1);
                }
            }
            ThingSort::Lashing | ThingSort::Edge | ThingSort::Place => {}
        }
    }

    fn fixture(&mut self, here: &Here<'_>, looks: &Looks<'_>, thing: &SceneThing, stress: Stress) {
        let fixture = here.plan.boat.fixture(&thing.thing.id);
        let overhead = fixture
            .is_some_and(|item| item.underside_m > 0.5 || item.kind == FixtureKind::Overhead);
        let ink = if overhead {
            Ink::Overhead
        } else {
            Ink::Fixture
        };
        self.push(Form::Area(thing.shape.clone()), ink, stress);
        if looks.names {
            let name = fixture
                .and_then(|item| item.name.clone())
                .unwrap_or_else(|| {
                    fixture.map_or_else(
                        || thing.name.clone(),
                        |item| super::super::words::stores::fixture(item.kind).to_owned(),
                    )
                });
            self.label(name, thing.shape.centroid(), room(&thing.shape), 1);
        }
    }

    fn rack(
        &mut self,
        here: &Here<'_>,
        looks: &Looks<'_>,
        rack: &Rack,
        shape: &Shape,
        stress: Stress,
    ) {
        self.push(Form::Area(shape.clone()), Ink::Rack, stress);
        let [length, width] = rack.outer_size();
        let line = |back: f64| {
            let end = |along: f64| at(rack.on_deck([along, back]));
            vec![end(-0.5 * length), end(0.5 * length)]
        };
        if rack.kind == RackKind::BenchRow {
            let points = line(0.5 * width);
            self.push(
                Form::Line {
                    points,
                    broken: false,
                },
                Ink::Rack,
                stress,
            );
            let fronts = here.day.fronts.iter().filter(|state| state.rack == rack.id);
            for state in fronts {
                let slots: Vec<f64> = (state.front.slots.iter())
                    .filter_map(|name| rack.slot(name))
                    .map(|slot| super::super::tools::local(rack, at(slot.at)).x)
                    .collect();
                let (Some(first), Some(last)) = (
                    slots.iter().copied().reduce(f64::min),
                    slots.iter().copied().reduce(f64::max),
                ) else {
                    continue;
                };
                let half = 0.5 * rack.pitch_m;
                let end = |along: f64| at(rack.on_deck([along, -0.5 * width]));
                let points = vec![end(first - half), end(last + half)];
                let broken = !state.front.shut;
                self.push(Form::Line { points, broken }, Ink::Lashing, stress);
            }
        }
        if matches!(
            rack.kind,
            RackKind::Sockets | RackKind::BenchRow | RackKind::Cradles
        ) {
            let radius = 0.5 * rack.bore_m.unwrap_or(0.78 * rack.pitch_m);
            for slot in rack.slots() {
                let form = if rack.kind == RackKind::Cradles {
                    let across = Vec2::from_angle(rack.turn_deg.to_radians()).perp();
                    let half = 0.3 * width;
                    Shape::Stadium {
                        from: at(slot.at) - half * across,
                        to: at(slot.at) + half * across,
                        radius: 0.35 * rack.pitch_m,
                    }
                } else {
                    Shape::disc(at(slot.at), radius)
                };
                self.push(Form::Area(form), Ink::Slot, Stress::Plain);
                if looks.names {
                    self.label(&slot.name, at(slot.at), 2.0 * radius, 0);
                }
            }
        }
    }

    fn cylinder(
        &mut self,
        here: &Here<'_>,
        looks: &Looks<'_>,
        cylinder: &Cylinder,
        shape: &Shape,
        stress: Stress,
    ) {
        let leaning = looks.leaning.contains(&cylinder.id);
        let held = (here.cylinder_numbers(&cylinder.id).zip(here.numbers))
            .filter(|_| looks.margins)
            .map(|(numbers, part)| (numbers, outcome::of_cylinder(numbers, &part.motion).tone));
        let ink = match held {
            _ if leaning => Ink::Leaning,
            Some((_, tone)) => Ink::Held(tone),
            None => Ink::Cylinder,
        };
        let middle = placing_point(here.plan, &cylinder.placing).unwrap_or(shape.centroid());
        let upright = here.cylinder_numbers(&cylinder.id);
        let upright = upright.filter(|numbers| numbers.stance.is_upright());
        if let (Kit::On, Some(numbers)) = (cylinder.kit, upright) {
            // The shape is that of the cylinder with its kit; the shell stands out from it.
            self.push(Form::Area(shape.clone()), Ink::Kit, stress);
            let shell = Shape::disc(middle, numbers.body_radius_m);
            self.push(Form::Area(shell), ink, stress);
        } else {
            self.push(Form::Area(shape.clone()), ink, stress);
        }
        if let Shape::Disc { center, radius } = shape {
            // An empty one is drawn hollow, as it is lighter than it looks.
            if cylinder.fill == Fill::Empty {
                let hollow = Form::Area(Shape::disc(*center, 0.62 * radius));
                self.push(hollow, Ink::Slot, Stress::Plain);
            }
        }
        if let Some(towards) = valve_towards(&cylinder.placing)
            && let Some(tip) = valve_end(shape, towards)
        {
            self.push(Form::Area(Shape::disc(tip, 0.028)), Ink::Kit, stress);
        }
        let used = held.and_then(|(numbers, _)| outcome::worst_share(numbers));
        if let Some(used) = used {
            let text = outcome::percent(used.min(9.99));
            self.label(text, middle, 1.6 * shape.bounds().size().x, 3);
        } else if looks.names {
            self.label(&cylinder.id, middle, shape.bounds().size().x, 3);
        }
    }

    fn lashings(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        for state in &here.day.lashings {
            let lashing = &state.lashing;
            if let Some(points) = hit::lashing_line(here, lashing) {
                let stress = looks.stress(&reference(ThingKind::Lashing, &lashing.id));
                let broken = !lashing.shut;
                self.push(Form::Line { points, broken }, Ink::Lashing, stress);
            }
        }
    }

    fn points_and_places(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let boat = &here.plan.boat;
        for point in boat
            .lashing_points
            .iter()
            .filter(|item| item.deck == here.deck)
        {
            let stress = looks.stress(&reference(ThingKind::LashingPoint, &point.id));
            let form = Form::Sign {
                at: at(point.at),
                sign: Sign::Point,
            };
            self.push(form, Ink::Lashing, stress);
            if looks.names {
                self.label(&point.id, at(point.at) + vec2(0.0, 0.09), 0.3, 0);
            }
        }
        for place in boat.places.iter().filter(|item| item.deck == here.deck) {
            let stress = looks.stress(&reference(ThingKind::Place, &place.id));
            let form = Form::Sign {
                at: at(place.at),
                sign: Sign::Place,
            };
            self.push(form, Ink::Walkway, stress);
            if looks.names {
                let name = place.name.as_deref().unwrap_or(&place.id);
                self.label(name, at(place.at) + vec2(0.0, -0.12), 1.2, 1);
            }
        }
    }

    fn walkways(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let walkways = here.plan.boat.walkways.iter();
        for walkway in walkways.filter(|item| item.deck == here.deck) {
            let stress = looks.stress(&reference(ThingKind::Walkway, &walkway.id));
            let numbers = here.numbers.and_then(|numbers| {
                let mut list = numbers.walkways.iter();
                list.find(|item| item.walkway == walkway.id)
            });
            let wanted = numbers.map(|item| item.wanted_m).or(walkway.clear_width_m);
            let form = Form::Strip {
                points: walkway.line.iter().map(|p| at(*p)).collect(),
                width_m: wanted.unwrap_or(0.6),
            };
            self.push(form, Ink::Walkway, stress);
            let spot = numbers.filter(|item| item.clear_m < item.wanted_m);
            if let Some(spot) = spot.and_then(|item| item.clear_spot.as_ref()) {
                let [from, to] = spot.at.map(at);
                self.push(Form::Width { from, to }, Ink::Guide, Stress::Plain);
            }
        }
    }

    /// The floor that the selected cylinders sweep if they go.
    fn falls(&mut self, here: &Here<'_>, looks: &Looks<'_>) {
        let Some(numbers) = here.numbers else { return };
        for fall in &numbers.falls {
            let what = reference(ThingKind::Cylinder, &fall.cylinder);
            if !looks.selection.contains(&what) || fall.sweep.len() < 3 {
                continue;
            }
            let outline = fall.sweep.iter().map(|p| at(*p)).collect();
            if let Ok(outline) = crate::geometry::Outline::new(outline) {
                let form = Form::Area(Shape::Polygon(outline));
                self.push(form, Ink::Sweep, Stress::Plain);
            }
        }
    }
}

impl Looks<'_> {
    fn stress(&self, what: &ThingRef) -> Stress {
        if self.selection.contains(what) {
            Stress::Selected
        } else if self.hovered == Some(what) {
            Stress::Hovered
        } else {
            Stress::Plain
        }
    }
}

/// The room for a name, in metres: the longer side.
fn room(shape: &Shape) -> f64 {
    let size = shape.bounds().size();
    size.x.max(0.6 * size.y)
}

/// Which way the valve of a lying cylinder points, in radians.
fn valve_towards(placing: &Placing) -> Option<f64> {
    match placing {
        Placing::Lying {
            valve_towards_deg, ..
        }
        | Placing::InCrate {
            valve_towards_deg, ..
        } => Some(valve_towards_deg.to_radians()),
        _ => None,
    }
}

fn valve_end(shape: &Shape, towards_rad: f64) -> Option<Vec2> {
    let direction = Vec2::from_angle(towards_rad);
    match shape {
        Shape::Stadium { .. } | Shape::Polygon(_) => {
            let middle = shape.centroid();
            let reach = shape.support(direction) - middle.dot(direction);
            Some(middle + (reach - 0.03) * direction)
        }
        Shape::Disc { .. } => None,
    }
}
