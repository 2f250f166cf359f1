//! `L405`: a leg of a lashing is steeper than 60°.

use super::lashed;
use crate::catalogue::published::STEEPEST_LASHING_DEG;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no leg of a lashing round a standing cylinder runs down steeper than 60°.
    ///
    /// ## Why it matters
    /// A steep strap presses the cylinder down and hardly stretches when it slides: it does not stop it.
    ///
    /// ## Source
    /// IMO CSS Code, Annex 13, rule of thumb (section 5): lashings steeper than 60° do not count.
    pub static LASHING_TOO_STEEP = {
        code: "L405",
        name: "lashing-too-steep",
        summary: "a leg of a lashing is steeper than 60°",
        signal: Signal::Caution,
        pictures: [
            "deck 3x2; running roll=5/6; stand P1 1.5,0; point E1 1.5,0.13 h=0; point E2 1.5,-0.13 h=0
             lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2",
            "deck 3x2; running roll=5/6; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2",
        ],
        run: lashing_too_steep,
        cures: propose::another_point,
    }
}

fn lashing_too_steep(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, numbers) in lashed::shut(ctx) {
        let steep = numbers.steepest_leg_deg;
        let mut round = lashing.round.iter().filter_map(|id| ctx.cylinder(id));
        let stands = round.any(|cylinder| cylinder.stance.is_upright());
        if !stands || steep <= STEEPEST_LASHING_DEG {
            continue;
        }
        let sentence = format!(
            "{} runs down at {}: steeper than {STEEPEST_LASHING_DEG:.0}° it presses {} down and does not \
             stop it sliding",
            ctx.name(ThingKind::Lashing, &lashing.id),
            words::degrees(steep),
            words::list_in_order(&lashed::sorted(&lashing.round)),
        );
        findings.push(
            lashed::finding(&LASHING_TOO_STEEP, ctx, Signal::Caution, lashing, sentence).measured(
                "steepest leg",
                steep,
                STEEPEST_LASHING_DEG,
                "deg",
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn strap(y: &str) -> String {
        format!(
            "deck 6x3; running roll=5/6; stand P1 3,0; point E1 3,{y} h=0; point E2 3,-0.9
             lash L1 E1 P1 E1 h=0.44 tight=0.2; lash L2 E2 P1 E2 h=0.44 tight=0.2"
        )
    }

    #[test]
    fn an_eye_close_to_the_foot_makes_it_steep() {
        fires(&strap("0.15"), "CAUTION L405 L1 P1");
        silent(&strap("0.8"), "L405");
    }
}
