//! What became of the motion log of a record, in words.

use schemars::JsonSchema;
use serde::Serialize;

use super::over_time::OverTime;
use crate::checks::words;
use crate::layout::Boat;
use crate::mechanics::recorded::LogReport;
use crate::record::{MotionLog, MotionLogFile, SensorMounting};

use super::replay::Mounting;

/// What became of the motion log.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LogTold {
    /// Why it could not be used; nothing where it was.
    pub trouble: Option<String>,

    /// Is it there and cannot be read, so that something is to be put right before the audit is made again?
    pub is_unreadable: bool,

    /// What was read, and what was odd in it.
    pub read: Vec<String>,

    /// What was put right or assumed of it: units, how the sensor was mounted, what it does not have.
    pub assumed: Vec<LogAssumed>,

    /// What a replay of it does not know.
    pub not_known: Vec<String>,
}

/// Something that was put right or assumed of a log.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LogAssumed {
    /// What.
    pub what: String,

    /// Why.
    pub why: String,
}

const NOTHING_SAID: &str = "the record says nothing of it";

impl LogTold {
    /// Of a record's log; `None` where it names none.
    pub(super) fn of(
        file: Option<&MotionLogFile>,
        log: &MotionLog,
        boat: &Boat,
        over_time: Option<&OverTime>,
    ) -> Option<Self> {
        let file = file?;
        let mut told = Self::default();
        match log {
            MotionLog::None | MotionLog::Missing => {
                told.trouble = Some(format!("{} is missing", file.path));
            }
            MotionLog::Unreadable(why) => {
                told.trouble = Some(format!("{} cannot be read: {why}", file.path));
                told.is_unreadable = true;
            }
            MotionLog::Read(recorded) => {
                told.read = read(&recorded.read);
                told.assumed = assumed(file, boat, over_time);
                told.not_known = over_time.map_or_else(Vec::new, |it| it.replay.limits.clone());
            }
        }
        Some(told)
    }
}

fn read(report: &LogReport) -> Vec<String> {
    let mut told = vec![format!("{} rows were read.", report.rows)];
    let odd = report.gaps + report.duplicates + report.resets + report.bad_rows;
    if odd > 0 {
        told.push(format!(
            "{} gaps, {} rows twice, {} resets of the clock, {} rows without numbers.",
            report.gaps, report.duplicates, report.resets, report.bad_rows
        ));
    }
    let notes = report.notes.iter();
    told.extend(notes.map(|note| format!("Line {}: {}.", note.line, note.what)));
    told
}

fn assumed(file: &MotionLogFile, boat: &Boat, over_time: Option<&OverTime>) -> Vec<LogAssumed> {
    let mut told = Vec::new();
    let mut tell = |what: String, why: String| told.push(LogAssumed { what, why });
    if let Some(units) = file.units.filter(|units| !units.words().is_empty()) {
        let what = format!("motion log: {} where no heading says it", units.words());
        tell(what, "said in the record".to_owned());
    }
    let mounted = file.mounting.as_ref();
    let words_of = mounted.map_or_else(Vec::new, |it| Mounting::of(it, boat).words());
    let why = mounted.map_or_else(|| NOTHING_SAID.to_owned(), SensorMounting::why);
    if words_of.is_empty() {
        let what = "motion log: the sensor mounted level, on the axes of roll and pitch, roll to starboard and bow \
                    down positive";
        tell(what.to_owned(), why);
    } else {
        tell(format!("motion log: {}", words::list(&words_of)), why);
    }
    // What the replay had to take, beside what was put right.
    let taken = over_time.map_or(&[][..], |it| it.replay.assumptions.as_slice());
    for what in taken.iter().filter(|what| !words_of.contains(what)) {
        tell(format!("motion log: {what}"), "the log has none".to_owned());
    }
    told
}
