//! What a body stands on: how far its support reaches from the centre of gravity.
//!
//! Two lengths are easily confused. The **ray** runs from the projected centre of gravity to the
//! edge of the support hull along a direction; it decides whether a force in that direction tips the
//! body. The **support distance** reaches to the tangent that stands square to the direction; it is
//! the lever of the weight about that tangent. The ray is never the longer of the two; taking the
//! support distance in place of the ray over-states a twin's stand by up to 43 %.
//!
//! # References
//!
//! Plane geometry, derived in `docs/method.md`, "Standing free".

use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// Where the projected centre of gravity lies from the middle of the base.
#[derive(Copy, Clone, Debug, PartialEq)]
pub enum Offset {
    /// At this vector from the middle, m, in the boat frame.
    Known(Vec2),

    /// This far from the middle, m, nobody knows which way: the worst way counts everywhere.
    UnknownHeading(f64),
}

impl Offset {
    /// The centre of gravity stands over the middle.
    pub const NONE: Self = Self::Known(vec2(0.0, 0.0));

    fn split(self) -> (Vec2, f64) {
        match self {
            Self::Known(offset) => (offset, 0.0),
            Self::UnknownHeading(distance) => (vec2(0.0, 0.0), distance.abs()),
        }
    }
}

/// The hull of the points on which a body stands.
#[derive(Clone, Debug, PartialEq)]
pub enum Base {
    /// A round foot: a flat base, or a boot under a round one.
    Disc {
        /// Radius of what touches the deck.
        radius_m: f64,
        /// Where the centre of gravity stands.
        offset: Offset,
    },

    /// Two round feet beside each other.
    Twin {
        /// Radius of each foot.
        foot_radius_m: f64,
        /// Distance between the middles of the feet.
        spacing_m: f64,
        /// Heading of the set's own fore-and-aft, from +x towards +y; the feet lie square to it.
        axis_rad: f64,
        /// Where the centre of gravity stands, from halfway between the feet.
        offset: Offset,
    },

    /// A convex hull, counter-clockwise, its points measured from the projected centre of gravity.
    Hull(Vec<Vec2>),

    /// A round bottom without a boot: it cannot stand at all.
    None,
}

/// Where a ray from the projected centre of gravity leaves the hull.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Exit {
    /// Length of the ray, m.
    pub distance_m: f64,

    /// Outward unit normal of the hull there: the tilting edge stands square to it.
    pub normal: Vec2,
}

impl Base {
    /// A disc under the centre of gravity.
    pub const fn disc(radius_m: f64) -> Self {
        Self::Disc {
            radius_m,
            offset: Offset::NONE,
        }
    }

    /// Length in m from the projected centre of gravity to the edge along the unit vector
    /// `direction`; 0 when the centre of gravity is not over the base.
    pub fn ray(&self, direction: Vec2) -> f64 {
        if let Self::Disc { radius_m, offset } = self {
            let (offset, unknown) = offset.split();
            let radius = radius_m - unknown;
            // Most bodies stand in the middle of their foot, where every ray is a radius.
            return if offset == Vec2::ZERO {
                radius.max(0.0)
            } else {
                disc_ray(offset, direction, radius).unwrap_or(0.0)
            };
        }
        self.exit(direction).map_or(0.0, |exit| exit.distance_m)
    }

    /// Between which lengths in m every [`Self::ray`] lies, whatever its direction; not always the closest bounds.
    pub fn ray_bounds(&self) -> [f64; 2] {
        let between = |inner: f64, outer: f64, offset: &Offset| {
            let (offset, unknown) = offset.split();
            let out = offset.length();
            [
                (inner - unknown - out).max(0.0),
                (outer - unknown).max(0.0) + out,
            ]
        };
        match self {
            Self::Disc { radius_m, offset } => between(*radius_m, *radius_m, offset),
            Self::Twin {
                foot_radius_m,
                spacing_m,
                offset,
                ..
            } => between(*foot_radius_m, foot_radius_m + 0.5 * spacing_m, offset),
            Self::Hull(points) => {
                let far = points.iter().map(|point| point.length());
                [0.0, far.fold(0.0, f64::max)]
            }
            Self::None => [0.0, 0.0],
        }
    }

    /// Where the ray along the unit vector `direction` leaves the hull.
    ///
    /// `None` when the centre of gravity is not over the inside of the base.
    pub fn exit(&self, direction: Vec2) -> Option<Exit> {
        match self {
            Self::Disc { radius_m, offset } => {
                let (offset, unknown) = offset.split();
                disc_exit(offset, direction, radius_m - unknown)
            }
            Self::Twin {
                foot_radius_m,
                spacing_m,
                axis_rad,
                offset,
            } => {
                let (offset, unknown) = offset.split();
                let side = across(*axis_rad);
                twin_exit(
                    offset,
                    direction,
                    foot_radius_m - unknown,
                    0.5 * spacing_m,
                    side,
                )
            }
            Self::Hull(points) => hull_exit(points, direction),
            Self::None => None,
        }
    }

