//! One slip at a time in a small plan without any, and what is then told.

use serde_json::{Value, json};

use super::sample::sound;
use super::validate;
use crate::layout::Plan;

/// What is told of the sound plan with one value replaced.
fn told(pointer: &str, value: Value) -> String {
    let mut plan = sound();
    *plan
        .pointer_mut(pointer)
        .unwrap_or_else(|| panic!("no {pointer}")) = value;
    let plan: Plan = serde_json::from_value(plan).unwrap();
    let told = validate(&plan).into_iter();
    let told: Vec<String> = told
        .map(|mistake| format!("{}: {} | {}", mistake.field, mistake.message, mistake.help))
        .collect();
    told.join("\n")
}

#[test]
fn a_sound_plan_has_no_mistakes() {
    assert_eq!(told("/version", json!(1)), "");
}

/// Checks what is told of slips: the field, the value put there, and how that which is told starts;
/// nothing at all where that is empty.
fn check_all(slips: impl IntoIterator<Item = (&'static str, Value, &'static str)>) {
    for (pointer, value, message) in slips {
        let told = told(pointer, value.clone());
        assert!(
            told.starts_with(message) && told.is_empty() == message.is_empty(),
            "{pointer} {value}:\n{told}\n{message}"
        );
    }
}

#[test]
fn slips_in_names_and_decks_are_told() {
    check_all([
        (
            "/boat/decks/1/id",
            json!("main"),
            "boat.decks[1].id: another deck is called \"main\" already (boat.decks[0]) | give each a name \
             of its own",
        ),
        (
            "/boat/places/1/id",
            json!(" helm"),
            "boat.places[1].id: the name \" helm\" begins or ends with a space | write \"helm\"\n\
             boat.walkways[0].to: there is no place called \"helm\" | did you mean \" helm\"?",
        ),
        (
            "/boat/fixtures/0/id",
            json!(""),
            "boat.fixtures[0].id: the fixture has an empty name | give it the name that the crew use\n\
             trips[0].cylinders[2].placing.on: there is no fixture called \"bench\" | the names are \"\"",
        ),
        (
            "/boat/decks/1/outline",
            json!([[5.0, -1.5], [8.0, 1.5], [8.0, -1.5], [5.0, 1.5]]),
            "boat.decks[1].outline[2]: the edge from corner 3 on crosses or touches the one from corner 1 \
             on, at [6.500, 0.000] | give the corners in order round the edge; two of them may be swapped",
        ),
        (
            "/boat/decks/1/outline",
            json!([[5.0, 0.0], [6.0, 0.0], [7.0, 0.0]]),
            "boat.decks[1].outline: the corners lie on one line and enclose nothing | give the corners of \
             an area",
        ),
        (
            "/boat/decks/0/holes/1",
            json!([[1.5, -0.4], [4.0, -0.4], [4.0, 0.4]]),
            "boat.decks[0].holes[1]: the hole overlaps hole 0 at ",
        ),
        (
            "/boat/decks/0/holes/1",
            json!([[3.0, -0.5], [4.0, -0.5], [4.0, 3.0]]),
            "boat.decks[0].holes[1]: the hole reaches outside the deck at [4.000, 3.000] | keep holes \
             within the deck's edge; cut a notch into the outline instead",
        ),
        (
            "/boat/decks/1/outline",
            json!([[5.0, 0.0], [8.0, 0.0], [8.0, 4.6], [5.0, 4.6]]),
            "boat.decks[1].outline: the deck reaches 0.00 m to starboard and 4.60 m to port, but half the \
             beam is 2.3 m | y counts to port from the centreline, in metres; starboard is negative",
        ),
        (
            "/boat/decks/1/outline",
            json!([[5.0, -1.5], [16.0, -1.5], [16.0, 1.5], [5.0, 1.5]]),
            "boat.decks[1].outline: the deck reaches from 5.00 to 16.00 m, but the boat is 11 m long | x \
             counts forward from the transom, in metres",
        ),
        (
            "/boat/waterline_length_m",
            json!(33.0),
            "boat.waterline_length_m: the waterline, 33 m, is longer than the boat, 11 m | measure both \
             again; one of them may be in feet",
        ),
        (
            "/boat/decks",
            json!([]),
            "boat.decks: the boat has no deck | add one with its outline: everything stands on a deck\n\
             boat.fixtures[0].deck: there is no deck called \"main\" | add the deck first; there is none yet",
        ),
    ]);
}

