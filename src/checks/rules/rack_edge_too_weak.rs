//! `R301`: the edge of a slot is too weak for the cylinder in it.

use super::needs;
use super::racked::{self, racked, slot};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{NeedKind, Way};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That the edge, divider or back rail of every slot, and what stops the foot, can take the push of the
    /// cylinder in it, its play and its own rotation counted. Where the strength is not known, the finding says what is needed.
    ///
    /// ## Why it matters
    /// A slot that breaks lets the cylinder go all at once, at the top of a roll.
    ///
    /// ## Source
    /// Balance of moments and forces on a cylinder that leans against its edge (docs/method.md, held by a rack).
    pub static RACK_EDGE_TOO_WEAK = {
        code: "R301",
        name: "rack-edge-too-weak",
        summary: "a slot's edge is too weak for its cylinder",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 edge=0.44 foot strength=0.02; slot P1 R1/1",
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 edge=0.44 foot strength=2; slot P1 R1/1",
        ],
        run: rack_edge_too_weak,
        cures: no_cure,
    }
}

fn rack_edge_too_weak(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for item @ (cylinder, hold, _) in racked(ctx) {
        let Some(strength) = hold.edge_strength_n else {
            continue;
        };
        // The foot stop is part of the slot and counts with its strength.
        let at_foot = hold.foot_force_n > hold.edge_force_n;
        let (force_n, what) = if at_foot {
            (hold.foot_force_n, "what stops its foot")
        } else {
            (hold.edge_force_n, "its edge")
        };
        let share = force_n / strength;
        let Some(signal) = grade(share, ctx.numbers.motion.warning_from) else {
            continue;
        };
        let sentence = format!(
            "{} pushes {what} in {} with {}, and it takes {}",
            cylinder.cylinder,
            slot(ctx, hold),
            figures::weight(force_n),
            figures::weight(strength),
        );
        let mut finding = racked::finding(&RACK_EDGE_TOO_WEAK, ctx, signal, item, sentence)
            .measured(
                if at_foot {
                    "push on the foot stop"
                } else {
                    "push on the edge"
                },
                force_n,
                strength,
                "N",
            );
        if let Some(utilisation) = cylinder.utilisation(Way::RackGives) {
            finding = finding.governed_by(utilisation);
        }
        findings.push(finding);
    }
    for needed in needs::strengths(ctx, NeedKind::SlotStrength) {
        let Some(rack) = ctx.plan.boat.rack(&needed.of) else {
            continue;
        };
        let subject = ctx.subject(ThingKind::Rack, &rack.id);
        let what = format!("an edge and a foot stop of {}", subject.name);
        let by = (needed.newtons, needed.by.as_slice());
        let finding = needs::strength_not_known(&RACK_EDGE_TOO_WEAK, ctx, subject, &what, by);
        findings.push(finding.on(&rack.deck, rack.at));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn rack(more: &str) -> String {
        format!(
            "deck 6x3; running roll=20/4; rack R1 sockets 3,0 edge=0.44 foot {more}; slot P1 R1/1"
        )
    }

    #[test]
    fn the_racks_strength_is_compared() {
        fires(&rack("strength=0.02"), "DANGER R301 P1 R1");
        silent(&rack("strength=2"), "R301");
    }

    /// Held at its top the cylinder pushes harder at its foot.
    #[test]
    fn the_foot_stop_has_the_slots_strength() {
        let text = "deck 6x3; running roll=20/4; rack R1 sockets 3,0 edge=0.6 foot strength=0.04; slot P1 R1/1";
        fires(text, "DANGER R301 P1 R1");
        says(text, "R301", "what stops its foot");
    }

    #[test]
    fn a_strength_that_nobody_knows_is_a_need() {
        fires(&rack("strength=?"), "CAUTION R301 R1 P1 not known");
        says(&rack("strength=?"), "R301", "of pull");
    }
}
