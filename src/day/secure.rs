//! The deck secured for the night, and opened for diving: what must be changed on deck, who does it, and how far
//! the stowage is good before and after.

use schemars::JsonSchema;
use serde::Serialize;

use super::edits;
use super::spots::{Spots, Taken, taken};
use super::strip::{FirstToGo, SignalCount, first};
use super::work::PartWork;
use crate::checks::{self, unsecured, words};
use crate::engine::Assessor;
use crate::geometry::Elementary as _;
use crate::layout::{
    Changes, Condition, Cylinder, DayState, Edit, Fill, GearKind, Id, Kit, LashCondition, Part,
    Placing, Plan, Posture, Role, Trip, with_part_put_in,
};

/// What the deck is made ready for.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Purpose {
    /// Everything shut, lashed and stowed, nobody on deck.
    Night,
    /// The divers' cylinders kitted up and free to be taken, the others as they are.
    Diving,
}

/// How far the stowage is good at one time, and what is to put right then.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LimitThen {
    /// What goes first; `None` where nothing is on deck.
    pub first: Option<FirstToGo>,

    /// How much there is to put right.
    pub to_put_right: SignalCount,
}

/// What must be changed on deck to make it ready.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Deckwork {
    /// For what.
    pub purpose: Purpose,

    /// The new part of the day, put in after the one that was asked for.
    #[serde(skip)]
    pub part: Part,

    /// The part after which it comes.
    pub after: Id,

    /// What is done, step by step, and by whom.
    pub work: PartWork,

    /// What cannot be done, as sentences.
    pub cannot: Vec<String>,

    /// How far the stowage is good before.
    pub before: LimitThen,

    /// How far it is good afterwards, in the same motion.
    pub afterwards: LimitThen,

    /// What makes it so, as one step.
    #[serde(skip)]
    pub edits: Vec<Edit>,
}

impl Deckwork {
    /// Is there nothing to do?
    pub fn is_done_already(&self) -> bool {
        self.work.steps.is_empty()
    }
}

/// Makes the deck ready after a part of the day, in a part of its own; all other parts stay as they are. `None` if
/// there is no such part.
pub fn secure(plan: &Plan, trip: &Trip, after: usize, purpose: Purpose) -> Option<Deckwork> {
    let days = DayState::of_trip(plan, trip);
    let (was, day) = (trip.parts.get(after)?, days.get(after)?);
    let part = empty_part(trip, was, purpose);
    let spots = Spots {
        plan,
        trip,
        part: &part,
    };
    let (changes, cannot) = changes_for(purpose, spots, day, &taken(day));
    let part = Part { changes, ..part };
    let mut now = day.clone();
    now.enter(&part);
    let work = PartWork::between(plan, trip, &part, day, &now);
    let before = limit_then(plan, &trip.of_moment(was, day));
    let afterwards = limit_then(plan, &trip.of_moment(&part, &now));
    let with = with_part_put_in(plan, trip, after, part.clone())?;
    Some(Deckwork {
        purpose,
        after: was.id.clone(),
        part,
        work,
        cannot,
        before,
        afterwards,
        edits: vec![Edit::PutTrip(Box::new(with))],
    })
}

/// The part that is put in, before anything changes in it; the boat moves in it as in the part before.
fn empty_part(trip: &Trip, was: &Part, purpose: Purpose) -> Part {
    let stem = match purpose {
        Purpose::Night => "night",
        Purpose::Diving => "ready to dive",
    };
    let mut id = stem.to_owned();
    let mut number = 2;
    while trip.part(&id).is_some() {
        id = format!("{stem} {number}");
        number += 1;
    }
    let condition = match (purpose, was.condition) {
        (Purpose::Diving, Condition::Running) => Condition::Drifting,
        (_, condition) => condition,
    };
    Part {
        id,
        name: None,
        condition,
        duration_h: match purpose {
            Purpose::Night => Some(8.0),
            Purpose::Diving => None,
        },
        nobody_on_deck: purpose == Purpose::Night,
        changes: Changes::default(),
        ..was.clone()
    }
}

fn limit_then(plan: &Plan, moment: &Trip) -> LimitThen {
    let mut assessor = Assessor::default();
    let findings = checks::run(&mut assessor, plan, moment);
    let numbers = assessor.assessment().parts.first();
    LimitThen {
        first: numbers.and_then(first),
        to_put_right: SignalCount::of_findings(&findings, None),
    }
}

/// What changes, and what cannot be done.
pub(super) fn changes_for(
    purpose: Purpose,
    spots: Spots<'_>,
    day: &DayState,
    taken: &Taken,
) -> (Changes, Vec<String>) {
    match purpose {
        Purpose::Night => night(spots, day, taken),
        Purpose::Diving => diving(spots, day),
    }
}

