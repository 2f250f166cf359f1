//! The drawing of a cylinder from the side.

pub(crate) const TITLE: &str = "From the side";

/// What the drawing is, for those who cannot see it.
pub(crate) fn from_the_side(id: &str) -> String {
    format!("{id} from the side")
}

/// See the text.
pub(crate) fn edge(force: &str, share: Option<&str>) -> String {
    with_share(&format!("edge: {force}"), share)
}

/// See the text.
pub(crate) fn lashing(id: &str, force: &str, share: Option<&str>) -> String {
    with_share(&format!("{id}: {force}"), share)
}

/// A force with how much that is of what bears it.
fn with_share(text: &str, share: Option<&str>) -> String {
    match share {
        Some(share) => format!("{text}, {share}"),
        None => format!("{text}, strength not known"),
    }
}

/// See the text.
pub(crate) fn centre_at(height: &str) -> String {
    format!("centre of gravity at {height}")
}

/// See the text.
pub(crate) fn edge_at(distance: &str) -> String {
    format!("{distance} to the edge it tips over")
}

/// See the text.
pub(crate) fn tips_at(angle: &str) -> String {
    format!("held by nothing, tips at {angle}")
}

pub(crate) const CURVE: &str = "Limit and roll period";
pub(crate) const CURVE_SLOW: &str = "s between rolls";
pub(crate) const CURVE_DEG: &str = "goes at, °";
pub(crate) const CURVE_TRYING: &str = "Working it out…";
pub(crate) const CURVE_HERE: &str =
    "The dot is this part of the day: below the line it holds, above it goes.";
pub(crate) const CURVE_NONE: &str = "It goes at none of these periods as far as is searched.";

/// The curve in words: at the shortest and at the longest period at which it goes.
pub(crate) fn curve(points: &[(f64, f64)]) -> String {
    match points {
        [] => CURVE_NONE.to_owned(),
        [(period, deg)] => format!("rolling every {period:.1} s it goes at {deg:.1}°"),
        [(first, low), .., (last, high)] => format!(
            "rolling every {first:.1} s it goes at {low:.1}°, every {last:.1} s at {high:.1}°"
        ),
    }
}
