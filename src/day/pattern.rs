//! Days laid out from a pattern: the parts of a kind of day, made from the trip's own cylinders, people and racks.
//!
//! The patterns are ours; the order in a swap is common practice: the empties out and down first, then the fulls
//! in, so that an empty and the full one for its slot never stand at once.

use std::collections::BTreeMap;

use super::edits;
use super::secure::{Purpose, changes_for};
use super::spots::{Spots, Taken, taken};
use super::work::{Work, where_it_is};
use crate::checks::words;
use crate::geometry::Elementary as _;
use crate::layout::{
    Changes, Condition, Cylinder, DayState, Edit, Fill, Id, Kit, Part, Person, Placing, Plan,
    Posture, RackKind, Role, Trip,
};

/// A kind of day.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Pattern {
    /// Out, two dives at anchor with the swap between, and home.
    TwoDives,
    /// One dive with the boat adrift beside the divers.
    Drift,
    /// A night under way with nobody on deck.
    Night,
}

impl Pattern {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::TwoDives, Self::Drift, Self::Night];

    /// What it is called.
    pub fn name(self) -> &'static str {
        match self {
            Self::TwoDives => "Day charter, two dives",
            Self::Drift => "Drift dive",
            Self::Night => "Night passage",
        }
    }

    /// What it lays out, in a sentence.
    pub fn told(self) -> &'static str {
        match self {
            Self::TwoDives => {
                "Out, two dives at anchor, and home. Between the dives the empties go out and down first, then \
                 the fulls into their slots: never both standing."
            }
            Self::Drift => {
                "Out, one dive with the boat drifting beside the divers, all back aboard before she goes ahead, \
                 and home."
            }
            Self::Night => {
                "The deck is secured before dark, then under way all night with nobody on deck, and in the \
                 morning everybody is back where they were."
            }
        }
    }
}

/// A day as laid out, before anybody agrees to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// Which pattern.
    pub pattern: Pattern,

    /// The parts of the day, in place of those there are; none where it cannot be laid out at all.
    pub parts: Vec<Part>,

    /// What the pattern could not do on this boat with this trip, as sentences.
    pub cannot: Vec<String>,

    /// What it took for granted, as sentences.
    pub notes: Vec<String>,
}

impl Draft {
    /// The trip with this day.
    pub fn trip(&self, trip: &Trip) -> Trip {
        let mut trip = trip.clone();
        if self.parts.is_empty() {
            return trip;
        }
        trip.parts.clone_from(&self.parts);
        let known = |part: &Id| self.parts.iter().any(|item| item.id == *part);
        trip.taken_on
            .retain(|item| item.part.as_ref().is_none_or(known));
        if let Some(briefing) = &mut trip.briefing
            && !briefing.part.as_ref().is_none_or(known)
        {
            briefing.part = None;
        }
        trip
    }

    /// What makes the day so, as one step.
    pub fn edits(&self, trip: &Trip) -> Vec<Edit> {
        vec![Edit::PutTrip(Box::new(self.trip(trip)))]
    }

    /// The work on deck of the day.
    pub fn work(&self, plan: &Plan, trip: &Trip) -> Work {
        Work::of(plan, &self.trip(trip))
    }
}

/// Lays a day out from how things are at the start of the trip. Nothing is changed by it.
pub fn lay_out(plan: &Plan, trip: &Trip, pattern: Pattern) -> Draft {
    let mut laying = Laying {
        plan,
        trip,
        day: DayState::at_start(&plan.boat.racks, trip),
        draft: Draft {
            pattern,
            parts: Vec::new(),
            cannot: Vec::new(),
            notes: Vec::new(),
        },
    };
    match pattern {
        Pattern::TwoDives => laying.two_dives(),
        Pattern::Drift => laying.drift(),
        Pattern::Night => laying.night(),
    }
    laying.draft
}

/// A diver with the cylinder of a dive and the slot it stands in.
#[derive(Clone)]
struct Diving {
    diver: Id,
    cylinder: Id,
    home: Placing,
}

/// A day while it is being laid out.
struct Laying<'a> {
    plan: &'a Plan,
    trip: &'a Trip,
    day: DayState,
    draft: Draft,
}

