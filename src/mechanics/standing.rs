//! A body standing free: when does it tip, when does it slide, which comes first?
//!
//! ```text
//! U_t = | h f_h + kappa^2 (Q along +x, P along -y) | / (a_n ray(d))    d = direction of the numerator
//! U_s = a_h / (mu a_n)
//! ```
//!
//! A utilisation of 1 or more means that it goes. `a_n <= 0` means that nothing presses it down.
//!
//! # Accuracy
//!
//! Overturning on a harmonic deck comes at 1.003 to 1.012 times the amplitude at which the edge
//! lifts (periods of 2.5 to 5 s), so the quasi-static limit is nearly exact and on the safe side.
//!
//! # References
//!
//! Statics, derived in `docs/method.md`, "Standing free". The rotation term is left out by codes
//! written for ship periods; at 2.5 to 5 s it is worth 2 to 9 %.

use super::motion::Force;
use super::support::Base;
use crate::geometry::Elementary as _;
use crate::geometry::{Vec2, vec2};

/// Lever in m of a person who holds a cylinder at its valve (common practice, no source).
pub const HAND_LEVER_M: f64 = 0.7;

/// Mass and its distribution, as far as the balance of an upright body asks.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub struct Body {
    /// All that stands: shell, valve, gas, kit.
    pub mass_kg: f64,

    /// Height of the centre of gravity above what the body stands on.
    pub centre_height_m: f64,

    /// `I_cg / m` about a level axis through the centre of gravity, m².
    pub kappa2_m2: f64,
}

/// Share of the tipping limit that a force uses; infinite when the body cannot stand at all.
pub fn tip(force: &Force, body: &Body, base: &Base) -> f64 {
    let moment = force.tipping(body.centre_height_m, body.kappa2_m2);
    let size = moment.length();
    let a_n = force.a_n();
    if a_n <= 0.0 {
        return f64::INFINITY;
    }
    let ray = base.ray(unit_or_x(moment, size));
    if ray <= 0.0 {
        return f64::INFINITY;
    }
    size / (a_n * ray)
}

/// Share of the sliding limit that a force uses; infinite on no friction at all.
pub fn slide(force: &Force, friction: f64) -> f64 {
    share_of_friction(force.a_h(), force.a_n(), friction)
}

/// [`tip`] of a body that fixtures back on some sides.
///
/// `backed` holds unit vectors from the body towards what backs it. The body may fall about any edge
/// whose outward normal does not point into a backed side; the worst of those counts. The force on
/// the backing itself is [`super::rack::rail_forces`] of the part towards it.
pub fn tip_open(force: &Force, body: &Body, base: &Base, backed: &[Vec2]) -> f64 {
    if backed.is_empty() {
        return tip(force, body, base);
    }
    let moment = force.tipping(body.centre_height_m, body.kappa2_m2);
    let a_n = force.a_n();
    if a_n <= 0.0 {
        return f64::INFINITY;
    }
    let size = moment.length();
    let Some(exit) = base.exit(unit_or_x(moment, size)) else {
        return f64::INFINITY;
    };
    if is_open(exit.normal, backed) {
        return size / (a_n * exit.distance_m);
    }
    open_bounds(backed)
        .map(|edge| {
            let overturning = moment.dot(edge);
            if overturning <= 0.0 {
                0.0
            } else {
                // The centre of gravity is over the base, so the lever is positive.
                overturning / (a_n * base.support_distance(edge))
            }
        })
        .fold(0.0, f64::max)
}

/// [`slide`] of a body that fixtures back on some sides, searched over the open directions.
///
/// Friction on the backing is not counted.
pub fn slide_open(force: &Force, friction: f64, backed: &[Vec2]) -> f64 {
    let along = force.along_deck();
    let size = force.a_h();
    let open = if size == 0.0 || is_open(unit_or_x(along, size), backed) {
        size
    } else {
        open_bounds(backed)
            .map(|direction| along.dot(direction))
            .fold(0.0, f64::max)
    };
    if open == 0.0 && size > 0.0 {
        return 0.0;
    }
    share_of_friction(open, force.a_n(), friction)
}

fn share_of_friction(along: f64, a_n: f64, friction: f64) -> f64 {
    if a_n <= 0.0 || friction <= 0.0 {
        f64::INFINITY
    } else {
        along / (friction * a_n)
    }
}

/// A direction counts as open up to this much of it into a backed side: rounding of unit vectors.
const OPEN_ROUNDING: f64 = 1e-9;

