//! What `brief` and `crew-sheet` understand.

use std::path::PathBuf;

use clap::ValueEnum;

use super::PaperSize;
use crate::layout::bounds::for_field;

/// Which loading is asked about.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct LoadingOptions {
    /// The deck plan
    #[arg(value_name = "FILE")]
    pub(in crate::cli) layout: PathBuf,

    /// The trip, by id or name; needed where the plan has several
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) trip: Option<String>,

    /// The part of the day in which the boat is loaded, by id or name; as settled in the plan, else the
    /// first
    #[arg(long, value_name = "ID")]
    pub(in crate::cli) part: Option<String>,

    /// The heel in degrees that loading must not pass, 0.1 to 15; as settled in the plan, else 2
    #[arg(long, value_name = "DEGREES", value_parser = heel, allow_negative_numbers = true)]
    pub(in crate::cli) heel: Option<f64>,

    /// The place over which cylinders are handed aboard, by id or name; as settled in the plan, else the
    /// first hand-over place or gate by its id
    #[arg(long, value_name = "PLACE")]
    pub(in crate::cli) hand_over: Option<String>,

    /// The place where cylinders are laid down if the chain stalls, by id or name; as settled in the
    /// plan, else the first set-down spot by its id
    #[arg(long, value_name = "PLACE")]
    pub(in crate::cli) set_down: Option<String>,

    /// Replace the file that is written if it is there
    #[arg(long)]
    pub(in crate::cli) overwrite: bool,
}

/// What `snugdown brief` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct BriefOptions {
    #[command(flatten)]
    pub(in crate::cli) loading: LoadingOptions,

    /// Which pages
    #[arg(long, value_enum, default_value_t)]
    pub(in crate::cli) page: BriefPage,

    /// For people, for a spreadsheet (one page at a time) or for other programs (all pages at once);
    /// unless given, as --out is named, else text
    #[arg(long, value_enum)]
    pub(in crate::cli) format: Option<BriefFormat>,

    /// Write to this file instead of the terminal: as CSV or JSON where its name ends in .csv or .json,
    /// else as text; paper and pictures are made by `snugdown crew-sheet`
    #[arg(short, long, value_name = "OUT")]
    pub(in crate::cli) out: Option<PathBuf>,
}

/// Pages of a brief.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum BriefPage {
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
pub(in crate::cli) enum BriefFormat {
    /// Text for people
    #[default]
    Text,
    /// A spreadsheet
    Csv,
    /// Other programs
    Json,
}

/// A heel in the range that the plan's file has too.
fn heel(text: &str) -> Result<f64, String> {
    match text.parse::<f64>() {
        Ok(deg) if for_field("loading_heel_deg").is_some_and(|bound| bound.holds(deg)) => Ok(deg),
        _ => Err("write degrees from 0.1 up to 15, such as 2".to_owned()),
    }
}

/// What `snugdown crew-sheet` is asked.
#[derive(Debug, clap::Args)]
pub(in crate::cli) struct CrewSheetOptions {
    #[command(flatten)]
    pub(in crate::cli) loading: LoadingOptions,

    /// Where to save it: a name that ends in .pdf or .svg, or in .png where it is one page, as with
    /// --plan or --slate
    #[arg(short, long, value_name = "OUT")]
    pub(in crate::cli) out: Option<PathBuf>,

    /// Size of the paper, A4 unless given; the plan alone as .svg or .png is a piece of its own size
    #[arg(long, value_enum, ignore_case = true)]
    pub(in crate::cli) paper: Option<PaperSize>,

    /// Which way the reader of the plan faces; inboard from the hand-over place unless given
    #[arg(long, value_enum)]
    pub(in crate::cli) facing: Option<Facing>,

    /// Only what to say and the loading order, large enough for arm's length
    #[arg(long)]
    pub(in crate::cli) large_type: bool,

    /// Only the plan, for a message to the crew
    #[arg(long, conflicts_with = "large_type")]
    pub(in crate::cli) plan: bool,

    /// Only the six lines for a slate, as a page to copy from or to write on
    #[arg(long, conflicts_with_all = ["large_type", "plan"])]
    pub(in crate::cli) slate: bool,
}

/// Which way somebody with a sheet in hand looks.
#[derive(Copy, Clone, Debug, PartialEq, Eq, ValueEnum)]
pub(in crate::cli) enum Facing {
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
