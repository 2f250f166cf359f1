//! An upright body held by a rack: force on the rail, on the foot stop, and whether the foot kicks
//! out; the strap across a row; and what the rack hands on to the deck.
//!
//! The rail (edge of a socket, back rail, hoop) holds the shell at height `r` above what the body
//! stands on. Within its diametral play `c` the body leans by `atan(c / r)` before it touches. Per body:
//!
//! ```text
//! F_mom = m max(0, a_h z + a_n x + spin) / r       z, x at the lean: see `lean`
//! F_slide = m max(0, a_h - mu a_n)
//! foot stopped:  F = F_mom,  stop force S = m a_h - F     S > 0 foot pushes outward, S < 0 inward
//! foot free:     F = max(F_mom, F_slide),
//!                U_kick = |a_h (h - r) + spin| / (a_n (b + mu r))
//! ```
//!
//! # Assumptions
//!
//! * With the foot free, `F` is the least that the rail must carry for the body to stay: friction
//!   under the foot takes its share. A very stiff rail can be pressed harder for a moment, up to
//!   `m a_h`, before the foot's friction is called on.
//! * A foot stop acts on both sides. When the shell strikes a low rail after its play, the foot jumps
//!   inward even where `S` at rest points outward (seen in a rigid-body engine, `tests/outside`).
//!
//! # Departures
//!
//! `U_kick` carries the rotation of the body (`spin`), like the moment; without it the formula is
//! that of the linear program of limit analysis on which it was checked.
//!
//! # References
//!
//! Statics with a friction limit at the foot, derived in `docs/method.md`, "Held by a rack".

mod deck_load;
mod rail;

pub use self::deck_load::{DeckLoad, common_centre, hold_down_n};
pub use self::rail::{
    Rail, RailForces, SetRail, rail_forces, rail_forces_at_most, row_strap_pull_n, set_rail_forces,
};

#[cfg(test)]
mod tests;
