//! The commands of an audit as somebody runs them who does not know them: each mistake is told with what it is, where
//! it is and what to do, in words and not in the system's numbers.

use crate::support::{Folder, Ran, boat_with_loose_cylinder, incident};

/// A folder with a deck plan, an incident, and much that is wrong.
fn folder() -> Folder {
    let folder = incident()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("broken.json", "{ \"boat\": [")
        .with("nothing.json", "")
        .with("empty.csv", "")
        .with("headings.csv", "time_s,roll_deg\n")
        .with("units.csv", "time,roll\n0,1\n1,2\n")
        .with("words.csv", "what,is,this\n1,2,3\n");
    std::fs::create_dir(folder.path().join("box")).unwrap();
    folder
}

#[track_caller]
fn assert_told(ran: &Ran, args: &[&str], words: &[&str]) {
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}: {ran:?}");
    assert!(!ran.err.contains("os error"), "{args:?}: {}", ran.err);
    assert!(!ran.err.contains("panicked"), "{args:?}: {}", ran.err);
    for word in words {
        assert!(
            ran.err.contains(word),
            "{args:?}: {word:?} is not in {}",
            ran.err
        );
    }
}

/// What is asked of a deck plan or a record, with its other arguments.
const READERS: [(&str, &[&str]); 6] = [
    ("audit", &[]),
    ("compare", &["otter.json"]),
    ("reach", &["--spot", "4,0"]),
    ("replay", &["--steady"]),
    ("uncertainty", &[]),
    ("fleet", &[]),
];

#[test]
fn a_file_that_is_none_is_told_with_what_to_do() {
    let folder = folder();
    for (command, more) in READERS {
        for (name, words) in [
            (
                "nowhere.json",
                ["there is no such file", "help: check the name"],
            ),
            (
                "otter.json/x.json",
                ["is a file and no folder", "help: check the path"],
            ),
            ("box", ["it is a folder", "help: name the file in it"]),
        ] {
            let mut args = vec![command, name];
            args.extend(more);
            let ran = folder.run(&args);
            if command == "fleet" {
                // A table tells it in a row; an empty folder is no mistake.
                let row = words.map(|word| word.trim_start_matches("help: "));
                assert!(!ran.out.contains("os error"), "{}", ran.out);
                if name != "box" {
                    assert_eq!(ran.code, 2);
                    assert!(row.iter().all(|word| ran.out.contains(word)), "{}", ran.out);
                }
            } else {
                assert_told(&ran, &args, &[&words[..], &[name]].concat());
            }
        }
    }
}

#[test]
fn broken_json_is_told_with_line_and_what_to_do() {
    let folder = folder();
    for (command, more) in READERS
        .into_iter()
        .filter(|(command, _)| *command != "fleet")
    {
        for (name, word) in [("broken.json", "broken.json:1:"), ("nothing.json", "empty")] {
            let mut args = vec![command, name];
            args.extend(more);
            assert_told(&folder.run(&args), &args, &[name, word, "help: "]);
        }
    }
}

#[test]
fn a_record_and_a_plan_are_told_apart() {
    let folder = folder();
    let args = ["audit", "otter.json"];
    let words = [
        "this is a deck plan, not an audit record",
        "snugdown audit-record",
    ];
    assert_told(&folder.run(&args), &args, &words);
    for (command, more) in READERS
        .into_iter()
        .filter(|(it, _)| !["fleet", "audit"].contains(it))
    {
        let mut args = vec![command, "record.json"];
        args.extend(more);
        let words = [
            "this is an audit record, not a deck plan",
            "`snugdown audit FILE`",
        ];
        let ran = folder.run(&args);
        assert_told(&ran, &args, &words);
        assert_eq!(
            ran.err.lines().count(),
            2,
            "nothing else of it: {}",
            ran.err
        );
    }
}

