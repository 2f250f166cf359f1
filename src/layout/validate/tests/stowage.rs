//! Slips in what is stowed.

use serde_json::json;

use super::check_all;

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
