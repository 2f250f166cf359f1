//! Rocking in time against closed forms, and against a rigid-body engine in three dimensions.
//!
//! # Sources
//!
//! * Free period, impact and the rectangular pulse of a slender block: G. W. Housner (1963), Bulletin of the
//!   Seismological Society of America 53(2), 403-417.
//! * The half-sine pulse: Housner's own condition asks for the overturning energy by the end of the pulse and is on
//!   the unsafe side; the exact one of the linear equation is that of N. Makris and Y. Roussos (1998) and of
//!   B. Shi et al. (1996), both from memory, solved again here from the linear equation.
//! * The engine: rapier3d (f64, the version in `Cargo.lock`), which knows contacts, friction and inertia and none of
//!   our formulas.

use rapier3d_f64::prelude::*;
use snugdown::mechanics::motion::GRAVITY;
use snugdown::mechanics::rocking::{Drive, Ended, Impact, OVER_RAD, Rocker, Side, Swing};

/// A block so slender that the linear closed forms hold to a few parts in ten thousand.
fn slender_block() -> Rocker {
    let (h, b) = (1.0, 0.01_f64);
    Rocker::even(h, b, (h * h + b * b) / 3.0)
}

fn level(along: f64) -> Drive {
    Drive {
        along,
        onto: GRAVITY,
        turning: 0.0,
    }
}

/// Does it go over under this push along the deck? Watched for six time constants after it.
fn goes_over(body: &Rocker, lasts_s: f64, push: impl Fn(f64) -> f64) -> bool {
    let p = body.frequency_rad_s(Side::Towards, GRAVITY);
    let step = 1e-3 / p;
    let mut swing = Swing::REST;
    let mut time_s = 0.0;
    while time_s < lasts_s + 12.0 / p {
        let (from, to) = (level(push(time_s)), level(push(time_s + step)));
        let ended = swing.advance(body, (&from, &to), step, Impact::Lossless);
        // A slender block is past all return long before a quarter of a right angle.
        let past = swing.lean_rad.abs() > 4.0 * body.balance_rad(Side::Towards);
        if matches!(ended, Some((Ended::Over(_), _))) || past {
            return true;
        }
        time_s += step;
        if time_s > lasts_s && swing.on.is_some_and(|side| side == Side::Away) {
            // Thrown back: what the first swing did not do is no longer asked.
            return false;
        }
    }
    false
}

