//! How well a cylinder's foot grips what it stands on.

use serde::Deserialize;

use super::provenance::Sourced;

/// What touches the deck.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Foot {
    /// The bare shell or another hard thing.
    Hard,
    /// A rubber boot.
    Rubber,
}

/// A deck surface with static friction coefficients.
///
/// Once a lashing must stretch before it holds, 75 % of them count
/// ([`super::published::SLIDING_FRICTION_SHARE`]).
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Surface {
    /// Short name by which deck plans refer to it.
    pub id: String,
    /// Name for people.
    pub name: String,
    /// Hard bottom on the dry surface.
    pub hard_dry: Sourced<f64>,
    /// Hard bottom on the wet surface.
    pub hard_wet: Sourced<f64>,
    /// Rubber boot on the dry surface.
    pub rubber_dry: Sourced<f64>,
    /// Rubber boot on the wet surface.
    pub rubber_wet: Sourced<f64>,
    /// What else is known.
    pub note: Option<String>,
    /// Ids of the sources.
    pub sources: Vec<String>,
}

impl Surface {
    /// Static friction coefficient under a foot.
    pub fn friction(&self, foot: Foot, wet: bool) -> Sourced<f64> {
        match (foot, wet) {
            (Foot::Hard, false) => self.hard_dry,
            (Foot::Hard, true) => self.hard_wet,
            (Foot::Rubber, false) => self.rubber_dry,
            (Foot::Rubber, true) => self.rubber_wet,
        }
    }
}
