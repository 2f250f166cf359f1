//! How each [`Edit`] changes a plan.

use super::{
    Changes, CylinderChange, Edit, EditError, FrontChange, Id, LashingChange, Part, Placing, Plan,
    Thing, ThingKind, ThingRef, Trip,
};

/// Something that has a name in a list.
trait Named {
    fn id(&self) -> &str;
}

macro_rules! named {
    ($($type:ident),+) => {
        $(impl Named for super::$type {
            fn id(&self) -> &str {
                &self.id
            }
        })+
    };
}

named!(
    Deck,
    Fixture,
    Place,
    Walkway,
    Rack,
    LashingPoint,
    Cylinder,
    Lashing,
    Gear,
    Person,
    GearAboard,
    Part,
    Trip
);

/// Replaces the item of the same name where it stands, or adds it at the end.
fn put<T: Named>(list: &mut Vec<T>, item: T) {
    match list.iter_mut().find(|old| old.id() == item.id()) {
        Some(old) => *old = item,
        None => list.push(item),
    }
}

/// Takes the item of this name out.
fn remove<T: Named>(list: &mut Vec<T>, kind: ThingKind, id: &str) -> Result<(), EditError> {
    let index = list.iter().position(|item| item.id() == id);
    let index = index.ok_or_else(|| EditError::NoSuchThing {
        kind_of: kind,
        id: id.to_owned(),
    })?;
    list.remove(index);
    Ok(())
}

impl Thing {
    /// What it is and what it is called.
    pub fn to_ref(&self) -> ThingRef {
        let (kind, id) = match self {
            Self::Deck(thing) => (ThingKind::Deck, &thing.id),
            Self::Fixture(thing) => (ThingKind::Fixture, &thing.id),
            Self::Place(thing) => (ThingKind::Place, &thing.id),
            Self::Walkway(thing) => (ThingKind::Walkway, &thing.id),
            Self::Rack(thing) => (ThingKind::Rack, &thing.id),
            Self::LashingPoint(thing) => (ThingKind::LashingPoint, &thing.id),
            Self::Cylinder(thing) => (ThingKind::Cylinder, &thing.id),
            Self::Lashing(thing) => (ThingKind::Lashing, &thing.id),
            Self::Gear(thing) => (ThingKind::Gear, &thing.id),
            Self::Person(thing) => (ThingKind::Person, &thing.id),
            Self::GearAboard(thing) => (ThingKind::GearAboard, &thing.id),
            Self::Part(thing) => (ThingKind::Part, &thing.id),
        };
        ThingRef {
            kind,
            id: id.clone(),
        }
    }
}

impl ThingKind {
    /// Does it belong to a trip rather than to the boat?
    pub fn is_of_trip(self) -> bool {
        matches!(
            self,
            Self::Cylinder
                | Self::Lashing
                | Self::Gear
                | Self::Person
                | Self::GearAboard
                | Self::Part
        )
    }
}

impl Plan {
    /// Makes the change, or returns an error and changes nothing.
    pub fn apply(&mut self, edit: &Edit) -> Result<(), EditError> {
        match edit {
            Edit::Put { trip, thing } => self.put_thing(trip.as_deref(), Thing::clone(thing)),
            Edit::Remove { trip, what } => self.remove_thing(trip.as_deref(), what),
            Edit::Place {
                trip,
                part,
                cylinder,
                placing,
            } => {
                let trip = self.trip_mut(trip)?;
                place(trip, *part, cylinder, placing)
            }
            Edit::SetLashingShut {
                trip,
                part,
                lashing,
                shut,
            } => {
                let trip = self.trip_mut(trip)?;
                set_lashing_shut(trip, *part, lashing, *shut)
            }
            Edit::SetFrontShut {
                trip,
                part,
                rack,
                front,
                shut,
            } => {
                let known = self
                    .boat
                    .rack(rack)
                    .is_some_and(|rack| rack.fronts.iter().any(|item| item.id == *front));
                if !known {
                    return Err(EditError::NoSuchThing {
                        kind_of: ThingKind::Rack,
                        id: format!("{rack}, {front}"),
                    });
                }
                let changes = &mut part_mut(self.trip_mut(trip)?, *part)?.changes;
                changes
                    .fronts
                    .retain(|change| change.rack != *rack || change.front != *front);
                changes.fronts.push(FrontChange {
                    rack: rack.clone(),
                    front: front.clone(),
                    shut: *shut,
                });
                Ok(())
            }
            Edit::SetBoat(boat) => {
                self.boat = super::Boat::clone(boat);
                Ok(())
            }
            Edit::PutTrip(trip) => {
                put(&mut self.trips, Trip::clone(trip));
                Ok(())
            }
            Edit::RemoveTrip(id) => {
                let index = self.trips.iter().position(|trip| trip.id == *id);
                let index = index.ok_or_else(|| EditError::NoSuchTrip(id.clone()))?;
                self.trips.remove(index);
                Ok(())
            }
            Edit::TakeOn { trip, taken_on } => {
                let trip = self.trip_mut(trip)?;
                trip.taken_on.retain(|old| {
                    old.code != taken_on.code
                        || old.about != taken_on.about
                        || old.part != taken_on.part
                });
                trip.taken_on.push(taken_on.clone());
                Ok(())
            }
        }
    }

