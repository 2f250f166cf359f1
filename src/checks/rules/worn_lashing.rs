//! `L409`: a lashing is worn.

use super::lashed;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::{LashCondition, ThingKind};

declare_check! {
    /// ## What it checks
    /// That no lashing in use is cut, knotted or bleached. A cut one counts nothing.
    ///
    /// ## Why it matters
    /// A knot takes half of a rope's strength, sun as much of webbing, and a cut runs.
    ///
    /// ## Source
    /// Table of what knots cost (catalogue source ROPE); for bleached and cut webbing no figure was found:
    /// this project's policy.
    pub static WORN_LASHING = {
        code: "L409",
        name: "worn-lashing",
        summary: "a lashing is worn",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=2/8; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.44 tight=0.2 is=cut",
            "deck 3x2; running roll=2/8; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.44 tight=0.2",
        ],
        run: worn_lashing,
        cures: propose::stronger_lashing,
    }
}

fn worn_lashing(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, _) in lashed::shut(ctx) {
        let (signal, what) = match lashing.condition {
            LashCondition::Good => continue,
            LashCondition::Cut => (Signal::Warning, "cut or chafed: it counts nothing"),
            LashCondition::Knotted => (Signal::Caution, "knotted: half of its strength counts"),
            LashCondition::Bleached => (Signal::Caution, "bleached: half of its strength counts"),
        };
        let sentence = format!(
            "{} round {} is {what}",
            ctx.name(ThingKind::Lashing, &lashing.id),
            words::list_in_order(&lashed::sorted(&lashing.round)),
        );
        findings.push(
            lashed::finding(&WORN_LASHING, ctx, signal, lashing, sentence)
                .fold_as(format!("L409/{:?}", lashing.condition)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn strap(condition: &str) -> String {
        format!(
            "deck 6x3; running roll=2/8; stand P1 3,0; point E1 3,0.6; point E2 3,-0.6
             lash L1 E1 P1 E2 h=0.44 tight=0.2 is={condition}"
        )
    }

    #[test]
    fn wear_is_graded() {
        fires(&strap("cut"), "WARNING L409 L1 P1");
        fires(&strap("knotted"), "CAUTION L409 L1 P1");
        fires(&strap("bleached"), "CAUTION L409 L1 P1");
        silent(&strap("good"), "L409");
    }
}
