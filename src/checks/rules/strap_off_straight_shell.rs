//! `L407`: a strap is not on the straight part of the shell.

use super::lashed;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::ThingKind;

/// How high a valve stands over the shoulder at most, in metres: above this below the top it is the valve
/// that a strap goes round (catalogue, valves).
const VALVE_M: f64 = 0.075;

declare_check! {
    /// ## What it checks
    /// That every lashing sits on the straight shell: above the boot, below the shoulder.
    ///
    /// ## Why it matters
    /// Round the valve, a strap breaks or opens it; on the shoulder it slips off over the top; on the boot it
    /// holds only the boot.
    ///
    /// ## Source
    /// Geometry of the shell (docs/method.md, lashings: attachments lie on the straight shell); strap about
    /// two thirds up: university laboratory guidance citing NFPA 55.
    pub static STRAP_OFF_STRAIGHT_SHELL = {
        code: "L407",
        name: "strap-off-straight-shell",
        summary: "a strap is round the valve, shoulder or boot",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=5/6; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.70 tight=0.2",
            "deck 3x2; running roll=5/6; stand P1 1.5,0; point E1 1.5,0.6; point E2 1.5,-0.6
             lash L1 E1 P1 E2 h=0.44 tight=0.2",
        ],
        run: strap_off_straight_shell,
        cures: propose::strap_height,
    }
}

/// The key of all that is cured by moving this strap.
pub(super) fn fold(lashing: &str) -> String {
    format!("L407/{lashing}")
}

fn strap_off_straight_shell(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (cylinder, hold, lashing) in lashed::holds(ctx) {
        if hold.on_straight_shell || !cylinder.stance.is_upright() {
            continue;
        }
        let sentence = format!(
            "{} is {} of {}, {} up: it does not count there",
            ctx.name(ThingKind::Lashing, &lashing.id),
            part_of_shell(cylinder, lashing.height_m),
            cylinder.cylinder,
            figures::metres(lashing.height_m),
        );
        let about = vec![
            ctx.subject(ThingKind::Lashing, &lashing.id),
            ctx.subject(ThingKind::Cylinder, &cylinder.cylinder),
        ];
        findings.push(
            Finding::new(
                &STRAP_OFF_STRAIGHT_SHELL,
                ctx,
                Signal::Warning,
                about,
                sentence,
            )
            .at_cylinder(cylinder)
            .fold_as(fold(&lashing.id)),
        );
    }
}

/// Where on the cylinder this height is.
fn part_of_shell(cylinder: &CylinderNumbers, height_m: f64) -> &'static str {
    if height_m > cylinder.height_m - VALVE_M {
        "round the valve"
    } else if height_m > cylinder.cg_height_m {
        "on the shoulder"
    } else {
        "on the boot or foot"
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn strap(height: &str, more: &str) -> String {
        format!(
            "deck 6x3; running roll=5/6; stand P1 3,0 {more}; point E1 3,0.6; point E2 3,-0.6
             lash L1 E1 P1 E2 h={height} tight=0.2"
        )
    }

    #[test]
    fn valve_shoulder_boot() {
        fires(&strap("0.72", ""), "WARNING L407 L1 P1");
        says(&strap("0.72", ""), "L407", "round the valve");
        says(&strap("0.64", ""), "L407", "on the shoulder");
        says(&strap("0.03", "boot"), "L407", "on the boot");
    }

    #[test]
    fn on_the_shell_it_is_well() {
        silent(&strap("0.44", "boot"), "L407");
    }
}
