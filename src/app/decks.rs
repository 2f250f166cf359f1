//! More decks than one: what is asked of another one, and things that go from one to the next.

use super::here::Here;
use super::moving::{Grabbed, place, put};
use super::naming;
use crate::layout::{
    Deck, Edit, Id, Known, Placing, Plan, Point, Thing, ThingKind, Trip, Underlay,
};
use crate::units::{self, ParseError, Quantity, System};

/// What a new deck looks like at first.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum FirstShape {
    /// As the deck shown.
    #[default]
    Same,
    /// A rectangle about the centreline.
    Rectangle,
}

impl FirstShape {
    /// All of them.
    pub(crate) const ALL: [Self; 2] = [Self::Same, Self::Rectangle];
}

/// What is asked next.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum ThenAsk {
    /// Nothing.
    #[default]
    Nothing,
    /// Its tape readings.
    Tape,
    /// A drawing of it.
    Drawing,
}

/// What is asked of one more deck, as typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct AnotherDeck {
    /// What it is called.
    pub(crate) name: String,
    /// How high it is above the water.
    pub(crate) height: String,
    /// What it looks like at first.
    pub(crate) shape: FirstShape,
    /// Where a rectangle begins, forward of the transom.
    pub(crate) from: String,
    /// How long it is.
    pub(crate) length: String,
    /// How wide it is.
    pub(crate) width: String,
    /// What is asked when it is there.
    pub(crate) then: ThenAsk,
}

impl AnotherDeck {
    /// Begins above the deck shown: with standing room over it, and half as long.
    pub(crate) fn above(deck: &Deck, system: System) -> Self {
        let show = |m: f64| Quantity::Length.show(m, system);
        let ends = |axis: usize| {
            let values = deck.outline.iter().map(|p| p[axis]);
            let low = values.clone().fold(f64::INFINITY, f64::min);
            (low, values.fold(f64::NEG_INFINITY, f64::max))
        };
        let ((aft, bow), (starboard, port)) = (ends(0), ends(1));
        Self {
            name: String::new(),
            height: show(deck.height_above_waterline_m + 2.1),
            shape: FirstShape::Same,
            from: show(aft),
            length: show(0.5 * (bow - aft)),
            width: show(0.8 * (port - starboard)),
            then: ThenAsk::Nothing,
        }
    }

    /// The deck that it makes; why not, where something cannot be read.
    pub(crate) fn deck(
        &self,
        plan: &Plan,
        trip: &Trip,
        shown: &Deck,
        system: System,
    ) -> Result<Deck, ParseError> {
        let length = |text: &str| units::parse(text, Quantity::Length, system);
        let outline = match self.shape {
            FirstShape::Same => shown.outline.clone(),
            FirstShape::Rectangle => {
                let (from, length_m) = (length(&self.from)?, length(&self.length)?.abs());
                rectangle(from, length_m, 0.5 * length(&self.width)?.abs())
            }
        };
        let name = self.name.trim();
        Ok(Deck {
            id: naming::free(plan, trip, ThingKind::Deck),
            name: (!name.is_empty()).then(|| name.to_owned()),
            height_above_waterline_m: length(&self.height)?,
            outline,
            holes: Vec::new(),
            surface: shown.surface.clone(),
            load_limit_kg_per_m2: Known::NotKnown,
            underlay: None::<Underlay>,
        })
    }
}

fn rectangle(from: f64, length: f64, half: f64) -> Vec<Point> {
    let mm = super::here::mm;
    let (aft, bow, half) = (mm(from), mm(from + length), mm(half));
    vec![[aft, -half], [bow, -half], [bow, half], [aft, half]]
}

/// The deck after this one, round and round; `None` where there is only one.
pub(crate) fn next<'p>(plan: &'p Plan, deck: &str) -> Option<&'p Deck> {
    let decks = &plan.boat.decks;
    let index = decks.iter().position(|item| item.id == deck)?;
    decks
        .get((index + 1) % decks.len())
        .filter(|item| item.id != deck)
}

/// The edits that put things onto another deck, at the same distances from the stern and the centreline. What is
/// in a rack goes with its rack alone; walkways stay, as their places do.
pub(crate) fn moved_to(here: &Here<'_>, held: &[Grabbed], deck: &Deck) -> Vec<Edit> {
    let moved = held.iter().filter_map(|item| on_deck(here, item, &deck.id));
    moved.collect()
}

fn on_deck(here: &Here<'_>, item: &Grabbed, deck: &Id) -> Option<Edit> {
    let mut thing = item.thing().clone();
    match &mut thing {
        Thing::Fixture(item) => item.deck.clone_from(deck),
        Thing::Place(item) => {
            // A walkway runs from place to place on one deck.
            let ways = &here.plan.boat.walkways;
            if ways
                .iter()
                .any(|way| way.from == item.id || way.to == item.id)
            {
                return None;
            }
            item.deck.clone_from(deck);
        }
        Thing::Rack(item) => item.deck.clone_from(deck),
        Thing::LashingPoint(item) => item.deck.clone_from(deck),
        Thing::Gear(item) => item.deck.clone_from(deck),
        Thing::Person(item) => item.deck.clone_from(deck),
        Thing::Cylinder(item) => {
            let mut placing = item.placing.clone();
            match &mut placing {
                Placing::Standing {
                    deck: on, on: top, ..
                }
                | Placing::Lying {
                    deck: on, on: top, ..
                } => {
                    on.clone_from(deck);
                    *top = None;
                }
                Placing::UpsideDown { deck: on, .. }
                | Placing::HeldByHand { deck: on, .. }
                | Placing::Filling { deck: on, .. } => on.clone_from(deck),
                _ => return None,
            }
            return Some(place(here, &item.id, placing));
        }
        Thing::Walkway(_)
        | Thing::Deck(_)
        | Thing::Lashing(_)
        | Thing::GearAboard(_)
        | Thing::Part(_) => return None,
    }
    Some(put(here.trip, thing))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_deck_begins_as_the_one_shown_or_as_a_rectangle() {
        let plan = Plan::new("Test", 10.0, 4.0);
        let (trip, shown) = (&plan.trips[0], &plan.boat.decks[0]);
        let mut asked = AnotherDeck::above(shown, System::Metric);
        assert_eq!(asked.height, "2.70 m");
        let deck = asked.deck(&plan, trip, shown, System::Metric).unwrap();
        assert_eq!((deck.id.as_str(), &deck.outline), ("deck1", &shown.outline));
        asked.shape = FirstShape::Rectangle;
        (asked.from, asked.length, asked.width) = ("1.5".into(), "4".into(), "3 m".into());
        asked.name = "Upper deck".into();
        let deck = asked.deck(&plan, trip, shown, System::Metric).unwrap();
        let expected = [[1.5, -1.5], [5.5, -1.5], [5.5, 1.5], [1.5, 1.5]];
        assert_eq!(deck.outline, expected);
        assert_eq!(deck.name.as_deref(), Some("Upper deck"));
        asked.height = "high".into();
        assert!(asked.deck(&plan, trip, shown, System::Metric).is_err());
    }

    #[test]
    fn the_next_deck_is_another_one() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        assert_eq!(next(&plan, "main"), None);
        let upper = Deck {
            id: "upper".into(),
            ..plan.boat.decks[0].clone()
        };
        plan.boat.decks.push(upper);
        assert_eq!(next(&plan, "main").unwrap().id, "upper");
        assert_eq!(next(&plan, "upper").unwrap().id, "main");
    }
}
