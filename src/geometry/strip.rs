use super::escape::{Obstacle, ways_out};
use super::predicates::coord;
use super::tolerances::{SAME_POINT_M, TOUCH_M};
use super::{Bounds, Outline, Segment, Shape, Vec2, separation};

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

/// How something lies in a strip.
#[derive(Clone, Debug, PartialEq)]
pub struct Intrusion {
    /// What it takes of the width, in metres, if people pass on the better side of it; at most the
    /// width of the strip.
    pub into_m: f64,

    /// The point of it in the strip that is nearest to the middle line.
    pub at: Vec2,

    /// The smallest shift that brings it off the strip.
    pub shift: Vec2,

    /// That shift and others in clearly different directions, each the smallest in its direction,
    /// the smallest first.
    pub shifts: Vec<Vec2>,
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

    /// How something lies in the strip; `None` if it does not, or only touches its edge.
    ///
    /// The shifts are exact, see `ways_out`. They only look at the strip, so whoever uses one
    /// must look where it leads.
    pub fn intrusion(&self, shape: &Shape) -> Option<Intrusion> {
        if !self.bounds.meets(&shape.bounds()) {
            return None;
        }
        let parts: Vec<&Shape> = self.parts.iter().collect();
        let obstacles: Vec<_> = Obstacle::between(&[shape], &parts).collect();
        if (obstacles.iter()).all(|obstacle| obstacle.depth_at(Vec2::ZERO) <= TOUCH_M) {
            return None;
        }
        let shifts = ways_out(&obstacles, |_| true);
        let nearest = (self.segments())
            .map(|middle| separation(shape, &Shape::line(middle.from, middle.to)))
            .min_by(|a, b| a.gap_m.total_cmp(&b.gap_m))?;
        let at_bends = (self.points[1..self.points.len() - 1].iter())
            .map(|bend| separation(shape, &Shape::disc(*bend, 0.0)).gap_m)
            .map(|gap| 0.5 * self.width_m - gap);
        let across = (self.segments()).filter_map(|middle| self.taken_of_width(shape, &middle));
        Some(Intrusion {
            into_m: across.chain(at_bends).fold(0.0, f64::max),
            at: nearest.a,
            shift: shifts.first().copied().unwrap_or(Vec2::ZERO),
            shifts,
        })
    }

