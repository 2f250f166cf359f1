//! Places as zones of floor, and the clearest point of each.

use super::walls::Piece;
use super::{End, Tag, Walls};
use crate::geometry::tolerances::{CLEAREST_M, ON_EDGE_M};
use crate::geometry::{Segment, Vec2};
use std::f64::consts::TAU;

/// A place where people are: the floor within a distance of a point, as far as it is connected
/// with the floor next to the point.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Zone {
    /// The point. It may lie on an edge of the floor or of an obstacle.
    pub at: Vec2,

    /// How far the zone reaches; 0 for the point alone.
    pub radius_m: f64,
}

impl Zone {
    /// How far a place reaches if nothing else is said: a person standing there covers a circle of
    /// about this radius. Common practice, no source.
    pub const RADIUS_M: f64 = 0.45;

    /// The floor within [`Self::RADIUS_M`] of a point.
    pub const fn around(at: Vec2) -> Self {
        Self {
            at,
            radius_m: Self::RADIUS_M,
        }
    }

    /// The point alone.
    pub const fn point(at: Vec2) -> Self {
        Self { at, radius_m: 0.0 }
    }
}

/// A zone whose clearest points on certain [`Walls`] have been found.
#[derive(Clone, Debug, PartialEq)]
pub struct Place {
    /// Not empty; the clearest first.
    pub(super) spots: Vec<Spot>,
}

impl Place {
    /// The clearest point of the zone.
    pub fn at(&self) -> Vec2 {
        self.spots[0].at
    }

    /// The diameter of the largest disc whose centre can be in the zone.
    pub fn room_m(&self) -> f64 {
        2.0 * self.spots[0].distance_m
    }
}

/// Why a place is no place on certain walls.
#[derive(Copy, Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceError {
    /// It is not on the floor.
    #[error("the place is not on the floor")]
    OffFloor {
        /// Which end of the way.
        end: End,
    },

    /// It is inside an obstacle.
    #[error("the place is inside an obstacle (number {tag})")]
    Inside {
        /// Which end of the way.
        end: End,
        /// The obstacle.
        tag: Tag,
    },

    /// All floor next to it is covered.
    #[error("there is no free floor next to the place")]
    NoFloor {
        /// Which end of the way.
        end: End,
    },
}

/// A point of a zone.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) at: Vec2,
    /// To the nearest wall.
    pub(super) distance_m: f64,
}

/// Another point of a zone is worth trying if it promises this much more width: less than a
/// centimetre is less than anybody measures between two bodies on a moving boat.
pub(super) const WORTH_TRYING_M: f64 = 0.005;

/// Where the search starts: the point itself and rings of points round it, 6, 12 and 18, so that
/// neighbours are about a third of the radius apart. They lie the same on both sides of both axes.
const RINGS: [u32; 3] = [6, 12, 18];

/// From how many of them the search climbs at most.
const CLIMBS: usize = 6;

/// Starts nearer than this times their spacing are neighbours; the next nearest are 1.7 apart.
const NEIGHBOUR: f64 = 1.25;

/// A step that raises the room by less than this share of its length is not worth taking: over the
/// whole zone that is a millimetre.
const LEAST_RISE: f64 = 0.002;

/// Ten halvings of the stride and some steps with each; a guard against a hill without end.
const MOST_STEPS: usize = 100;

/// How many points of a zone are kept.
const SPOTS: usize = 3;

impl Walls {
    /// Finds the clearest points of a zone. `end` is only passed on to the error.
    pub fn place(&self, zone: Zone, end: End) -> Result<Place, PlaceError> {
        let floor = self.floor();
        if !floor.contains(zone.at) && floor.distance_to_edge(zone.at) > ON_EDGE_M {
            return Err(PlaceError::OffFloor { end });
        }
        if let Some(tag) = self.solid_at(zone.at, ON_EDGE_M) {
            return Err(PlaceError::Inside { end, tag });
        }
        let here = Spot {
            at: zone.at,
            distance_m: self.clearance(zone.at).distance_m,
        };
        if zone.radius_m <= 0.0 {
            return Ok(Place { spots: vec![here] });
        }
        let spots = Neighbourhood::new(self, zone, here).clearest();
        if spots.is_empty() {
            return Err(PlaceError::NoFloor { end });
        }
        Ok(Place { spots })
    }
}

