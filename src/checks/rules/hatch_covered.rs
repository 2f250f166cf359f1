//! `P804`: something stands on a hatch, or where its lid opens.

use super::fitting::{self, in_the_way, movers, names, subject};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::engine::numbers::FitKind;
use crate::layout::{Fixture, FixtureKind};

declare_check! {
    /// ## What it checks
    /// That no rack, cylinder or gear stands on a hatch, box or locker, or where its lid or door opens, in
    /// the conditions of the boat in which the plan says that it must open.
    ///
    /// ## Why it matters
    /// Somebody has to move the cylinders before the engine can be reached.
    ///
    /// ## Source
    /// 49 CFR 176.74(g) (safe access to all working parts of the deck).
    pub static HATCH_COVERED = {
        code: "P804",
        name: "hatch-covered",
        summary: "something stands on a hatch, or where its lid opens",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; fast roll=1/8; fixture H hatch 1..2,-0.5..0.5 h=0.02 walked open-when=made_fast; lie P1 1.5,0 cap saddle=60",
            "deck 3x2; fast roll=1/8; fixture H hatch 1..2,-0.5..0.5 h=0.02 walked open-when=made_fast; lie P1 1.5,0.8 cap saddle=60",
        ],
        run: hatch_covered,
        cures: propose::uncover,
    }
}

fn hatch_covered(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for ((thing, _), fits) in in_the_way(ctx, &[FitKind::Covers, FitKind::UnderLid]) {
        let fixture = ctx.plan.boat.fixture(&thing.id);
        let is_hatch = fixture.is_some_and(opens_upwards);
        if !is_hatch {
            continue;
        }
        let movers = movers(ctx, &fits);
        let hatch = subject(ctx, thing);
        let sentence = format!(
            "{} must open in this part of the day, and {} {} on it or where it opens",
            hatch.name,
            names(&movers),
            words::is_are(movers.len()),
        );
        let what = (hatch, fits.as_slice(), movers);
        findings.push(fitting::finding(
            &HATCH_COVERED,
            ctx,
            Signal::Warning,
            what,
            sentence,
        ));
    }
}

/// Is it a hatch, a box with a lid, or a door, rather than an opening for water?
pub(super) fn opens_upwards(fixture: &Fixture) -> bool {
    matches!(
        fixture.kind,
        FixtureKind::Hatch | FixtureKind::EngineBox | FixtureKind::Locker
    ) || !fixture.opens_over.is_empty()
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    const HATCH: &str = "deck 6x3; fast roll=1/8; fixture H hatch 2.5..3.5,-0.5..0.5 h=0.02 walked open-when=made_fast";

    #[test]
    fn on_the_lid() {
        fires(
            &format!("{HATCH}; lie P1 3,0 saddle=60"),
            "WARNING P804 H P1",
        );
        silent(&format!("{HATCH}; lie P1 3,1 saddle=60"), "P804");
    }

    #[test]
    fn a_hatch_that_need_not_open_may_be_covered() {
        let text = HATCH.replace("made_fast", "running");
        silent(&format!("{text}; lie P1 3,0 saddle=60"), "P804");
    }

    #[test]
    fn where_the_lid_swings() {
        let text = "deck 6x3; fast roll=1/8; fixture H hatch 2.5..3.5,-0.5..0.5 h=0.02 walked open-when=made_fast \
                    over=3.5..4.5,-0.5..0.5; gear G crate 4,0 h=0.3";
        fires(text, "WARNING P804 H G");
    }
}
