use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::rack::{is_true, yes};
use super::{Id, Known, Point};

/// What a lashing is made fast to.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PointKind {
    /// An eye on a plate, bolted through.
    PadEye,
    /// A screwed-in eye bolt.
    EyeBolt,
    /// A horn cleat or bollard.
    Cleat,
    /// A stanchion of the guard rail.
    Stanchion,
    /// The guard rail itself.
    GuardRail,
    /// A patch glued to an inflatable tube.
    GluedPatch,
    /// A rail made and rated for lashing.
    LashingRail,
    /// A ring or D-ring.
    Ring,
    /// Anything else.
    Other,
}

/// The direction in which a lashing point is strongest.
#[derive(Copy, Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StraightPull {
    /// Around the vertical, in degrees from the bow towards port.
    pub turn_deg: f64,

    /// Above the deck, in degrees: 90 is straight up.
    pub up_deg: f64,
}

/// Where a lashing can be made fast.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LashingPoint {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// The deck from which its height counts.
    pub deck: Id,

    /// Where it is, in metres.
    pub at: Point,

    /// Its height above the deck in metres.
    pub height_m: f64,

    /// What it is.
    pub kind: PointKind,

    /// The pull that it can take, in kilonewtons (maximum securing load).
    #[serde(default)]
    pub strength_kn: Known,

    /// The direction for which that strength holds; every direction unless given. Pulled 45° aside,
    /// an eye keeps a quarter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub straight_pull: Option<StraightPull>,
}

/// How worn a lashing is.
#[derive(
    Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum LashCondition {
    /// As new.
    #[default]
    Good,
    /// Has a knot in it.
    Knotted,
    /// Bleached or stiff from the sun.
    Bleached,
    /// Cut or chafed.
    Cut,
}

/// A strap, cord, rope or chain from a point round cylinders to a point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Lashing {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// What it is made of, by its name in the catalogue.
    pub material: String,

    /// The pull that it can take, in kilonewtons (maximum securing load, as on its label); from the
    /// catalogue unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_kn: Option<Known>,

    /// How much it stretches: the force for one metre of stretch, in kilonewtons per metre; from the
    /// catalogue unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stiffness_kn_per_m: Option<Known>,

    /// How worn it is.
    #[serde(default, skip_serializing_if = "is_good")]
    pub condition: LashCondition,

    /// The point it starts from.
    pub from: Id,

    /// The cylinders it goes round, in order from the first point to the second.
    #[schemars(length(min = 1))]
    pub round: Vec<Id>,

    /// The point it ends at; the same as the first for a loop.
    pub to: Id,

    /// Its height on the cylinders above what they stand on, in metres.
    pub height_m: f64,

    /// How much loose length it has, in metres. Slack and pretension exclude each other.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub slack_m: Option<Known>,

    /// The pull with which it was tightened, in kilonewtons.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pretension_kn: Option<Known>,

    /// Is it made fast?
    #[serde(default = "yes", skip_serializing_if = "is_true")]
    pub shut: bool,
}

fn is_good(condition: &LashCondition) -> bool {
    *condition == LashCondition::Good
}

/// What gear aboard is.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum GearAboardKind {
    /// Webbing with a ratchet or buckle.
    Strap,
    /// Shock cord.
    Cord,
    /// Rope.
    Rope,
    /// Chain.
    Chain,
    /// A net.
    Net,
    /// A wedge or block against rolling.
    Chock,
    /// A non-slip mat.
    Mat,
    /// A cylinder boot.
    Boot,
}

/// Straps, cords, chocks and mats that are aboard and can be used for a cure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GearAboard {
    /// How others refer to it.
    pub id: Id,

    /// What it is.
    pub kind: GearAboardKind,

    /// How many there are, those in use counted.
    #[schemars(range(max = 1000))]
    pub count: u32,

    /// What it is made of, by its name in the catalogue, for straps, cords, ropes and chains.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub material: Option<String>,

    /// The pull that each can take, in kilonewtons; from the catalogue unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub strength_kn: Option<Known>,

    /// Length of each in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_m: Option<f64>,

    /// Height of each in metres, for chocks.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub height_m: Option<f64>,
}
