//! `L401`: a lashing is too weak for what it holds.

use super::{lashed, needs};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures, words};
use crate::engine::numbers::NeedKind;
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
            words::list(&lashed::sorted(&lashing.round)),
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

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

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
}
