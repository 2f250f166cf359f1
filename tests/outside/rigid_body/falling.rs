//! One body falls onto another: no toppling may be missed.

use rapier3d_f64::prelude::*;
use snugdown::mechanics::falling::{Faller, Upright, strike};
use snugdown::mechanics::lean::{PlaneForce, Stance};

use super::{Load, Scene};

const A_N: f64 = 9.5;

fn upright(mass_kg: f64, height_m: f64, centre_height_m: f64, reach_m: f64) -> Upright {
    Upright {
        mass_kg,
        height_m,
        radius_m: 0.0921,
        stance: Stance {
            centre_height_m,
            reach_m,
        },
    }
}

/// A body that stands at `x`, kept in the plane of the fall.
fn stand(scene: &mut Scene, body: &Upright, x: f64) -> RigidBodyHandle {
    let i = 0.0446 * body.mass_kg;
    let mass = MassProperties::new(
        Vector::new(0.0, 0.0, body.stance.centre_height_m),
        body.mass_kg,
        Vector::new(i, i, 0.1),
    );
    let handle = scene.body(Vector::new(x, 0.0, 0.0), mass);
    for (along, beside) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
        let point = 0.001;
        let foot = ColliderBuilder::ball(point)
            .translation(Vector::new(
                along * body.stance.reach_m,
                beside * 0.05,
                point,
            ))
            .friction(2.0);
        scene.attach(handle, foot);
    }
    // The shell, clear of the floor.
    let lift = 0.02;
    let half = 0.5 * (body.height_m - lift);
    let shell = ColliderBuilder::cuboid(body.radius_m, 0.04, half)
        .translation(Vector::new(0.0, 0.0, half + lift))
        .friction(0.3);
    scene.attach(handle, shell);
    scene.world.bodies[handle].set_enabled_rotations(false, true, false, true);
    handle
}

#[test]
fn no_toppling_is_missed() {
    let falling = upright(17.8, 0.70, 0.319, 0.055);
    let neighbours = [
        upright(17.8, 0.70, 0.319, 0.0829),
        upright(35.0, 0.70, 0.30, 0.0921),
        upright(60.0, 0.75, 0.28, 0.0921),
        upright(8.0, 0.50, 0.22, 0.0829),
    ];
    let (mut toppled, mut stood) = (0, 0);
    for struck in &neighbours {
        for (ratio, gap_m) in [(0.19, 0.01), (0.19, 0.05), (0.22, 0.12), (0.19, 0.30)] {
            let force = PlaneForce {
                a_h: ratio * A_N,
                a_n: A_N,
                spin: 0.0,
            };
            let faller = Faller {
                body: falling,
                force,
                received_j: 0.0,
            };
            let told = strike(&faller, struck, &force, gap_m).unwrap();
            let mut scene = Scene::new(2.0);
            stand(&mut scene, &falling, 0.0);
            let other = stand(&mut scene, struck, 2.0 * 0.0921 + gap_m);
            let load = Load {
                hold_s: 2.0,
                ..Load::steady(Vector::X * force.a_h, A_N)
            };
            let gone = scene.run(&load, |world| {
                Scene::lean(world, other) > struck.stance.tip_angle_rad()
            });
            assert!(
                told.topples() || !gone,
                "missed: {} kg at {gap_m} m and {ratio}",
                struck.mass_kg
            );
            if gone {
                toppled += 1;
            } else if !told.topples() {
                stood += 1;
            }
        }
    }
    assert!(toppled > 0 && stood > 0, "{toppled} topple, {stood} stand");
}
