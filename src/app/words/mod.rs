//! Every word of the window: one table, so that a translation is possible.
//!
//! The vocabulary is the crew's; a test keeps the program's own words off the screen.

use super::theme::Theme;
use crate::checks::{Cure, Measure, Signal};
use crate::engine::numbers::LimitNumbers;
use crate::layout::{Condition, ThingKind};
use crate::units::{self, Quantity, System};

pub(crate) mod audit;
pub(crate) mod balance;
pub(crate) mod briefing;
pub(crate) mod by_two_tapes;
pub(crate) mod card;
pub(crate) mod curves;
pub(crate) mod day;
pub(crate) mod decks;
pub(crate) mod dialogs;
pub(crate) mod elevation;
pub(crate) mod limit_card;
pub(crate) mod motion;
pub(crate) mod motion_log;
pub(crate) mod outcome;
pub(crate) mod page_pictures;
pub(crate) mod placing;
pub(crate) mod replay;
pub(crate) mod sea;
pub(crate) mod stores;
pub(crate) mod survey;
pub(crate) mod tour;
pub(crate) mod underlay;
pub(crate) mod writing;

/// The program's name.
pub(crate) const PROGRAM: &str = "Snugdown";

/// Menus.
pub(crate) const MENU_FILE: &str = "File";
pub(crate) const MENU_EDIT: &str = "Edit";
pub(crate) const MENU_ARRANGE: &str = "Arrange";
pub(crate) const MENU_MEASURE: &str = "Measure";
pub(crate) const MENU_PLAN: &str = "Plan";
pub(crate) const MENU_DAY: &str = "Day";
pub(crate) const MENU_LOOK: &str = "Look";
pub(crate) const MENU_HELP: &str = "Help";

/// Titles and names of the regions.
pub(crate) const DECK_PLAN: &str = "Deck plan";
pub(crate) const STORES: &str = "Stores";
pub(crate) const TO_PUT_RIGHT: &str = "To put right";
pub(crate) const SEARCH: &str = "Search the stores";
pub(crate) const NOTHING_FOUND: &str = "Nothing in the stores is called that.";
pub(crate) const TRIP: &str = "Trip";
pub(crate) const DECK: &str = "Deck";
pub(crate) const METRIC: &str = "Metric";
pub(crate) const US: &str = "US";
pub(crate) const BOW: &str = "bow →";
pub(crate) const PORT_UP: &str = "port ↑";

pub(crate) const RECENT: &str = "Opened last";
pub(crate) const NO_FILE: &str = "not in a file yet";
pub(crate) const UNSAVED_HELP: &str = "There are changes that are not saved";
pub(crate) const NO_MOTION: &str = "Rolling: nothing is stowed";

/// The file's name while changes are unsaved.
pub(crate) fn unsaved(file: &str) -> String {
    format!("{file} ● unsaved")
}

/// How the window looks.
pub(crate) fn theme(theme: Theme) -> &'static str {
    match theme {
        Theme::Light => "Light",
        Theme::Dark => "Dark",
        Theme::Sunlight => "Sunlight",
    }
}

/// What the boat is doing.
pub(crate) fn condition(condition: Condition) -> &'static str {
    match condition {
        Condition::MadeFast => "made fast",
        Condition::AtAnchor => "at anchor",
        Condition::Drifting => "drifting",
        Condition::Running => "running",
    }
}

/// "cylinder P6".
pub(crate) fn titled(kind: ThingKind, name: &str) -> String {
    let kind = kind.to_string();
    let mut letters = kind.chars();
    let first = letters.next().map(char::to_uppercase).into_iter().flatten();
    let kind: String = first.chain(letters).collect();
    format!("{kind} {name}")
}

/// A part of the day with its gravest signal word.
pub(crate) fn part(name: &str, worst: Option<Signal>) -> String {
    match worst {
        Some(signal) => format!("{name}: {signal}"),
        None => name.to_owned(),
    }
}

