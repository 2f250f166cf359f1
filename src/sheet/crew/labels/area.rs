//! Rectangles and lines on paper.

use crate::geometry::Elementary as _;

/// A straight line on paper, from point to point.
pub(in crate::sheet::crew) type Segment = ((f64, f64), (f64, f64));

/// A rectangle on paper: left, top, right, bottom, in millimetres.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(in crate::sheet) struct Area {
    pub(in crate::sheet) left: f64,
    pub(in crate::sheet) top: f64,
    pub(in crate::sheet) right: f64,
    pub(in crate::sheet) bottom: f64,
}

impl Area {
    pub(in crate::sheet) fn round((x, y): (f64, f64), radius: f64) -> Self {
        Self {
            left: x - radius,
            top: y - radius,
            right: x + radius,
            bottom: y + radius,
        }
    }

    /// Round a middle, so far to each side and up and down.
    pub(in crate::sheet::crew) fn about((x, y): (f64, f64), (wide, high): (f64, f64)) -> Self {
        Self {
            left: x - wide,
            top: y - high,
            right: x + wide,
            bottom: y + high,
        }
    }

    /// The same with so much round it.
    pub(super) fn grown(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            top: self.top - by,
            right: self.right + by,
            bottom: self.bottom + by,
        }
    }

    pub(super) fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// How far another is from it at the nearest, in millimetres; nothing where they meet.
    pub(super) fn gap(self, other: Self) -> f64 {
        let across = (other.left - self.right).max(self.left - other.right);
        let down = (other.top - self.bottom).max(self.top - other.bottom);
        across.max(0.0).hypotenuse(down.max(0.0))
    }

    /// Does a line from one point to another run through it?
    pub(in crate::sheet::crew) fn is_crossed(self, (a, b): Segment) -> bool {
        // The part of the line that lies between both pairs of sides.
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        for (start, run, low, high) in [
            (a.0, b.0 - a.0, self.left, self.right),
            (a.1, b.1 - a.1, self.top, self.bottom),
        ] {
            if run.abs() < 1e-9 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (near, far) = ((low - start) / run, (high - start) / run);
            from = from.max(near.min(far));
            to = to.min(near.max(far));
        }
        from < to
    }

    /// Its point that is nearest to another.
    pub(super) fn nearest(self, (x, y): (f64, f64)) -> (f64, f64) {
        (
            x.clamp(self.left, self.right),
            y.clamp(self.top, self.bottom),
        )
    }

    pub(in crate::sheet::crew) fn contains(self, (x, y): (f64, f64)) -> bool {
        self.left < x && x < self.right && self.top < y && y < self.bottom
    }

    pub(super) fn holds(self, other: Self) -> bool {
        self.left <= other.left
            && self.top <= other.top
            && self.right >= other.right
            && self.bottom >= other.bottom
    }
}