    /// Distance in m from the projected centre of gravity to the tangent square to the unit vector
    /// `direction`: the lever of the weight about that tilting edge.
    ///
    /// Negative when the centre of gravity lies beyond the edge.
    pub fn support_distance(&self, direction: Vec2) -> f64 {
        match self {
            Self::Disc { radius_m, offset } => {
                let (offset, unknown) = offset.split();
                radius_m - unknown - offset.dot(direction)
            }
            Self::Twin {
                foot_radius_m,
                spacing_m,
                axis_rad,
                offset,
            } => {
                let (offset, unknown) = offset.split();
                let sideways = across(*axis_rad).dot(direction).abs();
                foot_radius_m - unknown + 0.5 * spacing_m * sideways - offset.dot(direction)
            }
            Self::Hull(points) => points
                .iter()
                .map(|point| point.dot(direction))
                .reduce(f64::max)
                .unwrap_or(0.0),
            Self::None => 0.0,
        }
    }
}

/// Unit vector from foot to foot of a twin set whose own fore-and-aft heads along `axis_rad`.
fn across(axis_rad: f64) -> Vec2 {
    let (sin, cos) = axis_rad.sine_cosine();
    vec2(-sin, cos)
}

fn disc_exit(from: Vec2, direction: Vec2, radius: f64) -> Option<Exit> {
    let distance_m = disc_ray(from, direction, radius)?;
    let normal = (from + distance_m * direction) / radius;
    Some(Exit { distance_m, normal })
}

fn disc_ray(from: Vec2, direction: Vec2, radius: f64) -> Option<f64> {
    if radius <= 0.0 || from.length_squared() >= radius * radius {
        return None;
    }
    far_crossing(from, direction, radius)
}

/// The far crossing of a line with a circle about the origin.
fn far_crossing(from: Vec2, direction: Vec2, radius: f64) -> Option<f64> {
    let miss = from.cross(direction);
    let half_chord_squared = radius * radius - miss * miss;
    (half_chord_squared >= 0.0).then(|| half_chord_squared.sqrt() - from.dot(direction))
}

/// Exit from the hull of two circles: the farthest of the two circles and the two flat sides.
fn twin_exit(from: Vec2, direction: Vec2, radius: f64, half: f64, side: Vec2) -> Option<Exit> {
    // Own frame of the set: `u` from foot to foot, `v` along its fore-and-aft.
    let ahead = vec2(side.y, -side.x);
    let (p_u, p_v) = (from.dot(side), from.dot(ahead));
    let (d_u, d_v) = (direction.dot(side), direction.dot(ahead));
    let beyond = (p_u.abs() - half).max(0.0);
    if radius <= 0.0 || beyond * beyond + p_v * p_v >= radius * radius {
        return None;
    }
    // The side on which the ray passes the level of a flat side tells what it runs through.
    let passes_at = if d_v == 0.0 {
        f64::INFINITY.copysign(d_u)
    } else {
        let distance_m = (radius.copysign(d_v) - p_v) / d_v;
        let passes_at = p_u + distance_m * d_u;
        if passes_at.abs() <= half {
            let normal = 1.0_f64.copysign(d_v) * ahead;
            return Some(Exit { distance_m, normal });
        }
        passes_at
    };
    let foot = half.copysign(passes_at);
    let distance_m = far_crossing(vec2(p_u - foot, p_v), vec2(d_u, d_v), radius)?;
    let (n_u, n_v) = (
        (p_u - foot + distance_m * d_u) / radius,
        (p_v + distance_m * d_v) / radius,
    );
    let normal = n_u * side + n_v * ahead;
    Some(Exit { distance_m, normal })
}

