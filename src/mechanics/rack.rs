//! An upright body held by a rack: force on the rail, on the foot stop, and whether the foot kicks
//! out; the strap across a row; and what the rack hands on to the deck.
//!
//! The rail (edge of a socket, back rail, hoop) holds the shell at height `r` above what the body
//! stands on. Within its diametral play `c` the body leans by `atan(c / r)` before it touches. Per body:
//!
//! ```text
//! F_mom = m max(0, a_h z + a_n x + spin) / r       z, x at the lean: see `lean`
//! F_slide = m max(0, a_h - mu a_n)
//! foot stopped:  F = F_mom,  stop force S = m a_h - F     S > 0 foot pushes outward, S < 0 inward
//! foot free:     F = max(F_mom, F_slide),
//!                U_kick = |a_h (h - r) + spin| / (a_n (b + mu r))
//! ```
//!
//! # Assumptions
//!
//! * With the foot free, `F` is the least that the rail must carry for the body to stay: friction
//!   under the foot takes its share. A very stiff rail can be pressed harder for a moment, up to
//!   `m a_h`, before the foot's friction is called on.
//! * A foot stop acts on both sides. When the shell strikes a low rail after its play, the foot jumps
//!   inward even where `S` at rest points outward (seen in a rigid-body engine, `tests/outside`).
//!
//! # Departures
//!
//! `U_kick` carries the rotation of the body (`spin`), like the moment; without it the formula is
//! that of the linear program of limit analysis on which it was checked.
//!
//! # References
//!
//! Statics with a friction limit at the foot, derived in `docs/method.md`, "Held by a rack".

use super::lean::{PlaneForce, Stance};
use super::motion::Force;
use super::standing::{Body, lift_force_n, unit_or_x};
use super::support::Base;
use crate::geometry::{Vec2, vec2};

/// What retains a body, and how its foot is held.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Rail {
    /// `r`: height of the retaining edge above what the body stands on, m.
    pub height_m: f64,

    /// `c`: bore less body diameter, m.
    pub play_m: f64,

    /// Does a socket floor, fiddle, lip or cup stop the foot?
    pub foot_stopped: bool,

    /// Friction under the foot.
    pub friction: f64,
}

/// What one body does to its rail, its foot stop and its shelf.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct RailForces {
    /// Lean until it touches, rad.
    pub lean_rad: f64,

    /// `F_mom`: what keeps it from falling over, N.
    pub moment_n: f64,

    /// `F_slide`: what friction under the foot leaves to be held, N.
    pub slide_n: f64,

    /// What the rail carries, N; infinite for a rail that is not above the foot.
    pub rail_n: f64,

    /// `S`: what the foot stop carries, N; outward > 0, inward < 0; `None` without a stop.
    pub stop_n: Option<f64>,

    /// `U_kick`: share of the limit at which the foot slides out under the rail; 0 with a stop.
    pub kick: f64,

    /// What must hold it down, N.
    pub lift_n: f64,
}

/// Forces between a body and the rail that holds it.
///
/// `reach_m` is the ray of its base towards the fall. A rail below the centre of gravity is judged
/// by these numbers like any other: with a stop its force grows as `1/r`, without one it kicks.
pub fn rail_forces(body: &Body, reach_m: f64, rail: &Rail, force: &PlaneForce) -> RailForces {
    let r = rail.height_m;
    let mass = body.mass_kg;
    let lift_n = mass * (-force.a_n).max(0.0);
    if r <= 0.0 {
        return RailForces {
            moment_n: f64::INFINITY,
            rail_n: f64::INFINITY,
            kick: f64::INFINITY,
            lift_n,
            ..RailForces::default()
        };
    }
    let stance = Stance {
        centre_height_m: body.centre_height_m,
        reach_m,
    };
    let play = rail.play_m.max(0.0);
    let lean_rad = (play / r).atan();
    let slant = (play * play + r * r).sqrt();
    let moment_n = mass * stance.moment_at(force, (play / slant, r / slant)).max(0.0) / r;
    let slide_n = mass * (force.a_h - rail.friction * force.a_n.max(0.0)).max(0.0);
    if rail.foot_stopped {
        return RailForces {
            lean_rad,
            moment_n,
            slide_n,
            rail_n: moment_n,
            stop_n: Some(mass * force.a_h - moment_n),
            kick: 0.0,
            lift_n,
        };
    }
    RailForces {
        lean_rad,
        moment_n,
        slide_n,
        rail_n: moment_n.max(slide_n),
        stop_n: None,
        kick: kick(body, reach_m, rail, force),
        lift_n,
    }
}

