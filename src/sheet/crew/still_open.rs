//! What is still open, for whoever accepts it: many points of one rule told as one, nothing withheld.

use super::{HEADING_PT, Setting};
use crate::brief::{Brief, OpenPoint, TalkPoint, natural, runs};
use crate::checks::digest::NotKnown;
use crate::layout::Id;
use crate::sheet::texts::Texts;

/// What is open, what was taken on, what nobody knows, and how far it is good.
pub(super) fn still_open(texts: &mut Texts, brief: &Brief, Setting { open_pt, .. }: Setting) {
    if brief.still_open.is_empty() {
        let text = if brief.ashore.is_empty() {
            "Still open: nothing is left to put right."
        } else {
            "Still open: nothing is left to put right with what is aboard."
        };
        texts.paragraph(open_pt, text);
    } else {
        texts.heading(HEADING_PT, "Still open");
    }
    for line in folded(&brief.open_points, &brief.talk_points) {
        texts.point(open_pt, "–", &line);
    }
    if !brief.taken_on.is_empty() {
        texts.heading(HEADING_PT, "Taken on");
        for line in &brief.taken_on {
            texts.point(open_pt, "–", line);
        }
    }
    if !brief.not_known.is_empty() {
        texts.heading(HEADING_PT, "Not known");
        let them = NotKnown::told(&brief.not_known);
        texts.paragraph(open_pt, &format!("Nobody knows {them}."));
    }
    if !brief.cards.is_empty() {
        return;
    }
    texts.heading(HEADING_PT, "How far the stowage is good");
    for (parts, sentence) in limits(brief) {
        texts.point(open_pt, "–", &format!("{parts}: {sentence}"));
    }
}

/// More points of one rule than this are told as one, with the names of all that they are about.
const MOST_ALIKE: usize = 3;

/// What is open, many points of one rule together: the first of them in full, then the names of the others with the
/// parts of the day in which they stand where these are not its own. What is said on the quay is not said again.
pub(super) fn folded(points: &[OpenPoint], said: &[TalkPoint]) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    let said_in = |point: &OpenPoint| {
        let mut said = said.iter();
        // The first is said of every cylinder, whatever is found.
        let found =
            said.position(|it| it.finding == point.finding && it.say.contains(&point.sentence));
        found.filter(|_| point.finding.is_some())
    };
    for point in points {
        if let Some(index) = said_in(point) {
            let about = named(point.about.clone()).join(", ");
            told.push(format!(
                "{}: {about}: as said in point {}",
                point.heading(),
                index + 1
            ));
            continue;
        }
        if seen.contains(&point.word.as_str()) {
            continue;
        }
        let alike = points.iter().filter(|it| it.word == point.word);
        let alike: Vec<&OpenPoint> = alike.filter(|it| said_in(it).is_none()).collect();
        if alike.len() <= MOST_ALIKE {
            told.push(format!("{}: {}", point.heading(), point.sentence));
            continue;
        }
        seen.push(&point.word);
        let mut groups: Vec<(&str, Vec<Id>)> = Vec::new();
        for other in &alike[1..] {
            let about = other.about.iter().cloned();
            match groups.iter_mut().find(|(when, _)| *when == other.when) {
                Some((_, names)) => names.extend(about),
                None => groups.push((&other.when, about.collect())),
            }
        }
        // Those of the same parts of the day first, as what stands in brackets ends a group.
        groups.sort_by_key(|(when, _)| *when != point.when);
        let groups = groups.into_iter().map(|(when, names)| {
            let names = named(names).join(", ");
            if when == point.when {
                names
            } else {
                format!("{names} ({when})")
            }
        });
        let others: Vec<String> = groups.collect();
        told.push(format!(
            "{}: {}. Of the same rule, {} more with other figures: {}.",
            point.heading(),
            point.sentence.trim_end_matches('.'),
            alike.len() - 1,
            others.join("; ")
        ));
    }
    told
}

/// Names as people list them: each once, in the order in which one counts, runs of them by first and last.
fn named(mut names: Vec<Id>) -> Vec<String> {
    names.sort_by_key(|name| natural(name));
    names.dedup();
    runs(&names)
}

/// Limits by their sentence: parts of the day with the same one are told together.
fn limits(brief: &Brief) -> Vec<(String, &str)> {
    let mut told: Vec<(String, &str)> = Vec::new();
    for line in &brief.limits {
        let (part, sentence) = line.split_once(": ").unwrap_or((line, ""));
        match told.iter_mut().find(|(_, old)| *old == sentence) {
            Some((parts, _)) => {
                parts.push_str("; ");
                parts.push_str(part);
            }
            None => told.push((part.to_owned(), sentence)),
        }
    }
    told
}
