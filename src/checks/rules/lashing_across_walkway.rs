//! `W605`: a lashing crosses a walkway.

use super::walked::{self, walkways};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::ThingSort;
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no lashing crosses a walkway's strip between deck and head.
    ///
    /// ## Why it matters
    /// A strap across the way is a trip wire at the ankle and a noose at the neck, and whoever falls into it
    /// pulls the cylinder.
    ///
    /// ## Source
    /// Common practice, no source; 46 CFR 177.800(c): aisles are kept clear of obstructions.
    pub static LASHING_ACROSS_WALKWAY = {
        code: "W605",
        name: "lashing-across-walkway",
        summary: "a lashing crosses a walkway",
        signal: Signal::Warning,
        pictures: [
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             stand P1 2,1; point E1 2,-1; lash L1 E1 P1 E1 h=0.44 tight=0.2",
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             stand P1 2,1; point E1 1.5,1.2; lash L1 E1 P1 E1 h=0.44 tight=0.2",
        ],
        run: lashing_across_walkway,
        cures: propose::another_point,
    }
}

fn lashing_across_walkway(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        let lashings = numbers.intruders.iter();
        for intruder in lashings.filter(|intruder| intruder.kind == ThingSort::Lashing) {
            let [from, to] = intruder.from_to_m;
            let height = if to - from < 0.02 {
                figures::metres(to).to_string()
            } else {
                format!("{} to {}", figures::metres(from), figures::metres(to))
            };
            let sentence = format!(
                "{} crosses {} at {height} above the deck",
                ctx.name(ThingKind::Lashing, &intruder.thing),
                ctx.name(ThingKind::Walkway, &way.id),
            );
            let check = &LASHING_ACROSS_WALKWAY;
            let what = (way, intruder);
            findings.push(walked::intruder_finding(
                check,
                ctx,
                Signal::Warning,
                what,
                sentence,
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn strap(point: &str) -> String {
        format!(
            "deck 6x4; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7
             stand P1 3,1; point E1 {point}; lash L1 E1 P1 E1 h=0.44 tight=0.2"
        )
    }

    #[test]
    fn a_trip_wire() {
        fires(&strap("3,-1 h=0.3"), "WARNING W605 L1 W");
        silent(&strap("3,1.8"), "W605");
    }
}
