//! Bodies of revolution of unit density about one upright axis.

use crate::geometry::Elementary as _;
use std::f64::consts::PI;

/// A body of revolution of unit density about the shell's axis.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Solid {
    /// Volume, m³; negative for a cavity.
    pub(super) volume: f64,
    /// First moment about z = 0, m⁴.
    first: f64,
    /// Moment of inertia about a horizontal axis through z = 0, m⁵.
    about_origin: f64,
    /// Moment of inertia about the axis of revolution, m⁵.
    pub(super) spin: f64,
}

impl Solid {
    /// From volume, centroid, inertia about the own centroid per volume, and spin per volume.
    pub(super) fn new(volume: f64, z: f64, own_per_volume: f64, spin_per_volume: f64) -> Self {
        Self {
            volume,
            first: volume * z,
            about_origin: volume * (own_per_volume + z * z),
            spin: volume * spin_per_volume,
        }
    }

    pub(super) fn cylinder(r: f64, from: f64, to: f64) -> Self {
        let h = to - from;
        Self::new(
            PI * r * r * h,
            f64::midpoint(from, to),
            (3.0 * r * r + h * h) / 12.0,
            r * r / 2.0,
        )
    }

    /// `pole` is +1 with the pole above the flat face, −1 with the pole below it.
    pub(super) fn hemisphere(r: f64, face: f64, pole: f64) -> Self {
        Self::new(
            2.0 / 3.0 * PI * r.whole_power(3),
            face + pole * 3.0 / 8.0 * r,
            83.0 / 320.0 * r * r,
            2.0 / 5.0 * r * r,
        )
    }

    pub(super) fn plus(self, other: Self) -> Self {
        Self {
            volume: self.volume + other.volume,
            first: self.first + other.first,
            about_origin: self.about_origin + other.about_origin,
            spin: self.spin + other.spin,
        }
    }

    pub(super) fn minus(self, other: Self) -> Self {
        Self {
            volume: self.volume - other.volume,
            first: self.first - other.first,
            about_origin: self.about_origin - other.about_origin,
            spin: self.spin - other.spin,
        }
    }

    pub(super) fn z(self) -> f64 {
        self.first / self.volume
    }

    pub(super) fn about_centre(self) -> f64 {
        self.about_origin - self.first * self.first / self.volume
    }
}
