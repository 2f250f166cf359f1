//! Worked examples of the IMO CSS Code, annex 13, and of the code for timber deck cargoes.
//!
//! Sources:
//! * CSS Code, annex 13, appendix 1, examples 1 and 2, as read at
//!   <http://imorules.com/GUID-C99C6AF4-132B-4376-A696-0B5E10377595.html> (the table of lashings of
//!   example 2 is cut off there);
//! * maximum securing loads, section 4: <https://www.imorules.com/GUID-1EB98759-3F22-44FF-BE5F-EC858FFF2DD9.html>;
//! * 2011 TDC Code, resolution A.1048(27), annex B, example B.6.1:
//!   <https://www.imorules.com/GUID-BEB93D19-C7B6-48E6-BE33-817012F625CD.html>, weather factor:
//!   <https://www.imorules.com/GUID-1A439096-1A60-4597-8C36-C5E534E06282.html>.

use snugdown::mechanics::annex13::{
    ALTERNATIVE_DIVISOR, Annex13Error, BASIC_DIVISOR, Lashing, Ship, Stowage, accelerations,
    basic_accelerations, external_force_n, f_value, f_x_value, f_y_value,
    friction_only_acceleration, length_speed_factor, longitudinal_capacity_n, series_msl_n,
    stiffness_factor, tipping_capacity_nm, transverse_capacity_n, vertical_share,
    wave_height_limit_m, weather_factor,
};

const KN: f64 = 1000.0;

#[track_caller]
fn near(actual: f64, expected: f64, tolerance: f64) {
    assert!(
        (actual - expected).abs() <= tolerance,
        "{actual} is not within {tolerance} of {expected}"
    );
}

fn lashing(strength_kn: f64, vertical_deg: f64) -> Lashing {
    Lashing {
        calculation_strength_n: strength_kn * KN,
        vertical_angle_rad: vertical_deg.to_radians(),
        ..Lashing::default()
    }
}

/// Example 1: 62 t at 0.7 L on deck low, factor 0.89; forces printed to the kilonewton.
#[test]
fn example_1_forces() {
    let basic = basic_accelerations(Stowage::DeckLow, 7).unwrap();
    near(basic.longitudinal, 2.9, 0.0);
    near(basic.transverse, 6.3, 0.0);
    near(basic.vertical, 6.2, 0.0);
    let force = |a: f64, wind_kn: f64, sea_kn: f64| {
        external_force_n(62_000.0, 0.89 * a, wind_kn * KN, sea_kn * KN) / KN
    };
    near(force(basic.longitudinal, 16.0, 8.0), 184.0, 0.5);
    near(force(basic.transverse, 24.0, 12.0), 384.0, 0.5);
    near(force(basic.vertical, 0.0, 0.0), 342.0, 0.5);
}

/// Example 1: length 120 m, 15 knots, factor 0.89; example 2: 160 m, 18 knots, forces imply 0.82.
#[test]
fn length_factors_of_the_examples() {
    near(length_speed_factor(120.0, 15.0).unwrap(), 0.89, 0.005);
    near(length_speed_factor(160.0, 18.0).unwrap(), 0.82, 0.005);
    // Columns of the code's own table (values from memory).
    for (speed_kn, factor) in [(9.0, 1.20), (15.0, 1.49), (24.0, 1.93)] {
        near(length_speed_factor(50.0, speed_kn).unwrap(), factor, 0.005);
    }
    for (speed_kn, factor) in [(9.0, 0.79), (15.0, 1.00), (24.0, 1.31)] {
        near(length_speed_factor(100.0, speed_kn).unwrap(), factor, 0.005);
    }
}

/// Example 1: balances; capacities printed as 412 and 422 kN with f rounded to two places.
#[test]
fn example_1_balances() {
    let starboard = [lashing(60.0, 40.0); 4];
    let port = [
        lashing(60.0, 40.0),
        lashing(60.0, 40.0),
        lashing(60.0, 10.0),
        lashing(60.0, 10.0),
    ];
    // f to two places may differ by 0.005 x 60 kN in each of four lashings: 1.2 kN.
    let capacity = |side: &[Lashing]| transverse_capacity_n(62_000.0, 0.3, side) / KN;
    near(capacity(&starboard), 412.9, 1.2);
    near(capacity(&port), 422.5, 1.2);
    assert!(capacity(&starboard) >= 384.0, "it holds, as in the example");
    near(tipping_capacity_nm(62_000.0, 2.0, &[]) / KN, 1216.4, 0.5);
    assert!(
        384.0 * 1.8 < tipping_capacity_nm(62_000.0, 2.0, &[]) / KN,
        "no tipping, as in the example"
    );
    let levered = Lashing {
        lever_m: 3.0,
        ..lashing(60.0, 40.0)
    };
    near(
        tipping_capacity_nm(62_000.0, 2.0, &[levered]) - tipping_capacity_nm(62_000.0, 2.0, &[]),
        180.0 * KN,
        1e-6,
    );
}

