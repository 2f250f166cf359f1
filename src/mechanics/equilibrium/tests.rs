//! Stored values, laws and an independent linear programming library.

mod held;

use proptest::prelude::*;

use super::*;
use crate::geometry::vec2;
use crate::mechanics::property::{assert_close, cases};
use crate::mechanics::vector::vec3;

const CENTRE: [Vec2; 1] = [vec2(0.0, 0.0)];
const MASS_KG: f64 = 17.8;
const CG_M: f64 = 0.319;

fn cylinder(friction: f64, foot: Foot) -> Body<'static> {
    Body {
        mass_kg: MASS_KG,
        friction,
        foot,
        feet: Feet {
            centres: &CENTRE,
            radius_m: 0.0829,
        },
    }
}

/// A strap that runs towards -y, its bight on the far side.
fn strap_to_starboard(height_m: f64, below_horizontal_deg: f64) -> Restraint {
    let (sin, cos) = below_horizontal_deg.to_radians().sin_cos();
    Restraint {
        pull: vec3(0.0, -cos, -sin),
        attachment: vec2(0.0, 0.0921),
        height_m,
        capacity_n: 600.0,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    }
}

fn at_angle(deg: f64, size: f64) -> Vec2 {
    let (sin, cos) = deg.to_radians().sin_cos();
    vec2(size * sin, size * cos)
}

/// Largest horizontal acceleration that the strap stands, force turned off +y by an angle.
fn limit(body: &Body<'_>, strap: Restraint, off_deg: f64) -> (f64, Failure) {
    let restraints = [strap];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    let load = Load::at_height(at_angle(off_deg, 1.0), 9.0, CG_M);
    let found = utilisation(body, &holding, &load);
    (1.0 / found.utilisation, found.failure.unwrap())
}

/// Values of an independent linear program (`HiGHS`, 96 directions) for an 80 cubic foot aluminium
/// cylinder; its table is printed in `docs/method.md`, "Lashings".
#[test]
fn stored_limits_with_a_free_foot() {
    for (height, beta, friction, a_h, mode) in [
        (0.44, 0.0, 0.2, 12.7116, Mode::KicksOut),
        (0.44, 30.0, 0.2, 34.3627, Mode::Slides),
        (0.15, 0.0, 0.2, 6.0124, Mode::KicksOut),
        (0.15, 0.0, 0.0, 4.4148, Mode::KicksOut),
    ] {
        let body = cylinder(friction, Foot::Free);
        let (found, failure) = limit(&body, strap_to_starboard(height, beta), 0.0);
        assert_close(found, a_h, 6e-5);
        assert_eq!(failure.mode, mode, "strap at {height} m, {beta} degrees");
    }
}

/// The same table: the tipping balance alone.
#[test]
fn stored_limits_with_a_stopped_foot() {
    let body = cylinder(0.2, Foot::Stopped);
    for (height, beta, a_h) in [
        (0.44, 0.0, 48.8325),
        (0.44, 30.0, 42.1174),
        (0.15, 0.0, 18.1890),
    ] {
        let (found, failure) = limit(&body, strap_to_starboard(height, beta), 0.0);
        assert_close(found, a_h, 6e-5);
        assert_eq!(failure.mode, Mode::Tips);
        assert_close(failure.direction.y, 1.0, 1e-9);
    }
}

/// One strap dead aft of the force hardly helps when the force comes from aside: what is left across
/// the strap is carried by the foot alone. The same table.
#[test]
fn stored_limits_of_a_force_off_the_strap() {
    let body = cylinder(0.2, Foot::Stopped);
    for (off, a_h) in [
        (0.0, 48.8325),
        (20.0, 6.8384),
        (40.0, 3.6386),
        (60.0, 2.7007),
    ] {
        let (found, _) = limit(&body, strap_to_starboard(0.44, 0.0), off);
        assert_close(found, a_h, 6e-5);
    }
}

