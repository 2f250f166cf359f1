//! `E905`: racks and cylinders take more than half of a deck.

use crate::catalogue::published::DECK_SHARE;
use crate::checks::check::{declare_check, no_cure};
use crate::checks::figures::Figure;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That racks and cylinders take no more than half of a deck's area.
    ///
    /// ## Why it matters
    /// Beyond that the crew works on the cargo instead of beside it.
    ///
    /// ## Source
    /// 49 CFR 176.74(c): dangerous cargo covers at most half of the open deck. It is a rule for cargo
    /// vessels; here it is advice.
    pub static DECK_SHARE_OVER_HALF = {
        code: "E905",
        name: "deck-share-over-half",
        summary: "racks and cylinders take more than half of a deck",
        signal: Signal::Notice,
        pictures: [
            "deck 1.5x1; fast roll=1/8; rack R1 sockets 0.75,0 columns=4 rows=4 foot; slot P1 R1/1",
            "deck 3x2; fast roll=1/8; rack R1 sockets 1.5,0 columns=4 rows=4 foot; slot P1 R1/1",
        ],
        run: deck_share_over_half,
        cures: no_cure,
    }
}

fn deck_share_over_half(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.decks {
        if numbers.area_m2 <= 0.0 {
            continue;
        }
        let share = numbers.stowed_area_m2 / numbers.area_m2;
        if share <= DECK_SHARE {
            continue;
        }
        let subject = ctx.subject(ThingKind::Deck, &numbers.deck);
        let sentence = format!(
            "Racks and cylinders take {} of {}: {} of {}; more than {} is advised against",
            words::percent(share),
            subject.name,
            Figure::Area(numbers.stowed_area_m2),
            Figure::Area(numbers.area_m2),
            words::percent(DECK_SHARE),
        );
        findings.push(
            Finding::new(
                &DECK_SHARE_OVER_HALF,
                ctx,
                Signal::Notice,
                vec![subject],
                sentence,
            )
            .measured("share of the deck", share, DECK_SHARE, ""),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn a_crowded_deck() {
        let rack = "fast roll=1/8; rack R1 sockets 0.75,0 columns=4 rows=4 foot; slot P1 R1/1";
        fires(&format!("deck 1.5x1; {rack}"), "NOTICE E905 main");
        silent(&format!("deck 3x2; {rack}"), "E905");
    }
}
