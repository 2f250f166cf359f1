//! What a body stands on, seen from below its centre of gravity.

use super::super::support::{Base, Offset};
use crate::geometry::Vec2;

/// The convex hull of equal round feet, relative to the projected centre of gravity, m.
///
/// ```text
/// rho(e) = radius + max_k centre_k . e        support distance in the direction e
/// ```
///
/// One centre is a disc (a cylinder; off the origin when a kit shifts the centre of gravity), two are
/// a twin set, three or more a rack or crate. With radius zero the centres are the corners of a
/// polygon.
#[derive(Copy, Clone, Debug)]
pub struct Feet<'a> {
    /// Centres of the feet. Three or more are the corners of a convex polygon, counterclockwise.
    pub centres: &'a [Vec2],

    /// Radius of each foot, m.
    pub radius_m: f64,
}

/// The feet of a [`Base`], kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Footing {
    centres: Vec<Vec2>,
    radius_m: f64,
}

impl From<&Base> for Footing {
    /// A kit of unknown heading shortens the feet all round, to nothing at most. A body that cannot stand
    /// has a foot of radius zero.
    fn from(base: &Base) -> Self {
        let place = |offset: &Offset| match *offset {
            Offset::Known(offset) => (offset, 0.0),
            Offset::UnknownHeading(distance_m) => (Vec2::ZERO, distance_m.abs()),
        };
        match base {
            Base::Disc { radius_m, offset } => {
                let (aside, short) = place(offset);
                Self {
                    centres: vec![-aside],
                    radius_m: (radius_m - short).max(0.0),
                }
            }
            Base::Twin {
                foot_radius_m,
                spacing_m,
                axis_rad,
                offset,
            } => {
                let (aside, short) = place(offset);
                let half = 0.5 * *spacing_m * Vec2::from_angle(*axis_rad).perp();
                Self {
                    centres: vec![-half - aside, half - aside],
                    radius_m: (foot_radius_m - short).max(0.0),
                }
            }
            Base::Hull(points) => Self {
                centres: points.clone(),
                radius_m: 0.0,
            },
            Base::None => Self {
                centres: vec![Vec2::ZERO],
                radius_m: 0.0,
            },
        }
    }
}

impl Footing {
    /// The feet.
    pub fn feet(&self) -> Feet<'_> {
        Feet {
            centres: &self.centres,
            radius_m: self.radius_m,
        }
    }
}

/// A direction in which a wrench leaves what carries it, and by how much.
#[derive(Copy, Clone, Debug)]
pub(super) struct Excess {
    /// Unit vector.
    pub(super) direction: Vec2,
    /// Positive when it leaves.
    pub(super) amount: f64,
}

impl Feet<'_> {
    /// `rho(e)`, m: how far the ground reaches in the unit direction `e`; negative when the centre of
    /// gravity is outside. Without any centre it stands on a disc about the origin.
    pub fn support_distance(&self, e: Vec2) -> f64 {
        let reach = self.centres.iter().map(|&centre| centre.dot(e));
        self.radius_m + reach.reduce(f64::max).unwrap_or(0.0)
    }

    /// The direction in which `moment` exceeds `rho(e) weight` by most, if it does.
    ///
    /// `moment` points the way it tips. The feet scaled by `weight` are the moments that the ground can
    /// balance, so this is the way from the nearest of them to `moment`.
    pub(super) fn excess(&self, moment: Vec2, weight: f64) -> Option<Excess> {
        if self.centres.len() > 2 {
            return self.polygon_excess(moment, weight);
        }
        let nearest = match *self.centres {
            [centre] => weight * centre,
            [a, b] => nearest_on_segment(weight * a, weight * b, moment),
            _ => Vec2::ZERO,
        };
        self.excess_from(nearest, moment, weight)
    }

    fn excess_from(&self, nearest: Vec2, moment: Vec2, weight: f64) -> Option<Excess> {
        let away = moment - nearest;
        Some(Excess {
            direction: away.normalized()?,
            amount: away.length() - self.radius_m * weight,
        })
    }

    fn polygon_excess(&self, moment: Vec2, weight: f64) -> Option<Excess> {
        let ends = self.centres.iter().cycle().skip(1);
        let mut flattest: Option<Excess> = None;
        let mut nearest: Option<(Vec2, f64)> = None;
        for (&a, &b) in self.centres.iter().zip(ends) {
            let along = b - a;
            let Some(normal) = (-along.perp()).normalized() else {
                continue;
            };
            let amount = normal.dot(moment) - weight * (normal.dot(a) + self.radius_m);
            if flattest.is_none_or(|best| amount > best.amount) {
                flattest = Some(Excess {
                    direction: normal,
                    amount,
                });
            }
            let point = nearest_on_segment(weight * a, weight * b, moment);
            let away = moment - point;
            let distance = away.length();
            if nearest.is_none_or(|(_, least)| distance < least) {
                nearest = Some((point, distance));
            }
        }
        let flattest = flattest?;
        let outside = flattest.amount > -self.radius_m * weight;
        if self.radius_m > 0.0 && outside {
            let (point, _) = nearest?;
            return self.excess_from(point, moment, weight);
        }
        Some(flattest)
    }
}

