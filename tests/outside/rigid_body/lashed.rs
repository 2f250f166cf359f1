//! A strapped cylinder: tips, slides, kicks its foot out, is pulled over sideways, lifts.
//!
//! A strap is a force on the body towards its point: in proportion to its stretch, damped, and never
//! more than its strength, beyond which it yields. Nothing in the engine knows of limit analysis. The
//! straps stretch by up to 4 mm before they yield, the body moves by as much, and the load comes up in
//! 0.6 s: the tolerance is 4 %, wider than that of bodies that stand free.

use rapier3d_f64::prelude::*;
use snugdown::geometry::{Vec2, vec2};
use snugdown::mechanics::equilibrium::{
    self, Body, Feet, Foot, Holding, Mode, Restraint, utilisation,
};
use snugdown::mechanics::vector::vec3;

use super::{Scene, agree, threshold};

const MASS_KG: f64 = 17.8;
const CENTRE_M: f64 = 0.319;
const INERTIA: f64 = 0.795;
const FOOT_M: f64 = 0.0829;
const SHELL_M: f64 = 0.0921;

const STIFFNESS: f64 = 150e3;
/// About half of critical for the cylinder on such a strap.
const DAMPING: f64 = 1500.0;
/// Long, so that a leaning body does not turn the strap.
const STRAP_M: f64 = 3.0;

/// Finer than elsewhere: the straps are stiff springs.
const STEP_S: f64 = 1.0 / 400.0;

/// What is beyond the stretch of straps that hold.
const GONE_RAD: f64 = 0.05;
const GONE_M: f64 = 0.03;

struct Case {
    friction: f64,
    foot: Foot,
    straps: Vec<Restraint>,
    along: Vec2,
    normal: f64,
}

/// A strap that leaves towards a heading (from +x towards +y), its bight on the far side.
fn strap(heading_deg: f64, below_deg: f64, height_m: f64, strength_n: f64) -> Restraint {
    let out = Vec2::from_angle(heading_deg.to_radians());
    let (sin, cos) = below_deg.to_radians().sin_cos();
    Restraint {
        pull: vec3(out.x * cos, out.y * cos, -sin),
        attachment: -SHELL_M * out,
        height_m,
        capacity_n: strength_n,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    }
}

impl Case {
    fn share(&self) -> (f64, Mode) {
        let body = Body {
            mass_kg: MASS_KG,
            friction: self.friction,
            foot: self.foot,
            feet: Feet {
                centres: &[Vec2::ZERO],
                radius_m: FOOT_M,
            },
        };
        let holding = Holding {
            restraints: &self.straps,
            ..Holding::default()
        };
        let load = equilibrium::Load::at_height(self.along, self.normal, CENTRE_M);
        let found = utilisation(&body, &holding, &load);
        (1.0 / found.utilisation, found.failure.unwrap().mode)
    }

    /// Whether the body goes under a share of the load.
    fn goes(&self, share: f64) -> bool {
        // A foot that is stopped has more friction than it can ever use.
        let friction = match self.foot {
            Foot::Free => self.friction,
            Foot::Stopped => 20.0,
        };
        let mut scene = Scene::new(friction);
        scene.world.integration_parameters.dt = STEP_S;
        let mass = MassProperties::new(
            Vector::new(0.0, 0.0, CENTRE_M),
            MASS_KG,
            Vector::new(INERTIA, INERTIA, 0.1),
        );
        let body = scene.body(Vector::ZERO, mass);
        for collider in foot_points(friction) {
            scene.attach(body, collider);
        }
        // The balance does not look at turning about its own axis.
        scene.world.bodies[body].set_enabled_rotations(true, true, false, true);
        let (settle, rise, hold) = (20.0, 240.0, 200.0);
        let mut step = 0.0;
        while step < settle + rise + hold {
            let ramp = ((step - settle + 1.0) / rise).clamp(0.0, 1.0);
            // What presses down is there from the start; what lifts comes with the load.
            let normal = if self.normal > 0.0 {
                self.normal
            } else {
                1.0 + ramp * (share * self.normal - 1.0)
            };
            let along = ramp * share * self.along;
            scene.world.gravity = Vector::new(along.x, along.y, -normal);
            self.pull(&mut scene.world, body);
            scene.world.step();
            let moved = Scene::translation(&scene.world, body).length();
            if Scene::lean(&scene.world, body) > GONE_RAD || moved > GONE_M {
                return true;
            }
            step += 1.0;
        }
        false
    }

