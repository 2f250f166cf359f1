//! Lying cylinders: chocks, loose chocks, rows, tiers.

use rapier3d_f64::prelude::*;
use snugdown::mechanics::lying::{Lying, LyingForce, RollStop, SPIN_RATIO};
use snugdown::mechanics::tiers::{LowerRow, TwoTiers, groove_angle_rad};

use super::{Load, Scene, agree, threshold};

const MASS_KG: f64 = 17.8;
const SHELL_M: f64 = 0.0921;
/// Where the two contacts of a shell lie along its axis.
const HALF_LENGTH_M: f64 = 0.25;
const A_N: f64 = 9.0;

/// A cylinder along y, its axis at `(x, z)`, touching whatever is there.
fn lying(scene: &mut Scene, x: f64, z: f64, friction: f64) -> RigidBodyHandle {
    let spin = SPIN_RATIO * MASS_KG * SHELL_M * SHELL_M;
    let mass = MassProperties::new(Vector::ZERO, MASS_KG, Vector::new(1.0, spin, 1.0));
    let body = scene.body(Vector::new(x, 0.0, z), mass);
    // A ball near each end touches floor, edges and neighbours as the shell does, at exact points.
    for y in [-HALF_LENGTH_M, HALF_LENGTH_M] {
        let shell = ColliderBuilder::ball(SHELL_M)
            .translation(Vector::Y * y)
            .friction(friction);
        scene.attach(body, shell);
    }
    body
}

/// An upright edge of a height that a shell about `axis_x` reaches after rolling `gap_m` forward.
fn chock(scene: &mut Scene, axis_x: f64, height_m: f64, gap_m: f64, friction: f64) {
    let below = SHELL_M - height_m;
    let reach = (SHELL_M * SHELL_M - below * below).sqrt();
    let half = 0.1;
    scene.block(
        Vector::new(axis_x + reach + gap_m + half, 0.0, height_m - half),
        Vector::new(half, 0.5, half),
        friction,
    );
}

fn load(ratio: f64) -> Load {
    Load::steady(Vector::X * (ratio * A_N), A_N)
}

/// The ratio at which our formula says it rolls.
fn ours(stop: RollStop, row: u32) -> f64 {
    let body = Lying {
        mass_kg: MASS_KG,
        radius_m: SHELL_M,
        left: stop,
        right: stop,
        row,
        strap: None,
    };
    let force = LyingForce {
        across: A_N,
        along: 0.0,
        a_n: A_N,
    };
    1.0 / body.roll(&force)
}

#[test]
fn a_snug_chock_holds_up_to_its_angle() {
    for share in [0.1, 0.2, 0.4] {
        let expected = ours(RollStop::chock(SHELL_M, share * SHELL_M, 0.0), 1);
        let engine = threshold(expected, |ratio| {
            let mut scene = Scene::new(0.5);
            let body = lying(&mut scene, 0.0, SHELL_M, 0.5);
            chock(&mut scene, 0.0, share * SHELL_M, 0.0, 0.5);
            scene.run(&load(ratio), |world| {
                Scene::translation(world, body).z > SHELL_M * (1.0 + 0.5 * share)
            })
        });
        agree(engine, expected, 0.015);
    }
}

/// From rest, over the gap, without rebound.
#[test]
fn a_loose_chock_holds_much_less() {
    for gap in [0.1, 0.25, 0.5] {
        let expected = ours(RollStop::chock(SHELL_M, 0.2 * SHELL_M, gap * SHELL_M), 1);
        let engine = threshold(expected, |ratio| {
            let mut scene = Scene::new(1.0);
            let body = lying(&mut scene, 0.0, SHELL_M, 1.0);
            chock(&mut scene, 0.0, 0.2 * SHELL_M, gap * SHELL_M, 1.0);
            let sudden = Load {
                rise_s: super::STEP_S,
                hold_s: 1.5,
                ..load(ratio)
            };
            scene.run(&sudden, |world| {
                Scene::translation(world, body).z > SHELL_M * 1.15
            })
        });
        agree(engine, expected, 0.05);
    }
}

#[test]
fn a_row_leans_on_its_end_chock() {
    let gamma = 40.0_f64.to_radians();
    let height = SHELL_M * (1.0 - gamma.cos());
    let expected = ours(RollStop::chock(SHELL_M, height, 0.0), 3);
    let engine = threshold(expected, |ratio| {
        let mut scene = Scene::new(0.0);
        let last = lying(&mut scene, 0.0, SHELL_M, 0.0);
        lying(&mut scene, -2.0 * SHELL_M, SHELL_M, 0.0);
        lying(&mut scene, -4.0 * SHELL_M, SHELL_M, 0.0);
        chock(&mut scene, 0.0, height, 0.0, 0.0);
        // A wall behind, so that the row does not drift while it is pressed down.
        scene.block(
            Vector::new(-5.0 * SHELL_M - 0.1, 0.0, 0.1),
            Vector::new(0.1, 0.5, 0.1),
            0.0,
        );
        scene.run(&load(ratio), |world| {
            Scene::translation(world, last).z > SHELL_M + 0.01
        })
    });
    agree(engine, expected, 0.015);
}

/// Two below, touching, chocked at both ends; one above.
#[test]
fn a_stack_spreads_its_lower_row() {
    for gamma_deg in [30.0_f64, 40.0] {
        let stack = TwoTiers {
            lower_count: 2,
            groove_angle_rad: groove_angle_rad(2.0, 1.0, 1.0).unwrap(),
            contact_angle_rad: gamma_deg.to_radians(),
            lower_row: LowerRow::EndChocks,
        };
        let height = SHELL_M * (1.0 - gamma_deg.to_radians().cos());
        let expected = stack.limit();
        let engine = threshold(expected, |ratio| {
            let mut scene = Scene::new(0.0);
            let front = lying(&mut scene, SHELL_M, SHELL_M, 0.0);
            lying(&mut scene, -SHELL_M, SHELL_M, 0.0);
            let upper = SHELL_M * (1.0 + 3.0_f64.sqrt());
            let top = lying(&mut scene, 0.0, upper, 0.0);
            chock(&mut scene, SHELL_M, height, 0.0, 0.0);
            let below = SHELL_M - height;
            let reach = (SHELL_M * SHELL_M - below * below).sqrt();
            scene.block(
                Vector::new(-SHELL_M - reach - 0.1, 0.0, height - 0.1),
                Vector::new(0.1, 0.5, 0.1),
                0.0,
            );
            scene.run(&load(ratio), |world| {
                Scene::translation(world, front).z > SHELL_M + 0.01
                    || Scene::translation(world, top).z < upper - 0.03
            })
        });
        agree(engine, expected, 0.015);
    }
}