    fn trip_mut(&mut self, id: &str) -> Result<&mut Trip, EditError> {
        self.trips
            .iter_mut()
            .find(|trip| trip.id == id)
            .ok_or_else(|| EditError::NoSuchTrip(id.to_owned()))
    }

    fn trip_of(&mut self, id: Option<&str>, kind: ThingKind) -> Result<&mut Trip, EditError> {
        self.trip_mut(id.ok_or(EditError::TripNotNamed(kind))?)
    }

    fn put_thing(&mut self, trip: Option<&str>, thing: Thing) -> Result<(), EditError> {
        let kind = thing.to_ref().kind;
        match thing {
            Thing::Deck(thing) => put(&mut self.boat.decks, thing),
            Thing::Fixture(thing) => put(&mut self.boat.fixtures, thing),
            Thing::Place(thing) => put(&mut self.boat.places, thing),
            Thing::Walkway(thing) => put(&mut self.boat.walkways, thing),
            Thing::Rack(thing) => put(&mut self.boat.racks, thing),
            Thing::LashingPoint(thing) => put(&mut self.boat.lashing_points, thing),
            Thing::Cylinder(thing) => put(&mut self.trip_of(trip, kind)?.cylinders, thing),
            Thing::Lashing(thing) => put(&mut self.trip_of(trip, kind)?.lashings, thing),
            Thing::Gear(thing) => put(&mut self.trip_of(trip, kind)?.gear, thing),
            Thing::Person(thing) => put(&mut self.trip_of(trip, kind)?.people, thing),
            Thing::GearAboard(thing) => put(&mut self.trip_of(trip, kind)?.gear_aboard, thing),
            Thing::Part(thing) => put(&mut self.trip_of(trip, kind)?.parts, thing),
        }
        Ok(())
    }

    fn remove_thing(&mut self, trip: Option<&str>, what: &ThingRef) -> Result<(), EditError> {
        let ThingRef { kind, id } = what;
        match kind {
            ThingKind::Deck => {
                if self.boat.decks.len() == 1 {
                    return Err(EditError::LastOne(*kind));
                }
                remove(&mut self.boat.decks, *kind, id)?;
                self.clear_deck(id);
            }
            ThingKind::Fixture => {
                remove(&mut self.boat.fixtures, *kind, id)?;
                for trip in &mut self.trips {
                    each_placing(trip, |placing| match placing {
                        Placing::Standing { on, .. } | Placing::Lying { on, .. }
                            if on.as_ref() == Some(id) =>
                        {
                            *on = None;
                        }
                        _ => {}
                    });
                }
            }
            ThingKind::Place => {
                remove(&mut self.boat.places, *kind, id)?;
                self.boat
                    .walkways
                    .retain(|walkway| walkway.from != *id && walkway.to != *id);
            }
            ThingKind::Walkway => remove(&mut self.boat.walkways, *kind, id)?,
            ThingKind::Rack => self.remove_rack(id)?,
            ThingKind::LashingPoint => {
                remove(&mut self.boat.lashing_points, *kind, id)?;
                let gone: Vec<(Id, Id)> = self
                    .trips
                    .iter()
                    .flat_map(|trip| trip.lashings.iter().map(|item| (trip.id.clone(), item)))
                    .filter(|(_, lashing)| lashing.from == *id || lashing.to == *id)
                    .map(|(trip, lashing)| (trip, lashing.id.clone()))
                    .collect();
                for (trip, lashing) in gone {
                    remove_lashing(self.trip_mut(&trip)?, &lashing)?;
                }
            }
            ThingKind::Cylinder => remove_cylinder(self.trip_of(trip, *kind)?, id)?,
            ThingKind::Lashing => remove_lashing(self.trip_of(trip, *kind)?, id)?,
            ThingKind::Gear => {
                let trip = self.trip_of(trip, *kind)?;
                remove(&mut trip.gear, *kind, id)?;
                each_changes(trip, |changes| {
                    changes.gear.retain(|change| change.gear != *id);
                });
            }
            ThingKind::Person => {
                let trip = self.trip_of(trip, *kind)?;
                remove(&mut trip.people, *kind, id)?;
                each_changes(trip, |changes| {
                    changes.people.retain(|change| change.person != *id);
                });
                each_placing(trip, |placing| match placing {
                    Placing::HeldByHand { deck, at, by } if by == id => {
                        *placing = Placing::Standing {
                            deck: deck.clone(),
                            at: *at,
                            on: None,
                        };
                    }
                    Placing::OnDiver { by } if by == id => *placing = Placing::Ashore,
                    _ => {}
                });
            }
            ThingKind::GearAboard => {
                remove(&mut self.trip_of(trip, *kind)?.gear_aboard, *kind, id)?;
            }
            ThingKind::Part => {
                let trip = self.trip_of(trip, *kind)?;
                if trip.parts.len() == 1 {
                    return Err(EditError::LastOne(*kind));
                }
                remove(&mut trip.parts, *kind, id)?;
            }
        }
        Ok(())
    }

