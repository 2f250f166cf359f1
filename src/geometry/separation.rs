use super::escape::{Obstacle, ways_out};
use super::shape::Core;
use super::tolerances::TOUCH_M;
use super::{Nearest, Shape, Vec2, vec2};

/// How far two shapes are apart, or how deep they are in each other.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Separation {
    /// The distance between the nearest points, in metres; 0 where they touch or overlap.
    pub gap_m: f64,

    /// The length of the smallest shift that ends the overlap, in metres; 0 where there is none.
    pub depth_m: f64,

    /// The point of the first shape nearest to the second. Where they touch or overlap, one point
    /// that both cover.
    pub a: Vec2,

    /// The point of the second shape nearest to the first; the same as `a` where they meet.
    pub b: Vec2,

    /// The direction, of length one, in which the first shape goes directly away from the second.
    /// A shift of the first by `depth_m` in this direction ends the overlap.
    pub away: Vec2,
}

impl Separation {
    /// Do they share more than edges?
    pub fn overlaps(&self) -> bool {
        self.depth_m > 0.0
    }

    /// The smallest shift of the first shape that ends the overlap; zero where there is none.
    pub fn shift(&self) -> Vec2 {
        self.depth_m * self.away
    }
}

/// How two shapes lie to each other; exact up to rounding.
///
/// Each shape is a core (a point, a line, a polygon) and a radius about it. Where the cores are
/// apart by d, the gap is d less both radii and, if that is negative, its size is the depth: the
/// difference set of the cores is convex, so no shift shorter than the missing distance leads out
/// of its parallel set.
/// Where convex cores overlap, the smallest shift is across one of their edges (separating axes),
/// plus both radii. Cores with inward corners are cut into convex parts, see `ways_out`.
///
/// # References
///
/// S. Cameron, R. Culley (1986), Determining the minimum translational distance between two convex
/// polyhedra, IEEE International Conference on Robotics and Automation, 591-596.
pub fn separation(first: &Shape, second: &Shape) -> Separation {
    let ((core_a, radius_a), (core_b, radius_b)) = (first.core(), second.core());
    let cores = nearest_of_cores(&core_a, &core_b);
    let nearest = rounded(cores, radius_a, radius_b);
    let mut result = Separation {
        gap_m: nearest.distance_m,
        depth_m: 0.0,
        a: nearest.a,
        b: nearest.b,
        // Two shapes round the same point may go apart in any direction.
        away: (cores.a - cores.b).normalized().unwrap_or(vec2(1.0, 0.0)),
    };
    // Sides that lie on each other but for rounding may hide an overlap, so a gap that is no more than
    // touching is no proof that there is none.
    if nearest.distance_m > TOUCH_M {
        return result;
    }
    if !(core_a.is_convex() && core_b.is_convex()) {
        if let Some(shift) = shift_of_parts(first, second) {
            result.depth_m = shift.length();
            result.away = shift.normalized().unwrap_or(result.away);
        }
    } else if cores.distance_m > TOUCH_M {
        result.depth_m = radius_a + radius_b - cores.distance_m;
    } else {
        let (depth, away) = overlap_of_convex(&core_a, &core_b);
        result.depth_m = depth + radius_a + radius_b;
        result.away = away.unwrap_or(result.away);
    }
    if result.depth_m <= TOUCH_M {
        result.depth_m = 0.0;
    } else {
        result.gap_m = 0.0;
    }
    result
}

/// How far two shapes are apart, in metres; 0 where they touch or overlap. The same as
/// [`Separation::gap_m`] without the search for a way out.
pub(super) fn gap_m(first: &Shape, second: &Shape) -> f64 {
    let ((core_a, radius_a), (core_b, radius_b)) = (first.core(), second.core());
    (nearest_of_cores(&core_a, &core_b).distance_m - radius_a - radius_b).max(0.0)
}

/// The nearest points of two cores: one common point for both where they meet.
fn nearest_of_cores(a: &Core<'_>, b: &Core<'_>) -> Nearest {
    let common = |p: Vec2| Nearest {
        distance_m: 0.0,
        a: p,
        b: p,
    };
    let (start_a, start_b) = (a.as_slice()[0], b.as_slice()[0]);
    if b.encloses(start_a) {
        return common(start_a);
    }
    if a.encloses(start_b) {
        return common(start_b);
    }
    let mut best = Nearest {
        distance_m: start_a.distance(start_b),
        a: start_a,
        b: start_b,
    };
    for edge in a.edges() {
        for other in b.edges() {
            best = best.nearer(edge.nearest(&other));
        }
        if best.distance_m <= 0.0 {
            break;
        }
    }
    best
}

