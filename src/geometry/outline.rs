use super::predicates::{Side, between, coord, segments_meet, side};
use super::tolerances::{MIN_AREA_M2, SAME_POINT_M};
use super::{Bounds, Nearest, Segment, Vec2};

/// A simple polygon, not closed: the last vertex joins the first.
///
/// Invariant: at least three vertices, all finite, no two the same, no edge crosses or touches
/// another (neighbours share only their vertex), area at least
/// [`MIN_AREA_M2`](super::tolerances::MIN_AREA_M2). Stored counter-clockwise; a clockwise list is
/// turned round and keeps its first vertex.
#[derive(Clone, Debug, PartialEq)]
pub struct Outline {
    vertices: Vec<Vec2>,
    bounds: Bounds,
    is_convex: bool,
}

/// Why a list of points is no [`Outline`]. Vertices and edges are counted from 0 in the order given;
/// edge *i* runs from vertex *i* to the next.
#[derive(Copy, Clone, Debug, PartialEq, thiserror::Error)]
pub enum OutlineError {
    /// Fewer than three points.
    #[error("an outline needs at least 3 vertices, got {count}")]
    TooFewVertices {
        /// How many there are.
        count: usize,
    },

    /// A coordinate is infinite or not a number.
    #[error("vertex {vertex} is not finite")]
    NotFinite {
        /// Which.
        vertex: usize,
    },

    /// Two vertices are the same point. An outline is not closed by repeating its first vertex.
    #[error("vertices {first} and {second} are the same point, ({:.3}, {:.3})", at.x, at.y)]
    RepeatedVertex {
        /// The earlier one.
        first: usize,
        /// The later one.
        second: usize,
        /// Where.
        at: Vec2,
    },

    /// Two edges cross or touch each other.
    #[error(
        "edges {first_edge} and {second_edge} cross or touch at ({:.3}, {:.3})", at.x, at.y
    )]
    SelfCrossing {
        /// The earlier one.
        first_edge: usize,
        /// The later one.
        second_edge: usize,
        /// Where.
        at: Vec2,
    },

    /// It encloses next to nothing.
    #[error("the outline encloses only {area_m2:.2e} m²")]
    Degenerate {
        /// The enclosed area.
        area_m2: f64,
    },
}

impl Outline {
    /// Checks the invariant.
    ///
    /// The first mistake is reported: too few, not finite, repeated, crossing, degenerate; of
    /// several repeated vertices or crossings the one with the lowest numbers.
    pub fn new(mut vertices: Vec<Vec2>) -> Result<Self, OutlineError> {
        if vertices.len() < 3 {
            return Err(OutlineError::TooFewVertices {
                count: vertices.len(),
            });
        }
        if let Some(vertex) = vertices.iter().position(|v| !v.is_finite()) {
            return Err(OutlineError::NotFinite { vertex });
        }
        if let Some((first, second)) = repeated_vertex(&vertices) {
            let at = vertices[first];
            return Err(OutlineError::RepeatedVertex { first, second, at });
        }
        if let Some((first_edge, second_edge)) = self_crossing(&vertices) {
            let edges = [first_edge, second_edge].map(|i| edge(&vertices, i));
            return Err(OutlineError::SelfCrossing {
                first_edge,
                second_edge,
                at: common_point(&edges[0], &edges[1]),
            });
        }
        let signed = signed_area(&vertices);
        // Written so that an area that overflowed to something that is no number fails too.
        if !(signed.abs() >= MIN_AREA_M2 && signed.is_finite()) {
            let area_m2 = signed.abs();
            return Err(OutlineError::Degenerate { area_m2 });
        }
        if signed < 0.0 {
            vertices[1..].reverse();
        }
        Ok(Self::from_checked(vertices))
    }

