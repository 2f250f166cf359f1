//! From pieces to closed outlines.

use super::{DrawingFault, FoundOutline, FoundOutlines, OutlineDrawing, OutlineOptions, Piece};
use crate::geometry::Elementary as _;
use crate::geometry::survey::arc;
use crate::geometry::tolerances::SAME_POINT_M;
use crate::geometry::{Outline, Vec2};

/// Open entities on a layer, at most: joining them compares each with each.
const MOST_OPEN: usize = 3000;

/// Corners of an outline, at most; as for a deck in a layout file.
const MOST_CORNERS: usize = 1000;

/// A line of corners in metres, made of one entity or several.
struct Way {
    entities: Vec<String>,
    corners: Vec<Vec2>,
    deviation_m: f64,
    gap_m: f64,
}

impl OutlineDrawing {
    /// The closed outlines on a layer, the largest first, and what is part of none.
    pub fn outlines(&self, layer: &str, options: OutlineOptions) -> FoundOutlines {
        let mut found = FoundOutlines::default();
        for (other, fault) in &self.left_out {
            if other == layer {
                found.faults.push(fault.clone());
            }
        }
        let (mut closed, mut open) = (Vec::new(), Vec::new());
        for piece in self.pieces.iter().filter(|piece| piece.layer == layer) {
            let way = way(piece, options);
            let ends_meet = way.corners.len() > 3
                && way.corners[0].distance(way.corners[way.corners.len() - 1]) <= SAME_POINT_M;
            if piece.closed || ends_meet {
                closed.push(way);
            } else {
                open.push(way);
            }
        }
        if open.len() > MOST_OPEN {
            found.faults.push(DrawingFault {
                entity: format!("{} open entities", open.len()),
                message: "are too many to be joined".to_owned(),
                help: "put the outline of the deck on a layer of its own".to_owned(),
            });
            open.clear();
        }
        join(open, options.join_m, &mut closed, &mut found.faults);
        for way in closed {
            match outline(way) {
                Ok(outline) => found.outlines.push(outline),
                Err(fault) => found.faults.push(fault),
            }
        }
        found
            .outlines
            .sort_by(|a, b| b.outline.area().total_cmp(&a.outline.area()));
        found
    }
}

/// The corners of a piece in metres, arcs cut into straight pieces.
fn way(piece: &Piece, options: OutlineOptions) -> Way {
    let scale = options.unit.metres();
    let n = piece.corners.len();
    let steps = if piece.closed { n } else { n - 1 };
    let mut corners = vec![scale * piece.corners[0].0];
    let mut deviation_m = scale * piece.deviation;
    for i in 0..steps {
        let (from, bulge) = piece.corners[i];
        let (from, to) = (scale * from, scale * piece.corners[(i + 1) % n].0);
        let chord = to - from;
        // The arc rises by bulge × half the chord; less than a tenth of a micrometre is straight.
        if bulge.abs() * chord.length() > 2e-7 {
            let sweep = 4.0 * bulge.arc_tangent();
            let centre = from + 0.5 * chord + (1.0 - bulge * bulge) / (4.0 * bulge) * chord.perp();
            let (on_arc, off) = arc(centre, from, sweep, options.deviation_m);
            deviation_m = deviation_m.max(off);
            corners.extend(&on_arc[1..on_arc.len() - 1]);
        }
        corners.push(to);
    }
    Way {
        entities: vec![piece.entity.clone()],
        corners,
        deviation_m,
        gap_m: 0.0,
    }
}

/// Joins open ways end to end, always with the nearest end there is.
fn join(open: Vec<Way>, join_m: f64, closed: &mut Vec<Way>, faults: &mut Vec<DrawingFault>) {
    let mut open: Vec<Option<Way>> = open.into_iter().map(Some).collect();
    for first in 0..open.len() {
        let Some(mut way) = open[first].take() else {
            continue;
        };
        loop {
            let [start, end] = [way.corners[0], way.corners[way.corners.len() - 1]];
            let home = end.distance(start);
            let next = nearest(&open, end);
            let can_close = home <= join_m && way.corners.len() > 3;
            match next {
                Some((_, _, gap)) if can_close && home <= gap => {}
                Some((other, turn, gap)) if gap <= join_m => {
                    let Some(mut more) = open[other].take() else {
                        break;
                    };
                    if turn {
                        more.corners.reverse();
                    }
                    way.corners.extend(more.corners);
                    way.entities.extend(more.entities);
                    way.deviation_m = way.deviation_m.max(more.deviation_m);
                    way.gap_m = way.gap_m.max(gap);
                    continue;
                }
                _ => {}
            }
            if can_close {
                way.gap_m = way.gap_m.max(home);
                closed.push(way);
            } else {
                let gap = next.map_or(home, |(_, _, gap)| gap.min(home.max(join_m)));
                faults.push(loose(&way, end, gap, join_m));
            }
            break;
        }
    }
}

/// The way whose start or end is nearest to a point: which, whether it has to be turned round, how far.
fn nearest(open: &[Option<Way>], end: Vec2) -> Option<(usize, bool, f64)> {
    let mut best: Option<(usize, bool, f64)> = None;
    for (i, way) in open.iter().enumerate() {
        let Some(way) = way else { continue };
        for (turn, at) in [
            (false, way.corners[0]),
            (true, way.corners[way.corners.len() - 1]),
        ] {
            let gap = at.distance(end);
            if best.is_none_or(|(_, _, least)| gap < least) {
                best = Some((i, turn, gap));
            }
        }
    }
    best
}

fn loose(way: &Way, end: Vec2, gap_m: f64, join_m: f64) -> DrawingFault {
    let last = way.entities.last().map_or("", String::as_str);
    DrawingFault {
        entity: last.to_owned(),
        message: format!(
            "is not closed: its end at ({:.3}, {:.3}) m is {gap_m:.3} m from the next one",
            end.x, end.y
        ),
        help: format!(
            "close the line in the drawing; ends up to {:.0} mm apart are joined",
            join_m * 1e3
        ),
    }
}

fn outline(way: Way) -> Result<FoundOutline, DrawingFault> {
    let mut corners = way.corners;
    corners.dedup_by(|a, b| a.distance(*b) <= SAME_POINT_M.max(way.gap_m));
    while corners.len() > 3
        && corners[0].distance(corners[corners.len() - 1]) <= SAME_POINT_M.max(way.gap_m)
    {
        corners.pop();
    }
    let fault = |message: String, help: &str| DrawingFault {
        entity: way.entities.join(", "),
        message,
        help: help.to_owned(),
    };
    if corners.len() > MOST_CORNERS {
        let message = format!("has {} corners", corners.len());
        return Err(fault(
            message,
            "allow a larger deviation of its arcs, or draw it with fewer",
        ));
    }
    match Outline::new(corners) {
        Ok(outline) => Ok(FoundOutline {
            outline,
            deviation_m: way.deviation_m,
            gap_m: way.gap_m,
            entities: way.entities,
        }),
        Err(error) => Err(fault(
            format!("is no outline: {error}"),
            "draw it so that it does not cross or touch itself",
        )),
    }
}
