use super::{Bounds, Outline, OutlineError, Segment, Vec2, vec2};
use std::f64::consts::PI;

/// What a body covers of the floor, seen from above.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A round body, standing. A radius of zero is a point.
    Disc {
        /// The middle.
        center: Vec2,
        /// Not negative.
        radius: f64,
    },

    /// Everything within `radius` of a line: a lying round body, a hose. A radius of zero is a line.
    Stadium {
        /// One end of the line.
        from: Vec2,
        /// The other end.
        to: Vec2,
        /// Not negative.
        radius: f64,
    },

    /// Anything with straight sides.
    Polygon(Outline),
}

/// A rectangle that is turned by `turn_rad` from `+x` towards `+y`; its first vertex is the one
/// with neither half length nor half width added.
pub fn rectangle(
    center: Vec2,
    half_length: f64,
    half_width: f64,
    turn_rad: f64,
) -> Result<Shape, OutlineError> {
    let along = half_length * Vec2::from_angle(turn_rad);
    let across = half_width * Vec2::from_angle(turn_rad).perp();
    let corners = vec![
        center - along - across,
        center + along - across,
        center + along + across,
        center - along + across,
    ];
    Outline::new(corners).map(Shape::Polygon)
}

impl Shape {
    /// A round body.
    pub const fn disc(center: Vec2, radius: f64) -> Self {
        Self::Disc { center, radius }
    }

    /// A line without width.
    pub const fn line(from: Vec2, to: Vec2) -> Self {
        Self::Stadium {
            from,
            to,
            radius: 0.0,
        }
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Bounds {
        match self {
            Self::Disc { center, radius } => Bounds::of([*center]).grown(*radius),
            Self::Stadium { from, to, radius } => Bounds::of([*from, *to]).grown(*radius),
            Self::Polygon(outline) => outline.bounds(),
        }
    }

    /// The same shape, shifted.
    #[must_use]
    pub fn translated(&self, shift: Vec2) -> Self {
        match self {
            Self::Disc { center, radius } => Self::Disc {
                center: *center + shift,
                radius: *radius,
            },
            Self::Stadium { from, to, radius } => Self::Stadium {
                from: *from + shift,
                to: *to + shift,
                radius: *radius,
            },
            Self::Polygon(outline) => Self::Polygon(outline.translated(shift)),
        }
    }

    /// The image on the other side of the x axis.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        match self {
            Self::Disc { center, radius } => Self::Disc {
                center: center.mirrored_y(),
                radius: *radius,
            },
            Self::Stadium { from, to, radius } => Self::Stadium {
                from: from.mirrored_y(),
                to: to.mirrored_y(),
                radius: *radius,
            },
            Self::Polygon(outline) => Self::Polygon(outline.mirrored_y()),
        }
    }

    /// The covered area in m².
    pub fn area(&self) -> f64 {
        match self {
            Self::Disc { radius, .. } => PI * radius * radius,
            Self::Stadium { from, to, radius } => {
                PI * radius * radius + 2.0 * radius * from.distance(*to)
            }
            Self::Polygon(outline) => outline.area(),
        }
    }

    /// The centre of the covered area.
    pub fn centroid(&self) -> Vec2 {
        match self {
            Self::Disc { center, .. } => *center,
            Self::Stadium { from, to, .. } => from.lerp(*to, 0.5),
            Self::Polygon(outline) => outline.centroid(),
        }
    }

    /// Does it cover the point? The edge belongs to the shape.
    pub fn contains(&self, p: Vec2) -> bool {
        match self {
            Self::Disc { center, radius } => center.distance(p) <= *radius,
            Self::Stadium { from, to, radius } => Segment::new(*from, *to).distance(p) <= *radius,
            Self::Polygon(outline) => outline.contains(p),
        }
    }

    /// How far it reaches in a direction: the greatest dot product of a point of it with the unit
    /// vector `direction`.
    pub fn support(&self, direction: Vec2) -> f64 {
        let (points, radius) = self.core();
        let reach = (points.as_slice().iter())
            .map(|p| p.dot(direction))
            .fold(f64::NEG_INFINITY, f64::max);
        reach + radius
    }

    /// A polygon for drawing it: arcs are cut into chords of at most `step_rad`, inside the shape.
    /// `None` for a shape without area.
    pub fn to_polygon(&self, step_rad: f64) -> Option<Vec<Vec2>> {
        let (from, to, radius) = match self {
            Self::Disc { center, radius } => (*center, *center, *radius),
            Self::Stadium { from, to, radius } => (*from, *to, *radius),
            Self::Polygon(outline) => return Some(outline.vertices().to_vec()),
        };
        if radius <= 0.0 {
            return None;
        }
        let along = (to - from).normalized().unwrap_or(vec2(1.0, 0.0));
        let cap = |center: Vec2, start: f64| {
            arc_angles(start, start + PI, step_rad)
                .map(move |angle| center + radius * Vec2::from_angle(angle))
        };
        let start = along.angle() - PI / 2.0;
        let mut points: Vec<_> = cap(to, start).chain(cap(from, start + PI)).collect();
        if from == to {
            // The two half circles share their ends.
            points.dedup_by(|a, b| a.distance(*b) < radius * f64::EPSILON * 16.0);
            points.pop();
        }
        Some(points)
    }

    /// The points that it surrounds, and at which distance: a point, a line, or the ring itself.
    pub(super) fn core(&self) -> (Core<'_>, f64) {
        match self {
            Self::Disc { center, radius } => (Core::Point([*center]), *radius),
            Self::Stadium { from, to, radius } => (Core::Line([*from, *to]), *radius),
            Self::Polygon(outline) => (Core::Ring(outline), 0.0),
        }
    }
}

