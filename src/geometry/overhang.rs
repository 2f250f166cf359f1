use super::escape::{Obstacle, ways_out};
use super::tolerances::TOUCH_M;
use super::{Region, Shape, Vec2};

/// How far a shape sticks out of a floor, and how to bring it on.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Overhang {
    /// The length of the smallest shift that brings the shape wholly onto the floor, in metres; 0 if
    /// it lies on it. Where it fits nowhere, how far some point of it is off the floor.
    pub out_m: f64,

    /// That shift; zero if the shape lies on the floor, `None` if it fits nowhere.
    pub shift: Option<Vec2>,
}

impl Overhang {
    /// Does any of it stick out?
    pub fn sticks_out(&self) -> bool {
        self.out_m > 0.0
    }
}

/// How far a shape sticks out over the edge of a floor or over a hole in it.
///
/// A connected shape lies on the floor exactly if one point of it does and no edge of the floor
/// passes through its inside. So the edges are what the shape has to be shifted off; exact, as
/// described at `ways_out`, for shapes with any corners.
pub fn overhang(shape: &Shape, floor: &Region) -> Overhang {
    let inner = inner_point(shape);
    let is_on = |shift: Vec2| {
        let p = inner + shift;
        floor.contains(p) || floor.distance_to_edge(p) <= TOUCH_M
    };
    let (core, radius) = shape.core();
    let parts = core.convex_parts();
    let bounds = shape.bounds();
    let obstacles = |everywhere: bool| -> Vec<Obstacle> {
        (floor.boundary_edges())
            .filter(|edge| everywhere || edge.bounds().meets(&bounds))
            .flat_map(|edge| {
                (parts.iter()).map(move |part| Obstacle::new(&[edge.from, edge.to], part, radius))
            })
            .collect()
    };
    let near = obstacles(false);
    if is_on(Vec2::ZERO) && near.iter().all(|edge| edge.depth_at(Vec2::ZERO) <= TOUCH_M) {
        return Overhang {
            out_m: 0.0,
            shift: Some(Vec2::ZERO),
        };
    }
    let shift = ways_out(&obstacles(true), is_on).first().copied();
    let out_m = shift.map_or_else(
        || {
            (near.iter().map(|edge| edge.depth_at(Vec2::ZERO)))
                .chain(corners(shape).into_iter().map(|p| off_floor(p, floor)))
                .fold(TOUCH_M, f64::max)
        },
        Vec2::length,
    );
    Overhang { out_m, shift }
}

/// A point of the shape that is not on its edge, if it has any.
fn inner_point(shape: &Shape) -> Vec2 {
    let (core, _) = shape.core();
    let parts = core.convex_parts();
    let part = parts.first().map_or(core.as_slice(), Vec::as_slice);
    let sum = part.iter().fold(Vec2::ZERO, |sum, p| sum + *p);
    sum / part.len() as f64
}

fn corners(shape: &Shape) -> Vec<Vec2> {
    /// An eighth of a turn: how a round shape that fits nowhere is probed.
    const STEP_RAD: f64 = std::f64::consts::FRAC_PI_4;
    (shape.to_polygon(STEP_RAD)).unwrap_or_else(|| shape.core().0.as_slice().to_vec())
}

fn off_floor(p: Vec2, floor: &Region) -> f64 {
    if floor.contains(p) {
        0.0
    } else {
        floor.distance_to_edge(p)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{Outline, rectangle, vec2};

    fn ring(points: &[(f64, f64)]) -> Outline {
        Outline::new(points.iter().map(|&(x, y)| vec2(x, y)).collect()).unwrap()
    }

    #[test]
    fn hand_values() {
        let floor = Region::new(
            ring(&[(0., 0.), (4., 0.), (4., 2.), (2., 2.), (2., 1.), (0., 1.)]),
            vec![ring(&[(3., 0.5), (3.5, 0.5), (3.5, 1.), (3., 1.)])],
        )
        .unwrap();
        let square = |x, y, half| rectangle(vec2(x, y), half, half, 0.0).unwrap();
        // (what, shape, shift), by hand.
        let cases = [
            ("on it", Shape::disc(vec2(1., 0.5), 0.4), vec2(0., 0.)),
            (
                "touching two edges",
                Shape::disc(vec2(1., 0.5), 0.5),
                vec2(0., 0.),
            ),
            (
                "over an edge",
                Shape::disc(vec2(1., 0.2), 0.3),
                vec2(0., 0.1),
            ),
            ("over a corner", square(0.1, 0.1, 0.25), vec2(0.15, 0.15)),
            (
                "over the inward corner",
                Shape::disc(vec2(1.9, 1.1), 0.2),
                vec2(0.3, 0.),
            ),
            (
                "over the hole",
                Shape::disc(vec2(3.55, 0.75), 0.1),
                vec2(0.05, 0.),
            ),
            ("off it", square(-1., 0.5, 0.25), vec2(1.25, 0.)),
            (
                "in the hole",
                Shape::disc(vec2(3.25, 0.7), 0.1),
                vec2(0., -0.3),
            ),
        ];
        for (what, shape, shift) in cases {
            let found = overhang(&shape, &floor);
            let off = found.shift.unwrap();
            assert!(
                (found.out_m - shift.length()).abs() < 1e-6,
                "{what}: {found:?}"
            );
            // From the inward corner it is as far to the right as down.
            if what != "over the inward corner" {
                assert!(off.distance(shift) < 1e-6, "{what}: {found:?}");
            }
            let after = overhang(&shape.translated(off), &floor);
            assert!(after.out_m < 1e-8, "{what}: then {after:?}");
        }
    }

    #[test]
    fn what_fits_nowhere_has_no_shift() {
        let floor = Region::from(ring(&[(0., 0.), (1., 0.), (1., 1.), (0., 1.)]));
        let found = overhang(&Shape::disc(vec2(0.5, 0.5), 0.6), &floor);
        assert_eq!(found.shift, None, "1.2 m across on 1 m");
        assert!((found.out_m - 0.1).abs() < 1e-9, "{found:?}");
    }
}
