use super::super::command::Command;
use super::super::here::Here;
use super::super::selection::Selection;
use super::super::stores::{Made, StoreItem};
use super::super::words;
use super::{Phase, Pointer, Preview};
use crate::geometry::Vec2;
use crate::layout::ThingKind;

/// Places a thing from the stores.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PlaceTool {
    /// What.
    pub(crate) item: StoreItem,

    /// Turned by so much, in degrees from the bow towards port.
    pub(crate) turn_deg: f64,

    /// Was it dragged out of the stores, so that it is put down on letting go?
    pub(crate) dragged_out: bool,
}

impl PlaceTool {
    /// In hand after a press in the stores.
    pub(crate) fn new(item: StoreItem, dragged_out: bool) -> Self {
        Self {
            item,
            turn_deg: 0.0,
            dragged_out,
        }
    }

    pub(super) fn update(
        &self,
        pointer: &Pointer,
        here: &Here<'_>,
        commands: &mut Vec<Command>,
    ) -> bool {
        match pointer.phase {
            Phase::Clicked | Phase::DoubleClicked => {
                self.put_down(pointer.at, here, commands);
                true
            }
            Phase::Hovered | Phase::DragStarted | Phase::Dragged | Phase::Dropped => false,
        }
    }

    /// Puts the thing here as one step.
    pub(crate) fn put_down(&self, at: Vec2, here: &Here<'_>, commands: &mut Vec<Command>) {
        if let Some(Made { edits, what }) = self.item.make(here, at, self.turn_deg) {
            commands.push(Command::Run {
                label: words::step_place(&what.id),
                edits,
                select: Some(Selection::one(what)),
            });
        }
    }

    pub(super) fn preview(&self, at: Vec2, here: &Here<'_>) -> Option<Preview> {
        let Made { edits, what } = self.item.make(here, at, self.turn_deg)?;
        let is_cylinder = what.kind == ThingKind::Cylinder;
        Some(Preview {
            edits,
            cylinder: is_cylinder.then_some(what.id),
            text: (!is_cylinder).then(|| self.item.name()),
        })
    }
}
