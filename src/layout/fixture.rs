use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Condition, Id, Known, Point, Surface};

/// What a fixture is.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FixtureKind {
    /// A seat along the side or across the deck.
    Bench,
    /// The steering stand.
    Console,
    /// The box over an engine: hot, and opened for the engine.
    EngineBox,
    /// An opening with a lid.
    Hatch,
    /// A closed deckhouse.
    Wheelhouse,
    /// A window or glass door.
    Glass,
    /// A winch, windlass or capstan.
    Winch,
    /// A guard rail on stanchions.
    GuardRail,
    /// A solid side above the deck.
    Bulwark,
    /// An inflatable tube.
    Tube,
    /// A ladder.
    Ladder,
    /// A gate in the rail.
    Gate,
    /// An opening in the bulwark through which water leaves the deck.
    FreeingPort,
    /// A breathing-air compressor.
    Compressor,
    /// The oxygen kit.
    OxygenKit,
    /// A fire extinguisher.
    Extinguisher,
    /// A liferaft.
    Liferaft,
    /// A fuel tank, filler or vent.
    Fuel,
    /// Something that gets hot: exhaust, galley, heater.
    Heat,
    /// A raised edge, sill or step.
    Sill,
    /// A table or locker with a top.
    Locker,
    /// A post, mast or davit.
    Post,
    /// A roof or beam overhead.
    Overhead,
    /// Anything else.
    Other,
}

/// A top that things stand on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Shelf {
    /// What it is made of.
    #[serde(default)]
    pub surface: Surface,

    /// What it may carry in all, in kilograms.
    #[serde(default)]
    pub load_limit_kg: Known,
}

/// Something built onto a deck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Fixture {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The deck it stands on.
    pub deck: Id,

    /// What it is.
    pub kind: FixtureKind,

    /// Its edge, corner by corner, in metres.
    #[schemars(length(min = 3))]
    pub outline: Vec<Point>,

    /// Height of its top above the deck in metres.
    pub height_m: f64,

    /// Height of its underside above the deck in metres: more than 0 for what hangs overhead.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub underside_m: f64,

    /// Do people walk on it (a flush hatch, a ramp)?
    #[serde(default, skip_serializing_if = "is_false")]
    pub walked_on: bool,

    /// Depth of clear floor wanted in front of it, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear_floor_m: Option<f64>,

    /// Which way its front faces, in degrees from the bow towards port; all round unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub front_deg: Option<f64>,

    /// The conditions of the boat in which nothing may cover or block it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub must_stay_open: Vec<Condition>,

    /// The floor that its lid or door sweeps when it opens, corner by corner, in metres.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub opens_over: Vec<Point>,

    /// The push that its side can take from a cylinder leaning on it, in kilonewtons; it cannot back a
    /// cylinder unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub backing_kn: Option<Known>,

    /// Its top, where things stand on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shelf: Option<Shelf>,
}

pub(super) fn is_false(flag: &bool) -> bool {
    !*flag
}

pub(super) fn is_zero(value: &f64) -> bool {
    *value == 0.0
}
