//! The drawing of a cylinder from the side.

pub(crate) const TITLE: &str = "From the side";

/// What the drawing is, for those who cannot see it.
pub(crate) fn from_the_side(id: &str) -> String {
    format!("{id} from the side")
}

/// See the text.
pub(crate) fn edge(force: &str) -> String {
    format!("edge: {force}")
}

/// See the text.
pub(crate) fn lashing(id: &str, force: &str) -> String {
    format!("{id}: {force}")
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
