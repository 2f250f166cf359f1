//! Tipping of a body whose foot is stopped, one direction at a time, with lashings that share by
//! stiffness.
//!
//! # Derivation
//!
//! Tipping towards the unit vector `n` about the edge of the feet, a lashing with the lever `c_i` (which is
//! how much it stretches per radian) opposes it where `c_i > 0`:
//!
//! ```text
//! U = max over n of  m t.n / [ m a_n rho(n) + sum T_i max(0, c_i(n)) ]
//! ```
//!
//! With `T_i` the strength this is the upper-bound theorem for the balance of
//! [`equilibrium`](super::equilibrium), so it never gives more than that.
//!
//! Where the stiffness of the lashings is known and unequal, the first to reach its strength ends it: at
//! the lean `th`
//!
//! ```text
//! th = min_j (CS_j - T0_j) / (k_j c_j) ,   T_i = min( CS_i, T0_i + k_i c_i th )
//! ```
//!
//! A shock cord beside a strap then counts for next to nothing, by itself.
//!
//! # Accuracy
//!
//! 180 directions, more near those in which the sharing changes (narrow peaks stand there), then a golden
//! section on both sides of the worst four. Over random straps it is within 0.1 % of a fan of 20,000
//! directions (see the tests); with every lashing at its strength it agrees with the linear program.
//!
//! # References
//!
//! Levers and strengths: CSS Code (IMO), annex 13, section 7.2 (transverse tipping). Sharing by stiffness:
//! derived in `docs/method.md`, "Lashings".

use std::f64::consts::TAU;

use super::equilibrium::{Body, Holding, Load, Restraint};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;

const DIRECTIONS: u32 = 180;

/// Cuts by the golden section: 0.618^40 of a direction step is 4e-10 rad.
const REFINEMENTS: u32 = 40;

/// Halvings of a direction step beside a direction in which the sharing changes.
const CLOSER: u32 = 6;

/// How many of the highest directions of the fan are refined.
const REFINED_PEAKS: usize = 4;

/// How a lashing stretches.
#[derive(Copy, Clone, Debug, PartialEq)]
pub struct Stretch {
    /// Stiffness along the lashing, N/m.
    pub stiffness_n_per_m: f64,

    /// Pretension, N.
    pub pretension_n: f64,
}

/// The worst direction of tipping.
#[derive(Clone, Debug, PartialEq)]
pub struct Tipping {
    /// Load over what can be stood: at 1 it goes.
    pub utilisation: f64,

    /// Unit vector along the deck.
    pub direction: Vec2,

    /// The pull in each restraint when it goes, N.
    pub tensions_n: Vec<f64>,
}

/// Tipping with every lashing at its strength.
///
/// The foot counts as stopped, bights are not looked at.
pub fn tipping(body: &Body<'_>, holding: &Holding<'_>, load: &Load) -> Tipping {
    worst(body, holding, load, &[], &|levers| {
        at_strength(holding, levers)
    })
}

/// Tipping with lashings that share by stiffness; `stretches` has one entry for each restraint.
pub fn tipping_by_stiffness(
    body: &Body<'_>,
    holding: &Holding<'_>,
    load: &Load,
    stretches: &[Stretch],
) -> Tipping {
    let rates: Vec<f64> = holding
        .restraints
        .iter()
        .zip(stretches)
        .map(|(restraint, stretch)| {
            stretch.stiffness_n_per_m / (restraint.capacity_n - stretch.pretension_n)
        })
        .collect();
    worst(body, holding, load, &rates, &|levers| {
        by_stiffness(holding, stretches, levers)
    })
}

