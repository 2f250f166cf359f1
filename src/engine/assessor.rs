use std::collections::{BTreeMap, BTreeSet};

use super::assembled::Assemblies;
use super::body::{self, Body, Rest};
use super::cylinder;
use super::fall::{self, FallInput};
use super::fit::{self, FitInput};
use super::front::Fronts;
use super::hold::{self, Hold};
use super::limits::Prepared;
use super::mats::Mats;
use super::numbers::{
    Assessment, CylinderNumbers, LimitNumbers, PartNumbers, RackNumbers, SeaNumbers, StowageLimit,
};
use super::seaway::{SeaEstimate, SeaInput};
use super::straps::Straps;
use super::walkway::{self, LashingLeg, WalkwayCache};
use super::ways::Judge;
use super::{Scene, backing, deck_load, lashing, motion, rack};
use crate::geometry::Shape;
use crate::layout::{Boat, DayState, Deck, FrontState, Id, MotionInput, Part, Plan, Rack, Trip};
use crate::mechanics::motion::Motion;

/// Computes every number of a trip, and remembers what need not be computed again.
///
/// A cylinder's numbers depend on itself, what holds it, and the motion; while these are equal to last
/// time, its numbers are taken over.
#[derive(Clone, Debug, Default)]
pub struct Assessor {
    assemblies: Assemblies,
    days: Vec<DayState>,
    scenes: Vec<Scene>,
    memory: Vec<PartMemory>,
    walkways: WalkwayCache,
    aside: Aside,
    assessment: Assessment,
}

/// What was computed of plans that were only tried, against the one that was assessed last.
#[derive(Clone, Debug, Default)]
struct Aside {
    walkways: Option<WalkwayCache>,
    /// Cylinders by part and name, with what their numbers follow from.
    cylinders: BTreeMap<(usize, Id), Vec<(Basis, CylinderNumbers)>>,
}

/// The most ways of stowing one cylinder in one part that are remembered of what was only tried.
const MOST_TRIED: usize = 24;

/// What a cylinder's numbers follow from, but for the motion.
type Basis = (Body, Hold, Option<f64>);

/// What one part was computed from.
#[derive(Clone, Debug, Default)]
struct PartMemory {
    motion: Option<Motion>,
    sea: Option<(SeaInput, SeaEstimate)>,
    /// In the order of their names.
    cylinders: Vec<Basis>,
    decks: Vec<Deck>,
    fronts: Vec<FrontState>,
    racks: Vec<KnownRack>,
}

/// A rack and what was in it.
#[derive(Clone, Debug)]
struct KnownRack {
    rack: Rack,
    inside: Vec<Id>,
}

impl PartMemory {
    /// What the sea and a wake of the part make of the boat; as last time where nothing of it changed.
    fn estimate(&mut self, boat: &Boat, part: &Part, bodies: &[Body]) -> SeaEstimate {
        if part.sea.is_none() && part.wake.is_none() {
            self.sea = None;
            return SeaEstimate::default();
        }
        let highest_m = bodies.iter().map(|body| body.cg.z).max_by(f64::total_cmp);
        let (sea, wake) = (part.sea.as_ref(), part.wake.as_ref());
        let input = SeaInput::new(boat, sea, wake, part.duration_h, highest_m);
        if let Some((old, estimate)) = &self.sea
            && *old == input
        {
            return estimate.clone();
        }
        let estimate = input.estimate();
        self.sea = Some((input, estimate.clone()));
        estimate
    }
}

