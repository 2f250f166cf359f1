//! Convex pieces of walls, and the gaps between them.

use super::Tag;
use crate::geometry::separation::rounded;
use crate::geometry::tolerances::in_touches;
use crate::geometry::{Bounds, Nearest, Outline, Region, Segment, Shape, Vec2};
use rstar::{AABB, PointDistance, RTree, RTreeObject};
use std::cmp::Ordering;

/// A segment with a radius: everything within the radius of it.
#[derive(Copy, Clone, Debug)]
pub(super) struct Piece {
    pub(super) core: Segment,
    pub(super) radius: f64,
    pub(super) tag: Tag,
    /// Among all pieces of some walls.
    pub(super) number: u32,
    /// Edges of the same convex obstacle have the same number here: that of the first of them.
    solid: Option<u32>,
    bounds: AABB<[f64; 2]>,
}

/// Two pieces, and where the space between them is narrowest.
#[derive(Copy, Clone, Debug)]
pub(super) struct Gap {
    pub(super) nearest: Nearest,
    /// The numbers of the two pieces.
    pub(super) numbers: [u32; 2],
    /// A fixed point of each piece.
    pub(super) middles: [Vec2; 2],
    pub(super) tags: [Tag; 2],
    /// The width in steps that are larger than rounding.
    steps: f64,
}

/// Pieces that were added together, and the gaps between them and to those of the layers below.
#[derive(Clone, Debug)]
pub(super) struct Layer {
    pub(super) tree: RTree<Piece>,
    pub(super) pieces: Vec<Piece>,
    /// What one cannot stand in, as far as it is not round.
    pub(super) solids: Vec<(Tag, Outline)>,
    /// In rising order.
    pub(super) gaps: Vec<Gap>,
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

    fn push(&mut self, core: Segment, radius: f64, tag: Tag, solid: Option<u32>) {
        self.pieces.push(Piece {
            core,
            radius,
            tag,
            number: self.next,
            solid,
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

    /// The gap to another piece, if it is one that anybody could pass.
    ///
    /// Across the inside of a convex obstacle nobody passes, and a ring of its own edges holds nothing
    /// but that inside.
    fn gap(&self, other: &Self) -> Option<Gap> {
        let nearest = self.nearest(other);
        let is_own_inside = self.solid.is_some() && self.solid == other.solid;
        (nearest.distance_m <= 0.0 || !is_own_inside).then(|| Gap {
            nearest,
            numbers: [self.number, other.number],
            middles: [self.core.middle(), other.core.middle()],
            tags: [self.tag, other.tag],
            steps: in_touches(nearest.distance_m),
        })
    }

    /// The bounds grown to all sides.
    pub(super) fn surroundings(&self, margin_m: f64) -> AABB<[f64; 2]> {
        let ([x0, y0], [x1, y1]) = (self.bounds.lower(), self.bounds.upper());
        let (low, high) = (
            [x0 - margin_m, y0 - margin_m],
            [x1 + margin_m, y1 + margin_m],
        );
        AABB::from_corners(low, high)
    }
}

impl Gap {
    pub(super) fn width(&self) -> f64 {
        self.nearest.distance_m
    }

    /// Rising widths. Those that differ by rounding alone are told apart by their tags, then by where
    /// they are, so that neither the order of the pieces nor a mirror decides.
    pub(super) fn order(&self, other: &Self) -> Ordering {
        let tags = |gap: &Self| {
            let [a, b] = gap.tags;
            (a.max(b), a.min(b))
        };
        let place = |gap: &Self| gap.nearest.a + gap.nearest.b;
        (self.steps.total_cmp(&other.steps))
            .then_with(|| tags(self).cmp(&tags(other)))
            .then_with(|| place(self).total_cmp(place(other)))
    }
}

impl Layer {
    /// The gaps from `above` to `below` that each of these pieces has to itself, and to those of the
    /// layers below, in rising order.
    pub(super) fn gaps(
        pieces: &[Piece],
        trees: &[&RTree<Piece>],
        above: f64,
        below: f64,
    ) -> Vec<Gap> {
        let mut gaps = Vec::new();
        for piece in pieces {
            let near = piece.surroundings(below);
            for other in (trees.iter()).flat_map(|tree| tree.locate_in_envelope_intersecting(&near))
            {
                // Every pair once.
                if other.number < piece.number
                    && let Some(gap) = piece.gap(other)
                    && (above..below).contains(&gap.width())
                {
                    gaps.push(gap);
                }
            }
        }
        gaps.sort_unstable_by(Gap::order);
        gaps
    }
}

/// Sorted lists of gaps as one sorted list.
#[derive(Clone, Debug)]
pub(super) struct Merged<'a> {
    rest: Vec<&'a [Gap]>,
}

impl<'a> Merged<'a> {
    pub(super) fn new(lists: impl Iterator<Item = &'a [Gap]>) -> Self {
        Self {
            rest: lists.filter(|list| !list.is_empty()).collect(),
        }
    }
}

impl<'a> Iterator for Merged<'a> {
    type Item = &'a Gap;

    fn next(&mut self) -> Option<&'a Gap> {
        let (i, _) = (self.rest.iter().enumerate()).min_by(|(_, a), (_, b)| a[0].order(&b[0]))?;
        let (first, rest) = self.rest[i].split_first()?;
        if rest.is_empty() {
            self.rest.swap_remove(i);
        } else {
            self.rest[i] = rest;
        }
        Some(first)
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
