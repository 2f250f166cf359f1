//! How each cylinder answers when one number of the motion is another, everything else as it is: at which
//! roll it goes for other roll periods, and how much is to spare at other heels and roll angles. Worked out
//! beside the window, point by point, and shown as it comes.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{self, Receiver, TryRecvError};

use super::outcome;
use crate::engine::Assessor;
use crate::engine::numbers::{CylinderNumbers, MotionNumbers};
use crate::layout::{Edit, Id, MotionInput, MotionSource, Plan, Thing};

/// The periods, in seconds: those of small boats, closer where they are short.
const PERIODS_S: [f64; 12] = [1.5, 1.75, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.5, 10.0];

/// The steady heels, in degrees to each side.
const HEELS_DEG: [f64; 13] = [
    -15.0, -12.5, -10.0, -7.5, -5.0, -2.5, 0.0, 2.5, 5.0, 7.5, 10.0, 12.5, 15.0,
];

/// The rolls to each side, in degrees.
const ROLLS_DEG: [f64; 13] = [
    0.0, 2.5, 5.0, 7.5, 10.0, 12.5, 15.0, 17.5, 20.0, 22.5, 25.0, 27.5, 30.0,
];

/// What is another than in the part of the day shown.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub(crate) enum Along {
    /// The roll period, in seconds; told is the roll at which a cylinder goes, in degrees.
    #[default]
    Period,
    /// The steady heel, in degrees with starboard down positive; told is what is to spare, in percent.
    Heel,
    /// The roll to each side, in degrees; told is what is to spare, in percent.
    Roll,
}

impl Along {
    /// All of them.
    pub(crate) const ALL: [Self; 3] = [Self::Period, Self::Heel, Self::Roll];

    fn steps(self) -> &'static [f64] {
        match self {
            Self::Period => &PERIODS_S,
            Self::Heel => &HEELS_DEG,
            Self::Roll => &ROLLS_DEG,
        }
    }

    /// Where the part of the day itself is.
    pub(crate) fn of(self, motion: &MotionNumbers) -> f64 {
        match self {
            Self::Period => motion.roll_period_s,
            Self::Heel => motion.heel_deg,
            Self::Roll => motion.roll_amplitude_deg,
        }
    }

    fn set(self, motion: &mut MotionInput, value: f64) {
        match self {
            Self::Period => motion.roll_period_s = Some(value),
            Self::Heel => motion.heel_deg = value,
            Self::Roll => motion.roll_amplitude_deg = value,
        }
    }

    /// What is told of a cylinder; nothing where the number has no end.
    pub(crate) fn told(self, numbers: &CylinderNumbers) -> Option<f64> {
        match self {
            Self::Period => {
                let limit = &numbers.limit;
                let at_once = limit.goes_at_rest || limit.goes_without_roll;
                if at_once { Some(0.0) } else { limit.roll_deg }
            }
            Self::Heel | Self::Roll => {
                outcome::worst_share(numbers).map(|share| 100.0 * (1.0 - share))
            }
        }
    }
}

/// See the module.
#[derive(Debug, Default)]
pub(crate) struct Curve {
    job: Option<Job>,
    found: Vec<Point>,

    /// The one that is shown.
    pub(crate) shown: Along,
}

/// One point of the curves of all cylinders.
#[derive(Clone, Debug, PartialEq)]
struct Point {
    along: Along,
    value: f64,
    told: Vec<(Id, f64)>,
}

#[derive(Debug)]
struct Job {
    plan: Arc<Plan>,
    trip: Id,
    part: usize,
    stop: Arc<AtomicBool>,
    results: Receiver<Point>,
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
            let steps = |along: Along| along.steps().iter().map(move |value| (along, *value));
            for (along, value) in Along::ALL.into_iter().flat_map(steps) {
                let found = work.at(&mut assessor, along, value);
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

    /// The curve of a cylinder, as far as it is worked out.
    pub(crate) fn of(&self, cylinder: &str, along: Along) -> Vec<[f64; 2]> {
        let points = self.found.iter().filter(|point| point.along == along);
        let points = points.filter_map(|point| {
            let found = point.told.iter().find(|(id, _)| id == cylinder);
            found.map(|(_, told)| [point.value, *told])
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
    fn at(&self, assessor: &mut Assessor, along: Along, value: f64) -> Option<Point> {
        let mut copy = Plan::clone(&self.plan);
        let mut part = copy.trip(&self.trip)?.parts.get(self.part)?.clone();
        let mut motion = part.motion.take().unwrap_or_else(|| self.motion.clone());
        along.set(&mut motion, value);
        part.motion = Some(motion);
        let edit = Edit::Put {
            trip: Some(self.trip.clone()),
            thing: Box::new(Thing::Part(part)),
        };
        copy.apply(&edit).ok()?;
        let numbers = assessor.assess(&copy, copy.trip(&self.trip)?);
        let cylinders = numbers.parts.get(self.part)?.cylinders.iter();
        let told =
            cylinders.filter_map(|numbers| Some((numbers.cylinder.clone(), along.told(numbers)?)));
        Some(Point {
            along,
            value,
            told: told.collect(),
        })
    }
}

/// A motion that was assumed, as if it had been given.
pub(crate) fn motion_used(motion: &MotionNumbers) -> MotionInput {
    MotionInput {
        source: MotionSource::Assumed,
        roll_amplitude_deg: motion.roll_amplitude_deg,
        // Of a range both ends count: it stays the boat's own.
        roll_period_s: (motion.longest_roll_period_s.is_none()).then_some(motion.roll_period_s),
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

    fn work() -> Work {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let placing = standing("main", [4.0, 0.0]);
        plan.trips[0]
            .cylinders
            .push(Cylinder::new("A", "al-80cf", placing));
        Work {
            plan: Arc::new(plan),
            trip: "trip-1".into(),
            part: 0,
            motion: MotionInput {
                roll_amplitude_deg: 5.0,
                roll_period_s: Some(4.0),
                ..MotionInput::default()
            },
        }
    }

    fn told(along: Along, value: f64) -> f64 {
        let found = work().at(&mut Assessor::default(), along, value).unwrap();
        assert_eq!((found.along, found.value), (along, value));
        assert_eq!(found.told[0].0, "A");
        found.told[0].1
    }

    #[test]
    fn a_quicker_roll_tips_a_free_cylinder_sooner() {
        let [quick, slow, slower] = [2.0, 4.0, 10.0].map(|s| told(Along::Period, s));
        assert!(quick < slow && slow < slower, "{quick} {slow} {slower}");
    }

    #[test]
    fn more_roll_and_more_heel_leave_less_to_spare() {
        let [none, some, more] = [0.0, 5.0, 15.0].map(|deg| told(Along::Roll, deg));
        assert!(
            none > some && some > more && more < 0.0,
            "{none} {some} {more}"
        );
        let [to_port, upright, to_starboard] = [-10.0, 0.0, 10.0].map(|deg| told(Along::Heel, deg));
        assert!(upright > to_port && upright > to_starboard, "{upright}");
        // It stands on a round foot, alone, amidships: which side she heels to makes no difference.
        assert!(
            (to_port - to_starboard).abs() < 1.0,
            "{to_port} {to_starboard}"
        );
    }

    #[test]
    fn nothing_is_to_spare_at_the_roll_at_which_it_goes() {
        let goes_at = told(Along::Period, 4.0);
        let to_spare = told(Along::Roll, goes_at);
        assert!(to_spare.abs() < 1.0, "{to_spare} % at {goes_at}°");
    }
}
