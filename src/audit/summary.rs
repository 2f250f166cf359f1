//! The audit in a few plain sentences that blame nobody.

use super::between::Hinders;
use super::needed::{Beside, Needed};
use super::reach::ReachRow;
use super::result::{AccountAudit, Audit};
use crate::checks::words;
use crate::layout::Id;

/// The sentences.
pub(super) fn of(audit: &Audit) -> Vec<String> {
    let mut told = Vec::new();
    if let Some(what) = &audit.record.incident.what_happened {
        told.push(what.clone());
    }
    if audit.accounts.len() > 1 {
        told.push(format!(
            "There are {} accounts of the stowage as found. They are kept apart; none is preferred.",
            audit.accounts.len()
        ));
    }
    for account in &audit.accounts {
        told.push(differences(account));
        told.push(readiest(audit, account));
        told.extend(stopped(account));
        told.push(held(account));
        told.extend(recorded(account));
    }
    if audit.accounts.len() > 1 {
        told.push(agreement(audit));
    }
    if let Some(why) = audit.unreadable_log() {
        told.push(format!(
            "The motion log was of no use: {why}. Nothing was replayed; all else stands without it."
        ));
    }
    let doubtful: Vec<&String> = audit.doubtful().map(|input| &input.what).collect();
    if !doubtful.is_empty() {
        told.push(format!(
            "Not as they were recorded, or missing: {}.",
            words::list(&doubtful)
        ));
    }
    told
}

fn differences(account: &AccountAudit) -> String {
    let mut things: Vec<&Id> = account
        .comparison
        .differences
        .iter()
        .map(|difference| &difference.about)
        .collect();
    things.dedup();
    match things.len() {
        0 => format!(
            "By account {} ({}) the stowage was as planned.",
            account.id, account.by
        ),
        1 => format!(
            "By account {} ({}) one thing was otherwise than planned: {}.",
            account.id, account.by, things[0]
        ),
        count => format!(
            "By account {} ({}) {count} things were otherwise than planned: {}.",
            account.id,
            account.by,
            words::list(&things)
        ),
    }
}

/// The one that needed least, beside the plan and what was plausible.
fn readiest(audit: &Audit, account: &AccountAudit) -> String {
    let has_spot = audit.record.marked_spot.is_some();
    let Some(row) = account.reverse.first() else {
        return if has_spot {
            "No cylinder could have reached the marked spot.".to_owned()
        } else {
            "No cylinder was aboard.".to_owned()
        };
    };
    let whom = if has_spot {
        "Of those that could have reached the marked spot"
    } else {
        "Of all aboard"
    };
    let mut text = format!(
        "{whom}, {} needed the least to go: as found it {}",
        row.cylinder, row.as_found.words
    );
    text.push_str(&as_planned(&row.as_planned));
    let mut beside: Vec<String> = Vec::new();
    for (range, it) in audit.plausible.iter().zip(&row.beside) {
        let [low, high] = range.roll_deg;
        let verdict = match it.as_found {
            Beside::AnyWasEnough => "all of which was enough",
            Beside::PartWasEnough => "of which the upper part was enough",
            Beside::NotReached => "which was not enough",
        };
        beside.push(format!(
            "{} ({}) speaks of {low:.0}° to {high:.0}°, {verdict}",
            range.id,
            range.source.words()
        ));
    }
    if !beside.is_empty() {
        text.push_str(". ");
        text.push_str(&beside.join("; "));
    }
    text.push('.');
    text
}

/// Those that something in between keeps from the spot, as drawn.
fn stopped(account: &AccountAudit) -> Option<String> {
    let rows: Vec<&ReachRow> = account.reach.iter().filter(|row| row.is_stopped).collect();
    let cylinders: Vec<&Id> = rows.iter().map(|row| &row.cylinder).collect();
    let mut things: Vec<&Id> = (rows.iter().flat_map(|row| &row.between))
        .filter(|it| it.hinders == Hinders::StopsShort)
        .map(|it| &it.thing)
        .collect();
    things.sort();
    things.dedup();
    let stops = if things.len() == 1 { "stops" } else { "stop" };
    let whom = if rows.len() == 1 {
        "it on its"
    } else {
        "them on their"
    };
    (!rows.is_empty()).then(|| {
        format!(
            "{} would come as far too, but {} {stops} {whom} way, as drawn.",
            words::list(&cylinders),
            words::list(&things)
        )
    })
}

fn as_planned(needed: &Needed) -> String {
    use super::needed::GoesWith;
    match needed.with {
        GoesWith::NotAboard => "; in the plan it was not aboard".to_owned(),
        _ => format!("; as planned it {}", needed.words),
    }
}

fn held(account: &AccountAudit) -> String {
    let held = &account.held;
    if held.cylinders.is_empty() {
        return "Nothing had to be held there.".to_owned();
    }
    if held.as_found.holds {
        return format!("By this account they would have held {}.", held.wanted_from);
    }
    let planned = if held.as_planned.holds {
        "The plan as issued would have held"
    } else {
        "The plan as issued would not have held"
    };
    let smallest = match &held.smallest {
        Some(set) => format!(
            "; the smallest set of remedies that would have: {}",
            set.labels.join("; ")
        ),
        None if held.as_planned.holds => "; nothing else that was tried would have".to_owned(),
        None => "; nor would anything that was tried".to_owned(),
    };
    format!("{planned} {}{smallest}.", held.wanted_from)
}

/// What the recorded motion does to those in question, and to the others first to go.
fn recorded(account: &AccountAudit) -> Option<String> {
    let over_time = account.over_time.as_ref()?;
    let Some(first) = over_time.went.first() else {
        return Some("Under the recorded motion nothing went.".to_owned());
    };
    let others = over_time.went.len() - 1;
    let more = match others {
        0 => "nothing else went".to_owned(),
        1 => "one more went after it".to_owned(),
        count => format!("{count} more went after it"),
    };
    Some(format!(
        "Under the recorded motion {} was the first to go by this account, {:.1} s into the log: it {}; {more}.",
        first.cylinder, first.time_s, first.sentence
    ))
}

fn agreement(audit: &Audit) -> String {
    match (audit.agreed.len(), audit.disputed.len()) {
        (0, 0) => "The accounts say the same: all was as planned.".to_owned(),
        (agreed, 0) => format!("The accounts agree on all {agreed} differences."),
        (0, disputed) => {
            format!("The accounts agree on no difference; {disputed} are told by some only.")
        }
        (agreed, disputed) => format!(
            "The accounts agree on {agreed} of the differences; {disputed} are told by some only."
        ),
    }
}
