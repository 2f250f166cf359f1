//! How the boat moves, what that makes of her balance, and how far the stowage is good: roll period and GM,
//! the sea and a wake, a motion log, the balance and the limit card of a part of the day.
//!
//! While it is open it takes the whole window. What is settled is in the plan; taps of the stopwatch, a log
//! that was read and figures that are only tried are of the window.

mod clock;
mod command;
mod log;
mod log_job;
mod place;
mod roll_period;
mod sea;
mod sea_fan;
mod sea_found;
mod sea_plot;
mod stopwatch;
mod taps;

pub(crate) use self::clock::Stopwatch;
pub(crate) use self::command::MotionCommand;
pub(super) use self::log::unit_pickers_ui;
pub(crate) use self::place::motion_ui;
pub(crate) use self::taps::Taps;

use self::log::LogState;
use super::balance::Steady;
use super::limit_card::CardJob;

/// What is looked at.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(crate) enum Look {
    /// Roll period, GM and damping.
    #[default]
    RollPeriod,
    /// The sea and a wake, and what they make of her.
    Sea,
    /// A recorded motion.
    Log,
    /// Masses, heel and trim.
    Balance,
    /// How far the stowage is good.
    LimitCard,
}

impl Look {
    /// All of them.
    pub(crate) const ALL: [Self; 5] = [
        Self::RollPeriod,
        Self::Sea,
        Self::Log,
        Self::Balance,
        Self::LimitCard,
    ];
}

/// The place where motion, balance and limits are looked at.
#[derive(Debug, Default)]
pub(crate) struct MotionPlace {
    pub(super) look: Look,
    /// The taps of the run that is being timed.
    pub(super) taps: Taps,
    /// A log that is read.
    pub(super) log: LogState,
    /// The limit card as far as it is worked out.
    pub(super) card: CardJob,
    /// A steady wind and turn that are tried.
    pub(super) steady: Steady,
}

impl MotionPlace {
    /// Is something worked out or read beside the window?
    pub(super) fn is_busy(&self) -> bool {
        self.log.is_busy() || self.card.is_busy()
    }
}
