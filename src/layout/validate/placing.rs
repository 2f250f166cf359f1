//! Where a cylinder is: what its placing refers to.

use std::collections::BTreeMap;

use super::floor::{Decks, FAR_OFF_M};
use super::names::Names;
use super::rack::check_slot;
use super::{Field, Report};
use crate::geometry::vec2;
use crate::layout::{Boat, Placing, Point, Rack, RackKind, Trip};

/// Everything of the boat that things of a trip may refer to.
pub(super) struct BoatNames<'p> {
    pub(super) decks: Decks<'p>,
    pub(super) racks: BTreeMap<&'p str, &'p Rack>,
    rack_names: Names<'p>,
    fixtures: Names<'p>,
    pub(super) lashing_points: Names<'p>,
    pub(super) places: Names<'p>,
}

/// Everything that things of a trip may refer to.
pub(super) struct References<'b, 'p> {
    pub(super) boat: &'b BoatNames<'p>,
    pub(super) cylinders: Names<'p>,
    pub(super) people: Names<'p>,
}

impl<'p> BoatNames<'p> {
    pub(super) fn of(boat: &'p Boat) -> Self {
        macro_rules! names {
            ($owner:ident.$list:ident, $what:literal) => {
                Names::new($what, $owner.$list.iter().map(|thing| thing.id.as_str()))
            };
        }
        let racks = boat.racks.iter().rev();
        Self {
            decks: Decks::of(boat),
            // Of two racks with the same name the first stands.
            racks: racks.map(|rack| (rack.id.as_str(), rack)).collect(),
            rack_names: names!(boat.racks, "rack"),
            fixtures: names!(boat.fixtures, "fixture"),
            lashing_points: names!(boat.lashing_points, "lashing point"),
            places: names!(boat.places, "place"),
        }
    }
}

impl<'b, 'p> References<'b, 'p> {
    pub(super) fn of(boat: &'b BoatNames<'p>, trip: &'p Trip) -> Self {
        Self {
            boat,
            cylinders: Names::new("cylinder", trip.cylinders.iter().map(|c| c.id.as_str())),
            people: Names::new("person", trip.people.iter().map(|p| p.id.as_str())),
        }
    }

    /// Checks a placing of a cylinder; `place` is the placing's own field.
    pub(super) fn check(
        &self,
        cylinder: &str,
        placing: &Placing,
        place: Field<'_>,
        report: &mut Report,
    ) {
        let on_deck = |deck: &str, at: Point, report: &mut Report| {
            self.boat.decks.check(deck, &[at], place, "at", report);
        };
        let on_fixture = |on: &Option<String>, report: &mut Report| {
            if let Some(fixture) = on {
                self.boat
                    .fixtures
                    .check(fixture, format_args!("{place}.on"), report);
            }
        };
        match placing {
            Placing::Standing { deck, at, on } => {
                on_deck(deck, *at, report);
                on_fixture(on, report);
            }
            Placing::InSlot { rack, slot } => self.check_in_slot(rack, slot, place, report),
            Placing::Lying {
                deck, at, on, upon, ..
            } => {
                on_deck(deck, *at, report);
                on_fixture(on, report);
                self.check_upon(cylinder, upon, place, report);
            }
            Placing::InCrate { rack, at, .. } => self.check_in_crate(rack, *at, place, report),
            Placing::UpsideDown { deck, at, .. } | Placing::Filling { deck, at } => {
                on_deck(deck, *at, report);
            }
            Placing::Hanging { from, .. } => {
                // A rail is a fixture; it may have no lashing point of its own.
                if !self.boat.fixtures.contains(from) {
                    self.boat
                        .lashing_points
                        .check(from, format_args!("{place}.from"), report);
                }
            }
            Placing::HeldByHand { deck, at, by } => {
                on_deck(deck, *at, report);
                self.people.check(by, format_args!("{place}.by"), report);
            }
            Placing::OnDiver { by } => {
                self.people.check(by, format_args!("{place}.by"), report);
            }
            Placing::InWater | Placing::Ashore => {}
        }
    }

    fn check_in_slot(&self, rack: &str, slot: &str, place: Field<'_>, report: &mut Report) {
        let Some(found) = self.rack(rack, place, report) else {
            return;
        };
        if is_loose(found) {
            report.add(
                format_args!("{place}.rack"),
                format!("the rack {rack:?} has no slots: cylinders lie loose in it"),
                "write \"how\": \"in_crate\" with \"at\" and \"valve_towards_deg\"",
            );
        } else {
            check_slot(found, slot, format_args!("{place}.slot"), report);
        }
    }

    fn check_in_crate(&self, rack: &str, at: Point, place: Field<'_>, report: &mut Report) {
        let Some(found) = self.rack(rack, place, report) else {
            return;
        };
        if !is_loose(found) {
            report.add(
                format_args!("{place}.rack"),
                format!("the rack {rack:?} is neither a crate nor a net"),
                "write \"how\": \"in_slot\" with the slot's name",
            );
            return;
        }
        let [length, width] = found.outer_size();
        let within = 0.5 * vec2(length, width).length() + FAR_OFF_M;
        let off = vec2(at[0], at[1]).distance(vec2(found.at[0], found.at[1]));
        if off.is_finite() && off > within {
            report.add(
                format_args!("{place}.at"),
                format!("this is {off:.1} m from the middle of the rack {rack:?}"),
                "give the cylinder's middle on the deck plan, in metres, inside the rack",
            );
        }
    }

    fn rack(&self, rack: &str, place: Field<'_>, report: &mut Report) -> Option<&'p Rack> {
        self.boat
            .rack_names
            .check(rack, format_args!("{place}.rack"), report);
        self.boat.racks.get(rack).copied()
    }

    fn check_upon(&self, cylinder: &str, upon: &[String], place: Field<'_>, report: &mut Report) {
        for (i, lower) in upon.iter().enumerate() {
            let field = format_args!("{place}.upon[{i}]");
            if lower == cylinder {
                report.add(
                    field,
                    "the cylinder lies upon itself",
                    "name the two cylinders in whose groove it rests",
                );
            } else if upon.iter().take(i).any(|earlier| earlier == lower) {
                report.add(
                    field,
                    format!("{lower:?} stands here twice"),
                    "name the two cylinders in whose groove it rests",
                );
            } else {
                self.cylinders.check(lower, field, report);
            }
        }
        if !upon.is_empty() && upon.len() != 2 {
            report.add(
                format_args!("{place}.upon"),
                format!("a cylinder rests upon two others, here are {}", upon.len()),
                "name the two cylinders in whose groove it rests",
            );
        }
    }
}

/// Do cylinders lie in it without slots?
fn is_loose(rack: &Rack) -> bool {
    matches!(rack.kind, RackKind::Crate | RackKind::Net)
}
