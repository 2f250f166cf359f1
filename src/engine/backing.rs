//! What cylinders push on the fixtures that back them, and all that lean on one of them together.

use std::collections::BTreeMap;

use super::hold::{HeldBy, Wall, newtons};
use super::limits::Prepared;
use super::numbers::{BackingNumbers, BackingPush, CylinderNumbers};
use super::ways::Judge;
use super::words;
use crate::geometry::{Vec2, vec2};
use crate::layout::{Boat, Id};
use crate::mechanics::equilibrium::{self, Holding, Sought};
use crate::mechanics::lying::LyingForce;
use crate::mechanics::motion::{Force, LoadCase};
use crate::mechanics::vector::vec3;

/// What one cylinder pushes on each fixture that backs it, load case by load case.
pub(super) fn pushes(judge: &Judge<'_>, prepared: &Prepared) -> Vec<BackingPush> {
    let Judge { body, hold, .. } = judge;
    let forces = || judge.forces(prepared).iter();
    let mut all = Vec::new();
    if let Some(lying) = &body.lying {
        let axis = Vec2::from_angle(lying.axis_rad);
        // Across the axis the whole row pushes, along it each by itself.
        let row_kg = hold.row.as_ref().map_or(body.mass_kg, |row| row.mass_kg);
        let sides = [axis.perp(), -axis.perp(), axis, -axis];
        for (wall, towards) in hold.walls.iter().zip(sides) {
            let (Wall::Known(fixture, _) | Wall::NotKnown(fixture)) = wall else {
                continue;
            };
            let push = |(_, force): &(LoadCase, Force)| {
                let own = LyingForce::new(force, lying.axis_rad);
                let push = row_kg * own.across * axis.perp() + body.mass_kg * own.along * axis;
                push.dot(towards).max(0.0)
            };
            all.push(BackingPush {
                fixture: fixture.clone(),
                towards: [towards.x, towards.y],
                by_case_n: forces().map(push).collect(),
            });
        }
        return all;
    }
    if hold.slot.is_some() || hold.hangs_by.is_some() {
        return all;
    }
    let sought: Vec<usize> = (0..hold.points.len())
        .filter(|index| matches!(hold.points[*index].0, HeldBy::Backing(_)))
        .collect();
    if sought.is_empty() {
        return all;
    }
    let needed: Vec<Option<f64>> = forces()
        .map(|(_, force)| needed_n(judge, force, &sought))
        .collect();
    for point in sought {
        let (HeldBy::Backing(fixture), _) = &hold.points[point] else {
            continue;
        };
        let on_point = |index: &usize| hold.restraints[*index].point == Some(point);
        let Some(index) = (0..hold.restraints.len()).find(on_point) else {
            continue;
        };
        let towards = -hold.restraints[index].pull.horizontal();
        let push = |((_, force), needed): (&(LoadCase, Force), &Option<f64>)| {
            // What goes whatever the fixture takes leans on it with all that points at it.
            needed.unwrap_or_else(|| body.mass_kg * force.along_deck().dot(towards).max(0.0))
        };
        all.push(BackingPush {
            fixture: fixture.clone(),
            towards: [towards.x, towards.y],
            by_case_n: forces().zip(&needed).map(push).collect(),
        });
    }
    all
}

/// The least equal strength of all that backs a body with which it stays, in newtons; `None` where none is
/// enough.
fn needed_n(judge: &Judge<'_>, force: &Force, points: &[usize]) -> Option<f64> {
    let (body, holding) = judge.analysis();
    let load = judge.load(force);
    if equilibrium::holds(&body, &Holding::default(), &load) {
        return Some(0.0);
    }
    let mut restraints = holding.restraints.to_vec();
    let mut capacities = holding.point_capacities_n.to_vec();
    for &point in points {
        capacities[point] = f64::INFINITY;
        for restraint in restraints
            .iter_mut()
            .filter(|item| item.point == Some(point))
        {
            restraint.capacity_n = f64::INFINITY;
        }
    }
    let open = Holding {
        restraints: &restraints,
        point_capacities_n: &capacities,
        ..holding
    };
    let sought = Sought {
        restraints: &[],
        points,
    };
    equilibrium::least_capacity(&body, &open, &load, &sought)
}

/// What leans on one fixture: who, and the sum of the pushes case by case.
struct Leaning {
    behind: Vec<Id>,
    by_case: Vec<Vec2>,
}

/// All that lean on each fixture together, in the order of the fixtures' names. Pushes add up as vectors, so
/// those on opposite sides of a fixture do not.
pub(super) fn backings(
    boat: &Boat,
    cylinders: &[CylinderNumbers],
    prepared: &Prepared,
) -> Vec<BackingNumbers> {
    let mut all: BTreeMap<&Id, Leaning> = BTreeMap::new();
    for cylinder in cylinders {
        for push in &cylinder.backing_pushes {
            let leaning = all.entry(&push.fixture).or_insert_with(|| Leaning {
                behind: Vec::new(),
                by_case: vec![Vec2::ZERO; push.by_case_n.len()],
            });
            if push.by_case_n.iter().any(|newtons| *newtons > 0.0) {
                leaning.behind.push(cylinder.cylinder.clone());
            }
            let towards = vec2(push.towards[0], push.towards[1]);
            for (sum, newtons) in leaning.by_case.iter_mut().zip(&push.by_case_n) {
                *sum += *newtons * towards;
            }
        }
    }
    let cases: Vec<LoadCase> = (prepared.cases.forces(vec3(0.0, 0.0, 0.0)))
        .map(|(case, _)| case)
        .collect();
    all.into_iter()
        .filter_map(|(fixture, mut leaning)| {
            let worst = (leaning.by_case.iter().zip(&cases))
                .max_by(|a, b| a.0.length().total_cmp(&b.0.length()))?;
            leaning.behind.sort();
            leaning.behind.dedup();
            Some(BackingNumbers {
                fixture: fixture.clone(),
                behind: leaning.behind,
                push_n: worst.0.length(),
                towards_deg: worst.0.angle().to_degrees(),
                case: words::case(worst.1),
                strength_n: boat.fixture(fixture)?.backing_kn.and_then(newtons),
            })
        })
        .collect()
}
