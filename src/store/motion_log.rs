//! A recorded motion as CSV, row by row in bounded memory: time, roll, and pitch and vertical acceleration where
//! there are any, whatever the order of the columns.
//!
//! Units stand in the headings (`roll_deg`, `Roll (rad)`, `time [ms]`, `az_g`) or are asked for. Columns are
//! separated by commas, semicolons or tabs; beside the latter two a comma may be the decimal sign. What is odd
//! (a gap, a row twice, a clock set back, a cell that is no number) is told with its line.

use std::fs::File;
use std::io::{BufRead, BufReader};
use std::path::Path;

use super::refusal::{Trying, refused};
use crate::mechanics::motion::GRAVITY;
use crate::mechanics::motion_log::Sample;
pub use crate::mechanics::recorded::{LogNote, LogPiece, LogReport, Recorded};

/// Longest line that is read, in bytes.
const LONGEST_LINE: usize = 64 * 1024;

/// Notes that are kept; all are counted.
const MOST_NOTES: usize = 20;

/// Rows without a single good one before it is said to be no log.
const MOST_BAD_ROWS: u64 = 10_000;

/// Samples that are handed on together.
const BLOCK: usize = 4096;

/// Units of columns whose headings do not say them.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct LogUnits {
    /// Radians in the unit of angles.
    pub angle_rad: Option<f64>,
    /// Seconds in the unit of time.
    pub time_s: Option<f64>,
    /// m/s² in the unit of acceleration.
    pub acceleration_m_s2: Option<f64>,
}

/// A quantity of a log whose unit must be known.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum LogQuantity {
    /// Roll and pitch.
    Angle,
    /// Time.
    Time,
    /// Vertical acceleration.
    Acceleration,
}

impl LogQuantity {
    /// How its unit is said where no heading says it: as an option of the command line, or in an audit record.
    fn how_said(self) -> &'static str {
        match self {
            Self::Angle => "--angle-unit deg or rad, in an audit record motion_log.units.angle",
            Self::Time => "--time-unit s or ms, in an audit record motion_log.units.time",
            Self::Acceleration => {
                "--acceleration-unit g or m/s2, in an audit record motion_log.units.acceleration"
            }
        }
    }
}

/// Why a log cannot be read.
#[derive(Debug, thiserror::Error)]
pub enum LogError {
    /// It cannot be opened or read on.
    #[error("the log cannot be read: {}", refused(.0, Trying::ToRead))]
    Read(#[from] std::io::Error),

    /// There is nothing in it.
    #[error("the log is empty\n  help: save it again from where it was recorded")]
    Empty,

    /// A column is missing.
    #[error(
        "line 1: there is no column for {0}\n  help: the first line has the names of the columns, such as time_s, \
         roll_deg, pitch_deg, az_g"
    )]
    NoColumn(&'static str),

    /// A heading without unit.
    #[error(
        "line 1: the heading {heading:?} has no unit\n  help: write it into the heading, such as {example}, or say it: \
         {}",
        of.how_said()
    )]
    NoUnit {
        /// The heading.
        heading: String,
        /// How it could look.
        example: &'static str,
        /// Which unit that is.
        of: LogQuantity,
    },

    /// A line beyond all measure.
    #[error(
        "line {0} is longer than {LONGEST_LINE} bytes: this is no log\n  help: name the CSV file of the log"
    )]
    LongLine(u64),

    /// Nothing but bad rows.
    #[error(
        "no row up to line {0} has numbers for time and roll: this is no log\n  help: below the headings stand rows of \
         numbers, such as 0.10,1.5"
    )]
    NoRows(u64),
}

impl LogError {
    /// What is wrong, without what to do about it.
    pub fn what(&self) -> String {
        let told = self.to_string();
        told.lines().next().unwrap_or_default().to_owned()
    }
}

#[derive(Copy, Clone, Debug)]
struct Column {
    place: usize,
    factor: f64,
}

