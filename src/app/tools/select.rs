use super::super::canvas::hit;
use super::super::command::Command;
use super::super::here::Here;
use super::super::moving::{self, Grabbed};
use super::super::selection::Selection;
use super::super::words;
use super::{Phase, Pointer, dropped};
use crate::geometry::{Bounds, Vec2};
use crate::layout::{Thing, ThingRef};

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
            (Self::Moving { start, held }, Phase::Dragged | Phase::Dropped) => {
                let edits = moved(here, held, *start, pointer);
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
            *self = Self::Moving {
                start: pointer.at,
                held,
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

fn moved(
    here: &Here<'_>,
    held: &[Grabbed],
    start: Vec2,
    pointer: &Pointer,
) -> Vec<crate::layout::Edit> {
    let Some(first) = held.first() else {
        return Vec::new();
    };
    let raw = pointer.at - start;
    let Some(anchor) = first.anchor(here.plan) else {
        return Vec::new();
    };
    if let ([one], Thing::Cylinder(cylinder)) = (held, first.thing()) {
        let placing = dropped(here, &cylinder.id, &cylinder.placing, anchor + raw);
        let unmoved = one.moved(here, Vec2::ZERO);
        // Held where it was, it is let go where it was.
        if raw == Vec2::ZERO && !unmoved.is_empty() {
            return vec![moving::place(here, &cylinder.id, cylinder.placing.clone())];
        }
        let mut placing = placing;
        if pointer.free
            && let Some(point) = placing.at_mut()
        {
            *point = [anchor.x + raw.x, anchor.y + raw.y].map(super::super::here::mm);
        }
        return vec![moving::place(here, &cylinder.id, placing)];
    }
    let by = moving::stepped(anchor, raw, pointer.free);
    let racks: Vec<ThingRef> = held.iter().map(Grabbed::what).collect();
    held.iter()
        .filter(|item| !goes_with(item, &racks))
        .flat_map(|item| item.moved(here, by))
        .collect()
}

/// Is it in a rack that is moved too, so that it goes along by itself?
fn goes_with(item: &Grabbed, held: &[ThingRef]) -> bool {
    use crate::layout::{Placing, ThingKind};
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
