//! Whole plans: read, saved, refused.

use super::*;

#[test]
fn a_new_plan_is_saved_and_read_back() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("new.json");
    let plan = Plan::new("Ida", 11.0, 4.6);
    save(&plan, &path).unwrap();
    assert_eq!(read(&path).unwrap(), plan);
    let text = std::fs::read_to_string(&path).unwrap();
    assert_eq!(to_text(&read(&path).unwrap()), text);
}

#[test]
fn what_could_not_be_opened_again_is_not_saved() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("deck.json");
    let mut plan = Plan::new("Ida", 11.0, 4.6);
    save(&plan, &path).unwrap();
    let before = std::fs::read(&path).unwrap();
    plan.boat.beam_m = f64::NAN;
    let told = save(&plan, &path).unwrap_err().to_string();
    assert!(
        told.contains("boat.beam_m: null where a number should be"),
        "{told}"
    );
    assert_eq!(std::fs::read(&path).unwrap(), before);
}

#[test]
fn what_cannot_be_read_says_why_and_what_to_do() {
    let folder = tempfile::tempdir().unwrap();
    let told = read(folder.path()).unwrap_err().to_string();
    let name = folder.path().display();
    assert_eq!(
        told,
        format!("{name}: cannot be read: it is a folder\n  help: name the file in it")
    );
    let told = read(&folder.path().join("deck.json"))
        .unwrap_err()
        .to_string();
    assert!(
        told.ends_with("there is no such file\n  help: check the name, and in which folder it is"),
        "{told}"
    );
}

/// A file of version 1 with every kind of thing in every state that it can say. It is never changed: what
/// reads it now must be able to read it for as long as there are such files.
#[test]
fn the_frozen_file_of_version_1_reads_and_is_written_back_byte_for_byte() {
    let text = include_str!("../../tests/frozen/v1-day.json");
    let plan = match parse(text, "v1-day.json") {
        Ok(plan) => plan,
        Err(faults) => panic!("{faults}"),
    };
    assert_eq!(plan.version, 1);
    assert_eq!(plan.boat.fixtures.len(), 24, "one of each kind");
    assert_eq!(plan.trips[0].cylinders.len(), 17, "each way to be placed");
    assert!(to_text(&plan) == text, "it is written back otherwise");
    // What an edit brings is looked at more closely than a file: it must not refuse what a file may say.
    let mut copy = Plan::new("Copy", 11.0, 4.6);
    let edits = [
        crate::layout::Edit::SetBoat(Box::new(plan.boat.clone())),
        crate::layout::Edit::PutTrip(Box::new(plan.trips[0].clone())),
    ];
    copy = copy.with(&edits).unwrap();
    assert_eq!(copy.boat, plan.boat);
}

#[test]
fn a_file_that_is_not_there_says_so() {
    let error = read(Path::new("no such folder/deck.json")).unwrap_err();
    assert!(
        error
            .to_string()
            .starts_with("no such folder/deck.json: cannot be read: ")
    );
    assert!(error.faults().is_empty());
}

#[test]
fn a_file_of_a_later_program_says_so_and_nothing_else() {
    let text = to_text(&Plan::new("Ida", 11.0, 4.6))
        .replacen("\"version\": 1", "\"version\": 2", 1)
        .replacen("\"beam_m\"", "\"breadth_m\"", 1);
    let told = parse(&text, "deck.json").unwrap_err().to_string();
    assert_eq!(
        told,
        "deck.json:2:14: version: the file is of version 2, and this program reads up to 1\n  help: \
         open it with a newer program"
    );
}

#[test]
fn structure_and_meaning_are_told_together() {
    let plan = to_text(&Plan::new("Ida", 11.0, 4.6));
    let text = plan
        .replacen(
            "\"beam_m\": 4.6",
            "\"beam_m\": 460, \"colour\": \"white\"",
            1,
        )
        .replacen("[11, 0]", "[11, 0], [11, 0]", 1)
        .replacen("\"condition\": \"running\"", "\"condition\": \"runing\"", 1);
    assert_ne!(text, plan);
    let told = parse(&text, "deck.json").unwrap_err().to_string();
    for line in [
        "boat.beam_m: 460 m is out of range (0.5 to 30)\n  help: is it cm? 460 cm = 4.6 m",
        "boat.colour: unknown field \"colour\"",
        "trips[0].parts[0].condition: unknown word \"runing\"; did you mean \"running\"?",
        "boat.decks[0].outline[6]: corners 6 and 7 are the same point, [11.000, 0.000]",
    ] {
        assert!(told.contains(line), "{line}\n{told}");
    }
}

/// `docs/layout.schema.json` is what this program reads; run with `UPDATE_DOCS=1` to renew it.
#[test]
fn the_schema_in_the_docs_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/layout.schema.json");
    let schema = schema();
    if std::env::var_os("UPDATE_DOCS").is_some() {
        write_atomic(&path, schema.as_bytes()).unwrap();
    }
    let written = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        written == schema,
        "run `UPDATE_DOCS=1 cargo test` to renew docs/layout.schema.json"
    );
}

/// Every layout that is shipped is sound, refers to its schema and is written as the program
/// writes it; run with `UPDATE_DOCS=1` to write it so.
#[test]
fn shipped_layouts_are_sound_and_saved_as_they_are() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "json") {
            continue;
        }
        count += 1;
        let plan = read(&path).unwrap_or_else(|error| panic!("{error}"));
        assert_eq!(
            plan.schema.as_deref(),
            Some(SCHEMA_PATH),
            "{}",
            path.display()
        );
        if std::env::var_os("UPDATE_DOCS").is_some() {
            save(&plan, &path).unwrap();
        }
        let written = std::fs::read_to_string(&path).unwrap();
        assert!(
            written == to_text(&plan),
            "run `UPDATE_DOCS=1 cargo test` for {}",
            path.display()
        );
    }
    assert!(count > 0, "no layouts are shipped");
}
