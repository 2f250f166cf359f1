//! A moment that was computed once, against which others are tried.

use super::Moment;
use crate::engine::Assessor;
use crate::engine::numbers::{CylinderNumbers, PartNumbers};
use crate::layout::DayState;

/// What was computed of one moment; a moment that differs a little costs what the difference costs.
#[derive(Debug)]
pub(super) struct Trial {
    assessor: Assessor,
}

impl Trial {
    pub(super) fn of(moment: &Moment) -> Option<Self> {
        let mut assessor = Assessor::default();
        assessor.assess(&moment.plan, moment.trip()?);
        assessor.assessment().parts.first()?;
        Some(Self { assessor })
    }

    /// All numbers of the moment itself.
    pub(super) fn numbers(&self) -> Option<&PartNumbers> {
        self.assessor.assessment().parts.first()
    }

    /// The cylinders of another moment, and nothing else of it.
    pub(super) fn cylinders_of(&mut self, other: &Moment) -> Vec<CylinderNumbers> {
        let Some(trip) = other.trip() else {
            return Vec::new();
        };
        let days = DayState::of_trip(&other.plan, trip);
        let tried = self.assessor.what_if_held(&other.plan, trip, &days, 0);
        tried.map_or_else(Vec::new, |(_, numbers)| numbers.cylinders)
    }
}