impl Assessor {
    /// All numbers of the trip. What is equal to last time is not computed again.
    pub fn assess(&mut self, plan: &Plan, trip: &Trip) -> &Assessment {
        self.assemblies.set_trip(trip);
        self.aside = Aside::default();
        self.days = DayState::of_trip(plan, trip);
        let mut before: BTreeMap<usize, PartNumbers> = std::mem::take(&mut self.assessment.parts)
            .into_iter()
            .enumerate()
            .collect();
        self.scenes.clear();
        self.memory
            .resize_with(trip.parts.len(), PartMemory::default);
        for (index, part) in trip.parts.iter().enumerate() {
            let task = PartTask {
                boat: &plan.boat,
                trip,
                part,
                day: &self.days[index],
                held_only: false,
            };
            let old = before.remove(&index);
            let (scene, mut numbers) =
                task.run(&mut self.assemblies, &mut self.memory[index], old, None);
            let legs = task.legs(&numbers);
            numbers.walkways =
                walkway::walkways(&plan.boat, &scene, &legs, index, &mut self.walkways);
            self.scenes.push(scene);
            self.assessment.parts.push(numbers);
        }
        self.assessment.trip.clone_from(&trip.id);
        &self.assessment
    }

    /// One part of the day of a plan that differs a little from the last assessed one: where everything
    /// is, and its numbers. `days` are those of the other plan. What was assessed last stays as it is, so
    /// that one change after the other can be tried against it. `None` if there is no such part.
    pub fn what_if(
        &mut self,
        plan: &Plan,
        trip: &Trip,
        days: &[DayState],
        part: usize,
    ) -> Option<(Scene, PartNumbers)> {
        let task = PartTask::new(plan, trip, days, part)?;
        let (scene, mut numbers) = self.try_task(&task, part);
        let legs = task.legs(&numbers);
        let Self {
            walkways, aside, ..
        } = self;
        let cache = aside.walkways.get_or_insert_with(|| walkways.clone());
        numbers.walkways = walkway::walkways(&plan.boat, &scene, &legs, part, cache);
        Some((scene, numbers))
    }

    /// The same of the cylinders and what holds them alone: walkways, falls, fits and deck loads are left
    /// empty. Enough to see that a change does not hold.
    pub fn what_if_held(
        &mut self,
        plan: &Plan,
        trip: &Trip,
        days: &[DayState],
        part: usize,
    ) -> Option<(Scene, PartNumbers)> {
        let mut task = PartTask::new(plan, trip, days, part)?;
        task.held_only = true;
        Some(self.try_task(&task, part))
    }

    fn try_task(&mut self, task: &PartTask<'_>, part: usize) -> (Scene, PartNumbers) {
        self.assemblies.set_trip(task.trip);
        let mut memory = self.memory.get(part).cloned().unwrap_or_default();
        let old = self.assessment.parts.get(part).cloned();
        let tried = Some((part, &mut self.aside));
        task.run(&mut self.assemblies, &mut memory, old, tried)
    }

    /// Everything as it is in each part of the day, from the last assessment.
    pub fn days(&self) -> &[DayState] {
        &self.days
    }

    /// Where everything is in each part of the day, from the last assessment.
    pub fn scenes(&self) -> &[Scene] {
        &self.scenes
    }

    /// The motion that sea and wake of a part make, from the last assessment; `None` where it has neither.
    pub fn estimated_motion(&self, part: usize) -> Option<&MotionInput> {
        let (_, estimate) = self.memory.get(part)?.sea.as_ref()?;
        estimate.motion.as_ref()
    }

    /// The last assessment.
    pub fn assessment(&self) -> &Assessment {
        &self.assessment
    }
}

/// Computes the numbers of the cylinders of one part of the day alone, under another motion, and remembers
/// them: walkways, falls, fits and deck loads are left empty.
#[derive(Clone, Debug, Default)]
pub struct OtherMotion {
    assemblies: Assemblies,
    memory: PartMemory,
    numbers: Option<PartNumbers>,
}