    /// For vertices that satisfy the invariant because of where they come from.
    pub(super) fn from_checked(vertices: Vec<Vec2>) -> Self {
        let n = vertices.len();
        let is_convex = (0..n).all(|i| {
            side(vertices[i], vertices[(i + 1) % n], vertices[(i + 2) % n]) != Side::Right
        });
        Self {
            bounds: Bounds::of(vertices.iter().copied()),
            is_convex,
            vertices,
        }
    }

    /// The vertices, counter-clockwise.
    pub fn vertices(&self) -> &[Vec2] {
        &self.vertices
    }

    /// The edges, counter-clockwise; edge *i* starts at vertex *i*.
    pub fn edges(&self) -> impl Iterator<Item = Segment> + Clone + '_ {
        (0..self.vertices.len()).map(|i| edge(&self.vertices, i))
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// Is there no inward corner?
    pub fn is_convex(&self) -> bool {
        self.is_convex
    }

    /// The enclosed area in m², positive.
    pub fn area(&self) -> f64 {
        signed_area(&self.vertices)
    }

    /// The centre of the enclosed area.
    ///
    /// The mean of the centres of the triangles between the first vertex and each edge, weighted by
    /// their signed areas.
    pub fn centroid(&self) -> Vec2 {
        let origin = self.vertices[0];
        let (mut moment, mut doubled_area) = (Vec2::ZERO, 0.0);
        for Segment { from, to } in self.edges() {
            let (a, b) = (from - origin, to - origin);
            let cross = a.cross(b);
            moment += cross / 3.0 * (a + b);
            doubled_area += cross;
        }
        origin + moment / doubled_area
    }

    /// Is the point inside or on an edge? Exact.
    pub fn contains(&self, p: Vec2) -> bool {
        self.locate(p) != Side::Right
    }

    /// Is the point inside and on no edge? Exact.
    pub fn contains_inside(&self, p: Vec2) -> bool {
        self.locate(p) == Side::Left
    }

    /// Left is inside, right is outside, as seen when walking along the edges.
    ///
    /// Counts the edges that a ray from the point towards `+x` crosses. An edge owns its lower end
    /// and not its upper one, so that a ray through a vertex counts it once or not at all.
    fn locate(&self, p: Vec2) -> Side {
        if !self.bounds.contains(p) {
            return Side::Right;
        }
        let mut inside = false;
        for Segment { from, to } in self.edges() {
            let upward = to.y > from.y;
            let spans = (from.y > p.y) != (to.y > p.y);
            // Both ends to the right: crossed for sure. Both to the left: not crossed.
            if spans && from.x > p.x && to.x > p.x {
                inside = !inside;
                continue;
            }
            if (from.x < p.x && to.x < p.x) || (from.y - p.y) * (to.y - p.y) > 0.0 {
                continue;
            }
            match side(from, to, p) {
                Side::On if between(from, to, p) => return Side::On,
                Side::On => {}
                Side::Left => inside ^= spans && upward,
                Side::Right => inside ^= spans && !upward,
            }
        }
        if inside { Side::Left } else { Side::Right }
    }

    /// The point of the edges nearest to `p`, and how far away it is.
    pub fn nearest_on_edge(&self, p: Vec2) -> Nearest {
        let first = self.vertices[0];
        let start = Nearest {
            distance_m: p.distance(first),
            a: p,
            b: first,
        };
        self.edges().fold(start, |best, edge| {
            let b = edge.nearest_point(p);
            best.nearer(Nearest {
                distance_m: p.distance(b),
                a: p,
                b,
            })
        })
    }

    /// How far the point is from the nearest edge, whether inside or outside.
    pub fn distance_to_edge(&self, p: Vec2) -> f64 {
        self.nearest_on_edge(p).distance_m
    }

    /// The same shape, shifted.
    #[must_use]
    pub fn translated(&self, shift: Vec2) -> Self {
        Self {
            vertices: self.vertices.iter().map(|v| *v + shift).collect(),
            bounds: Bounds {
                min: self.bounds.min + shift,
                max: self.bounds.max + shift,
            },
            is_convex: self.is_convex,
        }
    }

