//! `R304`: the foot of a cylinder that is held at one height slides out, or nearly.

use super::cylinder_goes::{self, going};
use super::racked::{held_at_m, slot};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{CylinderNumbers, RackHold, Way};

declare_check! {
    /// ## What it checks
    /// That the foot of a cylinder that is held at one height only, by a rack or a lashing, is kept by
    /// friction: at which roll it slides out. An edge below the centre is told as R302.
    ///
    /// ## Why it matters
    /// Held at the top alone, the cylinder swings like a pendulum: its foot slides out, it drops out of its
    /// holding and falls.
    ///
    /// ## Source
    /// Balance of a body held at one height with friction at its foot (docs/method.md, held by a rack: the foot;
    /// lashings: the foot kicks out).
    pub static FOOT_KICKS_OUT = {
        code: "R304",
        name: "foot-kicks-out",
        summary: "the foot of a cylinder held at one height slides out",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.02; running roll=20/4; rack R1 sockets 1.5,0 edge=0.62; slot P1 R1/1",
            "deck 3x2 friction=0.02; running roll=20/4; rack R1 sockets 1.5,0 edge=0.62 foot; slot P1 R1/1",
        ],
        run: foot_kicks_out,
        cures: propose::hold_better,
    }
}

fn foot_kicks_out(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::FootKicksOut) {
        let (cylinder, _, _, share) = graded;
        if cylinder_goes::told_as_unsecured(ctx, cylinder) || is_below_centre(ctx, cylinder) {
            continue;
        }
        let (held, at_roll) = match &cylinder.rack {
            Some(hold) => (
                format!(
                    "at {} in {}",
                    figures::metres(hold.edge_height_m),
                    slot(ctx, hold)
                ),
                // Where that is how it goes first, its roll is told behind.
                if cylinder.limit.way == Some(Way::FootKicksOut) {
                    String::new()
                } else {
                    at_roll(hold)
                },
            ),
            None => ("by its lashing alone".to_owned(), String::new()),
        };
        let does = if share >= 1.0 {
            "slides"
        } else {
            "nearly slides"
        };
        let sentence = format!(
            "{} is held {held} and its foot by friction alone: the foot {does} out{at_roll}; {}",
            cylinder.cylinder,
            cylinder_goes::how_near(ctx, cylinder, (Way::FootKicksOut, share)),
        );
        let finding = cylinder_goes::finding(&FOOT_KICKS_OUT, ctx, graded, sentence);
        let fold = cylinder
            .rack
            .as_ref()
            .map(|hold| format!("R304/{}", hold.rack));
        findings.push(match fold {
            Some(fold) => finding.fold_as(fold),
            None => finding,
        });
    }
}

/// Is it told as R302?
fn is_below_centre(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> bool {
    cylinder.rack.as_ref().is_some_and(|hold| {
        let rack = ctx.plan.boat.rack(&hold.rack);
        hold.closed
            && rack
                .is_some_and(|rack| !rack.foot_held && held_at_m(rack, hold) < cylinder.cg_height_m)
    })
}

/// The roll at which the foot kicks out, as a clause; empty where it does not.
pub(super) fn at_roll(hold: &RackHold) -> String {
    match hold.kick_out_roll_deg {
        Some(roll) if roll > 0.0 => format!(" at {} of roll", words::degrees(roll)),
        Some(_) => " without any roll".to_owned(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn rack(more: &str, friction: &str) -> String {
        format!(
            "deck 6x3 friction={friction}; running roll=20/4
             rack R1 sockets 3,0 edge=0.62 {more}; slot P1 R1/1"
        )
    }

    #[test]
    fn held_at_the_top_alone_on_a_slippery_deck() {
        fires(&rack("", "0.02"), "DANGER R304 P1");
        says(&rack("", "0.02"), "R304", "of roll");
    }

    #[test]
    fn a_lip_or_grip_keeps_the_foot() {
        silent(&rack("foot", "0.02"), "R304");
        silent(&rack("", "0.9"), "R304");
    }
}
