//! Laws that hold for any body, and a general-purpose library that agrees.

use super::scene::{Scene, any_restraint, any_scene};
use super::*;

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