impl From<Outline> for Shape {
    fn from(outline: Outline) -> Self {
        Self::Polygon(outline)
    }
}

/// Angles from start to end, both included, in equal steps of at most `step_rad`.
pub(super) fn arc_angles(start: f64, end: f64, step_rad: f64) -> impl Iterator<Item = f64> {
    /// More would only slow down a drawing.
    const MOST: f64 = 720.0;
    let steps = ((end - start).abs() / step_rad).ceil().clamp(1.0, MOST);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "clamped to 1..=720 just before; what is no number becomes 0"
    )]
    let count = steps as usize;
    (0..=count).map(move |i| start + (end - start) * (i as f64 / count as f64))
}

/// A shape without its rounding.
#[derive(Copy, Clone, Debug)]
pub(super) enum Core<'a> {
    Point([Vec2; 1]),
    Line([Vec2; 2]),
    Ring(&'a Outline),
}

impl Core<'_> {
    pub(super) fn as_slice(&self) -> &[Vec2] {
        match self {
            Self::Point(points) => points,
            Self::Line(points) => points,
            Self::Ring(outline) => outline.vertices(),
        }
    }

    /// Its edges; a point is one edge without length.
    pub(super) fn edges(&self) -> impl Iterator<Item = Segment> + Clone + '_ {
        let points = self.as_slice();
        let n = points.len();
        let count = if n == 2 { 1 } else { n };
        (0..count).map(move |i| Segment::new(points[i], points[if i + 1 == n { 0 } else { i + 1 }]))
    }

    pub(super) fn is_convex(&self) -> bool {
        match self {
            Self::Point(_) | Self::Line(_) => true,
            Self::Ring(outline) => outline.is_convex(),
        }
    }

    /// Does it enclose the point? Points and lines enclose nothing.
    pub(super) fn encloses(&self, p: Vec2) -> bool {
        match self {
            Self::Point(_) | Self::Line(_) => false,
            Self::Ring(outline) => outline.contains(p),
        }
    }

    /// Convex parts that together are the core.
    pub(super) fn convex_parts(&self) -> Vec<Vec<Vec2>> {
        match self {
            Self::Ring(outline) => outline.convex_parts(),
            Self::Point(points) => vec![points.to_vec()],
            Self::Line(points) => vec![points.to_vec()],
        }
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "these values are exact in binary")]

    use super::*;

    #[test]
    fn a_turned_rectangle_is_where_it_should_be() {
        let shape = rectangle(vec2(1.0, 2.0), 2.0, 0.5, PI / 2.0).unwrap();
        assert!((shape.area() - 4.0).abs() < 1e-12, "4 x 1");
        assert!(shape.contains(vec2(1.0, 3.9)), "long side athwart");
        assert!(!shape.contains(vec2(2.0, 2.0)), "short side fore and aft");
        assert!(shape.centroid().distance(vec2(1.0, 2.0)) < 1e-12, "centre");
        assert!(rectangle(Vec2::ZERO, 0.0, 1.0, 0.0).is_err(), "no length");
    }

    #[test]
    fn a_stadium_is_round_at_both_ends() {
        let stadium = Shape::Stadium {
            from: vec2(0., 0.),
            to: vec2(3., 0.),
            radius: 1.0,
        };
        assert!(
            stadium.contains(vec2(3.7, 0.7)) && !stadium.contains(vec2(3.8, 0.7)),
            "cap"
        );
        assert!(
            (stadium.area() - (6.0 + PI)).abs() < 1e-12,
            "rectangle and two halves"
        );
        assert_eq!(
            stadium.bounds(),
            Bounds {
                min: vec2(-1., -1.),
                max: vec2(4., 1.)
            },
            "bounds"
        );
        assert_eq!(stadium.support(vec2(1., 0.)), 4.0, "reach forward");
    }

    #[test]
    fn drawn_arcs_approach_the_area() {
        for shape in [
            Shape::disc(vec2(1., 1.), 0.1),
            Shape::Stadium {
                from: vec2(0., 0.),
                to: vec2(1., 1.),
                radius: 0.1,
            },
        ] {
            let drawn = Outline::new(shape.to_polygon(0.1).unwrap()).unwrap();
            // Chords of 0.1 rad lose 1 - sin(0.1)/0.1 = 0.17 % of the round part.
            let share = drawn.area() / shape.area();
            assert!((0.998..1.0).contains(&share), "{share}");
        }
        assert_eq!(
            Shape::line(Vec2::ZERO, vec2(1., 0.)).to_polygon(0.1),
            None,
            "a bare line"
        );
    }
}
