//! Files that are written: none in the place of a folder, and nothing in a name that commands the terminal.

use serde_json::json;

use crate::support::{Folder, boat_with_loose_cylinder};

/// Every command that writes a file, up to the name of the file.
const WRITING: [&str; 6] = [
    "brief otter.json --out",
    "crew-sheet otter.json --out",
    "measuring-sheet otter.json --out",
    "cylinders otter.json list.csv --out",
    "audit-record --planned otter.json --found otter.json",
    "new --name Otter --length 8 --beam 3",
];

fn folder() -> Folder {
    let folder = Folder::new()
        .with_json("otter.json", &boat_with_loose_cylinder())
        .with("list.csv", "kind,number\nal-80cf,7\n");
    std::fs::create_dir(folder.path().join("box")).unwrap();
    folder
}

#[test]
fn a_folder_is_told_at_once_and_asks_for_no_overwrite() {
    let folder = folder();
    for command in WRITING {
        for (place, inside) in [
            ("box", "box/NAME"),
            ("box/", "box/NAME"),
            ("gone/", "gone/NAME"),
        ] {
            for overwrite in [false, true] {
                let mut args: Vec<&str> = command.split(' ').collect();
                args.push(place);
                args.extend(overwrite.then_some("--overwrite"));
                let ran = folder.run(&args);
                assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{args:?}: {ran:?}");
                assert!(
                    ran.err.contains(&format!("{place} is a folder")) && ran.err.contains(inside),
                    "{args:?}: {}",
                    ran.err
                );
                assert!(!ran.err.contains("--overwrite"), "{args:?}: {}", ran.err);
            }
        }
    }
}

#[cfg(target_os = "linux")]
#[test]
fn what_is_no_ordinary_file_is_never_written_over() {
    let folder = folder();
    for command in WRITING {
        for overwrite in [false, true] {
            let mut args: Vec<&str> = command.split(' ').collect();
            args.push("/dev/null");
            args.extend(overwrite.then_some("--overwrite"));
            let ran = folder.run(&args);
            assert_eq!(ran.code, 2, "{args:?}: {ran:?}");
            assert!(
                ran.err.contains("/dev/null is no ordinary file"),
                "{args:?}: {}",
                ran.err
            );
        }
    }
}

/// Names are what somebody wrote: a terminal shows them and obeys none of them.
#[test]
fn a_name_commands_no_terminal_and_breaks_no_line() {
    let mut plan = boat_with_loose_cylinder();
    plan["boat"]["name"] = json!("Ot\u{1b}[31mter\u{7}\nand more");
    plan["trips"][0]["name"] = json!("Satur\u{1b}]0;day\r\nsecond");
    plan["trips"][0]["parts"][0]["name"] = json!("Along\u{9b}31mside\nhere");
    plan["trips"][0]["cylinders"][0]["number"] = json!("6\n\u{1b}[2J");
    plan["trips"][0]["cylinders"][0]["diver"] = json!("Al\tex\u{202e}");
    let folder = Folder::new().with_json("otter.json", &plan);
    for command in [
        "brief otter.json",
        "crew-sheet otter.json",
        "check otter.json",
        "day otter.json",
        "motion otter.json",
        "card otter.json",
        "balance otter.json",
        "brief otter.json --trip nobody",
        "make-ready otter.json --for night --after running",
    ] {
        let ran = folder.run(&command.split(' ').collect::<Vec<_>>());
        let told = format!("{}{}", ran.out, ran.err);
        assert!(!told.is_empty(), "{command}");
        let commands = told.chars().find(|c| c.is_control() && *c != '\n');
        assert_eq!(commands, None, "{command}: {told}");
        assert!(!told.contains('\u{202e}'), "{command}: {told}");
        for broken in ["\nand more", "\nsecond", "\nhere"] {
            assert!(!told.contains(broken), "{command}: {told}");
        }
    }
    let slate = folder.run(&["crew-sheet", "otter.json"]);
    assert_eq!(slate.out.lines().count(), 6, "{}", slate.out);
    let json = folder.run(&["brief", "otter.json", "--format", "json"]);
    let told: serde_json::Value = serde_json::from_str(&json.out).unwrap();
    assert_eq!(told["boat"], plan["boat"]["name"], "as it is in the plan");
}
