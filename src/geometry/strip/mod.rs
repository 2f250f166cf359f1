mod intrusion;

pub use self::intrusion::Intrusion;

use super::predicates::coord;
use super::tolerances::{SAME_POINT_M, TOUCH_M};
use super::{Bounds, Outline, Segment, Shape, Vec2};

/// A band along a line of straight pieces: what is drawn on a floor to be kept free.
///
/// Its ends are cut straight across, its bends are round on the outside.
///
/// Invariant: at least two points, all finite, neighbours not the same; a positive finite width.
#[derive(Clone, Debug, PartialEq)]
pub struct Strip {
    points: Vec<Vec2>,
    width_m: f64,
    /// A rectangle for each piece of the line, then a disc for each bend; together the strip.
    parts: Vec<Shape>,
    bounds: Bounds,
}

/// Why points and a width are no [`Strip`]. Points are counted from 0.
#[derive(Copy, Clone, Debug, PartialEq, thiserror::Error)]
pub enum StripError {
    /// Fewer than two points.
    #[error("a strip needs at least 2 points, got {count}")]
    TooFewPoints {
        /// How many there are.
        count: usize,
    },

    /// A coordinate is infinite or not a number.
    #[error("point {point} is not finite")]
    NotFinite {
        /// Which.
        point: usize,
    },

    /// A point is the same as the one before it.
    #[error("point {point} is the same as the one before it")]
    RepeatedPoint {
        /// Which.
        point: usize,
    },

    /// The width is not a positive number.
    #[error("the width must be more than 0, got {width_m}")]
    Width {
        /// As given.
        width_m: f64,
    },
}

impl Strip {
    /// Checks the invariant.
    pub fn new(points: Vec<Vec2>, width_m: f64) -> Result<Self, StripError> {
        if points.len() < 2 {
            return Err(StripError::TooFewPoints {
                count: points.len(),
            });
        }
        if let Some(point) = points.iter().position(|p| !p.is_finite()) {
            return Err(StripError::NotFinite { point });
        }
        let is_repeated = |pair: &[Vec2]| pair[0].distance(pair[1]) <= SAME_POINT_M;
        if let Some(before) = points.windows(2).position(is_repeated) {
            return Err(StripError::RepeatedPoint { point: before + 1 });
        }
        if !(width_m > SAME_POINT_M && width_m.is_finite()) {
            return Err(StripError::Width { width_m });
        }
        let half = 0.5 * width_m;
        let rectangles = points.windows(2).map(|pair| {
            let side = half
                * (pair[1] - pair[0])
                    .perp()
                    .normalized()
                    .unwrap_or(Vec2::ZERO);
            let [from, to] = [pair[0], pair[1]];
            Shape::Polygon(Outline::from_checked(vec![
                from - side,
                to - side,
                to + side,
                from + side,
            ]))
        });
        let bends = (points[1..points.len() - 1].iter()).map(|bend| Shape::disc(*bend, half));
        let parts: Vec<Shape> = rectangles.chain(bends).collect();
        let bounds = parts
            .iter()
            .fold(Bounds::EMPTY, |b, part| b.union(&part.bounds()));
        Ok(Self {
            points,
            width_m,
            parts,
            bounds,
        })
    }

    /// The middle line.
    pub fn points(&self) -> &[Vec2] {
        &self.points
    }

    /// The straight pieces of the middle line.
    pub fn segments(&self) -> impl Iterator<Item = Segment> + Clone + '_ {
        (self.points.windows(2)).map(|pair| Segment::new(pair[0], pair[1]))
    }

    /// The width in metres.
    pub fn width_m(&self) -> f64 {
        self.width_m
    }

    /// The length of the middle line in metres.
    pub fn length_m(&self) -> f64 {
        self.segments().map(|segment| segment.length()).sum()
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// Convex shapes that together cover the strip and overlap at its bends.
    pub fn parts(&self) -> &[Shape] {
        &self.parts
    }

    /// Is the point in the strip or on its edge?
    pub fn contains(&self, p: Vec2) -> bool {
        self.bounds.contains(p) && self.parts.iter().any(|part| part.contains(p))
    }

    /// How far along the middle line, and how far to the left of it (negative: to the right), a
    /// point lies, by the nearest point of the line.
    pub fn along_and_left(&self, p: Vec2) -> (f64, f64) {
        let (mut best, mut start) = ((f64::INFINITY, 0.0, 0.0), 0.0);
        for segment in self.segments() {
            let distance = segment.distance(p);
            if distance < best.0 {
                let along = start + segment.nearest_share(p) * segment.length();
                let left = segment.span().cross(p - segment.from);
                best = (distance, along, distance.copysign(left));
            }
            start += segment.length();
        }
        (best.1, best.2)
    }

    /// How far to the left of the middle line the point lies; negative to the right.
    pub fn side_of(&self, p: Vec2) -> f64 {
        self.along_and_left(p).1
    }

    /// Which stretches of a straight line lie over the strip, as shares of the line from its start,
    /// in rising order and apart from each other.
    pub fn stretches_over(&self, line: &Segment) -> Vec<(f64, f64)> {
        let mut stretches: Vec<(f64, f64)> = (self.parts.iter())
            .filter_map(|part| stretch_in(part, line))
            .filter(|(from, to)| (to - from) * line.length() > TOUCH_M)
            .collect();
        stretches.sort_by(|a, b| a.0.total_cmp(&b.0));
        stretches.dedup_by(|next, kept| {
            let joins = next.0 <= kept.1;
            if joins {
                kept.1 = kept.1.max(next.1);
            }
            joins
        });
        stretches
    }

    /// Closed rings for drawing: the first is the outer edge, others are islands that a strip round
    /// them leaves free. Arcs are cut into chords of a tenth of a radian.
    pub fn rings(&self) -> Vec<Vec<Vec2>> {
        const STEP_RAD: f64 = 0.1;
        let parts: Vec<geo::Polygon> = (self.parts.iter())
            .filter_map(|part| part.to_polygon(STEP_RAD))
            .map(|ring| geo::Polygon::new(ring.into_iter().map(coord).collect(), Vec::new()))
            .collect();
        let union = geo::algorithm::bool_ops::unary_union(&parts);
        let open = |ring: &geo::LineString| -> Vec<Vec2> {
            let points = ring.0.iter().skip(1);
            points.map(|c| Vec2 { x: c.x, y: c.y }).collect()
        };
        (union.iter())
            .flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()))
            .map(open)
            .collect()
    }
}

/// The stretch of a line inside a convex part of a strip.
fn stretch_in(part: &Shape, line: &Segment) -> Option<(f64, f64)> {
    let span = line.span();
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    match part {
        Shape::Polygon(outline) => {
            for edge in outline.edges() {
                // Left of the edge is inside: the value at the start and its growth to the end.
                let value = edge.span().cross(line.from - edge.from);
                let growth = edge.span().cross(span);
                if growth > 0.0 {
                    from = from.max(-value / growth);
                } else if growth < 0.0 {
                    to = to.min(-value / growth);
                } else if value < 0.0 {
                    return None;
                }
            }
        }
        Shape::Disc { center, radius } => {
            let middle = (*center - line.from).dot(span) / span.length_squared();
            let apart = line.from + middle * span - *center;
            let half = radius * radius - apart.length_squared();
            let half = (half.max(0.0) / span.length_squared()).sqrt();
            (from, to) = (from.max(middle - half), to.min(middle + half));
        }
        Shape::Stadium { .. } => return None,
    }
    (from < to).then_some((from, to))
}

#[cfg(test)]
mod tests;