/// "goes at 8°, P6 first".
pub(crate) fn then(outcome: &str, first: &str) -> String {
    format!("{outcome}, {first} first")
}

/// "DANGER: 3".
pub(crate) fn signal_count(signal: Signal, count: usize) -> String {
    format!("{signal}: {count}")
}

/// "clear width: 0.42 m, limit 0.61 m", in the units shown.
pub(crate) fn measure(measure: &Measure, system: System) -> String {
    let Measure {
        what,
        value,
        limit,
        unit,
    } = measure;
    let show = |value: f64| match *unit {
        "m" => Quantity::Length.show(value, system),
        "kg" => Quantity::Mass.show(value, system),
        "N" => units::pull(value, system),
        "kN" => units::pull(1000.0 * value, system),
        "kg/m²" => Quantity::AreaLoad.show(value, system),
        "J" => Quantity::Energy.show(value, system),
        "" => format!("{value:.2}"),
        unit => format!("{value:.2} {unit}"),
    };
    let limit = show(*limit);
    match value {
        Some(value) => format!("{what}: {}, limit {limit}", show(*value)),
        None => format!("{what}: without end, limit {limit}"),
    }
}

/// See the text.
pub(crate) fn when(case: &str) -> String {
    format!("when {case}")
}

/// See the text.
pub(crate) fn hand_test(test: &str) -> String {
    format!("Find out: {test}")
}

/// A line that names its things, and how often it stands where that is more often.
pub(crate) fn folded(text: &str, named: usize, times: usize) -> String {
    if times > named {
        format!("{text} ({times} times)")
    } else {
        text.to_owned()
    }
}

/// A button that cures.
pub(crate) fn cure(label: &str) -> String {
    format!("Put it right: {label}")
}

pub(crate) const SEARCH_FINDINGS: &str = "Search these";
pub(crate) const WHOLE_DAY: &str = "Whole day";
pub(crate) const WHOLE_DAY_HELP: &str = "List what must be put right in all parts of the day";
pub(crate) const ONLY_THESE: &str = "List only these; press again for all";

/// "Taken on: 2".
pub(crate) fn taken_on_count(count: usize) -> String {
    format!("Taken on, not counted: {count}")
}

pub(crate) const NONE_LOOKED_FOR: &str = "Nothing to put right has that in it.";

/// "Taken on by Ann: only alongside".
pub(crate) fn taken_on(by: &str, reason: &str) -> String {
    format!("Taken on by {by}: {reason}")
}

pub(crate) const TRYING: &str = "Trying cures…";
pub(crate) const NO_CURE: &str = "No cure was found that helps; the crew must decide.";

/// Where no cure was found and nobody has told what is aboard.
pub(crate) const NO_GEAR_TOLD: &str = "No straps, chocks, mats or boots are told to be aboard. With nothing selected, the card has \
     “This trip” and in it “Gear aboard”: fill it in, and more is tried.";
pub(crate) const RAISES_MOST: &str = "What raises it most, one after the other:";

/// "Good to 6.9° of roll, then P6; the boat rolls 15°."
pub(crate) fn good_to(limit: &LimitNumbers, first: &str, rolls_deg: f64) -> String {
    let rolls = format!("the boat rolls {rolls_deg:.0}°");
    if limit.goes_at_rest {
        format!("{first} does not stay even at rest.")
    } else if limit.goes_without_roll {
        format!("{first} goes without any roll; {rolls}.")
    } else if let Some(deg) = limit.roll_deg {
        format!("Good to {deg:.1}° of roll, then {first}; {rolls}.")
    } else if let Some(share) = limit.share {
        format!(
            "Good to {:.0} % of this motion, then {first}.",
            100.0 * share
        )
    } else {
        format!("Nothing goes as far as is searched; {rolls}.")
    }
}

