//! What counts as equal, touching or nothing, with the reason for each size.
//!
//! A deck is measured with a tape and written to the millimetre. Coordinates stay below some
//! hundred metres, where an `f64` is spaced 1e-14 m apart, so a dozen operations leave an error
//! below 1e-12 m. Every length below lies in the wide space between that noise and the millimetre.

/// Vertices nearer to each other than this are the same vertex: a thousandth of what anybody
/// measures, and a million times the rounding of a turned or mirrored vertex.
pub const SAME_POINT_M: f64 = 1e-6;

/// An outline with less area than a square of a millimetre is a line or a slip of the pen.
pub const MIN_AREA_M2: f64 = 1e-6;

/// Two shapes touch where they are nearer than this, and overlap where they are deeper in each
/// other than this. A thousand times the rounding of a distance; a millionth of what is measured.
pub const TOUCH_M: f64 = 1e-9;

/// A place counts as on an edge within this distance of it. A gate on a slanted edge is written to
/// the millimetre, so it may miss the edge by 0.7 mm on either side without any mistake.
pub const ON_EDGE_M: f64 = 1e-3;

/// A way narrower than this is no way: nothing that walks passes through a millimetre.
pub const NO_WAY_M: f64 = 1e-3;

/// How near a search for the clearest point comes to its goal. A tenth of a millimetre is a tenth
/// of what is measured; going further would only cost time.
pub const CLEAREST_M: f64 = 1e-4;

/// The length in whole steps of [`TOUCH_M`], so that lengths that differ by rounding alone compare
/// equal, and ties can be broken by something that does not depend on rounding.
pub(super) fn in_touches(length_m: f64) -> f64 {
    (length_m / TOUCH_M).round()
}