#[test]
fn slips_in_fixtures_and_walkways_are_told() {
    check_all([
        (
            "/boat/fixtures/0/outline",
            json!([[0.5, 1.6], [4.5, 1.6], [4.5, 2.1], [0.5, 1.6]]),
            "boat.fixtures[0].outline[3]: corners 1 and 4 are the same point, [0.500, 1.600] | leave the \
             last corner out: an outline closes by itself",
        ),
        (
            "/boat/decks/1/surface",
            json!({ "kind": "non_skit" }),
            "boat.decks[1].surface.kind: there is no surface called \"non_skit\" | did you mean \
             \"non_skid\"?",
        ),
        (
            "/boat/fixtures/0/deck",
            json!("mian"),
            "boat.fixtures[0].deck: there is no deck called \"mian\" | did you mean \"main\"?",
        ),
        (
            "/boat/fixtures/0/outline",
            json!([[0.5, 16.0], [4.5, 16.0], [4.5, 21.0]]),
            "boat.fixtures[0].outline: this lies 13.8 m off the deck \"main\" | x counts forward from the \
             transom, y to port from the centreline, in metres; or it belongs to another deck",
        ),
        (
            "/boat/fixtures/0/opens_over",
            json!([[0.5, 1.0], [4.5, 1.0]]),
            "boat.fixtures[0].opens_over: an outline needs three corners or more, here are 2 | give its \
             corners one after the other, the first not repeated",
        ),
        (
            "/boat/fixtures/0/must_stay_open",
            json!(["running", "drifting", "running"]),
            "boat.fixtures[0].must_stay_open[2]: the condition stands here twice | take one out",
        ),
        (
            "/boat/fixtures/0/height_m",
            json!(-0.1),
            "boat.fixtures[0].underside_m: the underside, 0 m, is above the top, -0.1 m | both count from \
             the deck; the two may be swapped",
        ),
        (
            "/boat/walkways/0/to",
            json!("gate"),
            "boat.walkways[0].to: the walkway leads from \"gate\" back to it | name the place at its other \
             end",
        ),
        (
            "/boat/walkways/0/line/1",
            json!([0.0, 0.0]),
            "boat.walkways[0].line[1]: points 1 and 2 of the line are the same | leave one of the two out",
        ),
    ]);
}

#[test]
fn slips_in_racks_and_lashing_points_are_told() {
    check_all([
        (
            "/boat/racks/0/slot_names",
            json!(["P1", "P2", "P2"]),
            "boat.racks[0].slot_names[2]: slot 2 is called \"P2\" already | each slot of a rack needs a \
             name of its own",
        ),
        (
            "/boat/racks/0/columns",
            json!(1),
            "boat.racks[0].slot_names: 2 names for 1 slots (1 in a row, 1 rows) | take names out, or set \
             columns and rows to what is on board\n\
             boat.racks[0].fronts[0].slots[1]: the rack \"P\" has no slot \"P2\" | its slots go from \"P1\" \
             to \"P1\"",
        ),
        (
            "/boat/racks/0/fronts/0/slots",
            json!(["P1", "P1", "S9"]),
            "boat.racks[0].fronts[0].slots[1]: slot \"P1\" stands here twice | take one out\n\
             boat.racks[0].fronts[0].slots[2]: the rack \"P\" has no slot \"S9\" | its slots go from \"P1\" \
             to \"P-4\"",
        ),
        (
            "/boat/racks/0/kind",
            json!("sockets"),
            "boat.racks[0].fronts: only a bench row has fronts | take them out, or make the rack a \
             \"bench_row\"; a strap over something else is a lashing",
        ),
        (
            "/boat/lashing_points/0/at",
            json!([100.0, 2.1]),
            "boat.lashing_points[0].at: this lies 89.0 m off the deck \"main\" | x counts forward from the \
             transom, y to port from the centreline, in metres; or it belongs to another deck",
        ),
    ]);
}

