//! Walls as convex pieces, with the gaps between them found once and used for every question.

use super::gaps::{Gap, Layer};
use super::piece::{Cutter, Piece, envelope};
use super::search::{Search, Settled};
use super::zone::Spot;
use super::{ClearWidth, End, Limit, Place, PlaceError, Tag, TightSpot, Zone};
use crate::geometry::tolerances::{NO_WAY_M, TOUCH_M, in_touches};
use crate::geometry::{Bounds, Nearest, Outline, Region, Shape, Vec2};
use rstar::{AABB, RTree};
use std::sync::Arc;

/// How often other points of the zones are looked for. Each round steps over one tight spot within a
/// zone; a zone is less than a metre across and a body half of that, so there are few.
const MOST_ROUNDS: usize = 4;

/// The edges of a floor and the obstacles on it, ready for questions. Cheap to clone and to add to.
#[derive(Clone, Debug)]
pub struct Walls {
    floor: Arc<Region>,
    /// The edges of the floor, then what was added step by step. Never empty.
    layers: Vec<Arc<Layer>>,
    piece_count: u32,
    widest_m: f64,
    settled: Option<Arc<Settled>>,
}

/// How far a point is from the nearest wall, and from which.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Clearance {
    /// The distance in metres; 0 in or on a wall.
    pub distance_m: f64,

    /// The nearest wall; of several that are as near the one with the lowest tag.
    pub tag: Tag,

    /// Where that wall is nearest.
    pub at: Vec2,
}

impl Walls {
    /// The edges of the floor and of its holes, all with the same tag.
    ///
    /// `widest_m` is the greatest width that matters to the caller; beyond it a way is wide, and how
    /// wide is not asked. A small one saves much time on an open deck; infinity is allowed.
    pub fn new(floor: Region, floor_tag: Tag, widest_m: f64) -> Self {
        let pieces = Cutter::new(0).floor(&floor, floor_tag);
        let walls = Self {
            floor: Arc::new(floor),
            layers: Vec::new(),
            piece_count: 0,
            widest_m,
            settled: None,
        };
        walls.with_layer(pieces, Vec::new())
    }

