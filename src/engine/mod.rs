//! A part of the day resolved to bodies, what holds them, and every computed number.
//!
//! [`Assessor::assess`] is a pure function of a plan and a trip that remembers what it computed last
//! time, so that moving one cylinder costs what one cylinder costs. It does no I/O, reads no clock
//! and no environment; equal input gives equal output.

mod assessor;
mod fit;
mod hindrance;
pub mod numbers;
mod scene;
#[cfg(test)]
mod testing;
mod walkway;

pub use self::assessor::Assessor;
pub use self::scene::{DeckScene, Scene, SceneThing};
