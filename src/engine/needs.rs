//! What nobody knows of what holds a cylinder, and how good it would have to be.

use super::body::Body;
use super::front::Fronts;
use super::hold::{ClosedSlot, HeldBy, HoldDown, Wall};
use super::limits::Prepared;
use super::numbers::{Need, NeedKind};
use super::ways::{Judge, SlotForces};
use crate::geometry::{Vec2, vec2};
use crate::mechanics::equilibrium::{Holding, LeastCapacity, Sought};
use crate::mechanics::lashing::leg::Leg;
use crate::mechanics::lashing::strength::SAFETY_FACTOR;
use crate::mechanics::lying::LyingForce;
use crate::mechanics::standing::{lift_force_n, static_tip_angle_rad};

/// Two legs whose pulls together are less than this share of both are opposite each other.
const OPPOSITE_PULLS: f64 = 0.05;

/// What nobody knows of what holds this cylinder.
pub(super) fn needs(
    judge: &Judge<'_>,
    prepared: &Prepared,
    fronts: &Fronts<'_>,
    slot_forces: &[SlotForces],
) -> Vec<Need> {
    let Judge { body, hold, .. } = judge;
    let mut needs = Vec::new();
    if let Some(slot) = &hold.slot {
        slot_needs(judge, prepared, fronts, (slot, slot_forces), &mut needs);
    }
    restraint_needs(judge, prepared, &mut needs);
    if body.friction.value.is_none() && !hold.is_restrained() && hold.slot.is_none() {
        let governing = prepared.cases.governing(body.cg, |_, force| {
            if force.a_n() > 0.0 {
                force.a_h() / force.a_n()
            } else {
                0.0
            }
        });
        needs.push(Need {
            what: NeedKind::Friction,
            of: body.deck.clone(),
            at_least: governing.value,
        });
    }
    if body.friction.value.is_none() && hold.is_restrained() {
        needs.extend(least_friction(judge, prepared).map(|at_least| Need {
            what: NeedKind::Friction,
            of: body.deck.clone(),
            at_least,
        }));
    }
    wall_needs(judge, prepared, &mut needs);
    if body.lying.is_some() {
        hold_down_needs(judge, prepared, &mut needs);
    }
    for strap in &hold.straps {
        let counted = strap.state.counts() && hold.slot.is_none();
        if counted && strap.state.slack_m.is_none() && !strap.legs.is_empty() {
            let lever = lever(body, strap.legs.as_slice()).1;
            let tip = static_tip_angle_rad(body.least_base_m(), body.cg_height_m);
            if lever > 0.0 && body.lying.is_none() {
                needs.push(Need {
                    what: NeedKind::LashingSlack,
                    of: strap.state.id.clone(),
                    at_least: lever * tip,
                });
            }
        }
    }
    needs
}

fn slot_needs(
    judge: &Judge<'_>,
    prepared: &Prepared,
    fronts: &Fronts<'_>,
    (slot, slot_forces): (&ClosedSlot, &[SlotForces]),
    needs: &mut Vec<Need>,
) {
    let body = judge.body;
    let most = |measure: &dyn Fn(&SlotForces) -> f64| {
        slot_forces
            .iter()
            .map(measure)
            .fold(f64::NEG_INFINITY, f64::max)
    };
    if slot.edge_n.is_none() {
        needs.push(Need {
            what: NeedKind::SlotStrength,
            of: slot.rack.clone(),
            at_least: most(&|forces| forces.edge_n.max(forces.stop_n)) / 1000.0,
        });
    }
    if let Some(front) = &slot.front
        && front.strength_n.is_none()
    {
        let alone = || front.pull_per_push * most(&|forces| forces.front_n);
        let pull_n = fronts
            .figures(slot)
            .map_or_else(alone, |figures| figures.most_n);
        needs.push(Need {
            what: NeedKind::FrontStrength,
            of: front.id.clone(),
            at_least: pull_n / 1000.0,
        });
    }
    if slot.hold_down == HoldDown::NotKnown {
        let governing = prepared
            .cases
            .governing(body.cg, |_, force| lift_force_n(force, body.mass_kg));
        let lift = governing.value;
        if lift > 0.0 {
            needs.push(Need {
                what: NeedKind::HoldDown,
                of: slot.rack.clone(),
                at_least: lift / 1000.0,
            });
        }
    }
}

