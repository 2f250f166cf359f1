//! What the rules about lashings have in common.

use crate::checks::{Check, CheckContext, Finding, Signal};
use crate::engine::numbers::{CylinderNumbers, LashingHold, LashingNumbers};
use crate::layout::{Id, Lashing, ThingKind};

/// Every lashing that is shut, as it is in this part, with its numbers, in the order of the names.
pub(super) fn shut<'a>(
    ctx: &CheckContext<'a>,
) -> impl Iterator<Item = (&'a Lashing, &'a LashingNumbers)> {
    let index = ctx.index;
    ctx.numbers.lashings.iter().filter_map(move |numbers| {
        let lashing = index.lashing(&numbers.lashing)?;
        lashing.shut.then_some((lashing, numbers))
    })
}

/// Every shut lashing on every cylinder, with how it holds it.
pub(super) fn holds<'a>(
    ctx: &CheckContext<'a>,
) -> impl Iterator<Item = (&'a CylinderNumbers, &'a LashingHold, &'a Lashing)> {
    let index = ctx.index;
    ctx.numbers.cylinders.iter().flat_map(move |cylinder| {
        cylinder.lashings.iter().filter_map(move |hold| {
            let round = index.lashings_round(&cylinder.cylinder);
            let lashing = round.iter().find(|lashing| lashing.id == hold.lashing)?;
            lashing.shut.then_some((cylinder, hold, *lashing))
        })
    })
}

/// A finding about a lashing, at the first cylinder that it goes round.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    lashing: &Lashing,
    sentence: String,
) -> Finding {
    let mut about = vec![ctx.subject(ThingKind::Lashing, &lashing.id)];
    about.extend(ctx.subjects(ThingKind::Cylinder, &sorted(&lashing.round)));
    at_lashing(
        Finding::new(check, ctx, signal, about, sentence),
        ctx,
        lashing,
    )
}

/// Puts a finding where a lashing is: at the first cylinder that it goes round, else at its first point.
pub(super) fn at_lashing(finding: Finding, ctx: &CheckContext<'_>, lashing: &Lashing) -> Finding {
    let mut round = lashing.round.iter();
    if let Some(cylinder) = round.find_map(|id| ctx.cylinder(id)) {
        return finding.at_cylinder(cylinder);
    }
    match ctx.plan.boat.lashing_point(&lashing.from) {
        Some(point) => finding.on(&point.deck, point.at),
        None => finding,
    }
}

/// The names in order.
pub(super) fn sorted(ids: &[Id]) -> Vec<Id> {
    let mut ids = ids.to_vec();
    ids.sort();
    ids
}

/// Is this material shock cord?
pub(super) fn is_cord(material: &str) -> bool {
    crate::catalogue::Catalogue::built_in()
        .material(material)
        .is_some_and(crate::catalogue::materials::Material::is_elastic)
}