/// A zone and the walls that matter in it.
struct Neighbourhood<'a> {
    walls: &'a Walls,
    zone: Zone,
    here: Spot,
    /// Every piece that can be the nearest to any point of the zone.
    pieces: Vec<Piece>,
}

impl<'a> Neighbourhood<'a> {
    fn new(walls: &'a Walls, zone: Zone, here: Spot) -> Self {
        // A point of the zone is at most one radius further from the nearest wall than the middle,
        // and that wall at most one radius further from the middle than from the point.
        let reach = here.distance_m + 2.0 * zone.radius_m;
        Self {
            walls,
            zone,
            here,
            pieces: walls.pieces_near(zone.at, reach).copied().collect(),
        }
    }

    /// The points with the most room in their surroundings, the best first. One that leads to another
    /// without loss is left out.
    fn clearest(&self) -> Vec<Spot> {
        let starts = self.starts();
        let mut reached: Option<Vec<bool>> = None;
        let mut spots: Vec<Spot> = Vec::new();
        for i in self.summits(&starts).into_iter().take(CLIMBS) {
            let is_reached =
                self.is_seen(&starts[i]) || reached.get_or_insert_with(|| self.reached(&starts))[i];
            if !is_reached {
                continue;
            }
            let top = self.climb(starts[i]);
            if spots
                .iter()
                .any(|spot| top.distance_m <= spot.distance_m && self.is_joined(spot, &top))
            {
                continue;
            }
            spots.retain(|spot| top.distance_m < spot.distance_m || !self.is_joined(spot, &top));
            spots.push(top);
        }
        spots.sort_by(|a, b| b.distance_m.total_cmp(&a.distance_m));
        spots.truncate(SPOTS);
        spots
    }

    fn starts(&self) -> Vec<Spot> {
        let rings = (RINGS.iter().zip(1..)).flat_map(|(&count, ring)| {
            let radius = self.zone.radius_m * f64::from(ring) / RINGS.len() as f64;
            (0..count)
                .map(move |i| radius * Vec2::from_angle(TAU * f64::from(i) / f64::from(count)))
        });
        let around = rings.map(|offset| self.spot(self.zone.at + offset));
        std::iter::once(self.here).chain(around).collect()
    }

    /// The starts that have more room than every neighbour whose free disc meets theirs, those with
    /// the most room first.
    fn summits(&self, starts: &[Spot]) -> Vec<usize> {
        let spacing = self.zone.radius_m / RINGS.len() as f64;
        let mut order: Vec<usize> = (0..starts.len())
            .filter(|&i| starts[i].distance_m > CLEAREST_M)
            .collect();
        order.sort_by(|&i, &j| starts[j].distance_m.total_cmp(&starts[i].distance_m));
        let is_higher_neighbour = |i: usize, j: usize| {
            let apart = starts[i].at.distance(starts[j].at);
            apart < NEIGHBOUR * spacing && apart < starts[i].distance_m + starts[j].distance_m
        };
        (order.iter().enumerate())
            .filter(|&(rank, &i)| !order[..rank].iter().any(|&j| is_higher_neighbour(i, j)))
            .map(|(_, &i)| i)
            .collect()
    }

    /// Which starts can be reached from the middle: those that are seen from it, and those whose free
    /// disc meets that of one that can.
    fn reached(&self, starts: &[Spot]) -> Vec<bool> {
        let mut reached: Vec<bool> = starts.iter().map(|start| self.is_seen(start)).collect();
        let mut queue: Vec<usize> = (0..starts.len()).filter(|&i| reached[i]).collect();
        while let Some(i) = queue.pop() {
            for (j, other) in starts.iter().enumerate() {
                let apart = starts[i].at.distance(other.at);
                if !reached[j] && apart < starts[i].distance_m + other.distance_m {
                    reached[j] = true;
                    queue.push(j);
                }
            }
        }
        reached
    }

