//! The smallest shift that brings a shape off everything it overlaps.
//!
//! A shift t of a shape M makes it overlap a fixed shape F exactly if t lies inside the difference
//! set F − M. For convex parts that set is a convex polygon, rounded by the sum of the radii; here
//! it is called an [`Obstacle`] and lives in the plane of shifts. The smallest free shift lies on the
//! edge of some obstacle: either at the point of a side or an arc nearest to no shift at all, or
//! where the edges of two obstacles cross. So all those points are tried and the shortest that lies
//! inside no obstacle is the answer. That is exact for any number of convex parts.
//!
//! # References
//!
//! T. Lozano-Pérez (1983), Spatial planning: a configuration space approach, IEEE Transactions on
//! Computers C-32, 108-120.

use super::predicates::{Side, side};
use super::tolerances::{TOUCH_M, in_touches};
use super::{Segment, Shape, Vec2, vec2};

/// The shifts that make a pair of convex parts overlap: a convex polygon, a line or a point, and
/// everything nearer to it than `radius`.
#[derive(Clone, Debug)]
pub(super) struct Obstacle {
    /// Counter-clockwise, without vertices on straight sides.
    core: Vec<Vec2>,
    radius: f64,
}

/// A piece of the edge of an obstacle.
#[derive(Copy, Clone, Debug)]
enum Rim {
    Straight(Segment),
    /// The whole circle: a point of it that is not on the rim lies inside the obstacle and is
    /// found out as such.
    Round {
        center: Vec2,
        radius: f64,
    },
}

impl Obstacle {
    /// One obstacle for each pair of convex parts of what moves and what stays.
    pub(super) fn between<'a>(
        moving: &'a [&'a Shape],
        fixed: &'a [&'a Shape],
    ) -> impl Iterator<Item = Self> + 'a {
        let parts = |shapes: &[&Shape]| -> Vec<(Vec<Vec2>, f64)> {
            let cores = shapes.iter().map(|shape| shape.core());
            cores
                .flat_map(|(core, radius)| {
                    (core.convex_parts().into_iter()).map(move |part| (part, radius))
                })
                .collect()
        };
        let (moving, fixed) = (parts(moving), parts(fixed));
        fixed.into_iter().flat_map(move |(stays, radius)| {
            (moving.iter())
                .map(|(moves, own_radius)| Self::new(&stays, moves, radius + own_radius))
                .collect::<Vec<_>>()
        })
    }

    /// From the convex cores of what stays and what moves, and the sum of their radii.
    pub(super) fn new(stays: &[Vec2], moves: &[Vec2], radius: f64) -> Self {
        let differences = stays.iter().flat_map(|s| moves.iter().map(|m| *s - *m));
        Self {
            core: convex_hull(differences.collect()),
            radius,
        }
    }

    /// How deep inside the shift is; negative outside.
    pub(super) fn depth_at(&self, shift: Vec2) -> f64 {
        let sides = self.sides();
        let nearest = (sides.clone())
            .map(|side| side.distance(shift))
            .fold(f64::INFINITY, f64::min);
        let inside = self.core.len() > 2
            && sides
                .into_iter()
                .all(|side| side.span().cross(shift - side.from) >= 0.0);
        self.radius + if inside { nearest } else { -nearest }
    }

    fn sides(&self) -> impl Iterator<Item = Segment> + Clone + '_ {
        let n = self.core.len();
        (0..n).map(move |i| Segment::new(self.core[i], self.core[(i + 1) % n]))
    }

    fn rims(&self) -> impl Iterator<Item = Rim> + '_ {
        let radius = self.radius;
        let straight = self.sides().filter_map(move |side| {
            let outward = -side.span().perp().normalized()?;
            let (from, to) = (side.from + radius * outward, side.to + radius * outward);
            Some(Rim::Straight(Segment { from, to }))
        });
        let round = (self.core.iter())
            .filter(move |_| radius > 0.0)
            .map(move |&center| Rim::Round { center, radius });
        straight.chain(round)
    }
}

impl Rim {
    /// How far it is from no shift at all.
    fn distance(&self) -> f64 {
        match self {
            Self::Straight(segment) => segment.distance(Vec2::ZERO),
            Self::Round { center, radius } => (center.length() - radius).abs(),
        }
    }

