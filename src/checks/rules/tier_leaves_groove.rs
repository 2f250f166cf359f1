//! `Y504`: a cylinder of an upper tier climbs out of its groove, or nearly.

use super::cylinder_goes::{self, direction, going, how_near};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::Way;

declare_check! {
    /// ## What it checks
    /// That a cylinder lying in the groove between two others stays there.
    ///
    /// ## Why it matters
    /// An upper tier rolls off over the lower one and falls on whoever stands beside it.
    ///
    /// ## Source
    /// Balance of a cylinder on the two below it: it leaves from `a_across / a_n` = tan nu on, sin nu = s / (2
    /// (R + r)); 0.577 where they touch (docs/method.md, lying: tiers). Lashing of tiers: 49 CFR 176.200(b).
    pub static TIER_LEAVES_GROOVE = {
        code: "Y504",
        name: "tier-leaves-groove",
        summary: "an upper tier climbs out of its groove",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=35/3.5; lie A 1.5,-0.093 towards=0 cap saddle=80
             lie B 1.5,0.093 towards=0 cap saddle=80; lie C 1.5,0 towards=0 cap upon=A+B",
            "deck 3x2; running roll=5/5; lie A 1.5,-0.093 towards=0 cap saddle=80
             lie B 1.5,0.093 towards=0 cap saddle=80; lie C 1.5,0 towards=0 cap upon=A+B",
        ],
        run: tier_leaves_groove,
        cures: propose::lash_down,
    }
}

fn tier_leaves_groove(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::LeavesGroove) {
        let (cylinder, utilisation, _, share) = graded;
        let sentence = format!(
            "{} leaves its groove{}: {}",
            cylinder.cylinder,
            direction(utilisation),
            how_near(ctx, cylinder, (Way::LeavesGroove, share)),
        );
        let finding = cylinder_goes::finding(&TIER_LEAVES_GROOVE, ctx, graded, sentence);
        findings.push(finding.fold_as("Y504/lash".to_owned()));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn stack(roll: &str) -> String {
        format!(
            "deck 6x3; running roll={roll}; lie A 3,-0.093 towards=0 saddle=80
             lie B 3,0.093 towards=0 saddle=80; lie C 3,0 towards=0 upon=A+B"
        )
    }

    #[test]
    fn a_hard_roll_empties_the_groove() {
        fires(&stack("35/3.5"), "DANGER Y504 C");
        silent(&stack("5/5"), "Y504");
    }
}
