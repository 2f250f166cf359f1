//! Entities as they are in the drawing: those of inserted blocks where the block was put, however deep.

use dxf::Drawing;
use dxf::entities::{Entity, EntityType, Insert};

use super::read::{flat, name, piece};
use super::{Corner, DrawingFault, Piece};
use crate::geometry::Elementary as _;
use crate::geometry::survey::arc;
use crate::geometry::{Vec2, vec2};

/// Blocks within blocks, at most.
const MOST_DEEP: usize = 8;

/// Entities of blocks that are looked at, at most, each as often as it is put in: a deck has hundreds.
const MOST_SEEN: usize = 200_000;

/// What was found so far.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    pub(super) pieces: Vec<Piece>,
    /// The layer, and what is wrong.
    pub(super) left_out: Vec<(String, DrawingFault)>,
    /// How many entities of blocks were looked at.
    seen: usize,
}

/// Where the entities of a block come to lie.
#[derive(Clone, Debug)]
struct Place {
    /// In the drawing, a point of the block is `along` times its x and `across` times its y from here.
    origin: Vec2,
    along: Vec2,
    across: Vec2,
    /// The layer of the insert: what is on layer 0 of a block is on it.
    layer: String,
    /// What the insert is called.
    name: String,
}

impl Gathered {
    /// Takes an entity, with all that is in it.
    pub(super) fn take(&mut self, drawing: &Drawing, entity: &Entity, number: usize) {
        self.take_at(drawing, entity, number, &[]);
    }

    fn take_at(&mut self, drawing: &Drawing, entity: &Entity, number: usize, places: &[Place]) {
        // What stands in the drawing itself is always taken; blocks can put in more than anybody drew.
        if !places.is_empty() {
            self.seen += 1;
            if self.seen > MOST_SEEN {
                return;
            }
        }
        let layer = match places.last() {
            Some(place) if entity.common.layer == "0" => place.layer.clone(),
            _ => entity.common.layer.clone(),
        };
        if let EntityType::Insert(insert) = &entity.specific {
            let name = within(name("INSERT", entity, number, places.len()), places);
            if let Err(fault) = self.insert(drawing, insert, &layer, &name, places) {
                self.left_out.push((layer, fault));
            }
            return;
        }
        match piece(entity, number, places.len()) {
            Some(Ok(piece)) => {
                let placed = places
                    .iter()
                    .rev()
                    .fold(piece, |piece, place| place.put(piece));
                let entity = within(placed.entity, places);
                self.pieces.push(Piece {
                    layer,
                    entity,
                    ..placed
                });
            }
            Some(Err(mut fault)) => {
                fault.entity = within(fault.entity, places);
                self.left_out.push((layer, fault));
            }
            None => {}
        }
    }

    fn insert(
        &mut self,
        drawing: &Drawing,
        insert: &Insert,
        layer: &str,
        name: &str,
        places: &[Place],
    ) -> Result<(), DrawingFault> {
        let fault = |message: String, help: &str| DrawingFault {
            entity: name.to_owned(),
            message,
            help: help.to_owned(),
        };
        let block = drawing.blocks().find(|block| block.name == insert.name);
        let Some(block) = block else {
            let message = format!(
                "puts in the block {:?}, which is not in the drawing",
                insert.name
            );
            return Err(fault(message, "explode it where it is, and save again"));
        };
        if !block.xref_path_name.is_empty() {
            let message = format!("is the other drawing {:?}", block.xref_path_name);
            return Err(fault(message, "bind it to this one, or open it alone"));
        }
        if places.len() >= MOST_DEEP {
            let message = format!("is block in block, more than {MOST_DEEP} deep");
            return Err(fault(message, "explode it in the drawing program"));
        }
        let Some(up) = flat(&insert.extrusion_direction) else {
            let message = "is not read".to_owned();
            return Err(fault(message, "draw it flat, seen from above"));
        };
        let rows = insert.row_count.max(1);
        for row in 0..rows {
            for column in 0..insert.column_count.max(1) {
                // Counted even where the block is empty, so that a broken count ends.
                self.seen += 1;
                if self.seen > MOST_SEEN {
                    let message = "puts in more than can be read".to_owned();
                    return Err(fault(message, "save the deck alone"));
                }
                let shift = [
                    f64::from(column) * insert.column_spacing,
                    f64::from(row) * insert.row_spacing,
                ];
                let base = vec2(block.base_point.x, block.base_point.y);
                let place = place(insert, base, shift, up);
                if !place.0.is_finite() || !place.1.is_finite() || !place.2.is_finite() {
                    let message = "is put at no place that is a number".to_owned();
                    return Err(fault(message, "explode it in the drawing program"));
                }
                let mut all = places.to_vec();
                all.push(Place {
                    origin: place.0,
                    along: place.1,
                    across: place.2,
                    layer: layer.to_owned(),
                    name: name.to_owned(),
                });
                for (number, entity) in block.entities.iter().enumerate() {
                    self.take_at(drawing, entity, number, &all);
                }
            }
        }
        Ok(())
    }
}

