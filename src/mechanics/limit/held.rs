//! The limit of a held body, with few programs to solve.

use super::{Limit, RESOLUTION, Scale, false_position};
use crate::mechanics::equilibrium::{Held, Load, Mechanism, Outcome};
use crate::mechanics::motion::{Cases, Force, LoadCase, force_at};
use crate::mechanics::vector::Vec3;

/// How far below the root of a mechanism the body is asked, as a share of the resolution: more than
/// the rounding of a program, so that it stays there if no other mechanism is readier.
const BELOW_ROOT: f64 = 0.5;

/// Each round finds another mechanism or halves what is left; a guard against rounding.
const MOST_ROUNDS: usize = 80;

impl Scale {
    /// As [`Scale::descend`] for a held body: where it goes, and the load case that governs there.
    ///
    /// The mechanism by which it goes at one motion bounds every smaller one, and where that bound is
    /// reached takes no program to find. So the load case that goes is followed from mechanism to
    /// mechanism, each readier than the last, until the body stays (Kelley's cutting planes along one
    /// line); then the other cases are asked, most of which are kept by pulls that are known by then.
    ///
    /// A load case and a mechanism that are `likely` to govern are followed first. The mechanism by which it
    /// goes is returned as well, where one is known.
    pub fn descend_held(
        &self,
        position: Vec3,
        load_of: impl Fn(&Force) -> Load,
        held: &mut Held<'_>,
        likely: Option<(LoadCase, Mechanism)>,
    ) -> (Limit, LoadCase, Option<Mechanism>) {
        let steepest = |force: &Force| load_of(force).tipping.length() / force.a_n().max(1e-3);
        let readiest = self.largest.governing(position, |_, force| steepest(force));
        let (mut x, mut lowered_by) = (self.range, None);
        let mut descent = Descent {
            scale: self,
            position,
            load_of: &load_of,
            held,
            by: None,
        };
        let likely = likely
            .filter(|(case, mechanism)| mechanism.excess(&descent.load_at(self.range, case)) > 0.0);
        if let Some((case, mechanism)) = likely {
            lowered_by = Some(case);
            match descent.lower(x, &case, Some(mechanism)) {
                None => return (Limit::AtOnce, case, descent.by),
                Some(lower) => x = lower,
            }
        }
        let mut is_first = likely.is_none();
        'lower: loop {
            let cases = Cases::new(&self.motion_at(x));
            let first = is_first.then_some((readiest.case, readiest.force));
            is_first = false;
            for (case, force) in first.into_iter().chain(cases.forces(position)) {
                if lowered_by == Some(case) {
                    continue;
                }
                let Outcome::Goes(mechanism) = descent.held.outcome(&load_of(&force)) else {
                    continue;
                };
                lowered_by = Some(case);
                match descent.lower(x, &case, mechanism) {
                    None => return (Limit::AtOnce, case, descent.by),
                    Some(lower) if lower < x => {
                        x = lower;
                        continue 'lower;
                    }
                    Some(_) => return (Limit::At(x), case, descent.by),
                }
            }
            return match lowered_by {
                None => (Limit::NotWithin(self.range), readiest.case, None),
                Some(case) => (Limit::At(x), case, descent.by),
            };
        }
    }
}

struct Descent<'d, 'h, F> {
    scale: &'d Scale,
    position: Vec3,
    load_of: &'d F,
    held: &'d mut Held<'h>,
    /// The mechanism that lowered it last.
    by: Option<Mechanism>,
}

impl<F: Fn(&Force) -> Load> Descent<'_, '_, F> {
    fn load_at(&self, x: f64, case: &LoadCase) -> Load {
        let force = force_at(&self.scale.motion_at(x), case, self.position);
        (self.load_of)(&force)
    }

