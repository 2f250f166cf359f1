//! After an incident.

use super::super::audit::Look;

pub(crate) const TITLE: &str = "After an incident";
pub(crate) const LEAVE: &str = "Back to the deck plan";
pub(crate) const CHOOSE_RECORD: &str = "Open an audit record";
pub(crate) const NOT_OPENED: &str = "The record was not opened";
pub(crate) const NOTHING_TO_AUDIT: &str = "the plan has no part of the day to audit";
pub(crate) const ACCOUNT: &str = "Account looked at (A: the next one)";
pub(crate) const PAPER: &str = "Paper of the report";
pub(crate) const A4: &str = "A4";
pub(crate) const LETTER: &str = "US Letter";
pub(crate) const SAVE: &str = "Save the report…";
pub(crate) const SAVE_REPORT: &str = "Save the report";
pub(crate) const ANOTHER: &str = "Another record…";
pub(crate) const NOT_WRITTEN: &str = "The report was not saved";
pub(crate) const FILE_NAME: &str = "audit.pdf";
pub(crate) const PAGE_BEFORE: &str = "Page before";
pub(crate) const NEXT_PAGE: &str = "Next page";
pub(crate) const AS_PLANNED: &str = "Found as planned.";
pub(crate) const NO_DIFFERENCE: &str = "No account has anything otherwise than planned.";
pub(crate) const NO_SPOT: &str = "The record marks no spot on deck.";
pub(crate) const NOBODY: &str = "By this account no cylinder could have reached the marked spot.";
pub(crate) const CYLINDER: &str = "cylinder";
pub(crate) const PLANNED: &str = "as planned";
pub(crate) const FOUND: &str = "as found";
pub(crate) const AS_ISSUED: &str = "the plan as issued";
pub(crate) const OUT_OF_REACH: &str = "out of reach";
pub(crate) const NOT_ABOARD: &str = "not aboard";
pub(crate) const ONE_THING: &str = "with one thing otherwise";
pub(crate) const NOTHING_CHANGES_IT: &str = "nothing that was tried changes it";
pub(crate) const KIND: &str = "kind";
pub(crate) const WHAT: &str = "what";
pub(crate) const ALONE: &str = "the plan with it alone";
pub(crate) const UNDONE: &str = "as found with it undone";
pub(crate) const NO_LIMIT: &str = "changes no limit";
pub(crate) const WITH_ABOVE: &str = "with the row above";
pub(crate) const STOWAGE: &str = "stowage";
pub(crate) const VERDICT: &str = "verdict";
pub(crate) const FIRST: &str = "first to go";
pub(crate) const TO_THE_PLAN: &str = "difference to the plan";
pub(crate) const HOW_SURE: &str = "How sure these limits are";
pub(crate) const RECORDED: &str = "Under the recorded motion";
pub(crate) const NOTHING_WENT: &str = "Nothing went.";
pub(crate) const SAYS_SO: &str = "says so";
pub(crate) const SAYS_NOTHING: &str = "–";

pub(crate) const PROGRESS: &str = "How much of it is done";
pub(crate) const GIVE_UP: &str = "Give up";
pub(crate) const ENDED: &str = "it ended before it was done";
pub(crate) const PAGES_MADE: &str = "The pages are being made.";
pub(crate) const NO_LOG: &str = "The record names no log of the boat's motion.";
pub(crate) const LOG_CHANGED: &str =
    "the motion log is not the one that was audited any more; open the record again";
pub(crate) const TIME_LINE: &str = "What the record says";
pub(crate) const LOG_ASSUMED: &str = "Taken of the log";
pub(crate) const NOT_KNOWN: &str = "Not known";

/// A record is being worked on.
pub(crate) fn working(name: &str) -> String {
    format!("{name} is being read and worked out. The deck plan stays as it is.")
}

/// What a replay does not know.
pub(crate) fn not_known_to_it(what: &str) -> String {
    format!("Not known to it: {what}.")
}

/// The log could not be used.
pub(crate) fn log_of_no_use(why: &str) -> String {
    format!("The motion log was of no use: {why}. Nothing was replayed.")
}

/// An event of the record's time line.
pub(crate) fn event(when: &str, at_s: Option<f64>, what: &str) -> String {
    match at_s {
        Some(at_s) => format!("{when} ({at_s:.0} s)  {what}"),
        None => format!("{when}  {what}"),
    }
}

/// Something that was assumed, and why.
pub(crate) fn assumed(what: &str, why: &str) -> String {
    format!("{what} ({why})")
}

/// One of several points.
pub(crate) fn point(sentence: &str) -> String {
    format!("– {sentence}")
}

/// What can be looked at.
pub(crate) fn look(look: Look) -> &'static str {
    match look {
        Look::Words => "In plain words",
        Look::Found => "Planned and found",
        Look::Needed => "What it took to go",
        Look::Reach => "Who could have reached it",
        Look::Held => "What would have held",
        Look::OverTime => "The recorded motion",
        Look::Accounts => "Accounts side by side",
        Look::Report => "The report",
    }
}

/// One account, by whom.
pub(crate) fn account(id: &str, by: &str) -> String {
    format!("Account {id}: {by}")
}

/// The column of an account.
pub(crate) fn by_account(id: &str) -> String {
    format!("account {id}")
}

/// A deck as a picture.
pub(crate) fn deck(name: &str) -> String {
    format!("{name}, planned and found")
}

/// The fall of a cylinder as a picture.
pub(crate) fn fall(cylinder: &str) -> String {
    format!("How {cylinder} could have come there")
}

/// What was asked of the remedies.
pub(crate) fn asked(what: &str) -> String {
    format!("Asked was {what}.")
}

/// A plausible range.
pub(crate) fn range(id: &str, source: &str, low: f64, high: f64, from: &str) -> String {
    format!("{id} ({source}): {low:.1}° to {high:.1}° of roll; {from}")
}

/// What went when.
pub(crate) fn went(time_s: f64, cylinder: &str, sentence: &str) -> String {
    format!("{time_s:.1} s: {cylinder} {sentence}.")
}

/// Does it hold?
pub(crate) fn verdict(holds: bool) -> &'static str {
    if holds { "holds" } else { "goes" }
}

/// The smallest set that holds.
pub(crate) fn smallest(labels: &str) -> String {
    format!("smallest set: {labels}")
}

/// Which page.
pub(crate) fn page_of(page: usize, count: usize) -> String {
    format!("page {page} of {count}")
}

/// What the record refers to stays as it is.
pub(crate) fn is_input(path: &str, what: &str) -> String {
    format!(
        "{path} is an input of this audit ({what}): nothing takes its place.\nName another file."
    )
}

/// It was saved.
pub(crate) fn written(path: &str) -> String {
    format!("Saved: {path}")
}
