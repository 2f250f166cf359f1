//! `snugdown brief`: lists and the loading order, to the terminal and to files.

use crate::support::{Folder, Ran, boat_with_loose_cylinder};

fn folder() -> Folder {
    Folder::new().with_json("otter.json", &boat_with_loose_cylinder())
}

/// The load list of the boat, told in this way.
fn load_list(folder: &Folder, told: &[&str]) -> Ran {
    let asked = ["brief", "otter.json", "--page", "load-list"];
    folder.run(&[&asked[..], told].concat())
}

#[test]
fn everything_is_told_with_the_caution_below() {
    let ran = folder().run(&["brief", "otter.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    for heading in [
        "To say on the quay",
        "Load list",
        "Lashing list",
        "Loading order",
        "Still open",
    ] {
        assert!(ran.out.contains(heading), "{heading}: {}", ran.out);
    }
    assert!(ran.out.contains("nothing holds it there"), "{}", ran.out);
    assert!(ran.out.trim_end().ends_with("decide."), "{}", ran.out);
}

#[test]
fn a_list_goes_to_a_file_and_replaces_none() {
    let folder = folder();
    let told = ["--format", "csv", "--out", "load.csv"];
    let ran = load_list(&folder, &told);
    assert_eq!(ran.code, 0, "{ran:?}");
    let again = load_list(&folder, &told);
    assert_eq!(again.code, 2, "{again:?}");
    assert!(again.err.contains("--overwrite"), "{}", again.err);
}

#[test]
fn csv_wants_one_page() {
    let ran = folder().run(&["brief", "otter.json", "--format", "csv"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("--page load-list"), "{}", ran.err);
}

#[test]
fn names_that_are_not_there_are_told() {
    for (option, name) in [
        ("--part", "noon"),
        ("--trip", "sunday"),
        ("--hand-over", "moon"),
    ] {
        let ran = folder().run(&["brief", "otter.json", option, name]);
        assert_eq!(ran.code, 2, "{option}: {ran:?}");
        assert!(ran.err.contains(name), "{option}: {}", ran.err);
    }
    let ran = folder().run(&["brief", "otter.json", "--heel", "90"]);
    assert_eq!(ran.code, 2);
    assert!(ran.err.contains("up to 15"), "{}", ran.err);
}

/// Not even told to replace files does it write over the plan that it reads.
#[test]
fn the_plan_itself_is_never_written_over() {
    let folder = folder();
    let before = folder.read("otter.json");
    let told = ["--format", "csv", "--out", "./otter.json", "--overwrite"];
    let ran = load_list(&folder, &told);
    assert_eq!(ran.code, 2, "{ran:?}");
    assert!(ran.err.contains("the deck plan itself"), "{}", ran.err);
    assert_eq!(folder.read("otter.json"), before);
}

#[test]
fn a_file_named_as_csv_is_csv() {
    let folder = folder();
    let ran = load_list(&folder, &["--out", "load.csv"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(
        folder.read("load.csv").starts_with("cylinder,number,"),
        "{ran:?}"
    );
}
