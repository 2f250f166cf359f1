//! `W607`: a walkway has too little headroom.

use super::walked::{self, SAME_M, walkways};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That the headroom along a walkway is at least what the plan asks for. A roof or beam of the boat is
    /// told as NOTICE.
    ///
    /// ## Why it matters
    /// A diver in kit with a cylinder on the back stands taller and cannot duck.
    ///
    /// ## Source
    /// 46 CFR 177.800(b): 1,880 mm of headroom, aisles included, where the plan asks for none of its own.
    pub static HEADROOM_TOO_LOW = {
        code: "W607",
        name: "headroom-too-low",
        summary: "a walkway has too little headroom",
        signal: Signal::Caution,
        pictures: [
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0
             way W A B width=0.7 headroom=1.88; fixture R overhead 1.5..2.5,-1..1 h=1.9 under=1.8",
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0
             way W A B width=0.7 headroom=1.88; fixture R overhead 1.5..2.5,-1..1 h=2.1 under=2",
        ],
        run: headroom_too_low,
        cures: no_cure,
    }
}

fn headroom_too_low(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        let (Some(wanted), Some((headroom, by))) = (way.headroom_m, &numbers.headroom) else {
            continue;
        };
        if *headroom >= wanted - SAME_M {
            continue;
        }
        let fixture = ctx.plan.boat.fixture(by);
        if fixture.is_some() && ctx.part_index > 0 {
            continue;
        }
        let (signal, name) = match fixture {
            Some(_) => (Signal::Notice, ctx.name(ThingKind::Fixture, by)),
            None => (Signal::Caution, by.clone()),
        };
        let sentence = format!(
            "{} has {} of headroom under {name}, and {} is wanted",
            ctx.name(ThingKind::Walkway, &way.id),
            figures::metres(*headroom),
            figures::metres(wanted),
        );
        findings.push(
            walked::finding(
                &HEADROOM_TOO_LOW,
                ctx,
                signal,
                (way, None, Vec::new()),
                sentence,
            )
            .measured("headroom", *headroom, wanted, "m"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn roof(under: &str, wanted: &str) -> String {
        format!(
            "deck 6x4; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0
             way W A B width=0.7 {wanted}; fixture R overhead 2..4,-1..1 h=2.1 under={under}"
        )
    }

    #[test]
    fn a_low_roof_of_the_boat_is_advice() {
        fires(&roof("1.8", "headroom=1.88"), "NOTICE W607 W");
        silent(&roof("1.9", "headroom=1.88"), "W607");
        silent(&roof("1.8", ""), "W607");
    }
}
