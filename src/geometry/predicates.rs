//! Left, right or on: decided exactly, however near the point is to the line.
//!
//! # References
//!
//! J. R. Shewchuk (1997), Adaptive precision floating-point arithmetic and fast robust geometric
//! predicates, Discrete & Computational Geometry 18, 305-363, as implemented by the `robust` crate.

use super::Vec2;
use geo::{Coord, Kernel as _, Orientation, kernels::RobustKernel};

/// On which side of the line from `a` to `b` the point lies.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    On,
    Right,
}

pub(super) fn side(a: Vec2, b: Vec2, p: Vec2) -> Side {
    match RobustKernel::orient2d(coord(a), coord(b), coord(p)) {
        Orientation::CounterClockwise => Side::Left,
        Orientation::Collinear => Side::On,
        Orientation::Clockwise => Side::Right,
    }
}

/// Do the closed segments share a point? Exact.
pub(super) fn segments_meet(a: Vec2, b: Vec2, c: Vec2, d: Vec2) -> bool {
    let (ca, cb) = (side(c, d, a), side(c, d, b));
    let (ac, ad) = (side(a, b, c), side(a, b, d));
    if ca != cb && ac != ad && [ca, cb, ac, ad].iter().all(|s| *s != Side::On) {
        return true;
    }
    (ca == Side::On && between(c, d, a))
        || (cb == Side::On && between(c, d, b))
        || (ac == Side::On && between(a, b, c))
        || (ad == Side::On && between(a, b, d))
}

/// Does `p`, known to lie on the line through `a` and `b`, lie between them?
pub(super) fn between(a: Vec2, b: Vec2, p: Vec2) -> bool {
    a.x.min(b.x) <= p.x && p.x <= a.x.max(b.x) && a.y.min(b.y) <= p.y && p.y <= a.y.max(b.y)
}

pub(super) fn coord(p: Vec2) -> Coord<f64> {
    Coord { x: p.x, y: p.y }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    /// The example of Kettner, Mehlhorn, Pion, Schirra and Yap (2008), Classroom examples of
    /// robustness problems in geometric computations, Computational Geometry 40, 61-78, figure 2:
    /// near (0.5, 0.5) the plain determinant against (12, 12) and (24, 24) takes all three signs
    /// wrongly. The truth is the sign of y − x.
    #[test]
    fn near_the_line_the_side_is_still_exact() {
        let ulp = f64::EPSILON / 2.0;
        for i in 0..64 {
            for j in 0..64 {
                let p = vec2(0.5 + f64::from(i) * ulp, 0.5 + f64::from(j) * ulp);
                let expected = match j.cmp(&i) {
                    std::cmp::Ordering::Greater => Side::Left,
                    std::cmp::Ordering::Equal => Side::On,
                    std::cmp::Ordering::Less => Side::Right,
                };
                assert_eq!(
                    side(vec2(12.0, 12.0), vec2(24.0, 24.0), p),
                    expected,
                    "{i} {j}"
                );
            }
        }
    }

    #[test]
    fn touching_segments_meet() {
        let (a, b) = (vec2(0.0, 0.0), vec2(2.0, 0.0));
        assert!(
            segments_meet(a, b, vec2(1.0, -1.0), vec2(1.0, 1.0)),
            "cross"
        );
        assert!(segments_meet(a, b, vec2(1.0, 0.0), vec2(1.0, 1.0)), "a tee");
        assert!(
            segments_meet(a, b, vec2(2.0, 0.0), vec2(3.0, 0.0)),
            "end to end"
        );
        assert!(
            segments_meet(a, b, vec2(1.0, 0.0), vec2(3.0, 0.0)),
            "one on the other"
        );
        assert!(
            !segments_meet(a, b, vec2(2.1, 0.0), vec2(3.0, 0.0)),
            "in line, apart"
        );
        assert!(
            !segments_meet(a, b, vec2(1.0, 0.1), vec2(1.0, 1.0)),
            "above"
        );
    }
}
