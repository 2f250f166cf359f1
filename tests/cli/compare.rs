//! `snugdown compare` and `snugdown reach`: as found against as planned, and who could reach a spot.

use std::path::Path;

use crate::support::{Folder, boat_with_loose_cylinder, empty_boat};

#[test]
fn the_same_file_twice_differs_in_nothing() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let ran = folder.run(&["compare", "otter.json", "otter.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    assert!(ran.out.starts_with("Found as planned."), "{}", ran.out);
}

#[test]
fn a_cylinder_that_nobody_planned_is_told() {
    let folder = Folder::new()
        .with_json("planned.json", &empty_boat())
        .with_json("found.json", &boat_with_loose_cylinder());
    let ran = folder.run(&["compare", "planned.json", "found.json"]);
    assert_eq!(ran.code, 1, "{ran:?}");
    assert!(ran.out.contains("was found and not planned"), "{}", ran.out);
    let json = folder.run(&["compare", "planned.json", "found.json", "--format", "json"]);
    assert!(json.out.contains("\"kind\": \"added\""), "{}", json.out);
}

/// The two shipped day boats are one boat, well and badly stowed.
#[test]
fn the_badly_stowed_boat_differs_from_the_well_stowed_one() {
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let path = |name: &str| layouts.join(name).to_string_lossy().into_owned();
    let (planned, found) = (path("day-boat.json"), path("day-boat-badly-stowed.json"));
    let ran = Folder::new().run(&["compare", &planned, &found]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    assert!(ran.out.contains("P6 was to be in slot P6"), "{}", ran.out);
    assert!(ran.out.contains("All of it together"), "{}", ran.out);
}

#[test]
fn a_part_that_is_not_there_is_told_with_its_file() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&["compare", "otter.json", "otter.json", "--part", "noon"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err.contains("otter.json") && ran.err.contains("noon"),
        "{}",
        ran.err
    );
}

#[test]
fn whoever_could_reach_a_spot_is_listed() {
    let layouts = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let boat = layouts.join("day-boat-badly-stowed.json");
    let boat = boat.to_string_lossy();
    let folder = Folder::new();
    let ran = folder.run(&["reach", &boat, "--spot", "4.4,0.8"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let line = ran.out.lines().find(|line| line.starts_with("P6 "));
    assert!(
        line.is_some_and(|line| line.contains("the motion throws it there")),
        "{}",
        ran.out
    );
    // P7 stands before it, and is told with what it does.
    assert!(
        ran.out.contains("- P6: P7, ") && ran.out.contains("may be pushed on or go too"),
        "{}",
        ran.out
    );
    let nobody = folder.run(&["reach", &boat, "--spot", "150,-60"]);
    assert!(nobody.out.contains("No cylinder"), "{}", nobody.out);
    for (spot, told) in [
        ("4.4", "4.2,-0.6"),
        ("a,b", "4.2,-0.6"),
        ("1e9,0", "4.2,-0.6"),
    ] {
        let ran = folder.run(&["reach", &boat, "--spot", spot]);
        assert_eq!(ran.code, 2);
        assert!(ran.err.contains(told), "{}", ran.err);
    }
}