impl OtherMotion {
    /// The numbers of a part of the day under this motion; `None` if there is no such part.
    pub fn assess(
        &mut self,
        plan: &Plan,
        trip: &Trip,
        part: usize,
        motion: MotionInput,
    ) -> Option<&PartNumbers> {
        let day = DayState::of_trip(plan, trip);
        let part_of_day = Part {
            motion: Some(motion),
            ..trip.parts.get(part)?.clone()
        };
        let task = PartTask {
            boat: &plan.boat,
            trip,
            part: &part_of_day,
            day: day.get(part)?,
            held_only: true,
        };
        self.assemblies.set_trip(trip);
        let before = self.numbers.take();
        let (_, numbers) = task.run(&mut self.assemblies, &mut self.memory, before, None);
        Some(self.numbers.insert(numbers))
    }
}

struct PartTask<'a> {
    boat: &'a Boat,
    trip: &'a Trip,
    part: &'a Part,
    day: &'a DayState,
    /// Only the cylinders and what holds them?
    held_only: bool,
}

impl<'a> PartTask<'a> {
    fn new(plan: &'a Plan, trip: &'a Trip, days: &'a [DayState], part: usize) -> Option<Self> {
        Some(Self {
            boat: &plan.boat,
            trip,
            part: trip.parts.get(part)?,
            day: days.get(part)?,
            held_only: false,
        })
    }
}

