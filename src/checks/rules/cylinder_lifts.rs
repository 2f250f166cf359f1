//! `T203`: a cylinder lifts off the deck, or nearly.

use super::cylinder_goes::{self, going, how_near};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::{Stance, Way};

declare_check! {
    /// ## What it checks
    /// That no cylinder on deck leaves the deck: that the boat never drops away under it faster than it
    /// falls, or that lashings or a net hold it down. Racks are told as R303.
    ///
    /// ## Why it matters
    /// On a boat that runs into a sea everything weighs nothing for a moment. What is not held down is
    /// somewhere else when the boat comes up again.
    ///
    /// ## Source
    /// Balance of forces normal to the deck (docs/method.md, lashings); common practice, no source, for
    /// how hard a running boat drops.
    pub static CYLINDER_LIFTS = {
        code: "T203",
        name: "cylinder-lifts",
        summary: "a cylinder lifts off the deck",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running up=1.2; lie P1 1.5,0 towards=0 saddle=60",
            "deck 3x2; running up=0.3; lie P1 1.5,0 towards=0 saddle=60",
        ],
        run: cylinder_lifts,
        cures: propose::hold_better,
    }
}

fn cylinder_lifts(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::Lifts) {
        let (cylinder, _, _, share) = graded;
        let racked = cylinder.stance == Stance::InRack;
        if racked || cylinder_goes::told_as_unsecured(ctx, cylinder) {
            continue;
        }
        let id = &cylinder.cylinder;
        let sentence = format!(
            "{id} lifts off the deck: {}; nothing holds it down enough",
            how_near(ctx, cylinder, (Way::Lifts, share))
        );
        findings.push(cylinder_goes::finding(
            &CYLINDER_LIFTS,
            ctx,
            graded,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn weightless_on_deck() {
        let lying = "lie P1 3,0 towards=0 saddle=60";
        fires(
            &format!("deck 6x3; running up=1.05; {lying}"),
            "DANGER T203 P1",
        );
        silent(&format!("deck 6x3; running up=0.2; {lying}"), "T203");
    }

    #[test]
    fn a_strap_over_it_holds_it_down() {
        silent(
            "deck 6x3; running up=1.05; lie P1 3,0 towards=0 saddle=60
             point E1 3,0.4 strength=9; point E2 3,-0.4 strength=9
             lash L1 E1 P1 E2 h=0.18 strength=5 tight=0.3",
            "T203",
        );
    }
}
