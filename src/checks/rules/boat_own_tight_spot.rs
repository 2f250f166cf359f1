//! `W608`: the empty boat has a tight spot of its own.

use super::walked::{self, SAME_M, walkways};
use crate::checks::check::{declare_check, no_cure};
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{TightSpot, WalkwayNumbers};
use crate::layout::{ThingKind, Walkway};

declare_check! {
    /// ## What it checks
    /// Where outline and fixtures alone leave less than the width wanted, with and without low fixtures. It
    /// is told once for the trip and never counts against the stowage.
    ///
    /// ## Why it matters
    /// Whoever plans the stowage cannot put it right, but the crew should know the place.
    ///
    /// ## Source
    /// 46 CFR 177.820(d): 610 mm for aisles up to 4.572 m, 760 mm for longer ones, unless the plan asks for
    /// another width.
    pub static BOAT_OWN_TIGHT_SPOT = {
        code: "W608",
        name: "boat-own-tight-spot",
        summary: "the empty boat has a tight spot of its own",
        signal: Signal::Notice,
        pictures: [
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             fixture C console 1.7..2.3,-0.5..0.5 h=1",
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             fixture C console 1.7..2.3,-0.2..0.2 h=1",
        ],
        run: boat_own_tight_spot,
        cures: no_cure,
    }
}

fn boat_own_tight_spot(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    if ctx.part_index > 0 {
        return;
    }
    for (way, numbers) in walkways(ctx) {
        let wanted = numbers.wanted_m - SAME_M;
        let tall = numbers.boat_clear_m < wanted;
        let low = numbers.boat_clear_of_low_m < wanted;
        let found = match (tall, low) {
            (true, _) => (numbers.boat_clear_m, numbers.boat_spot.as_ref(), "is"),
            (false, true) => (
                numbers.boat_clear_of_low_m,
                numbers.boat_of_low_spot.as_ref(),
                "has a step and is",
            ),
            (false, false) => continue,
        };
        findings.push(finding(ctx, (way, numbers), found));
    }
}

fn finding(
    ctx: &CheckContext<'_>,
    (way, numbers): (&Walkway, &WalkwayNumbers),
    (clear, spot, is): (f64, Option<&TightSpot>, &str),
) -> Finding {
    let sentence = format!(
        "The boat's own: {} {is} {} clear{}, and {} is wanted ({})",
        ctx.name(ThingKind::Walkway, &way.id),
        figures::metres(clear),
        walked::between(ctx, way, spot),
        figures::metres(numbers.wanted_m),
        numbers.wanted_source,
    );
    let check = &BOAT_OWN_TIGHT_SPOT;
    walked::finding(
        check,
        ctx,
        Signal::Notice,
        (way, spot, Vec::new()),
        sentence,
    )
    .measured(
        "clear width of the empty boat",
        clear,
        numbers.wanted_m,
        "m",
    )
    .fold_as(format!("W608/{}", way.id))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const WAY: &str = "deck 6x2; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn it_is_told_once_for_the_trip() {
        fires(
            &format!(
                "{WAY}; running a roll=2/8; drifting b roll=2/8
                      fixture C console 2.7..3.3,-0.5..0.5 h=1"
            ),
            "NOTICE W608 W",
        );
    }

    #[test]
    fn a_sill_is_the_boats_own() {
        fires(
            &format!("{WAY}; running roll=2/8; fixture S sill 2.9..3.1,-1..1 h=0.15"),
            "NOTICE W608 W",
        );
    }

    #[test]
    fn a_wide_boat_has_none() {
        silent(&format!("{WAY}; running roll=2/8"), "W608");
    }
}
