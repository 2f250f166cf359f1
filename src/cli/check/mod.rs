//! `snugdown check`: reads deck plans, computes, and tells people or machines.

mod people;
pub(super) mod report;

use std::path::Path;

use rayon::prelude::*;

use self::report::{FaultReport, FileReport, REPORT_VERSION, Report, TripReport};
use super::args::{CheckOptions, Colour, Cures, Format, Least};
use super::choose::{self, Called};
use super::columns::harmless;
use super::style::Paint;
use super::{Console, Failure, Status};
use crate::checks::{self, Digest, Finding, Signal};
use crate::engine::numbers::{Assessment, BalanceNumbers};
use crate::engine::{self, Assessor};
use crate::layout::{Plan, Trip};
use crate::store::{self, ReadError};

/// What stands with every answer.
pub(super) const CAUTIONS: [&str; 2] = [
    "A planning aid, no approval: it speaks of the stowage, not the boat, and knows no breaking seas, no \
     collisions, no worn gear.",
    "Local codes, the flag state, the makers of the gear and the licensed master decide.",
];

/// One file: what was found in it, or why it could not be used.
struct Checked {
    result: Result<(Plan, Vec<CheckedTrip>), ReadFailure>,
}

/// One trip.
struct CheckedTrip {
    /// Its place in the plan.
    index: usize,

    /// The only part of the day that is told, if one is wanted.
    part: Option<String>,

    /// All of them, also those that are not told.
    findings: Vec<Finding>,

    /// What is told of them, with cures.
    digest: Digest,

    /// Of the parts of the day that are told.
    numbers: Assessment,

    /// The same parts.
    balance: Vec<BalanceNumbers>,
}

/// Why a file could not be used.
enum ReadFailure {
    /// It cannot be read.
    Read(ReadError),

    /// It has no such trip or part of the day.
    Choice(String),
}

