//! The middle of where two shapes are nearest to each other.
//!
//! Two parallel faces are nearest all along; which of these points an algorithm comes upon first depends on
//! the order of the corners. What is shown to people is the middle, which does not, and which is mirrored with
//! the shapes.

use super::separation::rounded;
use super::{Nearest, Shape, Vec2, vec2};

/// Points whose distances differ by less are equally near, in metres.
const EQUAL_M: f64 = 1e-9;

/// The point of the first shape in the middle of where it is nearest to the second.
///
/// Where they overlap it is in the middle of what they share; where they are as near in several places apart, it
/// is in one of them, the foremost.
pub fn middle_of_nearest(first: &Shape, second: &Shape) -> Vec2 {
    let ((core_a, radius_a), (core_b, radius_b)) = (first.core(), second.core());
    let mut pairs: Vec<Nearest> = Vec::new();
    let mut offer = |a: Vec2, b: Vec2| {
        pairs.push(Nearest {
            distance_m: a.distance(b),
            a,
            b,
        });
    };
    for &p in core_a.as_slice() {
        if core_b.encloses(p) {
            offer(p, p);
        }
    }
    for &p in core_b.as_slice() {
        if core_a.encloses(p) {
            offer(p, p);
        }
    }
    for edge in core_a.edges() {
        for other in core_b.edges() {
            for p in [edge.from, edge.to] {
                offer(p, other.nearest_point(p));
            }
            for p in [other.from, other.to] {
                offer(edge.nearest_point(p), p);
            }
            if let Some(p) = edge.crossing(&other) {
                offer(p, p);
            }
        }
    }
    let least_m = (pairs.iter())
        .map(|pair| pair.distance_m)
        .fold(f64::INFINITY, f64::min);
    pairs.retain(|pair| pair.distance_m <= least_m + EQUAL_M);
    let (a, b) = (
        middle(pairs.iter().map(|pair| pair.a)),
        middle(pairs.iter().map(|pair| pair.b)),
    );
    let between = Nearest {
        distance_m: a.distance(b),
        a,
        b,
    };
    // Between two places apart there is nothing that is as near.
    let is_near = least_m <= EQUAL_M || (between.distance_m - least_m).abs() <= 1e-6;
    let foremost = || {
        let mut best = pairs[0];
        for pair in &pairs[1..] {
            let further = pair.a.x - best.a.x;
            let is_nearer_to_middle = pair.a.y.abs() < best.a.y.abs();
            if further > EQUAL_M || (further > -EQUAL_M && is_nearer_to_middle) {
                best = *pair;
            }
        }
        best
    };
    let chosen = if is_near { between } else { foremost() };
    rounded(chosen, radius_a, radius_b).a
}

/// The middle of the smallest upright rectangle round the points.
fn middle(points: impl Iterator<Item = Vec2>) -> Vec2 {
    let all = (
        vec2(f64::INFINITY, f64::INFINITY),
        -vec2(f64::INFINITY, f64::INFINITY),
    );
    let (low, high) = points.fold(all, |(low, high), p| {
        (
            vec2(low.x.min(p.x), low.y.min(p.y)),
            vec2(high.x.max(p.x), high.y.max(p.y)),
        )
    });
    low.lerp(high, 0.5)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::{rectangle, separation};

    fn close(a: Vec2, b: Vec2) -> bool {
        a.distance(b) < 1e-9
    }

    fn boxed(x: f64, y: f64, length: f64, width: f64) -> Shape {
        rectangle(vec2(x, y), 0.5 * length, 0.5 * width, 0.0).unwrap()
    }

    #[test]
    fn the_middle_of_what_faces_the_other() {
        // From x = 0.5 to 1 the faces are opposite each other, 0.5 m apart.
        let (first, second) = (boxed(0.5, 0.0, 1.0, 1.0), boxed(1.0, 1.5, 1.0, 1.0));
        assert!(close(middle_of_nearest(&first, &second), vec2(0.75, 0.5)));
        assert!(close(middle_of_nearest(&second, &first), vec2(0.75, 1.0)));
        // A lying cylinder beside a line.
        let stadium = Shape::Stadium {
            from: vec2(1.0, 1.0),
            to: vec2(2.0, 1.0),
            radius: 0.1,
        };
        let line = Shape::line(vec2(0.0, 0.0), vec2(5.0, 0.0));
        assert!(close(middle_of_nearest(&stadium, &line), vec2(1.5, 0.9)));
        // Across it: the middle of what the line cuts off.
        let across = boxed(3.0, 0.2, 1.0, 1.0);
        assert!(close(middle_of_nearest(&across, &line), vec2(3.0, 0.0)));
        // Overlapping: the middle of what both cover.
        let (one, other) = (boxed(0.0, 0.0, 2.0, 2.0), boxed(1.0, 1.5, 2.0, 2.0));
        assert!(close(middle_of_nearest(&one, &other), vec2(0.5, 0.75)));
        let disc = Shape::disc(vec2(0.0, 2.0), 0.5);
        assert!(close(middle_of_nearest(&disc, &line), vec2(0.0, 1.5)));
    }

    proptest! {
        #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

        /// It is as near as anything, and mirrored with the shapes.
        #[test]
        fn it_is_nearest_and_mirrored(
            (x, y, turn) in (-2.0..2.0_f64, -2.0..2.0_f64, 0.0..6.0_f64),
            (length, width) in (0.1..1.0_f64, 0.1..1.0_f64),
            square in any::<bool>(),
        ) {
            let turn = if square { 0.0 } else { turn };
            let other = boxed(0.0, 0.1, 1.0, 0.6);
            let first = rectangle(vec2(x, y), length, width, turn).unwrap();
            let at = middle_of_nearest(&first, &other);
            let apart = separation(&first, &other);
            let gap = separation(&Shape::disc(at, 0.0), &other).gap_m;
            prop_assert!((gap - apart.gap_m).abs() < 1e-6, "{gap} {apart:?}");
            prop_assert!(separation(&Shape::disc(at, 0.0), &first).gap_m < 1e-9);
            let mirrored = rectangle(vec2(x, -y), length, width, -turn).unwrap();
            let there = middle_of_nearest(&mirrored, &boxed(0.0, -0.1, 1.0, 0.6));
            prop_assert!(close(there, vec2(at.x, -at.y)), "{at:?} {there:?}");
        }
    }
}