fn is_open(direction: Vec2, backed: &[Vec2]) -> bool {
    backed
        .iter()
        .all(|side| direction.dot(*side) <= OPEN_ROUNDING)
}

/// The directions along the backings that are open: the bounds of the open sector.
fn open_bounds(backed: &[Vec2]) -> impl Iterator<Item = Vec2> + '_ {
    backed
        .iter()
        .flat_map(|side| [vec2(-side.y, side.x), vec2(side.y, -side.x)])
        .filter(|direction| is_open(*direction, backed))
}

/// The unit vector of a vector of this size; `+x` for one without a direction.
pub(crate) fn unit_or_x(vector: Vec2, size: f64) -> Vec2 {
    if size > 0.0 {
        vec2(vector.x / size, vector.y / size)
    } else {
        vec2(1.0, 0.0)
    }
}

/// Upward pull in N that must hold a body down; 0 while the deck presses on it.
pub fn lift_force_n(force: &Force, mass_kg: f64) -> f64 {
    mass_kg * (-force.a_n()).max(0.0)
}

/// Load in N with which a body presses on what it stands on.
pub fn landing_load_n(force: &Force, mass_kg: f64) -> f64 {
    mass_kg * force.a_n().max(0.0)
}

/// Whether a level push moves the body along before it tips it: `mu < b / h`.
pub fn slides_first(friction: f64, base_radius_m: f64, centre_height_m: f64) -> bool {
    friction * centre_height_m < base_radius_m
}

/// Lean at which a body at rest on a slowly tilted deck tips, rad: `atan(b / h)`.
pub fn static_tip_angle_rad(base_radius_m: f64, centre_height_m: f64) -> f64 {
    base_radius_m.max(0.0).arc_tangent_over(centre_height_m)
}

/// Overall height over base diameter.
pub fn height_to_base_ratio(height_m: f64, base_diameter_m: f64) -> f64 {
    height_m / base_diameter_m
}

