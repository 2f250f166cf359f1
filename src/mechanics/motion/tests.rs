use super::*;
use crate::geometry::Elementary as _;
use crate::mechanics::testing::assert_close;

/// Half of the last digit of the table of values in `docs/method.md`, "Motion".
const TABLE: f64 = 0.5e-5;

fn rolling() -> Motion {
    Motion {
        roll_amplitude_rad: 20.0_f64.to_radians(),
        roll_period_s: 4.0,
        heel_rad: 3.0_f64.to_radians(),
        ..Motion::default()
    }
}

fn pitching() -> Motion {
    Motion {
        pitch_amplitude_rad: 8.0_f64.to_radians(),
        pitch_period_s: 3.2,
        trim_rad: 1.0_f64.to_radians(),
        ..Motion::default()
    }
}

fn both() -> Motion {
    Motion {
        roll_amplitude_rad: 20.0_f64.to_radians(),
        roll_period_s: 4.0,
        heel_rad: 3.0_f64.to_radians(),
        ..pitching()
    }
}

fn case(swing: Swing, roll_sign: i8, pitch_sign: i8, vertical_sign: i8) -> LoadCase {
    LoadCase {
        swing,
        roll_sign,
        pitch_sign,
        vertical_sign,
        push: Push::None,
        end: PeriodEnd::Shortest,
    }
}

#[test]
fn rolling_matches_the_table() {
    let at = vec3(0.0, 2.0, 1.8);
    let low = force_at(&rolling(), &case(Swing::Rolling, 1, 0, 0), at);
    assert_close(low.f.y, -5.38208, TABLE);
    assert_close(low.f.z, -7.30450, TABLE);
    let high = force_at(&rolling(), &case(Swing::Rolling, -1, 0, 0), at);
    assert_close(high.f.y, 4.41750, TABLE);
    assert_close(high.f.z, -11.10072, TABLE);
}

#[test]
fn pitching_matches_the_table() {
    let at = vec3(4.0, 0.0, 1.8);
    let down = force_at(&pitching(), &case(Swing::Pitching, 0, 1, 0), at);
    assert_close(down.f.x, 2.50304, TABLE);
    assert_close(down.f.z, -11.83913, TABLE);
    let up = force_at(&pitching(), &case(Swing::Pitching, 0, -1, 0), at);
    assert_close(up.f.x, -2.16408, TABLE);
    assert_close(up.f.z, -7.58034, TABLE);
}

#[test]
fn quartering_matches_the_table() {
    let at = vec3(4.0, 2.0, 1.8);
    let calm = force_at(&both(), &case(Swing::Quartering, 1, 1, 0), at).f;
    assert_close(calm.x, 2.01591, TABLE);
    assert_close(calm.y, -4.41596, TABLE);
    assert_close(calm.z, -9.54470, TABLE);
    let motion = Motion {
        vertical_amplitude: 0.1 * GRAVITY,
        ..both()
    };
    let light = force_at(&motion, &case(Swing::Quartering, 1, 1, -1), at).f;
    assert_close(light.x, 1.90223, TABLE);
    assert_close(light.y, -4.12886, TABLE);
    assert_close(light.z, -8.61392, TABLE);
}

#[test]
fn a_full_motion_has_every_case_once() {
    let motion = Motion {
        vertical_amplitude: 1.0,
        push: StraightPushes {
            aft: 2.0,
            ..StraightPushes::default()
        },
        ..both()
    };
    let mut cases = load_cases(&motion);
    assert_eq!(cases.len(), (2 + 4 + 4 + 8) * 2);
    cases.sort();
    cases.dedup();
    assert_eq!(cases.len(), 36);
    assert_eq!(load_cases(&Motion::default()), [LoadCase::AT_REST]);
}

#[test]
fn prepared_cases_agree_with_single_ones() {
    let motion = Motion {
        vertical_amplitude: 0.7,
        push: StraightPushes {
            forward: 0.5,
            aft: 3.0,
            to_port: 1.0,
            to_starboard: 1.5,
        },
        axes: Axes {
            roll_height_m: 0.2,
            pitch_x_m: 5.0,
            pitch_height_m: -0.1,
        },
        ..both()
    };
    let at = vec3(3.0, -1.5, 1.6);
    let mut count = 0;
    for (case, force) in Cases::new(&motion).forces(at) {
        let single = force_at(&motion, &case, at);
        assert!((single.f - force.f).length() < 1e-12, "{case:?}");
        count += 1;
    }
    assert_eq!(count, 90);
}

#[test]
fn stopping_throws_things_forward() {
    let motion = Motion {
        push: StraightPushes {
            aft: 3.0,
            to_port: 1.0,
            ..StraightPushes::default()
        },
        ..Motion::default()
    };
    let stop = LoadCase {
        push: Push::Aft,
        ..LoadCase::AT_REST
    };
    assert_close(force_at(&motion, &stop, Vec3::default()).f.x, 3.0, 1e-12);
    let turn = LoadCase {
        push: Push::ToPort,
        ..LoadCase::AT_REST
    };
    assert_close(force_at(&motion, &turn, Vec3::default()).f.y, -1.0, 1e-12);
}

