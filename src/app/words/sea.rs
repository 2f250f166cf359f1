//! The sea and a wake, and what they make of the boat.

use crate::layout::{
    MotionInput, MotionSource, RunningKind, SpectrumKind, SpreadingKind, WatersKind,
};

pub(crate) const HAS_SEA: &str = "There is a sea";
pub(crate) const GIVEN_AS: &str = "Given as";
pub(crate) const BY_HEIGHT: &str = "wave height";
pub(crate) const BY_STATE: &str = "sea state";
pub(crate) const SEA_STATE: &str = "Sea state (WMO)";
pub(crate) const HEIGHT: &str = "Significant wave height";
pub(crate) const WATERS: &str = "Waters";
pub(crate) const PERIOD: &str = "Peak period";
pub(crate) const WORST_PERIOD: &str = "the worst that goes with the height";
pub(crate) const SHAPE: &str = "How the sea has grown";
pub(crate) const SPREAD: &str = "Spread round its direction";
pub(crate) const FROM: &str = "Waves from, off the bow";
pub(crate) const WORST_SIDE: &str = "the worst side";
pub(crate) const SPEED: &str = "Speed through the water";
pub(crate) const KNOTS: &str = " kn";
pub(crate) const RUNS: &str = "Too fast for an estimate, she runs";
pub(crate) const ONE_HOUR: &str = "1 h";
pub(crate) const HAS_WAKE: &str = "A wake passes";
pub(crate) const WAKE_HEIGHT: &str = "Wake, trough to crest";
pub(crate) const WAKE_PERIOD: &str = "Wake, crest to crest";
pub(crate) const WAKE_WAVES: &str = "Wake, how many waves";
pub(crate) const FIRST_WAKE: &str =
    "As of a motor yacht that passes close by: common practice, no source.";

pub(crate) const COUNTS: &str = "What the checks use";
pub(crate) const TAKE_OVER: &str = "Take the estimate over";
pub(crate) const TAKE_OVER_HELP: &str = "Put it into the plan as the part's motion; every figure can then be changed, and it \
                                         keeps how it was made";
pub(crate) const BACK_TO_ESTIMATE: &str = "Back to the estimate";
pub(crate) const BACK_HELP: &str =
    "Drop the motion given for this part: sea and wake count again, or what is assumed";
pub(crate) const BY_HAND: &str = "Change its figures";
pub(crate) const PRESETS: &str = "For a boat that runs";
pub(crate) const PRESETS_HELP: &str = "Where she is too fast for the estimate: accelerations up and down, on stopping and in a \
                                       turn. Common practice, no source; every figure can be changed afterwards. \
                                       Record a log to know better.";

pub(crate) const NO_SEA: &str =
    "No sea is given for this part: give one, and this tells what it makes of the boat.";
pub(crate) const WHY_TWO: &str = "They are not the same: in a beam sea the water carries her sideways, so a long swell asks \
                                  little of what stands on deck, and waves shorter than her own roll ask more than the \
                                  roll shows.";
pub(crate) const THE_SEA: &str = "Sea";
pub(crate) const TRIED: &str = "Tried";
pub(crate) const ROLL_SPREAD: &str = "Roll, standard deviation";
pub(crate) const IN_TEN: &str = "Passed once in ten";
pub(crate) const FORCE: &str = "Force along the deck";
pub(crate) const SLOPE_GOVERNS: &str = "roll less slope is the larger and counts";
pub(crate) const ROLL_GOVERNS: &str = "roll alone is the larger and counts";
pub(crate) const PITCH: &str = "Pitch, up and down";
pub(crate) const OWN_PERIOD: &str = "Her own roll";
pub(crate) const PASSED: &str = "How often each limit is passed";
pub(crate) const NONE_PASSED: &str = "Nothing on deck goes at any roll that is searched.";
pub(crate) const PASSED_COLUMNS: [&str; 3] = ["", "goes at", "on average"];
pub(crate) const NOT_KNOWN: &str = "What it does not know";
pub(crate) const SHOW_SUM: &str = "Show the sum";
pub(crate) const COPY: &str = "Copy";
pub(crate) const THE_WAKE: &str = "The wake";
pub(crate) const WAKE_LIMITS: &str = "Regular waves on the beam, from rest; made fast or not, the larger of the two forces \
                                      counts. No surge along the quay, no jerk of the lines.";

