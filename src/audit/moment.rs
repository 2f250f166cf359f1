use crate::checks::words;
use crate::engine::numbers::PartNumbers;
use crate::engine::{Assessor, Scene};
use crate::layout::{Changes, DayState, Id, Part, Plan, Trip};

/// A stowage as it is in one part of the day, made into a plan whose only trip has only that part.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// The plan of that moment.
    pub plan: Plan,
}

/// Why there is no such moment.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MomentError {
    /// The plan has no such trip.
    #[error("the plan has no trip {trip:?}; it has {known}")]
    NoSuchTrip {
        /// What was asked for.
        trip: Id,
        /// What there is.
        known: String,
    },

    /// The plan has several trips, and none was named.
    #[error("the plan has several trips: name one of {known}")]
    WhichTrip {
        /// What there is.
        known: String,
    },

    /// The trip has no such part of the day.
    #[error("the trip {trip:?} has no part of the day {part:?}; it has {known}")]
    NoSuchPart {
        /// The trip.
        trip: Id,
        /// What was asked for.
        part: Id,
        /// What there is.
        known: String,
    },
}

impl Moment {
    /// The stowage of a trip in a part of the day: its only trip and its first part unless named.
    pub fn of(plan: &Plan, trip: Option<&str>, part: Option<&str>) -> Result<Self, MomentError> {
        let trip = chosen(plan, trip)?;
        let names = || words::list(&trip.parts.iter().map(|part| &part.id).collect::<Vec<_>>());
        let index =
            match part {
                None => 0,
                Some(id) => trip.part(id).map(|(index, _)| index).ok_or_else(|| {
                    MomentError::NoSuchPart {
                        trip: trip.id.clone(),
                        part: id.to_owned(),
                        known: names(),
                    }
                })?,
            };
        let days = DayState::of_trip(plan, trip);
        let (Some(day), Some(found)) = (days.get(index), trip.parts.get(index)) else {
            return Err(MomentError::NoSuchPart {
                trip: trip.id.clone(),
                part: "first".to_owned(),
                known: "none".to_owned(),
            });
        };
        let mut plan = plan.clone();
        for rack in &mut plan.boat.racks {
            for front in &mut rack.fronts {
                let state = day
                    .fronts
                    .iter()
                    .find(|state| state.rack == rack.id && state.front.id == front.id);
                if let Some(state) = state {
                    *front = state.front.clone();
                }
            }
        }
        plan.trips = vec![Trip {
            cylinders: day
                .cylinders
                .iter()
                .map(|state| state.cylinder.clone())
                .collect(),
            lashings: day
                .lashings
                .iter()
                .map(|state| state.lashing.clone())
                .collect(),
            gear: day.gear.iter().map(|state| state.gear.clone()).collect(),
            people: day
                .people
                .iter()
                .map(|state| state.person.clone())
                .collect(),
            parts: vec![Part {
                changes: Changes::default(),
                ..found.clone()
            }],
            taken_on: Vec::new(),
            briefing: None,
            ..trip.clone()
        }];
        Ok(Self { plan })
    }

    /// The trip of that moment; a moment has one.
    pub(super) fn trip(&self) -> Option<&Trip> {
        self.plan.trips.first()
    }

    /// Where everything is at that moment.
    pub fn scene(&self) -> Scene {
        let mut assessor = Assessor::default();
        if let Some(trip) = self.trip() {
            assessor.assess(&self.plan, trip);
        }
        assessor.scenes().first().cloned().unwrap_or_default()
    }

    /// All numbers of that moment.
    pub(super) fn numbers(&self) -> Option<PartNumbers> {
        let mut assessor = Assessor::default();
        let assessment = assessor.assess(&self.plan, self.trip()?);
        assessment.parts.first().cloned()
    }
}

fn chosen<'a>(plan: &'a Plan, wanted: Option<&str>) -> Result<&'a Trip, MomentError> {
    let known = || words::list(&plan.trips.iter().map(|trip| &trip.id).collect::<Vec<_>>());
    match (wanted, plan.trips.as_slice()) {
        (Some(id), _) => plan.trip(id).ok_or_else(|| MomentError::NoSuchTrip {
            trip: id.to_owned(),
            known: known(),
        }),
        (None, [only]) => Ok(only),
        (None, []) => Err(MomentError::NoSuchTrip {
            trip: "any".to_owned(),
            known: "none".to_owned(),
        }),
        (None, _) => Err(MomentError::WhichTrip { known: known() }),
    }
}
