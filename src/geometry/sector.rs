use super::separation::gap_m;
use super::shape::arc_angles;
use super::{Outline, Shape, Vec2};
use crate::geometry::Elementary as _;
use std::f64::consts::{FRAC_PI_2, PI};

/// What a round body may come to lie on when it falls over.
///
/// The body turns about an edge that stands still and comes to lie in a rectangle from there, as
/// long as it is high and as wide as its diameter. The direction is not known exactly, so the
/// rectangle may be turned to either side by the spread. The sector is everything that such a
/// rectangle covers, with the small dents filled that are left at its end where the spread is
/// smaller than half the angle of the rectangle.
///
/// What it rolls over afterwards is not in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Sector {
    edge: Vec2,
    heading_rad: f64,
    length_m: f64,
    radius_m: f64,
    half_spread_rad: f64,
    outline: Outline,
}

/// A sector at least so thick, in metres, that is nearer to the origin than [`SURELY_NEAR_M`] has corners that no
/// rounding brings together.
const SURELY_PLAIN_M: f64 = 1e-3;

/// See [`SURELY_PLAIN_M`].
const SURELY_NEAR_M: f64 = 1e4;

/// Chords of arcs: three degrees, so that an arc of a metre is drawn 0.3 mm too large at most.
const STEP_RAD: f64 = PI / 60.0;

impl Sector {
    /// How far a fall may miss its direction to either side: 30°. Common practice, no source.
    pub const HALF_SPREAD_RAD: f64 = PI / 6.0;

    /// Swept by a body of this height and radius that falls over `edge` in the direction at
    /// `heading_rad` from `+x` towards `+y`.
    ///
    /// `None` unless height and radius are positive and everything is finite; the spread is cut to
    /// 0 to 90°.
    pub fn new(
        edge: Vec2,
        heading_rad: f64,
        height_m: f64,
        radius_m: f64,
        half_spread_rad: f64,
    ) -> Option<Self> {
        let half_spread_rad = half_spread_rad.clamp(0.0, FRAC_PI_2);
        let corner_rad = radius_m.arc_tangent_over(height_m);
        let reach_m = Vec2 {
            x: height_m,
            y: radius_m,
        }
        .length();
        let at = |angle: f64, reach: f64| edge + reach * Vec2::from_angle(heading_rad + angle);
        // The chords go round outside the arc. The first and the last of their corners stay where the
        // corner of the outermost rectangle is.
        let last = half_spread_rad + corner_rad;
        let arc: Vec<f64> = arc_angles(-last, last, STEP_RAD).collect();
        let outer = reach_m / (last / (arc.len() - 1).max(1) as f64).cosine();
        let side = half_spread_rad + FRAC_PI_2;
        let mut vertices = vec![at(-side, radius_m), at(-last, reach_m)];
        // A corner outside the middle of every chord.
        vertices.extend(
            arc.windows(2)
                .map(|ends| at(0.5 * (ends[0] + ends[1]), outer)),
        );
        vertices.extend([at(last, reach_m), at(side, radius_m)]);
        if half_spread_rad > 0.0 {
            vertices.push(edge);
        }
        Some(Self {
            edge,
            heading_rad,
            length_m: height_m,
            radius_m,
            half_spread_rad,
            outline: Self::around(vertices, edge, height_m.min(radius_m))?,
        })
    }

    /// The polygon. Its corners go once round `edge` in rising directions, so that none crosses another; but for
    /// what is too thin to tell its corners apart this need not be looked at.
    fn around(vertices: Vec<Vec2>, edge: Vec2, thinnest_m: f64) -> Option<Outline> {
        let far = edge.x.abs().max(edge.y.abs());
        let is_plain = (SURELY_PLAIN_M..SURELY_NEAR_M).contains(&thinnest_m) && far < SURELY_NEAR_M;
        if is_plain && vertices.iter().all(|p| p.is_finite()) {
            Some(Outline::from_checked(vertices))
        } else {
            Outline::new(vertices).ok()
        }
    }

    /// A polygon round it, for drawing: straight sides exact, the arc at most 0.3 mm too large per
    /// metre.
    pub fn outline(&self) -> &Outline {
        &self.outline
    }

