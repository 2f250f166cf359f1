//! What the command line understands.

mod audit;
mod brief;
mod day;
mod motion;
mod replay;

use std::fmt::Write as _;
use std::path::PathBuf;

use clap::{CommandFactory as _, ValueEnum};

pub(super) use self::audit::{
    AuditOptions, AuditRecordOptions, CompareFormat, CompareOptions, ReachOptions,
};
pub(super) use self::brief::{
    BriefFormat, BriefOptions, BriefPage, CrewSheetOptions, LoadingOptions,
};
pub(super) use self::day::{DayOptions, LayOutOptions, MakeReadyOptions};
pub(super) use self::motion::{BalanceOptions, CardOptions, MotionOptions, PartOptions};
pub(super) use self::replay::{
    FleetFormat, FleetOptions, ReplayOptions, StowageOptions, UncertaintyOptions,
};

use crate::checks::Signal;
use crate::sheet::Paper;
use crate::store::drawing::{BowTowards, DrawingUnit};
use crate::units::{self, Quantity, System};

/// Where the diving cylinders stand, what holds them, and what goes first when the boat rolls.
///
/// Without a command the window opens, on FILE or on a badly stowed demonstration boat.
#[derive(Debug, clap::Parser)]
#[command(
    name = "snugdown",
    version,
    args_conflicts_with_subcommands = true,
    after_help = "A planning aid, no approval: local codes, the flag state, the makers of the gear and the \
                  licensed master decide."
)]
pub(super) struct Args {
    #[command(subcommand)]
    pub(super) command: Option<Command>,

    /// The deck plan to open in the window
    pub(super) file: Option<PathBuf>,
}

#[derive(Debug, clap::Subcommand)]
pub(super) enum Command {
    /// Tell what must be put right in deck plans
    Check(CheckOptions),

    /// Explain a check by its code
    Explain {
        /// Code or name of the check
        code: String,
    },

    /// List all checks
    Checks,

    /// List cylinder kinds and twin sets with their measures and where these come from
    Kinds {
        /// Only those whose id or name has this in it; a single one is shown in full
        text: Option<String>,

        /// Units of the measures
        #[arg(long, value_enum, default_value_t)]
        units: Units,
    },

    /// List the published limits with clause, edition and how well each is known
    Limits {
        /// Only those that have this in them
        text: Option<String>,
    },

    /// Estimate how the boat moves in a sea or a wake, with its steps, and put it into a plan
    #[command(
        after_help = "Without options for a sea it tells the motion of each part of the day as the plan has it. Wave \
                      periods unless given are the worst of those that go with the height near the coast."
    )]
    Motion(MotionOptions),

    /// Tell how far the stowage is good: in wave height, in roll, and what would raise it
    Card(CardOptions),

    /// Tell masses, centres, and the heel and trim that they cause; it approves nothing
    Balance(BalanceOptions),

    /// Tell the day part by part: who and what is where, what goes first, and the work on deck
    #[command(
        after_help = "The work on deck is what changes from the part before, in an order in which it can be done, \
                      with who does it and who stands unsecured while something is open for others."
    )]
    Day(DayOptions),

    /// Lay out a kind of day from the trip's cylinders and people, with its work on deck
    #[command(
        after_help = "It begins from how things are at the start of the trip. Without --write it only tells. A swap \
                      puts the empties down lying before the fulls go in: never both standing."
    )]
    LayOut(LayOutOptions),

    /// Tell what must be changed on deck for the night or for diving, and the limit before and after
    MakeReady(MakeReadyOptions),

    /// Start a new deck plan from the boat's length and beam, or from a DXF drawing
    New(NewOptions),

    /// Print a sheet with blanks in the order in which one measures a deck
    #[command(
        after_help = "With FILE the sheet has the boat's name and those of its fixtures and lashing points. The \
                            ending of OUT says what is written: .pdf, or .svg with the pages below each other."
    )]
    MeasuringSheet(MeasuringSheetOptions),

    /// Add a list of cylinders (CSV) to a trip
    #[command(
        after_help = "The first line of the list has the headings: number, kind, gas, pressure_bar (or \
                            pressure_psi), fill, slot, rack, stamped_tare_kg, boot, diver, analysed, id; only kind \
                            and number must be there. A cylinder without a slot is ashore until it is placed."
    )]
    Cylinders(CylindersOptions),

    /// Tell the crew what to load where, how it is secured and in which order
    #[command(
        after_help = "Everything stands for the part of the day in which the boat is loaded, the first one unless \
                            --part says otherwise. A planning aid, no approval."
    )]
    Brief(BriefOptions),

    /// Print the crew's sheet (PDF or SVG), or without --out the six lines for a slate
    CrewSheet(CrewSheetOptions),

    /// Tell what was found otherwise than planned, and what it does to the limits
    #[command(
        after_help = "Both files are read for one moment: their only trip and its first part of the day, unless \
                            named. Ends with 0 if nothing differs, 1 if something does, 2 if it cannot be told."
    )]
    Compare(CompareOptions),

    /// Tell which cylinders could have reached a spot on deck, and the motion that they needed
    Reach(ReachOptions),

    /// Replay a recorded or assumed motion: what goes when, and what it takes along
    #[command(
        after_help = "Ends with 0 if nothing goes, 1 if something does, 2 if it cannot be told. For what stands free \
                            the rocking in time decides; no credit is taken for losses at impacts."
    )]
    Replay(ReplayOptions),

    /// Tell the roll at which each cylinder goes as a band, and the input that moves it most
    Uncertainty(UncertaintyOptions),

    /// Audit folders of deck plans, audit records and logs to one table
    #[command(
        after_help = "A log belongs to the plan of the same name beside it (otter.json, otter.csv). An audit record is a \
                            row for each account, with the stowage as found and the log that it names. A file that cannot \
                            be read is a row that says so. Ends with 0 if nothing is at CAUTION or above and no log passed \
                            a limit, 1 if something is, 2 if no file can be read."
    )]
    Fleet(FleetOptions),

    /// Audit the stowage after an incident: what each cylinder needed to go, what was otherwise than planned,
    /// what would have held
    #[command(
        after_help = "The record names its files from its own folder, each with its SHA-256; none of them is \
                            changed. Ends with 0 if nothing is told, 1 if something was otherwise than planned, goes \
                            or is not as it was recorded, 2 if it cannot be told."
    )]
    Audit(AuditOptions),

    /// Start an audit record from the plan as issued and a layout as found
    AuditRecord(AuditRecordOptions),

    /// Print the JSON Schema of deck plans, of audit records, or of what `check`, `day` or `audit` prints as JSON
    Schema {
        /// Which
        #[arg(value_enum, default_value_t)]
        of: SchemaOf,
    },

    /// Print completions for a shell
    Completions {
        /// Which shell
        #[arg(value_enum)]
        shell: clap_complete::Shell,
    },
}

