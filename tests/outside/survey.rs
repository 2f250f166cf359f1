//! Points from tape readings and photos, against `SciPy` and scikit-image.
//!
//! Stored values: `data/survey.py`, run with numpy 2.4.6, scipy 1.17.1, scikit-image 0.26.0. The data of
//! the first network are those of C. D. Ghilani, Adjustment Computations, chapter 14 (three observed
//! distances to one station, in feet); its adjusted values here are `SciPy`'s.

use snugdown::geometry::survey::{
    Adjusted, Network, Pair, PlanFromImage, Reading, ReadingKind, fix_by_two_tapes,
};
use snugdown::geometry::survey::{Located, TapeSide};
use snugdown::geometry::{Vec2, vec2};

/// The values are printed to 1e-9; `SciPy` ends its search at about the root of the rounding, 1e-8 of the
/// coordinates.
const POINT_M: f64 = 2e-8;

fn distance(from: usize, to: usize, value_m: f64, standard_error_m: f64) -> Reading {
    Reading {
        kind: ReadingKind::Distance { from, to },
        value_m,
        standard_error_m,
    }
}

fn assert_residuals(adjusted: &Adjusted, expected: &[f64], tolerance: f64) {
    assert_eq!(
        adjusted.adjustments.len(),
        expected.len(),
        "one residual a reading"
    );
    for (found, expected) in adjusted.adjustments.iter().zip(expected) {
        let off = (found.residual_m - expected).abs();
        assert!(off < tolerance, "{found:?}, expected {expected}");
    }
}

#[test]
fn three_distances_to_one_point_are_adjusted_as_by_scipy() {
    let network = Network {
        points: vec![
            (vec2(865.40, 4527.15), true),
            (vec2(2432.55, 2047.25), true),
            (vec2(2865.22, 27.15), true),
            (vec2(6900.0, 3900.0), false),
        ],
        readings: vec![
            distance(0, 3, 6049.00, 1.0),
            distance(1, 3, 4736.83, 1.0),
            distance(2, 3, 5446.49, 1.0),
        ],
    };
    let adjusted = network.adjust().unwrap();
    let found = adjusted.points[3];
    // Coordinates of some thousand, so that the same share of them is larger.
    let off = found.at.distance(vec2(6861.316787721, 3727.818565708));
    assert!(off < 5e-6, "{found:?}");
    for (value, expected) in [
        (found.covariance.xx, 0.630188961),
        (found.covariance.xy, -0.728353848),
        (found.covariance.yy, 2.494688495),
    ] {
        assert!((value - expected).abs() < 1e-6, "{value} {expected}");
    }
    assert_residuals(&adjusted, &[0.037372646, -0.076792842, 0.047365577], 1e-6);
    assert_eq!(adjusted.redundancy, 1);
}

#[test]
fn a_deck_of_tapes_and_stations_is_adjusted_as_by_scipy() {
    let along = |point, value_m| Reading {
        kind: ReadingKind::Along { point },
        value_m,
        standard_error_m: 0.005,
    };
    let network = Network {
        points: vec![
            (vec2(0.0, 1.25), true),
            (vec2(0.0, -1.25), true),
            (vec2(4.2, 1.0), false),
            (vec2(3.8, -1.4), false),
        ],
        readings: vec![
            distance(0, 2, 4.012, 0.003),
            distance(0, 3, 4.713, 0.003),
            distance(1, 2, 4.700, 0.003),
            distance(1, 3, 4.005, 0.003),
            distance(2, 3, 2.431, 0.002),
            along(2, 4.010),
            along(3, 4.008),
        ],
    };
    let adjusted = network.adjust().unwrap();
    let expected = [
        vec2(4.011408455, 1.198654795),
        vec2(4.005933937, -1.232403861),
    ];
    let variances = [(0.000005407, 0.000025619), (0.000005478, 0.000025566)];
    for (i, (at, (xx, yy))) in expected.iter().zip(variances).enumerate() {
        let found = adjusted.points[2 + i];
        assert!(found.at.distance(*at) < POINT_M, "{found:?}");
        // Printed to 1e-9 m².
        assert!((found.covariance.xx - xx).abs() < 6e-10, "{found:?}");
        assert!((found.covariance.yy - yy).abs() < 6e-10, "{found:?}");
    }
    let residuals = [
        0.000262955,
        0.000268771,
        0.000286381,
        -0.000972582,
        -0.000064820,
        -0.001408455,
        0.002066063,
    ];
    assert_residuals(&adjusted, &residuals, POINT_M);
    assert_eq!((adjusted.redundancy, adjusted.suspects), (3, Vec::new()));
}

/// Two tapes are the network without redundancy: both ways give the same corner and the same error.
#[test]
fn two_tapes_agree_with_the_network() {
    let (a, b) = (vec2(0.2, 1.1), vec2(0.1, -1.3));
    let one = fix_by_two_tapes(
        Located::exact(a),
        2.9,
        Located::exact(b),
        3.4,
        TapeSide::Right,
        0.004,
    );
    let network = Network {
        points: vec![(a, true), (b, true), (vec2(-2.5, 0.2), false)],
        readings: vec![distance(0, 2, 2.9, 0.004), distance(1, 2, 3.4, 0.004)],
    };
    let (one, other) = (one.unwrap(), network.adjust().unwrap().points[2]);
    assert!(one.at.distance(other.at) < 1e-9, "{one:?} {other:?}");
    let (one, other) = (one.ellipse, other.covariance.ellipse());
    assert!((one.major_m - other.major_m).abs() < 1e-9);
    assert!((one.minor_m - other.minor_m).abs() < 1e-9);
}

#[test]
fn a_photo_is_straightened_as_by_scikit_image() {
    let pair = |u, v, x, y| Pair {
        pixel: vec2(u, v),
        at: vec2(x, y),
    };
    // scikit-image knows neither up nor down: what counts there is only the numbers.
    let pairs = [
        pair(812.0, 431.0, 3.0, 0.9),
        pair(2290.0, 468.0, 3.0, -0.9),
        pair(2871.0, 1985.0, 0.0, -0.9),
        pair(298.0, 1902.0, 0.0, 0.9),
    ];
    let map = PlanFromImage::through(&pairs).unwrap();
    let expected = [
        0.000082174,
        -0.002547393,
        4.820654335,
        -0.001544593,
        0.000029092,
        2.378506789,
        -0.000009603,
        0.000628652,
        1.0,
    ];
    for (found, expected) in map.matrix().iter().flatten().zip(expected) {
        assert!((found - expected).abs() < 2e-9, "{found} {expected}");
    }
    let probes: [(Vec2, Vec2); 5] = [
        (vec2(1500.0, 1000.0), vec2(1.484606930, 0.056192887)),
        (vec2(812.0, 431.0), vec2(3.0, 0.9)),
        (vec2(100.0, 2100.0), vec2(-0.224496602, 0.985310360)),
        (vec2(2600.0, 900.0), vec2(1.779348740, -1.045712054)),
        (vec2(1550.0, 300.0), vec2(3.564597992, -0.005865612)),
    ];
    for (pixel, expected) in probes {
        let found = map.at(pixel).unwrap();
        assert!(found.distance(expected) < 2e-9, "{found:?} {expected:?}");
    }
}
