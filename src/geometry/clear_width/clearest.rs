//! The clearest point of a zone: the one furthest from every wall.
//!
//! The zone is cut into squares. How much room any point of a square can have follows from the walls
//! near its middle, so squares that cannot beat the best point so far are dropped, and the others are
//! cut in four, the most promising first. A point that is better than the best so far is moved uphill
//! at once, so that the next squares have more to beat (branch and bound).

use super::Walls;
use super::piece::Piece;
use super::zone::{Spot, Zone};
use crate::geometry::tolerances::{CLEAREST_M, ON_EDGE_M, SAME_POINT_M};
use crate::geometry::{Outline, Segment, Vec2, vec2};
use std::cmp::Ordering;
use std::collections::BinaryHeap;
use std::f64::consts::{SQRT_2, TAU};

/// Squares that promise less than this above the best point are dropped. The room is twice that, half
/// a centimetre: less than anybody measures between two bodies on a moving boat.
const WORTH_A_LOOK_M: f64 = 0.0025;

/// Squares whose points are no further from the middle than this are not cut any more where only
/// another way into the zone is looked for.
const SMALLEST_M: f64 = 0.0125;

/// The zone is first cut into so many squares along each side.
const SQUARES: i32 = 4;

/// A guard against walls that promise room everywhere; a corridor takes about a hundred.
const MOST_SQUARES: usize = 600;

/// A step that raises the room by less than this share of its length is not worth taking: over the
/// whole zone that is a millimetre.
const LEAST_RISE: f64 = 0.002;

/// Ten halvings of the stride and some steps with each; a guard against a hill without end.
const MOST_STEPS: usize = 100;

/// Where a hidden part of the zone is looked for: rings of so many points round the middle, so that
/// neighbours are about a third of the radius apart.
const RINGS: [u32; 3] = [6, 12, 18];

/// Points nearer than this times their spacing are neighbours; the next nearest are 1.7 apart.
const NEIGHBOUR: f64 = 1.25;

/// A zone and the walls that matter in it.
#[derive(Clone, Debug)]
pub(super) struct Neighbourhood<'a> {
    walls: &'a Walls,
    zone: Zone,
    /// Every piece within this distance of the middle.
    pieces: Vec<Piece>,
    pieces_within_m: f64,
    /// What one cannot stand in and that lies in the zone.
    solids: Vec<&'a Outline>,
}

/// A part of the zone that may hold a better point.
#[derive(Copy, Clone, Debug)]
struct Square {
    middle: Vec2,
    half_side: f64,
    /// The point of the zone nearest to the middle. It is no further from any point of the zone in the
    /// square than the middle is.
    spot: Spot,
    /// No point of it has more room than this.
    most: f64,
}

/// Points all over the zone that can be reached, once they are needed.
#[derive(Default)]
struct Scattered(Option<Vec<Spot>>);

impl Square {
    /// How far from the spot a point of it can be.
    fn reach(&self) -> f64 {
        SQRT_2 * self.half_side
    }

    /// Is there no wall in it? Then it can be reached as a whole or not at all.
    fn is_open(&self) -> bool {
        self.spot.distance_m > self.reach()
    }
}

impl<'a> Neighbourhood<'a> {
    /// With everything that matters to points that have less room than `room_m`; to all points of the
    /// zone if nothing is said.
    pub(super) fn new(walls: &'a Walls, zone: Zone, room_m: Option<f64>) -> Self {
        // A point of the zone is at most one radius further from the nearest wall than the middle.
        let room_m = room_m.unwrap_or_else(|| walls.distance(zone.at) + zone.radius_m);
        let pieces_within_m = room_m + zone.radius_m;
        Self {
            walls,
            zone,
            pieces: walls
                .pieces_near(zone.at, pieces_within_m)
                .copied()
                .collect(),
            pieces_within_m,
            solids: walls.solids_near(zone.at, zone.radius_m).collect(),
        }
    }

    /// How far from the middle of the zone walls matter.
    pub(super) fn pieces_within_m(&self) -> f64 {
        self.pieces_within_m
    }

