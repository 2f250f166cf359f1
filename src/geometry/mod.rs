//! Shapes, distances and clear widths on plain numbers; knows no boats.
//!
//! All lengths are metres, all angles radians from `+x` towards `+y`, and everything lies in one
//! plane, seen from above. Shapes are closed sets: a point on an edge belongs to the shape, and two
//! shapes that merely touch do not overlap. What a list of points must satisfy is checked once, when
//! the [`Outline`], [`Region`] or [`Strip`] is made; after that nothing here fails or panics.
//!
//! What counts as equal, touching or nothing at all stands in [`tolerances`], with its reasons.

pub mod tolerances;

mod elementary;
pub use self::elementary::Elementary;

mod vec2;
pub use self::vec2::{Vec2, vec2};

mod bounds;
pub use self::bounds::Bounds;

mod predicates;
mod segment;
pub use self::segment::{Nearest, Segment};

mod outline;
pub use self::outline::{Outline, OutlineError};

mod region;
pub use self::region::{Region, RegionError};

mod shape;
pub use self::shape::{Shape, rectangle};

mod escape;
mod separation;
pub use self::separation::{Separation, separation};

mod nearest_stretch;
pub use self::nearest_stretch::middle_of_nearest;

mod overhang;
pub use self::overhang::{Overhang, overhang};

mod strip;
pub use self::strip::{Intrusion, Strip, StripError};

mod sector;
pub use self::sector::Sector;

mod index;
pub use self::index::Index;

mod cover;
pub use self::cover::{clusters, hull_area, union_area};

pub mod clear_width;
pub use self::clear_width::{ClearWidth, Tag, TightSpot, Walls, Zone};

pub mod survey;

#[cfg(test)]
mod test_support;
