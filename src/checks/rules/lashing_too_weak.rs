//! `L401`: a lashing is too weak for what it holds.

use super::{cylinder_goes, lashed, needs};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::{NeedKind, Way};
use crate::layout::{LashCondition, ThingKind};

/// From which share of the calculation strength on a lashing is a WARNING: the strength holds a factor of
/// 1.5 already (docs/method.md, grading).
pub(super) const WARNING_FROM: f64 = 0.75;

declare_check! {
    /// ## What it checks
    /// That no lashing is pulled harder than its calculation strength: the maximum securing load of the
    /// strap, its condition counted, divided by 1.5. Where the strength is not known, the finding says what
    /// is needed. Shock cord is told as L404.
    ///
    /// Where several lashings of known stiffness hold one cylinder, also that the stiffest is not at its
    /// strength before the others help: WARNING where it is at its calculation strength within the motion,
    /// DANGER where it is so even with 1.5 times of it.
    ///
    /// ## Why it matters
    /// A strap that breaks at the top of a roll lets everything go at once.
    ///
    /// ## Source
    /// IMO CSS Code, Annex 13: maximum securing load as a share of the breaking strength by material (table
    /// 1), calculation strength = MSL / 1.5 (7.2).
    pub static LASHING_TOO_WEAK = {
        code: "L401",
        name: "lashing-too-weak",
        summary: "a lashing is too weak for what it holds",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.3; running roll=25/4; stand B1 1.5,0 kind=bank-50l-200
             point E1 1.5,0.8 strength=9; point E2 1.5,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength=0.2 tight=0.1; lash L2 E2 B1 E2 h=0.8 strength=0.2 tight=0.1",
            "deck 3x2 friction=0.3; running roll=25/4; stand B1 1.5,0 kind=bank-50l-200
             point E1 1.5,0.8 strength=9; point E2 1.5,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength=9 tight=0.3; lash L2 E2 B1 E2 h=0.8 strength=9 tight=0.3",
        ],
        run: lashing_too_weak,
        cures: propose::stronger_lashing,
    }
}

fn lashing_too_weak(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, numbers) in lashed::shut(ctx) {
        if lashed::is_cord(&lashing.material) || lashing.condition == LashCondition::Cut {
            continue;
        }
        // No strength would do where the pull is infinite: it tips or slides the other way (T201, T202).
        let Some(capacity) = numbers.capacity_n.filter(|_| numbers.pull_n.is_finite()) else {
            continue;
        };
        let share = numbers.pull_n / capacity;
        let Some(signal) = grade(share, WARNING_FROM) else {
            continue;
        };
        let name = ctx.name(ThingKind::Lashing, &lashing.id);
        let sentence = format!(
            "{name} round {} is pulled with {}, and {} of it counts",
            words::list_in_order(&lashed::sorted(&lashing.round)),
            figures::pull(numbers.pull_n),
            figures::weight(capacity),
        );
        findings.push(
            lashed::finding(&LASHING_TOO_WEAK, ctx, signal, lashing, sentence).measured(
                "pull on the lashing",
                numbers.pull_n,
                capacity,
                "N",
            ),
        );
    }
    stiffest_first(ctx, findings);
    for needed in needs::strengths(ctx, NeedKind::LashingStrength) {
        let Some(lashing) = ctx.trip.lashing(&needed.of) else {
            continue;
        };
        let subject = ctx.subject(ThingKind::Lashing, &lashing.id);
        let what = format!("the lashing {}", subject.name);
        let by = (needed.newtons, needed.by.as_slice());
        let finding = needs::strength_not_known(&LASHING_TOO_WEAK, ctx, subject, &what, by);
        findings.push(lashed::at_lashing(finding, ctx, lashing));
    }
}

/// How much of a lashing's strength the calculation strength leaves for uneven sharing and the like.
const LEFT_BY_STRENGTH: f64 = 1.5;