/// How far the stowage is good after a cure.
pub(crate) fn after(cure: &Cure) -> String {
    match (cure.limit_roll_after_deg, cure.limit_share_after) {
        (Some(deg), _) => format!("then the stowage is good to {deg:.1}° of roll"),
        (None, Some(share)) => {
            format!(
                "then the stowage is good to {:.0} % of this motion",
                100.0 * share
            )
        }
        (None, None) => "then nothing goes as far as is searched".to_owned(),
    }
}

/// The same, the number first, for a line that may be cut off.
pub(crate) fn raises_to(cure: &Cure, units: System) -> String {
    let to = match (cure.limit_roll_after_deg, cure.limit_share_after) {
        (Some(deg), _) => format!("to {deg:.1}° of roll"),
        (None, Some(share)) => format!("to {:.0} % of this motion", 100.0 * share),
        (None, None) => "nothing goes".to_owned(),
    };
    format!("{to}: {}", cure.label.show(units))
}

/// A cure with how far the stowage is good after it.
pub(crate) fn raises(cure: &Cure, units: System) -> String {
    format!("{}: {}", cure.label.show(units), after(cure))
}

/// See the text.
pub(crate) fn but_then(trouble: &str) -> String {
    format!("but then: {trouble}")
}

/// See the text.
pub(crate) fn code_and_source(code: &str, source: &str) -> String {
    format!("{code}. {source}")
}

/// "0.58 m to the engine box".
pub(crate) fn gap_to(length: &str, name: &str, wanted: Option<&str>) -> String {
    match wanted {
        Some(wanted) => format!("{length} to {name}, {wanted} wanted"),
        None => format!("{length} to {name}"),
    }
}

/// Empty states that teach.
pub(crate) const EMPTY_DECK: [&str; 4] = [
    "An empty deck.",
    "Press a rack or a cylinder in the stores on the left, then click where it goes.",
    "A cylinder let go over a rack takes its nearest free slot.",
    "What must be put right shows on the right as you go.",
];
pub(crate) const NOTHING_TO_PUT_RIGHT: &str = "Nothing to put right.";
pub(crate) const NO_CYLINDERS_YET: &str = "No cylinders aboard in this part of the day. Place some, and what must be put right shows here.";
pub(crate) const NOTHING_SELECTED: &str = "Click a thing on the plan, and its card shows here.";
pub(crate) const STORES_HELP: &str = "Press one, then click on the deck, or drag it out.";

/// Prompts of tools.
pub(crate) const LASH_FROM: &str = "Click the lashing point it starts from";
pub(crate) const LASH_ROUND: &str = "Click the cylinder it goes round";
pub(crate) const LASH_TO: &str = "Click the next cylinder, or the point it ends at";
pub(crate) const WALKWAY_FROM: &str = "Click where the walkway starts";
pub(crate) const LINE_FROM: &str = "Click where it starts";
pub(crate) const LINE_NEXT: &str = "Click the next point";
pub(crate) const LINE_END: &str = "Click on, or double click to end";
pub(crate) const LINE_TOO_SHORT: &str = "Two points are needed at least.";
pub(crate) const NO_LASHING_POINTS: &str =
    "There are no lashing points on this deck yet: place some from the stores.";

/// The cautions line.
pub(crate) const CAUTIONS: &str = "A planning aid, not an approval. Local codes, the flag state, the makers of the gear and the licensed master decide.";

/// Lean and roll.
pub(crate) const LEAN: &str = "Lean the boat slowly";
pub(crate) const LEAN_UNIT: &str = "°";

/// "Leaning slowly: goes at 14°".
pub(crate) fn leaning_slowly(outcome: &str) -> String {
    format!("Leaning slowly: {outcome}")
}

/// "Rolling every 2.8 s: goes at 8°".
pub(crate) fn rolling_every(period: &str, outcome: &str) -> String {
    format!("Rolling every {period}: {outcome}")
}

