//! `snugdown check` on a boat with a cylinder that stands free: what is told, and how it ends.

use serde_json::json;

use crate::support::{Folder, boat_with_loose_cylinder};

fn folder() -> Folder {
    Folder::new().with_json("otter.json", &boat_with_loose_cylinder())
}

#[test]
fn what_must_be_put_right_ends_with_1() {
    let ran = folder().run(&["check", "otter.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (1, ""), "{ran:?}");
    assert!(
        ran.out.contains("DANGER") && ran.out.contains("P6"),
        "{}",
        ran.out
    );
    assert!(
        ran.out
            .contains("Main deck, 3.00 m forward of the transom, 1.00 m to port"),
        "the place is told: {}",
        ran.out
    );
}

#[test]
fn the_threshold_decides_the_end() {
    let folder = folder();
    let danger = folder.run(&["check", "otter.json", "--least", "danger"]);
    assert_eq!(danger.code, 1, "{danger:?}");
    assert!(
        !danger.out.contains("CAUTION  "),
        "what is below is not told: {}",
        danger.out
    );
    // Made fast, a cylinder that stands free is no DANGER.
    let made_fast = [
        "check",
        "otter.json",
        "--least",
        "DANGER",
        "--part",
        "alongside",
    ];
    let ran = folder.run(&made_fast);
    assert_eq!(ran.code, 0, "{ran:?}");
    let ran = folder.run(&[
        "check",
        "otter.json",
        "--least",
        "WARNING",
        "--part",
        "alongside",
    ]);
    assert_eq!(ran.code, 1, "{ran:?}");
}

#[test]
fn what_somebody_took_on_is_told_and_does_not_count() {
    let all = folder().run(&["check", "otter.json", "--format", "json"]);
    let report: serde_json::Value = serde_json::from_str(&all.out).unwrap();
    let findings = report["files"][0]["trips"][0]["findings"]
        .as_array()
        .unwrap();
    let mut plan = boat_with_loose_cylinder();
    let taken: Vec<_> = findings
        .iter()
        .map(|finding| {
            let about = finding["about"].as_array().unwrap();
            let about: Vec<_> = about.iter().map(|subject| subject["id"].clone()).collect();
            json!({
                "code": finding["code"],
                "about": about,
                "by": "Ada",
                "reason": "held by two people, 200 m from the quay"
            })
        })
        .collect();
    plan["trips"][0]["taken_on"] = json!(taken);
    let folder = Folder::new().with_json("taken.json", &plan);
    let ran = folder.run(&["check", "taken.json"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(
        ran.out.contains("DANGER") && ran.out.contains("Ada"),
        "it stays visible: {}",
        ran.out
    );
}

#[test]
fn one_bad_file_of_two_wins_over_findings() {
    let folder = folder().with("bad.json", "[]");
    let ran = folder.run(&["check", "otter.json", "bad.json"]);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(
        ran.out.contains("DANGER") && ran.err.starts_with("bad.json:1:1: "),
        "{ran:?}"
    );
}

#[test]
fn colour_is_off_when_it_is_no_terminal() {
    let folder = folder();
    let escape = '\u{1b}';
    for (args, coloured) in [
        (&["check", "otter.json"][..], false),
        (&["check", "otter.json", "--color", "never"], false),
        (&["check", "otter.json", "--color", "always"], true),
        (
            &[
                "check",
                "otter.json",
                "--color",
                "always",
                "--format",
                "json",
            ],
            false,
        ),
    ] {
        let ran = folder.run(args);
        assert_eq!(ran.out.contains(escape), coloured, "{args:?}: {}", ran.out);
    }
    let mut command = folder.command(&["check", "otter.json", "--color", "never"]);
    command.env("CLICOLOR_FORCE", "1");
    let ran = crate::support::Ran::from(command.output().unwrap());
    assert!(
        !ran.out.contains(escape),
        "the argument goes before the environment: {}",
        ran.out
    );
}

#[test]
fn lines_are_no_wider_than_a_page() {
    let ran = folder().run(&["check", "otter.json"]);
    let longest = ran
        .out
        .lines()
        .map(|line| line.chars().count())
        .max()
        .unwrap();
    assert!(longest <= 120, "{longest} columns: {}", ran.out);
}
