//! A body lying on its side: rolling across its axis, sliding along it, and what stops it.
//!
//! A chock, wedge, saddle or V-block touches the shell at the contact angle `gamma` from below the
//! axis. With `x = a_across / a_n` and shell radius `R`:
//!
//! ```text
//! snug stop           holds while x < tan gamma,  cos gamma = (R - c) / R for a chock of height c
//! row of n touching   one end stop: n x < tan gamma
//! strap over, chocked a_across cos gamma < a_n sin gamma + (T/m) [(sin b1 + sin b2) sin gamma
//!                                                              - (cos b2 - cos b1) cos gamma]
//!                     for a_n < 0 too, and then about the stop on the other side as well
//! loose stop          x < sin^2 gamma / (q cos gamma + sqrt(q^2 - sin^2 gamma)),
//!                     q = sin gamma + (gap/R) ((cos gamma + k) / (1 + k))^2
//! along the axis      a_along < mu a_n
//! ```
//!
//! The loose stop: from rest the body rolls over the gap and gains `m a_across gap`, a share
//! `1/(1+k)` of it as speed of its centre (`k = I_axis / (m R^2)`); it meets the edge without
//! rebound, so angular momentum about the edge is kept and the share
//! `((cos gamma + k)/(1+k))^2` of the energy is left; with that it must not climb the edge under the
//! apparent gravity, `m R a_n (sqrt(1 + x^2) - cos gamma - x sin gamma)`. Solved for `x`.
//!
//! # Assumptions
//!
//! * Friction at the stop is not counted: a shell rolls up an edge as it likes.
//! * A stop is itself fixed for `stop_force_n`.
//! * What it takes to turn the shell about its own axis with the deck is left out (about 2 % for a
//!   snug low chock at 4 s): without friction nothing asks it to turn.
//!
//! # References
//!
//! Moments about the edge and conservation of angular momentum in a plastic impact; derived in
//! `docs/method.md`, "Lying".

use std::f64::consts::FRAC_PI_2;

use super::motion::Force;
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

/// Force along the deck, as a share of the normal force, at which a free cylinder starts to roll.
///
/// Rolling resistance of a hard cylinder on a deck is 0.01 to 0.02 (common practice, no source).
pub const ROLLING_RESISTANCE: f64 = 0.01;

/// `k = I_axis / (m R^2)` of a filled cylinder: between a solid one (0.5) and a thin shell (1).
///
/// With it the loose-stop figures of `docs/method.md` are reproduced.
pub const SPIN_RATIO: f64 = 0.75;

/// What a lying body feels, in its own directions, m/s².
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct LyingForce {
    /// Square to the axis, towards its left (axis heading plus 90 degrees) > 0.
    pub across: f64,

    /// Along the axis.
    pub along: f64,

    /// Pressing onto the deck; negative when it lifts off.
    pub a_n: f64,
}

impl LyingForce {
    /// Splits a force for an axis that heads along `axis_rad`, from +x towards +y.
    pub fn new(force: &Force, axis_rad: f64) -> Self {
        let axis = Vec2::from_angle(axis_rad);
        let deck = force.along_deck();
        Self {
            across: axis.cross(deck),
            along: axis.dot(deck),
            a_n: force.a_n(),
        }
    }
}

/// What stops a lying body on one side.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct RollStop {
    /// `gamma`: from straight below the axis to the contact, rad.
    pub contact_angle_rad: f64,

    /// Free way before the shell touches, m.
    pub gap_m: f64,
}

impl RollStop {
    /// Nothing but the flat deck.
    pub const NONE: Self = Self {
        contact_angle_rad: 0.0,
        gap_m: 0.0,
    };

    /// An upright face at least as high as the axis.
    pub const WALL: Self = Self {
        contact_angle_rad: FRAC_PI_2,
        gap_m: 0.0,
    };

    /// A chock of a height against a shell of a radius, an upright edge.
    pub fn chock(radius_m: f64, height_m: f64, gap_m: f64) -> Self {
        Self {
            contact_angle_rad: chock_angle_rad(radius_m, height_m),
            gap_m,
        }
    }