    /// What a shape takes of the width beside a straight piece of the middle line.
    fn taken_of_width(&self, shape: &Shape, middle: &Segment) -> Option<f64> {
        let (right, left) = extent_beside(shape, middle)?;
        let half = 0.5 * self.width_m;
        let (from_left, from_right) = (half - right, left + half);
        (from_left > 0.0 && from_right > 0.0).then(|| from_left.min(from_right).min(self.width_m))
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

/// How far a shape reaches to the right and to the left of a line, as far as it lies beside it:
/// distances to the left, the least and the greatest.
fn extent_beside(shape: &Shape, line: &Segment) -> Option<(f64, f64)> {
    let along = line.span().normalized()?;
    let length = line.length();
    let local = |p: Vec2| {
        let offset = p - line.from;
        Vec2 {
            x: offset.dot(along),
            y: along.cross(offset),
        }
    };
    let (core, radius) = shape.core();
    let mut extent: Option<(f64, f64)> = None;
    let mut reach = |y: f64| {
        let (least, most) = extent.unwrap_or((y, y));
        extent = Some((least.min(y), most.max(y)));
    };
    for edge in core.edges() {
        let edge = Segment::new(local(edge.from), local(edge.to));
        let out = radius * edge.span().perp().normalized().unwrap_or(Vec2::ZERO);
        // Straight sides; for a shape with a radius one on either side of its line.
        for side in [out, -out] {
            let side = Segment::new(edge.from + side, edge.to + side);
            cut_to_band(&side, length)
                .into_iter()
                .flatten()
                .for_each(&mut reach);
        }
    }
    if radius > 0.0 {
        for center in core.as_slice().iter().map(|p| local(*p)) {
            // The nearest point of the band to the middle is where the arc reaches furthest.
            let off = center.x - center.x.clamp(0.0, length);
            if off.abs() < radius {
                let half = (radius * radius - off * off).sqrt();
                [center.y - half, center.y + half]
                    .into_iter()
                    .for_each(&mut reach);
            }
        }
    }
    extent
}

/// The heights of both ends of the part of a segment between `x` = 0 and `x` = `length`.
fn cut_to_band(segment: &Segment, length: f64) -> Option<[f64; 2]> {
    let Segment { from, to } = *segment;
    let (low, high) = (from.x.min(to.x), from.x.max(to.x));
    if high < 0.0 || low > length {
        return None;
    }
    let run = to.x - from.x;
    let height_at = |x: f64| {
        if run == 0.0 {
            from.y
        } else {
            from.y + (x - from.x) / run * (to.y - from.y)
        }
    };
    if run == 0.0 {
        return Some([from.y, to.y]);
    }
    Some([
        height_at(from.x.clamp(0.0, length)),
        height_at(to.x.clamp(0.0, length)),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{rectangle, vec2};

    fn strip(points: &[(f64, f64)], width_m: f64) -> Strip {
        Strip::new(points.iter().map(|&(x, y)| vec2(x, y)).collect(), width_m).unwrap()
    }

    #[test]
    fn mistakes_are_named() {
        let new = |points: &[(f64, f64)], width_m| {
            Strip::new(points.iter().map(|&(x, y)| vec2(x, y)).collect(), width_m).map(|_| ())
        };
        assert_eq!(
            new(&[(0., 0.)], 0.6),
            Err(StripError::TooFewPoints { count: 1 }),
            "one"
        );
        assert_eq!(
            new(&[(0., 0.), (0., 0.)], 0.6),
            Err(StripError::RepeatedPoint { point: 1 }),
            "same"
        );
        assert_eq!(
            new(&[(0., 0.), (f64::NAN, 0.)], 0.6),
            Err(StripError::NotFinite { point: 1 }),
            "nan"
        );
        assert_eq!(
            new(&[(0., 0.), (1., 0.)], 0.0),
            Err(StripError::Width { width_m: 0.0 }),
            "width"
        );
    }

    #[test]
    fn intrusions_by_hand() {
        let straight = strip(&[(0., 0.), (4., 0.)], 0.8);
        let square = |x, y, half| rectangle(vec2(x, y), half, half, 0.0).unwrap();
        let disc = |x, y, radius| Shape::disc(vec2(x, y), radius);
        let plank = Shape::Stadium {
            from: vec2(1., -1.),
            to: vec2(1., 2.),
            radius: 0.05,
        };
        // (what, shape, taken of the width, length of the smallest shift)
        let cases = [
            ("from the left", disc(2., 0.45, 0.1), 0.05, 0.05),
            ("from the right", square(2., -0.5, 0.2), 0.1, 0.1),
            ("inside, left of the middle", disc(2., 0.2, 0.1), 0.3, 0.3),
            ("in the middle", disc(2., 0., 0.1), 0.5, 0.5),
            (
                "right across, clear beyond the nearer end",
                plank,
                0.8,
                1.05,
            ),
            (
                "just over the end",
                disc(4.05, 0., 0.1),
                0.4 + 0.0075_f64.sqrt(),
                0.05,
            ),
        ];
        for (what, shape, into_m, shift_m) in cases {
            let found = straight.intrusion(&shape).unwrap();
            assert!((found.into_m - into_m).abs() < 1e-9, "{what}: {found:?}");
            assert!(
                (found.shift.length() - shift_m).abs() < 1e-9,
                "{what}: {found:?}"
            );
            for shift in &found.shifts {
                let after = straight.intrusion(&shape.translated(*shift));
                assert!(
                    after.is_none_or(|i| i.shift.length() < 1e-7),
                    "{what}: by {shift:?}"
                );
            }
        }
        assert_eq!(
            straight.intrusion(&disc(2., 0.5, 0.1)),
            None,
            "touches its edge"
        );
        assert_eq!(
            straight.intrusion(&disc(-0.2, 0., 0.1)),
            None,
            "before its start"
        );
        let both = straight.intrusion(&disc(2., 0.05, 0.1)).unwrap().shifts;
        assert!(
            both.len() >= 2 && both[0].y > 0.0 && both[1].y < 0.0,
            "either side: {both:?}"
        );
    }

    #[test]
    fn a_bend_is_round_outside_and_cleared_as_a_whole() {
        let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
        assert!((bent.length_m() - 4.0).abs() < 1e-12, "2 + 2");
        assert!(bent.contains(vec2(2.28, -0.28)), "in the round corner");
        assert!(!bent.contains(vec2(2.29, -0.29)), "outside it");
        // In the inner corner at (1.6, 0.4): up and to the left at once.
        let box_in_corner = rectangle(vec2(1.6, 0.4), 0.1, 0.1, 0.0).unwrap();
        let found = bent.intrusion(&box_in_corner).unwrap();
        assert!(found.shift.distance(vec2(-0.1, 0.1)) < 1e-9, "{found:?}");
    }

    #[test]
    fn sides_and_lengths_along() {
        let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
        assert_eq!(
            bent.along_and_left(vec2(1., 0.3)),
            (1.0, 0.3),
            "left of the first"
        );
        assert_eq!(
            bent.along_and_left(vec2(2.25, 1.5)),
            (3.5, -0.25),
            "right of the second"
        );
        assert!(bent.side_of(vec2(1., -0.3)) < 0.0, "right");
    }

    #[test]
    fn a_line_across_is_over_it_in_stretches() {
        let u = strip(&[(0., 0.), (2., 0.), (2., 2.), (0., 2.)], 0.5);
        let line = Segment::new(vec2(1., -1.), vec2(1., 3.));
        let found = u.stretches_over(&line);
        let expected = [(0.75 / 4.0, 1.25 / 4.0), (2.75 / 4.0, 3.25 / 4.0)];
        assert_eq!(found, expected, "from -0.25 to 0.25 and from 1.75 to 2.25");
        let beside = Segment::new(vec2(1., 0.25), vec2(1., 1.75));
        assert_eq!(u.stretches_over(&beside), [], "between both");
        let around = Segment::new(vec2(1.9, 0.), vec2(2.1, 0.));
        assert_eq!(u.stretches_over(&around), [(0.0, 1.0)], "within a bend");
    }

    #[test]
    fn rings_enclose_what_it_covers() {
        let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
        let rings = bent.rings();
        assert_eq!(rings.len(), 1, "one edge");
        let area = Outline::new(rings[0].clone()).unwrap().area();
        // Two rectangles, less the inner quarter that both cover, and the outer quarter of a disc.
        let expected = 2.0 * 2.0 * 0.8 - 0.16 + std::f64::consts::PI * 0.16 / 4.0;
        assert!((area - expected).abs() < 1e-3, "{area} for {expected}");
        let round = strip(&[(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)], 0.5);
        assert_eq!(round.rings().len(), 2, "a ring has two edges");
    }
}
