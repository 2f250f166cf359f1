//! All computed numbers of one cylinder.

use super::body::Body;
use super::hold::{HeldBy, Hold, HoldDown, Wall};
use super::numbers::{
    CylinderNumbers, Governing, LashingHold, LimitNumbers, Need, NeedKind, RackHold, Stance,
    Utilisation, Way,
};
use super::sums;
use super::ways::Judge;
use super::words;
use crate::geometry::{Vec2, vec2};
use crate::mechanics::equilibrium::{self, Sought};
use crate::mechanics::lashing::strength::SAFETY_FACTOR;
use crate::mechanics::lean;
use crate::mechanics::limit::{Limit, Scale};
use crate::mechanics::lying::LyingForce;
use crate::mechanics::motion::{Cases, Force, LoadCase, Motion};
use crate::mechanics::slack::{Leaning, SlackLashing, Snatch, snatch};
use crate::mechanics::standing::{HAND_LEVER_M, hand_force_n, lift_force_n, static_tip_angle_rad};

/// The motion of a part, prepared once for all bodies.
#[derive(Debug)]
pub(super) struct Prepared {
    pub(super) cases: Cases,
    whole: Scale,
    roll: Scale,
    roll_short: Scale,
}

impl Prepared {
    pub(super) fn new(motion: &Motion) -> Self {
        let most_roll = LimitNumbers::SEARCHED_ROLL_DEG.to_radians();
        let short = Motion {
            roll_period_s: 0.9 * motion.roll_period_s,
            ..*motion
        };
        Self {
            cases: Cases::new(motion),
            whole: Scale::whole(motion, LimitNumbers::SEARCHED_SHARE),
            roll: Scale::roll(motion, most_roll),
            roll_short: Scale::roll(&short, most_roll),
        }
    }
}

/// The worst of one way over all load cases.
struct Worst {
    way: Way,
    value: f64,
    case: LoadCase,
    force: Force,
}

/// All numbers of one cylinder.
pub(super) fn numbers(judge: &Judge<'_>, prepared: &Prepared) -> CylinderNumbers {
    let Judge { body, hold, .. } = judge;
    let worst = worst_ways(judge, prepared);
    let utilisations = worst
        .iter()
        .map(|item| utilisation(judge, item))
        .collect::<Vec<_>>();
    let upright = body.lying.is_none() && body.stance != Stance::Hanging;
    let least_base_m = if upright { body.least_base_m() } else { 0.0 };
    CylinderNumbers {
        cylinder: body.id.clone(),
        deck: body.deck.clone(),
        at: [body.at.x, body.at.y],
        stance: stance(body, hold),
        mass_kg: body.mass_kg,
        cg_height_m: body.cg_height_m,
        cg_above_waterline_m: body.cg.z,
        base_radius_m: least_base_m,
        height_m: body.top_m(),
        body_radius_m: body.radius_m,
        straight_shell_m: [body.assembled.strap_from_m, body.assembled.strap_to_m],
        height_to_base_ratio: (upright && least_base_m > 0.0)
            .then(|| body.assembled.height_to_base()),
        static_tip_angle_deg: upright
            .then(|| static_tip_angle_rad(least_base_m, body.cg_height_m).to_degrees()),
        friction: body.friction.value,
        friction_source: body.friction.source.clone(),
        needs: needs(judge, prepared),
        rack: rack_hold(judge, prepared),
        lashings: lashing_holds(judge, prepared, &worst),
        backed_by: hold.backed_by.clone(),
        hand_force_n: (body.stance == Stance::HeldByHand).then(|| {
            let upright = body.upright();
            prepared
                .cases
                .governing(body.cg, |_, force| {
                    hand_force_n(force, &upright, &body.base, HAND_LEVER_M)
                })
                .value
        }),
        limit: limit(judge, prepared),
        utilisations,
    }
}

fn stance(body: &Body, hold: &Hold) -> Stance {
    match body.stance {
        Stance::StandsFree if hold.is_lashed() => Stance::Lashed,
        Stance::StandsFree if !hold.backed_by.is_empty() => Stance::Backed,
        stance => stance,
    }
}

