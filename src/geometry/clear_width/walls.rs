//! Walls as convex pieces, with the gaps between them found once and used for every question.

use super::parity::{Forest, Joined, Line};
use super::zone::Spot;
use super::{ClearWidth, End, Limit, Place, PlaceError, Tag, TightSpot, Zone};
use crate::geometry::separation::rounded;
use crate::geometry::tolerances::{NO_WAY_M, in_touches};
use crate::geometry::{Bounds, Nearest, Outline, Region, Segment, Shape, Vec2};
use rstar::{AABB, PointDistance, RTree, RTreeObject};
use std::sync::Arc;

/// Gaps up to this are found in advance: wider than any walkway that anybody asks for on a small
/// boat. Wider ones are found when a question needs them.
const PREPARED_M: f64 = 1.25;

/// How often other points of the zones are looked for. Each round steps over one tight spot within a
/// zone; a zone is less than a metre across and a body half of that, so there are few.
const MOST_ROUNDS: usize = 4;

/// The edges of a floor and the obstacles on it, ready for questions.
#[derive(Clone, Debug)]
pub struct Walls {
    floor: Arc<Region>,
    pieces: Vec<Piece>,
    /// What one cannot stand in, as far as it is not round.
    solids: Vec<(Tag, Outline)>,
    tree: RTree<Entry>,
    /// All gaps below `prepared_m`, in rising order.
    gaps: Vec<Gap>,
    prepared_m: f64,
    widest_m: f64,
}

/// How far a point is from the nearest wall, and from which.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Clearance {
    /// The distance in metres; 0 in or on a wall.
    pub distance_m: f64,

    /// The nearest wall.
    pub tag: Tag,

    /// Where that wall is nearest.
    pub at: Vec2,
}

/// A segment with a radius: everything within the radius of it.
#[derive(Copy, Clone, Debug)]
pub(super) struct Piece {
    pub(super) core: Segment,
    pub(super) radius: f64,
    pub(super) tag: Tag,
    /// Pieces with the same number are edges of the same convex obstacle.
    solid: Option<u32>,
}

/// Two pieces, and where the space between them is narrowest.
#[derive(Copy, Clone, Debug)]
struct Gap {
    nearest: Nearest,
    first: u32,
    second: u32,
}

/// A piece in the tree.
#[derive(Copy, Clone, Debug)]
struct Entry {
    bounds: AABB<[f64; 2]>,
    piece: Piece,
    number: u32,
}

impl Walls {
    /// The edges of the floor and of its holes, all with the same tag.
    ///
    /// `widest_m` is the greatest width that matters to the caller; beyond it a way is wide, and how
    /// wide is not asked. A small one saves much time on an open deck; infinity is allowed.
    pub fn new(floor: Region, floor_tag: Tag, widest_m: f64) -> Self {
        let mut pieces: Vec<_> = (floor.outline().edges())
            .map(|core| Piece::edge(core, floor_tag, None))
            .collect();
        for (hole, number) in floor.holes().iter().zip(0..) {
            let solid = hole.is_convex().then_some(number);
            pieces.extend(hole.edges().map(|core| Piece::edge(core, floor_tag, solid)));
        }
        let walls = Self {
            floor: Arc::new(floor),
            pieces: Vec::new(),
            solids: Vec::new(),
            tree: RTree::new(),
            gaps: Vec::new(),
            prepared_m: PREPARED_M.min(widest_m),
            widest_m,
        };
        walls.with_pieces(pieces, Vec::new())
    }

