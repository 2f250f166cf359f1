//! A non-slip mat from the gear aboard under a cylinder.

use super::moves::put;
use super::stores::spare_mat;
use crate::checks::rules::valve_points_into_walkway;
use crate::checks::{CheckContext, Proposal};
use crate::engine::numbers::CylinderNumbers;
use crate::geometry::Vec2;
use crate::layout::{Gear, GearKind, GearShape, Thing, ThingKind, ThingRef};

/// The size of a mat, and how thick it is, in metres (values from memory).
const SIZE_M: f64 = 0.4;
const THICK_M: f64 = 0.004;

/// A mat under this cylinder: it stops the slide, and may start the tip.
pub(super) fn under(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Option<Proposal> {
    let gear = spare_mat(ctx)?;
    let id = format!("mat under {}", cylinder.cylinder);
    if ctx.trip.gear.iter().any(|gear| gear.id == id) {
        return None;
    }
    let lies_towards_deg = valve_points_into_walkway::valve_towards_deg(ctx, cylinder);
    let length_m = lies_towards_deg.map_or(0.0, |towards_deg| length_m(ctx, cylinder, towards_deg));
    let mat = Gear {
        id: id.clone(),
        name: None,
        kind: GearKind::Mat,
        deck: cylinder.deck.clone(),
        floor: GearShape::Box {
            at: cylinder.at,
            // A lying one that is only partly on it has no better grip than before.
            length_m: SIZE_M.max(length_m),
            width_m: SIZE_M,
            turn_deg: lies_towards_deg.unwrap_or(0.0),
        },
        height_m: THICK_M,
        mass_kg: 0.5,
        friction: None,
        stowed: false,
    };
    Some(Proposal {
        label: format!("Lay a non-slip mat under {} ({gear})", cylinder.cylinder).into(),
        edits: vec![put(ctx, Thing::Gear(mat))],
        gear: Some(gear),
    })
}

/// How long the floor under a lying cylinder is, along its axis.
fn length_m(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers, towards_deg: f64) -> f64 {
    let what = ThingRef {
        kind: ThingKind::Cylinder,
        id: cylinder.cylinder.clone(),
    };
    let axis = Vec2::from_angle(towards_deg.to_radians());
    let found = ctx.scene.thing(&what);
    found.map_or(0.0, |(_, thing)| {
        thing.shape.support(axis) + thing.shape.support(-axis)
    })
}
