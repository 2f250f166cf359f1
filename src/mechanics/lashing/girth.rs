//! How long a strap is from point to point, round all that it goes round: when one of them leaves, it is slack by
//! what is left over.
//!
//! ```text
//! length = both free legs + Σ radius × angle over the shells it touches + the straight stretches between them
//! ```
//!
//! # Assumptions
//!
//! The strap lies level round the shells, does not stretch, and runs straight between them; its legs are those
//! of [`strap_round`]. Between opposite points it may pass on either side, so that it has two lengths.
//!
//! # Accuracy
//!
//! Exact for upright shells up to rounding; held against the hull of many points in the tests.

use std::f64::consts::TAU;

use super::leg::{Shell, Strap, StrapError, hull_strap, strap_round};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;
use crate::mechanics::vector::Vec3;

/// Turns that differ by less are one: rounding of a tangent that several shells share, in radians.
const SAME_WAY_RAD: f64 = 1e-9;

/// Length in metres of a strap from a point round all `shells` to a point, at `height_m` above their feet: the
/// shortest and the longest, which are the same but for opposite points.
pub fn lengths_m(
    shells: &[Shell],
    height_m: f64,
    points: [Vec3; 2],
) -> Result<[f64; 2], StrapError> {
    let strap = strap_round(shells, height_m, points)?;
    if strap.wrapped_rad > 0.0 {
        return Ok([length_of_m(shells, &strap); 2]);
    }
    // Opposite points: no strap runs through the shells, it passes them on one side.
    let sides = [1.0, -1.0].map(|turn| hull_strap(shells, height_m, points, turn));
    let lengths = sides.into_iter().flatten();
    let lengths = lengths.map(|strap| [length_of_m(shells, &strap); 2]);
    lengths
        .reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])])
        .ok_or(StrapError::PointAmongBodies { point: 0 })
}

/// Both legs, and what lies round the shells between them.
fn length_of_m(shells: &[Shell], strap: &Strap) -> f64 {
    let [first, last] = &strap.legs;
    // Mirrored where it turns right, so that it always turns left, with the shells on its left.
    let seen = |at: Vec2| {
        if strap.turns_left {
            at
        } else {
            at.mirrored_y()
        }
    };
    let shells: Vec<(Vec2, f64)> = shells
        .iter()
        .map(|shell| (seen(shell.axis), shell.radius_m))
        .collect();
    let mut way = Way {
        at: first.body,
        heading_rad: seen(-first.pull.horizontal()).angle(),
        to_turn_rad: strap.wrapped_rad,
        gone_m: 0.0,
    };
    // A shell can be touched twice: by both legs.
    for _ in 0..=shells.len() {
        if !way.go_on(&shells, last.body) {
            break;
        }
    }
    let arc_m = shells[way.at].1 * way.to_turn_rad.max(0.0);
    first.length_m + way.gone_m + arc_m + last.length_m
}

/// Along the strap, turning left.
struct Way {
    /// The shell that it touches here.
    at: usize,
    heading_rad: f64,
    to_turn_rad: f64,
    gone_m: f64,
}

