//! What `replay`, `uncertainty` and `fleet` understand.

use std::path::PathBuf;

use clap::ValueEnum;

use super::audit::CompareFormat;
use super::motion::{acceleration_unit, angle_unit, time_unit};
use crate::store::motion_log::LogUnits;

/// Which stowage.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct StowageOptions {
    /// The deck plan
    #[arg(value_name = "LAYOUT")]
    pub(in crate::cli) layout: PathBuf,

    /// The trip, by id or name; needed where the plan has several
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// The part of the day, by id or name; the first unless given
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: CompareFormat,
}

/// Units of a log whose headings do not say them.
#[expect(
    clippy::struct_field_names,
    reason = "the names are those of the options"
)]
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct UnitOptions {
    /// Unit of angles in the log where the headings do not say it: deg or rad
    #[arg(long, value_name = "UNIT", value_parser = angle_unit)]
    angle_unit: Option<f64>,

    /// Unit of time in the log where the headings do not say it: s or ms
    #[arg(long, value_name = "UNIT", value_parser = time_unit)]
    time_unit: Option<f64>,

    /// Unit of acceleration in the log where the headings do not say it: g or m/s2
    #[arg(long, value_name = "UNIT", value_parser = acceleration_unit)]
    acceleration_unit: Option<f64>,
}

impl UnitOptions {
    pub(in crate::cli) fn units(&self) -> LogUnits {
        LogUnits {
            angle_rad: self.angle_unit,
            time_s: self.time_unit,
            acceleration_m_s2: self.acceleration_unit,
        }
    }
}

/// What `snugdown replay` is asked.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option of the command"
)]
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct ReplayOptions {
    #[command(flatten)]
    pub(in crate::cli) stowage: StowageOptions,

    /// A recorded motion (CSV): time, roll, and pitch and vertical acceleration if there are any, with the units in
    /// the headings, such as `time_s`, `roll_deg`, `pitch_deg`, `az_g`
    #[arg(long, value_name = "LOG.csv", required_unless_present_any = ["steady", "sea"],
          conflicts_with_all = ["steady", "sea", "seconds"])]
    pub(in crate::cli) log: Option<PathBuf>,

    /// Instead of a log: the motion of the part, swing after swing
    #[arg(long, conflicts_with = "sea")]
    pub(in crate::cli) steady: bool,

    /// Instead of a log: the sea of the part, drawn at random with this seed
    #[arg(long, value_name = "SEED")]
    pub(in crate::cli) sea: Option<u64>,

    /// How long an assumed motion lasts, in seconds: ten minutes unless given
    #[arg(long, value_name = "S", default_value_t = 600.0, value_parser = seconds)]
    pub(in crate::cli) seconds: f64,

    #[command(flatten)]
    pub(in crate::cli) units: UnitOptions,

    /// The sensor tells roll to port as positive
    #[arg(long, requires = "log")]
    pub(in crate::cli) roll_to_port: bool,

    /// The sensor tells bow up as positive
    #[arg(long, requires = "log")]
    pub(in crate::cli) bow_up: bool,

    /// The sensor tells a fall as positive vertical acceleration
    #[arg(long, requires = "log")]
    pub(in crate::cli) falls_positive: bool,

    /// The sensor's own fore-and-aft, in degrees from the bow towards port
    #[arg(long, value_name = "DEG", default_value_t = 0.0, requires = "log", allow_hyphen_values = true,
          value_parser = finite)]
    pub(in crate::cli) sensor_turned: f64,

    /// What the sensor tells as roll while the boat is upright, in degrees
    #[arg(long, value_name = "DEG", default_value_t = 0.0, requires = "log", allow_hyphen_values = true,
          value_parser = finite)]
    pub(in crate::cli) roll_offset: f64,

    /// What the sensor tells as pitch while the boat is level, in degrees
    #[arg(long, value_name = "DEG", default_value_t = 0.0, requires = "log", allow_hyphen_values = true,
          value_parser = finite)]
    pub(in crate::cli) pitch_offset: f64,

    /// Where the sensor was: metres from the transom, to port, above the waterline, such as 4.2,-0.6,1.1
    #[arg(long, value_name = "X,Y,Z", requires = "log", allow_hyphen_values = true, value_parser = place)]
    pub(in crate::cli) sensor_at: Option<[f64; 3]>,

    /// Buckets of time in the JSON, each with the least and the most; 0 for none
    #[arg(long, value_name = "N", default_value_t = 120)]
    pub(in crate::cli) buckets: usize,
}

/// What `snugdown uncertainty` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct UncertaintyOptions {
    #[command(flatten)]
    pub(in crate::cli) stowage: StowageOptions,

    /// How many times all inputs are drawn together
    #[arg(long, value_name = "N", default_value_t = crate::audit::uncertainty::USUAL_DRAWS,
          value_parser = clap::value_parser!(u32).range(0..=100_000))]
    pub(in crate::cli) draws: u32,

    /// Seed of the draws: the same seed gives the same answer
    #[arg(long, value_name = "SEED", default_value_t = crate::audit::uncertainty::USUAL_SEED)]
    pub(in crate::cli) seed: u64,
}

/// What `snugdown fleet` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct FleetOptions {
    /// Folders with deck plans and audit records (.json) and logs (.csv), or single files
    #[arg(value_name = "FOLDER", required = true)]
    pub(in crate::cli) folders: Vec<PathBuf>,

    #[command(flatten)]
    pub(in crate::cli) units: UnitOptions,

    /// For people, for other programs, or for a spreadsheet
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) format: FleetFormat,
}

/// For whom a table of a fleet is.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum FleetFormat {
    /// Text for people
    #[default]
    Text,
    /// Other programs
    Json,
    /// A spreadsheet
    Csv,
}

fn number(text: &str) -> Option<f64> {
    text.trim().parse::<f64>().ok().filter(|it| it.is_finite())
}

fn finite(text: &str) -> Result<f64, String> {
    let found = number(text).filter(|deg| deg.abs() <= 360.0);
    found.ok_or_else(|| "write degrees, such as 1.5 or -90".to_owned())
}

fn seconds(text: &str) -> Result<f64, String> {
    let found = number(text).filter(|s| (1.0..=172_800.0).contains(s));
    found.ok_or_else(|| "write seconds, 1 to 172800 (two days)".to_owned())
}

fn place(text: &str) -> Result<[f64; 3], String> {
    let numbers: Vec<f64> = (text.split(','))
        .map_while(|word| number(word).filter(|m| m.abs() < 200.0))
        .collect();
    <[f64; 3]>::try_from(numbers).map_err(|_wrong| {
        "write three lengths in metres with commas between, such as 4.2,-0.6,1.1".to_owned()
    })
}
