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