/// Example 1: wire for single use 80 % of 125 kN, shackles 50 % of 180 kN; example 2: 108 / 1.35.
#[test]
fn securing_loads_in_series() {
    let msl_n = series_msl_n([0.8 * 125.0 * KN, 0.5 * 180.0 * KN]);
    near(msl_n, 90.0 * KN, 1e-6);
    near(msl_n / BASIC_DIVISOR, 60.0 * KN, 1e-6);
    near(108.0 * KN / ALTERNATIVE_DIVISOR, 80.0 * KN, 1e-6);
}

/// Example 1 prints 0.96 and 1.04; the rows are the code's table of f (values from memory).
#[test]
fn f_values() {
    near(f_value(40.0_f64.to_radians(), 0.3), 0.96, 0.005);
    near(f_value(10.0_f64.to_radians(), 0.3), 1.04, 0.005);
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
    ];
    for (friction, row) in rows {
        for (step, f) in row.into_iter().enumerate() {
            let angle = (10.0 * step as f64 - 30.0).to_radians();
            near(f_value(angle, friction), f, 0.005 + 1e-9);
        }
    }
    // Alternative balance, 40 degrees up and 30 degrees from athwartships: derived.
    let slanted = Lashing {
        horizontal_angle_rad: 30.0_f64.to_radians(),
        ..lashing(80.0, 40.0)
    };
    near(f_y_value(&slanted, 0.3), 0.856, 0.0005);
    near(f_x_value(&slanted, 0.3), 0.576, 0.0005);
}

/// Example 2: 68 t, 'tween deck at 0.7 L, factor 0.82; `f_z` 0.8 at friction 0.3 gives 276.8 kN.
#[test]
fn example_2_forces() {
    let basic = basic_accelerations(Stowage::TweenDeck, 7).unwrap();
    let force = |a: f64| external_force_n(68_000.0, 0.82 * a, 0.0, 0.0) / KN;
    near(force(basic.longitudinal), 112.0, 0.5);
    near(force(basic.transverse), 312.0, 0.5);
    near(force(basic.vertical), 346.0, 0.5);
    near(vertical_share(0.3) * 346.0, 276.8, 0.05);
    let friction_only = longitudinal_capacity_n(68_000.0, 0.3, 276.8 * KN, &[]) / KN;
    near(friction_only, 0.3 * (68.0 * 9.80665 - 276.8), 1e-6);
    let ship = Ship {
        length_m: 160.0,
        beam_m: 24.0,
        gm_m: 1.5,
        speed_kn: 18.0,
    };
    let moved = accelerations(&ship, Stowage::TweenDeck, 7).unwrap();
    near(68.0 * moved.transverse, 312.0, 1.0);
}

/// The TDC Code prints 0.76 for 5.5 m; exactly it is 0.765625.
#[test]
fn weather_factors() {
    near(weather_factor(5.5).unwrap(), 0.765625, 1e-12);
    near(weather_factor(2.4).unwrap(), 0.5318, 0.00005);
    assert!(weather_factor(12.5).is_err(), "beyond the formula");
    assert!(weather_factor(f64::NAN).is_err(), "not a height");
}

/// TDC Code, B.6.1: friction alone holds 3.2 m/s2, which allows waves of 2.4 m.
///
/// That the cargo lies at 0.8 L on deck low is inferred: it gives the printed height.
#[test]
fn friction_only_deck_cargo() {
    let held = friction_only_acceleration(1_500_000.0, 0.35, 332.0 * KN);
    near(held, 3.2, 0.05);
    // The code reckons with 9.81 m/s2: 0.0012 more.
    near(held, 3.2122, 0.0015);
    let factor = length_speed_factor(101.0, 13.0).unwrap();
    near(factor, 0.92526, 0.5e-5);
    let basic = basic_accelerations(Stowage::DeckLow, 8).unwrap();
    near(
        wave_height_limit_m(3.2 / (factor * basic.transverse)),
        2.4,
        0.05,
    );
}

/// The formula would give -3.50 at 10 m and 9 knots: it must not be asked.
#[test]
fn small_boats_are_refused() {
    assert_eq!(
        length_speed_factor(10.0, 9.0),
        Err(Annex13Error::TooShort { length_m: 10.0 })
    );
    assert!(length_speed_factor(49.9, 9.0).is_err(), "just too short");
    assert!(length_speed_factor(f64::NAN, 9.0).is_err(), "not a length");
    let boat = Ship {
        length_m: 12.0,
        beam_m: 5.0,
        gm_m: 1.0,
        speed_kn: 12.0,
    };
    assert!(
        accelerations(&boat, Stowage::DeckLow, 5).is_err(),
        "a small boat"
    );
    assert!(
        stiffness_factor(Stowage::DeckLow, 5.0).is_err(),
        "stiffer than the table"
    );
    near(stiffness_factor(Stowage::DeckLow, 7.0).unwrap(), 1.42, 0.0);
    near(
        stiffness_factor(Stowage::DeckLow, 12.5).unwrap(),
        1.02,
        1e-12,
    );
    near(stiffness_factor(Stowage::DeckLow, 14.0).unwrap(), 1.0, 0.0);
    assert!(
        basic_accelerations(Stowage::DeckHigh, 0).is_err(),
        "off the table"
    );
    assert!(
        basic_accelerations(Stowage::DeckHigh, 10).is_err(),
        "off the table"
    );
}
