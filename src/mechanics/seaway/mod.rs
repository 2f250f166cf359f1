//! The motion that the sea makes: from waves to roll, pitch, vertical acceleration and the force
//! along the deck.
//!
//! * [`states`]: heights of the WMO sea states, coastal and ocean periods
//! * [`spectrum`]: how the energy of the sea lies over frequency
//! * [`response`]: what the boat makes of it, by linear theory
//! * [`extremes`]: from standard deviations to the largest in a time, and to how often
//! * [`wake`]: a few regular waves of a passing boat
//! * [`running`]: where linear theory ends, and what is assumed for a boat that runs
//!
//! # References
//!
//! Derived in `docs/method.md`, "Motion from the boat and the sea".

pub mod extremes;
pub mod response;
pub mod running;
pub mod spectrum;
pub mod states;
pub mod wake;
