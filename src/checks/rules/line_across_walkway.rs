//! `W606`: a hose or line lies in a walkway.

use super::walked::{self, walkways};
use super::walkway_trip_hazard::is_line;
use crate::catalogue::published::{LEVEL_CHANGE_IGNORED_M, LevelChange, level_change};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::figures::Figure;
use crate::checks::{CheckContext, Finding, Signal};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no hose or line thicker than 6.4 mm lies in a walkway's strip.
    ///
    /// ## Why it matters
    /// A round hose rolls underfoot, and a loop of line catches one.
    ///
    /// ## Source
    /// ADA Standards, section 303: a change of level up to 6.4 mm needs nothing, above 13 mm it is a trip.
    pub static LINE_ACROSS_WALKWAY = {
        code: "W606",
        name: "line-across-walkway",
        summary: "a hose or line lies in a walkway",
        signal: Signal::Caution,
        pictures: [
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear H hose 2,-1+2,1 thick=0.02",
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear H hose 1,1+3,1 thick=0.02",
        ],
        run: line_across_walkway,
        cures: propose::stow_gear,
    }
}

fn line_across_walkway(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        for intruder in &numbers.intruders {
            let thick = intruder.from_to_m[1] - intruder.from_to_m[0];
            if !is_line(ctx, intruder) || level_change(thick) == LevelChange::Ignored {
                continue;
            }
            let sentence = format!(
                "{} lies in {}, {} thick",
                ctx.name(ThingKind::Gear, &intruder.thing),
                ctx.name(ThingKind::Walkway, &way.id),
                Figure::Thickness(thick),
            );
            let check = &LINE_ACROSS_WALKWAY;
            let what = (way, intruder);
            findings.push(
                walked::intruder_finding(check, ctx, Signal::Caution, what, sentence).measured(
                    "thickness",
                    thick,
                    LEVEL_CHANGE_IGNORED_M,
                    "m",
                ),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn hose(thick: &str) -> String {
        format!(
            "deck 6x4; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7
             gear H hose 3,-1+3,1 thick={thick} h={thick}"
        )
    }

    #[test]
    fn a_hose_across() {
        fires(&hose("0.02"), "CAUTION W606 H W");
        silent(&hose("0.006"), "W606");
        silent(&hose("0.02"), "W604");
    }
}
