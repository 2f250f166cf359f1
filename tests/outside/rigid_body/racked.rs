//! A foot that only friction holds, under a rail.

use rapier3d_f64::prelude::*;
use snugdown::mechanics::lean::PlaneForce;
use snugdown::mechanics::rack::{Rail, RailForces, rail_forces};
use snugdown::mechanics::standing::Body;

use super::{Load, Scene, agree, threshold};

const CYLINDER: Body = Body {
    mass_kg: 17.8,
    centre_height_m: 0.319,
    kappa2_m2: 0.795 / 17.8,
};
const FOOT_M: f64 = 0.0829;
const SHELL_M: f64 = 0.0921;
const A_N: f64 = 9.0;

fn ours(rail: &Rail, ratio: f64) -> RailForces {
    let force = PlaneForce {
        a_h: ratio * A_N,
        a_n: A_N,
        spin: 0.0,
    };
    rail_forces(&CYLINDER, FOOT_M, rail, &force)
}

/// A cylinder with a smooth rail on its +x side: the shell touches it at the rail's height.
struct Held {
    scene: Scene,
    body: RigidBodyHandle,
    rail: ColliderHandle,
    shell: ColliderHandle,
}

fn held(rail: &Rail) -> Held {
    let mut scene = Scene::new(rail.friction);
    let i = CYLINDER.kappa2_m2 * CYLINDER.mass_kg;
    let mass = MassProperties::new(
        Vector::new(0.0, 0.0, CYLINDER.centre_height_m),
        CYLINDER.mass_kg,
        Vector::new(i, i, 0.1),
    );
    let body = scene.body(Vector::ZERO, mass);
    scene.foot(body, Vector::ZERO, FOOT_M);
    let point = 0.001;
    let shell =
        ColliderBuilder::ball(point).translation(Vector::new(SHELL_M - point, 0.0, rail.height_m));
    let shell = scene.attach(body, shell);
    let half = 0.03;
    let rail = scene.block(
        Vector::new(SHELL_M + rail.play_m + half, 0.0, rail.height_m),
        Vector::new(half, 0.3, half),
        0.0,
    );
    Held {
        scene,
        body,
        rail,
        shell,
    }
}

/// Low rails, where the top falls over and the foot goes back; high ones, where the foot goes out.
#[test]
fn the_foot_kicks_out() {
    for (height_m, friction) in [(0.10, 0.2), (0.55, 0.1), (0.62, 0.2)] {
        let rail = Rail {
            height_m,
            friction,
            ..Rail::default()
        };
        let expected = 1.0 / ours(&rail, 1.0).kick;
        let engine = threshold(expected, |ratio| {
            let mut held = held(&rail);
            let load = Load::steady(Vector::X * (ratio * A_N), A_N);
            held.scene.run(&load, |world| {
                Scene::lean(world, held.body) > 0.03
                    || Scene::translation(world, held.body).x.abs() > 0.01
            })
        });
        agree(engine, expected, 0.025);
    }
}

/// With play the body leans onto its foot edge, so rail and stop are determined by statics.
#[test]
fn rail_and_stop_carry_the_moment() {
    for (height_m, play_m, ratio) in [(0.44, 0.02, 0.5556), (0.25, 0.01, 0.45)] {
        let rail = Rail {
            height_m,
            play_m,
            foot_stopped: true,
            friction: 0.0,
        };
        let expected = ours(&rail, ratio);
        let mut held = held(&rail);
        // On one point of its rim and two smooth ones ahead it would turn about its own axis.
        held.scene.world.bodies[held.body].set_enabled_rotations(false, true, false, true);
        // A socket floor stops the foot on both sides; when the shell strikes a low rail the foot
        // first jumps inward.
        let point = 0.001;
        let half = 0.02;
        let [(stop, toe), _] = [1.0, -1.0].map(|side| {
            let toe =
                ColliderBuilder::ball(point).translation(Vector::new(side * FOOT_M, 0.0, point));
            let toe = held.scene.attach(held.body, toe);
            let middle = Vector::new(side * (FOOT_M + point + half), 0.0, 0.0);
            let stop = held.scene.block(middle, Vector::new(half, 0.3, half), 0.0);
            (stop, toe)
        });
        let load = Load::steady(Vector::X * (ratio * A_N), A_N);
        let gone = held.scene.run(&load, |world| {
            Scene::lean(world, held.body) > 1.5 * rail.lean_rad()
        });
        assert!(!gone, "the rail at {height_m} m holds it");
        let lean = Scene::lean(&held.scene.world, held.body);
        agree(lean, rail.lean_rad(), 0.01);
        agree(
            held.scene.mean_contact_n(held.rail, held.shell),
            expected.rail_n,
            0.01,
        );
        agree(
            held.scene.mean_contact_n(stop, toe),
            expected.stop_n.unwrap(),
            0.01,
        );
    }
}
