//! An outline as convex pieces.

use super::Outline;
use crate::geometry::Vec2;
use crate::geometry::predicates::{Side, coord, side};

impl Outline {
    /// Convex pieces that together cover it and overlap only along edges: itself if it is convex.
    ///
    /// Triangles from ear clipping, joined again across every diagonal that leaves them convex.
    ///
    /// # References
    ///
    /// S. Hertel, K. Mehlhorn (1983), Fast triangulation of simple polygons, Foundations of
    /// Computation Theory, LNCS 158: at most four times as many pieces as needed.
    pub(in crate::geometry) fn convex_parts(&self) -> Vec<Vec<Vec2>> {
        use geo::TriangulateEarcut as _;
        if self.is_convex {
            return vec![self.vertices.clone()];
        }
        let ring = self.vertices.iter().map(|v| coord(*v)).collect();
        let mut parts: Vec<Vec<Vec2>> = Vec::new();
        for triangle in geo::Polygon::new(ring, Vec::new()).earcut_triangles_iter() {
            let mut part: Vec<_> = (triangle.to_array())
                .map(|c| Vec2 { x: c.x, y: c.y })
                .to_vec();
            match side(part[0], part[1], part[2]) {
                Side::Left => {}
                Side::On => continue,
                Side::Right => part.reverse(),
            }
            parts.push(part);
        }
        join_convex(&mut parts);
        parts
    }
}

/// Joins parts across common edges as long as the union stays convex.
fn join_convex(parts: &mut Vec<Vec<Vec2>>) {
    let mut i = 0;
    while i < parts.len() {
        let joined =
            (i + 1..parts.len()).find_map(|j| Some((j, convex_union(&parts[i], &parts[j])?)));
        if let Some((j, union)) = joined {
            parts[i] = union;
            parts.swap_remove(j);
        } else {
            i += 1;
        }
    }
}

/// The union of two convex counter-clockwise polygons with a common edge, if it is convex.
fn convex_union(a: &[Vec2], b: &[Vec2]) -> Option<Vec<Vec2>> {
    let (n, m) = (a.len(), b.len());
    for i in 0..n {
        let Some(j) = (0..m).find(|&j| b[j] == a[(i + 1) % n] && b[(j + 1) % m] == a[i]) else {
            continue;
        };
        // All of `a`, starting behind the common edge, then those of `b` that are not its ends.
        let union: Vec<_> = (1..=n)
            .map(|k| a[(i + k) % n])
            .chain((2..m).map(|k| b[(j + k) % m]))
            .collect();
        let k = union.len();
        let turns_left = |c| side(union[c], union[(c + 1) % k], union[(c + 2) % k]) != Side::Right;
        return (0..k).all(turns_left).then_some(union);
    }
    None
}
