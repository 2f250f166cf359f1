//! What is remembered of walkways from one assessment to the next.

use std::collections::{BTreeMap, BTreeSet};

use super::ask::{Ask, Width, asks, at_ends, shift_of_spot};
use super::intruders::{headroom, intruders};
use super::stowed::StowedWalls;
use super::tags::{EDGE, Tagged, tagged};
use super::{LashingLeg, SAME_WIDTH_M, widest_m};
use crate::engine::hindrance::Hindrance;
use crate::engine::numbers::WalkwayNumbers;
use crate::engine::{DeckScene, Scene, SceneThing};
use crate::geometry::{Region, Shape, Tag, Walls};
use crate::layout::{Boat, Deck, Place, Walkway};

/// What was computed before, and for what.
#[derive(Clone, Debug, Default)]
pub(in crate::engine) struct WalkwayCache {
    /// What all of it holds for.
    boat: Option<BoatKey>,
    /// For each deck of the scene.
    empty: Vec<Option<EmptyDeck>>,
    /// For each part of the day, for each deck of the scene.
    parts: Vec<Vec<Option<FullDeck>>>,
    /// For each deck of the scene: the stowage of one part is mostly that of the next.
    stowed: Vec<StowedWalls>,
}

/// What of the boat decides how wide a walkway ought to be and where it runs.
#[derive(Clone, Debug, PartialEq)]
struct BoatKey {
    decks: Vec<Deck>,
    places: Vec<Place>,
    walkways: Vec<Walkway>,
}

/// A deck without stowage.
#[derive(Clone, Debug)]
struct EmptyDeck {
    things: Vec<SceneThing>,
    asks: Vec<Ask>,
    high: Walls,
    widths: Vec<[Width; 2]>,
}

/// A deck with everything on it, and what came out.
#[derive(Clone, Debug)]
struct FullDeck {
    things: Vec<SceneThing>,
    legs: Vec<LashingLeg>,
    numbers: Vec<WalkwayNumbers>,
}

impl WalkwayCache {
    pub(super) fn start(&mut self, boat: &Boat, decks: usize, part: usize) {
        let same = (self.boat.as_ref()).is_some_and(|known| {
            known.decks == boat.decks
                && known.places == boat.places
                && known.walkways == boat.walkways
        });
        if !same || self.empty.len() != decks {
            self.boat = Some(BoatKey {
                decks: boat.decks.clone(),
                places: boat.places.clone(),
                walkways: boat.walkways.clone(),
            });
            self.empty = (0..decks).map(|_| None).collect();
            self.parts.clear();
            self.stowed = (0..decks).map(|_| StowedWalls::default()).collect();
        }
        while self.parts.len() <= part {
            self.parts.push((0..decks).map(|_| None).collect());
        }
    }

    pub(super) fn deck(
        &mut self,
        boat: &Boat,
        scene: &Scene,
        index: usize,
        legs: &[&LashingLeg],
        part: usize,
    ) -> Vec<WalkwayNumbers> {
        let deck = &scene.decks[index];
        let Some(floor) = &deck.floor else {
            return Vec::new();
        };
        let of_boat = || deck.things.iter().filter(|thing| thing.of_boat);
        let same_boat =
            (self.empty[index].as_ref()).is_some_and(|empty| of_boat().eq(empty.things.iter()));
        if same_boat {
            let own = std::iter::once(part);
            for known_part in own.chain(part.checked_sub(1)) {
                let Some(known) = &self.parts[known_part][index] else {
                    continue;
                };
                if known.things == deck.things && legs.iter().copied().eq(known.legs.iter()) {
                    let numbers = known.numbers.clone();
                    if known_part != part {
                        self.keep(deck, legs, part, index, &numbers);
                    }
                    return numbers;
                }
            }
        } else {
            self.empty[index] = Some(EmptyDeck::new(boat, deck, floor));
            self.stowed[index] = StowedWalls::default();
            for decks in &mut self.parts {
                decks[index] = None;
            }
        }
        let numbers = (self.empty[index].as_ref())
            .map(|empty| empty.with_stowage(scene, deck, legs, &mut self.stowed[index]))
            .unwrap_or_default();
        self.keep(deck, legs, part, index, &numbers);
        numbers
    }

