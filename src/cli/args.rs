//! What the command line understands.

use std::fmt::Write as _;
use std::path::PathBuf;

use clap::{CommandFactory as _, ValueEnum};

use crate::checks::Signal;
use crate::layout::{RunningKind, Sea, SpectrumKind, SpreadingKind, WatersKind};
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

    /// Print the JSON Schema of deck plans, or of what `check --format json` prints
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

    /// Only the trip with this id
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// Only the part of the day with this id
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

/// What `snugdown brief` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct BriefOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(super) layout: PathBuf,

    /// The trip; needed where the plan has several
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// The part of the day in which the boat is loaded; the first unless given
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// Which pages
    #[arg(long, value_enum, default_value_t)]
    pub(super) page: BriefPage,

    /// For people, for a spreadsheet (one page at a time) or for other programs
    #[arg(long, value_enum, default_value_t)]
    pub(super) format: BriefFormat,

    /// The heel in degrees that loading must not pass
    #[arg(long, value_name = "DEGREES", default_value_t = 2.0, value_parser = heel)]
    pub(super) heel: f64,

    /// The place over which cylinders are handed aboard
    #[arg(long, value_name = "PLACE")]
    pub(super) hand_over: Option<String>,

    /// Write to this file instead of the terminal
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,

    /// Replace the file if it is there
    #[arg(long)]
    pub(super) overwrite: bool,
}

/// Pages of a brief.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum BriefPage {
    /// All of them
    #[default]
    All,
    /// What comes aboard
    LoadList,
    /// What is made fast
    LashingList,
    /// In which order
    LoadingOrder,
    /// What to say on the quay
    TalkPoints,
}

/// For whom a brief is.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum BriefFormat {
    /// Text for people
    #[default]
    Text,
    /// A spreadsheet
    Csv,
    /// Other programs
    Json,
}

/// A heel between nothing and what nobody would load at.
fn heel(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(deg) if deg > 0.0 && deg <= 15.0 => Ok(deg),
        _ => Err("write degrees above 0 and up to 15, such as 2".to_owned()),
    }
}

/// What `snugdown crew-sheet` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct CrewSheetOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(super) layout: PathBuf,

    /// The trip; needed where the plan has several
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// The part of the day in which the boat is loaded; the first unless given
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// Where to save the sheet: a name that ends in .pdf or .svg
    #[arg(short, long, value_name = "OUT")]
    pub(super) out: Option<PathBuf>,

    /// Size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub(super) paper: PaperSize,

    /// Which way the reader faces; inboard from the hand-over place unless given
    #[arg(long, value_enum)]
    pub(super) facing: Option<Facing>,

    /// Only what to say and the loading order, large enough for arm's length
    #[arg(long)]
    pub(super) large_type: bool,

    /// Replace OUT if it is there
    #[arg(long)]
    pub(super) overwrite: bool,
}

/// Which way somebody with a sheet in hand looks.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(super) enum Facing {
    /// Towards the bow
    Ahead,
    /// Towards the stern
    Astern,
    /// Towards the port side
    Port,
    /// Towards the starboard side
    Starboard,
}

impl From<Facing> for crate::sheet::crew::Facing {
    fn from(facing: Facing) -> Self {
        match facing {
            Facing::Ahead => Self::Ahead,
            Facing::Astern => Self::Astern,
            Facing::Port => Self::Port,
            Facing::Starboard => Self::Starboard,
        }
    }
}

/// What `snugdown compare` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct CompareOptions {
    /// The deck plan as it was planned
    #[arg(value_name = "PLANNED")]
    pub(super) planned: PathBuf,

    /// The deck plan as it was found
    #[arg(value_name = "FOUND")]
    pub(super) found: PathBuf,

    /// The trip, in both files
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// The part of the day, in both files
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(super) format: CompareFormat,
}