    /// A wedge: the shell rests on its slope, or on its edge where the wedge is too low for that.
    pub fn wedge(radius_m: f64, height_m: f64, slope_rad: f64, gap_m: f64) -> Self {
        Self {
            contact_angle_rad: slope_rad.min(chock_angle_rad(radius_m, height_m)),
            gap_m,
        }
    }

    /// A saddle or V-block that touches at this angle on both sides of straight below.
    pub fn saddle(contact_half_angle_rad: f64) -> Self {
        Self {
            contact_angle_rad: contact_half_angle_rad,
            gap_m: 0.0,
        }
    }

    /// `x` up to which the stop holds a body of this radius; infinite at a wall.
    pub fn limit(&self, radius_m: f64) -> f64 {
        let gamma = self.contact_angle_rad.clamp(0.0, FRAC_PI_2);
        let limit = if self.gap_m > 0.0 {
            loose_limit(gamma, self.gap_m / radius_m, SPIN_RATIO)
        } else {
            snug_limit(gamma)
        };
        limit.max(ROLLING_RESISTANCE)
    }
}

/// Contact angle of a chock: `acos((R - c) / R)`; a quarter turn where it reaches the axis.
pub fn chock_angle_rad(radius_m: f64, height_m: f64) -> f64 {
    if height_m <= 0.0 {
        0.0
    } else if height_m >= radius_m {
        FRAC_PI_2
    } else {
        (1.0 - height_m / radius_m).arc_cosine()
    }
}

/// Least height of a snug chock that holds `x`, m: the other way round.
pub fn chock_height_m(radius_m: f64, ratio: f64) -> f64 {
    radius_m * (1.0 - 1.0 / ratio.hypotenuse(1.0))
}

/// Deck-parallel over normal force up to which a snug stop holds.
fn snug_limit(gamma: f64) -> f64 {
    let cos = gamma.cosine();
    if gamma >= FRAC_PI_2 || cos <= 0.0 {
        f64::INFINITY
    } else {
        gamma.sine() / cos
    }
}

/// The same of a stop that the shell reaches only after rolling `gap_ratio` radii from rest.
pub fn loose_limit(gamma: f64, gap_ratio: f64, spin_ratio: f64) -> f64 {
    let (sin, cos) = gamma.sine_cosine();
    let kept = ((cos + spin_ratio) / (1.0 + spin_ratio)).whole_power(2);
    let q = sin + gap_ratio * kept;
    sin * sin / (q * cos + (q * q - sin * sin).max(0.0).sqrt())
}

/// A strap over the top of a chocked body, its pull in both legs.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct OverStrap {
    /// Pull that counts, N: the calculation strength.
    pub pull_n: f64,

    /// Slope of the leg on the axis's left below level, rad.
    pub left_angle_rad: f64,

    /// Slope of the leg on the axis's right below level, rad.
    pub right_angle_rad: f64,
}

/// How a body lies and what stops it.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Lying {
    /// Mass of one body.
    pub mass_kg: f64,

    /// Radius of its shell.
    pub radius_m: f64,

    /// What stops it on the left of its axis.
    pub left: RollStop,

    /// What stops it on the right of its axis.
    pub right: RollStop,

    /// Bodies in a touching row behind the same end stop, this one included.
    pub row: u32,

    /// A strap over the top. It is not counted over a body that is free to roll, nor over a row.
    pub strap: Option<OverStrap>,
}

impl Lying {
    /// Share of the limit at which it rolls over its stop.
    pub fn roll(&self, force: &LyingForce) -> f64 {
        let across = force.across.abs();
        let to_left = force.across > 0.0;
        let (stop, other) = if to_left {
            (self.left, self.right)
        } else {
            (self.right, self.left)
        };
        let alone = if force.a_n <= 0.0 {
            f64::INFINITY
        } else {
            f64::from(self.row.max(1)) * across / (force.a_n * stop.limit(self.radius_m))
        };
        let snug = stop.gap_m <= 0.0 && stop.contact_angle_rad > 0.0;
        match self.strap {
            Some(strap) if snug && self.row <= 1 => {
                let legs = if to_left {
                    [strap.left_angle_rad, strap.right_angle_rad]
                } else {
                    [strap.right_angle_rad, strap.left_angle_rad]
                };
                let pull = strap.pull_n / self.mass_kg;
                alone.min(roll_under_strap(
                    (across, force.a_n),
                    [stop, other],
                    legs,
                    pull,
                ))
            }
            _ => alone,
        }
    }