/// The least amplitude that throws over, by halving.
fn least(mut low: f64, mut high: f64, goes: impl Fn(f64) -> bool) -> f64 {
    assert!(
        !goes(low) && goes(high),
        "the answer is not between {low} and {high}"
    );
    for _ in 0..14 {
        let middle = 0.5 * (low + high);
        if goes(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}

#[test]
fn the_free_period_is_housners() {
    let body = slender_block();
    let p = body.frequency_rad_s(Side::Towards, GRAVITY);
    let balance = body.balance_rad(Side::Towards);
    // p T = 4 acosh(1 / (1 - lean / balance)).
    for (share, expected) in [(0.2, 2.7726), (0.5, 5.2678), (0.9, 11.9729)] {
        let mut swing = Swing::released(share * balance);
        let drive = level(0.0);
        let step = 1e-4 / p;
        let mut quarter_s = 0.0;
        while swing.on == Some(Side::Towards) {
            swing.advance(&body, (&drive, &drive), step, Impact::Housner);
            quarter_s += step;
        }
        let told = 4.0 * p * quarter_s;
        assert!((told / expected - 1.0).abs() < 5e-4, "{share}: {told}");
    }
}

#[test]
fn an_impact_takes_what_housner_says() {
    // 1 - 1.5 sin^2 of a block, 1 - 2 r^2 / (I_o / m) of a solid cylinder.
    let (h, b) = (0.33, 0.092_f64);
    let block = Rocker::even(h, b, (h * h + b * b) / 3.0);
    let sin2 = block.balance_rad(Side::Away).sin().powi(2);
    let kept = block.speed_kept(Side::Away, Impact::Housner);
    assert!((kept - (1.0 - 1.5 * sin2)).abs() < 1e-12, "{kept}");
    let cylinder = Rocker::solid_cylinder(0.092, 0.66);
    assert!((cylinder.balance_rad(Side::Away).to_degrees() - 15.578).abs() < 5e-4);
    // Worked with 9.81 m/s2.
    assert!((cylinder.frequency_rad_s(Side::Away, 9.81) - 4.64475).abs() < 5e-5);
    assert!((cylinder.speed_kept(Side::Away, Impact::Housner) - 0.89133).abs() < 5e-6);
}

#[test]
fn a_rectangular_pulse_throws_over_when_it_lasts_long_enough() {
    let body = slender_block();
    let p = body.frequency_rad_s(Side::Towards, GRAVITY);
    let lifts = GRAVITY * 0.01;
    // p t = ln(x / (x - 1)).
    for (x, expected) in [
        (1.2, 1.79176),
        (1.5, 1.09861),
        (2.0, std::f64::consts::LN_2),
        (3.0, 0.40547),
    ] {
        let told = p * least(0.5 * expected / p, 1.6 * expected / p, |lasts_s| {
            goes_over(&body, lasts_s, |time_s| {
                if time_s < lasts_s { x * lifts } else { 0.0 }
            })
        });
        // The push ends within a step of a thousandth.
        assert!((told - expected).abs() < 3e-3, "{x}: {told} for {expected}");
    }
}

/// The amplitude of a half-sine of `w/p`, over what lifts it, that throws a body over.
fn half_sine(body: &Rocker, ratio: f64) -> f64 {
    let p = body.frequency_rad_s(Side::Towards, GRAVITY);
    let lifts = GRAVITY * body.reach(Side::Towards) / body.centre_height_m;
    let w = ratio * p;
    let lasts_s = std::f64::consts::PI / w;
    least(1.0, 4.0, |x| {
        goes_over(body, lasts_s, |time_s| {
            if time_s < lasts_s {
                x * lifts * (w * time_s).sin()
            } else {
                0.0
            }
        })
    })
}

#[test]
fn a_half_sine_throws_over_at_the_exact_amplitude_and_below_housners() {
    let body = slender_block();
    for (ratio, exact, housner) in [
        (0.34, 1.05494, 1.05622),
        (1.0, 1.32240, std::f64::consts::SQRT_2),
        (3.0, 2.29387, 3.16228),
    ] {
        let told = half_sine(&body, ratio);
        assert!(
            (told / exact - 1.0).abs() < 1e-3,
            "{ratio}: {told} for {exact}"
        );
        assert!(told < housner, "{told} is on the unsafe side of {housner}");
    }
}

const MASS_KG: f64 = 17.8;
const FOOT_M: f64 = 0.0829;
const CENTRE_M: f64 = 0.319;
const INERTIA: f64 = 0.795;

fn cylinder() -> Rocker {
    Rocker::even(CENTRE_M, FOOT_M, INERTIA / MASS_KG)
}

/// A rigid body on a floor in the engine, on points that are its foot.
struct Engine {
    world: PhysicsWorld,
    body: RigidBodyHandle,
    step_s: f64,
}

impl Engine {
    fn new(foot: &[(f64, f64)], step_s: f64) -> Self {
        let mut world = PhysicsWorld::new();
        world.gravity = -Vector::Z * GRAVITY;
        let settings = &mut world.integration_parameters;
        settings.dt = step_s;
        settings.num_solver_iterations = 12;
        settings.friction_model = FrictionModel::Coulomb;
        settings.contact_clustering = false;
        settings.contact_recycling = false;
        settings.static_contact_softness.natural_frequency = 200.0;
        let floor = ColliderBuilder::cuboid(10.0, 10.0, 0.5)
            .translation(Vector::new(0.0, 0.0, -0.5))
            .friction(2.0)
            .restitution(0.0);
        world.insert_collider(floor, None);
        let mass = MassProperties::new(
            Vector::new(0.0, 0.0, CENTRE_M),
            MASS_KG,
            Vector::new(INERTIA, INERTIA, 0.1),
        );
        let body = RigidBodyBuilder::dynamic()
            .additional_mass_properties(mass)
            .can_sleep(false);
        let body = world.insert_body(body);
        for (x, y) in foot {
            let ball = ColliderBuilder::ball(0.0005)
                .translation(Vector::new(*x, *y, 0.0005))
                .density(0.0)
                .friction(2.0)
                .restitution(0.0);
            world.insert_collider(ball, Some(body));
        }
        let mut engine = Self {
            world,
            body,
            step_s,
        };
        // It settles into its contacts.
        for _ in 0..200 {
            engine.world.step();
        }
        engine
    }

    /// A round foot of so many points.
    fn round(points: u32, step_s: f64) -> Self {
        let foot: Vec<(f64, f64)> = (0..points)
            .map(|i| {
                let angle = std::f64::consts::TAU * (f64::from(i) + 0.5) / f64::from(points);
                (FOOT_M * angle.cos(), FOOT_M * angle.sin())
            })
            .collect();
        Self::new(&foot, step_s)
    }

    fn lean_rad(&self) -> f64 {
        let up = *self.world.bodies[self.body].rotation() * Vector::Z;
        up.z.clamp(-1.0, 1.0).acos()
    }

    /// Does it go over under this push along the deck?
    fn goes_over(&mut self, lasts_s: f64, towards: (f64, f64), push: impl Fn(f64) -> f64) -> bool {
        let mut time_s = 0.0;
        while time_s < lasts_s + 2.0 {
            let along = push(time_s + 0.5 * self.step_s);
            self.world.gravity = Vector::new(along * towards.0, along * towards.1, -GRAVITY);
            self.world.step();
            if self.lean_rad() > OVER_RAD {
                return true;
            }
            time_s += self.step_s;
        }
        false
    }
}

/// The engine in three dimensions throws a round cylinder over at the amplitude of the plane model, within 3 %: the
/// push is shorter than a swing, so that no impact decides.
#[test]
fn the_engine_throws_over_at_the_same_half_sine() {
    let body = cylinder();
    let p = body.frequency_rad_s(Side::Towards, GRAVITY);
    let lifts = GRAVITY * FOOT_M / CENTRE_M;
    for ratio in [0.6, 1.5] {
        let ours = half_sine(&body, ratio);
        let lasts_s = std::f64::consts::PI / (ratio * p);
        let throws = |x: f64| {
            // Half a step of the rim: between two points the reach is shortest.
            let mut engine = Engine::round(72, 1.0 / 400.0);
            engine.goes_over(lasts_s, (1.0, 0.0), |time_s| {
                if time_s < lasts_s {
                    x * lifts * (ratio * p * time_s).sin()
                } else {
                    0.0
                }
            })
        };
        assert!(
            !throws(0.97 * ours),
            "{ratio}: the engine goes at 0.97 of {ours}"
        );
        assert!(
            throws(1.03 * ours),
            "{ratio}: the engine stands at 1.03 of {ours}"
        );
    }
}

/// Let go at a lean in its plane, the engine's body on two lines of points comes back at the time of the plane model
/// and keeps about Housner's share of its speed.
#[test]
fn the_engine_comes_back_after_the_same_time() {
    let body = cylinder();
    let lean = 0.5 * body.balance_rad(Side::Towards);
    let drive = level(0.0);
    let mut swing = Swing::released(lean);
    let mut back_s = 0.0;
    while swing.on == Some(Side::Towards) {
        swing.advance(&body, (&drive, &drive), 1e-4, Impact::Housner);
        back_s += 1e-4;
    }
    let step_s = 1.0 / 2000.0;
    let foot = [
        (FOOT_M, 0.08),
        (FOOT_M, -0.08),
        (-FOOT_M, 0.08),
        (-FOOT_M, -0.08),
    ];
    let mut engine = Engine::new(&foot, step_s);
    // Turned about the edge at +x, which stays on the deck.
    let turn = Rotation::from_axis_angle(Vector::Y, lean);
    let edge = Vector::new(FOOT_M, 0.0, 0.0);
    let at = edge - turn * edge;
    let handle = engine.body;
    let rigid = &mut engine.world.bodies[handle];
    rigid.set_translation(at, true);
    rigid.set_rotation(turn, true);
    rigid.set_linvel(Vector::ZERO, true);
    rigid.set_angvel(Vector::ZERO, true);
    let rate = |engine: &Engine| engine.world.bodies[engine.body].angvel().y;
    let (mut time_s, mut fastest) = (0.0, 0.0_f64);
    while engine.lean_rad() > 0.002 && time_s < 2.0 {
        engine.world.step();
        fastest = fastest.min(rate(&engine));
        time_s += step_s;
    }
    assert!(
        (time_s / back_s - 1.0).abs() < 0.03,
        "engine {time_s} s, ours {back_s} s"
    );
    // Some steps later it turns about the other edge.
    for _ in 0..20 {
        engine.world.step();
    }
    let kept = rate(&engine) / fastest;
    let housner = body.speed_kept(Side::Away, Impact::Housner);
    assert!(
        (kept / housner - 1.0).abs() < 0.05,
        "engine keeps {kept}, Housner {housner}"
    );
}
