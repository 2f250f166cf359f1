//! The worst of each way in which one cylinder could go, and the motion at which it goes.

use super::front::{FrontFigures, Fronts};
use super::hold::ClosedSlot;
use super::numbers::{LimitNumbers, Way};
use super::ways::{Judge, SlotForces, Ways, share};
use crate::mechanics::equilibrium::{Held, Mechanism};
use crate::mechanics::limit::{Limit, Scale};
use crate::mechanics::motion::{Cases, Extremes, Force, LoadCase, Motion, force_at};

/// The motion of a part, prepared once for all bodies.
#[derive(Debug)]
pub(super) struct Prepared {
    pub(super) cases: Cases,
    pub(super) whole: Scale,
    pub(super) roll: Scale,
    pub(super) roll_short: Scale,
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
pub(super) struct Worst {
    pub(super) way: Way,
    pub(super) value: f64,
    pub(super) case: LoadCase,
    pub(super) force: Force,
}

/// How one cylinder goes.
pub(super) struct Going {
    /// Worst way first, ties in the order of the ways.
    pub(super) worst: Vec<Worst>,
    pub(super) limit: LimitNumbers,
    /// The load case in which it goes first as the roll grows.
    pub(super) roll_case: LoadCase,
}

/// Beside the worst way of a body that is held, another is told where it uses up at least this much: which of
/// several the limit analysis names below that tells nothing.
const TOLD_BESIDE: f64 = 0.5;

/// The worst of the ways, and the limits. `slot_forces` are those of its closed slot, load case by load case.
pub(super) fn going(
    judge: &Judge<'_>,
    prepared: &Prepared,
    fronts: &Fronts<'_>,
    slot_forces: &[SlotForces],
) -> Going {
    if let Some(mut held) = judge.held() {
        return held_going(judge, prepared, &mut held);
    }
    if let Some(slot) = &judge.hold.slot {
        return slot_going(judge, prepared, (slot, slot_forces), fronts.figures(slot));
    }
    let mut worst = Worsts::default();
    for &(case, force) in judge.forces(prepared) {
        worst.take(&judge.ways(&force), case, force);
    }
    let used = |_: &LoadCase, force: &Force| judge.ways(force).worst().1;
    let (mut going, gone) = with_limits(judge, prepared, worst, |scale, likely| {
        scale.descend(judge.body.cg, likely, used)
    });
    going.limit.way = gone.map(|force| judge.ways(&force).worst().0);
    going
}

/// A body in a closed slot. A front that is fastened at its ends gives for all behind it at once: that is
/// looked at once for all of them.
fn slot_going(
    judge: &Judge<'_>,
    prepared: &Prepared,
    (slot, slot_forces): (&ClosedSlot, &[SlotForces]),
    front: Option<&FrontFigures>,
) -> Going {
    let mut worst = Worsts::default();
    let cases = judge.forces(prepared).iter();
    for (index, (&(case, force), forces)) in cases.zip(slot_forces).enumerate() {
        let pull_n = front.map(|front| front.pulls_n.get(index).copied().unwrap_or(0.0));
        worst.take(&judge.slot_ways(slot, forces, pull_n, &force), case, force);
    }
    let alone = |_: &LoadCase, force: &Force| {
        let forces = judge.slot_forces(slot, force);
        let nothing = front.map(|_| 0.0);
        judge.slot_use(slot, &forces, nothing, force)
    };
    let mut of_front = (front.and_then(|front| front.limits)).into_iter().flatten();
    let (mut going, gone) = with_limits(judge, prepared, worst, |scale, likely| {
        let at_most = |extremes: &Extremes| judge.slot_use_at_most(front.is_none(), extremes);
        let own = scale.descend_within(judge.body.cg, likely, alone, Some(at_most));
        let front = of_front.next();
        front
            .filter(|front| front.0.value() < own.0.value())
            .unwrap_or(own)
    });
    going.limit.way = gone.map(|force| judge.ways(&force).worst().0);
    going
}

/// A body that lashings, backing or an open slot hold: the limit analysis is asked as seldom as can be.
fn held_going(judge: &Judge<'_>, prepared: &Prepared, held: &mut Held<'_>) -> Going {
    let at = judge.body.cg;
    let load_of = |force: &Force| judge.load(force);
    let mut worst = Worsts::default();
    let mut most = (0.0_f64, None::<(LoadCase, Mechanism)>);
    // The one that turns it hardest first: most of the others are then no worse for certain.
    let hardest = prepared.cases.governing(at, |_, force| {
        load_of(force).tipping.length() / force.a_n().max(1e-3)
    });
    let others = (judge.forces(prepared).iter().copied()).filter(|(case, _)| *case != hardest.case);
    for (case, force) in std::iter::once((hardest.case, hardest.force)).chain(others) {
        let load = load_of(&force);
        if most.0 > 0.0 && held.uses_less_than(&load, most.0.min(TOLD_BESIDE)) {
            continue;
        }
        let (ways, mechanism) = Judge::held_ways(held, &load);
        let value = ways.worst().1;
        if value > most.0 {
            most = (value, mechanism.map(|mechanism| (case, mechanism)));
        }
        worst.take(&ways, case, force);
    }
    worst.told_beside(TOLD_BESIDE);
    let mut by = most.1;
    let (mut going, gone) = with_limits(judge, prepared, worst, |scale, _| {
        let (limit, case, mechanism) = scale.descend_held(at, load_of, held, by);
        by = mechanism.map(|mechanism| (case, mechanism)).or(by);
        (limit, case)
    });
    going.limit.way = gone.map(|force| Judge::held_ways(held, &load_of(&force)).0.worst().0);
    going
}

/// The limits by a way of finding one: each time the load case that governed before is likely to govern again.
/// Beside them the force under which it goes as the whole motion grows, for whoever tells in which way.
fn with_limits(
    judge: &Judge<'_>,
    prepared: &Prepared,
    worst: Worsts,
    mut descend: impl FnMut(&Scale, Option<LoadCase>) -> (Limit, LoadCase),
) -> (Going, Option<Force>) {
    let worst = worst.sorted();
    let likely = worst.first().map(|worst| worst.case);
    let (whole, case) = descend(&prepared.whole, likely);
    let (roll, roll_case) = descend(&prepared.roll, Some(case));
    let (short, _) = descend(&prepared.roll_short, Some(roll_case));
    let share = match whole {
        Limit::AtOnce => Some(0.0),
        Limit::At(share) => Some(share),
        Limit::NotWithin(_) => None,
    };
    let gone = share.map(|share| {
        let motion = prepared.whole.motion_at(share);
        force_at(&motion, &case, judge.body.cg)
    });
    let degrees = |limit: Limit| match limit {
        Limit::At(rad) => Some(rad.to_degrees()),
        Limit::AtOnce | Limit::NotWithin(_) => None,
    };
    let limit = LimitNumbers {
        share,
        roll_deg: degrees(roll),
        roll_at_short_period_deg: degrees(short),
        goes_without_roll: matches!(roll, Limit::AtOnce),
        goes_at_rest: matches!(whole, Limit::AtOnce),
        way: None,
        if_unknowns_hold: judge.hold.has_unknown_strength() || judge.body.friction.value.is_none(),
    };
    let going = Going {
        worst,
        limit,
        roll_case,
    };
    (going, gone)
}

/// The worst of each way so far.
#[derive(Default)]
struct Worsts(Vec<Worst>);

impl Worsts {
    fn take(&mut self, ways: &Ways, case: LoadCase, force: Force) {
        for (way, value) in ways.iter() {
            match self.0.iter_mut().find(|item| item.way == way) {
                Some(item) if value > item.value => {
                    *item = Worst {
                        way,
                        value,
                        case,
                        force,
                    };
                }
                Some(_) => {}
                None => self.0.push(Worst {
                    way,
                    value,
                    case,
                    force,
                }),
            }
        }
    }

