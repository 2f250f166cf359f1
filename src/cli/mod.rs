//! The command line: reads arguments, asks the library, writes text, says how it ended.
//!
//! It is a caller like any other: [`run`] gets its arguments and its two outputs, and what it must know
//! of the terminal. The result goes to `out`, the trouble to `err`. 0: done, and nothing at or above the
//! threshold; 1: something to put right; 2: it could not be done. A reader that goes away
//! (`snugdown kinds | head`) is no failure.

mod args;
mod audit;
mod brief;
mod briefed;
mod check;
mod checks;
mod choose;
mod columns;
mod compare;
mod create;
mod crew_sheet;
mod cylinders;
mod day;
mod fleet;
mod kinds;
mod limits;
mod measuring_sheet;
mod motion;
mod motion_log;
mod reach;
mod replay;
mod schemas;
mod stowage;
mod style;
mod uncertainty;

use std::ffi::OsString;
use std::io::{self, Write};
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{CommandFactory as _, Parser as _};

pub use self::args::markdown as help_markdown;
pub use self::schemas::schemas;
pub use self::style::Terminal;

use self::args::{Args, Command};
use crate::layout;
use crate::store::{Trying, refused};

/// What is left to do after the command line.
#[derive(Debug)]
pub enum Outcome {
    /// Nothing: the program ends.
    Ended(Status),

    /// The window is to be opened, on this file if there is one.
    Window(Option<PathBuf>),
}

/// How a command ended.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Done, and nothing at or above the threshold was found.
    Success,

    /// Done, and there is something to put right.
    Findings,

    /// It could not be done: bad input or wrong usage.
    Failure,
}

impl From<Status> for ExitCode {
    fn from(status: Status) -> Self {
        match status {
            Status::Success => Self::from(0),
            Status::Findings => Self::from(1),
            Status::Failure => Self::from(2),
        }
    }
}

/// Why a command could not do its job.
#[derive(Debug, thiserror::Error)]
enum Failure {
    /// The result cannot be written.
    #[error("the result cannot be written: {}", refused(.0, Trying::ToWrite))]
    Output(#[from] io::Error),

    /// What to tell the user, in whole lines.
    #[error("{0}")]
    Told(String),
}

/// Where a command writes, and what it knows of the terminal.
struct Console<'a> {
    out: &'a mut dyn Write,
    err: &'a mut dyn Write,
    terminal: Terminal,
}

/// Runs the command line; the first argument is the program's name.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    terminal: Terminal,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> Outcome {
    let mut console = Console { out, err, terminal };
    let args: Vec<OsString> = args.into_iter().collect();
    let result = match Args::try_parse_from(&args) {
        Ok(args) => match args.command {
            Some(command) => run_command(command, &mut console),
            None => match window(args.file) {
                Ok(file) => return Outcome::Window(file),
                Err(failure) => Err(failure),
            },
        },
        Err(usage) if usage.use_stderr() => {
            if let Some(told) = no_such_command(&args).or_else(|| lists_asked_of_the_sheet(&args)) {
                Err(Failure::Told(told))
            } else {
                write!(console.err, "{usage}").ok();
                Ok(Status::Failure)
            }
        }
        Err(help) => {
            (write!(console.out, "{help}").map_err(Failure::from)).map(|()| Status::Success)
        }
    };
    let result = result.and_then(|status| {
        console.out.flush()?;
        Ok(status)
    });
    Outcome::Ended(match result {
        Ok(status) => status,
        Err(Failure::Output(error)) if error.kind() == io::ErrorKind::BrokenPipe => Status::Success,
        Err(failure) => {
            let told = columns::harmless(&failure.to_string());
            writeln!(console.err, "snugdown: {told}").ok();
            Status::Failure
        }
    })
}

/// The command that was most likely meant by a word.
fn nearest_command(word: &str) -> Option<String> {
    let names = Args::command();
    let names = names.get_subcommands().map(clap::Command::get_name);
    layout::nearest::nearest(word, names).map(ToOwned::to_owned)
}