impl Way {
    /// On to the next shell; false where the strap leaves from this one.
    fn go_on(&mut self, shells: &[(Vec2, f64)], last: usize) -> bool {
        let (axis, radius_m) = shells[self.at];
        let others = shells.iter().enumerate();
        let tangents = others.filter_map(|(other, (its_axis, its_radius_m))| {
            let between = *its_axis - axis;
            let sine = (radius_m - its_radius_m) / between.length();
            // Of one within the other, and of itself, there is none.
            let lean_rad = (sine.abs() < 1.0).then(|| sine.arc_sine())?;
            let turn = (between.angle() + lean_rad - self.heading_rad).rem_euclid(TAU);
            let turn = if turn > TAU - SAME_WAY_RAD { 0.0 } else { turn };
            Some((turn, between.length() * lean_rad.cosine(), other))
        });
        // The first one that the strap meets; of those on one line the farthest.
        let next = tangents.min_by(|a, b| {
            if (a.0 - b.0).abs() < SAME_WAY_RAD {
                b.1.total_cmp(&a.1)
            } else {
                a.0.total_cmp(&b.0)
            }
        });
        let Some((turn, straight_m, other)) = next else {
            return false;
        };
        // The last leg may run along the tangent of another shell.
        let most_rad = if self.at == last {
            self.to_turn_rad - SAME_WAY_RAD
        } else {
            self.to_turn_rad + SAME_WAY_RAD
        };
        if turn > most_rad {
            return false;
        }
        self.gone_m += radius_m * turn + straight_m;
        self.heading_rad += turn;
        self.to_turn_rad -= turn;
        self.at = other;
        true
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use proptest::prelude::*;

    use super::*;
    use crate::geometry::vec2;
    use crate::mechanics::property::{assert_close, cases};
    use crate::mechanics::vector::vec3;

    const RADIUS_M: f64 = 0.0921;

    fn shell(x: f64, y: f64, radius_m: f64) -> Shell {
        Shell {
            axis: vec2(x, y),
            radius_m,
            centre_of_gravity: vec2(x, y),
            foot_height_m: 0.4,
        }
    }

    /// The length where there is but one.
    fn length_m(shells: &[Shell], height_m: f64, points: [Vec3; 2]) -> Result<f64, StrapError> {
        let [shortest, longest] = lengths_m(shells, height_m, points)?;
        assert_close(shortest, longest, 1e-12);
        Ok(shortest)
    }

    /// Level points, so that legs are level too.
    fn at(x: f64, y: f64) -> Vec3 {
        vec3(x, y, 0.84)
    }

    /// From one far point round a row and back: both legs, half a turn, and along both sides of the row (by hand).
    /// What the girth is that one of three takes along: two pitches, wherever in the row it stood at an end.
    #[test]
    fn a_row_by_hand() {
        let row: Vec<Shell> = (0..3)
            .map(|i| shell(0.2 * f64::from(i), 0.0, RADIUS_M))
            .collect();
        let far = [at(-1e5, 0.0); 2];
        let three = length_m(&row, 0.44, far).unwrap();
        assert_close(three, 2.0 * 1e5 + 2.0 * 0.4 + PI * RADIUS_M, 1e-6);
        let two = length_m(&row[..2], 0.44, far).unwrap();
        assert_close(three - two, 0.4, 1e-6);
        // The middle one takes nothing along.
        let ends = [row[0], row[2]];
        assert_close(three - length_m(&ends, 0.44, far).unwrap(), 0.0, 1e-9);
    }

    /// One shell between opposite points: two tangents and the arc between them (by hand).
    #[test]
    fn between_opposite_points_it_passes_on_one_side() {
        let alone = [shell(0.0, 0.0, RADIUS_M)];
        let length = length_m(&alone, 0.44, [at(0.0, -0.6), at(0.0, 0.6)]).unwrap();
        let tangent = 0.6_f64.mul_add(0.6, -RADIUS_M * RADIUS_M).sqrt();
        let arc = 2.0 * (RADIUS_M / 0.6).arc_sine() * RADIUS_M;
        assert_close(length, 2.0 * tangent + arc, 1e-12);
    }

    /// Two shells on a line, points opposite on the line through the first: round the second or not (by hand).
    #[test]
    fn between_opposite_points_it_has_two_lengths() {
        let pair = [shell(0.1, 0.0, RADIUS_M), shell(-0.1, 0.0, RADIUS_M)];
        let points = [at(0.02, -0.6), at(-0.02, 0.6)];
        let [shortest, longest] = lengths_m(&pair, 0.44, points).unwrap();
        assert_close(shortest, longest, 1e-12);
        let skew = [shell(0.2, 0.0, RADIUS_M), shell(-0.2, 0.0, 0.05)];
        let [shortest, longest] = lengths_m(&skew, 0.44, [at(0.0, -0.6), at(0.0, 0.6)]).unwrap();
        assert!(longest > shortest + 0.02, "{shortest} {longest}");
    }

    #[test]
    fn legs_down_to_the_deck_are_longer() {
        let alone = [shell(0.0, 0.0, RADIUS_M)];
        let level = length_m(&alone, 0.44, [at(0.0, -0.6); 2]).unwrap();
        let down = length_m(&alone, 0.44, [vec3(0.0, -0.6, 0.4); 2]).unwrap();
        assert!(down > level + 0.2, "{down} {level}");
    }

    /// The same by a hull of many points: its rim less the line between the points where they stand apart.
    fn by_points(shells: &[Shell], points: [Vec3; 2]) -> f64 {
        let mut all: Vec<Vec2> = points.map(Vec3::horizontal).to_vec();
        for shell in shells {
            all.extend((0..2880).map(|i| {
                let (sin, cos) = (TAU * f64::from(i) / 2880.0).sine_cosine();
                shell.axis + shell.radius_m * vec2(cos, sin)
            }));
        }
        all.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
        let half = |points: &mut dyn Iterator<Item = Vec2>| {
            let mut rim: Vec<Vec2> = Vec::new();
            for point in points {
                while let [.., a, b] = rim[..] {
                    if (b - a).cross(point - b) > 0.0 {
                        break;
                    }
                    rim.pop();
                }
                rim.push(point);
            }
            let steps = rim.windows(2);
            steps.map(|pair| pair[0].distance(pair[1])).sum::<f64>()
        };
        let rim = half(&mut all.iter().copied()) + half(&mut all.iter().rev().copied());
        rim - points[0].horizontal().distance(points[1].horizontal())
    }

    proptest! {
        #![proptest_config(cases(48))]

        /// Points outside one side of a group of shells of any size.
        #[test]
        fn it_is_what_a_hull_of_points_has(
            group in proptest::collection::vec((0.0..0.6_f64, 0.0..0.6_f64, 0.05..0.12_f64), 1..6),
            left in -1.0..0.0_f64, right in 0.6..1.6_f64, below in (-1.2..-0.4_f64, -1.2..-0.4_f64),
        ) {
            let shells: Vec<Shell> = group.iter().map(|(x, y, r)| shell(*x, *y, *r)).collect();
            let points = [at(left, below.0), at(right, below.1)];
            for points in [points, [points[1], points[0]]] {
                let found = length_m(&shells, 0.44, points).unwrap();
                let expected = by_points(&shells, points);
                prop_assert!((found - expected).abs() < 1e-4, "{found} for {expected}");
            }
        }

        /// Who leaves never makes the strap longer.
        #[test]
        fn who_leaves_takes_girth_along(
            group in proptest::collection::vec((0.0..0.6_f64, 0.0..0.6_f64, 0.05..0.12_f64), 2..6),
            apart in 0.0..0.6_f64,
        ) {
            let shells: Vec<Shell> = group.iter().map(|(x, y, r)| shell(*x, *y, *r)).collect();
            let points = [at(0.3 - apart, -2.0), at(0.3 + apart, -2.0)];
            let all = length_m(&shells, 0.44, points).unwrap();
            let rest = length_m(&shells[1..], 0.44, points).unwrap();
            prop_assert!(rest <= all + 1e-9, "{rest} after {all}");
        }
    }
}
