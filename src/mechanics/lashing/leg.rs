//! Where the legs of a strap touch a shell and which way they pull.

use std::f64::consts::TAU;

use thiserror::Error;

use crate::geometry::Elementary as _;
use crate::geometry::Vec2;
use crate::mechanics::equilibrium::{Bight, Restraint};
use crate::mechanics::vector::{Vec3, vec3};

/// Steeper than this below or above the horizontal a leg counts against sliding with its pretension
/// only: 60°, CSS Code, annex 13, section 5.
pub const STEEPEST_AGAINST_SLIDING_RAD: f64 = std::f64::consts::FRAC_PI_3;

/// So that a leg drawn at exactly 60° is not steep by rounding; no one sets a strap to a millionth.
const STEEP_MARGIN_RAD: f64 = 1e-6;

/// Points are opposite each other when the sine of the angle between them is smaller: no side of the
/// shell is then the far one.
const OPPOSITE: f64 = 1e-9;

/// A shell may stick out over a leg that touches it by this much: rounding, far below any strap.
const TOUCHING_M: f64 = 1e-9;

/// An upright shell in the boat frame.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Shell {
    /// Its axis, m.
    pub axis: Vec2,

    /// Its radius, m.
    pub radius_m: f64,

    /// The projected centre of gravity of the body, m: on the axis unless a kit shifts it.
    pub centre_of_gravity: Vec2,

    /// Height of what it stands on, in the boat frame, m.
    pub foot_height_m: f64,
}

/// One leg of a strap.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Leg {
    /// Index of the shell that it touches.
    pub body: usize,

    /// Where it is made fast, boat frame, m.
    pub point: Vec3,

    /// Unit vector of its pull on the body.
    pub pull: Vec3,

    /// Where it acts, from the body's projected centre of gravity, m.
    pub attachment: Vec2,

    /// Height at which it acts, above the body's foot, m.
    pub height_m: f64,

    /// Free length between the shell and the point, m.
    pub length_m: f64,
}

/// A strap from a point round one or more shells to a point.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Strap {
    /// The leg to each point, in the order of the points.
    pub legs: [Leg; 2],

    /// The angle by which the strap turns round the shells, rad.
    pub wrapped_rad: f64,

    /// Does it turn to the left round them, seen from above, on its way from the first point to the second?
    pub turns_left: bool,
}

/// Why a strap cannot run as it is drawn.
#[derive(Copy, Clone, Debug, PartialEq, Eq, Error)]
pub enum StrapError {
    /// There is nothing to go round.
    #[error("the strap goes round nothing")]
    NoBody,

    /// Seen from above, the point is under the shell.
    #[error("point {point} of the strap is under body {body}")]
    PointUnderBody {
        /// Index of the point.
        point: usize,
        /// Index of the shell.
        body: usize,
    },

    /// Seen from above, the point is between the shells, so that no leg reaches it from their hull.
    #[error("point {point} of the strap is among the bodies")]
    PointAmongBodies {
        /// Index of the point.
        point: usize,
    },
}

/// The legs of a strap from a point round all `shells` to a point, at `height_m` above their feet.
///
/// With opposite points there is no far side: the legs are then taken through the axis, and the strap
/// wraps nothing.
pub fn strap_round(
    shells: &[Shell],
    height_m: f64,
    points: [Vec3; 2],
) -> Result<Strap, StrapError> {
    if shells.is_empty() {
        return Err(StrapError::NoBody);
    }
    for (number, point) in points.iter().enumerate() {
        for (body, shell) in shells.iter().enumerate() {
            if point.horizontal().distance(shell.axis) <= shell.radius_m {
                return Err(StrapError::PointUnderBody {
                    point: number,
                    body,
                });
            }
        }
    }
    let sum = shells
        .iter()
        .fold(Vec2::ZERO, |sum, shell| sum + shell.axis);
    let middle = sum / shells.len() as f64;
    let ways = points.map(|point| (point.horizontal() - middle).normalized());
    let (Some(first), Some(second)) = (ways[0], ways[1]) else {
        return Err(StrapError::PointAmongBodies { point: 0 });
    };
    let sine = first.cross(second);
    if sine.abs() < OPPOSITE && first.dot(second) < 0.0 {
        return opposite_legs(shells, height_m, points);
    }
    // Positive when the second point lies to the left of the first as seen from the shells.
    let turn = if sine < 0.0 { -1.0 } else { 1.0 };
    hull_strap(shells, height_m, points, turn)
}

