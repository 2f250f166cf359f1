//! What a cylinder does in the motion of a part of the day, in one line.

use super::words::outcome as words;
use crate::engine::numbers::{CylinderNumbers, LimitNumbers, MotionNumbers, Stance};

/// How good the outcome is.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Tone {
    /// It goes within the motion of the part.
    Bad,
    /// It holds only just, or only if something holds that nobody knows.
    Doubtful,
    /// It holds.
    Good,
}

/// One line, and how good it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Outcome {
    /// The line.
    pub(crate) text: String,

    /// How good it is.
    pub(crate) tone: Tone,
}

/// "stands free: goes at 8°", "slot P6: holds with 40 % to spare".
pub(crate) fn of_cylinder(numbers: &CylinderNumbers, motion: &MotionNumbers) -> Outcome {
    let place = match (&numbers.rack, numbers.stance) {
        (Some(hold), Stance::InRack | Stance::InCradle) => words::slot(&hold.slot),
        _ => words::stance(numbers.stance).to_owned(),
    };
    let Outcome { text, tone } = if is_unsecured(numbers.stance) {
        of_unsecured(numbers, motion)
    } else {
        of_limit(numbers, motion)
    };
    Outcome {
        text: words::told(&place, &text),
        tone,
    }
}

/// Does nothing but its foot, a wall or a hand keep it?
fn is_unsecured(stance: Stance) -> bool {
    use Stance::{Backed, HeldByHand, OnWhip, StandsFree};
    matches!(stance, StandsFree | Backed | HeldByHand | OnWhip)
}

/// What is unsecured has no margin to speak of: it is told when it goes.
fn of_unsecured(numbers: &CylinderNumbers, motion: &MotionNumbers) -> Outcome {
    let Outcome { tone, .. } = of_limit(numbers, motion);
    Outcome {
        text: goes_text(&numbers.limit),
        tone: tone.min(Tone::Doubtful),
    }
}

/// "goes at 8°" without the place.
pub(crate) fn of_limit(numbers: &CylinderNumbers, motion: &MotionNumbers) -> Outcome {
    let limit = &numbers.limit;
    if goes(numbers) || is_within(limit) {
        let text = goes_text(limit);
        return Outcome {
            text,
            tone: Tone::Bad,
        };
    }
    // Whatever its numbers say, an upright cylinder that only its foot holds is no good stowage.
    if matches!(numbers.stance, Stance::StandsFree | Stance::Backed) {
        return Outcome {
            text: words::unsecured(&goes_text(limit)),
            tone: Tone::Doubtful,
        };
    }
    let worst = worst_share(numbers);
    let text = match worst {
        Some(worst) => words::holds_with(&percent(1.0 - worst)),
        None => match limit.roll_deg {
            Some(deg) => words::holds_up_to(&degrees(deg)),
            None => words::HOLDS_ALL.to_owned(),
        },
    };
    if limit.if_unknowns_hold || !numbers.needs.is_empty() {
        return Outcome {
            text: words::if_it_holds(&text),
            tone: Tone::Doubtful,
        };
    }
    let near = worst.is_some_and(|worst| worst >= motion.warning_from);
    Outcome {
        text,
        tone: if near { Tone::Doubtful } else { Tone::Good },
    }
}

/// When it goes: by roll where roll decides, else as a share of the motion.
pub(crate) fn goes_text(limit: &LimitNumbers) -> String {
    if limit.goes_at_rest {
        words::GOES_AT_REST.to_owned()
    } else if limit.goes_without_roll {
        words::GOES_WITHOUT_ROLL.to_owned()
    } else if let Some(deg) = limit.roll_deg {
        words::goes_at(&degrees(deg))
    } else if let Some(share) = limit.share {
        words::goes_at_share(&percent(share))
    } else {
        words::HOLDS_ALL.to_owned()
    }
}

fn goes(numbers: &CylinderNumbers) -> bool {
    numbers.utilisations.iter().any(|item| item.goes)
}

fn is_within(limit: &LimitNumbers) -> bool {
    limit.goes_at_rest || limit.share.is_some_and(|share| share < 1.0)
}

/// The greatest share of what holds that is used up.
pub(crate) fn worst_share(numbers: &CylinderNumbers) -> Option<f64> {
    let values = numbers.utilisations.iter().filter_map(|item| item.value);
    values.max_by(f64::total_cmp)
}

/// "8°", "8.4°" below ten.
pub(crate) fn degrees(deg: f64) -> String {
    if deg < 9.95 {
        format!("{deg:.1}°")
    } else {
        format!("{deg:.0}°")
    }
}

/// "40 %".
pub(crate) fn percent(share: f64) -> String {
    format!("{:.0} %", 100.0 * share)
}
