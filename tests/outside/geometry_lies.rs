//! What lies in a strip and what sticks out of a floor, against the polygon clipping of `geo` 0.33; the
//! sweep of a fall, against brute force: many rectangles, many points.

use std::f64::consts::{FRAC_PI_2, TAU};

use crate::geometry_scene::{cases, floor_polygon, ring_polygon, scenes};
use geo::{Area as _, BooleanOps as _, MultiPolygon, Polygon};
use proptest::prelude::*;
use snugdown::geometry::{Region, Sector, Shape, Strip, Vec2, overhang, vec2};

/// Areas of less are nothing, in square metres: the clipping snaps to a grid of nanometres.
const NOTHING_M2: f64 = 1e-7;

/// What a shift may be too short or too long by, in metres.
const TOLERANCE_M: f64 = 2e-3;

/// The polygons among the shapes, which `geo` knows exactly.
fn polygons(shapes: Vec<Shape>) -> Vec<(Shape, Vec<Vec2>)> {
    let exact = shapes.into_iter().filter_map(|shape| match &shape {
        Shape::Polygon(outline) => {
            let ring = outline.vertices().to_vec();
            Some((shape, ring))
        }
        _ => None,
    });
    exact.collect()
}

fn moved(ring: &[Vec2], by: Vec2) -> Polygon {
    let ring: Vec<Vec2> = ring.iter().map(|p| *p + by).collect();
    ring_polygon(&ring)
}

/// Some shifts shorter than this, in all directions.
fn shorter(length_m: f64) -> impl Iterator<Item = Vec2> {
    (0..24).flat_map(move |k| {
        let direction = Vec2::from_angle(TAU * f64::from(k) / 24.0);
        [0.25, 0.6, 1.0].map(|share| share * length_m * direction)
    })
}

/// A strip of two points as a polygon: the rectangle beside the line.
fn band(from: Vec2, to: Vec2, width_m: f64) -> Polygon {
    let along = to - from;
    let side = (0.5 * width_m / along.length()) * vec2(-along.y, along.x);
    ring_polygon(&[from - side, to - side, to + side, from + side])
}

fn off(ring: &[Vec2], by: Vec2, floor: &Polygon) -> f64 {
    let sticking: MultiPolygon = moved(ring, by).difference(floor);
    sticking.unsigned_area()
}

