//! Motion, balance and limits of a part of the day: the place, roll period and GM.

use crate::app::motion::Look;
use crate::engine::numbers::MotionNumbers;
use crate::layout::RollTestLoading;
use crate::units::{Quantity, System};

pub(crate) const STEP_LOG: &str = "Motion from a log";
pub(crate) const TITLE: &str = "How she moves";
pub(crate) const LEAVE: &str = "Back to the deck plan";
pub(crate) const PART: &str = "Part of the day";
pub(crate) const APPROVES_NOTHING: &str = "Of the stowage, not of the boat: nothing here approves her stability or her \
                                           seaworthiness.";

/// What can be looked at.
pub(crate) fn look(look: Look) -> &'static str {
    match look {
        Look::RollPeriod => "Roll period and GM",
        Look::Sea => "The sea and a wake",
        Look::Log => "A motion log",
        Look::LimitCard => "Limit card",
        Look::Balance => "Balance",
    }
}

pub(crate) const COMPARED: [&str; 4] = ["", "roll period", "GM", ""];
pub(crate) const ROW_GIVEN: &str = "Given for the boat";
pub(crate) const ROW_TIMED: &str = "By stopwatch";
pub(crate) const ROW_RANGE: &str = "Somewhere between";
pub(crate) const ROW_FORMULA: &str = "By beam, draught and GM";
pub(crate) const BY_CODE: &str = "formula of the IMO IS Code";
pub(crate) const NO_RUNS: &str = "not timed yet";
pub(crate) const RANGE_IS_WORST: &str = "Both ends are checked, and the worse of the two counts for every cylinder: \
                                         between them nothing is worse than at one of the ends.";

pub(crate) const THE_BOAT: &str = "The boat";
pub(crate) const PERIOD_GIVEN: &str = "Roll period, given";
pub(crate) const RANGE: &str = "Roll period, from … to";
pub(crate) const SHORTEST: &str = "Shortest roll period";
pub(crate) const LONGEST: &str = "Longest roll period";
pub(crate) const ROLL_AXIS: &str = "She rolls about, above the water";
pub(crate) const AT_WATERLINE: &str = "at the waterline";
pub(crate) const SECONDS: &str = " s";

pub(crate) const DAMPING: &str = "How fast a roll dies away";
pub(crate) const DAMPING_GIVEN: &str = "Share of the critical damping";
pub(crate) const OF_HULL: &str = "by the form of the hull";
pub(crate) const BERTIN: &str = "Bertin's N, each degree";
pub(crate) const NO_BERTIN: &str = "does not grow with the roll";

pub(crate) const STOPWATCH: &str = "Time her roll";
pub(crate) const HOW_TO: &str = "How it is done";
pub(crate) const HOW_TO_STEPS: [&str; 5] = [
    "1. Smooth water, no wind to speak of, lines slack or off, depth below the keel. Tanks, gear and people as \
     on the day.",
    "2. Set her rolling: two people step from rail to rail in time with her, or one pulls on a line from ashore. \
     Then everybody stands still amidships.",
    "3. Look along the deck at something ashore. Each time the same side is down the furthest, tap, or press \
     Space. From one tap to the next is one swing: out, over and back.",
    "4. Five swings and more make a good run, and three runs a good test. She stops after two or three? Take \
     what can be counted, and do more runs: the band tells how sure it is.",
    "5. A wrong tap is taken back, with Backspace too. Keep the run; it goes into the plan.",
];
pub(crate) const TAKE_TAP_BACK: &str = "Take the tap back";
pub(crate) const CLEAR_TAPS: &str = "Begin again";
pub(crate) const KEEP_RUN: &str = "Keep this run";
pub(crate) const TYPE_RUN: &str = "Add a run from another watch";
pub(crate) const MISSED_ONE: &str = "One swing took far longer than another: was a tap missed?";
pub(crate) const RUNS: &str = "Runs kept";
pub(crate) const SWINGS_IN: &str = "swings in";
pub(crate) const RUN_AWAY: &str = "Take away";
pub(crate) const LOADING: &str = "How she was loaded (gives f, and with it GM)";

/// "2.8 s", or "2.0 s to 4.0 s" where only a range is known.
pub(crate) fn every_so(motion: &MotionNumbers, units: System) -> String {
    let show = |seconds| Quantity::Time.show(seconds, units);
    let shortest = show(motion.roll_period_s);
    motion
        .longest_roll_period_s
        .map_or(shortest.clone(), |longest| {
            format!("{shortest} to {}", show(longest))
        })
}

pub(crate) fn tap(count: usize) -> String {
    match count {
        0 => "Tap: the same side is down".to_owned(),
        count => format!("Tap: down again ({count})"),
    }
}

