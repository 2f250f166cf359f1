//! What `snugdown check --format json` prints: the findings and every computed number, as data.

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::{Digest, Finding, Signal};
use crate::engine::numbers::{Assessment, BalanceNumbers};
use crate::store::Fault;

/// Raised whenever a field goes or changes its meaning; a new field does not raise it.
pub(super) const REPORT_VERSION: u32 = 1;

/// The answer for all files.
#[derive(Debug, Serialize, JsonSchema)]
#[schemars(title = "Snugdown check report")]
pub(in crate::cli) struct Report {
    /// Version of this format.
    pub(super) version: u32,

    /// The program that made it, with its version.
    pub(super) program: String,

    /// What the program does not do; to be shown wherever its answers are.
    pub(super) cautions: Vec<&'static str>,

    /// From this signal word on a finding makes the program end with 1.
    pub(super) threshold: Signal,

    /// The files, in the order given.
    pub(super) files: Vec<FileReport>,
}

/// The answer for one file.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct FileReport {
    /// The file, as it was named.
    pub(super) path: String,

    /// The boat's name; missing if the file could not be read.
    pub(super) boat: Option<String>,

    /// Why the file could not be used, in words: it cannot be opened, or has no such trip or part. Faults
    /// stand in `faults` instead.
    pub(super) trouble: Option<String>,

    /// What is wrong in the file; empty for a sound one.
    pub(super) faults: Vec<FaultReport>,

    /// The trips, in the order of the file.
    pub(super) trips: Vec<TripReport>,
}

/// One thing that is wrong in a file.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct FaultReport {
    /// Line, counted from 1.
    line: usize,

    /// Column in characters, counted from 1.
    column: usize,

    /// Which field; empty when it is the file as a whole.
    field: String,

    /// What is wrong, with the value and the limit.
    message: String,

    /// What to do; may be empty.
    help: String,
}

impl From<&Fault> for FaultReport {
    fn from(fault: &Fault) -> Self {
        let Fault {
            line,
            column,
            field,
            message,
            help,
        } = fault.clone();
        Self {
            line,
            column,
            field,
            message,
            help,
        }
    }
}

/// The answer for one trip.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct TripReport {
    /// The trip.
    pub(super) trip: String,

    /// What the crew call it.
    pub(super) name: Option<String>,

    /// What a crew reads: a sentence for each part of the day with the cures that raise its limit most,
    /// and the findings folded into lines with their cures.
    pub(super) digest: Digest,

    /// The findings one by one, the gravest first. Their cures stand in the lines of the digest.
    pub(super) findings: Vec<Finding>,

    /// Every computed number, part by part.
    pub(super) numbers: Assessment,

    /// Masses, heel and trim, part by part. They approve nothing.
    pub(super) balance: Vec<BalanceNumbers>,
}
