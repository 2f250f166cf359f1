//! What stands between a cylinder and a spot, and whether it stops a fall or a roll on its way there.
//!
//! A fall is looked at in its plane. The body turns about the edge of its foot; leaned by `t` its near flank runs from
//! that edge along `(sin t, cos t)`. A thing whose near face is `x` from the edge and whose top is `z` above the foot
//! is met at
//!
//! ```text
//! t = atan(x / z)      where hypot(x, z) <= H: the flank comes to lie on its corner
//! t = asin(x / H)      where it is further up: the top runs into its face
//! ```
//!
//! and it stops the fall short of the spot if that is before the top is over the spot. A thing that the fall passes
//! first, since it is low or close to the spot, does not: then the body still comes over the spot, perhaps lying on the
//! thing. A rolling body is stopped by what is at least as high as its axis; what is lower may be rolled over.
//!
//! Only what is fixed is said to stop anything, and only where it stands in the whole width of the way. What stands in
//! part of it may turn the body aside; another cylinder, gear and what gives way may be pushed on. All of that is told
//! and stops nothing. A body that is stopped may still turn, slide off or knock away what stops it: the plane does not
//! know that.

use schemars::JsonSchema;
use serde::Serialize;

use crate::engine::numbers::{CylinderNumbers, ThingSort};
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Elementary as _;
use crate::geometry::{Segment, Shape, Vec2, vec2};
use crate::layout::{Boat, FixtureKind, Id, Point};

/// What begins above this is over it all, in metres.
const OVERHEAD_M: f64 = 1.5;

/// Lower than this is no hindrance to anything, in metres: a mat, a hatch (common practice, no source).
const FLAT_M: f64 = 0.02;

/// Beside the middle of its way the outer lines are looked at, at this share of half its width.
const OUTER: f64 = 0.7;

/// Angle of the steps in which round things are looked at.
const STEP_RAD: f64 = 0.1;

/// What something in between does.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Hinders {
    /// As drawn it stops the body short of the spot.
    StopsShort,
    /// The body comes over the spot before it is stopped, or passes above.
    PassedOver,
    /// It stands in part of the way and may turn the body aside.
    InPart,
    /// It is loose or gives way: it may be pushed on, or go too.
    Loose,
}

/// Something between a cylinder and a spot.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Between {
    /// Its name.
    pub thing: Id,

    /// What sort of thing.
    pub sort: ThingSort,

    /// Its height above the deck, in metres.
    pub height_m: f64,

    /// From the middle of the cylinder to its near face, in metres.
    pub off_m: f64,

    /// From there to its far face, in metres, no further than the spot.
    pub deep_m: f64,

    /// What it does.
    pub hinders: Hinders,
}

impl Between {
    /// In a sentence: `bench-P, 0.45 m high and 0.30 m off, stops it`.
    pub fn words(&self) -> String {
        let does = match self.hinders {
            Hinders::StopsShort => "stops it short of the spot, as drawn",
            Hinders::PassedOver => "does not keep it from the spot",
            Hinders::InPart => "stands in part of its way and may turn it aside",
            Hinders::Loose => "stands in its way and may be pushed on or go too",
        };
        format!(
            "{}, {:.2} m high and {:.2} m off, {does}",
            self.thing, self.height_m, self.off_m
        )
    }
}

/// How a body would come to the spot.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) enum Coming {
    /// It falls; its top is over the spot at this lean, rad.
    Falling(f64),
    /// It rolls, lying.
    Rolling,
}

/// What was found in the way.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct InTheWay {
    /// Each thing, the nearest first.
    pub(super) things: Vec<Between>,
    /// The lean at which a fall is stopped short, rad.
    pub(super) stopped_at_rad: Option<f64>,
}

impl InTheWay {
    /// Is it stopped short of the spot?
    pub(super) fn stops(&self) -> bool {
        (self.things.iter()).any(|it| it.hinders == Hinders::StopsShort)
    }
}

