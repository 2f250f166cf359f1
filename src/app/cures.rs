//! Trying cures beside the window: a thread of its own works through the lines of what must be put
//! right, and what it finds is shown as it comes. What was found for an older plan is dropped.

use std::collections::BTreeMap;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use crate::checks::cures::Clinic;
use crate::checks::{Cure, Finding};
use crate::layout::{Id, Plan};

/// What was found, and what is still being tried.
#[derive(Debug, Default)]
pub(crate) struct Cures {
    job: Option<Job>,
    found: BTreeMap<usize, Vec<Cure>>,
}

/// What is being tried.
#[derive(Debug)]
struct Job {
    plan: Arc<Plan>,
    trip: Id,
    lines: Vec<Vec<usize>>,
    stop: Arc<AtomicBool>,
    results: Receiver<(usize, Vec<Cure>)>,
    is_done: bool,
}

impl Drop for Job {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl Cures {
    /// Sees to it that cures of these lines are tried: each line is the findings that it folds, by their
    /// place in the list. Does nothing if they are already.
    pub(crate) fn ask(
        &mut self,
        ctx: &egui::Context,
        plan: &Arc<Plan>,
        trip: &str,
        findings: &Arc<Vec<Finding>>,
        lines: Vec<Vec<usize>>,
    ) {
        let same_plan = self
            .job
            .as_ref()
            .is_some_and(|job| Arc::ptr_eq(&job.plan, plan) && job.trip == trip);
        if !same_plan {
            self.found.clear();
        } else if self.job.as_ref().is_some_and(|job| job.lines == lines) {
            return;
        }
        let open: Vec<Vec<usize>> = lines
            .iter()
            .filter(|line| {
                line.first()
                    .is_some_and(|first| !self.found.contains_key(first))
            })
            .cloned()
            .collect();
        let stop = Arc::new(AtomicBool::new(false));
        let (send, results) = mpsc::channel();
        let work = Work {
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            findings: Arc::clone(findings),
            lines: open,
            stop: Arc::clone(&stop),
        };
        let ctx = ctx.clone();
        let thread = std::thread::Builder::new().name("cures".to_owned());
        let started = thread.spawn(move || {
            work.run(|line, cures| {
                let listened = send.send((line, cures)).is_ok();
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
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            lines,
            stop,
            results,
            is_done: started.is_err(),
        });
    }

    /// Gives up what is being tried.
    pub(crate) fn stop(&mut self) {
        self.job = None;
        self.found.clear();
    }

    /// Takes in what has been found since.
    pub(crate) fn collect(&mut self) {
        let Some(job) = &mut self.job else { return };
        loop {
            match job.results.try_recv() {
                Ok((line, cures)) => {
                    self.found.insert(line, cures);
                }
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

    /// The cures that raise the limit most above what it is now (as a share of the motion, `None` for
    /// without end), with the line that each is of: at most so many, one per line.
    pub(crate) fn raising_most(&self, now: Option<f64>, most: usize) -> Vec<(usize, &Cure)> {
        let of_lines = self.found.iter();
        let mut best: Vec<(usize, &Cure)> = of_lines
            .filter_map(|(line, cures)| Some((*line, cures.first()?)))
            .filter(|(_, cure)| share(cure) > now.unwrap_or(f64::INFINITY) + CLEARLY)
            .collect();
        best.sort_by(|a, b| share(b.1).total_cmp(&share(a.1)));
        // One cure may be the cure of several lines.
        let mut labels: Vec<&str> = Vec::new();
        best.retain(|(_, cure)| {
            let is_new = !labels.contains(&cure.label.as_str());
            labels.push(&cure.label);
            is_new
        });
        best.truncate(most);
        best
    }
}

/// A limit that rises by less than this share of the motion is as it was.
const CLEARLY: f64 = 0.005;

/// Where the stowage goes after a cure, as a share of the motion; without end is the most.
fn share(cure: &Cure) -> f64 {
    cure.limit_share_after.unwrap_or(f64::INFINITY)
}

/// What the thread works on.
struct Work {
    plan: Arc<Plan>,
    trip: Id,
    findings: Arc<Vec<Finding>>,
    lines: Vec<Vec<usize>>,
    stop: Arc<AtomicBool>,
}

impl Work {
    /// Tries line after line, until told to stop or nobody listens.
    fn run(&self, mut tell: impl FnMut(usize, Vec<Cure>) -> bool) {
        let mut clinic = Clinic::new(&self.plan, &self.trip, &self.findings);
        for line in &self.lines {
            if self.stop.load(Ordering::Relaxed) {
                return;
            }
            let members: Vec<&Finding> = line
                .iter()
                .filter_map(|index| self.findings.get(*index))
                .collect();
            let (Some(first), Some(index)) = (members.first(), line.first()) else {
                continue;
            };
            let together = (members.len() > 1)
                .then(|| clinic.cure_together(&members))
                .flatten();
            let mut cures: Vec<Cure> = together.into_iter().collect();
            cures.extend(clinic.cures(first));
            if !tell(*index, cures) {
                return;
            }
        }
    }
}
