//! What the commands of an audit print as JSON, held against the schemas that the program prints of it.

use std::path::Path;

use serde_json::Value;

use crate::schema_walk::misfits;
use crate::support::{Folder, boat_with_loose_cylinder, empty_boat, incident, log};

fn schema(of: &str) -> Value {
    let ran = Folder::new().run(&["schema", of]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{of}");
    serde_json::from_str(&ran.out).unwrap()
}

/// What a command prints fits its schema; it is given back.
fn sound(folder: &Folder, args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.extend(["--format", "json"]);
    let ran = folder.run(&all);
    assert!(ran.code < 2 && ran.err.is_empty(), "{args:?}: {ran:?}");
    let told: Value = serde_json::from_str(&ran.out).unwrap();
    assert_eq!(misfits(&schema(args[0]), &told), [""; 0], "{args:?}");
    told
}

/// Takes a field away, puts nonsense into another, and adds one: all three are found.
#[track_caller]
fn assert_not_fitting(of: &str, told: &Value, at: &str, [goes, wrong]: [&str; 2]) {
    let mut broken = told.clone();
    let object = broken.pointer_mut(at).unwrap().as_object_mut().unwrap();
    assert!(object.remove(goes).is_some(), "{goes} is not there");
    let before = object.insert(wrong.to_owned(), serde_json::json!([[7]]));
    assert!(before.is_some(), "{wrong} is not there");
    object.insert("not_there".to_owned(), Value::Null);
    let found = misfits(&schema(of), &broken).join("\n");
    for name in [goes, wrong, "not_there"] {
        assert!(found.contains(name), "{name} in {of}: {found}");
    }
}

fn boats() -> Folder {
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let folder = Folder::new()
        .with_json("empty.json", &empty_boat())
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("otter.csv", &log(40.0))
        .with("calm.csv", &log(2.0));
    for name in ["day-boat.json", "day-boat-badly-stowed.json"] {
        std::fs::copy(layouts.join(name), folder.path().join(name)).unwrap();
    }
    folder
}

#[test]
fn a_comparison_fits_its_schema() {
    let folder = boats();
    sound(&folder, &["compare", "otter.json", "otter.json"]);
    let told = sound(
        &folder,
        &["compare", "day-boat.json", "day-boat-badly-stowed.json"],
    );
    assert!(told["differences"].as_array().unwrap().len() > 5, "{told}");
    assert_not_fitting("compare", &told, "/differences/0", ["sentence", "kind"]);
}

#[test]
fn a_brief_fits_its_schema() {
    let folder = boats();
    let told = sound(&folder, &["brief", "day-boat-badly-stowed.json"]);
    assert_not_fitting("brief", &told, "/load_list/0", ["where_to", "kind"]);
    assert_not_fitting("brief", &told, "", ["caution", "loading"]);
    sound(&folder, &["brief", "day-boat.json"]);
    sound(&folder, &["brief", "empty.json"]);
}

#[test]
fn who_could_reach_a_spot_fits_its_schema() {
    let folder = boats();
    let args = ["reach", "day-boat-badly-stowed.json", "--spot", "4.4,0.8"];
    let told = sound(&folder, &args);
    assert_not_fitting("reach", &told, "/0", ["needed", "how"]);
    // No more digits than are printed for people.
    for row in told.as_array().unwrap() {
        let distance = row["distance_m"].as_f64().unwrap() * 100.0;
        assert!((distance - distance.round()).abs() < 1e-6, "{row}");
    }
    let none = sound(&folder, &["reach", "otter.json", "--spot", "150,-60"]);
    assert_eq!(none, serde_json::json!([]));
}

#[test]
fn a_replay_fits_its_schema() {
    let folder = boats();
    let told = sound(&folder, &["replay", "otter.json", "--log", "otter.csv"]);
    assert_eq!(told["replay"]["events"].as_array().unwrap().len(), 1);
    assert_not_fitting("replay", &told, "/replay/events/0", ["why", "time_s"]);
    assert_not_fitting("replay", &told, "", ["cautions", "boat"]);
    sound(
        &folder,
        &[
            "replay",
            "otter.json",
            "--log",
            "calm.csv",
            "--buckets",
            "0",
        ],
    );
    sound(
        &folder,
        &[
            "replay",
            "day-boat-badly-stowed.json",
            "--steady",
            "--seconds",
            "60",
        ],
    );
    sound(
        &folder,
        &["replay", "empty.json", "--steady", "--seconds", "5"],
    );
}

#[test]
fn bands_fit_their_schema() {
    let folder = boats();
    let told = sound(&folder, &["uncertainty", "otter.json", "--draws", "4"]);
    assert_not_fitting(
        "uncertainty",
        &told,
        "/uncertainty/cylinders/0",
        ["answer", "cylinder"],
    );
    sound(&folder, &["uncertainty", "empty.json", "--draws", "0"]);
}

#[test]
fn a_fleet_fits_its_schema() {
    let folder = boats().with("broken.json", "{ this is none");
    let told = sound(&folder, &["fleet", "."]);
    assert!(told.as_array().unwrap().len() >= 6, "{told}");
    assert_not_fitting("fleet", &told, "/0", ["danger", "cylinders"]);
    sound(&incident(), &["fleet", "."]);
}
