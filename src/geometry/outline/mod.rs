mod convex;
mod mistakes;

use self::mistakes::{common_point, goes_round_once, repeated_vertex, self_crossing};
use super::predicates::{Side, between, side};
use super::tolerances::MIN_AREA_M2;
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
        if !goes_round_once(&vertices)
            && let Some((first_edge, second_edge)) = self_crossing(&vertices)
        {
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

#[cfg(test)]
mod tests;
