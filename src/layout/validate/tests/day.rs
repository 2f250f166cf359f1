//! Slips in parts of the day, in a sea and in a briefing.

use serde_json::json;

use super::*;

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
