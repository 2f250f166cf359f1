//! What a crew needs in hand to load and secure exactly what was planned: the load list, the lashing
//! list, an order in which to load, and a few things to say on the quay.
//!
//! Nothing here is judged anew: everything is read from the plan and from the engine's numbers for one
//! part of the day, the one in which the boat is loaded. [`Brief::of`] makes it; the command line and
//! the window print it.

mod lashing_list;
mod load_list;
mod loading;
mod sequence;
mod tables;
mod talk_points;

pub use self::lashing_list::{FrontRow, LashingRow};
pub use self::load_list::LoadRow;
pub use self::loading::{LoadingOrder, LoadingSettings, LoadingStep, Securing};
pub use self::sequence::{Item, Sequence, Verdict, sequence};
pub use self::tables::{Table, TableError};
pub use self::talk_points::TalkPoint;

use schemars::JsonSchema;
use serde::Serialize;

use crate::checks::{self, Digest};
use crate::engine::numbers::PartNumbers;
use crate::engine::{Assessor, Scene};
use crate::layout::{Id, Plan, Trip};

/// Said wherever the brief is shown.
pub const CAUTION: &str = "A planning aid, no approval: local codes, the flag state, the makers of the \
                           gear and the licensed master decide.";

/// Everything that the crew is told before loading.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Brief {
    /// The boat's name.
    pub boat: String,

    /// The trip.
    pub trip: Id,

    /// The day, as the trip has it.
    pub date: Option<String>,

    /// The part of the day in which the boat is loaded.
    pub part: Id,

    /// Every cylinder of the trip, in the order of their names.
    pub load_list: Vec<LoadRow>,

    /// Every lashing in use, in the order of their names.
    pub lashing_list: Vec<LashingRow>,

    /// What is shut across the fronts of racks, rack by rack.
    pub front_list: Vec<FrontRow>,

    /// In which order to load.
    pub loading: LoadingOrder,

    /// What to say on the quay.
    pub talk_points: Vec<TalkPoint>,

    /// What to put right still, as sentences with their signal words; what was taken on says by whom.
    pub still_open: Vec<String>,

    /// What nobody knows and the stowage hangs on, by name.
    pub not_known: Vec<Id>,

    /// How far the stowage is good, part by part.
    pub limits: Vec<String>,

    /// What this paper is and is not.
    pub caution: &'static str,

    /// Where everything is, for whoever draws it.
    #[serde(skip)]
    pub scene: Scene,

    /// How lashings run, for whoever draws them.
    #[serde(skip)]
    pub legs: Vec<LashingLeg>,
}

/// One leg of a lashing, from cylinder to point.
#[derive(Clone, Debug, PartialEq)]
pub struct LashingLeg {
    /// The cylinders that its lashing goes round.
    pub round: Vec<Id>,

    /// Both ends, `[x, y, z above waterline]` in metres.
    pub ends: [[f64; 3]; 2],
}

/// Why there is no brief.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BriefError {
    /// The trip has no part of this name.
    #[error("the trip {trip} has no part of the day {part}; it has {known}")]
    NoSuchPart {
        /// The trip.
        trip: Id,
        /// What was asked for.
        part: Id,
        /// What there is.
        known: String,
    },
}

impl Brief {
    /// Makes the brief of a trip for loading in this part of the day; the first part unless given.
    pub fn of(
        plan: &Plan,
        trip: &Trip,
        part: Option<&str>,
        settings: &LoadingSettings,
    ) -> Result<Self, BriefError> {
        let mut assessor = Assessor::default();
        let findings = checks::run(&mut assessor, plan, trip);
        let digest = Digest::of(trip, &findings, assessor.assessment());
        let index = match part {
            None => 0,
            Some(id) => {
                trip.part(id)
                    .map(|(index, _)| index)
                    .ok_or_else(|| BriefError::NoSuchPart {
                        trip: trip.id.clone(),
                        part: id.to_owned(),
                        known: names_of_parts(trip),
                    })?
            }
        };
        let missing = || BriefError::NoSuchPart {
            trip: trip.id.clone(),
            part: "first".to_owned(),
            known: names_of_parts(trip),
        };
        let numbers = assessor.assessment().parts.get(index).ok_or_else(missing)?;
        let day = assessor.days().get(index).ok_or_else(missing)?;
        let limits = digest
            .parts
            .iter()
            .map(|part| format!("{}: {}", part.name, part.sentence))
            .collect();
        let mut not_known: Vec<Id> = digest
            .parts
            .iter()
            .flat_map(|part| part.hangs_on.iter().cloned())
            .collect();
        not_known.sort();
        not_known.dedup();
        Ok(Self {
            boat: plan.boat.name.clone(),
            trip: trip.id.clone(),
            date: trip.date.clone(),
            part: numbers.part.clone(),
            load_list: load_list::rows(plan, trip, day, numbers),
            lashing_list: lashing_list::rows(plan, day, numbers),
            front_list: lashing_list::fronts(plan, day, numbers),
            loading: loading::order(plan, trip, day, numbers, settings),
            talk_points: talk_points::talk_points(plan, trip, day, &digest),
            still_open: digest.lines.iter().map(still_open).collect(),
            not_known,
            limits,
            caution: CAUTION,
            scene: assessor.scenes().get(index).cloned().unwrap_or_default(),
            legs: legs(numbers),
        })
    }
}

fn legs(numbers: &PartNumbers) -> Vec<LashingLeg> {
    let shut = numbers.lashings.iter().filter(|lashing| lashing.shut);
    let legs = shut.flat_map(|lashing| {
        lashing.legs.iter().map(|ends| LashingLeg {
            round: lashing.round.clone(),
            ends: *ends,
        })
    });
    legs.collect()
}

fn names_of_parts(trip: &Trip) -> String {
    let names: Vec<&str> = trip.parts.iter().map(|part| part.id.as_str()).collect();
    if names.is_empty() {
        "none".to_owned()
    } else {
        checks::words::list(&names)
    }
}

fn still_open(line: &checks::digest::Line) -> String {
    match &line.taken_on {
        None => format!("{} {}: {}", line.signal, line.code, line.sentence),
        Some(taken) => format!(
            "{} {}: {} Taken on by {}: {}",
            line.signal, line.code, line.sentence, taken.by, taken.reason
        ),
    }
}

#[cfg(test)]
mod tests;
