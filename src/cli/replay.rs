//! `snugdown replay`: a recorded or assumed motion over a stowage, what goes when, and what it takes along.

use std::path::Path;

use schemars::JsonSchema;
use serde::Serialize;

use super::args::ReplayOptions;
use super::columns::{Align, paragraph, table};
use super::stowage::{Asked, Told, asked, moment, nothing_there};
use super::{Console, Failure, Status};
use crate::audit::replay::{
    Assumed, DrawnSea, Mounting, Replay, ReplayReport, Steady, replay_assumed,
};
use crate::engine::Assessor;
use crate::layout::Boat;
use crate::record::SensorMounting;
use crate::store::motion_log::{LogReport, open_motion_log, read_motion_log};

/// What is printed as JSON, beside what it is about.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Replayed {
    /// How the log was read; nothing where the motion is assumed.
    log: Option<LogRead>,
    /// What came of it.
    replay: ReplayReport,
}

/// What was odd about a log.
#[derive(Debug, Serialize, JsonSchema)]
struct LogRead {
    /// Rows that were read.
    rows: u64,
    /// Gaps in time.
    gaps: u64,
    /// Rows with the time of the one before, left out.
    duplicates: u64,
    /// Times the clock was set back.
    resets: u64,
    /// Rows left out since a cell is no number.
    bad_rows: u64,
    /// The first of all these, by line.
    notes: Vec<String>,
}

impl From<LogReport> for LogRead {
    fn from(report: LogReport) -> Self {
        Self {
            rows: report.rows,
            gaps: report.gaps,
            duplicates: report.duplicates,
            resets: report.resets,
            bad_rows: report.bad_rows,
            notes: (report.notes.iter())
                .map(|note| format!("line {}: {}", note.line, note.what))
                .collect(),
        }
    }
}

pub(super) fn run(options: &ReplayOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    let moment = moment(&options.stowage)?;
    let about = asked(&moment)?;
    let replayed = replayed(options, &about)?;
    let status = if replayed.replay.events.is_empty() {
        Status::Success
    } else {
        Status::Findings
    };
    Told::new(&about, replayed).tell(options.stowage.format, console, for_people)?;
    Ok(status)
}

fn replayed(options: &ReplayOptions, about: &Asked<'_>) -> Result<Replayed, Failure> {
    let Asked { plan, stowed, .. } = about;
    let mounting = mounting(options, &plan.boat);
    let mut replay = Replay::new(stowed, stowed.takes(), mounting);
    let (source, log) = if let Some(path) = &options.log {
        let told =
            |error: &dyn std::fmt::Display| Failure::Told(format!("{}: {error}", path.display()));
        let mut reader = open_motion_log(path).map_err(|error| told(&error))?;
        let units = options.units.units();
        let read = read_motion_log(&mut *reader, units, &mut |piece| replay.take(piece));
        let report = read.map_err(|error| told(&error))?;
        (format!("log {}", name_of(path)), Some(report.into()))
    } else {
        let mut assumed = assumed(options, about)?;
        let source = assumed.words();
        replay_assumed(&mut assumed, options.seconds, &mut replay, &mut |_| true);
        (source, None)
    };
    let mut replay = replay.finish(source);
    replay.coarser(options.buckets);
    Ok(Replayed { log, replay })
}

/// The motion that stands in for a log.
fn assumed(options: &ReplayOptions, about: &Asked<'_>) -> Result<Assumed, Failure> {
    let mut assessor = Assessor::default();
    let assessment = assessor.assess(about.plan, about.trip);
    let numbers = assessment.parts.first().ok_or_else(nothing_there)?;
    let Some(seed) = options.sea else {
        return Ok(Assumed::Steady(Steady::of(&numbers.motion)));
    };
    let sea = DrawnSea::of(&about.plan.boat, about.part.sea.as_ref(), numbers, seed)
        .map_err(|error| Failure::Told(error.to_string()))?;
    Ok(Assumed::Drawn(Box::new(sea)))
}

fn name_of(path: &Path) -> String {
    let name = path.file_name();
    name.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

fn mounting(options: &ReplayOptions, boat: &Boat) -> Mounting {
    let told = SensorMounting {
        roll_to_port_positive: options.roll_to_port,
        bow_up_positive: options.bow_up,
        fall_positive: options.falls_positive,
        turned_deg: options.sensor_turned,
        roll_offset_deg: options.roll_offset,
        pitch_offset_deg: options.pitch_offset,
        at: options.sensor_at,
        ..SensorMounting::default()
    };
    Mounting::of(&told, boat)
}

fn for_people(report: &Told<Replayed>, width: usize) -> String {
    let mut text = String::new();
    let Replayed { log, replay } = &report.answer;
    let mut say = |line: &str| text.push_str(&paragraph("", 0, 0, line, width));
    say(&format!("{}: {}.", report.part, replay.motion));
    if let Some(log) = log {
        say(&format!(
            "{} rows; {} gaps, {} rows twice, {} resets of the clock, {} rows without numbers.",
            log.rows, log.gaps, log.duplicates, log.resets, log.bad_rows
        ));
        for note in &log.notes {
            say(note);
        }
    }
    for assumption in &replay.assumptions {
        say(&format!("Put right or assumed: {assumption}."));
    }
    let [port, starboard] = replay.largest_roll_deg;
    let [up, down] = replay.largest_pitch_deg;
    say(&format!(
        "{:.0} s; largest roll {port:.1}° to port, {starboard:.1}° to starboard; largest pitch {up:.1}° bow up, \
         {down:.1}° bow down.",
        replay.lasts_s
    ));
    if replay.judged < replay.samples / 2 {
        say(&format!(
            "Only {} of {} samples stand near enough to each other to tell accelerations.",
            replay.judged, replay.samples
        ));
    }
    text.push('\n');
    if replay.events.is_empty() {
        text.push_str("Nothing went.\n");
    }
    for event in &replay.events {
        let label = format!("{:>9.2} s", event.time_s);
        text.push_str(&paragraph(
            &label,
            label.chars().count(),
            13,
            &format!("{} {}.", event.cylinder, event.sentence()),
            width,
        ));
    }
    text.push('\n');
    text.push_str(&cylinders(replay));
    text.push('\n');
    for limit in &replay.limits {
        text.push_str(&paragraph(
            "Not known to it:",
            16,
            17,
            &format!("{limit}."),
            width,
        ));
    }
    text
}

fn cylinders(replay: &ReplayReport) -> String {
    let headings = [
        ("cylinder", Align::Left),
        ("least margin", Align::Right),
        ("at s", Align::Right),
        ("passed", Align::Right),
        ("went at s", Align::Right),
        ("standing free", Align::Left),
    ];
    let number = |value: Option<f64>, decimals: usize| {
        value.map_or_else(String::new, |value| format!("{value:.decimals$}"))
    };
    let rows: Vec<Vec<String>> = (replay.cylinders.iter())
        .map(|it| {
            vec![
                it.cylinder.clone(),
                it.least_margin
                    .map_or_else(String::new, |left| format!("{:.0} %", 100.0 * left)),
                number(it.least_margin_s, 1),
                it.passed.to_string(),
                number(it.went_s, 2),
                (it.rocking).map_or_else(String::new, |rocking| rocking.sentence()),
            ]
        })
        .collect();
    table(&headings, &rows)
}
