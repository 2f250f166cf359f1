//! Trips made from others, and what is new called.

use crate::layout::{Briefing, Plan, Trip, free_name};

/// What was settled for loading, before anything is loaded.
fn briefing_without_ticks(trip: &Trip) -> Option<Briefing> {
    let settled = Briefing {
        ticks: Vec::new(),
        ..trip.briefing.clone()?
    };
    (!settled.is_empty()).then_some(settled)
}

/// A new trip that begins as this one; what was taken on or ticked off is not so for it.
pub(crate) fn copied(plan: &Plan, trip: &Trip) -> Trip {
    Trip {
        id: free_name("trip", &plan.trips.iter().map(|trip| &trip.id)),
        name: None,
        date: None,
        taken_on: Vec::new(),
        briefing: briefing_without_ticks(trip),
        ..trip.clone()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Cylinder, Placing};

    #[test]
    fn a_new_trip_has_a_name_of_its_own() {
        let mut plan = Plan::new("Test", 10.0, 4.0);
        let at = crate::app::tools::standing("main", [1.0, 0.0]);
        plan.trips[0]
            .cylinders
            .push(Cylinder::new("C1", "al-80cf", at));
        let new = copied(&plan, &plan.trips[0]);
        assert_eq!(new.id, "trip-2");
        assert_eq!(new.cylinders, plan.trips[0].cylinders);
        assert!(matches!(new.cylinders[0].placing, Placing::Standing { .. }));
    }
}