#[derive(Copy, Clone, Debug)]
struct Columns {
    separator: u8,
    time: Column,
    roll: Column,
    pitch: Option<Column>,
    vertical: Option<Column>,
    last: usize,
}

/// Opens a log to be read once.
pub fn open_motion_log(path: &Path) -> Result<Box<dyn BufRead>, LogError> {
    Ok(Box::new(BufReader::with_capacity(
        1 << 18,
        File::open(path)?,
    )))
}

/// Reads a log to its end and hands on what it holds.
pub fn read_motion_log(
    reader: &mut dyn BufRead,
    units: LogUnits,
    each: &mut dyn FnMut(LogPiece<'_>),
) -> Result<LogReport, LogError> {
    let mut line = Vec::new();
    let mut number = 1;
    if !next_line(reader, &mut line, number)? {
        return Err(LogError::Empty);
    }
    let columns = Columns::of(&line, units)?;
    let mut reading = Reading {
        columns,
        report: LogReport {
            has_pitch: columns.pitch.is_some(),
            has_vertical: columns.vertical.is_some(),
            ..LogReport::default()
        },
        block: Vec::with_capacity(BLOCK),
        before_s: None,
        usual_step_s: None,
        each,
    };
    loop {
        number += 1;
        if !next_line(reader, &mut line, number)? {
            break;
        }
        if line.is_empty() {
            continue;
        }
        reading.row(&line, number);
        if reading.report.rows == 0 && reading.report.bad_rows > MOST_BAD_ROWS {
            return Err(LogError::NoRows(number));
        }
    }
    reading.flush();
    if reading.report.rows == 0 {
        return Err(LogError::NoRows(number));
    }
    Ok(reading.report)
}

/// Reads a log and keeps all of it.
pub fn read_whole_log(reader: &mut dyn BufRead, units: LogUnits) -> Result<Recorded, LogError> {
    let mut kept = Recorded::default();
    kept.read = read_motion_log(reader, units, &mut |piece| kept.take(piece))?;
    Ok(kept)
}

struct Reading<'a> {
    columns: Columns,
    report: LogReport,
    block: Vec<Sample>,
    before_s: Option<f64>,
    usual_step_s: Option<f64>,
    each: &'a mut dyn FnMut(LogPiece<'_>),
}

impl Reading<'_> {
    fn row(&mut self, line: &[u8], number: u64) {
        let Some(sample) = self.columns.sample(line) else {
            self.report.bad_rows += 1;
            self.note(number, "no number where one is wanted: left out".to_owned());
            return;
        };
        if let Some(before) = self.before_s {
            let step = sample.time_s - before;
            if step == 0.0 {
                self.report.duplicates += 1;
                self.note(
                    number,
                    format!("the time {} s a second time: left out", sample.time_s),
                );
                return;
            }
            if step < 0.0 {
                self.report.resets += 1;
                self.note(
                    number,
                    format!("the clock goes back from {before} to {} s", sample.time_s),
                );
                self.break_off();
            } else if self.usual_step_s.is_some_and(|usual| step > 5.0 * usual) {
                self.report.gaps += 1;
                self.note(number, format!("a gap of {step:.3} s after {before} s"));
                self.break_off();
            } else {
                // Follows a change of rate, slowly.
                self.usual_step_s = Some(
                    self.usual_step_s
                        .map_or(step, |usual| 0.95 * usual + 0.05 * step),
                );
            }
        }
        self.before_s = Some(sample.time_s);
        self.report.rows += 1;
        self.block.push(sample);
        if self.block.len() == BLOCK {
            self.flush();
        }
    }

    fn break_off(&mut self) {
        self.flush();
        (self.each)(LogPiece::Break);
    }

    fn flush(&mut self) {
        if !self.block.is_empty() {
            (self.each)(LogPiece::Samples(&self.block));
            self.block.clear();
        }
    }

    fn note(&mut self, line: u64, what: String) {
        if self.report.notes.len() < MOST_NOTES {
            self.report.notes.push(LogNote { line, what });
        }
    }
}

