//! The parts of the day: what changes must be there to change, and at no time are two cylinders in
//! one slot, or do cylinders lie upon each other in a circle.

use std::collections::{BTreeMap, BTreeSet};

use super::names::Names;
use super::placing::References;
use super::sea;
use super::trip::{check_gear_floor, check_round, is_on_floor};
use super::{Field, Report};
use crate::layout::{Changes, Cylinder, Person, Placing, Posture, Trip};

/// Parts of one day, at most: one every seven minutes.
const MOST_PARTS: usize = 200;

pub(super) fn check(
    trip: &Trip,
    known: &References<'_, '_>,
    place: Field<'_>,
    report: &mut Report,
) {
    if trip.parts.len() > MOST_PARTS {
        report.add(
            format_args!("{place}.parts"),
            format!("the day has {} parts", trip.parts.len()),
            format!("a day has at most {MOST_PARTS}; make trips of them"),
        );
        return;
    }
    let mut stowage = Stowage::at_start(trip);
    stowage.check(place, format_args!("at the start of the day"), report);

    let lashings = Names::new("lashing", trip.lashings.iter().map(|l| l.id.as_str()));
    let gear = Names::new("piece of gear", trip.gear.iter().map(|g| g.id.as_str()));
    let mut postures: BTreeMap<&str, &Person> = BTreeMap::new();
    for person in &trip.people {
        postures.entry(&person.id).or_insert(person);
    }
    let mut people = People {
        posture: postures.iter().map(|(id, p)| (*id, p.posture)).collect(),
        deck: postures
            .iter()
            .map(|(id, p)| (*id, p.deck.as_str()))
            .collect(),
    };
    let decks_of_gear: BTreeMap<&str, &str> = trip
        .gear
        .iter()
        .map(|gear| (gear.id.as_str(), gear.deck.as_str()))
        .collect();

    for (i, part) in trip.parts.iter().enumerate() {
        let trip_place = place;
        let place = format_args!("{place}.parts[{i}]");
        sea::check_part(part, place, report);
        let place = format_args!("{place}.changes");
        let Changes {
            cylinders,
            lashings: lashing_changes,
            fronts: _,
            gear: gear_changes,
            people: person_changes,
        } = &part.changes;

        let mut once = Once::default();
        for (j, change) in cylinders.iter().enumerate() {
            let place = format_args!("{place}.cylinders[{j}]");
            let id = change.cylinder.as_str();
            let field = format_args!("{place}.cylinder");
            if !known.cylinders.check(id, field, report) || !once.check(id, field, report) {
                continue;
            }
            if let Some(placing) = &change.placing {
                let field = format_args!("{place}.placing");
                known.check(id, placing, field, report);
                stowage.put(id, placing, Said::InPart(i, j));
            }
        }
        stowage.check(trip_place, format_args!("in {:?}", part.id), report);

        let mut once = Once::default();
        for (j, change) in lashing_changes.iter().enumerate() {
            let place = format_args!("{place}.lashings[{j}]");
            let field = format_args!("{place}.lashing");
            if lashings.check(&change.lashing, field, report)
                && once.check(&change.lashing, field, report)
                && let Some(round) = &change.round
            {
                check_round(round, &known.cylinders, place, report);
            }
        }

        check_fronts(&part.changes, known, place, report);

        let mut once = Once::default();
        for (j, change) in gear_changes.iter().enumerate() {
            let place = format_args!("{place}.gear[{j}]");
            let field = format_args!("{place}.gear");
            if gear.check(&change.gear, field, report)
                && once.check(&change.gear, field, report)
                && let Some(floor) = &change.floor
                && let Some(deck) = decks_of_gear.get(change.gear.as_str())
            {
                check_gear_floor(
                    floor,
                    deck,
                    &known.boat.decks,
                    format_args!("{place}.floor"),
                    report,
                );
            }
        }

        let mut once = Once::default();
        for (j, change) in person_changes.iter().enumerate() {
            let place = format_args!("{place}.people[{j}]");
            let field = format_args!("{place}.person");
            let id = change.person.as_str();
            if !known.people.check(id, field, report) || !once.check(id, field, report) {
                continue;
            }
            if let Some(posture) = change.posture {
                people.posture.insert(id, posture);
            }
            if let Some(deck) = &change.deck
                && known
                    .boat
                    .decks
                    .names
                    .check(deck, format_args!("{place}.deck"), report)
            {
                people.deck.insert(id, deck);
            }
            if let Some(at) = change.at
                && people.posture.get(id).copied().is_some_and(is_on_floor)
                && let Some(deck) = people.deck.get(id)
            {
                let field = format_args!("{place}.at");
                known.boat.decks.check_near(deck, &[at], field, report);
            }
        }
    }
}

