//! `R308`: the fixings of a rack are too weak for what is in it.

use super::{needs, racked};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::{Fixings, Id, ThingKind};

declare_check! {
    /// ## What it checks
    /// That the bolts or welds of a rack take the sum of what its cylinders do to it. Where their strength
    /// is not known, the finding says what is needed.
    ///
    /// ## Why it matters
    /// The slots may be strong and the rack still leave the deck as a whole.
    ///
    /// ## Source
    /// Sum of the forces of the cylinders on the rack (docs/method.md, held by a rack: fixings); 49 CFR 176.69(d)
    /// (secured against shifting in any direction).
    pub static RACK_FIXINGS_OVERLOADED = {
        code: "R308",
        name: "rack-fixings-overloaded",
        summary: "a rack's fixings are too weak for what is in it",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 columns=2 foot fixings=0.1
             slot P1 R1/1; slot P2 R1/2",
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 columns=2 foot fixings=9
             slot P1 R1/1; slot P2 R1/2",
        ],
        run: rack_fixings_overloaded,
        cures: no_cure,
    }
}

fn rack_fixings_overloaded(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.racks {
        let Some(rack) = ctx.plan.boat.rack(&numbers.rack) else {
            continue;
        };
        if rack.fixings == Fixings::Unfixed || numbers.fixing_force_n <= 0.0 {
            continue;
        }
        let subject = ctx.subject(ThingKind::Rack, &rack.id);
        let Some(strength) = numbers.fixing_strength_n else {
            let inside = inside(ctx, &rack.id);
            if !inside.is_empty() {
                let what = format!("the fixings of {} all together", subject.name);
                let by = (numbers.fixing_force_n, inside.as_slice());
                let check = &RACK_FIXINGS_OVERLOADED;
                let finding = needs::strength_not_known(check, ctx, subject, &what, by);
                findings.push(finding.on(&rack.deck, rack.at));
            }
            continue;
        };
        let share = numbers.fixing_force_n / strength;
        let Some(signal) = grade(share, ctx.numbers.motion.warning_from) else {
            continue;
        };
        let sentence = format!(
            "{} pulls at its fixings with {}, and all together they take {}",
            subject.name,
            figures::weight(numbers.fixing_force_n),
            figures::weight(strength),
        );
        findings.push(
            racked::finding_of_rack(&RACK_FIXINGS_OVERLOADED, ctx, signal, rack, sentence)
                .measured("pull on the fixings", numbers.fixing_force_n, strength, "N"),
        );
    }
}

/// The cylinders in a rack, in the order of their names.
pub(super) fn inside(ctx: &CheckContext<'_>, rack: &str) -> Vec<Id> {
    use crate::layout::Placing;

    let mut inside: Vec<Id> = ctx
        .day
        .cylinders
        .iter()
        .map(|state| &state.cylinder)
        .filter(|cylinder| match &cylinder.placing {
            Placing::InSlot { rack: of, .. } | Placing::InCrate { rack: of, .. } => of == rack,
            _ => false,
        })
        .map(|cylinder| cylinder.id.clone())
        .collect();
    inside.sort();
    inside
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(fixings: &str) -> String {
        format!(
            "deck 6x3; running roll=20/4; rack R1 sockets 3,0 columns=2 foot {fixings}
             slot P1 R1/1; slot P2 R1/2"
        )
    }

    #[test]
    fn weak_bolts() {
        fires(&rack("fixings=0.1"), "DANGER R308 R1");
        silent(&rack("fixings=9"), "R308");
    }

    #[test]
    fn bolts_that_nobody_knows() {
        fires(&rack("fixings=?"), "CAUTION R308 R1 P1 P2 not known");
    }

    #[test]
    fn a_loose_rack_has_none_to_overload() {
        silent(&rack("loose"), "R308");
    }
}
