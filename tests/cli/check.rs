//! `snugdown check` with files that are not as they should be, and with choices that are not there.

use serde_json::json;

use crate::support::{Folder, boat_with_loose_cylinder, empty_boat};

#[test]
fn an_empty_boat_has_nothing_to_put_right() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&["check", "otter.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(
        ran.out.starts_with("otter.json: Otter, Saturday\n"),
        "{}",
        ran.out
    );
    assert_eq!(
        ran.out.matches("No cylinder is on deck.").count(),
        2,
        "one for each part: {}",
        ran.out
    );
    assert!(ran.out.contains("\nNothing to put right.\n"), "{}", ran.out);
    assert!(
        ran.out.contains("A planning aid, no approval"),
        "the cautions stand below: {}",
        ran.out
    );
}

#[test]
fn a_wrong_path_is_told_with_its_name() {
    let ran = Folder::new().run(&["check", "nowhere.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.starts_with("nowhere.json: cannot be read: "),
        "{}",
        ran.err
    );
    let help = ran.err.lines().nth(1).unwrap_or_default();
    assert!(help.starts_with("  help: check the name"), "{}", ran.err);
    assert_eq!(ran.err.lines().count(), 2, "{}", ran.err);
}

#[test]
fn a_folder_is_no_file() {
    let ran = Folder::new().run(&["check", "."]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.starts_with(".: cannot be read: "), "{}", ran.err);
}

#[test]
fn broken_json_is_told_with_line_and_column() {
    let folder = Folder::new()
        .with("broken.json", "{\n  \"version\": 1,\n  \"boat\": {,\n}\n")
        .with("empty.json", "");
    let ran = folder.run(&["check", "broken.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.starts_with("broken.json:3:12: "), "{}", ran.err);
    let ran = folder.run(&["check", "empty.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.starts_with("empty.json:1:1: "), "{}", ran.err);
}

#[test]
fn psi_in_a_bar_field_is_recognised() {
    let mut plan = boat_with_loose_cylinder();
    plan["trips"][0]["cylinders"][0]["pressure_bar"] = json!(3000);
    let folder = Folder::new().with_json("psi.json", &plan);
    let ran = folder.run(&["check", "psi.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err
            .contains("trips[0].cylinders[0].pressure_bar: 3000 bar"),
        "{}",
        ran.err
    );
    assert!(
        ran.err.contains("psi") && ran.err.contains("207 bar"),
        "{}",
        ran.err
    );
    let line = 1 + folder
        .read("psi.json")
        .lines()
        .position(|line| line.contains("3000"))
        .unwrap();
    assert!(
        ran.err.starts_with(&format!("psi.json:{line}:")),
        "{}",
        ran.err
    );
}

#[test]
fn all_faults_of_all_files_are_told_and_good_files_still_checked() {
    let mut plan = empty_boat();
    plan["boat"]["beam_mm"] = json!(3000);
    plan["boat"]["beam_m"] = json!(300);
    let folder = Folder::new()
        .with_json("good.json", &empty_boat())
        .with_json("bad.json", &plan);
    let ran = folder.run(&["check", "missing.json", "good.json", "bad.json"]);
    assert_eq!(ran.code, 2);
    assert!(ran.out.starts_with("good.json: "), "{}", ran.out);
    let place = |what: &str| {
        ran.err
            .find(what)
            .unwrap_or_else(|| panic!("{what} is not in:\n{}", ran.err))
    };
    assert!(
        place("missing.json: cannot be read") < place("bad.json:"),
        "{}",
        ran.err
    );
    place("beam_mm");
    place("boat.beam_m: 300 m");
}

#[test]
fn files_are_told_in_the_order_given() {
    let mut folder = Folder::new();
    let names: Vec<String> = (0..12)
        .map(|index| format!("boat-{}.json", (index * 7) % 12))
        .collect();
    for name in &names {
        folder = folder.with_json(name, &empty_boat());
    }
    let mut args = vec!["check"];
    args.extend(names.iter().map(String::as_str));
    let ran = folder.run(&args);
    let titles = ran
        .out
        .lines()
        .filter_map(|line| line.strip_suffix(": Otter, Saturday"));
    assert_eq!(titles.collect::<Vec<_>>(), names);
}

#[test]
fn a_trip_or_part_that_is_not_there_is_told_with_the_nearest() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&["check", "otter.json", "--trip", "saterday"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "otter.json: there is no trip \"saterday\"; did you mean \"saturday\" (\"Saturday\")?\n"
    );
    let ran = folder.run(&["check", "otter.json", "--part", "loading"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "otter.json: there is no part of the day \"loading\"; there is: \"alongside\", \"running\"\n"
    );
}

#[test]
fn one_part_of_the_day_can_be_chosen() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&[
        "check",
        "otter.json",
        "--trip",
        "saturday",
        "--part",
        "running",
    ]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(
        ran.out
            .contains("\nrunning\n  running; roll 20° every 3.0 s"),
        "{}",
        ran.out
    );
    assert!(!ran.out.contains("alongside"), "{}", ran.out);
}

#[test]
fn wrong_usage_ends_with_2() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    for args in [
        &["check"][..],
        &["check", "otter.json", "--least", "SEVERE"],
        &["check", "otter.json", "--format", "xml"],
        &["check", "otter.json", "--colour", "always"],
        &["otter.json", "check"],
    ] {
        let ran = folder.run(args);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}: {ran:?}");
        assert!(!ran.err.is_empty(), "{args:?} says nothing");
    }
}

#[test]
fn a_reader_that_goes_away_is_no_failure() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let layout = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/day-boat.json");
    for args in [
        &["check", "--format", "json", layout][..],
        &["kinds"],
        &["schema"],
    ] {
        let mut command = folder.command(args);
        command
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped());
        let mut child = command.spawn().unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        // A file with findings may end with 1; 2 would be a failure.
        assert!(
            output.status.code().is_some_and(|code| code < 2),
            "{args:?}: {output:?}"
        );
        assert_eq!(String::from_utf8(output.stderr).unwrap(), "", "{args:?}");
    }
}
