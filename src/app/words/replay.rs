//! A motion replayed.

use crate::audit::replay::{CylinderReplay, ReplayEvent, ReplayReport};

pub(crate) const TITLE: &str = "Replay a motion";
pub(crate) const LEAVE: &str = "Back to the deck plan";
pub(crate) const STEADY: &str = "This part's motion, swing after swing";
pub(crate) const SEA: &str = "This part's sea, drawn at random";
pub(crate) const LOG: &str = "A recorded log…";
pub(crate) const SEED: &str = "Seed of the draw";
pub(crate) const MOUNTING: &str = "How the sensor was mounted";
pub(crate) const ROLL_TO_PORT: &str = "roll to port is positive";
pub(crate) const BOW_UP: &str = "bow up is positive";
pub(crate) const FALLS_POSITIVE: &str = "a fall is positive";
pub(crate) const TURNED: &str = "turned from the bow to port";
pub(crate) const ROLL_OFFSET: &str = "roll while upright";
pub(crate) const PITCH_OFFSET: &str = "pitch while level";
pub(crate) const SENSOR_AT: [&str; 3] = [
    "forward of the pitch axis",
    "to port of the middle",
    "above the roll axis",
];
pub(crate) const WORKED_OUT: &str = "The replay is being worked out";
pub(crate) const NOT_REPLAYED: &str = "It could not be replayed";
pub(crate) const ROLL: &str = "roll";
pub(crate) const PITCH: &str = "pitch";
pub(crate) const CURSOR: &str = "cursor";
pub(crate) const SECONDS: &str = "seconds";
pub(crate) const DEGREES: &str = "degrees";
pub(crate) const PERCENT: &str = "% left";
pub(crate) const GOES_HERE: &str = "here it goes";
pub(crate) const ROLL_AND_PITCH: &str =
    "Roll (strong, starboard down is up) and pitch (faint, bow down is up)";
pub(crate) const MARGINS: &str =
    "Margin of each cylinder: what is left of what it takes; at 0 it goes";
pub(crate) const PLAY: &str = "Play";
pub(crate) const PAUSE: &str = "Pause";
pub(crate) const PLAY_HINT: &str = "Space";
pub(crate) const BACK: &str = "Back";
pub(crate) const BACK_HINT: &str = "Left arrow; with Shift twenty steps";
pub(crate) const ON: &str = "On";
pub(crate) const ON_HINT: &str = "Right arrow; with Shift twenty steps";
pub(crate) const TO_START: &str = "Start";
pub(crate) const TO_START_HINT: &str = "Home";
pub(crate) const TO_END: &str = "End";
pub(crate) const TO_END_HINT: &str = "End";
pub(crate) const CLOSER: &str = "Closer";
pub(crate) const CLOSER_HINT: &str =
    "Half as much time about the cursor: arrow up, or scroll over a plot";
pub(crate) const WIDER: &str = "Wider";
pub(crate) const WIDER_HINT: &str = "Twice as much time: arrow down, or scroll over a plot";
pub(crate) const EARLIER: &str = "Earlier";
pub(crate) const EARLIER_HINT: &str = "Page up, or scroll sideways over a plot";
pub(crate) const LATER: &str = "Later";
pub(crate) const LATER_HINT: &str = "Page down, or scroll sideways over a plot";
pub(crate) const ALL: &str = "All of it";
pub(crate) const ALL_HINT: &str = "Shift and arrow down";
pub(crate) const CLOSELY: &str = "finer points are being worked out";
pub(crate) const SPOT: &str = "marked spot";
pub(crate) const WENT: &str = "What went";
pub(crate) const NOTHING_WENT: &str = "Nothing went.";
pub(crate) const STAYED: &str = "What stayed, least margin first";
pub(crate) const NOTHING_STAYED: &str = "Nothing stayed.";
pub(crate) const CAUTION: &str = "A planning aid: no credit is taken for what impacts take away, and what broke seas, \
                                  collisions and people did is not in it.";