/// The worst of each way, worst way first, ties in the order of the ways.
fn worst_ways(judge: &Judge<'_>, prepared: &Prepared) -> Vec<Worst> {
    let mut worst: Vec<Worst> = Vec::new();
    for (case, force) in prepared.cases.forces(judge.body.cg) {
        for (way, value) in judge.ways(&force).iter() {
            match worst.iter_mut().find(|item| item.way == way) {
                Some(item) if value > item.value => {
                    *item = Worst {
                        way,
                        value,
                        case,
                        force,
                    };
                }
                Some(_) => {}
                None => worst.push(Worst {
                    way,
                    value,
                    case,
                    force,
                }),
            }
        }
    }
    worst.sort_by(|a, b| b.value.total_cmp(&a.value).then(a.way.cmp(&b.way)));
    worst
}

fn utilisation(judge: &Judge<'_>, worst: &Worst) -> Utilisation {
    let friction_decides = matches!(worst.way, Way::Slides | Way::SlidesAlong)
        && judge.body.friction.value.is_none()
        && !judge.hold.is_restrained();
    let value = if friction_decides {
        None
    } else {
        Some(worst.value).filter(|value| value.is_finite())
    };
    Utilisation {
        way: worst.way,
        value,
        goes: !friction_decides && worst.value >= 1.0,
        governing: Some(Governing {
            case: words::case(&worst.case),
            towards_deg: worst.force.along_deck().angle().to_degrees(),
            a_h_m_s2: worst.force.a_h(),
            a_n_m_s2: worst.force.a_n(),
        }),
        sum: sums::lines(judge, worst.way, worst.value, &worst.force),
    }
}

fn limit(judge: &Judge<'_>, prepared: &Prepared) -> LimitNumbers {
    let mut way = None;
    let measure = |_: &LoadCase, force: &Force| judge.ways(force).worst().1;
    let (whole, case) = prepared.whole.descend(judge.body.cg, measure);
    let (roll, _) = prepared.roll.descend(judge.body.cg, measure);
    let (short, _) = prepared.roll_short.descend(judge.body.cg, measure);
    let at = match whole {
        Limit::AtOnce => Some(0.0),
        Limit::At(share) => Some(share),
        Limit::NotWithin(_) => None,
    };
    if let Some(share) = at {
        let motion = prepared.whole.motion_at(share);
        let force = crate::mechanics::motion::force_at(&motion, &case, judge.body.cg);
        way = Some(judge.ways(&force).worst().0);
    }
    let degrees = |limit: Limit| match limit {
        Limit::At(rad) => Some(rad.to_degrees()),
        Limit::AtOnce | Limit::NotWithin(_) => None,
    };
    LimitNumbers {
        share: at,
        roll_deg: degrees(roll),
        roll_at_short_period_deg: degrees(short),
        goes_without_roll: matches!(roll, Limit::AtOnce),
        goes_at_rest: matches!(whole, Limit::AtOnce),
        way,
        if_unknowns_hold: judge.hold.has_unknown_strength() || judge.body.friction.value.is_none(),
    }
}

