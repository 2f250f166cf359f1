//! Outlines, and things far off their deck.

use std::collections::BTreeMap;

use super::names::Names;
use super::{Field, Report};
use crate::geometry::tolerances::ON_EDGE_M;
use crate::geometry::{Bounds, Outline, OutlineError, Region, RegionError, Vec2, vec2};
use crate::layout::{Boat, Deck, Point};

/// Corners of an outline, at most. A deck that is drawn every 10 cm along both sides of a 60 m boat
/// has 1,200, and needs no more than every second of them; the search for crossings grows with the
/// square.
const MOST_CORNERS: usize = 1000;

/// How far off its deck a thing may lie before that must be a slip: davits, platforms, fenders and
/// people on a ladder stay well within it. Common sense, no source.
pub(super) const FAR_OFF_M: f64 = 1.0;

/// How far a deck may reach beyond the boat's length or half its beam: a share for rails and
/// platforms, and a step for small boats. Common sense, no source.
const OVERHANG_SHARE: f64 = 0.2;
const OVERHANG_M: f64 = 0.5;

/// The decks by name, and how far each reaches.
pub(super) struct Decks<'p> {
    pub(super) names: Names<'p>,
    reach: BTreeMap<&'p str, Bounds>,
}

impl<'p> Decks<'p> {
    pub(super) fn of(boat: &'p Boat) -> Self {
        let ids = boat.decks.iter().map(|deck| deck.id.as_str());
        let mut reach: BTreeMap<&str, Bounds> = BTreeMap::new();
        for deck in &boat.decks {
            let bounds = Bounds::of(deck.outline.iter().map(|p| vec2(p[0], p[1])));
            reach
                .entry(&deck.id)
                .and_modify(|known| *known = known.union(&bounds))
                .or_insert(bounds);
        }
        Self {
            names: Names::new("deck", ids),
            reach,
        }
    }

    /// Checks that the deck exists and that the points are not far off it.
    pub(super) fn check(
        &self,
        deck: &str,
        points: &[Point],
        place: Field<'_>,
        at: &str,
        report: &mut Report,
    ) {
        if self.names.check(deck, format_args!("{place}.deck"), report) {
            self.check_near(deck, points, format_args!("{place}.{at}"), report);
        }
    }

    /// Checks that points are not far off a deck that exists.
    pub(super) fn check_near(
        &self,
        deck: &str,
        points: &[Point],
        field: Field<'_>,
        report: &mut Report,
    ) {
        let Some(reach) = self.reach.get(deck) else {
            return;
        };
        let own = Bounds::of(points.iter().map(|p| vec2(p[0], p[1])));
        let gap = gap(reach, &own);
        if gap.is_finite() && gap > FAR_OFF_M {
            report.add(
                field,
                format!("this lies {gap:.1} m off the deck {deck:?}"),
                "x counts forward from the transom, y to port from the centreline, in metres; or it \
                 belongs to another deck",
            );
        }
    }
}

/// How far two upright rectangles are apart.
fn gap(a: &Bounds, b: &Bounds) -> f64 {
    let along = (b.min.x - a.max.x).max(a.min.x - b.max.x).max(0.0);
    let across = (b.min.y - a.max.y).max(a.min.y - b.max.y).max(0.0);
    vec2(along, across).length()
}

/// Checks a deck's outline, its holes, and how far it reaches beyond the boat.
pub(super) fn check_deck(boat: &Boat, deck: &Deck, place: Field<'_>, report: &mut Report) {
    let outline = check_outline(&deck.outline, format_args!("{place}.outline"), report);
    let mut holes = Vec::new();
    let mut indices = Vec::new();
    for (i, hole) in deck.holes.iter().enumerate() {
        if let Some(hole) = check_outline(hole, format_args!("{place}.holes[{i}]"), report) {
            holes.push(hole);
            indices.push(i);
        }
    }
    let Some(outline) = outline else { return };
    check_reach(boat, &outline, place, report);
    let corners: usize = holes.iter().map(|hole| hole.vertices().len()).sum();
    if corners > MOST_CORNERS {
        report.add(
            format_args!("{place}.holes"),
            format!("the holes have {corners} corners in all"),
            format!("draw them with at most {MOST_CORNERS}"),
        );
        return;
    }
    let index = |hole: usize| indices.get(hole).copied().unwrap_or(hole);
    match Region::new(outline, holes) {
        Ok(_) => {}
        Err(RegionError::HoleOutside { hole, at }) => report.add(
            format_args!("{place}.holes[{}]", index(hole)),
            format!("the hole reaches outside the deck at {}", point(at)),
            "keep holes within the deck's edge; cut a notch into the outline instead",
        ),
        Err(RegionError::HolesOverlap { first, second, at }) => report.add(
            format_args!("{place}.holes[{}]", index(second)),
            format!("the hole overlaps hole {} at {}", index(first), point(at)),
            "make one hole of the two",
        ),
    }
}

