//! `W601`: nobody gets through a walkway.

use super::walked::{self, SAME_M, walkways};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::layout::ThingKind;

/// The least width that a grown person gets through, sideways and slowly, in metres: the least diameter
/// of a deck scuttle for escape, 18 in (46 CFR 177.500, from memory).
pub(in crate::checks) const PERSON_M: f64 = 0.455;

declare_check! {
    /// ## What it checks
    /// That a person gets from one end of the walkway to the other by any way over the deck, round all that
    /// cannot be stepped over: 0.455 m, the least a person squeezes through. What the empty boat leaves is
    /// the boat's own (W608).
    ///
    /// ## Why it matters
    /// A blocked way is found out when somebody has to run.
    ///
    /// ## Source
    /// 46 CFR 177.500 (the least deck scuttle for escape is 18 in, from memory); 46 CFR 177.800(c) (aisles
    /// are kept clear); 49 CFR 176.74(g) (safe access to all working parts of the deck).
    pub static WALKWAY_BLOCKED = {
        code: "W601",
        name: "walkway-blocked",
        summary: "nobody gets through a walkway",
        signal: Signal::Warning,
        pictures: [
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G crate 2,0 size=0.6x1.6 h=0.8",
            "deck 4x2; running roll=2/8; place A gate 0.4,0; place B helm 3.6,0; way W A B width=0.7
             gear G crate 2,0.8 size=0.6x0.4 h=0.8",
        ],
        run: walkway_blocked,
        cures: propose::clear_way,
    }
}

fn walkway_blocked(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (way, numbers) in walkways(ctx) {
        if !is_blocked(numbers.clear_m, numbers.boat_clear_m) {
            continue;
        }
        let spot = numbers.clear_spot.as_ref();
        let name = ctx.name(ThingKind::Walkway, &way.id);
        let width = if numbers.clear_m <= SAME_M {
            "there is no way through".to_owned()
        } else {
            format!(
                "{} clear, and a person needs {} to squeeze through",
                figures::metres(numbers.clear_m),
                figures::metres(PERSON_M)
            )
        };
        let blockers = walked::blockers(ctx, (way, numbers), (spot, false));
        let between = walked::between(ctx, way, spot);
        let where_and_width = if walked::leads_round(way, spot) {
            let by = walked::by(&blockers);
            format!(
                "{by}: {}",
                width.replacen(" clear", &format!(" clear{between}"), 1)
            )
        } else {
            format!("{between}: {width}")
        };
        let sentence = format!(
            "{name} is blocked{where_and_width}{}{}",
            walked::taken(
                numbers.clear_m,
                numbers.boat_clear_m,
                numbers.boat_spot.as_ref(),
            ),
            walked::shift(ctx, way, spot),
        );
        findings.push(
            walked::finding(
                &WALKWAY_BLOCKED,
                ctx,
                Signal::Warning,
                (way, spot, blockers),
                sentence,
            )
            .measured("clear width", numbers.clear_m, PERSON_M, "m")
            .fold_as(walked::fold_spot(way, spot)),
        );
    }
}

/// Is a width too little for a person, by the stowage's doing?
pub(super) fn is_blocked(clear_m: f64, empty_m: f64) -> bool {
    clear_m < PERSON_M && clear_m < empty_m - SAME_M
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const WAY: &str =
        "deck 6x2; running roll=2/8; place A gate 0.4,0; place B helm 5.6,0; way W A B width=0.7";

    #[test]
    fn right_across() {
        fires(
            &format!("{WAY}; gear G crate 3,0 size=0.6x2 h=0.8"),
            "WARNING W601 W",
        );
        says(
            &format!("{WAY}; gear G crate 3,0 size=0.6x2 h=0.8"),
            "W601",
            "no way through",
        );
    }

    #[test]
    fn too_narrow_for_anybody() {
        let text = format!("{WAY}; gear G crate 3,0 size=0.6x1.2 h=0.8");
        says(&text, "W601", "0.40 m clear, and a person needs 0.46 m");
    }

    #[test]
    fn round_it_is_a_way_too() {
        silent(
            &format!("{WAY}; gear G crate 3,0.5 size=0.6x0.6 h=0.8"),
            "W601",
        );
    }

    /// Two ways along the sides of a house: the crate shuts the starboard one, and the port one is tight at a drum. The
    /// starboard way is told by the crate, not by what stands 3 m away on the other side.
    #[test]
    fn a_way_is_told_by_what_stands_in_it_and_not_on_the_other_side() {
        let text = "deck 8x4; running roll=2/8; place A gate 0.4,-1.6; place B helm 7.6,-1.6; way W A B width=0.7
             fixture C wheelhouse 2..6,-1.2..1.2 h=2; gear G crate 4,-1.6 size=0.6x0.8 h=0.8
             gear D crate 4,1.8 size=0.4x0.4 h=0.8";
        says(
            text,
            "W601",
            "W is blocked by G: 0.40 m clear on the widest way, which leads round between C and D",
        );
        says(text, "W601", "opens the way round");
        fires(text, "WARNING W601 W G C D");
    }

    #[test]
    fn what_one_steps_over_does_not_block() {
        silent(&format!("{WAY}; gear G crate 3,0 size=0.6x2 h=0.3"), "W601");
    }

    /// Who is on their feet steps aside; a seated diver in kit does not.
    #[test]
    fn who_stands_steps_aside() {
        let narrow = WAY.replace("6x2", "6x0.8");
        silent(&format!("{narrow}; person M mate 3,0"), "W6");
        fires(
            &format!("{narrow}; person D diver 3,0 is=seated_kitted"),
            "WARNING W601 W",
        );
    }

    #[test]
    fn the_boats_own_is_not_the_stowages() {
        silent(
            &format!("{WAY}; fixture C console 2.7..3.3,-0.8..0.8 h=1"),
            "W601",
        );
    }
}
