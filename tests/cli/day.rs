//! `day`, `lay-out` and `make-ready`.

use serde_json::Value;

use crate::schema_walk::misfits;
use crate::support::Folder;

/// A folder with a layout that comes with the program.
fn with_layout(name: &str) -> Folder {
    let path = format!("{}/layouts/{name}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    Folder::new().with("boat.json", &text)
}

fn json_of(folder: &Folder, args: &[&str]) -> Value {
    let mut all = args.to_vec();
    all.extend(["--format", "json"]);
    let ran = folder.run(&all);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{ran:?}");
    serde_json::from_str(&ran.out).unwrap()
}

#[test]
fn the_day_is_told_part_by_part_with_its_work() {
    let folder = with_layout("day-boat.json");
    let ran = folder.run(&["day", "boat.json"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for line in [
        "dive one: drifting, 1 h",
        "cylinders: 16 full, 8 in the water",
        "P1 goes into the water",
        "Put P1, empty, into slot P1 of",
        "Whole day, to put right: nothing",
    ] {
        assert!(ran.out.contains(line), "{line}\n{}", ran.out);
    }
    let one = folder.run(&["day", "boat.json", "--part", "dive one"]);
    assert!(!one.out.contains("running home"), "{}", one.out);
    let report = json_of(&folder, &["day", "boat.json"]);
    assert_eq!(report["day"]["parts"][2]["cylinders"]["in_water"], 8);
    let first = &report["work"]["parts"][2]["steps"][0];
    assert_eq!(
        (&first["number"], &first["kind"]),
        (&1.into(), &"open".into())
    );
}

#[test]
fn a_day_is_laid_out_and_written_only_when_asked() {
    let folder = with_layout("day-boat.json");
    let before = folder.read("boat.json");
    let args = ["lay-out", "boat.json", "--as", "two-dives"];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(
        ran.out.contains("Laid out as: Day charter, two dives"),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("nothing is swapped"), "{}", ran.out);
    assert_eq!(folder.read("boat.json"), before);
    let report = json_of(
        &folder,
        &["lay-out", "boat.json", "--as", "two-dives", "--write"],
    );
    assert_eq!(report["laid_out_as"], "Day charter, two dives");
    let after: Value = serde_json::from_str(&folder.read("boat.json")).unwrap();
    let parts = after["trips"][0]["parts"].as_array().unwrap();
    let names: Vec<&str> = parts
        .iter()
        .filter_map(|part| part["id"].as_str())
        .collect();
    assert_eq!(names.first(), Some(&"alongside"));
    assert!(names.contains(&"dive 2"), "{names:?}");
}

#[test]
fn what_cannot_be_laid_out_is_told() {
    let folder = Folder::new().with_json("otter.json", &crate::support::empty_boat());
    let ran = folder.run(&["lay-out", "otter.json", "--as", "drift-dive"]);
    assert_eq!(ran.code, 2);
    assert!(
        ran.err
            .contains("Nobody among the people of this trip is a diver"),
        "{}",
        ran.err
    );
}

#[test]
fn the_deck_is_made_ready_with_the_limit_before_and_after() {
    let folder = with_layout("day-boat-badly-stowed.json");
    let args = [
        "make-ready",
        "boat.json",
        "--for",
        "night",
        "--after",
        "running home",
    ];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for line in ["Before:", "Afterwards:", "Stow "] {
        assert!(ran.out.contains(line), "{line}\n{}", ran.out);
    }
    let report = json_of(&folder, &args);
    let dangers = |when: &str| report[when]["to_put_right"]["danger"].as_u64().unwrap();
    assert!(dangers("afterwards") < dangers("before"), "{report}");
    let written = [&args[..], &["--write"]].concat();
    assert_eq!(folder.run(&written).code, 0);
    let after: Value = serde_json::from_str(&folder.read("boat.json")).unwrap();
    let parts = after["trips"][0]["parts"].as_array().unwrap();
    assert_eq!(parts.last().unwrap()["id"], "night");
    let unknown = folder.run(&[
        "make-ready",
        "boat.json",
        "--for",
        "diving",
        "--after",
        "nihgt",
    ]);
    assert_eq!(unknown.code, 2);
    assert!(
        unknown.err.contains("did you mean \"night\""),
        "{}",
        unknown.err
    );
}

/// What each of the three prints, on a good boat and a bad one, for night and for diving, is as the schema says; and
/// the schema is no empty one.
#[test]
fn what_is_printed_fits_its_schema() {
    let schema = |of: &str| -> Value {
        serde_json::from_str(&Folder::new().run(&["schema", of]).out).unwrap()
    };
    let (day, ready) = (schema("day"), schema("make-ready"));
    for boat in ["day-boat.json", "day-boat-badly-stowed.json"] {
        let folder = with_layout(boat);
        let told = json_of(&folder, &["day", "boat.json"]);
        assert_eq!(misfits(&day, &told), [""; 0], "{boat}");
        let told = json_of(&folder, &["lay-out", "boat.json", "--as", "two-dives"]);
        assert_eq!(misfits(&day, &told), [""; 0], "{boat}");
        for purpose in ["night", "diving"] {
            let told = json_of(
                &folder,
                &[
                    "make-ready",
                    "boat.json",
                    "--for",
                    purpose,
                    "--after",
                    "running home",
                ],
            );
            assert_eq!(misfits(&ready, &told), [""; 0], "{boat} for {purpose}");
            assert_eq!(told["purpose"], purpose);
            let mut without = told.clone();
            without["work"].as_object_mut().unwrap().remove("steps");
            without["purpose"] = "lunch".into();
            let found = misfits(&ready, &without).join(" ");
            assert!(
                found.contains("steps") && found.contains("lunch"),
                "{found}"
            );
        }
    }
}
