//! `T202`: a cylinder slides, or nearly.

use super::cylinder_goes::{self, direction, going, how_near};
use super::needs;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::{NeedKind, Way};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That no cylinder slides over the deck within the motion of the part of the day. Friction that was
    /// not measured is assumed low; where nobody knows it, the finding says how much would be needed.
    ///
    /// An unsecured cylinder is told once, as U101.
    ///
    /// ## Why it matters
    /// A cylinder that slides meets a coaming, a foot or its neighbour at speed, and tips there.
    ///
    /// ## Source
    /// Coulomb friction (docs/method.md, standing free; the balance of IMO CSS Code, Annex 13). DANGER from
    /// 1; WARNING from 0.55 where the friction is assumed, 0.75 where it was measured (docs/method.md,
    /// grading).
    pub static CYLINDER_SLIDES = {
        code: "T202",
        name: "cylinder-slides",
        summary: "a cylinder slides over the deck",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.1; running roll=15/4; lie T1 1.5,0 kind=st-10l-232 towards=0 onkit",
            "deck 3x2 friction=0.6; running roll=5/4; lie T1 1.5,0 kind=st-10l-232 towards=0 onkit",
        ],
        run: cylinder_slides,
        cures: propose::hold_better,
    }
}

fn cylinder_slides(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::Slides) {
        let (cylinder, utilisation, _, share) = graded;
        if cylinder_goes::told_as_unsecured(ctx, cylinder) || cylinder.friction.is_none() {
            continue;
        }
        let id = &cylinder.cylinder;
        let friction = cylinder.friction.unwrap_or(0.0);
        let sentence = format!(
            "{id} slides{}: {}; friction underfoot {friction:.2} ({})",
            direction(utilisation),
            how_near(ctx, cylinder, (Way::Slides, share)),
            cylinder.friction_source,
        );
        findings.push(cylinder_goes::finding(
            &CYLINDER_SLIDES,
            ctx,
            graded,
            sentence,
        ));
    }
    for (cylinder, need) in ctx.needs() {
        if need.what != NeedKind::Friction || cylinder_goes::told_as_unsecured(ctx, cylinder) {
            continue;
        }
        let about = vec![ctx.subject(ThingKind::Cylinder, &cylinder.cylinder)];
        let sentence = format!(
            "Nobody knows the friction under {}: it needs at least {:.2} not to slide; find out",
            cylinder.cylinder, need.at_least
        );
        findings.push(
            Finding::new(&CYLINDER_SLIDES, ctx, Signal::Caution, about, sentence)
                .at_cylinder(cylinder)
                .measured("friction needed", need.at_least, need.at_least, "")
                .unknown(needs::friction_test(need.at_least))
                .fold_as("T202/friction not known".to_owned()),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    const ON_KIT: &str = "lie P1 3,0 towards=0 onkit";

    #[test]
    fn a_slippery_deck_lets_it_slide() {
        fires(
            &format!("deck 6x3 friction=0.1; running roll=15/4; {ON_KIT}"),
            "DANGER T202 P1",
        );
        silent(
            &format!("deck 6x3 friction=0.6; running roll=5/4; {ON_KIT}"),
            "T202",
        );
    }

    #[test]
    fn a_measured_friction_is_trusted_further() {
        // Friction is chosen so that the share lies between the two thresholds.
        let text = "running roll=8/6; lie P1 3,0 towards=0 onkit";
        silent(&format!("deck 6x3 friction=0.33; {text}"), "T202");
    }

    #[test]
    fn friction_that_nobody_knows_is_a_need() {
        let text = format!("deck 6x3 friction=?; running roll=10/4; {ON_KIT}");
        fires(&text, "CAUTION T202 P1 not known");
        says(&text, "T202", "it needs at least 0.");
    }
}
