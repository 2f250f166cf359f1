use super::Scene;
use super::numbers::Assessment;
use crate::layout::{DayState, Plan, Trip};

/// Computes every number of a trip, and remembers what need not be computed again.
#[derive(Debug, Default)]
pub struct Assessor {
    days: Vec<DayState>,
    scenes: Vec<Scene>,
    assessment: Assessment,
}

impl Assessor {
    /// All numbers of the trip. What is equal to last time is not computed again.
    pub fn assess(&mut self, plan: &Plan, trip: &Trip) -> &Assessment {
        self.days = DayState::of_trip(plan, trip);
        self.assessment.trip.clone_from(&trip.id);
        &self.assessment
    }

    /// Everything as it is in each part of the day, from the last assessment.
    pub fn days(&self) -> &[DayState] {
        &self.days
    }

    /// Where everything is in each part of the day, from the last assessment.
    pub fn scenes(&self) -> &[Scene] {
        &self.scenes
    }

    /// The last assessment.
    pub fn assessment(&self) -> &Assessment {
        &self.assessment
    }
}
