//! What the accounts rest on: statements, measurements, files, events, and what had to be assumed.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::account::{Provenance, is_as_found};
use crate::layout::{Id, Point};

/// A spot on deck that matters: where somebody was struck, where a mark was left.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MarkedSpot {
    /// The deck.
    pub deck: Id,

    /// Where, in metres.
    pub at: Point,

    /// What it marks.
    pub what: String,

    /// How sure that is.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,
}

/// Somebody who was hurt: a letter, and nothing medical.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Injured {
    /// The letter by which the record calls them.
    pub letter: String,

    /// Where they were, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub was: Option<String>,
}

/// What makes a motion plausible.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PlausibleSource {
    /// Somebody who was there.
    Witness,
    /// Forecast, observation or buoy.
    Weather,
    /// The wake of a passing boat.
    Wake,
    /// An instrument.
    Instrument,
}

impl PlausibleSource {
    /// As it is printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Witness => "witness",
            Self::Weather => "weather",
            Self::Wake => "wake",
            Self::Instrument => "instrument",
        }
    }
}

/// A range of roll that something makes plausible.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plausible {
    /// How the report refers to it.
    pub id: Id,

    /// What kind of source it is.
    pub source: PlausibleSource,

    /// Who or what says so, and how the range was made.
    pub from: String,

    /// Roll to each side, from and to, in degrees.
    pub roll_amplitude_deg: [f64; 2],
}

/// What somebody said.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Statement {
    /// How others refer to it.
    pub id: Id,

    /// Who, by role.
    pub by: String,

    /// When it was said, as text.
    pub when: String,

    /// What was said.
    pub text: String,
}

/// What somebody measured.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Measurement {
    /// How others refer to it.
    pub id: Id,

    /// What was measured: `slack of strap L1`.
    pub what: String,

    /// The value.
    #[schemars(range(min = -1_000_000.0, max = 1_000_000.0))]
    pub value: f64,

    /// Its unit.
    pub unit: String,

    /// Who measured it, by role.
    pub by: String,

    /// When, as text.
    pub when: String,

    /// How sure it is that it was so when it happened.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,

    /// Files that show it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub files: Vec<Id>,
}

/// A photo or other file, by reference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Evidence {
    /// How others refer to it.
    pub id: Id,

    /// The file, from the folder of the record.
    pub path: String,

    /// The SHA-256 of its bytes when it was recorded.
    pub sha256: String,

    /// What it shows.
    pub what: String,

    /// Who made it, by role.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,

    /// When, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,
}

/// Something that happened, on the time line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TimedEvent {
    /// When, as text: a clock time.
    pub when: String,

    /// The same in seconds from the start of the motion log, or from the first event.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub at_s: Option<f64>,

    /// What happened.
    pub what: String,

    /// The accounts, statements or files that say so; everybody agrees unless given.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub says: Vec<Id>,

    /// How sure it is.
    #[serde(default, skip_serializing_if = "is_as_found")]
    pub state: Provenance,
}

/// Something that had to be assumed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Assumption {
    /// What: `friction of the wet deck`.
    pub what: String,

    /// The least that it may have been.
    #[schemars(range(min = -1_000_000.0, max = 1_000_000.0))]
    pub least: f64,

    /// The most that it may have been.
    #[schemars(range(min = -1_000_000.0, max = 1_000_000.0))]
    pub most: f64,

    /// The unit; nothing for a plain number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub unit: String,

    /// Why that range.
    pub why: String,
}

/// As what somebody signs.
#[derive(
    Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SignedAs {
    /// Who recorded it.
    Recorder,
    /// The master, who has received it; that is no agreement.
    Master,
    /// A surveyor.
    Surveyor,
}

impl SignedAs {
    /// As it is printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Recorder => "recorder",
            Self::Master => "master: received, not agreed",
            Self::Surveyor => "surveyor",
        }
    }
}

/// Who signs, and as what.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// As what.
    pub signed_as: SignedAs,

    /// Who; a blank line on paper unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub name: Option<String>,

    /// When, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,
}

/// What somebody wishes to have said.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Comment {
    /// Who, by role.
    pub by: String,

    /// When, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,

    /// What, as it stands.
    pub text: String,
}