fn rack_hold(judge: &Judge<'_>, prepared: &Prepared) -> Option<RackHold> {
    let Judge { body, hold, .. } = judge;
    if let Some((rack, slot, front)) = &hold.open_slot {
        return Some(RackHold {
            rack: rack.clone(),
            slot: slot.clone(),
            edge_force_n: 0.0,
            edge_strength_n: None,
            edge_height_m: 0.0,
            front_force_n: None,
            front: front.clone(),
            closed: false,
            play_m: None,
            lean_deg: 0.0,
            foot_force_n: 0.0,
            kick_out_roll_deg: None,
            lift_force_n: 0.0,
        });
    }
    let slot = hold.slot.as_ref()?;
    let mut numbers = RackHold {
        rack: slot.rack.clone(),
        slot: slot.slot.clone(),
        edge_force_n: 0.0,
        edge_strength_n: slot.edge_n,
        edge_height_m: slot.edge_height_m,
        front_force_n: slot.front.as_ref().map(|_| 0.0),
        front: slot.front.as_ref().map(|front| front.id.clone()),
        closed: true,
        play_m: slot.play_m,
        lean_deg: 0.0,
        foot_force_n: 0.0,
        kick_out_roll_deg: None,
        lift_force_n: 0.0,
    };
    for (_, force) in prepared.cases.forces(body.cg) {
        let forces = judge.slot_forces(slot, &force);
        numbers.edge_force_n = numbers.edge_force_n.max(forces.edge_n);
        numbers.front_force_n = numbers.front_force_n.map(|n| n.max(forces.front_n));
        numbers.lean_deg = numbers.lean_deg.max(forces.rail.lean_rad.to_degrees());
        let stop = forces.rail.stop_n.unwrap_or(0.0).abs();
        numbers.foot_force_n = numbers.foot_force_n.max(stop);
        let lift = lift_force_n(&force, body.mass_kg);
        numbers.lift_force_n = numbers.lift_force_n.max(lift);
    }
    if !slot.foot_stopped {
        let (kick, _) = prepared
            .roll
            .descend(body.cg, |_, force| judge.slot_forces(slot, force).rail.kick);
        numbers.kick_out_roll_deg = match kick {
            Limit::AtOnce => Some(0.0),
            Limit::At(rad) => Some(rad.to_degrees()),
            Limit::NotWithin(_) => None,
        };
    }
    Some(numbers)
}

/// The least equal strength that every sought restraint and point must have, over all load cases.
fn least_capacity(judge: &Judge<'_>, prepared: &Prepared, sought: &Sought<'_>) -> Option<f64> {
    let mut least = 0.0_f64;
    for (_, force) in prepared.cases.forces(judge.body.cg) {
        let (body, holding, load) = judge.analysis(&force);
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
        let open = equilibrium::Holding {
            restraints: &restraints,
            point_capacities_n: &points,
            ..holding
        };
        if equilibrium::holds(&body, &equilibrium::Holding::default(), &load) {
            continue;
        }
        least = least.max(equilibrium::least_capacity(&body, &open, &load, sought)?);
    }
    Some(least)
}