pub(super) fn run(options: &CheckOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    let files: Vec<Checked> = options
        .files
        .par_iter()
        .map(|path| check(path, options))
        .collect();

    let mut status = Status::Success;
    for (path, file) in options.files.iter().zip(&files) {
        status = status.max(status_of(file, threshold(options)));
        if let Err(failure) = &file.result {
            tell(path, failure, console)?;
        }
    }
    match options.format {
        Format::Json => {
            let report = to_report(options, files);
            serde_json::to_writer_pretty(&mut *console.out, &report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        Format::Table => {
            let paint = Paint {
                colour: match options.color {
                    Colour::Auto => console.terminal.colour,
                    Colour::Always => true,
                    Colour::Never => false,
                },
            };
            let page = people::Page {
                paint,
                width: console.terminal.columns(),
            };
            for (path, file) in options.files.iter().zip(&files) {
                if let Ok((plan, trips)) = &file.result {
                    let text = page.file(path, plan, trips);
                    console.out.write_all(text.as_bytes())?;
                }
            }
            if files.iter().any(|file| file.result.is_ok()) {
                console.out.write_all(page.cautions().as_bytes())?;
            }
        }
    }
    Ok(status)
}

/// From this signal word on a finding counts.
fn threshold(options: &CheckOptions) -> Signal {
    options.least.map_or(Signal::Caution, Signal::from)
}

fn status_of(file: &Checked, threshold: Signal) -> Status {
    let Ok((_, trips)) = &file.result else {
        return Status::Failure;
    };
    let mut lines = trips.iter().flat_map(|trip| &trip.digest.lines);
    if lines.any(|line| line.signal >= threshold && line.taken_on.is_none()) {
        Status::Findings
    } else {
        Status::Success
    }
}

/// Tells the trouble with one file.
fn tell(path: &Path, failure: &ReadFailure, console: &mut Console<'_>) -> Result<(), Failure> {
    match failure {
        // Both name the file themselves.
        ReadFailure::Read(error) => writeln!(console.err, "{}", harmless(&error.to_string()))?,
        ReadFailure::Choice(why) => {
            writeln!(
                console.err,
                "{}",
                harmless(&format!("{}: {why}", path.display()))
            )?;
        }
    }
    Ok(())
}

fn check(path: &Path, options: &CheckOptions) -> Checked {
    let result = (|| {
        let plan = store::read(path).map_err(ReadFailure::Read)?;
        let chosen = choose(&plan, options).map_err(ReadFailure::Choice)?;
        let mut assessor = Assessor::default();
        let trips = chosen
            .into_iter()
            .map(|(index, part)| check_trip(&mut assessor, &plan, (index, part), options))
            .collect();
        Ok((plan, trips))
    })();
    Checked { result }
}

/// The trips that are asked for, by their places in the plan, each with the id of the part that is.
fn choose(plan: &Plan, options: &CheckOptions) -> Result<Vec<(usize, Option<String>)>, String> {
    let mut of_trip: Vec<(usize, &Trip)> = plan.trips.iter().enumerate().collect();
    if let Some(wanted) = &options.trip {
        let id = choose::which("trip", wanted, &choose::trips(plan))?;
        of_trip.retain(|(_, trip)| trip.id == id);
    }
    let Some(wanted) = &options.part else {
        return Ok(of_trip.iter().map(|(index, _)| (*index, None)).collect());
    };
    let mut chosen = Vec::new();
    for (index, trip) in &of_trip {
        if let Some(part) = choose::find(wanted, &choose::parts(trip))? {
            chosen.push((*index, Some(part.to_owned())));
        }
    }
    if chosen.is_empty() {
        let mut known: Vec<Called<'_>> = Vec::new();
        for part in of_trip.iter().flat_map(|(_, trip)| choose::parts(trip)) {
            if !known.contains(&part) {
                known.push(part);
            }
        }
        return Err(choose::no_such("part of the day", wanted, &known));
    }
    Ok(chosen)
}

fn check_trip(
    assessor: &mut Assessor,
    plan: &Plan,
    (index, part): (usize, Option<String>),
    options: &CheckOptions,
) -> CheckedTrip {
    let trip = &plan.trips[index];
    let mut findings = checks::run(assessor, plan, trip);
    let mut numbers = assessor.assessment().clone();
    let days = assessor.days().iter().zip(&numbers.parts);
    let mut balance: Vec<BalanceNumbers> = days
        .map(|(day, numbers)| engine::balance(plan, day, numbers))
        .collect();
    // What is asked for stands first and is folded alone, so that a line is as grave as it is there; cures
    // are tried against everything.
    let is_asked = |finding: &Finding| {
        let part = part.as_ref();
        part.is_none_or(|part| finding.part == *part)
    };
    findings.sort_by_key(|finding| !is_asked(finding));
    let asked = findings.partition_point(is_asked);
    let mut digest = Digest::of(plan, trip, &findings[..asked], &numbers);
    digest
        .lines
        .retain(|line| is_told((options.least, part.as_deref()), line.signal, &line.parts));
    if let Some(part) = &part {
        digest.parts.retain(|digest| digest.part == *part);
        numbers.parts.retain(|numbers| numbers.part == *part);
        balance.retain(|balance| balance.part == *part);
    }
    // Only what is told is worth a cure.
    if options.cures == Cures::Each {
        digest.fill_cures(plan, trip, &findings);
    }
    CheckedTrip {
        index,
        part,
        findings,
        digest,
        numbers,
        balance,
    }
}

/// Is something of this signal word in these parts of the day to be told?
fn is_told<P: AsRef<str>>(
    (least, part): (Option<Least>, Option<&str>),
    signal: Signal,
    parts: &[P],
) -> bool {
    least.is_none_or(|least| signal >= Signal::from(least))
        && part.is_none_or(|wanted| parts.iter().any(|part| part.as_ref() == wanted))
}

fn to_report(options: &CheckOptions, files: Vec<Checked>) -> Report {
    let files = options.files.iter().zip(files).map(|(path, file)| {
        let mut report = FileReport {
            path: path.display().to_string(),
            boat: None,
            trouble: None,
            faults: Vec::new(),
            trips: Vec::new(),
        };
        match file.result {
            Err(ReadFailure::Read(error)) => {
                report.faults = error.faults().iter().map(FaultReport::from).collect();
                if report.faults.is_empty() {
                    report.trouble = Some(error.to_string());
                }
            }
            Err(ReadFailure::Choice(why)) => report.trouble = Some(why),
            Ok((plan, trips)) => {
                report.boat = Some(plan.boat.name.clone());
                let trips = trips.into_iter().map(|checked| {
                    let trip = &plan.trips[checked.index];
                    let wanted = (options.least, checked.part.as_deref());
                    TripReport {
                        trip: trip.id.clone(),
                        name: trip.name.clone(),
                        digest: checked.digest,
                        findings: checked
                            .findings
                            .into_iter()
                            .filter(|it| is_told(wanted, it.signal, std::slice::from_ref(&it.part)))
                            .collect(),
                        numbers: checked.numbers,
                        balance: checked.balance,
                    }
                });
                report.trips = trips.collect();
            }
        }
        report
    });
    Report {
        version: REPORT_VERSION,
        program: concat!("snugdown ", env!("CARGO_PKG_VERSION")).to_owned(),
        cautions: CAUTIONS.to_vec(),
        threshold: threshold(options),
        files: files.collect(),
    }
}