/// The pull of each lashing when the first of those that oppose is at its strength, N.
///
/// `levers` are about one edge; where a lever is not positive the lashing goes slack and counts nothing.
pub fn by_stiffness(holding: &Holding<'_>, stretches: &[Stretch], levers: &[f64]) -> Vec<f64> {
    let all = || holding.restraints.iter().zip(stretches).zip(levers);
    let lean = all()
        .filter(|&((restraint, stretch), &lever)| {
            lever > 0.0 && stretch.stiffness_n_per_m > 0.0 && restraint.capacity_n.is_finite()
        })
        .map(|((restraint, stretch), lever)| {
            let spare = (restraint.capacity_n - stretch.pretension_n).max(0.0);
            spare / (stretch.stiffness_n_per_m * lever)
        })
        .reduce(f64::min);
    let pull = |((restraint, stretch), &lever): ((&Restraint, &Stretch), &f64)| {
        if lever <= 0.0 {
            return 0.0;
        }
        let further = stretch.stiffness_n_per_m * lever * lean.unwrap_or(0.0);
        (stretch.pretension_n + further).min(restraint.capacity_n)
    };
    let mut pulls: Vec<f64> = all().map(pull).collect();
    for (point, &capacity_n) in holding.point_capacities_n.iter().enumerate() {
        let on_point = |restraint: &Restraint| restraint.point == Some(point);
        let sum: f64 = holding
            .restraints
            .iter()
            .zip(&pulls)
            .filter(|(restraint, _)| on_point(restraint))
            .map(|(_, pull)| pull)
            .sum();
        if sum > capacity_n {
            // The point gives first: what pulls on it stops in proportion.
            for (restraint, pull) in holding.restraints.iter().zip(&mut pulls) {
                if on_point(restraint) {
                    *pull *= capacity_n / sum;
                }
            }
        }
    }
    pulls
}

/// Every lashing that opposes at its strength, those with the longest levers first on a shared point.
fn at_strength(holding: &Holding<'_>, levers: &[f64]) -> Vec<f64> {
    let mut left = holding.point_capacities_n.to_vec();
    let mut order: Vec<usize> = (0..holding.restraints.len()).collect();
    order.sort_by(|&a, &b| levers[b].total_cmp(&levers[a]));
    let mut pulls = vec![0.0; order.len()];
    for i in order {
        let restraint = &holding.restraints[i];
        if levers[i] <= 0.0 {
            continue;
        }
        let point = restraint.point.and_then(|point| left.get_mut(point));
        pulls[i] = match point {
            Some(left) => {
                let pull = restraint.capacity_n.min(*left);
                *left -= if left.is_finite() { pull } else { 0.0 };
                pull
            }
            None => restraint.capacity_n,
        };
    }
    pulls
}

type Sharing<'a> = dyn Fn(&[f64]) -> Vec<f64> + 'a;

fn worst(
    body: &Body<'_>,
    holding: &Holding<'_>,
    load: &Load,
    rates: &[f64],
    sharing: &Sharing<'_>,
) -> Tipping {
    let towards = |angle: f64| towards(body, holding, load, sharing, Vec2::from_angle(angle));
    let angles = directions(body, holding, rates);
    let tried: Vec<Tipping> = angles.iter().map(|&angle| towards(angle)).collect();
    let count = angles.len();
    let height = |k: usize| tried[k % count].utilisation;
    let mut peaks: Vec<usize> = (0..count)
        .filter(|&k| height(k) >= height(k + 1) && height(k) >= height(k + count - 1))
        .collect();
    peaks.sort_by(|&a, &b| height(b).total_cmp(&height(a)));
    let Some(&first) = peaks.first() else {
        return towards(0.0);
    };
    let mut worst = tried[first].clone();
    if worst.utilisation.is_infinite() || worst.utilisation <= 0.0 {
        return worst;
    }
    for &peak in peaks.iter().take(REFINED_PEAKS) {
        let turn = |k: usize| TAU * (k / count) as f64 + angles[k % count] - TAU;
        for low in [count + peak - 1, count + peak] {
            let refined = towards(highest(turn(low), turn(low + 1), &|angle| {
                towards(angle).utilisation
            }));
            if refined.utilisation > worst.utilisation {
                worst = refined;
            }
        }
    }
    worst
}

