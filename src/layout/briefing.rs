use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Id;

/// What the crew settled for loading, and what they ticked off while they loaded.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Briefing {
    /// The part of the day in which the boat is loaded; the first unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<Id>,

    /// The place over which cylinders are handed aboard; the first hand-over place or gate by its id unless
    /// given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hand_over: Option<Id>,

    /// The place where cylinders are laid down if the chain stalls; the first set-down spot by its id unless
    /// given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set_down: Option<Id>,

    /// The heel that loading must not pass, in degrees; 2° unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loading_heel_deg: Option<f64>,

    /// The gap between the boat's side and the quay over which cylinders are handed, in metres.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gap_to_quay_m: Option<f64>,

    /// The loading order as the crew want it, by cylinder. Those that are not named follow in the computed
    /// order; without any the whole order is computed.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub order: Vec<Id>,

    /// What was ticked off, in the order in which it was done.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ticks: Vec<LoadingTick>,
}

/// One cylinder ticked off while loading: it is aboard, secured and pushed, or it was skipped with a reason.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoadingTick {
    /// The cylinder.
    pub cylinder: Id,

    /// Who ticked it off.
    pub by: String,

    /// When, as text: date and time of the clock of the device, with its zone.
    pub when: String,

    /// Why it was skipped; it was done unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub skipped: Option<String>,
}

impl Briefing {
    /// Is there nothing in it?
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// The tick of a cylinder.
    pub fn tick(&self, cylinder: &str) -> Option<&LoadingTick> {
        self.ticks.iter().find(|tick| tick.cylinder == cylinder)
    }
}