    /// Force along the deck for which the stop itself must be fixed, N.
    pub fn stop_force_n(&self, force: &LyingForce) -> f64 {
        f64::from(self.row.max(1)) * self.mass_kg * force.across.abs()
    }

    /// Share of the limit at which it slides along its axis.
    ///
    /// `pressing_n` is what lashings press it down with at all times: the pretension of a strap over
    /// the top times the sines of its two slopes, 0 when not known. Such a strap does not stretch
    /// when the body slides under it, so its strength does not count. A saddle or V-block presses
    /// harder than a flat deck; leaving that out is on the safe side.
    pub fn slide_along(&self, force: &LyingForce, friction: f64, pressing_n: f64) -> f64 {
        let a_n = force.a_n + pressing_n / self.mass_kg;
        if a_n <= 0.0 || friction <= 0.0 {
            f64::INFINITY
        } else {
            force.along.abs() / (friction * a_n)
        }
    }
}

/// Share of the limit at which a strapped body rolls over its stops: the one that it is pushed to, and,
/// where the boat drops away under it, the other one, over which its lift could turn it.
///
/// `legs` are the slopes of the strap's legs on the side of each stop; `pull` its pull for one kilogram,
/// m/s². All forces pass through the axis, so the balance is one of forces: what presses the body on
/// each stop and on the deck must press.
fn roll_under_strap(
    (across, a_n): (f64, f64),
    stops: [RollStop; 2],
    legs: [f64; 2],
    pull: f64,
) -> f64 {
    let sines = legs[0].sine() + legs[1].sine();
    let sideways = legs[0].cosine() - legs[1].cosine();
    let share = |stop: &RollStop, across: f64, sideways: f64| {
        let (sin, cos) = stop.contact_angle_rad.sine_cosine();
        let asked = across * cos + (-a_n).max(0.0) * sin;
        let holding = a_n.max(0.0) * sin + pull * (sines * sin - sideways * cos);
        if asked <= 0.0 {
            0.0
        } else if holding <= 0.0 {
            f64::INFINITY
        } else {
            asked / holding
        }
    };
    share(&stops[0], across, sideways).max(share(&stops[1], -across, -sideways))
}

/// Share of the limit at which a manifolded twin lying flat tips over its outer shell; it cannot roll.
///
/// `spacing_m` between the axes, which both lie `radius_m` above the deck.
pub fn flat_twin_tip(force: &LyingForce, radius_m: f64, spacing_m: f64) -> f64 {
    let holding = force.a_n * 0.5 * spacing_m;
    if holding <= 0.0 {
        f64::INFINITY
    } else {
        force.across.abs() * radius_m / holding
    }
}

