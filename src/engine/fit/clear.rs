//! What is in the way of lids, doors, clear floor and the floor that a place needs.

use std::collections::BTreeSet;
use std::f64::consts::PI;

use super::TOUCHING_M;
use super::grounds::{Grounds, Item, What};
use crate::engine::hindrance::{Hindrance, OVERHEAD_M};
use crate::engine::numbers::{FitKind, FitNumbers, FitThing, ThingSort};
use crate::geometry::{Outline, Shape, Vec2, middle_of_nearest, overhang, rectangle, separation};
use crate::layout::{Fixture, Place};

/// Into how many directions a floor that a place needs is turned to see whether it fits: 15° apart.
const TURNS: u32 = 12;

/// Everything in the way of what must open or stay clear.
pub(super) fn find(grounds: &Grounds<'_>, found: &mut Vec<FitNumbers>) {
    for fixture_item in &grounds.items {
        let What::Fixture(fixture) = fixture_item.what else {
            continue;
        };
        if fixture.must_stay_open.contains(&grounds.condition) {
            covering(grounds, fixture_item, found);
            if let Some(swept) = swept_by_lid(fixture) {
                under_lid(grounds, fixture_item, &swept, found);
            }
        }
        if let Some(depth_m) = fixture.clear_floor_m.filter(|depth| *depth > 0.0) {
            clear_floor(grounds, fixture_item, fixture, depth_m, found);
        }
    }
    for place in &grounds.boat.places {
        if let (Some(floor), true) = (place.floor_m, place.deck == grounds.deck.deck) {
            place_floor(grounds, place, floor, found);
        }
    }
}

