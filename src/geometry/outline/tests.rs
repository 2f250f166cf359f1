use super::*;
use crate::geometry::vec2;

fn outline(points: &[(f64, f64)]) -> Result<Outline, OutlineError> {
    Outline::new(points.iter().map(|&(x, y)| vec2(x, y)).collect())
}

#[test]
fn area_and_centre_match_hand_values() {
    // (what, vertices, area, centroid), by hand.
    type Case = (&'static str, &'static [(f64, f64)], f64, (f64, f64));
    let cases: &[Case] = &[
        (
            "square",
            &[(0., 0.), (1., 0.), (1., 1.), (0., 1.)],
            1.0,
            (0.5, 0.5),
        ),
        (
            "clockwise triangle",
            &[(0., 0.), (0., 3.), (3., 0.)],
            4.5,
            (1., 1.),
        ),
        (
            "far away",
            &[
                (1e6, 1e6),
                (1e6 + 2., 1e6),
                (1e6 + 2., 1e6 + 2.),
                (1e6, 1e6 + 2.),
            ],
            4.0,
            (1e6 + 1., 1e6 + 1.),
        ),
        // Two rectangles: 2 x 1 with centre (1, 0.5), 1 x 1 with centre (0.5, 1.5).
        (
            "an L",
            &[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)],
            3.0,
            (2.5 / 3., 2.5 / 3.),
        ),
    ];
    for &(what, points, area, (x, y)) in cases {
        let outline = outline(points).unwrap();
        assert!(
            (outline.area() - area).abs() < 1e-9,
            "{what}: {}",
            outline.area()
        );
        assert!(
            outline.centroid().distance(vec2(x, y)) < 1e-9,
            "{what}: {:?}",
            outline.centroid()
        );
    }
}

#[test]
fn mistakes_are_located() {
    // (what, vertices, message)
    type Case = (&'static str, &'static [(f64, f64)], &'static str);
    let cases: &[Case] = &[
        (
            "few",
            &[(0., 0.), (1., 1.)],
            "an outline needs at least 3 vertices, got 2",
        ),
        (
            "nan",
            &[(0., 0.), (f64::NAN, 1.), (1., 1.)],
            "vertex 1 is not finite",
        ),
        (
            "closed",
            &[(0., 0.), (1., 0.), (1., 1.), (0., 0.)],
            "vertices 0 and 3 are the same point, (0.000, 0.000)",
        ),
        (
            "bow tie",
            &[(0., 0.), (2., 2.), (2., 0.), (0., 2.)],
            "edges 0 and 2 cross or touch at (1.000, 1.000)",
        ),
        (
            "vertex on an edge",
            &[(0., 0.), (4., 0.), (4., 2.), (2., 0.), (0., 2.)],
            "edges 0 and 2 cross or touch at (2.000, 0.000)",
        ),
        (
            "spike",
            &[(0., 0.), (2., 0.), (1., 0.), (1., 1.)],
            "edges 0 and 1 cross or touch at (2.000, 0.000)",
        ),
        (
            "spike at the first vertex",
            &[(2., 0.), (1., 0.), (1., 1.), (0., 0.)],
            "edges 0 and 3 cross or touch at (2.000, 0.000)",
        ),
        (
            "tiny",
            &[(0., 0.), (1e-4, 0.), (0., 1e-4)],
            "the outline encloses only 5.00e-9 m²",
        ),
        (
            "too large to have an area",
            &[(0., 0.), (1e300, 0.), (0., 1e300)],
            "the outline encloses only inf m²",
        ),
    ];
    for &(what, points, message) in cases {
        let error = outline(points).unwrap_err();
        assert_eq!(error.to_string(), message, "{what}");
    }
    assert!(
        outline(&[(0., 0.), (1., 0.), (2., 0.), (2., 2.)]).is_ok(),
        "a vertex on a straight side"
    );
}

#[test]
fn edges_and_vertices_belong_to_it() {
    let diamond = outline(&[(1., 0.), (2., 1.), (1., 2.), (0., 1.)]).unwrap();
    for p in [vec2(1., 1.), vec2(0.5, 1.), vec2(1.9, 1.)] {
        assert!(
            diamond.contains(p) && diamond.contains_inside(p),
            "{p:?} inside"
        );
    }
    for p in [vec2(1., 0.), vec2(2., 1.), vec2(0.5, 0.5), vec2(1.25, 1.75)] {
        assert!(
            diamond.contains(p) && !diamond.contains_inside(p),
            "{p:?} on"
        );
    }
    for p in [
        vec2(0., 0.),
        vec2(0., 2.),
        vec2(0.25, 0.5),
        vec2(3., 1.),
        vec2(-1., 1.),
    ] {
        assert!(!diamond.contains(p), "{p:?} outside");
    }
}

#[test]
fn mirrored_twice_is_itself() {
    let l = outline(&[(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)]).unwrap();
    assert!(!l.is_convex(), "an L has an inward corner");
    assert!(
        l.mirrored_y().contains(vec2(0.5, -1.5)),
        "the upright of the L points down"
    );
    assert!(
        !l.mirrored_y().contains(vec2(1.5, -1.5)),
        "the notch stays a notch"
    );
    assert_eq!(l.mirrored_y().mirrored_y(), l, "twice");
}

#[test]
fn convex_parts_cover_it_once() {
    let u = outline(&[
        (0., 0.),
        (3., 0.),
        (3., 2.),
        (2., 2.),
        (2., 1.),
        (1., 1.),
        (1., 2.),
        (0., 2.),
    ])
    .unwrap();
    let parts: Vec<_> = u
        .convex_parts()
        .into_iter()
        .map(|p| Outline::new(p).unwrap())
        .collect();
    assert!(parts.iter().all(Outline::is_convex), "each is convex");
    assert!(parts.len() <= 4, "joined: {} parts", parts.len());
    let area: f64 = parts.iter().map(Outline::area).sum();
    assert!((area - u.area()).abs() < 1e-12, "{area} != {}", u.area());
}