#[test]
fn a_log_that_is_none_is_told_with_what_to_do() {
    let folder = folder();
    for (name, words) in [
        ("empty.csv", ["the log is empty", "help: save it again"]),
        ("headings.csv", ["no row", "help: below the headings"]),
        (
            "units.csv",
            ["\"roll\" has no unit", "--angle-unit deg or rad"],
        ),
        ("words.csv", ["no column for time", "help: the first line"]),
        (
            "nowhere.csv",
            ["there is no such file", "help: check the name"],
        ),
        ("box", ["it is a folder", "help: name the file in it"]),
    ] {
        for args in [
            vec!["replay", "otter.json", "--log", name],
            vec!["motion", "otter.json", "--part", "running", "--log", name],
        ] {
            // Time comes first, so that its unit is the first that is missing.
            let words = if name == "units.csv" {
                ["\"time\" has no unit", "--time-unit s or ms"]
            } else {
                words
            };
            assert_told(&folder.run(&args), &args, &[&words[..], &[name]].concat());
        }
    }
    let args = [
        "replay",
        "otter.json",
        "--log",
        "units.csv",
        "--time-unit",
        "s",
    ];
    let words = ["\"roll\" has no unit", "--angle-unit deg or rad"];
    assert_told(&folder.run(&args), &args, &words);
}

/// The record's own log, where it is a folder or empty: the audit is made, and says in one sentence what is wrong.
#[test]
fn a_records_log_that_is_none_is_told_in_a_sentence() {
    for (log, told) in [
        ("box", "it is a folder; name the file in it"),
        ("empty.csv", "the log is empty; save it again"),
        ("units.csv", "has no unit; write it into the heading"),
    ] {
        let folder = folder();
        let record = folder.read("record.json").replace("motion.csv", log);
        let folder = folder.with("record.json", &record);
        let ran = folder.run(&["audit", "record.json"]);
        assert_eq!(ran.code, 2, "{}", ran.err);
        assert!(
            ran.err.contains(told) && !ran.err.contains("os error"),
            "{}",
            ran.err
        );
        assert!(ran.out.contains("There are 2 accounts"), "{}", ran.out);
    }
}

#[test]
fn what_cannot_be_saved_is_told_with_what_to_do() {
    let folder = folder();
    let audit = ["audit", "record.json"];
    let start = [
        "audit-record",
        "nowhere/r.json",
        "--planned",
        "otter.json",
        "--found",
        "otter.json",
    ];
    for (args, words) in [
        (
            [&audit[..], &["--report", "nowhere/report.pdf"]].concat(),
            [
                "nowhere/report.pdf: cannot be saved",
                "there is no such folder",
                "help: make the folder",
            ],
        ),
        (
            [&audit[..], &["--report", "box", "--overwrite"]].concat(),
            ["box: name the report", ".pdf or .svg", "box"],
        ),
        (
            [&audit[..], &["--pictures", "nowhere"]].concat(),
            [
                "nowhere/",
                "there is no such folder",
                "help: make the folder",
            ],
        ),
        (
            start.to_vec(),
            [
                "nowhere: no record",
                "there is no such folder",
                "help: make the folder",
            ],
        ),
    ] {
        assert_told(&folder.run(&args), &args, &words);
    }
    let args = [
        "audit-record",
        "r.json",
        "--planned",
        "otter.json",
        "--found",
        "gone.json",
    ];
    let words = ["gone.json", "there is no such file", "help: check the name"];
    assert_told(&folder.run(&args), &args, &words);
    assert!(!folder.path().join("r.json").exists());
}

/// A disk that is full, as far as the system has one to try with.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let folder = folder();
    for args in [
        &["audit", "record.json"][..],
        &["fleet", ".", "--format", "csv"],
    ] {
        let full = std::fs::File::options()
            .write(true)
            .open("/dev/full")
            .unwrap();
        let output = folder.command(args).stdout(full).output().unwrap();
        let ran = Ran::from(output);
        assert_told(
            &ran,
            args,
            &["cannot be written: the disk is full", "help: make room"],
        );
    }
}

/// A plan that is not the one that was recorded: the audit is made, and says so first of all.
#[test]
fn a_plan_that_changed_since_is_told() {
    let folder = folder();
    let plan = folder.read("plan.json");
    let folder = folder.with("plan.json", &format!("{plan}\n"));
    let ran = folder.run(&["audit", "record.json"]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    let told = "Not as they were recorded, or missing: plan as issued.";
    assert!(ran.out.contains(told), "{}", ran.out);
    let pair = ran.out.matches("changed since it was recorded").count();
    assert_eq!(pair, 1, "{}", ran.out);
}
