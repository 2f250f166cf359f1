//! How the limit of each cylinder follows the roll period, everything else of the motion as it is: worked
//! out beside the window, period by period, and shown as it comes.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use crate::engine::Assessor;
use crate::engine::numbers::MotionNumbers;
use crate::layout::{Edit, Id, MotionInput, MotionSource, Plan, Thing};

/// The periods, in seconds: those of small boats, closer where they are short.
const PERIODS_S: [f64; 12] = [1.5, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.5, 10.0];

/// See the module.
#[derive(Debug, Default)]
pub(crate) struct Curve {
    job: Option<Job>,
    found: Vec<AtPeriod>,
}

/// The limits at one period: each cylinder that goes, with the roll at which it does, in degrees.
#[derive(Clone, Debug, PartialEq)]
struct AtPeriod {
    period_s: f64,
    goes_at_deg: Vec<(Id, f64)>,
}

#[derive(Debug)]
struct Job {
    plan: Arc<Plan>,
    trip: Id,
    part: usize,
    stop: Arc<AtomicBool>,
    results: Receiver<AtPeriod>,
    is_done: bool,
}

impl Drop for Job {
    fn drop(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
    }
}

impl Curve {
    /// Sees to it that the curve of this part of the day is worked out; does nothing if it is already.
    pub(crate) fn ask(
        &mut self,
        ctx: &egui::Context,
        plan: &Arc<Plan>,
        trip: &str,
        part: usize,
        motion: &MotionNumbers,
    ) {
        if self.is_of(plan, trip, part) {
            return;
        }
        self.found.clear();
        let stop = Arc::new(AtomicBool::new(false));
        let (send, results) = mpsc::channel();
        let work = Work {
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            part,
            motion: motion_used(motion),
        };
        let (ctx, stopped) = (ctx.clone(), Arc::clone(&stop));
        let thread = std::thread::Builder::new().name("curve".to_owned());
        let started = thread.spawn(move || {
            let mut assessor = Assessor::default();
            for period_s in PERIODS_S {
                let found = work.at(&mut assessor, period_s);
                let listened = found.is_some_and(|found| send.send(found).is_ok());
                ctx.request_repaint();
                if !listened || stopped.load(Ordering::Relaxed) {
                    break;
                }
            }
            drop(send);
            ctx.request_repaint();
        });
        if let Err(err) = &started {
            log::error!("the curve is not worked out: {err}");
        }
        self.job = Some(Job {
            plan: Arc::clone(plan),
            trip: trip.to_owned(),
            part,
            stop,
            results,
            is_done: started.is_err(),
        });
    }

    /// Is it the curve of this part of the day, worked out or being worked out?
    pub(crate) fn is_of(&self, plan: &Arc<Plan>, trip: &str, part: usize) -> bool {
        self.job
            .as_ref()
            .is_some_and(|job| Arc::ptr_eq(&job.plan, plan) && job.trip == trip && job.part == part)
    }

    /// Takes in what has been found since.
    pub(crate) fn collect(&mut self) {
        let Some(job) = &mut self.job else { return };
        loop {
            match job.results.try_recv() {
                Ok(found) => self.found.push(found),
                Err(TryRecvError::Empty) => break,
                Err(TryRecvError::Disconnected) => {
                    job.is_done = true;
                    break;
                }
            }
        }
    }

    /// Is it still being worked out?
    pub(crate) fn is_busy(&self) -> bool {
        self.job.as_ref().is_some_and(|job| !job.is_done)
    }

    /// Roll period in seconds and the roll at which a cylinder goes in degrees, for the periods at which
    /// it goes at all.
    pub(crate) fn of(&self, cylinder: &str) -> Vec<(f64, f64)> {
        let points = self.found.iter().filter_map(|at| {
            let found = at.goes_at_deg.iter().find(|(id, _)| id == cylinder);
            found.map(|(_, deg)| (at.period_s, *deg))
        });
        points.collect()
    }
}

/// What the thread works on.
struct Work {
    plan: Arc<Plan>,
    trip: Id,
    part: usize,
    motion: MotionInput,
}

impl Work {
    fn at(&self, assessor: &mut Assessor, period_s: f64) -> Option<AtPeriod> {
        let mut copy = Plan::clone(&self.plan);
        let mut part = copy.trip(&self.trip)?.parts.get(self.part)?.clone();
        part.motion = Some(MotionInput {
            roll_period_s: Some(period_s),
            ..part.motion.unwrap_or_else(|| self.motion.clone())
        });
        let edit = Edit::Put {
            trip: Some(self.trip.clone()),
            thing: Box::new(Thing::Part(part)),
        };
        copy.apply(&edit).ok()?;
        let numbers = assessor.assess(&copy, copy.trip(&self.trip)?);
        let cylinders = numbers.parts.get(self.part)?.cylinders.iter();
        let goes = cylinders.filter_map(|cylinder| {
            let limit = &cylinder.limit;
            let at_once = limit.goes_at_rest || limit.goes_without_roll;
            let deg = if at_once { Some(0.0) } else { limit.roll_deg };
            Some((cylinder.cylinder.clone(), deg?))
        });
        Some(AtPeriod {
            period_s,
            goes_at_deg: goes.collect(),
        })
    }
}

/// A motion that was assumed, as if it had been given.
pub(crate) fn motion_used(motion: &MotionNumbers) -> MotionInput {
    MotionInput {
        source: MotionSource::Assumed,
        roll_amplitude_deg: motion.roll_amplitude_deg,
        roll_period_s: Some(motion.roll_period_s),
        pitch_amplitude_deg: motion.pitch_amplitude_deg,
        pitch_period_s: Some(motion.pitch_period_s),
        vertical_g: motion.vertical_m_s2 / 9.806_65,
        heel_deg: motion.heel_deg,
        trim_deg: motion.trim_deg,
        ..MotionInput::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::tools::standing;
    use crate::layout::Cylinder;

    #[test]
    fn a_quicker_roll_tips_a_free_cylinder_sooner() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let placing = standing("main", [4.0, 1.0]);
        plan.trips[0]
            .cylinders
            .push(Cylinder::new("A", "al-80cf", placing));
        let work = Work {
            plan: Arc::new(plan),
            trip: "trip-1".into(),
            part: 0,
            motion: MotionInput {
                roll_amplitude_deg: 15.0,
                ..MotionInput::default()
            },
        };
        let mut assessor = Assessor::default();
        let mut deg = |period_s: f64| {
            let found = work.at(&mut assessor, period_s).unwrap();
            found.goes_at_deg[0].1
        };
        let (quick, slow, slower) = (deg(2.0), deg(4.0), deg(10.0));
        assert!(quick < slow && slow < slower, "{quick} {slow} {slower}");
    }
}
