//! Bands in words.

use super::{Answer, AtEnd, Band};
use crate::engine::Uncertain;
use crate::layout::MotionSource;

pub(super) fn input(input: Uncertain) -> &'static str {
    match input {
        Uncertain::Friction => "friction underfoot",
        Uncertain::Centre => "height of the centre of gravity",
        Uncertain::Foot => "width of the foot",
        Uncertain::RollPeriod => "roll period",
        Uncertain::Vertical => "vertical acceleration",
        Uncertain::RollAxis => "height of the roll axis",
        Uncertain::Slack => "slack of the lashing",
        Uncertain::Strength => "strength of what holds it",
    }
}

/// A value of an input with its unit.
pub(super) fn value(input: Uncertain, [_, given, _]: [f64; 3], value: f64) -> String {
    match input {
        Uncertain::Friction => format!("{value:.2}"),
        Uncertain::RollPeriod => format!("{value:.2} s"),
        Uncertain::Centre => format!("{value:.3} m"),
        Uncertain::RollAxis if value < 0.0 => format!("{:.2} m below the water", -value),
        Uncertain::RollAxis => format!("{value:.2} m above the water"),
        Uncertain::Slack => format!("{:.0} mm", 1000.0 * value),
        Uncertain::Foot | Uncertain::Vertical | Uncertain::Strength => {
            format!("{:.0} % of it", 100.0 * value / given)
        }
    }
}

fn goes_at(limit_deg: Option<f64>) -> String {
    match limit_deg {
        Some(limit) if limit > 0.0 => format!("goes at {limit:.1}°"),
        Some(_) => "goes without any roll".to_owned(),
        None => "holds to 60°".to_owned(),
    }
}

/// `goes (at 8.1°)` or `holds (to 17.2°)`, in a roll of this size.
fn in_roll(end: &AtEnd, roll_deg: f64) -> String {
    match end.limit_deg {
        Some(limit) if limit <= 0.0 => "goes without any roll".to_owned(),
        Some(limit) if limit <= roll_deg => format!("goes (at {limit:.1}°)"),
        Some(limit) => format!("holds (to {limit:.1}°)"),
        None => "holds (to 60° and more)".to_owned(),
    }
}

pub(super) fn sentence(band: &Band, [low, given, high]: [f64; 3]) -> String {
    let id = &band.cylinder;
    let range = match (band.least_deg, band.most_deg) {
        (Some(least), Some(most)) if most - least < 0.1 => goes_at(Some(least)),
        (Some(least), Some(most)) => format!("goes between {least:.1}° and {most:.1}°"),
        (Some(least), None) => format!("goes from {least:.1}° on, or holds to 60°"),
        (None, _) => "holds to 60°".to_owned(),
    };
    let first = band.moved_by.first();
    match band.answer {
        Answer::Goes => format!(
            "{id} {range}: it goes in a roll of {low:.1}° to {high:.1}°, whatever the inputs are within their ranges"
        ),
        Answer::Holds => format!(
            "{id} {range}: it holds in a roll of {low:.1}° to {high:.1}°, whatever the inputs are within their ranges"
        ),
        Answer::Depends => {
            let Some(moves) = first else {
                return format!("{id} {range}: it depends on the roll, {low:.1}° to {high:.1}°");
            };
            let flips = |end: &AtEnd| end.limit_deg.is_some_and(|limit| limit <= given);
            if flips(&moves.worse) == flips(&moves.better) {
                format!(
                    "{id} {range}; the roll is {low:.1}° to {high:.1}°: it depends on the roll first, then on the {}",
                    moves.input
                )
            } else {
                format!(
                    "{id} {range}; in a roll of {given:.1}° it depends on the {}: {} at {}, {} at {}",
                    moves.input,
                    in_roll(&moves.worse, given),
                    moves.worse.value,
                    in_roll(&moves.better, given),
                    moves.better.value
                )
            }
        }
    }
}

/// The ranges that were taken.
pub(super) fn assumptions(source: MotionSource) -> Vec<String> {
    let motion = match source {
        MotionSource::Recorded => {
            "motion from a log: roll 5 %, roll period 2 %, vertical acceleration 10 % either way"
        }
        MotionSource::Stopwatch => {
            "motion by stopwatch: roll 15 %, roll period 5 %, vertical acceleration 30 % either way"
        }
        MotionSource::Estimate
        | MotionSource::Wake
        | MotionSource::Preset
        | MotionSource::Assumed => {
            "motion estimated or assumed: roll 30 %, roll period 10 %, vertical acceleration 30 % either way"
        }
    };
    [
        "friction 10 % either way where measured, 30 % where it is the catalogue's, 0.1 to 0.6 where nobody knows it",
        "height of the centre of gravity 5 %, width of the foot 8 % either way",
        motion,
        "height of the roll axis 0.3 m either way",
        "slack of a lashing from none to twice what was given, to 20 mm where nobody gave it; leaned by the slack the \
         centre stands nearer to the edge of the foot",
        "strength of lashings, points, racks and walls 70 to 110 % of what is known; unknown ones hold",
        "all of these ranges are judgement, no source; each input is drawn evenly over its range, and all cylinders are \
         varied alike",
    ]
    .map(str::to_owned)
    .to_vec()
}
