//! A vector in space, in the boat frame: `x` forward, `y` to port, `z` up.

use std::ops::{Add, Mul, Neg, Sub};

use crate::geometry::{Vec2, vec2};

/// A vector or point in the boat frame; the unit is the caller's.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Vec3 {
    /// Forward.
    pub x: f64,

    /// To port.
    pub y: f64,

    /// Up.
    pub z: f64,
}

/// Shorthand for a [`Vec3`].
pub const fn vec3(x: f64, y: f64, z: f64) -> Vec3 {
    Vec3 { x, y, z }
}

impl Vec3 {
    /// The part along the deck plan.
    pub const fn horizontal(self) -> Vec2 {
        vec2(self.x, self.y)
    }

    /// Scalar product.
    pub fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y + self.z * other.z
    }

    /// Vector product.
    #[must_use]
    pub fn cross(self, other: Self) -> Self {
        vec3(
            self.y * other.z - self.z * other.y,
            self.z * other.x - self.x * other.z,
            self.x * other.y - self.y * other.x,
        )
    }

    /// Length of the vector.
    pub fn length(self) -> f64 {
        self.dot(self).sqrt()
    }
}

impl Add for Vec3 {
    type Output = Self;

    fn add(self, rhs: Self) -> Self {
        vec3(self.x + rhs.x, self.y + rhs.y, self.z + rhs.z)
    }
}

impl Sub for Vec3 {
    type Output = Self;

    fn sub(self, rhs: Self) -> Self {
        vec3(self.x - rhs.x, self.y - rhs.y, self.z - rhs.z)
    }
}

impl Neg for Vec3 {
    type Output = Self;

    fn neg(self) -> Self {
        vec3(-self.x, -self.y, -self.z)
    }
}

impl Mul<Vec3> for f64 {
    type Output = Vec3;

    fn mul(self, rhs: Vec3) -> Vec3 {
        vec3(self * rhs.x, self * rhs.y, self * rhs.z)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_boat_frame_is_right_handed() {
        assert_eq!(
            vec3(1.0, 0.0, 0.0).cross(vec3(0.0, 1.0, 0.0)),
            vec3(0.0, 0.0, 1.0)
        );
    }
}
