//! `F702`: a cylinder that goes falls across a walkway, or on gear, glass or places.

use super::falling::{self, falls, struck};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::StruckKind;

declare_check! {
    /// ## What it checks
    /// Which walkways, places, gear, glass and fixtures that break or burn are within the reach of a cylinder
    /// that goes over within the motion, or that stands unsecured.
    ///
    /// ## Why it matters
    /// Where people pass and sit somebody will be, and glass or a compressor does not stand a cylinder.
    ///
    /// ## Source
    /// Geometry of the fall from its tipping edge, 30° to each side of where it goes (docs/method.md,
    /// falling).
    pub static FALLS_ON_WALKWAY_OR_GEAR = {
        code: "F702",
        name: "falls-on-walkway-or-gear",
        summary: "a cylinder that goes falls across a walkway, or on gear or glass",
        signal: Signal::Warning,
        pictures: [
            "deck 4x3; drifting roll=15/4; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             stand P1 2,0.8",
            "deck 4x3; drifting roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             rack R1 sockets 2,0.8 foot; slot P1 R1/1",
        ],
        run: falls_on_walkway_or_gear,
        cures: propose::secure,
    }
}

fn falls_on_walkway_or_gear(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    const KINDS: [StruckKind; 5] = [
        StruckKind::Place,
        StruckKind::Walkway,
        StruckKind::Gear,
        StruckKind::Glass,
        StruckKind::Fixture,
    ];
    for (fall, cylinder) in falls(ctx) {
        let things = struck(ctx, &fall, &KINDS);
        if things.is_empty() {
            continue;
        }
        let sentence = format!(
            "{} falls on {}: {}",
            cylinder.cylinder,
            falling::names(&things),
            falling::how_far(&fall),
        );
        let signal = falling::signal(cylinder, Signal::Warning);
        let check = &FALLS_ON_WALKWAY_OR_GEAR;
        findings.push(falling::finding(
            check,
            ctx,
            signal,
            (cylinder, fall.as_slice(), things),
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const WAY: &str = "deck 6x4; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn across_a_walkway() {
        fires(
            &format!("{WAY}; drifting roll=15/4; stand P1 3,0.5"),
            "WARNING F702 P1",
        );
    }

    #[test]
    fn through_a_window() {
        fires(
            "deck 6x4; drifting roll=15/4; stand P1 3,0; fixture G glass 2..4,0.4..0.5 h=1
             fixture H glass 2..4,-0.5..-0.4 h=1",
            "WARNING F702 P1",
        );
    }

    #[test]
    fn racked_it_does_not_fall() {
        silent(
            &format!("{WAY}; drifting roll=2/8; rack R1 sockets 3,0.5 foot; slot P1 R1/1"),
            "F702",
        );
    }
}
