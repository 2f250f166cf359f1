//! Where everything is in one part of the day, as shapes seen from above with heights.

use std::sync::OnceLock;

use super::body::Body;
use super::numbers::ThingSort;
use crate::geometry::{Bounds, Index, Outline, Region, Shape, Vec2, rectangle, vec2};
use crate::layout::{
    Boat, DayState, Deck, Gear, GearShape, Id, Person, Point, Posture, ThingKind, ThingRef,
};

/// Something on a deck, as a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneThing {
    /// What sort of thing.
    pub sort: ThingSort,

    /// Its name in the plan.
    pub thing: ThingRef,

    /// What the crew call it.
    pub name: String,

    /// The floor it takes; a lying cylinder with its valve, a rack with its outer edge.
    pub shape: Shape,

    /// Height of its lowest part above the deck, in metres.
    pub from_m: f64,

    /// Height of its highest part above the deck, in metres.
    pub to_m: f64,

    /// Does it belong to the boat (fixtures; racks are stowage, as they can be moved)?
    pub of_boat: bool,

    /// Do people walk on it, or past it while it steps aside (somebody on their feet)?
    pub walked_on: bool,

    /// Is it a cylinder that is in a rack, crate or net, so that touching the rack is meant?
    pub inside: Option<Id>,
}

/// One deck and everything on it, things in the order fixtures, racks, cylinders, gear, people, each
/// by name.
#[derive(Clone, Debug, PartialEq)]
pub struct DeckScene {
    /// The deck's name in the plan.
    pub deck: Id,

    /// What the crew call it.
    pub name: String,

    /// Its height above the waterline in metres.
    pub height_m: f64,

    /// The floor; `None` while its outline cannot be used (the window shows why).
    pub floor: Option<Region>,

    /// What is on it.
    pub things: Vec<SceneThing>,

    /// Where it is.
    pub(crate) near: Near,
}

/// Where the things of a deck are; looked at when first asked for. It follows from the things, so that no scene differs
/// from another by it.
#[derive(Debug, Default)]
pub(crate) struct Near(OnceLock<Index>);

/// Whoever makes a copy may change the things in it.
impl Clone for Near {
    fn clone(&self) -> Self {
        Self::default()
    }
}

impl PartialEq for Near {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl DeckScene {
    /// The things, by their places in the list, whose bounds come within `margin_m` of these; in rising order.
    pub(crate) fn near(&self, bounds: &Bounds, margin_m: f64) -> Vec<usize> {
        let of_things = || Index::new(self.things.iter().map(|thing| thing.shape.bounds()));
        self.near.0.get_or_init(of_things).within(bounds, margin_m)
    }
}

/// All decks of the boat in one part of the day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The decks in the order of the plan.
    pub decks: Vec<DeckScene>,
}

impl Scene {
    /// The deck with this name.
    pub fn deck(&self, id: &str) -> Option<&DeckScene> {
        self.decks.iter().find(|deck| deck.deck == id)
    }

    /// The thing with this name, and the deck it is on.
    pub fn thing(&self, what: &ThingRef) -> Option<(&DeckScene, &SceneThing)> {
        self.decks
            .iter()
            .find_map(|deck| Some((deck, deck.things.iter().find(|item| item.thing == *what)?)))
    }
}

/// Floor and height that somebody takes, as `(length ahead, width, height)` in metres; common practice,
/// no source.
fn person_size(person: &Person) -> (f64, f64, f64) {
    let fins = if person.fins { 0.45 } else { 0.0 };
    match person.posture {
        Posture::Standing => (0.5 + fins, 0.5, 1.8),
        Posture::Seated => (0.75 + fins, 0.55, 1.3),
        Posture::SeatedKitted => (1.0 + fins, 0.65, 1.4),
        Posture::Kneeling => (0.9, 0.55, 1.2),
        Posture::Lying => (1.9, 0.6, 0.35),
        Posture::InWater | Posture::Below | Posture::Ashore => (0.0, 0.0, 0.0),
    }
}

pub(super) fn corners(points: &[Point]) -> Option<Outline> {
    Outline::new(points.iter().map(|[x, y]| vec2(*x, *y)).collect()).ok()
}

fn floor_of(deck: &Deck) -> Option<Region> {
    let outline = corners(&deck.outline)?;
    let holes = deck
        .holes
        .iter()
        .map(|hole| corners(hole))
        .collect::<Option<Vec<_>>>()?;
    Region::new(outline, holes).ok()
}

fn shown(name: Option<&String>, id: &str) -> String {
    name.cloned().unwrap_or_else(|| id.to_owned())
}

