//! The audit as lines for people.

use std::fmt::Write as _;

use crate::audit::{AccountAudit, Audit, Difference, LogTold, ReverseRow};
use crate::cli::columns::{Align, paragraph, table};
use crate::cli::reach::rows;
use crate::record::{AuditRecord, FileState};

pub(super) fn text(audit: &Audit, width: usize) -> String {
    let mut text = String::new();
    writeln!(text, "{}\n{}: {}", audit.title, audit.boat, audit.moment).ok();
    text.push_str(&paragraph("", 0, 0, &audit.motion, width));
    text.push('\n');
    for sentence in &audit.summary {
        text.push_str(&paragraph("", 0, 0, sentence, width));
    }
    heading(&mut text, "What each cylinder needed to go");
    reverse(&mut text, audit);
    for account in &audit.accounts {
        heading(
            &mut text,
            &format!("Account {}: {}", account.id, account.by),
        );
        one_account(&mut text, account, width);
    }
    if audit.accounts.len() > 1 {
        heading(&mut text, "Side by side");
        list(&mut text, &audit.agreed, "All accounts: ", width);
        for item in &audit.disputed {
            let who = format!("Only {}: ", item.accounts.join(", "));
            list(&mut text, std::slice::from_ref(&item.sentence), &who, width);
        }
    }
    rest(&mut text, audit, width);
    text
}

fn heading(text: &mut String, words: &str) {
    writeln!(text, "\n{words}").ok();
}

fn list(text: &mut String, items: &[String], before: &str, width: usize) {
    for item in items {
        text.push_str(&paragraph("-", 1, 2, &format!("{before}{item}"), width));
    }
}

/// All accounts beside each other and the plan.
fn reverse(text: &mut String, audit: &Audit) {
    let mut names: Vec<&str> = Vec::new();
    for row in audit.accounts.iter().flat_map(|account| &account.reverse) {
        if !names.contains(&row.cylinder.as_str()) {
            names.push(&row.cylinder);
        }
    }
    if names.is_empty() {
        text.push_str("No cylinder is in question.\n");
        return;
    }
    let titles: Vec<String> = audit
        .accounts
        .iter()
        .map(|account| format!("account {}", account.id))
        .collect();
    let mut headings = vec![("cylinder", Align::Left), ("as planned", Align::Left)];
    headings.extend(titles.iter().map(|title| (title.as_str(), Align::Left)));
    // With a spot only those are asked about who could have come there.
    let none = if audit.record.marked_spot.is_some() {
        "out of reach"
    } else {
        "not aboard"
    };
    let rows: Vec<Vec<String>> = names
        .iter()
        .map(|name| {
            let of = |account: &AccountAudit| -> Option<ReverseRow> {
                let mut rows = account.reverse.iter();
                rows.find(|row| row.cylinder == *name).cloned()
            };
            let planned = audit.accounts.iter().find_map(of);
            let planned = planned.map_or_else(String::new, |row| row.as_planned.words);
            let mut cells = vec![(*name).to_owned(), planned];
            cells.extend(audit.accounts.iter().map(|account| {
                of(account).map_or_else(|| none.to_owned(), |row| row.as_found.words)
            }));
            cells
        })
        .collect();
    text.push_str(&table(&headings, &rows));
    for range in &audit.plausible {
        let [low, high] = range.roll_deg;
        writeln!(
            text,
            "{} ({}): {low:.1}° to {high:.1}° of roll; {}",
            range.id,
            range.source.words(),
            range.from
        )
        .ok();
    }
}