/// Where people are as the day goes on.
struct People<'p> {
    posture: BTreeMap<&'p str, Posture>,
    deck: BTreeMap<&'p str, &'p str>,
}

fn check_fronts(
    changes: &Changes,
    known: &References<'_, '_>,
    place: Field<'_>,
    report: &mut Report,
) {
    let racks = Names::new("rack", known.boat.racks.keys().copied());
    let mut seen = BTreeSet::new();
    for (j, change) in changes.fronts.iter().enumerate() {
        let place = format_args!("{place}.fronts[{j}]");
        if !racks.check(&change.rack, format_args!("{place}.rack"), report) {
            continue;
        }
        let Some(rack) = known.boat.racks.get(change.rack.as_str()) else {
            continue;
        };
        let fronts = Names::new("front", rack.fronts.iter().map(|front| front.id.as_str()));
        if fronts.check(&change.front, format_args!("{place}.front"), report)
            && !seen.insert((&change.rack, &change.front))
        {
            report.add(
                format_args!("{place}.front"),
                format!("{:?} changes twice in this part of the day", change.front),
                "make one change of the two",
            );
        }
    }
}

/// What has changed in one part already.
#[derive(Default)]
struct Once<'p>(BTreeSet<&'p str>);

impl<'p> Once<'p> {
    fn check(&mut self, id: &'p str, field: Field<'_>, report: &mut Report) -> bool {
        let is_first = self.0.insert(id);
        if !is_first {
            report.add(
                field,
                format!("{id:?} changes twice in this part of the day"),
                "make one change of the two",
            );
        }
        is_first
    }
}

/// Which field of a trip gives a placing.
#[derive(Copy, Clone)]
enum Said {
    /// That of a cylinder.
    AtStart(usize),
    /// That of a change in a part of the day.
    InPart(usize, usize),
}

impl Said {
    /// What is wrong in that field: of the trip at `trip`.
    fn wrong(
        self,
        trip: Field<'_>,
        what: &str,
        (message, help): (String, &str),
        report: &mut Report,
    ) {
        match self {
            Self::AtStart(i) => report.add(
                format_args!("{trip}.cylinders[{i}].placing.{what}"),
                message,
                help,
            ),
            Self::InPart(i, j) => report.add(
                format_args!("{trip}.parts[{i}].changes.cylinders[{j}].placing.{what}"),
                message,
                help,
            ),
        }
    }
}

/// Where the cylinders are as the day goes on.
#[derive(Default)]
struct Stowage<'p> {
    /// Each cylinder's placing, and the field that says so.
    placings: BTreeMap<&'p str, (&'p Placing, Said)>,

    /// Who is in which slot of which rack.
    slots: BTreeMap<(&'p str, &'p str), BTreeSet<&'p str>>,

    /// Cylinders that were put somewhere since the last check, in the order of the file.
    moved: Vec<&'p str>,

    /// Was one of them put where another was, or upon another? If not there is nothing to look at.
    doubtful: bool,
}

impl<'p> Stowage<'p> {
    /// As the day begins. Hundreds are put at once, in lists that are mostly in the order of their names.
    fn at_start(trip: &'p Trip) -> Self {
        let all = trip.cylinders.iter().enumerate();
        let said = |(i, cylinder): (usize, &'p Cylinder)| {
            (cylinder.id.as_str(), (&cylinder.placing, Said::AtStart(i)))
        };
        let placings: BTreeMap<_, _> = all.map(said).collect();
        let mut stowage = Self::default();
        if placings.len() < trip.cylinders.len() {
            // Two of one name: that of the later counts, and the slot of the earlier is free.
            for (i, cylinder) in trip.cylinders.iter().enumerate() {
                stowage.put(&cylinder.id, &cylinder.placing, Said::AtStart(i));
            }
            return stowage;
        }
        let mut slots: Vec<((&str, &str), &str)> = Vec::new();
        for cylinder in &trip.cylinders {
            match &cylinder.placing {
                Placing::InSlot { rack, slot } => slots.push(((rack, slot), &cylinder.id)),
                Placing::Lying { upon, .. } => stowage.doubtful |= !upon.is_empty(),
                _ => {}
            }
        }
        slots.sort_unstable();
        let of_slots = slots.chunk_by(|a, b| a.0 == b.0).filter_map(|inside| {
            let key = inside.first()?.0;
            Some((
                key,
                inside.iter().map(|(_, id)| *id).collect::<BTreeSet<_>>(),
            ))
        });
        stowage.slots = of_slots.collect();
        stowage.doubtful |= stowage.slots.len() < slots.len();
        stowage.placings = placings;
        stowage.moved = trip.cylinders.iter().map(|it| it.id.as_str()).collect();
        stowage
    }