    /// Can the body come to lie on this point? Exact, edges included.
    pub fn contains(&self, p: Vec2) -> bool {
        let offset = p - self.edge;
        let distance = offset.length();
        let corner_rad = self.radius_m.arc_tangent_over(self.length_m);
        let reach = Vec2 {
            x: self.length_m,
            y: self.radius_m,
        }
        .length();
        if distance > reach {
            return false;
        }
        let local = offset.rotated(-self.heading_rad);
        let off_heading = local.angle().abs();
        if off_heading <= self.half_spread_rad + corner_rad {
            return true;
        }
        // In the outermost rectangle on this side, or where its near end turns.
        let turned = Vec2 {
            x: local.x,
            y: local.y.abs(),
        }
        .rotated(-self.half_spread_rad);
        let in_rectangle =
            (0.0..=self.length_m).contains(&turned.x) && turned.y.abs() <= self.radius_m;
        let at_near_end =
            distance <= self.radius_m && off_heading <= FRAC_PI_2 + self.half_spread_rad;
        in_rectangle || at_near_end
    }

    /// Can the body come to lie on any of this? To 0.3 mm per metre of height on the safe side.
    pub fn touches(&self, shape: &Shape) -> bool {
        self.outline.bounds().meets(&shape.bounds())
            && gap_m(&Shape::Polygon(self.outline.clone()), shape) <= 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::test_support::cases;
    use crate::geometry::vec2;
    use proptest::prelude::*;

    #[test]
    fn ends_and_sides_by_hand() {
        let sector = Sector::new(vec2(1.0, 1.0), 0.0, 0.6, 0.1, Sector::HALF_SPREAD_RAD).unwrap();
        let at = |reach: f64, angle_deg: f64| {
            vec2(1.0, 1.0) + reach * Vec2::from_angle(angle_deg.to_radians())
        };
        let corner = 0.1_f64.arc_tangent_over(0.6).to_degrees();
        // (reach, angle, inside)
        let cases = [
            (0.60, 0.0, true),
            (0.62, 0.0, false),
            (0.60, 39.0, true),
            (0.60, 30.0 + corner + 1.0, false),
            (0.09, 119.0, true),
            (0.09, 121.0, false),
            (0.11, -119.0, false),
        ];
        for (reach, angle, inside) in cases {
            assert_eq!(
                sector.contains(at(reach, angle)),
                inside,
                "{reach} at {angle}"
            );
        }
        assert!(
            sector.touches(&Shape::disc(at(0.7, 0.0), 0.1)),
            "reaches 0.608"
        );
        assert!(
            !sector.touches(&Shape::disc(at(0.71, 0.0), 0.1)),
            "misses by 2 mm"
        );
        assert!(
            Sector::new(Vec2::ZERO, 0.0, 0.0, 0.1, 0.5).is_none(),
            "no height"
        );
        assert!(
            Sector::new(Vec2::ZERO, f64::NAN, 0.6, 0.1, 0.5).is_none(),
            "no direction"
        );
    }

    proptest! {
        #![proptest_config(cases(200))]

        /// Against the definition: the fallen body is a rectangle in some direction of the spread.
        #[test]
        fn it_is_what_the_fallen_rectangles_cover(
            x in -1.0..1.0, y in -1.0..1.0, heading in -4.0..4.0,
            height in 0.2..0.9, radius in 0.05..0.15,
        ) {
            let (edge, p) = (vec2(0.1, -0.2), vec2(x, y));
            let sector = Sector::new(edge, heading, height, radius, Sector::HALF_SPREAD_RAD).unwrap();
            let covered = |slack: f64| (0..=600).any(|i| {
                let turn = heading + Sector::HALF_SPREAD_RAD * (f64::from(i) / 300.0 - 1.0);
                let local = (p - edge).rotated(-turn);
                (-slack..=height + slack).contains(&local.x) && local.y.abs() <= radius + slack
            });
            // Between two of the sampled directions a point moves by 0.9 m x 0.1°.
            let slack = 1e-3;
            prop_assert!(!covered(0.0) || sector.contains(p), "covered, not in the sector");
            prop_assert!(!sector.contains(p) || covered(slack), "in the sector, never covered");
            prop_assert!(!sector.contains(p) || sector.outline().contains(p), "not in the outline");
            let near = sector.outline().distance_to_edge(p) < slack;
            prop_assert!(near || sector.contains(p) == sector.outline().contains(p), "outline");
        }
    }
}