/// Length of a strap from deck to deck over a lying shell, m.
///
/// The anchors lie on the deck at `left_m` and `right_m` to the sides of a mark, both positive and
/// beyond the shell; the axis stands `shift_m` to the right of the mark. `None` when an anchor is
/// under the shell.
pub fn over_strap_length_m(radius_m: f64, left_m: f64, right_m: f64, shift_m: f64) -> Option<f64> {
    let leg = |away: f64| {
        let distance = away.hypotenuse(radius_m);
        (away > 0.0).then(|| {
            let straight = away;
            // From the top of the shell round to where the strap leaves it.
            let wrapped =
                FRAC_PI_2 + (radius_m / away).arc_tangent() - (radius_m / distance).arc_cosine();
            straight + radius_m * wrapped
        })
    };
    Some(leg(left_m + shift_m)? + leg(right_m - shift_m)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::testing::{AL80_RADIUS_M, assert_close, assert_infinite};
    use crate::mechanics::vector::vec3;
    use proptest::prelude::*;

    fn lying(left: RollStop) -> Lying {
        Lying {
            mass_kg: 17.8,
            radius_m: AL80_RADIUS_M,
            left,
            right: RollStop::NONE,
            row: 1,
            strap: None,
        }
    }

    fn across(x: f64) -> LyingForce {
        LyingForce {
            across: 9.0 * x,
            along: 0.0,
            a_n: 9.0,
        }
    }

    /// Table of `docs/method.md`, "Lying"; half of its last digit.
    #[test]
    fn chocks_match_the_table() {
        for (share, limit) in [
            (0.1, 0.48432),
            (0.2, 0.75000),
            (0.3, 1.02020),
            (0.5, 1.73205),
        ] {
            let stop = RollStop::chock(AL80_RADIUS_M, share * AL80_RADIUS_M, 0.0);
            assert_close(stop.limit(AL80_RADIUS_M), limit, 0.5e-5);
            assert_close(lying(stop).roll(&across(limit)), 1.0, 1e-4);
            assert_close(
                chock_height_m(AL80_RADIUS_M, limit),
                share * AL80_RADIUS_M,
                1e-6,
            );
        }
    }

    /// The same section: what a gap does to a chock of a fifth of the radius.
    #[test]
    fn loose_chocks_match_the_table() {
        for (gap, limit) in [(0.0, 0.750), (0.1, 0.419), (0.25, 0.310), (0.5, 0.227)] {
            let stop = RollStop::chock(1.0, 0.2, gap);
            assert_close(stop.limit(1.0), limit, 0.5e-3);
        }
    }

    /// The same section: three touching, end chock at 40 degrees.
    #[test]
    fn a_row_matches_the_table() {
        let row = Lying {
            row: 3,
            ..lying(RollStop::saddle(40.0_f64.to_radians()))
        };
        assert_close(row.roll(&across(0.27970)), 1.0, 0.5e-4);
    }

    /// The same section: travel 10, 20, 40 mm stretches a strap over the top 0.3, 1.2, 4.7 mm.
    #[test]
    fn a_strap_over_the_top_hardly_stretches() {
        let length = |shift| over_strap_length_m(AL80_RADIUS_M, 0.2, 0.2, shift).unwrap();
        for (travel_m, stretch_mm) in [(0.01, 0.3), (0.02, 1.2), (0.04, 4.7)] {
            assert_close(1e3 * (length(travel_m) - length(0.0)), stretch_mm, 0.05);
        }
        assert_eq!(over_strap_length_m(AL80_RADIUS_M, 0.2, 0.2, 0.3), None);
    }

    #[test]
    fn a_free_cylinder_rolls_at_once() {
        assert_close(lying(RollStop::NONE).roll(&across(0.01)), 1.0, 1e-12);
        let strapped = Lying {
            strap: Some(OverStrap {
                pull_n: 5000.0,
                left_angle_rad: 0.8,
                right_angle_rad: 0.8,
            }),
            ..lying(RollStop::NONE)
        };
        assert_close(strapped.roll(&across(0.01)), 1.0, 1e-12);
    }

    #[test]
    fn the_side_that_it_rolls_to_counts() {
        let body = lying(RollStop::WALL);
        assert_close(body.roll(&across(0.5)), 0.0, 1e-12);
        assert_close(body.roll(&across(-0.5)), 50.0, 1e-9);
        // Axis athwartships: a force to starboard runs along it, one forward runs across.
        let force = Force {
            f: vec3(1.0, -2.0, -9.0),
            ..Force::default()
        };
        let split = LyingForce::new(&force, FRAC_PI_2);
        assert_close(split.across, -1.0, 1e-12);
        assert_close(split.along, -2.0, 1e-12);
        assert_close(split.a_n, 9.0, 1e-12);
    }

    /// `c = 2 sin b R sin gamma` for two equal legs (`docs/method.md`, "Lying").
    #[test]
    fn a_strap_over_a_chocked_body_counts_about_the_chock() {
        let gamma = 0.6_f64;
        let beta = 0.9_f64;
        let body = Lying {
            strap: Some(OverStrap {
                pull_n: 200.0,
                left_angle_rad: beta,
                right_angle_rad: beta,
            }),
            ..lying(RollStop::saddle(gamma))
        };
        let lever = 2.0 * beta.sine() * AL80_RADIUS_M * gamma.sine();
        let righting = 17.8 * 9.0 * AL80_RADIUS_M * gamma.sine() + 200.0 * lever;
        let limit = righting / (17.8 * 9.0 * AL80_RADIUS_M * gamma.cosine());
        assert_close(body.roll(&across(limit)), 1.0, 1e-12);
    }

    #[test]
    fn a_flat_twin_tips_but_does_not_roll() {
        // Edge half the spacing away, centre one radius up.
        assert_close(
            flat_twin_tip(&across(0.6), 0.09, 0.215),
            0.6 * 0.09 / 0.1075,
            1e-12,
        );
        assert_infinite(flat_twin_tip(
            &LyingForce {
                a_n: -1.0,
                ..across(0.1)
            },
            0.09,
            0.2,
        ));
    }

    #[test]
    fn along_the_axis_it_slides() {
        let force = LyingForce {
            across: 0.0,
            along: -1.8,
            a_n: 9.0,
        };
        assert_close(
            lying(RollStop::NONE).slide_along(&force, 0.4, 0.0),
            0.5,
            1e-12,
        );
        assert_close(
            lying(RollStop::NONE).slide_along(&force, 0.4, 9.0 * 17.8),
            0.25,
            1e-12,
        );
        assert_infinite(lying(RollStop::NONE).slide_along(&force, 0.0, 0.0));
        assert_close(
            lying(RollStop::NONE).stop_force_n(&across(0.5)),
            4.5 * 17.8,
            1e-12,
        );
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(128))]

        #[test]
        fn a_gap_never_helps(share in 0.02..0.98_f64, gap in 0.0..2.0_f64, k in 0.5..1.0_f64) {
            let gamma = chock_angle_rad(1.0, share);
            let snug = snug_limit(gamma);
            let loose = loose_limit(gamma, gap, k);
            prop_assert!(loose <= snug * (1.0 + 1e-12));
            prop_assert!(loose_limit(gamma, gap + 0.1, k) < loose);
        }

        /// The balance that the closed form solves, step by step.
        #[test]
        fn the_loose_limit_is_the_energy_balance(
            share in 0.05..0.9_f64, gap in 0.01..1.0_f64, k in 0.5..1.0_f64,
        ) {
            let gamma = chock_angle_rad(1.0, share);
            let x = loose_limit(gamma, gap, k);
            let speed_squared = 2.0 * x * gap / (1.0 + k);
            let spin = speed_squared.sqrt() * (gamma.cosine() + k) / (1.0 + k);
            let energy = 0.5 * (1.0 + k) * spin * spin;
            let barrier = x.hypotenuse(1.0) * (1.0 - (gamma - x.arc_tangent()).cosine());
            prop_assert!((energy - barrier).abs() < 1e-9, "{energy} against {barrier}");
        }

        /// The balance that the closed form solves, with pulls of the strap tried one by one: what the
        /// stops and the deck do to the body must push, never pull.
        #[test]
        fn a_strap_that_holds_leaves_every_contact_pressing(
            across in 0.0..15.0_f64, a_n in -15.0..15.0_f64, contact in 0.2..1.3_f64,
            slopes in (0.7..1.4_f64, 0.7..1.4_f64), pull_n in 50.0..2000.0_f64,
        ) {
            let body = Lying {
                left: RollStop::saddle(contact),
                right: RollStop::saddle(contact),
                strap: Some(OverStrap { pull_n, left_angle_rad: slopes.0, right_angle_rad: slopes.1 }),
                ..lying(RollStop::NONE)
            };
            let share = body.roll(&LyingForce { across, along: 0.0, a_n });
            prop_assume!((share - 1.0).abs() > 0.02);
            let holds = (0..=4000).any(|step| {
                let pull = f64::from(step) / 4000.0 * pull_n / body.mass_kg;
                let sideways = across + pull * (slopes.0.cosine() - slopes.1.cosine());
                let down = a_n + pull * (slopes.0.sine() + slopes.1.sine());
                down >= 0.0 && sideways.abs() * contact.cosine() <= down * contact.sine()
            });
            prop_assert_eq!(share < 1.0, holds, "share {}", share);
        }

        #[test]
        fn a_larger_shell_with_a_larger_chock_holds_alike(
            share in 0.02..0.98_f64, gap in 0.0..0.5_f64, size in 0.05..0.3_f64,
        ) {
            let (unit, real) = (RollStop::chock(1.0, share, gap), RollStop::chock(size, share * size, gap * size));
            prop_assert!((unit.limit(1.0) - real.limit(size)).abs() < 1e-9 * unit.limit(1.0));
        }
    }
}
