//! Convex pieces of walls.

use super::Tag;
use crate::geometry::separation::rounded;
use crate::geometry::{Bounds, Nearest, Outline, Region, Segment, Shape, Vec2};
use rstar::{AABB, PointDistance, RTreeObject};

/// A segment with a radius: everything within the radius of it.
#[derive(Copy, Clone, Debug)]
pub(super) struct Piece {
    pub(super) core: Segment,
    pub(super) radius: f64,
    pub(super) tag: Tag,
    /// Among all pieces of some walls.
    pub(super) number: u32,
    /// Edges of the same convex obstacle have the same number here: that of the first of them. Any other
    /// piece has its own.
    pub(super) block: u32,
    pub(super) bounds: AABB<[f64; 2]>,
}

/// Cuts shapes into pieces with rising numbers.
#[derive(Debug)]
pub(super) struct Cutter {
    next: u32,
    pieces: Vec<Piece>,
}

impl Cutter {
    pub(super) fn new(first: u32) -> Self {
        Self {
            next: first,
            pieces: Vec::new(),
        }
    }

    pub(super) fn floor(mut self, floor: &Region, tag: Tag) -> Vec<Piece> {
        for edge in floor.outline().edges() {
            self.push(edge, 0.0, tag, None);
        }
        for hole in floor.holes() {
            self.ring(hole, tag);
        }
        self.pieces
    }

    pub(super) fn obstacles<'a>(
        mut self,
        obstacles: impl Iterator<Item = (Tag, &'a Shape)>,
    ) -> Vec<Piece> {
        for (tag, shape) in obstacles {
            match shape {
                Shape::Disc { center, radius } => {
                    self.push(Segment::new(*center, *center), *radius, tag, None);
                }
                Shape::Stadium { from, to, radius } => {
                    self.push(Segment::new(*from, *to), *radius, tag, None);
                }
                Shape::Polygon(outline) => self.ring(outline, tag),
            }
        }
        self.pieces
    }

    fn ring(&mut self, ring: &Outline, tag: Tag) {
        let solid = ring.is_convex().then_some(self.next);
        for edge in ring.edges() {
            self.push(edge, 0.0, tag, solid);
        }
    }

    fn push(&mut self, core: Segment, radius: f64, tag: Tag, block: Option<u32>) {
        self.pieces.push(Piece {
            core,
            radius,
            tag,
            number: self.next,
            block: block.unwrap_or(self.next),
            bounds: envelope(&core.bounds().grown(radius)),
        });
        self.next += 1;
    }
}

impl Piece {
    /// The distance from a point; 0 in and on the piece.
    pub(super) fn distance(&self, p: Vec2) -> f64 {
        (self.core.distance(p) - self.radius).max(0.0)
    }

    /// The point of the piece nearest to `p`; `p` itself if the piece covers it.
    pub(super) fn nearest_point(&self, p: Vec2) -> Vec2 {
        let core = self.core.nearest_point(p);
        let distance = core.distance(p);
        if distance <= self.radius {
            p
        } else {
            core.lerp(p, self.radius / distance)
        }
    }

    pub(super) fn nearest(&self, other: &Self) -> Nearest {
        rounded(self.core.nearest(&other.core), self.radius, other.radius)
    }
}

impl RTreeObject for Piece {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        self.bounds
    }
}

impl PointDistance for Piece {
    fn distance_2(&self, point: &[f64; 2]) -> f64 {
        let distance = self.distance((*point).into());
        distance * distance
    }
}

pub(super) fn envelope(bounds: &Bounds) -> AABB<[f64; 2]> {
    AABB::from_corners(bounds.min.into(), bounds.max.into())
}
