//! `W604`: something stands or lies in a walkway's strip.

use super::walked::{self, SAME_M, walkways};
use super::walkway_trip_hazard::is_line;
use crate::catalogue::published::LEVEL_CHANGE_BEVELLED_M;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{Intruder, ThingSort};
use crate::layout::{Posture, ThingKind};

declare_check! {
    /// ## What it checks
    /// What of the stowage, of loose gear and of seated or kneeling people reaches into the drawn strip of a
    /// walkway, and how far.
    ///
    /// ## Why it matters
    /// People walk where they are used to walk, in the dark and with a mask on.
    ///
    /// ## Source
    /// 46 CFR 177.800(c): aisles are kept clear of obstructions.
    pub static THING_IN_WALKWAY = {
        code: "W604",
        name: "thing-in-walkway",
        summary: "something stands or lies in a walkway",
        signal: Signal::Caution,
        pictures: [
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G kit_bag 2,0.4 size=0.5x0.3 h=0.4",
            "deck 4x3; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G kit_bag 2,0.6 size=0.5x0.3 h=0.4",
        ],
        run: thing_in_walkway,
        cures: propose::move_out,
    }
}

fn thing_in_walkway(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        for intruder in &numbers.intruders {
            if !counts(ctx, intruder) {
                continue;
            }
            let sentence = format!(
                "{} is in {}: it reaches {} into it; moving it {} clears it",
                ctx.name(walked::kind_of(intruder.kind), &intruder.thing),
                ctx.name(ThingKind::Walkway, &way.id),
                figures::metres(intruder.into_m),
                figures::shift(intruder.shift_m),
            );
            findings.push(walked::intruder_finding(
                &THING_IN_WALKWAY,
                ctx,
                Signal::Caution,
                (way, intruder),
                sentence,
            ));
        }
    }
}

fn counts(ctx: &CheckContext<'_>, intruder: &Intruder) -> bool {
    if intruder.of_boat || intruder.into_m <= SAME_M {
        return false;
    }
    match intruder.kind {
        ThingSort::Rack | ThingSort::Cylinder => true,
        ThingSort::Gear => {
            intruder.from_to_m[1] > LEVEL_CHANGE_BEVELLED_M && !is_line(ctx, intruder)
        }
        // Somebody on their feet walks on.
        ThingSort::Person => ctx
            .day
            .person(&intruder.thing)
            .is_some_and(|person| person.posture != Posture::Standing),
        ThingSort::Edge | ThingSort::Fixture | ThingSort::Lashing | ThingSort::Place => false,
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const WAY: &str =
        "deck 6x4; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn a_bag_reaches_in() {
        let text = format!("{WAY}; gear G kit_bag 3,0.4 size=0.5x0.3 h=0.4");
        fires(&text, "CAUTION W604 G W");
        says(&text, "W604", "0.10 m into it; moving it 0.10 m to port");
    }

    #[test]
    fn beside_it_is_well() {
        silent(
            &format!("{WAY}; gear G kit_bag 3,0.51 size=0.5x0.3 h=0.4"),
            "W604",
        );
    }

    #[test]
    fn who_stands_walks_on_who_kneels_does_not() {
        silent(&format!("{WAY}; person Ann crew 3,0.1"), "W604");
        fires(
            &format!("{WAY}; person Ann crew 3,0.1 is=kneeling"),
            "CAUTION W604 Ann W",
        );
    }

    #[test]
    fn a_cylinder_too() {
        fires(
            &format!("{WAY}; lie P1 3,0.3 saddle=60"),
            "CAUTION W604 P1 W",
        );
    }
}
