//! `Y501`: a lying cylinder rolls away, or nearly.

use super::cylinder_goes::{self, direction, going, how_near};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, words};
use crate::engine::numbers::{CylinderNumbers, Way};
use crate::layout::{Chocks, Placing};

declare_check! {
    /// ## What it checks
    /// That a lying cylinder has something on both sides that keeps it from rolling across its axis: chocks,
    /// a saddle, its kit, a fixture. Chocks that are too low are told as Y502.
    ///
    /// ## Why it matters
    /// A bare cylinder on a flat deck rolls at the first degree of heel, and gathers speed. Turning its axis
    /// athwartships only swaps roll for pitch.
    ///
    /// ## Source
    /// Balance about the edge of what stops it, rolling resistance neglected (docs/method.md, lying); 49 CFR
    /// 176.200(b) (lying cylinders are kept from shifting).
    pub static CYLINDER_ROLLS_AWAY = {
        code: "Y501",
        name: "cylinder-rolls-away",
        summary: "a lying cylinder rolls away",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=10/4; lie P1 1.5,0 towards=0 cap",
            "deck 3x2; running roll=10/4; lie P1 1.5,0 towards=0 cap saddle=50",
        ],
        run: cylinder_rolls_away,
        cures: propose::keep_from_rolling,
    }
}

fn cylinder_rolls_away(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::RollsAway) {
        let (cylinder, utilisation, _, share) = graded;
        if chocks(ctx, &cylinder.cylinder).is_some() {
            continue;
        }
        let sentence = format!(
            "{} rolls away{}: {}{}",
            cylinder.cylinder,
            direction(utilisation),
            how_near(ctx, cylinder, (Way::RollsAway, share)),
            row(cylinder),
        );
        let finding = cylinder_goes::finding(&CYLINDER_ROLLS_AWAY, ctx, graded, sentence);
        findings.push(finding.fold_as("Y501/chock".to_owned()));
    }
}

/// The row that pushes on one stop, as a clause.
pub(super) fn row(cylinder: &CylinderNumbers) -> String {
    if cylinder.row.is_empty() {
        return String::new();
    }
    format!(
        "; {} touch, and what stops the row at its end carries all of them",
        words::list_in_order(&cylinder.row)
    )
}

/// The chocks beside a lying cylinder.
pub(super) fn chocks(ctx: &CheckContext<'_>, id: &str) -> Option<Chocks> {
    match &ctx.state(id)?.placing {
        Placing::Lying { chocks, .. } => {
            chocks.filter(|chocks| !matches!(chocks, Chocks::Saddle { .. }))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    #[test]
    fn free_on_a_flat_deck_it_rolls() {
        fires(
            "deck 6x3; running roll=1/9; lie P1 3,0 towards=0",
            "DANGER Y501 P1",
        );
    }

    #[test]
    fn what_is_beside_it_stops_it() {
        silent(
            "deck 6x3; running roll=10/4; lie P1 3,0 towards=0 saddle=50",
            "Y501",
        );
        silent(
            "deck 6x3; running roll=3/6; lie P1 3,0 towards=0 onkit",
            "Y501",
        );
    }

    /// Chocks at the ends alone hold a row, if they are high enough for all of it.
    #[test]
    fn a_row_leans_on_the_chock_at_its_end() {
        let row = |height: &str| {
            format!(
                "deck 6x3; running roll=8/6; lie P1 3,0.19 towards=0 chock={height}
                 lie P2 3,0 towards=0; lie P3 3,-0.19 towards=0 chock={height}"
            )
        };
        silent(&row("0.06"), "Y501");
        silent(&row("0.06"), "Y502");
        fires(&row("0.005"), "DANGER Y501 P2");
        says(&row("0.005"), "Y501", "P1, P2 and P3 touch");
        says(&row("0.005"), "Y502", "P1, P2 and P3 touch");
    }

    #[test]
    fn a_twin_lying_flat_does_not_roll() {
        silent(
            "deck 6x3; running roll=5/6; lie T1 3,0 towards=0 kind=twin-st-12l-long-232",
            "Y501",
        );
    }
}
