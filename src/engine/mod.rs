//! A part of the day resolved to bodies, what holds them, and every computed number.
//!
//! [`Assessor::assess`] is a pure function of a plan and a trip that remembers what it computed last
//! time, so that moving one cylinder costs what one cylinder costs. It does no I/O, reads no clock
//! and no environment; equal input gives equal output.

pub mod numbers;

mod balance;
mod log;
mod motion;
mod rolling;
mod seaway;

mod assembled;
mod backing;
mod body;
mod friction;
mod rows;
mod scene;
mod straps;

mod front;
mod hold;
mod hold_lying;
mod leaning;
mod limits;
mod mats;
mod needs;
mod sums;
mod ways;
mod words;

mod cylinder;
mod lashing;
mod rack;

mod deck_load;
mod fall;
mod fit;
mod hindrance;
mod walkway;

mod assessor;
mod stowed;
mod varied;

pub use self::assessor::{Assessor, OtherMotion};
pub use self::balance::balance;
pub use self::fall::{Fallen, Rolls};
pub(crate) use self::hindrance::KNEE_M;
pub use self::log::{LogColumns, LogMeasures, LogMeter, recorded_motion, watched};
pub use self::rolling::roll_period;
pub use self::scene::{DeckScene, Scene, SceneThing};
pub use self::seaway::{SeaDirection, SeaPoint, running_motion, sea_curves, sea_directions};
pub use self::stowed::{FreeStanding, Stowed, Takes};
pub use self::varied::{AS_GIVEN, Draw, Uncertain, Varied};

use crate::layout::Boat;

/// The figures of the walkways alone, with nothing remembered and lashings left out.
pub fn clear_widths(boat: &Boat, scene: &Scene) -> Vec<numbers::WalkwayNumbers> {
    walkway::walkways(boat, scene, &[], 0, &mut walkway::WalkwayCache::default())
}

#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;