/// How many go at the lean shown.
pub(crate) fn go_at_this_lean(names: &[String]) -> String {
    match names {
        [] => "nothing goes at this lean".to_owned(),
        [one] => format!("{one} goes at this lean"),
        [first, second] => format!("{first} and {second} go at this lean"),
        [first, .., last] => format!("{} go at this lean, {first} to {last}", names.len()),
    }
}

/// Names of undo steps.
pub(crate) fn step_move(names: &[String]) -> String {
    format!("Move {}", some(names))
}

/// See [`step_move`].
pub(crate) fn step_turn(names: &[String]) -> String {
    format!("Turn {}", some(names))
}

/// See [`step_move`].
pub(crate) fn step_mirror(names: &[String]) -> String {
    format!("Move {} to the other side", some(names))
}

/// See [`step_move`].
pub(crate) fn step_remove(names: &[String]) -> String {
    format!("Take {} away", some(names))
}

/// See [`step_move`].
pub(crate) fn step_to_deck(names: &[String], deck: &str) -> String {
    format!("Move {} to {deck}", some(names))
}

/// See the text.
pub(crate) fn not_on_the_plan(name: &str) -> String {
    format!("{name} is not on the plan in this part of the day.")
}

/// See [`step_move`].
pub(crate) fn step_reshape(name: &str) -> String {
    format!("Reshape {name}")
}

/// See [`step_move`].
pub(crate) fn step_lock(names: &[String], lock: bool) -> String {
    let what = some(names);
    if lock {
        format!("Lock {what} in place")
    } else {
        format!("Free {what}")
    }
}

/// What the copy of a part of the day is called.
pub(crate) fn part_again(name: &str) -> String {
    format!("{name} again")
}

pub(crate) const NOTHING_TO_LOCK: &str =
    "Neither a lashing nor a deck can be locked in place; what they go to can.";
pub(crate) const LOCKED: &str = "Locked in place; X frees it.";

/// See [`step_move`].
pub(crate) fn step_align(names: &[String]) -> String {
    format!("Line up {}", some(names))
}

/// See [`step_move`].
pub(crate) fn step_place(name: &str) -> String {
    format!("Place {name}")
}

/// See [`step_move`].
pub(crate) fn step_lash(round: &[String]) -> String {
    format!("Lash {}", some(round))
}

/// See [`step_move`].
pub(crate) fn step_change(name: &str) -> String {
    format!("Change {name}")
}

/// See [`step_move`].
pub(crate) fn step_duplicate(names: &[String]) -> String {
    format!("Duplicate {}", some(names))
}

/// See [`step_move`].
pub(crate) fn step_paste(count: usize) -> String {
    if count == 1 {
        "Paste a thing".to_owned()
    } else {
        format!("Paste {count} things")
    }
}

/// See [`step_move`].
pub(crate) fn step_fill(rack: &str) -> String {
    format!("Fill {rack}")
}

/// See [`step_move`].
pub(crate) fn step_lay_down(names: &[String]) -> String {
    format!("Lay {} down", some(names))
}

/// See [`step_move`].
pub(crate) fn step_stand_up(names: &[String]) -> String {
    format!("Stand {} up", some(names))
}

/// See [`step_move`].
pub(crate) fn step_take_on(by: &str) -> String {
    format!("Taken on by {by}")
}

/// See [`step_move`].
pub(crate) const STEP_LEFT_BEHIND: &str = "Go on with the work left behind";

/// See [`step_move`].
pub(crate) const STEP_READ_AGAIN: &str = "Read the file again";

/// See [`step_move`].
pub(crate) fn step_back_to(version: &str) -> String {
    format!("Go back to {version}")
}

/// See [`step_move`].
pub(crate) fn step_put_aboard(count: usize) -> String {
    format!("Put {count} cylinders aboard")
}

/// See the text.
pub(crate) const LEFT_BEHIND_TORN: &str = "Unsaved work was left behind, but cannot be read";

/// See the text.
pub(crate) fn version_kept(name: &str) -> String {
    format!("Kept as {name}")
}