/// A held body, as random as it may be drawn on a deck plan.
#[derive(Clone, Debug)]
struct Scene {
    centres: Vec<Vec2>,
    radius_m: f64,
    mass_kg: f64,
    cg_height_m: f64,
    friction: f64,
    foot: Foot,
    restraints: Vec<Restraint>,
    point_capacity_n: f64,
    bights: Vec<Bight>,
    along_deck: Vec2,
    rotation: Vec2,
    normal: f64,
}

impl Scene {
    fn body(&self) -> Body<'_> {
        Body {
            mass_kg: self.mass_kg,
            friction: self.friction,
            foot: self.foot,
            feet: Feet {
                centres: &self.centres,
                radius_m: self.radius_m,
            },
        }
    }

    fn holding<'a>(&'a self, points: &'a [f64]) -> Holding<'a> {
        Holding {
            restraints: &self.restraints,
            point_capacities_n: points,
            bights: &self.bights,
        }
    }

    fn load(&self, share: f64) -> Load {
        let load = Load::at_height(share * self.along_deck, self.normal, self.cg_height_m);
        Load {
            tipping: load.tipping + share * self.rotation,
            ..load
        }
    }

    fn utilisation(&self) -> f64 {
        let points = [self.point_capacity_n];
        utilisation(&self.body(), &self.holding(&points), &self.load(1.0)).utilisation
    }

    fn mirrored(&self) -> Self {
        let mut image = self.clone();
        image.centres = self.centres.iter().rev().map(|c| c.mirrored_y()).collect();
        image.along_deck = self.along_deck.mirrored_y();
        image.rotation = self.rotation.mirrored_y();
        for restraint in &mut image.restraints {
            restraint.pull.y = -restraint.pull.y;
            restraint.attachment = restraint.attachment.mirrored_y();
        }
        image
    }

    fn reversed(&self) -> Self {
        let mut image = self.clone();
        image.restraints.reverse();
        let last = self.restraints.len().saturating_sub(1);
        for bight in &mut image.bights {
            bight.legs = (last - bight.legs.0, last - bight.legs.1);
        }
        image
    }
}

prop_compose! {
    fn any_restraint()(
        pull_angle in 0.0..std::f64::consts::TAU, down in -0.3..0.95_f64,
        at_angle in 0.0..std::f64::consts::TAU, height_m in 0.05..0.7_f64,
        capacity_n in prop_oneof![5 => 30.0..3000.0_f64, 1 => Just(f64::INFINITY)],
        shares_point in any::<bool>(),
        sliding_capacity_n in prop_oneof![4 => Just(f64::INFINITY), 1 => Just(0.0), 1 => 10.0..800.0_f64],
    ) -> Restraint {
        let u = (1.0 - down * down).sqrt() * Vec2::from_angle(pull_angle);
        Restraint {
            pull: vec3(u.x, u.y, -down),
            attachment: 0.0921 * Vec2::from_angle(at_angle),
            height_m,
            capacity_n,
            point: shares_point.then_some(0),
            sliding_capacity_n,
        }
    }
}

/// A disc, a disc beside the centre of gravity, a twin set, a crate, a rack on four round feet.
fn any_feet() -> impl Strategy<Value = (Vec<Vec2>, f64)> {
    let corners = || {
        vec![
            vec2(-0.2, -0.1),
            vec2(0.3, -0.1),
            vec2(0.3, 0.15),
            vec2(-0.2, 0.15),
        ]
    };
    prop_oneof![
        Just((vec![Vec2::ZERO], 0.0829)),
        Just((vec![vec2(0.02, -0.015)], 0.0829)),
        Just((vec![vec2(0.0, -0.1075), vec2(0.0, 0.1075)], 0.0829)),
        Just((corners(), 0.0)),
        Just((corners(), 0.03)),
    ]
}