/// The angles of the unit vectors `e` with `level = reach . e`.
fn zeros(level: f64, reach: Vec2) -> impl Iterator<Item = f64> {
    let turn = (level / reach.length()).arc_cosine();
    let both = [reach.angle() - turn, reach.angle() + turn];
    both.into_iter()
        .filter(|angle| angle.is_finite())
        .map(|angle| angle.rem_euclid(TAU))
}

/// Rising angles of directions: an even fan, where a lever changes its sign, and where another lashing
/// becomes the first to reach its strength. Between two neighbours the sharing does not change its kind.
///
/// `rates` says for each lashing how soon it reaches its strength: `k / (CS - T0)`. Empty: all are at it.
fn directions(body: &Body<'_>, holding: &Holding<'_>, rates: &[f64]) -> Vec<f64> {
    let step = TAU / f64::from(DIRECTIONS);
    let mut angles: Vec<f64> = (0..DIRECTIONS).map(|k| step * f64::from(k)).collect();
    let radius = body.feet.radius_m;
    let unshifted = [Vec2::ZERO];
    let centres = if body.feet.centres.is_empty() {
        &unshifted
    } else {
        body.feet.centres
    };
    for &centre in centres {
        // Over this foot the lever is  level - reach . e
        let levers: Vec<(f64, Vec2)> = holding
            .restraints
            .iter()
            .map(|restraint| {
                let down = -restraint.pull.z;
                let pulled = restraint.height_m * restraint.pull.horizontal();
                (
                    radius * down,
                    pulled + down * (restraint.attachment - centre),
                )
            })
            .collect();
        for &(level, reach) in &levers {
            angles.extend(zeros(level, reach));
        }
        for (i, (&(level_i, reach_i), &rate_i)) in levers.iter().zip(rates).enumerate() {
            for (&(level_j, reach_j), &rate_j) in levers.iter().zip(rates).take(i) {
                let level = rate_i * level_i - rate_j * level_j;
                angles.extend(zeros(level, rate_i * reach_i - rate_j * reach_j));
            }
        }
    }
    // Beside such a direction a soft lashing takes over from a stiff one within a fraction of a step.
    for special in DIRECTIONS as usize..angles.len() {
        for halvings in 1..=CLOSER {
            let aside = step / f64::from(1_u32 << halvings);
            for angle in [angles[special] - aside, angles[special] + aside] {
                angles.push(angle.rem_euclid(TAU));
            }
        }
    }
    angles.sort_by(f64::total_cmp);
    angles
}

/// Where a function is highest between two angles, by the golden section.
fn highest(low: f64, high: f64, of: &dyn Fn(f64) -> f64) -> f64 {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (low, high);
    for _ in 0..REFINEMENTS {
        let reach = golden * (high - low);
        if of(high - reach) > of(low + reach) {
            high = low + reach;
        } else {
            low = high - reach;
        }
    }
    f64::midpoint(low, high)
}

