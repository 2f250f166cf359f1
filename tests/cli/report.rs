//! `snugdown check --format json`: held against its own schema, and against what must be in it.

use serde_json::{Value, json};

use crate::schema_walk::misfits;
use crate::support::{Folder, boat_with_loose_cylinder, empty_boat};

fn schema(folder: &Folder) -> Value {
    serde_json::from_str(&folder.run(&["schema", "check"]).out).unwrap()
}

/// The report fits the schema, and is given back.
fn sound_report(folder: &Folder, args: &[&str]) -> Value {
    let mut all = vec!["check", "--format", "json"];
    all.extend(args);
    let ran = folder.run(&all);
    let report: Value = serde_json::from_str(&ran.out).unwrap();
    let misfits = misfits(&schema(folder), &report);
    assert!(misfits.is_empty(), "{}", misfits.join("\n"));
    report
}

#[test]
fn a_report_fits_its_schema_with_good_and_bad_files() {
    let mut wrong = empty_boat();
    wrong["boat"]["beam_m"] = json!(300);
    let folder = Folder::new()
        .with_json("loose.json", &boat_with_loose_cylinder())
        .with_json("wrong.json", &wrong);
    let report = sound_report(&folder, &["loose.json", "wrong.json", "nowhere.json"]);
    assert_eq!(report["version"], 1);
    assert_eq!(report["threshold"], "CAUTION");
    let files = report["files"].as_array().unwrap();
    let paths: Vec<_> = files
        .iter()
        .map(|file| file["path"].as_str().unwrap())
        .collect();
    assert_eq!(paths, ["loose.json", "wrong.json", "nowhere.json"]);
    let fault = &files[1]["faults"][0];
    assert_eq!(fault["field"], "boat.beam_m");
    assert!(fault["line"].as_u64() > Some(1), "{fault}");
    let trouble = files[2]["trouble"].as_str().unwrap();
    assert!(trouble.contains("cannot be read"), "{trouble}");
    assert!(
        files[0]["trouble"].is_null() && files[0]["boat"] == "Otter",
        "{}",
        files[0]
    );
}

#[test]
fn every_shipped_layout_gives_a_report_that_fits_the_schema() {
    let folder = Folder::new();
    let layouts = std::fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/layouts")).unwrap();
    let mut paths: Vec<_> = layouts.map(|entry| entry.unwrap().path()).collect();
    paths.retain(|path| path.extension().is_some_and(|ext| ext == "json"));
    paths.sort();
    assert!(!paths.is_empty(), "no layout is shipped");
    let args: Vec<_> = paths.iter().map(|path| path.to_str().unwrap()).collect();
    let report = sound_report(&folder, &[&["--cures", "none"][..], &args].concat());
    for file in report["files"].as_array().unwrap() {
        assert!(file["trouble"].is_null(), "{}", file["trouble"]);
        assert_eq!(file["faults"], json!([]));
        assert!(
            !file["trips"].as_array().unwrap().is_empty(),
            "{} has no trip",
            file["path"]
        );
    }
}

/// The cylinder is the test cylinder of the method: its numbers can be had by hand.
#[test]
fn every_number_of_a_loose_cylinder_is_there() {
    let folder = Folder::new().with_json("loose.json", &boat_with_loose_cylinder());
    let report = sound_report(&folder, &["loose.json", "--part", "running"]);
    let parts = report["files"][0]["trips"][0]["numbers"]["parts"]
        .as_array()
        .unwrap();
    assert_eq!(parts.len(), 1, "one part was asked for");
    let cylinder = &parts[0]["cylinders"][0];
    assert_eq!(
        (&cylinder["cylinder"], &cylinder["stance"]),
        (&json!("P6"), &json!("stands_free"))
    );
    let number = |name: &str| cylinder[name].as_f64().unwrap();
    // Full at 207 bar it is 17.8 kg and its centre at 0.319 m; at 200 bar it has a little less gas.
    assert!((number("mass_kg") - 17.7).abs() < 0.2, "{cylinder}");
    assert!((number("cg_height_m") - 0.319).abs() < 0.003, "{cylinder}");
    let (base, height) = (number("base_radius_m"), number("cg_height_m"));
    let tip_deg = (base / height).atan().to_degrees();
    assert!(
        (number("static_tip_angle_deg") - tip_deg).abs() < 1e-9,
        "{cylinder}"
    );
    assert!((number("friction") - 0.3).abs() < 1e-12, "{cylinder}");

    // Roll 20° every 3 s at y = 1 m, centre 0.6 + 0.319 m above the axis: at the end of the swing that
    // lightens the port side, by the formulas of docs/method.md, motion.
    let (roll, omega2) = (20_f64.to_radians(), (std::f64::consts::TAU / 3.0).powi(2));
    let z = 0.6 + height;
    let along = 9.80665 * roll.sin() + omega2 * roll * z;
    let tips = cylinder["utilisations"].as_array().unwrap();
    let tips = tips.iter().find(|item| item["way"] == "tips").unwrap();
    let governing = &tips["governing"];
    let a_h = governing["a_h_m_s2"].as_f64().unwrap();
    assert!(
        (a_h - along).abs() < 0.06 * along,
        "{a_h} and {along}, sway of the stopwatch aside"
    );
    assert_eq!(tips["goes"], true);
    let limit = cylinder["limit"]["roll_deg"].as_f64().unwrap();
    assert!(
        limit > 1.0 && limit < tip_deg,
        "{limit}: rolling it goes earlier than leaning slowly"
    );
}
