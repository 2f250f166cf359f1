//! A lashing made better: another strap, other points, tighter, at another height.

use super::super::moves::replace_lashing;
use super::super::slots::into_slot;
use super::super::straps::{hand_tension_kn, height_m, other_points, other_strap};
use super::{cylinder, lashings, one};
use crate::checks::{CheckContext, Finding, Proposal, figures};
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{Known, ThingKind};

/// For a lashing that is too weak or worn: a better one, other points, a slot.
pub(in crate::checks) fn stronger_lashing(
    ctx: &CheckContext<'_>,
    finding: &Finding,
) -> Vec<Proposal> {
    let mut proposals = Vec::new();
    for lashing in lashings(ctx, finding) {
        proposals.extend(other_strap(ctx, lashing));
        proposals.extend(other_points(ctx, lashing));
    }
    if let Some(cylinder) = cylinder(ctx, finding) {
        proposals.extend(into_slot(ctx, cylinder));
    }
    proposals
}

/// For a lashing point or the run of a lashing.
pub(in crate::checks) fn another_point(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let lashings = lashings(ctx, finding);
    let mut proposals: Vec<Proposal> = Vec::new();
    for lashing in lashings {
        proposals.extend(other_points(ctx, lashing));
    }
    proposals
}

/// For a slack lashing.
pub(in crate::checks) fn tighten(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let lashings = lashings(ctx, finding).into_iter();
    let proposals = lashings.filter_map(|lashing| {
        let tension = hand_tension_kn(&lashing.material);
        let edits = replace_lashing(ctx, &lashing.id, |lashing| {
            lashing.slack_m = None;
            lashing.pretension_kn = Some(Known::Value(tension));
        })?;
        Some(one(
            format!(
                "Tighten {} until it is really tight (about {})",
                ctx.name(ThingKind::Lashing, &lashing.id),
                figures::pull(1000.0 * tension)
            ),
            edits,
        ))
    });
    proposals.collect()
}

/// For a strap that is not on the straight shell.
pub(in crate::checks) fn strap_height(ctx: &CheckContext<'_>, finding: &Finding) -> Vec<Proposal> {
    let Some(cylinder) = cylinder(ctx, finding) else {
        return Vec::new();
    };
    let lashings = lashings(ctx, finding).into_iter();
    lashings
        .filter_map(|lashing| to_height(ctx, &lashing.id, cylinder))
        .collect()
}

pub(super) fn to_height(
    ctx: &CheckContext<'_>,
    lashing: &str,
    cylinder: &CylinderNumbers,
) -> Option<Proposal> {
    let height = height_m(cylinder);
    let edits = replace_lashing(ctx, lashing, |lashing| lashing.height_m = height)?;
    Some(one(
        format!(
            "Move {} to {} up",
            ctx.name(ThingKind::Lashing, lashing),
            figures::metres(height)
        ),
        edits,
    ))
}
