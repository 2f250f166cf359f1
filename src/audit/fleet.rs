//! A folder of deck plans and logs as one table: what goes first where, and whether what was recorded passed it.
//!
//! A log belongs to the plan of the same name beside it (`otter.json`, `otter.csv`). Rows stand in the order of the
//! files' names, whatever the threads do; a file that cannot be read is a row that says so.

use std::path::{Path, PathBuf};

use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

use super::replay::rounded;
use crate::checks::{self, Signal};
use crate::engine::{Assessor, watched};
use crate::layout::{Id, Plan};
use crate::mechanics::motion_log::{SwingMeter, Swings, Watch, WatchedBody};
use crate::mechanics::recorded::LogPiece;

/// Where plans and logs come from: reading them is the business of whoever asks. Troubles are told as text.
pub trait FleetFiles: Sync {
    /// The deck plans and logs in a folder, in no order; a file is itself alone.
    fn within(&self, folder: &Path) -> Result<Vec<PathBuf>, String>;

    /// A deck plan.
    fn plan(&self, path: &Path) -> Result<Plan, String>;

    /// A log, handed on piece by piece.
    fn log(&self, path: &Path, each: &mut dyn FnMut(LogPiece<'_>)) -> Result<(), String>;
}

/// One part of the day of one plan, one log without a plan, or one file that cannot be used.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct FleetRow {
    /// The file, as it was named.
    pub file: String,

    /// The boat.
    pub boat: String,

    /// The trip.
    pub trip: Id,

    /// The part of the day.
    pub part: Id,

    /// The roll that the part is checked with, in degrees.
    pub roll_deg: Option<f64>,

    /// The roll at which the first thing goes, in degrees; `None` where nothing goes as far as is searched.
    pub limit_deg: Option<f64>,

    /// What goes first.
    pub first_to_go: Option<Id>,

    /// Cylinders on deck.
    pub cylinders: usize,

    /// Findings DANGER that nobody took on.
    pub danger: usize,

    /// Findings WARNING.
    pub warning: usize,

    /// Findings CAUTION.
    pub caution: usize,

    /// Findings NOTICE.
    pub notice: usize,

    /// The log, as it was named.
    pub log: Option<String>,

    /// Hours recorded.
    pub log_hours: Option<f64>,

    /// Its largest roll, in degrees.
    pub log_largest_roll_deg: Option<f64>,

    /// Did it pass the limit of any cylinder?
    pub log_passed_limit: Option<bool>,

    /// How many cylinders would have gone in it.
    pub log_cylinders_passed: Option<usize>,

    /// Why the file could not be used, or not all of it.
    pub error: Option<String>,
}

/// What is looked at together: a plan, its log, or a log alone.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
struct Job {
    plan: Option<PathBuf>,
    log: Option<PathBuf>,
}

/// The rows of all plans and logs in these folders (not in folders within them) and files.
pub fn fleet(folders: &[PathBuf], reads: &dyn FleetFiles) -> Vec<FleetRow> {
    let (mut files, mut rows) = (Vec::new(), Vec::new());
    for folder in folders {
        match reads.within(folder) {
            Ok(found) => files.extend(found),
            Err(error) => rows.push(FleetRow {
                file: shown(folder),
                error: Some(error),
                ..FleetRow::default()
            }),
        }
    }
    files.sort();
    files.dedup();
    let of_jobs: Vec<Vec<FleetRow>> = (jobs(&files).par_iter())
        .map(|job| rows_of(job, reads))
        .collect();
    rows.extend(of_jobs.into_iter().flatten());
    rows
}

fn shown(path: &Path) -> String {
    path.display().to_string()
}

fn is_log(path: &Path) -> bool {
    path.extension()
        .is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

fn jobs(files: &[PathBuf]) -> Vec<Job> {
    let mut jobs: Vec<Job> = Vec::new();
    for plan in files.iter().filter(|path| !is_log(path)) {
        let log = (files.iter())
            .find(|path| is_log(path) && path.with_extension("") == plan.with_extension(""));
        jobs.push(Job {
            plan: Some(plan.clone()),
            log: log.cloned(),
        });
    }
    for log in files.iter().filter(|path| is_log(path)) {
        if jobs.iter().all(|job| job.log.as_ref() != Some(log)) {
            jobs.push(Job {
                plan: None,
                log: Some(log.clone()),
            });
        }
    }
    jobs.sort_by(|a, b| {
        let name = |job: &Job| job.plan.clone().or_else(|| job.log.clone());
        name(a).cmp(&name(b))
    });
    jobs
}

fn rows_of(job: &Job, reads: &dyn FleetFiles) -> Vec<FleetRow> {
    let Some(path) = &job.plan else {
        let mut row = FleetRow {
            file: job.log.as_deref().map_or_else(String::new, shown),
            ..FleetRow::default()
        };
        add_log(&mut [&mut row], &[Vec::new()], job.log.as_deref(), reads);
        return vec![row];
    };
    let failed = |error: String| {
        vec![FleetRow {
            file: shown(path),
            log: job.log.as_deref().map(shown),
            error: Some(error),
            ..FleetRow::default()
        }]
    };
    match reads.plan(path) {
        Ok(plan) => of_plan(path, &plan, job.log.as_deref(), reads),
        Err(error) => failed(one_line(&error)),
    }
}

/// The first line of what is told of a broken file, with how many follow.
fn one_line(text: &str) -> String {
    let mut lines = text.lines().filter(|line| !line.trim().is_empty());
    let first = lines.next().unwrap_or_default().trim().to_owned();
    match lines.count() {
        0 => first,
        more => format!("{first} (and {more} lines more)"),
    }
}

fn of_plan(path: &Path, plan: &Plan, log: Option<&Path>, reads: &dyn FleetFiles) -> Vec<FleetRow> {
    let mut rows = Vec::new();
    let mut bodies = Vec::new();
    for trip in &plan.trips {
        let mut assessor = Assessor::default();
        let findings = checks::run(&mut assessor, plan, trip);
        for numbers in &assessor.assessment().parts {
            let count = |signal: Signal| {
                let of_part = findings.iter().filter(|it| it.part == numbers.part);
                of_part
                    .filter(|it| it.signal == signal && it.taken_on.is_none())
                    .count()
            };
            let first = (numbers.cylinders.iter())
                .filter_map(|it| Some((roll_of(&it.limit)?, &it.cylinder)))
                .min_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(b.1)));
            rows.push(FleetRow {
                file: shown(path),
                boat: plan.boat.name.clone(),
                trip: trip.id.clone(),
                part: numbers.part.clone(),
                roll_deg: Some(rounded(numbers.motion.roll_amplitude_deg, 1e2)),
                limit_deg: first.map(|(limit, _)| rounded(limit, 1e2)),
                first_to_go: first.map(|(_, id)| id.clone()),
                cylinders: numbers.cylinders.len(),
                danger: count(Signal::Danger),
                warning: count(Signal::Warning),
                caution: count(Signal::Caution),
                notice: count(Signal::Notice),
                ..FleetRow::default()
            });
            bodies.push(
                (watched(&plan.boat, numbers).into_iter())
                    .map(|(_, body)| body)
                    .collect(),
            );
        }
    }
    if rows.is_empty() {
        rows.push(FleetRow {
            file: shown(path),
            boat: plan.boat.name.clone(),
            error: Some("the plan has no trip with a part of the day".to_owned()),
            ..FleetRow::default()
        });
        bodies.push(Vec::new());
    }
    let mut all: Vec<&mut FleetRow> = rows.iter_mut().collect();
    add_log(&mut all, &bodies, log, reads);
    rows
}

