//! Rounding the bow of the deck shown.

use super::super::tools::bow_rounded;
use super::super::{Editor, words};
use crate::layout::{Edit, Thing};

impl Editor {
    /// Rounds the bow of the deck shown.
    pub(super) fn round_bow(&mut self) {
        let deck = self.history.plan().boat.deck(&self.deck).cloned();
        let rounded = deck.as_ref().and_then(|deck| bow_rounded(&deck.outline));
        let (Some(mut deck), Some(outline)) = (deck, rounded) else {
            self.notice = Some(words::NO_POINTED_BOW.to_owned());
            return;
        };
        deck.outline = outline;
        let label = words::step_reshape(&deck.id);
        let edit = Edit::Put {
            trip: None,
            thing: Box::new(Thing::Deck(deck)),
        };
        self.step(label, &[edit], None);
    }
}
