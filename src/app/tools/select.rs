use super::super::canvas::hit;
use super::super::command::Command;
use super::super::here::Here;
use super::super::moving::{self, Grabbed};
use super::super::selection::Selection;
use super::super::words;
use super::snapping::{Guide, Snapped, snap};
use super::{Phase, Pointer, dropped};
use crate::geometry::{Bounds, Vec2};
use crate::layout::{Edit, Placing, Thing, ThingKind, ThingRef};

/// Selects and moves things.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) enum SelectTool {
    /// Nothing is held.
    #[default]
    Idle,

    /// Things are held.
    Moving {
        /// Where they were taken hold of.
        start: Vec2,

        /// What is held, as it was then; the first is the one under the pointer.
        held: Vec<Grabbed>,

        /// Its bounds then.
        bounds: Bounds,

        /// Why it is where it is now.
        guides: Vec<Guide>,
    },

    /// A band is drawn round things.
    Band {
        /// Where it began.
        start: Vec2,

        /// Where it has got to.
        now: Vec2,
    },
}

impl SelectTool {
    /// Is something held?
    pub(crate) fn is_moving(&self) -> bool {
        matches!(self, Self::Moving { .. })
    }

    /// The band that is being drawn.
    pub(crate) fn band(&self) -> Option<Bounds> {
        match self {
            Self::Band { start, now } => Some(Bounds::of([*start, *now])),
            Self::Idle | Self::Moving { .. } => None,
        }
    }

    /// Why what is held is where it is.
    pub(crate) fn guides(&self) -> &[Guide] {
        match self {
            Self::Moving { guides, .. } => guides,
            Self::Idle | Self::Band { .. } => &[],
        }
    }

    pub(super) fn cancel(&mut self, commands: &mut Vec<Command>) -> bool {
        match std::mem::take(self) {
            Self::Idle => false,
            Self::Moving { .. } => {
                commands.push(Command::Abort);
                true
            }
            Self::Band { .. } => true,
        }
    }

    pub(super) fn update(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        selection: &Selection,
        commands: &mut Vec<Command>,
    ) -> bool {
        match (&mut *self, pointer.phase) {
            (Self::Idle, Phase::DragStarted) => {
                return self.start(pointer, here, selection, commands);
            }
            (Self::Idle, Phase::Clicked | Phase::DoubleClicked) => {
                click(pointer, here, selection, commands);
            }
            (
                Self::Moving {
                    start,
                    held,
                    bounds,
                    guides,
                },
                Phase::Dragged | Phase::Dropped,
            ) => {
                let (edits, why) = moved(here, held, bounds, *start, pointer);
                *guides = why;
                commands.push(Command::Drag(edits));
                if pointer.phase == Phase::Dropped {
                    commands.push(Command::Commit);
                    *self = Self::Idle;
                }
            }
            (Self::Band { now, .. }, Phase::Dragged) => *now = pointer.at,
            (Self::Band { start, .. }, Phase::Dropped) => {
                let band = Bounds::of([*start, pointer.at]);
                let inside = hit::inside(here, &band);
                let kept = if pointer.add { selection.things() } else { &[] };
                let all = kept.iter().cloned().chain(inside);
                commands.push(Command::Select(Selection::of(all)));
                *self = Self::Idle;
            }
            _ => {}
        }
        true
    }

    fn start(
        &mut self,
        pointer: &Pointer,
        here: &Here<'_>,
        selection: &Selection,
        commands: &mut Vec<Command>,
    ) -> bool {
        let Some(what) = under(pointer, here, selection) else {
            let on_deck = hit::on_floor(here, pointer.at);
            if on_deck {
                *self = Self::Band {
                    start: pointer.at,
                    now: pointer.at,
                };
            }
            return on_deck;
        };
        let chosen = if selection.contains(&what) {
            selection.clone()
        } else {
            Selection::one(what.clone())
        };
        let others = chosen.things().iter().filter(|item| **item != what);
        let all = std::iter::once(&what).chain(others);
        let held: Vec<Grabbed> = all.filter_map(|item| Grabbed::take(here, item)).collect();
        commands.push(Command::Select(chosen));
        if !held.is_empty() {
            let label = words::step_move(&names(&held));
            commands.push(Command::Begin(label));
            let bounds = held
                .iter()
                .filter_map(|item| hit::bounds(here, &item.what()));
            let bounds = bounds.fold(Bounds::EMPTY, |all, one| all.union(&one));
            *self = Self::Moving {
                start: pointer.at,
                held,
                bounds,
                guides: Vec::new(),
            };
        }
        true
    }
}

