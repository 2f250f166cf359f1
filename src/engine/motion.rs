//! The motion of a part of the day: what the plan says of it, and what is assumed where it is silent.

use std::f64::consts::PI;

use super::numbers::MotionNumbers;
use crate::layout::{Boat, Condition, Hull, MotionInput, MotionSource, Part};
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
        MotionSource::Estimate | MotionSource::Assumed => 0.5,
    }
}

/// Roll period of the boat in seconds, and how it was come by where it was not given.
///
/// `T = 2 C B / sqrt(GM)`, `C = 0.373 + 0.023 B/d - 0.043 L/100` (2008 IS Code, part A, 2.3; as 46 CFR
/// 28.575) for a single displacement hull whose draught and GM are known; otherwise 0.8 seconds for each
/// metre of beam, between 2 and 6 s (common practice, no source).
pub(super) fn roll_period_s(boat: &Boat) -> (f64, Option<String>) {
    if let Some(period) = boat.roll_period_s {
        return (period, None);
    }
    if let (Some(Hull::Monohull), Some(draught), Some(gm)) = (boat.hull, boat.draught_m, boat.gm_m)
    {
        let length = boat.waterline_length_m.unwrap_or(boat.length_overall_m);
        let c = 0.373 + 0.023 * boat.beam_m / draught - 0.043 * length / 100.0;
        let period = 2.0 * c * boat.beam_m / gm.sqrt();
        return (
            period,
            Some(format!(
                "roll period {period:.1} s from beam, draught and GM (IS Code formula)"
            )),
        );
    }
    let period = (0.8 * boat.beam_m).clamp(2.0, 6.0);
    (
        period,
        Some(format!(
            "roll period {period:.1} s from the beam alone (common practice, no source): time it with a stopwatch"
        )),
    )
}

/// The motion of a part of the day in SI, and the same as numbers with what was assumed.
pub(super) fn resolve(boat: &Boat, part: &Part) -> (Motion, MotionNumbers) {
    let mut assumed = Vec::new();
    let input = part.motion.clone().unwrap_or_else(|| {
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
    let roll_period_s = input.roll_period_s.unwrap_or_else(|| {
        let (period, how) = roll_period_s(boat);
        assumed.extend(how);
        period
    });
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
        assumed,
        roll_amplitude_deg: input.roll_amplitude_deg,
        roll_period_s,
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
    use crate::layout::Plan;

    /// Worked from the formula that 46 CFR 28.575 prints: B 5.0 m, d 1.5 m, L 16 m, GM 0.90 m give
    /// C 0.44279 and 4.667 s.
    #[test]
    fn the_roll_period_of_the_is_code() {
        let mut boat = Plan::new("Test", 16.0, 5.0).boat;
        boat.hull = Some(Hull::Monohull);
        boat.draught_m = Some(1.5);
        boat.gm_m = Some(0.9);
        let (period, how) = roll_period_s(&boat);
        assert!((period - 4.667).abs() < 5e-4, "{period}");
        assert!(how.is_some(), "it says how it was come by");
    }

    #[test]
    fn a_twin_hull_gets_no_period_from_the_formula() {
        let mut boat = Plan::new("Test", 12.0, 5.0).boat;
        boat.hull = Some(Hull::TwinHull);
        boat.draught_m = Some(0.8);
        boat.gm_m = Some(6.0);
        let (_, how) = roll_period_s(&boat);
        assert!(how.unwrap().contains("stopwatch"));
    }

    #[test]
    fn what_is_assumed_is_said() {
        let plan = Plan::new("Test", 10.0, 4.0);
        let (_, numbers) = resolve(&plan.boat, &plan.trips[0].parts[0]);
        assert_eq!(numbers.assumed.len(), 3, "{:?}", numbers.assumed);
    }
}