    /// The points nearest to no shift at all.
    fn nearest(&self, found: &mut Vec<Vec2>) {
        match *self {
            Self::Straight(segment) => found.push(segment.nearest_point(Vec2::ZERO)),
            Self::Round { center, radius } => match center.normalized() {
                Some(direction) => found.push(center - radius * direction),
                // Every direction is as near: fore, aft and athwart.
                None => found.extend(
                    [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)]
                        .map(|(x, y)| center + radius * vec2(x, y)),
                ),
            },
        }
    }

    fn crossings(&self, other: &Self, found: &mut Vec<Vec2>) {
        match (*self, *other) {
            (Self::Straight(a), Self::Straight(b)) => found.extend(meeting_point(&a, &b)),
            (Self::Straight(line), Self::Round { center, radius })
            | (Self::Round { center, radius }, Self::Straight(line)) => {
                let Some(along) = line.span().normalized() else {
                    return;
                };
                let foot = line.from + (center - line.from).dot(along) * along;
                let half = radius * radius - (foot - center).length_squared();
                let half = half.max(0.0).sqrt() * along;
                found.extend(
                    [foot - half, foot + half]
                        .into_iter()
                        .filter(|p| line.distance(*p) <= TOUCH_M),
                );
            }
            (
                Self::Round { center, radius },
                Self::Round {
                    center: other,
                    radius: other_radius,
                },
            ) => {
                let between = other - center;
                let Some(along) = between.normalized() else {
                    return;
                };
                let distance = between.length();
                let reach =
                    0.5 * (distance + (radius * radius - other_radius * other_radius) / distance);
                let half = radius * radius - reach * reach;
                if half >= 0.0 {
                    let (foot, half) = (center + reach * along, half.sqrt() * along.perp());
                    found.extend([foot - half, foot + half]);
                }
            }
        }
    }
}

/// Where two straight rims cross or touch, ends included; `None` if they are parallel: what they
/// share then ends where one of them meets another rim.
fn meeting_point(a: &Segment, b: &Segment) -> Option<Vec2> {
    /// Sine of the angle between rims that count as parallel: rounding of a direction is 1e-15, and
    /// a crossing at a smaller angle than this is not known to better than a millimetre.
    const PARALLEL: f64 = 1e-12;
    let (u, v) = (a.span(), b.span());
    let cross = u.cross(v);
    if cross.abs() <= PARALLEL * u.length() * v.length() {
        return None;
    }
    let p = a.from + (b.from - a.from).cross(v) / cross * u;
    (a.distance(p) <= TOUCH_M && b.distance(p) <= TOUCH_M).then_some(p)
}

/// How far beyond the smallest shift the search for other directions goes.
const ALTERNATIVES: f64 = 4.0;

/// Shifts nearer in direction than this to a smaller one are no alternative: an eighth of a turn.
const OTHER_DIRECTION: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Free shifts, the smallest first, then others in clearly different directions; empty if there is
/// none. `allowed` may forbid more than the obstacles do.
pub(super) fn ways_out(obstacles: &[Obstacle], allowed: impl Fn(Vec2) -> bool) -> Vec<Vec2> {
    let is_free = |shift: Vec2| {
        allowed(shift) && (obstacles.iter()).all(|obstacle| obstacle.depth_at(shift) <= TOUCH_M)
    };
    if is_free(Vec2::ZERO) {
        return vec![Vec2::ZERO];
    }
    let mut rims: Vec<(f64, usize, Rim)> = (obstacles.iter().enumerate())
        .flat_map(|(i, obstacle)| obstacle.rims().map(move |rim| (rim.distance(), i, rim)))
        .collect();
    rims.sort_by(|a, b| a.0.total_cmp(&b.0));
    let furthest = (obstacles.iter())
        .flat_map(|o| o.core.iter().map(|p| p.length() + o.radius))
        .fold(0.0, f64::max);
    let mut reach = (obstacles.iter())
        .map(|obstacle| obstacle.depth_at(Vec2::ZERO))
        .fold(TOUCH_M, f64::max)
        * (1.0 + 1e-9);
    loop {
        let mut found = candidates(&rims, reach);
        found.retain(|shift| shift.length() <= reach && is_free(*shift));
        let smallest = found
            .iter()
            .map(|shift| shift.length())
            .min_by(f64::total_cmp);
        match smallest {
            Some(length) if reach >= ALTERNATIVES * length || reach > furthest => {
                return distinct(found);
            }
            Some(length) => reach = ALTERNATIVES * length,
            None if reach > furthest => return Vec::new(),
            None => reach *= 2.0,
        }
    }
}

