//! `R303`: a cylinder lifts out of its rack, or nearly.

use super::cylinder_goes::{self, going, how_near};
use super::needs;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{NeedKind, Stance, Way};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no cylinder leaves its slot upwards: that the boat never drops away under it faster than it
    /// falls, or that the rack holds it down strongly enough.
    ///
    /// ## Why it matters
    /// A rack open at the top holds nothing that weighs nothing.
    ///
    /// ## Source
    /// Balance of forces normal to the deck (docs/method.md, held by a rack: a hold-down is needed from weightlessness
    /// on).
    pub static LIFTS_OUT_OF_RACK = {
        code: "R303",
        name: "lifts-out-of-rack",
        summary: "a cylinder lifts out of its rack",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running up=1.2; rack R1 sockets 1.5,0 foot; slot P1 R1/1",
            "deck 3x2; running up=1.2; rack R1 sockets 1.5,0 foot hold=0.5; slot P1 R1/1",
        ],
        run: lifts_out_of_rack,
        cures: no_cure,
    }
}

fn lifts_out_of_rack(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::Lifts) {
        let (cylinder, _, _, share) = graded;
        let Some(hold) = cylinder.rack.as_ref() else {
            continue;
        };
        if cylinder.stance != Stance::InRack || !hold.closed {
            continue;
        }
        let down = if hold.lift_force_n > 0.0 {
            format!(
                "; it needs holding down with {}",
                figures::weight(hold.lift_force_n)
            )
        } else {
            String::new()
        };
        let sentence = format!(
            "{} lifts out of {}: {}{down}",
            cylinder.cylinder,
            super::racked::slot(ctx, hold),
            how_near(ctx, cylinder, (Way::Lifts, share)),
        );
        let fold = format!("R303/{}", hold.rack);
        findings
            .push(cylinder_goes::finding(&LIFTS_OUT_OF_RACK, ctx, graded, sentence).fold_as(fold));
    }
    for needed in needs::strengths(ctx, NeedKind::HoldDown) {
        let Some(rack) = ctx.plan.boat.rack(&needed.of) else {
            continue;
        };
        let subject = ctx.subject(ThingKind::Rack, &rack.id);
        let what = format!("the hold-down of {}", subject.name);
        let by = (needed.newtons, needed.by.as_slice());
        let finding = needs::strength_not_known(&LIFTS_OUT_OF_RACK, ctx, subject, &what, by);
        findings.push(finding.on(&rack.deck, rack.at));
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(more: &str, up: &str) -> String {
        format!("deck 6x3; running up={up}; rack R1 sockets 3,0 foot {more}; slot P1 R1/1")
    }

    #[test]
    fn weightless_in_an_open_topped_rack() {
        fires(&rack("", "1.05"), "DANGER R303 P1");
        silent(&rack("", "0.2"), "R303");
    }

    #[test]
    fn a_hold_down_holds_or_not() {
        silent(&rack("hold=0.5", "1.05"), "R303");
        fires(&rack("hold=?", "1.3"), "CAUTION R303 R1 P1 not known");
    }
}