/// What `snugdown reach` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct ReachOptions {
    /// The deck plan as it was
    #[arg(value_name = "FILE")]
    pub(super) layout: PathBuf,

    /// The spot: metres from the transom, a comma, metres to port (to starboard with a minus), such as 4.2,-0.6
    #[arg(long, value_name = "X,Y", value_parser = spot, allow_hyphen_values = true)]
    pub(super) spot: [f64; 2],

    /// The deck; the first unless given
    #[arg(long, value_name = "ID")]
    pub(super) deck: Option<String>,

    /// The trip; needed where the plan has several
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// The part of the day; the first unless given
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(super) format: CompareFormat,
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
pub(super) enum CompareFormat {
    /// Text for people
    #[default]
    Text,
    /// Other programs
    Json,
}

/// The part of the day that a command is about.
#[derive(Debug, clap::Args)]
pub(super) struct PartOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,

    /// The trip; the only one unless given
    #[arg(long, value_name = "ID")]
    pub(super) trip: Option<String>,

    /// Only the part of the day with this id
    #[arg(long, value_name = "ID")]
    pub(super) part: Option<String>,

    /// For people or for machines
    #[arg(long, value_enum, default_value_t)]
    pub(super) format: Format,
}

/// What `snugdown motion` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct MotionOptions {
    #[command(flatten)]
    pub(super) part: PartOptions,

    /// Significant wave height in metres
    #[arg(long, value_name = "M", conflicts_with = "sea_state")]
    pub(super) height: Option<f64>,

    /// Sea state of the WMO code, 0 to 8
    #[arg(long, value_name = "STATE")]
    pub(super) sea_state: Option<u32>,

    /// Peak period in seconds
    #[arg(long, value_name = "S")]
    pub(super) period: Option<f64>,

    /// Open ocean instead of coastal waters
    #[arg(long)]
    pub(super) ocean: bool,

    /// A young sea over a limited fetch (JONSWAP, peak 3.3) instead of Bretschneider's
    #[arg(long)]
    pub(super) jonswap: bool,

    /// How the sea is spread round its direction: long-crested, cosine2, cosine4 or cosine8
    #[arg(long, value_name = "HOW", value_parser = spreading)]
    pub(super) spreading: Option<SpreadingKind>,

    /// How she runs where the speed is too great for an estimate: easy, hard or airborne
    #[arg(long, value_name = "HOW", value_parser = runs)]
    pub(super) runs: Option<RunningKind>,

    /// Where the waves come from, in degrees off the bow: 0 ahead, 90 on the beam, 180 astern
    #[arg(long, value_name = "DEG")]
    pub(super) from: Option<f64>,

    /// Speed through the water in knots
    #[arg(long, value_name = "KN")]
    pub(super) speed: Option<f64>,

    /// The wake of a passing boat: height in metres, period in seconds, number of waves
    #[arg(long, value_name = "M,S,N", value_parser = three)]
    pub(super) wake: Option<[f64; 3]>,

    /// A recorded motion (CSV) instead: time, roll, and pitch and vertical acceleration if there are any, with
    /// the units in the headings, such as `time_s`, `roll_deg`, `pitch_deg`, `az_g`
    #[arg(long, value_name = "LOG.csv", conflicts_with_all = ["height", "sea_state", "wake"])]
    pub(super) log: Option<PathBuf>,

    /// Unit of angles in the log where the headings do not say it: deg or rad
    #[arg(long, value_name = "UNIT", value_parser = angle_unit, requires = "log")]
    pub(super) angle_unit: Option<f64>,

    /// Unit of time in the log where the headings do not say it: s or ms
    #[arg(long, value_name = "UNIT", value_parser = time_unit, requires = "log")]
    pub(super) time_unit: Option<f64>,

    /// Unit of acceleration in the log where the headings do not say it: g or m/s2
    #[arg(long, value_name = "UNIT", value_parser = acceleration_unit, requires = "log")]
    pub(super) acceleration_unit: Option<f64>,

    /// Put the estimate, or what was recorded, into the plan as the motion of the part
    #[arg(long)]
    pub(super) write: bool,
}

impl MotionOptions {
    /// Do the options say anything of sea or wake?
    pub(super) fn changes_something(&self) -> bool {
        self.height.is_some()
            || self.sea_state.is_some()
            || self.period.is_some()
            || self.ocean
            || self.jonswap
            || self.spreading.is_some()
            || self.runs.is_some()
            || self.from.is_some()
            || self.speed.is_some()
            || self.wake.is_some()
    }