/// All points on rims that may be the smallest shift, if that is no longer than `reach`.
fn candidates(rims: &[(f64, usize, Rim)], reach: f64) -> Vec<Vec2> {
    let near = &rims[..rims.partition_point(|(distance, ..)| *distance <= reach)];
    let mut found = Vec::new();
    for (k, (_, i, rim)) in near.iter().enumerate() {
        rim.nearest(&mut found);
        for (_, j, other) in &near[..k] {
            if i != j {
                rim.crossings(other, &mut found);
            }
        }
    }
    found
}

/// The shortest of each direction, shortest first.
fn distinct(mut shifts: Vec<Vec2>) -> Vec<Vec2> {
    shifts.sort_by(|a, b| {
        (in_touches(a.length()).total_cmp(&in_touches(b.length()))).then(b.total_cmp(*a))
    });
    let mut kept: Vec<Vec2> = Vec::new();
    for shift in shifts {
        let new =
            |other: &Vec2| shift.dot(*other) < OTHER_DIRECTION * shift.length() * other.length();
        if kept.iter().all(new) {
            kept.push(shift);
        }
    }
    kept
}

/// The convex hull, counter-clockwise, without points on straight sides; of equal points one.
///
/// # References
///
/// A. M. Andrew (1979), Another efficient algorithm for convex hulls in two dimensions, Information
/// Processing Letters 9, 216-219.
fn convex_hull(mut points: Vec<Vec2>) -> Vec<Vec2> {
    points.sort_by(|a, b| a.total_cmp(*b));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let half = |points: &mut dyn Iterator<Item = Vec2>| {
        let mut chain: Vec<Vec2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && side(a, b, p) != Side::Left
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut hull = half(&mut points.iter().copied());
    hull.extend(half(&mut points.iter().rev().copied()));
    hull
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hulls() {
        let square = [(0., 0.), (1., 0.), (1., 1.), (0., 1.)].map(|(x, y)| vec2(x, y));
        let mut points = square.to_vec();
        points.extend([vec2(0.5, 0.5), vec2(0.5, 0.0), vec2(1.0, 1.0)]);
        assert_eq!(convex_hull(points), square, "inner and side points go");
        let line = [vec2(0., 0.), vec2(1., 1.), vec2(2., 2.)];
        assert_eq!(
            convex_hull(line.to_vec()),
            [line[0], line[2]],
            "a line has two ends"
        );
        assert_eq!(
            convex_hull(vec![line[0]; 3]),
            [line[0]],
            "a point is itself"
        );
    }

    #[test]
    fn a_way_out_that_is_blocked_is_not_taken() {
        // A disc of 0.1 between a near wall at x = 0.05 to its left and another at x = 0.15 to its
        // right: sideways it gets free of one only by going into the other, so it goes past the end.
        let disc = Shape::disc(Vec2::ZERO, 0.1);
        let left = Shape::line(vec2(-0.05, -1.0), vec2(-0.05, 0.3));
        let right = Shape::line(vec2(0.08, -1.0), vec2(0.08, 0.5));
        let obstacles: Vec<_> = Obstacle::between(&[&disc], &[&left, &right]).collect();
        let ways = ways_out(&obstacles, |_| true);
        // To the far side of the left wall: 0.15; to that of the right one: 0.18.
        assert!(ways[0].distance(vec2(-0.15, 0.0)) < 1e-9, "{ways:?}");
        assert!(ways[1].distance(vec2(0.18, 0.0)) < 1e-9, "{ways:?}");
        let inside = ways_out(&obstacles, |shift| shift.x.abs() < 0.14);
        // Up, above the end of the left wall and beside the right one: x = -0.02, and
        // y = 0.3 + sqrt(0.01 - 0.03²).
        let y = 0.3 + (0.01_f64 - 0.0009).sqrt();
        assert!(inside[0].distance(vec2(-0.02, y)) < 1e-9, "{inside:?}");
    }
}
