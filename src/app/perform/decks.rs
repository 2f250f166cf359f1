//! Another deck, one deck less, and going to where something is.

use super::super::canvas::hit;
use super::super::decks::{self, AnotherDeck, ThenAsk};
use super::super::files::Dialog;
use super::super::selection::Selection;
use super::super::things::reference;
use super::super::{Editor, words};
use crate::layout::{Edit, Thing, ThingKind, ThingRef};

impl Editor {
    /// Asks for one more deck.
    pub(super) fn ask_for_deck(&mut self) {
        let shown = self.history.plan().boat.deck(&self.deck);
        let asked = shown.map(|deck| AnotherDeck::above(deck, self.settings.units));
        self.dialog = asked.map(Dialog::AnotherDeck);
    }

    /// Adds a deck and shows it.
    pub(super) fn add_deck(&mut self, asked: &AnotherDeck) {
        let plan = self.history.plan();
        let (Some(shown), Some(trip)) = (plan.boat.deck(&self.deck), self.trip()) else {
            return;
        };
        let deck = match asked.deck(plan, trip, shown, self.settings.units) {
            Ok(deck) => deck,
            Err(why) => {
                self.notice = Some(why.to_string());
                return;
            }
        };
        let id = deck.id.clone();
        let label = words::step_place(deck.name.as_ref().unwrap_or(&id));
        let edit = Edit::Put {
            trip: None,
            thing: Box::new(Thing::Deck(deck)),
        };
        self.dialog = None;
        self.step(label, &[edit], Some(Selection::none()));
        if self.history.plan().boat.deck(&id).is_none() {
            return;
        }
        self.deck = id;
        self.plan_view.fit();
        match asked.then {
            ThenAsk::Nothing => {}
            ThenAsk::Tape => self.ask_for_stations(),
            ThenAsk::Drawing => self.ask_for_drawing(),
        }
    }

    /// Takes the deck shown away with all that is on it.
    pub(super) fn remove_deck(&mut self) {
        let what = reference(ThingKind::Deck, &self.deck);
        let label = words::step_remove(std::slice::from_ref(&what.id));
        self.step(label, &[Edit::Remove { trip: None, what }], None);
        self.plan_view.fit();
    }

    /// Puts what is selected onto the next deck, and shows that.
    pub(super) fn move_to_next_deck(&mut self) {
        let Some(here) = self.here() else { return };
        let Some(deck) = decks::next(here.plan, &self.deck) else {
            return;
        };
        let edits = decks::moved_to(&here, &self.held(), deck);
        let edits = self.kept_together(edits);
        let name = deck.name.as_ref().unwrap_or(&deck.id);
        let label = words::step_to_deck(&self.selected_names(), name);
        let deck = deck.id.clone();
        self.step(label, &edits, None);
        self.deck = deck;
    }

    /// Selects a thing, shows its deck and brings it into the middle.
    pub(super) fn go_to(&mut self, what: ThingRef, add: bool) {
        self.dialog = None;
        self.chosen = None;
        let Some(here) = self.here() else { return };
        let deck = hit::deck_of(&here, &what);
        let bounds = hit::bounds(&here, &what);
        let other = deck.filter(|deck| *deck != self.deck);
        if let Some(deck) = other {
            self.deck = deck;
        }
        match bounds.filter(|bounds| bounds.center().is_finite()) {
            // With its surroundings, so that one sees where on the deck it is.
            Some(bounds) => self.plan_view.frame(bounds.grown(1.0)),
            None => self.notice = Some(words::not_on_the_plan(&what.id)),
        }
        if what.kind != ThingKind::Deck {
            let kept = self.selection.things().iter().filter(|_| add).cloned();
            self.selection = Selection::of(kept.chain([what]));
        }
    }
}