impl PartTask<'_> {
    /// The legs of all lashings that are made fast, with heights above the deck of what they hold.
    fn legs(&self, numbers: &PartNumbers) -> Vec<LashingLeg> {
        let mut legs = Vec::new();
        for lashing in numbers.lashings.iter().filter(|lashing| lashing.shut) {
            let held = lashing.round.first();
            let deck = held.and_then(|id| {
                let found = (numbers.cylinders).binary_search_by(|item| item.cylinder.cmp(id));
                let cylinder = numbers.cylinders.get(found.ok()?)?;
                self.boat.deck(&cylinder.deck)
            });
            let Some(deck) = deck else { continue };
            for leg in &lashing.legs {
                legs.push(LashingLeg {
                    lashing: lashing.lashing.clone(),
                    deck: deck.id.clone(),
                    ends: leg.map(|[x, y, z]| [x, y, z - deck.height_above_waterline_m]),
                });
            }
        }
        legs
    }

    /// Everything on deck as a body, by name.
    fn bodies(&self, assemblies: &mut Assemblies) -> Vec<Body> {
        let mats = Mats::of_day(self.day);
        let mut bodies: Vec<Body> = Vec::with_capacity(self.day.cylinders.len());
        bodies.extend(
            (self.day.cylinders.iter())
                .filter_map(|state| body::body(self.boat, &mats, assemblies, &state.cylinder)),
        );
        bodies.sort_by(|a, b| a.id.cmp(&b.id));
        bodies
    }

    fn run(
        &self,
        assemblies: &mut Assemblies,
        memory: &mut PartMemory,
        old: Option<PartNumbers>,
        mut tried: Option<(usize, &mut Aside)>,
    ) -> (Scene, PartNumbers) {
        let bodies = self.bodies(assemblies);
        let estimate = memory.estimate(self.boat, self.part, &bodies);
        let (motion, motion_numbers) = motion::resolve(self.boat, self.part, &estimate);
        let straps = Straps::of_day(self.boat, self.trip, self.day);
        let holds = hold::holds(self.boat, self.day, &straps, &bodies);
        let scene = Scene::build(self.boat, self.day, &bodies);
        let shells: Vec<(Id, Shape)> = bodies
            .iter()
            .filter(|body| body.assembled.kit_reach_m > 0.0)
            .map(|body| (body.id.clone(), body.shell_shape()))
            .collect();
        let prepared = Prepared::new(&motion);
        let pitches: Vec<Option<f64>> = bodies
            .iter()
            .map(|body| groove_pitch(body, &bodies))
            .collect();
        let judges: Vec<Judge<'_>> = bodies
            .iter()
            .zip(&holds)
            .zip(&pitches)
            .map(|((body, hold), pitch)| Judge::new(body, hold, *pitch))
            .collect();
        let fronts = Fronts::of(&judges, &prepared);
        let same_motion = memory.motion == Some(motion);
        let (known_cylinders, known_racks) =
            old.map_or_else(Default::default, |old| (old.cylinders, old.racks));
        // Both are in the order of their names, as the bodies are.
        let mut known = known_cylinders.into_iter().peekable();
        let mut bases = memory.cylinders.iter().peekable();
        let mut unchanged: BTreeSet<&Id> = BTreeSet::new();
        let cylinders: Vec<CylinderNumbers> = judges
            .iter()
            .zip(&pitches)
            .map(|(judge, pitch)| {
                let id = &judge.body.id;
                while bases.next_if(|(body, ..)| body.id < *id).is_some() {}
                while known.next_if(|old| old.cylinder < *id).is_some() {}
                let basis = bases.next_if(|(body, ..)| body.id == *id);
                let is_same = same_motion
                    && basis.is_some_and(|(body, hold, old_pitch)| {
                        body == judge.body && hold == judge.hold && old_pitch == pitch
                    });
                let old = known.next_if(|old| old.cylinder == *id);
                match old.filter(|_| is_same) {
                    Some(numbers) => {
                        unchanged.insert(id);
                        numbers
                    }
                    None => match &mut tried {
                        Some((part, aside)) if same_motion => {
                            let key = (*part, id.clone());
                            let before = aside.cylinders.entry(key).or_default();
                            of_tried(before, judge, *pitch, (&prepared, &fronts))
                        }
                        _ => cylinder::numbers(judge, &prepared, &fronts),
                    },
                }
            })
            .collect();
        let racks = RacksTask {
            boat: self.boat,
            day: self.day,
            judges: &judges,
            unchanged: &unchanged,
            prepared: &prepared,
            fronts: &fronts,
        };
        let racks = racks.run(memory, known_racks);
        let mut numbers = PartNumbers {
            part: self.part.id.clone(),
            condition: self.part.condition,
            motion: motion_numbers,
            sea: estimate.sea.clone().map(|sea| SeaNumbers {
                crossings: estimate.crossings(&cylinders),
                ..sea
            }),
            wake: estimate.wake.clone(),
            racks,
            lashings: lashing::lashings(&straps, &bodies, &cylinders),
            points: lashing::points(&straps, &bodies, &cylinders),
            backings: backing::backings(self.boat, &cylinders, &prepared),
            walkways: Vec::new(),
            falls: Vec::new(),
            fit: Vec::new(),
            decks: Vec::new(),
            limit: stowage_limit(&cylinders),
            cylinders,
        };
        if !self.held_only {
            let cylinders = &numbers.cylinders;
            numbers.falls = fall::falls(FallInput {
                boat: self.boat,
                scene: &scene,
                bodies: &bodies,
                holds: &holds,
                cylinders,
                motion: &motion,
                cases: &prepared.cases,
            });
            numbers.fit = fit::fits(FitInput {
                boat: self.boat,
                day: self.day,
                scene: &scene,
                condition: self.part.condition,
                shells: &shells,
            });
            numbers.decks = deck_load::deck_loads(self.boat, &scene, cylinders);
        }
        memory.motion = Some(motion);
        memory.cylinders = bodies
            .into_iter()
            .zip(holds)
            .zip(pitches)
            .map(|((body, hold), pitch)| (body, hold, pitch))
            .collect();
        (scene, numbers)
    }
}

