//! The demonstration incident: files in the program's own form, hashes that hold, and what its audit tells.

use std::fs;
use std::path::{Path, PathBuf};

use snugdown::audit::{Audit, Case, DifferenceKind};
use snugdown::record::FileState;
use snugdown::store;

/// Set this in the environment to have the files written in the program's own form, with their hashes.
const UPDATE: &str = "UPDATE_LAYOUTS";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/incident")
}

fn audit() -> Audit {
    let opened = store::open_record(&folder().join("record.json"));
    let opened = opened.unwrap_or_else(|error| panic!("{error}"));
    let case = Case::of(opened).unwrap_or_else(|error| panic!("{error}"));
    Audit::of(&case).expect("a part of the day")
}

#[test]
fn the_files_are_in_the_programs_own_form() {
    let plan_path = folder().join("plan.json");
    let record_path = folder().join("record.json");
    let plan = store::read(&plan_path).unwrap_or_else(|error| panic!("{error}"));
    let text = store::to_text(&plan);
    let update = std::env::var_os(UPDATE).is_some();
    if update {
        store::write_atomic(&plan_path, text.as_bytes()).expect("a plan that can be written");
    }
    let read = |path: &Path| fs::read_to_string(path).expect("a file that can be read");
    assert!(read(&plan_path) == text, "run with {UPDATE}=1");
    let mut record = store::parse_record(&read(&record_path), "record")
        .unwrap_or_else(|faults| panic!("{faults}"));
    if update {
        let hash =
            |name: &str| store::sha256_of(&folder().join(name)).expect("a file that can be read");
        record.planned.sha256 = hash(&record.planned.path);
        for file in &mut record.files {
            file.sha256 = hash(&file.path);
        }
        if let Some(log) = &mut record.motion_log {
            log.sha256 = hash(&log.path);
        }
        let text = store::record_text(&record);
        store::write_atomic(&record_path, text.as_bytes()).expect("a record that can be written");
    }
    assert!(
        read(&record_path) == store::record_text(&record),
        "run with {UPDATE}=1"
    );
    assert_eq!(record.schema.as_deref(), Some(store::RECORD_SCHEMA_PATH));
}

#[test]
fn every_input_is_as_it_was_recorded() {
    let audit = audit();
    assert_eq!(audit.inputs.len(), 4);
    for input in &audit.inputs[1..] {
        assert_eq!(input.state, FileState::Unchanged, "{}", input.what);
    }
}

/// What the two accounts agree on and what they do not; the plan holds, neither account does.
#[test]
fn the_accounts_are_analysed_side_by_side() {
    let audit = audit();
    assert_eq!(audit.accounts.len(), 2);
    assert!(
        audit
            .agreed
            .iter()
            .any(|text| text.contains("strap P4-P6 of rack-P was to be shut")),
        "{:?}",
        audit.agreed
    );
    let only = |account: &str, part: &str| {
        audit
            .disputed
            .iter()
            .any(|it| it.accounts == [account] && it.sentence.contains(part))
    };
    assert!(only("A", "P4 was to be in slot P4"), "{:?}", audit.disputed);
    assert!(only("B", "kit bag"), "{:?}", audit.disputed);
    let [a, b] = audit.accounts.as_slice() else {
        panic!("two accounts");
    };
    let told = |kind, about: &str| {
        let differences = &a.comparison.differences;
        differences
            .iter()
            .any(|it| it.kind == kind && it.about == about)
    };
    assert!(told(DifferenceKind::Unsecured, "P4"));
    assert!(told(DifferenceKind::Slacker, "strap 1"));
    assert!(told(DifferenceKind::Opened, "rack-P/strap P4-P6"));
    for (account, remedies) in [(a, 2), (b, 1)] {
        assert!(
            account.held.as_planned.holds,
            "{:?}",
            account.held.as_planned
        );
        assert!(!account.held.as_found.holds, "{:?}", account.held.as_found);
        let smallest = account.held.smallest.as_ref().expect("a set that holds");
        assert_eq!(smallest.labels.len(), remedies, "{smallest:?}");
    }
    // The racks stand on a shelf: what falls out of them comes over the bench.
    let p5 = a.reach.iter().find(|row| row.cylinder == "P5");
    let between = &p5.expect("P5 could have come there").between;
    assert!(
        between.iter().any(|it| it.thing == "bench-P"),
        "{between:?}"
    );
    // Two could have come to the spot; which of them did is not told by their limits.
    let mut in_question = a.held.cylinders.clone();
    in_question.sort();
    assert_eq!(in_question, ["P4", "P5"]);
}

/// The same, however many threads there are to share the work.
#[test]
fn the_same_inputs_give_the_same_audit() {
    let with = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
        pool.expect("threads").install(audit)
    };
    let one = with(1);
    assert_eq!(one, with(3));
    assert_eq!(one, audit());
}