    /// The same walls and these obstacles. What was found about the walls so far is used again.
    ///
    /// Obstacles may overlap each other, lie across the edge of the floor, or off it.
    #[must_use]
    pub fn with<'a>(&self, obstacles: impl IntoIterator<Item = (Tag, &'a Shape)>) -> Self {
        let obstacles: Vec<(Tag, &Shape)> = obstacles.into_iter().collect();
        let pieces = Cutter::new(self.piece_count).obstacles(obstacles.iter().copied());
        let solids = obstacles.iter().filter_map(|(tag, shape)| match shape {
            Shape::Polygon(outline) => Some((*tag, outline.clone())),
            Shape::Disc { .. } | Shape::Stadium { .. } => None,
        });
        self.with_layer(pieces, solids.collect())
    }

    fn with_layer(&self, pieces: Vec<Piece>, solids: Vec<(Tag, Outline)>) -> Self {
        let mut walls = self.clone();
        walls.piece_count = (pieces.last()).map_or(self.piece_count, |piece| piece.number + 1);
        walls.layers.push(Arc::new(Layer::new(pieces, solids)));
        walls
    }

    /// The same walls, which now remember what they were asked. Where little is added to them, most
    /// questions are then answered by a look at what was added.
    #[must_use]
    pub fn settled(&self) -> Self {
        Self {
            settled: Some(Arc::new(Settled::new(self.layers.len()))),
            ..self.clone()
        }
    }

    /// What remembers what these walls were asked, if anything does.
    pub(super) fn memory(&self) -> Option<&Settled> {
        self.settled.as_deref()
    }

    /// The walls of the first layers alone.
    pub(super) fn first_layers(&self, count: usize) -> Self {
        Self {
            layers: self.layers[..count].to_vec(),
            settled: None,
            ..self.clone()
        }
    }

    /// Has a layer from this one on a wall that matters to a zone: a piece within this distance of its middle, or
    /// something that one cannot stand in and that reaches into it?
    pub(super) fn has_walls_near(&self, from_layer: usize, zone: Zone, within_m: f64) -> bool {
        let near = envelope(&Bounds::of([zone.at]).grown(within_m));
        let in_zone = Bounds::of([zone.at]).grown(zone.radius_m);
        self.layers[from_layer..].iter().any(|layer| {
            let mut pieces = layer.tree.locate_in_envelope_intersecting(&near);
            pieces.any(|piece| piece.distance(zone.at) <= within_m)
                || (layer.solids.iter()).any(|(_, outline)| outline.bounds().meets(&in_zone))
        })
    }

    /// All layers, from the edges of the floor on.
    pub(super) fn layers(&self) -> &[Arc<Layer>] {
        &self.layers
    }

    fn trees(&self) -> impl Iterator<Item = &RTree<Piece>> {
        self.layers.iter().map(|layer| &layer.tree)
    }

    /// The floor.
    pub fn floor(&self) -> &Region {
        &self.floor
    }

    /// How many pieces the walls were cut into.
    pub fn piece_count(&self) -> usize {
        self.piece_count as usize
    }

    /// The wall nearest to a point.
    pub fn clearance(&self, p: Vec2) -> Clearance {
        let distance_m = self.distance(p);
        let nearest = (self.pieces_near(p, distance_m + TOUCH_M)).min_by_key(|piece| piece.tag);
        Clearance {
            distance_m,
            tag: nearest.map_or(0, |piece| piece.tag),
            at: nearest.map_or(p, |piece| piece.nearest_point(p)),
        }
    }

    /// How far the nearest wall is.
    pub(super) fn distance(&self, p: Vec2) -> f64 {
        self.trees()
            .filter_map(|tree| tree.nearest_neighbor(&p.into()))
            .map(|piece| piece.distance(p))
            .fold(f64::INFINITY, f64::min)
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
        let gap = match &self.settled {
            Some(settled) => settled.first_odd_ring(self, [from.at, to.at], most.width_m),
            None => Search::new(self, [from.at, to.at]).run(self, most.width_m),
        };
        gap.map_or(most, |gap| ClearWidth {
            width_m: gap.width(),
            limit: Limit::TightSpot(tight_spot(&gap)),
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

    /// What one cannot stand in at this point, more than `depth_m` inside.
    pub(super) fn solid_at(&self, p: Vec2, depth_m: f64) -> Option<Tag> {
        let here = AABB::from_point(p.into());
        let round = (self.trees())
            .flat_map(|tree| tree.locate_in_envelope_intersecting(&here))
            .filter(|piece| piece.core.distance(p) < piece.radius - depth_m)
            .map(|piece| piece.tag);
        let straight = (self.solids())
            .filter(|(_, outline)| {
                outline.contains_inside(p) && outline.distance_to_edge(p) > depth_m
            })
            .map(|(tag, _)| *tag);
        round.chain(straight).min()
    }

    fn solids(&self) -> impl Iterator<Item = &(Tag, Outline)> {
        self.layers.iter().flat_map(|layer| &layer.solids)
    }

    /// What one cannot stand in, within this distance of a point.
    pub(super) fn solids_near(&self, p: Vec2, within_m: f64) -> impl Iterator<Item = &Outline> {
        let near = Bounds::of([p]).grown(within_m);
        (self.solids())
            .map(|(_, outline)| outline)
            .filter(move |outline| outline.bounds().meets(&near))
    }

    /// The pieces within this distance of a point.
    pub(super) fn pieces_near(&self, p: Vec2, within_m: f64) -> impl Iterator<Item = &Piece> {
        let near = envelope(&Bounds::of([p]).grown(within_m));
        (self.trees())
            .flat_map(move |tree| tree.locate_in_envelope_intersecting(&near))
            .filter(move |piece| piece.distance(p) <= within_m)
    }
}

fn tight_spot(gap: &Gap) -> TightSpot {
    let (
        [a, b],
        Nearest {
            a: at_a, b: at_b, ..
        },
    ) = (gap.tags, gap.nearest);
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
