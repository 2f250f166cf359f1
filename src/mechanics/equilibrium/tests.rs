//! Stored values, laws and an independent linear programming library.

mod held;
mod laws;
mod scene;

use proptest::prelude::*;

use super::*;
use crate::geometry::Elementary as _;
use crate::geometry::vec2;
use crate::mechanics::property::{assert_close, cases};
use crate::mechanics::vector::vec3;

const CENTRE: [Vec2; 1] = [vec2(0.0, 0.0)];
const MASS_KG: f64 = 17.8;
const CG_M: f64 = 0.319;

fn cylinder(friction: f64, foot: Foot) -> Body<'static> {
    Body {
        mass_kg: MASS_KG,
        friction,
        foot,
        feet: Feet {
            centres: &CENTRE,
            radius_m: 0.0829,
        },
    }
}

/// A strap that runs towards -y, its bight on the far side.
fn strap_to_starboard(height_m: f64, below_horizontal_deg: f64) -> Restraint {
    let (sin, cos) = below_horizontal_deg.to_radians().sine_cosine();
    Restraint {
        pull: vec3(0.0, -cos, -sin),
        attachment: vec2(0.0, 0.0921),
        height_m,
        capacity_n: 600.0,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    }
}

fn at_angle(deg: f64, size: f64) -> Vec2 {
    let (sin, cos) = deg.to_radians().sine_cosine();
    vec2(size * sin, size * cos)
}

/// Largest horizontal acceleration that the strap stands, force turned off +y by an angle.
fn limit(body: &Body<'_>, strap: Restraint, off_deg: f64) -> (f64, Failure) {
    let restraints = [strap];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    let load = Load::at_height(at_angle(off_deg, 1.0), 9.0, CG_M);
    let found = utilisation(body, &holding, &load);
    (1.0 / found.utilisation, found.failure.unwrap())
}

/// Values of an independent linear program (`HiGHS`, 96 directions) for an 80 cubic foot aluminium
/// cylinder; its table is printed in `docs/method.md`, "Lashings".
#[test]
fn stored_limits_with_a_free_foot() {
    for (height, beta, friction, a_h, mode) in [
        (0.44, 0.0, 0.2, 12.7116, Mode::KicksOut),
        (0.44, 30.0, 0.2, 34.3627, Mode::Slides),
        (0.15, 0.0, 0.2, 6.0124, Mode::KicksOut),
        (0.15, 0.0, 0.0, 4.4148, Mode::KicksOut),
    ] {
        let body = cylinder(friction, Foot::Free);
        let (found, failure) = limit(&body, strap_to_starboard(height, beta), 0.0);
        assert_close(found, a_h, 6e-5);
        assert_eq!(failure.mode, mode, "strap at {height} m, {beta} degrees");
    }
}

/// The same table: the tipping balance alone.
#[test]
fn stored_limits_with_a_stopped_foot() {
    let body = cylinder(0.2, Foot::Stopped);
    for (height, beta, a_h) in [
        (0.44, 0.0, 48.8325),
        (0.44, 30.0, 42.1174),
        (0.15, 0.0, 18.1890),
    ] {
        let (found, failure) = limit(&body, strap_to_starboard(height, beta), 0.0);
        assert_close(found, a_h, 6e-5);
        assert_eq!(failure.mode, Mode::Tips);
        assert_close(failure.direction.y, 1.0, 1e-9);
    }
}

/// One strap dead aft of the force hardly helps when the force comes from aside: what is left across
/// the strap is carried by the foot alone. The same table.
#[test]
fn stored_limits_of_a_force_off_the_strap() {
    let body = cylinder(0.2, Foot::Stopped);
    for (off, a_h) in [
        (0.0, 48.8325),
        (20.0, 6.8384),
        (40.0, 3.6386),
        (60.0, 2.7007),
    ] {
        let (found, _) = limit(&body, strap_to_starboard(0.44, 0.0), off);
        assert_close(found, a_h, 6e-5);
    }
}

#[test]
fn without_hold_down_it_lifts() {
    let load = Load::at_height(vec2(1.0, 0.0), -0.5, CG_M);
    let free = utilisation(&cylinder(0.2, Foot::Free), &Holding::default(), &load);
    assert!(free.utilisation.is_infinite());
    assert_eq!(free.failure.map(|failure| failure.mode), Some(Mode::Lifts));
}

/// A strap straight down over the middle holds `m |a_n|` and nothing else is asked of it.
#[test]
fn a_hold_down_against_lift_alone() {
    let strap = Restraint {
        pull: vec3(0.0, 0.0, -1.0),
        attachment: Vec2::ZERO,
        height_m: 0.6,
        capacity_n: 100.0,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    };
    let restraints = [strap];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    let load = Load::at_height(Vec2::ZERO, -2.0, CG_M);
    let found = utilisation(&cylinder(0.2, Foot::Free), &holding, &load);
    assert_close(found.utilisation, MASS_KG * 2.0 / 100.0, 1e-9);
    assert_eq!(found.failure.map(|failure| failure.mode), Some(Mode::Lifts));
    assert_close(found.tensions_n[0], 100.0, 1e-6);
}

