use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::Serialize;

use super::AuditRecord;
use crate::layout::{Id, Plan};
use crate::mechanics::recorded::Recorded;

/// What became of a file since it was recorded.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FileState {
    /// It has the bytes that were recorded.
    Unchanged,
    /// It has other bytes.
    Changed,
    /// It is not there, or cannot be read.
    Missing,
    /// It is the record itself, for which there is nothing to hold it against.
    Itself,
}

impl FileState {
    /// As it is printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::Unchanged => "unchanged",
            Self::Changed => "changed since it was recorded",
            Self::Missing => "missing",
            Self::Itself => "this record",
        }
    }
}

/// A file that an audit was made from.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Input {
    /// What it is to the record: `plan as issued`, `photo F1`.
    pub what: String,

    /// The file as the record names it.
    pub path: String,

    /// The SHA-256 that the record has; nothing for the record itself.
    pub recorded_sha256: Option<String>,

    /// The SHA-256 of the file as it is now; nothing where it is missing.
    pub sha256: Option<String>,

    /// What became of it.
    pub state: FileState,
}

/// A record with all files that it refers to.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The record.
    pub record: AuditRecord,

    /// The plan as issued.
    pub planned: Plan,

    /// The layout that each account starts from, for accounts that name one.
    pub layouts: BTreeMap<Id, Plan>,

    /// Every file that went in, the record first.
    pub inputs: Vec<Input>,

    /// The motion log.
    pub motion_log: MotionLog,
}

/// What became of the motion log of a record.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum MotionLog {
    /// The record names none.
    #[default]
    None,
    /// It names one that is not there.
    Missing,
    /// It names one that is there and cannot be read, and why not.
    Unreadable(String),
    /// It was read.
    Read(Recorded),
}

impl MotionLog {
    /// What was recorded, where it could be read.
    pub fn recorded(&self) -> Option<&Recorded> {
        match self {
            Self::Read(recorded) => Some(recorded),
            Self::None | Self::Missing | Self::Unreadable(_) => None,
        }
    }
}

impl Opened {
    /// The layout that an account starts from.
    pub fn layout_of(&self, account: &str) -> &Plan {
        self.layouts.get(account).unwrap_or(&self.planned)
    }

    /// Files that are missing or not as they were recorded.
    pub fn doubtful(&self) -> impl Iterator<Item = &Input> {
        let is_doubtful =
            |input: &&Input| matches!(input.state, FileState::Changed | FileState::Missing);
        self.inputs.iter().filter(is_doubtful)
    }
}