/// The racks among these items; a cylinder in one of them need not be told apart.
fn racks_among(items: &[(&Item<'_>, f64, Vec2)]) -> BTreeSet<String> {
    (items.iter())
        .filter(|(item, ..)| item.thing.sort == ThingSort::Rack)
        .map(|(item, ..)| item.id().to_owned())
        .collect()
}

/// The stowage that overlaps an area and is not overhead: item, depth, where.
fn stowage_on<'g, 'a>(grounds: &'g Grounds<'a>, area: &Shape) -> Vec<(&'g Item<'a>, f64, Vec2)> {
    let on: Vec<_> = (grounds.near(area, 0.0))
        .filter(|(_, item)| {
            !item.thing.of_boat
                && item.thing.sort != ThingSort::Person
                && item.thing.from_m < OVERHEAD_M
        })
        .filter_map(|(_, item)| {
            let apart = separation(&item.thing.shape, area);
            (apart.depth_m > TOUCHING_M).then_some((item, apart.depth_m, apart.a))
        })
        .collect();
    let racks = racks_among(&on);
    on.into_iter()
        .filter(|(item, ..)| Grounds::rack_of(item).is_none_or(|rack| !racks.contains(rack)))
        .collect()
}

fn covering(grounds: &Grounds<'_>, fixture: &Item<'_>, found: &mut Vec<FitNumbers>) {
    for (item, depth_m, at) in stowage_on(grounds, fixture.hard) {
        found.push(FitNumbers {
            shift_m: Some(separation(&item.thing.shape, fixture.hard).shift().into()),
            ..grounds.note(FitKind::Covers, [item, fixture], at, depth_m)
        });
    }
}

fn swept_by_lid(fixture: &Fixture) -> Option<Shape> {
    let corners = fixture.opens_over.iter().map(|p| Vec2::from(*p)).collect();
    Outline::new(corners).ok().map(Shape::Polygon)
}

fn under_lid(
    grounds: &Grounds<'_>,
    fixture: &Item<'_>,
    swept: &Shape,
    found: &mut Vec<FitNumbers>,
) {
    for (item, depth_m, at) in stowage_on(grounds, swept) {
        // A lid passes over what is flat.
        if Hindrance::of(item.thing) == Hindrance::None {
            continue;
        }
        found.push(FitNumbers {
            shift_m: Some(separation(&item.thing.shape, swept).shift().into()),
            ..grounds.note(FitKind::UnderLid, [item, fixture], at, depth_m)
        });
    }
}

/// Is it something that somebody cannot stand on, on the floor beside the fixture?
fn takes_floor(item: &Item<'_>, fixture: &Item<'_>) -> bool {
    let on_top = item.thing.from_m >= fixture.thing.to_m - TOUCHING_M
        && separation(item.hard, fixture.hard).overlaps();
    item.thing.sort != ThingSort::Person
        && !std::ptr::eq(item.thing, fixture.thing)
        && matches!(Hindrance::of(item.thing), Hindrance::Low | Hindrance::Tall)
        && !on_top
}

fn clear_floor(
    grounds: &Grounds<'_>,
    fixture_item: &Item<'_>,
    fixture: &Fixture,
    depth_m: f64,
    found: &mut Vec<FitNumbers>,
) {
    let front = fixture
        .front_deg
        .and_then(|deg| in_front(fixture_item.hard, deg.to_radians(), depth_m));
    let area = front
        .as_ref()
        .map_or(fixture_item.hard, |front| &front.area);
    let margin = if front.is_some() { 0.0 } else { depth_m };
    let in_the_way: Vec<_> = (grounds.near(area, margin))
        .filter(|(_, item)| takes_floor(item, fixture_item))
        .filter_map(|(_, item)| {
            let shape = &item.thing.shape;
            let (left_m, at, shift) = if let Some(front) = &front {
                let apart = separation(shape, &front.area);
                let from_front = separation(shape, &front.edge);
                (apart.depth_m > TOUCHING_M).then(|| {
                    (
                        from_front.gap_m,
                        middle_of_nearest(shape, &front.edge),
                        apart.shift(),
                    )
                })?
            } else {
                let apart = separation(shape, fixture_item.hard);
                let missing = depth_m - apart.gap_m + apart.depth_m;
                (apart.gap_m < depth_m - TOUCHING_M).then(|| {
                    (
                        apart.gap_m,
                        middle_of_nearest(shape, fixture_item.hard),
                        missing * apart.away,
                    )
                })?
            };
            Some((item, left_m, at, shift))
        })
        .collect();
    let racks = racks_among(
        &(in_the_way.iter())
            .map(|(item, left_m, at, _)| (*item, *left_m, *at))
            .collect::<Vec<_>>(),
    );
    for (item, left_m, at, shift) in in_the_way {
        if Grounds::rack_of(item).is_some_and(|rack| racks.contains(rack)) {
            continue;
        }
        found.push(FitNumbers {
            wanted_m: depth_m,
            shift_m: (!item.thing.of_boat).then(|| shift.into()),
            ..grounds.note(FitKind::ClearFloor, [item, fixture_item], at, left_m)
        });
    }
}

/// The floor in front of something.
struct InFront {
    /// As wide as the thing and as deep as wanted, from its foremost point.
    area: Shape,
    /// The side of that area next to the thing.
    edge: Shape,
}

fn in_front(shape: &Shape, front_rad: f64, depth_m: f64) -> Option<InFront> {
    let ahead = Vec2::from_angle(front_rad);
    let aside = ahead.perp();
    let foremost = shape.support(ahead);
    let (left, right) = (shape.support(aside), -shape.support(-aside));
    let at = |forward: f64, sideways: f64| forward * ahead + sideways * aside;
    let middle = at(foremost + 0.5 * depth_m, 0.5 * (left + right));
    Some(InFront {
        area: rectangle(middle, 0.5 * depth_m, 0.5 * (left - right), front_rad).ok()?,
        edge: Shape::line(at(foremost, right), at(foremost, left)),
    })
}

/// One way of turning the floor that a place needs.
struct Turn<'g, 'a> {
    area: Shape,
    fits_boat: bool,
    stowage: Vec<(&'g Item<'a>, f64, Vec2)>,
    boat: Vec<(&'g Item<'a>, f64, Vec2)>,
}

/// What is on the floor that a place needs, if it is turned to where the least has to be moved.
fn place_floor(
    grounds: &Grounds<'_>,
    place: &Place,
    [length_m, width_m]: [f64; 2],
    found: &mut Vec<FitNumbers>,
) {
    let turns = (0..TURNS).filter_map(|turn| {
        let angle = PI * f64::from(turn) / f64::from(TURNS);
        let area = rectangle(place.at.into(), 0.5 * length_m, 0.5 * width_m, angle).ok()?;
        let floor = grounds.deck.floor.as_ref()?;
        let hindering = |of_boat: bool| -> Vec<_> {
            (grounds.near(&area, 0.0))
                .filter(|(_, item)| {
                    item.thing.of_boat == of_boat
                        && item.thing.sort != ThingSort::Person
                        && matches!(Hindrance::of(item.thing), Hindrance::Low | Hindrance::Tall)
                })
                .filter_map(|(_, item)| {
                    let apart = separation(&item.thing.shape, &area);
                    (apart.depth_m > TOUCHING_M).then_some((item, apart.depth_m, apart.a))
                })
                .collect()
        };
        let (boat, stowage) = (hindering(true), hindering(false));
        let fits_boat = boat.is_empty() && overhang(&area, floor).out_m <= TOUCHING_M;
        Some(Turn {
            area,
            fits_boat,
            stowage,
            boat,
        })
    });
    let turns: Vec<_> = turns.collect();
    let boat_has_room = turns.iter().any(|turn| turn.fits_boat);
    let deepest = |hindering: &[(&Item<'_>, f64, Vec2)]| {
        hindering
            .iter()
            .map(|(_, depth, _)| *depth)
            .fold(0.0, f64::max)
    };
    let best = (turns.into_iter())
        .filter(|turn| turn.fits_boat || !boat_has_room)
        .min_by(|a, b| {
            let effort = |turn: &Turn<'_, '_>| {
                let hindering = if boat_has_room {
                    &turn.stowage
                } else {
                    &turn.boat
                };
                deepest(hindering)
            };
            effort(a).total_cmp(&effort(b))
        });
    let Some(turn) = best else { return };
    let racks = racks_among(&turn.stowage);
    for (item, depth_m, at) in turn.stowage.iter().chain(&turn.boat) {
        if Grounds::rack_of(item).is_some_and(|rack| racks.contains(rack)) {
            continue;
        }
        let shift = separation(&item.thing.shape, &turn.area).shift();
        let mut note = grounds.note(FitKind::PlaceFloor, [item, item], *at, *depth_m);
        note.things[1] = FitThing {
            kind: ThingSort::Place,
            id: place.id.clone(),
        };
        note.shift_m = (!item.thing.of_boat).then(|| shift.into());
        found.push(note);
    }
}