/// The strap that passes the shells on one side: `turn` is +1 where it turns to the right round them on its way
/// from the first point to the second, -1 to the left.
pub(super) fn hull_strap(
    shells: &[Shell],
    height_m: f64,
    points: [Vec3; 2],
    turn: f64,
) -> Result<Strap, StrapError> {
    let legs = [
        hull_leg(shells, height_m, points[0], -turn)
            .ok_or(StrapError::PointAmongBodies { point: 0 })?,
        hull_leg(shells, height_m, points[1], turn)
            .ok_or(StrapError::PointAmongBodies { point: 1 })?,
    ];
    let inwards = -legs[0].pull.horizontal();
    let outwards = legs[1].pull.horizontal();
    let turned = -turn
        * inwards
            .cross(outwards)
            .arc_tangent_over(inwards.dot(outwards));
    Ok(Strap {
        legs,
        wrapped_rad: turned.rem_euclid(TAU),
        turns_left: turn < 0.0,
    })
}

/// A leg that is made fast to a body on the far side of its shell.
pub fn fixed_leg(shell: &Shell, height_m: f64, point: Vec3) -> Result<Leg, StrapError> {
    let under = StrapError::PointUnderBody { point: 0, body: 0 };
    let way = point.horizontal() - shell.axis;
    if way.length() <= shell.radius_m {
        return Err(under);
    }
    let outwards = way.normalized().ok_or(under)?;
    Ok(leg_along(shell, 0, height_m, point, outwards, shell.axis))
}

fn opposite_legs(shells: &[Shell], height_m: f64, points: [Vec3; 2]) -> Result<Strap, StrapError> {
    let mut legs = Vec::with_capacity(2);
    for point in points {
        let distance = |shell: &Shell| point.horizontal().distance(shell.axis);
        let near = shells.iter().enumerate();
        let (body, shell) = near
            .min_by(|a, b| distance(a.1).total_cmp(&distance(b.1)))
            .ok_or(StrapError::NoBody)?;
        legs.push(Leg {
            body,
            ..fixed_leg(shell, height_m, point)?
        });
    }
    Ok(Strap {
        legs: [legs[0], legs[1]],
        wrapped_rad: 0.0,
        turns_left: false,
    })
}

/// The leg to `point` that keeps all shells on one side: `side` is +1 when the strap touches to the left
/// of the way from the shells to the point, -1 to the right.
fn hull_leg(shells: &[Shell], height_m: f64, point: Vec3, side: f64) -> Option<Leg> {
    let mut outermost: Option<Leg> = None;
    for (body, shell) in shells.iter().enumerate() {
        let way = point.horizontal() - shell.axis;
        let distance = way.length();
        let cos = shell.radius_m / distance;
        let sin = (1.0 - cos * cos).max(0.0).sqrt();
        let outwards = way / distance;
        let touch = shell.axis + shell.radius_m * (cos * outwards + side * sin * outwards.perp());
        let pull = (point.horizontal() - touch).normalized()?;
        let leg = leg_along(shell, body, height_m, point, pull, touch);
        let further = outermost
            .is_none_or(|best| side * best.pull.horizontal().cross(leg.pull.horizontal()) < 0.0);
        if further {
            outermost = Some(leg);
        }
    }
    let leg = outermost?;
    let along = leg.pull.horizontal().normalized()?;
    let inside = |shell: &Shell| {
        let across = side * along.cross(shell.axis - point.horizontal());
        across + shell.radius_m <= TOUCHING_M
    };
    shells.iter().all(inside).then_some(leg)
}

/// A leg that leaves the shell at `touch` along the horizontal unit vector `outwards`.
fn leg_along(
    shell: &Shell,
    body: usize,
    height_m: f64,
    point: Vec3,
    outwards: Vec2,
    touch: Vec2,
) -> Leg {
    let bight = touch - shell.radius_m * outwards;
    let run = (point.horizontal() - bight).length();
    let drop = shell.foot_height_m + height_m - point.z;
    let whole = run.hypotenuse(drop);
    let flat = run / whole;
    Leg {
        body,
        point,
        pull: vec3(outwards.x * flat, outwards.y * flat, -drop / whole),
        attachment: bight - shell.centre_of_gravity,
        height_m,
        length_m: (point.horizontal() - touch).length() / flat,
    }
}

impl Leg {
    /// Angle below the horizontal, rad; negative when the point is higher.
    pub fn below_horizontal_rad(&self) -> f64 {
        (-self.pull.z).arc_tangent_over(self.pull.horizontal().length())
    }

