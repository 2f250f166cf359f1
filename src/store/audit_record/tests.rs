use super::*;
use crate::layout::bounds;
use crate::record::{Account, AuditRecord, Evidence};
use proptest::prelude::*;
use std::fs;

fn write(folder: &Path, name: &str, text: &str) -> String {
    let path = folder.join(name);
    write_atomic(&path, text.as_bytes()).unwrap();
    sha256_of(&path).unwrap()
}

/// A folder with a plan, a photo and a record of both.
fn folder() -> (tempfile::TempDir, AuditRecord) {
    let folder = tempfile::tempdir().unwrap();
    let plan = crate::layout::Plan::new("Otter", 9.0, 3.0);
    write(folder.path(), "plan.json", &super::super::to_text(&plan));
    let photo = write(folder.path(), "photo.jpg", "not really a photo");
    let record_path = folder.path().join("record.json");
    let planned = reference(&record_path, &folder.path().join("plan.json"), None, None).unwrap();
    let account = Account {
        id: "A".to_owned(),
        by: "mate".to_owned(),
        when: None,
        layout: None,
        found: Vec::new(),
        lashings: Vec::new(),
    };
    let mut record = AuditRecord::new("Test", planned, account);
    record.files.push(Evidence {
        id: "F1".to_owned(),
        path: "photo.jpg".to_owned(),
        sha256: photo,
        what: "the strap".to_owned(),
        by: None,
        when: None,
    });
    save_record(&record, &record_path).unwrap();
    (folder, record)
}

fn states(folder: &Path) -> Vec<FileState> {
    let opened = open_record(&folder.join("record.json")).unwrap();
    opened.inputs.iter().map(|input| input.state).collect()
}

#[test]
fn a_record_saved_and_opened_is_the_same() {
    let (folder, record) = folder();
    let opened = open_record(&folder.path().join("record.json")).unwrap();
    assert_eq!(opened.record, record);
    assert_eq!(record.planned.path, "plan.json");
    let unchanged = FileState::Unchanged;
    assert_eq!(
        states(folder.path()),
        [FileState::Itself, unchanged, unchanged]
    );
}

/// The digest of `abc`: the first example of FIPS 180-4 (NIST, "SHA-256 examples").
#[test]
fn the_hash_is_that_of_the_standard() {
    let folder = tempfile::tempdir().unwrap();
    let hash = write(folder.path(), "abc", "abc");
    assert_eq!(
        hash,
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
}

#[test]
fn files_that_changed_or_are_gone_are_told() {
    let (folder, _) = folder();
    write(folder.path(), "photo.jpg", "another one");
    let path = folder.path();
    assert_eq!(states(path)[2], FileState::Changed);
    fs::remove_file(path.join("photo.jpg")).unwrap();
    assert_eq!(states(path)[2], FileState::Missing);
    let plan = crate::layout::Plan::new("Otter", 9.5, 3.0);
    write(path, "plan.json", &super::super::to_text(&plan));
    assert_eq!(states(path)[1], FileState::Changed);
    fs::remove_file(path.join("plan.json")).unwrap();
    let error = open_record(&path.join("record.json")).unwrap_err();
    assert!(error.to_string().contains("plan as issued"), "{error}");
}

/// Every fault with its line and field, several at once.
#[test]
fn faults_are_told_where_they_stand() {
    let (folder, record) = folder();
    let text = record_text(&record)
        .replace("\"version\": 1", "\"version\": 1,\n  \"colour\": \"red\"")
        .replace("\"by\": \"mate\"", "\"by\": 7");
    write(folder.path(), "record.json", &text);
    let error = open_record(&folder.path().join("record.json")).unwrap_err();
    let RecordError::Record(error) = error else {
        panic!("{error}");
    };
    let fields: Vec<&str> = error.faults().iter().map(|it| it.field.as_str()).collect();
    assert_eq!(fields, ["colour", "accounts[0].by"]);
    assert!(error.faults()[0].line == 3 && error.faults()[1].line > 3);
    let newer = record_text(&record).replace("\"version\": 1", "\"version\": 2");
    let faults = parse_record(&newer, "record").unwrap_err();
    assert!(faults.to_string().contains("newer program"), "{faults}");
}

#[test]
fn every_number_of_a_record_has_a_range() {
    fn unlimited(value: &Value, path: &str, found: &mut Vec<String>) {
        match value {
            Value::Object(object) => {
                let is_number = match object.get("type") {
                    Some(Value::String(name)) => name == "number",
                    Some(Value::Array(names)) => names.iter().any(|name| name == "number"),
                    _ => false,
                };
                let limited = object.contains_key("minimum") && object.contains_key("maximum");
                if is_number && !limited && path != "/$defs/Known/anyOf/0" {
                    found.push(path.to_owned());
                }
                for (key, value) in object {
                    unlimited(value, &format!("{path}/{key}"), found);
                }
            }
            Value::Array(elements) => {
                for (i, value) in elements.iter().enumerate() {
                    unlimited(value, &format!("{path}/{i}"), found);
                }
            }
            _ => {}
        }
    }
    let mut found = Vec::new();
    unlimited(&record_schema(), "", &mut found);
    assert_eq!(found, [""; 0]);
    assert!(bounds::for_field("at_s").is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, ..ProptestConfig::default() })]

    /// A record with a byte changed or cut off is read or told, and never ends the program.
    #[test]
    fn broken_records_never_panic(at in any::<usize>(), byte in any::<u8>(), cut in 0..40_usize) {
        let (_, record) = folder();
        let mut bytes = record_text(&record).into_bytes();
        let count = bytes.len();
        bytes[at % count] = byte;
        bytes.truncate(count - cut);
        parse_record(&String::from_utf8_lossy(&bytes), "record").ok();
    }
}