fn kick(body: &Body, reach_m: f64, rail: &Rail, force: &PlaneForce) -> f64 {
    let turning = (force.a_h * (body.centre_height_m - rail.height_m) + force.spin).abs();
    let holding = force.a_n * (reach_m.max(0.0) + rail.friction * rail.height_m);
    if holding <= 0.0 {
        f64::INFINITY
    } else {
        turning / holding
    }
}

/// Pull in N in a strap across a row of bodies that press on it with `sum_n` together.
///
/// `T = sum / (2 sin eps)`: the end legs leave the row at `end_angle_rad`. A straight strap
/// (`eps = 0`) holds nothing until it bends, so its pull is infinite.
pub fn row_strap_pull_n(sum_n: f64, end_angle_rad: f64) -> f64 {
    let sin = end_angle_rad.sin();
    if sum_n <= 0.0 {
        0.0
    } else if sin <= 0.0 {
        f64::INFINITY
    } else {
        sum_n / (2.0 * sin)
    }
}

/// All that a rack, or anything else with several bodies, hands on to the deck in one load case.
///
/// Moments are taken about a point on the deck, usually below the middle of the rack; the base and
/// the rays are measured from the same point.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct DeckLoad {
    /// Along the deck, N.
    pub along_n: Vec2,

    /// Overturning moment, N m, pointing the way it tips.
    pub moment_nm: Vec2,

    /// Pressing onto the deck, N.
    pub normal_n: f64,
}

impl DeckLoad {
    /// Adds a body that the rack carries wholly: one on the rack's floor, or the rack's own frame.
    ///
    /// `at` is the place of its centre of gravity on plan from the point of moments; heights are
    /// above the deck.
    pub fn add_body(&mut self, body: &Body, at: Vec2, force: &Force) {
        let normal_n = body.mass_kg * force.a_n();
        self.along_n += body.mass_kg * force.along_deck();
        self.moment_nm += body.mass_kg * force.tipping(body.centre_height_m, body.kappa2_m2);
        self.moment_nm += normal_n * at;
        self.normal_n += normal_n;
    }

    /// Adds the pull of a rail at a height above the deck: a body that stands on the deck itself,
    /// in an open-bottomed rack.
    pub fn add_rail(&mut self, rail_n: f64, direction: Vec2, height_m: f64) {
        self.along_n += rail_n * direction;
        self.moment_nm += rail_n * height_m * direction;
    }

    /// Share of the limit at which it tips over the edge of its base without fixings.
    pub fn tip(&self, base: &Base) -> f64 {
        let size = self.moment_nm.length();
        let ray = base.ray(unit_or_x(self.moment_nm, size));
        if self.normal_n <= 0.0 || ray <= 0.0 {
            f64::INFINITY
        } else {
            size / (self.normal_n * ray)
        }
    }

    /// Share of the limit at which it slides without fixings.
    pub fn slide(&self, friction: f64) -> f64 {
        if self.normal_n <= 0.0 || friction <= 0.0 {
            f64::INFINITY
        } else {
            self.along_n.length() / (friction * self.normal_n)
        }
    }