/// Reads a line without its end; false at the end of the log.
fn next_line(reader: &mut dyn BufRead, line: &mut Vec<u8>, number: u64) -> Result<bool, LogError> {
    line.clear();
    loop {
        let available = reader.fill_buf()?;
        if available.is_empty() {
            break;
        }
        let end = available.iter().position(|byte| *byte == b'\n');
        let taken = end.unwrap_or(available.len());
        if line.len() + taken > LONGEST_LINE {
            return Err(LogError::LongLine(number));
        }
        line.extend_from_slice(&available[..taken]);
        let used = taken + usize::from(end.is_some());
        reader.consume(used);
        if end.is_some() {
            if line.last() == Some(&b'\r') {
                line.pop();
            }
            return Ok(true);
        }
    }
    Ok(!line.is_empty())
}

impl Columns {
    fn of(line: &[u8], units: LogUnits) -> Result<Self, LogError> {
        let text = String::from_utf8_lossy(line);
        let text = text.trim_start_matches('\u{feff}');
        let separator = [';', '\t']
            .into_iter()
            .find(|separator| text.contains(*separator))
            .unwrap_or(',');
        let headings: Vec<&str> = text
            .split(separator)
            .map(|heading| heading.trim().trim_matches('"').trim())
            .collect();
        let find = |names: &[&str]| {
            headings.iter().enumerate().find_map(|(place, heading)| {
                let (name, unit) = name_and_unit(heading);
                names
                    .contains(&name.as_str())
                    .then(|| (place, (*heading).to_owned(), unit))
            })
        };
        let column =
            |found: (usize, String, String), factor: Option<f64>, of: LogQuantity, example| {
                let (place, heading, _) = found;
                factor
                    .map(|factor| Column { place, factor })
                    .ok_or(LogError::NoUnit {
                        heading,
                        example,
                        of,
                    })
            };
        let time = find(&["time", "t", "seconds", "elapsed"]).ok_or(LogError::NoColumn("time"))?;
        let time_s = unit_of(TIMES, &time.2).or(units.time_s);
        let roll = find(&["roll", "heel", "phi"]).ok_or(LogError::NoColumn("roll"))?;
        let angle = |unit: &str| unit_of(ANGLES, unit).or(units.angle_rad);
        let roll_rad = angle(&roll.2);
        let pitch = find(&["pitch", "theta", "trim"]);
        let vertical = find(&[
            "az",
            "acc_z",
            "accel_z",
            "acceleration_z",
            "vertical",
            "heave_acceleration",
        ]);
        let pitch = pitch.map(|found| {
            let factor = angle(&found.2);
            column(found, factor, LogQuantity::Angle, "pitch_deg")
        });
        let vertical = vertical.map(|found| {
            let factor = unit_of(ACCELERATIONS, &found.2).or(units.acceleration_m_s2);
            column(found, factor, LogQuantity::Acceleration, "az_m_s2")
        });
        let mut columns = Self {
            separator: u8::try_from(separator).unwrap_or(b','),
            time: column(time, time_s, LogQuantity::Time, "time_s")?,
            roll: column(roll, roll_rad, LogQuantity::Angle, "roll_deg")?,
            pitch: pitch.transpose()?,
            vertical: vertical.transpose()?,
            last: 0,
        };
        let places = [
            Some(columns.time),
            Some(columns.roll),
            columns.pitch,
            columns.vertical,
        ];
        columns.last = places
            .iter()
            .flatten()
            .map(|column| column.place)
            .max()
            .unwrap_or(0);
        Ok(columns)
    }

