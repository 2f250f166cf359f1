//! A fixture, bulwark, tube or bench front close behind a body.

use super::super::vector::vec3;
use super::Restraint;
use crate::geometry::Vec2;

/// A fixture that stands close to the body, as two pushes away from it.
///
/// The push may act anywhere between the foot and the height up to which both reach; a push at the foot
/// and one at that height, together no stronger than the fixture, are all of these. Directions into the
/// fixture are so closed up to its height and its strength, and only those.
///
/// `towards` is the unit vector from the body to the fixture, `body_radius_m` the distance from the
/// projected centre of gravity to the contact, `contact_height_m` the lower of the fixture's top and
/// the top of the body's straight part. `point` is the shared point whose strength is the fixture's.
///
/// # Assumptions
///
/// The gap is small enough to be taken as none (30 mm: common practice, no source), the contact is
/// smooth.
pub fn backing(
    towards: Vec2,
    body_radius_m: f64,
    contact_height_m: f64,
    strength_n: f64,
    point: usize,
) -> [Restraint; 2] {
    let push_at = |height_m: f64| Restraint {
        pull: vec3(-towards.x, -towards.y, 0.0),
        attachment: body_radius_m * towards,
        height_m,
        capacity_n: strength_n,
        point: Some(point),
        sliding_capacity_n: f64::INFINITY,
    };
    [push_at(0.0), push_at(contact_height_m)]
}

#[cfg(test)]
mod tests {
    use super::super::{Body, Feet, Foot, Holding, Load, Mode, utilisation};
    use super::*;
    use crate::geometry::vec2;

    const CENTRE: [Vec2; 1] = [vec2(0.0, 0.0)];

    fn cylinder() -> Body<'static> {
        Body {
            mass_kg: 17.8,
            friction: 0.5,
            foot: Foot::Free,
            feet: Feet {
                centres: &CENTRE,
                radius_m: 0.0829,
            },
        }
    }

    fn against_bulwark(strength_n: f64, f_y: f64) -> super::super::Equilibrium {
        let restraints = backing(vec2(0.0, 1.0), 0.0921, 0.5, strength_n, 0);
        let holding = Holding {
            restraints: &restraints,
            point_capacities_n: &[strength_n],
            bights: &[],
        };
        let load = Load::at_height(vec2(0.0, f_y), 9.0, 0.319);
        utilisation(&cylinder(), &holding, &load)
    }

    #[test]
    fn it_does_not_go_through_the_bulwark() {
        assert!(against_bulwark(f64::INFINITY, 30.0).utilisation < 1e-3);
    }

    /// The push away from the bulwark needs no more than the whole force; its height of 0.5 m is above
    /// the centre of gravity, so the strength that is needed is `m (f - mu a_n)` at most.
    #[test]
    fn a_weak_bulwark_gives_way() {
        let enough = 17.8 * (30.0 - 0.5 * 9.0);
        assert!(against_bulwark(enough * 1.001, 30.0).utilisation < 1.0);
        assert!(against_bulwark(enough * 0.999, 30.0).utilisation > 1.0);
    }

    #[test]
    fn away_from_the_bulwark_it_stands_free() {
        let away = against_bulwark(f64::INFINITY, -3.0);
        assert!((away.utilisation - 0.319 * 3.0 / (9.0 * 0.0829)).abs() < 1e-9);
        assert_eq!(away.failure.map(|failure| failure.mode), Some(Mode::Tips));
    }
}
