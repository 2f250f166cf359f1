use super::*;
use crate::checks::rules::test_support::{findings, line};

const HEADINGS: &[&str] = &["## What it checks", "## Why it matters", "## Source"];

#[test]
fn every_check_is_documented() {
    for check in ALL {
        for heading in HEADINGS {
            let section = check.section(heading);
            assert!(section.len() > 10, "{}: no {heading:?}", check.code);
        }
    }
}

#[test]
fn codes_and_names_are_sorted_and_unique() {
    let codes: Vec<_> = ALL.iter().map(|check| check.code).collect();
    assert!(codes.is_sorted_by(|a, b| a < b), "{codes:?}");
    let mut names: Vec<_> = ALL.iter().map(|check| check.name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), ALL.len(), "a name is used twice");
}

#[test]
fn files_are_named_after_their_check() {
    for check in ALL {
        let file = format!("rules/{}.rs", check.name.replace('-', "_"));
        let is_it = check.file.replace('\\', "/").ends_with(&file);
        assert!(is_it, "{}: {}", check.code, check.file);
    }
}

#[test]
fn each_rule_fires_in_its_first_picture_and_not_in_its_second() {
    let mut wrong = Vec::new();
    for check in ALL {
        let [fires, silent] = check.pictures.map(findings);
        let has = |findings: &[Finding]| findings.iter().any(|item| item.code == check.code);
        let lines = |findings: &[Finding]| {
            let lines: Vec<_> = findings
                .iter()
                .map(|item| format!("{}: {}", line(item), item.sentence))
                .collect();
            lines.join(", ")
        };
        if !has(&fires) {
            wrong.push(format!("{} does not fire: {}", check.code, lines(&fires)));
        }
        if has(&silent) {
            wrong.push(format!(
                "{} fires where it should not: {}",
                check.code,
                lines(&silent)
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_finding_is_graver_than_its_rule() {
    for check in ALL {
        for text in check.pictures {
            for finding in findings(text) {
                let of = find(finding.code).unwrap();
                assert!(finding.signal <= of.signal, "{}", line(&finding));
            }
        }
    }
}
