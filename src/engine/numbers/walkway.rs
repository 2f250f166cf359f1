//! Walkways: how wide, where tight, and what lies in them.

use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::{Id, Point};

/// The narrowest place of a walkway.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct TightSpot {
    /// The two things that make it, by their names in the plan; the deck's edge is `edge of DECK`.
    /// Where the room at an end is the tightest, the second is that place.
    pub between: [String; 2],

    /// What sort of thing each of the two is.
    pub kinds: [ThingSort; 2],

    /// Where, on each of the two, in metres.
    pub at: [Point; 2],

    /// Does the stowage take nothing away, so that the width is the empty boat's? Two fixtures can
    /// be the tight spot of a full boat and not of the empty one: the stowage then blocks a wider way.
    pub of_boat: bool,

    /// The smallest shift of one of the two that opens this spot to the wanted width; `None` where
    /// nothing is wanting or neither can be moved. It does not look at what is beyond.
    pub shift: Option<SpotShift>,
}

/// How something would have to be moved.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct SpotShift {
    /// What, by name; the rack of a cylinder that is in one.
    pub thing: Id,

    /// What sort of thing.
    pub kind: ThingSort,

    /// By how much, `[x, y]` in metres.
    pub by_m: Point,
}

/// Something that lies in a walkway's strip.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Intruder {
    /// What it is, by name.
    pub thing: Id,

    /// What sort of thing: fixture, cylinder, rack, gear, person, lashing.
    pub kind: ThingSort,

    /// How far it intrudes, in metres.
    pub into_m: f64,

    /// Where, in metres.
    pub at: Point,

    /// Its lowest and highest part above the deck, in metres.
    pub from_to_m: [f64; 2],

    /// The smallest shift that clears it, `[x, y]` in metres.
    pub shift_m: Point,

    /// Does it belong to the boat?
    pub of_boat: bool,
}

/// What sort of thing something on deck is.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ThingSort {
    /// The deck's own edge or an opening in it.
    Edge,
    /// A fixture.
    Fixture,
    /// A rack.
    Rack,
    /// A cylinder.
    Cylinder,
    /// Loose gear.
    Gear,
    /// Somebody.
    Person,
    /// A lashing.
    Lashing,
    /// A place, as the end of a walkway.
    Place,
}

/// All computed numbers of one walkway.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WalkwayNumbers {
    /// The walkway.
    pub walkway: Id,

    /// The clear width wanted, in metres.
    pub wanted_m: f64,

    /// Where that comes from.
    pub wanted_source: String,

    /// Its length in metres.
    pub length_m: f64,

    /// Clear width over any route with only what one cannot step over as walls, in metres; 1.25 m
    /// and no tight spot where it is wider. On a deck with a walkway that wants more than 1.1 m it is 2 m
    /// (or 1.25 times the widest that is wanted, if that is more). The same holds for the other widths.
    pub clear_m: f64,

    /// The place that makes it.
    pub clear_spot: Option<TightSpot>,

    /// Clear width with low things as walls too, in metres.
    pub clear_of_low_m: f64,

    /// The place that makes it.
    pub clear_of_low_spot: Option<TightSpot>,

    /// Clear width of the empty boat (outline and fixtures alone), in metres.
    pub boat_clear_m: f64,

    /// The place that makes it.
    pub boat_spot: Option<TightSpot>,

    /// Clear width of the empty boat with low fixtures as walls too, in metres.
    pub boat_clear_of_low_m: f64,

    /// The place that makes it.
    pub boat_of_low_spot: Option<TightSpot>,

    /// What lies in the strip.
    pub intruders: Vec<Intruder>,

    /// The least headroom along the strip, in metres, and what makes it.
    pub headroom: Option<(f64, String)>,
}