#[test]
fn slips_in_cylinders_and_placings_are_told() {
    check_all([
        (
            "/trips/0/cylinders/2/kind",
            json!("st-12l-log-232"),
            "trips[0].cylinders[2].kind: there is no kind of cylinder called \"st-12l-log-232\" | did you \
             mean \"st-12l-long-232\"?",
        ),
        (
            "/trips/0/cylinders/2/gas",
            json!("nitrox 320"),
            "trips[0].cylinders[2].gas: \"nitrox 320\": a figure must lie between 0 and 100 | write the \
             gas as one of air, oxygen, nitrox 32",
        ),
        (
            "/trips/0/cylinders/2/id",
            json!("2"),
            "trips[0].cylinders[2].id: another cylinder is called \"2\" already (trips[0].cylinders[1]) | \
             give each a name of its own",
        ),
        (
            "/trips/0/cylinders/1/placing/slot",
            json!("P1"),
            "trips[0].cylinders[1].placing.slot: the slot \"P1\" of \"P\" is taken already at the start of \
             the day, by \"1\" | give the cylinder another slot, or the other one another place first",
        ),
        (
            "/trips/0/cylinders/1/placing",
            json!({ "how": "in_slot", "rack": "P", "slot": "P-2" }),
            "trips[0].cylinders[1].placing.slot: the rack \"P\" has no slot \"P-2\" | did you mean \"P2\"?",
        ),
        (
            "/trips/0/cylinders/1/placing/rack",
            json!("crate"),
            "trips[0].cylinders[1].placing.rack: the rack \"crate\" has no slots: cylinders lie loose in it \
             | write \"how\": \"in_crate\" with \"at\" and \"valve_towards_deg\"",
        ),
        (
            "/trips/0/cylinders/3/placing/rack",
            json!("P"),
            "trips[0].cylinders[3].placing.rack: the rack \"P\" is neither a crate nor a net | write \"how\": \
             \"in_slot\" with the slot's name",
        ),
        (
            "/trips/0/cylinders/3/placing/at",
            json!([0.2, 0.0]),
            "trips[0].cylinders[3].placing.at: this is 5.9 m from the middle of the rack \"crate\" | give \
             the cylinder's middle on the deck plan, in metres, inside the rack",
        ),
        (
            "/trips/0/cylinders/2/placing/on",
            json!("bank"),
            "trips[0].cylinders[2].placing.on: there is no fixture called \"bank\"",
        ),
        (
            "/trips/0/cylinders/2/placing/at",
            json!([3.0, 18.0]),
            "trips[0].cylinders[2].placing.at: this lies 15.8 m off the deck \"main\"",
        ),
        (
            "/trips/0/cylinders/4/placing/by",
            json!("Ana"),
            "trips[0].cylinders[4].placing.by: there is no person called \"Ana\" | did you mean \"Anna\"?",
        ),
        (
            "/trips/0/cylinders/5/placing/upon",
            json!(["6", "5", "5"]),
            "trips[0].cylinders[5].placing.upon[0]: the cylinder lies upon itself | name the two cylinders \
             in whose groove it rests\n\
             trips[0].cylinders[5].placing.upon[2]: \"5\" stands here twice | name the two cylinders in \
             whose groove it rests\n\
             trips[0].cylinders[5].placing.upon: a cylinder rests upon two others, here are 3 | name the \
             two cylinders in whose groove it rests",
        ),
        (
            "/trips/0/cylinders/4/placing",
            json!({ "how": "lying", "deck": "main", "at": [4.0, 0.0], "valve_towards_deg": 0.0,
                    "upon": ["6", "3"] }),
            "trips[0].cylinders[4].placing.upon: \"5\" lies upon cylinders that lie upon it at the start of \
             the day | name only the two cylinders below it\n\
             trips[0].cylinders[5].placing.upon: \"6\" lies upon cylinders that lie upon it at the start of \
             the day | name only the two cylinders below it",
        ),
        (
            "/trips/0/cylinders/6/placing/from",
            json!("hook"),
            "trips[0].cylinders[6].placing.from: there is no lashing point called \"hook\" | the names are \
             \"eye\", \"ring\"",
        ),
    ]);
}