/// What the pointer met: what is selected comes first, so that it can be dragged from under others.
fn under(pointer: &Pointer, here: &Here<'_>, selection: &Selection) -> Option<ThingRef> {
    let met = hit::all(here, pointer.at, pointer.reach_m);
    let selected = met.iter().find(|what| selection.contains(what));
    selected.or_else(|| met.first()).cloned()
}

fn click(pointer: &Pointer, here: &Here<'_>, selection: &Selection, commands: &mut Vec<Command>) {
    let met = hit::all(here, pointer.at, pointer.reach_m);
    let next = if pointer.add {
        match met.first() {
            Some(what) => selection.toggled(what.clone()),
            None => return,
        }
    } else {
        // A second click on the same place goes to what lies below.
        let current = selection
            .primary()
            .filter(|_| selection.things().len() == 1)
            .and_then(|what| met.iter().position(|item| item == what));
        let index = match current {
            Some(index) if pointer.phase == Phase::DoubleClicked => (index + 1) % met.len(),
            Some(index) => index,
            None => 0,
        };
        (met.get(index)).map_or_else(Selection::none, |what| Selection::one(what.clone()))
    };
    commands.push(Command::Select(next));
}

/// The edits that bring what is held to the pointer, and why they bring it there.
fn moved(
    here: &Here<'_>,
    held: &[Grabbed],
    bounds: &Bounds,
    start: Vec2,
    pointer: &Pointer,
) -> (Vec<Edit>, Vec<Guide>) {
    let raw = pointer.at - start;
    let first = held.first();
    let Some((first, anchor)) = first.and_then(|one| Some((one, one.anchor(here.plan)?))) else {
        return (Vec::new(), Vec::new());
    };
    let what: Vec<ThingRef> = held.iter().map(Grabbed::what).collect();
    let Snapped { by, guides } = if pointer.free {
        Snapped {
            by: raw,
            guides: Vec::new(),
        }
    } else {
        snap(here, &what, bounds, anchor, raw, pointer.reach_m)
    };
    if let ([_], Thing::Cylinder(cylinder)) = (held, first.thing()) {
        if raw == Vec2::ZERO {
            // Held where it was, it is let go where it was.
            let placing = cylinder.placing.clone();
            return (vec![moving::place(here, &cylinder.id, placing)], guides);
        }
        let target = anchor + by;
        let mut placing = dropped(here, &cylinder.id, &cylinder.placing, target);
        if let Some(point) = placing.at_mut() {
            *point = [target.x, target.y].map(|value| (value * 1e4).round() / 1e4 + 0.0);
        }
        let in_slot = matches!(placing, Placing::InSlot { .. });
        let guides = if in_slot { Vec::new() } else { guides };
        return (vec![moving::place(here, &cylinder.id, placing)], guides);
    }
    let edits = held
        .iter()
        .filter(|item| !goes_with(item, &what))
        .flat_map(|item| item.moved(here, by))
        .collect();
    (edits, guides)
}

/// Is it in a rack that is moved too, so that it goes along by itself?
fn goes_with(item: &Grabbed, held: &[ThingRef]) -> bool {
    let Thing::Cylinder(cylinder) = item.thing() else {
        return false;
    };
    match &cylinder.placing {
        Placing::InSlot { rack, .. } | Placing::InCrate { rack, .. } => held
            .iter()
            .any(|what| what.kind == ThingKind::Rack && what.id == *rack),
        _ => false,
    }
}

fn names(held: &[Grabbed]) -> Vec<String> {
    held.iter().map(|item| item.what().id).collect()
}