/// The nearest points of two parallel sets, from those of their cores.
///
/// Where they meet, one common point for both: the one that divides the line between the cores as
/// the radii do.
pub(super) fn rounded(cores: Nearest, radius_a: f64, radius_b: f64) -> Nearest {
    let radii = radius_a + radius_b;
    if radii <= 0.0 {
        return cores;
    }
    let gap = cores.distance_m - radii;
    if gap <= 0.0 {
        let p = cores.a.lerp(cores.b, radius_a / radii);
        return Nearest {
            distance_m: 0.0,
            a: p,
            b: p,
        };
    }
    Nearest {
        distance_m: gap,
        a: cores.a.lerp(cores.b, radius_a / cores.distance_m),
        b: cores.b.lerp(cores.a, radius_b / cores.distance_m),
    }
}

/// The smallest shift of `a` that brings two convex cores that meet apart, as length and direction.
/// No direction if both are points.
fn overlap_of_convex(a: &Core<'_>, b: &Core<'_>) -> (f64, Option<Vec2>) {
    let reach = |core: &Core<'_>, direction: Vec2| {
        (core.as_slice().iter())
            .map(|p| p.dot(direction))
            .fold(f64::NEG_INFINITY, f64::max)
    };
    let (mut least, mut direction) = (f64::INFINITY, None);
    for edge in a.edges().chain(b.edges()) {
        let Some(normal) = edge.span().perp().normalized() else {
            continue;
        };
        for n in [normal, -normal] {
            let shift = reach(b, n) + reach(a, -n);
            if shift < least {
                (least, direction) = (shift, Some(n));
            }
        }
    }
    match direction {
        Some(_) => (least.max(0.0), direction),
        None => (0.0, None),
    }
}