    /// Whether it is steeper than 60°.
    pub fn is_steep(&self) -> bool {
        self.below_horizontal_rad().abs() > STEEPEST_AGAINST_SLIDING_RAD + STEEP_MARGIN_RAD
    }

    /// Angle between the strap and the axis of an eye bolt or other fitting, rad.
    ///
    /// `axis` is the unit vector along which the fitting stands out from what it is fixed to.
    pub fn angle_to_fitting_rad(&self, axis: Vec3) -> f64 {
        let towards_body = -self.pull;
        towards_body
            .cross(axis)
            .length()
            .arc_tangent_over(towards_body.dot(axis))
    }

    /// The leg as a restraint.
    ///
    /// `calculation_strength_n` is that of the weakest part; `pretension_n` is what it is tightened to,
    /// which is all that a steep leg counts against sliding with: `None` when it is not known.
    /// `point` is the shared point, if others run to it too.
    pub fn restraint(
        &self,
        calculation_strength_n: f64,
        pretension_n: Option<f64>,
        point: Option<usize>,
    ) -> Restraint {
        Restraint {
            pull: self.pull,
            attachment: self.attachment,
            height_m: self.height_m,
            capacity_n: calculation_strength_n,
            point,
            sliding_capacity_n: if self.is_steep() {
                pretension_n.unwrap_or(0.0).min(calculation_strength_n)
            } else {
                f64::INFINITY
            },
        }
    }
}