    fn put(&mut self, cylinder: &'p str, placing: &'p Placing, said: Said) {
        if let Some((before, _)) = self.placings.get(cylinder)
            && let Placing::InSlot { rack, slot } = before
            && let Some(inside) = self.slots.get_mut(&(rack.as_str(), slot.as_str()))
        {
            inside.remove(cylinder);
        }
        if let Placing::InSlot { rack, slot } = placing {
            let inside = self.slots.entry((rack, slot)).or_default();
            inside.insert(cylinder);
            self.doubtful |= inside.len() > 1;
        }
        self.doubtful |= matches!(placing, Placing::Lying { upon, .. } if !upon.is_empty());
        self.placings.insert(cylinder, (placing, said));
        self.moved.push(cylinder);
    }

    /// Checks what moved since the last time.
    fn check(&mut self, trip: Field<'_>, when: Field<'_>, report: &mut Report) {
        let moved = std::mem::take(&mut self.moved);
        if !std::mem::take(&mut self.doubtful) {
            return;
        }
        let moved_now: BTreeSet<&str> = moved.iter().copied().collect();
        let mut told = BTreeSet::new();
        let mut any_upon = false;
        for cylinder in &moved {
            let Some((placing, said)) = self.placings.get(cylinder) else {
                continue;
            };
            any_upon |= matches!(placing, Placing::Lying { upon, .. } if !upon.is_empty());
            let Placing::InSlot { rack, slot } = placing else {
                continue;
            };
            let key = (rack.as_str(), slot.as_str());
            let Some(inside) = self.slots.get(&key).filter(|inside| inside.len() > 1) else {
                continue;
            };
            // Where all of them got there just now, the first is where it should be, for all that
            // anybody knows.
            if told.insert(key) && inside.iter().all(|other| moved_now.contains(other)) {
                continue;
            }
            let others: Vec<String> = inside
                .iter()
                .filter(|other| *other != cylinder)
                .take(3)
                .map(|other| format!("{other:?}"))
                .collect();
            let message = format!(
                "the slot {slot:?} of {rack:?} is taken already {when}, by {}",
                others.join(", ")
            );
            let help = "give the cylinder another slot, or the other one another place first";
            said.wrong(trip, "slot", (message, help), report);
        }
        if any_upon {
            self.check_circles(&moved, (trip, when), report);
        }
    }

    /// Cylinders that lie upon each other in a circle: each is taken off the pile once nothing it
    /// lies upon is left; what cannot be taken off is in a circle, or lies upon one.
    fn check_circles(
        &self,
        moved: &[&str],
        (trip, when): (Field<'_>, Field<'_>),
        report: &mut Report,
    ) {
        let lower = |cylinder: &str| match self.placings.get(cylinder) {
            Some((Placing::Lying { upon, .. }, _)) => upon.as_slice(),
            _ => &[],
        };
        let mut waiting: BTreeMap<&str, usize> = BTreeMap::new();
        let mut above: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
        let mut free: Vec<&str> = Vec::new();
        for cylinder in self.placings.keys().copied() {
            let below: BTreeSet<&str> = lower(cylinder)
                .iter()
                .map(String::as_str)
                .filter(|id| *id != cylinder && self.placings.contains_key(id))
                .collect();
            if below.is_empty() {
                free.push(cylinder);
            }
            waiting.insert(cylinder, below.len());
            for id in below {
                above.entry(id).or_default().push(cylinder);
            }
        }
        while let Some(cylinder) = free.pop() {
            waiting.remove(cylinder);
            for upper in above.get(cylinder).into_iter().flatten() {
                if let Some(count) = waiting.get_mut(upper) {
                    *count -= 1;
                    if *count == 0 {
                        free.push(upper);
                    }
                }
            }
        }
        for cylinder in moved {
            if waiting.contains_key(cylinder)
                && let Some((_, said)) = self.placings.get(cylinder)
            {
                let message = format!("{cylinder:?} lies upon cylinders that lie upon it {when}");
                let help = "name only the two cylinders below it";
                said.wrong(trip, "upon", (message, help), report);
            }
        }
    }
}
