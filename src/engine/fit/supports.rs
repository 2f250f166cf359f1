//! What sticks out over the edge of what it stands on or in.

use super::TOUCHING_M;
use super::grounds::{Grounds, Item, What};
use crate::engine::numbers::{FitKind, FitNumbers, FitThing, ThingSort};
use crate::geometry::{Region, Shape, overhang};
use crate::layout::{GearShape, Placing};

/// A cylinder may lie across a narrow bench as long as this share of its length about its middle is
/// on it. Common practice, no source.
const LIES_ON: f64 = 0.5;

/// Everything that is not wholly on what it is on.
pub(super) fn find(grounds: &Grounds<'_>, found: &mut Vec<FitNumbers>) {
    for item in &grounds.items {
        match item.what {
            What::Cylinder(cylinder) => match &cylinder.placing {
                Placing::Standing { on: Some(on), .. } => off(grounds, item, on, item.hard, found),
                Placing::Lying { on: Some(on), .. } => {
                    off(grounds, item, on, &middle_part(item.hard), found);
                }
                Placing::InCrate { rack, .. } => off(grounds, item, rack, item.hard, found),
                Placing::Standing { .. }
                | Placing::Lying { .. }
                | Placing::UpsideDown { .. }
                | Placing::HeldByHand { .. }
                | Placing::Filling { .. } => off_deck(grounds, item, found),
                Placing::InSlot { .. }
                | Placing::Hanging { .. }
                | Placing::OnDiver { .. }
                | Placing::InWater
                | Placing::Ashore => {}
            },
            What::Rack(rack) => {
                let is_under = |other: &&Item<'_>| {
                    matches!(other.what, What::Fixture(_))
                        && other.thing.to_m <= rack.shelf_height_m + TOUCHING_M
                };
                let on_fixture = (grounds.near(item.hard, 0.0))
                    .map(|(_, other)| other)
                    .filter(is_under)
                    .any(|fixture| sticks_out(item.hard, fixture.hard).is_none());
                if !on_fixture {
                    off_deck(grounds, item, found);
                }
            }
            // A hose or line may lead over the side.
            What::Gear(gear) if !matches!(gear.floor, GearShape::Line { .. }) => {
                off_deck(grounds, item, found);
            }
            What::Gear(_) | What::Person | What::Fixture(_) => {}
        }
    }
}

fn off_deck(grounds: &Grounds<'_>, item: &Item<'_>, found: &mut Vec<FitNumbers>) {
    let Some(floor) = &grounds.deck.floor else {
        return;
    };
    let over = overhang(item.hard, floor);
    if over.out_m > TOUCHING_M {
        let mut note = grounds.note(
            FitKind::OffDeck,
            [item, item],
            item.hard.centroid(),
            over.out_m,
        );
        note.things[1] = FitThing {
            kind: ThingSort::Edge,
            id: grounds.deck.deck.clone(),
        };
        note.shift_m = over.shift.map(Into::into);
        found.push(note);
    }
}

/// Does the cylinder stick out of the fixture or crate with this name?
fn off(
    grounds: &Grounds<'_>,
    item: &Item<'_>,
    support: &str,
    shape: &Shape,
    found: &mut Vec<FitNumbers>,
) {
    let holds = |other: &&Item<'_>| {
        matches!(other.what, What::Fixture(_) | What::Rack(_)) && other.id() == support
    };
    // The bounds of what it stands on come near its own, unless it is off by far.
    let near = grounds.near(shape, 0.0).map(|(_, other)| other).find(holds);
    let Some(support) = near.or_else(|| grounds.items.iter().find(holds)) else {
        return;
    };
    if let Some((out_m, shift)) = sticks_out(shape, support.hard) {
        let at = shape.centroid();
        found.push(FitNumbers {
            shift_m: shift,
            ..grounds.note(FitKind::OffSupport, [item, support], at, out_m)
        });
    }
}

/// How far a shape sticks out of a polygon, and the shift that brings it in.
fn sticks_out(shape: &Shape, support: &Shape) -> Option<(f64, Option<[f64; 2]>)> {
    let Shape::Polygon(outline) = support else {
        return None;
    };
    let over = overhang(shape, &Region::from(outline.clone()));
    (over.out_m > TOUCHING_M).then(|| (over.out_m, over.shift.map(Into::into)))
}

/// The part of a lying body's axis that must be supported.
fn middle_part(shape: &Shape) -> Shape {
    match shape {
        Shape::Stadium { from, to, .. } => {
            let cut = 0.5 * (1.0 - LIES_ON);
            Shape::line(from.lerp(*to, cut), to.lerp(*from, cut))
        }
        other => other.clone(),
    }
}