/// A body on its way from a point to a spot.
#[derive(Clone, Debug)]
struct Way<'a> {
    body: &'a CylinderNumbers,
    /// The height of its foot above the deck.
    floor_m: f64,
    coming: Coming,
    from: Vec2,
    to: Vec2,
    half_wide_m: f64,
}

/// What is in the way of a body from a point (its middle, or where it lies) to a spot.
pub(super) fn in_the_way(
    boat: &Boat,
    deck: &DeckScene,
    body: &CylinderNumbers,
    coming: Coming,
    (from, to): (Point, Point),
) -> InTheWay {
    let own = deck.things.iter().find(|thing| is_it(thing, body));
    let way = Way {
        body,
        floor_m: own.map_or(0.0, |thing| thing.from_m),
        coming,
        from: vec2(from[0], from[1]),
        to: vec2(to[0], to[1]),
        half_wide_m: match coming {
            Coming::Falling(_) => body.body_radius_m,
            Coming::Rolling => 0.5 * body.height_m,
        },
    };
    let own_rack = body.rack.as_ref().map(|rack| &rack.rack);
    let mut found = InTheWay::default();
    for thing in &deck.things {
        let is_own = is_it(thing, body)
            || (thing.sort == ThingSort::Rack && own_rack == Some(&thing.thing.id));
        let counts = thing.sort != ThingSort::Person
            && !thing.walked_on
            && thing.from_m < OVERHEAD_M
            && thing.to_m > FLAT_M;
        if is_own || !counts {
            continue;
        }
        if let Some((between, lean)) = way.meets(boat, thing) {
            if between.hinders == Hinders::StopsShort
                && let Some(lean) = lean
            {
                let before = found.stopped_at_rad.unwrap_or(f64::INFINITY);
                found.stopped_at_rad = Some(before.min(lean));
            }
            found.things.push(between);
        }
    }
    found.things.sort_by(|a, b| {
        a.off_m
            .total_cmp(&b.off_m)
            .then_with(|| a.thing.cmp(&b.thing))
    });
    // What lies beyond what stops it is not on its way any more.
    let stops = |it: &Between| it.hinders == Hinders::StopsShort;
    if let Some(last) = found.things.iter().position(stops) {
        found.things.truncate(last + 1);
    }
    found
}

fn is_it(thing: &SceneThing, body: &CylinderNumbers) -> bool {
    thing.sort == ThingSort::Cylinder && thing.thing.id == body.cylinder
}

/// A fixture that breaks, bends or is lifted off its bracket rather than stop a cylinder.
fn gives_way(boat: &Boat, thing: &SceneThing) -> bool {
    let fixture = boat.fixture(&thing.thing.id);
    fixture.is_none_or(|fixture| {
        matches!(
            fixture.kind,
            FixtureKind::Glass
                | FixtureKind::GuardRail
                | FixtureKind::Gate
                | FixtureKind::Ladder
                | FixtureKind::OxygenKit
                | FixtureKind::Extinguisher
        )
    })
}

