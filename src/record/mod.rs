//! The record of an incident: what was planned, found, said, seen and measured, by whom and when.
//!
//! The types here are the record file's own types, field for field. A record says nothing of its own about
//! why something happened: it holds the plan as issued (by reference), one or more **accounts** of the
//! stowage, each kept apart from the others, and everything that these rest on. Nobody who was hurt is
//! named: they are letters, and nothing medical has a field here.
//!
//! Inputs never change: an audit reads a record and the files it refers to, and writes its findings
//! elsewhere. Every file stands with the SHA-256 that it had when it was recorded.

mod account;
mod evidence;
mod log;
mod opened;
mod stowage;
#[cfg(test)]
pub(crate) mod testing;
mod validate;

pub use self::account::{Account, FoundCondition, FoundItem, FoundThing, LashingFound, Provenance};
pub use self::evidence::{
    Assumption, Comment, Evidence, Injured, MarkedSpot, Measurement, Plausible, PlausibleSource,
    Signature, SignedAs, Statement, TimedEvent,
};
pub use self::log::{
    AccelerationUnit, AngleUnit, LogUnitsSaid, MotionLogFile, SensorMounting, TimeUnit,
};
pub use self::opened::{FileState, Input, MotionLog, Opened};
pub use self::stowage::{AppliedNote, StowageError, stowage_of};
pub use self::validate::validate;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::layout::Id;

/// The version of the record file that this program writes.
pub const RECORD_VERSION: u32 = 1;

/// What was wanted to spare where a record does not say, as a share: common practice, no source.
pub const USUAL_MARGIN: f64 = 0.25;

/// The record of one incident.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AuditRecord {
    /// Where the schema of this file lies, so that an editor completes fields.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,

    /// The version of the file format; always 1.
    #[schemars(range(min = 1, max = 1))]
    pub version: u32,

    /// What it is about.
    pub incident: Incident,

    /// The plan as it was issued, with what was ticked off at the brief.
    pub planned: LayoutFile,

    /// The stowage as found, once for each account of it; rival accounts are kept apart.
    #[schemars(length(min = 1))]
    pub accounts: Vec<Account>,

    /// Where on deck it happened.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub marked_spot: Option<MarkedSpot>,

    /// Who was hurt, by letter.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub injured: Vec<Injured>,

    /// Motions that witnesses, weather, wakes or instruments make plausible.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub plausible: Vec<Plausible>,

    /// A log of the boat's motion, where there is one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub motion_log: Option<MotionLogFile>,

    /// What people said.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub statements: Vec<Statement>,

    /// What was measured.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub measurements: Vec<Measurement>,

    /// Photos and other files.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub files: Vec<Evidence>,

    /// What happened when, in the order of the day.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub events: Vec<TimedEvent>,

    /// What had to be assumed, with its range.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub assumptions: Vec<Assumption>,

    /// What nobody could find out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub not_known: Vec<String>,

    /// By how much more motion than was plausible a cure should have held, as a share: 0.25 is a quarter
    /// more, which is also taken unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.0, max = 3.0))]
    pub wanted_margin: Option<f64>,

    /// Who signs the report, and as what.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub signatures: Vec<Signature>,

    /// What the operator or others wish to have said, printed as an annex as it stands.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub comments: Vec<Comment>,
}

/// What the record is about.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Incident {
    /// In a few words.
    pub title: String,

    /// When it happened, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub when: Option<String>,

    /// Where the boat was, as text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,

    /// What happened, in plain words and without blame.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub what_happened: Option<String>,
}

/// A layout file by reference.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LayoutFile {
    /// The file, from the folder of the record.
    pub path: String,

    /// The SHA-256 of its bytes when it was recorded.
    pub sha256: String,

    /// The trip; its only one unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trip: Option<Id>,

    /// The part of the day in which it happened; the first unless given.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub part: Option<Id>,
}

impl AuditRecord {
    /// The margin that a cure should have had.
    pub fn margin(&self) -> f64 {
        self.wanted_margin.unwrap_or(USUAL_MARGIN)
    }

    /// A record with a plan and one account of the stowage as found, and nothing else yet.
    pub fn new(title: &str, planned: LayoutFile, account: Account) -> Self {
        Self {
            schema: None,
            version: RECORD_VERSION,
            incident: Incident {
                title: title.to_owned(),
                when: None,
                place: None,
                what_happened: None,
            },
            planned,
            accounts: vec![account],
            marked_spot: None,
            injured: Vec::new(),
            plausible: Vec::new(),
            motion_log: None,
            statements: Vec::new(),
            measurements: Vec::new(),
            files: Vec::new(),
            events: Vec::new(),
            assumptions: Vec::new(),
            not_known: Vec::new(),
            wanted_margin: None,
            signatures: Vec::new(),
            comments: Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests;