/// Force in N that a person at the valve must bring up to keep the body standing.
///
/// `lever_m` is usually [`HAND_LEVER_M`].
pub fn hand_force_n(force: &Force, body: &Body, base: &Base, lever_m: f64) -> f64 {
    let moment = force.tipping(body.centre_height_m, body.kappa2_m2);
    let size = moment.length();
    let ray = base.ray(unit_or_x(moment, size));
    body.mass_kg * (size - force.a_n() * ray).max(0.0) / lever_m
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::motion::{GRAVITY, LoadCase, Motion, Push, Swing, force_at};
    use crate::mechanics::support::Offset;
    use crate::mechanics::testing::{
        AL80, AL80_BASE_M, BANK, BANK_BASE_M, assert_close, assert_infinite,
    };
    use crate::mechanics::vector::{Vec3, vec3};
    use proptest::prelude::*;

    /// Half of the last digit of the table of values in `docs/method.md`, "Standing free".
    const TABLE: f64 = 0.5e-5;

    fn rolling(vertical_sign: i8) -> Force {
        let motion = Motion {
            roll_amplitude_rad: 10.0_f64.to_radians(),
            roll_period_s: 4.0,
            vertical_amplitude: 0.1 * GRAVITY,
            ..Motion::default()
        };
        let case = LoadCase {
            swing: Swing::Rolling,
            roll_sign: 1,
            pitch_sign: 0,
            vertical_sign,
            push: Push::None,
            ..LoadCase::AT_REST
        };
        force_at(&motion, &case, vec3(0.0, 1.0, 1.8))
    }

    #[test]
    fn rolling_matches_the_table() {
        let base = Base::disc(AL80_BASE_M);
        let light = rolling(-1);
        assert_close(light.a_h(), 2.30777, TABLE);
        assert_close(light.a_n(), 8.26126, TABLE);
        assert_close(tip(&light, &AL80, &base), 1.10298, TABLE);
        assert_close(slide(&light, 0.2), 1.39674, TABLE);
        let plain = Body {
            kappa2_m2: 0.0,
            ..AL80
        };
        assert_close(tip(&light, &plain, &base), 1.07494, TABLE);
        let heavy = rolling(1);
        assert_close(heavy.a_h(), 2.64835, TABLE);
        assert_close(heavy.a_n(), 10.19279, TABLE);
        assert_close(tip(&heavy, &AL80, &base), 1.02254, TABLE);
    }

    #[test]
    fn a_rigged_cylinder_tips_early_towards_its_kit() {
        let towards = static_tip_angle_rad(0.0829 - 0.025, 0.354).to_degrees();
        let away = static_tip_angle_rad(0.0829 + 0.025, 0.354).to_degrees();
        assert_close(towards, 9.28901, TABLE);
        assert_close(away, 16.95134, TABLE);
    }

    #[test]
    fn the_rotation_of_the_body_costs_what_the_table_says() {
        // In percent, for a small swing, on a deck 0.92 m above the roll axis.
        let share = |body: &Body, base_m: f64, period_s: f64| {
            let motion = Motion {
                roll_amplitude_rad: 0.01,
                roll_period_s: period_s,
                ..Motion::default()
            };
            let case = LoadCase {
                swing: Swing::Rolling,
                roll_sign: 1,
                ..LoadCase::AT_REST
            };
            let force = force_at(&motion, &case, vec3(0.0, 0.0, 0.92 + body.centre_height_m));
            let plain = Body {
                kappa2_m2: 0.0,
                ..*body
            };
            let base = Base::disc(base_m);
            let (with, without) = (tip(&force, body, &base), tip(&force, &plain, &base));
            100.0 * (with / without - 1.0)
        };
        // Figures of `docs/method.md`, "Standing free", which names no height: 0.92 m fits all
        // eight to their last digit (0.05), but one by 0.01.
        for (period_s, al80, bank) in [
            (2.5, 5.0, 9.0),
            (3.0, 4.0, 7.4),
            (4.0, 2.7, 5.2),
            (5.0, 1.9, 3.7),
        ] {
            assert_close(share(&AL80, AL80_BASE_M, period_s), al80, 0.06);
            assert_close(share(&BANK, BANK_BASE_M, period_s), bank, 0.06);
        }
    }

    #[test]
    fn the_heavy_phase_asks_for_the_largest_hand() {
        // BANK, T 5 s, a_v 0.2 g, z_r 1.7, 25 degrees: 250.0 N m heavy, 187.7 light, without the
        // rotation term (`docs/method.md`, "Motion").
        let motion = Motion {
            roll_amplitude_rad: 25.0_f64.to_radians(),
            roll_period_s: 5.0,
            vertical_amplitude: 0.2 * GRAVITY,
            ..Motion::default()
        };
        let plain = Body {
            kappa2_m2: 0.0,
            ..BANK
        };
        let moment = |vertical_sign| {
            let case = LoadCase {
                swing: Swing::Rolling,
                roll_sign: 1,
                pitch_sign: 0,
                vertical_sign,
                push: Push::None,
                ..LoadCase::AT_REST
            };
            let force = force_at(&motion, &case, vec3(0.0, 0.0, 1.7));
            hand_force_n(&force, &plain, &Base::disc(BANK_BASE_M), 1.0)
        };
        assert_close(moment(1), 250.0, 0.05);
        assert_close(moment(-1), 187.7, 0.05);
    }

    #[test]
    fn a_slippery_deck_slides_first() {
        assert!(slides_first(0.2, AL80_BASE_M, AL80.centre_height_m));
        assert!(!slides_first(0.3, AL80_BASE_M, AL80.centre_height_m));
    }

    #[test]
    fn a_round_bottom_cannot_stand() {
        let level = Force {
            f: vec3(0.0, 0.0, -GRAVITY),
            ..Force::default()
        };
        assert_infinite(tip(&level, &AL80, &Base::None));
        assert_close(tip(&level, &AL80, &Base::disc(AL80_BASE_M)), 0.0, 0.0);
        assert_infinite(slide(&level, 0.0));
    }

    fn push(x: f64, y: f64) -> Force {
        Force {
            f: vec3(x, y, -9.0),
            ..Force::default()
        }
    }

    #[test]
    fn backing_leaves_the_other_sides_open() {
        let base = Base::disc(AL80_BASE_M);
        let wall = [vec2(0.0, 1.0)];
        assert_close(tip_open(&push(0.0, 3.0), &AL80, &base, &wall), 0.0, 1e-12);
        assert_close(slide_open(&push(0.0, 3.0), 0.2, &wall), 0.0, 1e-12);
        let away = push(0.0, -3.0);
        assert_close(
            tip_open(&away, &AL80, &base, &wall),
            tip(&away, &AL80, &base),
            1e-12,
        );
        // Slanting into the wall: what is left runs along it.
        let slant = push(3.0, 4.0);
        assert_close(
            tip_open(&slant, &AL80, &base, &wall),
            tip(&push(3.0, 0.0), &AL80, &base),
            1e-12,
        );
        assert_close(slide_open(&slant, 0.2, &wall), 3.0 / (0.2 * 9.0), 1e-12);
        // A corner holds what runs into both walls.
        let corner = [vec2(0.0, 1.0), vec2(1.0, 0.0)];
        assert_close(tip_open(&slant, &AL80, &base, &corner), 0.0, 1e-12);
        assert_close(
            tip_open(&push(-3.0, 4.0), &AL80, &base, &corner),
            tip(&push(3.0, 0.0), &AL80, &base),
            1e-12,
        );
    }

    proptest! {
        #![proptest_config(crate::mechanics::property::cases(256))]

        #[test]
        fn a_search_over_tilting_edges_finds_the_ray(
            fx in -4.0..4.0_f64, fy in -4.0..4.0_f64, axis in 0.0..3.2_f64,
            ox in -0.04..0.04_f64, oy in -0.04..0.04_f64, wall in 0.0..6.3_f64, walls in 0..3_usize,
        ) {
            let base = Base::Twin {
                foot_radius_m: 0.08, spacing_m: 0.2, axis_rad: axis, offset: Offset::Known(vec2(ox, oy)),
            };
            let force = Force {
                f: vec3(fx, fy, -9.0), roll_acceleration: 0.3 * fx, pitch_acceleration: -0.2 * fy,
                ..Force::default()
            };
            let backed: Vec<Vec2> = (0..walls)
                .map(|i| { let (s, c) = (wall + i as f64).sine_cosine(); vec2(c, s) })
                .collect();
            let moment = force.tipping(AL80.centre_height_m, AL80.kappa2_m2);
            let searched = (0..7200)
                .map(|i| { let (s, c) = (f64::from(i) * 0.05_f64.to_radians()).sine_cosine(); vec2(c, s) })
                .filter(|edge| backed.iter().all(|side| edge.dot(*side) <= 1e-9))
                .map(|edge| moment.dot(edge) / (9.0 * base.support_distance(edge)))
                .fold(0.0, f64::max);
            let found = tip_open(&force, &AL80, &base, &backed);
            // A search in steps of 0.05 degrees may miss the peak or a wall by 0.0009 rad of slope.
            prop_assert!(found >= searched - 1e-9);
            prop_assert!(found <= searched + 0.004 * (1.0 + searched), "{found} against {searched}");
        }

        #[test]
        fn a_mirrored_push_is_as_bad(fx in -4.0..4.0_f64, fy in -4.0..4.0_f64, oy in -0.04..0.04_f64) {
            let base = |y| Base::Disc { radius_m: 0.08, offset: Offset::Known(vec2(0.01, y)) };
            let force = |y: f64| Force { f: vec3(fx, y, -9.0), roll_acceleration: -0.3 * y, pitch_acceleration: 0.1, ..Force::default() };
            let (a, b) = (tip(&force(fy), &AL80, &base(oy)), tip(&force(-fy), &AL80, &base(-oy)));
            prop_assert!((a - b).abs() < 1e-12);
        }

        #[test]
        fn twice_the_size_in_lengths_tips_alike(fx in -4.0..4.0_f64, fy in -4.0..4.0_f64, k in 0.3..4.0_f64) {
            let force = Force { f: vec3(fx, fy, -9.0), ..Force::default() };
            let large = Body { mass_kg: 1.0, centre_height_m: k * 0.3, kappa2_m2: 0.0 };
            let small = Body { mass_kg: 7.0, centre_height_m: 0.3, kappa2_m2: 0.0 };
            let (a, b) = (tip(&force, &large, &Base::disc(k * 0.08)), tip(&force, &small, &Base::disc(0.08)));
            prop_assert!((a - b).abs() < 1e-9);
        }
    }

    #[test]
    fn lift_and_landing_share_the_normal_force() {
        let flying = Force {
            f: Vec3 {
                x: 0.0,
                y: 0.0,
                z: 2.0,
            },
            ..Force::default()
        };
        assert_close(lift_force_n(&flying, 17.8), 35.6, 1e-12);
        assert_close(landing_load_n(&flying, 17.8), 0.0, 1e-12);
        assert_infinite(tip(&flying, &AL80, &Base::disc(AL80_BASE_M)));
    }
}