pub(crate) fn no_timing(taps: usize) -> &'static str {
    if taps == 0 {
        "The first tap starts the watch."
    } else {
        "The watch runs. The next tap ends the first swing."
    }
}

pub(crate) fn timing(swings: u32, total_s: f64, mean_s: f64) -> String {
    format!(
        "{mean_s:.2} s a swing: {} in {total_s:.1} s",
        swing_count(swings)
    )
}

fn swing_count(swings: u32) -> String {
    match swings {
        1 => "1 swing".to_owned(),
        swings => format!("{swings} swings"),
    }
}

pub(crate) fn spread([short, long]: [f64; 2], last: f64) -> String {
    format!("shortest {short:.2} s, longest {long:.2} s, the last {last:.2} s")
}

pub(crate) fn run(number: usize) -> String {
    format!("Run {number}")
}

pub(crate) fn run_away(number: usize) -> String {
    format!("Take run {number} away")
}

pub(crate) fn every(period_s: f64) -> String {
    format!("every {period_s:.2} s")
}

pub(crate) fn step_run(swings: u32) -> String {
    format!("Keep a run of {}", swing_count(swings))
}

pub(crate) fn seconds(value: f64) -> String {
    format!("{value:.2} s")
}

pub(crate) fn from_to_seconds([short, long]: [f64; 2]) -> String {
    format!("{short:.1} to {long:.1} s")
}

pub(crate) fn taken([short, long]: [f64; 2], from: &str) -> String {
    if short < long {
        format!("Counts: {short:.2} to {long:.2} s ({from})")
    } else {
        format!("Counts: {short:.2} s ({from})")
    }
}

pub(crate) fn timed(swings: u32, spread: [f64; 2], band: [f64; 2], by_the_code: bool) -> String {
    let code = if by_the_code {
        "as the published test wants it"
    } else {
        "the published test wants three runs of five swings and more"
    };
    format!(
        "{} in all, runs {:.2} to {:.2} s, with the error of the watch {:.2} to {:.2} s; {code}",
        swing_count(swings),
        spread[0],
        spread[1],
        band[0],
        band[1]
    )
}

pub(crate) fn refused(why: &str) -> String {
    format!("gives none: {why}")
}

pub(crate) fn no_gm(why: &str) -> String {
    format!("no GM: {why}")
}

pub(crate) fn gm_band(low: &str, high: &str) -> String {
    format!("GM {low} to {high}, with f 0.05 less or more")
}

pub(crate) fn disagree(line: &str) -> String {
    format!("They disagree: {line}")
}

pub(crate) fn damping([low, taken, high]: [f64; 3], grows: bool) -> String {
    let grows = if grows { ", growing with the roll" } else { "" };
    if low < high {
        format!("taken {taken:.2} of the critical{grows}, somewhere from {low:.2} to {high:.2}")
    } else {
        format!("taken {taken:.2} of the critical{grows}")
    }
}

pub(crate) fn from_where(source: &str) -> String {
    format!("({source})")
}

/// The rows of the published table of the rolling-period test, with their f.
pub(crate) fn loading(loading: Option<RollTestLoading>) -> &'static str {
    match loading {
        None => "not said: no GM from the test",
        Some(RollTestLoading::EmptyOrBallast) => "empty or in ballast, f 0.88",
        Some(RollTestLoading::LiquidsFifth) => "full load, liquids a fifth of it, f 0.78",
        Some(RollTestLoading::LiquidsTenth) => "full load, liquids a tenth of it, f 0.75",
        Some(RollTestLoading::LiquidsTwentieth) => "full load, liquids a twentieth of it, f 0.73",
        Some(RollTestLoading::DoubleBoom) => "shrimp boat with two booms, f 0.95",
        Some(RollTestLoading::DeepSeaFishing) => "deep-sea fishing boat, f 0.80",
        Some(RollTestLoading::LiveFishWell) => "boat with a live fish well, f 0.60",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::rolling::stopwatch::Loading;

    #[test]
    fn the_table_says_the_f_that_is_used() {
        let rows = [
            RollTestLoading::EmptyOrBallast,
            RollTestLoading::LiquidsFifth,
            RollTestLoading::LiquidsTenth,
            RollTestLoading::LiquidsTwentieth,
            RollTestLoading::DoubleBoom,
            RollTestLoading::DeepSeaFishing,
            RollTestLoading::LiveFishWell,
        ];
        for (row, used) in rows.into_iter().zip(Loading::ALL) {
            let said = loading(Some(row));
            assert!(said.ends_with(&format!("f {:.2}", used.factor())), "{said}");
        }
    }
}
