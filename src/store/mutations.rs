//! Damaged files: an error or a plan, never a panic or a hang, and what was read can be saved.

use std::time::{Duration, Instant};

use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::{Value, json};

use super::*;
use crate::layout::validate::sample::sound;

/// The sample, and every layout that is shipped, as text.
fn texts() -> Vec<String> {
    let sample: Plan = serde_json::from_value(sound()).unwrap();
    let mut texts = vec![to_text(&sample)];
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts");
    let mut paths: Vec<_> = std::fs::read_dir(folder)
        .into_iter()
        .flatten()
        .filter_map(|entry| Some(entry.ok()?.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    paths.sort();
    for path in paths {
        texts.push(std::fs::read_to_string(path).unwrap());
    }
    texts
}

static TEXTS: LazyLock<Vec<String>> = LazyLock::new(texts);

/// Reads bytes and checks what must hold whatever they are.
fn survives(bytes: &[u8]) -> Result<Option<Plan>, TestCaseError> {
    let start = Instant::now();
    let result = document::from_bytes(&FORMAT, bytes, "deck.json", validate);
    // A second is ample for files of some kilobytes, with all else that a test machine does.
    prop_assert!(start.elapsed() < Duration::from_secs(1), "it hangs");
    match result {
        Ok(plan) => {
            let text = to_text(&plan);
            let again = parse(&text, "again.json");
            prop_assert_eq!(again.as_ref(), Ok(&plan), "what was read cannot be saved");
            Ok(Some(plan))
        }
        Err(faults) => {
            prop_assert!(!faults.list.is_empty());
            let places: Vec<_> = faults.list.iter().map(|f| (f.line, f.column)).collect();
            prop_assert!(places.is_sorted(), "{faults}");
            let lines = bytes.split(|byte| *byte == b'\n').count();
            for fault in &faults.list {
                prop_assert!(fault.line <= lines && !fault.message.is_empty(), "{fault}");
            }
            Ok(None)
        }
    }
}

/// What is done to the bytes of a file.
#[derive(Clone, Debug)]
enum Damage {
    Cut(Index),
    Flip(Index, u8),
    Delete(Index, usize),
    Insert(Index, &'static str),
    Copy(Index, Index, usize),
}

fn damage() -> impl Strategy<Value = Damage> {
    let pieces = prop::sample::select(vec![
        "{",
        "}",
        "[",
        "]",
        ",",
        ":",
        "\"",
        "\\",
        "1e999",
        "-1e308",
        "NaN",
        "null",
        "0",
        "\u{0}",
        "\"boat\": {},",
        "[[[[[[[[",
        "\u{feff}",
        "//",
        "9007199254740993",
        "-",
        "true",
    ]);
    prop_oneof![
        1 => any::<Index>().prop_map(Damage::Cut),
        4 => (any::<Index>(), any::<u8>()).prop_map(|(at, mask)| Damage::Flip(at, mask)),
        2 => (any::<Index>(), 1_usize..30).prop_map(|(at, n)| Damage::Delete(at, n)),
        3 => (any::<Index>(), pieces).prop_map(|(at, piece)| Damage::Insert(at, piece)),
        1 => (any::<Index>(), any::<Index>(), 1_usize..200)
            .prop_map(|(from, to, n)| Damage::Copy(from, to, n)),
    ]
}

fn apply(bytes: &mut Vec<u8>, damage: &Damage) {
    if bytes.is_empty() {
        return;
    }
    let length = bytes.len();
    match damage {
        Damage::Cut(at) => bytes.truncate(at.index(length)),
        Damage::Flip(at, mask) => bytes[at.index(length)] ^= mask,
        Damage::Delete(at, n) => {
            let at = at.index(length);
            bytes.drain(at..(at + n).min(length));
        }
        Damage::Insert(at, piece) => {
            let at = at.index(length);
            bytes.splice(at..at, piece.bytes());
        }
        Damage::Copy(from, to, n) => {
            let from = from.index(length);
            let piece = bytes[from..(from + n).min(length)].to_vec();
            let to = to.index(length);
            bytes.splice(to..to, piece);
        }
    }
}

/// All places of a tree, as JSON pointers.
fn pointers(value: &Value, path: &str, found: &mut Vec<String>) {
    found.push(path.to_owned());
    match value {
        Value::Array(elements) => {
            for (i, element) in elements.iter().enumerate() {
                pointers(element, &format!("{path}/{i}"), found);
            }
        }
        Value::Object(fields) => {
            for (name, field) in fields {
                pointers(field, &format!("{path}/{name}"), found);
            }
        }
        _ => {}
    }
}

/// Values that stand where another should.
fn strange_value() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(Value::Null),
        Just(json!(true)),
        Just(json!({})),
        Just(json!([])),
        Just(json!([[0.0, 0.0], [1.0, 1.0], [0.0, 1.0], [1.0, 0.0]])),
        Just(json!("")),
        Just(json!("main")),
        Just(json!("not known")),
        Just(json!(u64::MAX)),
        Just(json!(i64::MIN)),
        prop::num::f64::ANY.prop_map(|value| json!(value)),
        (-10.0..50.0_f64).prop_map(|value| json!(value)),
        any::<String>().prop_map(Value::from),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn random_bytes_are_refused(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        prop_assert_eq!(survives(&bytes)?, None);
    }

    #[test]
    fn damaged_files_are_read_or_refused(
        which in any::<Index>(),
        damages in prop::collection::vec(damage(), 1..4),
    ) {
        let mut bytes = TEXTS[which.index(TEXTS.len())].clone().into_bytes();
        for damage in &damages {
            apply(&mut bytes, damage);
        }
        survives(&bytes)?;
    }

    #[test]
    fn strange_values_are_read_or_refused(
        which in any::<Index>(),
        changes in prop::collection::vec((any::<Index>(), strange_value()), 1..4),
    ) {
        let mut plan: Value = serde_json::from_str(&TEXTS[which.index(TEXTS.len())]).unwrap();
        for (place, value) in changes {
            let mut places = Vec::new();
            pointers(&plan, "", &mut places);
            if let Some(old) = plan.pointer_mut(&places[place.index(places.len())]) {
                *old = value;
            }
        }
        survives(plan.to_string().as_bytes())?;
    }

    #[test]
    fn swapped_values_are_read_or_refused(
        which in any::<Index>(),
        one in any::<Index>(),
        other in any::<Index>(),
    ) {
        let mut plan: Value = serde_json::from_str(&TEXTS[which.index(TEXTS.len())]).unwrap();
        let mut places = Vec::new();
        pointers(&plan, "", &mut places);
        let (one, other) = (&places[one.index(places.len())], &places[other.index(places.len())]);
        let (first, second) = (plan.pointer(one).cloned(), plan.pointer(other).cloned());
        for (place, value) in [(one, second), (other, first)] {
            if let (Some(old), Some(value)) = (plan.pointer_mut(place), value) {
                *old = value;
            }
        }
        survives(plan.to_string().as_bytes())?;
    }
}

#[test]
fn a_file_cut_anywhere_is_refused() {
    let text = &TEXTS[0];
    // The last character but one closes the plan; after it only the line end is missing.
    for end in (0..text.len() - 1).step_by(7) {
        if let Some(bytes) = text.as_bytes().get(..end) {
            assert_eq!(survives(bytes).unwrap(), None, "cut at {end}");
        }
    }
}

/// Files that are made to be slow: none may take longer than some seconds, whatever is in them.
#[test]
fn large_hostile_files_end_soon() {
    let sample = sound();
    let with = |pointer: &str, value: Value| {
        let mut plan = sample.clone();
        *plan.pointer_mut(pointer).unwrap() = value;
        plan.to_string()
    };
    let many = |n: usize, make: &dyn Fn(usize) -> Value| (0..n).map(make).collect::<Value>();
    let fields: serde_json::Map<String, Value> = (0..20_000)
        .map(|i| (format!("beam_{i}"), json!(i)))
        .collect();
    let lying = |i: usize| {
        json!({ "id": i.to_string(), "kind": "al-80cf", "placing": {
            "how": "lying", "deck": "main", "at": [5, 0], "valve_towards_deg": 0,
            "upon": [(i + 1).to_string(), (i + 2).to_string()] } })
    };
    let files = [
        ("nested", "[".repeat(1_000_000)),
        (
            "unknown fields",
            with("/boat/decks/0", Value::Object(fields)),
        ),
        ("numbers", with("/trips", many(300_000, &|i| json!(i)))),
        (
            "dangling names",
            with(
                "/trips/0/lashings/0/round",
                many(20_000, &|i| json!(format!("cylinder {i}"))),
            ),
        ),
        (
            "cylinders upon each other",
            with("/trips/0/cylinders", many(5000, &lying)),
        ),
        (
            "corners",
            with(
                "/boat/decks/0/outline",
                many(100_000, &|i| json!([i % 10, i / 10])),
            ),
        ),
        (
            "parts",
            with(
                "/trips/0/parts",
                many(
                    10_000,
                    &|i| json!({ "id": i.to_string(), "condition": "running" }),
                ),
            ),
        ),
        (
            "one long line",
            format!("{{\"version\": \"{}", "å".repeat(500_000)),
        ),
    ];
    for (what, text) in files {
        let start = Instant::now();
        assert!(parse(&text, "deck.json").is_err(), "{what}");
        let elapsed = start.elapsed();
        assert!(elapsed < Duration::from_secs(5), "{what} takes {elapsed:?}");
    }
}
