//! What lies under a point of the plan.

use super::super::here::{Here, at};
use super::super::moving::placing_point;
use super::super::things;
use crate::engine::numbers::ThingSort;
use crate::geometry::{Bounds, Segment, Shape, Vec2};
use crate::layout::{Lashing, ThingKind, ThingRef};

/// Everything under the point, the topmost and smallest first.
pub(crate) fn all(here: &Here<'_>, point: Vec2, reach_m: f64) -> Vec<ThingRef> {
    let mut met = Vec::new();
    let boat = &here.plan.boat;
    let near = |target: [f64; 2]| at(target).distance(point) <= reach_m;
    for item in boat.lashing_points.iter().rev() {
        if item.deck == here.deck && near(item.at) {
            met.push(things::reference(ThingKind::LashingPoint, &item.id));
        }
    }
    // A place is a mark that stands on others, so only its middle counts.
    let places = boat.places.iter().rev();
    met.extend(
        places
            .filter(|item| item.deck == here.deck && near(item.at))
            .map(|item| things::reference(ThingKind::Place, &item.id)),
    );
    let bodies = [ThingSort::Person, ThingSort::Cylinder, ThingSort::Gear];
    met.extend(
        bodies
            .into_iter()
            .flat_map(|sort| shapes(here, sort, point, reach_m)),
    );
    met.extend(lashings(here, point, reach_m));
    for sort in [ThingSort::Rack, ThingSort::Fixture] {
        met.extend(shapes(here, sort, point, reach_m));
    }
    for item in boat.walkways.iter().rev() {
        let line: Vec<Vec2> = item.line.iter().map(|p| at(*p)).collect();
        if item.deck == here.deck && distance_to_line(&line, point) <= reach_m {
            met.push(things::reference(ThingKind::Walkway, &item.id));
        }
    }
    met
}

/// The things of a sort whose shape covers the point, the last drawn first; thin ones count when
/// near.
fn shapes(here: &Here<'_>, sort: ThingSort, point: Vec2, reach_m: f64) -> Vec<ThingRef> {
    let Some(deck) = here.deck_scene() else {
        return Vec::new();
    };
    let met = deck.things.iter().rev().filter(|thing| {
        thing.sort == sort
            && thing.shape.bounds().grown(reach_m).contains(point)
            && (thing.shape.contains(point) || is_thin(&thing.shape, point, reach_m))
    });
    met.map(|thing| thing.thing.clone()).collect()
}

fn is_thin(shape: &Shape, point: Vec2, reach_m: f64) -> bool {
    match shape {
        Shape::Disc { center, radius } => *radius < reach_m && center.distance(point) <= reach_m,
        Shape::Stadium { from, to, radius } => {
            *radius < reach_m && Segment::new(*from, *to).distance(point) <= reach_m
        }
        Shape::Polygon(outline) => {
            let size = outline.bounds().size();
            size.x.min(size.y) < reach_m && outline.distance_to_edge(point) <= reach_m
        }
    }
}

fn lashings(here: &Here<'_>, point: Vec2, reach_m: f64) -> Vec<ThingRef> {
    let states = here.day.lashings.iter().rev();
    let met = states.filter(|state| {
        lashing_line(here, &state.lashing)
            .is_some_and(|line| distance_to_line(&line, point) <= 0.7 * reach_m)
    });
    met.map(|state| things::reference(ThingKind::Lashing, &state.lashing.id))
        .collect()
}

/// The run of a lashing on the plan: point, cylinders, point; `None` if it is not on this deck.
pub(crate) fn lashing_line(here: &Here<'_>, lashing: &Lashing) -> Option<Vec<Vec2>> {
    let boat = &here.plan.boat;
    let from = boat.lashing_point(&lashing.from)?;
    let to = boat.lashing_point(&lashing.to)?;
    if from.deck != here.deck && to.deck != here.deck {
        return None;
    }
    let mut line = vec![at(from.at)];
    for id in &lashing.round {
        let cylinder = here.day.cylinder(id)?;
        if cylinder.placing.is_aboard() {
            line.extend(placing_point(here.plan, &cylinder.placing));
        }
    }
    line.push(at(to.at));
    Some(line)
}

/// How far the point is from the nearest part of a line.
pub(crate) fn distance_to_line(line: &[Vec2], point: Vec2) -> f64 {
    line.windows(2)
        .map(|pair| Segment::new(pair[0], pair[1]).distance(point))
        .fold(f64::INFINITY, f64::min)
}

/// Is the point on the floor of the deck shown?
pub(crate) fn on_floor(here: &Here<'_>, point: Vec2) -> bool {
    let floor = here.deck_scene().and_then(|deck| deck.floor.as_ref());
    floor.is_some_and(|floor| floor.contains(point))
}

/// All movable things of the deck shown whose middle lies within the band.
pub(crate) fn inside(here: &Here<'_>, band: &Bounds) -> Vec<ThingRef> {
    let mut found = Vec::new();
    if let Some(deck) = here.deck_scene() {
        let bodies = deck.things.iter().filter(|thing| {
            !matches!(thing.sort, ThingSort::Fixture | ThingSort::Edge)
                && band.contains(thing.shape.centroid())
        });
        found.extend(bodies.map(|thing| thing.thing.clone()));
    }
    let points = here.plan.boat.lashing_points.iter();
    found.extend(
        points
            .filter(|item| item.deck == here.deck && band.contains(at(item.at)))
            .map(|item| things::reference(ThingKind::LashingPoint, &item.id)),
    );
    found
}

/// Where a thing is, to bring it into the middle of the window.
pub(crate) fn bounds(here: &Here<'_>, what: &ThingRef) -> Option<Bounds> {
    let boat = &here.plan.boat;
    let around = |point: [f64; 2]| Bounds::of([at(point)]).grown(0.3);
    match what.kind {
        ThingKind::LashingPoint => Some(around(boat.lashing_point(&what.id)?.at)),
        ThingKind::Place => Some(around(boat.place(&what.id)?.at)),
        ThingKind::Walkway => {
            let line = &boat.walkway(&what.id)?.line;
            Some(Bounds::of(line.iter().map(|p| at(*p))))
        }
        ThingKind::Lashing => {
            let lashing = here.trip.lashing(&what.id)?;
            Some(Bounds::of(lashing_line(here, lashing)?))
        }
        ThingKind::Deck => {
            let deck = here.scene.deck(&what.id)?;
            deck.floor.as_ref().map(crate::geometry::Region::bounds)
        }
        _ => here
            .scene
            .thing(what)
            .map(|(_, thing)| thing.shape.bounds()),
    }
}

/// The deck that a thing is on.
pub(crate) fn deck_of(here: &Here<'_>, what: &ThingRef) -> Option<String> {
    let boat = &here.plan.boat;
    match what.kind {
        ThingKind::LashingPoint => boat.lashing_point(&what.id).map(|item| item.deck.clone()),
        ThingKind::Place => boat.place(&what.id).map(|item| item.deck.clone()),
        ThingKind::Walkway => boat.walkway(&what.id).map(|item| item.deck.clone()),
        ThingKind::Lashing => {
            let lashing = here.trip.lashing(&what.id)?;
            boat.lashing_point(&lashing.from)
                .map(|item| item.deck.clone())
        }
        ThingKind::Deck => Some(what.id.clone()),
        _ => here.scene.thing(what).map(|(deck, _)| deck.deck.clone()),
    }
}
