//! Parts of the day: added, copied, split, moved, taken away, without the others becoming different.

use std::collections::BTreeSet;

use super::{
    Changes, CylinderChange, DayState, FrontChange, GearChange, Id, Known, LashingChange, Part,
    PersonChange, Plan, Trip,
};

/// A name that none of these has: the stem, a dash and the lowest free number.
pub(crate) fn free<'a>(stem: &str, taken: &(impl Iterator<Item = &'a String> + Clone)) -> String {
    let mut number = 1_usize;
    loop {
        let name = format!("{stem}-{number}");
        if !taken.clone().any(|id| *id == name) {
            return name;
        }
        number += 1;
    }
}

/// The trip with one more part after this one, in which nothing changes at first.
pub fn with_part_after(trip: &Trip, index: usize) -> Option<Trip> {
    let before = trip.parts.get(index)?;
    let part = Part {
        id: free("part", &trip.parts.iter().map(|part| &part.id)),
        name: None,
        changes: Changes::default(),
        ..before.clone()
    };
    let mut trip = trip.clone();
    trip.parts.insert(index + 1, part);
    Some(trip)
}

/// The trip with a copy of a part after another one (itself, or any other).
///
/// In the copy everything is as it is in the part that was copied, and in all other parts as it was; how the boat moves is copied too.
///
/// One thing cannot be undone by a change and stays: a kit that faced no said way, where a part between says
/// one, faces a way that is not known.
pub fn with_part_copied(
    plan: &Plan,
    trip: &Trip,
    index: usize,
    after: usize,
    name: String,
) -> Option<Trip> {
    let days = DayState::of_trip(plan, trip);
    let (part, here, before) = (trip.parts.get(index)?, days.get(index)?, days.get(after)?);
    let between = (index.min(after) + 1)..=index.max(after);
    let touched = Touched::of(trip.parts.get(between)?);
    let mut changes = touched.as_in(here);
    if after >= index {
        // Also what it says itself, so that the copy tells what happens in it.
        inherit(&mut changes, part.changes.clone());
    }
    let copy = Part {
        id: free("part", &trip.parts.iter().map(|part| &part.id)),
        name: Some(name),
        changes,
        ..part.clone()
    };
    let mut trip = trip.clone();
    if let Some(next) = trip.parts.get_mut(after + 1) {
        let mut back = touched;
        if after >= index {
            back.add(part);
        }
        inherit(&mut next.changes, back.as_in(before));
    }
    trip.parts.insert(after + 1, copy);
    Some(trip)
}

/// The trip with this part put in after another one. In all other parts everything is as it was: what the new
/// part changes, the part after it changes back.
pub fn with_part_put_in(plan: &Plan, trip: &Trip, after: usize, part: Part) -> Option<Trip> {
    let before = DayState::of_trip(plan, trip).into_iter().nth(after)?;
    let mut touched = Touched::of(std::slice::from_ref(&part));
    // Who is carried elsewhere leaves the lashings round them open.
    let round = trip
        .lashings
        .iter()
        .chain(before.lashings.iter().map(|state| &state.lashing));
    let left_open = round.filter(|item| item.round.iter().any(|id| touched.cylinders.contains(id)));
    let left_open: Vec<Id> = left_open.map(|item| item.id.clone()).collect();
    touched.lashings.extend(left_open);
    let mut trip = trip.clone();
    if let Some(next) = trip.parts.get_mut(after + 1) {
        inherit(&mut next.changes, touched.as_in(&before));
    }
    trip.parts.insert(after + 1, part);
    Some(trip)
}

/// The trip with this part in two halves: what changes does so at the start of the first one.
pub fn with_part_split(trip: &Trip, index: usize) -> Option<Trip> {
    let mut trip = with_part_after(trip, index)?;
    let half = trip.parts[index].duration_h.map(|hours| 0.5 * hours);
    let name = trip.parts[index].name.clone();
    let name = name.unwrap_or_else(|| trip.parts[index].id.clone());
    trip.parts[index].duration_h = half;
    let second = &mut trip.parts[index + 1];
    second.duration_h = half;
    second.name = Some(format!("{name}, second half"));
    Some(trip)
}

