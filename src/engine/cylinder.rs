//! All computed numbers of one cylinder.

use super::backing::pushes;
use super::body::Body;
use super::front::Fronts;
use super::hold::{HeldBy, Hold, StrapOnBody};
use super::limits::{Prepared, Worst, going, kick_out_roll_deg};
use super::needs::{least_capacity, lever, needs};
use super::numbers::{CylinderNumbers, Governing, LashingHold, RackHold, Stance, Utilisation, Way};
use super::sums;
use super::ways::{Judge, SlotForces};
use crate::geometry::Elementary as _;
use crate::geometry::Vec2;
use crate::layout::Id;
use crate::mechanics::equilibrium::Sought;
use crate::mechanics::lashing::hand_test::{HAND_PUSH_N, TriedLashing, movement_m};
use crate::mechanics::lashing::strength::SAFETY_FACTOR;
use crate::mechanics::lean;
use crate::mechanics::mechanism::{Stretch, tipping_by_stiffness};
use crate::mechanics::motion::{Force, GRAVITY, LoadCase};
use crate::mechanics::slack::{Leaning, SlackLashing, Snatch, sliding_peak_n, snatch};
use crate::mechanics::standing::{
    HAND_LEVER_M, hand_force_n, landing_load_n, lift_force_n, static_tip_angle_rad,
};

/// All numbers of one cylinder.
pub(super) fn numbers(
    judge: &Judge<'_>,
    prepared: &Prepared,
    fronts: &Fronts<'_>,
) -> CylinderNumbers {
    let Judge { body, hold, .. } = judge;
    let slot_forces = judge.slot_forces_by_case(prepared);
    let going = going(judge, prepared, fronts, slot_forces);
    let utilisations = going
        .worst
        .iter()
        .map(|item| utilisation(judge, item, fronts, prepared))
        .collect::<Vec<_>>();
    let by_stiffness = tips_by_stiffness(judge, prepared);
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
        needs: needs(judge, prepared, fronts, slot_forces),
        rack: rack_hold(judge, prepared, slot_forces, going.roll_case),
        row: hold
            .row
            .as_ref()
            .map_or_else(Vec::new, |row| row.members.clone()),
        tips_by_stiffness: by_stiffness.as_ref().map(|(share, _)| *share),
        stiffest_lashing: by_stiffness.map(|(_, lashing)| lashing),
        lashings: lashing_holds(judge, prepared),
        backed_by: hold.backed_by.clone(),
        backing_pushes: pushes(judge, prepared),
        hand_force_n: (body.stance == Stance::HeldByHand).then(|| {
            prepared
                .cases
                .governing(body.cg, |_, force| hand_n(body, force))
                .value
        }),
        landing_load_n: (judge.forces(prepared).iter())
            .map(|(_, force)| landing_load_n(force, body.mass_kg))
            .fold(0.0, f64::max),
        limit: going.limit,
        utilisations,
    }
}

/// What a person at the valve must bring up: against falling, against what friction leaves (none where
/// nobody knows it). Who holds it leaves the deck when it does.
fn hand_n(body: &Body, force: &Force) -> f64 {
    if force.a_n() <= 0.0 {
        return f64::INFINITY;
    }
    let falling = hand_force_n(force, &body.upright(), &body.base, HAND_LEVER_M);
    let friction = body.friction.value.unwrap_or(0.0);
    let sliding = body.mass_kg * (force.a_h() - friction * force.a_n());
    falling.max(sliding)
}

fn stance(body: &Body, hold: &Hold) -> Stance {
    match body.stance {
        Stance::StandsFree if hold.is_lashed() => Stance::Lashed,
        Stance::StandsFree if !hold.backed_by.is_empty() => Stance::Backed,
        stance => stance,
    }
}

fn utilisation(
    judge: &Judge<'_>,
    worst: &Worst,
    fronts: &Fronts<'_>,
    prepared: &Prepared,
) -> Utilisation {
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
            case: worst.case,
            towards_deg: worst.force.along_deck().angle().to_degrees(),
            a_h_m_s2: worst.force.a_h(),
            a_n_m_s2: worst.force.a_n(),
        }),
        sum: sums::sum(judge, worst, || {
            front_pull_n(judge, worst, fronts, prepared)
        }),
    }
}