/// What to say where the first of several words is neither a command nor a file: the parser would take it
/// for a file and find fault with the second.
fn no_such_command(args: &[OsString]) -> Option<String> {
    let (word, rest) = args.get(1..)?.split_first()?;
    let word = word.to_str().filter(|word| !word.starts_with('-'))?;
    let is_command = Args::command().find_subcommand(word).is_some();
    if is_command || word == "help" || rest.is_empty() || PathBuf::from(word).exists() {
        return None;
    }
    Some(match nearest_command(word) {
        Some(meant) => {
            let rest = rest.iter().map(|word| word.to_string_lossy());
            let rest: Vec<_> = rest.collect();
            format!(
                "there is no command {word}; did you mean `snugdown {meant} {}`?",
                rest.join(" ")
            )
        }
        None => format!("there is no command {word}; `snugdown --help` lists them"),
    })
}

/// What to say where the crew's sheet is asked for what only the brief writes.
fn lists_asked_of_the_sheet(args: &[OsString]) -> Option<String> {
    let mut words = args.get(1..)?.iter().filter_map(|word| word.to_str());
    if words.next()? != "crew-sheet" {
        return None;
    }
    let asked = words.find_map(|word| {
        let option = word.split('=').next()?;
        ["--csv", "--json", "--format", "--page"]
            .into_iter()
            .find(|known| *known == option)
    })?;
    Some(format!(
        "crew-sheet has no {asked}: it makes paper and pictures; {}",
        crew_sheet::LISTS
    ))
}

/// The file that the window opens on, unless the word was meant as a command.
fn window(file: Option<PathBuf>) -> Result<Option<PathBuf>, Failure> {
    let Some(path) = &file else { return Ok(None) };
    match path.to_str().and_then(nearest_command) {
        Some(meant) if !path.exists() => Err(Failure::Told(format!(
            "there is no file {}; did you mean `snugdown {meant}`?",
            path.display()
        ))),
        _ => Ok(file),
    }
}

fn run_command(command: Command, console: &mut Console<'_>) -> Result<Status, Failure> {
    match command {
        Command::Check(options) => return check::run(&options, console),
        Command::Compare(options) => return compare::run(&options, console),
        Command::Replay(options) => return replay::run(&options, console),
        Command::Fleet(options) => return fleet::run(&options, console),
        Command::Uncertainty(options) => uncertainty::run(&options, console)?,
        Command::Audit(options) => return audit::run(&options, console),
        Command::AuditRecord(options) => audit::start(&options, console)?,
        Command::Explain { code } => checks::explain(&code, console)?,
        Command::Checks => checks::list(console)?,
        Command::Kinds { text, units } => kinds::run(text.as_deref(), units.into(), console)?,
        Command::Limits { text } => limits::run(text.as_deref(), console)?,
        Command::Motion(options) => motion::motion(&options, console)?,
        Command::Card(options) => motion::card(&options, console)?,
        Command::Balance(options) => motion::balance_of(&options, console)?,
        Command::Day(options) => day::day(&options, console)?,
        Command::LayOut(options) => day::lay_out_day(&options, console)?,
        Command::MakeReady(options) => day::make_ready(&options, console)?,
        Command::New(options) => create::run(&options, console)?,
        Command::Cylinders(options) => cylinders::run(&options, console)?,
        Command::MeasuringSheet(options) => measuring_sheet::run(&options, console)?,
        Command::Brief(options) => brief::run(&options, console)?,
        Command::CrewSheet(options) => crew_sheet::run(&options, console)?,
        Command::Reach(options) => reach::run(&options, console)?,
        Command::Schema { of } => {
            console.out.write_all(of.text().as_bytes())?;
        }
        Command::Completions { shell } => {
            clap_complete::generate(shell, &mut Args::command(), "snugdown", console.out);
        }
    }
    Ok(Status::Success)
}