fn night(spots: Spots<'_>, day: &DayState, taken: &Taken) -> (Changes, Vec<String>) {
    let mut changes = Changes::default();
    let mut cannot = Vec::new();
    let in_water: Vec<Id> = (day.people.iter())
        .filter(|state| state.person.posture == Posture::InWater)
        .map(|state| state.person.id.clone())
        .collect();
    if !in_water.is_empty() {
        cannot.push(format!(
            "{} {} in the water: everybody is aboard before the deck is left.",
            words::list_in_order(&in_water),
            words::is_are(in_water.len())
        ));
    }
    for state in day.fronts.iter().filter(|state| !state.front.shut) {
        edits::front(&mut changes, &state.rack, &state.front.id, true);
    }
    for cylinder in day.cylinders.iter().map(|state| &state.cylinder) {
        let lies_on_it = matches!(cylinder.placing, Placing::Lying { on_kit: true, .. });
        if cylinder.kit == Kit::On && cylinder.placing.is_aboard() && !lies_on_it {
            edits::kit(&mut changes, &cylinder.id, Kit::Off);
        }
    }
    for lashing in day.lashings.iter().map(|state| &state.lashing) {
        let name = lashing.name.as_ref().unwrap_or(&lashing.id);
        let there = |id: &Id| {
            day.cylinder(id)
                .is_some_and(|it| it.placing.can_be_lashed())
        };
        if lashing.shut || !lashing.round.iter().all(there) {
            continue;
        }
        if lashing.condition == LashCondition::Cut {
            cannot.push(format!("{name} is cut and secures nothing."));
        } else {
            edits::lashing(&mut changes, &lashing.id, true);
        }
    }
    put_away(spots, day, taken, &mut changes, &mut cannot);
    for gear in day.gear.iter().map(|state| &state.gear) {
        // A mat is what things stand on.
        if !gear.stowed && gear.kind != GearKind::Mat {
            edits::stow(&mut changes, &gear.id);
        }
    }
    for person in day.people.iter().map(|state| &state.person) {
        if person.is_on_deck() {
            edits::posture(&mut changes, &person.id, Posture::Below);
        }
    }
    (changes, cannot)
}

/// Puts what nothing holds into a free slot, else lays it down.
fn put_away(
    spots: Spots<'_>,
    day: &DayState,
    taken: &Taken,
    changes: &mut Changes,
    cannot: &mut Vec<String>,
) {
    let part = |changes: &Changes| Part {
        changes: changes.clone(),
        ..spots.part.clone()
    };
    let then = |changes: &Changes| {
        let mut now = day.clone();
        now.enter(&part(changes));
        now
    };
    let mut taken = taken.clone();
    let now = then(changes);
    let free = unsecured(spots.plan, &spots.trip.of_moment(spots.part, &now));
    let to_put_away: Vec<Cylinder> = (now.cylinders.iter())
        .map(|state| &state.cylinder)
        .filter(|cylinder| {
            let in_hands = matches!(
                cylinder.placing,
                Placing::OnDiver { .. } | Placing::HeldByHand { .. } | Placing::Filling { .. }
            );
            in_hands || rolls_free(&cylinder.placing) || free.contains(&cylinder.id)
        })
        .cloned()
        .collect();
    for cylinder in to_put_away {
        let now = then(changes);
        let spot = spots.upright(&cylinder, &taken);
        let spot = spot.or_else(|| spots.lying_place(&now, &cylinder, &taken));
        let Some(spot) = spot else {
            cannot.push(format!(
                "There is no free slot, cradle or chocked floor for {}.",
                cylinder.id
            ));
            continue;
        };
        if let Placing::InSlot { rack, slot } = &spot {
            taken.insert((rack.clone(), slot.clone()));
        }
        edits::place(changes, &cylinder.id, spot);
    }
}

fn rolls_free(placing: &Placing) -> bool {
    matches!(
        placing,
        Placing::Lying { on_kit: false, chocks: None, upon, .. } if upon.is_empty()
    )
}

fn diving(spots: Spots<'_>, day: &DayState) -> (Changes, Vec<String>) {
    let Spots { plan, trip, .. } = spots;
    let mut changes = Changes::default();
    let mut cannot = Vec::new();
    let divers = trip.people.iter().filter(|it| it.role == Role::Diver);
    let divers = divers.filter(|it| {
        let posture = day.person(&it.id).map_or(it.posture, |now| now.posture);
        !matches!(posture, Posture::Ashore | Posture::InWater)
    });
    let mut count = 0;
    let mut free: Vec<&Cylinder> = (day.cylinders.iter())
        .map(|state| &state.cylinder)
        .filter(|it| it.fill == Fill::Full && it.placing.is_aboard())
        .filter(|it| it.stands_by_itself() || matches!(it.placing, Placing::InSlot { .. }))
        .collect();
    let mut ready: Vec<&Cylinder> = Vec::new();
    for diver in divers {
        count += 1;
        let own = |it: &&Cylinder| it.diver.as_ref() == Some(&diver.id);
        let away = |it: &Cylinder| {
            let at = super::work::where_it_is(plan, it);
            at.map_or(f64::INFINITY, |at| {
                (at[0] - diver.at[0]).hypotenuse(at[1] - diver.at[1])
            })
        };
        let meant = free.iter().filter(|it| own(it) || it.diver.is_none());
        let best = meant.min_by(|a, b| {
            let order = own(b).cmp(&own(a)).then(away(a).total_cmp(&away(b)));
            order.then_with(|| a.id.cmp(&b.id))
        });
        if let Some(best) = best.copied() {
            free.retain(|it| it.id != best.id);
            ready.push(best);
        }
    }
    if count == 0 {
        cannot.push("No diver is aboard.".to_owned());
    } else if ready.len() < count {
        cannot.push(format!(
            "There are full cylinders for {} of {count} divers.",
            ready.len()
        ));
    }
    for cylinder in &ready {
        if cylinder.kit == Kit::Off {
            edits::kit(&mut changes, &cylinder.id, Kit::On);
        }
        if let Placing::InSlot { rack, slot } = &cylinder.placing
            && let Some(front) = day.front_of(rack, slot)
            && front.shut
        {
            edits::front(&mut changes, rack, &front.id, false);
        }
    }
    for lashing in day.lashings.iter().map(|state| &state.lashing) {
        if lashing.shut && ready.iter().any(|it| lashing.round.contains(&it.id)) {
            edits::lashing(&mut changes, &lashing.id, false);
        }
    }
    for person in &trip.people {
        let now = day.person(&person.id).map(|now| now.posture);
        if now == Some(Posture::Below) && person.is_on_deck() {
            edits::posture(&mut changes, &person.id, person.posture);
        }
    }
    (changes, cannot)
}