/// The pull in the front of the slot of this body in a load case.
fn front_pull_n(judge: &Judge<'_>, worst: &Worst, fronts: &Fronts<'_>, prepared: &Prepared) -> f64 {
    let Some(slot) = &judge.hold.slot else {
        return 0.0;
    };
    let of_row = fronts.figures(slot).and_then(|figures| {
        let mut cases = judge.forces(prepared).iter();
        let number = cases.position(|(case, _)| *case == worst.case)?;
        figures.pulls_n.get(number).copied()
    });
    of_row.unwrap_or_else(|| {
        let front = slot.front.as_ref();
        front.map_or(0.0, |front| front.pull_n(judge.body, slot, &worst.force))
    })
}

fn rack_hold(
    judge: &Judge<'_>,
    prepared: &Prepared,
    slot_forces: &[SlotForces],
    roll_case: LoadCase,
) -> Option<RackHold> {
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
        lean_deg: slot.play_m.map_or(0.0, |play| {
            play.max(0.0)
                .arc_tangent_over(slot.edge_height_m)
                .to_degrees()
        }),
        foot_force_n: 0.0,
        kick_out_roll_deg: None,
        lift_force_n: 0.0,
    };
    for ((_, force), forces) in judge.forces(prepared).iter().zip(slot_forces) {
        numbers.edge_force_n = numbers.edge_force_n.max(forces.edge_n);
        numbers.front_force_n = numbers.front_force_n.map(|n| n.max(forces.front_n));
        numbers.foot_force_n = numbers.foot_force_n.max(forces.stop_n);
        let lift = lift_force_n(force, body.mass_kg);
        numbers.lift_force_n = numbers.lift_force_n.max(lift);
    }
    if !slot.foot_stopped {
        numbers.kick_out_roll_deg = kick_out_roll_deg(judge, prepared, slot, roll_case);
    }
    Some(numbers)
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
    let sines = strap.left_angle_rad.sine() + strap.right_angle_rad.sine();
    if lift <= 0.0 {
        0.0
    } else if sines <= 0.0 {
        f64::INFINITY
    } else {
        lift / sines
    }
}

fn lashing_holds(judge: &Judge<'_>, prepared: &Prepared) -> Vec<LashingHold> {
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
            counted: hold.slot.is_none() && state.counts() && strap.on_straight_shell,
            lean_deg: lean_rad.map(f64::to_degrees),
            snatch_n: snatch_n(judge, prepared, strap, (away, lever_m)),
            push_test_m: lean_rad.and_then(|lean| push_test_m(body, strap, (away, lever_m), lean)),
        }
    });
    holds.collect()
}

/// Tipping with lashings that share by stiffness, and which of them is at its strength first: see
/// [`CylinderNumbers::tips_by_stiffness`].
fn tips_by_stiffness(judge: &Judge<'_>, prepared: &Prepared) -> Option<(f64, Id)> {
    let Judge { body, hold, .. } = judge;
    if hold.slot.is_some() || body.lying.is_some() {
        return None;
    }
    let stretch = |held_by: &HeldBy| {
        let HeldBy::Lashing { lashing, .. } = held_by else {
            return None;
        };
        let strap = hold
            .straps
            .iter()
            .find(|strap| strap.state.id == *lashing)?;
        Some(Stretch {
            stiffness_n_per_m: stiffness_n_per_m(strap)?,
            pretension_n: strap.state.pretension_n.unwrap_or(0.0),
        })
    };
    // Two legs are one lashing.
    let stretches: Vec<Stretch> = hold.held_by.iter().map(stretch).collect::<Option<_>>()?;
    if stretches.len() < 4 {
        return None;
    }
    let turning = |force: &Force| force.tipping(body.cg_height_m, body.kappa2_m2).length();
    let (_, hardest) =
        (judge.forces(prepared).iter()).max_by(|a, b| turning(&a.1).total_cmp(&turning(&b.1)))?;
    let (standing, holding) = judge.analysis();
    let load = judge.load(hardest);
    let tips = tipping_by_stiffness(&standing, &holding, &load, &stretches);
    let strained = |index: &usize| tips.tensions_n[*index] / holding.restraints[*index].capacity_n;
    let first = (0..tips.tensions_n.len()).reduce(|best, index| {
        if strained(&index) > strained(&best) + 1e-9 {
            index
        } else {
            best
        }
    })?;
    let HeldBy::Lashing { lashing, .. } = &hold.held_by[first] else {
        return None;
    };
    Some((tips.utilisation, lashing.clone())).filter(|(share, _)| share.is_finite())
}

