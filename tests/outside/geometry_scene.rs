//! Random floors with obstacles, and the same in `geo` (0.33), whose polygon clipping and buffers
//! are by `i_overlay`.

use geo::algorithm::bool_ops::unary_union;
use geo::algorithm::buffer::{BufferStyle, LineCap, LineJoin};
use geo::{BooleanOps as _, Buffer as _, LineString, MultiPolygon, Polygon};
use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use snugdown::geometry::{Outline, Region, Shape, Vec2, rectangle, vec2};

/// So many random cases, the same ones in every run.
pub(crate) fn cases(count: u32) -> Config {
    Config {
        cases: count,
        rng_seed: RngSeed::Fixed(20_240_607),
        failure_persistence: None,
        max_global_rejects: 8 * count,
        max_shrink_iters: 200,
        ..Config::default()
    }
}

/// A floor, what stands on it, and two points that may be places.
#[derive(Clone, Debug)]
pub(crate) struct Scene {
    pub(crate) floor: Region,
    pub(crate) obstacles: Vec<Shape>,
    pub(crate) places: [Vec2; 2],
}

/// Floors of some metres: rectangles, L, U, a waist, a ring round a hole; any shape turned or lined
/// up with the axes. Half of all scenes have every coordinate on a grid of a quarter metre, so that
/// edges touch, line up and coincide.
pub(crate) fn scenes() -> impl Strategy<Value = Scene> {
    (any::<bool>(), 0..6_usize, -8..8_i32).prop_flat_map(|(on_grid, kind, turn)| {
        let turn = if on_grid { 0.0 } else { f64::from(turn) * 0.2 };
        let obstacles = proptest::collection::vec(obstacle(on_grid), 0..9);
        let places = [point(on_grid), point(on_grid)];
        (obstacles, places).prop_map(move |(obstacles, places)| Scene {
            floor: floor(kind, turn),
            obstacles,
            places: places.map(|p| p.rotated(turn)),
        })
    })
}

fn point(on_grid: bool) -> BoxedStrategy<Vec2> {
    if on_grid {
        (0..=24_i32, 0..=16_i32)
            .prop_map(|(x, y)| vec2(0.25 * f64::from(x), 0.25 * f64::from(y)))
            .boxed()
    } else {
        (0.0..6.0, 0.0..4.0).prop_map(|(x, y)| vec2(x, y)).boxed()
    }
}

fn size(on_grid: bool) -> BoxedStrategy<f64> {
    if on_grid {
        (1..=4_i32).prop_map(|n| 0.25 * f64::from(n)).boxed()
    } else {
        (0.05..0.9).boxed()
    }
}

fn obstacle(on_grid: bool) -> BoxedStrategy<Shape> {
    let turn = if on_grid {
        (0..2_i32)
            .prop_map(|n| f64::from(n) * std::f64::consts::FRAC_PI_2)
            .boxed()
    } else {
        (-3.0..3.0).boxed()
    };
    let s = move || size(on_grid);
    let p = move || point(on_grid);
    prop_oneof![
        (p(), s()).prop_map(|(center, r)| Shape::disc(center, 0.5 * r)),
        (p(), s(), s(), turn).prop_map(|(c, l, w, turn)| rectangle(c, l, 0.5 * w, turn).unwrap()),
        (p(), p(), s()).prop_map(|(from, to, r)| Shape::Stadium {
            from,
            to: from + 0.3 * (to - from),
            radius: 0.3 * r,
        }),
        (p(), s()).prop_map(|(corner, s)| {
            let l = [
                (0., 0.),
                (2., 0.),
                (2., 0.5),
                (0.5, 0.5),
                (0.5, 2.),
                (0., 2.),
            ];
            let vertices = l.map(|(x, y)| corner + 0.5 * s * vec2(x, y)).to_vec();
            Shape::Polygon(Outline::new(vertices).unwrap())
        }),
    ]
    .boxed()
}

fn floor(kind: usize, turn: f64) -> Region {
    let ring = |points: &[(f64, f64)]| {
        let vertices = points.iter().map(|&(x, y)| vec2(x, y).rotated(turn));
        Outline::new(vertices.collect()).unwrap()
    };
    let whole = [(0., 0.), (6., 0.), (6., 4.), (0., 4.)];
    let hole =
        |x: f64, y: f64, w: f64, h: f64| ring(&[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]);
    match kind {
        0 => ring(&whole).into(),
        1 => ring(&[(0., 0.), (6., 0.), (6., 1.5), (2., 1.5), (2., 4.), (0., 4.)]).into(),
        2 => ring(&[
            (0., 0.),
            (6., 0.),
            (6., 4.),
            (4.5, 4.),
            (4.5, 1.25),
            (1.75, 1.25),
            (1.75, 4.),
            (0., 4.),
        ])
        .into(),
        3 => ring(&[
            (0., 0.),
            (3., 1.5),
            (6., 0.),
            (6., 4.),
            (3., 2.75),
            (0., 4.),
        ])
        .into(),
        4 => Region::new(ring(&whole), vec![hole(2., 1.25, 2.5, 1.5)]).unwrap(),
        _ => {
            let holes = vec![
                hole(1., 1., 1.5, 1.),
                hole(2.5, 2., 1., 1.25),
                hole(4.5, 0., 0.5, 2.),
            ];
            Region::new(ring(&whole), holes).unwrap()
        }
    }
}

/// Half the angle of a chord: a buffer of 1 m is too small by 0.3 mm at most.
const CHORD_RAD: f64 = 0.05;

pub(crate) fn polygon(shape: &Shape) -> Polygon {
    ring_polygon(&shape.to_polygon(CHORD_RAD).unwrap())
}

pub(crate) fn ring_polygon(ring: &[Vec2]) -> Polygon {
    Polygon::new(line_string(ring), Vec::new())
}

fn line_string(ring: &[Vec2]) -> LineString {
    let closed = ring.iter().chain(ring.first());
    closed.map(|v| geo::Coord { x: v.x, y: v.y }).collect()
}

pub(crate) fn floor_polygon(floor: &Region) -> Polygon {
    Polygon::new(
        line_string(floor.outline().vertices()),
        (floor.holes().iter())
            .map(|hole| line_string(hole.vertices()))
            .collect(),
    )
}

impl Scene {
    /// Where the centre of a disc of this radius can be: the floor without what is nearer than the
    /// radius to an edge or an obstacle. Only positive buffers are used: shrinking a polygon with
    /// `buffer(-r)` is sometimes far off.
    pub(crate) fn free_floor(&self, radius: f64) -> MultiPolygon {
        let style = || {
            BufferStyle::new(radius)
                .line_join(LineJoin::Round(CHORD_RAD))
                .line_cap(LineCap::Round(CHORD_RAD))
        };
        let rings = std::iter::once(self.floor.outline()).chain(self.floor.holes());
        let edges = rings.map(|ring| line_string(ring.vertices()).buffer_with_style(style()));
        let bodies = (self.obstacles.iter()).map(|shape| polygon(shape).buffer_with_style(style()));
        let covered: Vec<MultiPolygon> = edges.chain(bodies).collect();
        floor_polygon(&self.floor).difference(&unary_union(&covered))
    }

    /// The floor without what the obstacles cover.
    pub(crate) fn bare_floor(&self) -> MultiPolygon {
        let bodies: Vec<Polygon> = self.obstacles.iter().map(polygon).collect();
        floor_polygon(&self.floor).difference(&unary_union(&bodies))
    }
}