/// What `snugdown check` is asked.
#[derive(Debug, clap::Args)]
#[command(
    after_help = "Ends with 0 if nothing is at or above the threshold, with 1 if something is, with 2 if a file \
                  cannot be read or the usage is wrong. Findings that somebody took on stay in the list and \
                  do not count."
)]
pub(super) struct CheckOptions {
    /// The deck plans
    #[arg(required = true, value_name = "FILE")]
    pub(super) files: Vec<PathBuf>,

    /// Only the trip with this id or name
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// Only the part of the day with this id or name
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// Only findings of this signal word or above, which is also the threshold; without it, all are told
    /// and CAUTION is the threshold
    #[arg(long, value_enum, ignore_case = true)]
    pub(super) least: Option<Least>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(super) format: Format,

    /// Which cures are worked out: each is tried on a copy of the plan, which takes its time
    #[arg(long, value_enum, default_value_t)]
    pub(super) cures: Cures,

    /// Colour in the table
    #[arg(long, value_enum, default_value_t)]
    pub(super) color: Colour,
}

/// What `snugdown new` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct NewOptions {
    /// Where to save the plan
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,

    /// The boat's name
    #[arg(long)]
    pub(super) name: String,

    /// Length overall: 11.6 (metres), "38 ft", "38 ft 6 in"; that of the outline unless given
    #[arg(long, alias = "length-m", value_parser = length, required_unless_present = "outline")]
    pub(super) length: Option<f64>,

    /// Greatest beam, written like the length
    #[arg(long, alias = "beam-m", value_parser = length, required_unless_present = "outline")]
    pub(super) beam: Option<f64>,

    /// Take the deck's outline from this DXF drawing, the largest closed one on the layer
    #[arg(long, value_name = "DXF")]
    pub(super) outline: Option<PathBuf>,

    /// The layer of the drawing; may be left out if only one has an outline
    #[arg(long, value_name = "NAME", requires = "outline")]
    pub(super) layer: Option<String>,

    /// The unit of the drawing; must be given if the drawing does not say
    #[arg(long, value_enum, requires = "outline")]
    pub(super) unit: Option<UnitOfDrawing>,

    /// Which way the bow points in the drawing
    #[arg(long, value_enum, requires = "outline", default_value_t)]
    pub(super) bow: Bow,

    /// Replace FILE if it is there
    #[arg(long)]
    pub(super) overwrite: bool,
}

/// What `snugdown measuring-sheet` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct MeasuringSheetOptions {
    /// A deck plan that gives the names
    #[arg(value_name = "FILE")]
    pub(super) file: Option<PathBuf>,

    /// Where to save the sheet
    #[arg(short, long, value_name = "OUT")]
    pub(super) out: PathBuf,

    /// Size of the paper
    #[arg(long, value_enum, ignore_case = true, default_value_t)]
    pub(super) paper: PaperSize,

    /// Units in which the blanks are filled in
    #[arg(long, value_enum, default_value_t)]
    pub(super) units: Units,

    /// Replace OUT if it is there
    #[arg(long)]
    pub(super) overwrite: bool,
}

