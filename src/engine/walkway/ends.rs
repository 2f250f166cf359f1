//! From where on the floor a place is reached.

use super::tags::Tagged;
use crate::geometry::clear_width::{End, Place, PlaceError};
use crate::geometry::{Segment, Shape, Tag, Vec2, Walls, Zone};

/// Getting off a seat, somebody steps over its nearest edge, or over one that is hardly further
/// away. Common practice, no source.
const HARDLY_FURTHER_M: f64 = 0.05;

/// A place in the middle of a fixture further from its edge than this is not reached over that
/// edge: more than a long step. Common practice, no source.
const STEP_OFF_M: f64 = 1.0;

/// Why a place cannot be reached.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Shut {
    /// What lies on it or round it.
    pub(super) by: Tag,
    /// Where that is nearest to the place.
    pub(super) at: Vec2,
}

/// The floor next to a place.
///
/// A place on the edge of the deck or free on it is a zone. A seat lies in a fixture that may be a
/// wall: it is reached from the floor beside that fixture. A place off the deck (a seat on a tube) is
/// reached from the nearest edge. Where stowage covers a place, as much of the zone as is left
/// counts.
pub(super) fn reach(
    walls: &Walls,
    tagged: &[Tagged<'_>],
    at: Vec2,
    end: End,
) -> Result<Place, Shut> {
    let nearest = || {
        let clearance = walls.clearance(at);
        Shut {
            by: clearance.tag,
            at: clearance.at,
        }
    };
    match walls.place(Zone::around(at), end) {
        Ok(place) => Ok(place),
        Err(PlaceError::NoFloor { .. }) => Err(nearest()),
        Err(PlaceError::OffFloor { .. }) => {
            let edge = walls.floor().nearest_on_edge(at);
            if edge.distance_m > Zone::RADIUS_M {
                return Err(Shut { by: 0, at: edge.b });
            }
            walls
                .place(Zone::around(edge.b), end)
                .map_err(|_refused| nearest())
        }
        Err(PlaceError::Inside { tag, .. }) => {
            let shut = Shut { by: tag, at };
            let Some(thing) = tagged.iter().find(|thing| thing.tag == tag) else {
                return Err(shut);
            };
            beside(walls, thing, at, end).ok_or(shut)
        }
    }
}

/// The roomiest floor beside a thing, among that which is next to a point in it.
fn beside(walls: &Walls, thing: &Tagged<'_>, at: Vec2, end: End) -> Option<Place> {
    let mut found: Option<(f64, Place)> = None;
    for (distance_m, rim) in rim_points(&thing.shape, at) {
        let radius_m = if thing.of_boat {
            Zone::RADIUS_M
        } else {
            Zone::RADIUS_M - distance_m
        };
        let nearest = found.as_ref().map_or(distance_m, |(nearest, _)| *nearest);
        if radius_m <= 0.0 || distance_m > (nearest + HARDLY_FURTHER_M).min(STEP_OFF_M) {
            break;
        }
        let Ok(place) = walls.place(Zone { at: rim, radius_m }, end) else {
            continue;
        };
        match &mut found {
            Some((_, best)) if best.room_m() >= place.room_m() => {}
            Some((_, best)) => *best = place,
            None => found = Some((distance_m, place)),
        }
    }
    found.map(|(_, place)| place)
}

/// The points of the edges of a shape nearest to a point in it, the nearest first.
fn rim_points(shape: &Shape, at: Vec2) -> Vec<(f64, Vec2)> {
    /// A quarter of a turn: a round thing is left to any of four sides.
    const STEP_RAD: f64 = std::f64::consts::FRAC_PI_2;
    let corners = match shape {
        Shape::Disc { center, radius } => {
            return (0..4)
                .map(|quarter| {
                    let rim = *center + *radius * Vec2::from_angle(STEP_RAD * f64::from(quarter));
                    (at.distance(rim), rim)
                })
                .collect();
        }
        Shape::Stadium { .. } | Shape::Polygon(_) => shape.to_polygon(STEP_RAD).unwrap_or_default(),
    };
    let edges = (corners.iter())
        .zip(corners.iter().cycle().skip(1))
        .map(|(from, to)| Segment::new(*from, *to));
    let mut points: Vec<_> = edges
        .map(|edge| {
            let rim = edge.nearest_point(at);
            (at.distance(rim), rim)
        })
        .collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    points
}
