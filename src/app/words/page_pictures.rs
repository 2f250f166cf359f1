//! Pages that are drawn.

pub(crate) const COMING: &str = "This is being drawn…";
