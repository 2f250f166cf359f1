use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::LayoutFile;
use crate::layout::{Cylinder, Gear, Id, Lashing};

/// How sure it is that something was so when it happened.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "how", rename_all = "snake_case", deny_unknown_fields)]
pub enum Provenance {
    /// It was recorded as it was found.
    #[default]
    AsFound,

    /// Somebody had moved it before it was recorded.
    MovedBeforeRecorded {
        /// Who, and why, as far as is known.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        by: Option<String>,
    },

    /// It was put together afterwards.
    Reconstructed {
        /// From what: statements, photos, marks on deck.
        from: String,
    },
}

impl Provenance {
    /// As it is printed: `as found`, `reconstructed from photo F2`.
    pub fn words(&self) -> String {
        match self {
            Self::AsFound => "as found".to_owned(),
            Self::MovedBeforeRecorded { by: None } => "moved before recorded".to_owned(),
            Self::MovedBeforeRecorded { by: Some(by) } => format!("moved before recorded, {by}"),
            Self::Reconstructed { from } => format!("reconstructed from {from}"),
        }
    }
}

/// One account of the stowage as it was found.
///
/// It starts from a layout file (the plan as issued unless another is named), and `found` says thing by
/// thing what was otherwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Account {
    /// How the report refers to it: `A`.
    pub id: Id,

    /// Whose account it is, by role: `deckhand, from the stern`.
    pub by: String,

    /// When it was given, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,

    /// The layout file that it starts from; the plan as issued unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub layout: Option<LayoutFile>,

    /// What was otherwise than in that layout.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub found: Vec<FoundItem>,

    /// In which condition lashings were found.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub lashings: Vec<LashingFound>,
}

/// Something that an account has otherwise than the layout it starts from.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FoundItem {
    /// What was found.
    pub thing: FoundThing,

    /// How sure that is.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,

    /// Statements, measurements and files that it rests on.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rests_on: Vec<Id>,

    /// Anything else about it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub remark: Option<String>,
}

/// What was found; it takes the place of the thing of the same name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case", deny_unknown_fields)]
pub enum FoundThing {
    /// A cylinder, as it was.
    Cylinder {
        /// The cylinder.
        cylinder: Cylinder,
    },
    /// A cylinder that was not there.
    NoCylinder {
        /// Its name.
        cylinder: Id,
    },
    /// A lashing, as it was.
    Lashing {
        /// The lashing.
        lashing: Lashing,
    },
    /// A lashing that was not there.
    NoLashing {
        /// Its name.
        lashing: Id,
    },
    /// The front of a rack, open or shut.
    Front {
        /// The rack.
        rack: Id,
        /// The front.
        front: Id,
        /// Was it shut?
        shut: bool,
    },
    /// Loose gear, as it was.
    Gear {
        /// The gear.
        gear: Gear,
    },
    /// Gear that was not there.
    NoGear {
        /// Its name.
        gear: Id,
    },
}

impl FoundThing {
    /// The name of the thing.
    pub fn id(&self) -> &Id {
        match self {
            Self::Cylinder { cylinder } => &cylinder.id,
            Self::Lashing { lashing } => &lashing.id,
            Self::Gear { gear } => &gear.id,
            Self::NoCylinder { cylinder } => cylinder,
            Self::NoLashing { lashing } => lashing,
            Self::NoGear { gear } => gear,
            Self::Front { front, .. } => front,
        }
    }
}

/// In which condition a lashing was found.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FoundCondition {
    /// Cut or chafed.
    Cut,
    /// With a knot in it.
    Knotted,
    /// Bleached or stiff from the sun.
    Bleached,
    /// Not made fast.
    Open,
    /// Round the valve instead of the shell.
    RoundTheValve,
}

impl FoundCondition {
    /// As it is printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Cut => "cut or chafed",
            Self::Knotted => "knotted",
            Self::Bleached => "bleached or stiff",
            Self::Open => "open",
            Self::RoundTheValve => "round the valve",
        }
    }

    /// What is left of the strength where the record gives no factor, with where that comes from: a knot
    /// leaves half of a rope (table of knots, catalogue source ROPE); the rest is common practice, no source.
    pub fn usual_factor(self) -> (f64, &'static str) {
        match self {
            Self::Knotted => (0.5, "table of what knots cost, catalogue source ROPE"),
            Self::Bleached => (0.5, "common practice, no source"),
            Self::Cut => (0.0, "common practice, no source"),
            Self::Open => (0.0, "it is not made fast"),
            Self::RoundTheValve => (
                0.0,
                "it slips off or shears the valve; common practice, no source",
            ),
        }
    }
}

/// How one lashing was found.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LashingFound {
    /// The lashing.
    pub lashing: Id,

    /// Its condition.
    pub condition: FoundCondition,

    /// What is left of its strength, from 0 to 1; the usual one for the condition unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.0, max = 1.0))]
    pub factor: Option<f64>,

    /// The photo that shows it, by its name among the files.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Id>,

    /// How sure that is.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,

    /// Anything else about it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub remark: Option<String>,
}

impl LashingFound {
    /// What is left of its strength.
    pub fn left(&self) -> f64 {
        self.factor
            .unwrap_or_else(|| self.condition.usual_factor().0)
    }
}

pub(super) fn is_as_found(state: &Provenance) -> bool {
    *state == Provenance::AsFound
}
