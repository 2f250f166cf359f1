//! Load cases in words.

use crate::mechanics::motion::{LoadCase, PeriodEnd, Push, Swing};

/// A load case as a crew would say it.
pub(super) fn case(case: &LoadCase) -> String {
    let side = if case.roll_sign > 0 {
        "starboard"
    } else {
        "port"
    };
    let end = if case.pitch_sign > 0 {
        "bow down"
    } else {
        "bow up"
    };
    let mut words = match case.swing {
        Swing::Steady => "steady".to_owned(),
        Swing::Rolling => format!("rolled to {side}"),
        Swing::Pitching => format!("pitched {end}"),
        Swing::Quartering => format!("rolled to {side} and pitched {end}"),
    };
    match case.vertical_sign {
        1 => words.push_str(", heavy"),
        -1 => words.push_str(", light"),
        _ => {}
    }
    if case.end == PeriodEnd::Longest {
        words.push_str(", slowest roll");
    }
    words.push_str(match case.push {
        Push::None => "",
        Push::Forward => ", gathering speed",
        Push::Aft => ", stopping",
        Push::ToPort => ", turning to port",
        Push::ToStarboard => ", turning to starboard",
    });
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cases_read_like_speech() {
        let quartering = LoadCase {
            swing: Swing::Quartering,
            roll_sign: -1,
            pitch_sign: 1,
            vertical_sign: -1,
            push: Push::Aft,
            end: PeriodEnd::Shortest,
        };
        assert_eq!(
            case(&quartering),
            "rolled to port and pitched bow down, light, stopping"
        );
        assert_eq!(case(&LoadCase::AT_REST), "steady");
        let slow = LoadCase {
            end: PeriodEnd::Longest,
            ..quartering
        };
        assert!(case(&slow).contains("light, slowest roll, stopping"));
    }
}