    /// Is the point on free floor, with no wall between it and the middle?
    ///
    /// The middle may itself lie on a wall, so walls next to it do not count.
    fn is_seen(&self, spot: &Spot) -> bool {
        let way = spot.at - self.zone.at;
        let start = way
            .normalized()
            .map_or(Vec2::ZERO, |direction| 2.0 * ON_EDGE_M * direction);
        let view = Segment::new(self.zone.at + start, spot.at);
        self.walls.floor().contains(spot.at)
            && self.walls.solid_at(spot.at, 0.0).is_none()
            && (way.length() <= 2.0 * ON_EDGE_M || self.room_along(&view) > 0.0)
    }

    /// Does the straight way between two points have as much room as the tighter of them?
    fn is_joined(&self, a: &Spot, b: &Spot) -> bool {
        let level = a.distance_m.min(b.distance_m);
        self.room_along(&Segment::new(a.at, b.at)) > level - 0.5 * WORTH_TRYING_M
    }

    /// The distance from a segment to the nearest wall.
    fn room_along(&self, way: &Segment) -> f64 {
        (self.pieces.iter())
            .map(|piece| way.nearest(&piece.core).distance_m - piece.radius)
            .fold(f64::INFINITY, f64::min)
    }

    fn spot(&self, at: Vec2) -> Spot {
        let distance_m = (self.pieces.iter())
            .map(|piece| piece.distance(at))
            .fold(f64::INFINITY, f64::min);
        Spot { at, distance_m }
    }

    /// Goes uphill to a point that has the most room in its surroundings.
    ///
    /// A step never leaves the free disc round the point, so that it cannot lead through a wall.
    fn climb(&self, start: Spot) -> Spot {
        let mut here = start;
        let mut stride = self.zone.radius_m / RINGS.len() as f64;
        for _ in 0..MOST_STEPS {
            if stride < CLEAREST_M {
                break;
            }
            let step = stride.min(here.distance_m);
            let next = (self.uphill(&here, step))
                .map(|direction| self.spot(self.clamped(here.at + step * direction)));
            match next {
                Some(next) if next.distance_m > here.distance_m + LEAST_RISE * step => here = next,
                _ => stride *= 0.5,
            }
        }
        here
    }

    /// The direction in which the distance from every wall that a step can make the nearest grows, and
    /// the least of them fastest.
    ///
    /// The distance from a convex wall grows along a direction at least as fast as at the start, with
    /// the rate n · u, n pointing away from the wall. Among unit vectors within half a turn, the
    /// direction that makes the least rate greatest halves the angle between the outermost two.
    fn uphill(&self, here: &Spot, step: f64) -> Option<Vec2> {
        // A wall further away than this is not the nearest after the step.
        let reach = here.distance_m + 2.0 * step;
        let away: Vec<Vec2> = (self.pieces.iter())
            .filter(|piece| piece.distance(here.at) <= reach)
            .filter_map(|piece| (here.at - piece.core.nearest_point(here.at)).normalized())
            .collect();
        let rate = |u: Vec2| away.iter().map(|n| n.dot(u)).fold(f64::INFINITY, f64::min);
        let (mut widest, mut middle) = (f64::INFINITY, None);
        for (i, a) in away.iter().enumerate() {
            for b in &away[..=i] {
                if a.dot(*b) < widest {
                    (widest, middle) = (a.dot(*b), Some(*a + *b));
                }
            }
        }
        let mut best = middle?.normalized()?;
        let outward = (here.at - self.zone.at).normalized().unwrap_or(Vec2::ZERO);
        let at_rim = here.at.distance(self.zone.at) > self.zone.radius_m - CLEAREST_M;
        if at_rim && best.dot(outward) > 0.0 {
            best = (best - best.dot(outward) * outward).normalized()?;
        }
        (rate(best) > 0.0).then_some(best)
    }

