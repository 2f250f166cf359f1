use super::*;
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};
use crate::mechanics::lean::PlaneForce;
use crate::mechanics::motion::{Cases, Force, GRAVITY, Motion};
use crate::mechanics::standing::Body;
use crate::mechanics::standing::tip;
use crate::mechanics::support::{Base, Offset};
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
    let expected = 32.0_f64.hypotenuse(20.0 * GRAVITY * 0.1) / (20.0 * GRAVITY * 0.2);
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
    let (at, height_m) = common_centre([(light, vec2(0.0, 0.0)), (heavy, vec2(1.0, 2.0))]).unwrap();
    assert_close(at.x, 0.75, 1e-12);
    assert_close(at.y, 1.5, 1e-12);
    assert_close(height_m, 0.5, 1e-12);
    assert_eq!(common_centre([]), None);
}

proptest! {
    #![proptest_config(crate::mechanics::property::cases(200))]

    /// Whatever the load case and the base, no force is larger than is said of all of them together.
    #[test]
    fn nothing_is_more_than_at_most(
        (roll, pitch, up) in (0.0..1.0_f64, 0.0..0.4_f64, 0.0..0.6_f64),
        (x, y, z) in (-4.0..4.0_f64, -2.0..2.0_f64, 0.0..3.0_f64),
        (height, play, stopped, friction) in (0.05..0.7_f64, 0.0..0.1_f64, any::<bool>(), 0.0..0.6_f64),
        (off, heading, spacing) in (0.0..0.05_f64, 0.0..6.2_f64, 0.0..0.4_f64),
    ) {
        let motion = Motion {
            roll_amplitude_rad: roll,
            roll_period_s: 3.0,
            pitch_amplitude_rad: pitch,
            pitch_period_s: 3.5,
            vertical_amplitude: up * GRAVITY,
            heel_rad: 0.05,
            ..Motion::default()
        };
        let offset = Offset::Known(off * Vec2::from_angle(heading));
        let base = if spacing < 0.2 {
            Base::Disc { radius_m: AL80_BASE_M, offset }
        } else {
            Base::Twin { foot_radius_m: AL80_BASE_M, spacing_m: spacing, axis_rad: heading, offset }
        };
        let rail = rail(height, play, stopped, friction);
        let cases = Cases::new(&motion);
        let at = vec3(x, y, z);
        let extremes = cases.extremes(at);
        let Some(most) = rail_forces_at_most(&AL80, base.ray_bounds(), &rail.into(), &extremes) else {
            prop_assert!(cases.forces(at).any(|(_, force)| force.a_n() <= 0.0));
            return Ok(());
        };
        for (_, force) in cases.forces(at) {
            let (plane, whither) = PlaneForce::worst_and_whither(&force, &AL80);
            let reach = base.ray(whither);
            let [least_reach, most_reach] = base.ray_bounds();
            prop_assert!((least_reach - 1e-12..=most_reach + 1e-12).contains(&reach), "{reach}");
            let found = rail_forces(&AL80, reach, &rail, &plane);
            let pairs = [
                (found.moment_n, most.moment_n),
                (found.slide_n, most.slide_n),
                (found.rail_n, most.rail_n),
                (found.stop_n.unwrap_or(0.0).abs(), most.stop_n.unwrap_or(0.0)),
                (found.kick, most.kick),
                (found.lift_n, most.lift_n),
            ];
            for (found, most) in pairs {
                prop_assert!(found <= most * (1.0 + 1e-12) + 1e-9, "{found} {most}");
            }
        }
    }
}
