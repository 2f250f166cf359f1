//! What keeps a list of points from being an outline: points that are the same, edges that cross.

use super::edge;
use crate::geometry::predicates::{Side, segments_meet, side};
use crate::geometry::tolerances::SAME_POINT_M;
use crate::geometry::{Segment, Vec2};

/// The first two vertices, by number, that are the same point.
pub(super) fn repeated_vertex(vertices: &[Vec2]) -> Option<(usize, usize)> {
    let mut order: Vec<usize> = (0..vertices.len()).collect();
    order.sort_by(|&i, &j| vertices[i].total_cmp(vertices[j]));
    let mut found: Option<(usize, usize)> = None;
    for (k, &i) in order.iter().enumerate() {
        let near = order[k + 1..]
            .iter()
            .take_while(|&&j| vertices[j].x - vertices[i].x <= SAME_POINT_M);
        for &j in near {
            if vertices[i].distance(vertices[j]) <= SAME_POINT_M {
                let pair = (i.min(j), i.max(j));
                found = Some(found.map_or(pair, |best| best.min(pair)));
                // One repeat is enough where thousands of vertices lie on one point.
                break;
            }
        }
    }
    found
}

/// Do the vertices turn to the same side at every corner, and round once in all? Then no edge can cross another, and
/// that is told by one look at each corner.
pub(super) fn goes_round_once(vertices: &[Vec2]) -> bool {
    let n = vertices.len();
    let at = |i: usize| vertices[i % n];
    let turn = side(at(0), at(1), at(2));
    let turns = turn != Side::On && (1..n).all(|i| side(at(i), at(i + 1), at(i + 2)) == turn);
    // What turns to one side only goes round as often as it has a rightmost corner.
    let is_before = |i: usize| at(i).total_cmp(at(i + 1)).is_lt();
    turns
        && (0..n)
            .filter(|&i| is_before(i) && !is_before(i + 1))
            .count()
            == 1
}

/// The first two edges, by number, that cross or touch; neighbours may share their vertex.
///
/// Sorted by their left end, so that only edges that overlap in `x` are compared.
pub(super) fn self_crossing(vertices: &[Vec2]) -> Option<(usize, usize)> {
    let n = vertices.len();
    let bounds: Vec<_> = (0..n).map(|i| edge(vertices, i).bounds()).collect();
    let mut order: Vec<usize> = (0..n).collect();
    order.sort_by(|&i, &j| bounds[i].min.x.total_cmp(&bounds[j].min.x));
    let mut found: Option<(usize, usize)> = None;
    for (k, &i) in order.iter().enumerate() {
        let overlapping = order[k + 1..]
            .iter()
            .take_while(|&&j| bounds[j].min.x <= bounds[i].max.x);
        for &j in overlapping {
            if !bounds[i].meets(&bounds[j]) {
                continue;
            }
            let pair = (i.min(j), i.max(j));
            if found.is_none_or(|best| pair < best) && edges_conflict(vertices, pair) {
                found = Some(pair);
            }
        }
    }
    found
}

fn edges_conflict(vertices: &[Vec2], (i, j): (usize, usize)) -> bool {
    let n = vertices.len();
    let (first, second) = (edge(vertices, i), edge(vertices, j));
    if i + 1 == j {
        folds_back(first.from, first.to, second.to)
    } else if j + 1 == n && i == 0 {
        folds_back(second.from, second.to, first.to)
    } else {
        segments_meet(first.from, first.to, second.from, second.to)
    }
}

/// Does the path from `a` by `b` to `c` return along itself?
fn folds_back(a: Vec2, b: Vec2, c: Vec2) -> bool {
    side(a, b, c) == Side::On && (a - b).dot(c - b) > 0.0
}

/// A point that two edges known to meet have in common.
pub(super) fn common_point(first: &Segment, second: &Segment) -> Vec2 {
    first.nearest(second).a
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::vec2;

    fn corners(points: &[(f64, f64)]) -> Vec<Vec2> {
        points.iter().map(|&(x, y)| vec2(x, y)).collect()
    }

    #[test]
    fn a_star_turns_to_one_side_and_goes_round_twice() {
        let star = corners(&[
            (0.0, 1.0),
            (-0.6, -0.8),
            (0.95, 0.3),
            (-0.95, 0.3),
            (0.6, -0.8),
        ]);
        assert!(!goes_round_once(&star));
        assert!(self_crossing(&star).is_some());
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        assert!(goes_round_once(&corners(&square)));
        let mut turned = square;
        turned.reverse();
        assert!(goes_round_once(&corners(&turned)));
        assert!(!goes_round_once(&corners(&[
            (0.0, 0.0),
            (1.0, 0.0),
            (2.0, 0.0),
            (1.0, 1.0)
        ])));
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        /// On a coarse grid many are crossed, folded back or convex.
        #[test]
        fn nothing_that_goes_round_once_crosses_itself(
            points in proptest::collection::vec((-3_i8..=3, -3_i8..=3), 3..8),
        ) {
            let points: Vec<Vec2> =
                points.iter().map(|&(x, y)| vec2(f64::from(x), f64::from(y))).collect();
            if goes_round_once(&points) {
                prop_assert!(repeated_vertex(&points).is_none(), "{points:?}");
                prop_assert!(self_crossing(&points).is_none(), "{points:?}");
            }
        }
    }
}
