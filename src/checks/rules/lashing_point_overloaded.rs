//! `L402`: a lashing point is pulled harder than it can take.

use super::lashing_too_weak::WARNING_FROM;
use super::{cylinder_goes, needs};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::draft::grade;
use crate::checks::{CheckContext, Finding, Signal, figures};
use crate::engine::numbers::{NeedKind, Way};
use crate::layout::{LashingPoint, Placing, PointKind, ThingKind};
use crate::mechanics::lashing::strength::SAFETY_FACTOR;

declare_check! {
    /// ## What it checks
    /// That no lashing point is pulled harder than its calculation strength, all lashings made fast to it
    /// together and the angle of the pull counted; nor by a cylinder that hangs from it. Where its strength
    /// is not known, the finding says what is needed.
    ///
    /// ## Why it matters
    /// The weakest part of a lashing counts, and that is mostly the point: an eye pulled 45° aside keeps a
    /// quarter, and two straps on one eye pull together.
    ///
    /// ## Source
    /// IMO CSS Code, Annex 13, 4.4 (the weakest part in a series counts) and 7.2 (CS = MSL / 1.5); loss
    /// with angle: makers' working loads of eye bolts (catalogue source EYE).
    pub static LASHING_POINT_OVERLOADED = {
        code: "L402",
        name: "lashing-point-overloaded",
        summary: "a lashing point is pulled harder than it can take",
        signal: Signal::Danger,
        pictures: [
            "deck 3x2 friction=0.3; running roll=25/4; stand B1 1.5,0 kind=bank-50l-200
             point E1 1.5,0.8 strength=0.2; point E2 1.5,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength=9 tight=0.1; lash L2 E2 B1 E2 h=0.8 strength=9 tight=0.1",
            "deck 3x2 friction=0.3; running roll=25/4; stand B1 1.5,0 kind=bank-50l-200
             point E1 1.5,0.8 strength=9; point E2 1.5,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength=9 tight=0.1; lash L2 E2 B1 E2 h=0.8 strength=9 tight=0.1",
        ],
        run: lashing_point_overloaded,
        cures: propose::another_point,
    }
}

fn lashing_point_overloaded(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    let boat = &ctx.plan.boat;
    // No strength would do where the pull is infinite: it tips or slides the other way (T201, T202).
    for numbers in ctx
        .numbers
        .points
        .iter()
        .filter(|item| item.pull_n.is_finite())
    {
        let (Some(point), Some(capacity)) =
            (boat.lashing_point(&numbers.point), numbers.capacity_n)
        else {
            continue;
        };
        let Some(signal) = grade(numbers.pull_n / capacity, WARNING_FROM) else {
            continue;
        };
        let together = if numbers.lashings.len() > 1 {
            format!(" by {}", ctx.names(ThingKind::Lashing, &numbers.lashings))
        } else {
            String::new()
        };
        let sentence = format!(
            "{} is pulled with {}{together}, and {} of it counts that way",
            with_kind(ctx, point),
            figures::pull(numbers.pull_n),
            figures::weight(capacity),
        );
        let mut about = vec![ctx.subject(ThingKind::LashingPoint, &point.id)];
        about.extend(ctx.subjects(ThingKind::Lashing, &numbers.lashings));
        findings.push(
            Finding::new(&LASHING_POINT_OVERLOADED, ctx, signal, about, sentence)
                .on(&point.deck, point.at)
                .measured("pull on the point", numbers.pull_n, capacity, "N"),
        );
    }
    for needed in needs::strengths(ctx, NeedKind::PointStrength) {
        let Some(point) = boat.lashing_point(&needed.of) else {
            continue;
        };
        let subject = ctx.subject(ThingKind::LashingPoint, &point.id);
        let what = with_kind(ctx, point);
        // All that are made fast to it pull at the same time.
        let together = ctx
            .numbers
            .points
            .iter()
            .find(|item| item.point == point.id);
        let together_n = together.map_or(0.0, |item| SAFETY_FACTOR * item.pull_n);
        let newtons = if together_n.is_finite() {
            needed.newtons.max(together_n)
        } else {
            needed.newtons
        };
        let by = (newtons, needed.by.as_slice());
        let check = &LASHING_POINT_OVERLOADED;
        let finding = needs::strength_not_known(check, ctx, subject, &what, by);
        findings.push(finding.on(&point.deck, point.at));
    }
    hanging(ctx, findings);
}

/// What hangs from a point that its weight and swing break.
fn hanging(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for graded @ (cylinder, _, _, share) in cylinder_goes::going(ctx, Way::LashingGives) {
        let from = match ctx.state(&cylinder.cylinder).map(|state| &state.placing) {
            Some(Placing::Hanging { from, .. }) => ctx.plan.boat.lashing_point(from),
            _ => None,
        };
        let Some(point) = from else { continue };
        let id = &cylinder.cylinder;
        let sentence = format!(
            "{id} hangs from {}: {}",
            with_kind(ctx, point),
            cylinder_goes::how_near(ctx, cylinder, (Way::LashingGives, share)),
        );
        let check = &LASHING_POINT_OVERLOADED;
        let mut finding = cylinder_goes::finding(check, ctx, graded, sentence);
        let subject = ctx.subject(ThingKind::LashingPoint, &point.id);
        finding.about.insert(0, subject);
        findings.push(finding);
    }
}

/// A lashing point with what it is: `pad eye E3`.
pub(super) fn with_kind(ctx: &CheckContext<'_>, point: &LashingPoint) -> String {
    let kind = match point.kind {
        PointKind::PadEye => "pad eye",
        PointKind::EyeBolt => "eye bolt",
        PointKind::Cleat => "cleat",
        PointKind::Stanchion => "stanchion",
        PointKind::GuardRail => "guard rail",
        PointKind::GluedPatch => "glued patch",
        PointKind::LashingRail => "lashing rail",
        PointKind::Ring => "ring",
        PointKind::Other => "lashing point",
    };
    format!("{kind} {}", ctx.name(ThingKind::LashingPoint, &point.id))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn eye(strength: &str) -> String {
        format!(
            "deck 6x3 friction=0.3; running roll=25/4; stand B1 3,0 kind=bank-50l-200
             point E1 3,0.8 strength={strength}; point E2 3,-0.8 strength=9
             lash L1 E1 B1 E1 h=0.8 strength=9 tight=0.1; lash L2 E2 B1 E2 h=0.8 strength=9 tight=0.1"
        )
    }

    #[test]
    fn a_weak_eye() {
        fires(&eye("0.2"), "DANGER L402 E1 L1");
        silent(&eye("9"), "L402");
    }

    #[test]
    fn an_eye_that_nobody_knows() {
        fires(&eye("?"), "CAUTION L402 E1 B1 not known");
    }
}
