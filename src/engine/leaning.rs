//! Several on one fixture: what each of them may lean on it with.
//!
//! A fixture that backs cylinders takes what all of them push it with together. Nobody knows how they share
//! it, so each counts on the part that goes with its mass among all that lean on the fixture towards the same
//! side, whether they push hard or not. Where each stays within its share, all of them together stay within
//! the strength.

use std::collections::BTreeMap;

use super::body::Body;
use super::hold::{HeldBy, Hold, Wall};
use crate::geometry::Vec2;
use crate::layout::Id;

/// Where in its hold a body leans on a fixture.
#[derive(Copy, Clone, Debug)]
enum Place {
    /// A shared point of the limit analysis.
    Point(usize),
    /// A side or end of a lying body.
    Wall(usize),
}

/// One body on one fixture.
#[derive(Copy, Clone, Debug)]
struct Leaning {
    body: usize,
    place: Place,
    towards: Vec2,
    /// What pushes: the body, or the whole row that ends at the fixture.
    mass_kg: f64,
}

/// Gives each body its share of the strength of what it leans on. `holds` have the rows in them already.
pub(super) fn share_out(bodies: &[Body], holds: &mut [Hold]) {
    let mut by_fixture: BTreeMap<Id, Vec<Leaning>> = BTreeMap::new();
    for (index, (body, hold)) in bodies.iter().zip(holds.iter()).enumerate() {
        for (fixture, leaning) in leanings(index, body, hold) {
            by_fixture.entry(fixture.clone()).or_default().push(leaning);
        }
    }
    for group in by_fixture.values().filter(|group| group.len() > 1) {
        for leaning in group {
            let beside = group
                .iter()
                .filter(|other| other.towards.dot(leaning.towards) > 0.0);
            let together_kg: f64 = beside.map(|other| other.mass_kg).sum();
            cut(
                &mut holds[leaning.body],
                leaning.place,
                leaning.mass_kg / together_kg,
            );
        }
    }
}

/// What one body leans on. In a closed slot, or hanging, it leans on nothing.
fn leanings<'h>(index: usize, body: &Body, hold: &'h Hold) -> Vec<(&'h Id, Leaning)> {
    if hold.slot.is_some() || hold.hangs_by.is_some() {
        return Vec::new();
    }
    let leaning = |place: Place, towards: Vec2, mass_kg: f64| Leaning {
        body: index,
        place,
        towards,
        mass_kg,
    };
    if let Some(lying) = &body.lying {
        let axis = Vec2::from_angle(lying.axis_rad);
        let row_kg = hold.row.as_ref().map_or(body.mass_kg, |row| row.mass_kg);
        let sides = [
            (axis.perp(), row_kg),
            (-axis.perp(), row_kg),
            (axis, body.mass_kg),
            (-axis, body.mass_kg),
        ];
        let walls = hold.walls.iter().zip(sides).enumerate();
        return walls
            .filter_map(|(side, (wall, (towards, mass_kg)))| match wall {
                Wall::Known(fixture, _) => {
                    Some((fixture, leaning(Place::Wall(side), towards, mass_kg)))
                }
                Wall::Open | Wall::NotKnown(_) => None,
            })
            .collect();
    }
    let points = hold.points.iter().enumerate();
    points
        .filter_map(|(point, (held_by, known))| {
            let HeldBy::Backing(fixture) = held_by else {
                return None;
            };
            let mut pushes = hold.restraints.iter();
            let push = pushes.find(|push| push.point == Some(point))?;
            let towards = -push.pull.horizontal();
            known.then(|| (fixture, leaning(Place::Point(point), towards, body.mass_kg)))
        })
        .collect()
}

fn cut(hold: &mut Hold, place: Place, share: f64) {
    match place {
        Place::Wall(side) => {
            if let Wall::Known(_, strength_n) = &mut hold.walls[side] {
                *strength_n *= share;
            }
        }
        Place::Point(point) => {
            hold.point_capacities_n[point] *= share;
            let pushes = hold.restraints.iter_mut();
            for push in pushes.filter(|push| push.point == Some(point)) {
                push.capacity_n *= share;
            }
        }
    }
}
