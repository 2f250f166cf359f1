use std::cmp::Ordering;
use std::collections::BTreeMap;

use super::{
    Cylinder, Fill, Front, Gear, Kit, Lashing, Part, Person, Placing, Plan, Posture, Rack, Trip,
};

/// A cylinder as it is in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct CylinderState {
    /// The cylinder with the part's own placing, kit and fill.
    pub cylinder: Cylinder,

    /// Did it move at the start of this part?
    pub moved: bool,
}

/// A lashing as it is in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct LashingState {
    /// The lashing with the part's own state.
    pub lashing: Lashing,
}

/// A rack's front as it is in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct FrontState {
    /// The rack.
    pub rack: String,

    /// The front with the part's own state.
    pub front: Front,
}

/// Loose gear as it is in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct GearState {
    /// The gear with the part's own floor.
    pub gear: Gear,
}

/// Somebody as they are in one part of the day.
#[derive(Clone, Debug, PartialEq)]
pub struct PersonState {
    /// The person with the part's own place and posture.
    pub person: Person,
}

/// Everything that can change during a trip, as it is in one part of the day. Lists keep the order of
/// the trip.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DayState {
    /// The cylinders.
    pub cylinders: Vec<CylinderState>,

    /// The lashings.
    pub lashings: Vec<LashingState>,

    /// The fronts of all racks.
    pub fronts: Vec<FrontState>,

    /// Loose gear.
    pub gear: Vec<GearState>,

    /// The people.
    pub people: Vec<PersonState>,
}

impl DayState {
    /// How things are at the start of the day, before the first part's changes.
    pub fn at_start(racks: &[Rack], trip: &Trip) -> Self {
        Self {
            cylinders: trip
                .cylinders
                .iter()
                .map(|cylinder| CylinderState {
                    cylinder: cylinder.clone(),
                    moved: false,
                })
                .collect(),
            lashings: trip
                .lashings
                .iter()
                .map(|lashing| LashingState {
                    lashing: lashing.clone(),
                })
                .collect(),
            fronts: racks
                .iter()
                .flat_map(|rack| {
                    rack.fronts.iter().map(|front| FrontState {
                        rack: rack.id.clone(),
                        front: front.clone(),
                    })
                })
                .collect(),
            gear: trip
                .gear
                .iter()
                .map(|gear| GearState { gear: gear.clone() })
                .collect(),
            people: trip
                .people
                .iter()
                .map(|person| PersonState {
                    person: person.clone(),
                })
                .collect(),
        }
    }

    /// How things are in each part of the day, in order.
    pub fn of_trip(plan: &Plan, trip: &Trip) -> Vec<Self> {
        let mut days: Vec<Self> = Vec::with_capacity(trip.parts.len());
        for part in &trip.parts {
            let before = days.last().cloned();
            let mut state = before.unwrap_or_else(|| Self::at_start(&plan.boat.racks, trip));
            state.enter(part);
            days.push(state);
        }
        days
    }

    /// Makes the changes with which a part begins. Changes of unknown things are passed over here;
    /// reading a file refuses them.
    pub fn enter(&mut self, part: &Part) {
        for state in &mut self.cylinders {
            state.moved = false;
        }
        let mut carried: Vec<&str> = Vec::new();
        for change in &part.changes.cylinders {
            let found = self
                .cylinders
                .iter_mut()
                .find(|state| state.cylinder.id == change.cylinder);
            let Some(CylinderState { cylinder, moved }) = found else {
                continue;
            };
            if let Some(placing) = &change.placing {
                *moved = *placing != cylinder.placing;
                if *moved && cylinder.placing.can_be_lashed() && placing.can_be_lashed() {
                    carried.push(&change.cylinder);
                }
                cylinder.placing = placing.clone();
            }
            if let Some(kit) = change.kit {
                cylinder.kit = kit;
            }
            if change.kit_faces_deg.is_some() {
                cylinder.kit_faces_deg = change.kit_faces_deg;
            }
            if let Some(fill) = change.fill {
                cylinder.fill = fill;
                cylinder.pressure_bar = None;
            }
            if change.pressure_bar.is_some() {
                cylinder.pressure_bar = change.pressure_bar;
            }
        }
        // A lashing does not follow: who is carried elsewhere has it taken off, until it is made fast anew.
        for LashingState { lashing } in &mut self.lashings {
            if lashing
                .round
                .iter()
                .any(|id| carried.contains(&id.as_str()))
            {
                lashing.shut = false;
            }
        }
        for change in &part.changes.lashings {
            let found = self
                .lashings
                .iter_mut()
                .find(|state| state.lashing.id == change.lashing);
            let Some(LashingState { lashing }) = found else {
                continue;
            };
            if let Some(shut) = change.shut {
                lashing.shut = shut;
            }
            if let Some(round) = &change.round {
                lashing.round.clone_from(round);
            }
            if change.slack_m.is_some() {
                lashing.slack_m = change.slack_m;
                lashing.pretension_kn = None;
            }
        }
        for change in &part.changes.fronts {
            for state in &mut self.fronts {
                if state.rack == change.rack && state.front.id == change.front {
                    state.front.shut = change.shut;
                }
            }
        }
        for change in &part.changes.gear {
            for GearState { gear } in &mut self.gear {
                if gear.id == change.gear {
                    if let Some(floor) = &change.floor {
                        gear.floor = floor.clone();
                    }
                    if let Some(stowed) = change.stowed {
                        gear.stowed = stowed;
                    }
                }
            }
        }
        for change in &part.changes.people {
            for PersonState { person } in &mut self.people {
                if person.id == change.person {
                    if let Some(deck) = &change.deck {
                        person.deck.clone_from(deck);
                    }
                    if let Some(at) = change.at {
                        person.at = at;
                    }
                    if let Some(posture) = change.posture {
                        person.posture = posture;
                    }
                    if let Some(fins) = change.fins {
                        person.fins = fins;
                    }
                }
            }
        }
    }

