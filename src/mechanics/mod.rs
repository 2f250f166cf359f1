//! One mechanical model per file, each with its source: plain numbers in, numbers out.
//!
//! SI and radians throughout. A **utilisation** is the share of a limit that a force uses; at 1 or
//! more the body goes. It is infinite where nothing holds at all.

pub mod vector;

pub mod assembly;
pub mod gas;
pub mod shell;

pub mod motion;
pub mod motion_log;
pub mod recorded;

pub mod attitude;
pub mod envelope;

pub mod rolling;
pub mod seaway;

pub mod support;

pub mod lean;
pub mod rocking;
pub mod standing;

pub mod rack;

pub mod lying;
pub mod tiers;

pub mod falling;

pub mod annex13;
pub mod balance;

pub mod equilibrium;
pub mod lashing;
pub mod mechanism;
pub mod slack;

pub mod limit;

#[cfg(test)]
pub(crate) mod property;
#[cfg(test)]
pub(crate) mod testing;