prop_compose! {
    fn any_scene()(
        (centres, radius_m) in any_feet(),
        mass_kg in 5.0..80.0_f64, cg_height_m in 0.2..0.8_f64, friction in 0.0..0.6_f64,
        stopped in prop::bool::weighted(0.3),
        restraints in prop::collection::vec(any_restraint(), 0..5),
        point_capacity_n in 30.0..3000.0_f64,
        tension_ratio in prop::option::of(1.0..4.0_f64),
        (angle, size) in (0.0..std::f64::consts::TAU, 0.3..12.0_f64),
        rotation in (-0.5..0.5_f64, -0.5..0.5_f64),
        normal in prop_oneof![6 => 0.5..14.0_f64, 1 => -4.0..-0.1_f64],
    ) -> Scene {
        let bight = tension_ratio.filter(|_| restraints.len() >= 2);
        let bights = bight.map(|tension_ratio| Bight { legs: (0, 1), tension_ratio });
        Scene {
            centres, radius_m, mass_kg, cg_height_m, friction,
            foot: if stopped { Foot::Stopped } else { Foot::Free },
            restraints, point_capacity_n,
            bights: bights.into_iter().collect(),
            along_deck: size * Vec2::from_angle(angle),
            rotation: vec2(rotation.0, rotation.1),
            normal,
        }
    }
}

type Terms<'a> = &'a dyn Fn(&Restraint) -> f64;

/// The largest share by a general-purpose library, over the given directions.
fn share_by_library(scene: &Scene, directions: &[Vec2]) -> f64 {
    use microlp::{ComparisonOp, OptimizationDirection, Problem};

    let mut problem = Problem::new(OptimizationDirection::Maximize);
    let force = scene.mass_kg;
    let pulls: Vec<_> = scene
        .restraints
        .iter()
        .map(|restraint| problem.add_var(0.0, (0.0, restraint.capacity_n / force)))
        .collect();
    let counted: Vec<_> = scene
        .restraints
        .iter()
        .map(|restraint| problem.add_var(0.0, (0.0, restraint.sliding_capacity_n / force)))
        .collect();
    for ((&part, &whole), restraint) in counted.iter().zip(&pulls).zip(&scene.restraints) {
        let relation = if restraint.sliding_capacity_n.is_finite() {
            ComparisonOp::Le
        } else {
            ComparisonOp::Eq
        };
        problem.add_constraint([(part, 1.0), (whole, -1.0)], relation, 0.0);
    }
    let share = problem.add_var(1.0, (0.0, MOST_SHARE));
    let load = scene.load(1.0);
    let feet = scene.body().feet;
    let (resisting, lifting) = (load.normal.max(0.0), load.normal.min(0.0));
    let none = |_: &Restraint| 0.0;
    let mut le = |whole: Terms<'_>, part: Terms<'_>, of_share: f64, limit: f64| {
        let mut row = vec![(share, of_share)];
        row.extend(
            pulls
                .iter()
                .zip(&scene.restraints)
                .map(|(&pull, r)| (pull, whole(r))),
        );
        row.extend(
            counted
                .iter()
                .zip(&scene.restraints)
                .map(|(&pull, r)| (pull, part(r))),
        );
        problem.add_constraint(row, ComparisonOp::Le, limit);
    };
    for &e in directions {
        let rho = feet.support_distance(e);
        let tip = |r: &Restraint| {
            let sin = -r.pull.z;
            r.height_m * r.pull.horizontal().dot(e) + r.attachment.dot(e) * sin - rho * sin
        };
        le(
            &tip,
            &none,
            load.tipping.dot(e) - rho * lifting,
            rho * resisting,
        );
        if scene.foot == Foot::Free {
            let mu = scene.friction;
            let slide = |r: &Restraint| r.pull.horizontal().dot(e) + mu * r.pull.z;
            le(
                &slide,
                &none,
                load.along_deck.dot(e) - mu * lifting,
                mu * resisting,
            );
            le(
                &none,
                &slide,
                load.along_deck.dot(e) - mu * lifting,
                mu * resisting,
            );
        }
    }
    le(&|r| r.pull.z, &none, -lifting, resisting);
    let on_point = |r: &Restraint| f64::from(u8::from(r.point.is_some()));
    le(&on_point, &none, 0.0, scene.point_capacity_n / force);
    for bight in &scene.bights {
        for (a, b) in [bight.legs, (bight.legs.1, bight.legs.0)] {
            let row = [(pulls[a], 1.0), (pulls[b], -bight.tension_ratio)];
            problem.add_constraint(row, ComparisonOp::Le, 0.0);
        }
    }
    problem
        .solve()
        .unwrap()
        .into_solution()
        .unwrap()
        .objective()
}

