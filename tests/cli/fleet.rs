//! `snugdown fleet`: folders of deck plans, audit records and logs as one table.

use std::fmt::Write as _;
use std::fs;

use serde_json::Value;

use crate::support::{Folder, boat_with_loose_cylinder, empty_boat, incident, log};

fn json(text: &str) -> Value {
    serde_json::from_str(text).unwrap()
}

#[test]
fn a_fleet_is_one_table_and_a_bad_file_a_row() {
    let folder = Folder::new()
        .with_json("a.json", &empty_boat())
        .with_json("b.json", &boat_with_loose_cylinder())
        .with("b.csv", &log(40.0))
        .with("c.json", "{ this is none")
        .with("d.csv", &log(10.0));
    let ran = folder.run(&["fleet", "."]);
    assert_eq!((ran.code, ran.err.as_str()), (1, ""), "{ran:?}");
    let told = folder.run(&["fleet", ".", "--format", "json"]);
    let rows = json(&told.out);
    let rows = rows.as_array().unwrap();
    let names: Vec<&str> = rows
        .iter()
        .map(|row| row["file"].as_str().unwrap())
        .collect();
    let mut sorted = names.clone();
    sorted.sort_unstable();
    assert_eq!(names, sorted);
    let row = |name: &str| {
        let found = rows
            .iter()
            .find(|row| row["file"].as_str().unwrap().ends_with(name));
        found.unwrap()
    };
    assert_eq!(row("b.json")["log_passed_limit"], true);
    assert!(
        row("b.json")["warning"].as_u64().unwrap() > 0,
        "{}",
        told.out
    );
    assert!(row("c.json")["error"].is_string());
    let rolled = row("d.csv")["log_largest_roll_deg"].as_f64().unwrap();
    assert!((9.0..=10.0).contains(&rolled), "{rolled}");
    let csv = folder.run(&["fleet", ".", "--format", "csv"]);
    assert!(
        csv.out.starts_with("file,what,account,boat,trip,part,"),
        "{}",
        csv.out
    );
    assert_eq!(csv.out.lines().count(), rows.len() + 1);
    assert_eq!(folder.run(&["fleet", ".", "--format", "csv"]).out, csv.out);
}

/// The rows of a folder, and how the command ended.
fn rows_of(folder: &Folder) -> (Vec<Value>, i32) {
    let ran = folder.run(&["fleet", ".", "--format", "json"]);
    (json(&ran.out).as_array().unwrap().clone(), ran.code)
}

/// An audit record is no broken plan: each of its accounts is a row, with the stowage as found and the log that the
/// record names.
#[test]
fn an_audit_record_is_a_row_for_each_account() {
    let folder = incident();
    let (rows, code) = rows_of(&folder);
    assert_eq!(code, 1);
    let of_record: Vec<&Value> = (rows.iter())
        .filter(|row| row["file"] == "./record.json")
        .collect();
    let accounts: Vec<&str> = (of_record.iter())
        .map(|row| row["account"].as_str().unwrap())
        .collect();
    assert_eq!(accounts, ["A", "B"]);
    let audit = folder.run(&["audit", "record.json", "--format", "json"]);
    let audit = json(&audit.out);
    for (row, account) in of_record.iter().zip(audit["accounts"].as_array().unwrap()) {
        assert_eq!(
            (&row["what"], &row["error"]),
            (&"audit_record".into(), &Value::Null)
        );
        assert_eq!(
            (&row["part"], &row["remark"]),
            (&"between dives".into(), &Value::Null)
        );
        // As the audit has it: the least of all that are in question, or less.
        let limit = row["limit_deg"].as_f64().unwrap();
        let needed = &account["reverse"][0]["as_found"]["roll_deg"];
        assert!(limit <= needed.as_f64().unwrap() + 0.06, "{row} {needed}");
        assert_eq!(row["log"], "motion.csv");
        let went = account["over_time"]["went"].as_array().unwrap();
        assert_eq!(row["log_passed_limit"], !went.is_empty());
    }
    let plan = rows
        .iter()
        .find(|row| row["file"] == "./plan.json")
        .unwrap();
    assert_eq!(
        (&plan["what"], &plan["account"]),
        (&"deck_plan".into(), &Value::Null)
    );
    let text = folder.run(&["fleet", "."]).out;
    assert!(text.contains("./record.json, account A"), "{text}");
    assert!(text.contains("`snugdown audit RECORD`"), "{text}");
}

/// What is not as it was recorded is told in its rows; a record whose plan is gone is one row that says so.
#[test]
fn a_record_whose_files_changed_says_so_in_its_rows() {
    let folder = incident().with("strap-front.svg", "<svg/>");
    fs::remove_file(folder.path().join("motion.csv")).unwrap();
    let (rows, code) = rows_of(&folder);
    assert_eq!(code, 1);
    let row = rows.iter().find(|row| row["account"] == "B").unwrap();
    let remark = row["remark"].as_str().unwrap();
    assert!(remark.contains("motion log and file F1"), "{remark}");
    assert!(
        row["error"]
            .as_str()
            .unwrap()
            .contains("motion.csv is missing"),
        "{row}"
    );
    fs::remove_file(folder.path().join("plan.json")).unwrap();
    let (rows, code) = rows_of(&folder);
    assert_eq!((rows.len(), code), (1, 2), "{rows:?}");
    let error = rows[0]["error"].as_str().unwrap();
    assert!(
        error.contains("plan.json: cannot be read: there is no such file; check"),
        "{error}"
    );
}

/// A sensor that was mounted otherwise is put right by what the record says before the log is held against the limits.
#[test]
fn the_mounting_of_a_record_goes_for_its_rows_too() {
    let straight = rows_of(&incident()).0;
    let folder = incident();
    let mut turned = String::from("time_s,roll_deg,pitch_deg,az_m_s2\n");
    let text = folder.read("motion.csv");
    let headings = text.lines().next().unwrap();
    for line in text.lines().skip(1) {
        let (time, rest) = line.split_once(',').unwrap();
        let (roll, rest) = rest.split_once(',').unwrap();
        let roll: f64 = roll.parse().unwrap();
        writeln!(turned, "{time},{},{rest}", -roll).unwrap();
    }
    assert!(headings.starts_with("time_s,roll_deg,"), "{headings}");
    let turned = turned.replacen("time_s,roll_deg,pitch_deg,az_m_s2", headings, 1);
    let record = folder.read("record.json").replace(
        "\"made_by\"",
        "\"mounting\": { \"roll_to_port_positive\": true }, \"made_by\"",
    );
    let folder = folder
        .with("motion.csv", &turned)
        .with("record.json", &record);
    let (rows, _) = rows_of(&folder);
    for (one, other) in straight
        .iter()
        .zip(&rows)
        .filter(|(row, _)| row["account"].is_string())
    {
        assert_eq!(one["log_cylinders_passed"], other["log_cylinders_passed"]);
        assert_eq!(one["log_largest_roll_deg"], other["log_largest_roll_deg"]);
    }
}