pub(crate) const CURVE_SEA: &str = "the sea's energy";
pub(crate) const CURVE_ROLL: &str = "her roll";
pub(crate) const CURVE_FORCE: &str = "force along the deck";
pub(crate) const CURVE_OWN: &str = "meets her own period";
pub(crate) const ACROSS: &str = "s from crest to crest";
pub(crate) const UP: &str = "of its greatest, %";

pub(crate) fn plot(peak_s: f64, own_s: f64) -> String {
    format!("The sea has most energy at {peak_s:.1} s, she rolls by herself every {own_s:.1} s")
}

/// From which side, and how much of a spread sea (0 to 1) from within 30° of it.
pub(crate) fn comes_from(from_deg: f64, is_spread: bool, near: f64) -> String {
    let side = if from_deg > 0.0 && from_deg < 180.0 {
        ", drawn to port; it may as well be starboard"
    } else {
        ""
    };
    if is_spread {
        format!(
            "The waves come from round {from_deg:.0}° off the bow{side}. Of their energy {:.0} % comes from within 30° \
             of it; the curves are of all of it.",
            100.0 * near
        )
    } else {
        format!("All waves come from {from_deg:.0}° off the bow{side}.")
    }
}

pub(crate) fn point(period_s: f64, percent: f64) -> String {
    format!("waves every {period_s:.1} s: {percent:.0} %")
}

pub(crate) fn waters(waters: WatersKind) -> &'static str {
    match waters {
        WatersKind::Coastal => "coastal, short seas",
        WatersKind::Ocean => "open ocean, long seas",
    }
}

pub(crate) fn spectrum(kind: SpectrumKind) -> &'static str {
    match kind {
        SpectrumKind::Bretschneider => "over open water (Bretschneider)",
        SpectrumKind::Jonswap => "young, short fetch (JONSWAP 3.3)",
    }
}

pub(crate) fn spreading(kind: SpreadingKind) -> &'static str {
    match kind {
        SpreadingKind::LongCrested => "all from one side",
        SpreadingKind::Cosine2 => "confused (cosine squared)",
        SpreadingKind::Cosine4 => "spread (cosine to the 4th)",
        SpreadingKind::Cosine8 => "little spread (cosine to the 8th)",
    }
}

pub(crate) fn runs(kind: Option<RunningKind>) -> &'static str {
    match kind {
        None => "hard, unless said",
        Some(RunningKind::Easy) => "easy: people stand at ease",
        Some(RunningKind::Hard) => "hard: everybody holds on",
        Some(RunningKind::Airborne) => "airborne: she leaves the water",
    }
}

pub(crate) fn preset(kind: RunningKind) -> &'static str {
    match kind {
        RunningKind::Easy => "Runs easy",
        RunningKind::Hard => "Runs hard",
        RunningKind::Airborne => "Airborne",
    }
}

/// What a preset puts into the part's motion.
pub(crate) fn preset_figures(motion: &MotionInput) -> String {
    format!(
        "up and down {:.1} g, stopping {:.1} g, turning {:.1} g; roll {:.0}°, pitch {:.0}°",
        motion.vertical_g,
        motion.push_astern_g,
        motion.push_port_g,
        motion.roll_amplitude_deg,
        motion.pitch_amplitude_deg
    )
}

pub(crate) fn state(state: u8, [low, high]: &[String; 2]) -> String {
    if low == high {
        format!("{state}: calm")
    } else {
        format!("{state}: {low} to {high}")
    }
}

