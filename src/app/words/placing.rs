//! Where a cylinder is and how.

pub(crate) const STANDING: &str = "standing";
pub(crate) const IN_SLOT: &str = "in a slot";
pub(crate) const LYING: &str = "lying";
pub(crate) const IN_CRATE: &str = "in a crate or under a net";
pub(crate) const UPSIDE_DOWN: &str = "upside down in its cage";
pub(crate) const HANGING: &str = "hanging";
pub(crate) const HELD_BY_HAND: &str = "held by hand";
pub(crate) const ON_DIVER: &str = "on a diver's back";
pub(crate) const FILLING: &str = "on the filling whip";
pub(crate) const IN_WATER: &str = "in the water";
pub(crate) const ASHORE: &str = "ashore";
pub(crate) const RACK: &str = "Rack";
pub(crate) const SLOT: &str = "Slot";
