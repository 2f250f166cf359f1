//! What keeps an upright cylinder where it is, apart from its own foot; and when it goes.

use super::check::CheckContext;
use super::figures;
use crate::catalogue::published;
use crate::engine::numbers::{CylinderNumbers, Stance};
use crate::geometry::Elementary as _;
use crate::layout::{Condition, Id, LashCondition, Lashing, Person, Placing, Point, ThingKind};

/// How near somebody must be to hold or mind a cylinder, in metres.
pub(super) const ARM_M: f64 = published::HELD_REACH_M;

/// The pull at the valve that a person can keep up, in newtons.
pub(super) const HAND_N: f64 = published::HELD_FORCE_N;

/// What keeps a cylinder upright.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Security {
    /// It does not stand upright on a deck.
    NotAsked,
    /// A slot that is closed all round.
    Racked,
    /// A lashing on its straight shell that is made fast.
    Lashed,
    /// Somebody, properly.
    Held,
    /// Somebody within reach while it is filled, and the boat is not running.
    Minded,
    /// Nothing, and why.
    Unsecured(Why),
}

/// Why a cylinder counts as unsecured.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Why {
    /// It stands on its foot.
    Free,
    /// It stands against something, with nothing round it.
    OnlyBacked,
    /// The strap, chain, cord or bar across its slot is open or missing.
    SlotOpen {
        /// The rack.
        rack: Id,
        /// The front; `None` if there is none.
        front: Option<Id>,
    },
    /// The lashing round it is not made fast, or lost one of those it goes round.
    LashingOpen {
        /// The lashing.
        lashing: Id,
        /// The others that it holds.
        others: Vec<Id>,
        /// Who left it, where it is still shut.
        left: Vec<Id>,
    },
    /// Its lashing is not on the straight shell.
    OffShell(Id),
    /// Somebody holds it, but not well enough.
    BadlyHeld(String),
    /// It is on the filling whip with nobody near, or while the boat is running.
    AloneOnWhip,
}

/// What keeps this cylinder upright. Ask [`of`], which remembers.
pub(super) fn work_out(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> Security {
    if !cylinder.stance.is_upright() {
        return Security::NotAsked;
    }
    let Some(state) = ctx.state(&cylinder.cylinder) else {
        return Security::NotAsked;
    };
    if cylinder.rack.as_ref().is_some_and(|rack| rack.closed) {
        return Security::Racked;
    }
    let lashings = || {
        let round = ctx.index.lashings_round(&cylinder.cylinder);
        round.iter().copied()
    };
    let on_shell = |lashing: &Lashing| {
        let mut holds = cylinder.lashings.iter();
        holds.any(|hold| hold.lashing == lashing.id && hold.on_straight_shell)
    };
    if lashings().any(|lashing| holds_fast(ctx, lashing) && on_shell(lashing)) {
        return Security::Lashed;
    }
    match &state.placing {
        Placing::HeldByHand { by, .. } => {
            return match hand_fault(ctx, cylinder, by) {
                None => Security::Held,
                Some(fault) => Security::Unsecured(Why::BadlyHeld(fault)),
            };
        }
        Placing::Filling { .. } => {
            let running = ctx.part.condition == Condition::Running;
            return if !running && somebody_near(ctx, &cylinder.deck, cylinder.at) {
                Security::Minded
            } else {
                Security::Unsecured(Why::AloneOnWhip)
            };
        }
        _ => {}
    }
    if let Some(lashing) = lashings().find(|lashing| !holds_fast(ctx, lashing)) {
        return Security::Unsecured(Why::LashingOpen {
            lashing: lashing.id.clone(),
            others: still_round(ctx, lashing, &cylinder.cylinder),
            left: left(ctx, lashing),
        });
    }
    if let Some(lashing) = lashings().next() {
        return Security::Unsecured(Why::OffShell(lashing.id.clone()));
    }
    if let Some(rack) = &cylinder.rack {
        return Security::Unsecured(Why::SlotOpen {
            rack: rack.rack.clone(),
            front: rack.front.clone(),
        });
    }
    Security::Unsecured(if cylinder.stance == Stance::Backed {
        Why::OnlyBacked
    } else {
        Why::Free
    })
}

/// What keeps this cylinder upright.
pub(super) fn of<'c>(ctx: &CheckContext<'c>, cylinder: &CylinderNumbers) -> &'c Security {
    ctx.index.security(ctx, &cylinder.cylinder)
}

/// Is it upright with nothing that counts?
pub(super) fn is_unsecured(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers) -> bool {
    matches!(of(ctx, cylinder), Security::Unsecured(_))
}

