//! Where the cylinders are: slots by the names painted on them.

use std::collections::BTreeMap;

use super::{ListReader, plain_heading};
use crate::layout::nearest::{either, nearest};
use crate::layout::{Boat, Placing};

/// Slots by the names painted on them.
pub(super) struct Slots<'a>(BTreeMap<String, Vec<&'a str>>);

impl<'a> Slots<'a> {
    pub(super) fn of(boat: &'a Boat) -> Self {
        let mut slots: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for rack in &boat.racks {
            for slot in rack.slots() {
                slots.entry(slot.name).or_default().push(&rack.id);
            }
        }
        Self(slots)
    }

    fn racks_with(&self, slot: &str) -> &[&'a str] {
        self.0.get(slot).map_or(&[], Vec::as_slice)
    }

    fn help(&self, slot: &str) -> String {
        nearest(slot, self.0.keys().map(String::as_str)).map_or_else(
            || "write a name that is painted on a slot, \"ashore\" or \"in water\"".to_owned(),
            |meant| format!("did you mean {meant:?}?"),
        )
    }
}

impl ListReader<'_> {
    pub(super) fn placing(
        &mut self,
        slot: Option<(usize, String)>,
        rack: Option<(usize, String)>,
    ) -> Placing {
        let Some((at, slot)) = slot else {
            if let Some((at, rack)) = rack {
                self.fault(
                    at,
                    "rack",
                    format!("the rack {rack:?} is named, but no slot of it"),
                    "name the slot too",
                );
            }
            return Placing::Ashore;
        };
        match plain_heading(&slot).as_str() {
            "ashore" => return Placing::Ashore,
            "in_water" | "in_the_water" => return Placing::InWater,
            _ => {}
        }
        let found = match rack {
            Some((rack_at, rack)) => self.slot_of(&rack, rack_at, &slot, at),
            None => self.slot_of_any(&slot, at),
        };
        let Some(rack) = found else {
            return Placing::Ashore;
        };
        let line = self.cylinders.len();
        if let Some(earlier) = self.taken.insert((rack.clone(), slot.clone()), line) {
            let other = self.cylinders.get(earlier).map_or("", |other| &other.id);
            let message = format!("the slot {slot:?} of {rack:?} is taken already, by {other:?}");
            self.fault(at, "slot", message, "give the cylinder another slot");
        }
        Placing::InSlot { rack, slot }
    }

    fn slot_of(
        &mut self,
        rack: &str,
        rack_at: usize,
        slot: &str,
        slot_at: usize,
    ) -> Option<String> {
        if self.boat.rack(rack).is_none() {
            let names = self.boat.racks.iter().map(|rack| rack.id.as_str());
            let help = nearest(rack, names).map_or_else(
                || "take one of the boat's racks".to_owned(),
                |meant| format!("did you mean {meant:?}?"),
            );
            let message = format!("there is no rack called {rack:?}");
            self.fault(rack_at, "rack", message, help);
            return None;
        }
        if !self.slots.racks_with(slot).contains(&rack) {
            let message = format!("the rack {rack:?} has no slot {slot:?}");
            let help = self.slots.help(slot);
            self.fault(slot_at, "slot", message, help);
            return None;
        }
        Some(rack.to_owned())
    }

    fn slot_of_any(&mut self, slot: &str, at: usize) -> Option<String> {
        match self.slots.racks_with(slot) {
            [rack] => Some((*rack).to_owned()),
            [] => {
                let help = self.slots.help(slot);
                self.fault(at, "slot", format!("no rack has a slot {slot:?}"), help);
                None
            }
            racks => {
                let message = format!(
                    "more than one rack has a slot {slot:?}: {}",
                    either(racks.iter().copied())
                );
                self.fault(at, "slot", message, "name the rack in a column \"rack\"");
                None
            }
        }
    }
}
