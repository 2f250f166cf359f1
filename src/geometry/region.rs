use super::tolerances::ON_EDGE_M;
use super::{Bounds, Nearest, Outline, Segment, Vec2};

/// A floor: what an outline encloses without the holes in it.
///
/// Invariant: every hole lies within the outline, and holes neither cross nor contain each other.
/// Holes may touch the outline and each other, and reach over by up to a millimetre. Edges belong to the region, those of holes too.
#[derive(Clone, Debug, PartialEq)]
pub struct Region {
    outline: Outline,
    holes: Vec<Outline>,
}

/// Why an outline and some holes are no [`Region`]. Holes are counted from 0.
#[derive(Copy, Clone, Debug, PartialEq, thiserror::Error)]
pub enum RegionError {
    /// A hole lies outside or sticks out of the outline.
    #[error("hole {hole} is outside the outline at ({:.3}, {:.3})", at.x, at.y)]
    HoleOutside {
        /// Which hole.
        hole: usize,
        /// Where.
        at: Vec2,
    },

    /// Two holes overlap.
    #[error("holes {first} and {second} overlap at ({:.3}, {:.3})", at.x, at.y)]
    HolesOverlap {
        /// The earlier one.
        first: usize,
        /// The later one.
        second: usize,
        /// Where.
        at: Vec2,
    },
}

impl Region {
    /// Checks the invariant; the first mistake is reported.
    ///
    /// A hole written to the millimetre cannot touch a slanted edge exactly, so it may stick out by up
    /// to [`ON_EDGE_M`].
    pub fn new(outline: Outline, holes: Vec<Outline>) -> Result<Self, RegionError> {
        for (hole, ring) in holes.iter().enumerate() {
            let sticks_out = |p: &Vec2| !outline.contains(*p) && is_off_edge(&outline, *p);
            let outside = (ring.vertices().iter().copied())
                .chain(middle_of_edges(ring))
                .find(sticks_out)
                .or_else(|| crossing(ring, &outline))
                // A notch of the outline may reach into the hole without crossing it properly.
                .or_else(|| {
                    (outline.vertices().iter().copied()).find(|v| is_deep_inside(ring, *v))
                });
            if let Some(at) = outside {
                return Err(RegionError::HoleOutside { hole, at });
            }
        }
        for (second, b) in holes.iter().enumerate() {
            for (first, a) in holes[..second].iter().enumerate() {
                if let Some(at) = overlap_point(a, b) {
                    return Err(RegionError::HolesOverlap { first, second, at });
                }
            }
        }
        Ok(Self { outline, holes })
    }

    /// The outer edge.
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// The holes, in the order given.
    pub fn holes(&self) -> &[Outline] {
        &self.holes
    }

    /// The smallest upright rectangle round it.
    pub fn bounds(&self) -> Bounds {
        self.outline.bounds()
    }

    /// The area without the holes, in m².
    pub fn area(&self) -> f64 {
        let holes: f64 = self.holes.iter().map(Outline::area).sum();
        self.outline.area() - holes
    }

    /// Is the point on the floor, or on its edge, or on the edge of a hole? Exact.
    pub fn contains(&self, p: Vec2) -> bool {
        self.outline.contains(p) && !self.holes.iter().any(|hole| hole.contains_inside(p))
    }

    /// The edges of the outline, then those of the holes.
    pub fn boundary_edges(&self) -> impl Iterator<Item = Segment> + Clone + '_ {
        (self.outline.edges()).chain(self.holes.iter().flat_map(Outline::edges))
    }

    /// The point of any edge nearest to `p`.
    pub fn nearest_on_edge(&self, p: Vec2) -> Nearest {
        (self.holes.iter())
            .map(|hole| hole.nearest_on_edge(p))
            .fold(self.outline.nearest_on_edge(p), Nearest::nearer)
    }

    /// How far the point is from the nearest edge, whether on the floor or off it.
    pub fn distance_to_edge(&self, p: Vec2) -> f64 {
        self.nearest_on_edge(p).distance_m
    }

    /// The image on the other side of the x axis.
    #[must_use]
    pub fn mirrored_y(&self) -> Self {
        Self {
            outline: self.outline.mirrored_y(),
            holes: self.holes.iter().map(Outline::mirrored_y).collect(),
        }
    }
}

