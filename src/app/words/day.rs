//! Words of the strip of the day and of its questions.

use std::fmt::Write as _;

use crate::checks::LeftStanding;
use crate::day::{DeckStep, LimitThen, PartCell, PartWork, Purpose, SignalCount};
use crate::layout::{MotionSource, Part};
use crate::units::{Quantity, System};

pub(crate) const THE_DAY: &str = "The day";
pub(crate) const ADD: &str = "+ part";
pub(crate) const SPLIT: &str = "Split into two halves";
pub(crate) const WORK_BUTTON: &str = "Deck work…";
pub(crate) const LAY_OUT_BUTTON: &str = "Lay out…";
pub(crate) const NIGHT_BUTTON: &str = "Night…";
pub(crate) const DIVING_BUTTON: &str = "Diving…";
pub(crate) const MOTION_BUTTON: &str = "Motion…";
pub(crate) const WORK: &str = "Work on deck";
pub(crate) const WORK_HELP: &str = "What changes as a part of the day begins, in an order in which it can be done, \
                                    and by whom.";
pub(crate) const OF_WHOLE_DAY: &str = "Of the whole day";
pub(crate) const NO_WORK: &str = "Nothing is changed on deck.";
pub(crate) const LAY_OUT: &str = "Lay out a day";
pub(crate) const LAY_OUT_SO: &str = "Lay the day out so";
pub(crate) const NOTHING_TO_CHANGE: &str = "Nothing is to be changed on deck.";
pub(crate) const FIRST_TO_GO: &str = "First to go";
pub(crate) const TO_PUT_RIGHT: &str = "To put right";
pub(crate) const BEFORE: &str = "Before";
pub(crate) const AFTERWARDS: &str = "Afterwards";
pub(crate) const DO_SO: &str = "Put it into the day";

/// What the boat is doing, for how long, and whether nobody is on deck.
pub(crate) fn condition_and_time(cell: &PartCell) -> String {
    let mut text = super::condition(cell.condition).to_owned();
    if let Some(hours) = cell.duration_h {
        let hours = Quantity::Hours.show(hours, System::Metric);
        write!(text, " · {hours}").ok();
    }
    if cell.nobody_on_deck {
        text.push_str(" · nobody on deck");
    }
    text
}

/// How she rolls, and where that comes from.
pub(crate) fn motion(cell: &PartCell) -> String {
    let source = match cell.motion_source {
        MotionSource::Recorded => "recorded",
        MotionSource::Stopwatch => "stopwatch",
        MotionSource::Estimate => "from the sea",
        MotionSource::Wake => "from a wake",
        MotionSource::Preset => "preset",
        MotionSource::Assumed => "assumed",
    };
    format!(
        "rolls {:.0}° in {:.1} s · {source}",
        cell.roll_amplitude_deg, cell.roll_period_s
    )
}

/// What goes first.
pub(crate) fn first(cell: &PartCell) -> String {
    match &cell.first {
        None => "nothing on deck".to_owned(),
        Some(first) if first.goes => format!("goes: {}", first.words),
        Some(first) if first.share.is_none() && first.roll_deg.is_none() => first.words.clone(),
        Some(first) => format!("holds; first {}", first.words),
    }
}

/// Who is where.
pub(crate) fn people(cell: &PartCell) -> String {
    let people = &cell.people;
    let text = some(&[
        (people.on_deck, "on deck"),
        (people.in_water, "in water"),
        (people.below, "below"),
        (people.ashore, "ashore"),
    ]);
    if text.is_empty() {
        "nobody".to_owned()
    } else {
        text
    }
}

/// How many cylinders are what.
pub(crate) fn cylinders(cell: &PartCell) -> String {
    let cylinders = &cell.cylinders;
    let away = cylinders.in_water + cylinders.ashore;
    let text = some(&[
        (cylinders.full, "full"),
        (cylinders.part_used, "part used"),
        (cylinders.empty, "empty"),
        (away, "away"),
    ]);
    if text.is_empty() {
        "no cylinders".to_owned()
    } else {
        text
    }
}

/// What changed from the part before.
pub(crate) fn changed(cell: &PartCell) -> String {
    let changed = &cell.changed;
    if changed.is_nothing() {
        return "nothing changes".to_owned();
    }
    let people = if changed.people == 1 {
        "person"
    } else {
        "people"
    };
    some(&[
        (changed.moved, "moved"),
        (changed.opened, "opened"),
        (changed.shut, "shut"),
        (changed.gear, "gear"),
        (changed.people, people),
    ])
}

/// `2 full, 1 empty`, without what there is none of.
fn some(counts: &[(usize, &str)]) -> String {
    let some = counts.iter().filter(|(count, _)| *count > 0);
    let words: Vec<String> = some
        .map(|(count, what)| format!("{count} {what}"))
        .collect();
    words.join(", ")
}