/// What `snugdown cylinders` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct CylindersOptions {
    /// The deck plan
    pub(super) layout: PathBuf,

    /// The list of cylinders
    #[arg(value_name = "LIST.csv")]
    pub(super) list: PathBuf,

    /// The trip that gets them, by id or name; the only one unless given
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// Save here and leave LAYOUT as it is
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,

    /// Replace the file of --out if it is there
    #[arg(long, requires = "out")]
    pub(super) overwrite: bool,
}

#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum SchemaOf {
    /// Of deck plans
    #[default]
    Layout,
    /// Of what `check --format json` prints
    Check,
    /// Of audit records
    AuditRecord,
    /// Of what `audit --format json` prints
    Audit,
    /// Of what `day` and `lay-out` print with `--format json`
    Day,
    /// Of what `make-ready --format json` prints
    MakeReady,
    /// Of what `motion --format json` prints
    Motion,
    /// Of what `card --format json` prints
    Card,
    /// Of what `balance --format json` prints
    Balance,
    /// Of what `compare --format json` prints
    Compare,
    /// Of what `reach --format json` prints
    Reach,
    /// Of what `replay --format json` prints
    Replay,
    /// Of what `uncertainty --format json` prints
    Uncertainty,
    /// Of what `fleet --format json` prints
    Fleet,
    /// Of what `brief --format json` prints
    Brief,
}

#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// Lines for people
    #[default]
    Table,
    /// Everything that was found and computed, for other programs; `snugdown schema` prints what it means
    Json,
}

#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Cures {
    /// For each thing to put right, and the three that raise the limit most
    #[default]
    Each,
    /// None
    None,
}

#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Colour {
    /// If it is a terminal that has colour
    #[default]
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

/// A [`Signal`] as an argument.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Least {
    #[value(name = "NOTICE")]
    Notice,
    #[value(name = "CAUTION")]
    Caution,
    #[value(name = "WARNING")]
    Warning,
    #[value(name = "DANGER")]
    Danger,
}

impl From<Least> for Signal {
    fn from(least: Least) -> Self {
        match least {
            Least::Notice => Self::Notice,
            Least::Caution => Self::Caution,
            Least::Warning => Self::Warning,
            Least::Danger => Self::Danger,
        }
    }
}

/// A [`System`] as an argument.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Units {
    /// Millimetres, kilograms, bar
    #[default]
    Metric,
    /// Inches, pounds, psi
    Us,
}

impl From<Units> for System {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => Self::Metric,
            Units::Us => Self::Us,
        }
    }
}

/// A [`DrawingUnit`] as an argument.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum UnitOfDrawing {
    Mm,
    Cm,
    M,
    In,
    Ft,
}

impl From<UnitOfDrawing> for DrawingUnit {
    fn from(unit: UnitOfDrawing) -> Self {
        match unit {
            UnitOfDrawing::Mm => Self::Millimetre,
            UnitOfDrawing::Cm => Self::Centimetre,
            UnitOfDrawing::M => Self::Metre,
            UnitOfDrawing::In => Self::Inch,
            UnitOfDrawing::Ft => Self::Foot,
        }
    }
}

/// A [`BowTowards`] as an argument.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Bow {
    #[default]
    Right,
    Up,
    Left,
    Down,
}

impl From<Bow> for BowTowards {
    fn from(bow: Bow) -> Self {
        match bow {
            Bow::Right => Self::Right,
            Bow::Up => Self::Up,
            Bow::Left => Self::Left,
            Bow::Down => Self::Down,
        }
    }
}

/// A [`Paper`] as an argument.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum PaperSize {
    /// 210 by 297 mm
    #[default]
    A4,
    /// 8.5 by 11 in
    Letter,
}

impl From<PaperSize> for Paper {
    fn from(paper: PaperSize) -> Self {
        match paper {
            PaperSize::A4 => Self::A4,
            PaperSize::Letter => Self::Letter,
        }
    }
}

/// A length as people write it; what is none is told with an example of what is.
fn length(text: &str) -> Result<f64, String> {
    units::parse(text, Quantity::Length, System::Metric).map_err(|error| {
        format!("{error}; write metres as 11.6, or with a unit: 1160cm, \"38 ft 6 in\"")
    })
}

/// The help of every command as one page, for the docs.
pub fn markdown() -> String {
    let mut root = Args::command().term_width(96);
    root.build();
    let mut page = String::from(
        "# The command line\n\nWhat `snugdown help` says, command by command. Generated; run `UPDATE_DOCS=1 \
         cargo test --test tidy` after a change.\n",
    );
    let mut section = |name: &str, command: &mut clap::Command| {
        let help = command.render_long_help().to_string();
        let lines: Vec<&str> = help.lines().map(str::trim_end).collect();
        write!(
            page,
            "\n## `{name}`\n\n```text\n{}\n```\n",
            lines.join("\n").trim_end()
        )
        .ok();
    };
    section("snugdown", &mut root);
    for command in root.get_subcommands_mut() {
        if command.get_name() != "help" {
            section(&format!("snugdown {}", command.get_name()), command);
        }
    }
    page
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_arguments_fit_together() {
        Args::command().debug_assert();
    }
}
