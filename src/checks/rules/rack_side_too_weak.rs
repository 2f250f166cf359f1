//! `R312`: the side of a crate or of a saddle is too weak for what lies in it.

use super::rack_fixings_overloaded::inside;
use super::{needs, racked};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::layout::{RackKind, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the sides of an open crate take the push of all cylinders in it together, and each saddle of a
    /// rack of cradles that of the cylinder in it. Where nobody knows what they take, the finding says what
    /// is needed.
    ///
    /// ## Why it matters
    /// Loose cylinders in a crate go to its low side all at once.
    ///
    /// ## Source
    /// Mass times the force along the deck (docs/method.md, lying).
    pub static RACK_SIDE_TOO_WEAK = {
        code: "R312",
        name: "rack-side-too-weak",
        summary: "the side of a crate or saddle is too weak for what lies in it",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=20/4; rack C1 crate 1.5,0 size=0.9x0.7 strength=0.05 hold=1
             crate P1 C1 1.5,0.1 cap; crate P2 C1 1.5,-0.1 cap",
            "deck 3x2; running roll=20/4; rack C1 crate 1.5,0 size=0.9x0.7 strength=2 hold=1
             crate P1 C1 1.5,0.1 cap; crate P2 C1 1.5,-0.1 cap",
        ],
        run: rack_side_too_weak,
        cures: no_cure,
    }
}

fn rack_side_too_weak(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let check = &RACK_SIDE_TOO_WEAK;
    for numbers in &ctx.numbers.racks {
        let Some(rack) = ctx.plan.boat.rack(&numbers.rack) else {
            continue;
        };
        let Some(force_n) = numbers.side_force_n.filter(|force| *force > 0.0) else {
            continue;
        };
        let subject = ctx.subject(ThingKind::Rack, &rack.id);
        let inside = inside(ctx, &rack.id);
        let (what, who) = if rack.kind == RackKind::Crate {
            (format!("the sides of {}", subject.name), "all in it push")
        } else {
            (format!("a saddle of {}", subject.name), "a cylinder pushes")
        };
        let Some(strength) = numbers.side_strength_n else {
            let by = (force_n, inside.as_slice());
            let finding = needs::strength_not_known(check, ctx, subject, &what, by);
            findings.push(finding.on(&rack.deck, rack.at));
            continue;
        };
        let Some(signal) = grade(force_n / strength, ctx.numbers.motion.warning_from) else {
            continue;
        };
        let sentence = format!(
            "Of {}, {who} {what} with {}, and it takes {}",
            words::list_in_order(&inside),
            figures::weight(force_n),
            figures::weight(strength),
        );
        let mut finding = racked::finding_of_rack(check, ctx, signal, rack, sentence);
        let cylinders = ctx.subjects(ThingKind::Cylinder, &inside);
        finding.about.extend(cylinders);
        findings.push(finding.measured("push on the side", force_n, strength, "N"));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn in_crate(strength: &str) -> String {
        format!(
            "deck 6x3; running roll=20/4; rack C1 crate 3,0 size=0.9x0.7 hold=1 strength={strength}
             crate P1 C1 3,0.1; crate P2 C1 3,-0.1"
        )
    }

    #[test]
    fn all_in_a_crate_push_its_low_side() {
        // About 17 kg and 0.45 g each: 75 N hold for one, not for two.
        fires(&in_crate("0.1"), "DANGER R312 C1 P1 P2");
        silent(&in_crate("2"), "R312");
    }

    #[test]
    fn a_side_that_nobody_knows() {
        fires(&in_crate("?"), "CAUTION R312 C1 P1 P2 not known");
    }

    #[test]
    fn saddles_hold_one_each() {
        let saddles = |strength: &str| {
            format!(
                "deck 6x3; running roll=20/4; rack C1 cradles 3,0 turn=90 columns=2 saddle=60 hold=1 strength={strength}
                 slot P1 C1/1; slot P2 C1/2"
            )
        };
        fires(&saddles("0.05"), "DANGER R312 C1");
        silent(&saddles("0.2"), "R312");
        fires(&saddles("?"), "CAUTION R312 C1 P1 P2 not known");
    }

    #[test]
    fn a_net_has_no_sides() {
        silent(
            "deck 6x3; running roll=20/4; rack N1 net 3,0 size=0.9x0.7 strength=? hold=1; crate P1 N1 3,0",
            "R312",
        );
    }
}
