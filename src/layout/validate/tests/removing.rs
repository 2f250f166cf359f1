//! Whatever is taken away, nothing is left that refers to it.

use proptest::prelude::*;
use proptest::sample::Index;

use super::*;
use crate::layout::{Edit, Placing, ThingKind, ThingRef};

/// Everything that can be taken away; not parts of the day: without one of them, two cylinders
/// may want the same slot.
fn things(plan: &Plan) -> Vec<(Option<String>, ThingRef)> {
    let mut found = Vec::new();
    let mut add = |trip: Option<&str>, kind: ThingKind, id: &str| {
        let id = id.to_owned();
        found.push((trip.map(str::to_owned), ThingRef { kind, id }));
    };
    let boat = &plan.boat;
    boat.decks
        .iter()
        .for_each(|t| add(None, ThingKind::Deck, &t.id));
    boat.fixtures
        .iter()
        .for_each(|t| add(None, ThingKind::Fixture, &t.id));
    boat.places
        .iter()
        .for_each(|t| add(None, ThingKind::Place, &t.id));
    boat.walkways
        .iter()
        .for_each(|t| add(None, ThingKind::Walkway, &t.id));
    boat.racks
        .iter()
        .for_each(|t| add(None, ThingKind::Rack, &t.id));
    boat.lashing_points
        .iter()
        .for_each(|t| add(None, ThingKind::LashingPoint, &t.id));
    for trip in &plan.trips {
        let of = Some(trip.id.as_str());
        trip.cylinders
            .iter()
            .for_each(|t| add(of, ThingKind::Cylinder, &t.id));
        trip.lashings
            .iter()
            .for_each(|t| add(of, ThingKind::Lashing, &t.id));
        trip.gear
            .iter()
            .for_each(|t| add(of, ThingKind::Gear, &t.id));
        trip.people
            .iter()
            .for_each(|t| add(of, ThingKind::Person, &t.id));
    }
    found
}

/// The sample, with things on the upper deck and changes that refer to them.
fn plan() -> Plan {
    let mut value = sound();
    let mut change = |pointer: &str, value_there: Value| {
        *value.pointer_mut(pointer).unwrap() = value_there;
    };
    change("/boat/places/1/deck", json!("upper"));
    change("/trips/0/gear/0/deck", json!("upper"));
    change("/trips/0/gear/0/floor/at", json!([6.0, 1.0]));
    change("/trips/0/people/0/deck", json!("upper"));
    change("/trips/0/people/0/at", json!([6.0, 1.0]));
    change("/boat/lashing_points/1/deck", json!("upper"));
    change("/boat/lashing_points/1/at", json!([6.0, 1.0]));
    change("/boat/racks/1/deck", json!("upper"));
    change("/trips/0/cylinders/6/placing/from", json!("ring"));
    change(
        "/trips/0/parts/1/changes/people/0",
        json!({ "person": "Bo", "posture": "seated", "deck": "upper", "at": [6.0, 1.0] }),
    );
    let mut plan: Plan = serde_json::from_value(value).unwrap();
    let trip = &mut plan.trips[0];
    let mut hanging = trip.cylinders[6].clone();
    hanging.id = "8".to_owned();
    if let Placing::Hanging { from, .. } = &mut hanging.placing {
        "bench".clone_into(from);
    }
    trip.cylinders.push(hanging);
    plan
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(100))]

    #[test]
    fn leaves_no_loose_ends(picks in prop::collection::vec(any::<Index>(), 1..8)) {
        let mut plan = plan();
        prop_assert_eq!(validate(&plan), []);
        for pick in picks {
            let things = things(&plan);
            let (trip, what) = things[pick.index(things.len())].clone();
            let edit = Edit::Remove { trip, what };
            let before = plan.clone();
            if plan.apply(&edit).is_ok() {
                prop_assert_eq!(validate(&plan), [], "{:?}", edit);
            } else {
                prop_assert_eq!(&plan, &before, "{:?}", edit);
            }
        }
    }
}