    /// Puts what is said of the sea into one.
    pub(super) fn put_into(&self, sea: &mut Sea) {
        if self.height.is_some() || self.sea_state.is_some() {
            sea.wave_height_m = self.height;
            sea.sea_state = self.sea_state;
            sea.wave_period_s = None;
        }
        sea.wave_period_s = self.period.or(sea.wave_period_s);
        if self.ocean {
            sea.waters = WatersKind::Ocean;
        }
        if self.jonswap {
            sea.spectrum = SpectrumKind::Jonswap;
        }
        sea.spreading = self.spreading.unwrap_or(sea.spreading);
        sea.runs = self.runs.or(sea.runs);
        sea.waves_from_deg = self.from.or(sea.waves_from_deg);
        sea.speed_kn = self.speed.unwrap_or(sea.speed_kn);
    }

    /// A number of waves as it was written: 0 where it is none that a plan may have.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "checked to be a whole number of 1 to 50"
    )]
    pub(super) fn wave_count(waves: f64) -> u32 {
        if waves.fract() == 0.0 && (1.0..=50.0).contains(&waves) {
            waves as u32
        } else {
            0
        }
    }
}

/// What `snugdown card` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct CardOptions {
    #[command(flatten)]
    pub(super) part: PartOptions,

    /// Which cures are worked out
    #[arg(long, value_enum, default_value_t)]
    pub(super) cures: Cures,
}

/// What `snugdown balance` is asked.
#[derive(Debug, clap::Args)]
pub(super) struct BalanceOptions {
    #[command(flatten)]
    pub(super) part: PartOptions,

    /// A steady wind on the beam: knots, area above the water in square metres, height of its middle above
    /// half the draught in metres
    #[arg(long, value_name = "KN,M2,M", value_parser = three)]
    pub(super) wind: Option<[f64; 3]>,

    /// A steady turn: knots, radius in metres, height of the boat's centre of gravity above half the draught
    #[arg(long, value_name = "KN,M,M", value_parser = three)]
    pub(super) turn: Option<[f64; 3]>,
}

fn one_of<T: Copy>(text: &str, units: &[(&str, T)]) -> Result<T, String> {
    let found = units.iter().find(|(name, _)| *name == text);
    found.map(|(_, meant)| *meant).ok_or_else(|| {
        let names: Vec<&str> = units.iter().map(|(name, _)| *name).collect();
        format!("one of: {}", names.join(", "))
    })
}

fn spreading(text: &str) -> Result<SpreadingKind, String> {
    use SpreadingKind::{Cosine2, Cosine4, Cosine8, LongCrested};
    let known = [
        ("long-crested", LongCrested),
        ("cosine2", Cosine2),
        ("cosine4", Cosine4),
        ("cosine8", Cosine8),
    ];
    one_of(text, &known)
}

fn runs(text: &str) -> Result<RunningKind, String> {
    use RunningKind::{Airborne, Easy, Hard};
    one_of(
        text,
        &[("easy", Easy), ("hard", Hard), ("airborne", Airborne)],
    )
}

fn angle_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("deg", std::f64::consts::PI / 180.0), ("rad", 1.0)])
}

fn time_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("s", 1.0), ("ms", 1e-3)])
}

fn acceleration_unit(text: &str) -> Result<f64, String> {
    one_of(text, &[("g", 9.80665), ("m/s2", 1.0)])
}

/// Three positive numbers with commas between.
fn three(text: &str) -> Result<[f64; 3], String> {
    let numbers: Vec<f64> = (text.split(','))
        .filter_map(|word| word.trim().parse().ok())
        .filter(|number: &f64| number.is_finite() && *number > 0.0)
        .collect();
    <[f64; 3]>::try_from(numbers).map_err(|_wrong| {
        "three numbers above 0 are wanted, with commas between: 0.4,3.5,5".to_owned()
    })
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
    #[arg(long, value_enum, default_value_t)]
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

    /// The trip that gets them; the only one unless given
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
}

#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(super) enum Format {
    /// Lines for people
    #[default]
    Table,
    /// All findings and all computed numbers, see `snugdown schema check`
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

fn length(text: &str) -> Result<f64, units::ParseError> {
    units::parse(text, Quantity::Length, System::Metric)
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
