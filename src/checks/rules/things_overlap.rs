//! `P801`: two things are in the same place.

use super::fitting::{TAPE_M, misfits, subject};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{FitKind, FitThing, ThingSort};

declare_check! {
    /// ## What it checks
    /// That no two of racks, cylinders, gear and fixtures cover the same floor at the same height by more
    /// than 10 mm.
    ///
    /// ## Why it matters
    /// The deck cannot be stowed as drawn, so nothing else that is computed for it is true.
    ///
    /// ## Source
    /// Geometry of the deck plan. The 10 mm: common practice, no source.
    pub static THINGS_OVERLAP = {
        code: "P801",
        name: "things-overlap",
        summary: "two things are in the same place",
        signal: Signal::Caution,
        pictures: [
            "deck 3x2; fast roll=1/8; lie P1 1.5,0 cap saddle=60; lie P2 1.5,0.1 cap saddle=60",
            "deck 3x2; fast roll=1/8; lie P1 1.5,0 cap saddle=60; lie P2 1.5,0.2 cap saddle=60",
        ],
        run: things_overlap,
        cures: propose::shift_off,
    }
}

fn things_overlap(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for fit in misfits(ctx, &[FitKind::Overlap]) {
        let built_in = |a: ThingSort, b: ThingSort| {
            // A rack stands in or on the bench that it is built into.
            matches!(a, ThingSort::Rack) && matches!(b, ThingSort::Fixture)
        };
        let [moved, kept] = &fit.things;
        let meant = built_in(moved.kind, kept.kind) || built_in(kept.kind, moved.kind);
        let racked_in_bench = kept.kind == ThingSort::Fixture && is_racked(ctx, moved);
        if fit.found_m <= TAPE_M || meant || racked_in_bench {
            continue;
        }
        let about = vec![subject(ctx, moved), subject(ctx, kept)];
        let sentence = format!(
            "{} and {} overlap by {}: the deck cannot be stowed like that",
            about[0].name,
            about[1].name,
            figures::metres(fit.found_m),
        );
        findings.push(
            Finding::new(&THINGS_OVERLAP, ctx, Signal::Caution, about, sentence)
                .on(&fit.deck, fit.at)
                .measured("overlap", fit.found_m, TAPE_M, "m"),
        );
    }
}

/// Is it a cylinder in a slot?
fn is_racked(ctx: &CheckContext<'_>, thing: &FitThing) -> bool {
    use crate::layout::Placing;

    let placing = ctx.state(&thing.id).map(|cylinder| &cylinder.placing);
    thing.kind == ThingSort::Cylinder && matches!(placing, Some(Placing::InSlot { .. }))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn two_in_one_place() {
        fires(
            "deck 6x3; fast roll=1/8; lie P2 3,0.1 saddle=60; lie P1 3,0 saddle=60",
            "CAUTION P801 P",
        );
        silent(
            "deck 6x3; fast roll=1/8; lie P1 3,0 saddle=60; lie P2 3,0.19 saddle=60",
            "P801",
        );
    }

    #[test]
    fn in_its_rack_it_belongs() {
        silent(
            "deck 6x3; fast roll=1/8; rack R1 sockets 3,0 foot; slot P1 R1/1",
            "P801",
        );
        silent(
            "deck 6x3; fast roll=1/8; fixture B bench 2..4,0.5..1.5 h=0.45; rack R1 sockets 3,1 foot
             slot P1 R1/1",
            "P801",
        );
    }

    #[test]
    fn on_a_bench_is_not_in_it() {
        silent(
            "deck 6x3; fast roll=1/8; fixture B bench 2..4,0.5..1.5 h=0.45 shelf load=200
             lie P1 3,1 on=B saddle=60",
            "P801",
        );
        fires(
            "deck 6x3; fast roll=1/8; fixture B bench 2..4,0.5..1.5 h=0.45; lie P1 3,1 saddle=60",
            "CAUTION P801 P1 B",
        );
    }
}