fn one_account(text: &mut String, account: &AccountAudit, width: usize) {
    if account.comparison.differences.is_empty() {
        text.push_str("Found as planned.\n");
    }
    let mut last: Option<&Difference> = None;
    for difference in &account.comparison.differences {
        let label = format!("{}: {}.", difference.kind.words(), difference.sentence);
        text.push_str(&paragraph("-", 1, 2, &label, width));
        let same =
            last.is_some_and(|old| old.about == difference.about && old.thing == difference.thing);
        last = Some(difference);
        if same {
            continue;
        }
        for change in &difference.limits {
            let line = format!(
                "alone: {} {} → {}",
                change.cylinder, change.planned, change.with_it
            );
            text.push_str(&paragraph("", 0, 4, &line, width));
        }
        for change in &difference.undone {
            let line = format!(
                "undone: {} {} → {}",
                change.cylinder, change.found, change.without_it
            );
            text.push_str(&paragraph("", 0, 4, &line, width));
        }
    }
    list(text, &account.lashings, "", width);
    reach(text, account, width);
    held(text, account, width);
    if let Some(over_time) = &account.over_time {
        text.push_str("Under the recorded motion:\n");
        for went in &over_time.went {
            let line = format!("{:.1} s: {} {}.", went.time_s, went.cylinder, went.sentence);
            text.push_str(&paragraph("-", 1, 2, &line, width));
        }
        for near in &over_time.nearest {
            let rocking = near.rocking.iter().map(|verdict| format!("; {verdict}"));
            let line = format!(
                "{}: {}{}",
                near.cylinder,
                near.margin,
                rocking.collect::<String>()
            );
            text.push_str(&paragraph("-", 1, 2, &line, width));
        }
        list(text, &over_time.notes, "", width);
    }
    if !account.how_sure.is_empty() {
        text.push_str("How sure the limits are:\n");
        for band in &account.how_sure {
            text.push_str(&paragraph("-", 1, 2, &band.sentence, width));
        }
    }
    for finding in &account.findings {
        let line = format!(
            "{} {}: {} [{}]",
            finding.signal,
            finding.code,
            finding.sentence,
            finding.clauses.join("; ")
        );
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
}

fn reach(text: &mut String, account: &AccountAudit, width: usize) {
    if !account.reach.is_empty() {
        text.push_str("Who could have reached the marked spot:\n");
        text.push_str(&rows(&account.reach, width));
    }
}

fn held(text: &mut String, account: &AccountAudit, width: usize) {
    let held = &account.held;
    if held.cylinders.is_empty() {
        return;
    }
    let line = format!("What would have held {}:", held.wanted_from);
    text.push_str(&paragraph("", 0, 0, &line, width));
    let yes = |holds: bool| if holds { "holds" } else { "goes" };
    let mut rows = vec![
        ("as found".to_owned(), &held.as_found),
        ("the plan as issued".to_owned(), &held.as_planned),
    ];
    rows.extend(
        held.singles
            .iter()
            .map(|tried| (tried.labels.join("; "), &tried.outcome)),
    );
    for (what, outcome) in rows {
        let first = outcome.first_words();
        let line = format!("{}: {what}; first to go: {first}", yes(outcome.holds));
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
    if let Some(set) = &held.smallest {
        let line = format!("Smallest set that holds: {}.", set.labels.join("; "));
        text.push_str(&paragraph("", 0, 0, &line, width));
    }
    text.push_str(&paragraph("", 0, 0, &held.searched, width));
}

/// What stands in the record beside the accounts: its time line, what was assumed, comments.
fn beside(text: &mut String, record: &AuditRecord, width: usize) {
    if !record.events.is_empty() {
        heading(text, "Time line");
    }
    for event in &record.events {
        let at = (event.at_s).map_or_else(String::new, |at_s| format!(" ({at_s:.0} s)"));
        let line = format!(
            "{}{at}: {}; {}",
            event.when,
            event.what,
            event.state.words()
        );
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
    if !record.assumptions.is_empty() {
        heading(text, "Assumed");
    }
    for it in &record.assumptions {
        let range = format!("{} to {} {}", it.least, it.most, it.unit);
        let line = format!("{}: {} ({})", it.what, range.trim_end(), it.why);
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
    if !record.comments.is_empty() {
        heading(text, "Comments, as they were given");
    }
    for comment in &record.comments {
        let line = format!("{}: {}", comment.by, comment.text);
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
}

/// How the motion log was read, and what was put right or assumed of it.
fn log(text: &mut String, log: &LogTold, width: usize) {
    heading(text, "The motion log");
    if let Some(why) = &log.trouble {
        let line = format!("It was of no use: {why}.");
        text.push_str(&paragraph("", 0, 0, &line, width));
    }
    list(text, &log.read, "", width);
    for it in &log.assumed {
        let line = format!("{} ({})", it.what, it.why);
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
    list(text, &log.not_known, "Not known to a replay: ", width);
}

fn rest(text: &mut String, audit: &Audit, width: usize) {
    if let Some(told) = &audit.motion_log {
        log(text, told, width);
    }
    if !audit.conflicts.is_empty() {
        heading(text, "Where published rules do not agree");
        for conflict in &audit.conflicts {
            list(
                text,
                &conflict.rules,
                &format!("{} ", conflict.about),
                width,
            );
        }
    }
    beside(text, &audit.record, width);
    heading(text, "Not known");
    list(text, &audit.not_known, "", width);
    heading(text, "Made from");
    for input in &audit.inputs {
        let hash = input.sha256.as_deref().unwrap_or("no file");
        let mut line = format!("{}: {}, {hash}", input.what, input.path);
        if input.state != FileState::Itself {
            write!(line, ", {}", input.state.words()).ok();
        }
        text.push_str(&paragraph("-", 1, 2, &line, width));
    }
    writeln!(text, "by {}\n", audit.program).ok();
    for caution in &audit.cautions {
        text.push_str(&paragraph("", 0, 0, caution, width));
    }
}
