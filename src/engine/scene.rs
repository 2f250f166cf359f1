//! Where everything is in one part of the day, as shapes seen from above with heights.

use super::numbers::ThingSort;
use crate::geometry::{Region, Shape};
use crate::layout::{Id, ThingRef};

/// Something on a deck, as a shape.
#[derive(Clone, Debug, PartialEq)]
pub struct SceneThing {
    /// What sort of thing.
    pub sort: ThingSort,

    /// Its name in the plan.
    pub thing: ThingRef,

    /// What the crew call it.
    pub name: String,

    /// The floor it takes; a lying cylinder with its valve, a rack with its outer edge.
    pub shape: Shape,

    /// Height of its lowest part above the deck, in metres.
    pub from_m: f64,

    /// Height of its highest part above the deck, in metres.
    pub to_m: f64,

    /// Does it belong to the boat (fixtures; racks are stowage, as they can be moved)?
    pub of_boat: bool,

    /// Do people walk on it?
    pub walked_on: bool,

    /// Is it a cylinder that is in a rack, crate or net, so that touching the rack is meant?
    pub inside: Option<Id>,
}

/// One deck and everything on it, things in the order fixtures, racks, cylinders, gear, people, each
/// by name.
#[derive(Clone, Debug, PartialEq)]
pub struct DeckScene {
    /// The deck's name in the plan.
    pub deck: Id,

    /// What the crew call it.
    pub name: String,

    /// Its height above the waterline in metres.
    pub height_m: f64,

    /// The floor; `None` while its outline cannot be used (the window shows why).
    pub floor: Option<Region>,

    /// What is on it.
    pub things: Vec<SceneThing>,
}

/// All decks of the boat in one part of the day.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// The decks in the order of the plan.
    pub decks: Vec<DeckScene>,
}

impl Scene {
    /// The deck with this name.
    pub fn deck(&self, id: &str) -> Option<&DeckScene> {
        self.decks.iter().find(|deck| deck.deck == id)
    }

    /// The thing with this name, and the deck it is on.
    pub fn thing(&self, what: &ThingRef) -> Option<(&DeckScene, &SceneThing)> {
        self.decks
            .iter()
            .find_map(|deck| Some((deck, deck.things.iter().find(|item| item.thing == *what)?)))
    }
}