#[test]
fn slips_in_lashings_gear_and_people_are_told() {
    check_all([
        (
            "/trips/0/lashings/0/to",
            json!("rnig"),
            "trips[0].lashings[0].to: there is no lashing point called \"rnig\" | did you mean \"ring\"?",
        ),
        (
            "/trips/0/lashings/0/round",
            json!(["3", "3", "9"]),
            "trips[0].lashings[0].round[1]: the lashing goes round \"3\" twice | name each cylinder once; \
             two turns are one lashing\n\
             trips[0].lashings[0].round[2]: there is no cylinder called \"9\" | the names are \"1\", ",
        ),
        (
            "/trips/0/lashings/0",
            json!({ "id": "a", "material": "ratchet_strap_25", "from": "eye", "to": "ring", "round": ["3"],
                    "height_m": 0.4, "slack_m": 0.02, "pretension_kn": 0.5 }),
            "trips[0].lashings[0].pretension_kn: a lashing is either slack or tightened, not both | keep \
             \"slack_m\" or \"pretension_kn\", whichever is so",
        ),
        (
            "/trips/0/lashings/0/material",
            json!("ratchet strap 25"),
            "trips[0].lashings[0].material: there is no material called \"ratchet strap 25\" | did you \
             mean \"ratchet_strap_25\"?",
        ),
        (
            "/trips/0/gear/0/floor",
            json!({ "shape": "line", "points": [[40.0, 1.0], [41.0, 1.0]], "thickness_m": 0.02 }),
            "trips[0].gear[0].floor.points: this lies 29.0 m off the deck \"main\"",
        ),
        (
            "/trips/0/people/0/at",
            json!([-9.0, 0.0]),
            "trips[0].people[0].at: this lies 9.0 m off the deck \"main\"",
        ),
    ]);
}

#[test]
fn slips_in_parts_of_the_day_are_told() {
    check_all([
        (
            "/trips/0/parts/1/changes/cylinders/1/placing/slot",
            json!("P2"),
            "trips[0].parts[1].changes.cylinders[1].placing.slot: the slot \"P2\" of \"P\" is taken already \
             in \"out\", by \"1\" | give the cylinder another slot, or the other one another place first",
        ),
        (
            "/trips/0/parts/1/changes/cylinders/0/placing/slot",
            json!("P-4"),
            "",
        ),
        (
            "/trips/0/parts/1/id",
            json!("alongside"),
            "trips[0].parts[1].id: another part of the day is called \"alongside\" already",
        ),
        (
            "/trips/0/parts",
            json!([]),
            "trips[0].parts: the day has no parts | add one with its \"id\" and \"condition\"; one is enough",
        ),
        (
            "/trips/0/parts/1/changes/cylinders/0/cylinder",
            json!("11"),
            "trips[0].parts[1].changes.cylinders[0].cylinder: there is no cylinder called \"11\"",
        ),
        (
            "/trips/0/parts/1/changes/cylinders/0/cylinder",
            json!("2"),
            "trips[0].parts[1].changes.cylinders[1].cylinder: \"2\" changes twice in this part of the day | \
             make one change of the two",
        ),
        (
            "/trips/0/parts/1/changes/lashings/0/lashing",
            json!("b"),
            "trips[0].parts[1].changes.lashings[0].lashing: there is no lashing called \"b\" | the names are \
             \"a\"",
        ),
        (
            "/trips/0/parts/1/changes/lashings/0/round/1",
            json!("8"),
            "trips[0].parts[1].changes.lashings[0].round[1]: there is no cylinder called \"8\"",
        ),
        (
            "/trips/0/parts/1/changes/fronts/0/rack",
            json!("S"),
            "trips[0].parts[1].changes.fronts[0].rack: there is no rack called \"S\"",
        ),
        (
            "/trips/0/parts/1/changes/fronts/0/front",
            json!("stap"),
            "trips[0].parts[1].changes.fronts[0].front: there is no front called \"stap\" | did you mean \
             \"strap\"?",
        ),
        (
            "/trips/0/parts/1/changes/gear/0/gear",
            json!("fin"),
            "trips[0].parts[1].changes.gear[0].gear: there is no piece of gear called \"fin\" | did you mean \
             \"fins\"?",
        ),
        (
            "/trips/0/parts/1/changes/people/0/person",
            json!("Bob"),
            "trips[0].parts[1].changes.people[0].person: there is no person called \"Bob\" | did you mean \
             \"Bo\"?",
        ),
        (
            "/trips/0/parts/1/changes/people/0/at",
            json!([-9.0, 0.0]),
            "trips[0].parts[1].changes.people[0].at: this lies 9.0 m off the deck \"main\"",
        ),
    ]);
}

#[test]
fn a_new_plan_is_sound() {
    for (length, beam) in [(2.0, 0.8), (7.5, 2.6), (24.0, 6.5)] {
        assert_eq!(validate(&Plan::new("new", length, beam)), []);
    }
}