/// The pieces of a thing that has a shape which is none of the simple ones: a bent hose is several.
fn gear_shapes(gear: &Gear) -> Vec<Shape> {
    match &gear.floor {
        GearShape::Round {
            at: [x, y],
            radius_m,
        } => vec![Shape::disc(vec2(*x, *y), *radius_m)],
        GearShape::Box {
            at: [x, y],
            length_m,
            width_m,
            turn_deg,
        } => rectangle(
            vec2(*x, *y),
            0.5 * length_m,
            0.5 * width_m,
            turn_deg.to_radians(),
        )
        .into_iter()
        .collect(),
        GearShape::Line {
            points,
            thickness_m,
        } => points
            .windows(2)
            .map(|pair| Shape::Stadium {
                from: vec2(pair[0][0], pair[0][1]),
                to: vec2(pair[1][0], pair[1][1]),
                radius: 0.5 * thickness_m,
            })
            .collect(),
    }
}

fn person_shape(person: &Person) -> Option<Shape> {
    let (length, width, _) = person_size(person);
    let at = vec2(person.at[0], person.at[1]);
    let ahead = Vec2::from_angle(person.faces_deg.to_radians());
    // The back stays where the person is placed; knees and fins reach ahead.
    let middle = at + (0.5 * length - 0.25).max(0.0) * ahead;
    rectangle(
        middle,
        0.5 * length,
        0.5 * width,
        person.faces_deg.to_radians(),
    )
    .ok()
}

impl Scene {
    /// Everything on every deck in one part of the day.
    pub(super) fn build(boat: &Boat, day: &DayState, bodies: &[Body]) -> Self {
        let decks = boat.decks.iter().map(|deck| DeckScene {
            deck: deck.id.clone(),
            name: shown(deck.name.as_ref(), &deck.id),
            height_m: deck.height_above_waterline_m,
            floor: floor_of(deck),
            things: things_of(boat, day, bodies, &deck.id),
            near: Near::default(),
        });
        Self {
            decks: decks.collect(),
        }
    }
}

fn things_of(boat: &Boat, day: &DayState, bodies: &[Body], deck: &str) -> Vec<SceneThing> {
    let stowage = day.gear.len() + day.people.len();
    let of_boat = boat.fixtures.len() + boat.racks.len();
    let mut things = Vec::with_capacity(of_boat + bodies.len() + stowage);
    let reference = |kind: ThingKind, id: &str| ThingRef {
        kind,
        id: id.to_owned(),
    };
    for fixture in boat.fixtures.iter().filter(|item| item.deck == deck) {
        if let Some(outline) = corners(&fixture.outline) {
            things.push(SceneThing {
                sort: ThingSort::Fixture,
                thing: reference(ThingKind::Fixture, &fixture.id),
                name: shown(fixture.name.as_ref(), &fixture.id),
                shape: Shape::Polygon(outline),
                from_m: fixture.underside_m,
                to_m: fixture.height_m,
                of_boat: true,
                walked_on: fixture.walked_on,
                inside: None,
            });
        }
    }
    for rack in boat.racks.iter().filter(|item| item.deck == deck) {
        let [length, width] = rack.outer_size();
        let at = vec2(rack.at[0], rack.at[1]);
        let turn = rack.turn_deg.to_radians();
        if let Ok(shape) = rectangle(at, 0.5 * length, 0.5 * width, turn) {
            things.push(SceneThing {
                sort: ThingSort::Rack,
                thing: reference(ThingKind::Rack, &rack.id),
                name: shown(rack.name.as_ref(), &rack.id),
                shape,
                from_m: 0.0,
                to_m: rack.shelf_height_m + rack.edge_height_m,
                of_boat: false,
                walked_on: false,
                inside: None,
            });
        }
    }
    for body in bodies.iter().filter(|body| body.deck == deck) {
        things.push(SceneThing {
            sort: ThingSort::Cylinder,
            thing: reference(ThingKind::Cylinder, &body.id),
            name: body.id.clone(),
            shape: body.shape(),
            from_m: body.floor_m,
            to_m: body.floor_m + body.top_m(),
            of_boat: false,
            walked_on: false,
            inside: body.slot.as_ref().map(|(rack, _)| rack.clone()),
        });
    }
    for gear in day.gear.iter().map(|state| &state.gear) {
        if gear.deck != deck || gear.stowed {
            continue;
        }
        for shape in gear_shapes(gear) {
            things.push(SceneThing {
                sort: ThingSort::Gear,
                thing: reference(ThingKind::Gear, &gear.id),
                name: shown(gear.name.as_ref(), &gear.id),
                shape,
                from_m: 0.0,
                to_m: gear.height_m,
                of_boat: false,
                walked_on: false,
                inside: None,
            });
        }
    }
    for person in day.people.iter().map(|state| &state.person) {
        if person.deck != deck || !person.is_on_deck() {
            continue;
        }
        if let Some(shape) = person_shape(person) {
            things.push(SceneThing {
                sort: ThingSort::Person,
                thing: reference(ThingKind::Person, &person.id),
                name: person.id.clone(),
                shape,
                from_m: 0.0,
                to_m: person_size(person).2,
                of_boat: false,
                walked_on: person.posture == Posture::Standing,
                inside: None,
            });
        }
    }
    things.sort_by(|a, b| (a.sort, &a.thing.id).cmp(&(b.sort, &b.thing.id)));
    things
}
