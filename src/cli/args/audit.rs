//! What `compare` and `reach` understand.

use std::path::PathBuf;

use clap::ValueEnum;

use super::PaperSize;
use super::replay::StowageOptions;

/// What `snugdown compare` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct CompareOptions {
    /// The deck plan as it was planned
    #[arg(value_name = "PLANNED")]
    pub(in crate::cli) planned: PathBuf,

    /// The deck plan as it was found
    #[arg(value_name = "FOUND")]
    pub(in crate::cli) found: PathBuf,

    /// The trip, in both files, by id or name
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// The part of the day, in both files
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: CompareFormat,
}

/// What `snugdown reach` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct ReachOptions {
    #[command(flatten)]
    pub(in crate::cli) stowage: StowageOptions,

    /// The spot: metres from the transom, a comma, metres to port (to starboard with a minus), such as 4.2,-0.6
    #[arg(long, value_name = "X,Y", value_parser = spot, allow_hyphen_values = true)]
    pub(in crate::cli) spot: [f64; 2],

    /// The deck; the first unless given
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) deck: Option<String>,
}

/// A spot on deck, within any boat that this is for.
fn spot(text: &str) -> Result<[f64; 2], String> {
    let spot = text.split_once(',').and_then(|(x, y)| {
        let number = |text: &str| text.trim().parse::<f64>().ok().filter(|m| m.abs() < 200.0);
        Some([number(x)?, number(y)?])
    });
    spot.ok_or_else(|| {
        "write two lengths in metres with a comma between, such as 4.2,-0.6".to_owned()
    })
}

/// For whom a comparison is.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum CompareFormat {
    /// Text for people
    #[default]
    Text,
    /// Other programs
    Json,
}

/// What `snugdown audit` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct AuditOptions {
    /// The audit record
    #[arg(value_name = "RECORD")]
    pub(in crate::cli) record: PathBuf,

    /// Save the report here too (PDF, or SVG with the pages below each other)
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) report: Option<PathBuf>,

    /// Paper of the report
    #[arg(long, value_enum, ignore_case = true, default_value_t)]
    pub(in crate::cli) paper: PaperSize,

    /// Save one picture (SVG) of each deck and each cylinder that could have reached the marked spot in this folder
    #[arg(long, value_name = "FOLDER")]
    pub(in crate::cli) pictures: Option<PathBuf>,

    /// Replace files that are there
    #[arg(long)]
    pub(in crate::cli) overwrite: bool,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: CompareFormat,
}

/// What `snugdown audit-record` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct AuditRecordOptions {
    /// Where to save the record
    #[arg(value_name = "RECORD")]
    pub(in crate::cli) out: PathBuf,

    /// The deck plan as it was issued
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) planned: PathBuf,

    /// The deck plan as it was found
    #[arg(long, value_name = "FILE")]
    pub(in crate::cli) found: PathBuf,

    /// The trip, in both files, by id or name
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// The part of the day in which it happened, in both files, by id or name
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) part: Option<String>,

    /// What it is about, in a few words
    #[arg(long, default_value = "Incident")]
    pub(in crate::cli) title: String,

    /// Whose account of the stowage it is, by role
    #[arg(long, default_value = "not said")]
    pub(in crate::cli) by: String,

    /// Replace RECORD if it is there
    #[arg(long)]
    pub(in crate::cli) overwrite: bool,
}
