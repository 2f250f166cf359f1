use super::{Phase, Pointer};
use crate::geometry::Vec2;

/// A measuring tape laid on the plan.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub(crate) struct TapeTool {
    /// Where its zero lies.
    pub(crate) from: Option<Vec2>,

    /// Where it was let go; it follows the pointer until then.
    pub(crate) to: Option<Vec2>,
}

impl TapeTool {
    pub(super) fn cancel(&mut self) -> bool {
        let under_way = self.from.is_some();
        *self = Self::default();
        under_way
    }

    pub(super) fn update(&mut self, pointer: &Pointer) -> bool {
        match pointer.phase {
            Phase::Hovered => false,
            Phase::DragStarted => {
                (self.from, self.to) = (Some(pointer.at), None);
                true
            }
            Phase::Dragged => {
                self.to = None;
                true
            }
            Phase::Dropped => {
                self.to = Some(pointer.at);
                true
            }
            Phase::Clicked | Phase::DoubleClicked => {
                if self.from.is_some() && self.to.is_none() {
                    self.to = Some(pointer.at);
                } else {
                    (self.from, self.to) = (Some(pointer.at), None);
                }
                true
            }
        }
    }

    /// Both ends, the second at the pointer until it is let go.
    pub(crate) fn ends(&self, pointer: Option<Vec2>) -> Option<[Vec2; 2]> {
        Some([self.from?, self.to.or(pointer)?])
    }
}