/// Stiffness of the whole lashing, in newtons for one metre; `None` if not known.
fn stiffness_n_per_m(strap: &StrapOnBody) -> Option<f64> {
    let length_m: f64 = strap.legs.iter().map(|leg| leg.length_m).sum();
    let axial = strap.state.stiffness_n;
    let of_length = || axial.map(|axial| axial / length_m.max(0.05));
    strap.state.whole_stiffness_n_per_m.or_else(of_length)
}

/// The part of the pull of both legs that points back from this direction.
fn against(strap: &StrapOnBody, away: Vec2) -> f64 {
    let legs = strap.legs.iter();
    legs.map(|leg| (-leg.pull.horizontal().dot(away)).max(0.0))
        .sum()
}

/// How far the valve moves under a push of one hand on a level deck: through the slack, then by the stretch
/// (none where nobody knows the stiffness). Where the push neither tips nor slides it, what the slack lets
/// the top move.
fn push_test_m(
    body: &Body,
    strap: &StrapOnBody,
    (away, lever_m): (Vec2, f64),
    lean_rad: f64,
) -> Option<f64> {
    let at_rest = Leaning {
        mass_kg: body.mass_kg,
        stance: lean::Stance {
            centre_height_m: body.cg_height_m,
            reach_m: body.base.support_distance(away).max(0.0),
        },
        force: lean::PlaneForce {
            a_n: GRAVITY,
            ..lean::PlaneForce::default()
        },
    };
    let tried = TriedLashing {
        lever_m,
        against_push: against(strap, away),
        slack_m: strap.state.slack_m?,
        stiffness_n_per_m: stiffness_n_per_m(strap).unwrap_or(f64::INFINITY),
    };
    let height_m = body.assembled.neck_m;
    let friction = body.friction.value.unwrap_or(0.0);
    let moved_m = movement_m(&at_rest, friction, &tried, height_m, HAND_PUSH_N);
    let by_slack_m = lean_rad * height_m;
    Some(moved_m.max(by_slack_m)).filter(|moved| moved.is_finite())
}

/// The peak pull when the cylinder falls or slides into its slack lashing, at the worst load case.
fn snatch_n(
    judge: &Judge<'_>,
    prepared: &Prepared,
    strap: &StrapOnBody,
    (away, lever_m): (Vec2, f64),
) -> Option<f64> {
    let body = judge.body;
    let slack_m = strap.state.slack_m?;
    if body.lying.is_some() || lever_m <= 0.0 || slack_m <= 0.0 || !strap.state.counts() {
        return None;
    }
    let stiffness = stiffness_n_per_m(strap)?;
    let against = against(strap, away);
    let friction = body.friction.value.unwrap_or(0.0);
    let lashing = SlackLashing {
        lever_m,
        slack_m,
        stiffness_n_per_m: stiffness,
        line: None,
    };
    let mut most = Some(0.0_f64);
    for (_, force) in judge.forces(prepared) {
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
        if against > 0.0 && !judge.hold.foot_stopped {
            let along = force.along_deck().dot(away);
            let net_n = body.mass_kg * (along - friction * force.a_n().max(0.0));
            let peak_n = sliding_peak_n(net_n, against, slack_m, stiffness);
            most = most.map(|most| most.max(peak_n));
        }
        most = match snatch(&leaning, &lashing) {
            Snatch::Stands => most,
            Snatch::NeverBites => None,
            Snatch::Caught(catch) => most.map(|most| most.max(catch.peak_n)),
        };
    }
    most
}
