//! `motion`, `card` and `balance`.

use std::fmt::Write as _;

use serde_json::{Value, json};

use crate::schema_walk::misfits;
use crate::support::{Folder, boat_with_loose_cylinder, empty_boat, flat, json_of};

#[test]
fn an_estimate_is_told_with_its_steps_and_written_into_the_plan() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let args = [
        "motion",
        "otter.json",
        "--part",
        "running",
        "--height",
        "0.5",
        "--from",
        "90",
    ];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    for word in [
        "Roll period 3.00 s",
        "coastal",
        "less the wave's slope",
        "P6 goes at",
        "linear theory",
    ] {
        // Lines are wrapped.
        assert!(
            flat(&ran.out).contains(word),
            "{word} is not in:\n{}",
            ran.out
        );
    }
    let before = folder.read("otter.json");
    let told = json_of(&folder, &args);
    assert_eq!(
        folder.read("otter.json"),
        before,
        "nothing is written unless asked for"
    );
    let sea = &told["parts"][0]["sea"];
    let checked = sea["checked_roll_deg"].as_f64().unwrap();
    assert!(checked >= sea["seen_roll_deg"].as_f64().unwrap());

    let mut write = args.to_vec();
    write.push("--write");
    assert_eq!(folder.run(&write).code, 0);
    let saved: Value = serde_json::from_str(&folder.read("otter.json")).unwrap();
    let motion = &saved["trips"][0]["parts"][1]["motion"];
    assert_eq!(motion["source"], "estimate");
    assert!(motion["made_from"].as_str().unwrap().contains("0.50 m"));
    let roll = motion["roll_amplitude_deg"].as_f64().unwrap();
    assert!((roll - checked).abs() < 1e-9);
    // The check reads it and says where it comes from.
    let checked = folder.run(&[
        "check",
        "otter.json",
        "--part",
        "running",
        "--cures",
        "none",
    ]);
    assert!(
        flat(&checked.out).contains("estimated from boat and sea"),
        "{}",
        checked.out
    );
}

#[test]
fn a_boat_too_fast_is_refused_and_a_bad_sea_is_told() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let fast = [
        "motion",
        "otter.json",
        "--part",
        "running",
        "--height",
        "0.5",
        "--speed",
        "20",
    ];
    let told = json_of(&folder, &fast);
    let part = &told["parts"][0];
    assert!(
        part["sea"]["refused"]
            .as_str()
            .unwrap()
            .contains("linear theory")
    );
    assert_eq!(part["motion"]["source"], "preset");
    let mut easy = fast.to_vec();
    easy.extend(["--runs", "easy"]);
    let gentle = &json_of(&folder, &easy)["parts"][0]["motion"];
    let roll = |motion: &Value| motion["roll_amplitude_deg"].as_f64().unwrap();
    assert!(roll(gentle) < roll(&part["motion"]));
    for (args, word) in [
        (&["--height", "3", "--period", "2"][..], "they break"),
        (&["--height", "90"], "wave_height_m"),
        (
            &["--height", "0.5kg"],
            "write metres as 11.6, or with a unit",
        ),
        (
            &["--height", "0.5", "--speed", "4lb"],
            "knots, kn, kt, km/h",
        ),
        (
            &["--height", "0.5", "--from", "abeam"],
            "a number of degrees is wanted",
        ),
        (&["--from", "90"], "no sea yet"),
        (&["--wake", "0.4,3"], "three numbers"),
    ] {
        let mut all = vec!["motion", "otter.json", "--part", "running"];
        all.extend(args);
        let ran = folder.run(&all);
        assert_eq!(ran.code, 2, "{ran:?}");
        assert!(ran.err.contains(word), "{word}: {}", ran.err);
    }
    // Two feet are 0.61 m, and 7.4 km/h 4 knots.
    let mut feet = vec!["motion", "otter.json", "--part", "running"];
    feet.extend(["--height", "2ft", "--speed", "7.408km/h"]);
    let told = json_of(&folder, &feet);
    let height = told["parts"][0]["sea"]["wave_height_m"].as_f64().unwrap();
    assert!((height - 0.6096).abs() < 1e-9, "{height}");
    let several = folder.run(&["motion", "otter.json", "--height", "0.5"]);
    assert!(several.err.contains("--part"), "{}", several.err);
}

#[test]
fn a_wake_rolls_a_boat_at_the_quay() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let args = [
        "motion",
        "otter.json",
        "--part",
        "alongside",
        "--wake",
        "0.3,3,4",
    ];
    let told = json_of(&folder, &args);
    let part = &told["parts"][0];
    assert_eq!(part["motion"]["source"], "wake");
    assert!(part["wake"]["checked_roll_deg"].as_f64().unwrap() > 2.0);
}

