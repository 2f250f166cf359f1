//! `snugdown audit` and `snugdown audit-record`: the demonstration incident, and records that are wrong.

use std::fs;

use serde_json::Value;

use crate::schema_walk::misfits;
use crate::support::{Folder, boat_with_loose_cylinder, empty_boat, incident};

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
    // The record stands in it as it is.
    let read = |text: &str| snugdown::store::parse_record(text, "record").unwrap();
    assert_eq!(
        read(&value["record"].to_string()),
        read(&incident().read("record.json"))
    );
    // No more digits than are printed, but for those of the record.
    let mut audited = value.clone();
    audited.as_object_mut().unwrap().remove("record");
    let mut found = Vec::new();
    numbers(&audited, &mut found);
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

/// A log that is there and is none: the audit is made without it, says so in its summary and among what is not known,
/// and ends as with any other bad input.
#[test]
fn a_log_that_cannot_be_read_is_a_bad_input() {
    let folder = incident().with("motion.csv", "what,is,this\n1,2,3\n");
    let ran = folder.run(&["audit", "record.json"]);
    assert_eq!(ran.code, 2, "{}", ran.err);
    assert!(
        ran.err.contains("motion.csv cannot be read") && ran.err.contains("line 1"),
        "{}",
        ran.err
    );
    let words = ran.out.split_whitespace().collect::<Vec<_>>().join(" ");
    for text in [
        "The motion log was of no use: motion.csv cannot be read",
        "What the motion log says of the boat's motion",
        "There are 2 accounts",
    ] {
        assert!(words.contains(text), "{text} is not in\n{}", ran.out);
    }
    assert!(!words.contains("Under the recorded motion"), "{}", ran.out);
    let told = folder.run(&["audit", "record.json", "--format", "json"]);
    let value: Value = serde_json::from_str(&told.out).unwrap();
    assert_eq!(value["motion_log"]["is_unreadable"], true);
}

/// What the headings do not say, and how the sensor was mounted, stand in the record; the replay is that of the log
/// that needs neither.
#[test]
fn units_and_mounting_of_the_log_stand_in_the_record() {
    let went = |folder: &Folder| {
        let ran = folder.run(&["audit", "record.json", "--format", "json"]);
        assert_eq!(ran.code, 1, "{}", ran.err);
        let value: Value = serde_json::from_str(&ran.out).unwrap();
        (value["accounts"][0]["over_time"]["went"].clone(), value)
    };
    let folder = incident();
    let (straight, _) = went(&folder);
    assert!(!straight.as_array().unwrap().is_empty());
    // The same log with bare headings, in milliseconds, its roll to port positive.
    let log = folder.read("motion.csv");
    let mut bare = String::from("time,roll,pitch,az\n");
    for line in log.lines().skip(1) {
        let cells: Vec<f64> = line.split(',').map(|cell| cell.parse().unwrap()).collect();
        let row = format!(
            "{:.0},{},{},{}\n",
            cells[0] * 1000.0,
            -cells[1],
            cells[2],
            cells[3]
        );
        bare.push_str(&row);
    }
    let folder = folder.with("motion.csv", &bare);
    let refused = folder.run(&["audit", "record.json"]);
    assert_eq!(refused.code, 2);
    assert!(refused.err.contains("has no unit"), "{}", refused.err);
    let said = "\"units\": { \"angle\": \"deg\", \"time\": \"ms\", \"acceleration\": \"g\" }, \
                \"mounting\": { \"roll_to_port_positive\": true, \"from\": \"sketch by the mate\" }, \"made_by\"";
    let record = folder.read("record.json").replace("\"made_by\"", said);
    let folder = folder.with("record.json", &record);
    let (mounted, value) = went(&folder);
    assert_eq!(mounted, straight);
    let assumed = value["motion_log"]["assumed"].to_string();
    for text in [
        "time in milliseconds",
        "the sign of roll turned",
        "sketch by the mate",
    ] {
        assert!(assumed.contains(text), "{text} is not in {assumed}");
    }
    // A mistake in it is told with its field.
    let wrong = record.replace("\"ms\"", "\"hours\"");
    let ran = folder
        .with("record.json", &wrong)
        .run(&["audit", "record.json"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("motion_log.units.time"), "{}", ran.err);
}

/// An empty record, one that is no JSON, a folder in its place: told, never a panic.
#[test]
fn what_is_no_record_is_told() {
    let folder = incident();
    for (text, told) in [
        ("", "empty"),
        ("{}", "version"),
        ("[1, 2", "record.json"),
        ("\u{0}\u{1}", "record.json"),
    ] {
        let ran = incident()
            .with("record.json", text)
            .run(&["audit", "record.json"]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{text:?}: {ran:?}");
        assert!(ran.err.contains(told), "{text:?}: {}", ran.err);
    }
    let ran = folder.run(&["audit", "."]);
    assert_eq!(ran.code, 2, "{ran:?}");
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

/// Whatever is made of a record, its inputs stay as they are, and nothing can be saved over one of them.
#[test]
fn inputs_stay_unchanged() {
    let folder = incident();
    fs::create_dir(folder.path().join("made")).unwrap();
    let names = ["plan.json", "record.json", "motion.csv", "strap-front.svg"];
    let bytes = |folder: &Folder| names.map(|name| fs::read(folder.path().join(name)).unwrap());
    let before = bytes(&folder);
    let args = [
        "audit",
        "record.json",
        "--report",
        "made/r.pdf",
        "--pictures",
        "made",
    ];
    assert_eq!(folder.run(&args).code, 1);
    for name in ["strap-front.svg", "made/../strap-front.svg"] {
        let over = ["audit", "record.json", "--report", name, "--overwrite"];
        let ran = folder.run(&over);
        assert_eq!(ran.code, 2, "{ran:?}");
        let told = "is an input of this audit (file F1)";
        assert!(
            ran.err.contains(told) && ran.err.contains("help: "),
            "{}",
            ran.err
        );
    }
    let over = [
        "audit-record",
        "plan.json",
        "--planned",
        "plan.json",
        "--found",
        "plan.json",
    ];
    let ran = folder.run(&[&over[..], &["--overwrite"]].concat());
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(
        ran.err.contains("plan.json is to be recorded"),
        "{}",
        ran.err
    );
    assert!(bytes(&folder) == before, "an input changed");
}