fn fan(count: u32) -> impl Iterator<Item = Vec2> {
    (0..count)
        .map(move |k| Vec2::from_angle(f64::from(k) / f64::from(count) * std::f64::consts::TAU))
}

proptest! {
    #![proptest_config(cases(400))]

    /// The library's optimum over 64 directions is never below ours, and with the directions that
    /// govern added it is the same.
    #[test]
    fn a_general_purpose_library_agrees(scene in any_scene()) {
        let points = [scene.point_capacity_n];
        let (body, holding, load) = (scene.body(), scene.holding(&points), scene.load(1.0));
        let mut program = Program::new(&body, &holding, &load, Aim::Share(MOST_SHARE));
        // Where nothing but no load at all can be held, rounding may deny that too.
        let found = program.solve().map_or(0.0, |()| program.share());
        let mut directions: Vec<Vec2> = fan(64).collect();
        directions.extend(program.rows.iter().filter_map(|row| match *row {
            Row::Tip(e) | Row::Slide(e) | Row::SlideCounted(e) => Some(e),
            Row::Lift | Row::Link => None,
        }));
        let expected = share_by_library(&scene, &directions);
        prop_assert!((found - expected).abs() <= 1e-6 * (1.0 + expected), "{found} {expected}");
    }
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn mirror_image_and_order_change_nothing(scene in any_scene()) {
        let here = scene.utilisation();
        for image in [scene.mirrored(), scene.reversed()] {
            prop_assert!(same(here, image.utilisation()), "{here} {}", image.utilisation());
        }
    }

    #[test]
    fn another_restraint_never_hurts(scene in any_scene(), extra in any_restraint()) {
        let mut more = scene.clone();
        more.restraints.push(Restraint { point: None, ..extra });
        prop_assert!(no_more(more.utilisation(), scene.utilisation()));
    }

    #[test]
    fn more_strength_never_hurts(scene in any_scene(), factor in 1.0..5.0_f64) {
        let mut more = scene.clone();
        more.point_capacity_n *= factor;
        for restraint in &mut more.restraints {
            restraint.capacity_n *= factor;
        }
        prop_assert!(no_more(more.utilisation(), scene.utilisation()));
    }

    /// Utilisation is proportional to the load along the deck, and `holds` is the sign of `1 - U`.
    #[test]
    fn utilisation_grows_with_the_load(scene in any_scene(), factor in 0.1..3.0_f64) {
        let mut scene = scene;
        scene.normal = scene.normal.abs();
        let here = scene.utilisation();
        let points = [scene.point_capacity_n];
        let (body, holding) = (scene.body(), scene.holding(&points));
        let scaled = utilisation(&body, &holding, &scene.load(factor)).utilisation;
        prop_assert!(same(scaled, factor * here) || scaled < 2e-4, "{scaled} {here}");
        if here > 1e-3 && here < 1e3 {
            prop_assert!(holds(&body, &holding, &scene.load(0.9999 / here)));
            prop_assert!(!holds(&body, &holding, &scene.load(1.0001 / here)));
        }
    }

    /// With what `least_capacity` asks for the body stays, with less it goes.
    #[test]
    fn least_capacity_is_enough_and_least(scene in any_scene()) {
        let mut scene = scene;
        for restraint in &mut scene.restraints {
            restraint.capacity_n = f64::INFINITY;
        }
        let all: Vec<usize> = (0..scene.restraints.len()).collect();
        let points = [scene.point_capacity_n];
        let load = scene.load(1.0);
        let sought = Sought { restraints: &all, points: &[] };
        let least = least_capacity(&scene.body(), &scene.holding(&points), &load, &sought);
        let with = |strength: f64| {
            let mut scene = scene.clone();
            for restraint in &mut scene.restraints {
                restraint.capacity_n = strength;
            }
            holds(&scene.body(), &scene.holding(&points), &load)
        };
        match least {
            None => prop_assert!(!with(1e7)),
            Some(least) => {
                prop_assert!(with(least * 1.0001 + 1e-3));
                prop_assert!(least < 1.0 || !with(least * 0.9999));
            }
        }
    }

    /// The pulls that are returned are within their bounds and balance the share that is returned.
    #[test]
    fn the_pulls_balance_the_load(scene in any_scene()) {
        let points = [scene.point_capacity_n];
        let (body, holding, load) = (scene.body(), scene.holding(&points), scene.load(1.0));
        let found = utilisation(&body, &holding, &load);
        if !found.utilisation.is_finite() || found.failure.is_none() {
            return Ok(());
        }
        let share = 1.0 / found.utilisation;
        let mut moment = share * scene.mass_kg * load.tipping;
        let mut weight = scene.mass_kg * (load.normal.max(0.0) + share * load.normal.min(0.0));
        for (restraint, &pull) in scene.restraints.iter().zip(&found.tensions_n) {
            prop_assert!(pull <= restraint.capacity_n * (1.0 + 1e-9) + 1e-6);
            let horizontal = pull * restraint.pull.horizontal();
            moment += restraint.height_m * horizontal - pull * restraint.pull.z * restraint.attachment;
            weight -= pull * restraint.pull.z;
        }
        let size = 1e-6 * (scene.mass_kg * 10.0 + moment.length() + weight.abs());
        prop_assert!(weight >= -size);
        for e in fan(90) {
            prop_assert!(moment.dot(e) <= body.feet.support_distance(e) * weight + size);
        }
    }
}

