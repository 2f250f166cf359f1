//! How wide the walkways are, where they are tight, and what lies in them.
//!
//! Three figures (docs, walkways): the clear width over any route with only what one cannot step
//! over as walls; the same with low things as walls too; and what lies in the drawn strip itself.
//! Each is held beside the figure of the empty boat, so that the stowage only answers for what it
//! takes away.
//!
//! [`WalkwayCache`] keeps the prepared walls of the empty boat while the boat is the same, and the
//! figures of a deck while nothing on it changes.

mod ends;
mod intruders;
mod leg;
mod tags;

use std::collections::{BTreeMap, BTreeSet};

use self::ends::{Shut, reach};
use self::intruders::{headroom, intruders};
pub(super) use self::leg::LashingLeg;
pub(super) use self::tags::lies_within;
use self::tags::{EDGE, Tagged, tagged};
use super::hindrance::Hindrance;
use super::numbers::{SpotShift, ThingSort, TightSpot, WalkwayNumbers};
use super::{DeckScene, Scene, SceneThing};
use crate::geometry::clear_width::{ClearWidth, End, Limit};
use crate::geometry::{Region, Shape, Strip, Tag, Vec2, Walls, separation};
use crate::layout::{Boat, Deck, Place, Walkway};

/// An aisle up to this length needs [`SHORT_WIDTH_M`]: 15 ft, 46 CFR 177.820(d).
const SHORT_LENGTH_M: f64 = 4.572;

/// The width of a short aisle, 46 CFR 177.820(d).
const SHORT_WIDTH_M: f64 = 0.61;

/// The width of a longer aisle, 46 CFR 177.820(d).
const LONG_WIDTH_M: f64 = 0.76;

/// Wider ways are not measured: two people pass each other with room to spare. Common practice, no
/// source.
pub(super) const WIDEST_M: f64 = 2.0;

/// Where a deck asks for more than [`WIDEST_M`], that and a quarter is measured.
const WIDER_SHARE: f64 = 1.25;

/// A clear width that differs by less is the same: a thousandth of what is measured.
const SAME_WIDTH_M: f64 = 1e-6;

/// What was computed before, and for what.
#[derive(Debug, Default)]
pub(super) struct WalkwayCache {
    /// What all of it holds for.
    boat: Option<BoatKey>,
    /// For each deck of the scene.
    empty: Vec<Option<EmptyDeck>>,
    /// For each part of the day, for each deck of the scene.
    parts: Vec<Vec<Option<FullDeck>>>,
}

/// What of the boat decides how wide a walkway ought to be and where it runs.
#[derive(Clone, Debug, PartialEq)]
struct BoatKey {
    decks: Vec<Deck>,
    places: Vec<Place>,
    walkways: Vec<Walkway>,
}

/// A deck without stowage.
#[derive(Debug)]
struct EmptyDeck {
    things: Vec<SceneThing>,
    asks: Vec<Ask>,
    high: Walls,
    widths: Vec<[Width; 2]>,
}

/// A deck with everything on it, and what came out.
#[derive(Debug)]
struct FullDeck {
    things: Vec<SceneThing>,
    legs: Vec<LashingLeg>,
    numbers: Vec<WalkwayNumbers>,
}

/// One walkway to be measured.
#[derive(Clone, Debug, PartialEq)]
struct Ask {
    walkway: Walkway,
    ends: [Vec2; 2],
    wanted_m: f64,
    wanted_source: String,
    length_m: f64,
    /// `None` if its line is no line.
    strip: Option<Strip>,
}

/// A clear width and what makes it.
#[derive(Clone, Debug, PartialEq)]
struct Width {
    clear_m: f64,
    spot: Option<TightSpot>,
}

/// The figures of every walkway in one part of the day, in the order of their names.
///
/// `part` is the part's place in the day; it only says where to look for what was computed before.
/// A walkway on a deck whose outline cannot be used is left out.
pub(super) fn walkways(
    boat: &Boat,
    scene: &Scene,
    legs: &[LashingLeg],
    part: usize,
    cache: &mut WalkwayCache,
) -> Vec<WalkwayNumbers> {
    cache.start(boat, scene.decks.len(), part);
    let mut all = Vec::with_capacity(boat.walkways.len());
    for (index, deck) in scene.decks.iter().enumerate() {
        if !boat
            .walkways
            .iter()
            .any(|walkway| walkway.deck == deck.deck)
        {
            continue;
        }
        let legs: Vec<&LashingLeg> = legs.iter().filter(|leg| leg.deck == deck.deck).collect();
        all.extend(cache.deck(boat, scene, index, &legs, part));
    }
    all.sort_by(|a, b| a.walkway.cmp(&b.walkway));
    all
}