/// The roll at which it goes; 0 where it goes without any.
fn roll_of(limit: &crate::engine::numbers::LimitNumbers) -> Option<f64> {
    if limit.goes_without_roll || limit.goes_at_rest {
        Some(0.0)
    } else {
        limit.roll_deg
    }
}

/// What was recorded, and which of the bodies of each row would have gone in it.
fn add_log(
    rows: &mut [&mut FleetRow],
    bodies: &[Vec<WatchedBody>],
    log: Option<&Path>,
    reads: &dyn FleetFiles,
) {
    let Some(path) = log else { return };
    let read = read_log(path, bodies, reads);
    for (number, row) in rows.iter_mut().enumerate() {
        row.log = Some(shown(path));
        match &read {
            Ok((hours, roll, passed)) => {
                // The largest roll to either side, about upright: the steady heel counts.
                row.log_hours = Some(rounded(*hours, 1e2));
                row.log_largest_roll_deg = Some(rounded(roll.largest.to_degrees(), 1e2));
                if row.cylinders > 0 {
                    let passed = passed.get(number).copied().unwrap_or(0);
                    row.log_cylinders_passed = Some(passed);
                    row.log_passed_limit = Some(passed > 0);
                }
            }
            Err(error) => row.error = Some(one_line(error)),
        }
    }
}

fn read_log(
    path: &Path,
    bodies: &[Vec<WatchedBody>],
    reads: &dyn FleetFiles,
) -> Result<(f64, Swings, Vec<usize>), String> {
    let mut watches: Vec<Watch> = bodies.iter().map(|bodies| Watch::new(bodies)).collect();
    let mut meter = SwingMeter::of_angles();
    let (mut seconds, mut last) = (0.0, None::<f64>);
    let read = reads.log(path, &mut |piece| match piece {
        LogPiece::Samples(samples) => {
            for sample in samples {
                seconds += last.map_or(0.0, |last| sample.time_s - last);
                last = Some(sample.time_s);
                meter.push(sample.time_s, sample.roll_rad);
            }
            for watch in &mut watches {
                watch.push(samples);
            }
        }
        LogPiece::Break => {
            last = None;
            meter.break_off();
            for watch in &mut watches {
                watch.break_off();
            }
        }
    });
    read.map_err(|error| format!("log: {error}"))?;
    let passed = (watches.iter())
        .map(|watch| watch.times().iter().filter(|times| **times > 0).count())
        .collect();
    Ok((seconds / 3600.0, meter.swings(), passed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_log_goes_with_the_plan_of_its_name() {
        let paths = |names: &[&str]| -> Vec<PathBuf> { names.iter().map(PathBuf::from).collect() };
        let jobs = jobs(&paths(&["a.csv", "b.csv", "b.json", "c.json"]));
        let name = |path: &Option<PathBuf>| path.as_deref().map_or_else(String::new, shown);
        let names: Vec<String> = (jobs.iter())
            .map(|job| format!("{} with {}", name(&job.plan), name(&job.log)))
            .collect();
        assert_eq!(names, [" with a.csv", "b.json with b.csv", "c.json with "]);
    }

    #[test]
    fn only_the_first_line_of_trouble_is_told() {
        assert_eq!(one_line("a\n\nb\nc"), "a (and 2 lines more)");
        assert_eq!(one_line("a"), "a");
    }
}
