//! A motion log.

pub(crate) const WHAT: [&str; 2] = [
    "A log knows better than any estimate: a table as CSV with the time, the roll, and pitch and vertical \
     acceleration if there are any, in any order. A telephone laid flat on deck, its top towards the bow, can record one.",
    "Units stand in the first line (time_s, roll_deg, pitch_deg, az_g) or are asked for. Roll to starboard is \
     positive, bow down too. A file dropped onto the window here is read as a log.",
];
pub(crate) const CHOOSE: &str = "Read a log…";
pub(crate) const GIVE_UP: &str = "Stop reading";
pub(crate) const WHICH_UNITS: &str = "Say which units the log has where its first line does not:";
pub(crate) const ANGLES: &str = "Angles in";
pub(crate) const TIME: &str = "Time in";
pub(crate) const ACCELERATIONS: &str = "Accelerations in";
pub(crate) const AS_WRITTEN: &str = "as the first line says";
pub(crate) const READ_AGAIN: &str = "Read it so";
pub(crate) const WHERE_ODD: &str = "Where";
pub(crate) const STAND_IN: &str = "Let it stand for the estimate";
pub(crate) const STAND_IN_HELP: &str = "Put what was measured into the plan as the part's motion; every figure can then be \
                                        changed, and it keeps which log it came from";
pub(crate) const NO_ACCELERATIONS: &str = "There are no accelerations in it: in waves shorter than her own roll a cylinder \
                                           feels up to 30 % more along the deck than these angles say.";
pub(crate) const WOULD_HAVE_GONE: &str = "Would have gone while it was recorded, as stowed now";
pub(crate) const NONE_WOULD: &str = "None, of those that go at some roll.";
pub(crate) const COMPARED: [&str; 3] = ["", "measured", "estimated"];
pub(crate) const ROLL_LARGEST: &str = "Roll, the largest";
pub(crate) const ROLL_SIGNIFICANT: &str = "Roll, mean of the highest third";
pub(crate) const ROLL_EVERY: &str = "Roll, a swing every";
pub(crate) const ROLL_COUNT: &str = "Rolls counted";
pub(crate) const HEEL: &str = "Mean heel, starboard down +";
pub(crate) const PITCH_LARGEST: &str = "Pitch, the largest";
pub(crate) const PITCH_EVERY: &str = "Pitch, a swing every";
pub(crate) const VERTICAL: &str = "Up and down, the largest";
pub(crate) const NO_ESTIMATE: &str =
    "There is no estimate to hold it against: give the part a sea.";

pub(crate) fn not_read(why: &str) -> String {
    format!("Not read: {why}")
}

pub(crate) fn rows(rows: u64, hours: f64) -> String {
    if hours < 1.0 {
        format!("{rows} rows, {:.0} minutes", 60.0 * hours)
    } else {
        format!("{rows} rows, {hours:.2} hours")
    }
}

pub(crate) fn odd(gaps: u64, twice: u64, resets: u64, bad: u64) -> String {
    if gaps + twice + resets + bad == 0 {
        return "No gaps, nothing twice, the clock runs on.".to_owned();
    }
    format!(
        "Gaps: {gaps}; rows twice: {twice}; clock set back: {resets}; rows without numbers: {bad}"
    )
}

pub(crate) fn note(line: u64, what: &str) -> String {
    format!("line {line}: {what}")
}

pub(crate) fn would_have_gone(cylinder: &str, times: u64) -> String {
    match times {
        1 => format!("{cylinder}: once"),
        times => format!("{cylinder}: {times} times"),
    }
}

pub(crate) fn degrees(deg: f64) -> String {
    // No "-0.0".
    let deg = if deg.abs() < 0.05 { 0.0 } else { deg };
    format!("{deg:.1}°")
}

pub(crate) fn seconds(seconds: f64) -> String {
    format!("{seconds:.2} s")
}

pub(crate) fn gravity(g: f64) -> String {
    format!("{g:.2} g")
}