    fn keep(
        &mut self,
        deck: &DeckScene,
        legs: &[&LashingLeg],
        part: usize,
        index: usize,
        numbers: &[WalkwayNumbers],
    ) {
        self.parts[part][index] = Some(FullDeck {
            things: deck.things.clone(),
            legs: legs.iter().copied().cloned().collect(),
            numbers: numbers.to_vec(),
        });
    }
}

impl EmptyDeck {
    fn new(boat: &Boat, deck: &DeckScene, floor: &Region) -> Self {
        let asks = asks(boat, &deck.deck);
        let most = asks.iter().map(|ask| ask.wanted_m).fold(0.0, f64::max);
        let things: Vec<_> = deck.things.iter().filter(|t| t.of_boat).cloned().collect();
        let all = tagged(deck, &[]);
        let own: Vec<_> = all.iter().filter(|thing| thing.of_boat).collect();
        let high =
            Walls::new(floor.clone(), EDGE, widest_m(most)).with(walls_of(&own, Hindrance::Tall));
        let low = high.with(walls_of(&own, Hindrance::Low));
        let widths = (asks.iter())
            .map(|ask| [&high, &low].map(|walls| ask.width(deck, walls, &all)))
            .collect();
        Self {
            things,
            asks,
            high,
            widths,
        }
    }

    fn with_stowage(
        &self,
        scene: &Scene,
        deck: &DeckScene,
        legs: &[&LashingLeg],
        stowed: &mut StowedWalls,
    ) -> Vec<WalkwayNumbers> {
        let all = tagged(deck, legs);
        // Most walkways have nobody at their ends and share the same walls.
        let mut made: BTreeMap<BTreeSet<usize>, [Walls; 2]> = BTreeMap::new();
        let numbers = self.asks.iter().zip(&self.widths).map(|(ask, boat)| {
            let at_ends = at_ends(deck, ask);
            let [high, low] = made
                .entry(at_ends.clone())
                .or_insert_with(|| stowed.walls(&self.high, &all, &at_ends));
            let [high, low] = [(&*high, &boat[0]), (&*low, &boat[1])].map(|(walls, boat)| {
                let mut width = ask.width(deck, walls, &all);
                // The stowage takes nothing away: the boat's own tight spot, however many things
                // are as tight.
                if width.clear_m >= boat.clear_m - SAME_WIDTH_M {
                    width = boat.clone();
                } else if let Some(spot) = &mut width.spot {
                    spot.of_boat = false;
                    spot.shift = shift_of_spot(ask, width.clear_m, spot, &all);
                }
                width
            });
            WalkwayNumbers {
                walkway: ask.walkway.id.clone(),
                wanted_m: ask.wanted_m,
                wanted_source: ask.wanted_source.clone(),
                length_m: ask.length_m,
                clear_m: high.clear_m,
                clear_spot: high.spot,
                clear_of_low_m: low.clear_m,
                clear_of_low_spot: low.spot,
                boat_clear_m: boat[0].clear_m,
                boat_spot: boat[0].spot.clone(),
                boat_clear_of_low_m: boat[1].clear_m,
                boat_of_low_spot: boat[1].spot.clone(),
                intruders: intruders(deck, legs, &all, ask, &at_ends),
                headroom: headroom(scene, deck, ask),
            }
        });
        numbers.collect()
    }
}

/// The walls of this sort among the things.
fn walls_of<'a>(things: &[&'a Tagged<'_>], sort: Hindrance) -> Vec<(Tag, &'a Shape)> {
    (things.iter())
        .filter(|thing| thing.hindrance == sort && thing.is_wall())
        .map(|thing| (thing.tag, &*thing.shape))
        .collect()
}