/// The names of what some parts of the day change.
#[derive(Clone, Debug, Default)]
struct Touched {
    cylinders: BTreeSet<Id>,
    lashings: BTreeSet<Id>,
    fronts: BTreeSet<(Id, Id)>,
    gear: BTreeSet<Id>,
    people: BTreeSet<Id>,
}

impl Touched {
    fn of(parts: &[Part]) -> Self {
        let mut touched = Self::default();
        for part in parts {
            touched.add(part);
        }
        touched
    }

    fn add(&mut self, part: &Part) {
        let Changes {
            cylinders,
            lashings,
            fronts,
            gear,
            people,
        } = &part.changes;
        self.cylinders
            .extend(cylinders.iter().map(|item| item.cylinder.clone()));
        self.lashings
            .extend(lashings.iter().map(|item| item.lashing.clone()));
        let fronts = fronts.iter();
        self.fronts
            .extend(fronts.map(|item| (item.rack.clone(), item.front.clone())));
        self.gear.extend(gear.iter().map(|item| item.gear.clone()));
        self.people
            .extend(people.iter().map(|item| item.person.clone()));
    }

    /// The changes after which all of it is as it is here, whatever it was before.
    fn as_in(&self, day: &DayState) -> Changes {
        let cylinders = day.cylinders.iter().map(|state| &state.cylinder);
        let cylinders = cylinders.filter(|item| self.cylinders.contains(&item.id));
        let lashings = day.lashings.iter().map(|state| &state.lashing);
        let lashings = lashings.filter(|item| self.lashings.contains(&item.id));
        let fronts = day.fronts.iter().filter(|state| {
            let key = (state.rack.clone(), state.front.id.clone());
            self.fronts.contains(&key)
        });
        let gear = day.gear.iter().map(|state| &state.gear);
        let gear = gear.filter(|item| self.gear.contains(&item.id));
        let people = day.people.iter().map(|state| &state.person);
        let people = people.filter(|item| self.people.contains(&item.id));
        Changes {
            cylinders: cylinders
                .map(|item| CylinderChange {
                    cylinder: item.id.clone(),
                    placing: Some(item.placing.clone()),
                    kit: Some(item.kit),
                    kit_faces_deg: Some(item.kit_faces_deg.unwrap_or(Known::NotKnown)),
                    fill: Some(item.fill),
                    pressure_bar: item.pressure_bar,
                })
                .collect(),
            lashings: lashings
                .map(|item| LashingChange {
                    lashing: item.id.clone(),
                    shut: Some(item.shut),
                    round: Some(item.round.clone()),
                    slack_m: item.slack_m,
                })
                .collect(),
            fronts: fronts
                .map(|state| FrontChange {
                    rack: state.rack.clone(),
                    front: state.front.id.clone(),
                    shut: state.front.shut,
                })
                .collect(),
            gear: gear
                .map(|item| GearChange {
                    gear: item.id.clone(),
                    floor: Some(item.floor.clone()),
                    stowed: Some(item.stowed),
                })
                .collect(),
            people: people
                .map(|item| PersonChange {
                    person: item.id.clone(),
                    deck: Some(item.deck.clone()),
                    at: Some(item.at),
                    posture: Some(item.posture),
                    fins: Some(item.fins),
                })
                .collect(),
        }
    }
}

/// The trip without this part; what it changed comes with the part after it, as long as that part says
/// nothing else. `None` for the last one.
pub fn without_part(trip: &Trip, index: usize) -> Option<Trip> {
    if trip.parts.len() < 2 || index >= trip.parts.len() {
        return None;
    }
    let mut trip = trip.clone();
    let gone = trip.parts.remove(index);
    trip.taken_on
        .retain(|item| item.part.as_ref() != Some(&gone.id));
    if let Some(next) = trip.parts.get_mut(index) {
        inherit(&mut next.changes, gone.changes);
    }
    Some(trip)
}