    fn clamped(&self, p: Vec2) -> Vec2 {
        let offset = p - self.zone.at;
        if offset.length() <= self.zone.radius_m {
            return p;
        }
        let direction = offset.normalized().unwrap_or(Vec2::ZERO);
        self.zone.at + self.zone.radius_m * direction
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, Region, Shape, rectangle, vec2};

    fn floor(length: f64, width: f64) -> Walls {
        let corners = [(0., 0.), (length, 0.), (length, width), (0., width)];
        let outline = Outline::new(corners.map(|(x, y)| vec2(x, y)).to_vec()).unwrap();
        Walls::new(Region::from(outline), 0, f64::INFINITY)
    }

    #[test]
    fn a_place_that_is_none_is_refused() {
        let box_at = |x, y| rectangle(vec2(x, y), 0.3, 0.3, 0.0).unwrap();
        let bench = box_at(1.0, 1.0);
        let post = Shape::disc(vec2(3.0, 1.0), 0.1);
        let walls = floor(4.0, 2.0).with([(1, &bench), (2, &post)]);
        let place = |x, y| {
            walls
                .place(Zone::around(vec2(x, y)), End::To)
                .map(|p| p.room_m() > 0.0)
        };
        let end = End::To;
        assert_eq!(
            place(5.0, 1.0),
            Err(PlaceError::OffFloor { end }),
            "off the floor"
        );
        assert_eq!(
            place(1.1, 1.0),
            Err(PlaceError::Inside { end, tag: 1 }),
            "in the bench"
        );
        assert_eq!(
            place(3.05, 1.0),
            Err(PlaceError::Inside { end, tag: 2 }),
            "in the post"
        );
        assert_eq!(place(0.7, 1.0), Ok(true), "at the edge of the bench");
        assert_eq!(
            place(2.0, 2.0005),
            Ok(true),
            "at the edge of the floor, half a millimetre off"
        );
        let lid = rectangle(vec2(3.5, 1.0), 0.6, 1.1, 0.0).unwrap();
        let covered = walls.with([(3, &lid)]);
        let at_edge = covered.place(
            Zone {
                at: vec2(2.9, 0.0),
                radius_m: 0.002,
            },
            end,
        );
        assert!(at_edge.is_ok(), "just beside what lies over the floor");
    }

    #[test]
    fn the_clearest_point_is_found() {
        // (what, walls, place, whereabouts of the clearest point, room), by hand.
        let walls = floor(4.0, 2.0);
        let bench = rectangle(vec2(2.0, 1.75), 2.0, 0.25, 0.0).unwrap();
        let thin = Shape::line(vec2(1.0, 0.0), vec2(1.0, 2.0));
        let benched = walls.with([(1, &bench)]);
        let parted = walls.with([(1, &thin)]);
        let half = 0.45 * std::f64::consts::FRAC_1_SQRT_2;
        let (any_x, any_y) = (0.0..4.0, 0.0..2.0);
        let near = |value: f64| value - 1e-3..value + 1e-3;
        let cases = [
            // As far from the edge as the zone allows.
            ("gate", &walls, vec2(2.0, 0.0), near(2.0), near(0.45), 0.9),
            // Away from both sides of the corner.
            (
                "corner",
                &walls,
                Vec2::ZERO,
                near(half),
                near(half),
                2.0 * half,
            ),
            // Half-way between bench and edge, anywhere along it.
            ("between", &benched, vec2(2.0, 0.4), any_x, near(0.75), 1.5),
            // Not on the other side of a thin wall, though there is more room.
            ("behind", &parted, vec2(0.9, 1.0), near(0.5), any_y, 1.0),
        ];
        for (what, walls, at, x, y, room_m) in cases {
            let place = walls.place(Zone::around(at), End::From).unwrap();
            assert!(
                (place.room_m() - room_m).abs() < 4.0 * CLEAREST_M,
                "{what}: {place:?}"
            );
            assert!(
                x.contains(&place.at().x) && y.contains(&place.at().y),
                "{what}: {place:?}"
            );
        }
    }
}
