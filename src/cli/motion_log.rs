//! `snugdown motion --log`: a recorded motion in place of the estimate.

use std::io::BufRead;
use std::path::Path;

use schemars::JsonSchema;
use serde::Serialize;

use super::Failure;
use super::args::MotionOptions;
use crate::engine::numbers::PartNumbers;
use crate::engine::{LogColumns, LogMeter, recorded_motion, watched};
use crate::layout::{Boat, Id, MotionInput};
use crate::mechanics::motion_log::{Watch, WatchedBody};
use crate::store::motion_log::{
    LogError, LogPiece, LogReport, LogUnits, open_motion_log, read_motion_log,
};

/// How often a cylinder would have gone while the log was recorded.
#[derive(Debug, Serialize, JsonSchema)]
pub(super) struct Passed {
    /// The cylinder.
    pub(super) cylinder: Id,
    /// How many times its limit was passed in the log.
    pub(super) times: u64,
}

/// What a log gave.
#[derive(Debug)]
pub(super) struct ReadLog {
    pub(super) motion: MotionInput,
    report: LogReport,
}

fn open(options: &MotionOptions) -> Result<Option<Box<dyn BufRead>>, Failure> {
    let Some(path) = &options.log else {
        return Ok(None);
    };
    let reader = open_motion_log(path).map_err(|error| told(options, &error))?;
    Ok(Some(reader))
}

/// Why the log of the options cannot be read, with its name.
fn told(options: &MotionOptions, error: &LogError) -> Failure {
    let path = options.log.as_deref().unwrap_or_else(|| Path::new(""));
    Failure::Told(format!("{}: {error}", path.display()))
}

fn units(options: &MotionOptions) -> LogUnits {
    LogUnits {
        angle_rad: options.angle_unit,
        time_s: options.time_unit,
        acceleration_m_s2: options.acceleration_unit,
    }
}

/// Measures the log; `None` where there is none.
pub(super) fn measure(
    options: &MotionOptions,
    before: Option<&MotionInput>,
) -> Result<Option<ReadLog>, Failure> {
    let Some(mut reader) = open(options)? else {
        return Ok(None);
    };
    let mut meter = LogMeter::default();
    let report = read_motion_log(&mut *reader, units(options), &mut |piece| match piece {
        LogPiece::Samples(samples) => meter.push(samples),
        LogPiece::Break => meter.break_off(),
    })
    .map_err(|error| told(options, &error))?;
    let measures = meter.measures(LogColumns {
        pitch: report.has_pitch,
        vertical: report.has_vertical,
    });
    let name = options.log.as_ref().and_then(|path| path.file_name());
    let name = name.map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    Ok(Some(ReadLog {
        motion: recorded_motion(&name, &measures, before),
        report,
    }))
}

impl ReadLog {
    /// What is odd about the log, for people.
    pub(super) fn words(&self) -> Vec<String> {
        let report = &self.report;
        let mut lines = vec![format!(
            "log: {} rows; {} gaps, {} rows twice, {} resets of the clock, {} rows without numbers",
            report.rows, report.gaps, report.duplicates, report.resets, report.bad_rows
        )];
        lines.extend(
            report
                .notes
                .iter()
                .map(|note| format!("line {}: {}", note.line, note.what)),
        );
        lines
    }
}

/// Reads the log again and counts how often each cylinder of the part would have gone.
pub(super) fn passed(
    options: &MotionOptions,
    boat: &Boat,
    numbers: &PartNumbers,
) -> Result<Vec<Passed>, Failure> {
    let Some(mut reader) = open(options)? else {
        return Ok(Vec::new());
    };
    let bodies = watched(boat, numbers);
    let places: Vec<WatchedBody> = bodies.iter().map(|(_, body)| *body).collect();
    let mut watch = Watch::new(&places);
    read_motion_log(&mut *reader, units(options), &mut |piece| match piece {
        LogPiece::Samples(samples) => watch.push(samples),
        LogPiece::Break => watch.break_off(),
    })
    .map_err(|error| told(options, &error))?;
    let mut passed: Vec<Passed> = (bodies.into_iter().zip(watch.times()))
        .map(|((cylinder, _), times)| Passed {
            cylinder,
            times: *times,
        })
        .collect();
    passed.sort_by(|a, b| {
        b.times
            .cmp(&a.times)
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    Ok(passed)
}
