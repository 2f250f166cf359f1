//! `snugdown replay`: a recorded or assumed motion over a stowage, what goes when, and what it takes along.

use std::fmt::Write as _;
use std::path::Path;

use serde::Serialize;

use super::args::{CompareFormat, ReplayOptions, StowageOptions};
use super::check::CAUTIONS;
use super::columns::{Align, paragraph, table};
use super::{Console, Failure, Status};
use crate::audit::Moment;
use crate::audit::replay::{
    Assumed, DrawnSea, Mounting, Replay, ReplayEvent, ReplayReport, Steady, Why, replay_assumed,
    replay_log,
};
use crate::engine::{Assessor, Stowed};
use crate::layout::Boat;
use crate::store;
use crate::store::motion_log::{LogReport, open_motion_log};

/// What is printed as JSON.
#[derive(Debug, Serialize)]
struct Report {
    program: &'static str,
    cautions: [&'static str; 2],
    boat: String,
    trip: String,
    part: String,
    log: Option<LogRead>,
    replay: ReplayReport,
}

/// What was odd about a log.
#[derive(Debug, Serialize)]
struct LogRead {
    rows: u64,
    gaps: u64,
    duplicates: u64,
    resets: u64,
    bad_rows: u64,
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

/// The moment that is asked about.
pub(super) fn moment(options: &StowageOptions) -> Result<Moment, Failure> {
    let path = &options.layout;
    let plan = store::read(path).map_err(|error| Failure::Told(error.to_string()))?;
    Moment::of(&plan, options.trip.as_deref(), options.part.as_deref())
        .map_err(|error| Failure::Told(format!("{}: {error}", path.display())))
}

pub(super) fn nothing_there() -> Failure {
    Failure::Told("there is no such part of the day".to_owned())
}

pub(super) fn run(options: &ReplayOptions, console: &mut Console<'_>) -> Result<Status, Failure> {
    let moment = moment(&options.stowage)?;
    let plan = &moment.plan;
    let trip = plan.trips.first().ok_or_else(nothing_there)?;
    let part = trip.parts.first().ok_or_else(nothing_there)?;
    let stowed = Stowed::of(plan, trip, 0).ok_or_else(nothing_there)?;
    let mut replay = Replay::new(&stowed, stowed.takes(), mounting(options, &plan.boat));
    let (source, log) = if let Some(path) = &options.log {
        let told =
            |error: &dyn std::fmt::Display| Failure::Told(format!("{}: {error}", path.display()));
        let mut reader = open_motion_log(path).map_err(|error| told(&error))?;
        let report = replay_log(
            &mut *reader,
            options.units.units(),
            &mut replay,
            &mut |_| true,
        )
        .map_err(|error| told(&error))?;
        (format!("log {}", name_of(path)), Some(report.into()))
    } else {
        let mut assessor = Assessor::default();
        let numbers = (assessor.assess(plan, trip).parts.first()).ok_or_else(nothing_there)?;
        let mut assumed = match options.sea {
            Some(seed) => {
                let sea = DrawnSea::of(&plan.boat, part.sea.as_ref(), numbers, seed)
                    .map_err(|error| Failure::Told(error.to_string()))?;
                Assumed::Drawn(Box::new(sea))
            }
            None => Assumed::Steady(Steady::of(&numbers.motion)),
        };
        let source = assumed.words();
        replay_assumed(&mut assumed, options.seconds, &mut replay, &mut |_| true);
        (source, None)
    };
    let mut replay = replay.finish(source);
    replay.coarser(options.buckets);
    let status = if replay.events.is_empty() {
        Status::Success
    } else {
        Status::Findings
    };
    let report = Report {
        program: concat!("snugdown ", env!("CARGO_PKG_VERSION")),
        cautions: CAUTIONS,
        boat: plan.boat.name.clone(),
        trip: trip.id.clone(),
        part: part.id.clone(),
        log,
        replay,
    };
    match options.stowage.format {
        CompareFormat::Json => {
            serde_json::to_writer_pretty(&mut *console.out, &report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        CompareFormat::Text => {
            let text = for_people(&report, console.terminal.columns());
            console.out.write_all(text.as_bytes())?;
        }
    }
    Ok(status)
}

fn name_of(path: &Path) -> String {
    let name = path.file_name();
    name.map_or_else(String::new, |name| name.to_string_lossy().into_owned())
}

fn mounting(options: &ReplayOptions, boat: &Boat) -> Mounting {
    Mounting {
        roll_reversed: options.roll_to_port,
        pitch_reversed: options.bow_up,
        vertical_reversed: options.falls_positive,
        turned_rad: options.sensor_turned.to_radians(),
        roll_offset_rad: options.roll_offset.to_radians(),
        pitch_offset_rad: options.pitch_offset.to_radians(),
        place_m: options.sensor_at.map_or([0.0; 3], |[x, y, z]| {
            [x - boat.pitch_axis_x(), y, z - boat.roll_axis_height()]
        }),
    }
}

/// `12.3° to starboard`.
fn roll_words(deg: f64) -> String {
    let side = if deg < 0.0 { "port" } else { "starboard" };
    format!("{:.1}° to {side}", deg.abs())
}

/// One event in a sentence.
fn event_words(event: &ReplayEvent) -> String {
    let id = &event.cylinder;
    let mut text = match event.why {
        Why::WentOver => format!("{id} stood free, rocked and went over"),
        Why::Slid => format!("{id} stood free and slid"),
        Why::LiftedOff => format!("{id} stood free and was lifted off the deck"),
        Why::ThrownOver => format!(
            "{id} was thrown over by {}",
            event.by.as_deref().unwrap_or("another")
        ),
        Why::LimitPassed => format!("{id} {}", super::people_words::goes(event.way)),
    };
    write!(text, " (roll {})", roll_words(event.roll_deg)).ok();
    if let Some(energy) = event.energy_j {
        write!(text, "; it landed with {energy:.0} J").ok();
    }
    let struck: Vec<&str> = (event.struck.iter())
        .map(|struck| struck.thing.as_str())
        .collect();
    if !struck.is_empty() {
        write!(text, "; in its way: {}", struck.join(", ")).ok();
    }
    text.push('.');
    text
}

fn for_people(report: &Report, width: usize) -> String {
    let mut text = String::new();
    let replay = &report.replay;
    let mut say = |line: &str| text.push_str(&paragraph("", 0, 0, line, width));
    say(&format!("{}: {}.", report.part, replay.motion));
    if let Some(log) = &report.log {
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
            &event_words(event),
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
    text.push('\n');
    for caution in CAUTIONS {
        text.push_str(&paragraph("", 0, 0, caution, width));
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
        ("rocked to", Align::Right),
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
                it.rocking.map_or_else(String::new, |rocking| {
                    format!("{:.1}°", rocking.lossless.largest_lean_deg)
                }),
                (it.rocking).map_or_else(String::new, |rocking| rocking.verdict.to_owned()),
            ]
        })
        .collect();
    table(&headings, &rows)
}