    fn remove_rack(&mut self, id: &str) -> Result<(), EditError> {
        let rack = self.boat.rack(id).cloned();
        remove(&mut self.boat.racks, ThingKind::Rack, id)?;
        let Some(rack) = rack else { return Ok(()) };
        for trip in &mut self.trips {
            each_changes(trip, |changes| {
                changes.fronts.retain(|change| change.rack != id);
            });
            each_placing(trip, |placing| match placing {
                Placing::InSlot { rack: of, slot } if of == id => {
                    let at = rack.slot(slot).map_or(rack.at, |slot| slot.at);
                    *placing = Placing::Standing {
                        deck: rack.deck.clone(),
                        at,
                        on: None,
                    };
                }
                Placing::InCrate {
                    rack: of,
                    at,
                    valve_towards_deg,
                } if of == id => {
                    *placing = Placing::Lying {
                        deck: rack.deck.clone(),
                        at: *at,
                        valve_towards_deg: *valve_towards_deg,
                        on: None,
                        on_kit: false,
                        chocks: None,
                        upon: Vec::new(),
                    };
                }
                _ => {}
            });
        }
        Ok(())
    }

    /// Takes away what stood on a deck that is gone.
    fn clear_deck(&mut self, deck: &str) {
        let boat = &mut self.boat;
        boat.fixtures.retain(|item| item.deck != deck);
        boat.places.retain(|item| item.deck != deck);
        boat.walkways.retain(|item| item.deck != deck);
        let racks: Vec<Id> = boat
            .racks
            .iter()
            .filter(|item| item.deck == deck)
            .map(|item| item.id.clone())
            .collect();
        let points: Vec<Id> = boat
            .lashing_points
            .iter()
            .filter(|item| item.deck == deck)
            .map(|item| item.id.clone())
            .collect();
        for id in racks {
            self.remove_rack(&id).ok();
        }
        for id in points {
            self.remove_thing(
                None,
                &ThingRef {
                    kind: ThingKind::LashingPoint,
                    id,
                },
            )
            .ok();
        }
        for trip in &mut self.trips {
            trip.gear.retain(|item| item.deck != deck);
            trip.people.retain(|item| item.deck != deck);
            each_placing(trip, |placing| {
                if placing.deck() == Some(deck) {
                    *placing = Placing::Ashore;
                }
            });
        }
    }
}

fn each_changes(trip: &mut Trip, mut change: impl FnMut(&mut Changes)) {
    for part in &mut trip.parts {
        change(&mut part.changes);
    }
}

fn each_placing(trip: &mut Trip, mut change: impl FnMut(&mut Placing)) {
    for cylinder in &mut trip.cylinders {
        change(&mut cylinder.placing);
    }
    for part in &mut trip.parts {
        for placing in part
            .changes
            .cylinders
            .iter_mut()
            .filter_map(|item| item.placing.as_mut())
        {
            change(placing);
        }
    }
}

fn part_mut(trip: &mut Trip, part: usize) -> Result<&mut Part, EditError> {
    trip.parts.get_mut(part).ok_or(EditError::NoSuchPart(part))
}

fn remove_cylinder(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.cylinders, ThingKind::Cylinder, id)?;
    each_changes(trip, |changes| {
        changes.cylinders.retain(|change| change.cylinder != id);
        for change in &mut changes.lashings {
            if let Some(round) = &mut change.round {
                round.retain(|cylinder| cylinder != id);
            }
        }
        changes
            .lashings
            .retain(|change| change.round.as_ref().is_none_or(|round| !round.is_empty()));
    });
    for lashing in &mut trip.lashings {
        lashing.round.retain(|cylinder| cylinder != id);
    }
    let empty: Vec<Id> = trip
        .lashings
        .iter()
        .filter(|lashing| lashing.round.is_empty())
        .map(|lashing| lashing.id.clone())
        .collect();
    for lashing in empty {
        remove_lashing(trip, &lashing)?;
    }
    each_placing(trip, |placing| {
        if let Placing::Lying { upon, .. } = placing {
            upon.retain(|below| below != id);
        }
    });
    Ok(())
}