    /// What the fixings at the edges of a rectangular footprint must pull down in all, N.
    ///
    /// `row` is the unit vector along the footprint's length, `half_m` half its length and half its
    /// width; moments are about its middle. Each axis is balanced by itself about the edge over which it
    /// tips, and the two pulls are added: exact for a moment about one axis and for a pure lift, on the
    /// safe side for both at once. An uneven load along a long rack does not tip it over its long side.
    /// Derived here (balance of moments about the tipping edge).
    pub fn fixing_pull_n(&self, row: Vec2, half_m: [f64; 2]) -> f64 {
        let moments = [self.moment_nm.dot(row), self.moment_nm.dot(row.perp())];
        let pulls = moments.iter().zip(half_m).map(|(moment_nm, half)| {
            let excess = moment_nm.abs() - self.normal_n * half;
            if excess <= 0.0 {
                0.0
            } else if half <= 0.0 {
                f64::INFINITY
            } else {
                excess / (2.0 * half)
            }
        });
        pulls.sum()
    }

    /// What fixings must carry along the deck, N; friction under a rack is not counted.
    pub fn fixing_shear_n(&self) -> f64 {
        self.along_n.length()
    }
}

/// Common centre of gravity of bodies carried wholly by one rack: place on plan and height, m.
///
/// `None` when nothing is carried.
pub fn common_centre(bodies: impl IntoIterator<Item = (Body, Vec2)>) -> Option<(Vec2, f64)> {
    let (mut mass, mut place, mut height) = (0.0, vec2(0.0, 0.0), 0.0);
    for (body, at) in bodies {
        mass += body.mass_kg;
        place += body.mass_kg * at;
        height += body.mass_kg * body.centre_height_m;
    }
    (mass > 0.0).then(|| ((1.0 / mass) * place, height / mass))
}