/// Double numerical differentiation of the body's place over the ground, with the boat's
/// rotation as matrices: no formula of this file is used.
#[test]
fn agrees_with_differentiated_motion() {
    let motion = both();
    let (w_roll, w_pitch) = (TAU / 4.0, TAU / 3.2);
    let at = vec3(4.0, 2.0, 1.8);
    let earth_from_boat = |t: f64, v: Vec3| {
        let phi =
            motion.heel_rad + motion.roll_amplitude_rad * FRAC_1_SQRT_2 * (w_roll * t).cosine();
        let theta =
            motion.trim_rad + motion.pitch_amplitude_rad * FRAC_1_SQRT_2 * (w_pitch * t).cosine();
        let (s, c) = phi.sine_cosine();
        let rolled = vec3(v.x, c * v.y - s * v.z, s * v.y + c * v.z);
        let (s, c) = theta.sine_cosine();
        vec3(
            c * rolled.x + s * rolled.z,
            rolled.y,
            c * rolled.z - s * rolled.x,
        )
    };
    let dt = 1e-3;
    let place = |t| earth_from_boat(t, at);
    let acceleration = (1.0 / (dt * dt)) * (place(dt) + place(-dt) - 2.0 * place(0.0));
    let felt = vec3(0.0, 0.0, -GRAVITY) - acceleration;
    let in_boat = |axis| earth_from_boat(0.0, axis).dot(felt);
    let f = force_at(&motion, &case(Swing::Quartering, 1, 1, 0), at).f;
    assert_close(f.x, in_boat(vec3(1.0, 0.0, 0.0)), 1e-4);
    assert_close(f.y, in_boat(vec3(0.0, 1.0, 0.0)), 1e-4);
    assert_close(f.z, in_boat(vec3(0.0, 0.0, 1.0)), 1e-4);
}

/// The force field of a turning boat is linear in the place: asked elsewhere, and moved there, it is the
/// same.
#[test]
fn a_force_moved_is_the_force_there() {
    let motion = Motion {
        vertical_amplitude: 2.0,
        push: StraightPushes {
            aft: 1.5,
            ..StraightPushes::default()
        },
        ..both()
    };
    let (here, there) = (vec3(3.0, -1.2, 0.9), vec3(-1.0, 0.7, 2.1));
    let cases = Cases::new(&motion);
    for (case, force) in cases.forces(here) {
        let moved = force.moved_by(there - here);
        let asked = force_at(&motion, &case, there);
        assert_close((moved.f - asked.f).length(), 0.0, 1e-12);
        assert_close(moved.roll_acceleration, asked.roll_acceleration, 0.0);
    }
    let differs =
        |(_, force): (LoadCase, Force)| (force.moved_by(there - here).f - force.f).length();
    assert!(cases.forces(here).map(differs).fold(0.0, f64::max) > 1.0);
}

/// `f = f_0 + w^2 f_1`: at each period of a range a mixture of the forces at its ends.
#[test]
fn between_the_ends_of_a_range_the_force_is_a_mixture() {
    let motion = Motion {
        roll_period_s: 2.0,
        longest_roll_period_s: Some(4.0),
        ..both()
    };
    for (swing, q) in [(Swing::Rolling, 0), (Swing::Quartering, 1)] {
        for z in [-1.5, 0.4, 2.0] {
            let at = vec3(1.0, -1.2, z);
            let quick = case(swing, 1, q, 0);
            let slow = LoadCase {
                end: PeriodEnd::Longest,
                ..quick
            };
            let [short, long] = [quick, slow].map(|case| force_at(&motion, &case, at).f);
            for period_s in [2.3, 3.0, 3.9] {
                let one = Motion {
                    roll_period_s: period_s,
                    longest_roll_period_s: None,
                    ..motion
                };
                let found = force_at(&one, &quick, at).f;
                let w2 = |period: f64| period.whole_power(-2);
                let share = (w2(period_s) - w2(4.0)) / (w2(2.0) - w2(4.0));
                for (found, short, long) in [
                    (found.x, short.x, long.x),
                    (found.y, short.y, long.y),
                    (found.z, short.z, long.z),
                ] {
                    assert_close(found, share * short + (1.0 - share) * long, 1e-12);
                }
            }
        }
    }
    let ends = load_cases(&motion);
    let count = |end| ends.iter().filter(|case| case.end == end).count();
    let one = Motion {
        longest_roll_period_s: None,
        ..motion
    };
    assert_eq!(count(PeriodEnd::Shortest), load_cases(&one).len());
    // Rolling and quartering in every sign.
    assert_eq!(count(PeriodEnd::Longest), 2 + 4);
}
