//! What `day`, `lay-out` and `make-ready` understand.

use std::path::PathBuf;

use clap::ValueEnum;

use super::Format;
use super::motion::PartOptions;
use crate::day::{Pattern, Purpose};

/// What `snugdown day` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct DayOptions {
    #[command(flatten)]
    pub(in crate::cli) part: PartOptions,
}

/// What `snugdown lay-out` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct LayOutOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(in crate::cli) file: PathBuf,

    /// The kind of day
    #[arg(long = "as", value_enum, value_name = "KIND")]
    pub(in crate::cli) kind: KindOfDay,

    /// The trip, by id or name; the only one unless given
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: Format,

    /// Put the day into the plan, in place of the parts that the trip has
    #[arg(long)]
    pub(in crate::cli) write: bool,
}

/// What `snugdown make-ready` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct MakeReadyOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(in crate::cli) file: PathBuf,

    /// What for
    #[arg(long = "for", value_enum, value_name = "WHAT")]
    pub(in crate::cli) purpose: ReadyFor,

    /// The part of the day after which it is done, by id or name
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) after: String,

    /// The trip, by id or name; the only one unless given
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: Format,

    /// Put it into the plan as a part of the day of its own
    #[arg(long)]
    pub(in crate::cli) write: bool,
}

/// A [`Pattern`] as an argument.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum KindOfDay {
    /// Out, two dives at anchor with the swap of cylinders between, and home
    TwoDives,
    /// One dive with the boat adrift beside the divers
    DriftDive,
    /// A night under way with nobody on deck
    NightPassage,
}

impl From<KindOfDay> for Pattern {
    fn from(kind: KindOfDay) -> Self {
        match kind {
            KindOfDay::TwoDives => Self::TwoDives,
            KindOfDay::DriftDive => Self::Drift,
            KindOfDay::NightPassage => Self::Night,
        }
    }
}

/// A [`Purpose`] as an argument.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum ReadyFor {
    /// Everything shut, lashed and stowed, nobody on deck
    Night,
    /// The divers' cylinders kitted up and free to be taken
    Diving,
}

impl From<ReadyFor> for Purpose {
    fn from(purpose: ReadyFor) -> Self {
        match purpose {
            ReadyFor::Night => Self::Night,
            ReadyFor::Diving => Self::Diving,
        }
    }
}
