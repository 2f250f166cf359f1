//! What is done to a cylinder before it is carried, and what after that.

use crate::layout::{Cylinder, Kit, Placing};

/// When in the work on deck a kit is handled or a cylinder filled.
#[derive(Copy, Clone, PartialEq, Eq)]
pub(super) enum Time {
    /// Before anything is carried.
    BeforeMoves,
    /// When all is where it goes.
    AfterMoves,
}

impl Time {
    /// Off what comes aboard: when it is there. On what goes overboard or on a back: before. Else a kit comes off before
    /// it is carried and is fitted where it goes.
    pub(super) fn of_kit(was: &Cylinder, is: &Cylinder) -> Self {
        let (was_away, is_away) = (is_away(&was.placing), is_away(&is.placing));
        match (was_away, is_away) {
            (true, false) => Self::AfterMoves,
            (false, true) => Self::BeforeMoves,
            _ if is.kit == Kit::On => Self::AfterMoves,
            _ => Self::BeforeMoves,
        }
    }

    /// What goes overboard, on a back or away from the whip is full by then.
    pub(super) fn of_fill(was: &Cylinder, is: &Cylinder) -> Self {
        let at_whip = |placing: &Placing| matches!(placing, Placing::Filling { .. });
        if is_away(&is.placing) || (at_whip(&was.placing) && !at_whip(&is.placing)) {
            Self::BeforeMoves
        } else {
            Self::AfterMoves
        }
    }
}

/// Is it in the water or on somebody's back, so that no hand on deck gets at it?
fn is_away(placing: &Placing) -> bool {
    matches!(placing, Placing::InWater | Placing::OnDiver { .. })
}
