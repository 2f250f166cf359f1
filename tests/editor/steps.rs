//! Edits are plain commands: any sequence of them, undone, gives the same bytes, and the same again when
//! it is redone.

use proptest::prelude::*;
use snugdown::layout::{Edit, History, Placing, Plan, TakenOn, Thing, ThingKind, ThingRef};
use snugdown::store::to_text;

fn boat() -> Plan {
    let text = include_str!("../../layouts/day-boat.json");
    snugdown::store::parse(text, "day-boat.json").unwrap()
}

/// Edits of all sorts on this boat; some of them cannot be made a second time.
fn pool(plan: &Plan) -> Vec<Edit> {
    let trip = &plan.trips[0];
    let of_trip = || Some(trip.id.clone());
    let mut edits = vec![Edit::RemoveTrip("no such trip".into())];
    let mut remove = |kind: ThingKind, id: &str, of_trip: Option<String>| {
        let id = id.to_owned();
        edits.push(Edit::Remove {
            trip: of_trip,
            what: ThingRef { kind, id },
        });
    };
    for rack in plan.boat.racks.iter().take(3) {
        remove(ThingKind::Rack, &rack.id, None);
    }
    for point in plan.boat.lashing_points.iter().take(3) {
        remove(ThingKind::LashingPoint, &point.id, None);
    }
    for fixture in plan.boat.fixtures.iter().take(3) {
        remove(ThingKind::Fixture, &fixture.id, None);
    }
    for cylinder in trip.cylinders.iter().take(5) {
        remove(ThingKind::Cylinder, &cylinder.id, of_trip());
    }
    for (index, cylinder) in trip.cylinders.iter().enumerate().take(8) {
        let part = index % trip.parts.len();
        let deck = plan.boat.decks[0].id.clone();
        edits.push(Edit::Place {
            trip: trip.id.clone(),
            part,
            cylinder: cylinder.id.clone(),
            placing: Placing::Standing {
                deck,
                at: [1.0 + 0.3 * index as f64, 0.1],
                on: None,
            },
        });
        let mut new = cylinder.clone();
        new.id = format!("{}-copy", cylinder.id);
        new.boot = !new.boot;
        edits.push(Edit::Put {
            trip: of_trip(),
            thing: Box::new(Thing::Cylinder(new)),
        });
    }
    for lashing in trip.lashings.iter().take(3) {
        edits.push(Edit::SetLashingShut {
            trip: trip.id.clone(),
            part: 0,
            lashing: lashing.id.clone(),
            shut: !lashing.shut,
        });
    }
    let mut other = trip.clone();
    other.id = "another trip".into();
    edits.push(Edit::PutTrip(Box::new(other)));
    edits.push(Edit::RemoveTrip("another trip".into()));
    let mut renamed = plan.boat.clone();
    renamed.name = "Another name".into();
    edits.push(Edit::SetBoat(Box::new(renamed)));
    edits.push(Edit::TakeOn {
        trip: trip.id.clone(),
        taken_on: TakenOn {
            code: "U101".into(),
            about: Vec::new(),
            part: None,
            by: "Ann".into(),
            reason: "only alongside".into(),
            when: None,
        },
    });
    edits
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(12))]
    #[test]
    fn undone_and_redone_the_bytes_are_the_same(
        steps in prop::collection::vec(prop::collection::vec(any::<prop::sample::Index>(), 1..4), 1..8),
    ) {
        let plan = boat();
        let pool = pool(&plan);
        let mut texts = vec![to_text(&plan)];
        let mut history = History::new(plan);
        for step in &steps {
            let edits: Vec<Edit> = step.iter().map(|pick| pick.get(&pool).clone()).collect();
            let count = history.undo_count();
            let made = history.run("step", &edits);
            let text = to_text(history.plan());
            if made.is_err() {
                prop_assert_eq!(&text, &texts[texts.len() - 1], "a step that fails changes nothing");
            }
            if history.undo_count() > count {
                texts.push(text);
            }
        }
        for text in texts.iter().rev().skip(1) {
            prop_assert!(history.undo());
            prop_assert_eq!(&to_text(history.plan()), text);
        }
        prop_assert!(!history.undo(), "nothing is left");
        for text in texts.iter().skip(1) {
            prop_assert!(history.redo());
            prop_assert_eq!(&to_text(history.plan()), text);
        }
    }
}
