//! The gaps between pieces of walls, in rising order of their widths.
//!
//! Few questions look at wide gaps, and wide gaps are many. So gaps are found in bands of widths,
//! each when it is first asked for, and then kept.

use super::Tag;
use super::piece::Piece;
use crate::geometry::tolerances::in_touches;
use crate::geometry::{Nearest, Outline, Vec2};
use rstar::RTree;
use std::cmp::Ordering;
use std::sync::{Arc, OnceLock};

/// The upper ends of the bands that are kept, in metres. No deck is measured to such odd figures, so
/// that gaps which are equal but for rounding fall into the same band.
pub(super) const BANDS_M: [f64; 2] = [0.873_61, 1.287_43];

/// So few pieces ask the trees of the others; more are quicker by a sweep.
const FEW: usize = 40;

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

impl Gap {
    /// The gap between two pieces, if it is one that anybody could pass.
    ///
    /// Across the inside of a convex obstacle nobody passes, and a ring of its own edges holds nothing
    /// but that inside.
    fn between(piece: &Piece, other: &Piece) -> Option<Self> {
        let nearest = piece.nearest(other);
        (nearest.distance_m <= 0.0 || !piece.is_of_same_solid(other)).then(|| Self {
            nearest,
            numbers: [piece.number, other.number],
            middles: [piece.core.middle(), other.core.middle()],
            tags: [piece.tag, other.tag],
            steps: in_touches(nearest.distance_m),
        })
    }

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

/// Pieces that were added together, and the gaps between them and to those of the layers below.
#[derive(Clone, Debug)]
pub(super) struct Layer {
    pub(super) tree: RTree<Piece>,
    pub(super) pieces: Vec<Piece>,
    /// What one cannot stand in, as far as it is not round.
    pub(super) solids: Vec<(Tag, Outline)>,
    /// Band by band, once somebody asks; each in rising order.
    bands: [OnceLock<Vec<Gap>>; BANDS_M.len()],
    /// The same with those of the layers below.
    merged: [OnceLock<Vec<Gap>>; BANDS_M.len()],
}

impl Layer {
    pub(super) fn new(pieces: Vec<Piece>, solids: Vec<(Tag, Outline)>) -> Self {
        Self {
            tree: RTree::bulk_load(pieces.clone()),
            pieces,
            solids,
            bands: Default::default(),
            merged: Default::default(),
        }
    }

    /// The gaps of a band between all pieces of this layer and of those below, in rising order. Every question
    /// about these walls goes through them, so they are put together once.
    pub(super) fn merged(&self, band: usize, below: &[Arc<Self>]) -> &[Gap] {
        self.merged[band].get_or_init(|| {
            let own = self.band(band, below.iter().map(Arc::as_ref));
            let Some((next, rest)) = below.split_last() else {
                return own.to_vec();
            };
            Merged::new([next.merged(band, rest), own].into_iter())
                .copied()
                .collect()
        })
    }

    /// The gaps of a band of [`BANDS_M`] that each of these pieces has to another, and to those of the
    /// layers below, in rising order.
    pub(super) fn band<'a>(
        &'a self,
        band: usize,
        below: impl Iterator<Item = &'a Self>,
    ) -> &'a [Gap] {
        let from_m = band.checked_sub(1).map_or(0.0, |before| BANDS_M[before]);
        self.bands[band].get_or_init(|| self.gaps(below, from_m, BANDS_M[band]))
    }

    /// The same from one width to another.
    pub(super) fn gaps<'a>(
        &'a self,
        below: impl Iterator<Item = &'a Self>,
        from_m: f64,
        to_m: f64,
    ) -> Vec<Gap> {
        let mut gaps = Vec::new();
        let mut add = |piece: &Piece, other: &Piece| {
            if let Some(gap) = Gap::between(piece, other)
                && (from_m..to_m).contains(&gap.width())
            {
                gaps.push(gap);
            }
        };
        if self.pieces.len() <= FEW {
            let layers: Vec<&Self> = below.chain(std::iter::once(self)).collect();
            for layer in layers {
                for piece in &self.pieces {
                    let near = piece.surroundings(to_m);
                    let others = layer.tree.locate_in_envelope_intersecting(&near);
                    for other in others.filter(|other| other.number < piece.number) {
                        add(piece, other);
                    }
                }
            }
        } else {
            let others = below.flat_map(|layer| &layer.pieces);
            for_each_near(&self.pieces, others, to_m, add);
        }
        sort(&mut gaps);
        gaps
    }
}

/// Rising order: by the bits of the widths first, which are none below zero, then those of equal width among
/// themselves.
fn sort(gaps: &mut Vec<Gap>) {
    let mut keys: Vec<(u64, u32)> = (gaps.iter().map(|gap| gap.steps.to_bits()).zip(0..)).collect();
    keys.sort_unstable();
    for equal in keys.chunk_by_mut(|a, b| a.0 == b.0) {
        if equal.len() > 1 {
            let gap = |key: &(u64, u32)| &gaps[key.1 as usize];
            equal.sort_unstable_by(|a, b| gap(a).order(gap(b)));
        }
    }
    *gaps = (keys.iter())
        .map(|&(_, number)| gaps[number as usize])
        .collect();
}

/// A piece that a sweep along x has met.
struct Met<'a> {
    piece: &'a Piece,
    is_new: bool,
    low: [f64; 2],
    high: [f64; 2],
}

impl Met<'_> {
    /// The square of the distance between the bounds.
    fn distance_squared(&self, other: &Self) -> f64 {
        let apart = |axis: usize| {
            let (before, after) = (
                other.low[axis] - self.high[axis],
                self.low[axis] - other.high[axis],
            );
            if before > after { before } else { after }
        };
        let (x, y) = (apart(0), apart(1));
        let square = |d: f64| if d > 0.0 { d * d } else { 0.0 };
        square(x) + square(y)
    }
}

/// Every pair of a new piece and another new or old one whose bounds come within a distance of each
/// other, once, that with the higher number first.
///
/// A sweep along x: what has been met stays in view until it lies too far behind.
fn for_each_near<'a>(
    new: &'a [Piece],
    old: impl Iterator<Item = &'a Piece>,
    within_m: f64,
    mut pair: impl FnMut(&Piece, &Piece),
) {
    let met = |piece: &'a Piece, is_new: bool| Met {
        piece,
        is_new,
        low: piece.bounds.lower(),
        high: piece.bounds.upper(),
    };
    let mut coming: Vec<Met<'a>> = (new.iter().map(|piece| met(piece, true)))
        .chain(old.map(|piece| met(piece, false)))
        .collect();
    coming.sort_unstable_by(|a, b| {
        (a.low[0].total_cmp(&b.low[0])).then(a.piece.number.cmp(&b.piece.number))
    });
    let mut in_view: Vec<Met<'a>> = Vec::new();
    for next in coming {
        let mut i = 0;
        while i < in_view.len() {
            let seen = &in_view[i];
            if seen.high[0] + within_m < next.low[0] {
                in_view.swap_remove(i);
                continue;
            }
            i += 1;
            if (seen.is_new || next.is_new) && seen.distance_squared(&next) <= within_m * within_m {
                if seen.piece.number > next.piece.number {
                    pair(seen.piece, next.piece);
                } else {
                    pair(next.piece, seen.piece);
                }
            }
        }
        in_view.push(next);
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
