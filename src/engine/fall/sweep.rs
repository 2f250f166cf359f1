//! The floor that a falling cylinder may come to lie on, as plain numbers.

use crate::geometry::Elementary as _;
use crate::geometry::{Sector, Segment, Shape, Vec2, vec2};

/// The same as [`Sector`], without its outline: rings of cylinders ask for many of them.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Sweep {
    /// Where its foot turns over.
    pub(super) edge: Vec2,
    /// Of length one.
    pub(super) towards: Vec2,
    pub(super) height_m: f64,
    pub(super) radius_m: f64,
}

/// A cylinder seen from above: everything within a radius of a line.
#[derive(Copy, Clone, Debug, PartialEq)]
pub(super) struct Shell {
    pub(super) from: Vec2,
    pub(super) to: Vec2,
    pub(super) radius_m: f64,
}

impl Shell {
    /// Of a round shape; `None` for a polygon.
    pub(super) fn of(shape: &Shape) -> Option<Self> {
        match shape {
            Shape::Disc { center, radius } => Some(Self {
                from: *center,
                to: *center,
                radius_m: *radius,
            }),
            Shape::Stadium { from, to, radius } => Some(Self {
                from: *from,
                to: *to,
                radius_m: *radius,
            }),
            Shape::Polygon(_) => None,
        }
    }

    /// The distance between two shells; 0 where they touch.
    pub(super) fn gap_m(&self, other: &Self) -> f64 {
        let lines = [self, other].map(|shell| Segment::new(shell.from, shell.to));
        (lines[0].nearest(&lines[1]).distance_m - self.radius_m - other.radius_m).max(0.0)
    }
}

impl Sweep {
    /// With an outline; `None` for a body without size.
    pub(super) fn sector(&self) -> Option<Sector> {
        Sector::new(
            self.edge,
            self.towards.angle(),
            self.height_m,
            self.radius_m,
            Sector::HALF_SPREAD_RAD,
        )
    }

    /// The furthest that any of it is from its edge.
    pub(super) fn reach_m(&self) -> f64 {
        self.height_m.hypotenuse(self.radius_m)
    }

    /// Does it touch a disc? A point is a disc without radius.
    ///
    /// It is what a rectangle covers that turns about the middle of its near end by the spread to
    /// both sides, so its rim is the arc of the far corners, the sides of the outermost rectangles,
    /// and the arcs of the near corners.
    pub(super) fn touches_disc(&self, center: Vec2, radius: f64) -> bool {
        let offset = center - self.edge;
        let distance = offset.length();
        if distance > self.reach_m() + radius {
            return false;
        }
        // Both sides are alike.
        let local = vec2(offset.dot(self.towards), self.towards.cross(offset).abs());
        let spread = Sector::HALF_SPREAD_RAD;
        let off_heading = local.angle();
        if off_heading <= spread + self.radius_m.arc_tangent_over(self.height_m) {
            return true;
        }
        let turned = local.rotated(-spread);
        let nearest = vec2(
            turned.x.clamp(0.0, self.height_m),
            turned.y.clamp(-self.radius_m, self.radius_m),
        );
        let at_near_end = distance <= self.radius_m + radius
            && off_heading <= std::f64::consts::FRAC_PI_2 + spread;
        turned.distance(nearest) <= radius || at_near_end
    }

    /// Does it touch a shell? To a tenth of the shell's radius, on the safe side.
    pub(super) fn touches_shell(&self, shell: &Shell) -> bool {
        if shell.from == shell.to {
            return self.touches_disc(shell.from, shell.radius_m);
        }
        // Discs half a radius apart cover the shell but for dents of 0.03 radii at its sides.
        let length = shell.from.distance(shell.to);
        let steps = (2.0 * length / shell.radius_m).ceil().clamp(1.0, 100.0);
        let mut share = 0.0;
        while share < 1.0 + 0.5 / steps {
            let at = shell.from.lerp(shell.to, share.min(1.0));
            if self.touches_disc(at, 1.1 * shell.radius_m) {
                return true;
            }
            share += 1.0 / steps;
        }
        false
    }

    /// The direction within the spread that comes nearest to pointing at something.
    pub(super) fn aimed_at(&self, target: Vec2) -> Vec2 {
        let Some(wanted) = (target - self.edge).normalized() else {
            return self.towards;
        };
        let off = self
            .towards
            .cross(wanted)
            .arc_tangent_over(self.towards.dot(wanted));
        let most = Sector::HALF_SPREAD_RAD;
        if off.abs() <= most {
            wanted
        } else {
            self.towards.rotated(off.clamp(-most, most))
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::engine::testing::cases;

    proptest! {
        #![proptest_config(cases(400))]

        #[test]
        fn it_is_the_sector(
            heading in -3.1..3.1_f64, height in 0.3..1.6_f64, radius in 0.05..0.2_f64,
            x in -2.0..2.0_f64, y in -2.0..2.0_f64, other in 0.02..0.2_f64,
        ) {
            let sweep = Sweep {
                edge: vec2(0.1, -0.2),
                towards: Vec2::from_angle(heading),
                height_m: height,
                radius_m: radius,
            };
            let sector = sweep.sector().unwrap();
            let center = vec2(x, y);
            // Half a millimetre either way: the outline of the sector is drawn with chords.
            if sweep.touches_disc(center, other - 5e-4) {
                prop_assert!(sector.touches(&Shape::disc(center, other)));
            }
            if !sweep.touches_disc(center, other + 1e-9) {
                prop_assert!(!sector.touches(&Shape::disc(center, other - 5e-4)));
            }
            prop_assert_eq!(sweep.touches_disc(center, 0.0), sector.contains(center));
        }
    }

    #[test]
    fn it_aims_within_its_spread() {
        let sweep = Sweep {
            edge: Vec2::ZERO,
            towards: vec2(1.0, 0.0),
            height_m: 0.6,
            radius_m: 0.1,
        };
        let at = |deg: f64| {
            let target = Vec2::from_angle(deg.to_radians());
            sweep.aimed_at(target).angle().to_degrees()
        };
        for (target, aimed) in [(0.0, 0.0), (20.0, 20.0), (80.0, 30.0), (-100.0, -30.0)] {
            assert!(
                (at(target) - aimed).abs() < 1e-9,
                "{target}: {}",
                at(target)
            );
        }
    }
}