/// Does it go within the motion of this part of the day?
pub(super) fn goes(cylinder: &CylinderNumbers) -> bool {
    let limit = &cylinder.limit;
    limit.goes_at_rest
        || limit.goes_without_roll
        || limit.share.is_some_and(|share| share <= 1.0)
        || cylinder.utilisations.iter().any(|item| item.goes)
}

/// Is the lashing made fast, with everybody still behind it? What holds several is one thing: when it is
/// opened for one, or one leaves, it holds none of the others.
pub(super) fn holds_fast(ctx: &CheckContext<'_>, lashing: &Lashing) -> bool {
    lashing.shut
        && lashing.condition != LashCondition::Cut
        && left(ctx, lashing).is_empty()
        && runs(ctx, lashing)
}

/// Can it run from its points round what it goes round? Not from a point under a cylinder.
pub(super) fn runs(ctx: &CheckContext<'_>, lashing: &Lashing) -> bool {
    let all = &ctx.numbers.lashings;
    all.binary_search_by(|numbers| numbers.lashing.cmp(&lashing.id))
        .is_ok_and(|index| !all[index].legs.is_empty())
}

/// Those that a lashing goes round and that are not there any more, in the order of their names.
pub(super) fn left(ctx: &CheckContext<'_>, lashing: &Lashing) -> Vec<Id> {
    let gone = |id: &&Id| {
        let placing = ctx.state(id).map(|cylinder| &cylinder.placing);
        placing.is_none_or(|placing| {
            matches!(
                placing,
                Placing::InWater
                    | Placing::Ashore
                    | Placing::OnDiver { .. }
                    | Placing::HeldByHand { .. }
            )
        })
    };
    if lashing.round.len() < 2 {
        return Vec::new();
    }
    let mut gone: Vec<Id> = lashing.round.iter().filter(gone).cloned().collect();
    gone.sort();
    gone
}

/// Those that a lashing goes round, but for one and for those that left, in the order of their names.
fn still_round(ctx: &CheckContext<'_>, lashing: &Lashing, but: &str) -> Vec<Id> {
    let gone = left(ctx, lashing);
    let others = lashing.round.iter();
    let mut others: Vec<Id> = others
        .filter(|id| *id != but && !gone.contains(id))
        .cloned()
        .collect();
    others.sort();
    others
}

/// Is anybody on this deck within reach?
fn somebody_near(ctx: &CheckContext<'_>, deck: &str, at: Point) -> bool {
    let mut people = ctx.day.people.iter().map(|state| &state.person);
    !ctx.part.nobody_on_deck
        && people.any(|person| {
            person.is_on_deck() && person.deck == deck && distance(person.at, at) <= ARM_M
        })
}

/// Why holding it by hand is not enough, as a clause; `None` if it is.
fn hand_fault(ctx: &CheckContext<'_>, cylinder: &CylinderNumbers, by: &str) -> Option<String> {
    if ctx.part.condition == Condition::Running {
        return Some("nobody can hold a cylinder by hand while the boat is running".to_owned());
    }
    let Some(person) = ctx.day.person(by) else {
        return Some(format!("{by:?} is not among the people aboard"));
    };
    if ctx.part.nobody_on_deck || !person.is_on_deck() || person.deck != cylinder.deck {
        return Some(format!("{by} is not on that deck"));
    }
    let away = distance(person.at, cylinder.at);
    if away > ARM_M {
        return Some(format!(
            "{by} is {} away, and an arm reaches {}",
            figures::metres(away),
            figures::metres(ARM_M)
        ));
    }
    if let Some(other) = also_held(ctx, person, &cylinder.cylinder) {
        return Some(format!("{by} holds {other} as well"));
    }
    let force = cylinder.hand_force_n.unwrap_or(f64::INFINITY);
    if force > HAND_N {
        let needed = if force.is_finite() {
            figures::pull(force).to_string()
        } else {
            "more than anybody has".to_owned()
        };
        return Some(format!(
            "it needs {needed} at the valve, and a person keeps up {}",
            figures::pull(HAND_N)
        ));
    }
    None
}

/// Another cylinder in the same hands or on the same back, first by name.
fn also_held(ctx: &CheckContext<'_>, person: &Person, but: &str) -> Option<String> {
    let cylinders = ctx.day.cylinders.iter().map(|state| &state.cylinder);
    let others = cylinders.filter(|cylinder| {
        let (Placing::HeldByHand { by, .. } | Placing::OnDiver { by }) = &cylinder.placing else {
            return false;
        };
        *by == person.id && cylinder.id != but
    });
    others
        .map(|cylinder| ctx.name(ThingKind::Cylinder, &cylinder.id))
        .min()
}

/// Metres between two points of the plan.
pub(super) fn distance(a: Point, b: Point) -> f64 {
    (a[0] - b[0]).hypotenuse(a[1] - b[1])
}
