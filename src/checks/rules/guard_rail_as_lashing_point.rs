//! `L406`: a cylinder is lashed to the guard rail, or hangs from it.

use super::{lashed, lashing_point_overloaded};
use crate::checks::check::declare_check;
use crate::checks::cures::propose;
use crate::checks::{CheckContext, Finding, Signal};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{Placing, PointKind, ThingKind};

declare_check! {
    /// ## What it checks
    /// That no lashing is made fast to a guard rail or its stanchions, and that no cylinder hangs from one. A rail made and rated for lashing is
    /// a lashing point like any other.
    ///
    /// ## Why it matters
    /// A rail is built to stop a person: a stanchion takes 0.56 kN at its top, and some failed at 54 to
    /// 104 kg of pull. When it goes, the cylinder goes, and so does the rail that keeps people aboard.
    ///
    /// ## Source
    /// 49 CFR 176.74(a): lashings may not be secured to guard rails. Strengths: a maker quoting ISO 15085
    /// (catalogue source STANCHION).
    pub static GUARD_RAIL_AS_LASHING_POINT = {
        code: "L406",
        name: "guard-rail-as-lashing-point",
        summary: "a cylinder is lashed to the guard rail, or hangs from it",
        signal: Signal::Warning,
        pictures: [
            "deck 3x2; running roll=5/6; stand P1 1.5,0.6; point S1 1.3,0.95 h=0.6 is=stanchion
             point S2 1.7,0.95 h=0.6 is=stanchion; lash L1 S1 P1 S2 h=0.44 tight=0.2",
            "deck 3x2; running roll=5/6; stand P1 1.5,0.6; point S1 1.3,0.95 h=0.6 is=lashing_rail
             point S2 1.7,0.95 h=0.6 is=lashing_rail; lash L1 S1 P1 S2 h=0.44 tight=0.2",
        ],
        run: guard_rail_as_lashing_point,
        cures: propose::another_point,
    }
}

fn guard_rail_as_lashing_point(ctx: &CheckContext<'_>, findings: &mut Vec<Finding>) {
    for (lashing, _) in lashed::shut(ctx) {
        let mut ends = vec![&lashing.from];
        if lashing.to != lashing.from {
            ends.push(&lashing.to);
        }
        ends.sort();
        let boat = &ctx.plan.boat;
        let rails: Vec<_> = ends
            .into_iter()
            .filter_map(|id| boat.lashing_point(id))
            .filter(|point| matches!(point.kind, PointKind::GuardRail | PointKind::Stanchion))
            .collect();
        if rails.is_empty() {
            continue;
        }
        let names: Vec<String> = rails
            .iter()
            .map(|point| lashing_point_overloaded::with_kind(ctx, point))
            .collect();
        let sentence = format!(
            "{} is made fast to {}: a guard rail stops a person, it does not hold cylinders",
            ctx.name(ThingKind::Lashing, &lashing.id),
            crate::checks::words::list(&names),
        );
        let check = &GUARD_RAIL_AS_LASHING_POINT;
        let mut finding = lashed::finding(check, ctx, Signal::Warning, lashing, sentence);
        let points = rails
            .iter()
            .map(|point| ctx.subject(ThingKind::LashingPoint, &point.id));
        finding.about.extend(points);
        findings.push(finding);
    }
    findings.extend(
        ctx.numbers
            .cylinders
            .iter()
            .filter_map(|cylinder| hanging(ctx, cylinder)),
    );
}

/// A cylinder that hangs from a rail: its whole weight and swing on what stops a person.
fn hanging(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Option<Finding> {
    let id = &cylinder.cylinder;
    let Placing::Hanging { from, .. } = &ctx.state(id)?.placing else {
        return None;
    };
    let point = ctx.plan.boat.lashing_point(from)?;
    if !matches!(point.kind, PointKind::GuardRail | PointKind::Stanchion) {
        return None;
    }
    let sentence = format!(
        "{id} hangs from {}: a guard rail stops a person, it does not carry cylinders",
        lashing_point_overloaded::with_kind(ctx, point),
    );
    let about = vec![
        ctx.subject(ThingKind::Cylinder, id),
        ctx.subject(ThingKind::LashingPoint, from),
    ];
    let check = &GUARD_RAIL_AS_LASHING_POINT;
    let finding = Finding::new(check, ctx, Signal::Warning, about, sentence).at_cylinder(cylinder);
    Some(finding.fold_as(format!("L406/hangs/{from}")))
}

#[cfg(test)]
mod tests {
    use crate::checks::rules::test_support::{fires, silent};

    fn to(kind: &str) -> String {
        format!(
            "deck 6x3; running roll=5/6; stand P1 3,1; point S1 2.8,1.4 h=0.6 is={kind}
             point S2 3.2,1.4 h=0.6 is=pad_eye; lash L1 S1 P1 S2 h=0.44 tight=0.2"
        )
    }

    #[test]
    fn a_rail_or_a_stanchion_is_no_lashing_point() {
        fires(&to("guard_rail"), "WARNING L406 L1 P1 S1");
        fires(&to("stanchion"), "WARNING L406 L1 P1 S1");
    }

    #[test]
    fn what_hangs_from_a_rail_hangs_from_what_stops_a_person() {
        let hung = |kind: &str| {
            format!(
                "deck 6x3; drifting roll=3/6; point S1 3,1.4 h=1.1 is={kind}; hang P1 S1 3,1.3 clear=0.1"
            )
        };
        fires(&hung("guard_rail"), "WARNING L406 P1 S1");
        fires(&hung("stanchion"), "WARNING L406 P1 S1");
        silent(&hung("lashing_rail"), "L406");
    }

    #[test]
    fn a_rail_made_for_it_is() {
        silent(&to("lashing_rail"), "L406");
    }
}
