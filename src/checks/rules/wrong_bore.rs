//! `R305`: a slot is too narrow or too wide for the cylinder in it.

use super::racked::{self, racked, slot};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::figures::Figure;
use crate::checks::{CheckContext, Finding, Signal, words};

/// From this lean within its slot on a cylinder rattles. Common practice, no source.
const RATTLES_DEG: f64 = 5.0;

declare_check! {
    /// ## What it checks
    /// That the cylinder fits its slot: it must go in, and must not lean more than 5° before the edge holds
    /// it.
    ///
    /// ## Why it matters
    /// What does not go in stands on top of the rack. What leans far meets the edge with a blow, and pushes
    /// harder the further it leans.
    ///
    /// ## Source
    /// Lean = play / height of the edge (docs/method.md, held by a rack). The 5°: common practice, no source.
    pub static WRONG_BORE = {
        code: "R305",
        name: "wrong-bore",
        summary: "a slot is too narrow or too wide for its cylinder",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=2/8; rack R1 sockets 1.5,0 bore=0.24 foot; slot P1 R1/1",
            "deck 3x2; running roll=2/8; rack R1 sockets 1.5,0 bore=0.20 foot; slot P1 R1/1",
        ],
        run: wrong_bore,
        cures: propose::another_slot,
    }
}

fn wrong_bore(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for item @ (cylinder, hold, rack) in racked(ctx) {
        let (Some(play), Some(bore)) = (hold.play_m, rack.bore_m) else {
            continue;
        };
        let diameter = 2.0 * cylinder.body_radius_m;
        let id = &cylinder.cylinder;
        let millimetres = Figure::Thickness;
        let (signal, sentence) = if play < 0.0 {
            let sentence = format!(
                "{id} is {} thick and does not go into {}, which is {} wide",
                millimetres(diameter),
                slot(ctx, hold),
                millimetres(bore),
            );
            (Signal::Warning, sentence)
        } else if hold.lean_deg > RATTLES_DEG {
            let tips = cylinder
                .static_tip_angle_deg
                .is_some_and(|tip| hold.lean_deg >= tip);
            let (signal, falls) = if tips {
                (Signal::Warning, ", by when it is already falling")
            } else {
                (Signal::Caution, "")
            };
            let sentence = format!(
                "{id} has {} of play in {} and leans {} before the edge holds it{falls}",
                millimetres(play),
                slot(ctx, hold),
                words::degrees(hold.lean_deg),
            );
            (signal, sentence)
        } else {
            continue;
        };
        findings.push(
            racked::finding(&WRONG_BORE, ctx, signal, item, sentence).measured(
                "inside width of the slot",
                bore,
                diameter,
                "m",
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(bore: &str) -> String {
        format!(
            "deck 6x3; running roll=2/8; rack R1 sockets 3,0 bore={bore} edge=0.44 foot; slot P1 R1/1"
        )
    }

    #[test]
    fn too_narrow_it_does_not_go_in() {
        fires(&rack("0.18"), "WARNING R305 P1 R1");
    }

    #[test]
    fn a_little_play_is_meant() {
        silent(&rack("0.20"), "R305");
    }

    #[test]
    fn too_wide_it_rattles_then_falls() {
        fires(&rack("0.23"), "CAUTION R305 P1 R1");
        fires(&rack("0.35"), "WARNING R305 P1 R1");
    }
}
