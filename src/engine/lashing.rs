//! All computed numbers of lashings and of the points they are made fast to.

use std::collections::BTreeMap;

use super::body::{self, Body};
use super::numbers::{CylinderNumbers, LashingNumbers, PointNumbers};
use super::straps::{StrapState, Straps};
use crate::geometry::vec2;
use crate::layout::Id;
use crate::mechanics::lashing::girth;
use crate::mechanics::lashing::leg::{Leg, Shell, Strap, strap_round};
use crate::mechanics::lashing::strength::calculation_strength_n;

/// The shells of all that a strap goes round.
fn shells(strap: &StrapState, bodies: &[Body]) -> Vec<Shell> {
    strap
        .round
        .iter()
        .filter_map(|id| body::find(bodies, id))
        .map(|body| Shell {
            axis: body.at,
            radius_m: body.radius_m,
            centre_of_gravity: vec2(body.cg.x, body.cg.y),
            foot_height_m: body.deck_height_m + body.floor_m,
        })
        .collect()
}

/// The whole strap round all its cylinders.
fn run(strap: &StrapState, shells: &[Shell]) -> Option<Strap> {
    let points = [strap.points[0].at, strap.points[1].at];
    strap_round(shells, strap.height_m, points).ok()
}

/// A leg from where it leaves the shell to its point, boat frame.
fn drawn(leg: &Leg) -> [[f64; 3]; 2] {
    let point = leg.point;
    let pull = leg.pull;
    let from = [
        point.x - leg.length_m * pull.x,
        point.y - leg.length_m * pull.y,
        point.z - leg.length_m * pull.z,
    ];
    [from, [point.x, point.y, point.z]]
}

/// All numbers of the lashings, in the order of their names.
pub(super) fn lashings(
    straps: &Straps,
    bodies: &[Body],
    cylinders: &[CylinderNumbers],
) -> Vec<LashingNumbers> {
    let pulls = pulls(cylinders);
    let mut numbers: Vec<LashingNumbers> = straps
        .all
        .iter()
        .map(|strap| {
            let shells = shells(strap, bodies);
            let run = run(strap, &shells);
            let legs: &[Leg] = run.as_ref().map_or(&[], |run| &run.legs);
            let points = [strap.points[0].at, strap.points[1].at];
            let steepest = legs
                .iter()
                .map(|leg| leg.below_horizontal_rad().abs().to_degrees())
                .fold(0.0, f64::max);
            LashingNumbers {
                lashing: strap.id.clone(),
                shut: strap.shut,
                round: strap.round.clone(),
                pull_n: pulls.get(&strap.id).copied().unwrap_or(0.0),
                capacity_n: strap.msl_n.map(calculation_strength_n),
                steepest_leg_deg: steepest,
                length_m: girth::lengths_m(&shells, strap.height_m, points).ok(),
                legs: legs.iter().map(drawn).collect(),
            }
        })
        .collect();
    numbers.sort_by(|a, b| a.lashing.cmp(&b.lashing));
    numbers
}

/// For each lashing the sum of what its cylinders ask of it: they lean on each other and go together.
fn pulls(cylinders: &[CylinderNumbers]) -> BTreeMap<&Id, f64> {
    let mut pulls = BTreeMap::new();
    for hold in cylinders.iter().flat_map(|cylinder| &cylinder.lashings) {
        *pulls.entry(&hold.lashing).or_insert(0.0) += hold.pull_n;
    }
    pulls
}

/// All numbers of the points in use, in the order of their names.
pub(super) fn points(
    straps: &Straps,
    bodies: &[Body],
    cylinders: &[CylinderNumbers],
) -> Vec<PointNumbers> {
    let pulls = pulls(cylinders);
    let mut numbers: BTreeMap<Id, PointNumbers> = BTreeMap::new();
    for strap in straps.all.iter().filter(|strap| strap.counts()) {
        let Some(run) = run(strap, &shells(strap, bodies)) else {
            continue;
        };
        let pull_n = pulls.get(&strap.id).copied().unwrap_or(0.0);
        for (leg, point) in run.legs.iter().zip(&strap.points) {
            let capacity_n = point.strength_n(leg).map(calculation_strength_n);
            let entry = numbers
                .entry(point.id.clone())
                .or_insert_with(|| PointNumbers {
                    point: point.id.clone(),
                    lashings: Vec::new(),
                    pull_n: 0.0,
                    capacity_n,
                });
            if !entry.lashings.contains(&strap.id) {
                entry.lashings.push(strap.id.clone());
            }
            entry.pull_n += pull_n;
            entry.capacity_n = match (entry.capacity_n, capacity_n) {
                (Some(a), Some(b)) => Some(a.min(b)),
                _ => None,
            };
        }
    }
    let mut numbers: Vec<PointNumbers> = numbers.into_values().collect();
    for point in &mut numbers {
        point.lashings.sort();
    }
    numbers
}