/// The smallest shift of the first shape off the second, part by part.
fn shift_of_parts(first: &Shape, second: &Shape) -> Option<Vec2> {
    let obstacles: Vec<_> = Obstacle::between(&[first], &[second]).collect();
    ways_out(&obstacles, |_| true).first().copied()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, rectangle};
    use proptest::prelude::*;

    fn disc(x: f64, y: f64, radius: f64) -> Shape {
        Shape::disc(vec2(x, y), radius)
    }

    fn rect(x1: f64, y1: f64, x2: f64, y2: f64) -> Shape {
        let corners = vec![vec2(x1, y1), vec2(x2, y1), vec2(x2, y2), vec2(x1, y2)];
        Shape::Polygon(Outline::new(corners).unwrap())
    }

    #[test]
    fn sides_on_each_other_but_for_rounding_hide_no_overlap() {
        // The second is a rectangle of 0.4 m by 1 m, turned by a quarter turn that is not exact.
        let quarter = -std::f64::consts::FRAC_PI_2;
        let ahead = Vec2::from_angle(quarter);
        let first = rectangle(vec2(3.0, 0.0), 0.2, 0.15, 0.0).unwrap();
        let middle = -0.4 * ahead + 3.0 * ahead.perp();
        let second = rectangle(middle, 0.5, 0.2, quarter).unwrap();
        let apart = separation(&first, &second);
        assert!((apart.depth_m - 0.25).abs() < 1e-12, "{apart:?}");
    }

    #[test]
    fn hand_values() {
        let u = Outline::new(
            [
                (0., 0.),
                (3., 0.),
                (3., 2.),
                (2., 2.),
                (2., 1.),
                (1., 1.),
                (1., 2.),
                (0., 2.),
            ]
            .map(|(x, y)| vec2(x, y))
            .to_vec(),
        );
        let u = Shape::Polygon(u.unwrap());
        // (what, first, second, gap, depth), by hand.
        let cases = [
            ("discs apart", disc(0., 0., 1.), disc(3., 0., 1.), 1.0, 0.0),
            ("discs touch", disc(0., 0., 1.), disc(2., 0., 1.), 0.0, 0.0),
            (
                "discs overlap",
                disc(0., 0., 1.),
                disc(1.5, 0., 1.),
                0.0,
                0.5,
            ),
            ("same disc", disc(1., 1., 1.), disc(1., 1., 0.5), 0.0, 1.5),
            (
                "disc in a square, nearest side",
                disc(0.8, 0.5, 0.1),
                rect(0., 0., 1., 1.),
                0.0,
                0.3,
            ),
            (
                "disc over a corner",
                disc(1.03, 1.04, 0.1),
                rect(0., 0., 1., 1.),
                0.0,
                0.05,
            ),
            (
                "squares side by side",
                rect(0., 0., 1., 1.),
                rect(1., 0., 2., 1.),
                0.0,
                0.0,
            ),
            (
                "squares overlap",
                rect(0., 0., 1., 1.),
                rect(0.75, 0.5, 2., 2.),
                0.0,
                0.25,
            ),
            (
                "one in the other",
                rect(0.25, 0.4, 0.5, 0.6),
                rect(0., 0., 1., 1.),
                0.0,
                0.5,
            ),
            (
                "lines cross",
                Shape::line(vec2(0., 0.), vec2(2., 0.)),
                Shape::line(vec2(0.5, -1.), vec2(0.5, 1.)),
                0.0,
                0.5,
            ),
            (
                "disc in the mouth of a U",
                disc(1.5, 1.6, 0.4),
                u.clone(),
                0.1,
                0.0,
            ),
            (
                "disc down in the U",
                disc(1.5, 1.3, 0.4),
                u.clone(),
                0.0,
                0.1,
            ),
            (
                "disc too large for the U: up and out",
                disc(1.5, 1.8, 0.6),
                u.clone(),
                0.0,
                0.2 + 0.11_f64.sqrt(),
            ),
        ];
        for (what, first, second, gap, depth) in cases {
            let s = separation(&first, &second);
            assert!((s.gap_m - gap).abs() < 1e-12, "{what}: gap {}", s.gap_m);
            assert!(
                (s.depth_m - depth).abs() < 1e-9,
                "{what}: depth {}",
                s.depth_m
            );
        }
    }

    fn any_shape() -> impl Strategy<Value = Shape> {
        // On a grid of a quarter metre and an eighth of a turn, so that edges often touch or line up.
        let point = (-8..=8i32, -8..=8i32)
            .prop_map(|(x, y)| vec2(0.25 * f64::from(x), 0.25 * f64::from(y)));
        let size = (1..=6i32).prop_map(|n| 0.25 * f64::from(n));
        prop_oneof![
            (point.clone(), size.clone()).prop_map(|(c, r)| Shape::disc(c, r)),
            (point.clone(), point.clone(), size.clone())
                .prop_map(|(from, to, radius)| Shape::Stadium { from, to, radius }),
            (point.clone(), size.clone(), size.clone(), 0..8i32).prop_map(|(c, l, w, turn)| {
                rectangle(c, l, w, f64::from(turn) * std::f64::consts::FRAC_PI_8).unwrap()
            }),
            (point, size).prop_map(|(p, s)| {
                let l = [(0., 0.), (2., 0.), (2., 1.), (1., 1.), (1., 2.), (0., 2.)];
                let corners = l.map(|(x, y)| p + s * vec2(x, y)).to_vec();
                Shape::Polygon(Outline::new(corners).unwrap())
            }),
        ]
    }

    proptest! {
        #![proptest_config(crate::geometry::test_support::cases(300))]

        #[test]
        fn it_is_the_same_from_both_sides(a in any_shape(), b in any_shape()) {
            let (ab, ba) = (separation(&a, &b), separation(&b, &a));
            prop_assert!((ab.gap_m - ba.gap_m).abs() < 1e-9, "{ab:?} {ba:?}");
            prop_assert!((ab.depth_m - ba.depth_m).abs() < 1e-6, "{ab:?} {ba:?}");
        }

        #[test]
        fn the_shift_ends_the_overlap_and_less_does_not(a in any_shape(), b in any_shape()) {
            let s = separation(&a, &b);
            prop_assume!(s.overlaps());
            let off = separation(&a.translated(s.shift()), &b);
            prop_assert!(off.depth_m < 1e-6, "{s:?} then {off:?}");
            for i in 0..16 {
                let direction = Vec2::from_angle(f64::from(i) * std::f64::consts::FRAC_PI_8);
                let less = a.translated((s.depth_m - 1e-4) * direction);
                prop_assert!(separation(&less, &b).overlaps(), "{s:?} {direction:?}");
            }
        }

        #[test]
        fn a_mirror_changes_no_length(a in any_shape(), b in any_shape()) {
            let (s, m) = (separation(&a, &b), separation(&a.mirrored_y(), &b.mirrored_y()));
            prop_assert!((s.gap_m - m.gap_m).abs() < 1e-9, "{s:?} {m:?}");
            prop_assert!((s.depth_m - m.depth_m).abs() < 1e-6, "{s:?} {m:?}");
        }
    }
}