/// The trip with this part earlier or later by one place; what it changes goes with it. `None` at the end
/// of the day.
pub fn with_part_moved(trip: &Trip, index: usize, later: bool) -> Option<Trip> {
    let other = if later {
        index.checked_add(1)?
    } else {
        index.checked_sub(1)?
    };
    if index.max(other) >= trip.parts.len() {
        return None;
    }
    let mut trip = trip.clone();
    trip.parts.swap(index, other);
    Some(trip)
}

/// Adds what the part before changed and this one says nothing of.
fn inherit(changes: &mut Changes, before: Changes) {
    let Changes {
        cylinders,
        lashings,
        fronts,
        gear,
        people,
    } = before;
    inherit_each(&mut changes.cylinders, cylinders);
    inherit_each(&mut changes.lashings, lashings);
    inherit_each(&mut changes.fronts, fronts);
    inherit_each(&mut changes.gear, gear);
    inherit_each(&mut changes.people, people);
}

/// The change of one thing in a part of the day.
trait Change {
    /// Is it of the same thing?
    fn is_of_same(&self, other: &Self) -> bool;

    /// Takes from an earlier change what this one says nothing of.
    fn take_over(&mut self, before: Self);
}

fn inherit_each<C: Change>(changes: &mut Vec<C>, before: Vec<C>) {
    for old in before {
        match changes.iter_mut().find(|item| item.is_of_same(&old)) {
            Some(new) => new.take_over(old),
            None => changes.push(old),
        }
    }
}

impl Change for CylinderChange {
    fn is_of_same(&self, other: &Self) -> bool {
        self.cylinder == other.cylinder
    }

    fn take_over(&mut self, before: Self) {
        self.placing = self.placing.take().or(before.placing);
        self.kit = self.kit.or(before.kit);
        self.kit_faces_deg = self.kit_faces_deg.or(before.kit_faces_deg);
        // A pressure goes with the fill that was said with it.
        if self.fill.is_none() && self.pressure_bar.is_none() {
            (self.fill, self.pressure_bar) = (before.fill, before.pressure_bar);
        }
    }
}

impl Change for LashingChange {
    fn is_of_same(&self, other: &Self) -> bool {
        self.lashing == other.lashing
    }

    fn take_over(&mut self, before: Self) {
        self.shut = self.shut.or(before.shut);
        self.round = self.round.take().or(before.round);
        self.slack_m = self.slack_m.or(before.slack_m);
    }
}

impl Change for FrontChange {
    fn is_of_same(&self, other: &Self) -> bool {
        self.rack == other.rack && self.front == other.front
    }

    /// It says everything itself.
    fn take_over(&mut self, _: Self) {}
}

impl Change for GearChange {
    fn is_of_same(&self, other: &Self) -> bool {
        self.gear == other.gear
    }

    fn take_over(&mut self, before: Self) {
        self.floor = self.floor.take().or(before.floor);
        self.stowed = self.stowed.or(before.stowed);
    }
}

impl Change for PersonChange {
    fn is_of_same(&self, other: &Self) -> bool {
        self.person == other.person
    }

    fn take_over(&mut self, before: Self) {
        self.deck = self.deck.take().or(before.deck);
        self.at = self.at.or(before.at);
        self.posture = self.posture.or(before.posture);
        self.fins = self.fins.or(before.fins);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Edit, Placing};

    fn at(x: f64) -> Placing {
        Placing::Standing {
            deck: "main".into(),
            at: [x, 0.0],
            on: None,
        }
    }