impl WalkwayCache {
    fn start(&mut self, boat: &Boat, decks: usize, part: usize) {
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
        }
        while self.parts.len() <= part {
            self.parts.push((0..decks).map(|_| None).collect());
        }
    }

    fn deck(
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
            for decks in &mut self.parts {
                decks[index] = None;
            }
        }
        let numbers = (self.empty[index].as_ref())
            .map(|empty| empty.with_stowage(scene, deck, legs))
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
        let high = Walls::new(floor.clone(), EDGE, WIDEST_M.max(WIDER_SHARE * most))
            .with(walls_of(&own, Hindrance::Tall));
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
    ) -> Vec<WalkwayNumbers> {
        let all = tagged(deck, legs);
        // Most walkways have nobody at their ends and share the same walls.
        let mut prepared: BTreeMap<BTreeSet<usize>, [Walls; 2]> = BTreeMap::new();
        let numbers = self.asks.iter().zip(&self.widths).map(|(ask, boat)| {
            let at_ends = at_ends(deck, ask);
            let [high, low] = prepared.entry(at_ends.clone()).or_insert_with(|| {
                let counts = |t: &Tagged<'_>| !t.index.is_some_and(|i| at_ends.contains(&i));
                let stowage: Vec<_> = (all.iter())
                    .filter(|thing| !thing.of_boat && counts(thing))
                    .collect();
                let high = self.high.with(walls_of(&stowage, Hindrance::Tall));
                let own: Vec<_> = all.iter().filter(|thing| thing.of_boat).collect();
                let low = high.with(
                    walls_of(&own, Hindrance::Low)
                        .into_iter()
                        .chain(walls_of(&stowage, Hindrance::Low)),
                );
                [high, low]
            });
            let [high, low] = [(high, &boat[0]), (low, &boat[1])].map(|(walls, boat)| {
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
        .filter(|thing| thing.hindrance == sort && !thing.hidden)
        .map(|thing| (thing.tag, &*thing.shape))
        .collect()
}

/// Who stands or sits at an end of the walkway, and the cylinder on their back: they use it, they do
/// not block it.
fn at_ends(deck: &DeckScene, ask: &Ask) -> BTreeSet<usize> {
    let people = |thing: &SceneThing| thing.sort == ThingSort::Person;
    let covers_end = |thing: &SceneThing| ask.ends.iter().any(|end| thing.shape.contains(*end));
    let at_ends: Vec<_> = (deck.things.iter().enumerate())
        .filter(|(_, thing)| people(thing) && covers_end(thing))
        .collect();
    if at_ends.is_empty() {
        return BTreeSet::new();
    }
    let worn = (deck.things.iter().enumerate()).filter(|(_, thing)| {
        thing.sort == ThingSort::Cylinder
            && (at_ends.iter()).any(|(_, person)| person.shape.contains(thing.shape.centroid()))
    });
    (at_ends.iter().map(|(index, _)| *index))
        .chain(worn.map(|(index, _)| index))
        .collect()
}

/// The walkways of a deck, in the order of their names.
fn asks(boat: &Boat, deck: &str) -> Vec<Ask> {
    let place = |id: &str| boat.place(id).filter(|place| place.deck == deck);
    let mut asks: Vec<_> = (boat.walkways.iter())
        .filter(|walkway| walkway.deck == deck)
        .filter_map(|walkway| {
            let line: Vec<Vec2> = walkway.line.iter().map(|p| Vec2::from(*p)).collect();
            // A place on another deck is reached from where the line ends.
            let end = |id: &str, drawn: Option<&Vec2>| {
                place(id).map_or(drawn.copied(), |place| Some(place.at.into()))
            };
            let ends = [
                end(&walkway.from, line.first())?,
                end(&walkway.to, line.last())?,
            ];
            let length_m = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
            let (wanted_m, wanted_source) = wanted(walkway, length_m);
            Some(Ask {
                walkway: walkway.clone(),
                ends,
                wanted_m,
                wanted_source,
                length_m,
                strip: Strip::new(line, wanted_m).ok(),
            })
        })
        .collect();
    asks.sort_by(|a, b| a.walkway.id.cmp(&b.walkway.id));
    asks
}

/// The strip that is to be kept free for a walkway; `None` if its line is no line.
pub(super) fn strip_of(walkway: &Walkway) -> Option<Strip> {
    let line: Vec<Vec2> = walkway.line.iter().map(|p| Vec2::from(*p)).collect();
    let length_m = line.windows(2).map(|pair| pair[0].distance(pair[1])).sum();
    Strip::new(line, wanted(walkway, length_m).0).ok()
}

/// The clear width wanted and where that comes from.
fn wanted(walkway: &Walkway, length_m: f64) -> (f64, String) {
    match walkway.clear_width_m {
        Some(width_m) => (width_m, "given for this walkway".to_owned()),
        None if length_m <= SHORT_LENGTH_M => (
            SHORT_WIDTH_M,
            "46 CFR 177.820(d), aisle up to 15 ft (4.572 m) long".to_owned(),
        ),
        None => (
            LONG_WIDTH_M,
            "46 CFR 177.820(d), aisle longer than 15 ft (4.572 m)".to_owned(),
        ),
    }
}

impl Ask {
    fn place_id(&self, end: End) -> (&str, Vec2) {
        match end {
            End::From => (&self.walkway.from, self.ends[0]),
            End::To => (&self.walkway.to, self.ends[1]),
        }
    }

    /// The clear width between the two places on these walls.
    fn width(&self, deck: &DeckScene, walls: &Walls, tagged: &[Tagged<'_>]) -> Width {
        let at = |end: End| reach(walls, tagged, self.place_id(end).1, end);
        let named = |tag: Tag| -> (String, ThingSort) {
            (tagged.iter().find(|thing| thing.tag == tag)).map_or_else(
                || (format!("edge of {}", deck.deck), ThingSort::Edge),
                |thing| (thing.id.to_owned(), thing.sort),
            )
        };
        let at_place = |tag: Tag, wall: Vec2, end: End| {
            let (place, middle) = self.place_id(end);
            let (wall_id, sort) = named(tag);
            TightSpot {
                between: [wall_id, place.to_owned()],
                kinds: [sort, ThingSort::Place],
                at: [wall.into(), middle.into()],
                of_boat: true,
                shift: None,
            }
        };
        let shut = |shut: Shut, end: End| Width {
            clear_m: 0.0,
            spot: Some(at_place(shut.by, shut.at, end)),
        };
        let from = match at(End::From) {
            Ok(place) => place,
            Err(by) => return shut(by, End::From),
        };
        let to = match at(End::To) {
            Ok(place) => place,
            Err(by) => return shut(by, End::To),
        };
        let ClearWidth { width_m, limit } = walls.clear_width_between(&from, &to);
        let spot = match limit {
            Limit::Widest => None,
            Limit::End { end, tag, at } => Some(at_place(tag, at, end)),
            Limit::TightSpot(spot) => {
                let [a, b] = [spot.a, spot.b].map(named);
                Some(TightSpot {
                    between: [a.0, b.0],
                    kinds: [a.1, b.1],
                    at: [spot.at_a.into(), spot.at_b.into()],
                    of_boat: true,
                    shift: None,
                })
            }
        };
        Width {
            clear_m: width_m,
            spot,
        }
    }
}

/// The smallest shift of something movable that opens a tight spot to the wanted width. It only
/// looks at this spot.
fn shift_of_spot(
    ask: &Ask,
    clear_m: f64,
    spot: &TightSpot,
    tagged: &[Tagged<'_>],
) -> Option<SpotShift> {
    let missing_m = ask.wanted_m - clear_m;
    if missing_m <= 0.0 {
        return None;
    }
    let find = |side: usize| {
        tagged
            .iter()
            .find(|thing| thing.sort == spot.kinds[side] && thing.id == spot.between[side])
    };
    let is_movable = |thing: &&Tagged<'_>| !thing.of_boat && thing.sort != ThingSort::Lashing;
    // The second has the higher tag: a cylinder rather than a rack.
    let (side, thing) = [1, 0]
        .into_iter()
        .find_map(|side| Some((side, find(side).filter(is_movable)?)))?;
    let [here, there] = [spot.at[side], spot.at[1 - side]].map(Vec2::from);
    let away = (here - there).normalized().or_else(|| {
        let other = find(1 - side)?;
        Some(separation(&thing.shape, &other.shape).away)
    })?;
    let (kind, id) = thing.moves_with.unwrap_or((thing.sort, thing.id));
    Some(SpotShift {
        thing: id.to_owned(),
        kind,
        by_m: (missing_m * away).into(),
    })
}

#[cfg(test)]
mod tests;