fn is_clear_of_its_own_tolerance(area_m2: f64) -> bool {
    // Between nothing and this a touch may count or not.
    !(NOTHING_M2..1e-5).contains(&area_m2)
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn what_lies_in_a_strip(scene in scenes(), width_m in 0.3..1.2_f64) {
        let [from, to] = scene.places;
        prop_assume!(from.distance(to) > 0.3);
        let strip = Strip::new(vec![from, to], width_m).unwrap();
        let band = band(from, to, width_m);
        for (shape, ring) in polygons(scene.obstacles) {
            let area = |by: Vec2| moved(&ring, by).intersection(&band).unsigned_area();
            let now = area(Vec2::ZERO);
            if !is_clear_of_its_own_tolerance(now) {
                continue;
            }
            let Some(intrusion) = strip.intrusion(&shape) else {
                prop_assert!(now <= NOTHING_M2, "{now} m² of {shape:?} lie in {strip:?}");
                continue;
            };
            prop_assert!(now > NOTHING_M2, "{shape:?} does not lie in {strip:?}");
            prop_assert!((0.0..=width_m + 1e-9).contains(&intrusion.into_m), "{intrusion:?}");
            let smallest = intrusion.shift.length();
            for shift in &intrusion.shifts {
                prop_assert!(shift.length() >= smallest - 1e-9);
                let left = area(*shift);
                prop_assert!(left <= NOTHING_M2, "{left} m² left after {shift:?}");
            }
            if smallest > 2.0 * TOLERANCE_M {
                for shift in shorter(smallest - TOLERANCE_M) {
                    let left = area(shift);
                    prop_assert!(left > 0.0, "{shift:?} is enough, and it says {:?}", intrusion.shift);
                }
            }
        }
    }

    #[test]
    fn a_point_is_in_a_bent_strip_if_it_is_near_its_line(
        points in proptest::collection::vec((0.0..6.0, 0.0..4.0), 3..6),
        width_m in 0.3..1.2_f64,
        probes in proptest::collection::vec((-1.0..7.0, -1.0..5.0), 60),
    ) {
        let points: Vec<Vec2> = points.into_iter().map(|(x, y)| vec2(x, y)).collect();
        prop_assume!(points.windows(2).all(|pair| pair[0].distance(pair[1]) > 0.05));
        let strip = Strip::new(points.clone(), width_m).unwrap();
        let half = 0.5 * width_m;
        for (x, y) in probes {
            let p = vec2(x, y);
            // Beside a straight piece, between its ends, or round a bend: by dot and cross products.
            let beside = points.windows(2).any(|pair| {
                let along = (pair[1] - pair[0]) / pair[0].distance(pair[1]);
                let offset = p - pair[0];
                let reach = offset.dot(along);
                reach >= 0.0 && reach <= pair[0].distance(pair[1]) && offset.cross(along).abs() <= half
            });
            let bends = &points[1..points.len() - 1];
            let round = bends.iter().any(|bend| bend.distance(p) <= half);
            prop_assert_eq!(strip.contains(p), beside || round, "{:?} {:?}", p, strip);
        }
    }

    #[test]
    fn what_sticks_out_of_a_floor(scene in scenes()) {
        let floor: &Region = &scene.floor;
        let polygon = floor_polygon(floor);
        for (shape, ring) in polygons(scene.obstacles.clone()) {
            let now = off(&ring, Vec2::ZERO, &polygon);
            if !is_clear_of_its_own_tolerance(now) {
                continue;
            }
            let found = overhang(&shape, floor);
            prop_assert_eq!(found.sticks_out(), now > NOTHING_M2, "{} m² of {:?}: {:?}", now, shape, found);
            let Some(shift) = found.shift else { continue };
            let left = off(&ring, shift, &polygon);
            prop_assert!(left <= NOTHING_M2, "{left} m² left after {shift:?} of {shape:?}");
            if found.out_m > 2.0 * TOLERANCE_M {
                for less in shorter(found.out_m - TOLERANCE_M) {
                    let left = off(&ring, less, &polygon);
                    prop_assert!(left > 0.0, "{less:?} is enough, and it says {shift:?} of {shape:?}");
                }
            }
        }
    }

    #[test]
    fn the_sweep_of_a_fall(
        edge in (-1.0..1.0, -1.0..1.0),
        heading in -3.2..3.2_f64,
        height_m in 0.3..0.9_f64,
        radius_m in 0.05..0.15_f64,
        spread in 0.0..FRAC_PI_2,
        probes in proptest::collection::vec((0.0..1.1, -3.2..3.2), 80),
    ) {
        let edge = vec2(edge.0, edge.1);
        let sector = Sector::new(edge, heading, height_m, radius_m, spread).unwrap();
        // A rectangle every so often; between two of them a point moves by less than the margin.
        let steps = 400;
        let margin_m = 0.5 * (2.0 * spread / f64::from(steps)) * height_m.hypot(radius_m) + 1e-9;
        let lies_on = |p: Vec2, more_m: f64| {
            (0..=steps).any(|k| {
                let turn = -spread + 2.0 * spread * f64::from(k) / f64::from(steps);
                let local = (p - edge).rotated(-heading - turn);
                (-more_m..=height_m + more_m).contains(&local.x) && local.y.abs() <= radius_m + more_m
            })
        };
        for (share, angle) in probes {
            let p = edge + share * height_m * Vec2::from_angle(heading + angle);
            if lies_on(p, 0.0) {
                prop_assert!(sector.contains(p), "{p:?} is fallen on: {sector:?}");
                let disc = Shape::disc(p, 1e-6);
                prop_assert!(sector.touches(&disc), "{p:?} is in the outline: {sector:?}");
            }
            // Where the spread is smaller than half the angle of the rectangle, the dents at its end count
            // as fallen on though they are not: that is said, and on the safe side.
            let no_dents = spread >= radius_m.atan2(height_m);
            if no_dents && sector.contains(p) {
                prop_assert!(lies_on(p, margin_m), "{p:?} is never fallen on: {sector:?}");
            }
        }
    }
}
