//! One slip at a time in a small plan without any, and what is then told.

mod day;
mod removing;
mod stowage;

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
