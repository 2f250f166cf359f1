//! The work on deck from part to part, who does it, and when to push again.

use super::{HEADING_PT, LIST_PT};
use crate::brief::{Brief, DeckWork};
use crate::day::StepKind;
use crate::sheet::texts::Texts;

/// A paragraph for each part of the day in which something is done. Who sits down or goes below is not told: they do
/// that without a sheet.
pub(super) fn deck_work(texts: &mut Texts, brief: &Brief) {
    let told: Vec<String> = brief.deck_work.iter().filter_map(told).collect();
    if told.is_empty() {
        return;
    }
    texts.heading(HEADING_PT, "Work on deck, part by part (by whom)");
    for part in &told {
        texts.point(LIST_PT, "–", part);
    }
}

fn told(part: &DeckWork) -> Option<String> {
    let lines = part.lines.iter();
    let lines = lines.filter(|line| line.kind != StepKind::Person);
    let lines = lines.enumerate();
    let mut told: Vec<String> = lines
        .map(|(index, line)| format!("{} {}.", index + 1, line.told()))
        .collect();
    let again = part.push_again.iter().map(|when| when.words());
    let again: Vec<&str> = again.collect();
    if !again.is_empty() {
        told.push(format!("Push again {}.", again.join("; ")));
    }
    (!told.is_empty()).then(|| format!("{}: {}", part.name, told.join(" ")))
}