fn hull_exit(points: &[Vec2], direction: Vec2) -> Option<Exit> {
    if points.len() < 3 {
        return None;
    }
    let mut nearest: Option<Exit> = None;
    let mut from = points[points.len() - 1];
    for &to in points {
        let edge = to - from;
        let length = edge.length();
        if length > 0.0 {
            let normal = vec2(edge.y / length, -edge.x / length);
            let distance = normal.dot(from);
            if distance <= 0.0 {
                return None;
            }
            let approach = normal.dot(direction);
            if approach > 0.0 {
                let distance_m = distance / approach;
                if nearest.is_none_or(|exit| distance_m < exit.distance_m) {
                    nearest = Some(Exit { distance_m, normal });
                }
            }
        }
        from = to;
    }
    nearest
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::testing::assert_close;
    use proptest::prelude::*;

    /// Half of the last digit of the table of values in `docs/method.md`, "Standing free".
    const TABLE: f64 = 0.5e-5;

    fn towards(degrees: f64) -> Vec2 {
        let (sin, cos) = degrees.to_radians().sine_cosine();
        vec2(cos, sin)
    }

    fn twin(axis_rad: f64) -> Base {
        Base::Twin {
            foot_radius_m: 0.0829,
            spacing_m: 0.215,
            axis_rad,
            offset: Offset::NONE,
        }
    }

    #[test]
    fn twin_matches_the_table() {
        for (degrees, ray) in [(0.0, 0.08290), (45.0, 0.11724), (90.0, 0.19040)] {
            assert_close(twin(0.0).ray(towards(degrees)), ray, TABLE);
            assert_close(twin(0.0).ray(towards(-degrees)), ray, TABLE);
            assert_close(
                twin(0.7).ray(towards(degrees + 0.7_f64.to_degrees())),
                ray,
                TABLE,
            );
        }
    }

    #[test]
    fn offset_disc_matches_the_table() {
        let base = Base::Disc {
            radius_m: 0.0829,
            offset: Offset::Known(vec2(0.025, 0.0)),
        };
        for (degrees, ray) in [(0.0, 0.05790), (90.0, 0.07904), (180.0, 0.10790)] {
            assert_close(base.ray(towards(degrees)), ray, TABLE);
        }
        let unknown = Base::Disc {
            radius_m: 0.0829,
            offset: Offset::UnknownHeading(0.025),
        };
        assert_close(unknown.ray(towards(77.0)), 0.05790, 1e-12);
    }

    #[test]
    fn nothing_stands_beside_its_base() {
        let base = Base::Disc {
            radius_m: 0.08,
            offset: Offset::Known(vec2(0.09, 0.0)),
        };
        assert_eq!(base.exit(towards(180.0)), None);
        assert_eq!(Base::None.exit(towards(0.0)), None);
    }

    /// The stadium of a twin as a polygon with a fine rim.
    fn twin_outline(radius: f64, half: f64, from: Vec2) -> Base {
        let end = |steps: std::ops::RangeInclusive<i32>, foot: f64| {
            steps.map(move |i| radius * towards(f64::from(i) * 0.5) + vec2(0.0, foot) - from)
        };
        let points = end(0..=360, half).chain(end(360..=720, -half)).collect();
        Base::Hull(points)
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(256))]

        #[test]
        fn the_ray_is_never_longer_than_the_support_distance(
            heading in 0.0..360.0_f64, axis in 0.0..6.3_f64,
            radius in 0.05..0.2_f64, spacing in 0.0..0.4_f64,
            share in 0.0..0.95_f64, kit in 0.0..360.0_f64,
        ) {
            let d = towards(heading);
            let k = towards(kit);
            let offset = Offset::Known(vec2(share * radius * k.x, share * radius * k.y));
            let bases = [
                Base::Disc { radius_m: radius, offset },
                Base::Twin { foot_radius_m: radius, spacing_m: spacing, axis_rad: axis, offset },
            ];
            for base in bases {
                let exit = base.exit(d).unwrap();
                prop_assert!(exit.distance_m <= base.support_distance(d) + 1e-12);
                // The tangent at the exit is a tangent of the hull.
                let lever = base.support_distance(exit.normal);
                prop_assert!((exit.distance_m * exit.normal.dot(d) - lever).abs() < 1e-9);
            }
        }

        #[test]
        fn a_twin_is_its_outline(
            heading in 0.0..360.0_f64, radius in 0.05..0.2_f64, half in 0.0..0.2_f64,
            share in 0.0..0.9_f64, kit in 0.0..360.0_f64,
        ) {
            let k = towards(kit);
            let from = vec2(share * radius * k.x, share * radius * k.y);
            let base = Base::Twin {
                foot_radius_m: radius,
                spacing_m: 2.0 * half,
                axis_rad: 0.0,
                offset: Offset::Known(from),
            };
            let outline = twin_outline(radius, half, from);
            let d = towards(heading);
            // A rim in steps of half a degree lies within 1 - cos 0.25 deg = 0.95e-5 of the radius
            // of the circle; a ray that meets it at a slant differs by so much more.
            let exit = base.exit(d).unwrap();
            let rim = 1e-5 * radius;
            prop_assert!((exit.distance_m - outline.ray(d)).abs() < rim / exit.normal.dot(d));
            prop_assert!((base.support_distance(d) - outline.support_distance(d)).abs() < rim);
        }
    }
}