fn same(a: f64, b: f64) -> bool {
    no_more(a, b) && no_more(b, a)
}

/// Equal up to the accuracy of the share, 1e-8 of the whole load and 1e-6 of itself.
fn no_more(less: f64, more: f64) -> bool {
    less <= more * (1.0 + 1e-6 + 1e-8 * more) + 1e-9
}

#[test]
fn without_hold_down_it_lifts() {
    let load = Load::at_height(vec2(1.0, 0.0), -0.5, CG_M);
    let free = utilisation(&cylinder(0.2, Foot::Free), &Holding::default(), &load);
    assert!(free.utilisation.is_infinite());
    assert_eq!(free.failure.map(|failure| failure.mode), Some(Mode::Lifts));
}

/// A strap straight down over the middle holds `m |a_n|` and nothing else is asked of it.
#[test]
fn a_hold_down_against_lift_alone() {
    let strap = Restraint {
        pull: vec3(0.0, 0.0, -1.0),
        attachment: Vec2::ZERO,
        height_m: 0.6,
        capacity_n: 100.0,
        point: None,
        sliding_capacity_n: f64::INFINITY,
    };
    let restraints = [strap];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    let load = Load::at_height(Vec2::ZERO, -2.0, CG_M);
    let found = utilisation(&cylinder(0.2, Foot::Free), &holding, &load);
    assert_close(found.utilisation, MASS_KG * 2.0 / 100.0, 1e-9);
    assert_eq!(found.failure.map(|failure| failure.mode), Some(Mode::Lifts));
    assert_close(found.tensions_n[0], 100.0, 1e-6);
}

/// A centre of gravity beside the foot: it falls unless held, and a lashing that holds it counts.
#[test]
fn a_centre_of_gravity_beside_its_foot() {
    let aside = [vec2(0.0, -0.1)];
    let body = Body {
        feet: Feet {
            centres: &aside,
            radius_m: 0.0829,
        },
        ..cylinder(0.2, Foot::Stopped)
    };
    let load = Load::at_height(vec2(0.0, 0.1), 9.0, CG_M);
    assert!(
        utilisation(&body, &Holding::default(), &load)
            .utilisation
            .is_infinite()
    );
    let restraints = [strap_to_starboard(0.44, 0.0)];
    let holding = Holding {
        restraints: &restraints,
        ..Holding::default()
    };
    assert!(utilisation(&body, &holding, &load).utilisation < 0.1);
}

