//! Areas covered by several shapes together.

use super::predicates::coord;
use super::{Index, Shape, Vec2, separation};

/// Chords of a thirtieth of a radian lose less than a thousandth of a round area.
const STEP_RAD: f64 = 1.0 / 30.0;

/// The shapes that hang together, by their numbers.
///
/// Each cluster is in rising order, the clusters by the first of each. `joins` is asked of pairs whose bounds come within `margin_m` of each other,
/// and must not depend on their order.
pub fn clusters(
    shapes: &[&Shape],
    margin_m: f64,
    joins: impl Fn(&Shape, &Shape) -> bool,
) -> Vec<Vec<usize>> {
    let index = Index::new(shapes.iter().map(|shape| shape.bounds()));
    let mut seen = vec![false; shapes.len()];
    let mut all = Vec::new();
    for start in 0..shapes.len() {
        if std::mem::replace(&mut seen[start], true) {
            continue;
        }
        let mut group = vec![start];
        let mut next = 0;
        while let Some(&i) = group.get(next) {
            next += 1;
            for j in index.within(&shapes[i].bounds(), margin_m) {
                if !seen[j] && joins(shapes[i], shapes[j]) {
                    seen[j] = true;
                    group.push(j);
                }
            }
        }
        group.sort_unstable();
        all.push(group);
    }
    all
}

/// The area covered by any of the shapes, in m²: exact for those that overlap no other, to a
/// thousandth for the rest.
pub fn union_area(shapes: &[&Shape]) -> f64 {
    let clusters = clusters(shapes, 0.0, |a, b| separation(a, b).overlaps());
    let areas = clusters.into_iter().map(|group| match group.as_slice() {
        [one] => shapes[*one].area(),
        several => {
            let drawn: Vec<geo::Polygon> = (several.iter())
                .filter_map(|i| shapes[*i].to_polygon(STEP_RAD))
                .map(|ring| geo::Polygon::new(ring.into_iter().map(coord).collect(), Vec::new()))
                .collect();
            geo::Area::unsigned_area(&geo::algorithm::bool_ops::unary_union(&drawn))
        }
    });
    areas.sum()
}

/// The area inside a line drawn tight round points, in m²; 0 for fewer than three.
///
/// # References
///
/// A. M. Andrew (1979), Another efficient algorithm for convex hulls in two dimensions, Information
/// Processing Letters 9, 216-219.
pub fn hull_area(mut points: Vec<Vec2>) -> f64 {
    points.sort_by(|a, b| a.total_cmp(*b));
    let half = |points: &mut dyn Iterator<Item = Vec2>| {
        let mut chain: Vec<Vec2> = Vec::new();
        for p in points {
            while let [.., a, b] = chain[..]
                && (b - a).cross(p - b) <= 0.0
            {
                chain.pop();
            }
            chain.push(p);
        }
        chain.pop();
        chain
    };
    let mut ring = half(&mut points.iter().copied());
    ring.extend(half(&mut points.iter().rev().copied()));
    let doubled: f64 = (ring.iter())
        .zip(ring.iter().cycle().skip(1))
        .map(|(a, b)| a.cross(*b))
        .sum();
    0.5 * doubled
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    /// Side of a sampling cell.
    const CELL_M: f64 = 0.01;

    use super::*;
    use crate::geometry::test_support::cases;
    use crate::geometry::{Outline, vec2};

    fn rect(x1: f64, y1: f64, x2: f64, y2: f64) -> Shape {
        let corners = vec![vec2(x1, y1), vec2(x2, y1), vec2(x2, y2), vec2(x1, y2)];
        Shape::Polygon(Outline::new(corners).unwrap())
    }

    #[test]
    fn a_hull_by_hand() {
        let square = [(0., 0.), (2., 0.), (1., 1.), (2., 2.), (0., 2.), (0., 1.)];
        let area = hull_area(square.map(|(x, y)| vec2(x, y)).to_vec());
        assert!((area - 4.0).abs() < 1e-12, "{area}");
        assert!(hull_area(vec![vec2(1., 1.)]).abs() < 1e-12, "a point");
        assert!(hull_area(vec![vec2(0., 0.), vec2(1., 1.)]).abs() < 1e-12);
    }

    proptest! {
        #![proptest_config(cases(40))]

        /// By counting points of a grid.
        #[test]
        fn the_union_is_what_is_covered(places in prop::collection::vec((0..20i32, 0..20i32, 0..2u8), 0..12)) {
            let shapes: Vec<Shape> = (places.iter())
                .map(|(x, y, kind)| {
                    let at = vec2(0.1 * f64::from(*x), 0.1 * f64::from(*y));
                    match kind {
                        0 => Shape::disc(at, 0.17),
                        _ => rect(at.x - 0.23, at.y - 0.11, at.x + 0.23, at.y + 0.11),
                    }
                })
                .collect();
            let all: Vec<&Shape> = shapes.iter().collect();
            let cells = (0..270).flat_map(|i| (0..270).map(move |j| (i, j)));
            let covered = cells
                .filter(|(i, j)| {
                    let p = vec2(CELL_M * (f64::from(*i) + 0.5) - 0.3, CELL_M * (f64::from(*j) + 0.5) - 0.3);
                    shapes.iter().any(|shape| shape.contains(p))
                })
                .count();
            let counted = covered as f64 * CELL_M * CELL_M;
            // Cells that an edge of at most 12 x 1.4 m passes, half of them wrongly counted at worst;
            // in truth the errors of both sides cancel to much less.
            prop_assert!((union_area(&all) - counted).abs() < 0.03, "{} {counted}", union_area(&all));
        }
    }
}
