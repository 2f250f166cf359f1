//! One sentence for a part of the day: how far the stowage is good, and what goes first.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::MOST_BEST;
use super::line::Line;
use super::not_known::{self, NotKnown};
use crate::checks::cures::{BestCure, Clinic};
use crate::checks::words;
use crate::engine::numbers::{CylinderNumbers, LimitNumbers, MotionNumbers, PartNumbers};
use crate::layout::{Id, Part, Plan, Trip};

/// A part of the day in one sentence.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct PartDigest {
    /// The part.
    pub part: Id,

    /// What the crew call it.
    pub name: String,

    /// How far the stowage is good, and what goes first.
    pub sentence: String,

    /// What goes first; `None` if nothing is on deck or all of it holds as far as is searched.
    pub first: Option<Id>,

    /// Does the stowage hold within this part's whole motion, as far as is known?
    pub holds: bool,

    /// The share of this part's whole motion at which the first goes.
    pub limit_share: Option<f64>,

    /// The roll at which the first goes, in degrees, where roll decides.
    pub limit_roll_deg: Option<f64>,

    /// What nobody knows and the limit hangs on, by its name in the plan.
    pub hangs_on: Vec<Id>,

    /// The same with what would have to be found out of each, by what the crew call it.
    pub not_known: Vec<NotKnown>,

    /// How many lines stand in this part, taken-on ones not counted.
    pub to_put_right: usize,

    /// The cures that raise the limit most, one after the other, each with the limit after it; only after
    /// [`super::Digest::fill_cures`].
    pub cures: Vec<BestCure>,

    /// A sentence for each cylinder that goes and that no cure that was tried keeps, with what can still be
    /// done; only after [`super::Digest::fill_cures`].
    pub not_cured: Vec<String>,
}

impl PartDigest {
    pub(super) fn of(
        (plan, trip): (&Plan, &Trip),
        part: &Part,
        numbers: &PartNumbers,
        lines: &[Line],
    ) -> Self {
        let first = first_to_go(numbers);
        let limit = first.map(|cylinder| &cylinder.limit);
        let not_known = not_known::of_part(plan, trip, numbers);
        let hangs_on: BTreeSet<&Id> = not_known.iter().map(|it| &it.of).collect();
        let hangs_on = hangs_on.into_iter().cloned().collect();
        let to_put_right = lines
            .iter()
            .filter(|line| line.taken_on.is_none() && line.parts.contains(&part.id))
            .count();
        Self {
            part: part.id.clone(),
            name: part.name.clone().unwrap_or_else(|| part.id.clone()),
            sentence: sentence(numbers, first, &not_known),
            first: first
                .filter(|item| goes_at_all(&item.limit))
                .map(|item| item.cylinder.clone()),
            holds: limit.is_none_or(holds),
            limit_share: limit.and_then(|limit| limit.share),
            limit_roll_deg: limit.and_then(|limit| limit.roll_deg),
            hangs_on,
            not_known,
            to_put_right,
            cures: Vec::new(),
            not_cured: Vec::new(),
        }
    }
}

impl PartDigest {
    /// Tries the cures that raise its limit most.
    pub(super) fn fill(&mut self, clinic: &mut Clinic<'_>) {
        let raising = clinic.raising_most(&self.part, MOST_BEST);
        self.cures = raising.cures;
        self.not_cured = raising.not_cured;
    }
}

/// Does it hold within the part's whole motion?
fn holds(limit: &LimitNumbers) -> bool {
    !limit.goes_at_rest && !limit.goes_without_roll && limit.share.is_none_or(|share| share > 1.0)
}

fn goes_at_all(limit: &LimitNumbers) -> bool {
    limit.goes_at_rest
        || limit.goes_without_roll
        || limit.share.is_some()
        || limit.roll_deg.is_some()
}

/// How high a limit is, to be held against others: by roll first, then by share of the motion.
pub(in crate::checks) fn height(limit: &LimitNumbers) -> (f64, f64) {
    let share = limit.share.unwrap_or(f64::INFINITY);
    let roll = if limit.goes_at_rest {
        -1.0
    } else if limit.goes_without_roll {
        0.0
    } else {
        limit.roll_deg.unwrap_or(f64::INFINITY)
    };
    (roll, share)
}

/// The cylinder that goes first: at rest, without roll, at the least roll, at the least share of the
/// motion; ties by name. `None` if nothing is on deck.
pub fn first_to_go(numbers: &PartNumbers) -> Option<&CylinderNumbers> {
    first_to_go_but(numbers, &[])
}

/// The same of all but these.
pub(in crate::checks) fn first_to_go_but<'n>(
    numbers: &'n PartNumbers,
    passed_over: &[Id],
) -> Option<&'n CylinderNumbers> {
    let others = numbers.cylinders.iter();
    let others = others.filter(|item| !passed_over.contains(&item.cylinder));
    others.min_by(|a, b| {
        let ((roll_a, share_a), (roll_b, share_b)) = (height(&a.limit), height(&b.limit));
        roll_a
            .total_cmp(&roll_b)
            .then(share_a.total_cmp(&share_b))
            .then_with(|| a.cylinder.cmp(&b.cylinder))
    })
}

/// How far the stowage is good.
pub(super) fn sentence(
    numbers: &PartNumbers,
    first: Option<&CylinderNumbers>,
    not_known: &[NotKnown],
) -> String {
    let Some(first) = first else {
        return "No cylinder is on deck.".to_owned();
    };
    let condition = only_if(not_known);
    format!(
        "{}{condition}",
        good_to(&first.cylinder, &first.limit, &numbers.motion)
    )
}

/// What a limit hangs on, as a sentence behind it; empty where everything is known.
pub(in crate::checks) fn only_if(not_known: &[NotKnown]) -> String {
    if not_known.is_empty() {
        return String::new();
    }
    let them = NotKnown::told(not_known);
    format!(" But only if what nobody knows is good enough: {them}.")
}

/// How far the stowage is good, by the first to go.
pub(in crate::checks) fn good_to(
    first: &str,
    limit: &LimitNumbers,
    motion: &MotionNumbers,
) -> String {
    let does = limit.way.map_or("goes", words::way);
    if limit.goes_at_rest {
        return format!("The stowage, not the boat: does not hold even at rest; {first} {does}.");
    }
    if limit.goes_without_roll {
        let share = limit.share.map_or_else(String::new, |share| {
            format!(" at {}", words::of_motion(share))
        });
        return format!(
            "The stowage, not the boat: does not hold; pitch, heave, pushes or steady heel alone are \
             enough, and {first} {does}{share}."
        );
    }
    match (limit.roll_deg, limit.share) {
        (Some(roll), _) => {
            let rolls = if roll <= motion.roll_amplitude_deg {
                format!(
                    "; the boat rolls {}",
                    words::degrees(motion.roll_amplitude_deg)
                )
            } else {
                String::new()
            };
            format!(
                "The stowage, not the boat: good to {} of roll, then {first} {does}{rolls}.",
                words::degrees(roll)
            )
        }
        (None, Some(share)) => format!(
            "The stowage, not the boat: good to {}, then {first} {does}.",
            words::of_motion(share)
        ),
        (None, None) => format!(
            "The stowage, not the boat: holds up to {} of roll and {:.0} times the boat's motion.",
            words::degrees(LimitNumbers::SEARCHED_ROLL_DEG),
            LimitNumbers::SEARCHED_SHARE
        ),
    }
}