    fn plan() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let trip = &mut plan.trips[0];
        trip.cylinders.push(Cylinder::new("C1", "al-80cf", at(1.0)));
        for index in 0..2 {
            *trip = with_part_after(trip, index).unwrap();
        }
        for (part, x) in [(1, 2.0), (2, 3.0)] {
            plan.apply(&Edit::Place {
                trip: "trip-1".into(),
                part,
                cylinder: "C1".into(),
                placing: at(x),
            })
            .unwrap();
        }
        plan
    }

    fn places(plan: &Plan, trip: &Trip) -> Vec<Option<[f64; 2]>> {
        let days = DayState::of_trip(plan, trip);
        let places = days
            .iter()
            .map(|day| day.cylinder("C1").unwrap().placing.at());
        places.collect()
    }

    #[test]
    fn the_other_parts_are_as_they_were_when_one_goes() {
        let plan = plan();
        let trip = &plan.trips[0];
        let all = places(&plan, trip);
        for gone in 1..3 {
            let rest = without_part(trip, gone).unwrap();
            let mut expected = all.clone();
            expected.remove(gone);
            assert_eq!(places(&plan, &rest), expected, "without part {gone}");
        }
        let first = without_part(trip, 0).unwrap();
        assert_eq!(places(&plan, &first), all[1..], "without the first");
        let one = Trip::new("x");
        assert!(without_part(&one, 0).is_none(), "the last one stays");
    }

    #[test]
    fn a_copy_is_as_its_part_and_leaves_the_others_as_they_are() {
        let mut plan = plan();
        // A last part that says nothing of its own, so that what is put before it would show in it.
        plan.trips[0] = with_part_after(&plan.trips[0], 2).unwrap();
        let trip = &plan.trips[0];
        let all = places(&plan, trip);
        for index in 0..4 {
            for after in 0..4 {
                let more = with_part_copied(&plan, trip, index, after, "again".into()).unwrap();
                let mut expected = all.clone();
                expected.insert(after + 1, all[index]);
                let found = places(&plan, &more);
                assert_eq!(found, expected, "part {index} after {after}");
                let copy = &more.parts[after + 1];
                assert_eq!(copy.condition, trip.parts[index].condition);
                assert!(trip.part(&copy.id).is_none(), "a name of its own");
            }
        }
        assert!(with_part_copied(&plan, trip, 4, 0, String::new()).is_none());
        assert!(with_part_copied(&plan, trip, 0, 4, String::new()).is_none());
    }

    #[test]
    fn a_part_that_is_moved_takes_its_changes_along() {
        let plan = plan();
        let trip = &plan.trips[0];
        let moved = with_part_moved(trip, 1, true).unwrap();
        let ids: Vec<&str> = moved.parts.iter().map(|part| part.id.as_str()).collect();
        assert_eq!(
            ids,
            [&trip.parts[0].id, &trip.parts[2].id, &trip.parts[1].id]
        );
        assert_eq!(moved.parts[2].changes, trip.parts[1].changes);
        assert!(with_part_moved(trip, 0, false).is_none(), "the first");
        assert!(with_part_moved(trip, 2, true).is_none(), "the last");
    }

    #[test]
    fn a_part_put_in_leaves_the_others_as_they_are() {
        let plan = plan();
        let trip = &plan.trips[0];
        let all = places(&plan, trip);
        for after in 0..3 {
            let mut part = trip.parts[after].clone();
            part.id = "put in".into();
            part.changes = Changes::default();
            part.changes.cylinders.push(CylinderChange {
                cylinder: "C1".into(),
                placing: Some(at(7.0)),
                kit: None,
                kit_faces_deg: None,
                fill: None,
                pressure_bar: None,
            });
            let more = with_part_put_in(&plan, trip, after, part).unwrap();
            let mut expected = all.clone();
            expected.insert(after + 1, Some([7.0, 0.0]));
            assert_eq!(places(&plan, &more), expected, "after part {after}");
        }
        let part = trip.parts[0].clone();
        assert!(with_part_put_in(&plan, trip, 3, part).is_none());
    }

    #[test]
    fn a_part_that_is_split_lasts_as_long_as_before() {
        let mut plan = plan();
        plan.trips[0].parts[1].duration_h = Some(3.0);
        let trip = &plan.trips[0];
        let all = places(&plan, trip);
        let split = with_part_split(trip, 1).unwrap();
        let lasts: Vec<Option<f64>> = split.parts.iter().map(|part| part.duration_h).collect();
        assert_eq!(lasts, [None, Some(1.5), Some(1.5), None]);
        assert_eq!(places(&plan, &split), [all[0], all[1], all[1], all[2]]);
        assert!(with_part_split(trip, 3).is_none());
    }
}
