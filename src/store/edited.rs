//! Whatever is done to a plan, it can be saved, and reads back as it is.

use proptest::prelude::*;

use super::{parse, to_text};
use crate::layout::validate::sample;
use crate::layout::{
    Briefing, Cylinder, Edit, Gear, GearShape, Known, LashCondition, Lashing, LoadingTick, Placing,
    Plan, TakenOn, Thing, ThingKind, ThingRef, Trip,
};

fn plan() -> Plan {
    serde_json::from_value(sample::sound()).unwrap()
}

/// Names of the sample, and some that lead nowhere.
fn any_id() -> impl Strategy<Value = String> {
    let names = [
        "1",
        "2",
        "3",
        "4",
        "5",
        "6",
        "7",
        "8",
        "a",
        "b",
        "main",
        "upper",
        "bench",
        "gate",
        "helm",
        "middle",
        "P",
        "crate",
        "eye",
        "ring",
        "fins",
        "Anna",
        "Bo",
        "alongside",
        "out",
        "strap",
        "nobody",
        "",
    ];
    prop::sample::select(names.to_vec()).prop_map(ToOwned::to_owned)
}

/// Sane numbers mostly.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        12 => -1.0..9.0,
        1 => Just(-40.0),
        1 => Just(1e12),
        1 => Just(f64::NAN),
        1 => Just(f64::NEG_INFINITY),
    ]
}

fn any_point() -> impl Strategy<Value = [f64; 2]> {
    [any_number(), any_number()]
}

fn any_slot() -> impl Strategy<Value = String> {
    prop::sample::select(vec!["P1", "P2", "P-3", "P-4", "P9"]).prop_map(ToOwned::to_owned)
}

fn any_placing() -> impl Strategy<Value = Placing> {
    prop_oneof![
        4 => (any_id(), any_slot()).prop_map(|(_, slot)| Placing::InSlot { rack: "P".into(), slot }),
        1 => (any_id(), any_slot()).prop_map(|(rack, slot)| Placing::InSlot { rack, slot }),
        2 => (any_point(), prop::option::of(any_id())).prop_map(|(at, on)| Placing::Standing {
            deck: "main".into(),
            at,
            on,
        }),
        2 => (any_point(), any_id(), any_id(), any_number()).prop_map(|(at, a, b, deg)| Placing::Lying {
            deck: "main".into(),
            at,
            valve_towards_deg: deg,
            on: None,
            on_kit: false,
            chocks: None,
            upon: vec![a, b],
        }),
        1 => (any_id(), any_point()).prop_map(|(rack, at)| Placing::InCrate {
            rack,
            at,
            valve_towards_deg: 0.0,
        }),
        1 => (any_id(), any_point()).prop_map(|(from, at)| Placing::Hanging {
            from,
            at,
            clear_of_deck_m: 0.1,
        }),
        1 => any_id().prop_map(|by| Placing::OnDiver { by }),
        1 => Just(Placing::InWater),
    ]
}

fn any_thing() -> impl Strategy<Value = Thing> {
    let plan = plan();
    let rack = plan.boat.racks[0].clone();
    let deck = plan.boat.decks[0].clone();
    let part = plan.trips[0].parts[1].clone();
    let person = plan.trips[0].people[0].clone();
    let rows = prop::sample::select(vec![1_u32, 2, 4]);
    prop_oneof![
        3 => (any_id(), any_placing())
            .prop_map(|(id, placing)| Thing::Cylinder(Cylinder::new(&id, "st-12l-long-232", placing))),
        3 => (any_id(), any_id(), any_id(), any_number()).prop_map(|(id, from, round, height)| {
            Thing::Lashing(Lashing {
                id,
                name: None,
                material: "ratchet_strap_25".into(),
                strength_kn: None,
                stiffness_kn_per_m: None,
                condition: LashCondition::Good,
                from,
                round: vec![round],
                to: "eye".into(),
                height_m: height,
                slack_m: None,
                pretension_kn: Some(Known::Value(0.2)),
                shut: true,
            })
        }),
        2 => rows.prop_map(move |columns| {
            // Fewer columns, and the painted names stay: slots go that somebody is in.
            let mut rack = rack.clone();
            rack.columns = columns;
            Thing::Rack(rack)
        }),
        1 => any_number().prop_map(move |x| {
            let mut deck = deck.clone();
            deck.outline[0][0] = x;
            Thing::Deck(deck)
        }),
        1 => any_id().prop_map(move |id| {
            let mut part = part.clone();
            part.id = id;
            Thing::Part(part)
        }),
        1 => (any_id(), any_point()).prop_map(move |(id, at)| {
            let mut person = person.clone();
            person.id = id;
            person.at = at;
            Thing::Person(person)
        }),
        1 => (any_id(), any_point()).prop_map(|(id, at)| Thing::Gear(Gear {
            floor: GearShape::Round { at, radius_m: 0.2 },
            id,
            ..self::plan().trips[0].gear[0].clone()
        })),
    ]
}