fn nearest_on_segment(a: Vec2, b: Vec2, p: Vec2) -> Vec2 {
    let along = b - a;
    let squared = along.length_squared();
    if squared <= 0.0 {
        return a;
    }
    let share = ((p - a).dot(along) / squared).clamp(0.0, 1.0);
    a + share * along
}

#[cfg(test)]
mod tests {
    use crate::geometry::Elementary as _;
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::vec2;
    use crate::mechanics::property::cases;

    const SQUARE: [Vec2; 4] = [
        vec2(-1.0, -1.0),
        vec2(1.0, -1.0),
        vec2(1.0, 1.0),
        vec2(-1.0, 1.0),
    ];

    #[test]
    fn the_square_is_left_over_the_nearest_edge() {
        let feet = Feet {
            centres: &SQUARE,
            radius_m: 0.0,
        };
        let excess = feet.excess(vec2(5.0, 3.0), 2.0).unwrap();
        assert!((excess.amount - 3.0).abs() < 1e-12);
        assert!((excess.direction.x - 1.0).abs() < 1e-12);
        assert!(feet.excess(vec2(1.0, 1.5), 2.0).unwrap().amount < 0.0);
    }

    #[test]
    fn feet_reach_as_far_as_their_base() {
        let offset = Offset::Known(vec2(0.02, -0.01));
        let bases = [
            Base::Disc {
                radius_m: 0.08,
                offset,
            },
            Base::Disc {
                radius_m: 0.08,
                offset: Offset::UnknownHeading(0.03),
            },
            Base::Twin {
                foot_radius_m: 0.08,
                spacing_m: 0.2,
                axis_rad: 0.4,
                offset,
            },
            Base::Hull(SQUARE.to_vec()),
            Base::None,
        ];
        for base in bases {
            let footing = Footing::from(&base);
            for step in 0..24 {
                let e = Vec2::from_angle(f64::from(step) * std::f64::consts::TAU / 24.0);
                let (feet, expected) =
                    (footing.feet().support_distance(e), base.support_distance(e));
                assert!((feet - expected).abs() < 1e-12, "{base:?}");
            }
        }
    }

    proptest! {
        #![proptest_config(cases(64))]

        /// No direction of a fine fan finds more than the one that is returned, and that one is honest.
        #[test]
        fn the_worst_direction_is_found(
            count in 1_usize..5, radius in 0.05..0.5_f64, mx in -4.0..4.0_f64, my in -4.0..4.0_f64,
            weight in 0.0..2.0_f64,
        ) {
            let centres = match count {
                1 => &SQUARE[..1],
                2 => &SQUARE[1..3],
                _ => &SQUARE[..],
            };
            let feet = Feet { centres, radius_m: radius };
            let moment = vec2(mx, my);
            let excess = feet.excess(moment, weight).unwrap();
            let by = |e: Vec2| e.dot(moment) - weight * feet.support_distance(e);
            if excess.amount > 0.0 {
                prop_assert!((by(excess.direction) - excess.amount).abs() < 1e-9);
            }
            for step in 0..720 {
                let angle = f64::from(step) * std::f64::consts::TAU / 720.0;
                let found = by(vec2(angle.cosine(), angle.sine()));
                prop_assert!(found <= excess.amount.max(0.0) + 1e-9, "{found} {excess:?}");
            }
        }
    }
}