/// The numbers of a cylinder that is only tried, from among those tried before if it was.
fn of_tried(
    before: &mut Vec<(Basis, CylinderNumbers)>,
    judge: &Judge<'_>,
    pitch: Option<f64>,
    (prepared, fronts): (&Prepared, &Fronts<'_>),
) -> CylinderNumbers {
    let is_it =
        |(body, hold, old): &Basis| body == judge.body && hold == judge.hold && *old == pitch;
    if let Some((_, numbers)) = before.iter().find(|(basis, _)| is_it(basis)) {
        return numbers.clone();
    }
    let numbers = cylinder::numbers(judge, prepared, fronts);
    if before.len() < MOST_TRIED {
        let basis = (judge.body.clone(), judge.hold.clone(), pitch);
        before.push((basis, numbers.clone()));
    }
    numbers
}

/// Distance between the two shells in whose groove a body rests.
pub(super) fn groove_pitch(body: &Body, bodies: &[Body]) -> Option<f64> {
    let Rest::Groove(upon) = &body.lying.as_ref()?.rest else {
        return None;
    };
    let mut below = upon.iter().filter_map(|id| body::find(bodies, id));
    let (first, second) = (below.next()?, below.next()?);
    Some(first.at.distance(second.at))
}

/// All racks of one part.
struct RacksTask<'a> {
    boat: &'a Boat,
    day: &'a DayState,
    judges: &'a [Judge<'a>],
    /// The cylinders that are, and are held, as they were under the same motion.
    unchanged: &'a BTreeSet<&'a Id>,
    prepared: &'a Prepared,
    fronts: &'a Fronts<'a>,
}

impl RacksTask<'_> {
    /// Their numbers, in the order of names. Those of a rack that is as it was, with the same in it, are
    /// taken over.
    fn run(&self, memory: &mut PartMemory, known: Vec<RackNumbers>) -> Vec<RackNumbers> {
        let same_deck = memory.decks == self.boat.decks && memory.fronts == self.day.fronts;
        let mut inside: BTreeMap<&Id, Vec<&Judge<'_>>> = BTreeMap::new();
        for judge in self.judges {
            if let Some((rack, _)) = &judge.body.slot {
                inside.entry(rack).or_default().push(judge);
            }
        }
        let mut known: BTreeMap<Id, RackNumbers> = (known.into_iter())
            .map(|numbers| (numbers.rack.clone(), numbers))
            .collect();
        let before = std::mem::take(&mut memory.racks);
        let mut numbers = Vec::with_capacity(self.boat.racks.len());
        for (place, rack) in self.boat.racks.iter().enumerate() {
            let inside = inside.get(&rack.id).map_or(&[][..], Vec::as_slice);
            let ids = || inside.iter().map(|judge| &judge.body.id);
            let is_same = same_deck
                && (before.get(place)).is_some_and(|known| {
                    known.rack == *rack
                        && ids().eq(known.inside.iter())
                        && ids().all(|id| self.unchanged.contains(id))
                        // An empty rack tells nothing of the motion.
                        && !known.inside.is_empty()
                });
            let taken_over = known.remove(&rack.id).filter(|_| is_same);
            numbers.push(taken_over.unwrap_or_else(|| {
                rack::numbers(
                    self.boat,
                    self.day,
                    rack,
                    inside,
                    self.prepared,
                    self.fronts,
                )
            }));
            memory.racks.push(KnownRack {
                rack: rack.clone(),
                inside: ids().cloned().collect(),
            });
        }
        memory.decks.clone_from(&self.boat.decks);
        memory.fronts.clone_from(&self.day.fronts);
        numbers.sort_by(|a, b| a.rack.cmp(&b.rack));
        numbers
    }
}

/// The order in which the cylinders go.
fn stowage_limit(cylinders: &[CylinderNumbers]) -> StowageLimit {
    let mut order: Vec<&CylinderNumbers> = cylinders.iter().collect();
    order.sort_by(|a, b| {
        rank(&a.limit)
            .total_cmp(&rank(&b.limit))
            .then_with(|| roll(&a.limit).total_cmp(&roll(&b.limit)))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    StowageLimit {
        first: order.first().map(|numbers| numbers.limit.clone()),
        order: order
            .into_iter()
            .map(|numbers| numbers.cylinder.clone())
            .collect(),
    }
}

fn rank(limit: &LimitNumbers) -> f64 {
    limit.share.unwrap_or(f64::INFINITY)
}

fn roll(limit: &LimitNumbers) -> f64 {
    if limit.goes_without_roll {
        0.0
    } else {
        limit.roll_deg.unwrap_or(f64::INFINITY)
    }
}
