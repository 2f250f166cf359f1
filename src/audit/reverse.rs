//! The question asked backwards: not "did it go", but "what did it need to go".

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use super::between::Between;
use super::needed::{Beside, Needed, PlausibleRange, rounded};
use super::reach::{Arrival, Candidate};
use super::remedy::{Remedy, with_all};
use super::trial::Trial;
use crate::engine::numbers::CylinderNumbers;
use crate::layout::{Id, Point};

/// What one remedy alone makes of one cylinder.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct WithRemedy {
    /// The remedy.
    pub remedy: String,

    /// What the cylinder needs then.
    pub needed: Needed,
}

/// A plausible range, and how the needed motion stands beside it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct BesideRange {
    /// The range.
    pub range: Id,

    /// As found.
    pub as_found: Beside,

    /// As planned.
    pub as_planned: Beside,
}

/// What one cylinder needed to go.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ReverseRow {
    /// The cylinder.
    pub cylinder: Id,

    /// As found.
    pub as_found: Needed,

    /// As planned.
    pub as_planned: Needed,

    /// With each remedy that changes it.
    pub remedies: Vec<WithRemedy>,

    /// Beside what was plausible.
    pub beside: Vec<BesideRange>,
}

/// A cylinder that could have reached the marked spot.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct ReachRow {
    /// The cylinder.
    pub cylinder: Id,

    /// How it could have come there.
    pub how: Arrival,

    /// Where it stood, in metres to the millimetre.
    pub at: Point,

    /// From its middle to the spot, in metres to the centimetre.
    pub distance_m: f64,

    /// The height of its valve over the deck as it comes to the spot, in metres to the centimetre, for one
    /// that falls.
    pub valve_height_m: Option<f64>,

    /// What it has gained by then, in whole joules, for one that falls.
    pub energy_j: Option<f64>,

    /// Its height over all, in metres to the millimetre.
    pub height_m: f64,

    /// From its axis to the edge that it tips over, in metres to the millimetre.
    pub edge_m: f64,

    /// The radius of its body, in metres to the millimetre.
    pub radius_m: f64,

    /// The height of what it stood on above the deck, in metres to the millimetre.
    pub floor_m: f64,

    /// What stands in between, the nearest first; lengths to the centimetre.
    pub between: Vec<Between>,

    /// Is it stopped short of the spot by something in between, as drawn?
    pub is_stopped: bool,

    /// The lean at which its fall is stopped, in degrees to a tenth.
    pub stopped_at_deg: Option<f64>,

    /// The motion that it needed.
    pub needed: Needed,
}

impl ReachRow {
    /// How it could have come there, and what stands in between.
    pub fn how_words(&self) -> String {
        let mut words = self.how.words(self.is_stopped).to_owned();
        for it in &self.between {
            words.push_str("; ");
            words.push_str(&it.words());
        }
        words
    }

    pub(super) fn of(candidate: &Candidate, cylinders: &[CylinderNumbers]) -> Self {
        let body = cylinders
            .iter()
            .find(|body| body.cylinder == candidate.cylinder);
        Self {
            cylinder: candidate.cylinder.clone(),
            how: candidate.how,
            at: candidate.at.map(|value| rounded(value, 3)),
            distance_m: rounded(candidate.distance_m, 2),
            valve_height_m: candidate.valve_height_m.map(|value| rounded(value, 2)),
            energy_j: candidate.energy_j.map(|value| rounded(value, 0)),
            height_m: body.map_or(0.0, |body| rounded(body.height_m, 3)),
            edge_m: body.map_or(0.0, |body| rounded(body.base_radius_m, 3)),
            radius_m: body.map_or(0.0, |body| rounded(body.body_radius_m, 3)),
            floor_m: rounded(candidate.floor_m, 3),
            between: (candidate.between.iter())
                .map(|it| Between {
                    height_m: rounded(it.height_m, 2),
                    off_m: rounded(it.off_m, 2),
                    deep_m: rounded(it.deep_m, 2),
                    ..it.clone()
                })
                .collect(),
            is_stopped: candidate.is_stopped,
            stopped_at_deg: candidate.stopped_at_deg.map(|deg| rounded(deg, 1)),
            needed: Needed::of(cylinders, &candidate.cylinder),
        }
    }
}

/// One account's stowage held against the plan, with remedies.
pub(super) struct Backwards<'a> {
    pub(super) planned: &'a Moment,
    pub(super) found: &'a Moment,
    pub(super) planned_cylinders: &'a [CylinderNumbers],
    pub(super) found_cylinders: &'a [CylinderNumbers],
    pub(super) plausible: &'a [PlausibleRange],
}

/// What each of these cylinders needed, the readiest to go first, ties by name.
pub(super) fn reverse(
    sides: &Backwards<'_>,
    trial: &mut Trial,
    pool: &[Remedy],
    cylinders: &[Id],
) -> Vec<ReverseRow> {
    let with: Vec<(&str, Vec<CylinderNumbers>)> = pool
        .iter()
        .filter_map(|remedy| {
            let after = with_all(sides.planned, sides.found, &[remedy])?;
            Some((remedy.label.as_str(), trial.cylinders_of(&after)))
        })
        .collect();
    let mut rows: Vec<ReverseRow> = cylinders
        .iter()
        .map(|id| {
            let as_found = Needed::of(sides.found_cylinders, id);
            let as_planned = Needed::of(sides.planned_cylinders, id);
            let remedies = with.iter().filter_map(|(label, after)| {
                let needed = Needed::of(after, id);
                (needed != as_found).then(|| WithRemedy {
                    remedy: (*label).to_owned(),
                    needed,
                })
            });
            ReverseRow {
                cylinder: id.clone(),
                remedies: remedies.collect(),
                beside: sides
                    .plausible
                    .iter()
                    .map(|range| BesideRange {
                        range: range.id.clone(),
                        as_found: Beside::of(&as_found, range.roll_deg),
                        as_planned: Beside::of(&as_planned, range.roll_deg),
                    })
                    .collect(),
                as_found,
                as_planned,
            }
        })
        .collect();
    rows.sort_by(|a, b| {
        let order = (a.as_found.roll_or_end()).total_cmp(&b.as_found.roll_or_end());
        order.then_with(|| a.cylinder.cmp(&b.cylinder))
    });
    rows
}
