//! How each [`Edit`] changes a plan.

use super::validate;
use super::{
    CylinderChange, Edit, EditError, FrontChange, LashingChange, Mistake, Part, Placing, Plan,
    Thing, ThingKind, ThingRef, Trip,
};

/// Something that has a name in a list.
pub(super) trait Named {
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
pub(super) fn remove<T: Named>(
    list: &mut Vec<T>,
    kind: ThingKind,
    id: &str,
) -> Result<(), EditError> {
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
    /// Makes the change, or returns an error and changes nothing. See [`Plan::with`].
    pub fn apply(&mut self, edit: &Edit) -> Result<(), EditError> {
        *self = self.with(std::slice::from_ref(edit))?;
        Ok(())
    }

    /// The plan with these changes, made one after the other.
    ///
    /// Refused if a name leads nowhere, or if they come to a plan that cannot be saved: two cylinders in one
    /// slot, a cylinder far off its deck, a number out of its range. On the way it may be so: two cylinders
    /// change places by two edits. What was wrong before does not count.
    pub fn with(&self, edits: &[Edit]) -> Result<Self, EditError> {
        let numbers = edits.iter().flat_map(validate::numbers::check);
        if let Some(mistake) = numbers.into_iter().next() {
            return Err(EditError::Unsound(Box::new(mistake)));
        }
        let mut after = self.clone();
        for edit in edits {
            after.make(edit)?;
        }
        let mistakes = validate::validate(&after);
        if mistakes.is_empty() {
            return Ok(after);
        }
        let before = validate::validate(self);
        let old = |new: &Mistake| before.iter().any(|old| old.message == new.message);
        match mistakes.into_iter().find(|new| !old(new)) {
            Some(mistake) => Err(EditError::Unsound(Box::new(mistake))),
            None => Ok(after),
        }
    }

    fn make(&mut self, edit: &Edit) -> Result<(), EditError> {
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
            Edit::SetBriefing { trip, briefing } => {
                let trip = self.trip_mut(trip)?;
                trip.briefing = (!briefing.is_empty()).then(|| super::Briefing::clone(briefing));
                Ok(())
            }
        }
    }

    pub(super) fn trip_mut(&mut self, id: &str) -> Result<&mut Trip, EditError> {
        self.trips
            .iter_mut()
            .find(|trip| trip.id == id)
            .ok_or_else(|| EditError::NoSuchTrip(id.to_owned()))
    }

    pub(super) fn trip_of(
        &mut self,
        id: Option<&str>,
        kind: ThingKind,
    ) -> Result<&mut Trip, EditError> {
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
}

fn part_mut(trip: &mut Trip, part: usize) -> Result<&mut Part, EditError> {
    trip.parts.get_mut(part).ok_or(EditError::NoSuchPart(part))
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

    fn rack() -> crate::layout::Rack {
        serde_json::from_value(serde_json::json!({
            "id": "R1", "deck": "main", "kind": "sockets", "at": [3.0, 0.0], "columns": 2, "pitch_m": 0.25,
            "slot_names": ["A1", "A2"], "edge_height_m": 0.4, "mass_kg": 10.0,
            "fixings": { "kind": "unfixed" },
        }))
        .unwrap()
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
    fn two_cylinders_change_places_but_never_share_one() {
        let mut plan = plan();
        plan.boat.racks = vec![rack()];
        let in_slot = |slot: &str| Placing::InSlot {
            rack: "R1".into(),
            slot: slot.into(),
        };
        plan.trips[0].cylinders = vec![
            Cylinder::new("P1", "al-80cf", in_slot("A1")),
            Cylinder::new("P2", "al-80cf", in_slot("A2")),
        ];
        let place = |cylinder: &str, slot: &str| Edit::Place {
            trip: "trip-1".into(),
            part: 0,
            cylinder: cylinder.into(),
            placing: in_slot(slot),
        };
        let before = plan.clone();
        let refused = plan.apply(&place("P1", "A2")).unwrap_err();
        assert!(matches!(refused, EditError::Unsound(_)), "{refused}");
        assert!(refused.to_string().contains("A2"), "{refused}");
        assert_eq!(plan, before);
        let swapped = plan.with(&[place("P1", "A2"), place("P2", "A1")]).unwrap();
        assert_eq!(swapped.trips[0].cylinders[0].placing, in_slot("A2"));
        // Nor in a later part, while the other one is still there.
        let later = Edit::Place {
            trip: "trip-1".into(),
            part: 1,
            cylinder: "P1".into(),
            placing: in_slot("A2"),
        };
        assert!(plan.apply(&later).is_err());
    }

    #[test]
    fn numbers_that_cannot_be_saved_are_refused() {
        let mut plan = plan();
        let before = plan.clone();
        for x in [f64::NAN, f64::INFINITY, 1e9] {
            let edit = Edit::Place {
                trip: "trip-1".into(),
                part: 0,
                cylinder: "P1".into(),
                placing: standing(x),
            };
            let refused = plan.apply(&edit).unwrap_err();
            assert!(refused.to_string().contains("(at)"), "{refused}");
        }
        assert_eq!(plan, before);
    }

    #[test]
    fn what_was_wrong_before_does_not_hinder() {
        let mut plan = plan();
        plan.trips[0]
            .cylinders
            .push(Cylinder::new("P2", "al-80cf", standing(90.0)));
        let edit = Edit::Place {
            trip: "trip-1".into(),
            part: 0,
            cylinder: "P1".into(),
            placing: standing(2.0),
        };
        plan.apply(&edit).unwrap();
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
