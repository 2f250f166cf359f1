//! The other commands.

use serde_json::json;

use crate::support::{Folder, empty_boat};

#[test]
fn help_names_every_command() {
    let ran = Folder::new().run(&["--help"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for name in [
        "check",
        "explain",
        "checks",
        "kinds",
        "limits",
        "new",
        "cylinders",
        "schema",
        "completions",
    ] {
        assert!(
            ran.out.contains(&format!("\n  {name} ")),
            "{name} is not in:\n{}",
            ran.out
        );
    }
}

#[test]
fn without_a_display_it_says_how_to_do_without() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    // macOS and Windows have a display whatever the environment says, and would open a window.
    if cfg!(target_os = "linux") {
        for args in [&[][..], &["otter.json"]] {
            let ran = folder.run(args);
            assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
            assert_eq!(ran.err.lines().count(), 1, "one line: {}", ran.err);
            assert!(ran.err.contains("snugdown check FILE"), "{}", ran.err);
        }
    }
    let ran = folder.run(&["nowhere.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
    assert!(ran.err.contains("nowhere.json"), "{}", ran.err);
}

#[test]
fn a_slip_of_a_command_is_not_taken_for_a_file() {
    let ran = Folder::new().run(&["chek"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "snugdown: there is no file chek; did you mean `snugdown check`?\n"
    );
}

#[test]
fn a_slip_of_a_command_before_its_file_is_told() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&["chekc", "otter.json", "--least", "danger"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "snugdown: there is no command chekc; did you mean `snugdown check otter.json --least danger`?\n"
    );
    let ran = folder.run(&["fly", "otter.json"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert_eq!(
        ran.err,
        "snugdown: there is no command fly; `snugdown --help` lists them\n"
    );
    // A command or a file that is there is not doubted: the parser says what is wrong behind it.
    for args in [
        &["check", "--lest", "danger", "otter.json"][..],
        &["otter.json", "more"],
    ] {
        let ran = folder.run(args);
        assert_eq!(ran.code, 2, "{ran:?}");
        assert!(!ran.err.contains("there is no command"), "{}", ran.err);
    }
}

#[test]
fn a_length_that_is_none_is_told_with_an_example() {
    let folder = Folder::new();
    let new = |length: &str, beam: &str| {
        let ran = folder.run(&[
            "new",
            "otter.json",
            "--name",
            "Otter",
            "--length",
            length,
            "--beam",
            beam,
        ]);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{ran:?}");
        assert!(
            !folder.path().join("otter.json").exists(),
            "{length} {beam}"
        );
        ran.err
    };
    let told = new("abc", "4");
    assert!(told.contains("'abc' for '--length"), "{told}");
    assert!(told.contains("\"abc\" is no number"), "{told}");
    assert!(told.contains("write metres as 11.6"), "{told}");
    let told = new("11 furlong", "4");
    assert!(told.contains("\"furlong\" is no unit here"), "{told}");
    let told = new("11.6", "wide");
    assert!(told.contains("'wide' for '--beam"), "{told}");
    // What is too long by far was meant in another unit; where two would do, both are named.
    assert!(new("1150", "4").contains("is it cm? 1150 cm = 11.5 m"));
    assert!(new("11.5", "4200").contains("is it mm? 4200 mm = 4.2 m"));
    let told = new("11500", "4");
    assert!(told.contains("is it cm? 11500 cm = 115 m"), "{told}");
    assert!(told.contains("or is it mm? 11500 mm = 11.5 m"), "{told}");
}

#[test]
fn a_new_boat_can_be_checked_and_is_not_replaced_unasked() {
    let folder = Folder::new();
    let new = [
        "new",
        "otter.json",
        "--name",
        "Otter",
        "--length",
        "38 ft",
        "--beam",
        "4.2",
    ];
    let ran = folder.run(&new);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    let plan: serde_json::Value = serde_json::from_str(&folder.read("otter.json")).unwrap();
    let length = plan["boat"]["length_overall_m"].as_f64().unwrap();
    assert!(
        (length - 11.5824).abs() < 1e-9,
        "38 ft are 11.5824 m, not {length}"
    );
    assert_eq!(folder.run(&["check", "otter.json"]).code, 0);

    let before = folder.read("otter.json");
    let again = [
        "new",
        "otter.json",
        "--name",
        "Seal",
        "--length-m",
        "9",
        "--beam-m",
        "3",
    ];
    let ran = folder.run(&again);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("--overwrite"), "{}", ran.err);
    assert_eq!(folder.read("otter.json"), before);
    let ran = folder.run(&[&again[..], &["--overwrite"]].concat());
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(
        folder.read("otter.json").contains("\"Seal\""),
        "it was replaced"
    );
}

#[test]
fn a_new_boat_of_nonsense_is_refused_and_nothing_written() {
    let folder = Folder::new();
    for (length, beam, wanted) in [
        ("38 stone", "4.2", "is no unit here"),
        ("11.6", "420", "is it cm? 420 cm = 4.2 m"),
        ("-3", "4.2", "out of range"),
        ("2 ft 6", "4.2", "2 ft 6"),
    ] {
        let length = format!("--length={length}");
        let ran = folder.run(&["new", "x.json", "--name", "X", &length, "--beam", beam]);
        assert_eq!(ran.code, 2, "{length} {beam}: {ran:?}");
        assert!(ran.err.contains(wanted), "{length} {beam}: {}", ran.err);
        assert_eq!(
            std::fs::read_dir(folder.path()).unwrap().count(),
            0,
            "{length} {beam}"
        );
    }
}

#[test]
fn a_list_of_cylinders_goes_into_the_trip() {
    let list = "number;kind;pressure_psi;gas\n101;al-80cf;3000;EAN32\n102;al-80cf;2900;air\n";
    let folder = Folder::new()
        .with_json("otter.json", &empty_boat())
        .with("list.csv", list);
    let before = folder.read("otter.json");

    let ran = folder.run(&[
        "cylinders",
        "otter.json",
        "list.csv",
        "--out",
        "loaded.json",
    ]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert_eq!(
        ran.out,
        "loaded.json, trip saturday: 2 added, 0 replaced; 2 of them ashore until placed\n"
    );
    assert_eq!(
        folder.read("otter.json"),
        before,
        "the plan itself is as it was"
    );
    let plan: serde_json::Value = serde_json::from_str(&folder.read("loaded.json")).unwrap();
    let first = &plan["trips"][0]["cylinders"][0];
    assert_eq!(
        (&first["id"], &first["number"]),
        (&json!("101"), &json!("101"))
    );
    assert!(
        (first["pressure_bar"].as_f64().unwrap() - 206.84).abs() < 0.05,
        "{first}"
    );

    let ran = folder.run(&["cylinders", "loaded.json", "list.csv"]);
    assert!(ran.out.contains("0 added, 2 replaced"), "{ran:?}");
    assert_eq!(
        folder.run(&["check", "loaded.json"]).code,
        0,
        "nothing of it is aboard yet"
    );
}

#[test]
fn a_bad_list_changes_nothing() {
    let mut two_trips = empty_boat();
    let mut sunday = two_trips["trips"][0].clone();
    sunday["id"] = json!("sunday");
    two_trips["trips"].as_array_mut().unwrap().push(sunday);
    let folder = Folder::new()
        .with_json("otter.json", &empty_boat())
        .with_json("two.json", &two_trips)
        .with("good.csv", "number,kind\n101,al-80cf\n")
        .with("bad.csv", "number,kind\n101,al-80cf\n102,al-08cf\n");
    let before = folder.read("otter.json");

    let ran = folder.run(&["cylinders", "otter.json", "bad.csv"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("bad.csv:3:5: "), "{}", ran.err);
    assert!(
        ran.err.contains("al-80cf"),
        "the nearest kind is told: {}",
        ran.err
    );
    assert_eq!(folder.read("otter.json"), before);

    let ran = folder.run(&["cylinders", "two.json", "good.csv"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("\"saturday\" (\"Saturday\"), \"sunday\""),
        "{}",
        ran.err
    );
    let ran = folder.run(&["cylinders", "two.json", "good.csv", "--trip", "sunday"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let ran = folder.run(&["cylinders", "otter.json", "good.csv", "--out", "two.json"]);
    assert_eq!(
        ran.code, 2,
        "an existing file is not replaced unasked: {ran:?}"
    );
}

#[test]
fn kinds_are_listed_and_one_is_shown_in_full() {
    let folder = Folder::new();
    let all = folder.run(&["kinds"]);
    assert_eq!(all.code, 0);
    let rows = all
        .out
        .lines()
        .filter(|line| line.contains("  flat  ") || line.contains("  round  "));
    assert_eq!(rows.count(), 43, "{}", all.out);
    assert!(all.out.contains("twin-st-12l-long-232"), "{}", all.out);

    let one = folder.run(&["kinds", "al-80cf"]).out;
    assert!(
        one.contains("11.1 L") && one.contains("from memory: weigh yours"),
        "{one}"
    );
    // The test cylinder of the method: 17.8 kg, centre at 0.319 m, 14.57° (docs/method.md).
    for value in ["17.8 kg", "319 mm", "14.6°"] {
        assert!(one.contains(value), "{value} is not in:\n{one}");
    }
    let us = folder.run(&["kinds", "al-80cf", "--units", "us"]).out;
    for value in ["psi", "7.25 in", "lb"] {
        assert!(us.contains(value), "{value} is not in:\n{us}");
    }
    let ran = folder.run(&["kinds", "al-08cf"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did you mean al-80cf?"), "{}", ran.err);
}

#[test]
fn limits_carry_clause_and_status() {
    let folder = Folder::new();
    let ran = folder.run(&["limits", "aisle-width-short"]);
    assert!(
        ran.out.contains("46 CFR 177.820(d)") && ran.out.contains("(verified)"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("least width: 0.61 m"), "{}", ran.out);
    assert_eq!(folder.run(&["limits", "no such limit"]).code, 2);
}

#[test]
fn schemas_are_the_ones_in_docs() {
    let folder = Folder::new();
    let docs = concat!(env!("CARGO_MANIFEST_DIR"), "/docs");
    for (args, file) in [
        (&["schema"][..], "layout.schema.json"),
        (&["schema", "layout"], "layout.schema.json"),
        (&["schema", "check"], "check.schema.json"),
        (&["schema", "audit-record"], "audit-record.schema.json"),
        (&["schema", "audit"], "audit.schema.json"),
        (&["schema", "day"], "day.schema.json"),
        (&["schema", "make-ready"], "make-ready.schema.json"),
        (&["schema", "motion"], "motion.schema.json"),
        (&["schema", "card"], "card.schema.json"),
        (&["schema", "balance"], "balance.schema.json"),
    ] {
        let ran = folder.run(args);
        let kept = std::fs::read_to_string(format!("{docs}/{file}")).unwrap();
        assert_eq!(ran.code, 0, "{args:?}: {}", ran.err);
        assert!(
            ran.out == kept,
            "{file} is old: run `UPDATE_DOCS=1 cargo test`"
        );
    }
}

#[test]
fn completions_know_the_commands() {
    let folder = Folder::new();
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let ran = folder.run(&["completions", shell]);
        assert_eq!(ran.code, 0);
        assert!(
            ran.out.contains("check") && ran.out.contains("cylinders"),
            "{shell}: {}",
            ran.out
        );
    }
}

#[test]
fn every_check_is_explained_by_code_and_by_name() {
    let folder = Folder::new();
    for check in snugdown::checks::ALL {
        let ran = folder.run(&["explain", check.code]);
        assert_eq!(ran.code, 0);
        assert!(
            ran.out.contains(check.name) && ran.out.contains("## Source"),
            "{}",
            ran.out
        );
        assert_eq!(
            folder.run(&["explain", &check.name.to_uppercase()]).out,
            ran.out
        );
    }
    let ran = folder.run(&["explain", "unsecured-upright-cilinder"]);
    assert_eq!((ran.code, ran.out.as_str()), (2, ""));
    assert!(
        ran.err.contains("did you mean unsecured-upright-cylinder?"),
        "{}",
        ran.err
    );
    let table = folder.run(&["checks"]).out;
    assert_eq!(
        table.lines().count(),
        1 + snugdown::checks::ALL.len(),
        "{table}"
    );
}

/// A deck of 6 m by 2 m in millimetres, bow to the right.
const DRAWING: &str = "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n5\n2A\n8\nDECK\n100\nAcDbEntity\n100\nAcDbPolyline\n90\n5\n70\n1\n10\n0\n20\n-1000\n10\n5000\n20\n-1000\n10\n6000\n20\n0\n10\n5000\n20\n1000\n10\n0\n20\n1000\n0\nLINE\n5\n2B\n8\nDECK\n10\n1000\n20\n0\n11\n2000\n21\n0\n0\nENDSEC\n0\nEOF\n";

#[test]
fn a_plan_takes_its_deck_from_a_drawing() {
    let folder = Folder::new().with("deck.dxf", DRAWING);
    let ask = [
        "new",
        "otter.json",
        "--name",
        "Otter",
        "--outline",
        "deck.dxf",
    ];
    let ran = folder.run(&ask);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("--unit mm"), "{}", ran.err);

    let ran = folder.run(&[&ask[..], &["--unit", "mm", "--layer", "DEKC"]].concat());
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("did you mean \"DECK\"?"), "{}", ran.err);

    let ran = folder.run(&[&ask[..], &["--unit", "mm"]].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(ran.out.contains("6.00 m by 2.00 m"), "{}", ran.out);
    assert!(
        ran.out.contains("1 more"),
        "the loose line is told: {}",
        ran.out
    );
    let plan = snugdown::store::parse(&folder.read("otter.json"), "otter.json").unwrap();
    let outline = [[0.0, -1.0], [5.0, -1.0], [6.0, 0.0], [5.0, 1.0], [0.0, 1.0]];
    assert_eq!(plan.boat.decks[0].outline, outline);
}
