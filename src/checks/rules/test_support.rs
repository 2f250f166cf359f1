//! The one place through which the tests of all rules reach the API.

use crate::checks::{Finding, fixture, run};
use crate::engine::Assessor;

/// All findings on a tiny deck.
#[track_caller]
pub(in crate::checks) fn findings(text: &str) -> Vec<Finding> {
    let plan = match fixture::plan(text) {
        Ok(plan) => plan,
        Err(trouble) => panic!("{trouble}"),
    };
    let mut assessor = Assessor::default();
    run(&mut assessor, &plan, &plan.trips[0])
}

/// One line for a finding: signal, code, what it is about, and whether it waits for what nobody knows.
pub(in crate::checks) fn line(finding: &Finding) -> String {
    let mut words = vec![finding.signal.to_string(), finding.code.to_owned()];
    words.extend(finding.about.iter().map(|subject| subject.id.clone()));
    if finding.not_known {
        words.push("not known".to_owned());
    }
    words.join(" ")
}

fn lines(findings: &[Finding]) -> String {
    let lines: Vec<_> = findings
        .iter()
        .map(|finding| format!("{}: {}", line(finding), finding.sentence))
        .collect();
    lines.join("\n")
}

/// Expects exactly one finding of the code in the line, and that it starts like the line:
/// `DANGER U101 P1`.
#[track_caller]
pub(in crate::checks) fn fires(text: &str, expected: &str) {
    let code = expected.split(' ').nth(1).unwrap();
    let findings = findings(text);
    let of_code: Vec<_> = findings.iter().filter(|item| item.code == code).collect();
    let is_it = of_code.len() == 1 && line(of_code[0]).starts_with(expected);
    assert!(is_it, "expected {expected}, found:\n{}", lines(&findings));
}

/// Expects no finding whose code starts so.
#[track_caller]
pub(in crate::checks) fn silent(text: &str, code: &str) {
    let findings = findings(text);
    let none = findings.iter().all(|item| !item.code.starts_with(code));
    assert!(none, "expected no {code}, found:\n{}", lines(&findings));
}

/// Expects a finding of this code whose sentence has these words in it.
#[track_caller]
pub(in crate::checks) fn says(text: &str, code: &str, words: &str) {
    let findings = findings(text);
    let said = findings
        .iter()
        .any(|item| item.code == code && item.sentence.contains(words));
    assert!(
        said,
        "expected {code} to say {words:?}, found:\n{}",
        lines(&findings)
    );
}
