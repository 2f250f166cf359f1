//! `R302`: a rack holds its cylinder below the centre of gravity, with the foot free.

use super::cylinder_goes;
use super::racked::{self, held_at_m, racked, slot};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::graded;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::Way;

declare_check! {
    /// ## What it checks
    /// That a slot holds its cylinder at or above its centre of gravity, unless the foot is held too. With
    /// the foot held a low edge is judged by its force alone (R301).
    ///
    /// ## Why it matters
    /// Below the centre the cylinder turns over the edge and its foot slides out the other way, whatever the
    /// edge's strength.
    ///
    /// ## Source
    /// Balance of a body held at one height with friction at its foot (docs/method.md, held by a rack: the foot).
    /// Holding at or above the centre: common practice, no source; about two thirds of the height:
    /// university laboratory guidance citing NFPA 55.
    pub static RACK_EDGE_BELOW_CENTRE = {
        code: "R302",
        name: "rack-edge-below-centre",
        summary: "a rack holds its cylinder below its centre, and the foot is free",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.2; running roll=20/4; rack R1 sockets 1.5,0 edge=0.12; slot P1 R1/1",
            "deck 3x2 friction=0.2; running roll=20/4; rack R1 sockets 1.5,0 edge=0.44; slot P1 R1/1",
        ],
        run: rack_edge_below_centre,
        cures: propose::another_slot,
    }
}

fn rack_edge_below_centre(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for item @ (cylinder, hold, rack) in racked(ctx) {
        let held_at_m = held_at_m(rack, hold);
        let low = held_at_m < cylinder.cg_height_m;
        if !low || rack.foot_held || !hold.closed {
            continue;
        }
        let kick = cylinder.utilisation(Way::FootKicksOut);
        let grade = kick.and_then(|kick| graded(kick, ctx.numbers.motion.warning_from));
        let (signal, share) =
            grade.unwrap_or((Signal::Caution, kick.map_or(0.0, cylinder_goes::share)));
        let rest = match signal {
            Signal::Danger => "its foot slides out the other way",
            Signal::Warning => "its foot nearly slides out the other way",
            _ => "only friction keeps its foot",
        };
        let by = if held_at_m < hold.edge_height_m {
            let front = hold.front.as_deref().unwrap_or_default();
            ctx.front(&rack.id, front)
        } else {
            "the rack's edge".to_owned()
        };
        let sentence = format!(
            "{} is held at {} by {by} in {}, below its centre at {}, and {rest}{}",
            cylinder.cylinder,
            figures::metres(held_at_m),
            slot(ctx, hold),
            figures::metres(cylinder.cg_height_m),
            super::foot_kicks_out::at_roll(hold),
        );
        let mut finding = racked::finding(&RACK_EDGE_BELOW_CENTRE, ctx, signal, item, sentence);
        finding = match kick {
            Some(kick) => finding
                .measured("share of what keeps the foot that is used", share, 1.0, "")
                .governed_by(kick),
            None => finding.measured("height of the edge", held_at_m, cylinder.cg_height_m, "m"),
        };
        findings.push(finding);
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn rack(more: &str, roll: &str) -> String {
        format!(
            "deck 6x3 friction=0.2; running roll={roll}; rack R1 sockets 3,0 {more}; slot P1 R1/1"
        )
    }

    #[test]
    fn a_low_edge_with_a_free_foot_kicks_out() {
        fires(&rack("edge=0.12", "30/4"), "DANGER R302 P1 R1");
    }

    #[test]
    fn it_is_a_caution_while_friction_is_enough() {
        fires(&rack("edge=0.25", "1/8"), "CAUTION R302 P1 R1");
    }

    #[test]
    fn with_the_foot_held_numbers_decide() {
        silent(&rack("edge=0.25 foot", "20/4"), "R302");
    }

    #[test]
    fn above_the_centre_it_is_well() {
        silent(&rack("edge=0.44", "20/4"), "R302");
    }
}
