//! From the file to pieces.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::Read as _;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;

use dxf::Vector;
use dxf::entities::{Entity, EntityType};
use dxf::enums::Units;

use super::curves::{self, Along};
use super::insert::Gathered;
use super::{Corner, DrawingError, DrawingFault, DrawingLayer, DrawingUnit, OutlineDrawing, Piece};
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};
use crate::store::watch::{Watch, Watched};

/// The drawing of a deck is some kilobytes; a whole ship's hull with all its parts is more than this.
const MOST_BYTES: usize = 64 * 1024 * 1024;

/// Reading the bytes is so much of the work, taking the entities the rest.
const READING_SHARE: f64 = 0.8;

/// Reads a drawing from a file.
pub fn open_file(path: &Path) -> Result<OutlineDrawing, DrawingError> {
    open_file_watched(path, &Watch::default())
}

/// The same under watch: how far it is, and whether it is given up.
pub fn open_file_watched(path: &Path, watch: &Watch) -> Result<OutlineDrawing, DrawingError> {
    let mut bytes = Vec::new();
    // One byte more than the limit is enough for the limit to be noticed.
    File::open(path)
        .and_then(|file| file.take(MOST_BYTES as u64 + 1).read_to_end(&mut bytes))
        .map_err(|error| DrawingError::Unopened(error.to_string()))?;
    open_watched(&bytes, watch)
}

/// Reads a drawing from the bytes of its file.
pub fn open(bytes: &[u8]) -> Result<OutlineDrawing, DrawingError> {
    open_watched(bytes, &Watch::default())
}

/// The same under watch.
pub fn open_watched(bytes: &[u8], watch: &Watch) -> Result<OutlineDrawing, DrawingError> {
    if bytes.len() > MOST_BYTES {
        return Err(DrawingError::TooLarge {
            bytes: bytes.len(),
            most: MOST_BYTES,
        });
    }
    // The library is written for sound files and may stop at a broken one; that must not end the window.
    let loaded = catch_unwind(AssertUnwindSafe(|| {
        dxf::Drawing::load(&mut Watched::new(bytes, READING_SHARE, watch))
    }));
    if watch.is_given_up() {
        return Err(DrawingError::GivenUp);
    }
    let drawing = match loaded {
        Ok(Ok(drawing)) => drawing,
        Ok(Err(error)) => return Err(DrawingError::Unreadable(error.to_string())),
        Err(_) => {
            let reason = "it is broken in a way that the reader does not know".to_owned();
            return Err(DrawingError::Unreadable(reason));
        }
    };
    let mut gathered = Gathered::default();
    let count = drawing.entities().count().max(1);
    for (number, entity) in drawing.entities().enumerate() {
        if watch.is_given_up() {
            return Err(DrawingError::GivenUp);
        }
        watch.set(READING_SHARE + (1.0 - READING_SHARE) * number as f64 / count as f64);
        if !entity.common.is_in_paper_space {
            gathered.take(&drawing, entity, number);
        }
    }
    let Gathered {
        pieces, left_out, ..
    } = gathered;
    if pieces.is_empty() {
        return Err(DrawingError::Empty);
    }
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for piece in &pieces {
        *counts.entry(&piece.layer).or_default() += 1;
    }
    let layers = counts.into_iter().map(|(name, entities)| DrawingLayer {
        name: name.to_owned(),
        entities,
    });
    Ok(OutlineDrawing {
        unit: unit(drawing.header.default_drawing_units),
        layers: layers.collect(),
        pieces,
        left_out,
    })
}

fn unit(units: Units) -> Option<DrawingUnit> {
    match units {
        Units::Millimeters => Some(DrawingUnit::Millimetre),
        Units::Centimeters => Some(DrawingUnit::Centimetre),
        Units::Meters => Some(DrawingUnit::Metre),
        Units::Inches => Some(DrawingUnit::Inch),
        Units::Feet => Some(DrawingUnit::Foot),
        _ => None,
    }
}

/// The name of an entity, by its kind and handle; within blocks, whose handles the reader gives anew, by its
/// number.
pub(super) fn name(kind: &str, entity: &Entity, number: usize, deep: usize) -> String {
    let handle = entity.common.handle;
    if handle.is_empty() || deep > 0 {
        format!("{kind} number {}", number + 1)
    } else {
        format!("{kind} {}", handle.as_string())
    }
}

/// The piece that an entity is; `None` for what has no place in an outline (texts, dimensions, points) and for
/// inserted blocks, which have a module of their own.
pub(super) fn piece(
    entity: &Entity,
    number: usize,
    deep: usize,
) -> Option<Result<Piece, DrawingFault>> {
    let (kind, shape) = shape(entity)?;
    let name = name(kind, entity, number, deep);
    let fault = |message: &str, help: &str| DrawingFault {
        entity: name.clone(),
        message: message.to_owned(),
        help: help.to_owned(),
    };
    let along = match shape {
        Ok(along) => along,
        Err((message, help)) => return Some(Err(fault(message, help))),
    };
    let is_number = |(at, bulge): &Corner| at.is_finite() && bulge.is_finite();
    if along.corners.len() < 2 || !along.corners.iter().all(is_number) {
        let help = "draw it again: it has no length or a coordinate that is no number";
        return Some(Err(fault("is no line", help)));
    }
    Some(Ok(Piece {
        layer: entity.common.layer.clone(),
        entity: name,
        corners: along.corners,
        closed: along.closed,
        deviation: along.deviation,
    }))
}

