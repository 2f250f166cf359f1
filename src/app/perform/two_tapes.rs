//! What was measured by two tapes is put onto the deck shown.

use super::super::by_two_tapes::{Fixed, Measured, TwoTapes};
use super::super::here::at;
use super::super::moving::put;
use super::super::naming;
use super::super::selection::Selection;
use super::super::stores::StoreItem;
use super::super::things::reference;
use super::super::words::by_two_tapes as tape_words;
use super::super::{Editor, words};
use crate::layout::{Edit, Point, Thing, ThingKind};
use crate::units::{self, Quantity};

/// A step: what it is called, its edits, and what is selected afterwards.
type Step = (String, Vec<Edit>, Option<Selection>);

impl Editor {
    /// Puts what was measured by two tapes onto the deck shown, as one step.
    pub(super) fn build_by_tapes(&mut self, typed: &TwoTapes) {
        let deck = self.history.plan().boat.deck(&self.deck);
        let Some(found) = deck.map(|deck| typed.worked(&deck.outline, self.settings.units)) else {
            return;
        };
        if !found.is_enough(&typed.what) {
            return;
        }
        let step = match &typed.what {
            Measured::BuiltOn => self.built_on(typed, found),
            Measured::Each(item) => self.one_at_each(typed, item, &found.spots()),
            Measured::Selected => Ok(self.selected_to(&found.spots())),
        };
        match step {
            Ok(Some((label, edits, select))) => {
                self.dialog = None;
                self.step(label, &edits, select);
            }
            Ok(None) => {}
            Err(why) => self.notice = Some(why),
        }
    }

    fn built_on(&self, typed: &TwoTapes, found: Fixed) -> Result<Option<Step>, String> {
        let (Some(trip), Some(outline)) = (self.trip(), found.outline) else {
            return Ok(None);
        };
        let id = naming::free(self.history.plan(), trip, ThingKind::Fixture);
        let system = self.settings.units;
        let fixture = typed.fixture(id.clone(), &self.deck, outline, system)?;
        let edit = Edit::Put {
            trip: None,
            thing: Box::new(Thing::Fixture(fixture)),
        };
        let select = Selection::one(reference(ThingKind::Fixture, &id));
        Ok(Some((words::step_place(&id), vec![edit], Some(select))))
    }

    /// One of these at each spot, all of them selected.
    fn one_at_each(
        &self,
        typed: &TwoTapes,
        item: &StoreItem,
        spots: &[Point],
    ) -> Result<Option<Step>, String> {
        let height_m = match typed.what.usual_height_m() {
            Some(_) => {
                let height = units::parse(&typed.height, Quantity::Length, self.settings.units);
                Some(height.map_err(|error| error.to_string())?)
            }
            None => None,
        };
        let Some(here) = self.here() else {
            return Ok(None);
        };
        let (mut edits, mut new, mut taken) = (Vec::new(), Vec::new(), Vec::new());
        for (i, spot) in spots.iter().enumerate() {
            let made = item.make(&here, at(*spot), 0.0);
            let thing = made.and_then(|made| match made.edits.into_iter().next() {
                Some(Edit::Put { thing, .. }) => Some(*thing),
                _ => None,
            });
            let Some(mut thing) = thing else {
                return Ok(None);
            };
            let kind = thing.to_ref().kind;
            let free = naming::free_after(here.plan, here.trip, kind, &taken);
            taken.push(free.clone());
            let name = match (typed.name.trim(), spots.len()) {
                ("", _) => None,
                (name, 1) => Some(name.to_owned()),
                (name, _) => Some(tape_words::numbered(name, i + 1)),
            };
            // To the millimetre, as measured; from the stores things are put down on whole centimetres.
            match &mut thing {
                Thing::LashingPoint(point) => {
                    (point.id, point.at) = (free, *spot);
                    point.name = name;
                    point.height_m = height_m.unwrap_or(point.height_m);
                }
                Thing::Place(place) => {
                    (place.id, place.at) = (free, *spot);
                    place.name = name.or(place.name.take());
                }
                Thing::Rack(rack) => {
                    (rack.id, rack.at) = (free, *spot);
                    rack.name = name.or(rack.name.take());
                }
                _ => return Ok(None),
            }
            new.push(thing.to_ref());
            edits.push(put(here.trip, thing));
        }
        let label = words::step_place(&taken.join(", "));
        Ok(Some((label, edits, Some(Selection::of(new)))))
    }

    /// What is selected moves so that the middle of the thing chosen last is there.
    fn selected_to(&self, spots: &[Point]) -> Option<Step> {
        let here = self.here()?;
        let target = at(*spots.first()?);
        let held = self.held();
        let last = self.selection.primary()?;
        let lead = held.iter().find(|item| item.what() == *last)?;
        let by = target - lead.anchor(here.plan)?;
        let edits = held.iter().flat_map(|item| item.moved(&here, by));
        let label = words::step_move(&self.selected_names());
        Some((label, edits.collect(), None))
    }
}
