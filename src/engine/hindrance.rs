//! What something on deck is to somebody who walks past it, by how high it is.

use super::SceneThing;
use crate::catalogue::published::{LEVEL_CHANGE_BEVELLED_M, LEVEL_CHANGE_IGNORED_M};

/// What is not higher than this above the deck can be stepped over: about the height of a knee.
/// Common practice, no source.
pub(crate) const KNEE_M: f64 = 0.5;

/// What is nowhere lower than this above the deck is passed under, if need be with a bent back; it
/// takes away headroom, not width. Common practice, no source.
pub(super) const OVERHEAD_M: f64 = 1.2;

/// A change of level up to this is no hindrance to anybody: 6.4 mm (ADA standards, 303.2).
pub(super) const LEVEL_M: f64 = LEVEL_CHANGE_IGNORED_M;

/// What something is to somebody who walks.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Hindrance {
    /// Nothing: a mat, a flush lid.
    None,
    /// A change of level that people walk over, or who steps aside.
    Level,
    /// It can be stepped over, and tripped over.
    Low,
    /// It cannot be stepped over.
    Tall,
    /// It is passed under.
    Overhead,
}

impl Hindrance {
    /// Of something that reaches from and up to these heights above the deck.
    pub(super) fn of_heights(from_m: f64, to_m: f64) -> Self {
        if from_m >= OVERHEAD_M {
            Self::Overhead
        } else if to_m > KNEE_M {
            Self::Tall
        } else if to_m > LEVEL_CHANGE_BEVELLED_M {
            Self::Low
        } else if to_m > LEVEL_M {
            Self::Level
        } else {
            Self::None
        }
    }

    /// Of something on deck.
    pub(super) fn of(thing: &SceneThing) -> Self {
        match Self::of_heights(thing.from_m, thing.to_m) {
            Self::Low | Self::Tall if thing.walked_on => Self::Level,
            other => other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn heights_decide() {
        let cases = [
            (0.0, 0.0064, Hindrance::None),
            (0.0, 0.007, Hindrance::Level),
            (0.0, 0.013, Hindrance::Level),
            (0.0, 0.014, Hindrance::Low),
            (0.0, 0.5, Hindrance::Low),
            (0.0, 0.51, Hindrance::Tall),
            (0.9, 1.0, Hindrance::Tall),
            (1.2, 2.0, Hindrance::Overhead),
        ];
        for (from_m, to_m, expected) in cases {
            assert_eq!(
                Hindrance::of_heights(from_m, to_m),
                expected,
                "{from_m} {to_m}"
            );
        }
    }
}
