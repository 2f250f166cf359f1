//! Held bodies, as random as they may be drawn on a deck plan.

use super::*;

/// A held body, as random as it may be drawn on a deck plan.
#[derive(Clone, Debug)]
pub(super) struct Scene {
    pub(super) centres: Vec<Vec2>,
    pub(super) radius_m: f64,
    pub(super) mass_kg: f64,
    pub(super) cg_height_m: f64,
    pub(super) friction: f64,
    pub(super) foot: Foot,
    pub(super) restraints: Vec<Restraint>,
    pub(super) point_capacity_n: f64,
    pub(super) bights: Vec<Bight>,
    pub(super) along_deck: Vec2,
    pub(super) rotation: Vec2,
    pub(super) normal: f64,
}

impl Scene {
    pub(super) fn body(&self) -> Body<'_> {
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

    pub(super) fn holding<'a>(&'a self, points: &'a [f64]) -> Holding<'a> {
        Holding {
            restraints: &self.restraints,
            point_capacities_n: points,
            bights: &self.bights,
        }
    }

    pub(super) fn load(&self, share: f64) -> Load {
        let load = Load::at_height(share * self.along_deck, self.normal, self.cg_height_m);
        Load {
            tipping: load.tipping + share * self.rotation,
            ..load
        }
    }

    pub(super) fn utilisation(&self) -> f64 {
        let points = [self.point_capacity_n];
        utilisation(&self.body(), &self.holding(&points), &self.load(1.0)).utilisation
    }

    pub(super) fn mirrored(&self) -> Self {
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

    pub(super) fn reversed(&self) -> Self {
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
    pub(super) fn any_restraint()(
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
pub(super) fn any_feet() -> impl Strategy<Value = (Vec<Vec2>, f64)> {
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
    pub(super) fn any_scene()(
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
