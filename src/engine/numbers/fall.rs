//! What a cylinder that goes would reach.

use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::{Id, Point};

/// One thing reached by a falling cylinder.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Struck {
    /// What, by name.
    pub thing: Id,

    /// What sort.
    pub kind: StruckKind,

    /// Does it go too, for another cylinder?
    pub goes_too: bool,

    /// Which cylinder reaches it: the one that goes first, or one of its chain.
    pub by: Id,

    /// Is it reached only afterwards, when the fallen cylinder rolls to the low side?
    pub afterwards: bool,
}

/// What sort of thing is reached by a falling cylinder.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum StruckKind {
    /// Somebody.
    Person,
    /// A place where people are.
    Place,
    /// A walkway.
    Walkway,
    /// Loose gear.
    Gear,
    /// Glass.
    Glass,
    /// A fixture that breaks or burns: compressor, oxygen kit, fuel.
    Fixture,
    /// Another cylinder.
    Cylinder,
}

/// What an upright cylinder that nothing holds (or that goes all the same) would reach if it went.
///
/// One for each clearly different direction in which it goes within the motion, the readiest first; for
/// one that holds, the direction in which it would go first.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FallNumbers {
    /// The cylinder.
    pub cylinder: Id,

    /// The direction in which it goes, in degrees from the bow towards port.
    pub towards_deg: f64,

    /// How much of what keeps it upright the worst load case in that direction uses up, held by nothing;
    /// infinite is written as `null`.
    pub utilisation: Option<f64>,

    /// Where it stands, in metres.
    pub at: Point,

    /// How far it reaches, in metres.
    pub reach_m: f64,

    /// The floor that it sweeps, corner by corner, in metres.
    pub sweep: Vec<Point>,

    /// Its energy when it is down, in joules.
    pub energy_j: f64,

    /// What lies in the sweep, in the sweeps of the cylinders that it takes along, and where it rolls
    /// to afterwards.
    pub struck: Vec<Struck>,

    /// The cylinders that it takes along, one after the other; no more than 20 are followed.
    pub chain: Vec<Id>,
}
