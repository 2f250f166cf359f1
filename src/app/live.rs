//! What follows from the plan, kept in step with it: numbers, what must be put right, and the outcome
//! of what is only being thought of.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::here::Here;
use super::outcome::{self, Outcome};
use super::tools::Preview;
use crate::checks::digest::Line;
use crate::checks::{self, Digest, Finding};
use crate::engine::{Assessor, OtherMotion};
use crate::layout::{Edit, Id, MotionInput, Plan, Trip};

/// The period of a lean that is as good as none at all, in seconds.
const SLOW_S: f64 = 10_000.0;

/// No limits at all.
static NONE: BTreeMap<Id, f64> = BTreeMap::new();

/// See the module. Nothing here is saved; all of it can be computed again from the plan.
#[derive(Debug, Default)]
pub(crate) struct Live {
    assessor: Assessor,
    findings: Arc<Vec<Finding>>,

    /// The findings folded into lines: of one part of the day, or of all; each when first asked for.
    lines: RefCell<BTreeMap<Option<Id>, Arc<Vec<Line>>>>,

    /// What the above was computed from. Holding on to the plan makes sure that an equal address is
    /// an equal plan.
    of: Option<(Arc<Plan>, Id)>,

    scratch: Assessor,
    thought: Option<Thought>,

    slow: OtherMotion,
    lean: Option<Lean>,

    /// How often the findings were computed, for tests.
    runs: usize,
}

/// What would be if some edits were made.
#[derive(Debug)]
struct Thought {
    plan: Arc<Plan>,
    part: usize,
    edits: Vec<Edit>,
    outcome: Option<Outcome>,
}

/// At which slow lean each cylinder goes.
#[derive(Debug)]
struct Lean {
    plan: Arc<Plan>,
    trip: Id,
    part: usize,
    goes_at_deg: BTreeMap<Id, f64>,
}

impl Live {
    /// Computes again what the plan changed; does nothing if it is the same plan and trip.
    pub(crate) fn refresh(&mut self, plan: &Arc<Plan>, trip_id: &str) {
        let same = self
            .of
            .as_ref()
            .is_some_and(|(old, trip)| Arc::ptr_eq(old, plan) && trip == trip_id);
        if same {
            return;
        }
        let trip = plan.trip(trip_id);
        let findings = trip.map(|trip| checks::run(&mut self.assessor, plan, trip));
        self.findings = Arc::new(findings.unwrap_or_default());
        self.lines.get_mut().clear();
        self.of = Some((Arc::clone(plan), trip_id.to_owned()));
        self.runs += 1;
    }

    /// Everything to put right in the trip, all parts of the day.
    pub(crate) fn findings(&self) -> &Arc<Vec<Finding>> {
        &self.findings
    }

    /// What must be put right in one part of the day, or in all, in lines; the gravest first.
    pub(crate) fn lines(&self, trip: &Trip, part: Option<&Id>) -> Arc<Vec<Line>> {
        let mut known = self.lines.borrow_mut();
        let lines = known.entry(part.cloned()).or_insert_with(|| {
            let mut lines = Digest::lines_of(trip, &self.findings, part.map(String::as_str));
            // What was taken on stands under its signal word here, last.
            lines.sort_by_key(|line| std::cmp::Reverse(line.signal));
            Arc::new(lines)
        });
        Arc::clone(lines)
    }

    /// How often the findings were computed.
    pub(crate) fn runs(&self) -> usize {
        self.runs
    }

    /// The numbers behind it all.
    pub(crate) fn assessor(&self) -> &Assessor {
        &self.assessor
    }

