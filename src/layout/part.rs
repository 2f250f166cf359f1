use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::fixture::{is_false, is_zero};
use super::{Fill, GearShape, Id, Kit, Known, Placing, Point, Posture, Sea, Wake};

/// What the boat is doing.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Alongside or on a mooring in shelter.
    MadeFast,
    /// At anchor or on a mooring in the open.
    AtAnchor,
    /// Lying in the sea without way.
    Drifting,
    /// Making way.
    Running,
}

/// Where the numbers of a motion come from; the surer, the nearer to the limit one may go.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum MotionSource {
    /// From a recorded motion log.
    Recorded,
    /// From a stopwatch and an angle that somebody saw.
    Stopwatch,
    /// From the boat and the sea by formula.
    Estimate,
    /// From the wake of a passing boat by formula.
    Wake,
    /// A preset for a boat that runs.
    Preset,
    /// Somebody wrote it down without saying how.
    #[default]
    Assumed,
}

/// How the boat moves in a part of the day. Angles either side of the steady ones.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct MotionInput {
    /// Where the numbers come from.
    pub source: MotionSource,

    /// How they were made, in words, where a command made them; it stays when they are edited by hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub made_from: Option<String>,

    /// Roll to each side, in degrees.
    pub roll_amplitude_deg: f64,

    /// Seconds for one full roll out, over and back; the boat's own roll period unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub roll_period_s: Option<f64>,

    /// Pitch up and down, in degrees.
    #[serde(skip_serializing_if = "is_zero")]
    pub pitch_amplitude_deg: f64,

    /// Seconds for one full pitch; 2.5 s unless given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pitch_period_s: Option<f64>,

    /// Vertical acceleration up and down, in g.
    #[serde(skip_serializing_if = "is_zero")]
    pub vertical_g: f64,

    /// Steady heel in degrees, starboard down positive.
    #[serde(skip_serializing_if = "is_zero")]
    pub heel_deg: f64,

    /// Steady trim in degrees, bow down positive.
    #[serde(skip_serializing_if = "is_zero")]
    pub trim_deg: f64,

    /// Greatest acceleration forward (opening the throttle, a wave from astern), in g.
    #[serde(skip_serializing_if = "is_zero")]
    pub push_ahead_g: f64,

    /// Greatest acceleration aft (stopping, stuffing the bow), in g.
    #[serde(skip_serializing_if = "is_zero")]
    pub push_astern_g: f64,

    /// Greatest acceleration to port (turning to port, v²/R), in g.
    #[serde(skip_serializing_if = "is_zero")]
    pub push_port_g: f64,

    /// Greatest acceleration to starboard (turning to starboard, v²/R), in g.
    #[serde(skip_serializing_if = "is_zero")]
    pub push_starboard_g: f64,
}

/// What changes for one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CylinderChange {
    /// Which cylinder.
    pub cylinder: Id,

    /// Where it is from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub placing: Option<Placing>,

    /// Is the kit fitted from now on?
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit: Option<Kit>,

    /// Which way the kit faces, in degrees from the bow towards port.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kit_faces_deg: Option<Known>,

    /// How full it is from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fill: Option<Fill>,

    /// Pressure on the gauge from now on, in bar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pressure_bar: Option<f64>,
}

/// What changes for one lashing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LashingChange {
    /// Which lashing.
    pub lashing: Id,

    /// Is it made fast from now on?
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shut: Option<bool>,

    /// The cylinders it goes round from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub round: Option<Vec<Id>>,

    /// Its loose length from now on, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slack_m: Option<Known>,
}

/// What changes for the strap, chain, cord or bar across the front of a rack.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FrontChange {
    /// Which rack.
    pub rack: Id,

    /// Which front of it.
    pub front: Id,

    /// Is it shut from now on?
    pub shut: bool,
}

/// What changes for loose gear.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GearChange {
    /// Which gear.
    pub gear: Id,

    /// The floor it takes from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub floor: Option<GearShape>,

    /// Is it stowed away from now on?
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stowed: Option<bool>,
}

/// What changes for somebody.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PersonChange {
    /// Who.
    pub person: Id,

    /// The deck they are on from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub deck: Option<Id>,

    /// Where they are from now on, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at: Option<Point>,

    /// What they do with their body from now on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub posture: Option<Posture>,

    /// Have they fins on from now on?
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fins: Option<bool>,
}

/// What is different from the part before (from the start of the day, for the first part).
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Changes {
    /// Cylinders that move, are filled, emptied, kitted up.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub cylinders: Vec<CylinderChange>,

    /// Lashings that are opened, shut, moved.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub lashings: Vec<LashingChange>,

    /// Rack fronts that are opened or shut.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub fronts: Vec<FrontChange>,

    /// Gear that is moved or stowed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gear: Vec<GearChange>,

    /// People who move.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub people: Vec<PersonChange>,
}

impl Changes {
    /// Is nothing different?
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}

/// A part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// How others refer to it: "alongside", "running out", "kitting up".
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// What the boat is doing.
    pub condition: Condition,

    /// How long it lasts, in hours.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub duration_h: Option<f64>,

    /// Is nobody on deck?
    #[serde(default, skip_serializing_if = "is_false")]
    pub nobody_on_deck: bool,

    /// The sea; without a motion, the motion is estimated from it. It also gives how often a limit is passed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sea: Option<Sea>,

    /// The wake of a boat that passes; without a motion, the larger of sea and wake counts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wake: Option<Wake>,

    /// How the boat moves; unless given, estimated from sea and wake, or assumed for the condition.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub motion: Option<MotionInput>,

    /// What is different from the part before.
    #[serde(default, skip_serializing_if = "Changes::is_empty")]
    pub changes: Changes,
}