fn towards(
    body: &Body<'_>,
    holding: &Holding<'_>,
    load: &Load,
    sharing: &Sharing<'_>,
    direction: Vec2,
) -> Tipping {
    let rho = body.feet.support_distance(direction);
    let levers: Vec<f64> = holding
        .restraints
        .iter()
        .map(|restraint| restraint.tipping_lever(direction, rho))
        .collect();
    let tensions_n = sharing(&levers);
    let held: f64 = tensions_n
        .iter()
        .zip(&levers)
        .map(|(pull, lever)| if *lever > 0.0 { pull * lever } else { 0.0 })
        .sum();
    // A load that lifts is part of the demand, as in `equilibrium`.
    let lifting = load.normal.min(0.0) * rho;
    let demand = body.mass_kg * (load.tipping.dot(direction) - lifting);
    let stood = body.mass_kg * load.normal.max(0.0) * rho + held;
    let utilisation = if demand <= 0.0 {
        0.0
    } else if stood <= 0.0 {
        f64::INFINITY
    } else {
        demand / stood
    };
    Tipping {
        utilisation,
        direction,
        tensions_n,
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::equilibrium::{Feet, Foot, utilisation};
    use super::super::property::{assert_close, cases};
    use super::super::vector::vec3;
    use super::*;
    use crate::geometry::vec2;

    const BODY: Body<'static> = Body {
        mass_kg: 17.8,
        friction: 0.2,
        foot: Foot::Stopped,
        feet: Feet {
            centres: &[Vec2::ZERO],
            radius_m: 0.0829,
        },
    };

    fn strap(angle_deg: f64, below_deg: f64, height_m: f64, capacity_n: f64) -> Restraint {
        let out = Vec2::from_angle(angle_deg.to_radians());
        let (sin, cos) = below_deg.to_radians().sine_cosine();
        Restraint {
            pull: vec3(out.x * cos, out.y * cos, -sin),
            attachment: -0.0921 * out,
            height_m,
            capacity_n,
            point: None,
            sliding_capacity_n: f64::INFINITY,
        }
    }

    fn holding(restraints: &[Restraint]) -> Holding<'_> {
        Holding {
            restraints,
            ..Holding::default()
        }
    }

    /// The stored limits of `docs/method.md`: 48.8325 along the strap, 6.8384 at 20° off it, 3.6386 at 40°,
    /// 2.7007 at 60°.
    #[test]
    fn stored_limits() {
        let restraints = [strap(-90.0, 0.0, 0.44, 600.0)];
        for (off, a_h) in [
            (0.0, 48.8325),
            (20.0, 6.8384),
            (40.0, 3.6386),
            (60.0, 2.7007),
        ] {
            let force = Vec2::from_angle((90.0_f64 - off).to_radians());
            let load = Load::at_height(force, 9.0, 0.319);
            let found = tipping(&BODY, &holding(&restraints), &load);
            assert_close(1.0 / found.utilisation, a_h, 6e-5);
        }
    }

    /// Two equal straps, one three times stiffer: the first at its limit leaves (1 + 1/3) / 2 = 1/1.5 of
    /// their joint strength. It is what the factor 1.5 allows for.
    #[test]
    fn three_times_stiffer_leaves_two_thirds() {
        let restraints = [strap(-90.0, 0.0, 0.44, 600.0); 2];
        let stretch = |stiffness_n_per_m| Stretch {
            stiffness_n_per_m,
            pretension_n: 0.0,
        };
        let stretches = [stretch(30e3), stretch(10e3)];
        let pulls = by_stiffness(&holding(&restraints), &stretches, &[0.44; 2]);
        assert_close(pulls.iter().sum::<f64>() / 1200.0, 1.0 / 1.5, 1e-12);
    }

    #[test]
    fn a_cord_beside_a_strap_counts_for_next_to_nothing() {
        let restraints = [
            strap(-90.0, 0.0, 0.44, 600.0),
            strap(-90.0, 0.0, 0.5, 400.0),
        ];
        let stretches = [
            Stretch {
                stiffness_n_per_m: 40e3,
                pretension_n: 50.0,
            },
            Stretch {
                stiffness_n_per_m: 300.0,
                pretension_n: 20.0,
            },
        ];
        let load = Load::at_height(vec2(0.0, 6.0), 9.0, 0.319);
        let found = tipping_by_stiffness(&BODY, &holding(&restraints), &load, &stretches);
        assert_close(found.tensions_n[0], 600.0, 1e-9);
        // 20 N and what 550 N stretch the strap by, in proportion to stiffness and lever.
        assert_close(
            found.tensions_n[1],
            20.0 + 550.0 * 300.0 * 0.5 / (40e3 * 0.44),
            1e-9,
        );
    }

    #[test]
    fn a_shared_point_is_used_once() {
        let mut restraints = [strap(-90.0, 0.0, 0.44, 600.0); 2];
        for restraint in &mut restraints {
            restraint.point = Some(0);
        }
        let shared = Holding {
            point_capacities_n: &[600.0],
            ..holding(&restraints)
        };
        let load = Load::at_height(vec2(0.0, 6.0), 9.0, 0.319);
        let one = tipping(&BODY, &holding(&restraints[..1]), &load);
        let both = tipping(&BODY, &shared, &load);
        assert_close(both.utilisation, one.utilisation, 1e-12);
    }

    prop_compose! {
        fn any_strap()(
            angle in 0.0..360.0_f64, below in 0.0..60.0_f64, height in 0.05..0.7_f64,
            capacity in 30.0..3000.0_f64,
        ) -> Restraint {
            strap(angle, below, height, capacity)
        }
    }

    proptest! {
        #![proptest_config(cases(128))]

        /// The upper bound of plasticity and the lower one meet: with a stopped foot and straps that do not
        /// lift, the mechanism is within 3 % of the linear program and never above it.
        #[test]
        fn mechanism_and_balance_agree(
            restraints in prop::collection::vec(any_strap(), 0..5),
            angle in 0.0..TAU, size in 1.0..10.0_f64, normal in 2.0..12.0_f64,
        ) {
            let load = Load::at_height(size * Vec2::from_angle(angle), normal, 0.319);
            let mechanism = tipping(&BODY, &holding(&restraints), &load).utilisation;
            let balance = utilisation(&BODY, &holding(&restraints), &load).utilisation;
            prop_assert!(mechanism <= balance * (1.0 + 1e-6), "{mechanism} {balance}");
            prop_assert!(mechanism >= balance * 0.97, "{mechanism} {balance}");
        }

        /// Sharing by stiffness never holds more than every lashing at its strength.
        #[test]
        fn sharing_by_stiffness_holds_no_more(
            straps in prop::collection::vec((any_strap(), 100.0..1e5_f64, 0.0..500.0_f64), 1..5),
            angle in 0.0..TAU,
        ) {
            let restraints: Vec<Restraint> = straps.iter().map(|s| s.0).collect();
            let stretches: Vec<Stretch> = straps
                .iter()
                .map(|s| Stretch { stiffness_n_per_m: s.1, pretension_n: s.2.min(0.5 * s.0.capacity_n) })
                .collect();
            let load = Load::at_height(5.0 * Vec2::from_angle(angle), 9.0, 0.319);
            let held = holding(&restraints);
            let shared = tipping_by_stiffness(&BODY, &held, &load, &stretches).utilisation;
            let full = tipping(&BODY, &held, &load).utilisation;
            prop_assert!(shared >= full * (1.0 - 1e-6), "{shared} {full}");
        }
    }

    proptest! {
        #![proptest_config(cases(6))]

        #[test]
        fn a_fine_fan_finds_nothing_worse(
            straps in prop::collection::vec((any_strap(), 100.0..1e5_f64, 0.0..500.0_f64), 1..5),
            angle in 0.0..TAU,
        ) {
            let restraints: Vec<Restraint> = straps.iter().map(|s| s.0).collect();
            let stretches: Vec<Stretch> = straps
                .iter()
                .map(|s| Stretch { stiffness_n_per_m: s.1, pretension_n: s.2.min(0.5 * s.0.capacity_n) })
                .collect();
            let load = Load::at_height(5.0 * Vec2::from_angle(angle), 9.0, 0.319);
            let held = holding(&restraints);
            let found = tipping_by_stiffness(&BODY, &held, &load, &stretches).utilisation;
            let sharing = |levers: &[f64]| by_stiffness(&held, &stretches, levers);
            for k in 0..20_000 {
                let e = Vec2::from_angle(f64::from(k) * TAU / 20_000.0);
                let there = towards(&BODY, &held, &load, &sharing, e).utilisation;
                prop_assert!(there <= found * (1.0 + 1e-3), "{there} {found} at {k}");
            }
        }
    }
}
