//! Clear widths against buffered polygons of `geo` 0.33: is the floor that a slightly smaller disc
//! can use connected between both places, and that of a slightly larger one not?

use crate::geometry_scene::{Scene, cases, ring_polygon, scenes};
use geo::{BooleanOps as _, Distance as _, Euclidean, Intersects as _, Point, Polygon};
use proptest::prelude::*;
use snugdown::geometry::clear_width::{ClearWidth, PlaceError};
use snugdown::geometry::{Region, Shape, Vec2, Zone};

/// In radius: the buffers are too small by 0.3 mm per metre, and their union snaps to a grid far
/// finer than that.
const TOLERANCE_M: f64 = 1e-3;

/// What the search from the clearest points of two zones may miss, in width.
const ZONE_LOSS_M: f64 = 0.025;

fn clear_width(scene: &Scene, zone: fn(Vec2) -> Zone) -> Result<ClearWidth, PlaceError> {
    let [from, to] = scene.places.map(zone);
    ClearWidth::between(&scene.floor, 0, (1..).zip(&scene.obstacles), from, to)
}

/// Can the centre of a disc go from place to place?
fn passes(scene: &Scene, radius: f64) -> bool {
    let [a, b] = scene.places.map(|p| Point::new(p.x, p.y));
    (scene.free_floor(radius).iter()).any(|part| part.intersects(&a) && part.intersects(&b))
}

/// Half the width of the ways that join a zone for certain: through a slit narrower than this the floor
/// behind it may count or not, since nobody stands there.
const SLIT_M: f64 = 0.075;

/// Can it go from some point near the one place to some point near the other? What is near is joined
/// with the place by floor for the centre of a disc of radius `slit`.
fn passes_between_zones(scene: &Scene, radius: f64, slit: f64) -> bool {
    let floor = if slit > 0.0 {
        scene.free_floor(slit)
    } else {
        scene.bare_floor()
    };
    // In a square corner the floor for the disc begins 1.41 radii from the corner.
    let beside = 1.45 * slit + 2e-3;
    let zones = scene.places.map(|p| {
        let disc = Shape::disc(p, Zone::RADIUS_M).to_polygon(0.02).unwrap();
        let near = floor.intersection(&ring_polygon(&disc));
        let next_to_it = |part: &Polygon| Euclidean.distance(part, &Point::new(p.x, p.y)) < beside;
        near.into_iter().filter(next_to_it).collect::<Vec<_>>()
    });
    let [from, to] = &zones;
    (scene.free_floor(radius).iter()).any(|part| {
        from.iter().any(|zone| zone.intersects(part)) && to.iter().any(|zone| zone.intersects(part))
    })
}

proptest! {
    #![proptest_config(cases(150))]

    #[test]
    fn between_points_it_is_exact(scene in scenes()) {
        let Ok(width) = clear_width(&scene, Zone::point) else {
            return Err(TestCaseError::reject("a place is not on the free floor"));
        };
        let radius = 0.5 * width.width_m;
        if radius > TOLERANCE_M {
            prop_assert!(passes(&scene, radius - TOLERANCE_M), "too wide: {width:?}");
        }
        prop_assert!(!passes(&scene, radius + TOLERANCE_M), "too narrow: {width:?}");
    }

    #[test]
    fn between_zones_it_is_never_too_wide(scene in scenes()) {
        let Ok(width) = clear_width(&scene, Zone::around) else {
            return Err(TestCaseError::reject("a place is not on the free floor"));
        };
        let radius = 0.5 * width.width_m;
        if radius > TOLERANCE_M {
            prop_assert!(passes_between_zones(&scene, radius - TOLERANCE_M, 0.0), "too wide: {width:?}");
        }
        let missed = radius + TOLERANCE_M + 0.5 * ZONE_LOSS_M;
        prop_assert!(!passes_between_zones(&scene, missed, SLIT_M), "too narrow: {width:?}");
    }

    #[test]
    fn neither_a_mirror_nor_the_order_nor_the_direction_changes_it(scene in scenes(), turn in 0..9_usize) {
        let Ok(width) = clear_width(&scene, Zone::point) else {
            return Err(TestCaseError::reject("a place is not on the free floor"));
        };
        let mirrored = Scene {
            floor: scene.floor.mirrored_y(),
            obstacles: scene.obstacles.iter().map(Shape::mirrored_y).collect(),
            places: scene.places.map(Vec2::mirrored_y),
        };
        let mirrored = clear_width(&mirrored, Zone::point).unwrap();
        prop_assert!((mirrored.width_m - width.width_m).abs() < 1e-9, "{width:?} {mirrored:?}");

        let back = Scene { places: [scene.places[1], scene.places[0]], ..scene.clone() };
        let back = clear_width(&back, Zone::point).unwrap();
        prop_assert!((back.width_m - width.width_m).abs() < 1e-9, "{width:?} {back:?}");

        // The same numbers in another order name the same tight spot.
        let mut tagged: Vec<_> = (1..).zip(&scene.obstacles).collect();
        let by = turn.min(tagged.len());
        tagged.rotate_left(by);
        let [from, to] = scene.places.map(Zone::point);
        let other = ClearWidth::between(&scene.floor, 0, tagged, from, to).unwrap();
        prop_assert!((other.width_m - width.width_m).abs() < 1e-9, "{width:?} {other:?}");
        let tags = |w: &ClearWidth| w.tight_spot().map(|spot| (spot.a, spot.b));
        prop_assert_eq!(tags(&other), tags(&width));
    }

    #[test]
    fn one_obstacle_more_never_widens_the_way(scene in scenes()) {
        let Ok(width) = clear_width(&scene, Zone::point) else {
            return Err(TestCaseError::reject("a place is not on the free floor"));
        };
        let mut fewer = scene.clone();
        prop_assume!(fewer.obstacles.pop().is_some());
        let wider = clear_width(&fewer, Zone::point).unwrap();
        prop_assert!(wider.width_m >= width.width_m - 1e-9, "{wider:?} without, {width:?} with");
    }
}

/// The places are told apart from the floor by the same rule as the floor itself.
#[test]
fn every_refusal_is_justified() {
    let outline = snugdown::geometry::Outline::new(vec![
        Vec2 { x: 0.0, y: 0.0 },
        Vec2 { x: 2.0, y: 0.0 },
        Vec2 { x: 2.0, y: 2.0 },
    ]);
    let floor = Region::from(outline.unwrap());
    let off = Zone::around(Vec2 { x: 0.5, y: 1.5 });
    let on = Zone::around(Vec2 { x: 1.5, y: 0.5 });
    let none: [(usize, &Shape); 0] = [];
    assert!(
        ClearWidth::between(&floor, 0, none, off, on).is_err(),
        "from outside"
    );
    assert!(
        ClearWidth::between(&floor, 0, none, on, off).is_err(),
        "to outside"
    );
    assert!(
        ClearWidth::between(&floor, 0, none, on, on).is_ok(),
        "on the spot"
    );
}