fn remove_lashing(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.lashings, ThingKind::Lashing, id)?;
    each_changes(trip, |changes| {
        changes.lashings.retain(|change| change.lashing != id);
    });
    Ok(())
}

fn place(trip: &mut Trip, part: usize, id: &str, placing: &Placing) -> Result<(), EditError> {
    let found = trip.cylinders.iter_mut().find(|cylinder| cylinder.id == id);
    let cylinder = found.ok_or_else(|| EditError::NoSuchThing {
        kind_of: ThingKind::Cylinder,
        id: id.to_owned(),
    })?;
    if part >= trip.parts.len() {
        return Err(EditError::NoSuchPart(part));
    }
    let changes = &mut trip.parts[part].changes.cylinders;
    let change = changes.iter_mut().find(|change| change.cylinder == id);
    match change {
        Some(change) if part > 0 || change.placing.is_some() => {
            change.placing = Some(placing.clone());
        }
        _ if part == 0 => cylinder.placing = placing.clone(),
        _ => changes.push(CylinderChange {
            cylinder: id.to_owned(),
            placing: Some(placing.clone()),
            kit: None,
            kit_faces_deg: None,
            fill: None,
            pressure_bar: None,
        }),
    }
    Ok(())
}

fn set_lashing_shut(trip: &mut Trip, part: usize, id: &str, shut: bool) -> Result<(), EditError> {
    let found = trip.lashings.iter_mut().find(|lashing| lashing.id == id);
    let lashing = found.ok_or_else(|| EditError::NoSuchThing {
        kind_of: ThingKind::Lashing,
        id: id.to_owned(),
    })?;
    let part_count = trip.parts.len();
    if part >= part_count {
        return Err(EditError::NoSuchPart(part));
    }
    let changes = &mut trip.parts[part].changes.lashings;
    match changes.iter_mut().find(|change| change.lashing == id) {
        Some(change) if part > 0 || change.shut.is_some() => change.shut = Some(shut),
        _ if part == 0 => lashing.shut = shut,
        _ => changes.push(LashingChange {
            lashing: id.to_owned(),
            shut: Some(shut),
            round: None,
            slack_m: None,
        }),
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, DayState};

    fn standing(x: f64) -> Placing {
        Placing::Standing {
            deck: "main".into(),
            at: [x, 0.0],
            on: None,
        }
    }

    fn plan() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let trip = &mut plan.trips[0];
        trip.cylinders
            .push(Cylinder::new("P1", "al-80cf", standing(1.0)));
        let mut second = trip.parts[0].clone();
        second.id = "back".into();
        trip.parts.push(second);
        plan
    }

    #[test]
    fn placing_in_a_later_part_leaves_the_earlier_ones() {
        let mut plan = plan();
        let edit = Edit::Place {
            trip: "trip-1".into(),
            part: 1,
            cylinder: "P1".into(),
            placing: standing(2.0),
        };
        plan.apply(&edit).unwrap();
        let days = DayState::of_trip(&plan, &plan.trips[0]);
        assert_eq!(days[0].cylinder("P1").unwrap().placing, standing(1.0));
        assert_eq!(days[1].cylinder("P1").unwrap().placing, standing(2.0));
        assert!(days[1].cylinders[0].moved, "the change list names it");
    }

    #[test]
    fn an_unknown_name_changes_nothing() {
        let mut plan = plan();
        let before = plan.clone();
        let what = ThingRef {
            kind: ThingKind::Cylinder,
            id: "P9".into(),
        };
        let err = plan
            .apply(&Edit::Remove {
                trip: Some("trip-1".into()),
                what,
            })
            .unwrap_err();
        assert_eq!(err.to_string(), "there is no cylinder called \"P9\"");
        assert_eq!(plan, before);
    }

    #[test]
    fn a_cylinder_takes_its_changes_with_it() {
        let mut plan = plan();
        let edit = Edit::Place {
            trip: "trip-1".into(),
            part: 1,
            cylinder: "P1".into(),
            placing: Placing::Ashore,
        };
        plan.apply(&edit).unwrap();
        let what = ThingRef {
            kind: ThingKind::Cylinder,
            id: "P1".into(),
        };
        plan.apply(&Edit::Remove {
            trip: Some("trip-1".into()),
            what,
        })
        .unwrap();
        assert!(plan.trips[0].cylinders.is_empty());
        assert!(plan.trips[0].parts[1].changes.is_empty());
    }
}
