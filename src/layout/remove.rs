//! Taking things away, with what cannot be without them, so that no name is left leading nowhere.

use super::apply::remove;
use super::{Briefing, Changes, EditError, Id, Placing, Plan, ThingKind, ThingRef, Trip};

impl Plan {
    pub(super) fn remove_thing(
        &mut self,
        trip: Option<&str>,
        what: &ThingRef,
    ) -> Result<(), EditError> {
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
                self.forget_fixture(id);
            }
            ThingKind::Place => {
                remove(&mut self.boat.places, *kind, id)?;
                self.forget_places();
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
                for trip in &mut self.trips {
                    take_down(trip, id);
                }
            }
            ThingKind::Cylinder => remove_cylinder(self.trip_of(trip, *kind)?, id)?,
            ThingKind::Lashing => remove_lashing(self.trip_of(trip, *kind)?, id)?,
            ThingKind::Gear => remove_gear(self.trip_of(trip, *kind)?, id)?,
            ThingKind::Person => remove_person(self.trip_of(trip, *kind)?, id)?,
            ThingKind::GearAboard => {
                remove(&mut self.trip_of(trip, *kind)?.gear_aboard, *kind, id)?;
            }
            ThingKind::Part => {
                let trip = self.trip_of(trip, *kind)?;
                if trip.parts.len() == 1 {
                    return Err(EditError::LastOne(*kind));
                }
                remove(&mut trip.parts, *kind, id)?;
                each_briefing(trip, |briefing| {
                    briefing.part.take_if(|part| part == id);
                });
            }
        }
        let mut locked = std::mem::take(&mut self.boat.locked);
        locked.retain(|id| self.boat.has_thing(id));
        self.boat.locked = locked;
        for trip in &mut self.trips {
            let mut locked = std::mem::take(&mut trip.locked);
            locked.retain(|id| trip.has_thing(id));
            trip.locked = locked;
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

    /// Cylinders no longer stand on a fixture that is gone, nor hang from it.
    fn forget_fixture(&mut self, id: &str) {
        let is_point = self.boat.lashing_point(id).is_some();
        for trip in &mut self.trips {
            each_placing(trip, |placing| match placing {
                Placing::Standing { on, .. } | Placing::Lying { on, .. }
                    if on.as_deref() == Some(id) =>
                {
                    *on = None;
                }
                _ => {}
            });
            if !is_point {
                take_down(trip, id);
            }
        }
    }

    /// Nothing is handed over at a place that is gone, nor set down there.
    fn forget_places(&mut self) {
        let places = &self.boat.places;
        let is_gone = |id: &mut Id| !places.iter().any(|place| place.id == *id);
        for trip in &mut self.trips {
            each_briefing(trip, |briefing| {
                briefing.hand_over.take_if(is_gone);
                briefing.set_down.take_if(is_gone);
            });
        }
    }

    /// Takes away what stood on a deck that is gone.
    fn clear_deck(&mut self, deck: &str) {
        let boat = &mut self.boat;
        let gone: Vec<Id> = boat
            .fixtures
            .iter()
            .filter(|item| item.deck == deck)
            .map(|item| item.id.clone())
            .collect();
        boat.fixtures.retain(|item| item.deck != deck);
        boat.places.retain(|item| item.deck != deck);
        let places = &boat.places;
        let is_there = |id: &str| places.iter().any(|place| place.id == id);
        boat.walkways
            .retain(|item| item.deck != deck && is_there(&item.from) && is_there(&item.to));
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
        self.forget_places();
        for id in gone {
            self.forget_fixture(&id);
        }
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
            let on_it = |of: &str| of == deck;
            let gear: Vec<Id> = trip
                .gear
                .iter()
                .filter(|item| on_it(&item.deck))
                .map(|item| item.id.clone())
                .collect();
            let people: Vec<Id> = trip
                .people
                .iter()
                .filter(|item| on_it(&item.deck))
                .map(|item| item.id.clone())
                .collect();
            for id in gear {
                remove_gear(trip, &id).ok();
            }
            for id in people {
                remove_person(trip, &id).ok();
            }
            each_changes(trip, |changes| {
                changes
                    .people
                    .retain(|change| !change.deck.as_deref().is_some_and(on_it));
            });
            each_placing(trip, |placing| {
                if placing.deck() == Some(deck) {
                    *placing = Placing::Ashore;
                }
            });
        }
    }
}

/// Changes what was settled for loading; one with nothing left in it goes.
fn each_briefing(trip: &mut Trip, change: impl FnOnce(&mut Briefing)) {
    if let Some(briefing) = &mut trip.briefing {
        change(briefing);
        if briefing.is_empty() {
            trip.briefing = None;
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

fn remove_cylinder(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.cylinders, ThingKind::Cylinder, id)?;
    each_briefing(trip, |briefing| {
        briefing.order.retain(|cylinder| cylinder != id);
        briefing.ticks.retain(|tick| tick.cylinder != id);
    });
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
        // Without one of the two there is no groove to rest in.
        if let Placing::Lying { upon, .. } = placing
            && upon.iter().any(|below| below == id)
        {
            upon.clear();
        }
    });
    Ok(())
}

fn remove_gear(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.gear, ThingKind::Gear, id)?;
    each_changes(trip, |changes| {
        changes.gear.retain(|change| change.gear != id);
    });
    Ok(())
}

fn remove_person(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.people, ThingKind::Person, id)?;
    each_changes(trip, |changes| {
        changes.people.retain(|change| change.person != id);
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
    Ok(())
}

/// What hung from a point or rail that is gone is no longer aboard.
fn take_down(trip: &mut Trip, id: &str) {
    each_placing(trip, |placing| {
        if matches!(placing, Placing::Hanging { from, .. } if from == id) {
            *placing = Placing::Ashore;
        }
    });
}

fn remove_lashing(trip: &mut Trip, id: &str) -> Result<(), EditError> {
    remove(&mut trip.lashings, ThingKind::Lashing, id)?;
    each_changes(trip, |changes| {
        changes.lashings.retain(|change| change.lashing != id);
    });
    Ok(())
}
