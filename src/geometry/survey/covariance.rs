use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// How uncertain a point is: the covariance matrix of its coordinates, in m².
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Covariance {
    /// Variance of `x`.
    pub xx: f64,
    /// Covariance of `x` and `y`.
    pub xy: f64,
    /// Variance of `y`.
    pub yy: f64,
}

/// How far off a point may be, by direction: the standard error ellipse.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct ErrorEllipse {
    /// The standard error in the worst direction, in metres.
    pub major_m: f64,
    /// The standard error in the best direction, in metres.
    pub minor_m: f64,
    /// The worst direction, from `+x` towards `+y`, in (−π/2, π/2].
    pub direction_rad: f64,
}

impl Covariance {
    /// The same uncertainty in all directions.
    pub fn round(standard_error_m: f64) -> Self {
        let variance = standard_error_m * standard_error_m;
        Self {
            xx: variance,
            xy: 0.0,
            yy: variance,
        }
    }

    /// What an independent shift along `direction` adds.
    #[must_use]
    pub fn plus_along(self, direction: Vec2) -> Self {
        Self {
            xx: self.xx + direction.x * direction.x,
            xy: self.xy + direction.x * direction.y,
            yy: self.yy + direction.y * direction.y,
        }
    }

    /// The sum of two independent uncertainties.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            xx: self.xx + other.xx,
            xy: self.xy + other.xy,
            yy: self.yy + other.yy,
        }
    }

    /// The variance in a direction of length one, in m².
    pub fn along(self, direction: Vec2) -> f64 {
        let Vec2 { x, y } = direction;
        (self.xx * x * x + 2.0 * self.xy * x * y + self.yy * y * y).max(0.0)
    }

    /// The axes of the standard error ellipse: the roots of the eigenvalues.
    ///
    /// # References
    ///
    /// C. D. Ghilani (2017), Adjustment Computations, 6th edition, Wiley, section 19.2.
    pub fn ellipse(self) -> ErrorEllipse {
        let mean = 0.5 * (self.xx + self.yy);
        let half_difference = 0.5 * (self.xx - self.yy);
        let radius = (half_difference * half_difference + self.xy * self.xy).sqrt();
        ErrorEllipse {
            major_m: (mean + radius).max(0.0).sqrt(),
            minor_m: (mean - radius).max(0.0).sqrt(),
            direction_rad: 0.5 * self.xy.arc_tangent_over(half_difference),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::vec2;

    #[test]
    fn the_ellipse_lies_along_the_worst_direction() {
        let slanted = Covariance::default()
            .plus_along(3e-3 * vec2(0.6, 0.8))
            .plus_along(1e-3 * vec2(-0.8, 0.6));
        let ellipse = slanted.ellipse();
        assert!((ellipse.major_m - 3e-3).abs() < 1e-12, "{ellipse:?}");
        assert!((ellipse.minor_m - 1e-3).abs() < 1e-12, "{ellipse:?}");
        assert!((ellipse.direction_rad - 0.8_f64.arc_tangent_over(0.6)).abs() < 1e-12);
        assert!((slanted.along(vec2(0.6, 0.8)).sqrt() - 3e-3).abs() < 1e-12);
    }
}
