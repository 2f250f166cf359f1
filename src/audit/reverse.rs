//! The question asked backwards: not "did it go", but "what did it need to go".

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use super::needed::{Beside, Needed, PlausibleRange};
use super::remedy::{Remedy, with_all};
use super::trial::Trial;
use crate::engine::numbers::CylinderNumbers;
use crate::layout::Id;

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

impl ReverseRow {
    /// What each remedy that changes it makes of it: `L1 as planned: 24.1°`.
    pub fn remedy_lines(&self) -> Vec<String> {
        let told = self.remedies.iter();
        told.map(|it| format!("{}: {}", it.remedy, it.needed.short()))
            .collect()
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
