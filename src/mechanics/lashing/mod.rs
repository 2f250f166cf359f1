//! From a strap on the deck plan to the restraints of [`equilibrium`](super::equilibrium).
//!
//! # How a strap is taken
//!
//! * A strap from a point round a body to a point is **two legs**. Seen from above each leg touches the
//!   shell at the tangent from its point, on the side away from the other point, so that the strap lies
//!   round the far side; two legs to one point lie left and right ([`leg`]).
//! * A leg that runs down to the deck tilts the whole loop: the strap reaches its height on the far side
//!   of the body (the bight) and leaves downwards from there. So the leg acts along the line through the
//!   point one radius behind the tangent point, at that height. Taking the loop as level would give it a
//!   longer lever.
//! * Both legs carry the same pull but for the grip of the strap on the shell: see
//!   [`Bight`](super::equilibrium::Bight). A strap that is made fast to the body has no such bound.
//! * A leg steeper than 60° below (or above) the horizontal does not stretch when the body slides, so
//!   against sliding it counts with its pretension only, nothing when that is not known (rule of thumb of
//!   the CSS Code, annex 13, section 5; kept here as a house rule on the safe side).
//! * What counts is the calculation strength: the maximum securing load of the weakest part divided by
//!   1.5 ([`strength`]).
//!
//! # One strap round several bodies
//!
//! The legs leave from the hull of all shells. Each body is held by the legs as they would run round it
//! alone, with an even share of the strength: the bodies lean on each other, and what the strap must hold is
//! the sum of what they demand.
//!
//! # References
//!
//! CSS Code (IMO), annex 13, sections 4, 5 and 7. Derived in `docs/method.md`, "Lashings".

pub mod girth;
pub mod hand_test;
pub mod leg;
pub mod strength;
