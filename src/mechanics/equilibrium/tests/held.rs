//! A body that is asked at many loads gives what it gives at each of them alone.

use proptest::prelude::*;

use super::scene::{Scene, any_scene};
use crate::geometry::{Vec2, vec2};
use crate::mechanics::equilibrium::{
    Held, LeastCapacity, Load, Outcome, Sought, holds, least_capacity, utilisation,
};
use crate::mechanics::property::cases;

/// Utilisations nearer to 1 than this are not told apart from it.
const AT_ONE: f64 = 1e-6;

fn loads() -> impl Strategy<Value = Vec<Load>> {
    let load = (
        (0.0..std::f64::consts::TAU, 0.1..12.0_f64),
        (-0.3..0.3_f64, -0.3..0.3_f64),
        prop_oneof![6 => 0.5..14.0_f64, 1 => -4.0..-0.1_f64],
    )
        .prop_map(|((angle, size), (x, y), normal)| {
            let load = Load::at_height(size * Vec2::from_angle(angle), normal, 0.4);
            Load {
                tipping: load.tipping + vec2(x, y),
                ..load
            }
        });
    prop::collection::vec(load, 1..12)
}

fn alone(scene: &Scene, load: &Load) -> f64 {
    let points = [scene.point_capacity_n];
    utilisation(&scene.body(), &scene.holding(&points), load).utilisation
}

proptest! {
    #![proptest_config(cases(100))]

    #[test]
    fn every_load_is_judged_as_if_alone(scene in any_scene(), loads in loads()) {
        let points = [scene.point_capacity_n];
        let mut held = Held::new(scene.body(), scene.holding(&points));
        for load in &loads {
            let expected = alone(&scene, load);
            let found = held.utilisation(load).utilisation;
            // To the accuracy that the module promises: rows of the loads before may stand in the program.
            let apart = (1.0 / found - 1.0 / expected).abs();
            let same = found.to_bits() == expected.to_bits();
            prop_assert!(same || apart <= 1e-8 + 1e-6 / expected, "{found} {expected}");
        }
    }

    #[test]
    fn it_stays_below_one(scene in any_scene(), loads in loads()) {
        let points = [scene.point_capacity_n];
        let mut held = Held::new(scene.body(), scene.holding(&points));
        for load in &loads {
            let expected = alone(&scene, load);
            match held.outcome(load) {
                Outcome::Stays => prop_assert!(expected < 1.0 + AT_ONE, "{expected}"),
                Outcome::Goes(_) => prop_assert!(expected >= 1.0 - AT_ONE, "{expected}"),
            }
        }
    }

    /// The mechanism at one load bounds every other: what drives it more than is held goes.
    #[test]
    fn a_mechanism_holds_for_every_load(scene in any_scene(), loads in loads()) {
        let points = [scene.point_capacity_n];
        let mut held = Held::new(scene.body(), scene.holding(&points));
        let mechanisms: Vec<_> = (loads.iter())
            .filter_map(|load| match held.outcome(load) {
                Outcome::Goes(Some(mechanism)) => {
                    // At its own load it is the readiest: there it goes.
                    Some((mechanism, mechanism.excess(load)))
                }
                _ => None,
            })
            .collect();
        for (mechanism, own) in mechanisms {
            prop_assert!(own > -AT_ONE, "{own}");
            for load in &loads {
                if mechanism.excess(load) > AT_ONE {
                    let expected = alone(&scene, load);
                    prop_assert!(expected > 1.0 - AT_ONE, "{expected} {mechanism:?}");
                }
            }
        }
    }

    #[test]
    fn the_least_strength_is_that_of_the_worst_load(scene in any_scene(), loads in loads()) {
        let points = [f64::INFINITY];
        let restraints: Vec<_> = (scene.restraints.iter())
            .map(|restraint| super::Restraint { capacity_n: f64::INFINITY, ..*restraint })
            .collect();
        let every: Vec<usize> = (0..restraints.len()).collect();
        let sought = Sought { restraints: &every, points: &[] };
        let holding = super::Holding { restraints: &restraints, ..scene.holding(&points) };
        let one_by_one = loads.iter().try_fold(0.0_f64, |least, load| {
            if holds(&scene.body(), &super::Holding::default(), load) {
                return Some(least);
            }
            Some(least.max(least_capacity(&scene.body(), &holding, load, &sought)?))
        });
        let mut all = LeastCapacity::new(scene.body(), &holding, &sought);
        let together = loads.iter().try_for_each(|load| all.add(load)).map(|()| all.least_n());
        match (together, one_by_one) {
            // To the accuracy that the module promises.
            (Some(a), Some(b)) => prop_assert!((a - b).abs() <= 1e-6 * b.max(1.0), "{a} {b}"),
            (a, b) => prop_assert_eq!(a, b),
        }
    }
}