pub(crate) fn part(name: &str) -> String {
    format!("Part of the day: {name}")
}

pub(crate) fn speed(speed: f64) -> String {
    if speed < 1.0 {
        format!("1/{:.0} ×", 1.0 / speed)
    } else if speed < 1.5 {
        "real speed".to_owned()
    } else {
        format!("{speed:.0} ×")
    }
}

pub(crate) fn clock(at_s: f64, end_s: f64) -> String {
    format!("{at_s:8.1} s of {end_s:.0} s")
}

/// What the plots show, closer.
pub(crate) fn shown([from_s, to_s]: [f64; 2]) -> String {
    format!("shown: {from_s:.1} s to {to_s:.1} s.")
}

/// What a point of the plots stands for.
pub(crate) fn each_point(width_s: f64) -> String {
    let decimals = if width_s < 0.095 { 2 } else { 1 };
    format!("(each point the least of {width_s:.decimals$} s or more)")
}

/// There are no finer points of what is shown.
pub(crate) fn not_closely(why: &str) -> String {
    format!("No finer points of it: {why}")
}

/// The line along which one rolls.
pub(crate) fn rolls(cylinder: &str) -> String {
    format!("{cylinder} rolls")
}

pub(crate) fn point(x: f64, y: f64, unit: &str) -> String {
    format!("{x:.1} s: {y:.1} {unit}")
}

pub(crate) fn summary(found: &ReplayReport) -> String {
    let [port, starboard] = found.largest_roll_deg;
    format!(
        "{}. {:.0} s; largest roll {port:.1}° to port, {starboard:.1}° to starboard. {} of {} went.",
        found.motion,
        found.lasts_s,
        found.events.len(),
        found.cylinders.len()
    )
}

pub(crate) fn motion_told(found: &ReplayReport) -> String {
    let [port, starboard] = found.largest_roll_deg;
    let [up, down] = found.largest_pitch_deg;
    format!(
        "Roll and pitch over {:.0} seconds: to port {port:.1}°, to starboard {starboard:.1}°, bow up {up:.1}°, bow down \
         {down:.1}°",
        found.lasts_s
    )
}

pub(crate) fn margins_told(found: &ReplayReport) -> String {
    let least = (found.cylinders.iter())
        .filter_map(|it| Some((it.least_margin?, &it.cylinder)))
        .min_by(|a, b| a.0.total_cmp(&b.0));
    least.map_or_else(
        || "Margins: no cylinder is on deck".to_owned(),
        |(left, id)| {
            format!(
                "Margins of {} cylinders; the least is {:.0} % of {id}",
                found.cylinders.len(),
                100.0 * left
            )
        },
    )
}

pub(crate) fn plan_told(found: &ReplayReport, at_s: f64) -> String {
    let gone: Vec<&str> = (found.events.iter())
        .filter(|event| event.time_s <= at_s)
        .map(|event| event.cylinder.as_str())
        .collect();
    if gone.is_empty() {
        format!("The deck at {at_s:.1} s: everything is in its place")
    } else {
        format!("The deck at {at_s:.1} s; gone: {}", gone.join(", "))
    }
}

pub(crate) fn event(event: &ReplayEvent) -> String {
    let ReplayEvent {
        time_s, cylinder, ..
    } = event;
    format!("{time_s:.2} s  {cylinder} {}", event.sentence())
}

pub(crate) fn stayed(cylinder: &CylinderReplay) -> String {
    let left = cylinder.least_margin.map_or_else(
        || "not seen".to_owned(),
        |left| {
            if left > 0.0 {
                format!("{:.0} % left", 100.0 * left)
            } else {
                "nothing left, and stayed".to_owned()
            }
        },
    );
    let rocked = (cylinder.rocking)
        .filter(|rocking| rocking.lossless.uplifts > 0)
        .map_or_else(String::new, |rocking| format!("; {}", rocking.sentence()));
    format!("{}  {left}{rocked}", cylinder.cylinder)
}