/// All of a cell, line by line, for who points at it.
pub(crate) fn told(cell: &PartCell) -> String {
    let cylinders = &cell.cylinders;
    let people = &cell.people;
    let mut lines = vec![
        condition_and_time(cell),
        motion(cell),
        first(cell),
        format!("To put right: {}", cell.to_put_right.in_words()),
        format!(
            "People: {}",
            or_none(some(&[
                (people.on_deck, "on deck"),
                (people.in_water, "in the water"),
                (people.below, "below"),
                (people.ashore, "ashore"),
            ]))
        ),
        format!(
            "Cylinders: {}",
            or_none(some(&[
                (cylinders.full, "full"),
                (cylinders.part_used, "part used"),
                (cylinders.empty, "empty"),
                (cylinders.in_racks, "in racks"),
                (cylinders.standing, "standing on deck"),
                (cylinders.lying, "lying"),
                (cylinders.on_people, "on backs or in hands"),
                (cylinders.in_water, "in the water"),
                (cylinders.ashore, "ashore"),
            ]))
        ),
        format!("From the part before: {}", changed(cell)),
    ];
    let meanwhile = cell.changed.unsecured_meanwhile;
    if meanwhile > 0 {
        let stand = if meanwhile == 1 { "stands" } else { "stand" };
        lines.push(format!(
            "{meanwhile} {stand} unsecured for a moment while something is open for others"
        ));
    }
    lines.join("\n")
}

fn or_none(text: String) -> String {
    if text.is_empty() {
        "none".to_owned()
    } else {
        text
    }
}

/// What is to put right in the whole day.
pub(crate) fn whole_day_told(count: &SignalCount) -> String {
    format!("Whole day, to put right: {}", count.in_words())
}

/// Heading of the work of one part.
pub(crate) fn as_it_begins(part: &str) -> String {
    format!("As {part} begins")
}

/// A step with its number and who does it.
pub(crate) fn step(step: &DeckStep) -> String {
    let by = step.by.as_ref();
    let by = by.map_or_else(String::new, |by| format!(" – {by}"));
    format!("{}. {}{by}", step.number, step.sentence)
}

/// Who stands unsecured meanwhile.
pub(crate) fn meanwhile(left: &LeftStanding) -> String {
    format!(
        "meanwhile {} stands unsecured: {}",
        left.cylinder, left.sentence
    )
}

/// The work of several parts as text.
pub(crate) fn work_as_text(parts: &[&PartWork]) -> String {
    let mut text = String::new();
    for work in parts {
        writeln!(text, "{}", as_it_begins(&work.name)).ok();
        if work.steps.is_empty() {
            writeln!(text, "{NO_WORK}").ok();
        }
        for one in &work.steps {
            writeln!(text, "{}", step(one)).ok();
            for left in &one.unsecured_meanwhile {
                writeln!(text, "   {}", meanwhile(left)).ok();
            }
        }
    }
    text
}

/// What a pattern could not do.
pub(crate) fn cannot(why: &str) -> String {
    format!("! {why}")
}

/// A part of a draft in one line.
pub(crate) fn part_in_short(part: &Part, work: &PartWork) -> String {
    let hours = part.duration_h.map_or_else(String::new, |hours| {
        format!(", {}", Quantity::Hours.show(hours, System::Metric))
    });
    let steps = match work.steps.len() {
        0 => String::new(),
        1 => ", 1 step on deck".to_owned(),
        count => format!(", {count} steps on deck"),
    };
    let name = part.name.as_ref().unwrap_or(&part.id);
    format!("{name}: {}{hours}{steps}", super::condition(part.condition))
}

/// What is gone when a day is laid out.
pub(crate) fn replaces(parts: usize) -> String {
    if parts == 1 {
        "It takes the place of the part that the trip has now; undo brings it back.".to_owned()
    } else {
        format!(
            "It takes the place of the {parts} parts that the trip has now; undo brings them back."
        )
    }
}

/// The step in the list of steps.
pub(crate) fn step_lay_out(pattern: &str) -> String {
    format!("Lay out: {pattern}")
}

/// Heading, and the step in the list of steps.
pub(crate) fn ready(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Night => "Secure for the night",
        Purpose::Diving => "Open for diving",
    }
}

/// What is put into the day.
pub(crate) fn ready_help(purpose: Purpose, part: &str) -> String {
    let what = match purpose {
        Purpose::Night => "Everything is shut, lashed and stowed, and nobody is on deck",
        Purpose::Diving => "The divers' cylinders are kitted up and free to be taken",
    };
    format!(
        "{what}. It becomes a part of the day of its own after {part}; the other parts stay as they are."
    )
}

/// What goes first at one time.
pub(crate) fn first_then(then: &LimitThen) -> String {
    match &then.first {
        None => "nothing is on deck".to_owned(),
        Some(first) if first.goes => format!("{}, within the motion", first.words),
        Some(first) => first.words.clone(),
    }
}