/// What a hold-down over one body must carry, N: nothing while the shelf presses on it.
pub fn hold_down_n(force: &Force, body: &Body) -> f64 {
    lift_force_n(force, body.mass_kg)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::motion::GRAVITY;
    use crate::mechanics::standing::tip;
    use crate::mechanics::testing::{AL80, AL80_BASE_M, assert_close, assert_infinite};
    use crate::mechanics::vector::vec3;
    use proptest::prelude::*;

    const HALF_G: PlaneForce = PlaneForce {
        a_h: 0.5 * GRAVITY,
        a_n: 0.9 * GRAVITY,
        spin: 0.0,
    };

    fn rail(height_m: f64, play_m: f64, foot_stopped: bool, friction: f64) -> Rail {
        Rail {
            height_m,
            play_m,
            foot_stopped,
            friction,
        }
    }

    fn forces(rail: &Rail) -> RailForces {
        rail_forces(&AL80, AL80_BASE_M, rail, &HALF_G)
    }

    /// Table of `docs/method.md`, "Held by a rack"; half of its last digit.
    #[test]
    fn matches_the_table() {
        for (play_m, moment_n, stop_n) in [(0.0, 33.678, 53.601), (0.02, 39.562, 47.717)] {
            let stopped = forces(&rail(0.44, play_m, true, 0.2));
            assert_close(stopped.moment_n, moment_n, 0.5e-3);
            assert_close(stopped.rail_n, moment_n, 0.5e-3);
            assert_close(stopped.stop_n.unwrap(), stop_n, 0.5e-3);
            assert_close(stopped.kick, 0.0, 0.0);
            let free = forces(&rail(0.44, play_m, false, 0.2));
            assert_close(free.slide_n, 55.859, 0.5e-3);
            assert_close(free.rail_n, 55.859, 0.5e-3);
            assert_close(free.kick, 0.39334, 0.5e-5);
            assert_eq!(free.stop_n, None);
        }
    }

    /// The same section, evidence: a low and a high rail kick, one at the centre never does.
    #[test]
    fn low_and_high_rails_kick() {
        assert_close(forces(&rail(0.10, 0.0, false, 0.2)).kick, 1.18, 0.005);
        assert_close(forces(&rail(0.62, 0.0, false, 0.0)).kick, 2.0, 0.05);
        assert_close(
            forces(&rail(AL80.centre_height_m, 0.0, false, 0.2)).kick,
            0.0,
            1e-12,
        );
        let rail_over_mass = forces(&rail(0.44, 0.0, false, 0.2)).rail_n / AL80.mass_kg;
        assert_close(rail_over_mass, 3.138, 0.0005);
    }

    #[test]
    fn a_rail_at_the_foot_holds_nothing() {
        let useless = forces(&rail(0.0, 0.0, true, 0.2));
        assert_infinite(useless.rail_n);
        assert_infinite(useless.kick);
    }

    #[test]
    fn a_flying_boat_lifts_it_out() {
        let light = PlaneForce {
            a_n: -1.0,
            ..HALF_G
        };
        let forces = rail_forces(&AL80, AL80_BASE_M, &rail(0.44, 0.0, false, 0.2), &light);
        assert_close(forces.lift_n, 17.8, 1e-12);
        assert_infinite(forces.kick);
    }

    #[test]
    fn a_straight_strap_holds_nothing() {
        assert_infinite(row_strap_pull_n(100.0, 0.0));
        assert_close(row_strap_pull_n(100.0, 30.0_f64.to_radians()), 100.0, 1e-9);
        assert_close(row_strap_pull_n(0.0, 0.0), 0.0, 0.0);
    }

    /// Statics of the foot: the largest force along the deck for which a rail pull, a foot friction
    /// and a place of the foot pressure exist, searched by brute force.
    fn kick_by_search(r: f64, b: f64, friction: f64, a_n: f64) -> f64 {
        let h = AL80.centre_height_m;
        let holds = |a_h: f64| {
            (0..=200).any(|i| {
                let foot = friction * a_n * (f64::from(i) / 100.0 - 1.0);
                let rail = a_h - foot;
                // Moments about the middle of the foot.
                let pressure_at = (a_h * h - rail * r) / a_n;
                rail >= -1e-12 && pressure_at.abs() <= b + 1e-12
            })
        };
        let (mut low, mut high) = (0.0, 200.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if holds(middle) {
                low = middle;
            } else {
                high = middle;
            }
        }
        low
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(64))]

        #[test]
        fn the_foot_kicks_where_statics_has_no_answer(
            r in 0.05..0.7_f64, b in 0.02..0.12_f64, friction in 0.0..0.6_f64, a_n in 3.0..14.0_f64,
        ) {
            let limit = kick_by_search(r, b, friction, a_n);
            prop_assume!(limit > 0.01 && limit < 150.0);
            let force = PlaneForce { a_h: limit, a_n, spin: 0.0 };
            let forces = rail_forces(&AL80, b, &rail(r, 0.0, false, friction), &force);
            // The extremes of the search are on its grid, so only bisection is rounded.
            prop_assert!((forces.kick - 1.0).abs() < 1e-6, "{}", forces.kick);
        }

        #[test]
        fn rail_and_stop_carry_the_whole_force(
            r in 0.05..0.7_f64, play in 0.0..0.03_f64, a_h in 0.0..9.0_f64, a_n in 1.0..14.0_f64, spin in 0.0..0.1_f64,
        ) {
            let force = PlaneForce { a_h, a_n, spin };
            let forces = rail_forces(&AL80, AL80_BASE_M, &rail(r, play, true, 0.2), &force);
            let sum = forces.rail_n + forces.stop_n.unwrap();
            prop_assert!((sum - AL80.mass_kg * a_h).abs() < 1e-9);
        }

        #[test]
        fn more_play_asks_for_more(r in 0.2..0.6_f64, play in 0.0..0.03_f64, a_h in 0.0..6.0_f64) {
            let force = PlaneForce { a_h, a_n: 9.0, spin: 0.0 };
            let at = |play| rail_forces(&AL80, AL80_BASE_M, &rail(r, play, true, 0.2), &force).rail_n;
            prop_assert!(at(play + 0.002) >= at(play));
        }

        #[test]
        fn a_body_alone_on_a_tray_tips_like_one_on_deck(fx in -4.0..4.0_f64, fy in -4.0..4.0_f64) {
            let force = Force { f: vec3(fx, fy, -9.0), roll_acceleration: 0.2, pitch_acceleration: 0.1, ..Force::default() };
            let mut load = DeckLoad::default();
            load.add_body(&AL80, vec2(0.0, 0.0), &force);
            let base = Base::disc(AL80_BASE_M);
            prop_assert!((load.tip(&base) - tip(&force, &AL80, &base)).abs() < 1e-12);
            prop_assert!((load.slide(0.3) - force.a_h() / (0.3 * 9.0)).abs() < 1e-12);
        }
    }

    #[test]
    fn an_open_rack_gets_only_the_pull_of_its_rails() {
        let mut load = DeckLoad::default();
        load.add_rail(50.0, vec2(0.0, 1.0), 0.4);
        load.add_rail(30.0, vec2(0.0, 1.0), 0.4);
        assert_close(load.fixing_shear_n(), 80.0, 1e-12);
        assert_close(
            load.fixing_pull_n(vec2(1.0, 0.0), [0.8, 0.15]),
            32.0 / 0.3,
            1e-9,
        );
        assert_infinite(load.tip(&Base::disc(0.2)));
        let frame = Body {
            mass_kg: 20.0,
            centre_height_m: 0.2,
            kappa2_m2: 0.0,
        };
        let level = Force {
            f: vec3(0.0, 0.0, -GRAVITY),
            ..Force::default()
        };
        load.add_body(&frame, vec2(0.1, 0.0), &level);
        let expected = 32.0_f64.hypot(20.0 * GRAVITY * 0.1) / (20.0 * GRAVITY * 0.2);
        assert_close(load.tip(&Base::disc(0.2)), expected, 1e-12);
    }

    #[test]
    fn a_load_at_one_end_of_a_long_rack_asks_nothing_of_its_fixings() {
        let body = Body {
            mass_kg: 90.0,
            centre_height_m: 0.3,
            kappa2_m2: 0.0,
        };
        let level = Force {
            f: vec3(0.0, 0.0, -GRAVITY),
            ..Force::default()
        };
        let row = Vec2::from_angle(0.4);
        let mut load = DeckLoad::default();
        load.add_body(&body, 0.9 * row, &level);
        assert_close(load.fixing_pull_n(row, [1.8, 0.15]), 0.0, 1e-12);
        // Beyond the end it does: 0.2 m over the edge, fixings 3.6 m away.
        load.add_body(&body, 3.1 * row, &level);
        let expected = 90.0 * GRAVITY * (0.9 + 3.1 - 2.0 * 1.8) / 3.6;
        assert_close(load.fixing_pull_n(row, [1.8, 0.15]), expected, 1e-9);
    }

    #[test]
    fn a_rack_that_weighs_nothing_hangs_in_its_fixings() {
        let load = DeckLoad {
            normal_n: -120.0,
            ..DeckLoad::default()
        };
        assert_close(load.fixing_pull_n(vec2(0.0, 1.0), [0.6, 0.2]), 120.0, 1e-12);
    }

    #[test]
    fn the_common_centre_is_weighted() {
        let light = Body {
            mass_kg: 10.0,
            centre_height_m: 0.2,
            kappa2_m2: 0.0,
        };
        let heavy = Body {
            mass_kg: 30.0,
            centre_height_m: 0.6,
            kappa2_m2: 0.0,
        };
        let (at, height_m) =
            common_centre([(light, vec2(0.0, 0.0)), (heavy, vec2(1.0, 2.0))]).unwrap();
        assert_close(at.x, 0.75, 1e-12);
        assert_close(at.y, 1.5, 1e-12);
        assert_close(height_m, 0.5, 1e-12);
        assert_eq!(common_centre([]), None);
    }
}
