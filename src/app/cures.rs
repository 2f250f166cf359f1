//! Trying cures beside the window: a thread of its own works through the lines of what must be put
//! right, and what it finds is shown as it comes. What was found for an older plan is dropped.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use super::lines::Line;
use crate::checks::cures::Clinic;
use crate::checks::digest::{BestCure, MOST_BEST, Raising};
use crate::checks::{Cure, Finding};
use crate::layout::{Edit, Id, Plan};
use crate::units::Said;

/// What was found, and what is still being tried.
#[derive(Debug, Default)]
pub(crate) struct Cures {
    job: Option<Job>,
    found: BTreeMap<usize, Vec<Cure>>,
    /// Of which part of the day, and what raises its limit most.
    best: Option<(Id, Raising)>,
}

/// What is being tried.
#[derive(Debug)]
struct Job {
    plan: Arc<Plan>,
    trip: Id,
    part: Id,
    lines: Vec<Vec<usize>>,
    stop: Arc<AtomicBool>,
    results: Receiver<Found>,
    is_done: bool,
}

/// One thing that was found.
#[derive(Debug)]
enum Found {
    /// The cures of a line, by its first finding.
    OfLine(usize, Vec<Cure>),
    /// What raises the limit of the part of the day most.
    Best(Raising),
}

impl Drop for Job {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

/// Whose cures are wanted.
pub(crate) struct Wanted<'a> {
    /// The plan.
    pub(crate) plan: &'a Arc<Plan>,
    /// The trip.
    pub(crate) trip: &'a str,
    /// The part of the day.
    pub(crate) part: &'a str,
    /// Everything to put right in the trip.
    pub(crate) findings: &'a Arc<Vec<Finding>>,
}

impl Cures {
    /// Sees to it that cures of these lines are tried, and those that raise the limit of the part of the
    /// day most. Does nothing if they are already.
    pub(crate) fn ask(&mut self, ctx: &egui::Context, of: &Wanted<'_>, lines: Vec<Line>) {
        let keys: Vec<Vec<usize>> = lines.iter().map(|line| line.findings.clone()).collect();
        let same_plan = self
            .job
            .as_ref()
            .is_some_and(|job| Arc::ptr_eq(&job.plan, of.plan) && job.trip == of.trip);
        if !same_plan {
            self.found.clear();
            self.best = None;
        } else if self
            .job
            .as_ref()
            .is_some_and(|job| job.lines == keys && job.part == of.part)
        {
            return;
        }
        let is_open = |line: &Line| {
            let first = line.findings.first();
            first.is_some_and(|first| !self.found.contains_key(first))
        };
        let has_best = self.best.as_ref().is_some_and(|(part, _)| part == of.part);
        let stop = Arc::new(AtomicBool::new(false));
        let (send, results) = mpsc::channel();
        let work = Work {
            plan: Arc::clone(of.plan),
            trip: of.trip.to_owned(),
            findings: Arc::clone(of.findings),
            lines: lines.into_iter().filter(is_open).collect(),
            part: (!has_best).then(|| of.part.to_owned()),
            stop: Arc::clone(&stop),
        };
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("cures".to_owned());
        let started = thread.spawn(move || {
            work.run(|found| {
                let listened = send.send(found).is_ok();
                ctx.request_repaint();
                listened
            });
            drop(send);
            ctx.request_repaint();
        });
        if let Err(err) = &started {
            log::error!("cures are not tried: {err}");
        }
        self.job = Some(Job {
            plan: Arc::clone(of.plan),
            trip: of.trip.to_owned(),
            part: of.part.to_owned(),
            lines: keys,
            stop,
            results,
            is_done: started.is_err(),
        });
    }

    /// Gives up what is being tried.
    pub(crate) fn stop(&mut self) {
        self.job = None;
        self.found.clear();
        self.best = None;
    }

    /// Takes in what has been found since.
    pub(crate) fn collect(&mut self) {
        let Some(job) = &mut self.job else { return };
        loop {
            match job.results.try_recv() {
                Ok(Found::OfLine(line, cures)) => {
                    self.found.insert(line, cures);
                }
                Ok(Found::Best(best)) => self.best = Some((job.part.clone(), best)),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    job.is_done = true;
                    break;
                }
            }
        }
    }

    /// The cures of a line, by its first finding; `None` while they are being tried.
    pub(crate) fn of(&self, first: usize) -> Option<&[Cure]> {
        self.found.get(&first).map(Vec::as_slice)
    }

    /// Is something still being tried?
    pub(crate) fn is_busy(&self) -> bool {
        self.job.as_ref().is_some_and(|job| !job.is_done)
    }

    /// The cures that raise the limit of this part of the day most, each on what those before it left; none
    /// while they are being tried.
    pub(crate) fn raising_most(&self, part: &str) -> &[BestCure] {
        let best = self.best.as_ref().filter(|(of, _)| of == part);
        best.map_or(&[], |(_, raising)| raising.cures.as_slice())
    }

    /// What goes in this part of the day and cannot be cured, in a sentence each.
    pub(crate) fn not_cured(&self, part: &str) -> &[String] {
        let best = self.best.as_ref().filter(|(of, _)| of == part);
        best.map_or(&[], |(_, raising)| raising.not_cured.as_slice())
    }

    /// The first so many of them as one step: what it is called and its edits.
    pub(crate) fn raising_step(&self, part: &str, count: usize) -> Option<(Said, Vec<Edit>)> {
        let cures = self.raising_most(part).get(..count)?;
        let labels = Said::joined(cures.iter().map(|best| &best.cure.label), "; ");
        let edits = cures.iter().flat_map(|best| best.cure.edits.clone());
        (!cures.is_empty()).then(|| (labels, edits.collect()))
    }
}

/// What the thread works on.
struct Work {
    plan: Arc<Plan>,
    trip: Id,
    findings: Arc<Vec<Finding>>,
    lines: Vec<Line>,
    /// The part of the day whose limit is to be raised, if that is still wanted.
    part: Option<Id>,
    stop: Arc<AtomicBool>,
}

impl Work {
    /// Tries line after line, until told to stop or nobody listens.
    fn run(&self, mut tell: impl FnMut(Found) -> bool) {
        let Some(trip) = self.plan.trip(&self.trip) else {
            return;
        };
        let mut clinic = Clinic::new(&self.plan, trip, &self.findings);
        for line in &self.lines {
            if self.stop.load(Ordering::Relaxed) {
                return;
            }
            let Some(first) = line.findings.first() else {
                continue;
            };
            let cures = line.cures(&mut clinic, &self.findings);
            if !tell(Found::OfLine(*first, cures)) {
                return;
            }
        }
        if let Some(part) = &self.part {
            tell(Found::Best(clinic.raising_most(part, MOST_BEST)));
        }
    }
}