    /// The image on the other side of the x axis; keeps its first vertex.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        let mut vertices: Vec<_> = self.vertices.iter().map(|v| v.mirrored_y()).collect();
        vertices[1..].reverse();
        Self::from_checked(vertices)
    }

    /// Convex pieces that together cover it and overlap only along edges: itself if it is convex.
    ///
    /// Triangles from ear clipping, joined again across every diagonal that leaves them convex.
    ///
    /// # References
    ///
    /// S. Hertel, K. Mehlhorn (1983), Fast triangulation of simple polygons, Foundations of
    /// Computation Theory, LNCS 158: at most four times as many pieces as needed.
    pub(super) fn convex_parts(&self) -> Vec<Vec<Vec2>> {
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

fn edge(vertices: &[Vec2], i: usize) -> Segment {
    let next = if i + 1 == vertices.len() { 0 } else { i + 1 };
    Segment::new(vertices[i], vertices[next])
}

/// Half the sum of the edge determinants, relative to the first vertex: positive if
/// counter-clockwise.
///
/// Subtracting the first vertex keeps the digits that a polygon far from the origin would lose.
///
/// # References
///
/// A. L. F. Meister (1769), Generalia de genesi figurarum planarum: the shoelace formula.
fn signed_area(vertices: &[Vec2]) -> f64 {
    let origin = vertices[0];
    let doubled: f64 = (0..vertices.len())
        .map(|i| edge(vertices, i))
        .map(|edge| (edge.from - origin).cross(edge.to - origin))
        .sum();
    0.5 * doubled
}

/// The first two vertices, by number, that are the same point.
fn repeated_vertex(vertices: &[Vec2]) -> Option<(usize, usize)> {
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
fn self_crossing(vertices: &[Vec2]) -> Option<(usize, usize)> {
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
fn common_point(first: &Segment, second: &Segment) -> Vec2 {
    first.nearest(second).a
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    fn outline(points: &[(f64, f64)]) -> Result<Outline, OutlineError> {
        Outline::new(points.iter().map(|&(x, y)| vec2(x, y)).collect())
    }

    #[test]
    fn area_and_centre_match_hand_values() {
        // (what, vertices, area, centroid), by hand.
        type Case = (&'static str, &'static [(f64, f64)], f64, (f64, f64));
        let cases: &[Case] = &[
            (
                "square",
                &[(0., 0.), (1., 0.), (1., 1.), (0., 1.)],
                1.0,
                (0.5, 0.5),
            ),
            (
                "clockwise triangle",
                &[(0., 0.), (0., 3.), (3., 0.)],
                4.5,
                (1., 1.),
            ),
            (
                "far away",
                &[
                    (1e6, 1e6),
                    (1e6 + 2., 1e6),
                    (1e6 + 2., 1e6 + 2.),
                    (1e6, 1e6 + 2.),
                ],
                4.0,
                (1e6 + 1., 1e6 + 1.),
            ),
            // Two rectangles: 2 x 1 with centre (1, 0.5), 1 x 1 with centre (0.5, 1.5).
            (
                "an L",
                &[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)],
                3.0,
                (2.5 / 3., 2.5 / 3.),
            ),
        ];
        for &(what, points, area, (x, y)) in cases {
            let outline = outline(points).unwrap();
            assert!(
                (outline.area() - area).abs() < 1e-9,
                "{what}: {}",
                outline.area()
            );
            assert!(
                outline.centroid().distance(vec2(x, y)) < 1e-9,
                "{what}: {:?}",
                outline.centroid()
            );
        }
    }

    #[test]
    fn mistakes_are_located() {
        // (what, vertices, message)
        type Case = (&'static str, &'static [(f64, f64)], &'static str);
        let cases: &[Case] = &[
            (
                "few",
                &[(0., 0.), (1., 1.)],
                "an outline needs at least 3 vertices, got 2",
            ),
            (
                "nan",
                &[(0., 0.), (f64::NAN, 1.), (1., 1.)],
                "vertex 1 is not finite",
            ),
            (
                "closed",
                &[(0., 0.), (1., 0.), (1., 1.), (0., 0.)],
                "vertices 0 and 3 are the same point, (0.000, 0.000)",
            ),
            (
                "bow tie",
                &[(0., 0.), (2., 2.), (2., 0.), (0., 2.)],
                "edges 0 and 2 cross or touch at (1.000, 1.000)",
            ),
            (
                "vertex on an edge",
                &[(0., 0.), (4., 0.), (4., 2.), (2., 0.), (0., 2.)],
                "edges 0 and 2 cross or touch at (2.000, 0.000)",
            ),
            (
                "spike",
                &[(0., 0.), (2., 0.), (1., 0.), (1., 1.)],
                "edges 0 and 1 cross or touch at (2.000, 0.000)",
            ),
            (
                "spike at the first vertex",
                &[(2., 0.), (1., 0.), (1., 1.), (0., 0.)],
                "edges 0 and 3 cross or touch at (2.000, 0.000)",
            ),
            (
                "tiny",
                &[(0., 0.), (1e-4, 0.), (0., 1e-4)],
                "the outline encloses only 5.00e-9 m²",
            ),
            (
                "too large to have an area",
                &[(0., 0.), (1e300, 0.), (0., 1e300)],
                "the outline encloses only inf m²",
            ),
        ];
        for &(what, points, message) in cases {
            let error = outline(points).unwrap_err();
            assert_eq!(error.to_string(), message, "{what}");
        }
        assert!(
            outline(&[(0., 0.), (1., 0.), (2., 0.), (2., 2.)]).is_ok(),
            "a vertex on a straight side"
        );
    }

    #[test]
    fn edges_and_vertices_belong_to_it() {
        let diamond = outline(&[(1., 0.), (2., 1.), (1., 2.), (0., 1.)]).unwrap();
        for p in [vec2(1., 1.), vec2(0.5, 1.), vec2(1.9, 1.)] {
            assert!(
                diamond.contains(p) && diamond.contains_inside(p),
                "{p:?} inside"
            );
        }
        for p in [vec2(1., 0.), vec2(2., 1.), vec2(0.5, 0.5), vec2(1.25, 1.75)] {
            assert!(
                diamond.contains(p) && !diamond.contains_inside(p),
                "{p:?} on"
            );
        }
        for p in [
            vec2(0., 0.),
            vec2(0., 2.),
            vec2(0.25, 0.5),
            vec2(3., 1.),
            vec2(-1., 1.),
        ] {
            assert!(!diamond.contains(p), "{p:?} outside");
        }
    }

    #[test]
    fn mirrored_twice_is_itself() {
        let l = outline(&[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)]).unwrap();
        assert!(!l.is_convex(), "an L has an inward corner");
        assert!(
            l.mirrored_y().contains(vec2(0.5, -1.5)),
            "the upright of the L points down"
        );
        assert!(
            !l.mirrored_y().contains(vec2(1.5, -1.5)),
            "the notch stays a notch"
        );
        assert_eq!(l.mirrored_y().mirrored_y(), l, "twice");
    }

    #[test]
    fn convex_parts_cover_it_once() {
        let u = outline(&[
            (0., 0.),
            (3., 0.),
            (3., 2.),
            (2., 2.),
            (2., 1.),
            (1., 1.),
            (1., 2.),
            (0., 2.),
        ])
        .unwrap();
        let parts: Vec<_> = u
            .convex_parts()
            .into_iter()
            .map(|p| Outline::new(p).unwrap())
            .collect();
        assert!(parts.iter().all(Outline::is_convex), "each is convex");
        assert!(parts.len() <= 4, "joined: {} parts", parts.len());
        let area: f64 = parts.iter().map(Outline::area).sum();
        assert!((area - u.area()).abs() < 1e-12, "{area} != {}", u.area());
    }
}
