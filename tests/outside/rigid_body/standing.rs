//! Free-standing bodies: tip, slide, lift, twins, backing.

use rapier3d_f64::prelude::*;
use snugdown::geometry::{Vec2, vec2};
use snugdown::mechanics::motion::Force;
use snugdown::mechanics::standing::{Body, slide, slide_open, tip, tip_open};
use snugdown::mechanics::support::{Base, Offset};
use snugdown::mechanics::vector::vec3;

use super::{Load, Scene, agree, threshold};

/// A filled 11.1 l aluminium cylinder: mass, centre, inertia as in `docs/method.md`.
const CYLINDER: Body = Body {
    mass_kg: 17.8,
    centre_height_m: 0.319,
    kappa2_m2: 0.795 / 17.8,
};
const FOOT_M: f64 = 0.0829;
const SHELL_M: f64 = 0.0921;
const A_N: f64 = 9.0;

/// Lean that is no longer the giving of contacts, rad.
const GONE_RAD: f64 = 0.03;

fn direction(degrees: f64) -> Vec2 {
    Vec2::from_angle(degrees.to_radians())
}

/// Mass of the cylinder with its centre off the axis.
fn mass(offset: Vec2) -> MassProperties {
    let i = CYLINDER.kappa2_m2 * CYLINDER.mass_kg;
    MassProperties::new(
        Vector::new(offset.x, offset.y, CYLINDER.centre_height_m),
        CYLINDER.mass_kg,
        Vector::new(i, i, 0.1),
    )
}

fn force(ratio: f64, towards: Vec2) -> Force {
    Force {
        f: vec3(ratio * A_N * towards.x, ratio * A_N * towards.y, -A_N),
        ..Force::default()
    }
}

fn load(ratio: f64, towards: Vec2) -> Load {
    Load::steady(ratio * A_N * Vector::new(towards.x, towards.y, 0.0), A_N)
}

/// One over the utilisation at unit ratio: the ratio at which it goes.
fn limit(utilisation: impl Fn(&Force) -> f64, towards: Vec2) -> f64 {
    1.0 / utilisation(&force(1.0, towards))
}

#[test]
fn a_free_cylinder_tips() {
    let towards = direction(17.0);
    let ours = limit(|f| tip(f, &CYLINDER, &Base::disc(FOOT_M)), towards);
    let engine = threshold(ours, |ratio| {
        let mut scene = Scene::new(1.0);
        let body = scene.body(Vector::ZERO, mass(vec2(0.0, 0.0)));
        scene.foot(body, Vector::ZERO, FOOT_M);
        scene.run(&load(ratio, towards), |world| {
            Scene::lean(world, body) > GONE_RAD
        })
    });
    agree(engine, ours, 0.02);
}

#[test]
fn a_kit_draws_the_centre_aside() {
    let kit = vec2(0.025, 0.0);
    let base = Base::Disc {
        radius_m: FOOT_M,
        offset: Offset::Known(kit),
    };
    for degrees in [0.0, 60.0, 180.0] {
        let towards = direction(degrees);
        let ours = limit(|f| tip(f, &CYLINDER, &base), towards);
        let engine = threshold(ours, |ratio| {
            let mut scene = Scene::new(1.0);
            let body = scene.body(Vector::ZERO, mass(kit));
            scene.foot(body, Vector::ZERO, FOOT_M);
            scene.run(&load(ratio, towards), |world| {
                Scene::lean(world, body) > GONE_RAD
            })
        });
        agree(engine, ours, 0.02);
    }
}

/// The support distance instead of the ray would be 36 % too good at 45 degrees.
#[test]
fn a_twin_tips_at_the_ray() {
    let base = Base::Twin {
        foot_radius_m: FOOT_M,
        spacing_m: 0.215,
        axis_rad: 0.0,
        offset: Offset::NONE,
    };
    for degrees in [45.0, 75.0] {
        let towards = direction(degrees);
        let ours = limit(|f| tip(f, &CYLINDER, &base), towards);
        let engine = threshold(ours, |ratio| {
            let mut scene = Scene::new(1.5);
            let body = scene.body(Vector::ZERO, mass(vec2(0.0, 0.0)));
            scene.foot(body, Vector::new(0.0, 0.1075, 0.0), FOOT_M);
            scene.foot(body, Vector::new(0.0, -0.1075, 0.0), FOOT_M);
            scene.run(&load(ratio, towards), |world| {
                Scene::lean(world, body) > GONE_RAD
            })
        });
        agree(engine, ours, 0.02);
    }
}

#[test]
fn a_slippery_foot_slides() {
    let towards = direction(40.0);
    let friction = 0.15;
    let ours = limit(|f| slide(f, friction), towards);
    let engine = threshold(ours, |ratio| {
        let mut scene = Scene::new(friction);
        let body = scene.body(Vector::ZERO, mass(vec2(0.0, 0.0)));
        scene.foot(body, Vector::ZERO, FOOT_M);
        scene.run(&load(ratio, towards), |world| {
            Scene::translation(world, body).length() > 0.004
        })
    });
    agree(engine, ours, 0.02);
}

#[test]
fn what_is_not_pressed_down_lifts() {
    let rises = |a_n: f64| {
        let mut scene = Scene::new(0.5);
        let body = scene.body(Vector::ZERO, mass(vec2(0.0, 0.0)));
        scene.foot(body, Vector::ZERO, FOOT_M);
        scene.run(&Load::steady(Vector::ZERO, a_n), |world| {
            Scene::translation(world, body).z > 0.01
        })
    };
    assert!(rises(-0.05), "lifted by a twentieth of 1 m/s2");
    assert!(!rises(0.05), "pressed down by as much");
}

/// A smooth wall on the +x side, higher than the centre of gravity.
fn backed(friction: f64) -> (Scene, RigidBodyHandle) {
    let mut scene = Scene::new(friction);
    let body = scene.body(Vector::ZERO, mass(vec2(0.0, 0.0)));
    scene.foot(body, Vector::ZERO, FOOT_M);
    let shell = ColliderBuilder::cylinder(0.25, SHELL_M)
        .rotation(Vector::X * std::f64::consts::FRAC_PI_2)
        .translation(Vector::new(0.0, 0.0, 0.3));
    scene.attach(body, shell);
    scene.block(
        Vector::new(SHELL_M + 0.1, 0.0, 0.26),
        Vector::new(0.1, 1.0, 0.25),
        0.0,
    );
    (scene, body)
}

#[test]
fn a_backed_cylinder_falls_along_its_backing() {
    let wall = [vec2(1.0, 0.0)];
    for degrees in [50.0, 110.0] {
        let towards = direction(degrees);
        let ours = limit(
            |f| tip_open(f, &CYLINDER, &Base::disc(FOOT_M), &wall),
            towards,
        );
        let engine = threshold(ours, |ratio| {
            let (mut scene, body) = backed(1.5);
            scene.run(&load(ratio, towards), |world| {
                Scene::lean(world, body) > GONE_RAD
            })
        });
        agree(engine, ours, 0.02);
    }
}

#[test]
fn a_backed_cylinder_slides_along_its_backing() {
    let wall = [vec2(1.0, 0.0)];
    let friction = 0.12;
    let towards = direction(70.0);
    let ours = limit(|f| slide_open(f, friction, &wall), towards);
    let engine = threshold(ours, |ratio| {
        let (mut scene, body) = backed(friction);
        scene.run(&load(ratio, towards), |world| {
            Scene::translation(world, body).y > 0.004
        })
    });
    agree(engine, ours, 0.02);
}