/// Where a block comes to lie: its zero, and one unit along its x and its y.
fn place(insert: &Insert, base: Vec2, shift: [f64; 2], up: f64) -> (Vec2, Vec2, Vec2) {
    let turn = insert.rotation.to_radians();
    // Seen from below, x runs the other way (the arbitrary axis algorithm of the format).
    let seen = |v: Vec2| vec2(up * v.x, v.y);
    let along = insert.x_scale_factor * Vec2::from_angle(turn);
    let across = insert.y_scale_factor * Vec2::from_angle(turn).perp();
    let shifted = vec2(shift[0], shift[1]).rotated(turn);
    let at = vec2(insert.location.x, insert.location.y) + shifted;
    let origin = at - base.x * along - base.y * across;
    (seen(origin), seen(along), seen(across))
}

impl Place {
    fn at(&self, p: Vec2) -> Vec2 {
        self.origin + p.x * self.along + p.y * self.across
    }

    fn put(&self, piece: Piece) -> Piece {
        let (long, wide) = (self.along.length(), self.across.length());
        let is_even = (long - wide).abs() <= 1e-9 * long.max(wide);
        let corners = if is_even {
            piece.corners
        } else {
            // An arc that is stretched is one no longer.
            straight(&piece.corners, piece.closed)
        };
        // What was mirrored runs round the other way.
        let side = if self.along.cross(self.across) < 0.0 {
            -1.0
        } else {
            1.0
        };
        Piece {
            corners: corners
                .into_iter()
                .map(|(p, bulge)| (self.at(p), side * bulge))
                .collect(),
            deviation: piece.deviation * long.max(wide),
            ..piece
        }
    }
}

/// Corners without bulges, close to the arcs.
fn straight(corners: &[Corner], closed: bool) -> Vec<Corner> {
    let count = corners.len();
    let steps = if closed { count } else { count - 1 };
    let mut straight = vec![(corners[0].0, 0.0)];
    for i in 0..steps {
        let (from, bulge) = corners[i];
        let to = corners[(i + 1) % count].0;
        let chord = to - from;
        if bulge.abs() > 1e-6 && chord.length() > 0.0 {
            let sweep = 4.0 * bulge.arc_tangent();
            let centre = from + 0.5 * chord + (1.0 - bulge * bulge) / (4.0 * bulge) * chord.perp();
            let (on_arc, _) = arc(centre, from, sweep, 1e-4 * chord.length());
            let between = &on_arc[1..on_arc.len() - 1];
            straight.extend(between.iter().map(|p| (*p, 0.0)));
        }
        straight.push((to, 0.0));
    }
    if closed {
        straight.pop();
    }
    straight
}

fn within(name: String, places: &[Place]) -> String {
    match places.last() {
        Some(place) => format!("{name} in {}", place.name),
        None => name,
    }
}
