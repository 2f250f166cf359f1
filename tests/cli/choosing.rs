//! Trips, parts of the day and places, asked for by id or by name.

use serde_json::{Value, json};

use crate::support::{Folder, boat_with_loose_cylinder, json_of};

/// Two trips with names, the second with a gate aboard, and two parts of one name.
fn plan() -> Value {
    let mut plan = boat_with_loose_cylinder();
    plan["boat"]["places"] = json!([
        { "id": "port gate", "name": "Side gate port", "deck": "main", "at": [4.0, 1.4], "kind": "gate" },
        { "id": "step", "name": "Spare", "deck": "main", "at": [0.5, 0.5], "kind": "set_down" },
        { "id": "well", "name": "Spare", "deck": "main", "at": [1.5, 0.5], "kind": "set_down" }
    ]);
    let mut trip = plan["trips"][0].clone();
    trip["id"] = json!("sun");
    trip["name"] = json!("Sunday, two dives");
    trip["parts"][0]["name"] = json!("Alongside, loaded");
    trip["parts"][1]["name"] = json!("Home again");
    plan["trips"].as_array_mut().unwrap().push(trip);
    plan
}

fn folder() -> Folder {
    let mut empty = plan();
    empty["trips"] = json!([]);
    Folder::new()
        .with_json("otter.json", &plan())
        .with_json("no-trips.json", &empty)
        .with("list.csv", "kind,number\nal-80cf,7\n")
}

const SUNDAY: [&str; 2] = ["--trip", "Sunday, two dives"];
const LOADED: [&str; 2] = ["--part", "Alongside, loaded"];

#[test]
fn a_name_does_for_an_id_in_every_command() {
    let folder = folder();
    for (command, has_part) in [
        (&["check", "otter.json"][..], true),
        (&["brief", "otter.json"], true),
        (&["crew-sheet", "otter.json"], true),
        (&["day", "otter.json"], true),
        (&["motion", "otter.json"], true),
        (&["card", "otter.json"], true),
        (&["balance", "otter.json"], true),
        (&["reach", "otter.json", "--spot", "4,1"], true),
        (&["uncertainty", "otter.json", "--draws", "2"], true),
        (
            &["replay", "otter.json", "--steady", "--seconds", "5"],
            true,
        ),
        (&["compare", "otter.json", "otter.json"], true),
        (&["lay-out", "otter.json", "--as", "night-passage"], false),
    ] {
        let with = |trip: &str, part: &str| {
            let mut args = command.to_vec();
            args.extend(["--trip", trip]);
            if has_part {
                args.extend(["--part", part]);
            }
            folder.run(&args)
        };
        let by_id = with("sun", "alongside");
        assert!(by_id.code < 2, "{command:?}: {by_id:?}");
        let by_name = with(SUNDAY[1], LOADED[1]);
        assert_eq!(
            (by_name.code, by_name.out.as_str(), by_name.err.as_str()),
            (by_id.code, by_id.out.as_str(), by_id.err.as_str()),
            "{command:?}"
        );
    }
    let ready = |trip: &str, after: &str| {
        folder.run(&[
            "make-ready",
            "otter.json",
            "--for",
            "night",
            "--trip",
            trip,
            "--after",
            after,
        ])
    };
    let by_name = ready(SUNDAY[1], LOADED[1]);
    assert_eq!((by_name.code, by_name.err.as_str()), (0, ""), "{by_name:?}");
    assert_eq!(by_name.out, ready("sun", "alongside").out);
    let cylinders = [
        &["cylinders", "otter.json", "list.csv", "--out", "with.json"][..],
        &SUNDAY,
    ];
    let ran = folder.run(&cylinders.concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.contains("trip sun:"), "{}", ran.out);
}

/// What goes on into a file is the id.
#[test]
fn a_record_holds_the_ids_of_what_was_asked_by_name() {
    let folder = folder();
    let start = [
        "audit-record",
        "r.json",
        "--planned",
        "otter.json",
        "--found",
        "otter.json",
    ];
    let ran = folder.run(&[&start[..], &SUNDAY, &LOADED].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    let record: Value = serde_json::from_str(&folder.read("r.json")).unwrap();
    assert_eq!(record["planned"]["trip"], "sun", "{record}");
    assert_eq!(record["planned"]["part"], "alongside", "{record}");
}

#[test]
fn a_place_is_known_by_its_name_if_no_other_has_it() {
    let folder = folder();
    let told = |name: &str| {
        json_of(
            &folder,
            &["brief", "otter.json", "--trip", "sun", "--hand-over", name],
        )
    };
    assert_eq!(
        told("Side gate port")["loading"],
        told("port gate")["loading"]
    );
    let ran = folder.run(&[
        "brief",
        "otter.json",
        "--trip",
        "sun",
        "--set-down",
        "Spare",
    ]);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(
        ran.err.contains("otter.json: several are called \"Spare\"")
            && ran
                .err
                .contains("\"step\" (\"Spare\"), \"well\" (\"Spare\")"),
        "{}",
        ran.err
    );
}

#[test]
fn what_is_not_there_is_told_with_the_file_and_what_to_do() {
    let folder = folder();
    for (asked, words) in [
        (
            &["brief", "otter.json"][..],
            "otter.json: the plan has several trips; add --trip with one of: \"saturday\" (\"Saturday\"), \"sun\" \
             (\"Sunday, two dives\")",
        ),
        (
            &["compare", "otter.json", "otter.json"],
            "otter.json: the plan has several trips; add --trip with one of: ",
        ),
        (
            &["crew-sheet", "no-trips.json"],
            "no-trips.json: the plan has no trip; open it in the window (`snugdown no-trips.json`)",
        ),
        (
            &["brief", "otter.json", "--trip", "moon"],
            "otter.json: there is no trip \"moon\"; there is: \"saturday\" (\"Saturday\"), ",
        ),
        (
            &["day", "otter.json", "--trip", "sun", "--part", "noon"],
            "otter.json: there is no part of the day \"noon\"; there is: \"alongside\" (\"Alongside, loaded\"), ",
        ),
        (
            &[
                "brief",
                "otter.json",
                "--trip",
                "sun",
                "--hand-over",
                "Side gate prot",
            ],
            "otter.json: there is no place \"Side gate prot\"; did you mean \"port gate\" (\"Side gate port\")?",
        ),
        (
            &["motion", "otter.json", "--trip", "sun", "--height", "1"],
            "otter.json: the day has several parts; add --part with the one that this is for: \"alongside\"",
        ),
    ] {
        let ran = folder.run(asked);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{asked:?}: {ran:?}");
        assert!(ran.err.contains(words), "{asked:?}: {}", ran.err);
    }
}