/// What is wrong, and what to do.
type Trouble = (&'static str, &'static str);

const NOT_FLAT: Trouble = ("is not read", "draw it flat, seen from above");
const NOT_SIMPLE: Trouble = ("is not read", "turn it into a polyline with arcs");

/// What sort of entity it is, and its corners.
fn shape(entity: &Entity) -> Option<(&'static str, Result<Along, Trouble>)> {
    let straight = |corners: Vec<Corner>, closed: bool| Along {
        corners,
        closed,
        deviation: 0.0,
    };
    Some(match &entity.specific {
        EntityType::LwPolyline(line) => {
            let corners = line.vertices.iter().map(|v| (vec2(v.x, v.y), v.bulge));
            let up = flat(&line.extrusion_direction);
            let made = up.map(|up| straight(mirrored(corners.collect(), up), line.is_closed()));
            ("LWPOLYLINE", made.ok_or(NOT_FLAT))
        }
        EntityType::Polyline(line) => {
            // Bits 8, 16 and 64 of the flags: in space, a mesh, a body of faces.
            let is_flat = line.flags & (8 | 16 | 64) == 0;
            let corners = line
                .vertices()
                .map(|v| (vec2(v.location.x, v.location.y), v.bulge));
            let up = flat(&line.normal).filter(|_| is_flat);
            let made = up.map(|up| straight(mirrored(corners.collect(), up), line.is_closed()));
            ("POLYLINE", made.ok_or(NOT_FLAT))
        }
        EntityType::Line(line) => {
            let ends = [&line.p1, &line.p2].map(|p| (vec2(p.x, p.y), 0.0));
            ("LINE", Ok(straight(ends.to_vec(), false)))
        }
        EntityType::Arc(arc) => {
            let centre = vec2(arc.center.x, arc.center.y);
            let sweep = (arc.end_angle - arc.start_angle)
                .rem_euclid(360.0)
                .to_radians();
            let corners = round(centre, arc.radius, arc.start_angle.to_radians(), sweep);
            let made = flat(&arc.normal).map(|up| straight(mirrored(corners, up), false));
            ("ARC", made.ok_or(NOT_FLAT))
        }
        EntityType::Circle(circle) => {
            let centre = vec2(circle.center.x, circle.center.y);
            let mut corners = round(centre, circle.radius, 0.0, std::f64::consts::TAU);
            corners.pop();
            let made = flat(&circle.normal).map(|up| straight(mirrored(corners, up), true));
            ("CIRCLE", made.ok_or(NOT_FLAT))
        }
        EntityType::Ellipse(ellipse) => {
            let made = flat(&ellipse.normal).map(|up| curves::ellipse(ellipse, up));
            ("ELLIPSE", made.ok_or(NOT_FLAT))
        }
        EntityType::Spline(spline) => {
            let made = curves::spline(spline);
            ("SPLINE", made.map_err(|why| (why, NOT_SIMPLE.1)))
        }
        EntityType::Region(_) => ("REGION", Err(NOT_SIMPLE)),
        EntityType::MLine(_) => ("MLINE", Err(NOT_SIMPLE)),
        _ => return None,
    })
}

/// Seen from above (1) or from below (−1); `None` if it is not drawn flat.
pub(super) fn flat(normal: &Vector) -> Option<f64> {
    // A direction written with some decimals.
    (normal.x.abs() < 1e-6 && normal.y.abs() < 1e-6 && normal.z.abs() > 0.5)
        .then(|| normal.z.signum())
}

/// Entities seen from below have their own x running the other way (the arbitrary axis algorithm of the
/// format, for a direction straight down); their arcs turn the other way too.
fn mirrored(corners: Vec<Corner>, up: f64) -> Vec<Corner> {
    let turned = corners
        .into_iter()
        .map(|(at, bulge)| (vec2(up * at.x, at.y), up * bulge));
    turned.collect()
}

/// An arc as corners with bulges, no piece longer than a quarter.
fn round(centre: Vec2, radius: f64, start: f64, sweep: f64) -> Vec<Corner> {
    let at = |share: f64| centre + radius * Vec2::from_angle(start + share * sweep);
    let bulge = (sweep / 16.0).tangent();
    let mut corners: Vec<_> = (0..4).map(|i| (at(0.25 * f64::from(i)), bulge)).collect();
    corners.push((at(1.0), 0.0));
    corners
}
