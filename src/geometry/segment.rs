use super::{Bounds, Vec2};

/// A straight line from point to point; both may be the same point.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Segment {
    /// Where it starts.
    pub from: Vec2,

    /// Where it ends.
    pub to: Vec2,
}

/// The nearest points of two things, and how far they are apart.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Nearest {
    /// The distance between the two points, in metres.
    pub distance_m: f64,

    /// On the first.
    pub a: Vec2,

    /// On the second.
    pub b: Vec2,
}

impl Nearest {
    fn between(a: Vec2, b: Vec2) -> Self {
        Self {
            distance_m: a.distance(b),
            a,
            b,
        }
    }

    fn swapped(self) -> Self {
        Self {
            a: self.b,
            b: self.a,
            ..self
        }
    }

    /// The nearer of two; the first if they are equal.
    pub(super) fn nearer(self, other: Self) -> Self {
        if other.distance_m < self.distance_m {
            other
        } else {
            self
        }
    }
}

impl Segment {
    /// From point to point.
    pub const fn new(from: Vec2, to: Vec2) -> Self {
        Self { from, to }
    }

    /// From start to end, as a vector.
    pub fn span(&self) -> Vec2 {
        self.to - self.from
    }

    /// The length in metres.
    pub fn length(&self) -> f64 {
        self.span().length()
    }

    /// The point half-way.
    pub fn middle(&self) -> Vec2 {
        self.from.lerp(self.to, 0.5)
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Bounds {
        Bounds::of([self.from, self.to])
    }

    /// At which share of the segment, within 0 to 1, the point nearest to `p` lies.
    pub fn nearest_share(&self, p: Vec2) -> f64 {
        let span = self.span();
        let along = (p - self.from).dot(span);
        let whole = span.length_squared();
        if along <= 0.0 || whole <= 0.0 {
            0.0
        } else if along >= whole {
            1.0
        } else {
            along / whole
        }
    }

    /// The point of the segment nearest to `p`.
    pub fn nearest_point(&self, p: Vec2) -> Vec2 {
        let t = self.nearest_share(p);
        if t >= 1.0 {
            self.to
        } else {
            self.from + t * self.span()
        }
    }

    /// How far the point is from the segment.
    pub fn distance(&self, p: Vec2) -> f64 {
        self.nearest_point(p).distance(p)
    }

    /// The nearest points of two segments; one common point for both where they meet.
    pub fn nearest(&self, other: &Self) -> Nearest {
        if self.from == self.to {
            return Nearest::between(self.from, other.nearest_point(self.from));
        }
        if other.from == other.to {
            return Nearest::between(self.nearest_point(other.from), other.from);
        }
        if let Some(p) = self.crossing(other) {
            return Nearest {
                distance_m: 0.0,
                a: p,
                b: p,
            };
        }
        let from_end = |p: Vec2| Nearest::between(p, other.nearest_point(p));
        let from_other = |p: Vec2| Nearest::between(p, self.nearest_point(p)).swapped();
        from_end(self.from)
            .nearer(from_end(self.to))
            .nearer(from_other(other.from))
            .nearer(from_other(other.to))
    }

    /// Where two segments cross, each passing from one side of the other to the other side.
    ///
    /// Segments that only touch, or lie in one line, do not cross. Plain arithmetic: which of the
    /// two a touch within rounding counts as makes no difference to a distance.
    pub fn crossing(&self, other: &Self) -> Option<Vec2> {
        let (u, v) = (self.span(), other.span());
        let offset = other.from - self.from;
        let (c, d) = (u.cross(offset), u.cross(other.to - self.from));
        let (a, b) = (v.cross(-offset), v.cross(self.to - other.from));
        if (c > 0.0) == (d > 0.0) || (a > 0.0) == (b > 0.0) || c * d == 0.0 || a * b == 0.0 {
            return None;
        }
        Some(self.from + a / (a - b) * u)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    fn segment(x1: f64, y1: f64, x2: f64, y2: f64) -> Segment {
        Segment::new(vec2(x1, y1), vec2(x2, y2))
    }

    #[test]
    fn nearest_points_of_segments() {
        // (first, second, distance, on the first, on the second), by hand.
        let cases = [
            (
                "cross",
                segment(0., 0., 2., 2.),
                segment(0., 2., 2., 0.),
                0.,
                vec2(1., 1.),
                vec2(1., 1.),
            ),
            (
                "end to side",
                segment(0., 0., 2., 0.),
                segment(1., 3., 1., 1.),
                1.,
                vec2(1., 0.),
                vec2(1., 1.),
            ),
            (
                "end to end",
                segment(0., 0., 1., 0.),
                segment(4., 4., 9., 9.),
                5.,
                vec2(1., 0.),
                vec2(4., 4.),
            ),
            (
                "a point",
                segment(1., 1., 1., 1.),
                segment(0., 0., 2., 0.),
                1.,
                vec2(1., 1.),
                vec2(1., 0.),
            ),
            (
                "two points",
                segment(0., 0., 0., 0.),
                segment(3., 4., 3., 4.),
                5.,
                vec2(0., 0.),
                vec2(3., 4.),
            ),
            (
                "in line",
                segment(0., 0., 1., 0.),
                segment(2., 0., 3., 0.),
                1.,
                vec2(1., 0.),
                vec2(2., 0.),
            ),
        ];
        for (what, s, t, distance_m, a, b) in cases {
            let expected = Nearest { distance_m, a, b };
            assert_eq!(s.nearest(&t), expected, "{what}");
            assert_eq!(t.nearest(&s), expected.swapped(), "{what}, swapped");
        }
    }
}