    /// The same walls and these obstacles. What was found about the walls so far is used again.
    ///
    /// Obstacles may overlap each other, lie across the edge of the floor, or off it.
    #[must_use]
    pub fn with<'a>(&self, obstacles: impl IntoIterator<Item = (Tag, &'a Shape)>) -> Self {
        let (mut pieces, mut solids) = (Vec::new(), Vec::new());
        let used = self
            .pieces
            .iter()
            .chain(&pieces)
            .filter_map(|piece| piece.solid);
        let mut next = used.max().map_or(0, |number| number + 1);
        for (tag, shape) in obstacles {
            match shape {
                Shape::Disc { center, radius } => {
                    pieces.push(Piece::round(Segment::new(*center, *center), *radius, tag));
                }
                Shape::Stadium { from, to, radius } => {
                    pieces.push(Piece::round(Segment::new(*from, *to), *radius, tag));
                }
                Shape::Polygon(outline) => {
                    let solid = outline.is_convex().then_some(next);
                    next += 1;
                    pieces.extend(outline.edges().map(|core| Piece::edge(core, tag, solid)));
                    solids.push((tag, outline.clone()));
                }
            }
        }
        self.with_pieces(pieces, solids)
    }

    fn with_pieces(&self, pieces: Vec<Piece>, solids: Vec<(Tag, Outline)>) -> Self {
        let known = self.pieces.len();
        let mut walls = Self {
            floor: Arc::clone(&self.floor),
            pieces: self.pieces.iter().copied().chain(pieces).collect(),
            solids: self.solids.iter().cloned().chain(solids).collect(),
            tree: RTree::new(),
            gaps: self.gaps.clone(),
            ..*self
        };
        let entries = walls.pieces.iter().zip(0..).map(|(piece, number)| Entry {
            bounds: envelope(&piece.bounds()),
            piece: *piece,
            number,
        });
        walls.tree = RTree::bulk_load(entries.collect());
        let mut added = walls.find_gaps(known, 0.0, walls.prepared_m);
        walls.gaps.append(&mut added);
        // Two sorted runs: a stable sort merges them.
        sort_by_width(&mut walls.gaps, &walls.pieces);
        walls
    }

    /// The floor.
    pub fn floor(&self) -> &Region {
        &self.floor
    }

    /// How many pieces the walls were cut into.
    pub fn piece_count(&self) -> usize {
        self.pieces.len()
    }

    /// The wall nearest to a point.
    pub fn clearance(&self, p: Vec2) -> Clearance {
        let piece = (self.tree.nearest_neighbor(&p.into())).map_or(self.pieces[0], |e| e.piece);
        Clearance {
            distance_m: piece.distance(p),
            tag: piece.tag,
            at: piece.nearest_point(p),
        }
    }

    /// The width of the widest way between two zones.
    pub fn clear_width(&self, from: Zone, to: Zone) -> Result<ClearWidth, PlaceError> {
        let from = self.place(from, End::From)?;
        let to = self.place(to, End::To)?;
        Ok(self.clear_width_between(&from, &to))
    }

    /// The width of the widest way between two places that were found on these walls.
    ///
    /// Where a tight spot lies between the clearest points of both zones, points from which that spot
    /// need not be passed are tried too.
    pub fn clear_width_between(&self, from: &Place, to: &Place) -> ClearWidth {
        let mut tried = [vec![from.spot], vec![to.spot]];
        let mut best_spots = [from.spot, to.spot];
        let mut best = self.between_spots(&from.spot, &to.spot);
        let most = self.most(&from.spot, &to.spot).width_m;
        for _ in 0..MOST_ROUNDS {
            let mut is_tried = false;
            for (end, zone) in [from.zone, to.zone].into_iter().enumerate() {
                if best.width_m >= most {
                    return best;
                }
                let Some(spot) = self.other_spot(zone, best.width_m, &tried[end]) else {
                    continue;
                };
                let mut spots = best_spots;
                spots[end] = spot;
                tried[end].push(spot);
                is_tried = true;
                let width = self.between_spots(&spots[0], &spots[1]);
                if width.width_m > best.width_m {
                    (best, best_spots) = (width, spots);
                }
            }
            if !is_tried {
                break;
            }
        }
        best
    }

    fn between_spots(&self, from: &Spot, to: &Spot) -> ClearWidth {
        let most = self.most(from, to);
        // Neither the line nor the guards mean anything without room at both ends.
        if most.width_m < NO_WAY_M || from.at == to.at {
            return most;
        }
        let mut search = Search {
            walls: self,
            line: Line::new(from.at, to.at),
            forest: Forest::new(self.pieces.len()),
        };
        let mut below = self.prepared_m.min(most.width_m);
        let mut found = search.first_odd_ring(&self.gaps, below);
        while found.is_none() && below < most.width_m {
            let above = below;
            below = (2.0 * above).min(most.width_m);
            let mut gaps = self.find_gaps(0, above, below);
            sort_by_width(&mut gaps, &self.pieces);
            found = search.first_odd_ring(&gaps, below);
        }
        found.map_or(most, |gap| ClearWidth {
            width_m: gap.nearest.distance_m,
            limit: Limit::TightSpot(self.tight_spot(&gap)),
        })
    }

    /// What the room at both ends allows.
    fn most(&self, from: &Spot, to: &Spot) -> ClearWidth {
        let (end, spot) = if in_touches(from.distance_m) <= in_touches(to.distance_m) {
            (End::From, from)
        } else {
            (End::To, to)
        };
        let width_m = 2.0 * spot.distance_m;
        if width_m > self.widest_m {
            return ClearWidth {
                width_m: self.widest_m,
                limit: Limit::Widest,
            };
        }
        let Clearance { tag, at, .. } = self.clearance(spot.at);
        ClearWidth {
            width_m,
            limit: Limit::End { end, tag, at },
        }
    }

    fn tight_spot(&self, gap: &Gap) -> TightSpot {
        let [a, b] = [gap.first, gap.second].map(|i| self.pieces[i as usize].tag);
        let Nearest {
            a: at_a, b: at_b, ..
        } = gap.nearest;
        if a <= b {
            TightSpot { a, b, at_a, at_b }
        } else {
            TightSpot {
                a: b,
                b: a,
                at_a: at_b,
                at_b: at_a,
            }
        }
    }

    /// The gaps from `above` to `below` in which a piece from number `new` on takes part.
    fn find_gaps(&self, new: usize, above: f64, below: f64) -> Vec<Gap> {
        let mut gaps = Vec::new();
        for (piece, first) in self.pieces.iter().zip(0..).skip(new) {
            let near = envelope(&piece.bounds().grown(below));
            for other in self.tree.locate_in_envelope_intersecting(&near) {
                if other.number >= first {
                    continue;
                }
                let nearest = piece.nearest(&other.piece);
                let width = nearest.distance_m;
                // Across the inside of a convex obstacle nobody passes, and a ring of its own edges
                // holds nothing but that inside.
                let own_inside = piece.solid.is_some() && piece.solid == other.piece.solid;
                if width >= above && width < below && !(own_inside && width > 0.0) {
                    gaps.push(Gap {
                        nearest,
                        first,
                        second: other.number,
                    });
                }
            }
        }
        gaps
    }

    /// What one cannot stand in at this point, more than `depth_m` inside.
    pub(super) fn solid_at(&self, p: Vec2, depth_m: f64) -> Option<Tag> {
        let here = AABB::from_point(p.into());
        let round = (self.tree.locate_in_envelope_intersecting(&here))
            .map(|entry| &entry.piece)
            .filter(|piece| piece.core.distance(p) < piece.radius - depth_m)
            .map(|piece| piece.tag);
        let straight = (self.solids.iter())
            .filter(|(_, outline)| {
                outline.contains_inside(p) && outline.distance_to_edge(p) > depth_m
            })
            .map(|(tag, _)| *tag);
        round.chain(straight).min()
    }

    /// What one cannot stand in, within this distance of a point.
    pub(super) fn solids_near(&self, p: Vec2, within_m: f64) -> impl Iterator<Item = &Outline> {
        let near = Bounds::of([p]).grown(within_m);
        (self.solids.iter())
            .map(|(_, outline)| outline)
            .filter(move |outline| outline.bounds().meets(&near))
    }

    /// The pieces within this distance of a point.
    pub(super) fn pieces_near(&self, p: Vec2, within_m: f64) -> impl Iterator<Item = &Piece> {
        let near = envelope(&Bounds::of([p]).grown(within_m));
        (self.tree.locate_in_envelope_intersecting(&near))
            .map(|entry| &entry.piece)
            .filter(move |piece| piece.distance(p) <= within_m)
    }
}

