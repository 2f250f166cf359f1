//! `snugdown audit` and `snugdown audit-record`: the demonstration incident, and records that are wrong.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::schema_walk::misfits;
use crate::support::{Folder, boat_with_loose_cylinder, empty_boat};

/// A copy of the demonstration incident.
fn incident() -> Folder {
    let folder = Folder::new();
    let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/incident");
    for name in ["plan.json", "record.json", "motion.csv", "strap-front.svg"] {
        fs::copy(from.join(name), folder.path().join(name)).unwrap();
    }
    folder
}

#[test]
fn the_demonstration_is_audited_in_one_command() {
    let ran = incident().run(&["audit", "record.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (1, ""), "{ran:?}");
    for text in [
        "There are 2 accounts",
        "What each cylinder needed to go",
        "P4 was to be in slot P4 of rack-P",
        "The plan as issued would have held",
        "Only B",
        "Where published rules do not agree",
    ] {
        assert!(ran.out.contains(text), "{text} is not in\n{}", ran.out);
    }
}

/// Every number in a value.
fn numbers(value: &Value, found: &mut Vec<f64>) {
    match value {
        Value::Number(number) => found.push(number.as_f64().unwrap()),
        Value::Array(all) => all.iter().for_each(|it| numbers(it, found)),
        Value::Object(all) => all.values().for_each(|it| numbers(it, found)),
        _ => {}
    }
}

/// The same bytes, whatever the folder, and in the form that the schema describes.
#[test]
fn the_json_is_the_same_every_time_and_fits_its_schema() {
    let args = ["audit", "record.json", "--format", "json"];
    let (one, two) = (incident().run(&args), incident().run(&args));
    assert_eq!(one.code, 1, "{}", one.err);
    assert!(one.out == two.out, "not the same bytes");
    let value: Value = serde_json::from_str(&one.out).unwrap();
    let schema = Folder::new().run(&["schema", "audit"]).out;
    let schema: Value = serde_json::from_str(&schema).unwrap();
    assert_eq!(misfits(&schema, &value), [""; 0]);
    assert_eq!(value["accounts"].as_array().unwrap().len(), 2);
    assert!(value["program"].as_str().unwrap().starts_with("snugdown "));
    // No more digits than are printed.
    let mut found = Vec::new();
    numbers(&value, &mut found);
    assert!(found.len() > 20, "{}", found.len());
    for number in found {
        let thousandths = number * 1000.0;
        assert!((thousandths - thousandths.round()).abs() < 1e-6, "{number}");
    }
}

#[test]
fn the_report_is_saved_and_replaces_none() {
    let folder = incident();
    for name in ["report.pdf", "report.svg"] {
        let args = ["audit", "record.json", "--report", name];
        let ran = folder.run(&args);
        assert_eq!(ran.code, 1, "{ran:?}");
        assert!(ran.err.contains("pages"), "{}", ran.err);
        let first = fs::read(folder.path().join(name)).unwrap();
        let again = folder.run(&args);
        assert_eq!(again.code, 2, "{again:?}");
        assert!(again.err.contains("--overwrite"), "{}", again.err);
        let mut over = args.to_vec();
        over.push("--overwrite");
        assert_eq!(folder.run(&over).code, 1);
        assert!(
            fs::read(folder.path().join(name)).unwrap() == first,
            "the same bytes"
        );
    }
    let ran = folder.run(&["audit", "record.json", "--report", "report.doc"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains(".pdf or .svg"), "{}", ran.err);
}

#[test]
fn one_picture_for_each_that_could_have_come_there() {
    let folder = incident();
    fs::create_dir(folder.path().join("pictures")).unwrap();
    let args = ["audit", "record.json", "--pictures", "pictures"];
    let ran = folder.run(&args);
    assert_eq!(ran.code, 1, "{ran:?}");
    for name in ["A-P4.svg", "A-deck-main.svg", "B-deck-main.svg"] {
        let text = folder.read(&format!("pictures/{name}"));
        assert!(text.starts_with("<svg "), "{name}");
    }
    assert_eq!(folder.run(&args).code, 2, "they are there already");
}

#[test]
fn files_that_changed_or_are_gone_are_told() {
    let folder = incident();
    fs::remove_file(folder.path().join("motion.csv")).unwrap();
    let folder = folder.with("strap-front.svg", "<svg/>");
    let ran = folder.run(&["audit", "record.json"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(
        ran.out
            .contains("Not as they were recorded, or missing: motion log and file F1"),
        "{}",
        ran.out
    );
}

#[test]
fn what_is_wrong_with_a_record_is_told_with_line_and_field() {
    let folder = incident();
    let text = folder
        .read("record.json")
        .replace("\"is\": \"front\"", "\"is\": \"frnt\"");
    let folder = folder.with("record.json", &text);
    let ran = folder.run(&["audit", "record.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("accounts[0].found[1].thing.is") && ran.err.contains("front"),
        "{}",
        ran.err
    );
    let none = folder.run(&["audit", "nowhere.json"]);
    assert_eq!(none.code, 2);
}

#[test]
fn a_record_is_started_from_two_layouts() {
    let folder = Folder::new()
        .with_json("planned.json", &empty_boat())
        .with_json("found.json", &boat_with_loose_cylinder());
    let args = [
        "audit-record",
        "record.json",
        "--planned",
        "planned.json",
        "--found",
        "found.json",
        "--part",
        "running",
        "--by",
        "mate",
    ];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert_eq!(folder.run(&args).code, 2, "it replaces none");
    let audited = folder.run(&["audit", "record.json"]);
    assert_eq!(audited.code, 1, "{}", audited.err);
    assert!(
        audited.out.contains("P6 was found and not planned") && audited.out.contains("mate"),
        "{}",
        audited.out
    );
    // The same layout twice: nothing is told, and the program says so with 0.
    let folder = folder.with_json("same.json", &empty_boat());
    let same = [
        "audit-record",
        "same-record.json",
        "--planned",
        "same.json",
        "--found",
        "planned.json",
    ];
    assert_eq!(folder.run(&same).code, 0);
    let audited = folder.run(&["audit", "same-record.json"]);
    assert_eq!(audited.code, 0, "{}{}", audited.out, audited.err);
    assert!(audited.out.contains("as planned"), "{}", audited.out);
}
