//! What does not fit where it is.

use schemars::JsonSchema;
use serde::Serialize;

use super::ThingSort;
use crate::layout::{Id, Point};

/// In which way something does not fit where it is.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FitKind {
    /// Two things in the same place.
    Overlap,
    /// It sticks out over the edge of its deck or an opening in it.
    OffDeck,
    /// It sticks out over the edge of the fixture or crate that it is on or in.
    OffSupport,
    /// It covers something that must stay open.
    Covers,
    /// It is where a lid or door opens that must stay open.
    UnderLid,
    /// It is on the floor that must be clear in front of something.
    ClearFloor,
    /// It is on the floor that a place needs.
    PlaceFloor,
    /// A cylinder or the oxygen kit is near something hot.
    NearHeat,
    /// Oxygen is near fuel.
    OxygenNearFuel,
    /// Oxygen is near a compressor and its oil.
    OxygenNearCompressor,
}

/// One of the things that do not fit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
pub struct FitThing {
    /// What sort of thing.
    pub kind: ThingSort,

    /// Its name in the plan.
    pub id: Id,
}

/// Something that does not fit where it is, or is too near something.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FitNumbers {
    /// In which way.
    pub kind: FitKind,

    /// First what would be moved, then what it is in the way of, off, or near to; a deck is an edge.
    pub things: [FitThing; 2],

    /// The deck.
    pub deck: Id,

    /// Where, in metres.
    pub at: Point,

    /// How deep the two are in each other, how far it sticks out, or how much clear floor or distance
    /// is left, in metres.
    pub found_m: f64,

    /// How much clear floor or distance is wanted, in metres; 0 for what may not be at all.
    pub wanted_m: f64,

    /// The smallest shift of the first thing (of its rack, where it is in one) that clears it, `[x, y]`
    /// in metres; it does not look at what is beyond. `None` where no shift does.
    pub shift_m: Option<Point>,

    /// Do both things belong to the boat?
    pub of_boat: bool,
}