fn any_kind() -> impl Strategy<Value = ThingKind> {
    prop::sample::select(vec![
        ThingKind::Deck,
        ThingKind::Fixture,
        ThingKind::Place,
        ThingKind::Walkway,
        ThingKind::Rack,
        ThingKind::LashingPoint,
        ThingKind::Cylinder,
        ThingKind::Lashing,
        ThingKind::Gear,
        ThingKind::Person,
        ThingKind::Part,
    ])
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let trip = || "wreck".to_owned();
    prop_oneof![
        6 => (0_usize..3, any_id(), any_placing()).prop_map(move |(part, cylinder, placing)| Edit::Place {
            trip: trip(),
            part,
            cylinder,
            placing,
        }),
        4 => any_thing().prop_map(move |thing| Edit::Put {
            trip: Some(trip()),
            thing: Box::new(thing),
        }),
        4 => (any_kind(), any_id()).prop_map(move |(kind, id)| Edit::Remove {
            trip: Some(trip()),
            what: ThingRef { kind, id },
        }),
        1 => (0_usize..3, any_id(), any::<bool>()).prop_map(move |(part, lashing, shut)| {
            Edit::SetLashingShut { trip: trip(), part, lashing, shut }
        }),
        1 => (0_usize..3, any::<bool>()).prop_map(move |(part, shut)| Edit::SetFrontShut {
            trip: trip(),
            part,
            rack: "P".into(),
            front: "strap".into(),
            shut,
        }),
        1 => any_id().prop_map(|id| Edit::PutTrip(Box::new(Trip::new(&id)))),
        1 => any_id().prop_map(Edit::RemoveTrip),
        1 => any_id().prop_map(move |id| Edit::TakeOn {
            trip: trip(),
            taken_on: TakenOn {
                code: "U101".into(),
                about: vec![id],
                part: None,
                by: "Anna".into(),
                reason: "seen".into(),
                when: None,
            },
        }),
        1 => (any_id(), any_id(), any_number()).prop_map(move |(cylinder, place, heel)| {
            Edit::SetBriefing {
                trip: trip(),
                briefing: Box::new(Briefing {
                    hand_over: Some(place),
                    loading_heel_deg: Some(heel),
                    order: vec![cylinder.clone()],
                    ticks: vec![LoadingTick {
                        cylinder,
                        by: "Anna".into(),
                        when: "06:40".into(),
                        skipped: None,
                    }],
                    ..Briefing::default()
                }),
            }
        }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn after_any_edits_the_plan_can_be_saved_and_reads_back_the_same(
        edits in prop::collection::vec(any_edit(), 1..24),
    ) {
        let mut plan = plan();
        for edit in &edits {
            let before = plan.clone();
            if plan.apply(edit).is_err() {
                prop_assert_eq!(&plan, &before, "refused, and changed all the same");
                continue;
            }
            let read = match parse(&to_text(&plan), "edited") {
                Ok(read) => read,
                Err(faults) => return Err(TestCaseError::fail(format!("{edit:?}\n{faults}"))),
            };
            prop_assert_eq!(&read, &plan);
        }
    }
}