    /// What is on the plan in a part of the day and on a deck.
    pub(crate) fn here<'a>(
        &'a self,
        plan: &'a Plan,
        trip: &str,
        part: usize,
        deck: &'a str,
    ) -> Option<Here<'a>> {
        here(&self.assessor, plan, plan.trip(trip)?, part, deck)
    }

    /// What would come of a preview: the outcome of its cylinder on a copy of the plan.
    pub(crate) fn think(&mut self, plan: &Arc<Plan>, trip: &str, part: usize, preview: &Preview) {
        let same = self.thought.as_ref().is_some_and(|old| {
            Arc::ptr_eq(&old.plan, plan) && old.part == part && old.edits == preview.edits
        });
        if same {
            return;
        }
        let outcome = self.outcome(plan, trip, part, preview);
        self.thought = Some(Thought {
            plan: Arc::clone(plan),
            part,
            edits: preview.edits.clone(),
            outcome,
        });
    }

    fn outcome(
        &mut self,
        plan: &Plan,
        trip: &str,
        part: usize,
        preview: &Preview,
    ) -> Option<Outcome> {
        let copy = plan.with(&preview.edits).ok()?;
        let trip = copy.trip(trip)?;
        self.scratch.assess(&copy, trip);
        let id = preview.cylinder.as_ref()?;
        outcome_in(&self.scratch, part, id)
    }

    /// The outcome of the last preview.
    pub(crate) fn thought(&self) -> Option<&Outcome> {
        self.thought.as_ref()?.outcome.as_ref()
    }

    /// Where everything would be after the last preview.
    pub(crate) fn thought_here<'a>(
        &'a self,
        plan: &'a Plan,
        trip: &str,
        part: usize,
        deck: &'a str,
    ) -> Option<Here<'a>> {
        self.thought.as_ref()?;
        here(&self.scratch, plan, plan.trip(trip)?, part, deck)
    }

    /// The outcome of a cylinder as the plan is.
    pub(crate) fn outcome_of(&self, part: usize, cylinder: &str) -> Option<Outcome> {
        outcome_in(&self.assessor, part, cylinder)
    }

    /// At which slow lean each cylinder goes, in degrees; those that hold as far as is searched are
    /// left out.
    ///
    /// `waits`: while something is being dragged and nobody looks at the lean, what was told before is good
    /// enough.
    pub(crate) fn lean(
        &mut self,
        plan: &Arc<Plan>,
        trip: &str,
        part: usize,
        waits: bool,
    ) -> &BTreeMap<Id, f64> {
        let same = self.lean.as_ref().is_some_and(|old| {
            (waits || Arc::ptr_eq(&old.plan, plan)) && old.trip == trip && old.part == part
        });
        if !same {
            let goes_at_deg = self.lean_limits(plan, trip, part).unwrap_or_default();
            self.lean = Some(Lean {
                plan: Arc::clone(plan),
                trip: trip.to_owned(),
                part,
                goes_at_deg,
            });
        }
        self.lean.as_ref().map_or(&NONE, |lean| &lean.goes_at_deg)
    }

    /// At which slow lean a cylinder goes, as last computed.
    pub(crate) fn lean_of(&self, cylinder: &str) -> Option<f64> {
        self.lean.as_ref()?.goes_at_deg.get(cylinder).copied()
    }

    /// The same trip on a boat that only leans, and so slowly that nothing swings.
    fn lean_limits(&mut self, plan: &Plan, trip: &str, part: usize) -> Option<BTreeMap<Id, f64>> {
        // So slow a period is no boat's, and no edit could bring it in.
        let slow = MotionInput {
            roll_amplitude_deg: 30.0,
            roll_period_s: Some(SLOW_S),
            ..MotionInput::default()
        };
        let numbers = self.slow.assess(plan, plan.trip(trip)?, part, slow)?;
        let limits = numbers.cylinders.iter().filter_map(|cylinder| {
            let limit = &cylinder.limit;
            let at_once = limit.goes_at_rest || limit.goes_without_roll;
            let deg = if at_once { Some(0.0) } else { limit.roll_deg };
            Some((cylinder.cylinder.clone(), deg?))
        });
        Some(limits.collect())
    }
}

fn here<'a>(
    assessor: &'a Assessor,
    plan: &'a Plan,
    trip: &'a Trip,
    part: usize,
    deck: &'a str,
) -> Option<Here<'a>> {
    Some(Here {
        plan,
        trip,
        part,
        deck,
        day: assessor.days().get(part)?,
        scene: assessor.scenes().get(part)?,
        numbers: assessor.assessment().parts.get(part),
    })
}

fn outcome_in(assessor: &Assessor, part: usize, cylinder: &str) -> Option<Outcome> {
    let numbers = assessor.assessment().parts.get(part)?;
    let found = numbers
        .cylinders
        .iter()
        .find(|item| item.cylinder == cylinder)?;
    Some(outcome::of_cylinder(found, &numbers.motion))
}