pub(crate) fn checked_with(roll: f64, every: &str, pitch: f64, vertical_g: f64) -> String {
    format!("Roll {roll:.1}° every {every}, pitch {pitch:.1}°, up and down {vertical_g:.2} g")
}

/// Where the motion of the part comes from.
pub(crate) fn source(source: MotionSource, is_given: bool) -> String {
    let from = super::card::motion_source(source);
    if is_given {
        format!("Given for this part: {from}")
    } else {
        format!("Not given for this part: {from}")
    }
}

pub(crate) fn made_from(made: &str) -> String {
    format!("Made from {made}")
}

pub(crate) fn assumed(line: &str) -> String {
    format!("Assumed: {line}")
}

pub(crate) fn refused(why: &str) -> String {
    format!("No estimate: {why}.")
}

pub(crate) fn seen(deg: f64, hours: f64, [low, high]: [f64; 2]) -> String {
    format!(
        "The eye sees up to {deg:.1}° in {hours:.1} h, most probably ({low:.1} to {high:.1}° by how fast a roll dies away)"
    )
}

pub(crate) fn felt(deg: f64) -> String {
    format!("A cylinder feels as much as at {deg:.1}°: that is checked")
}

pub(crate) fn waves(height: &str, state: u8, period_s: f64) -> String {
    format!("{height}, sea state {state}, peak period {period_s:.1} s")
}

pub(crate) fn tried([from, to]: [f64; 2], side_deg: f64) -> String {
    let side = format!("worst with the waves {side_deg:.0}° off the bow");
    if from < to {
        format!("periods {from:.1} to {to:.1} s; {side}")
    } else {
        format!("one period; {side}")
    }
}

pub(crate) fn spread(deg: f64, every_s: f64) -> String {
    format!("{deg:.2}°, a swing every {every_s:.2} s")
}

pub(crate) fn in_ten(deg: f64, hours: f64) -> String {
    format!("{deg:.1}° in one of ten such times of {hours:.1} h; what the eye sees, in six of ten")
}

pub(crate) fn force(lever: &str, by_roll: f64, less_slope: f64) -> String {
    format!(
        "{lever} above the roll axis: {by_roll:.2} m/s² by roll alone, {less_slope:.2} m/s² by roll less the slope of \
         the wave"
    )
}

pub(crate) fn pitch(deg: f64, every_s: f64, vertical_g: f64) -> String {
    format!("{deg:.1}° every {every_s:.1} s, {vertical_g:.2} g")
}

pub(crate) fn own(period_s: f64, damping: f64) -> String {
    format!("every {period_s:.2} s, damping {damping:.2} of the critical")
}

pub(crate) fn bullet(line: &str) -> String {
    format!("· {line}")
}

pub(crate) fn goes_at(deg: f64) -> String {
    format!("{deg:.1}°")
}

/// So often an hour; rare ones as once in so long.
pub(crate) fn per_hour(times: f64) -> String {
    if times >= 1.0 {
        format!("{times:.0} times an hour")
    } else if times >= 1.0 / 24.0 {
        format!("once in {:.0} hours", 1.0 / times)
    } else if times >= 1.0 / 2_400.0 {
        format!("once in {:.0} days of such a sea", 1.0 / (24.0 * times))
    } else {
        "practically never".to_owned()
    }
}

pub(crate) fn wake(seen: f64, checked: f64) -> String {
    format!("The eye sees {seen:.1}°; checked with {checked:.1}°")
}

pub(crate) fn wake_force(by_roll: f64, less_slope: f64) -> String {
    format!(
        "Force along the deck {by_roll:.2} m/s² by roll alone, {less_slope:.2} m/s² by roll less the slope of the wave."
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rare_is_told_as_once_in_so_long() {
        assert_eq!(per_hour(12.4), "12 times an hour");
        assert_eq!(per_hour(0.25), "once in 4 hours");
        assert_eq!(per_hour(0.01), "once in 4 days of such a sea");
        assert_eq!(per_hour(1e-9), "practically never");
    }
}
