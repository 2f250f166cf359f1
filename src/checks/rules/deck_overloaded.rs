//! `E904`: a deck carries more than it may.

use crate::checks::check::{declare_check, no_cure};
use crate::checks::draft::grade;
use crate::checks::figures::Figure;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no rack or group of cylinders loads its deck by more per square metre than the deck may carry.
    /// Where nobody knows what the deck may carry, the finding says what it bears: not known is not passed.
    ///
    /// ## Why it matters
    /// A deck cracks from below, where nobody looks.
    ///
    /// ## Source
    /// Mass over the floor taken (docs/method.md, deck load). The limit is the boat's own.
    pub static DECK_OVERLOADED = {
        code: "E904",
        name: "deck-overloaded",
        summary: "a deck carries more than it may",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 load=100; fast roll=1/8; rack R1 sockets 1.5,0 columns=4 rows=2 foot
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; slot P4 R1/4; slot P5 R1/5",
            "deck 3x2 load=900; fast roll=1/8; rack R1 sockets 1.5,0 columns=4 rows=2 foot
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; slot P4 R1/4; slot P5 R1/5",
        ],
        run: deck_overloaded,
        cures: no_cure,
    }
}

fn deck_overloaded(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for numbers in &ctx.numbers.decks {
        let load = numbers.greatest_load_kg_per_m2;
        if load <= 0.0 {
            continue;
        }
        let mut about = vec![ctx.subject(ThingKind::Deck, &numbers.deck)];
        let by = numbers.greatest_load_of.as_ref().map(|id| {
            let kind = if ctx.plan.boat.rack(id).is_some() {
                ThingKind::Rack
            } else {
                ThingKind::Cylinder
            };
            ctx.subject(kind, id)
        });
        let under = by
            .as_ref()
            .map_or_else(String::new, |by| format!(" under {}", by.name));
        about.extend(by);
        let deck = about[0].name.clone();
        let unit = "kg/m²";
        let bears = Figure::AreaLoad(load);
        let Some(limit) = numbers.load_limit_kg_per_m2 else {
            let sentence = format!(
                "Nobody knows what {deck} carries: it bears {bears}{under}; ask the builder"
            );
            let test = "look for a plate or ask the builder; step hard beside the load and see \
                        whether the deck gives or sounds hollow";
            findings.push(
                Finding::new(&DECK_OVERLOADED, ctx, Signal::Caution, about, sentence)
                    .measured("load to carry", load, load, unit)
                    .unknown(test.to_owned()),
            );
            continue;
        };
        let Some(signal) = grade(load / limit, 1.0) else {
            continue;
        };
        let sentence = format!(
            "{deck} bears {bears}{under}, and it may carry {}; in all {} stand on \
             it",
            Figure::AreaLoad(limit),
            figures::kilograms(numbers.stowed_mass_kg),
        );
        findings.push(
            Finding::new(&DECK_OVERLOADED, ctx, signal, about, sentence).measured(
                "load on the deck",
                load,
                limit,
                unit,
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn deck(load: &str) -> String {
        format!(
            "deck 6x3 load={load}; fast roll=1/8; rack R1 sockets 3,0 columns=2 rows=2 foot
             slot P1 R1/1; slot P2 R1/2; slot P3 R1/3; slot P4 R1/4"
        )
    }

    #[test]
    fn more_than_the_deck_may_carry() {
        fires(&deck("100"), "DANGER E904 main R1");
        silent(&deck("2000"), "E904");
    }

    #[test]
    fn a_limit_that_nobody_knows() {
        fires(&deck("?"), "CAUTION E904 main R1 not known");
    }

    #[test]
    fn an_empty_deck_asks_nothing() {
        silent("deck 6x3 load=?; fast roll=1/8", "E904");
    }
}
