//! What is done to a cylinder at its place before the next one is handed over.

use schemars::JsonSchema;
use serde::Serialize;

use super::lying;
use crate::checks::words;
use crate::engine::numbers::{CylinderNumbers, Stance};
use crate::layout::{Chocks, DayState, Front, FrontKind, Id, Placing};

/// A thing that hands do, each with a picture of its own.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum HandAction {
    /// Stand it in its slot.
    StandInSlot,
    /// Hook the cord, strap, chain or bar of the rack across its front.
    HookCord,
    /// Put the strap round it at its height.
    StrapAtHeight,
    /// Lay it down.
    LayDown,
    /// Chock it on both sides.
    Chock,
    /// Push it with one hand at the valve.
    Push,
    /// Keep the walkway clear of it.
    KeepClear,
}

impl HandAction {
    /// All of them, in the order in which they are done.
    pub const ALL: [Self; 7] = [
        Self::StandInSlot,
        Self::HookCord,
        Self::StrapAtHeight,
        Self::LayDown,
        Self::Chock,
        Self::Push,
        Self::KeepClear,
    ];

    /// In two or three words.
    pub fn words(self) -> &'static str {
        match self {
            Self::StandInSlot => "stand in slot",
            Self::HookCord => "hook cord",
            Self::StrapAtHeight => "strap at height",
            Self::LayDown => "lay down",
            Self::Chock => "chock",
            Self::Push => "push",
            Self::KeepClear => "keep clear",
        }
    }
}

/// What is done to a cylinder before the next is handed over.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(tag = "how", rename_all = "snake_case")]
pub enum Securing {
    /// Its slot holds it all round.
    Slot,
    /// A strap, chain, cord or bar is shut in front of it.
    Front {
        /// Its name.
        front: Id,
        /// Is it one thing for several slots, so that it is opened and shut again for each?
        shared: bool,
    },
    /// Lashings round it are made fast.
    Lashings {
        /// Their names.
        lashings: Vec<Id>,
    },
    /// It is laid down and chocked, in a cradle, a crate or under a net, or on its kit.
    LaidDown,
    /// It is held by somebody or hangs.
    Other,
    /// Nothing: it stands or lies free.
    Nothing,
}

/// How it is secured before the next one is handed over.
pub(super) fn securing(day: &DayState, body: &CylinderNumbers) -> Securing {
    let lashings: Vec<Id> = body
        .lashings
        .iter()
        .map(|hold| hold.lashing.clone())
        .collect();
    if !lashings.is_empty() {
        return Securing::Lashings { lashings };
    }
    match body.stance {
        Stance::InRack => {
            let closing = body
                .rack
                .as_ref()
                .and_then(|hold| day.front_of(&hold.rack, &hold.slot))
                .filter(|front| front.shut);
            match closing {
                Some(front) => Securing::Front {
                    front: front.id.clone(),
                    shared: front.slots.len() > 1 && !front.tied_between_slots,
                },
                None if body.rack.as_ref().is_some_and(|hold| hold.closed) => Securing::Slot,
                None => Securing::Nothing,
            }
        }
        Stance::Lying | Stance::InCradle | Stance::InCrate => {
            let placing = day
                .cylinder(&body.cylinder)
                .map(|cylinder| &cylinder.placing);
            match placing {
                Some(Placing::Lying {
                    chocks: None,
                    on_kit: false,
                    upon,
                    ..
                }) if upon.is_empty() => Securing::Nothing,
                _ => Securing::LaidDown,
            }
        }
        Stance::HeldByHand | Stance::Hanging | Stance::OnWhip | Stance::UpsideDown => {
            Securing::Other
        }
        Stance::OnDiver | Stance::StandsFree | Stance::Backed | Stance::Lashed => Securing::Nothing,
    }
}

/// What is done with it then, in a few words.
pub(super) fn then(day: &DayState, cylinder: &str, securing: &Securing) -> String {
    let placing = day.cylinder(cylinder).map(|it| &it.placing);
    match securing {
        Securing::Slot => "push it home".to_owned(),
        Securing::Front {
            front,
            shared: true,
        } => {
            format!(
                "shut {} again before the next one comes",
                called(day, front)
            )
        }
        Securing::Front {
            front,
            shared: false,
        } => format!("shut {} at its slot", called(day, front)),
        Securing::Lashings { lashings } => {
            let fast = make_fast(day, lashings);
            let laid = placing.map_or_else(Vec::new, |it| lay(it, false));
            // What stands is only made fast.
            every(&laid.into_iter().chain([fast]).collect::<Vec<_>>())
        }
        Securing::LaidDown => placing.map_or_else(String::new, |it| every(&lay(it, true))),
        Securing::Other => "do not let go of it".to_owned(),
        Securing::Nothing => "nothing holds it there: put that right first".to_owned(),
    }
}