/// Checks that the deck is where the boat is.
fn check_reach(boat: &Boat, outline: &Outline, place: Field<'_>, report: &mut Report) {
    let (length, half_beam) = (boat.length_overall_m, 0.5 * boat.beam_m);
    let slack_x = OVERHANG_SHARE * length + OVERHANG_M;
    let slack_y = OVERHANG_SHARE * half_beam + OVERHANG_M;
    let Bounds { min, max } = outline.bounds();
    let field = format_args!("{place}.outline");
    if min.x < -slack_x || max.x > length + slack_x {
        report.add(
            field,
            format!(
                "the deck reaches from {:.2} to {:.2} m, but the boat is {length} m long",
                min.x, max.x
            ),
            "x counts forward from the transom, in metres",
        );
    }
    if min.y < -half_beam - slack_y || max.y > half_beam + slack_y {
        report.add(
            field,
            format!(
                "the deck reaches {:.2} m to starboard and {:.2} m to port, but half the beam is \
                 {half_beam} m",
                0.0 - min.y,
                max.y
            ),
            "y counts to port from the centreline, in metres; starboard is negative",
        );
    }
}

/// Checks that points enclose an area; corners are counted from 1 in what is told.
pub(super) fn check_outline(
    points: &[Point],
    field: Field<'_>,
    report: &mut Report,
) -> Option<Outline> {
    if points.len() > MOST_CORNERS {
        report.add(
            field,
            format!("the outline has {} corners", points.len()),
            format!(
                "draw it with at most {MOST_CORNERS}; a corner every few centimetres is enough"
            ),
        );
        return None;
    }
    let corners: Vec<Vec2> = points.iter().map(|p| vec2(p[0], p[1])).collect();
    let error = match Outline::new(corners) {
        Ok(outline) => return Some(outline),
        Err(error) => error,
    };
    match error {
        OutlineError::TooFewVertices { count } => report.add(
            field,
            format!("an outline needs three corners or more, here are {count}"),
            "give its corners one after the other, the first not repeated",
        ),
        OutlineError::NotFinite { vertex } => report.add(
            format_args!("{field}[{vertex}]"),
            "the corner is nowhere",
            "give finite numbers",
        ),
        OutlineError::RepeatedVertex { first, second, at } => {
            let closing = first == 0 && second + 1 == points.len();
            let help = if closing {
                "leave the last corner out: an outline closes by itself"
            } else {
                "leave one of the two out"
            };
            report.add(
                format_args!("{field}[{second}]"),
                format!(
                    "corners {} and {} are the same point, {}",
                    first + 1,
                    second + 1,
                    point(at)
                ),
                help,
            );
        }
        OutlineError::SelfCrossing { .. } if is_one_line(points) => one_line(field, report),
        OutlineError::SelfCrossing {
            first_edge,
            second_edge,
            at,
        } => report.add(
            format_args!("{field}[{second_edge}]"),
            format!(
                "the edge from corner {} on crosses or touches the one from corner {} on, at {}",
                second_edge + 1,
                first_edge + 1,
                point(at)
            ),
            "give the corners in order round the edge; two of them may be swapped",
        ),
        OutlineError::Degenerate { .. } => one_line(field, report),
    }
    None
}

fn one_line(field: Field<'_>, report: &mut Report) {
    report.add(
        field,
        "the corners lie on one line and enclose nothing",
        "give the corners of an area",
    );
}

/// Do all points lie on one line, within a millimetre?
fn is_one_line(points: &[Point]) -> bool {
    let corners: Vec<Vec2> = points.iter().map(|p| vec2(p[0], p[1])).collect();
    let Some(first) = corners.first().copied() else {
        return true;
    };
    let farthest = corners
        .iter()
        .max_by(|a, b| first.distance(**a).total_cmp(&first.distance(**b)));
    let Some(along) = farthest.and_then(|far| (*far - first).normalized()) else {
        return true;
    };
    corners
        .iter()
        .all(|corner| along.cross(*corner - first).abs() < ON_EDGE_M)
}

/// A point as it is written in the file.
fn point(at: Vec2) -> String {
    format!("[{:.3}, {:.3}]", at.x, at.y)
}
