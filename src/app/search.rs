//! Finding things on the plan by what they are called: the names in the plan, the crew's longer names, the
//! numbers stamped on cylinders, who breathes from them, and the names of slots.

use super::things;
use crate::layout::{Plan, ThingKind, ThingRef, Trip};

/// The kinds that are looked through, in the order in which they are listed.
const KINDS: [ThingKind; 10] = [
    ThingKind::Cylinder,
    ThingKind::Rack,
    ThingKind::LashingPoint,
    ThingKind::Lashing,
    ThingKind::Fixture,
    ThingKind::Place,
    ThingKind::Walkway,
    ThingKind::Gear,
    ThingKind::Person,
    ThingKind::Deck,
];

/// Something that was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Hit {
    /// What.
    pub(crate) what: ThingRef,
    /// What the crew call it.
    pub(crate) name: String,
    /// By what else it was found: the number stamped on it, a diver, a slot.
    pub(crate) by: Option<String>,
}

/// Everything in which all words of the text occur: first what is called so, then what begins so, then the rest;
/// each by kind and in the order of the names.
pub(crate) fn found(plan: &Plan, trip: &Trip, text: &str) -> Vec<Hit> {
    let sought = text.trim().to_lowercase();
    if sought.is_empty() {
        return Vec::new();
    }
    let mut hits: Vec<(u8, usize, Hit)> = Vec::new();
    for (order, kind) in KINDS.into_iter().enumerate() {
        for id in things::ids(plan, trip, kind) {
            let what = things::reference(kind, id);
            let name = things::name(plan, trip, &what);
            let mut names = vec![id.clone(), name.clone()];
            names.extend(also(plan, trip, &what));
            let best = names
                .iter()
                .enumerate()
                .filter_map(|(i, name)| Some((rank(name, &sought)?, i)));
            let Some((rank, i)) = best.min() else {
                continue;
            };
            let by = (i > 1).then(|| names[i].clone());
            hits.push((rank, order, Hit { what, name, by }));
        }
    }
    hits.sort_by(|a, b| (a.0, a.1, &a.2.name).cmp(&(b.0, b.1, &b.2.name)));
    hits.into_iter().map(|(_, _, hit)| hit).collect()
}

/// How well a name fits, the best first.
fn rank(name: &str, sought: &str) -> Option<u8> {
    let name = name.to_lowercase();
    if name == sought {
        Some(0)
    } else if name.starts_with(sought) {
        Some(1)
    } else {
        let all = sought.split_whitespace().all(|word| name.contains(word));
        all.then_some(2)
    }
}

/// What else a thing goes by.
fn also(plan: &Plan, trip: &Trip, what: &ThingRef) -> Vec<String> {
    match what.kind {
        ThingKind::Cylinder => {
            let cylinder = trip.cylinder(&what.id).into_iter();
            let names = cylinder.flat_map(|item| [item.number.clone(), item.diver.clone()]);
            names.flatten().collect()
        }
        ThingKind::Rack => {
            let rack = plan.boat.rack(&what.id).into_iter();
            rack.flat_map(crate::layout::Rack::slots)
                .map(|slot| slot.name)
                .collect()
        }
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Placing};

    fn plan() -> Plan {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        for (id, number) in [("P10", "4711"), ("P1", "4712"), ("XP1", "4713")] {
            let mut cylinder = Cylinder::new(id, "al-80cf", Placing::Ashore);
            cylinder.number = Some(number.to_owned());
            plan.trips[0].cylinders.push(cylinder);
        }
        plan
    }

    fn names(text: &str) -> Vec<String> {
        let plan = plan();
        let hits = found(&plan, &plan.trips[0], text).into_iter();
        hits.map(|hit| hit.what.id).collect()
    }

    #[test]
    fn what_is_called_so_comes_first() {
        assert_eq!(names("p1"), ["P1", "P10", "XP1"]);
        assert_eq!(names("main"), ["main"], "by the deck's long name too");
        assert!(names("  ").is_empty());
        assert!(names("zz").is_empty());
    }

    #[test]
    fn a_stamped_number_finds_its_cylinder_and_says_so() {
        let plan = plan();
        let hits = found(&plan, &plan.trips[0], "4712");
        assert_eq!(hits.len(), 1);
        assert_eq!(hits[0].what.id, "P1");
        assert_eq!(hits[0].by.as_deref(), Some("4712"));
    }
}