    /// The sample of a row; `None` where a wanted cell is no finite number.
    fn sample(&self, line: &[u8]) -> Option<Sample> {
        let mut sample = Sample::default();
        let mut found = 0_u32;
        let cells = line.split(|byte| *byte == self.separator);
        for (place, cell) in cells.enumerate().take(self.last + 1) {
            let mut take = |column: Column, value: &mut f64| {
                if column.place == place
                    && let Some(read) = number(cell, self.separator)
                {
                    *value = read * column.factor;
                    found += 1;
                }
            };
            take(self.time, &mut sample.time_s);
            take(self.roll, &mut sample.roll_rad);
            if let Some(column) = self.pitch {
                take(column, &mut sample.pitch_rad);
            }
            if let Some(column) = self.vertical {
                take(column, &mut sample.vertical);
            }
        }
        let wanted = 2 + u32::from(self.pitch.is_some()) + u32::from(self.vertical.is_some());
        let finite = sample.time_s.is_finite() && sample.roll_rad.abs() <= 7.0;
        let finite = finite && sample.pitch_rad.abs() <= 7.0 && sample.vertical.abs() <= 1000.0;
        (found == wanted && finite).then_some(sample)
    }
}

fn number(cell: &[u8], separator: u8) -> Option<f64> {
    let text = std::str::from_utf8(cell).ok()?.trim().trim_matches('"');
    let value: f64 = match text.parse() {
        Ok(value) => value,
        Err(_) if separator != b',' => text.replace(',', ".").parse().ok()?,
        Err(_) => return None,
    };
    value.is_finite().then_some(value)
}

const TIMES: &[(&str, f64)] = &[
    ("s", 1.0),
    ("sec", 1.0),
    ("ms", 1e-3),
    ("us", 1e-6),
    ("min", 60.0),
    ("h", 3600.0),
];
const ANGLES: &[(&str, f64)] = &[
    ("deg", std::f64::consts::PI / 180.0),
    ("°", std::f64::consts::PI / 180.0),
    ("degrees", std::f64::consts::PI / 180.0),
    ("rad", 1.0),
];
const ACCELERATIONS: &[(&str, f64)] = &[
    ("m_s2", 1.0),
    ("m/s2", 1.0),
    ("m/s²", 1.0),
    ("m/s^2", 1.0),
    ("g", GRAVITY),
];

fn unit_of(units: &[(&str, f64)], unit: &str) -> Option<f64> {
    units
        .iter()
        .find(|(name, _)| *name == unit)
        .map(|(_, factor)| *factor)
}

