//! Lying cylinders that touch side by side: one row, and the stop at its end carries all of it.

use super::body::{Body, Rest};
use super::hold::Hold;
use super::ways::stops;
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::mechanics::lying::RollStop;

/// Shells closer than this touch, as they do when the boat first leans (common practice, no source).
const TOUCHING_M: f64 = 0.010;

/// Deeper in each other than this they are not side by side, but one over the other.
const SUNK_M: f64 = 0.030;

/// Axes further apart in direction than this (5 degrees) do not lie side by side.
const PARALLEL: f64 = 0.087;

/// Radii that differ by more than this share make one climb on the other; nothing is said of those.
const LIKE_RADII: f64 = 0.1;

/// The row in which a body lies.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Row {
    /// All of it by name, this body among them.
    pub(super) members: Vec<Id>,
    /// What stops the row on the left and on the right of this body's axis.
    pub(super) ends: [RollStop; 2],
    /// Mass of all of it, in kilograms.
    pub(super) mass_kg: f64,
    /// Bodies as heavy as the lightest that would push as much.
    pub(super) count: u32,
    /// The flattest groove in which another rests on it, in radians.
    pub(super) carries_at_rad: Option<f64>,
}

/// Finds the rows and tells every body which one it lies in.
pub(super) fn gather(bodies: &[Body], holds: &mut [Hold]) {
    // From astern to ahead, so that only those near are looked at.
    let mut rolling: Vec<usize> = (0..bodies.len()).filter(|&i| rolls(&bodies[i])).collect();
    rolling.sort_by(|&a, &b| bodies[a].at.x.total_cmp(&bodies[b].at.x).then(a.cmp(&b)));
    let mut told: Vec<bool> = vec![false; bodies.len()];
    let mut rows: Vec<Vec<usize>> = Vec::new();
    for &start in &rolling {
        if std::mem::replace(&mut told[start], true) {
            continue;
        }
        let mut row = vec![start];
        let mut next = 0;
        while let Some(&here) = row.get(next) {
            next += 1;
            let (x, reach) = (bodies[here].at.x, reach_m(&bodies[here]));
            let first = rolling.partition_point(|&i| bodies[i].at.x < x - reach);
            let near = rolling[first..]
                .iter()
                .take_while(|&&i| bodies[i].at.x <= x + reach);
            for &other in near {
                if !told[other] && touches(&bodies[here], &bodies[other]) {
                    told[other] = true;
                    row.push(other);
                }
            }
        }
        // By name: nothing depends on where a row was found first.
        row.sort_unstable();
        rows.push(row);
    }
    for mut row in rows.into_iter().filter(|row| row.len() > 1) {
        let Some(left) = bodies[row[0]].lying.as_ref().map(|lying| {
            // Rightmost first, seen along the first one's axis.
            Vec2::from_angle(lying.axis_rad).perp()
        }) else {
            continue;
        };
        row.sort_by(|a, b| {
            let across = |index: &usize| bodies[*index].at.dot(left);
            across(a).total_cmp(&across(b)).then(a.cmp(b))
        });
        tell(bodies, holds, &row, left);
    }
}

fn tell(bodies: &[Body], holds: &mut [Hold], row: &[usize], left: Vec2) {
    let (Some(&first), Some(&last)) = (row.first(), row.last()) else {
        return;
    };
    let same_way = |index: usize| {
        let lying = bodies[index].lying.as_ref();
        lying.is_none_or(|lying| Vec2::from_angle(lying.axis_rad).perp().dot(left) >= 0.0)
    };
    let stop_towards = |index: usize, to_left: bool| {
        let [its_left, its_right] = stops(&bodies[index], &holds[index]);
        if to_left == same_way(index) {
            its_left
        } else {
            its_right
        }
    };
    let ends = [stop_towards(last, true), stop_towards(first, false)];
    let masses = || row.iter().map(|index| bodies[*index].mass_kg);
    let mass_kg: f64 = masses().sum();
    let lightest = masses().fold(f64::INFINITY, f64::min);
    let carries_at_rad = row
        .iter()
        .filter_map(|index| holds[*index].carries_at_rad)
        .reduce(f64::max);
    // As many as the lightest would be; ten of one kind are ten.
    let most = u32::try_from(row.len())
        .unwrap_or(u32::MAX)
        .saturating_mul(64);
    let count = (1..=most)
        .find(|count| f64::from(*count) * lightest >= mass_kg * (1.0 - 1e-9))
        .unwrap_or(u32::MAX);
    let mut members: Vec<Id> = row.iter().map(|index| bodies[*index].id.clone()).collect();
    members.sort();
    for &index in row {
        let [to_left, to_right] = ends;
        holds[index].row = Some(Row {
            members: members.clone(),
            ends: if same_way(index) {
                [to_left, to_right]
            } else {
                [to_right, to_left]
            },
            mass_kg,
            count,
            carries_at_rad,
        });
    }
}

/// Does it lie on the flat, so that it rolls against what is beside it?
fn rolls(body: &Body) -> bool {
    let rest = body.lying.as_ref().map(|lying| &lying.rest);
    matches!(rest, Some(Rest::Free | Rest::Chocks(_)))
}

/// The furthest that the middle of a body that touches this one can be from its own, in metres.
fn reach_m(body: &Body) -> f64 {
    let half_m = body
        .lying
        .as_ref()
        .map_or(0.0, |lying| 0.5 * lying.length_m);
    half_m + 3.0 * body.radius_m + TOUCHING_M
}

/// Do two lie side by side and touch?
fn touches(a: &Body, b: &Body) -> bool {
    if a.id == b.id || a.deck != b.deck || !rolls(a) || !rolls(b) {
        return false;
    }
    let (Some(lying), Some(other)) = (&a.lying, &b.lying) else {
        return false;
    };
    let axis = Vec2::from_angle(lying.axis_rad);
    let parallel = axis.cross(Vec2::from_angle(other.axis_rad)).abs() <= PARALLEL;
    let level = (a.floor_m - b.floor_m).abs() <= TOUCHING_M;
    let like = (a.radius_m - b.radius_m).abs() <= LIKE_RADII * a.radius_m.max(b.radius_m);
    let between = b.at - a.at;
    let gap = axis.cross(between).abs() - a.radius_m - b.radius_m;
    let beside = axis.dot(between).abs() < 0.5 * lying.length_m.min(other.length_m);
    parallel && level && like && beside && (-SUNK_M..=TOUCHING_M).contains(&gap)
}
