//! The work on deck from part to part, who does it, and when to push again.

use super::{HEADING_PT, LIST_PT};
use crate::brief::{Brief, DeckWork};
use crate::day::StepKind;
use crate::sheet::texts::Texts;

/// For each part of the day in which something is done a line for each thing. Who sits down or goes below is not told:
/// they do that without a sheet.
pub(super) fn deck_work(texts: &mut Texts, brief: &Brief) {
    let mut parts = brief.deck_work.iter().map(told);
    let mut is_first = true;
    for (name, steps, again) in parts
        .by_ref()
        .filter(|(_, steps, again)| !steps.is_empty() || !again.is_empty())
    {
        if std::mem::take(&mut is_first) {
            texts.heading(HEADING_PT, "Work on deck, part by part (by whom)");
        }
        if steps.is_empty() {
            texts.point(LIST_PT, "–", &format!("{name}: {again}"));
            continue;
        }
        texts.point_over(LIST_PT, "–", &format!("{name}:"));
        let most = steps.len().to_string();
        for (index, step) in steps.iter().enumerate() {
            texts.step(LIST_PT, (&format!("{}", index + 1), &most), step);
        }
        texts.step(LIST_PT, ("", &most), &again);
    }
}

/// The name of a part of the day, what is done at its beginning, and when to push again.
fn told(part: &DeckWork) -> (&str, Vec<String>, String) {
    let lines = part.lines.iter();
    let lines = lines.filter(|line| line.kind != StepKind::Person);
    let steps = lines.map(|line| format!("{}.", line.told()));
    let again: Vec<&str> = part.push_again.iter().map(|when| when.words()).collect();
    let again = if again.is_empty() {
        String::new()
    } else {
        format!("Push again {}.", again.join("; "))
    };
    (&part.name, steps.collect(), again)
}