fn restraint_needs(judge: &Judge<'_>, prepared: &Prepared, needs: &mut Vec<Need>) {
    let hold = judge.hold;
    let unknown_points: Vec<usize> = (0..hold.points.len())
        .filter(|index| !hold.points[*index].1)
        .collect();
    let unknown_straps: Vec<usize> = (0..hold.restraints.len())
        .filter(|index| {
            let HeldBy::Lashing { lashing, .. } = &hold.held_by[*index] else {
                return false;
            };
            let strap = hold.straps.iter().find(|strap| strap.state.id == *lashing);
            strap.is_some_and(|strap| strap.state.msl_n.is_none())
        })
        .collect();
    if unknown_points.is_empty() && unknown_straps.is_empty() {
        return;
    }
    let sought = Sought {
        restraints: &unknown_straps,
        points: &unknown_points,
    };
    let Some(least_n) = least_capacity(judge, prepared, &sought) else {
        return;
    };
    if least_n <= 0.0 {
        return;
    }
    let shared = |lashing: &str| {
        let strap = hold.straps.iter().find(|strap| strap.state.id == lashing);
        strap.map_or(1.0, |strap| strap.shared_by as f64)
    };
    let mut add = |what: NeedKind, of: &str, newtons: f64| {
        if !needs.iter().any(|need| need.what == what && need.of == of) {
            needs.push(Need {
                what,
                of: of.to_owned(),
                at_least: newtons / 1000.0,
            });
        }
    };
    for index in unknown_points {
        match &hold.points[index].0 {
            HeldBy::Lashing { lashing, point } => add(
                NeedKind::PointStrength,
                point,
                least_n * SAFETY_FACTOR * shared(lashing),
            ),
            HeldBy::Backing(fixture) => add(NeedKind::BackingStrength, fixture, least_n),
            HeldBy::Rack(rack) => add(NeedKind::SlotStrength, rack, least_n),
        }
    }
    for index in unknown_straps {
        if let HeldBy::Lashing { lashing, .. } = &hold.held_by[index] {
            let needed = least_n * SAFETY_FACTOR * shared(lashing);
            add(NeedKind::LashingStrength, lashing, needed);
        }
    }
}

/// What nobody knows of the fixtures beside a lying body and of the point that a body hangs from.
fn wall_needs(judge: &Judge<'_>, prepared: &Prepared, needs: &mut Vec<Need>) {
    let Judge { body, hold, .. } = judge;
    if let Some((point, None)) = &hold.hangs_by {
        let most = prepared
            .cases
            .governing(body.cg, |_, force| force.f.length())
            .value;
        needs.push(Need {
            what: NeedKind::PointStrength,
            of: point.clone(),
            at_least: SAFETY_FACTOR * body.mass_kg * most / 1000.0,
        });
    }
    let Some(lying) = &body.lying else { return };
    for (side, wall) in hold.walls.iter().enumerate() {
        let Wall::NotKnown(fixture) = wall else {
            continue;
        };
        let push = prepared.cases.governing(body.cg, |_, force| {
            let own = LyingForce::new(force, lying.axis_rad);
            match side {
                0 => own.across,
                1 => -own.across,
                2 => own.along,
                _ => -own.along,
            }
        });
        needs.push(Need {
            what: NeedKind::BackingStrength,
            of: fixture.clone(),
            at_least: body.mass_kg * push.value.max(0.0) / 1000.0,
        });
    }
}

