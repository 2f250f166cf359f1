//! `P802`: something stands or lies beyond the edge of its deck.

use super::fitting::{TAPE_M, misfits, subject};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::FitKind;
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That racks, cylinders and gear are on the deck, not over its edge or an opening.
    ///
    /// ## Why it matters
    /// What hangs over the edge has no floor under its foot there.
    ///
    /// ## Source
    /// Geometry of the deck plan. The 10 mm: common practice, no source.
    pub static OFF_DECK = {
        code: "P802",
        name: "off-deck",
        summary: "something stands or lies beyond the edge of its deck",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; fast roll=1/8; lie P1 1.5,0.95 cap saddle=60",
            "deck 3x2; fast roll=1/8; lie P1 1.5,0.8 cap saddle=60",
        ],
        run: off_deck,
        cures: propose::shift_off,
    }
}

fn off_deck(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for fit in misfits(ctx, &[FitKind::OffDeck]) {
        if fit.of_boat || fit.found_m <= TAPE_M {
            continue;
        }
        let thing = subject(ctx, &fit.things[0]);
        let sentence = format!(
            "{} is {} over the edge of {}",
            thing.name,
            figures::metres(fit.found_m),
            ctx.name(ThingKind::Deck, &fit.deck),
        );
        findings.push(
            Finding::new(&OFF_DECK, ctx, Signal::Warning, vec![thing], sentence)
                .on(&fit.deck, fit.at)
                .measured("reach over the edge", fit.found_m, TAPE_M, "m"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn over_the_side() {
        fires(
            "deck 6x3; fast roll=1/8; lie P1 3,1.45 saddle=60",
            "WARNING P802 P1",
        );
        silent("deck 6x3; fast roll=1/8; lie P1 3,1.3 saddle=60", "P802");
    }

    #[test]
    fn a_rack_over_the_stern() {
        fires(
            "deck 6x3; fast roll=1/8; rack R1 sockets 0.2,0 columns=4",
            "WARNING P802 R1",
        );
    }
}
