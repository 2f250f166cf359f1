use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::Id;

/// Mass and centre of what is aboard of one sort.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MassGroup {
    /// Cylinders, racks, gear or people.
    pub group: &'static str,

    /// How many.
    pub count: usize,

    /// Their mass, in kilograms.
    pub group_mass_kg: f64,

    /// Their common centre: forward of the transom, to port, above the waterline, in metres; `None` without
    /// mass.
    pub centre_m: Option<[f64; 3]>,
}

/// Mass and centre of one thing or one of the people.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MassItem {
    /// Its name.
    pub thing: Id,

    /// Its mass, in kilograms.
    pub thing_mass_kg: f64,

    /// Its centre: forward of the transom, to port, above the waterline, in metres.
    pub thing_centre_m: [f64; 3],
}

/// The share of a deck that the stowage takes.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct DeckShare {
    /// The deck.
    pub deck: Id,

    /// Floor taken by racks and cylinders over the whole floor, 0 to 1.
    pub share_taken: f64,

    /// The greatest load of one rack or group, in kilograms per square metre.
    pub greatest_load_kg_per_m2: f64,

    /// What the deck may carry; `None` if not known.
    pub load_limit_kg_per_m2: Option<f64>,
}

/// Masses, heel and trim of a part of the day. It approves nothing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct BalanceNumbers {
    /// The part.
    pub part: Id,

    /// What is aboard, by sort.
    pub groups: Vec<MassGroup>,

    /// Each of them, in the order of the groups, then of the names.
    pub items: Vec<MassItem>,

    /// Mass of all of it, in kilograms.
    pub all_mass_kg: f64,

    /// Common centre of all of it; `None` without mass.
    pub all_centre_m: Option<[f64; 3]>,

    /// Displacement with all aboard, in kilograms.
    pub displacement_kg: Option<f64>,

    /// GM that was taken, in metres.
    pub gm_m: Option<f64>,

    /// Where GM comes from, or why there is none.
    pub gm_from: String,

    /// Heel that all of it causes, in degrees, starboard down positive; `None` without GM and displacement.
    pub heel_caused_deg: Option<f64>,

    /// Trim that all of it causes, in degrees, bow down positive; `None` where no moment to trim is given.
    pub trim_caused_deg: Option<f64>,

    /// Heel with everybody aboard at the rail, to port and to starboard, in degrees.
    pub people_at_rail_heel_deg: Option<[f64; 2]>,

    /// Mp of 46 CFR 178.330, in kg·m: for information.
    pub passenger_moment_kg_m: f64,

    /// How it was counted.
    pub passenger_moment_words: String,

    /// The decks.
    pub deck_shares: Vec<DeckShare>,

    /// What this is not.
    pub statement: &'static str,
}
