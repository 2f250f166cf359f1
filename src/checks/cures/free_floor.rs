//! Free floor on which a cylinder can be laid down.

use crate::checks::CheckContext;
use crate::engine::numbers::CylinderNumbers;
use crate::engine::{DeckScene, SceneThing};
use crate::geometry::Elementary as _;
use crate::geometry::{Bounds, Segment, Shape, Vec2, overhang, separation, vec2};
use crate::layout::{GearKind, Point, ThingKind};

/// How far from where it stands floor is looked for, and in which steps, in metres.
const FAR_M: f64 = 2.0;
const STEP_M: f64 = 0.2;

/// Room that is left round it, in metres.
const ROOM_M: f64 = 0.02;

/// Where its valve may point, in degrees from the bow towards port: fore and aft before athwartships, as a
/// boat rolls more than it pitches.
const TOWARDS_DEG: [f64; 4] = [180.0, 0.0, 90.0, -90.0];

/// The nearest floor for a lying cylinder of this length outside all walkways, with where its valve points.
/// Of equally near ones, the first in the order of directions, then forward, then to port.
pub(super) fn nearest(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Option<(Point, f64)> {
    let deck = ctx.scene.deck(&cylinder.deck)?;
    let floor = deck.floor.as_ref()?;
    let from = vec2(cylinder.at[0], cylinder.at[1]);
    let others: Vec<(&SceneThing, Bounds)> = others(ctx, deck, &cylinder.cylinder, from);
    let mut spots: Vec<(f64, Point, usize)> = Vec::new();
    for point in grid() {
        for (order, _) in TOWARDS_DEG.iter().enumerate() {
            spots.push((vec2(point[0], point[1]).length(), point, order));
        }
    }
    spots.sort_by(|a, b| {
        a.0.total_cmp(&b.0)
            .then(a.2.cmp(&b.2))
            .then(b.1[0].total_cmp(&a.1[0]))
            .then(b.1[1].total_cmp(&a.1[1]))
    });
    let free = spots.into_iter().find(|(_, shift, order)| {
        let at = from + vec2(shift[0], shift[1]);
        let shape = lying(cylinder, at, TOWARDS_DEG[*order]);
        let bounds = shape.bounds();
        let clear = |(thing, other): &(&SceneThing, Bounds)| {
            !bounds.meets(other) || separation(&shape, &thing.shape).gap_m > 0.0
        };
        floor.contains(at)
            && overhang(&shape, floor).out_m <= 0.0
            && others.iter().all(clear)
            && !in_walkway(ctx, &cylinder.deck, &shape)
    });
    free.map(|(_, shift, order)| {
        let at = from + vec2(shift[0], shift[1]);
        (
            [at.x, at.y].map(|value| (value * 1e3).round() / 1e3),
            TOWARDS_DEG[order],
        )
    })
}

/// Shifts on a square grid within reach, the mirror image of each among them.
fn grid() -> impl Iterator<Item = Point> {
    let n = 10_i32;
    (-n..=n).flat_map(move |i| {
        (-n..=n).filter_map(move |j| {
            let point = [f64::from(i) * STEP_M, f64::from(j) * STEP_M];
            (point[0].hypotenuse(point[1]) <= FAR_M).then_some(point)
        })
    })
}

/// The floor it takes when lying, with a little room.
fn lying(cylinder: &CylinderNumbers, at: Vec2, towards_deg: f64) -> Shape {
    let radius = cylinder.body_radius_m + ROOM_M;
    let half = (0.5 * cylinder.height_m - cylinder.body_radius_m).max(0.0);
    let along = half * Vec2::from_angle(towards_deg.to_radians());
    Shape::Stadium {
        from: at - along,
        to: at + along,
        radius,
    }
}

/// What stands near enough to matter, but for the cylinder itself.
fn others<'a>(
    ctx: &CheckContext<'_>,
    deck: &'a DeckScene,
    cylinder: &str,
    from: Vec2,
) -> Vec<(&'a SceneThing, Bounds)> {
    let near = Bounds::of([from]).grown(FAR_M + 1.0);
    let is_mat = |thing: &SceneThing| {
        let mut gear = ctx.day.gear.iter().map(|state| &state.gear);
        thing.thing.kind == ThingKind::Gear
            && gear.any(|gear| gear.id == thing.thing.id && gear.kind == GearKind::Mat)
    };
    deck.things
        .iter()
        .filter(|thing| thing.thing.id != cylinder || thing.thing.kind != ThingKind::Cylinder)
        .filter(|thing| thing.from_m < 1.0 && !is_mat(thing))
        .map(|thing| (thing, thing.shape.bounds()))
        .filter(|(_, bounds)| near.meets(bounds))
        .collect()
}

/// Does it reach into any walkway's strip?
fn in_walkway(ctx: &CheckContext<'_>, deck: &str, shape: &Shape) -> bool {
    ctx.plan
        .boat
        .walkways
        .iter()
        .filter(|way| way.deck == deck)
        .any(|way| {
            let numbers = ctx
                .numbers
                .walkways
                .iter()
                .find(|item| item.walkway == way.id);
            let half = 0.5 * numbers.map_or(0.0, |item| item.wanted_m);
            way.line.windows(2).any(|pair| {
                let leg = Segment::new(vec2(pair[0][0], pair[0][1]), vec2(pair[1][0], pair[1][1]));
                let strip = Shape::Stadium {
                    from: leg.from,
                    to: leg.to,
                    radius: half,
                };
                separation(&strip, shape).depth_m > 0.0
            })
        })
}
