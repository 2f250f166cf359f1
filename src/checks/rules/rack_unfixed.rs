//! `R307`: a rack stands loose on the deck.

use super::cylinder_goes::share;
use super::{needs, racked};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::graded;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::Way;
use crate::layout::{Fixings, RackKind, ThingKind};

declare_check! {
    /// ## What it checks
    /// That a rack with cylinders in it is fixed to the boat. A loose one is judged as one body with its
    /// cylinders: DANGER if it tips or slides within the motion. An open crate or a net may stand loose
    /// while it stays where it is; where nobody knows the friction under it, the finding says what it needs.
    ///
    /// ## Why it matters
    /// A loose rack goes with everything that is in it.
    ///
    /// ## Source
    /// 49 CFR 176.200(c) (a crib is chocked and lashed); balance of the rack with its cylinders
    /// (docs/method.md, held by a rack: fixings).
    pub static RACK_UNFIXED = {
        code: "R307",
        name: "rack-unfixed",
        summary: "a rack with cylinders in it stands loose",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 columns=2 foot loose; slot P1 R1/1",
            "deck 3x2; running roll=20/4; rack R1 sockets 1.5,0 columns=2 foot; slot P1 R1/1",
        ],
        run: rack_unfixed,
        cures: no_cure,
    }
}

fn rack_unfixed(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.racks {
        let Some(rack) = ctx.plan.boat.rack(&numbers.rack) else {
            continue;
        };
        let empty = numbers.mass_kg <= rack.mass_kg + 0.1;
        if rack.fixings != Fixings::Unfixed || empty {
            continue;
        }
        let from = ctx.numbers.motion.warning_from;
        let worst = numbers
            .utilisations
            .iter()
            .max_by(|a, b| share(a).total_cmp(&share(b)));
        let grade = worst.and_then(|worst| Some((graded(worst, from)?, worst)));
        let friction_needed = numbers.friction_needed;
        let may_stand_loose = matches!(rack.kind, RackKind::Crate | RackKind::Net);
        let name = ctx.name(ThingKind::Rack, &rack.id);
        let with = format!(
            "{name} stands loose with {} in all",
            figures::kilograms(numbers.mass_kg)
        );
        let (signal, sentence) = match grade {
            Some(((signal, share), worst)) => {
                let does = match worst.way {
                    Way::Tips => "tips",
                    Way::Lifts => "lifts",
                    _ => "slides",
                };
                let how = if share >= 1.0 {
                    format!("it {does} as a whole within the boat's motion")
                } else {
                    format!("before it {does} it {}", words::spare(share))
                };
                (signal, format!("{with}: {how}"))
            }
            None if friction_needed.is_some() => (
                Signal::Caution,
                format!(
                    "{with}, and nobody knows the friction under it: it needs at least {:.2} not to slide; \
                     find out",
                    friction_needed.unwrap_or_default()
                ),
            ),
            None if may_stand_loose => continue,
            None => (
                Signal::Caution,
                format!("{with}: only its weight keeps it where it is"),
            ),
        };
        let mut finding = racked::finding_of_rack(&RACK_UNFIXED, ctx, signal, rack, sentence);
        if let Some(needed) = friction_needed {
            finding = finding.unknown(needs::friction_test(needed));
        }
        if let Some(worst) = worst {
            finding = finding
                .measured("share of what keeps it that is used", share(worst), 1.0, "")
                .governed_by(worst);
        }
        findings.push(finding);
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(more: &str, roll: &str) -> String {
        format!(
            "deck 6x3 friction=0.2; running roll={roll}
             rack R1 sockets 3,0 columns=2 foot {more}; slot P1 R1/1; slot P2 R1/2"
        )
    }

    #[test]
    fn a_loose_rack_goes_with_its_cylinders() {
        fires(&rack("loose", "25/4"), "DANGER R307 R1");
    }

    #[test]
    fn loose_but_still_is_a_caution() {
        fires(&rack("loose", "1/9"), "CAUTION R307 R1");
    }

    #[test]
    fn fixed_or_empty_it_is_well() {
        silent(&rack("", "25/4"), "R307");
        silent(
            "deck 6x3; running roll=25/4; rack R1 sockets 3,0 loose",
            "R307",
        );
    }
}
