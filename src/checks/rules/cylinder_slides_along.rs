//! `Y503`: a lying cylinder slides along its axis, or nearly.

use super::cylinder_goes::{self, direction, going, how_near};
use super::needs;
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::{NeedKind, Way};
use crate::layout::ThingKind;

declare_check! {
    /// ## What it checks
    /// That a lying cylinder does not slide along its axis: friction, a fixture at its end, or a strap over
    /// it keeps it.
    ///
    /// ## Why it matters
    /// A cylinder that slides along its axis arrives with its valve or its foot first.
    ///
    /// ## Source
    /// Coulomb friction (docs/method.md, lying). DANGER from 1; WARNING from 0.55 where the friction is
    /// assumed, 0.75 where it was measured (docs/method.md, grading).
    pub static CYLINDER_SLIDES_ALONG = {
        code: "Y503",
        name: "cylinder-slides-along",
        summary: "a lying cylinder slides along its axis",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.1; running roll=15/4; lie P1 1.5,0 towards=90 cap saddle=60",
            "deck 3x2 friction=0.8; running roll=10/5; lie P1 1.5,0 towards=90 cap saddle=60",
        ],
        run: cylinder_slides_along,
        cures: propose::lash_down,
    }
}

fn cylinder_slides_along(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::SlidesAlong) {
        let (cylinder, utilisation, _, share) = graded;
        let Some(friction) = cylinder.friction else {
            continue;
        };
        let sentence = format!(
            "{} slides along its axis{}: {}; friction underfoot {friction:.2} ({})",
            cylinder.cylinder,
            direction(utilisation),
            how_near(ctx, cylinder, (Way::SlidesAlong, share)),
            cylinder.friction_source,
        );
        let finding = cylinder_goes::finding(&CYLINDER_SLIDES_ALONG, ctx, graded, sentence);
        findings.push(finding.fold_as("Y503/lash".to_owned()));
    }
    for (cylinder, need) in ctx.needs() {
        if need.what != NeedKind::Friction || cylinder.utilisation(Way::SlidesAlong).is_none() {
            continue;
        }
        let about = vec![ctx.subject(ThingKind::Cylinder, &cylinder.cylinder)];
        let sentence = format!(
            "Nobody knows the friction under {}: it needs at least {:.2} not to slide along; find out",
            cylinder.cylinder, need.at_least
        );
        findings.push(
            Finding::new(
                &CYLINDER_SLIDES_ALONG,
                ctx,
                Signal::Caution,
                about,
                sentence,
            )
            .at_cylinder(cylinder)
            .measured("friction needed", need.at_least, need.at_least, "")
            .unknown(needs::friction_test(need.at_least))
            .fold_as("Y503/friction not known".to_owned()),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    #[test]
    fn athwartships_on_a_slippery_deck() {
        let lies = "lie P1 3,0 towards=90 saddle=60";
        fires(
            &format!("deck 6x3 friction=0.1; running roll=15/4; {lies}"),
            "DANGER Y503 P1",
        );
        silent(
            &format!("deck 6x3 friction=0.8; running roll=8/5; {lies}"),
            "Y503",
        );
    }

    #[test]
    fn friction_that_nobody_knows() {
        fires(
            "deck 6x3 friction=?; running roll=8/5; lie P1 3,0 towards=90 saddle=60",
            "CAUTION Y503 P1 not known",
        );
    }
}
