//! The motion of a part of the day: what the plan says of it, and what is assumed where it is silent.

use std::f64::consts::PI;

use super::numbers::MotionNumbers;
use super::rolling::roll_period_s;
use super::seaway::SeaEstimate;
use crate::layout::{Boat, Condition, MotionInput, MotionSource, Part};
use crate::mechanics::motion::{Axes, GRAVITY, Motion, StraightPushes};

/// Pitch period where nobody gave one, in seconds (two small hulls in a panel method; common practice).
const ASSUMED_PITCH_PERIOD_S: f64 = 2.5;

/// Roll and pitch to each side and vertical acceleration that are assumed for a condition while nobody
/// has given any: degrees, degrees, g. Common practice, no source.
fn assumed_amplitudes(condition: Condition) -> (f64, f64, f64) {
    match condition {
        Condition::MadeFast => (4.0, 1.0, 0.05),
        Condition::AtAnchor => (8.0, 3.0, 0.1),
        Condition::Running => (10.0, 5.0, 0.2),
        Condition::Drifting => (15.0, 5.0, 0.15),
    }
}

/// From which utilisation on a finding is a WARNING: the surer the motion, the nearer to the limit one
/// may go (`docs/method.md`, grading; sampled with assumed spreads).
fn warning_from(source: MotionSource) -> f64 {
    match source {
        MotionSource::Recorded => 0.75,
        MotionSource::Stopwatch => 0.67,
        MotionSource::Estimate
        | MotionSource::Wake
        | MotionSource::Preset
        | MotionSource::Assumed => 0.5,
    }
}

/// The motion of a part of the day in SI, and the same as numbers with what was assumed.
///
/// Without a motion it is the one that the sea or a wake makes, else the one assumed for the condition.
pub(super) fn resolve(boat: &Boat, part: &Part, estimate: &SeaEstimate) -> (Motion, MotionNumbers) {
    let mut assumed = Vec::new();
    if part.motion.is_none() {
        let refused = (estimate.sea.as_ref()).and_then(|sea| sea.refused.clone());
        assumed.extend(refused);
    }
    let estimated = || estimate.motion.clone();
    let input = part.motion.clone().or_else(estimated).unwrap_or_else(|| {
        let (roll, pitch, vertical) = assumed_amplitudes(part.condition);
        assumed.push(format!(
            "roll {roll}°, pitch {pitch}°, {vertical} g up and down (common practice, no source)"
        ));
        MotionInput {
            source: MotionSource::Assumed,
            roll_amplitude_deg: roll,
            pitch_amplitude_deg: pitch,
            vertical_g: vertical,
            ..MotionInput::default()
        }
    });
    let [roll_period_s, longest_s] = input.roll_period_s.map_or_else(
        || {
            let (range, how) = roll_period_s(boat);
            assumed.extend(how);
            range
        },
        |period| [period; 2],
    );
    let longest_s = (longest_s > roll_period_s).then_some(longest_s);
    let pitch_period_s = input.pitch_period_s.unwrap_or_else(|| {
        if input.pitch_amplitude_deg > 0.0 {
            assumed.push(format!(
                "pitch period {ASSUMED_PITCH_PERIOD_S} s (common practice, no source)"
            ));
        }
        ASSUMED_PITCH_PERIOD_S
    });
    let motion = Motion {
        roll_amplitude_rad: radians(input.roll_amplitude_deg),
        roll_period_s,
        longest_roll_period_s: longest_s,
        pitch_amplitude_rad: radians(input.pitch_amplitude_deg),
        pitch_period_s,
        vertical_amplitude: input.vertical_g * GRAVITY,
        heel_rad: radians(input.heel_deg),
        trim_rad: radians(input.trim_deg),
        push: StraightPushes {
            forward: input.push_ahead_g * GRAVITY,
            aft: input.push_astern_g * GRAVITY,
            to_port: input.push_port_g * GRAVITY,
            to_starboard: input.push_starboard_g * GRAVITY,
        },
        axes: Axes {
            roll_height_m: boat.roll_axis_height(),
            pitch_x_m: boat.pitch_axis_x(),
            pitch_height_m: boat.roll_axis_height(),
        },
    };
    let numbers = MotionNumbers {
        source: input.source,
        made_from: input.made_from,
        assumed,
        roll_amplitude_deg: input.roll_amplitude_deg,
        roll_period_s,
        longest_roll_period_s: longest_s,
        pitch_amplitude_deg: input.pitch_amplitude_deg,
        pitch_period_s,
        vertical_m_s2: motion.vertical_amplitude,
        heel_deg: input.heel_deg,
        trim_deg: input.trim_deg,
        warning_from: warning_from(input.source),
    };
    (motion, numbers)
}

fn radians(degrees: f64) -> f64 {
    degrees * PI / 180.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::engine::Assessor;
    use crate::layout::{Cylinder, Placing, Plan};

    #[test]
    fn what_is_assumed_is_said() {
        let plan = Plan::new("Test", 10.0, 4.0);
        let (_, numbers) = resolve(&plan.boat, &plan.trips[0].parts[0], &SeaEstimate::default());
        assert_eq!(numbers.assumed.len(), 3, "{:?}", numbers.assumed);
    }

    /// On a deck above the roll axis the quick end is the worse, deep below it the slow one; both are found, and
    /// nothing between them is worse.
    #[test]
    fn over_a_range_the_worse_end_counts() {
        let share = |deck_m: f64, period: Option<f64>| {
            let mut plan = Plan::new("Test", 10.0, 4.0);
            plan.boat.roll_period_range_s = Some([3.3, 9.0]);
            plan.boat.decks[0].height_above_waterline_m = deck_m;
            plan.trips[0].parts[0].motion = Some(MotionInput {
                roll_amplitude_deg: 14.0,
                roll_period_s: period,
                ..MotionInput::default()
            });
            let placing = Placing::Standing {
                deck: plan.boat.decks[0].id.clone(),
                at: [4.0, 0.5],
                on: None,
            };
            let cylinder = Cylinder::new("A", "al-80cf", placing);
            plan.trips[0].cylinders.push(cylinder);
            let mut assessor = Assessor::default();
            let parts = &assessor.assess(&plan, &plan.trips[0]).parts;
            parts[0].cylinders[0].limit.share.unwrap_or(f64::INFINITY)
        };
        for (deck_m, worse, better) in [(1.0, 3.3, 9.0), (-2.6, 9.0, 3.3)] {
            let range = share(deck_m, None);
            assert!((range - share(deck_m, Some(worse))).abs() < 1e-6);
            assert!(range < 0.95 * share(deck_m, Some(better)), "{deck_m}");
            for between in [3.6, 4.5, 6.0, 8.0] {
                assert!(range <= share(deck_m, Some(between)) + 1e-6);
            }
        }
    }
}