impl Strap {
    /// How the pulls of the two legs are bound to each other.
    ///
    /// `friction` is that of the strap on the shell; `extra_turns` full turns wrap 360° more each.
    /// `legs` are the indices of their restraints. Euler and Eytelwein: `exp(friction * angle)`.
    pub fn bight(&self, friction: f64, extra_turns: u8, legs: (usize, usize)) -> Bight {
        let angle = self.wrapped_rad + TAU * f64::from(extra_turns);
        Bight {
            legs,
            tension_ratio: (friction.max(0.0) * angle).exponential(),
        }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::PI;

    use proptest::prelude::*;

    use super::*;
    use crate::geometry::vec2;
    use crate::mechanics::property::{assert_close, cases};

    fn shell(x: f64, y: f64) -> Shell {
        Shell {
            axis: vec2(x, y),
            radius_m: 0.0921,
            centre_of_gravity: vec2(x, y),
            foot_height_m: 0.4,
        }
    }

    /// A point very far off: parallel legs, half a turn, the bight one radius behind the axis, and the
    /// lever of `docs/method.md` (0.37645 m at 30 degrees, 0.44 m high, foot 0.0829 m).
    #[test]
    fn parallel_legs_have_the_levers_of_the_method() {
        let far = 1e6;
        let drop = far * 30.0_f64.to_radians().tangent();
        let point = vec3(0.0, -far, 0.84 - drop);
        let strap = strap_round(&[shell(0.0, 0.0)], 0.44, [point; 2]).unwrap();
        assert_close(strap.wrapped_rad, PI, 1e-6);
        for leg in &strap.legs {
            assert_close(leg.below_horizontal_rad().to_degrees(), 30.0, 1e-4);
            assert_close(leg.attachment.x.abs(), 0.0921, 1e-6);
            assert_close(leg.attachment.y, 0.0921, 1e-6);
            let restraint = leg.restraint(600.0, None, None);
            assert_close(
                restraint.tipping_lever(vec2(0.0, 1.0), 0.0829),
                0.37645,
                5e-6,
            );
        }
        assert!(strap.legs[0].attachment.x * strap.legs[1].attachment.x < 0.0);
    }

    /// Points left and right behind the body: each leg passes on its own side and they do not cross.
    #[test]
    fn legs_to_two_points_do_not_cross() {
        let points = [vec3(-0.5, -0.5, 0.84), vec3(0.5, -0.5, 0.84)];
        let strap = strap_round(&[shell(0.0, 0.0)], 0.44, points).unwrap();
        let [left, right] = strap.legs;
        let touch_x = |leg: Leg| leg.attachment.x + 0.0921 * leg.pull.x;
        assert!(touch_x(left) < -0.05 && touch_x(right) > 0.05);
        // Each leg is tangent: its line passes the axis at the distance of the radius.
        for leg in [left, right] {
            assert_close(
                leg.pull.horizontal().cross(leg.attachment).abs(),
                0.0921,
                1e-12,
            );
            assert_close(leg.pull.length(), 1.0, 1e-12);
        }
        // 180 degrees less the 90 between the points, and what the tangents turn more.
        let tangent = (0.0921 / 0.5_f64.hypotenuse(0.5)).arc_sine();
        assert_close(strap.wrapped_rad, PI / 2.0 + 2.0 * tangent, 1e-9);
    }

    #[test]
    fn steep_legs_are_steep_from_sixty_degrees_on() {
        let at = |deg: f64| {
            let run = 0.5 + 0.0921;
            let point = vec3(0.0, -0.5, 0.84 - run * deg.to_radians().tangent());
            fixed_leg(&shell(0.0, 0.0), 0.44, point).unwrap()
        };
        assert!(!at(60.0).is_steep());
        assert!(at(60.1).is_steep());
        assert!(at(-61.0).is_steep());
        let steep = at(70.0).restraint(600.0, Some(80.0), None);
        assert_close(steep.sliding_capacity_n, 80.0, 1e-12);
        assert_close(
            at(70.0).restraint(600.0, None, None).sliding_capacity_n,
            0.0,
            1e-12,
        );
        assert!(
            at(30.0)
                .restraint(600.0, None, None)
                .sliding_capacity_n
                .is_infinite()
        );
    }

    #[test]
    fn legs_of_a_row_leave_from_its_ends() {
        let row = [
            shell(0.0, 0.0),
            shell(0.2, 0.0),
            shell(0.4, 0.0),
            shell(0.6, 0.0),
        ];
        let points = [vec3(-0.3, -0.2, 0.4), vec3(0.9, -0.2, 0.4)];
        let strap = strap_round(&row, 0.44, points).unwrap();
        assert_eq!(strap.legs.map(|leg| leg.body), [0, 3]);
        assert!(strap.legs.iter().all(|leg| leg.pull.y < 0.0));
    }

    #[test]
    fn impossible_straps_are_told() {
        let row = [shell(0.0, 0.0), shell(0.4, 0.0)];
        let out = vec3(0.0, -1.0, 0.0);
        assert_eq!(strap_round(&[], 0.4, [out; 2]), Err(StrapError::NoBody));
        assert_eq!(
            strap_round(&row, 0.4, [out, vec3(0.42, 0.0, 0.0)]),
            Err(StrapError::PointUnderBody { point: 1, body: 1 })
        );
        assert_eq!(
            strap_round(&row, 0.4, [vec3(0.21, 0.02, 0.0), out]),
            Err(StrapError::PointAmongBodies { point: 0 })
        );
    }

    #[test]
    fn angle_to_an_upright_eye_bolt() {
        let leg = fixed_leg(&shell(0.0, 0.0), 0.44, vec3(0.0, -1.0, 0.84)).unwrap();
        assert_close(
            leg.angle_to_fitting_rad(vec3(0.0, 0.0, 1.0)),
            PI / 2.0,
            1e-12,
        );
        assert_close(leg.angle_to_fitting_rad(vec3(0.0, 1.0, 0.0)), 0.0, 1e-12);
    }

    proptest! {
        #![proptest_config(cases(128))]

        /// Mirrored points give mirrored legs.
        #[test]
        fn legs_mirror(
            x1 in -2.0..-0.3_f64, y1 in -2.0..2.0_f64, x2 in -2.0..2.0_f64, y2 in 0.5..2.0_f64,
            z in -0.5..1.5_f64,
        ) {
            let row = [shell(0.0, 0.0), shell(0.0, 0.2)];
            let image = [shell(0.0, 0.0), shell(0.0, -0.2)];
            let points = [vec3(x1, y1, z), vec3(x2, y2, z)];
            let mirrored = points.map(|point| vec3(point.x, -point.y, point.z));
            let here = strap_round(&row, 0.44, points);
            let there = strap_round(&image, 0.44, mirrored);
            prop_assert_eq!(here.is_ok(), there.is_ok());
            if let (Ok(here), Ok(there)) = (here, there) {
                prop_assert!((here.wrapped_rad - there.wrapped_rad).abs() < 1e-9);
                for (a, b) in here.legs.iter().zip(&there.legs) {
                    prop_assert_eq!(a.body, b.body);
                    prop_assert!((a.pull.y + b.pull.y).abs() < 1e-9);
                    prop_assert!((a.attachment.y + b.attachment.y).abs() < 1e-9);
                    prop_assert!((a.attachment.x - b.attachment.x).abs() < 1e-9);
                }
            }
        }
    }
}
