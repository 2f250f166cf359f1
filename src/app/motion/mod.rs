//! How the boat moves, what that makes of her balance, and how far the stowage is good: roll period and GM,
//! the sea and a wake, a motion log, the balance and the limit card of a part of the day.
//!
//! While it is open it takes the whole window. What is settled is in the plan; taps of the stopwatch, a log
//! that was read and figures that are only tried are of the window.

mod clock;
mod command;
mod place;
mod roll_period;
mod stopwatch;
mod taps;

pub(crate) use self::clock::Stopwatch;
pub(crate) use self::command::MotionCommand;
pub(crate) use self::place::motion_ui;
pub(crate) use self::taps::Taps;

use super::balance::Steady;

/// What is looked at.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Look {
    /// Roll period, GM and damping.
    #[default]
    RollPeriod,
    /// Masses, heel and trim.
    Balance,
}

impl Look {
    /// All of them.
    pub(crate) const ALL: [Self; 2] = [Self::RollPeriod, Self::Balance];
}

/// The place where motion, balance and limits are looked at.
#[derive(Debug, Default)]
pub(crate) struct MotionPlace {
    pub(super) look: Look,
    /// The taps of the run that is being timed.
    pub(super) taps: Taps,
    /// A steady wind and turn that are tried.
    pub(super) steady: Steady,
}