impl Laying<'_> {
    /// One more part; what it changes counts from then on.
    fn add(&mut self, name: &str, condition: Condition, hours: f64, changes: Changes) {
        let part = self.part(name, condition, hours, changes);
        self.day.enter(&part);
        self.draft.parts.push(part);
    }

    /// A part that moves as the trip's first part in the same condition does, if it has one.
    fn part(&self, name: &str, condition: Condition, hours: f64, changes: Changes) -> Part {
        let like = (self.trip.parts.iter()).find(|part| part.condition == condition);
        let taken = |id: &str| self.draft.parts.iter().any(|part| part.id == id);
        let mut id = name.to_owned();
        let mut number = 2;
        while taken(&id) {
            id = format!("{name} {number}");
            number += 1;
        }
        Part {
            id,
            name: None,
            condition,
            duration_h: Some(hours),
            nobody_on_deck: false,
            sea: like.and_then(|part| part.sea.clone()),
            wake: like.and_then(|part| part.wake.clone()),
            motion: like.and_then(|part| part.motion.clone()),
            changes,
        }
    }

    fn cannot(&mut self, why: String) {
        self.draft.cannot.push(why);
    }

    fn note(&mut self, text: &str) {
        self.draft.notes.push(text.to_owned());
    }

    fn divers(&self) -> Vec<Person> {
        let people = self.trip.people.iter();
        let divers = people.filter(|person| person.role == Role::Diver);
        let aboard = divers.filter(|person| person.posture != Posture::Ashore);
        aboard.cloned().collect()
    }

    /// For each diver a full cylinder that stands in a slot of a rack; their own before others, then the nearest.
    fn first_dive(&mut self) -> Vec<Diving> {
        let divers = self.divers();
        if divers.is_empty() {
            self.cannot("Nobody among the people of this trip is a diver.".to_owned());
            return Vec::new();
        }
        let mut free: Vec<Cylinder> = (self.trip.cylinders.iter())
            .filter(|cylinder| cylinder.fill == Fill::Full && self.stands_in_rack(cylinder))
            .cloned()
            .collect();
        let mut dives: BTreeMap<usize, Diving> = BTreeMap::new();
        let mut without = Vec::new();
        // Those with a cylinder of their own choose first.
        for own in [true, false] {
            for (index, diver) in divers.iter().enumerate() {
                if dives.contains_key(&index) {
                    continue;
                }
                match self.best_of(&free, diver, own) {
                    Some(found) => {
                        let cylinder = free.remove(found);
                        let diving = Diving {
                            diver: diver.id.clone(),
                            cylinder: cylinder.id,
                            home: cylinder.placing,
                        };
                        dives.insert(index, diving);
                    }
                    None if !own => without.push(diver.id.clone()),
                    None => {}
                }
            }
        }
        if !without.is_empty() {
            self.cannot(format!(
                "No full cylinder in a slot of a rack is left for {}.",
                words::list_in_order(&without)
            ));
        }
        dives.into_values().collect()
    }

    /// The place in the list of the cylinder for a diver: with their name on it, or of nobody and the nearest.
    fn best_of(&self, free: &[Cylinder], diver: &Person, own: bool) -> Option<usize> {
        let away = |cylinder: &Cylinder| {
            where_it_is(self.plan, cylinder).map_or(f64::INFINITY, |at| {
                (at[0] - diver.at[0]).hypotenuse(at[1] - diver.at[1])
            })
        };
        let is_meant = |cylinder: &Cylinder| match &cylinder.diver {
            Some(name) => *name == diver.id,
            None => !own,
        };
        let meant = free.iter().enumerate().filter(|(_, item)| is_meant(item));
        let best = meant.min_by(|(_, a), (_, b)| {
            let order = away(a).total_cmp(&away(b));
            order.then_with(|| a.id.cmp(&b.id))
        });
        best.map(|(index, _)| index)
    }

    fn stands_in_rack(&self, cylinder: &Cylinder) -> bool {
        let Placing::InSlot { rack, .. } = &cylinder.placing else {
            return false;
        };
        let rack = self.plan.boat.rack(rack);
        rack.is_some_and(|rack| matches!(rack.kind, RackKind::Sockets | RackKind::BenchRow))
    }

    /// The kits are fitted and the divers sit down to them; into the water; and back into the slots, empty.
    fn dive(&mut self, dives: &[Diving], number: &str, condition: Condition) {
        let mut changes = Changes::default();
        for dive in dives {
            edits::kit(&mut changes, &dive.cylinder, Kit::On);
            edits::posture(&mut changes, &dive.diver, Posture::SeatedKitted);
        }
        self.add(&format!("kitting up{number}"), condition, 0.3, changes);
        let mut changes = Changes::default();
        for dive in dives {
            edits::place(&mut changes, &dive.cylinder, Placing::InWater);
            edits::posture(&mut changes, &dive.diver, Posture::InWater);
        }
        self.add(&format!("dive{number}"), condition, 1.0, changes);
        let mut changes = Changes::default();
        for dive in dives {
            edits::place(&mut changes, &dive.cylinder, dive.home.clone());
            edits::fill(&mut changes, &dive.cylinder, Fill::Empty);
            edits::posture(&mut changes, &dive.diver, Posture::SeatedKitted);
        }
        self.add(&format!("back aboard{number}"), condition, 0.3, changes);
    }

    /// Kits off, and everybody is as at the start of the day.
    fn kits_off(&self, dives: &[Diving]) -> Changes {
        let mut changes = Changes::default();
        for dive in dives {
            edits::kit(&mut changes, &dive.cylinder, Kit::Off);
            let person = self.trip.people.iter().find(|item| item.id == dive.diver);
            let posture = person.map_or(Posture::Seated, |person| person.posture);
            edits::posture(&mut changes, &dive.diver, posture);
        }
        changes
    }

    fn two_dives(&mut self) {
        let first = self.first_dive();
        if first.is_empty() {
            return;
        }
        self.add("alongside", Condition::MadeFast, 1.0, Changes::default());
        self.add("running out", Condition::Running, 0.75, Changes::default());
        self.dive(&first, " 1", Condition::AtAnchor);
        let second = self.swap(&first);
        if second.is_empty() {
            self.cannot("There is nothing for a second dive: the day has one.".to_owned());
            let changes = self.kits_off(&first);
            self.add("running home", Condition::Running, 0.75, changes);
        } else {
            self.dive(&second, " 2", Condition::AtAnchor);
            let changes = self.kits_off(&second);
            self.add("running home", Condition::Running, 0.75, changes);
        }
        self.add(
            "back alongside",
            Condition::MadeFast,
            1.0,
            Changes::default(),
        );
        self.note("Every dive leaves its cylinder empty.");
    }

    /// Between the dives: who needs the slot of an empty one gets it when the empty one lies down elsewhere. Tells
    /// who dives again, with which cylinder.
    fn swap(&mut self, first: &[Diving]) -> Vec<Diving> {
        let mut free: Vec<Cylinder> = (self.trip.cylinders.iter())
            .filter(|cylinder| cylinder.fill == Fill::Full && cylinder.placing.is_aboard())
            .filter(|cylinder| first.iter().all(|dive| dive.cylinder != cylinder.id))
            .cloned()
            .collect();
        let mut again: Vec<Diving> = Vec::new();
        let mut waiting: Vec<(Diving, Cylinder)> = Vec::new();
        let mut without = Vec::new();
        for dive in first {
            let diver = self.trip.people.iter().find(|item| item.id == dive.diver);
            let Some(diver) = diver else { continue };
            let best = self.best_of(&free, diver, true);
            // One that has a slot of its own before one that has to be put into one.
            let standing: Vec<Cylinder> = (free.iter())
                .filter(|item| self.stands_in_rack(item))
                .cloned()
                .collect();
            let best = best
                .or_else(|| {
                    let found = self.best_of(&standing, diver, false)?;
                    free.iter().position(|item| item.id == standing[found].id)
                })
                .or_else(|| self.best_of(&free, diver, false));
            let Some(best) = best else {
                without.push(dive.diver.clone());
                continue;
            };
            let cylinder = free.remove(best);
            if self.stands_in_rack(&cylinder) {
                again.push(Diving {
                    diver: dive.diver.clone(),
                    cylinder: cylinder.id,
                    home: cylinder.placing,
                });
            } else {
                waiting.push((dive.clone(), cylinder));
            }
        }
        if !without.is_empty() {
            self.cannot(format!(
                "No full cylinder is left for the second dive of {}.",
                words::list_in_order(&without)
            ));
        }
        if waiting.is_empty() {
            let changes = self.kits_off(first);
            self.add("between the dives", Condition::AtAnchor, 1.0, changes);
            if !again.is_empty() {
                self.note("Each second cylinder has a slot of its own: nothing is swapped.");
            }
            return again;
        }
        again.extend(self.swap_in_turns(first, waiting));
        again.sort_by_key(|dive| first.iter().position(|old| old.diver == dive.diver));
        again
    }

    /// As many at once as there are spots to lay an empty one down; each full one that goes into a slot leaves its
    /// cradle to the next empty one.
    fn swap_in_turns(
        &mut self,
        first: &[Diving],
        mut waiting: Vec<(Diving, Cylinder)>,
    ) -> Vec<Diving> {
        let mut again = Vec::new();
        let mut kits_off = Some(self.kits_off(first));
        loop {
            let mut down = kits_off.take().unwrap_or_default();
            let mut fulls = Changes::default();
            let mut stay = Vec::new();
            let mut told = Vec::new();
            // As it is once the kits are off and those of this turn lie.
            let probe = self.part("empties down", Condition::AtAnchor, 0.3, Changes::default());
            let mut then = self.day.clone();
            for state in &mut then.cylinders {
                if first.iter().any(|dive| dive.cylinder == state.cylinder.id) {
                    state.cylinder.kit = Kit::Off;
                }
            }
            let mut slots: Taken = taken(&then);
            let done = again.len();
            for (dive, full) in waiting {
                let spots = Spots {
                    plan: self.plan,
                    trip: self.trip,
                    part: &probe,
                };
                let empty = then.cylinder(&dive.cylinder).cloned();
                let spot = empty.and_then(|empty| spots.lying_place(&then, &empty, &slots));
                let fits = match &dive.home {
                    Placing::InSlot { rack, .. } => {
                        let rack = self.plan.boat.rack(rack);
                        let radius = spots.radius_m(&full);
                        rack.zip(radius)
                            .is_some_and(|(rack, radius)| Spots::fits(rack, radius))
                    }
                    _ => false,
                };
                if !fits {
                    told.push(format!(
                        "{} does not fit into the slot of {}: {} dives once.",
                        full.id, dive.cylinder, dive.diver
                    ));
                    continue;
                }
                let Some(spot) = spot else {
                    stay.push((dive, full));
                    continue;
                };
                for state in &mut then.cylinders {
                    if state.cylinder.id == dive.cylinder {
                        state.cylinder.placing = spot.clone();
                    }
                }
                if let Placing::InSlot { rack, slot } = &spot {
                    slots.insert((rack.clone(), slot.clone()));
                }
                edits::place(&mut down, &dive.cylinder, spot);
                edits::place(&mut fulls, &full.id, dive.home.clone());
                again.push(Diving {
                    diver: dive.diver,
                    cylinder: full.id,
                    home: dive.home,
                });
            }
            for why in told {
                self.cannot(why);
            }
            waiting = stay;
            let moved = again.len() > done;
            if moved || !down.is_empty() {
                let name = if moved {
                    "empties down"
                } else {
                    "between the dives"
                };
                self.add(name, Condition::AtAnchor, 0.3, down);
            }
            if moved {
                self.add("fulls in", Condition::AtAnchor, 0.3, fulls);
            }
            if waiting.is_empty() || !moved {
                break;
            }
        }
        if !waiting.is_empty() {
            let mut empties: Vec<Id> = waiting.iter().map(|it| it.0.cylinder.clone()).collect();
            empties.sort();
            let divers: Vec<Id> = waiting.iter().map(|it| it.0.diver.clone()).collect();
            let (cradles, chocks) = self.what_there_is();
            self.cannot(format!(
                "There is no set-down spot for {}: {cradles}, and no free floor{chocks}. {} dive{} once.",
                words::list_in_order(&empties),
                words::list_in_order(&divers),
                words::verb_s(divers.len()),
            ));
        }
        again
    }

    /// Why nothing could be laid down: what the boat has of cradles, and the trip of chocks.
    fn what_there_is(&self) -> (&'static str, &'static str) {
        let racks = &self.plan.boat.racks;
        let has_cradles = racks.iter().any(|rack| rack.kind == RackKind::Cradles);
        let gear = &self.trip.gear_aboard;
        let has_chocks = gear
            .iter()
            .any(|gear| gear.kind == crate::layout::GearAboardKind::Chock && gear.count > 1);
        (
            if has_cradles {
                "no cradle that fits is free"
            } else {
                "the boat has no cradle"
            },
            if has_chocks {
                " with chocks that are not in use"
            } else {
                ", as no chocks are aboard"
            },
        )
    }

    fn drift(&mut self) {
        let dives = self.first_dive();
        if dives.is_empty() {
            return;
        }
        self.add("alongside", Condition::MadeFast, 1.0, Changes::default());
        self.add("running out", Condition::Running, 0.75, Changes::default());
        self.dive(&dives, "", Condition::Drifting);
        // The boat goes ahead only when nobody has kit on any more.
        let changes = self.kits_off(&dives);
        self.add("kits off", Condition::Drifting, 0.3, changes);
        self.add("running home", Condition::Running, 0.75, Changes::default());
        self.add(
            "back alongside",
            Condition::MadeFast,
            1.0,
            Changes::default(),
        );
        self.note("Every dive leaves its cylinder empty.");
        self.note("The fronts of the racks are shut again behind each one that is taken out.");
    }

    fn night(&mut self) {
        self.add("before dark", Condition::AtAnchor, 1.0, Changes::default());
        let part = self.part("night passage", Condition::Running, 8.0, Changes::default());
        let (changes, cannot) = changes_for(
            Purpose::Night,
            Spots {
                plan: self.plan,
                trip: self.trip,
                part: &part,
            },
            &self.day,
            &taken(&self.day),
        );
        self.draft.cannot.extend(cannot);
        let part = Part {
            nobody_on_deck: true,
            changes,
            ..part
        };
        let evening = self.day.clone();
        self.day.enter(&part);
        self.draft.parts.push(part);
        let mut changes = Changes::default();
        for person in evening.people.iter().map(|state| &state.person) {
            let now = self.day.person(&person.id).map(|now| now.posture);
            if now != Some(person.posture) {
                edits::posture(&mut changes, &person.id, person.posture);
            }
        }
        self.add("morning", Condition::AtAnchor, 1.0, changes);
    }
}