/// What nobody knows of what keeps a lying body down.
fn hold_down_needs(judge: &Judge<'_>, prepared: &Prepared, needs: &mut Vec<Need>) {
    let Judge { body, hold, .. } = judge;
    let lift_n = prepared
        .cases
        .governing(body.cg, |_, force| lift_force_n(force, body.mass_kg))
        .value;
    if lift_n <= 0.0 {
        return;
    }
    if let Some(rack) = &hold.unknown_hold_down {
        needs.push(Need {
            what: NeedKind::HoldDown,
            of: rack.clone(),
            at_least: lift_n / 1000.0,
        });
    }
    for (lashing, sines) in &hold.unknown_over {
        let strap = hold.straps.iter().find(|strap| strap.state.id == *lashing);
        let Some(strap) = strap else { continue };
        let at_least = SAFETY_FACTOR * strap.shared_by as f64 * lift_n / sines / 1000.0;
        let mut add = |what: NeedKind, of: &str| {
            if !needs.iter().any(|need| need.what == what && need.of == of) {
                needs.push(Need {
                    what,
                    of: of.to_owned(),
                    at_least,
                });
            }
        };
        if strap.state.msl_n.is_none() {
            add(NeedKind::LashingStrength, lashing);
        }
        for point in strap
            .state
            .points
            .iter()
            .filter(|point| point.msl_n.is_none())
        {
            add(NeedKind::PointStrength, &point.id);
        }
    }
}

/// The least friction with which a held body stays, if it does not stay without any.
fn least_friction(judge: &Judge<'_>, prepared: &Prepared) -> Option<f64> {
    let goes = |friction: f64| {
        let judge = judge.with_friction(friction);
        let worst = prepared
            .cases
            .governing(judge.body.cg, |_, force| judge.ways(force).worst().1);
        worst.value >= 1.0
    };
    if !goes(0.0) || goes(1.0) {
        return None;
    }
    let (mut low, mut high) = (0.0, 1.0);
    for _ in 0..12 {
        let middle = 0.5 * (low + high);
        if goes(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Some(high)
}

/// The least equal strength that every sought restraint and point must have, over all load cases.
pub(super) fn least_capacity(
    judge: &Judge<'_>,
    prepared: &Prepared,
    sought: &Sought<'_>,
) -> Option<f64> {
    let (body, holding) = judge.analysis();
    // What is sought must not be bounded by the strength it has now.
    let mut restraints = holding.restraints.to_vec();
    for &index in sought.restraints {
        if let Some(restraint) = restraints.get_mut(index) {
            restraint.capacity_n = f64::INFINITY;
        }
    }
    let mut points = holding.point_capacities_n.to_vec();
    for (index, capacity) in points.iter_mut().enumerate() {
        let lashing = matches!(judge.hold.points[index].0, HeldBy::Lashing { .. });
        if lashing || sought.points.contains(&index) {
            *capacity = f64::INFINITY;
        }
    }
    let open = Holding {
        restraints: &restraints,
        point_capacities_n: &points,
        ..holding
    };
    let mut least = LeastCapacity::new(body, &open, sought);
    // The one that turns it hardest first: what holds it then holds it in most of the others.
    let hardest = prepared.cases.governing(judge.body.cg, |_, force| {
        judge.load(force).tipping.length() / force.a_n().max(1e-3)
    });
    least.add(&judge.load(&hardest.force))?;
    for (case, force) in judge.forces(prepared) {
        if *case != hardest.case {
            least.add(&judge.load(force))?;
        }
    }
    Some(least.least_n())
}

/// The direction in which a strap holds worst to move, away from its points, and its lever there.
pub(super) fn lever(body: &Body, legs: &[Leg]) -> (Vec2, f64) {
    let (pull, all) = legs.iter().fold((Vec2::ZERO, 0.0), |(sum, all), leg| {
        let pull = leg.pull.horizontal();
        (sum + pull, all + pull.length())
    });
    // Opposite points: the first leg holds one way along their line, the second the other.
    let pull = match legs.first() {
        Some(first) if pull.length() < OPPOSITE_PULLS * all => first.pull.horizontal(),
        _ => pull,
    };
    let Some(away) = (-pull).normalized() else {
        return (vec2(1.0, 0.0), 0.0);
    };
    let rho = body.base.support_distance(away);
    let lever = legs
        .iter()
        .map(|leg| leg.restraint(1.0, None, None).tipping_lever(away, rho))
        .filter(|lever| *lever > 0.0)
        .sum();
    (away, lever)
}
