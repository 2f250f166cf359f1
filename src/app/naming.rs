//! Names for new things.

use crate::layout::{Plan, ThingKind, Trip};

use super::things;

/// The letter or word with which new names of a kind begin.
fn stem(kind: ThingKind) -> &'static str {
    match kind {
        ThingKind::Deck => "deck",
        ThingKind::Fixture => "F",
        ThingKind::Place => "place",
        ThingKind::Walkway => "W",
        ThingKind::Rack => "R",
        ThingKind::LashingPoint => "E",
        ThingKind::Cylinder => "C",
        ThingKind::Lashing => "L",
        ThingKind::Gear => "G",
        ThingKind::Person => "crew",
        ThingKind::GearAboard => "gear",
        ThingKind::Part => "part",
    }
}

/// A name that is free: the stem of the kind and the lowest number that nobody has.
pub(crate) fn free(plan: &Plan, trip: &Trip, kind: ThingKind) -> String {
    free_after(plan, trip, kind, &[])
}

/// As [`free`], with these names taken as well.
pub(crate) fn free_after(plan: &Plan, trip: &Trip, kind: ThingKind, taken: &[String]) -> String {
    let stem = stem(kind);
    let mut number = 1_usize;
    loop {
        let name = format!("{stem}{number}");
        let used = things::ids(plan, trip, kind).any(|id| *id == name) || taken.contains(&name);
        if !used {
            return name;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Placing};

    #[test]
    fn the_lowest_free_number_is_taken() {
        let mut plan = Plan::new("Test", 8.0, 3.0);
        for id in ["C1", "C3"] {
            let cylinder = Cylinder::new(id, "al-80cf", Placing::Ashore);
            plan.trips[0].cylinders.push(cylinder);
        }
        let trip = &plan.trips[0];
        assert_eq!(free(&plan, trip, ThingKind::Cylinder), "C2");
        let taken = ["C2".to_owned()];
        assert_eq!(free_after(&plan, trip, ThingKind::Cylinder, &taken), "C4");
        assert_eq!(free(&plan, trip, ThingKind::LashingPoint), "E1");
    }
}