impl From<Outline> for Region {
    fn from(outline: Outline) -> Self {
        Self {
            outline,
            holes: Vec::new(),
        }
    }
}

/// Where two outlines cross with all four ends of the edges clear of the crossing edge.
fn crossing(a: &Outline, b: &Outline) -> Option<Vec2> {
    if !a.bounds().meets(&b.bounds()) {
        return None;
    }
    let is_clear = |edge: &Segment, other: &Segment| {
        [other.from, other.to]
            .iter()
            .all(|end| edge.distance(*end) > ON_EDGE_M)
    };
    a.edges().find_map(|edge| {
        b.edges().find_map(|other| {
            let at = edge.crossing(&other)?;
            (is_clear(&edge, &other) && is_clear(&other, &edge)).then_some(at)
        })
    })
}

fn is_off_edge(ring: &Outline, p: Vec2) -> bool {
    ring.distance_to_edge(p) > ON_EDGE_M
}

fn is_deep_inside(ring: &Outline, p: Vec2) -> bool {
    ring.contains_inside(p) && is_off_edge(ring, p)
}

fn middle_of_edges(ring: &Outline) -> impl Iterator<Item = Vec2> {
    ring.edges().map(|edge| edge.middle())
}

/// A point inside both, if they share more than edges.
fn overlap_point(a: &Outline, b: &Outline) -> Option<Vec2> {
    if !a.bounds().meets(&b.bounds()) {
        return None;
    }
    let within = |inner: &Outline, outer: &Outline| {
        (inner.vertices().iter().copied())
            .chain(middle_of_edges(inner))
            .chain(
                [inner.centroid()]
                    .into_iter()
                    .filter(|p| inner.contains(*p)),
            )
            .find(|p| is_deep_inside(outer, *p))
    };
    crossing(a, b)
        .or_else(|| within(a, b))
        .or_else(|| within(b, a))
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "these values are exact in binary")]

    use super::*;
    use crate::geometry::vec2;

    fn rect(x1: f64, y1: f64, x2: f64, y2: f64) -> Outline {
        Outline::new(vec![vec2(x1, y1), vec2(x2, y1), vec2(x2, y2), vec2(x1, y2)]).unwrap()
    }

    #[test]
    fn holes_are_not_floor_but_their_edges_are() {
        let floor = Region::new(rect(0., 0., 4., 2.), vec![rect(1., 0.5, 2., 1.5)]).unwrap();
        assert_eq!(floor.area(), 7.0, "8 - 1");
        assert!(!floor.contains(vec2(1.5, 1.0)), "in the hole");
        assert!(floor.contains(vec2(1.0, 1.0)), "on the edge of the hole");
        assert!(floor.contains(vec2(4.0, 2.0)), "a corner");
        assert_eq!(
            floor.distance_to_edge(vec2(0.75, 1.0)),
            0.25,
            "the hole is nearest"
        );
        assert_eq!(floor.boundary_edges().count(), 8, "4 + 4");
        assert!(
            !floor.mirrored_y().contains(vec2(1.5, -1.0)),
            "mirrored hole"
        );
    }

    #[test]
    fn bad_holes_are_named() {
        let new = |holes| Region::new(rect(0., 0., 4., 2.), holes).map(|_| ());
        let touching = vec![rect(0., 0., 1., 1.), rect(1., 0., 2., 1.)];
        assert_eq!(new(touching), Ok(()), "touching is allowed");
        let outside = vec![rect(1., 0.5, 2., 1.5), rect(3.5, 0.5, 4.5, 1.5)];
        let at = vec2(4.5, 0.5);
        assert_eq!(
            new(outside),
            Err(RegionError::HoleOutside { hole: 1, at }),
            "sticks out"
        );
        let nested = vec![rect(1., 0.5, 3., 1.5), rect(1.5, 0.75, 2., 1.)];
        assert!(
            matches!(
                new(nested),
                Err(RegionError::HolesOverlap {
                    first: 0,
                    second: 1,
                    ..
                })
            ),
            "one in the other"
        );
        let same = vec![rect(1., 0.5, 3., 1.5), rect(1., 0.5, 3., 1.5)];
        assert!(
            matches!(new(same), Err(RegionError::HolesOverlap { .. })),
            "one on the other"
        );
    }
}
