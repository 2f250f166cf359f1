//! Things of a plan by their kind and name.

use crate::layout::{Id, Plan, Thing, ThingKind, ThingRef, Trip};

/// Shorthand for a reference.
pub(crate) fn reference(kind: ThingKind, id: &str) -> ThingRef {
    ThingRef {
        kind,
        id: id.to_owned(),
    }
}

/// A copy of the thing.
pub(crate) fn get(plan: &Plan, trip: &Trip, what: &ThingRef) -> Option<Thing> {
    let id = what.id.as_str();
    let boat = &plan.boat;
    Some(match what.kind {
        ThingKind::Deck => Thing::Deck(boat.deck(id)?.clone()),
        ThingKind::Fixture => Thing::Fixture(boat.fixture(id)?.clone()),
        ThingKind::Place => Thing::Place(boat.place(id)?.clone()),
        ThingKind::Walkway => Thing::Walkway(boat.walkway(id)?.clone()),
        ThingKind::Rack => Thing::Rack(boat.rack(id)?.clone()),
        ThingKind::LashingPoint => Thing::LashingPoint(boat.lashing_point(id)?.clone()),
        ThingKind::Cylinder => Thing::Cylinder(trip.cylinder(id)?.clone()),
        ThingKind::Lashing => Thing::Lashing(trip.lashing(id)?.clone()),
        ThingKind::Gear => Thing::Gear(trip.gear.iter().find(|item| item.id == id)?.clone()),
        ThingKind::Person => Thing::Person(trip.people.iter().find(|item| item.id == id)?.clone()),
        ThingKind::GearAboard => {
            Thing::GearAboard(trip.gear_aboard.iter().find(|item| item.id == id)?.clone())
        }
        ThingKind::Part => Thing::Part(trip.part(id)?.1.clone()),
    })
}

/// Is it there?
pub(crate) fn exists(plan: &Plan, trip: &Trip, what: &ThingRef) -> bool {
    ids(plan, trip, what.kind).any(|id| *id == what.id)
}

/// The names of all things of a kind, in the order of the plan.
pub(crate) fn ids<'a>(
    plan: &'a Plan,
    trip: &'a Trip,
    kind: ThingKind,
) -> Box<dyn Iterator<Item = &'a Id> + 'a> {
    let boat = &plan.boat;
    match kind {
        ThingKind::Deck => Box::new(boat.decks.iter().map(|item| &item.id)),
        ThingKind::Fixture => Box::new(boat.fixtures.iter().map(|item| &item.id)),
        ThingKind::Place => Box::new(boat.places.iter().map(|item| &item.id)),
        ThingKind::Walkway => Box::new(boat.walkways.iter().map(|item| &item.id)),
        ThingKind::Rack => Box::new(boat.racks.iter().map(|item| &item.id)),
        ThingKind::LashingPoint => Box::new(boat.lashing_points.iter().map(|item| &item.id)),
        ThingKind::Cylinder => Box::new(trip.cylinders.iter().map(|item| &item.id)),
        ThingKind::Lashing => Box::new(trip.lashings.iter().map(|item| &item.id)),
        ThingKind::Gear => Box::new(trip.gear.iter().map(|item| &item.id)),
        ThingKind::Person => Box::new(trip.people.iter().map(|item| &item.id)),
        ThingKind::GearAboard => Box::new(trip.gear_aboard.iter().map(|item| &item.id)),
        ThingKind::Part => Box::new(trip.parts.iter().map(|item| &item.id)),
    }
}

/// What the crew call it: its long name, or its id.
pub(crate) fn name(plan: &Plan, trip: &Trip, what: &ThingRef) -> String {
    let boat = &plan.boat;
    let id = what.id.as_str();
    let long = match what.kind {
        ThingKind::Deck => boat.deck(id).and_then(|item| item.name.clone()),
        ThingKind::Fixture => boat.fixture(id).and_then(|item| item.name.clone()),
        ThingKind::Place => boat.place(id).and_then(|item| item.name.clone()),
        ThingKind::Walkway => boat.walkway(id).and_then(|item| item.name.clone()),
        ThingKind::Rack => boat.rack(id).and_then(|item| item.name.clone()),
        ThingKind::LashingPoint => boat.lashing_point(id).and_then(|item| item.name.clone()),
        ThingKind::Lashing => trip.lashing(id).and_then(|item| item.name.clone()),
        ThingKind::Gear => {
            let found = trip.gear.iter().find(|item| item.id == id);
            found.and_then(|item| item.name.clone())
        }
        ThingKind::Part => trip.part(id).and_then(|(_, item)| item.name.clone()),
        ThingKind::Cylinder | ThingKind::Person | ThingKind::GearAboard => None,
    };
    long.unwrap_or_else(|| id.to_owned())
}
