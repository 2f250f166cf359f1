//! The limit card of a part of the day.

use std::fmt::Write as _;

use crate::checks::LimitCard;

pub(crate) const WORKING: &str = "Working it out…";
pub(crate) const NONE: &str = "There is no card: the trip has no such part of the day.";
pub(crate) const TRYING_CURES: &str = "Trying what would raise it…";
pub(crate) const NOT_KNOWN: &str = "What it does not know";
pub(crate) const NOT_CURED: &str = "What nothing that was tried keeps";
pub(crate) const COPY: &str = "Copy the card";
pub(crate) const PLOT: &str = "How much is to spare in higher seas";
pub(crate) const ACROSS: &str = "m of significant wave height";
pub(crate) const UP: &str = "goes at so many times the motion";
pub(crate) const AS_STOWED: &str = "as stowed";
pub(crate) const CURED: &str = "with the cures counted in";
pub(crate) const GOES_BELOW: &str = "goes below this";

pub(crate) fn own_motion(sentence: &str) -> String {
    let rest = sentence.strip_prefix("The stowage, not the boat: ");
    format!("In this part's own motion: {}", rest.unwrap_or(sentence))
}

pub(crate) fn cure(number: usize, label: &str, sentence: &str) -> String {
    format!("{number}. {label}. {sentence}")
}

pub(crate) fn apply(count: usize) -> String {
    match count {
        1 => "Do this one".to_owned(),
        count => format!("Do the first {count}"),
    }
}

pub(crate) fn step_cures(count: usize) -> String {
    match count {
        1 => "Raise the limit".to_owned(),
        count => format!("Raise the limit by {count} cures"),
    }
}

pub(crate) fn bullet(line: &str) -> String {
    format!("· {line}")
}

pub(crate) fn point(height_m: f64, share: f64) -> String {
    format!(
        "{height_m:.1} m: goes at {:.0} % of the motion",
        100.0 * share
    )
}

pub(crate) fn plot(good_to_m: Option<f64>) -> String {
    good_to_m.map_or_else(
        || "It holds in all that was tried".to_owned(),
        |good| format!("It holds up to {good:.2} m of significant wave height"),
    )
}

/// The card as lines to paste elsewhere.
pub(crate) fn as_text(card: &LimitCard) -> String {
    let mut text = format!("{}\n{}\n", card.name, card.sea_sentence);
    writeln!(text, "{}", own_motion(&card.roll_sentence)).ok();
    for (index, best) in card.cures.iter().enumerate() {
        let label = best.cure.label.to_string();
        let line = cure(index + 1, label.trim_end_matches('.'), &best.sentence);
        writeln!(text, "{line}").ok();
    }
    if let Some(cured) = &card.with_cures {
        writeln!(text, "{}", cured.sentence).ok();
    }
    for margin in &card.margins {
        if let Some(share) = margin.share {
            writeln!(text, "{}", point(margin.wave_height_m, share)).ok();
        }
    }
    writeln!(text, "{NOT_KNOWN}: {}", card.limits.join("; ")).ok();
    text
}