    /// Leaves out what uses up less than this, but for the worst.
    fn told_beside(&mut self, least: f64) {
        let most = self.0.iter().map(|item| item.value).fold(0.0, f64::max);
        self.0
            .retain(|item| item.value >= least || item.value >= most);
    }

    fn sorted(mut self) -> Vec<Worst> {
        self.0
            .sort_by(|a, b| b.value.total_cmp(&a.value).then(a.way.cmp(&b.way)));
        self.0
    }
}

/// The roll at which the foot of a body in a slot kicks out, in degrees.
pub(super) fn kick_out_roll_deg(
    judge: &Judge<'_>,
    prepared: &Prepared,
    slot: &ClosedSlot,
    likely: LoadCase,
) -> Option<f64> {
    let kick = |_: &LoadCase, force: &Force| judge.slot_forces(slot, force).kick;
    match prepared.roll.descend(judge.body.cg, Some(likely), kick).0 {
        Limit::AtOnce => Some(0.0),
        Limit::At(rad) => Some(rad.to_degrees()),
        Limit::NotWithin(_) => None,
    }
}

/// How much of what the front of a slot can take is used up by this pull; nothing where its strength is not
/// known.
pub(super) fn front_share(slot: &ClosedSlot, pull_n: f64) -> f64 {
    let strength_n = slot.front.as_ref().and_then(|front| front.strength_n);
    strength_n.map_or(0.0, |strength_n| share(pull_n, strength_n))
}
