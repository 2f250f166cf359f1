//! `snugdown day`, `lay-out` and `make-ready`: the day as a whole, laid out from a pattern, and the deck made ready.

use std::fmt::Write as _;
use std::path::Path;

use schemars::JsonSchema;
use serde::Serialize;

use super::args::{DayOptions, Format, LayOutOptions, MakeReadyOptions};
use super::check::CAUTIONS;
use super::columns::{one_line, paragraph};
use super::create::save;
use super::{Console, Failure, choose};
use crate::checks;
use crate::day::{
    DayStrip, DeckStep, Deckwork, FirstToGo, LimitThen, PartCell, Pattern, Work, lay_out, secure,
};
use crate::engine::Assessor;
use crate::layout::{Condition, MotionSource, Plan, Trip};
use crate::store;

/// What `day` and `lay-out` print as JSON.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct DayReport {
    /// The program and its version.
    program: &'static str,
    /// What this is and is not.
    cautions: [&'static str; 2],
    /// The boat's name.
    boat: String,
    /// The trip.
    trip: String,
    /// The kind of day that was laid out.
    #[serde(skip_serializing_if = "Option::is_none")]
    laid_out_as: Option<&'static str>,
    /// What could not be laid out.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    cannot: Vec<String>,
    /// What was taken for granted.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    notes: Vec<String>,
    /// Each part in a few figures.
    day: DayStrip,
    /// The work on deck with which each part begins.
    work: Work,
}

/// What `make-ready` prints as JSON.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct ReadyReport {
    /// The program and its version.
    program: &'static str,
    /// What this is and is not.
    cautions: [&'static str; 2],
    /// The boat's name.
    boat: String,
    /// The trip.
    trip: String,
    /// What must be changed on deck, who does it, and how far the stowage is good before and afterwards.
    #[serde(flatten)]
    deckwork: Deckwork,
}

const PROGRAM: &str = concat!("snugdown ", env!("CARGO_PKG_VERSION"));

fn read(file: &Path, wanted: Option<&str>) -> Result<(Plan, String), Failure> {
    let plan = store::read(file).map_err(|error| Failure::Told(error.to_string()))?;
    let id = choose::trip(file, &plan, wanted)?.id.clone();
    Ok((plan, id))
}

fn trip_of<'p>(plan: &'p Plan, id: &str) -> Result<&'p Trip, Failure> {
    plan.trip(id)
        .ok_or_else(|| Failure::Told(format!("there is no trip {id:?}")))
}

fn day_of(plan: &Plan, trip: &Trip) -> (DayStrip, Work) {
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, plan, trip);
    let work = Work::of(plan, trip);
    (DayStrip::of(trip, &assessor, &findings, &work), work)
}

pub(super) fn day(options: &DayOptions, console: &mut Console<'_>) -> Result<(), Failure> {
    let (plan, id) = read(&options.part.file, options.part.trip.as_deref())?;
    let trip = trip_of(&plan, &id)?;
    let (mut day, mut work) = day_of(&plan, trip);
    if let Some(part) = &options.part.part {
        let part = &choose::part(&options.part.file, trip, part)?.1.id;
        day.parts.retain(|cell| cell.part == *part);
        work.parts.retain(|item| item.part == *part);
    }
    let report = DayReport {
        program: PROGRAM,
        cautions: CAUTIONS,
        boat: plan.boat.name.clone(),
        trip: id,
        laid_out_as: None,
        cannot: Vec::new(),
        notes: Vec::new(),
        day,
        work,
    };
    tell(&report, options.part.format, console)
}