impl Way<'_> {
    /// How the body meets a thing, and at which lean; `None` where it does not.
    fn meets(&self, boat: &Boat, thing: &SceneThing) -> Option<(Between, Option<f64>)> {
        let outline = thing.shape.to_polygon(STEP_RAD)?;
        let way = (self.to - self.from).normalized()?;
        let aside = OUTER * self.half_wide_m * way.perp();
        let lines = [-1.0, 0.0, 1.0].map(|side| {
            let by = side * aside;
            Segment::new(self.from + by, self.to + by)
        });
        let met = lines.map(|line| stretch(&thing.shape, &outline, &line));
        let (mut near_m, mut last_m, mut far_m) = (f64::INFINITY, 0.0_f64, 0.0_f64);
        for [from_m, to_m] in met.iter().flatten() {
            near_m = near_m.min(*from_m);
            last_m = last_m.max(*from_m);
            far_m = far_m.max(*to_m);
        }
        if near_m.is_infinite() {
            return None;
        }
        let loose = match thing.sort {
            ThingSort::Cylinder | ThingSort::Gear => true,
            ThingSort::Rack => false,
            _ => gives_way(boat, thing),
        };
        // It is met all across at the furthest of the three.
        let (stops, lean) = self.stopped(thing, last_m)?;
        let hinders = match (stops, loose) {
            (false, _) => Hinders::PassedOver,
            (true, true) => Hinders::Loose,
            (true, false) if met.iter().any(Option::is_none) => Hinders::InPart,
            (true, false) => Hinders::StopsShort,
        };
        let between = Between {
            thing: thing.thing.id.clone(),
            sort: thing.sort,
            height_m: thing.to_m,
            off_m: near_m,
            deep_m: far_m - near_m,
            hinders,
        };
        Some((between, lean))
    }

    /// Is the body stopped short by a thing so far off, and at which lean? `None` where it does not touch it at all.
    fn stopped(&self, thing: &SceneThing, off_m: f64) -> Option<(bool, Option<f64>)> {
        match self.coming {
            Coming::Rolling => {
                let radius_m = self.body.body_radius_m;
                (thing.from_m < 2.0 * radius_m).then_some((thing.to_m >= radius_m, None))
            }
            Coming::Falling(over_spot_rad) => {
                let above_m = thing.to_m - self.floor_m;
                if above_m <= 0.0 {
                    return Some((false, None));
                }
                let from_edge_m = (off_m - self.body.base_radius_m).max(0.0);
                let lean = met_at_rad(from_edge_m, above_m, self.body.height_m)?;
                Some((lean < over_spot_rad - 1e-9, Some(lean)))
            }
        }
    }
}

/// The lean at which a falling body meets a thing (see the module); `None` where it is too short for it.
fn met_at_rad(off_m: f64, above_m: f64, height_m: f64) -> Option<f64> {
    if off_m.hypotenuse(above_m) <= height_m {
        return Some(off_m.arc_tangent_over(above_m));
    }
    (off_m < height_m).then(|| (off_m / height_m).arc_sine())
}

/// From where to where a line runs through a shape, in metres from its beginning; the first stretch, to its end or the
/// line's.
fn stretch(shape: &Shape, outline: &[Vec2], line: &Segment) -> Option<[f64; 2]> {
    let corners = outline.iter().zip(outline.iter().cycle().skip(1));
    let mut crossings: Vec<f64> = corners
        .filter_map(|(a, b)| line.crossing(&Segment::new(*a, *b)))
        .map(|point| line.from.distance(point))
        .collect();
    crossings.sort_by(f64::total_cmp);
    let inside = shape.contains(line.from);
    let from_m = if inside { 0.0 } else { *crossings.first()? };
    let next = usize::from(!inside);
    let to_m = crossings.get(next).copied().unwrap_or(line.length());
    Some([from_m, to_m])
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a flank that turns about its foot, in steps, until a point of it is in a block.
    #[test]
    fn a_block_is_met_where_the_turned_flank_is_in_it() {
        for (off_m, above_m) in [
            (0.1, 0.45),
            (0.3, 0.3),
            (0.55, 0.2),
            (0.2, 0.9),
            (0.64, 0.64),
        ] {
            let height_m = 0.66;
            let met = (0..=9000).find(|step| {
                let (sin, cos) = (f64::from(*step) * 0.01_f64.to_radians()).sine_cosine();
                (0..=660).any(|mm| {
                    let along = f64::from(mm) * 1e-3;
                    along * sin >= off_m && along * cos <= above_m
                })
            });
            let by_hand = f64::from(met.unwrap()) * 0.01_f64.to_radians();
            let lean = met_at_rad(off_m, above_m, height_m).unwrap();
            assert!(
                (lean - by_hand).abs() < 0.01,
                "{off_m} {above_m}: {lean} {by_hand}"
            );
        }
        assert_eq!(met_at_rad(0.7, 0.4, 0.66), None, "too far off");
    }
}
