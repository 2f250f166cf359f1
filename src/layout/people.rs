use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::fixture::{is_false, is_zero};
use super::{Id, Point};

/// What loose gear is.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum GearKind {
    /// Fins.
    Fins,
    /// Weights and weight belts.
    Weights,
    /// A box or crate.
    Crate,
    /// A kit bag.
    KitBag,
    /// A bin or tub.
    Bin,
    /// A hose.
    Hose,
    /// A line or rope.
    Line,
    /// A non-slip mat.
    Mat,
    /// A camera or other thing that breaks.
    Camera,
    /// Anything else.
    Other,
}

/// The floor that gear takes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "shape", rename_all = "snake_case", deny_unknown_fields)]
pub enum GearShape {
    /// A round thing.
    Round {
        /// Its middle, in metres.
        at: Point,
        /// Its radius in metres.
        radius_m: f64,
    },
    /// A box.
    Box {
        /// Its middle, in metres.
        at: Point,
        /// Its length along `turn_deg`, in metres.
        length_m: f64,
        /// Its width in metres.
        width_m: f64,
        /// The direction of its length, in degrees from the bow towards port.
        #[serde(default, skip_serializing_if = "is_zero")]
        turn_deg: f64,
    },
    /// A hose or line along the deck.
    Line {
        /// Its run, point by point, in metres.
        #[schemars(length(min = 2))]
        points: Vec<Point>,
        /// How thick it is, in metres.
        thickness_m: f64,
    },
}

/// Something loose on deck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Gear {
    /// How others refer to it.
    pub id: Id,

    /// What the crew call it, where that is longer than the id.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// What it is.
    pub kind: GearKind,

    /// The deck it is on.
    pub deck: Id,

    /// The floor it takes.
    pub floor: GearShape,

    /// Its height in metres.
    pub height_m: f64,

    /// Its mass in kilograms.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub mass_kg: f64,

    /// Measured friction of a mat, the less of what stands on it and of its own on the deck; that of loose
    /// rubber matting unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction: Option<f64>,

    /// Is it stowed away, so that it is not on the floor?
    #[serde(default, skip_serializing_if = "is_false")]
    pub stowed: bool,
}

/// What somebody is aboard.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// In command.
    Skipper,
    /// The skipper's second.
    Mate,
    /// Works the deck.
    Crew,
    /// Dives.
    Diver,
    /// Rides along.
    Passenger,
}

/// What somebody does with their body; it decides the floor they take.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Posture {
    /// On their feet.
    Standing,
    /// Seated.
    Seated,
    /// Seated with a kitted cylinder on the back.
    SeatedKitted,
    /// Kneeling at work.
    Kneeling,
    /// Lying, as a casualty.
    Lying,
    /// In the water.
    InWater,
    /// Below deck or in the house.
    Below,
    /// Not aboard.
    Ashore,
}

/// Somebody.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Person {
    /// How others refer to them: a name or a letter.
    pub id: Id,

    /// What they are aboard.
    pub role: Role,

    /// Their mass in kilograms; 83.9 kg (46 CFR 170.090) unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub mass_kg: Option<f64>,

    /// The deck they are on.
    pub deck: Id,

    /// Where they are, in metres.
    pub at: Point,

    /// What they do with their body.
    pub posture: Posture,

    /// Which way they face, in degrees from the bow towards port.
    #[serde(default, skip_serializing_if = "is_zero")]
    pub faces_deg: f64,

    /// Have they fins on?
    #[serde(default, skip_serializing_if = "is_false")]
    pub fins: bool,
}
