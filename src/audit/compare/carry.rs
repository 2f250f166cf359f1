//! Taking one thing as it is on one side over to the other side: what makes a difference alone, or undoes it.

use serde::Serialize;

use schemars::JsonSchema;

use super::super::Moment;
use crate::layout::{Boat, Id};

/// What sort of thing differs.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DifferentThing {
    /// A cylinder.
    Cylinder,
    /// A lashing.
    Lashing,
    /// The front of a rack.
    Front,
    /// Loose gear.
    Gear,
    /// A walkway, by its room.
    Walkway,
    /// A deck of the boat.
    Deck,
    /// Something built on.
    Fixture,
    /// A rack, its fronts left out.
    Rack,
    /// A lashing point.
    LashingPoint,
    /// A place where people are.
    Place,
    /// The line of a walkway.
    WalkwayLine,
    /// The boat's own measures.
    Boat,
}

/// Makes the thing on `to` what it is on `from`, or takes it away where `from` has none; `None` for what
/// cannot be taken over by itself.
pub(in crate::audit) fn carry(
    from: &Moment,
    to: &mut Moment,
    thing: DifferentThing,
    id: &Id,
) -> Option<()> {
    let source_trip = from.trip()?;
    let source_boat = &from.plan.boat;
    match thing {
        DifferentThing::Cylinder => {
            let target = &mut to.plan.trips.first_mut()?.cylinders;
            replace(&source_trip.cylinders, target, id, |it| &it.id);
        }
        DifferentThing::Lashing => {
            let target = &mut to.plan.trips.first_mut()?.lashings;
            replace(&source_trip.lashings, target, id, |it| &it.id);
        }
        DifferentThing::Gear => {
            let target = &mut to.plan.trips.first_mut()?.gear;
            replace(&source_trip.gear, target, id, |it| &it.id);
        }
        DifferentThing::Front => carry_front(source_boat, &mut to.plan.boat, id)?,
        DifferentThing::Deck => {
            let target = &mut to.plan.boat.decks;
            replace(&source_boat.decks, target, id, |it| &it.id);
        }
        DifferentThing::Fixture => {
            let target = &mut to.plan.boat.fixtures;
            replace(&source_boat.fixtures, target, id, |it| &it.id);
        }
        DifferentThing::LashingPoint => {
            let target = &mut to.plan.boat.lashing_points;
            replace(&source_boat.lashing_points, target, id, |it| &it.id);
        }
        DifferentThing::Place => {
            let target = &mut to.plan.boat.places;
            replace(&source_boat.places, target, id, |it| &it.id);
        }
        DifferentThing::WalkwayLine => {
            let target = &mut to.plan.boat.walkways;
            replace(&source_boat.walkways, target, id, |it| &it.id);
        }
        DifferentThing::Rack => {
            let fronts = to.plan.boat.rack(id).map(|rack| rack.fronts.clone());
            let target = &mut to.plan.boat.racks;
            replace(&source_boat.racks, target, id, |it| &it.id);
            let rack = target.iter_mut().find(|rack| rack.id == *id);
            if let (Some(rack), Some(fronts)) = (rack, fronts) {
                rack.fronts = fronts;
            }
        }
        DifferentThing::Boat => {
            let own = Boat {
                name: to.plan.boat.name.clone(),
                decks: std::mem::take(&mut to.plan.boat.decks),
                fixtures: std::mem::take(&mut to.plan.boat.fixtures),
                places: std::mem::take(&mut to.plan.boat.places),
                walkways: std::mem::take(&mut to.plan.boat.walkways),
                racks: std::mem::take(&mut to.plan.boat.racks),
                lashing_points: std::mem::take(&mut to.plan.boat.lashing_points),
                ..source_boat.clone()
            };
            to.plan.boat = own;
        }
        DifferentThing::Walkway => return None,
    }
    Some(())
}

/// Fronts are named within their rack: `RACK/FRONT`.
pub(super) fn front_name(rack: &str, front: &str) -> Id {
    format!("{rack}/{front}")
}

fn carry_front(from: &Boat, to: &mut Boat, id: &str) -> Option<()> {
    let rack = to.racks.iter_mut().find(|rack| {
        id.strip_prefix(rack.id.as_str())
            .is_some_and(|rest| rest.starts_with('/'))
    })?;
    let name = id.get(rack.id.len() + 1..)?.to_owned();
    let other = from.rack(&rack.id);
    let source = other.map_or(&[][..], |rack| rack.fronts.as_slice());
    replace(source, &mut rack.fronts, &name, |it| &it.id);
    Some(())
}

/// In its place if both have it, at the end if only the source has it, gone if only the target has it.
fn replace<T: Clone>(source: &[T], target: &mut Vec<T>, id: &str, name: fn(&T) -> &Id) {
    let wanted = source.iter().find(|it| name(it) == id);
    let place = target.iter().position(|it| name(it) == id);
    match (wanted, place) {
        (Some(wanted), Some(place)) => {
            if let Some(old) = target.get_mut(place) {
                old.clone_from(wanted);
            }
        }
        (Some(wanted), None) => target.push(wanted.clone()),
        (None, Some(place)) => {
            target.remove(place);
        }
        (None, None) => {}
    }
}
