use crate::geometry::Elementary as _;
use std::ops::{Add, AddAssign, Div, Mul, Neg, Sub, SubAssign};

/// A point or a vector in the plane, in metres.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
#[must_use]
pub struct Vec2 {
    /// To the right on a plan.
    pub x: f64,

    /// Up on a plan.
    pub y: f64,
}

/// Shorthand for a [`Vec2`].
pub const fn vec2(x: f64, y: f64) -> Vec2 {
    Vec2 { x, y }
}

impl Vec2 {
    /// The origin, or no shift at all.
    pub const ZERO: Self = vec2(0.0, 0.0);

    /// The unit vector at this angle from `+x` towards `+y`.
    pub fn from_angle(rad: f64) -> Self {
        let (sin, cos) = rad.sine_cosine();
        vec2(cos, sin)
    }

    /// The angle from `+x` towards `+y`, in (−π, π]; zero for the zero vector.
    pub fn angle(self) -> f64 {
        self.y.arc_tangent_over(self.x)
    }

    /// The dot product.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The `z` part of the cross product; positive if `other` lies to the left of `self`.
    pub fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// The length.
    ///
    /// Not `hypot`: lengths on a deck neither overflow nor underflow, and `sqrt` is rounded the same
    /// on every machine.
    pub fn length(self) -> f64 {
        self.length_squared().sqrt()
    }

    /// The square of the length.
    pub fn length_squared(self) -> f64 {
        self.dot(self)
    }

    /// How far away the other point is.
    pub fn distance(self, other: Self) -> f64 {
        (other - self).length()
    }

    /// The vector of length one in the same direction; `None` if there is no direction.
    pub fn normalized(self) -> Option<Self> {
        let length = self.length();
        (length > 0.0 && length.is_finite()).then(|| self / length)
    }

    /// Turned by a quarter to the left.
    pub fn perp(self) -> Self {
        vec2(-self.y, self.x)
    }

    /// Turned from `+x` towards `+y`.
    pub fn rotated(self, rad: f64) -> Self {
        let turn = Self::from_angle(rad);
        vec2(
            self.x * turn.x - self.y * turn.y,
            self.x * turn.y + self.y * turn.x,
        )
    }

    /// The point at share `t` of the way to `other`.
    pub fn lerp(self, other: Self, t: f64) -> Self {
        self + t * (other - self)
    }

    /// The image on the other side of the x axis.
    pub fn mirrored_y(self) -> Self {
        vec2(self.x, -self.y)
    }

    /// Is neither part infinite or not a number?
    pub fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    /// An order by `x`, then by `y`.
    pub(crate) fn total_cmp(self, other: Self) -> std::cmp::Ordering {
        (self.x.total_cmp(&other.x)).then(self.y.total_cmp(&other.y))
    }
}

impl From<[f64; 2]> for Vec2 {
    fn from([x, y]: [f64; 2]) -> Self {
        vec2(x, y)
    }
}

impl From<Vec2> for [f64; 2] {
    fn from(v: Vec2) -> Self {
        [v.x, v.y]
    }
}

impl Add for Vec2 {
    type Output = Self;

    fn add(self, rhs: Self) -> Self {
        vec2(self.x + rhs.x, self.y + rhs.y)
    }
}

impl AddAssign for Vec2 {
    fn add_assign(&mut self, rhs: Self) {
        *self = *self + rhs;
    }
}

impl Sub for Vec2 {
    type Output = Self;

    fn sub(self, rhs: Self) -> Self {
        vec2(self.x - rhs.x, self.y - rhs.y)
    }
}

impl SubAssign for Vec2 {
    fn sub_assign(&mut self, rhs: Self) {
        *self = *self - rhs;
    }
}

impl Neg for Vec2 {
    type Output = Self;

    fn neg(self) -> Self {
        vec2(-self.x, -self.y)
    }
}

impl Mul<f64> for Vec2 {
    type Output = Self;

    fn mul(self, rhs: f64) -> Self {
        vec2(self.x * rhs, self.y * rhs)
    }
}

impl Mul<Vec2> for f64 {
    type Output = Vec2;

    fn mul(self, rhs: Vec2) -> Vec2 {
        rhs * self
    }
}

impl Div<f64> for Vec2 {
    type Output = Self;

    fn div(self, rhs: f64) -> Self {
        vec2(self.x / rhs, self.y / rhs)
    }
}

#[cfg(test)]
mod tests {
    #![expect(clippy::float_cmp, reason = "these values are exact in binary")]

    use super::*;
    use std::f64::consts::{FRAC_PI_2, PI};

    /// Rounding of one sine, one cosine and two products.
    const ROUNDING: f64 = 1e-15;

    #[test]
    fn angles_run_from_x_towards_y() {
        assert!(
            Vec2::from_angle(FRAC_PI_2).distance(vec2(0.0, 1.0)) < ROUNDING,
            "a quarter turn"
        );
        assert!(
            vec2(1.0, 0.0)
                .rotated(FRAC_PI_2)
                .distance(vec2(1.0, 0.0).perp())
                < ROUNDING,
            "turned by a quarter is perpendicular to the left"
        );
        assert_eq!(vec2(-1.0, 0.0).angle(), PI, "aft");
        assert_eq!(vec2(1.0, 0.0).cross(vec2(0.0, 1.0)), 1.0, "y is left of x");
    }

    #[test]
    fn only_a_direction_can_be_normalized() {
        assert_eq!(vec2(3.0, 4.0).normalized(), Some(vec2(0.6, 0.8)), "3-4-5");
        assert_eq!(Vec2::ZERO.normalized(), None, "no direction");
        assert_eq!(vec2(f64::INFINITY, 0.0).normalized(), None, "no length");
    }

    #[test]
    fn pairs_of_numbers_are_points() {
        assert_eq!(Vec2::from([1.5, -2.0]), vec2(1.5, -2.0), "from a pair");
        assert_eq!(<[f64; 2]>::from(vec2(1.5, -2.0)), [1.5, -2.0], "to a pair");
    }
}
