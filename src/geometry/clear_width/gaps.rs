//! The gaps between blocks of walls, in rising order of their widths.
//!
//! Few questions look at wide gaps, and wide gaps are many. So gaps are found in bands of widths,
//! each when it is first asked for, and then kept.

use super::Tag;
use super::block::{Block, Placed, box_distance_squared};
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

/// Two blocks, and where the space between them is narrowest.
#[derive(Copy, Clone, Debug)]
pub(super) struct Gap {
    pub(super) nearest: Nearest,
    /// The numbers of the two blocks.
    pub(super) numbers: [u32; 2],
    /// A fixed point of each block.
    pub(super) middles: [Vec2; 2],
    pub(super) tags: [Tag; 2],
    /// The width in steps that are larger than rounding.
    steps: f64,
}

impl Gap {
    /// Between a piece of one block and a piece of another.
    pub(super) fn between(
        (piece, block): (&Piece, &Block),
        (other, other_block): (&Piece, &Block),
    ) -> Self {
        let nearest = piece.nearest(other);
        Self {
            nearest,
            numbers: [block.number, other_block.number],
            middles: [block.middle, other_block.middle],
            tags: [piece.tag, other.tag],
            steps: in_touches(nearest.distance_m),
        }
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
    pieces: Vec<Piece>,
    /// In the order of their numbers.
    blocks: Vec<Block>,
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
            blocks: Block::of_all(&pieces),
            pieces,
            solids,
            bands: Default::default(),
            merged: Default::default(),
        }
    }

    /// The gaps of a band between all blocks of this layer and of those below, in rising order. Every question
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

    /// The gaps of a band of [`BANDS_M`] that each of these blocks has to another, and to those of the
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
        let mut add = |block: Placed<'_>, other: Placed<'_>| {
            let gap = block.gap_to(&other, to_m);
            gaps.extend(gap.filter(|gap| gap.width() >= from_m));
        };
        if self.blocks.len() <= FEW {
            let layers: Vec<&Self> = below.chain(std::iter::once(self)).collect();
            for layer in layers {
                for block in self.placed() {
                    layer.for_each_before(block.block, to_m, |other| add(block, other));
                }
            }
        } else {
            let others = below.flat_map(Self::placed);
            for_each_near(self.placed(), others, to_m, add);
        }
        sort(&mut gaps);
        gaps
    }

    /// Its blocks.
    fn placed(&self) -> impl Iterator<Item = Placed<'_>> {
        let all = self.pieces.as_slice();
        self.blocks.iter().map(move |block| Placed { block, all })
    }

    /// The blocks with lower numbers than this one whose pieces come within a distance of it, once each.
    fn for_each_before<'a>(
        &'a self,
        block: &Block,
        within_m: f64,
        mut with: impl FnMut(Placed<'a>),
    ) {
        let near = block.surroundings(within_m);
        let found = self.tree.locate_in_envelope_intersecting(&near);
        let mut numbers: Vec<u32> = (found.map(|piece| piece.block))
            .filter(|number| *number < block.number)
            .collect();
        numbers.sort_unstable();
        numbers.dedup();
        for number in numbers {
            let own = (self.blocks).binary_search_by_key(&number, |block| block.number);
            let own = own.ok().and_then(|place| self.blocks.get(place));
            if let Some(block) = own {
                let all = &self.pieces;
                with(Placed { block, all });
            }
        }
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

/// A block that a sweep along x has met.
struct Met<'a> {
    placed: Placed<'a>,
    is_new: bool,
    low_x: f64,
    high_x: f64,
}

/// Every pair of a new block and another new or old one whose bounds come within a distance of each
/// other, once, that with the higher number first.
///
/// A sweep along x: what has been met stays in view until it lies too far behind.
fn for_each_near<'a>(
    new: impl Iterator<Item = Placed<'a>>,
    old: impl Iterator<Item = Placed<'a>>,
    within_m: f64,
    mut pair: impl FnMut(Placed<'a>, Placed<'a>),
) {
    let met = |placed: Placed<'a>, is_new: bool| Met {
        placed,
        is_new,
        low_x: placed.block.bounds.lower()[0],
        high_x: placed.block.bounds.upper()[0],
    };
    let mut coming: Vec<Met<'a>> = (new.map(|block| met(block, true)))
        .chain(old.map(|block| met(block, false)))
        .collect();
    coming.sort_unstable_by(|a, b| {
        let numbers = || a.placed.block.number.cmp(&b.placed.block.number);
        a.low_x.total_cmp(&b.low_x).then_with(numbers)
    });
    let mut in_view: Vec<Met<'a>> = Vec::new();
    for next in coming {
        let mut i = 0;
        while i < in_view.len() {
            let seen = &in_view[i];
            if seen.high_x + within_m < next.low_x {
                in_view.swap_remove(i);
                continue;
            }
            i += 1;
            let (before, after) = (seen.placed, next.placed);
            if (seen.is_new || next.is_new)
                && box_distance_squared(&before.block.bounds, &after.block.bounds)
                    <= within_m * within_m
            {
                if before.block.number > after.block.number {
                    pair(before, after);
                } else {
                    pair(after, before);
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
