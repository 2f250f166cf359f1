//! Outlines from DXF drawings.
//!
//! Read are LWPOLYLINE and two-dimensional POLYLINE (with their arcs), LINE, ARC, CIRCLE, ELLIPSE and SPLINE (by
//! its control points, or else through its fit points), and all of these within blocks that are inserted; what else
//! lies on the chosen layer is told and left out. Closed entities are outlines; open ones are joined end to end.
//! The file itself is read by the `dxf` crate.

mod curves;
mod fitted;
mod insert;
mod join;
mod read;
#[cfg(test)]
mod tests;

use crate::geometry::{Outline, Vec2, vec2};
use crate::layout::Point;

pub use self::read::{open, open_file, open_file_watched, open_watched};

/// A unit of length in which a drawing may be.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
pub enum DrawingUnit {
    /// Millimetres.
    Millimetre,
    /// Centimetres.
    Centimetre,
    /// Metres.
    Metre,
    /// Inches.
    Inch,
    /// Feet.
    Foot,
}

impl DrawingUnit {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
        Self::Inch,
        Self::Foot,
    ];

    /// Its length in metres.
    pub fn metres(self) -> f64 {
        match self {
            Self::Millimetre => 0.001,
            Self::Centimetre => 0.01,
            Self::Metre => 1.0,
            Self::Inch => 0.0254,
            Self::Foot => 0.3048,
        }
    }

    /// Its symbol.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Foot => "ft",
        }
    }
}

/// A drawing as far as outlines are in it.
#[derive(Clone, Debug, PartialEq)]
pub struct OutlineDrawing {
    /// What the drawing says of its unit (`$INSUNITS`); `None` where it says nothing or another unit than
    /// those of [`DrawingUnit`].
    pub unit: Option<DrawingUnit>,
    /// The layers with something on them, in the order of their names.
    pub layers: Vec<DrawingLayer>,
    pieces: Vec<Piece>,
    left_out: Vec<(String, DrawingFault)>,
}

/// A layer of a drawing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawingLayer {
    /// Its name.
    pub name: String,
    /// How many entities on it can be part of an outline.
    pub entities: usize,
}

/// Something in a drawing that is no part of an outline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrawingFault {
    /// Which entity, by its kind and handle: `LINE 2F`.
    pub entity: String,
    /// What is wrong with it.
    pub message: String,
    /// What to do.
    pub help: String,
}

/// A closed outline that was found, in metres, in the drawing's own frame.
#[derive(Clone, Debug, PartialEq)]
pub struct FoundOutline {
    /// The outline.
    pub outline: Outline,
    /// The entities it was made of.
    pub entities: Vec<String>,
    /// How far its arcs lie from the straight pieces that stand for them, at most, in metres; with it, by how much a
    /// spline that is given only by its fit points may have been drawn otherwise between them.
    pub deviation_m: f64,
    /// The widest gap that was closed between entities, in metres.
    pub gap_m: f64,
}

/// What was found on a layer: outlines, the largest first, and what is none.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FoundOutlines {
    /// The outlines.
    pub outlines: Vec<FoundOutline>,
    /// What lies on the layer and is in none of them.
    pub faults: Vec<DrawingFault>,
}

/// How outlines are made of a layer.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct OutlineOptions {
    /// The unit of the drawing.
    pub unit: DrawingUnit,
    /// How far arcs may lie from the straight pieces that stand for them, in metres.
    pub deviation_m: f64,
    /// Ends that are nearer to each other than this are joined, in metres.
    pub join_m: f64,
}

impl OutlineOptions {
    /// Arcs within 2 mm and ends joined within 5 mm: below what a tape on a deck tells apart.
    pub fn new(unit: DrawingUnit) -> Self {
        Self {
            unit,
            deviation_m: 0.002,
            join_m: 0.005,
        }
    }
}

/// Why a drawing was not read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DrawingError {
    /// The operating system said no.
    #[error("cannot be read: {0}")]
    Unopened(String),

    /// Too much to be the outline of a deck.
    #[error(
        "the drawing has {bytes} bytes, more than the {most} that are read: save the deck alone"
    )]
    TooLarge {
        /// How many it has.
        bytes: usize,
        /// How many it may have.
        most: usize,
    },

    /// Nobody waits for it any more.
    #[error("reading it was given up")]
    GivenUp,

    /// Not the format, or broken.
    #[error("this is no DXF drawing that can be read: {0}")]
    Unreadable(String),

    /// Nothing in it that could be an outline.
    #[error(
        "the drawing has no polyline, line, arc, circle, ellipse or spline in its model space: turn what it has into \
         polylines"
    )]
    Empty,
}

/// Which way the bow points in a drawing.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq)]
pub enum BowTowards {
    /// To the right, as on a deck plan here.
    #[default]
    Right,
    /// Up.
    Up,
    /// To the left.
    Left,
    /// Down.
    Down,
}

/// An outline in the boat frame, to the millimetre: turned so that its bow points forward, its aft end at the
/// transom, its middle on the centreline.
pub fn in_boat_frame(outline: &Outline, bow: BowTowards) -> Vec<Point> {
    let turned = |p: &Vec2| match bow {
        BowTowards::Right => *p,
        BowTowards::Up => vec2(p.y, -p.x),
        BowTowards::Left => -*p,
        BowTowards::Down => vec2(-p.y, p.x),
    };
    let points: Vec<Vec2> = outline.vertices().iter().map(turned).collect();
    let low = |get: fn(&Vec2) -> f64| points.iter().map(get).fold(f64::INFINITY, f64::min);
    let high = |get: fn(&Vec2) -> f64| points.iter().map(get).fold(f64::NEG_INFINITY, f64::max);
    let (aft, middle) = (low(|p| p.x), 0.5 * (low(|p| p.y) + high(|p| p.y)));
    let mm = |value: f64| (value * 1000.0).round() / 1000.0;
    let placed = points.iter().map(|p| [mm(p.x - aft), mm(p.y - middle)]);
    let mut placed: Vec<Point> = placed.collect();
    placed.dedup();
    placed
}

/// A part of an outline in the units of the drawing.
#[derive(Clone, Debug, PartialEq)]
struct Piece {
    layer: String,
    entity: String,
    corners: Vec<Corner>,
    closed: bool,
    /// How far the curve that it stands for lies from it, in the units of the drawing.
    deviation: f64,
}

/// A corner with the bulge of the way to the next one: the tangent of a quarter of the arc's angle, above zero
/// where the arc runs against the clock.
type Corner = (Vec2, f64);
