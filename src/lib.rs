//! Where do the diving cylinders stand, what holds them, and what goes first when the boat rolls?
//!
//! # Conventions
//!
//! * SI inside: metres, kilograms, newtons, seconds, radians. A quantity in any other unit says so
//!   in its name (`roll_amplitude_deg`, `fill_bar`, `strength_kn`). The layout file uses the trade's
//!   units; they become SI where [`engine`] resolves a part of the day, and nowhere else.
//! * Boat frame: origin on the centreline at the aft end of the main deck, at the still waterline;
//!   `x` forward, `y` to port, `z` up. A plan is drawn from above, bow to the right, port at the
//!   top. Directions on the deck run from `+x` towards `+y`.
//! * Roll > 0 puts starboard down, pitch > 0 puts the bow down (right-hand rule in this frame).
//! * `f` is the apparent force per unit mass that a body feels, in the boat frame (m/s²).
//!
//! # Layers
//!
//! Each layer may use the ones above it, never those below. `tests/tidy.rs` holds it so.
//!
//! 1. [`units`]: quantities at the edges, metric and US
//! 2. [`geometry`]: shapes, distances, clear widths on plain numbers; knows no boats
//! 3. [`mechanics`]: one model per file with its source; plain numbers in, numbers out
//! 4. [`catalogue`]: cylinder kinds, materials, surfaces, published limits, each with provenance
//! 5. [`layout`]: the deck plan (boat, trips), its edits and its history
//! 6. [`record`]: what was planned, found, said and measured when something went wrong
//! 7. [`store`]: JSON on disk: strict reading with located mistakes, atomic writing
//! 8. [`engine`]: a part of the day resolved to bodies and numbers
//! 9. [`checks`]: one rule, one file: from numbers to what must be put right
//! 10. [`day`]: the day as a whole: the work on deck, days from a pattern, secured and opened
//! 11. [`brief`]: what the crew has in hand when loading: lists, an order, what to say
//! 12. [`audit`]: as found held against as planned
//! 13. [`sheet`]: pages for paper, as PDF or SVG
//! 14. [`cli`] and [`app`]: the two front ends

pub mod units;

pub mod geometry;
pub mod mechanics;

pub mod catalogue;
pub mod layout;
pub mod record;
pub mod store;

pub mod engine;

pub mod checks;

pub mod day;

pub mod brief;

pub mod audit;

pub mod sheet;

pub mod app;
pub mod cli;
