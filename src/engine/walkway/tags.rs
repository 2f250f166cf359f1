//! The things on a deck as walls with numbers.

use std::borrow::Cow;
use std::collections::BTreeMap;

use super::LashingLeg;
use crate::engine::hindrance::{Hindrance, KNEE_M, OVERHEAD_M};
use crate::engine::numbers::ThingSort;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::{Shape, Tag, Vec2};

/// The tag of the deck's own edge and openings.
pub(super) const EDGE: Tag = 0;

/// How far a cylinder may stick out of its rack and still be hidden by it: the tenth of a
/// millimetre to which anything is measured at best.
const HIDDEN_M: f64 = 1e-4;

/// Something that may be a wall of a walkway.
#[derive(Clone, Debug)]
pub(super) struct Tagged<'a> {
    /// What never moves has the lowest tags.
    pub(super) tag: Tag,
    pub(super) shape: Cow<'a, Shape>,
    pub(super) hindrance: Hindrance,
    pub(super) of_boat: bool,
    pub(super) sort: ThingSort,
    pub(super) id: &'a str,
    /// What would have to be moved to move it: its rack.
    pub(super) moves_with: Option<(ThingSort, &'a str)>,
    /// Is it wholly within its rack, which is a wall wherever it is one?
    pub(super) hidden: bool,
    /// Is it wholly within its rack, which is a wall where low things are walls too?
    pub(super) hidden_among_low: bool,
    /// Where it is in the scene, if it is in it.
    pub(super) index: Option<usize>,
}

impl Tagged<'_> {
    /// Is it in anybody's way, as far as it is seen beside its rack?
    pub(super) fn is_wall(&self) -> bool {
        matches!(self.hindrance, Hindrance::Low | Hindrance::Tall) && !self.hidden
    }
}

/// Everything on a deck: the boat's own first, then the stowage, then the lashings.
pub(super) fn tagged<'a>(deck: &'a DeckScene, legs: &[&'a LashingLeg]) -> Vec<Tagged<'a>> {
    let racks: BTreeMap<&str, &SceneThing> = (deck.things.iter())
        .filter(|thing| thing.sort == ThingSort::Rack)
        .map(|thing| (thing.thing.id.as_str(), thing))
        .collect();
    let of_boat = deck.things.iter().enumerate().filter(|(_, t)| t.of_boat);
    let stowage = deck.things.iter().enumerate().filter(|(_, t)| !t.of_boat);
    let mut all = Vec::with_capacity(deck.things.len() + 2 * legs.len());
    all.extend(
        (of_boat.chain(stowage))
            .zip(1..)
            .map(|((index, thing), tag)| {
                let rack = (thing.inside.as_deref()).and_then(|rack| racks.get(rack).copied());
                let hindrance = Hindrance::of(thing);
                let of_rack = rack
                    .map(Hindrance::of)
                    .filter(|of_rack| matches!(of_rack, Hindrance::Low | Hindrance::Tall))
                    .filter(|_| rack.is_some_and(|rack| lies_within(&thing.shape, &rack.shape)));
                Tagged {
                    tag,
                    shape: Cow::Borrowed(&thing.shape),
                    hindrance,
                    of_boat: thing.of_boat,
                    sort: thing.sort,
                    id: &thing.thing.id,
                    moves_with: rack.map(|rack| (rack.sort, rack.thing.id.as_str())),
                    hidden: of_rack.is_some_and(|of_rack| hindrance <= of_rack),
                    hidden_among_low: of_rack.is_some(),
                    index: Some(index),
                }
            }),
    );
    for leg in legs {
        let next = all.len() + 1;
        // The part that is too high to be stepped over, and the rest of what is not overhead.
        let parts = [(0.0, KNEE_M), (KNEE_M, OVERHEAD_M)].map(|(from, to)| leg.between(from, to));
        for (shape, hindrance) in parts.into_iter().zip([Hindrance::Low, Hindrance::Tall]) {
            if let Some(shape) = shape {
                all.push(Tagged {
                    tag: next,
                    shape: Cow::Owned(shape),
                    hindrance,
                    of_boat: false,
                    sort: ThingSort::Lashing,
                    id: &leg.lashing,
                    moves_with: None,
                    hidden: false,
                    hidden_among_low: false,
                    index: None,
                });
            }
        }
    }
    all
}

/// Does a round shape lie wholly within a polygon? Others are not asked.
pub(in crate::engine) fn lies_within(shape: &Shape, rack: &Shape) -> bool {
    let Shape::Polygon(rack) = rack else {
        return false;
    };
    let (ends, radius) = match shape {
        Shape::Disc { center, radius } => ([*center, *center], *radius),
        Shape::Stadium { from, to, radius } => ([*from, *to], *radius),
        Shape::Polygon(_) => return false,
    };
    let fits = |p: Vec2| rack.contains(p) && rack.distance_to_edge(p) >= radius - HIDDEN_M;
    // The ends decide for the whole line only where the rack has no inward corner.
    rack.is_convex() && fits(ends[0]) && (ends[0] == ends[1] || fits(ends[1]))
}
