//! The boat that is shown when no file is named.

use crate::layout::Plan;

/// The badly stowed day boat, so that one press of a cure shows what the program is for. It is compiled
/// in, as the program may be started from anywhere.
const BADLY_STOWED: &str = include_str!("../../layouts/day-boat-badly-stowed.json");

/// The badly stowed day boat.
pub(crate) fn plan() -> Plan {
    let read = crate::store::parse(BADLY_STOWED, "day-boat-badly-stowed.json");
    debug_assert!(read.is_ok(), "{read:?}");
    read.unwrap_or_else(|_| Plan::new("Day boat", 11.5, 4.4))
}