fn needs(judge: &Judge<'_>, prepared: &Prepared) -> Vec<Need> {
    let Judge { body, hold, .. } = judge;
    let mut needs = Vec::new();
    if let Some(slot) = &hold.slot {
        slot_needs(judge, prepared, slot, &mut needs);
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
    for strap in &hold.straps {
        if strap.state.counts() && strap.state.slack_m.is_none() && !strap.legs.is_empty() {
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

/// The pull that straps over a lying body need so that it does not leave the deck, in newtons.
fn lying_pull_n(judge: &Judge<'_>, prepared: &Prepared) -> f64 {
    let Judge { body, hold, .. } = judge;
    let Some(strap) = hold.over_strap else {
        return 0.0;
    };
    let lift = prepared
        .cases
        .governing(body.cg, |_, force| lift_force_n(force, body.mass_kg))
        .value;
    let sines = strap.left_angle_rad.sin() + strap.right_angle_rad.sin();
    if lift <= 0.0 {
        0.0
    } else if sines <= 0.0 {
        f64::INFINITY
    } else {
        lift / sines
    }
}

fn slot_needs(
    judge: &Judge<'_>,
    prepared: &Prepared,
    slot: &super::hold::ClosedSlot,
    needs: &mut Vec<Need>,
) {
    let body = judge.body;
    let most = |measure: &dyn Fn(&Force) -> f64| {
        prepared
            .cases
            .governing(body.cg, |_, force| measure(force))
            .value
    };
    if slot.edge_n.is_none() {
        needs.push(Need {
            what: NeedKind::SlotStrength,
            of: slot.rack.clone(),
            at_least: most(&|force| judge.slot_forces(slot, force).edge_n) / 1000.0,
        });
    }
    if let Some(front) = &slot.front
        && front.strength_n.is_none()
    {
        let pull = most(&|force| judge.slot_forces(slot, force).front_n) * front.pull_per_push;
        needs.push(Need {
            what: NeedKind::FrontStrength,
            of: front.id.clone(),
            at_least: pull / 1000.0,
        });
    }
    if slot.hold_down == HoldDown::NotKnown {
        let lift = most(&|force| lift_force_n(force, body.mass_kg));
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

/// The direction in which a strap holds worst to move, away from its points, and its lever there.
fn lever(body: &Body, legs: &[crate::mechanics::lashing::leg::Leg]) -> (Vec2, f64) {
    let pull = legs
        .iter()
        .fold(Vec2::ZERO, |sum, leg| sum + leg.pull.horizontal());
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

fn lashing_holds(judge: &Judge<'_>, prepared: &Prepared, worst: &[Worst]) -> Vec<LashingHold> {
    let Judge { body, hold, .. } = judge;
    let mine: Vec<usize> = (0..hold.restraints.len())
        .filter(|index| matches!(hold.held_by[*index], HeldBy::Lashing { .. }))
        .collect();
    let pull_n = if mine.is_empty() {
        Some(lying_pull_n(judge, prepared))
    } else {
        let sought = Sought {
            restraints: &mine,
            points: &[],
        };
        least_capacity(judge, prepared, &sought)
    };
    let holds = hold.straps.iter().map(|strap| {
        let state = &strap.state;
        let known = state.msl_n.is_some() && state.points.iter().all(|p| p.msl_n.is_some());
        let (away, lever_m) = lever(body, &strap.legs);
        let upright = body.lying.is_none() && state.counts() && lever_m > 0.0;
        let lean_rad = state
            .slack_m
            .filter(|_| upright)
            .map(|slack| slack / lever_m);
        LashingHold {
            lashing: state.id.clone(),
            pull_n: if state.counts() && strap.on_straight_shell {
                pull_n.unwrap_or(f64::INFINITY)
            } else {
                0.0
            },
            capacity_n: known.then(|| {
                let legs = strap.legs.iter().zip(&state.points);
                let points = legs.filter_map(|(leg, point)| point.strength_n(leg));
                points.fold(state.msl_n.unwrap_or(f64::INFINITY), f64::min)
                    / SAFETY_FACTOR
                    / strap.shared_by as f64
            }),
            on_straight_shell: strap.on_straight_shell,
            lean_deg: lean_rad.map(f64::to_degrees),
            snatch_n: snatch_n(judge, strap, worst, away, lever_m),
            push_test_m: lean_rad.map(|lean| lean * body.assembled.neck_m),
        }
    });
    holds.collect()
}

/// The peak pull when the cylinder falls into its slack lashing, at the worst load case.
fn snatch_n(
    judge: &Judge<'_>,
    strap: &super::hold::StrapOnBody,
    worst: &[Worst],
    away: Vec2,
    lever_m: f64,
) -> Option<f64> {
    let body = judge.body;
    let slack_m = strap.state.slack_m?;
    if body.lying.is_some() || lever_m <= 0.0 || slack_m <= 0.0 || !strap.state.counts() {
        return None;
    }
    let length_m: f64 = strap.legs.iter().map(|leg| leg.length_m).sum();
    let stiffness = strap.state.whole_stiffness_n_per_m.or_else(|| {
        strap
            .state
            .stiffness_n
            .map(|axial| axial / length_m.max(0.05))
    })?;
    let force = worst.first()?.force;
    let leaning = Leaning {
        mass_kg: body.mass_kg,
        stance: lean::Stance {
            centre_height_m: body.cg_height_m,
            reach_m: body.base.support_distance(away).max(0.0),
        },
        force: lean::PlaneForce {
            a_h: force.along_deck().dot(away).max(0.0),
            a_n: force.a_n(),
            spin: force.tipping(0.0, body.kappa2_m2).dot(away).max(0.0),
        },
    };
    let lashing = SlackLashing {
        lever_m,
        slack_m,
        stiffness_n_per_m: stiffness,
        line: None,
    };
    match snatch(&leaning, &lashing) {
        Snatch::Stands => Some(0.0),
        Snatch::NeverBites => None,
        Snatch::Caught(catch) => Some(catch.peak_n),
    }
}
