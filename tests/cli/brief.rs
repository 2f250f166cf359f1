//! `snugdown brief`: lists and the loading order, to the terminal and to files.

use std::path::Path;

use serde_json::{Value, json};

use crate::support::{Folder, Ran, boat_with_loose_cylinder};

fn folder() -> Folder {
    Folder::new().with_json("otter.json", &boat_with_loose_cylinder())
}

/// The load list of the boat, told in this way.
fn load_list(folder: &Folder, told: &[&str]) -> Ran {
    let asked = ["brief", "otter.json", "--page", "load-list"];
    folder.run(&[&asked[..], told].concat())
}

#[test]
fn everything_is_told_with_the_caution_below() {
    let ran = folder().run(&["brief", "otter.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    for heading in [
        "To say on the quay",
        "Load list",
        "Lashing list",
        "Loading order",
        "Still open",
    ] {
        assert!(ran.out.contains(heading), "{heading}: {}", ran.out);
    }
    assert!(ran.out.contains("nothing holds it there"), "{}", ran.out);
    assert!(ran.out.trim_end().ends_with("decide."), "{}", ran.out);
}

#[test]
fn a_list_goes_to_a_file_and_replaces_none() {
    let folder = folder();
    let told = ["--format", "csv", "--out", "load.csv"];
    let ran = load_list(&folder, &told);
    assert_eq!(ran.code, 0, "{ran:?}");
    let again = load_list(&folder, &told);
    assert_eq!(again.code, 2, "{again:?}");
    assert!(again.err.contains("--overwrite"), "{}", again.err);
}

#[test]
fn csv_wants_one_page() {
    let ran = folder().run(&["brief", "otter.json", "--format", "csv"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("--page load-list"), "{}", ran.err);
}

#[test]
fn names_that_are_not_there_are_told() {
    for (option, name) in [
        ("--part", "noon"),
        ("--trip", "sunday"),
        ("--hand-over", "moon"),
    ] {
        let ran = folder().run(&["brief", "otter.json", option, name]);
        assert_eq!(ran.code, 2, "{option}: {ran:?}");
        assert!(ran.err.contains(name), "{option}: {}", ran.err);
    }
}

/// The option takes what the plan's file takes, no more and no less.
#[test]
fn the_heel_is_that_of_the_plans_file() {
    for heel in ["90", "0.04", "0", "-1", "-0.5", "nan"] {
        let ran = folder().run(&["brief", "otter.json", "--heel", heel]);
        assert_eq!(ran.code, 2, "{heel}: {ran:?}");
        assert!(ran.err.contains("from 0.1 up to 15"), "{}", ran.err);
    }
    for (heel, taken) in [(0.1, true), (15.0, true), (0.09, false), (15.1, false)] {
        let option = folder().run(&["brief", "otter.json", "--heel", &heel.to_string()]);
        assert_eq!(option.code == 0, taken, "{heel}: {option:?}");
        let mut plan = boat_with_loose_cylinder();
        plan["trips"][0]["briefing"] = json!({ "loading_heel_deg": heel });
        let folder = Folder::new().with_json("otter.json", &plan);
        let settled = folder.run(&["brief", "otter.json"]);
        assert_eq!(settled.code == 0, taken, "{heel}: {settled:?}");
    }
}

#[test]
fn the_name_of_the_file_says_what_is_written() {
    let folder = folder();
    for (name, begins) in [
        ("a.csv", "cylinder,number,"),
        ("b.CSV", "cylinder,number,"),
        ("c.txt", "Otter, trip saturday"),
        ("d", "Otter, trip saturday"),
    ] {
        let ran = load_list(&folder, &["-o", name]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
        assert!(folder.read(name).starts_with(begins), "{name}");
    }
    for name in ["all.json", "again.JSON"] {
        let ran = folder.run(&["brief", "otter.json", "--out", name]);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
        let told: Value = serde_json::from_str(&folder.read(name)).unwrap();
        assert_eq!(told["boat"], "Otter");
    }
    for (name, format) in [("x.json", "csv"), ("x.csv", "text"), ("x.CSV", "json")] {
        let ran = load_list(&folder, &["--out", name, "--format", format]);
        assert_eq!(ran.code, 2, "{name} {format}: {ran:?}");
        let asked = format!("--format says {format}");
        assert!(
            ran.err.contains(name) && ran.err.contains(&asked),
            "{}",
            ran.err
        );
        assert!(!folder.path().join(name).exists(), "{name}");
    }
    for name in ["x.pdf", "x.SVG", "x.png"] {
        let ran = folder.run(&["brief", "otter.json", "--out", name]);
        assert_eq!(ran.code, 2, "{name}: {ran:?}");
        assert!(
            ran.err.contains("snugdown crew-sheet FILE --out"),
            "{}",
            ran.err
        );
        assert!(!folder.path().join(name).exists(), "{name}");
    }
}

#[test]
fn json_holds_all_pages() {
    for told in [&["--format", "json"][..], &["--out", "x.json"]] {
        let ran = load_list(&folder(), told);
        assert_eq!(ran.code, 2, "{told:?}: {ran:?}");
        assert!(ran.err.contains("leave --page out"), "{}", ran.err);
    }
}

#[test]
fn nothing_is_written_over_where_nothing_is_written() {
    let ran = folder().run(&["brief", "otter.json", "--overwrite"]);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(
        ran.err.contains("--overwrite needs --out FILE"),
        "{}",
        ran.err
    );
}

/// Who dives with a cylinder, and the greatest pull of a lashing, are told; lines stay within what fits.
#[test]
fn the_lists_tell_diver_and_pull_within_a_hundred_columns() {
    let shipped = |name: &str| -> Value {
        let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
        serde_json::from_str(&std::fs::read_to_string(layouts.join(name)).unwrap()).unwrap()
    };
    let mut boat = shipped("live-aboard.json");
    boat["trips"][0]["cylinders"][0]["diver"] = json!("Alexandra");
    let folder = Folder::new()
        .with_json("shipped.json", &shipped("live-aboard.json"))
        .with_json("boat.json", &boat)
        .with_json("badly.json", &shipped("day-boat-badly-stowed.json"));
    let ran = folder.run(&["brief", "boat.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    for told in [" diver ", " Alexandra ", "greatest pull"] {
        assert!(ran.out.contains(told), "{told}: {}", ran.out);
    }
    let ran = folder.run(&["brief", "shipped.json"]);
    assert!(!ran.out.contains(" diver "), "nobody has one: {}", ran.out);
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
    // As on the sheet, where nothing pulls it says so.
    let csv = folder.run(&[
        "brief",
        "badly.json",
        "--format",
        "csv",
        "--page",
        "lashing-list",
    ]);
    assert!(!csv.out.contains("0.00 kN"), "{}", csv.out);
    assert!(csv.out.contains(",none,"), "{}", csv.out);
    boat["boat"]["name"] = json!(["Otter"; 40].join(" "));
    let ran =
        folder
            .with_json("long.json", &boat)
            .run(&["brief", "long.json", "--page", "talk-points"]);
    assert!(ran.out.starts_with("Otter Otter"), "{}", ran.out);
    for line in ran.out.lines() {
        assert!(line.chars().count() <= 100, "{line}");
    }
}

/// Not even told to replace files does it write over the plan that it reads.
#[test]
fn the_plan_itself_is_never_written_over() {
    let folder = folder();
    let before = folder.read("otter.json");
    let told = ["--format", "csv", "--out", "./otter.json", "--overwrite"];
    let ran = load_list(&folder, &told);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(ran.err.contains("the deck plan itself"), "{}", ran.err);
    assert_eq!(folder.read("otter.json"), before);
}

#[test]
fn a_file_named_as_csv_is_csv() {
    let folder = folder();
    let ran = load_list(&folder, &["--out", "load.csv"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(
        folder.read("load.csv").starts_with("cylinder,number,"),
        "{ran:?}"
    );
}
