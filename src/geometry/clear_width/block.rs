//! Convex blocks: a disc, a stadium, one edge of a floor, or a whole convex obstacle.

use super::gaps::Gap;
use super::piece::{Piece, envelope};
use crate::geometry::{Bounds, Vec2};
use rstar::{AABB, Envelope as _};
use std::cmp::Ordering;
use std::ops::Range;

/// The pieces of one convex thing.
///
/// Of all gaps between two convex blocks only the narrowest matters: a ring through two of them encloses
/// nothing but points that are no further from both blocks than half the wider gap, and such a gap is
/// never asked for (see the guards in the module's docs).
#[derive(Clone, Debug)]
pub(super) struct Block {
    /// The number of its first piece.
    pub(super) number: u32,
    /// Where its pieces are among those of its layer.
    pieces: Range<usize>,
    /// A fixed point of it.
    pub(super) middle: Vec2,
    pub(super) bounds: AABB<[f64; 2]>,
}

impl Block {
    /// Of pieces that stand together.
    pub(super) fn of_all(pieces: &[Piece]) -> Vec<Self> {
        let mut from = 0;
        let blocks = pieces.chunk_by(|a, b| a.block == b.block).map(|chunk| {
            let own = from..from + chunk.len();
            from = own.end;
            let bounds = chunk.iter().map(|piece| piece.bounds);
            let bounds = bounds.reduce(|a, b| a.merged(&b));
            let middles = chunk.iter().map(|piece| piece.core.middle());
            let sum = middles.fold(Vec2::ZERO, |sum, middle| sum + middle);
            Self {
                number: chunk.first().map_or(0, |piece| piece.block),
                pieces: own,
                middle: (1.0 / chunk.len() as f64) * sum,
                bounds: bounds.unwrap_or_else(|| envelope(&Bounds::of([Vec2::ZERO]))),
            }
        });
        blocks.collect()
    }

    /// Its pieces, among those of its layer.
    pub(super) fn pieces<'p>(&self, all: &'p [Piece]) -> &'p [Piece] {
        all.get(self.pieces.clone()).unwrap_or_default()
    }

    /// The bounds grown to all sides.
    pub(super) fn surroundings(&self, margin_m: f64) -> AABB<[f64; 2]> {
        let ([x0, y0], [x1, y1]) = (self.bounds.lower(), self.bounds.upper());
        AABB::from_corners(
            [x0 - margin_m, y0 - margin_m],
            [x1 + margin_m, y1 + margin_m],
        )
    }
}

/// A block with the pieces of its layer.
#[derive(Copy, Clone, Debug)]
pub(super) struct Placed<'a> {
    pub(super) block: &'a Block,
    pub(super) all: &'a [Piece],
}

impl Placed<'_> {
    /// The narrowest gap to another block, if it is narrower than this.
    pub(super) fn gap_to(&self, other: &Self, below_m: f64) -> Option<Gap> {
        let mut best: Option<Gap> = None;
        let others = other.block.pieces(other.all);
        for piece in self.block.pieces(self.all) {
            for other_piece in others {
                let most_m = best.as_ref().map_or(below_m, Gap::width);
                if box_distance_squared(&piece.bounds, &other_piece.bounds) > most_m * most_m {
                    continue;
                }
                let gap = Gap::between((piece, self.block), (other_piece, other.block));
                let is_less = |best: &Gap| gap.order(best) == Ordering::Less;
                if gap.width() < below_m && best.as_ref().is_none_or(is_less) {
                    best = Some(gap);
                }
            }
        }
        best
    }
}

/// The square of the distance between two upright boxes.
pub(super) fn box_distance_squared(a: &AABB<[f64; 2]>, b: &AABB<[f64; 2]>) -> f64 {
    let (a_low, a_high, b_low, b_high) = (a.lower(), a.upper(), b.lower(), b.upper());
    let apart = |axis: usize| {
        let (before, after) = (b_low[axis] - a_high[axis], a_low[axis] - b_high[axis]);
        if before > after { before } else { after }
    };
    let (x, y) = (apart(0), apart(1));
    let square = |d: f64| if d > 0.0 { d * d } else { 0.0 };
    square(x) + square(y)
}
