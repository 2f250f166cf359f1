//! What no schema can say of a record: names that lead nowhere, ranges the wrong way round, no hash.

use std::collections::BTreeSet;

use super::AuditRecord;
use crate::layout::{Id, Mistake};

/// Finds everything that is wrong with a record, in the order of its fields.
pub fn validate(record: &AuditRecord) -> Vec<Mistake> {
    let mut found = Vec::new();
    let mut report = |field: String, message: String, help: &str| {
        found.push(Mistake {
            field,
            message,
            help: help.to_owned(),
        });
    };
    hashes(record, &mut report);
    unique(record, &mut report);
    references(record, &mut report);
    ranges(record, &mut report);
    found
}

fn hashes(record: &AuditRecord, report: &mut impl FnMut(String, String, &str)) {
    let mut all = vec![("planned.sha256".to_owned(), &record.planned.sha256)];
    for (i, account) in record.accounts.iter().enumerate() {
        if let Some(layout) = &account.layout {
            all.push((format!("accounts[{i}].layout.sha256"), &layout.sha256));
        }
    }
    if let Some(log) = &record.motion_log {
        all.push(("motion_log.sha256".to_owned(), &log.sha256));
    }
    for (i, file) in record.files.iter().enumerate() {
        all.push((format!("files[{i}].sha256"), &file.sha256));
    }
    for (field, hash) in all {
        let is_hex = hash
            .bytes()
            .all(|byte| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte));
        if hash.len() != 64 || !is_hex {
            report(
                field,
                "this is no SHA-256: 64 hexadecimal digits, small letters".to_owned(),
                "take it from a program that computes it, over the file as it was found",
            );
        }
    }
}

fn unique(record: &AuditRecord, report: &mut impl FnMut(String, String, &str)) {
    let lists: [(&str, Vec<&Id>); 5] = [
        (
            "accounts",
            record.accounts.iter().map(|it| &it.id).collect(),
        ),
        (
            "statements",
            record.statements.iter().map(|it| &it.id).collect(),
        ),
        (
            "measurements",
            record.measurements.iter().map(|it| &it.id).collect(),
        ),
        ("files", record.files.iter().map(|it| &it.id).collect()),
        (
            "plausible",
            record.plausible.iter().map(|it| &it.id).collect(),
        ),
    ];
    let mut seen: BTreeSet<&Id> = BTreeSet::new();
    for (list, ids) in &lists {
        for (i, id) in ids.iter().enumerate() {
            let field = format!("{list}[{i}].id");
            if id.trim().is_empty() {
                report(
                    field,
                    "a name is missing".to_owned(),
                    "give it a short one, such as S1",
                );
            } else if !seen.insert(id) {
                report(
                    field,
                    format!("{id:?} is the name of something else in this record"),
                    "give each account, statement, measurement, file and range a name of its own",
                );
            }
        }
    }
}

fn references(record: &AuditRecord, report: &mut impl FnMut(String, String, &str)) {
    let files: BTreeSet<&Id> = record.files.iter().map(|it| &it.id).collect();
    let mut known = files.clone();
    known.extend(record.accounts.iter().map(|it| &it.id));
    known.extend(record.statements.iter().map(|it| &it.id));
    known.extend(record.measurements.iter().map(|it| &it.id));
    let mut named: Vec<(String, &Id, bool)> = Vec::new();
    for (i, account) in record.accounts.iter().enumerate() {
        for (k, item) in account.found.iter().enumerate() {
            for (n, id) in item.rests_on.iter().enumerate() {
                named.push((format!("accounts[{i}].found[{k}].rests_on[{n}]"), id, false));
            }
        }
        for (k, lashing) in account.lashings.iter().enumerate() {
            if let Some(photo) = &lashing.photo {
                named.push((format!("accounts[{i}].lashings[{k}].photo"), photo, true));
            }
        }
    }
    for (i, measurement) in record.measurements.iter().enumerate() {
        for (n, id) in measurement.files.iter().enumerate() {
            named.push((format!("measurements[{i}].files[{n}]"), id, true));
        }
    }
    for (i, event) in record.events.iter().enumerate() {
        for (n, id) in event.says.iter().enumerate() {
            named.push((format!("events[{i}].says[{n}]"), id, false));
        }
    }
    for (field, id, is_file) in named {
        let set = if is_file { &files } else { &known };
        if !set.contains(id) {
            let what = if is_file {
                "file"
            } else {
                "account, statement, measurement or file"
            };
            report(
                field,
                format!("no {what} of this record is called {id:?}"),
                "add it, or name one that is there",
            );
        }
    }
}

fn ranges(record: &AuditRecord, report: &mut impl FnMut(String, String, &str)) {
    const HELP: &str = "write the lower one first";
    for (i, plausible) in record.plausible.iter().enumerate() {
        let [low, high] = plausible.roll_amplitude_deg;
        if low > high {
            let message = format!("from {low} to {high} is no range");
            report(format!("plausible[{i}].roll_amplitude_deg"), message, HELP);
        }
    }
    let log = record.motion_log.as_ref();
    if let Some([from, to]) = log.and_then(|log| log.closely_s)
        && !(0.0 <= from && to - from >= 1.0)
    {
        let message = format!("from {from} to {to} s is no stretch of the log");
        let help =
            "write seconds from the start of the log, the earlier first, one second at least";
        report("motion_log.closely_s".to_owned(), message, help);
    }
    for (i, assumption) in record.assumptions.iter().enumerate() {
        let (low, high) = (assumption.least, assumption.most);
        if low > high {
            let message = format!("from {low} to {high} is no range");
            report(format!("assumptions[{i}].least"), message, HELP);
        }
    }
    for (i, injured) in record.injured.iter().enumerate() {
        let is_letter =
            injured.letter.len() == 1 && injured.letter.bytes().all(|it| it.is_ascii_uppercase());
        if !is_letter {
            report(
                format!("injured[{i}].letter"),
                "who was hurt stands as one capital letter".to_owned(),
                "write A for the first, B for the second; no names, nothing medical",
            );
        }
    }
}
