//! How findings speak: forces in kilograms of pull first, names in lists. The lengths and masses here are
//! metric text; in a finding they are `figures`, which can be read in US units too.

use crate::engine::numbers::{CylinderNumbers, LimitNumbers, MotionNumbers, Way};
use crate::units::{Figure, Said, System};

pub use super::names::{list, list_in_order};

/// A force: `42 kg of pull (0.41 kN)`.
pub fn pull(newtons: f64) -> String {
    Figure::Pull(newtons).show(System::Metric)
}

/// `42 kg`; one decimal below ten.
pub fn kilograms(kg: f64) -> String {
    Figure::Mass(kg).show(System::Metric)
}

/// `8.2°`; no decimal from 20 on.
pub fn degrees(deg: f64) -> String {
    if deg.abs() < 19.95 {
        format!("{deg:.1}°")
    } else {
        format!("{deg:.0}°")
    }
}

/// `0.44 m`, and `42 mm` below a tenth of a metre.
pub fn metres(m: f64) -> String {
    Figure::Length(m).show(System::Metric)
}

/// `40 %`.
pub fn percent(share: f64) -> String {
    // A little below nothing is nothing.
    format!("{:.0} %", (share * 100.0).round() + 0.0)
}

/// `is` for one, `are` for more.
pub fn is_are(count: usize) -> &'static str {
    if count == 1 { "is" } else { "are" }
}

/// An `s` for one, as verbs have it.
pub fn verb_s(count: usize) -> &'static str {
    if count == 1 { "s" } else { "" }
}

/// A share of a part's whole motion: `85 % of the boat's motion`, `1.98 times the boat's motion`.
pub fn of_motion(share: f64) -> String {
    if share < 1.0 {
        format!("{} of the boat's motion", percent(share))
    } else {
        format!("{share:.2} times the boat's motion")
    }
}

/// What it does when it goes: `tips`.
pub fn way(way: Way) -> &'static str {
    match way {
        Way::Tips => "tips",
        Way::Slides => "slides",
        Way::Lifts => "lifts off",
        Way::FootKicksOut => "kicks its foot out",
        Way::RackGives => "breaks out of its rack",
        Way::LashingGives => "breaks its lashing",
        Way::RollsAway => "rolls away",
        Way::SlidesAlong => "slides along its axis",
        Way::LeavesGroove => "climbs out of its groove",
    }
}

/// `to starboard`, `ahead and to port`: a direction on deck, for degrees from the bow towards port.
pub fn towards(deg: f64) -> &'static str {
    const EIGHTHS: [&str; 8] = [
        "ahead",
        "ahead and to port",
        "to port",
        "astern and to port",
        "astern",
        "astern and to starboard",
        "to starboard",
        "ahead and to starboard",
    ];
    let eighth = (deg.rem_euclid(360.0) / 45.0).round().clamp(0.0, 8.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 0..=8 just before; what is no number becomes 0"
    )]
    let index = eighth as usize % 8;
    EIGHTHS[index]
}

/// A shift over the deck: `0.12 m to port`; both parts where both matter.
pub fn shift(by: [f64; 2]) -> String {
    Said::from(super::figures::shift(by)).to_string()
}

/// How a utilisation reads: `holds with 40 % to spare`, or `needs 1.4 times what holds it`.
pub fn spare(utilisation: f64) -> String {
    if utilisation < 1.0 {
        format!("holds with {} to spare", percent(1.0 - utilisation))
    } else if utilisation.is_finite() {
        format!("would need {utilisation:.1} times what holds it")
    } else {
        "has nothing that holds it".to_owned()
    }
}

/// When a cylinder goes, as a clause: `it tips at 8.2° of roll, and the boat rolls 15.0°`.
pub fn goes_at(limit: &LimitNumbers, motion: &MotionNumbers) -> String {
    let does = limit.way.map_or("goes", way);
    let rolls = degrees(motion.roll_amplitude_deg);
    match (limit.goes_at_rest, limit.goes_without_roll, limit.roll_deg) {
        (true, ..) => format!("it {does} at rest, without any motion"),
        (_, true, _) => {
            format!("it {does} without any roll: pitch, heave, pushes or steady heel are enough")
        }
        (_, _, Some(roll)) if roll <= motion.roll_amplitude_deg => {
            format!(
                "it {does} at {} of roll, and the boat rolls {rolls}",
                degrees(roll)
            )
        }
        (_, _, Some(roll)) => {
            format!(
                "it {does} at {} of roll; the boat rolls {rolls}",
                degrees(roll)
            )
        }
        (_, _, None) => match limit.share {
            Some(share) => format!("it {does} at {}", of_motion(share)),
            None => format!(
                "it stays put up to {} of roll",
                degrees(LimitNumbers::SEARCHED_ROLL_DEG)
            ),
        },
    }
}

/// The steady lean at which it would tip, as a clause; empty where it does not stand.
pub fn leaning_slowly(cylinder: &CylinderNumbers) -> String {
    cylinder
        .static_tip_angle_deg
        .map_or_else(String::new, |angle| {
            format!(" (leaning slowly it tips at {})", degrees(angle))
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forces_are_said_in_kilograms_of_pull_first() {
        assert_eq!(pull(411.9), "42 kg of pull (0.41 kN)");
        assert_eq!(pull(49.03), "5.0 kg of pull (0.05 kN)");
    }

    #[test]
    fn more_than_the_whole_motion_is_told_by_how_many_times() {
        assert_eq!(of_motion(0.854), "85 % of the boat's motion");
        assert_eq!(of_motion(1.98), "1.98 times the boat's motion");
    }

    #[test]
    fn directions_go_from_the_bow_towards_port() {
        assert_eq!(towards(0.0), "ahead");
        assert_eq!(towards(91.0), "to port");
        assert_eq!(towards(-90.0), "to starboard");
        assert_eq!(towards(359.0), "ahead");
        assert_eq!(towards(180.0), "astern");
    }

    #[test]
    fn shifts_are_rounded_up_so_that_they_clear() {
        assert_eq!(shift([0.0, 0.1201]), "0.13 m to port");
        assert_eq!(shift([-0.2, 0.001]), "0.20 m astern");
        assert_eq!(shift([0.3, -0.4]), "0.30 m ahead and 0.40 m to starboard");
    }
}
