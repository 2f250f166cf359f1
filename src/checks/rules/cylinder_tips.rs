//! `T201`: a cylinder tips, or nearly.

use super::cylinder_goes::{self, direction, going, how_near};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::engine::numbers::{Stance, Way};

declare_check! {
    /// ## What it checks
    /// That no standing cylinder tips within the motion of the part of the day, with all that holds it
    /// counted: its base, kit, lashings and what backs it, in every direction that stays open.
    ///
    /// An unsecured cylinder is told once, as U101. Where nobody knows the strength of what backs a cylinder,
    /// the finding says what is needed.
    ///
    /// ## Why it matters
    /// A lashing that pulls only one way, sits too low, or holds a cylinder whose kit shifts its centre
    /// lets it fall the other way.
    ///
    /// ## Source
    /// Balance of moments about the tipping edge (docs/method.md, standing free; lashings; the balance
    /// of IMO CSS Code, Annex 13). DANGER from 1; WARNING from the share that the source of the motion
    /// leaves (docs/method.md, grading).
    pub static CYLINDER_TIPS = {
        code: "T201",
        name: "cylinder-tips",
        summary: "a cylinder tips although something holds it",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.6; running roll=20/4; stand P1 1.5,0
             point E1 1.5,0.6; lash L1 E1 P1 E1 h=0.44 tight=0.2",
            "deck 3x2 friction=0.6; running roll=20/4; stand P1 1.5,0
             point E1 1.9,0.5 strength=9; point E2 1.9,-0.5 strength=9
             point E3 1.1,0.5 strength=9; point E4 1.1,-0.5 strength=9
             lash L1 E1 P1 E2 h=0.44 tight=0.2; lash L2 E3 P1 E4 h=0.44 tight=0.2",
        ],
        run: cylinder_tips,
        cures: propose::hold_better,
    }
}

fn cylinder_tips(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::Tips) {
        let (cylinder, utilisation, _, share) = graded;
        if cylinder_goes::told_as_unsecured(ctx, cylinder) {
            continue;
        }
        let held = match cylinder.stance {
            Stance::Lashed => "tips in spite of its lashing",
            Stance::OnWhip => "tips on the filling whip",
            _ => "tips",
        };
        let id = &cylinder.cylinder;
        let sentence = format!(
            "{id} {held}{}: {}{}",
            direction(utilisation),
            how_near(ctx, cylinder, (Way::Tips, share)),
            words::leaning_slowly(cylinder),
        );
        findings.push(cylinder_goes::finding(
            &CYLINDER_TIPS,
            ctx,
            graded,
            sentence,
        ));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const ONE_WAY: &str =
        "deck 6x3 friction=0.6; stand P1 3,0; point E1 3,0.6; lash L1 E1 P1 E1 h=0.44 tight=0.2";

    #[test]
    fn a_strap_to_one_side_does_not_hold_the_other() {
        fires(&format!("{ONE_WAY}; running roll=20/4"), "DANGER T201 P1");
    }

    #[test]
    fn it_is_not_told_twice_where_it_is_unsecured() {
        silent("deck 6x3; running roll=20/4; stand P1 3,0", "T201");
    }

    #[test]
    fn a_gentle_motion_leaves_enough_to_spare() {
        silent(&format!("{ONE_WAY}; running roll=1/8"), "T201");
    }
}
