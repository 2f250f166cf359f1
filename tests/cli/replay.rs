//! `snugdown replay` and `uncertainty`, as a stranger would run them.

use std::path::Path;

use serde_json::Value;

use crate::support::{Folder, boat_with_loose_cylinder, log};

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn a_log_is_replayed_and_what_went_is_told() {
    let folder = Folder::new()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("calm.csv", &log(2.0))
        .with("rough.csv", &log(40.0));
    let calm = folder.run(&["replay", "otter.json", "--log", "calm.csv"]);
    assert_eq!((calm.code, calm.err.as_str()), (0, ""), "{calm:?}");
    assert!(calm.out.contains("Nothing went."), "{}", calm.out);
    assert!(calm.out.contains("Local codes"), "{}", calm.out);
    let rough = folder.run(&["replay", "otter.json", "--log", "rough.csv"]);
    assert_eq!(rough.code, 1, "{rough:?}");
    assert!(rough.out.contains("P6 stood free"), "{}", rough.out);
    let told = folder.run(&[
        "replay",
        "otter.json",
        "--log",
        "rough.csv",
        "--format",
        "json",
        "--buckets",
        "20",
    ]);
    let report = json(&told.out);
    let replay = &report["replay"];
    assert_eq!(report["log"]["rows"], 2400);
    assert_eq!(replay["events"].as_array().unwrap().len(), 1, "{told:?}");
    assert!(replay["events"][0]["time_s"].as_f64().unwrap() > 10.0);
    assert!(replay["tracks"]["time_s"].as_array().unwrap().len() <= 20);
    let again = folder.run(&[
        "replay",
        "otter.json",
        "--log",
        "rough.csv",
        "--format",
        "json",
        "--buckets",
        "20",
    ]);
    assert_eq!(told.out, again.out, "the same inputs give the same bytes");
}

#[test]
fn a_sensor_that_was_mounted_otherwise_is_put_right() {
    let turned = log(40.0).replace("roll_deg,pitch_deg", "pitch_deg,roll_deg");
    let folder = Folder::new()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("straight.csv", &log(40.0))
        .with("turned.csv", &turned);
    let events = |args: &[&str]| {
        let mut all = vec!["replay", "otter.json", "--format", "json"];
        all.extend(args);
        let ran = folder.run(&all);
        assert_eq!(ran.err, "");
        json(&ran.out)["replay"]["events"].clone()
    };
    let straight = events(&["--log", "straight.csv"]);
    // Athwartships, its bow to port: what it calls pitch is the boat's roll with the sign turned.
    let turned = events(&["--log", "turned.csv", "--bow-up", "--sensor-turned", "90"]);
    assert_eq!(straight[0]["time_s"], turned[0]["time_s"]);
}

#[test]
fn an_assumed_motion_is_steady_or_drawn_with_a_seed() {
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let boat = layouts.join("day-boat-badly-stowed.json");
    let boat = boat.to_string_lossy();
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let steady = folder.run(&["replay", &boat, "--steady", "--seconds", "30"]);
    assert!(steady.code < 2, "{}", steady.err);
    assert!(steady.out.contains("steady roll"), "{}", steady.out);
    let none = folder.run(&["replay", "otter.json", "--sea", "1"]);
    assert_eq!(none.code, 2);
    assert!(none.err.contains("has no sea"), "{}", none.err);
    let neither = folder.run(&["replay", "otter.json"]);
    assert_eq!(neither.code, 2);
    assert!(neither.err.contains("--log"), "{}", neither.err);
}

#[test]
fn what_is_no_log_is_told_with_its_name() {
    let folder = Folder::new()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("bad.csv", "a,b\n1,2\n");
    let ran = folder.run(&["replay", "otter.json", "--log", "bad.csv"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("bad.csv") && ran.err.contains("column"),
        "{}",
        ran.err
    );
    let gone = folder.run(&["replay", "otter.json", "--log", "gone.csv"]);
    assert_eq!(gone.code, 2);
    assert!(gone.err.contains("gone.csv"), "{}", gone.err);
}

#[test]
fn limits_are_bands_that_name_what_moves_them() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let ran = folder.run(&["uncertainty", "otter.json", "--draws", "8"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.contains("Ranges that were taken"), "{}", ran.out);
    let told = |seed: &str| {
        let args = [
            "uncertainty",
            "otter.json",
            "--draws",
            "8",
            "--seed",
            seed,
            "--format",
            "json",
        ];
        folder.run(&args).out
    };
    assert_eq!(told("5"), told("5"), "the same seed gives the same bytes");
    let report = json(&told("5"));
    let band = &report["uncertainty"]["cylinders"][0];
    let (least, most) = (band["least_deg"].as_f64(), band["most_deg"].as_f64());
    assert!(least < most || most.is_none(), "{band}");
    assert!(!band["moved_by"].as_array().unwrap().is_empty(), "{band}");
}