/// A centre of gravity beside the foot: it falls unless held, and a lashing that holds it counts.
#[test]
fn a_centre_of_gravity_beside_its_foot() {
    let aside = [vec2(0.0, -0.1)];
    let body = Body {
        feet: Feet {
            centres: &aside,
            radius_m: 0.0829,
        },
        ..cylinder(0.2, Foot::Stopped)
    };
    let load = Load::at_height(vec2(0.0, 0.1), 9.0, CG_M);
    assert!(
        utilisation(&body, &Holding::default(), &load)
            .utilisation
            .is_infinite()
    );
    let restraints = [strap_to_starboard(0.44, 0.0)];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    assert!(utilisation(&body, &holding, &load).utilisation < 0.1);
}

/// A shared point of unknown strength: two equal straps side by side need half each, all of it together.
#[test]
fn least_strength_of_a_shared_point() {
    let strap = Restraint {
        point: Some(0),
        capacity_n: f64::INFINITY,
        ..strap_to_starboard(0.44, 0.0)
    };
    let restraints = [strap, strap];
    let holding = Holding {
        restraints: &restraints,
        point_capacities_n: &[f64::INFINITY],
        bights: &[],
    };
    let body = cylinder(0.2, Foot::Stopped);
    let load = Load::at_height(vec2(0.0, 5.0), 9.0, CG_M);
    let needed = MASS_KG * (5.0 * CG_M - 9.0 * 0.0829) / 0.44;
    let legs = Sought {
        restraints: &[0, 1],
        points: &[],
    };
    let point = Sought {
        restraints: &[],
        points: &[0],
    };
    let each = least_capacity(&body, &holding, &load, &legs).unwrap();
    let together = least_capacity(&body, &holding, &load, &point).unwrap();
    assert_close(each, needed / 2.0, 1e-4);
    assert_close(together, needed, 1e-4);
}

/// A shock cord that counts nothing, round a cylinder that the boat rolls a little more each time: it stands as
/// it would without, whatever the rounding.
#[test]
fn what_has_no_strength_is_as_if_it_were_not_there() {
    let leg = |pull: (f64, f64, f64), at: (f64, f64), point: usize, capacity_n: f64| Restraint {
        pull: vec3(pull.0, pull.1, pull.2),
        attachment: vec2(at.0, at.1),
        height_m: 0.38,
        capacity_n,
        point: Some(point),
        sliding_capacity_n: f64::INFINITY,
    };
    let legs = |first_n: f64, second_n: f64| {
        [
            leg(
                (-0.662_246_963, 0.541_076_412, 0.518_329_313),
                (0.014_381_528, -0.142_820_417),
                0,
                first_n,
            ),
            leg(
                (0.912_198_994, 0.405_256_267, 0.060_500_857),
                (-0.051_549_117, -0.133_967_117),
                1,
                second_n,
            ),
        ]
    };
    let bights = [Bight {
        legs: (0, 1),
        tension_ratio: 1.25,
    }];
    let feet = [vec2(0.0, 0.0)];
    let body = Body {
        mass_kg: 18.6,
        friction: 0.5,
        foot: Foot::Free,
        feet: Feet {
            centres: &feet,
            radius_m: 0.1015,
        },
    };
    // None of its own, none in one leg, none in a point.
    for (legs, points) in [
        (legs(0.0, 0.0), [f64::INFINITY, 3333.0]),
        (legs(0.0, 500.0), [f64::INFINITY, 3333.0]),
        (legs(500.0, 500.0), [0.0, 3333.0]),
    ] {
        let holding = Holding {
            restraints: &legs,
            point_capacities_n: &points,
            bights: &bights,
        };
        let mut held = Held::new(body, holding);
        for step in 0..500 {
            let swing = 1.0 + 2e-5 * f64::from(step);
            let load = Load {
                tipping: swing * vec2(0.221_928_697, -0.542_835_264),
                along_deck: swing * vec2(0.804_890_466, -1.974_249_702),
                normal: 10.514_858_526 * (1.0 + 0.1 * (swing - 1.0)),
            };
            let bare = utilisation(&body, &Holding::default(), &load).utilisation;
            let with = utilisation(&body, &holding, &load).utilisation;
            let asked_again = held.utilisation(&load).utilisation;
            assert!(bare.is_finite());
            assert!((with - bare).abs() < 1e-6, "{step}: {with} {bare}");
            assert!(
                (asked_again - bare).abs() < 1e-6,
                "{step}: {asked_again} {bare}"
            );
        }
    }
}