    fn pull(&self, world: &mut PhysicsWorld, body: RigidBodyHandle) {
        let body = &mut world.bodies[body];
        body.reset_forces(true);
        body.reset_torques(true);
        for strap in &self.straps {
            let upright = Vector::new(strap.attachment.x, strap.attachment.y, strap.height_m);
            let point = upright + STRAP_M * Vector::new(strap.pull.x, strap.pull.y, strap.pull.z);
            let at = body.position().transform_point(upright);
            let way = point - at;
            let towards = way / way.length();
            let stretch = way.length() - STRAP_M;
            let rate = -body.velocity_at_point(at).dot(towards);
            let pull = (STIFFNESS * stretch + DAMPING * rate).clamp(0.0, strap.capacity_n);
            if stretch > 0.0 {
                body.add_force_at_point(pull * towards, at, true);
            }
        }
    }
}

/// The rim of the foot, with as much friction as the floor may have.
fn foot_points(friction: f64) -> impl Iterator<Item = ColliderBuilder> {
    (0..super::RIM).map(move |point| {
        let angle = std::f64::consts::TAU * (point as f64 + 0.5) / super::RIM as f64;
        let (sin, cos) = angle.sin_cos();
        ColliderBuilder::ball(super::RIM_POINT_M)
            .translation(Vector::new(FOOT_M * cos, FOOT_M * sin, super::RIM_POINT_M))
            .friction(friction.max(2.0))
    })
}

#[track_caller]
fn check(case: &Case, mode: Mode) {
    let (ours, found) = case.share();
    assert_eq!(found, mode, "how it goes at {ours}");
    agree(threshold(ours, |share| case.goes(share)), ours, 0.04);
}

fn against_port(straps: Vec<Restraint>, friction: f64) -> Case {
    Case {
        friction,
        foot: Foot::Free,
        straps,
        along: vec2(0.0, 1.0),
        normal: 9.0,
    }
}

/// Level straps above and below the centre of gravity: the foot goes out, or back.
#[test]
fn the_foot_of_a_strapped_cylinder_kicks_out() {
    check(
        &against_port(vec![strap(-90.0, 0.0, 0.44, 600.0)], 0.2),
        Mode::KicksOut,
    );
    check(
        &against_port(vec![strap(-90.0, 0.0, 0.15, 600.0)], 0.2),
        Mode::KicksOut,
    );
}

/// A strap 30 degrees down presses the foot on: it slides when the strap yields.
#[test]
fn a_strap_yields_and_the_cylinder_slides() {
    check(
        &against_port(vec![strap(-90.0, 30.0, 0.44, 200.0)], 0.2),
        Mode::Slides,
    );
}

/// With a stopped foot: along the strap it tips when the strap yields, and beside it as if it stood free.
#[test]
fn a_strapped_cylinder_tips_along_and_beside_its_strap() {
    for (off, strength_n) in [(0.0, 100.0), (20.0, 600.0), (60.0, 600.0)] {
        let case = Case {
            foot: Foot::Stopped,
            along: Vec2::from_angle((90.0_f64 - off).to_radians()),
            ..against_port(vec![strap(-90.0, 0.0, 0.44, strength_n)], 0.2)
        };
        check(&case, Mode::Tips);
    }
}

/// Two straps that share, of unequal strength, and a force between them.
#[test]
fn two_straps_share() {
    let straps = vec![
        strap(-60.0, 20.0, 0.4, 150.0),
        strap(-140.0, 35.0, 0.5, 90.0),
    ];
    let case = Case {
        along: Vec2::from_angle(75.0_f64.to_radians()),
        ..against_port(straps, 0.4)
    };
    let (_, mode) = case.share();
    check(&case, mode);
}

/// Four straps hold it down against a load that lifts and pushes.
#[test]
fn straps_hold_it_down() {
    let straps = [0.0, 90.0, 180.0, 270.0].map(|heading| strap(heading, 60.0, 0.5, 40.0));
    let case = Case {
        along: vec2(0.3, 0.0),
        normal: -2.0,
        ..against_port(straps.to_vec(), 0.3)
    };
    let (_, mode) = case.share();
    check(&case, mode);
}