    /// The cylinder with this id. Lists are mostly in the order of their names, so it is looked for there
    /// first.
    pub fn cylinder(&self, id: &str) -> Option<&Cylinder> {
        let by_name = |state: &CylinderState| state.cylinder.id.as_str().cmp(id);
        let found = match self.cylinders.binary_search_by(by_name) {
            Ok(number) => self.cylinders.get(number),
            Err(_) => self.cylinders.iter().find(|state| state.cylinder.id == id),
        };
        found.map(|state| &state.cylinder)
    }

    /// The person with this id.
    pub fn person(&self, id: &str) -> Option<&Person> {
        self.people
            .iter()
            .map(|state| &state.person)
            .find(|person| person.id == id)
    }

    /// The front that serves this slot of this rack, in its present state; of several the one that is shut
    /// before those that are open, then the highest, then the first by name.
    pub fn front_of(&self, rack: &str, slot: &str) -> Option<&Front> {
        self.fronts_of(rack)
            .iter()
            .map(|state| &state.front)
            .filter(|front| front.slots.iter().any(|name| name == slot))
            .min_by(|a, b| before(a, b))
    }

    /// The same of every slot, for who asks for many: by rack, then by slot.
    pub fn fronts_by_slot(&self) -> BTreeMap<&str, BTreeMap<&str, &Front>> {
        let mut racks: BTreeMap<&str, BTreeMap<&str, &Front>> = BTreeMap::new();
        for state in self.fronts.chunk_by(|a, b| a.rack == b.rack) {
            let Some(rack) = state.first().map(|state| state.rack.as_str()) else {
                continue;
            };
            let slots = racks.entry(rack).or_default();
            for front in state.iter().map(|state| &state.front) {
                for slot in &front.slots {
                    let best = slots.entry(slot).or_insert(front);
                    if before(front, best).is_lt() {
                        *best = front;
                    }
                }
            }
        }
        racks
    }
}

/// Which of two fronts of one slot counts.
fn before(a: &Front, b: &Front) -> Ordering {
    let order = b.shut.cmp(&a.shut);
    order
        .then_with(|| b.height_m.total_cmp(&a.height_m))
        .then_with(|| a.id.cmp(&b.id))
}

impl DayState {
    /// The fronts of a rack: they stand together, and racks are mostly in the order of their names.
    fn fronts_of(&self, rack: &str) -> &[FrontState] {
        let found = (self.fronts)
            .binary_search_by(|state| state.rack.as_str().cmp(rack))
            .ok()
            .or_else(|| self.fronts.iter().position(|state| state.rack == rack));
        let Some(found) = found else { return &[] };
        let is_of_rack = |state: &&FrontState| state.rack == rack;
        let before = (self.fronts[..found].iter().rev())
            .take_while(is_of_rack)
            .count();
        let after = self.fronts[found..].iter().take_while(is_of_rack).count();
        &self.fronts[found - before..found + after]
    }
}

impl Cylinder {
    /// The pressure that counts, in bar, for a cylinder of this working pressure: as read, else by how
    /// full it is.
    pub fn counted_pressure_bar(&self, working_pressure_bar: f64) -> f64 {
        self.pressure_bar.unwrap_or(match self.fill {
            Fill::Full => working_pressure_bar,
            Fill::PartUsed => 0.5 * working_pressure_bar,
            Fill::Empty => 0.0,
        })
    }

    /// Is the kit fitted?
    pub fn has_kit(&self) -> bool {
        self.kit == Kit::On
    }

    /// Does it stand upright with nothing but its foot to hold it (other than a lashing)?
    pub fn stands_by_itself(&self) -> bool {
        matches!(
            self.placing,
            Placing::Standing { .. } | Placing::Filling { .. } | Placing::UpsideDown { .. }
        )
    }
}

impl Person {
    /// Are they on deck, where something can fall on them?
    pub fn is_on_deck(&self) -> bool {
        !matches!(
            self.posture,
            Posture::InWater | Posture::Below | Posture::Ashore
        )
    }
}