/// Rising widths. Those that differ by rounding alone are told apart by their tags, then by where
/// they are, so that neither the order of the pieces nor a mirror decides.
fn sort_by_width(gaps: &mut [Gap], pieces: &[Piece]) {
    let tags = |gap: &Gap| {
        let [a, b] = [gap.first, gap.second].map(|i| pieces[i as usize].tag);
        (a.max(b), a.min(b))
    };
    let place = |gap: &Gap| gap.nearest.a + gap.nearest.b;
    gaps.sort_by(|one, other| {
        in_touches(one.nearest.distance_m)
            .total_cmp(&in_touches(other.nearest.distance_m))
            .then_with(|| tags(one).cmp(&tags(other)))
            .then_with(|| place(one).total_cmp(place(other)))
    });
}

/// One question: which gap separates the ends of this line?
struct Search<'a> {
    walls: &'a Walls,
    line: Line,
    forest: Forest,
}

impl Search<'_> {
    /// Closes gaps in the order given, up to a width, until a ring separates the ends.
    fn first_odd_ring(&mut self, gaps: &[Gap], below: f64) -> Option<Gap> {
        (gaps.iter())
            .take_while(|gap| gap.nearest.distance_m < below)
            .find(|gap| {
                let odd = self.is_odd(gap);
                self.forest.join(gap.first, gap.second, odd) == Joined::OddRing
            })
            .copied()
    }

    /// Does the way from piece to piece over their gap meet the line an odd number of times?
    fn is_odd(&self, gap: &Gap) -> bool {
        let sided = |p: Vec2| (p, self.line.is_left(p));
        let [first, second] =
            [gap.first, gap.second].map(|i| sided(self.walls.pieces[i as usize].core.middle()));
        let (a, b) = (sided(gap.nearest.a), sided(gap.nearest.b));
        self.line.is_met(first, a) ^ self.line.is_met(a, b) ^ self.line.is_met(b, second)
    }
}

