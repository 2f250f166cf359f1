//! The directions in which a cylinder goes.

use super::FallInput;
use crate::engine::hold::HeldBy;
use crate::geometry::Vec2;
use crate::mechanics::motion::{Force, LoadCase};

/// A direction of fall with the load case that brings it about.
#[derive(Copy, Clone, Debug)]
pub(super) struct Heading {
    /// Of length one.
    pub(super) towards: Vec2,
    /// Where the deck is lowest, of length one.
    pub(super) downhill: Vec2,
    /// Held by nothing; infinite for what cannot stand.
    pub(super) utilisation: f64,
    pub(super) case: LoadCase,
    /// By how much the force along the deck must be grown for it to go; 1 where it goes.
    pub(super) grown: f64,
}

/// Directions nearer to each other than this are one: each is spread by 30° to both sides anyway.
const SAME_DIRECTION_COS: f64 = 0.866;

/// Utilisations that differ by less are equal, so that a mirror does not choose a side.
const SAME_UTILISATION: f64 = 1e-9;

/// A wall leaves less than this of a direction: there is no way to fall.
const SHUT: f64 = 0.05;

impl Heading {
    /// Are both as ready to go?
    fn ties(&self, other: &Self) -> bool {
        let (a, b) = (self.utilisation, other.utilisation);
        (a - b).abs() <= 2.0 * SAME_UTILISATION || (a.is_infinite() && b.is_infinite())
    }

    /// A force of its load case, as it is when the cylinder goes.
    pub(super) fn grown(&self, force: Force) -> Force {
        let mut force = force;
        force.f.x *= self.grown;
        force.f.y *= self.grown;
        force.roll_acceleration *= self.grown;
        force.pitch_acceleration *= self.grown;
        force.turning = self.grown * force.turning;
        force
    }
}

/// The clearly different directions in which the cylinder goes, the readiest first; for one that goes
/// in no load case, the readiest alone (both, where two are equal). None where nothing pushes it, or
/// only against what backs it.
pub(super) fn headings(input: FallInput<'_>, number: usize) -> Vec<Heading> {
    let body = &input.bodies[number];
    let shut = shut_sides(input, number);
    let standing = body.upright();
    let mut all: Vec<Heading> = (input.cases.forces(body.cg))
        .filter_map(|(case, force)| {
            let moment = force.tipping(standing.centre_height_m, standing.kappa2_m2);
            let towards = open_part(moment.normalized()?, &shut)?;
            let resisting = force.a_n() * body.base.ray(towards);
            let utilisation = if resisting > 0.0 {
                moment.dot(towards) / resisting
            } else {
                f64::INFINITY
            };
            Some(Heading {
                towards,
                downhill: force.along_deck().normalized().unwrap_or(towards),
                utilisation,
                case,
                grown: (1.0 / utilisation).max(1.0),
            })
        })
        .collect();
    let angle = |heading: &Heading| heading.towards.angle();
    all.sort_by(|a, b| {
        let steps = |value: f64| (value / SAME_UTILISATION).round();
        steps(b.utilisation)
            .total_cmp(&steps(a.utilisation))
            .then_with(|| angle(a).abs().total_cmp(&angle(b).abs()))
            .then_with(|| angle(a).total_cmp(&angle(b)))
    });
    let mut kept: Vec<Heading> = Vec::new();
    for heading in all {
        let readiest = kept.first().unwrap_or(&heading);
        if heading.utilisation < 1.0 && !heading.ties(readiest) {
            break;
        }
        let covers = |other: &Heading| {
            // Of two that mirror each other neither covers the other.
            let mirrors = heading.ties(other)
                && (angle(&heading) + angle(other)).abs() < SAME_UTILISATION
                && angle(&heading) != 0.0;
            heading.towards.dot(other.towards) > SAME_DIRECTION_COS && !mirrors
        };
        if !kept.iter().any(covers) {
            kept.push(heading);
        }
    }
    kept
}

/// Unit vectors towards what stands behind the cylinder: fixtures, the back rail and dividers of a
/// rack that is open in front.
fn shut_sides(input: FallInput<'_>, number: usize) -> Vec<Vec2> {
    let hold = &input.holds[number];
    (hold.restraints.iter().zip(&hold.held_by))
        .filter(|(_, by)| matches!(by, HeldBy::Backing(_) | HeldBy::Rack(_)))
        .filter_map(|(restraint, _)| (-restraint.pull.horizontal()).normalized())
        .collect()
}

/// What is left of a direction between walls: it slides along them.
fn open_part(wanted: Vec2, shut: &[Vec2]) -> Option<Vec2> {
    let mut open = wanted;
    for side in shut {
        let into = open.dot(*side);
        if into > 0.0 {
            open -= into * *side;
        }
    }
    let still_into = shut.iter().any(|side| open.dot(*side) > SHUT);
    if open.length() <= SHUT || still_into {
        return None;
    }
    open.normalized()
}
