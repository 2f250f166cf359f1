use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Id, Point};

/// What a place is for.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PlaceKind {
    /// Where somebody sits.
    Seat,
    /// Where people step aboard or into the water.
    Gate,
    /// Where the boat is steered from.
    Helm,
    /// The head of a ladder.
    LadderHead,
    /// Where people gather in an emergency.
    MusterPoint,
    /// A door or companionway.
    Door,
    /// Where emergency gear is taken from.
    EmergencyGear,
    /// Where cylinders are filled.
    Filling,
    /// Where bottles are handed over the side or the quay.
    HandOver,
    /// Where bottles may be laid down for a moment.
    SetDown,
    /// Where a casualty can be laid and worked on.
    CasualtyFloor,
    /// Anything else.
    Other,
}

/// Where people are or must get to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The deck it is on.
    pub deck: Id,

    /// Where it is, in metres.
    pub at: Point,

    /// What it is for.
    pub kind: PlaceKind,

    /// The floor it needs, `[length, width]` in metres, for a place where something must fit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor_m: Option<[f64; 2]>,
}

/// A strip along which people must be able to pass.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Walkway {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The deck it is on.
    pub deck: Id,

    /// The place it comes from.
    pub from: Id,

    /// The place it leads to.
    pub to: Id,

    /// The middle of the strip, point by point from end to end, in metres.
    #[schemars(length(min = 2))]
    pub line: Vec<Point>,

    /// The clear width wanted, in metres; by the walkway's length (46 CFR 177.820(d)) unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub clear_width_m: Option<f64>,

    /// The headroom wanted, in metres; none is checked unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub headroom_m: Option<f64>,
}