pub(super) fn lay_out_day(
    options: &LayOutOptions,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let (plan, id) = read(&options.file, options.trip.as_deref())?;
    let trip = trip_of(&plan, &id)?;
    let pattern = Pattern::from(options.kind);
    let draft = lay_out(&plan, trip, pattern);
    if draft.parts.is_empty() {
        let mut told = format!("{} cannot be laid out:", pattern.name());
        for why in &draft.cannot {
            write!(told, "\n  {why}").ok();
        }
        return Err(Failure::Told(told));
    }
    let laid = plan
        .with(&draft.edits(trip))
        .map_err(|error| Failure::Told(error.to_string()))?;
    let (day, work) = day_of(&laid, trip_of(&laid, &id)?);
    let report = DayReport {
        program: PROGRAM,
        cautions: CAUTIONS,
        boat: plan.boat.name.clone(),
        trip: id,
        laid_out_as: Some(pattern.name()),
        cannot: draft.cannot,
        notes: draft.notes,
        day,
        work,
    };
    tell(&report, options.format, console)?;
    if options.write {
        save(&laid, &options.file)?;
    }
    Ok(())
}

pub(super) fn make_ready(
    options: &MakeReadyOptions,
    console: &mut Console<'_>,
) -> Result<(), Failure> {
    let (plan, id) = read(&options.file, options.trip.as_deref())?;
    let trip = trip_of(&plan, &id)?;
    let (after, _) = choose::part(&options.file, trip, &options.after)?;
    let deckwork = secure(&plan, trip, after, options.purpose.into())
        .ok_or_else(|| Failure::Told("there is no such part of the day".to_owned()))?;
    let edits = deckwork.edits.clone();
    match options.format {
        Format::Json => {
            let report = ReadyReport {
                program: PROGRAM,
                cautions: CAUTIONS,
                boat: plan.boat.name.clone(),
                trip: id,
                deckwork,
            };
            serde_json::to_writer_pretty(&mut *console.out, &report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        Format::Table => {
            let width = console.terminal.columns();
            let text = ready_for_people(&deckwork, width);
            console.out.write_all(text.as_bytes())?;
        }
    }
    if options.write {
        let with = plan.with(&edits);
        let with = with.map_err(|error| Failure::Told(error.to_string()))?;
        save(&with, &options.file)?;
    }
    Ok(())
}

fn tell(report: &DayReport, format: Format, console: &mut Console<'_>) -> Result<(), Failure> {
    match format {
        Format::Json => {
            serde_json::to_writer_pretty(&mut *console.out, report)
                .map_err(std::io::Error::from)?;
            writeln!(console.out)?;
        }
        Format::Table => {
            let width = console.terminal.columns();
            console
                .out
                .write_all(day_for_people(report, width).as_bytes())?;
        }
    }
    Ok(())
}

fn day_for_people(report: &DayReport, width: usize) -> String {
    let mut text = format!(
        "{}, trip {}\n",
        one_line(&report.boat),
        one_line(&report.trip)
    );
    if let Some(kind) = report.laid_out_as {
        writeln!(text, "Laid out as: {kind}").ok();
    }
    for why in &report.cannot {
        text.push_str(&paragraph("!", 1, 2, why, width));
    }
    for note in &report.notes {
        text.push_str(&paragraph("-", 1, 2, note, width));
    }
    for (cell, work) in report.day.parts.iter().zip(&report.work.parts) {
        text.push('\n');
        text.push_str(&cell_for_people(cell, width));
        for step in &work.steps {
            text.push_str(&step_for_people(step, width));
        }
    }
    writeln!(
        text,
        "\nWhole day, to put right: {}",
        report.day.to_put_right.in_words()
    )
    .ok();
    cautions(&mut text, width);
    text
}

fn cautions(text: &mut String, width: usize) {
    text.push('\n');
    text.push_str(&paragraph("", 0, 0, &CAUTIONS.join(" "), width));
}

fn cell_for_people(cell: &PartCell, width: usize) -> String {
    let lasts = cell
        .duration_h
        .map_or_else(String::new, |hours| format!(", {hours} h"));
    let name = one_line(&cell.name);
    let mut text = format!("{name}: {}{lasts}\n", condition(cell.condition));
    let mut line = |what: &str| text.push_str(&paragraph("", 0, 2, what, width));
    line(&format!(
        "rolls {:.1}° every {:.1} s ({})",
        cell.roll_amplitude_deg,
        cell.roll_period_s,
        source(cell.motion_source)
    ));
    let people = &cell.people;
    let mut words = Vec::new();
    for (count, what) in [
        (people.on_deck, "on deck"),
        (people.in_water, "in the water"),
        (people.below, "below"),
        (people.ashore, "ashore"),
    ] {
        if count > 0 {
            words.push(format!("{count} {what}"));
        }
    }
    if cell.nobody_on_deck {
        words.push("nobody on deck".to_owned());
    }
    if !words.is_empty() {
        line(&format!("people: {}", words.join(", ")));
    }
    let cylinders = &cell.cylinders;
    let mut words = Vec::new();
    for (count, what) in [
        (cylinders.full, "full"),
        (cylinders.part_used, "part used"),
        (cylinders.empty, "empty"),
        (cylinders.in_water, "in the water"),
        (cylinders.ashore, "ashore"),
        (cylinders.standing, "standing on deck"),
        (cylinders.lying, "lying"),
    ] {
        if count > 0 {
            words.push(format!("{count} {what}"));
        }
    }
    if !words.is_empty() {
        line(&format!("cylinders: {}", words.join(", ")));
    }
    let first = first_words(cell.first.as_ref());
    line(&format!(
        "to put right: {}; first to go: {first}",
        cell.to_put_right.in_words()
    ));
    text
}

fn step_for_people(step: &DeckStep, width: usize) -> String {
    let by = step.by.as_ref();
    let by = by.map_or_else(String::new, |by| format!(" ({by})"));
    let label = format!("  {:>2}.", step.number);
    let mut text = paragraph(&label, 5, 6, &format!("{}{by}", step.sentence), width);
    for left in &step.unsecured_meanwhile {
        let what = format!(
            "meanwhile {} stands unsecured: {}",
            left.cylinder, left.sentence
        );
        text.push_str(&paragraph("      -", 7, 8, &what, width));
    }
    text
}

fn ready_for_people(deckwork: &Deckwork, width: usize) -> String {
    let after = format!("After {}: {}", deckwork.after, deckwork.work.name);
    let mut text = format!("{}\n", one_line(&after));
    if deckwork.is_done_already() {
        text.push_str("Nothing is to be changed on deck.\n");
    }
    for step in &deckwork.work.steps {
        text.push_str(&step_for_people(step, width));
    }
    for why in &deckwork.cannot {
        text.push_str(&paragraph("!", 1, 2, why, width));
    }
    let mut line = |when: &str, then: &LimitThen| {
        writeln!(
            text,
            "{when} first to go: {}; to put right: {}",
            one_line(&first_words(then.first.as_ref())),
            then.to_put_right.in_words()
        )
        .ok();
    };
    line("Before:    ", &deckwork.before);
    line("Afterwards:", &deckwork.afterwards);
    cautions(&mut text, width);
    text
}

fn first_words(first: Option<&FirstToGo>) -> String {
    first.map_or_else(
        || "nothing is on deck".to_owned(),
        |first| first.words.clone(),
    )
}

fn condition(condition: Condition) -> &'static str {
    match condition {
        Condition::MadeFast => "made fast",
        Condition::AtAnchor => "at anchor",
        Condition::Drifting => "drifting",
        Condition::Running => "running",
    }
}

pub(super) fn source(source: MotionSource) -> &'static str {
    match source {
        MotionSource::Recorded => "recorded",
        MotionSource::Stopwatch => "stopwatch and angle",
        MotionSource::Estimate => "estimated from the sea",
        MotionSource::Wake => "estimated from a wake",
        MotionSource::Preset => "preset for a boat that runs",
        MotionSource::Assumed => "assumed",
    }
}
