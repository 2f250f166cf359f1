//! What each deck carries.

use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::Id;

/// Mass, area and load of one deck.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct DeckNumbers {
    /// The deck.
    pub deck: Id,

    /// Its area without openings, in square metres.
    pub area_m2: f64,

    /// The floor that racks and cylinders take, in square metres.
    pub stowed_area_m2: f64,

    /// The mass of racks and cylinders, in kilograms.
    pub stowed_mass_kg: f64,

    /// The greatest load of one rack or group, in kilograms per square metre.
    pub greatest_load_kg_per_m2: f64,

    /// What makes it.
    pub greatest_load_of: Option<Id>,

    /// What the deck may carry; `None` if not known.
    pub load_limit_kg_per_m2: Option<f64>,
}
