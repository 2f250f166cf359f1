//! Where bodies go in a general-purpose rigid-body engine, held against the formulas.
//!
//! The engine is rapier3d (f64, the version in `Cargo.lock`): it knows contacts, friction and
//! inertia, and none of our formulas. A body is set up, pressed onto the floor, then a steady force
//! along the deck is switched on; [`threshold`] bisects for the largest ratio of the two that it
//! stands. Holding the force steady leaves no lag of a ramp to be corrected for; what remains is
//!
//! * the time that is watched: a body less than 1 % above its limit may not lean enough to be seen,
//! * the bisection: 0.5 %,
//! * contacts that give a little, and a solver that iterates,
//! * a round foot made of [`RIM`] points: its reach is up to 0.4 % short between them.
//!
//! Each check states its tolerance; they are a few per cent.

mod falling;
mod lashed;
mod lying;
mod racked;
mod standing;

use rapier3d_f64::prelude::*;

/// Points of a round foot.
const RIM: usize = 36;

/// Small enough for contacts to act at their points.
const RIM_POINT_M: f64 = 0.0005;

/// Step of the integration, s.
const STEP_S: f64 = 1.0 / 200.0;

/// A scene: a floor at height 0 and what stands on it.
struct Scene {
    world: PhysicsWorld,
}

impl Scene {
    /// A level floor with this friction.
    fn new(friction: f64) -> Self {
        let mut world = PhysicsWorld::new();
        world.gravity = Vector::ZERO;
        let settings = &mut world.integration_parameters;
        settings.dt = STEP_S;
        settings.num_solver_iterations = 8;
        settings.friction_model = FrictionModel::Coulomb;
        settings.contact_clustering = false;
        settings.contact_recycling = false;
        settings.static_contact_softness.natural_frequency = 120.0;
        let mut scene = Self { world };
        scene.block(
            Vector::new(0.0, 0.0, -0.5),
            Vector::new(10.0, 10.0, 0.5),
            friction,
        );
        scene
    }

    /// A fixed block about `middle`.
    fn block(&mut self, middle: Vector, half_size: Vector, friction: f64) -> ColliderHandle {
        let block = ColliderBuilder::cuboid(half_size.x, half_size.y, half_size.z)
            .translation(middle)
            .friction(friction)
            .friction_combine_rule(CoefficientCombineRule::Min);
        self.world.insert_collider(block, None)
    }

    /// A body whose mass is not that of its colliders.
    fn body(&mut self, at: Vector, mass: MassProperties) -> RigidBodyHandle {
        let body = RigidBodyBuilder::dynamic()
            .translation(at)
            .additional_mass_properties(mass)
            .can_sleep(false);
        self.world.insert_body(body)
    }

    /// Adds a massless collider to a body.
    fn attach(&mut self, body: RigidBodyHandle, collider: ColliderBuilder) -> ColliderHandle {
        let collider = collider
            .density(0.0)
            .friction_combine_rule(CoefficientCombineRule::Min);
        self.world.insert_collider(collider, Some(body))
    }

    /// Adds a round foot about a point at the height of the body's origin.
    fn foot(&mut self, body: RigidBodyHandle, middle: Vector, radius_m: f64) {
        for point in 0..RIM {
            let angle = std::f64::consts::TAU * (point as f64 + 0.5) / RIM as f64;
            let at =
                middle + Vector::new(radius_m * angle.cos(), radius_m * angle.sin(), RIM_POINT_M);
            // The floor's friction is the smaller one.
            let ball = ColliderBuilder::ball(RIM_POINT_M)
                .translation(at)
                .friction(2.0);
            self.attach(body, ball);
        }
    }

    /// Presses everything down for a while, then brings the force along the deck up and holds it.
    ///
    /// Stops early with `true` once `gone` says so.
    fn run(&mut self, load: &Load, gone: impl Fn(&PhysicsWorld) -> bool) -> bool {
        let steps = |seconds: f64| (seconds / STEP_S).ceil();
        let (settle, rise, hold) = (steps(load.settle_s), steps(load.rise_s), steps(load.hold_s));
        let mut step = 0.0;
        while step < settle + rise + hold {
            let share = ((step - settle + 1.0) / rise).clamp(0.0, 1.0);
            self.world.gravity = share * load.along - Vector::Z * load.a_n;
            self.world.step();
            if gone(&self.world) {
                return true;
            }
            step += 1.0;
        }
        false
    }

    /// Force in N between two colliders under a steady load, averaged over half a second.
    fn mean_contact_n(&mut self, one: ColliderHandle, other: ColliderHandle) -> f64 {
        let steps = 100;
        let mut impulse = 0.0;
        for _ in 0..steps {
            self.world.step();
            if let Some(pair) = self.world.contact_pair(one, other) {
                impulse += pair.total_impulse_magnitude();
            }
        }
        // The engine splits a step; what it keeps is the impulse of one part.
        impulse / (f64::from(steps) * STEP_S)
    }

    fn translation(world: &PhysicsWorld, body: RigidBodyHandle) -> Vector {
        world.bodies[body].translation()
    }

    /// How far a body leans from upright, rad.
    fn lean(world: &PhysicsWorld, body: RigidBodyHandle) -> f64 {
        let up = *world.bodies[body].rotation() * Vector::Z;
        up.z.clamp(-1.0, 1.0).acos()
    }
}

/// The force that a scene feels.
struct Load {
    /// Along the deck, m/s².
    along: Vector,
    /// Pressing down, m/s².
    a_n: f64,
    settle_s: f64,
    rise_s: f64,
    hold_s: f64,
}

impl Load {
    /// A steady force, watched long enough for 2 % beyond the limit to show.
    fn steady(along: Vector, a_n: f64) -> Self {
        Self {
            along,
            a_n,
            settle_s: 0.1,
            rise_s: 0.2,
            hold_s: 0.8,
        }
    }
}

/// The ratio at which `goes` first says yes, by six halvings from 25 % below to 30 % above
/// `expected`: to 0.5 % of it.
fn threshold(expected: f64, goes: impl Fn(f64) -> bool) -> f64 {
    let (mut holds, mut fails) = (0.75 * expected, 1.3 * expected);
    assert!(!goes(holds), "goes 25 % below the expected {expected}");
    assert!(goes(fails), "holds 30 % above the expected {expected}");
    for _ in 0..6 {
        let middle = 0.5 * (holds + fails);
        if goes(middle) {
            fails = middle;
        } else {
            holds = middle;
        }
    }
    0.5 * (holds + fails)
}

/// Fails unless the engine's figure lies within a share of ours.
#[track_caller]
fn agree(engine: f64, ours: f64, share: f64) {
    assert!(
        (engine / ours - 1.0).abs() <= share,
        "engine {engine:.5}, formula {ours:.5}: {:+.2} %",
        100.0 * (engine / ours - 1.0)
    );
}