impl Piece {
    fn edge(core: Segment, tag: Tag, solid: Option<u32>) -> Self {
        Self {
            core,
            radius: 0.0,
            tag,
            solid,
        }
    }

    fn round(core: Segment, radius: f64, tag: Tag) -> Self {
        Self {
            core,
            radius,
            tag,
            solid: None,
        }
    }

    fn bounds(&self) -> Bounds {
        self.core.bounds().grown(self.radius)
    }

    /// The distance from a point; 0 in and on the piece.
    pub(super) fn distance(&self, p: Vec2) -> f64 {
        (self.core.distance(p) - self.radius).max(0.0)
    }

    /// The point of the piece nearest to `p`; `p` itself if the piece covers it.
    fn nearest_point(&self, p: Vec2) -> Vec2 {
        let core = self.core.nearest_point(p);
        let distance = core.distance(p);
        if distance <= self.radius {
            p
        } else {
            core.lerp(p, self.radius / distance)
        }
    }

    fn nearest(&self, other: &Self) -> Nearest {
        rounded(self.core.nearest(&other.core), self.radius, other.radius)
    }
}

impl RTreeObject for Entry {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        self.bounds
    }
}

impl PointDistance for Entry {
    fn distance_2(&self, point: &[f64; 2]) -> f64 {
        let distance = self.piece.distance((*point).into());
        distance * distance
    }
}

fn envelope(bounds: &Bounds) -> AABB<[f64; 2]> {
    AABB::from_corners(bounds.min.into(), bounds.max.into())
}
