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
