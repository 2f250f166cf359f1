//! What edits come to: the plan with them, checked again in the parts of the day that they touch and
//! nowhere else.
//!
//! A trial is remembered by its edits, as the same edit is tried for many findings. It is made lazily,
//! part by part: what helps in none of its own part is not looked at in the others.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use crate::checks::check::{Check, Finding, Signal, Subject};
use crate::checks::index::Index;
use crate::checks::rules::valve_points_into_walkway::VALVE_POINTS_INTO_WALKWAY;
use crate::checks::{CheckContext, of_part};
use crate::engine::Assessor;
use crate::engine::numbers::{LimitNumbers, PartNumbers};
use crate::layout::{Changes, DayState, Edit, Id, Part, Plan, Trip};
use crate::units::Said;

/// A finding, cut down to what says whether it is still there and what it says.
#[derive(Clone, Debug)]
pub(super) struct Mark {
    pub(super) code: &'static str,
    pub(super) signal: Signal,
    pub(super) not_known: bool,
    pub(super) about: Vec<Subject>,
    pub(super) sentence: Said,
}

impl Mark {
    fn of(finding: Finding) -> Self {
        Self {
            code: finding.code,
            signal: finding.signal,
            not_known: finding.not_known,
            about: finding.about,
            sentence: finding.sentence,
        }
    }

    /// Rule and first thing: what makes it the same trouble as before.
    pub(super) fn key(&self) -> (&'static str, Option<&str>) {
        let first = self.about.first();
        (self.code, first.map(|subject| subject.id.as_str()))
    }
}

/// One part of the day, checked.
#[derive(Debug, Default)]
pub(super) struct PartView {
    pub(super) part: String,
    pub(super) marks: Vec<Mark>,
    pub(super) limit: Option<LimitNumbers>,
    /// Which cylinder goes first.
    pub(super) first: Option<Id>,
}

/// The day with some edits made, and what came of them as far as anybody asked.
#[derive(Clone, Debug)]
pub(super) struct Course {
    pub(super) edits: Vec<Edit>,
    trial: Arc<Trial>,
}

/// What is the same for all trials, shared between threads.
#[derive(Debug)]
pub(super) struct Ground<'a> {
    pub(super) plan: &'a Plan,
    pub(super) trip: &'a Trip,
    pub(super) before: &'a [Finding],
    pub(super) start: Course,
    trials: Mutex<BTreeMap<String, Arc<Trial>>>,
}

/// What some edits come to, as far as anybody asked; `parts` is empty where the plan refuses them.
#[derive(Debug)]
struct Trial {
    parts: Vec<OnceLock<Arc<PartView>>>,
}

/// The plan with the edits made.
#[derive(Debug)]
struct Made {
    plan: Plan,
    days: Vec<DayState>,
}

/// Some edits on the bench.
#[derive(Debug)]
pub(super) struct Attempt<'g, 'a> {
    ground: &'g Ground<'a>,
    course: Course,
    made: Option<Made>,
}

impl<'a> Ground<'a> {
    /// The plan as it is, assessed.
    pub(super) fn new(
        assessor: &mut Assessor,
        plan: &'a Plan,
        trip: &'a Trip,
        before: &'a [Finding],
    ) -> Self {
        let numbers = &assessor.assess(plan, trip).parts;
        let view = trip.parts.iter().zip(numbers).map(|(part, numbers)| {
            let here = before.iter().filter(|finding| finding.part == part.id);
            OnceLock::from(Arc::new(PartView {
                part: part.id.clone(),
                marks: here.cloned().map(Mark::of).collect(),
                limit: numbers.limit.first.clone(),
                first: numbers.limit.order.first().cloned(),
            }))
        });
        let start = Course {
            edits: Vec::new(),
            trial: Arc::new(Trial {
                parts: view.collect(),
            }),
        };
        Self {
            plan,
            trip,
            before,
            start,
            trials: Mutex::default(),
        }
    }

