//! Our balance of a lashed body at the geometry of the CSS Code, annex 13.
//!
//! The code knows one direction, levers and `f = cos + mu sin`; ours searches all directions. Where the
//! geometry is the code's, both must give the same. Source: CSS Code (IMO), annex 13, section 7.2 and
//! appendix 1, example 1, read at <http://imorules.com/GUID-C99C6AF4-132B-4376-A696-0B5E10377595.html>;
//! rows of the f-table other than the two of the example are values from memory.

use snugdown::geometry::{Vec2, vec2};
use snugdown::mechanics::annex13::f_value;
use snugdown::mechanics::equilibrium::{
    Body, Feet, Foot, Holding, Load, Mode, Restraint, utilisation,
};
use snugdown::mechanics::vector::vec3;

/// The code counts with this.
const G: f64 = 9.81;

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} is not within {tolerance} of {expected}"
    );
}

/// 62 t, 6 m long, 4 m wide, centre 1.8 m up: example 1.
const CORNERS: [Vec2; 4] = [
    vec2(-3.0, -2.0),
    vec2(3.0, -2.0),
    vec2(3.0, 2.0),
    vec2(-3.0, 2.0),
];

fn item(friction: f64) -> Body<'static> {
    Body {
        mass_kg: 62_000.0,
        friction,
        foot: Foot::Free,
        feet: Feet {
            centres: &CORNERS,
            radius_m: 0.0,
        },
    }
}

/// A lashing to starboard from the upper far edge of a low item.
fn lashing(strength_kn: f64, vertical_deg: f64, along_m: f64) -> Restraint {
    let (sin, cos) = vertical_deg.to_radians().sin_cos();
    Restraint {
        pull: vec3(0.0, -cos, -sin),
        attachment: vec2(along_m, -2.0),
        height_m: 1.8,
        capacity_n: strength_kn * 1e3,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    }
}

/// The transverse force, kN, at which the item goes to port, and how.
fn transverse_limit_kn(friction: f64, lashings: &[Restraint]) -> (f64, Mode) {
    let holding = Holding {
        restraints: lashings,
        ..Holding::default()
    };
    let load = Load::at_height(vec2(0.0, 1.0), G, 1.8);
    let found = utilisation(&item(friction), &holding, &load);
    (62.0 / found.utilisation, found.failure.unwrap().mode)
}

/// Example 1: 412 and 422 kN with f rounded to two places; exactly 412.87 and 422.47.
#[test]
fn capacities_of_example_1() {
    let starboard = [-1.5, -0.5, 0.5, 1.5].map(|x| lashing(60.0, 40.0, x));
    let (capacity, mode) = transverse_limit_kn(0.3, &starboard);
    near(capacity, 412.0, 1.2);
    near(
        capacity,
        0.3 * 62.0 * G + 240.0 * f_value(40.0_f64.to_radians(), 0.3),
        1e-3,
    );
    assert_eq!(mode, Mode::Slides);

    let port = [(-1.5, 40.0), (-0.5, 10.0), (0.5, 10.0), (1.5, 40.0)];
    let (capacity, mode) = transverse_limit_kn(0.3, &port.map(|(x, deg)| lashing(60.0, deg, x)));
    near(capacity, 422.0, 1.2);
    assert_eq!(mode, Mode::Slides);
}

/// Example 1: the moment of the weight, 1216 kN m, over 1.8 m.
#[test]
fn tipping_moment_of_example_1() {
    let (capacity, mode) = transverse_limit_kn(2.0, &[]);
    near(capacity * 1.8, 1216.0, 0.5);
    assert_eq!(mode, Mode::Tips);
}

/// The f-table, row by row: what one lashing adds to the friction of the weight, over its strength.
#[test]
fn the_f_table() {
    let rows = [
        (
            0.3,
            [
                0.72, 0.84, 0.93, 1.00, 1.04, 1.04, 1.02, 0.96, 0.87, 0.76, 0.62, 0.47, 0.30,
            ],
        ),
        (
            0.1,
            [
                0.82, 0.91, 0.97, 1.00, 1.00, 0.97, 0.92, 0.83, 0.72, 0.59, 0.44, 0.27, 0.10,
            ],
        ),
        (
            0.0,
            [
                0.87, 0.94, 0.98, 1.00, 0.98, 0.94, 0.87, 0.77, 0.64, 0.50, 0.34, 0.17, 0.00,
            ],
        ),
    ];
    for (friction, row) in rows {
        for (step, f) in row.into_iter().enumerate() {
            let deg = 10.0 * step as f64 - 30.0;
            let (capacity, _) = transverse_limit_kn(friction, &[lashing(60.0, deg, 0.0)]);
            // Without friction and without a sideways pull nothing holds it at all.
            let capacity = if capacity.is_finite() { capacity } else { 0.0 };
            near((capacity - friction * 62.0 * G) / 60.0, f, 0.005 + 1e-6);
        }
    }
}
