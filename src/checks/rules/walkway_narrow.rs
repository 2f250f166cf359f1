//! `W602`: a walkway is narrower than wanted.

use super::walked::{self, SAME_M, walkways};
use super::walkway_blocked::is_blocked;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That the clear width over any way, round all that cannot be stepped over, is at least what is
    /// wanted. What the empty boat leaves is the boat's own (W608): the stowage answers for what it takes
    /// away.
    ///
    /// ## Why it matters
    /// Divers in kit need room, and in a seaway everybody does.
    ///
    /// ## Source
    /// 46 CFR 177.820(d): 610 mm for aisles up to 4.572 m, 760 mm for longer ones, unless the plan asks for
    /// another width.
    pub static WALKWAY_NARROW = {
        code: "W602",
        name: "walkway-narrow",
        summary: "a walkway is narrower than wanted",
        signal: Signal::Caution,
        pictures: [
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G crate 2,0.3 size=0.6x1.4 h=0.8",
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G crate 2,0.7 size=0.6x0.5 h=0.8",
        ],
        run: walkway_narrow,
        cures: propose::clear_way,
    }
}

fn walkway_narrow(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        let (clear, empty) = (numbers.clear_m, numbers.boat_clear_m);
        let narrow = clear < numbers.wanted_m - SAME_M && clear < empty - SAME_M;
        if !narrow || is_blocked(clear, empty) {
            continue;
        }
        let spot = numbers.clear_spot.as_ref();
        let blockers = walked::blockers(ctx, (way, numbers), (spot, false));
        let narrowed = match walked::by(&blockers) {
            by if by.is_empty() => by,
            by => format!(" narrowed{by}:"),
        };
        let sentence = format!(
            "{} is{narrowed} {} clear{}, and {} is wanted ({}){}{}",
            ctx.name(ThingKind::Walkway, &way.id),
            figures::metres(clear),
            walked::between(ctx, way, spot),
            figures::metres(numbers.wanted_m),
            numbers.wanted_source,
            walked::taken(clear, empty, numbers.boat_spot.as_ref()),
            walked::shift(ctx, way, spot),
        );
        findings.push(
            walked::finding(
                &WALKWAY_NARROW,
                ctx,
                Signal::Caution,
                (way, spot, blockers),
                sentence,
            )
            .measured("clear width", clear, numbers.wanted_m, "m")
            .fold_as(walked::fold_spot(way, spot)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const WAY: &str =
        "deck 6x2; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn narrower_than_wanted() {
        let text = format!("{WAY}; gear G crate 3,0.3 size=0.6x1.4 h=0.8");
        fires(&text, "CAUTION W602 W");
        says(&text, "W602", "0.60 m clear");
        says(&text, "W602", "the stowage takes");
    }

    #[test]
    fn as_wide_as_wanted() {
        silent(
            &format!("{WAY}; gear G crate 3,0.7 size=0.6x0.5 h=0.8"),
            "W602",
        );
    }

    #[test]
    fn it_is_told_once() {
        silent(&format!("{WAY}; gear G crate 3,0 size=0.6x2 h=0.8"), "W602");
    }
}