/// Notices.
pub(crate) const NO_POINTED_BOW: &str = "This deck has no pointed bow: its foremost corner must be on the centreline, the next ones alike on both sides.";

/// Whether corners of the deck move in pairs.
pub(crate) fn one_side(alone: bool) -> &'static str {
    if alone {
        "Corners of one side move alone now."
    } else {
        "Corners of both sides move together now."
    }
}

pub(crate) const NO_OUTLINE: &str = "These readings make no outline.";
pub(crate) const COPIED: &str = "Copied.";
pub(crate) const RACK_IS_FULL: &str = "No slot is free.";
pub(crate) const NOT_OPENED: &str = "The file was not opened";
pub(crate) const NOT_SAVED: &str =
    "The file was not saved; nothing was lost, and the old file is as it was";
pub(crate) const NEW_BOAT_DONE: &str =
    "A new boat. Add what is built onto the deck, racks and lashing points from the stores.";

/// "Copied P6 and P7".
pub(crate) fn copied(names: &[String]) -> String {
    format!("Copied {}", some(names))
}

/// See the text.
pub(crate) fn opened(path: &str) -> String {
    format!("Opened {path}")
}

/// See the text.
pub(crate) fn saved(path: &str) -> String {
    format!("Saved {path}")
}

/// "P6", "P6 and P7", "3 things".
fn some(names: &[String]) -> String {
    match names {
        [one] => one.clone(),
        [first, second] => format!("{first} and {second}"),
        more => format!("{} things", more.len()),
    }
}

/// "Undo: Move P6".
pub(crate) fn with_step(action: &str, step: Option<&str>) -> String {
    match step {
        Some(step) => format!("{action}: {step}"),
        None => action.to_owned(),
    }
}

/// Where the pen of the keyboard is.
pub(crate) fn pen(forward: &str, port: &str) -> String {
    format!(
        "Pen {forward} forward, {port} to port: arrows move it, P sets a point, Enter ends the line"
    )
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    /// Words of programmers that a crew should never read.
    const OFF_THE_SCREEN: &[&str] = &[
        "canvas",
        "document",
        "entity",
        "instance",
        "node",
        "vertex",
        "layer",
        "viewport",
        "render",
        "toggle",
        "config",
        "parameter",
        "parse",
        "schema",
        "json",
        "validate",
        "commit",
        "session",
        "workspace",
        "load case",
        "monte carlo",
        "exceedance",
        "sigma",
        "smart",
        "dashboard",
        "wizard",
        "object",
        "polygon",
        "violation",
        "null",
        "n/a",
        "utilisation",
        "quick fix",
        "palette",
        "heading",
        "rotation",
        "corridor",
        "bottleneck",
        "anchor",
    ];

    #[test]
    fn the_words_on_screen_are_the_crews() {
        let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/app");
        let entries = std::fs::read_dir(source.join("words")).unwrap();
        let mut files: Vec<_> = entries.map(|entry| entry.unwrap().path()).collect();
        files.push(source.join("actions/table.rs"));
        let mut literals = 0;
        for path in files {
            let text = std::fs::read_to_string(&path).unwrap();
            let text = text.split("#[cfg(test)]").next().unwrap_or_default();
            for line in text.lines().filter(|line| !line.trim().starts_with("//")) {
                // Every second piece between quotes is a literal.
                for literal in line.split('"').skip(1).step_by(2) {
                    literals += 1;
                    let lower = literal.to_lowercase().replace("at anchor", "");
                    let words: Vec<&str> = lower.split(|c: char| !c.is_alphabetic()).collect();
                    for banned in OFF_THE_SCREEN {
                        let found = if banned.contains([' ', '/']) {
                            lower.contains(banned)
                        } else {
                            words.contains(banned)
                        };
                        assert!(!found, "{}: {literal:?}", path.display());
                    }
                }
            }
        }
        assert!(literals > 150, "only {literals} literals were looked at");
    }
}
