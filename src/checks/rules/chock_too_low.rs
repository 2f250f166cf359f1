//! `Y502`: the chocks beside a lying cylinder are too low, loose, or not fixed.

use super::cylinder_goes::{self, going, share};
use super::cylinder_rolls_away::{chocks, row};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{CylinderNumbers, Utilisation, Way};
use crate::geometry::Elementary as _;
use crate::layout::{Chocks, ThingKind};

/// How much is to be left to spare by a chock that is proposed.
const SPARE: f64 = 0.75;

declare_check! {
    /// ## What it checks
    /// That chocks are high enough for the motion: they hold while `a_across / a_n` < tan of the angle over
    /// which they grip, cos of which is (R - c) / R. A gap or a chock that is not fixed counts as what it
    /// is: a gap lets the cylinder jump the chock from a run, and a chock that is pushed away holds nothing.
    ///
    /// ## Why it matters
    /// A low chock is a ramp.
    ///
    /// ## Source
    /// Balance about the chock's edge (docs/method.md, lying: 0.2 R holds 0.750, with a gap of a tenth of R
    /// only 0.419). A third of the radius, a fifth with a strap over the top: from memory of the CTU Code.
    pub static CHOCK_TOO_LOW = {
        code: "Y502",
        name: "chock-too-low",
        summary: "chocks are too low, loose or not fixed",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2; running roll=25/4; lie P1 1.5,0 towards=0 cap chock=0.01",
            "deck 3x2; running roll=25/4; lie P1 1.5,0 towards=0 cap chock=0.06",
        ],
        run: chock_too_low,
        cures: propose::keep_from_rolling,
    }
}

fn chock_too_low(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded in going(ctx, Way::RollsAway) {
        let (cylinder, utilisation, ..) = graded;
        let Some(chocks) = chocks(ctx, &cylinder.cylinder) else {
            continue;
        };
        let id = &cylinder.cylinder;
        let sentence = match (is_fixed(&chocks), height_m(&chocks)) {
            (false, _) => {
                format!("The chocks beside {id} are not fixed: it pushes them away and rolls")
            }
            (true, height) => {
                let gap = match chocks {
                    Chocks::Blocks { gap_m, .. } if gap_m > 0.0 => {
                        format!(" and {} off it", figures::metres(gap_m))
                    }
                    _ => String::new(),
                };
                let does = if utilisation.goes {
                    "rolls"
                } else {
                    "nearly rolls"
                };
                format!(
                    "The chocks beside {id} are {} high{gap}, and it {does} over them; {} would do{}",
                    figures::metres(height),
                    figures::metres(needed_m(cylinder, utilisation)),
                    row(cylinder),
                )
            }
        };
        let mut finding = cylinder_goes::finding(&CHOCK_TOO_LOW, ctx, graded, sentence);
        if is_fixed(&chocks) {
            let (have, need) = (height_m(&chocks), needed_m(cylinder, utilisation));
            finding = finding.measured("height of the chocks", have, need, "m");
        }
        findings.push(finding.fold_as("Y502/chock".to_owned()));
    }
    for cylinder in &ctx.numbers.cylinders {
        let unfixed = chocks(ctx, &cylinder.cylinder).is_some_and(|chocks| !is_fixed(&chocks));
        // Where it counts that they are not, it is told above.
        let holds = cylinder
            .utilisation(Way::RollsAway)
            .is_none_or(|item| share(item) < ctx.numbers.motion.warning_from);
        if unfixed && holds {
            let id = &cylinder.cylinder;
            let about = vec![ctx.subject(ThingKind::Cylinder, id)];
            let sentence = format!("The chocks beside {id} are not fixed and count nothing");
            findings.push(
                Finding::new(&CHOCK_TOO_LOW, ctx, Signal::Caution, about, sentence)
                    .at_cylinder(cylinder)
                    .fold_as("Y502/chock".to_owned()),
            );
        }
    }
}

fn is_fixed(chocks: &Chocks) -> bool {
    match chocks {
        Chocks::Blocks { fixed, .. } | Chocks::Wedges { fixed, .. } => *fixed,
        Chocks::Saddle { .. } => true,
    }
}

fn height_m(chocks: &Chocks) -> f64 {
    match chocks {
        Chocks::Blocks { height_m, .. } | Chocks::Wedges { height_m, .. } => *height_m,
        Chocks::Saddle { .. } => 0.0,
    }
}

/// The height of fixed, snug chocks that holds this cylinder with a quarter to spare, in metres, rounded up
/// to 5 mm; the radius where no chock is enough.
///
/// `c = R (1 - cos gamma)`, `tan gamma = n a_across / (0.75 a_n)` for a row of n (docs/method.md, lying).
pub(in crate::checks) fn needed_m(cylinder: &CylinderNumbers, utilisation: &Utilisation) -> f64 {
    let radius = cylinder.body_radius_m;
    let Some(governing) = &utilisation.governing else {
        return radius;
    };
    if governing.a_n_m_s2 <= 0.0 {
        return radius;
    }
    // The whole force along the deck is at least what points across the axis.
    let together = cylinder.row.len().max(1) as f64;
    let gamma = (together * governing.a_h_m_s2 / (SPARE * governing.a_n_m_s2)).arc_tangent();
    let exact = radius * (1.0 - gamma.cosine());
    (exact / 0.005).ceil() * 0.005
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, says, silent};

    fn chocks(more: &str) -> String {
        format!("deck 6x3; running roll=25/4; lie P1 3,0 towards=0 {more}")
    }

    #[test]
    fn a_low_chock_is_a_ramp() {
        fires(&chocks("chock=0.01"), "DANGER Y502 P1");
        silent(&chocks("chock=0.06"), "Y502");
        says(&chocks("chock=0.01"), "Y502", "would do");
    }

    #[test]
    fn one_finding_not_two() {
        silent(&chocks("chock=0.01"), "Y501");
    }

    #[test]
    fn unfixed_chocks_count_nothing() {
        fires(&chocks("chock=0.06 unfixed"), "DANGER Y502 P1");
        says(&chocks("chock=0.06 unfixed"), "Y502", "not fixed");
    }

    #[test]
    fn a_gap_makes_it_weaker() {
        silent(
            "deck 6x3; running roll=8/5; lie P1 3,0 towards=0 chock=0.03",
            "Y502",
        );
        fires(
            "deck 6x3; running roll=20/4; lie P1 3,0 towards=0 chock=0.02 gap=0.04",
            "DANGER Y502 P1",
        );
    }
}
