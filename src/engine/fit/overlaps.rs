//! Two things in the same place.

use super::TOUCHING_M;
use super::grounds::{Grounds, Item, What};
use crate::engine::numbers::{FitKind, FitNumbers};
use crate::geometry::{Shape, separation};
use crate::layout::{GearKind, Placing, RackKind};

/// Every pair that is deeper in each other than touching, unless that is meant.
pub(super) fn find(grounds: &Grounds<'_>, found: &mut Vec<FitNumbers>) {
    for (number, item) in grounds.items.iter().enumerate() {
        if item.thing.of_boat || item.gives_way() {
            continue;
        }
        for (other_number, other) in grounds.near(item.hard, -TOUCHING_M) {
            // Pairs of stowage once, from the later one.
            let seen = other_number >= number && !other.thing.of_boat;
            if seen || other.gives_way() || item.clears_in_height(other) {
                continue;
            }
            if is_meant(item, other) || is_meant(other, item) {
                continue;
            }
            let apart = separation(item.hard, other.hard);
            if apart.depth_m <= TOUCHING_M {
                continue;
            }
            let (moved, kept, shift) = if rank(item) <= rank(other) {
                (item, other, apart.shift())
            } else {
                (other, item, -apart.shift())
            };
            let same_rack = Grounds::rack_of(moved).is_some()
                && Grounds::rack_of(moved) == Grounds::rack_of(kept)
                && matches!(
                    moved.cylinder().map(|cylinder| &cylinder.placing),
                    Some(Placing::InSlot { .. })
                );
            found.push(FitNumbers {
                shift_m: (!same_rack).then(|| shift.into()),
                ..grounds.note(FitKind::Overlap, [moved, kept], apart.a, apart.depth_m)
            });
        }
    }
}

/// How readily something is moved: loose gear first, the boat never.
fn rank(item: &Item<'_>) -> u8 {
    match item.what {
        What::Gear(_) => 0,
        What::Cylinder(_) if Grounds::rack_of(item).is_none() => 1,
        What::Cylinder(_) => 2,
        What::Rack(_) => 3,
        What::Person | What::Fixture(_) => 4,
    }
}

/// Is the first meant to be in, on or upon the second?
fn is_meant(first: &Item<'_>, second: &Item<'_>) -> bool {
    match (first.what, second.what) {
        (What::Cylinder(cylinder), What::Cylinder(_)) => match &cylinder.placing {
            Placing::Lying { upon, .. } => upon.iter().any(|lower| lower == second.id()),
            _ => false,
        },
        (What::Cylinder(_), What::Rack(rack)) => Grounds::rack_of(first) == Some(&rack.id),
        (What::Cylinder(cylinder), What::Fixture(fixture)) => match &cylinder.placing {
            Placing::Standing { on, .. } | Placing::Lying { on, .. } => {
                on.as_ref() == Some(&fixture.id)
            }
            _ => false,
        },
        // What lies wholly in a box or crate, or on a fixture, was put there.
        (What::Gear(_), What::Gear(gear)) => {
            matches!(gear.kind, GearKind::Crate | GearKind::Bin) && lies_in(first.hard, second.hard)
        }
        (What::Gear(_), What::Rack(rack)) => {
            rack.kind == RackKind::Crate && lies_in(first.hard, second.hard)
        }
        (What::Gear(_), What::Fixture(_)) => lies_in(first.hard, second.hard),
        _ => false,
    }
}

/// Does the first lie within the second, as far as its bounds and its middle tell?
fn lies_in(first: &Shape, second: &Shape) -> bool {
    let (inner, outer) = (first.bounds(), second.bounds().grown(TOUCHING_M));
    outer.contains(inner.min) && outer.contains(inner.max) && second.contains(first.centroid())
}
