//! What the rules about racks have in common.

use crate::checks::{Check, CheckContext, Finding, Signal};
use crate::engine::numbers::{CylinderNumbers, RackHold, Stance};
use crate::layout::{Rack, ThingKind};

/// A cylinder upright in a rack, with how the rack holds it.
pub(super) type Racked<'a> = (&'a CylinderNumbers, &'a RackHold, &'a Rack);

/// Every cylinder that stands in a rack, in the order of the names.
pub(super) fn racked<'a>(ctx: &CheckContext<'a>) -> impl Iterator<Item = Racked<'a>> {
    let boat = &ctx.plan.boat;
    // Neighbours by name mostly stand in the same rack.
    let mut last: Option<&Rack> = None;
    ctx.numbers.cylinders.iter().filter_map(move |cylinder| {
        let hold = cylinder.rack.as_ref()?;
        let upright = cylinder.stance.is_upright() || cylinder.stance == Stance::InRack;
        let same = last.filter(|rack| rack.id == hold.rack);
        let rack = same.or_else(|| boat.rack(&hold.rack))?;
        last = Some(rack);
        upright.then_some((cylinder, hold, rack))
    })
}

/// A finding about a cylinder in a rack, folded by rack.
pub(super) fn finding(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    (cylinder, hold, _): Racked<'_>,
    sentence: String,
) -> Finding {
    let about = vec![
        ctx.subject(ThingKind::Cylinder, &cylinder.cylinder),
        ctx.subject(ThingKind::Rack, &hold.rack),
    ];
    Finding::new(check, ctx, signal, about, sentence)
        .at_cylinder(cylinder)
        .fold_as(format!("{}/{}", check.code, hold.rack))
}

/// Its slot and rack, as a clause: `slot 4 of bench port`.
pub(super) fn slot(ctx: &CheckContext<'_>, hold: &RackHold) -> String {
    format!(
        "slot {} of {}",
        hold.slot,
        ctx.name(ThingKind::Rack, &hold.rack)
    )
}

/// The lowest height at which a closed slot holds its cylinder, in metres: the edge, or the front.
pub(super) fn held_at_m(rack: &Rack, hold: &RackHold) -> f64 {
    let front = rack
        .fronts
        .iter()
        .find(|front| Some(&front.id) == hold.front.as_ref());
    front.map_or(hold.edge_height_m, |front| {
        front.height_m.min(hold.edge_height_m)
    })
}

/// Is this front shut in this part?
pub(super) fn is_shut(ctx: &CheckContext<'_>, rack: &str, front: &str) -> bool {
    let mut fronts = ctx.day.fronts.iter();
    fronts.any(|state| state.rack == rack && state.front.id == front && state.front.shut)
}

/// A finding about a rack itself, where it stands.
pub(super) fn finding_of_rack(
    check: &'static Check,
    ctx: &CheckContext<'_>,
    signal: Signal,
    rack: &Rack,
    sentence: String,
) -> Finding {
    let about = vec![ctx.subject(ThingKind::Rack, &rack.id)];
    Finding::new(check, ctx, signal, about, sentence).on(&rack.deck, rack.at)
}
