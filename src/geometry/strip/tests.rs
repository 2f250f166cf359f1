use super::*;
use crate::geometry::{rectangle, vec2};

fn strip(points: &[(f64, f64)], width_m: f64) -> Strip {
    Strip::new(points.iter().map(|&(x, y)| vec2(x, y)).collect(), width_m).unwrap()
}

#[test]
fn mistakes_are_named() {
    let new = |points: &[(f64, f64)], width_m| {
        Strip::new(points.iter().map(|&(x, y)| vec2(x, y)).collect(), width_m).map(|_| ())
    };
    assert_eq!(
        new(&[(0., 0.)], 0.6),
        Err(StripError::TooFewPoints { count: 1 }),
        "one"
    );
    assert_eq!(
        new(&[(0., 0.), (0., 0.)], 0.6),
        Err(StripError::RepeatedPoint { point: 1 }),
        "same"
    );
    assert_eq!(
        new(&[(0., 0.), (f64::NAN, 0.)], 0.6),
        Err(StripError::NotFinite { point: 1 }),
        "nan"
    );
    assert_eq!(
        new(&[(0., 0.), (1., 0.)], 0.0),
        Err(StripError::Width { width_m: 0.0 }),
        "width"
    );
}

#[test]
fn intrusions_by_hand() {
    let straight = strip(&[(0., 0.), (4., 0.)], 0.8);
    let square = |x, y, half| rectangle(vec2(x, y), half, half, 0.0).unwrap();
    let disc = |x, y, radius| Shape::disc(vec2(x, y), radius);
    let plank = Shape::Stadium {
        from: vec2(1., -1.),
        to: vec2(1., 2.),
        radius: 0.05,
    };
    // (what, shape, taken of the width, length of the smallest shift)
    let cases = [
        ("from the left", disc(2., 0.45, 0.1), 0.05, 0.05),
        ("from the right", square(2., -0.5, 0.2), 0.1, 0.1),
        ("inside, left of the middle", disc(2., 0.2, 0.1), 0.3, 0.3),
        ("in the middle", disc(2., 0., 0.1), 0.5, 0.5),
        (
            "right across, clear beyond the nearer end",
            plank,
            0.8,
            1.05,
        ),
        (
            "just over the end",
            disc(4.05, 0., 0.1),
            0.4 + 0.0075_f64.sqrt(),
            0.05,
        ),
    ];
    for (what, shape, into_m, shift_m) in cases {
        let found = straight.intrusion(&shape).unwrap();
        assert!((found.into_m - into_m).abs() < 1e-9, "{what}: {found:?}");
        assert!(
            (found.shift.length() - shift_m).abs() < 1e-9,
            "{what}: {found:?}"
        );
        for shift in &found.shifts {
            let after = straight.intrusion(&shape.translated(*shift));
            assert!(
                after.is_none_or(|i| i.shift.length() < 1e-7),
                "{what}: by {shift:?}"
            );
        }
    }
    assert_eq!(
        straight.intrusion(&disc(2., 0.5, 0.1)),
        None,
        "touches its edge"
    );
    assert_eq!(
        straight.intrusion(&disc(-0.2, 0., 0.1)),
        None,
        "before its start"
    );
    let both = straight.intrusion(&disc(2., 0.05, 0.1)).unwrap().shifts;
    assert!(
        both.len() >= 2 && both[0].y > 0.0 && both[1].y < 0.0,
        "either side: {both:?}"
    );
}

#[test]
fn a_bend_is_round_outside_and_cleared_as_a_whole() {
    let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
    assert!((bent.length_m() - 4.0).abs() < 1e-12, "2 + 2");
    assert!(bent.contains(vec2(2.28, -0.28)), "in the round corner");
    assert!(!bent.contains(vec2(2.29, -0.29)), "outside it");
    // In the inner corner at (1.6, 0.4): up and to the left at once.
    let box_in_corner = rectangle(vec2(1.6, 0.4), 0.1, 0.1, 0.0).unwrap();
    let found = bent.intrusion(&box_in_corner).unwrap();
    assert!(found.shift.distance(vec2(-0.1, 0.1)) < 1e-9, "{found:?}");
}

#[test]
fn sides_and_lengths_along() {
    let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
    assert_eq!(
        bent.along_and_left(vec2(1., 0.3)),
        (1.0, 0.3),
        "left of the first"
    );
    assert_eq!(
        bent.along_and_left(vec2(2.25, 1.5)),
        (3.5, -0.25),
        "right of the second"
    );
    assert!(bent.side_of(vec2(1., -0.3)) < 0.0, "right");
}

#[test]
fn a_line_across_is_over_it_in_stretches() {
    let u = strip(&[(0., 0.), (2., 0.), (2., 2.), (0., 2.)], 0.5);
    let line = Segment::new(vec2(1., -1.), vec2(1., 3.));
    let found = u.stretches_over(&line);
    let expected = [(0.75 / 4.0, 1.25 / 4.0), (2.75 / 4.0, 3.25 / 4.0)];
    assert_eq!(found, expected, "from -0.25 to 0.25 and from 1.75 to 2.25");
    let beside = Segment::new(vec2(1., 0.25), vec2(1., 1.75));
    assert_eq!(u.stretches_over(&beside), [], "between both");
    let around = Segment::new(vec2(1.9, 0.), vec2(2.1, 0.));
    assert_eq!(u.stretches_over(&around), [(0.0, 1.0)], "within a bend");
}

#[test]
fn rings_enclose_what_it_covers() {
    let bent = strip(&[(0., 0.), (2., 0.), (2., 2.)], 0.8);
    let rings = bent.rings();
    assert_eq!(rings.len(), 1, "one edge");
    let area = Outline::new(rings[0].clone()).unwrap().area();
    // Two rectangles, less the inner quarter that both cover, and the outer quarter of a disc.
    let expected = 2.0 * 2.0 * 0.8 - 0.16 + std::f64::consts::PI * 0.16 / 4.0;
    assert!((area - expected).abs() < 1e-3, "{area} for {expected}");
    let round = strip(&[(0., 0.), (4., 0.), (4., 4.), (0., 4.), (0., 0.)], 0.5);
    assert_eq!(round.rings().len(), 2, "a ring has two edges");
}