/// A shared point of unknown strength: two equal straps side by side need half each, all of it together.
#[test]
fn least_strength_of_a_shared_point() {
    let strap = Restraint {
        point: Some(0),
        capacity_n: f64::INFINITY,
        ..strap_to_starboard(0.44, 0.0)
    };
    let restraints = [strap, strap];
    let holding = Holding {
        restraints: &restraints,
        point_capacities_n: &[f64::INFINITY],
        bights: &[],
    };
    let body = cylinder(0.2, Foot::Stopped);
    let load = Load::at_height(vec2(0.0, 5.0), 9.0, CG_M);
    let needed = MASS_KG * (5.0 * CG_M - 9.0 * 0.0829) / 0.44;
    let legs = Sought {
        restraints: &[0, 1],
        points: &[],
    };
    let point = Sought {
        restraints: &[],
        points: &[0],
    };
    let each = least_capacity(&body, &holding, &load, &legs).unwrap();
    let together = least_capacity(&body, &holding, &load, &point).unwrap();
    assert_close(each, needed / 2.0, 1e-4);
    assert_close(together, needed, 1e-4);
}

/// A shock cord that counts nothing, round a cylinder that the boat rolls a little more each time: it stands as
/// it would without, whatever the rounding.
#[test]
fn what_has_no_strength_is_as_if_it_were_not_there() {
    let leg = |pull: (f64, f64, f64), at: (f64, f64), point: usize, capacity_n: f64| Restraint {
        pull: vec3(pull.0, pull.1, pull.2),
        attachment: vec2(at.0, at.1),
        height_m: 0.38,
        capacity_n,
        point: Some(point),
        sliding_capacity_n: f64::INFINITY,
    };
    let legs = |first_n: f64, second_n: f64| {
        [
            leg(
                (-0.662_246_963, 0.541_076_412, 0.518_329_313),
                (0.014_381_528, -0.142_820_417),
                0,
                first_n,
            ),
            leg(
                (0.912_198_994, 0.405_256_267, 0.060_500_857),
                (-0.051_549_117, -0.133_967_117),
                1,
                second_n,
            ),
        ]
    };
    let bights = [Bight {
        legs: (0, 1),
        tension_ratio: 1.25,
    }];
    let feet = [vec2(0.0, 0.0)];
    let body = Body {
        mass_kg: 18.6,
        friction: 0.5,
        foot: Foot::Free,
        feet: Feet {
            centres: &feet,
            radius_m: 0.1015,
        },
    };
    // None of its own, none in one leg, none in a point.
    for (legs, points) in [
        (legs(0.0, 0.0), [f64::INFINITY, 3333.0]),
        (legs(0.0, 500.0), [f64::INFINITY, 3333.0]),
        (legs(500.0, 500.0), [0.0, 3333.0]),
    ] {
        let holding = Holding {
            restraints: &legs,
            point_capacities_n: &points,
            bights: &bights,
        };
        let mut held = Held::new(body, holding);
        for step in 0..500 {
            let swing = 1.0 + 2e-5 * f64::from(step);
            let load = Load {
                tipping: swing * vec2(0.221_928_697, -0.542_835_264),
                along_deck: swing * vec2(0.804_890_466, -1.974_249_702),
                normal: 10.514_858_526 * (1.0 + 0.1 * (swing - 1.0)),
            };
            let bare = utilisation(&body, &Holding::default(), &load).utilisation;
            let with = utilisation(&body, &holding, &load).utilisation;
            let asked_again = held.utilisation(&load).utilisation;
            assert!(bare.is_finite());
            assert!((with - bare).abs() < 1e-6, "{step}: {with} {bare}");
            assert!(
                (asked_again - bare).abs() < 1e-6,
                "{step}: {asked_again} {bare}"
            );
        }
    }
}
