//! `P803`: something sticks out over the edge of what it is in or on.

use super::fitting::{TAPE_M, misfits, subject};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::FitKind;

declare_check! {
    /// ## What it checks
    /// That a cylinder in a crate, under a net or on a fixture's top is wholly in or on it.
    ///
    /// ## Why it matters
    /// What sticks out is not held, and the rim levers it up.
    ///
    /// ## Source
    /// Geometry of the deck plan. The 10 mm: common practice, no source.
    pub static OFF_ITS_RACK = {
        code: "P803",
        name: "off-its-rack",
        summary: "something sticks out over the edge of what it is in or on",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; fast roll=1/8; rack K crate 1.5,0 size=1x0.6; crate P1 K 2.1,0 cap",
            "deck 3x2; fast roll=1/8; rack K crate 1.5,0 size=1x0.6; crate P1 K 1.5,0 cap",
        ],
        run: off_its_rack,
        cures: propose::shift_off,
    }
}

fn off_its_rack(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for fit in misfits(ctx, &[FitKind::OffSupport]) {
        if fit.of_boat || fit.found_m <= TAPE_M {
            continue;
        }
        let about = vec![subject(ctx, &fit.things[0]), subject(ctx, &fit.things[1])];
        let sentence = format!(
            "{} sticks {} out over the edge of {}",
            about[0].name,
            figures::metres(fit.found_m),
            about[1].name,
        );
        findings.push(
            Finding::new(&OFF_ITS_RACK, ctx, Signal::Warning, about, sentence)
                .on(&fit.deck, fit.at)
                .measured("reach over the edge", fit.found_m, TAPE_M, "m"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn beside_the_crate() {
        let crate_at = |x: &str| {
            format!("deck 6x3; fast roll=1/8; rack K crate 3,0 size=1x0.6; crate P1 K {x},0")
        };
        fires(&crate_at("3.6"), "WARNING P803 P1 K");
        silent(&crate_at("3"), "P803");
    }
}