#[test]
fn a_recorded_log_takes_the_place_of_the_estimate() {
    let mut log = String::from("roll [deg],t_ms\n");
    for i in 0..6000_u32 {
        let t = f64::from(i) * 0.1;
        let roll = 14.0 * (std::f64::consts::TAU * t / 3.0).sin() + 1.0;
        writeln!(log, "{roll:.4},{}", i * 100).unwrap();
    }
    log.push_str("1,600100\n1,600100\nx,600200\n");
    let folder = Folder::new()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("log.csv", &log);
    let args = [
        "motion",
        "otter.json",
        "--part",
        "running",
        "--log",
        "log.csv",
    ];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(
        flat(&ran.out).contains("line 6003: the time"),
        "{}",
        ran.out
    );
    assert!(
        flat(&ran.out).contains("line 6004: no number"),
        "{}",
        ran.out
    );
    let told = json_of(&folder, &args);
    let motion = &told["parts"][0]["motion"];
    let near = |name: &str, expected: f64, within: f64| {
        let found = motion[name].as_f64().unwrap();
        assert!((found - expected).abs() < within, "{name}: {found}");
    };
    near("roll_amplitude_deg", 14.0, 0.1);
    near("roll_period_s", 3.0, 0.01);
    near("heel_deg", 1.0, 0.1);
    let passed = &told["parts"][0]["passed_in_log"][0];
    assert_eq!(passed["cylinder"], "P6");
    assert!(
        passed["times"].as_u64().unwrap() > 50,
        "it stands free: {passed}"
    );
    let missing = folder.run(&[
        "motion",
        "otter.json",
        "--part",
        "running",
        "--log",
        "none.csv",
    ]);
    assert_eq!(missing.code, 2);
}

#[test]
fn a_card_says_how_far_the_stowage_is_good() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let args = ["card", "otter.json", "--part", "running", "--cures", "none"];
    let ran = folder.run(&args);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(
        flat(&ran.out).contains("The stowage, not the boat: good to"),
        "{}",
        ran.out
    );
    assert!(flat(&ran.out).contains("m of coastal sea"), "{}", ran.out);
    let card = &json_of(&folder, &args)["parts"][0];
    let good = card["good_to_wave_height_m"].as_f64().unwrap();
    assert!(good > 0.0 && good < 2.0, "{good}");
    assert_eq!(card["first"], "P6");
    let margins = card["margins"].as_array().unwrap();
    assert!(margins.len() >= 2 && margins[0]["holds"] == true);
    assert_eq!(card["with_cures"], Value::Null, "none was tried");
    let args = ["card", "otter.json", "--part", "running"];
    let card = &json_of(&folder, &args)["parts"][0];
    let cures = card["cures"].as_array().unwrap();
    assert_eq!(card["with_cures"].is_null(), cures.is_empty(), "{card}");
}

#[test]
fn balance_tells_masses_and_nothing_without_gm() {
    let mut plan = boat_with_loose_cylinder();
    let folder = Folder::new().with_json("otter.json", &plan);
    let ran = folder.run(&["balance", "otter.json", "--part", "running"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert!(flat(&ran.out).contains("no GM is known"), "{}", ran.out);
    assert!(
        flat(&ran.out).contains("It approves nothing"),
        "{}",
        ran.out
    );
    plan["boat"]["gm_m"] = json!(0.8);
    plan["boat"]["displacement_kg"] = json!(4000.0);
    let folder = Folder::new().with_json("otter.json", &plan);
    let args = [
        "balance",
        "otter.json",
        "--part",
        "running",
        "--wind",
        "30,9,1.2",
        "--turn",
        "6,20,0.6",
    ];
    let part = &json_of(&folder, &args)["parts"][0];
    let heel = part["heel_caused_deg"].as_f64().unwrap();
    let by_hand = {
        let mass = part["groups"][0]["group_mass_kg"].as_f64().unwrap();
        -(mass * 1.0 / (4000.0 * 0.8)).atan().to_degrees()
    };
    assert!((heel - by_hand).abs() < 1e-9, "{heel} against {by_hand}");
    assert!(part["wind_heel_deg"].as_f64().unwrap() > 0.5);
    assert!(part["turn_heel_deg"].as_f64().unwrap() > 0.5);
}

/// With a sea, a wake and a boat too fast; cards with cures; a wind and a turn.
#[test]
fn what_is_printed_fits_its_schema() {
    let folder = Folder::new().with_json("otter.json", &boat_with_loose_cylinder());
    let part = |command: &'static str, more: &[&'static str]| -> Vec<&'static str> {
        let mut args = vec![command, "otter.json", "--part", "running"];
        args.extend(more);
        args
    };
    for args in [
        part("motion", &[]),
        part("motion", &["--height", "0.5", "--wake", "0.3,3,4"]),
        part("motion", &["--height", "0.5", "--speed", "25"]),
        part("card", &[]),
        part("balance", &["--wind", "25,15,1.5", "--turn", "8,30,0.8"]),
    ] {
        let schema = Folder::new().run(&["schema", args[0]]).out;
        let schema: Value = serde_json::from_str(&schema).unwrap();
        let told = json_of(&folder, &args);
        assert_eq!(misfits(&schema, &told), [""; 0], "{args:?}");
        let mut without = told.clone();
        without["parts"][0].as_object_mut().unwrap().remove("part");
        assert_ne!(
            misfits(&schema, &without),
            [""; 0],
            "{args:?}: anything fits"
        );
    }
}

/// A deck on which nothing stands is taken by nothing, not by less.
#[test]
fn nothing_is_taken_of_an_empty_deck() {
    let folder = Folder::new().with_json("otter.json", &empty_boat());
    let ran = folder.run(&["balance", "otter.json"]);
    assert!(flat(&ran.out).contains(": 0 % taken"), "{}", ran.out);
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/day-boat.json");
    let text = std::fs::read_to_string(path).unwrap();
    let ran = Folder::new()
        .with("boat.json", &text)
        .run(&["balance", "boat.json"]);
    assert!(!ran.out.contains("-0 %"), "{}", ran.out);
}
