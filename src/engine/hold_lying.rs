//! What holds a lying body: fixtures beside it, straps over it, a crate or net, and what rests on it.

use super::body::{self, Body, Rest};
use super::hold::{BACKING_GAP_M, Hold, Wall, newtons};
use crate::geometry::Elementary as _;
use crate::geometry::{Shape, Vec2, separation, vec2};
use crate::layout::Boat;
use crate::mechanics::lying::OverStrap;
use crate::mechanics::tiers::groove_angle_rad;
use crate::mechanics::vector::vec3;

/// Loose length up to which a strap over a lying body counts as snug, in metres (common practice, no
/// source).
const SNUG_M: f64 = 0.005;

/// Fixtures close to a lying body close its sides and ends.
pub(super) fn add_walls(boat: &Boat, body: &Body, hold: &mut Hold) {
    let Some(lying) = &body.lying else { return };
    let axis = Vec2::from_angle(lying.axis_rad);
    let shape = body.shape();
    for fixture in boat.fixtures.iter().filter(|item| item.deck == body.deck) {
        let backs = fixture.backing_kn.is_some();
        let axis_m = body.floor_m + body.radius_m;
        if !backs || fixture.height_m < axis_m || fixture.underside_m > axis_m {
            continue;
        }
        let Some(outline) = super::scene::corners(&fixture.outline) else {
            continue;
        };
        let apart = separation(&shape, &Shape::Polygon(outline));
        if apart.gap_m > BACKING_GAP_M || apart.depth_m > BACKING_GAP_M {
            continue;
        }
        // From the nearest point of the axis: square to it beside the flank, along it before an end. Where
        // along the flank the nearest point lies says nothing.
        let end = (0.5 * lying.length_m - body.radius_m).max(0.0);
        let on_axis = (apart.b - body.at).dot(axis).clamp(-end, end);
        let contact = apart.b - (body.at + on_axis * axis);
        let (along, across) = (contact.dot(axis), axis.cross(contact));
        let side = match (along.abs() > across.abs(), along > 0.0, across > 0.0) {
            (false, _, true) => 0,
            (false, _, false) => 1,
            (true, true, _) => 2,
            (true, false, _) => 3,
        };
        let wall = match fixture.backing_kn.and_then(newtons) {
            Some(strength) => Wall::Known(fixture.id.clone(), strength),
            None => Wall::NotKnown(fixture.id.clone()),
        };
        let before = std::mem::take(&mut hold.walls[side]);
        hold.walls[side] = before.weaker(wall);
        hold.backed_by.push(fixture.id.clone());
    }
    hold.backed_by.sort();
}

/// Straps over a lying body: two slopes, one pull.
pub(super) fn add_over_straps(body: &Body, hold: &mut Hold) {
    let Some(lying) = &body.lying else { return };
    let axis = Vec2::from_angle(lying.axis_rad);
    let top = vec3(
        body.at.x,
        body.at.y,
        body.deck_height_m + body.floor_m + 2.0 * body.radius_m,
    );
    let mut over: Option<OverStrap> = None;
    for strap in &hold.straps {
        let state = &strap.state;
        // A slack one bites when the body is out of its chocks, or in the air.
        let slack = state.slack_m.is_some_and(|slack| slack > SNUG_M);
        if !state.counts() || state.is_cord || slack {
            continue;
        }
        let mut slopes = [None, None];
        for point in &state.points {
            let way = vec2(point.at.x - top.x, point.at.y - top.y);
            let side = usize::from(axis.cross(way) < 0.0);
            slopes[side] = Some((top.z - point.at.z).arc_tangent_over(way.length()));
        }
        let [Some(left), Some(right)] = slopes else {
            continue;
        };
        let pull_n = state.least_capacity_n() / strap.shared_by as f64;
        let sines = left.sine() + right.sine();
        if state.is_known() {
            hold.pressed_down_n += pull_n * sines.max(0.0);
            let stronger = over.is_none_or(|best| best.pull_n < pull_n);
            if stronger {
                over = Some(OverStrap {
                    pull_n,
                    left_angle_rad: left,
                    right_angle_rad: right,
                });
            }
        } else {
            hold.pressed_down_unknown = true;
            if sines > 0.0 {
                hold.unknown_over.push((state.id.clone(), sines));
            }
        }
        hold.pressing_n += state.pretension_n.unwrap_or(0.0) * sines.max(0.0);
    }
    hold.over_strap = over;
}

/// The flattest groove that a lying body makes for one that rests on it.
pub(super) fn carries_at_rad(bodies: &[Body], body: &Body) -> Option<f64> {
    let upper = bodies
        .iter()
        .filter_map(|other| match &other.lying.as_ref()?.rest {
            Rest::Groove(upon) if upon.contains(&body.id) => Some((other, upon)),
            _ => None,
        });
    let angles = upper.filter_map(|(other, upon)| {
        let beside = upon.iter().find(|id| **id != body.id)?;
        let beside = body::find(bodies, beside)?;
        groove_angle_rad(beside.at.distance(body.at), body.radius_m, other.radius_m)
    });
    angles.reduce(f64::max)
}

pub(super) fn add_crate(boat: &Boat, body: &Body, hold: &mut Hold) {
    let rack = body.slot.as_ref().and_then(|(rack, _)| boat.rack(rack));
    if let Some(known) = rack.and_then(|rack| rack.hold_down_kn) {
        if let Some(strength) = newtons(known) {
            hold.pressed_down_n += strength;
        } else {
            hold.pressed_down_unknown = true;
            hold.unknown_hold_down = body.slot.as_ref().map(|(rack, _)| rack.clone());
        }
    }
}