/// `Roll (deg)` or `roll_deg` as `roll` and `deg`.
fn name_and_unit(heading: &str) -> (String, String) {
    let lower = heading.to_lowercase();
    for (open, close) in [('(', ')'), ('[', ']')] {
        if let Some((name, rest)) = lower.split_once(open) {
            let unit = rest.trim_end().trim_end_matches(close).trim();
            return (name.trim().to_owned(), unit.to_owned());
        }
    }
    for units in [TIMES, ANGLES, ACCELERATIONS] {
        for (unit, _) in units {
            if let Some(name) = lower
                .strip_suffix(unit)
                .and_then(|name| name.strip_suffix('_'))
            {
                return (name.to_owned(), (*unit).to_owned());
            }
        }
    }
    (lower, String::new())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn read(text: &[u8], units: LogUnits) -> (Result<LogReport, LogError>, Vec<Sample>, usize) {
        let (mut samples, mut breaks) = (Vec::new(), 0);
        let report = read_motion_log(&mut &*text, units, &mut |piece| match piece {
            LogPiece::Samples(block) => samples.extend_from_slice(block),
            LogPiece::Break => breaks += 1,
        });
        (report, samples, breaks)
    }

    #[test]
    fn columns_in_any_order_with_units_in_the_headings() {
        let text = "pitch [rad];x;Roll (deg);time_ms;az (g)\n0,1;a;-90;500;1,0\n0,1;b;45;1000;0\n";
        let (report, samples, _) = read(text.as_bytes(), LogUnits::default());
        let report = report.unwrap();
        assert!(report.has_pitch && report.has_vertical && report.rows == 2);
        let first = samples[0];
        assert!((first.roll_rad + std::f64::consts::FRAC_PI_2).abs() < 1e-12);
        assert!((first.time_s - 0.5).abs() < 1e-12 && (first.pitch_rad - 0.1).abs() < 1e-12);
        assert!((first.vertical - GRAVITY).abs() < 1e-12);
    }

    #[test]
    fn a_unit_that_is_missing_is_asked_for() {
        let text = "time_s,roll\n0,1\n1,2\n";
        let (report, _, _) = read(text.as_bytes(), LogUnits::default());
        assert!(report.unwrap_err().to_string().contains("roll_deg"));
        let units = LogUnits {
            angle_rad: Some(1.0),
            ..LogUnits::default()
        };
        assert_eq!(read(text.as_bytes(), units).1.len(), 2);
    }

    #[test]
    fn gaps_duplicates_resets_and_bad_rows_are_told_by_line() {
        let text =
            "time_s,roll_deg\n0,1\n0.1,1\n0.2,1\n0.2,1\n0.3,x\n0.3,2\n9,1\n9.1,1\n0,1\n0.1,2\n";
        let (report, samples, breaks) = read(text.as_bytes(), LogUnits::default());
        let report = report.unwrap();
        assert_eq!(
            (
                report.gaps,
                report.duplicates,
                report.resets,
                report.bad_rows
            ),
            (1, 1, 1, 1)
        );
        let lines: Vec<u64> = report.notes.iter().map(|note| note.line).collect();
        assert_eq!(lines, [5, 6, 8, 10]);
        assert_eq!((samples.len(), breaks), (8, 2));
    }

    #[test]
    fn what_is_no_log_ends_soon() {
        let long = vec![b'x'; 2 * LONGEST_LINE];
        assert!(matches!(
            read(&long, LogUnits::default()).0,
            Err(LogError::LongLine(1))
        ));
        let mut bad = b"time_s,roll_deg\n".to_vec();
        bad.extend(b"a,b\n".repeat(20_000));
        assert!(
            matches!(read(&bad, LogUnits::default()).0, Err(LogError::NoRows(line)) if line < 10_010)
        );
        assert!(matches!(
            read(b"", LogUnits::default()).0,
            Err(LogError::Empty)
        ));
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(64) })]

        #[test]
        fn hostile_logs_give_an_error_or_finite_samples(
            head in prop_oneof![
                Just("time_s,roll_deg".to_owned()),
                Just("\u{feff}az_g;time [ms];ROLL (rad)".to_owned()),
                "[a-z_,;\\t\"°()\\[\\]]{0,40}",
            ],
            rows in prop::collection::vec(
                prop_oneof![
                    "[0-9.,;eE+\\-]{0,30}",
                    "-?[0-9]{1,3}(\\.[0-9]{0,3})?,-?[0-9]{1,3}",
                    "\\PC{0,30}",
                    Just("nan,inf".to_owned()),
                    Just("1e308,1e308".to_owned()),
                ],
                0..40,
            ),
            ends in prop_oneof![Just("\n"), Just("\r\n"), Just("\r")],
        ) {
            let text = format!("{head}{ends}{}", rows.join(ends));
            let (report, samples, _) = read(text.as_bytes(), LogUnits::default());
            if let Ok(report) = report {
                prop_assert_eq!(report.rows, samples.len() as u64);
                prop_assert!(report.rows > 0 && report.notes.len() <= MOST_NOTES);
                let told = report.gaps + report.duplicates + report.resets + report.bad_rows;
                prop_assert!(report.notes.len() as u64 <= told);
                for sample in samples {
                    prop_assert!(sample.time_s.is_finite() && sample.roll_rad.abs() <= 7.0);
                    prop_assert!(sample.pitch_rad.abs() <= 7.0 && sample.vertical.is_finite());
                }
            }
        }
    }
}