    /// The point with the most room among those that can be reached from the middle, to within
    /// [`WORTH_A_LOOK_M`].
    pub(super) fn clearest(&self) -> Option<Spot> {
        let mut best: Option<Spot> = None;
        let mut scattered = Scattered::default();
        let mut squares: BinaryHeap<Square> = self.first_squares(0.0).collect();
        for _ in 0..MOST_SQUARES {
            let to_beat = best.map_or(0.0, |spot| spot.distance_m);
            let Some(square) = squares.pop() else { break };
            if square.most <= to_beat + WORTH_A_LOOK_M {
                break;
            }
            let is_better = square.spot.distance_m > to_beat;
            if is_better && self.is_reached(&square.spot, &mut scattered) {
                best = Some(self.climb(square.spot));
            } else if square.is_open() && !self.is_reached(&square.spot, &mut scattered) {
                continue;
            }
            squares.extend(self.quarters(&square, to_beat));
        }
        best
    }

    /// A point that can be reached and has more room than `least`, but is not joined by ways with that
    /// room to the points given. It may be missed if its room is larger by [`SMALLEST_M`] or less.
    pub(super) fn apart_from(&self, points: &[Spot], least: f64) -> Option<Spot> {
        if !self.has_tight_spot(2.0 * least) {
            return None;
        }
        let mut joined = points.to_vec();
        let mut scattered = Scattered::default();
        let mut squares: Vec<Square> = self.first_squares(least).collect();
        for _ in 0..MOST_SQUARES {
            let square = squares.pop()?;
            if square.spot.distance_m > least + CLEAREST_M {
                let mut is_joined = self.is_joined(&square.spot, &joined, least);
                if !is_joined {
                    if self.is_reached(&square.spot, &mut scattered) {
                        // No step uphill has less room than the point.
                        let top = self.climb(square.spot);
                        if !self.is_joined(&top, &joined, least) {
                            return Some(top);
                        }
                        joined.push(square.spot);
                        is_joined = true;
                    } else if square.is_open() {
                        continue;
                    }
                }
                if is_joined && square.spot.distance_m - square.reach() > least {
                    continue;
                }
            }
            if square.reach() > SMALLEST_M {
                squares.extend(self.quarters(&square, least));
            }
        }
        None
    }

    /// Is there any gap in the zone that is no wider than this and can be seen through? Without one,
    /// all points of the zone with that room are joined: whatever parts them has to be passed.
    fn has_tight_spot(&self, width: f64) -> bool {
        (self.pieces.iter().enumerate()).any(|(i, piece)| {
            self.pieces[..i].iter().any(|other| {
                let nearest = piece.nearest(other);
                let is_tight = nearest.distance_m > SAME_POINT_M && nearest.distance_m <= width;
                let way = Segment::new(nearest.a, nearest.b);
                is_tight && way.distance(self.zone.at) <= self.zone.radius_m
            })
        })
    }

    /// Does a straight way with more room than `least` lead to one of these?
    fn is_joined(&self, point: &Spot, others: &[Spot], least: f64) -> bool {
        others.iter().any(|other| {
            let room = point.distance_m + other.distance_m - 2.0 * least;
            point.at.distance(other.at) < room - CLEAREST_M
                || self.room_along(&Segment::new(point.at, other.at)) > least + CLEAREST_M
        })
    }

    /// Can the point be reached from the middle of the zone? For certain if no slit has to be passed.
    fn is_reached(&self, point: &Spot, scattered: &mut Scattered) -> bool {
        self.is_seen(point)
            || (scattered.0.get_or_insert_with(|| self.reached()).iter())
                .any(|other| self.is_linked(other, point))
    }