/// Lashings that hold a cylinder if they share as it suits it, but not as their stiffness makes them.
fn stiffest_first(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for cylinder in &ctx.numbers.cylinders {
        let (Some(shared), Some(first)) = (
            cylinder.tips_by_stiffness,
            cylinder.stiffest_lashing.as_ref(),
        ) else {
            continue;
        };
        let goes_anyway = cylinder
            .utilisation(Way::Tips)
            .is_none_or(|tips| cylinder_goes::share(tips) >= 1.0);
        let signal = if shared >= LEFT_BY_STRENGTH {
            Signal::Danger
        } else {
            Signal::Warning
        };
        let is_told = findings.iter().any(|finding| {
            let same = finding.code == LASHING_TOO_WEAK.code && finding.part == ctx.part.id;
            same && finding.first() == first && finding.signal >= signal
        });
        let Some(lashing) = ctx.trip.lashing(first) else {
            continue;
        };
        if shared < 1.0 || goes_anyway || is_told {
            continue;
        }
        let name = ctx.name(ThingKind::Lashing, first);
        let sentence = format!(
            "{name} is so much stiffer than what else holds {0} that it is at its strength before that helps: \
             shared by stiffness they hold {0} only up to {1} of what would tip it",
            cylinder.cylinder,
            words::percent(1.0 / shared),
        );
        findings.push(
            lashed::finding(&LASHING_TOO_WEAK, ctx, signal, lashing, sentence).measured(
                "tipping, shared by stiffness",
                shared,
                1.0,
                "",
            ),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::rules::test_support::{fires, silent};
    use crate::checks::{fixture, run};
    use crate::engine::Assessor;

    fn two_straps(strength: &str) -> String {
        format!(
            "deck 6x3 friction=0.3; running roll=25/4; stand B1 3,0 kind=bank-50l-200
             point E1 3,0.8 strength=9; point E2 3,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength={strength} tight=0.1
             lash L2 E2 B1 E2 h=0.8 strength=9 tight=0.1"
        )
    }

    #[test]
    fn a_weak_strap() {
        fires(&two_straps("0.2"), "DANGER L401 L1 B1");
        silent(&two_straps("9"), "L401");
    }

    #[test]
    fn a_strap_that_nobody_knows() {
        fires(&two_straps("?"), "CAUTION L401 L1 B1 not known");
    }

    /// A bank of 73 kg with two straps to each side, made fast at its centre of gravity; the second of each side of
    /// this stiffness.
    fn doubled(stiffness: &str, strength: f64) -> String {
        format!(
            "deck 6x4 friction=0.9; running roll=28/4; stand B1 3,0 kind=bank-50l-200
             point A 3,1 strength=9; point B 3.1,1 strength=9; point C 3,-1 strength=9; point D 3.1,-1 strength=9
             lash L1 A B1 A h=0.74 stiffness=60 tight=0.001 strength={strength}
             lash L2 B B1 B h=0.74 stiffness={stiffness} tight=0.001 strength={strength}
             lash L3 C B1 C h=0.74 stiffness=60 tight=0.001 strength={strength}
             lash L4 D B1 D h=0.74 stiffness={stiffness} tight=0.001 strength={strength}"
        )
    }

    /// What is said of the sharing, and the numbers: by stiffness, and as it suits best.
    fn shared(stiffness: &str, strength: f64) -> (Option<Signal>, f64, f64) {
        let plan = fixture::plan(&doubled(stiffness, strength)).unwrap();
        let mut assessor = Assessor::default();
        let findings = run(&mut assessor, &plan, &plan.trips[0]);
        let bank = &assessor.assessment().parts[0].cylinders[0];
        let tips = cylinder_goes::share(bank.utilisation(Way::Tips).unwrap());
        let told = findings
            .iter()
            .find(|finding| finding.code == "L401" && finding.sentence.contains("so much stiffer"));
        assert!(told.is_none_or(|told| ["L1", "L3"].contains(&told.first())));
        (
            told.map(|told| told.signal),
            bank.tips_by_stiffness.unwrap(),
            tips,
        )
    }

    /// A strap and a long soft rope of like strength: the strap is at its strength when the rope has hardly
    /// begun. Two alike hold twice what the strap holds alone.
    #[test]
    fn a_stiff_strap_is_at_its_strength_before_a_soft_one_helps() {
        let (mut warned, mut in_danger) = (0, 0);
        let mut seen = Vec::new();
        for step in 0..95 {
            let strength = 0.05 + 0.006 * f64::from(step);
            let (told, by_stiffness, tips) = shared("0.6", strength);
            seen.push((strength, by_stiffness, tips, told));
            if tips >= 1.0 || by_stiffness < 1.0 {
                assert_eq!(told, None, "{strength}: {by_stiffness} {tips}");
            } else if by_stiffness >= 1.5 {
                assert_eq!(told, Some(Signal::Danger), "{strength}: {by_stiffness}");
                in_danger += 1;
            } else if told == Some(Signal::Warning) {
                warned += 1;
            }
            let (told, by_stiffness, tips) = shared("60", strength);
            assert_eq!(told, None, "{strength}: {by_stiffness} {tips}");
        }
        assert!(
            warned >= 3 && in_danger >= 3,
            "{warned} {in_danger}: {seen:?}"
        );
    }
}
