//! What must be put right, folded: findings of the same cause and cure are one line with a count.

use super::Editor;
use crate::checks::{Finding, Signal};

/// One line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Line {
    /// Its signal word.
    pub(crate) signal: Signal,

    /// What it folds, by the place in the list of all; never empty.
    pub(crate) findings: Vec<usize>,

    /// What it says.
    pub(crate) text: String,
}

impl Editor {
    /// The lines of the part of the day shown, the gravest first.
    pub(super) fn lines(&self) -> Vec<Line> {
        fold(&self.findings_listed())
    }

    /// Has the line all words of the search in it, in its text or in the names of what it is about?
    pub(super) fn is_looked_for(&self, line: &Line) -> bool {
        let mut text = format!("{} {}", line.text, line.signal).to_lowercase();
        for index in &line.findings {
            if let Some(finding) = self.live.findings().get(*index) {
                for subject in &finding.about {
                    text.push(' ');
                    text.push_str(&subject.name.to_lowercase());
                }
                text.push(' ');
                text.push_str(&finding.code.to_lowercase());
            }
        }
        if self.sought.only.is_some_and(|only| only != line.signal) {
            return false;
        }
        let search = self.sought.text.to_lowercase();
        search.split_whitespace().all(|word| text.contains(word))
    }
}

fn fold(findings: &[(usize, &Finding)]) -> Vec<Line> {
    let mut lines: Vec<(&str, Line)> = Vec::new();
    for (index, finding) in findings {
        let same = lines.iter_mut().find(|(key, line)| {
            let taken_on = |index: usize| {
                let found = findings.iter().find(|(other, _)| *other == index);
                found.is_some_and(|(_, finding)| finding.taken_on.is_some())
            };
            !finding.fold.is_empty()
                && *key == finding.fold
                && line.signal == finding.signal
                && taken_on(line.findings[0]) == finding.taken_on.is_some()
        });
        match same {
            Some((_, line)) => line.findings.push(*index),
            None => lines.push((
                &finding.fold,
                Line {
                    signal: finding.signal,
                    findings: vec![*index],
                    text: finding.sentence.clone(),
                },
            )),
        }
    }
    let mut lines: Vec<Line> = lines.into_iter().map(|(_, line)| line).collect();
    lines.sort_by_key(|line| std::cmp::Reverse(line.signal));
    lines
}