    /// Puts edits on the bench; `None` if the plan refuses them.
    pub(super) fn attempt<'g>(
        &'g self,
        assessor: &Assessor,
        edits: Vec<Edit>,
    ) -> Option<Attempt<'g, 'a>> {
        let key = format!("{edits:?}");
        let known = self.trials().get(&key).cloned();
        let (trial, made) = if let Some(trial) = known {
            (trial, None)
        } else {
            let made = self.make(&edits);
            let parts = made.as_ref().map(|made| self.untouched(assessor, made));
            let trial = Trial {
                parts: parts.unwrap_or_default(),
            };
            let mut trials = self.trials();
            // Another thread may have been faster: what it has found is the same.
            let trial = trials.entry(key).or_insert_with(|| Arc::new(trial));
            (Arc::clone(trial), made)
        };
        (!trial.parts.is_empty()).then_some(Attempt {
            ground: self,
            course: Course { edits, trial },
            made,
        })
    }

    /// Puts back on the bench what was there before.
    pub(super) fn resume<'g>(&'g self, course: &Course) -> Attempt<'g, 'a> {
        Attempt {
            ground: self,
            course: course.clone(),
            made: None,
        }
    }

    fn trials(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Arc<Trial>>> {
        // A trial is put there whole, so that a thread that panicked leaves nothing half done.
        self.trials.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn make(&self, edits: &[Edit]) -> Option<Made> {
        let plan = self.plan.with(edits).ok()?;
        let days = DayState::of_trip(&plan, plan.trip(&self.trip.id)?);
        Some(Made { plan, days })
    }

    /// The parts of the day, those filled in that are as they were.
    fn untouched(&self, assessor: &Assessor, made: &Made) -> Vec<OnceLock<Arc<PartView>>> {
        let Some(trip) = made.plan.trip(&self.trip.id) else {
            return Vec::new();
        };
        let same_boat = made.plan.boat == self.plan.boat
            && trip.kinds == self.trip.kinds
            && trip.materials == self.trip.materials;
        let days = assessor.days();
        let is_same = |index: usize| {
            let parts = trip.parts.get(index).zip(self.trip.parts.get(index));
            same_boat
                && parts.is_some_and(|(new, old)| is_like(new, old))
                && days.get(index) == made.days.get(index)
                // Who was moved at the start of a part is told with where they were before.
                && (index == 0 || days.get(index - 1) == made.days.get(index - 1))
        };
        let parts = (0..trip.parts.len()).map(|index| {
            let known = self.start.trial.parts.get(index);
            known
                .filter(|_| is_same(index))
                .cloned()
                .unwrap_or_default()
        });
        parts.collect()
    }
}

/// Are they alike but for the changes with which they begin?
fn is_like(a: &Part, b: &Part) -> bool {
    let bare = |part: &Part| Part {
        changes: Changes::default(),
        ..part.clone()
    };
    bare(a) == bare(b)
}

impl Attempt<'_, '_> {
    /// One part of the day; `None` if there is no such part any more.
    pub(super) fn part(&mut self, assessor: &mut Assessor, part: &str) -> Option<Arc<PartView>> {
        let index = self.place(part)?;
        Some(self.at(assessor, index))
    }

    fn place(&mut self, part: &str) -> Option<usize> {
        let (old, _) = self.ground.trip.part(part)?;
        (old < self.course.trial.parts.len()).then_some(old)
    }

    fn at(&mut self, assessor: &mut Assessor, index: usize) -> Arc<PartView> {
        let trial = Arc::clone(&self.course.trial);
        let Some(cell) = trial.parts.get(index) else {
            return Arc::default();
        };
        Arc::clone(cell.get_or_init(|| {
            let seen = self.inspect(assessor, index, |ctx, findings| PartView {
                part: ctx.part.id.clone(),
                marks: findings.into_iter().map(Mark::of).collect(),
                limit: ctx.numbers.limit.first.clone(),
                first: ctx.numbers.limit.order.first().cloned(),
            });
            Arc::new(seen.unwrap_or_default())
        }))
    }

    /// Every part of the day.
    pub(super) fn whole(&mut self, assessor: &mut Assessor) -> Vec<Arc<PartView>> {
        let parts = 0..self.course.trial.parts.len();
        parts.map(|index| self.at(assessor, index)).collect()
    }

    /// What to go on from.
    pub(super) fn course(&self) -> &Course {
        &self.course
    }

    /// What a rule about holding finds in one part of the day, and the limit there, from the cylinders and
    /// what holds them alone; `None` if the whole part is known already, or the rule looks at more.
    pub(super) fn first_look(
        &mut self,
        assessor: &mut Assessor,
        code: &'static str,
        part: &str,
    ) -> Option<PartView> {
        let index = self.place(part)?;
        let known = self.course.trial.parts.get(index)?.get().is_some();
        let check = crate::checks::find(code).filter(|check| is_of_holding(check) && !known)?;
        self.with_context(assessor, index, Depth::Held, |ctx| {
            let mut findings = Vec::new();
            (check.run)(ctx, &mut findings);
            PartView {
                part: ctx.part.id.clone(),
                marks: findings.into_iter().map(Mark::of).collect(),
                limit: ctx.numbers.limit.first.clone(),
                first: ctx.numbers.limit.order.first().cloned(),
            }
        })
    }

    /// Looks at one part of the day and at what the rules find in it.
    fn inspect<T>(
        &mut self,
        assessor: &mut Assessor,
        index: usize,
        look: impl FnOnce(&CheckContext<'_>, Vec<Finding>) -> T,
    ) -> Option<T> {
        self.with_context(assessor, index, Depth::Whole, |ctx| look(ctx, of_part(ctx)))
    }

    fn with_context<T>(
        &mut self,
        assessor: &mut Assessor,
        index: usize,
        depth: Depth,
        look: impl FnOnce(&CheckContext<'_>) -> T,
    ) -> Option<T> {
        if self.made.is_none() {
            self.made = self.ground.make(&self.course.edits);
        }
        let Made { plan, days } = self.made.as_ref()?;
        let trip = plan.trip(&self.ground.trip.id)?;
        let (scene, numbers) = match depth {
            Depth::Whole => assessor.what_if(plan, trip, days, index)?,
            Depth::Held => assessor.what_if_held(plan, trip, days, index)?,
        };
        let day = days.get(index)?;
        Some(look(&CheckContext {
            plan,
            trip,
            part_index: index,
            part: trip.parts.get(index)?,
            day,
            days,
            scene: &scene,
            numbers: &numbers,
            index: &Index::new(day, &numbers),
        }))
    }
}

/// How much of a part of the day is computed.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Depth {
    /// Everything.
    Whole,
    /// Cylinders and what holds them.
    Held,
}

/// Does the rule look at nothing but cylinders and what holds them? Those of the families unsecured,
/// tipping, racks, lashings and lying, but for where a valve points.
pub(super) fn is_of_holding(check: &Check) -> bool {
    check.code.starts_with(['U', 'T', 'R', 'L', 'Y'])
        && check.code != VALVE_POINTS_INTO_WALKWAY.code
}

impl Ground<'_> {
    /// Looks at one part of the day on this course, and at what the rules find in it.
    pub(super) fn inspect<T>(
        &self,
        assessor: &mut Assessor,
        course: &Course,
        part: &str,
        look: impl FnOnce(&CheckContext<'_>, &[&Finding]) -> T,
    ) -> Option<T> {
        let (index, part) = self.trip.part(part)?;
        if !course.edits.is_empty() {
            return self
                .resume(course)
                .inspect(assessor, index, |ctx, findings| {
                    look(ctx, &findings.iter().collect::<Vec<_>>())
                });
        }
        let here = self.before.iter().filter(|finding| finding.part == part.id);
        let numbers: &PartNumbers = assessor.assessment().parts.get(index)?;
        let day = assessor.days().get(index)?;
        let ctx = CheckContext {
            plan: self.plan,
            trip: self.trip,
            part_index: index,
            part,
            day,
            days: assessor.days(),
            scene: assessor.scenes().get(index)?,
            numbers,
            index: &Index::new(day, numbers),
        };
        Some(look(&ctx, &here.collect::<Vec<_>>()))
    }
}