    fn first_squares(&self, to_beat: f64) -> impl Iterator<Item = Square> + '_ {
        let half_side = self.zone.radius_m / f64::from(SQUARES);
        let offset = move |i: i32| f64::from(2 * i + 1 - SQUARES) * half_side;
        (0..SQUARES * SQUARES).filter_map(move |k| {
            let middle = self.zone.at + vec2(offset(k / SQUARES), offset(k % SQUARES));
            self.square(middle, half_side, to_beat)
        })
    }

    fn quarters(&self, square: &Square, to_beat: f64) -> impl Iterator<Item = Square> + '_ {
        let (middle, half) = (square.middle, 0.5 * square.half_side);
        [(-half, -half), (half, -half), (-half, half), (half, half)]
            .into_iter()
            .filter_map(move |(x, y)| self.square(middle + vec2(x, y), half, to_beat))
    }

    /// `None` if no point of it is in the zone, or none is worth a look.
    fn square(&self, middle: Vec2, half_side: f64, to_beat: f64) -> Option<Square> {
        let off = middle - self.zone.at;
        let nearest = vec2(
            (off.x.abs() - half_side).max(0.0),
            (off.y.abs() - half_side).max(0.0),
        );
        if nearest.length() > self.zone.radius_m {
            return None;
        }
        let spot = self.spot(self.clamped(middle));
        let most = self.most_room(&spot, SQRT_2 * half_side, to_beat + WORTH_A_LOOK_M);
        (most > to_beat + WORTH_A_LOOK_M).then_some(Square {
            middle,
            half_side,
            spot,
            most,
        })
    }

    /// A bound on the room of any point within `reach` of another.
    ///
    /// No point is further from a wall than the other point is, plus its distance from that. And with
    /// n the direction away from a convex wall at distance d, a point off by s is at most
    ///
    /// ```text
    /// d + n·s + |s|² / 2(d − |s|)
    /// ```
    ///
    /// from it: that is how a single point, the smallest wall, recedes. Half of this for each of two
    /// walls bounds the nearer one; where they lie on opposite sides, the terms in n cancel. A bound
    /// that is below `enough` is not made any sharper.
    fn most_room(&self, spot: &Spot, reach: f64, enough: f64) -> f64 {
        let room = spot.distance_m;
        let simple = room + reach;
        if room <= 2.0 * reach || simple <= enough {
            return simple;
        }
        let bend = reach * reach / (2.0 * (room - reach));
        let near: Vec<(f64, Vec2)> = (self.pieces.iter())
            .filter_map(|piece| {
                let core = piece.core.nearest_point(spot.at);
                let away = spot.at - core;
                let distance = away.length();
                // Walls further off bound nothing that the nearest does not bound better.
                (distance - piece.radius < room + 2.0 * reach && distance > 0.0)
                    .then(|| (distance - piece.radius, away / distance))
            })
            .collect();
        let pairs = near
            .iter()
            .enumerate()
            .flat_map(|(i, a)| near[..i].iter().map(move |b| (a, b)));
        pairs
            .map(|((d, n), (e, m))| 0.5 * (d + e) + 0.5 * reach * (*n + *m).length() + bend)
            .fold(simple, f64::min)
    }

    /// Points that can be reached: those that are seen from the middle, and those that are linked to one
    /// that can be reached.
    fn reached(&self) -> Vec<Spot> {
        let mut hidden = self.scattered();
        let mut reached: Vec<Spot> = hidden.extract_if(.., |spot| self.is_seen(spot)).collect();
        spread(&mut reached, &mut hidden, |a, b| self.is_linked(a, b));
        reached
    }

    /// Points all over the zone.
    fn scattered(&self) -> Vec<Spot> {
        let rings = (RINGS.iter().zip(1..)).flat_map(|(&count, ring)| {
            let radius = self.zone.radius_m * f64::from(ring) / RINGS.len() as f64;
            (0..count)
                .map(move |i| radius * Vec2::from_angle(TAU * f64::from(i) / f64::from(count)))
        });
        rings
            .map(|offset| self.spot(self.zone.at + offset))
            .filter(|spot| spot.distance_m > CLEAREST_M)
            .collect()
    }

    /// Is the point on free floor, with no wall between it and the middle?
    ///
    /// The middle may itself lie on a wall, so walls next to it do not count.
    fn is_seen(&self, spot: &Spot) -> bool {
        let way = spot.at - self.zone.at;
        let start = way
            .normalized()
            .map_or(Vec2::ZERO, |direction| 2.0 * ON_EDGE_M * direction);
        let view = Segment::new(self.zone.at + start, spot.at);
        spot.distance_m > CLEAREST_M
            && self.walls.floor().contains(spot.at)
            && !self
                .solids
                .iter()
                .any(|solid| solid.contains_inside(spot.at))
            && (way.length() <= 2.0 * ON_EDGE_M || self.room_along(&view) > SAME_POINT_M)
    }

    /// Is it certain that no wall parts the two points? Their free discs overlap by more than rounding,
    /// or they are neighbours that see each other.
    fn is_linked(&self, a: &Spot, b: &Spot) -> bool {
        let apart = a.at.distance(b.at);
        let is_near = apart < NEIGHBOUR * self.zone.radius_m / RINGS.len() as f64;
        apart + CLEAREST_M < a.distance_m + b.distance_m
            || (is_near && self.room_along(&Segment::new(a.at, b.at)) > SAME_POINT_M)
    }

    /// The distance from a segment to the nearest wall.
    fn room_along(&self, way: &Segment) -> f64 {
        (self.pieces.iter())
            .map(|piece| way.nearest(&piece.core).distance_m - piece.radius)
            .fold(f64::INFINITY, f64::min)
    }

    fn spot(&self, at: Vec2) -> Spot {
        let unseen = self.pieces_within_m - at.distance(self.zone.at);
        let distance_m = (self.pieces.iter())
            .map(|piece| piece.distance(at))
            .fold(unseen, f64::min);
        Spot { at, distance_m }
    }

    /// Goes uphill to a point that has the most room in its surroundings.
    ///
    /// A step never leaves the free disc round the point, so that it cannot lead through a wall.
    fn climb(&self, start: Spot) -> Spot {
        let mut here = start;
        let mut stride = 0.25 * self.zone.radius_m;
        for _ in 0..MOST_STEPS {
            if stride < CLEAREST_M {
                break;
            }
            let step = stride.min(here.distance_m);
            let next = (self.uphill(&here, step))
                .map(|direction| self.spot(self.clamped(here.at + step * direction)))
                .filter(|next| next.distance_m > here.distance_m + LEAST_RISE * step);
            match next {
                Some(next) => here = next,
                None => stride *= 0.5,
            }
        }
        here
    }

    /// The direction in which the distance from every wall that a step can make the nearest grows, and
    /// the least of them fastest.
    ///
    /// The distance from a convex wall grows along a direction at least as fast as at the start, with
    /// the rate n · u, n pointing away from the wall. Among unit vectors within half a turn, the
    /// direction that makes the least rate greatest halves the angle between the outermost two.
    fn uphill(&self, here: &Spot, step: f64) -> Option<Vec2> {
        // A wall further away than this is not the nearest after the step.
        let reach = here.distance_m + 2.0 * step;
        let away: Vec<Vec2> = (self.pieces.iter())
            .filter(|piece| piece.distance(here.at) <= reach)
            .filter_map(|piece| (here.at - piece.core.nearest_point(here.at)).normalized())
            .collect();
        let rate = |u: Vec2| away.iter().map(|n| n.dot(u)).fold(f64::INFINITY, f64::min);
        let (mut widest, mut middle) = (f64::INFINITY, None);
        for (i, a) in away.iter().enumerate() {
            for b in &away[..=i] {
                if a.dot(*b) < widest {
                    (widest, middle) = (a.dot(*b), Some(*a + *b));
                }
            }
        }
        let mut best = middle?.normalized()?;
        let outward = (here.at - self.zone.at).normalized().unwrap_or(Vec2::ZERO);
        let at_rim = here.at.distance(self.zone.at) > self.zone.radius_m - CLEAREST_M;
        if at_rim && best.dot(outward) > 0.0 {
            best = (best - best.dot(outward) * outward).normalized()?;
        }
        (rate(best) > 0.0).then_some(best)
    }

    /// The point of the zone nearest to `p`.
    fn clamped(&self, p: Vec2) -> Vec2 {
        let offset = p - self.zone.at;
        match offset.normalized() {
            Some(direction) if offset.length() > self.zone.radius_m => {
                self.zone.at + self.zone.radius_m * direction
            }
            _ => p,
        }
    }
}

/// Moves points from `rest` to `found` as long as one of them is linked to one that was found.
fn spread(found: &mut Vec<Spot>, rest: &mut Vec<Spot>, is_linked: impl Fn(&Spot, &Spot) -> bool) {
    let mut next = 0;
    while let Some(spot) = found.get(next).copied() {
        found.extend(rest.extract_if(.., |other| is_linked(&spot, other)));
        next += 1;
    }
}

/// By what they promise; ties, which mirrored squares make, by place.
impl Ord for Square {
    fn cmp(&self, other: &Self) -> Ordering {
        (self.most.total_cmp(&other.most)).then(self.middle.total_cmp(other.middle))
    }
}

impl PartialOrd for Square {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Square {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Square {}
