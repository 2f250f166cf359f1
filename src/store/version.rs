//! A short name for one state of a plan.

use std::fmt::Write as _;

use sha2::{Digest as _, Sha256};

use super::to_text;
use crate::layout::Plan;

/// How many bytes of the hash: enough to tell two states of a plan apart by eye.
const BYTES: usize = 4;

/// The start of the SHA-256 of the plan as it would be saved, without what was ticked off: a sheet stays that
/// of its plan while it is worked through.
pub fn version_of(plan: &Plan) -> String {
    let mut plan = plan.clone();
    for trip in &mut plan.trips {
        if let Some(briefing) = &mut trip.briefing {
            briefing.ticks.clear();
        }
        trip.briefing.take_if(|briefing| briefing.is_empty());
    }
    let mut text = String::with_capacity(2 * BYTES);
    for byte in Sha256::digest(to_text(&plan)).iter().take(BYTES) {
        write!(text, "{byte:02x}").ok();
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Briefing, LoadingTick};

    #[test]
    fn ticks_leave_the_version_and_changes_do_not() {
        let mut plan = Plan::new("Otter", 9.0, 3.0);
        let version = version_of(&plan);
        assert_eq!(version.len(), 8);
        plan.trips[0].briefing = Some(Briefing {
            ticks: vec![LoadingTick {
                cylinder: "P1".to_owned(),
                by: "Ann".to_owned(),
                when: "06:40".to_owned(),
                skipped: None,
            }],
            ..Briefing::default()
        });
        assert_eq!(version_of(&plan), version);
        plan.boat.beam_m = 3.1;
        assert_ne!(version_of(&plan), version);
    }
}
