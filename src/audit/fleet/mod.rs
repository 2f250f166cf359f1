//! A folder of deck plans, audit records and logs as one table: what goes first where, and whether what was recorded
//! passed it.
//!
//! A log belongs to the plan of the same name beside it (`otter.json`, `otter.csv`). An audit record is a row for each
//! of its accounts, with the stowage as that account has it and the log that the record names. Rows stand in the order
//! of the files' names, whatever the threads do; a file that cannot be read is a row that says so.

mod log;

use std::path::{Path, PathBuf};

use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;

use self::log::{add_log, recorded};
use super::replay::rounded;
use super::{Case, Told};
use crate::checks::{self, Signal, words};
use crate::engine::{Assessor, watched};
use crate::layout::{Id, Plan};
use crate::mechanics::motion_log::WatchedBody;
use crate::mechanics::recorded::LogPiece;
use crate::record::{MotionLog, Opened};

/// Where plans and logs come from: reading them is the business of whoever asks. Troubles are told as text.
pub trait FleetFiles: Sync {
    /// The deck plans, audit records and logs in a folder, in no order; a file is itself alone.
    fn within(&self, folder: &Path) -> Result<Vec<PathBuf>, String>;

    /// A deck plan, or an audit record with its files.
    fn document(&self, path: &Path) -> Result<FleetDocument, String>;

    /// A log, handed on piece by piece.
    fn log(&self, path: &Path, each: &mut dyn FnMut(LogPiece<'_>)) -> Result<(), String>;
}

/// What was read.
#[derive(Debug)]
pub enum FleetDocument {
    /// A deck plan.
    Plan(Box<Plan>),
    /// An audit record with its files.
    Record(Box<Opened>),
}

/// What a row is of.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FleetWhat {
    /// A part of the day of a deck plan.
    DeckPlan,
    /// The stowage as found by one account of an audit record.
    AuditRecord,
    /// A log without a plan.
    Log,
    /// A file that cannot be used.
    #[default]
    Unusable,
}

/// One part of the day of one plan, one account of a record, one log without a plan, or one file that cannot be used.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct FleetRow {
    /// The file, as it was named.
    pub file: String,

    /// What it is.
    pub what: FleetWhat,

    /// The account, of an audit record.
    pub account: Option<Id>,

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

    /// What must be known of the row: files of a record that are missing, or not as they were recorded.
    pub remark: Option<String>,

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
            what: FleetWhat::Log,
            ..FleetRow::default()
        };
        if let Some(log) = &job.log {
            let read = |each: &mut dyn FnMut(LogPiece<'_>)| reads.log(log, each);
            add_log(
                std::slice::from_mut(&mut row),
                &[Vec::new()],
                &shown(log),
                read,
            );
        }
        return vec![row];
    };
    let failed = |error: &str| {
        vec![FleetRow {
            file: shown(path),
            log: job.log.as_deref().map(shown),
            error: Some(one_line(error)),
            ..FleetRow::default()
        }]
    };
    match reads.document(path) {
        Ok(FleetDocument::Plan(plan)) => {
            let (mut rows, bodies) = of_plan(path, &plan);
            if let Some(log) = &job.log {
                let read = |each: &mut dyn FnMut(LogPiece<'_>)| reads.log(log, each);
                add_log(&mut rows, &bodies, &shown(log), read);
            }
            rows
        }
        Ok(FleetDocument::Record(opened)) => match Case::of(*opened) {
            Ok(case) => of_record(path, &case),
            Err(error) => failed(&error.to_string()),
        },
        Err(error) => failed(&error),
    }
}

/// The first fault of what is told of a broken file with what to do, and how many more there are.
fn one_line(text: &str) -> String {
    let mut lines = text.lines().map(str::trim).filter(|line| !line.is_empty());
    let mut told = lines.next().unwrap_or_default().to_owned();
    let mut more = 0;
    for line in lines {
        match line.strip_prefix("help: ") {
            Some(help) if more == 0 => {
                told.push_str("; ");
                told.push_str(help);
            }
            Some(_) => {}
            None => more += 1,
        }
    }
    if more > 0 {
        told = format!("{told} (and {more} more)");
    }
    told
}

/// A row for each account, with the stowage as it has it.
fn of_record(path: &Path, case: &Case) -> Vec<FleetRow> {
    let doubtful: Vec<&String> = case.opened.doubtful().map(|input| &input.what).collect();
    let remark = (!doubtful.is_empty()).then(|| {
        let files = words::list(&doubtful);
        format!("not as they were recorded, or missing: {files}")
    });
    let mut all = Vec::new();
    for Told {
        account, moment, ..
    } in &case.accounts
    {
        let (mut rows, bodies) = of_plan(path, &moment.plan);
        for row in &mut rows {
            row.what = FleetWhat::AuditRecord;
            row.account = Some(account.id.clone());
            row.remark.clone_from(&remark);
        }
        let log = case.opened.record.motion_log.as_ref();
        if let Some(file) = log {
            let read = |each: &mut dyn FnMut(LogPiece<'_>)| match &case.opened.motion_log {
                MotionLog::Read(of_log) => {
                    recorded(of_log, file.mounting.as_ref(), &moment.plan.boat, each);
                    Ok(())
                }
                MotionLog::Unreadable(why) => Err(why.clone()),
                MotionLog::Missing | MotionLog::None => Err(format!("{} is missing", file.path)),
            };
            add_log(&mut rows, &bodies, &file.path, read);
        }
        all.extend(rows);
    }
    all
}

/// The rows of a plan, and the bodies of each that a log is held against.
fn of_plan(path: &Path, plan: &Plan) -> (Vec<FleetRow>, Vec<Vec<WatchedBody>>) {
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
                what: FleetWhat::DeckPlan,
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
    (rows, bodies)
}

/// The roll at which it goes; 0 where it goes without any.
fn roll_of(limit: &crate::engine::numbers::LimitNumbers) -> Option<f64> {
    if limit.goes_without_roll || limit.goes_at_rest {
        Some(0.0)
    } else {
        limit.roll_deg
    }
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
    fn only_the_first_fault_is_told_and_what_to_do() {
        assert_eq!(one_line("a\n\nb\n  help: d\nc"), "a (and 2 more)");
        assert_eq!(
            one_line("a\n  help: do b\nc\n  help: d"),
            "a; do b (and 1 more)"
        );
        assert_eq!(one_line("a"), "a");
    }
}