    /// Where one load case stays, given by which mechanism it goes at `fails`; `None` if it goes at once.
    fn lower(&mut self, fails: f64, case: &LoadCase, mechanism: Option<Mechanism>) -> Option<f64> {
        let resolution = RESOLUTION * self.scale.range;
        if self.held.outcome(&self.load_at(0.0, case)) != Outcome::Stays {
            return None;
        }
        let (mut holds, mut fails, mut mechanism) = (0.0, fails, mechanism);
        for _ in 0..MOST_ROUNDS {
            self.by = mechanism.or(self.by);
            if fails - holds <= resolution {
                break;
            }
            // Without a mechanism nothing is known but that it goes here.
            let root = mechanism.map(|mechanism| {
                let excess = |x: f64| mechanism.excess(&self.load_at(x, case));
                let ends = [excess(0.0), excess(fails)];
                false_position(fails, ends, BELOW_ROOT * resolution, excess)
            });
            let x = match root {
                Some(root) if root > holds => root - BELOW_ROOT * resolution,
                Some(_) => break,
                None => 0.5 * (holds + fails),
            }
            .max(holds);
            match self.held.outcome(&self.load_at(x, case)) {
                Outcome::Stays if mechanism.is_some() => return Some(x),
                Outcome::Stays => holds = x,
                Outcome::Goes(readier) if x > holds => (fails, mechanism) = (x, readier),
                Outcome::Goes(_) => break,
            }
        }
        Some(holds)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::motions;
    use super::*;
    use crate::geometry::{Vec2, vec2};
    use crate::mechanics::equilibrium::{Body, Feet, Foot, Holding, Restraint};
    use crate::mechanics::property::cases;
    use crate::mechanics::testing::{AL80, AL80_BASE_M, AL80_RADIUS_M};
    use crate::mechanics::vector::vec3;

    const CENTRE: [Vec2; 1] = [vec2(0.0, 0.0)];

    fn legs() -> impl Strategy<Value = Vec<Restraint>> {
        let leg = (
            (0.0..std::f64::consts::TAU, -0.1..0.8_f64),
            0.1..0.6_f64,
            prop_oneof![4 => 50.0..2000.0_f64, 1 => Just(f64::INFINITY)],
        )
            .prop_map(|((angle, down), height_m, capacity_n)| {
                let u = (1.0 - down * down).sqrt() * Vec2::from_angle(angle);
                Restraint {
                    pull: vec3(u.x, u.y, -down),
                    attachment: -AL80_RADIUS_M * Vec2::from_angle(angle),
                    height_m,
                    capacity_n,
                    point: None,
                    sliding_capacity_n: f64::INFINITY,
                }
            });
        prop::collection::vec(leg, 1..4)
    }

    proptest! {
        #![proptest_config(cases(48))]

        /// What is passed over as using less than another load does not use more.
        #[test]
        fn what_uses_less_uses_less(
            restraints in legs(), (motion, at) in motions(), friction in 0.1..0.5_f64,
        ) {
            let body = Body {
                mass_kg: AL80.mass_kg,
                friction,
                foot: Foot::Free,
                feet: Feet { centres: &CENTRE, radius_m: AL80_BASE_M },
            };
            let holding = Holding { restraints: &restraints, ..Holding::default() };
            let load_of = |f: &Force| Load::of(f, AL80.centre_height_m, AL80.kappa2_m2);
            let mut held = Held::new(body, holding);
            let mut most = 0.0_f64;
            for (case, force) in Cases::new(&motion).forces(at) {
                let load = load_of(&force);
                let is_less = most > 0.0 && held.uses_less_than(&load, most);
                let alone = Held::new(body, holding).utilisation(&load).utilisation;
                if is_less {
                    prop_assert!(alone < most * (1.0 + 1e-6), "{case:?}: {alone} of {most}");
                } else {
                    held.utilisation(&load);
                }
                most = most.max(alone);
            }
        }

        /// Just below the limit it stays in every load case, just above it goes in the one that governs.
        #[test]
        fn it_stays_below_and_goes_above(
            restraints in legs(), (motion, at) in motions(), friction in 0.1..0.5_f64,
        ) {
            let body = Body {
                mass_kg: AL80.mass_kg,
                friction,
                foot: Foot::Free,
                feet: Feet { centres: &CENTRE, radius_m: AL80_BASE_M },
            };
            let holding = Holding { restraints: &restraints, ..Holding::default() };
            let load_of = |f: &Force| Load::of(f, AL80.centre_height_m, AL80.kappa2_m2);
            let alone = |_: &LoadCase, f: &Force| {
                Held::new(body, holding).utilisation(&load_of(f)).utilisation
            };
            for scale in [Scale::whole(&motion, 2.0), Scale::roll(&motion, 0.7)] {
                let mut held = Held::new(body, holding);
                let (limit, case, _) = scale.descend_held(at, load_of, &mut held, None);
                let worst = |x: f64| Cases::new(&scale.motion_at(x)).governing(at, alone).value;
                match limit {
                    Limit::AtOnce => {
                        let force = force_at(&scale.motion_at(0.0), &case, at);
                        prop_assert!(alone(&case, &force) >= 1.0);
                    }
                    Limit::At(x) => {
                        prop_assert!(worst(x) < 1.0, "{} at {x}", worst(x));
                        let above = x + 2.0 * RESOLUTION * scale.range;
                        let force = force_at(&scale.motion_at(above), &case, at);
                        let goes = alone(&case, &force);
                        prop_assert!(goes > 1.0 - 1e-8, "{goes} above {x}");
                    }
                    Limit::NotWithin(x) => prop_assert!(worst(x) < 1.0),
                }
            }
        }
    }
}