#[test]
fn numbers_out_of_any_range_end_soon() {
    let told = told("/boat/racks/0/columns", json!(u32::MAX));
    assert!(!told.contains("fronts"), "{told}");
    let many: Vec<Value> = (0..5000).map(|i| json!([f64::from(i), 0.0])).collect();
    let told = self::told("/boat/decks/1/outline", json!(many));
    assert!(
        told.starts_with("boat.decks[1].outline: the outline has 5000 corners"),
        "{told}"
    );
    for value in [f64::MAX, f64::MIN, f64::MIN_POSITIVE, -0.0] {
        for pointer in [
            "/boat/length_overall_m",
            "/boat/beam_m",
            "/boat/decks/0/outline/0/0",
            "/boat/racks/1/at/0",
            "/boat/racks/1/size_m/0",
            "/trips/0/cylinders/3/placing/at/1",
        ] {
            // What is told of them is a matter of the ranges; here only that it ends.
            assert!(self::told(pointer, json!(value)).len() < 5000);
        }
    }
}

/// Whatever is taken away, nothing is left that refers to it.
mod removing {
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
}

#[test]
fn a_sea_has_one_height_and_waves_that_can_stand() {
    let part = "/trips/0/parts/0/sea";
    let told_of = |sea: Value| {
        let mut plan = sound();
        plan["trips"][0]["parts"][0]["sea"] = sea;
        let plan: Plan = serde_json::from_value(plan).unwrap();
        let told = validate(&plan).into_iter().map(|mistake| mistake.message);
        told.collect::<Vec<_>>().join("\n")
    };
    for (sea, message) in [
        (json!({ "wave_height_m": 0.8 }), ""),
        (json!({ "sea_state": 3, "waters": "ocean" }), ""),
        (json!({}), "the sea has no height"),
        (
            json!({ "wave_height_m": 0.8, "sea_state": 3 }),
            "the sea has a wave height and",
        ),
        (
            json!({ "wave_height_m": 2.0, "wave_period_s": 2.0 }),
            "waves of 2 m every 2 s cannot",
        ),
    ] {
        let told = told_of(sea.clone());
        assert!(
            told.starts_with(message) && told.is_empty() == message.is_empty(),
            "{part} {sea}: {told}"
        );
    }
    let mut plan = sound();
    plan["boat"]["roll_period_range_s"] = json!([4.0, 2.0]);
    let plan: Plan = serde_json::from_value(plan).unwrap();
    assert!(validate(&plan)[0].message.contains("shortest roll period"));
}

#[test]
fn slips_in_a_briefing_are_told() {
    check_all([
        (
            "/trips/0/briefing/part",
            json!("noon"),
            "trips[0].briefing.part: there is no part of the day called \"noon\" | the names are \
             \"alongside\", \"out\"",
        ),
        (
            "/trips/0/briefing/hand_over",
            json!("gatr"),
            "trips[0].briefing.hand_over: there is no place called \"gatr\" | did you mean \"gate\"?",
        ),
        (
            "/trips/0/briefing/set_down",
            json!("eye"),
            "trips[0].briefing.set_down: there is no place called \"eye\"",
        ),
        (
            "/trips/0/briefing/order/1",
            json!("4"),
            "trips[0].briefing.order[1]: \"4\" is in the order twice | name each cylinder once",
        ),
        (
            "/trips/0/briefing/order/1",
            json!("Anna"),
            "trips[0].briefing.order[1]: there is no cylinder called \"Anna\"",
        ),
        (
            "/trips/0/briefing/ticks/1/cylinder",
            json!("4"),
            "trips[0].briefing.ticks[1].cylinder: \"4\" is ticked off twice",
        ),
        (
            "/trips/0/briefing/ticks/0/by",
            json!(" "),
            "trips[0].briefing.ticks[0].by: the tick of \"4\" does not say by whom",
        ),
        (
            "/trips/0/briefing/ticks/0/when",
            json!(""),
            "trips[0].briefing.ticks[0].when: the tick of \"4\" does not say when",
        ),
        (
            "/trips/0/briefing/ticks/1/skipped",
            json!(""),
            "trips[0].briefing.ticks[1].skipped: \"1\" was skipped without a reason",
        ),
    ]);
}