/// How it is laid down, step by step; nothing where it does not lie. Where nothing but how it lies holds it (`alone`), it
/// must be seen that it cannot roll.
fn lay(placing: &Placing, alone: bool) -> Vec<String> {
    let steps: Vec<&str> = match placing {
        Placing::InCrate { .. } => vec!["lay it in"],
        Placing::InSlot { .. } if alone => vec!["lay it in"],
        Placing::Lying { upon, .. } if !upon.is_empty() => {
            return vec![format!("lay it in the groove of {}", every(upon))];
        }
        Placing::Lying {
            chocks: Some(chocks @ Chocks::Saddle { .. }),
            ..
        } => return vec![format!("lay it into {}", lying::chocks(chocks))],
        Placing::Lying {
            chocks: Some(chocks),
            ..
        } => {
            let chocked = format!("put {} on both sides", lying::chocks(chocks));
            return vec!["lay it down".to_owned(), chocked];
        }
        Placing::Lying { on_kit: true, .. } => {
            vec!["lay it down on its kit", "see that it cannot roll"]
        }
        Placing::Lying { .. } if !alone => vec!["lay it down"],
        _ if alone => vec!["lay it down", "see that it cannot roll"],
        _ => Vec::new(),
    };
    steps.into_iter().map(str::to_owned).collect()
}

/// Does what a lashing goes round lie, so that its height is measured along it?
pub(super) fn goes_round_what_lies(day: &DayState, round: &[Id]) -> bool {
    let mut round = round.iter().filter_map(|id| day.cylinder(id));
    round.any(|it| matches!(it.placing, Placing::Lying { .. } | Placing::InCrate { .. }))
}

fn make_fast(day: &DayState, lashings: &[Id]) -> String {
    let named = lashings.iter().map(|id| {
        let found = day.lashings.iter().find(|state| state.lashing.id == *id);
        let at = found.map_or_else(String::new, |state| {
            let along = if goes_round_what_lies(day, &state.lashing.round) {
                " along it from its foot"
            } else {
                ""
            };
            format!(" at {}{along}", words::metres(state.lashing.height_m))
        });
        let name = found.and_then(|state| state.lashing.name.clone());
        format!("{}{at}", name.unwrap_or_else(|| id.clone()))
    });
    let of_several = day
        .lashings
        .iter()
        .any(|state| lashings.contains(&state.lashing.id) && state.lashing.round.len() > 1);
    let again = if of_several {
        ", again for each that it goes round"
    } else {
        ""
    };
    format!("make fast {}{again}", every(&named.collect::<Vec<_>>()))
}

/// What the crew call a front.
fn called(day: &DayState, front: &str) -> String {
    let mut fronts = day.fronts.iter().map(|state| &state.front);
    let found = fronts.find(|item| item.id == front);
    found.map_or_else(|| front.to_owned(), Front::called)
}

/// All names, however many: whoever loads from a list needs each of them.
pub(super) fn every<S: AsRef<str>>(names: &[S]) -> String {
    let names: Vec<&str> = names.iter().map(AsRef::as_ref).collect();
    match names.as_slice() {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

fn is_chocked(cylinder: &crate::layout::Cylinder) -> bool {
    matches!(
        cylinder.placing,
        Placing::Lying {
            chocks: Some(_),
            ..
        }
    )
}

/// What hands do with it, in order.
pub(super) fn actions(
    day: &DayState,
    body: &CylinderNumbers,
    securing: &Securing,
) -> Vec<HandAction> {
    let mut actions = Vec::new();
    match body.stance {
        Stance::InRack => actions.push(HandAction::StandInSlot),
        Stance::Lying | Stance::InCradle | Stance::InCrate => actions.push(HandAction::LayDown),
        _ => {}
    }
    if day.cylinder(&body.cylinder).is_some_and(is_chocked) {
        actions.push(HandAction::Chock);
    }
    match securing {
        Securing::Front { front, .. } => {
            let fronts = day.fronts.iter().map(|state| &state.front);
            let mut of_it = fronts.filter(|item| item.id == *front);
            let is_strap = of_it.any(|item| item.kind == FrontKind::Strap);
            actions.push(if is_strap {
                HandAction::StrapAtHeight
            } else {
                HandAction::HookCord
            });
        }
        Securing::Lashings { .. } => actions.push(HandAction::StrapAtHeight),
        Securing::Slot | Securing::LaidDown | Securing::Other | Securing::Nothing => {}
    }
    actions.push(if *securing == Securing::Nothing {
        HandAction::KeepClear
    } else {
        HandAction::Push
    });
    actions
}
