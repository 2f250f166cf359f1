//! What was found otherwise than planned, and what each difference does to the limit.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

mod describe;

use self::describe::{one_cylinder, one_lashing};
use super::Moment;
use crate::checks::words;
use crate::engine::numbers::{CylinderNumbers, LimitNumbers, PartNumbers};
use crate::layout::{Cylinder, Front, Gear, Id};

/// Lengths that differ by less than this are the same: finer than anybody measures on deck, in metres.
const SAME_M: f64 = 0.005;

/// Angles that differ by less than this are the same, in degrees.
const SAME_DEG: f64 = 1.0;

/// In what something differs.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DifferenceKind {
    /// Planned, not found.
    Missing,
    /// Found, not planned.
    Added,
    /// In another place.
    Moved,
    /// Facing or pointing another way.
    Turned,
    /// Standing, lying or held otherwise.
    PlacedOtherwise,
    /// Of another kind.
    OtherKind,
    /// With other gas, pressure, kit, boot or chocks.
    OtherState,
    /// A lashing or front that was to be shut is open.
    Opened,
    /// A lashing that is looser.
    Slacker,
    /// A lashing that runs, reaches round or is made otherwise.
    LashingChanged,
    /// A walkway with less room.
    WalkwayNarrowed,
}

/// The limit of a cylinder before and after, in words: `17.3° of roll`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LimitChange {
    /// The cylinder.
    pub cylinder: Id,

    /// As planned.
    pub planned: String,

    /// With this difference alone.
    pub with_it: String,
}

/// Something that was found otherwise than planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Difference {
    /// In what it differs.
    pub kind: DifferenceKind,

    /// The thing.
    pub about: Id,

    /// What differs, in one sentence.
    pub sentence: String,

    /// What this one difference does to the limit of cylinders, where it changes it.
    pub limits: Vec<LimitChange>,
}

/// A stowage as found, held against the one that was planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Comparison {
    /// What differs, by thing.
    pub differences: Vec<Difference>,

    /// The limit of every cylinder that both have, where all differences together change it.
    pub limits: Vec<LimitChange>,
}

/// Compares what was found with what was planned.
pub fn compare(planned: &Moment, found: &Moment) -> Comparison {
    let (Some(before), Some(after)) = (planned.numbers(), found.numbers()) else {
        return Comparison {
            differences: Vec::new(),
            limits: Vec::new(),
        };
    };
    let mut differences = Vec::new();
    cylinders(planned, found, &before, &after, &mut differences);
    lashings(planned, found, &before, &mut differences);
    fronts(planned, found, &before, &mut differences);
    gear(planned, found, &mut differences);
    walkways(&before, &after, &mut differences);
    differences.sort_by(|a, b| a.about.cmp(&b.about).then(a.kind.cmp(&b.kind)));
    Comparison {
        differences,
        limits: changed_limits(&before, &after),
    }
}

/// The names that either side has, in order.
fn names<'a, T>(planned: &'a [T], found: &'a [T], id: fn(&T) -> &Id) -> BTreeSet<&'a Id> {
    planned.iter().chain(found).map(id).collect()
}

fn cylinders(
    planned: &Moment,
    found: &Moment,
    before: &PartNumbers,
    after: &PartNumbers,
    differences: &mut Vec<Difference>,
) {
    let (Some(was), Some(is)) = (planned.trip(), found.trip()) else {
        return;
    };
    for id in names(&was.cylinders, &is.cylinders, |cylinder| &cylinder.id) {
        let aboard = |cylinder: &&Cylinder| cylinder.placing.is_aboard();
        let was_there = was.cylinder(id).filter(aboard);
        let is_there = is.cylinder(id).filter(aboard);
        let told: Vec<(DifferenceKind, String)> = match (was_there, is_there) {
            (None, None) => Vec::new(),
            (Some(_), None) => vec![(
                DifferenceKind::Missing,
                format!("{id} was planned and not found"),
            )],
            (None, Some(_)) => vec![(
                DifferenceKind::Added,
                format!("{id} was found and not planned"),
            )],
            (Some(was), Some(is)) => one_cylinder(was, is, before, after),
        };
        if told.is_empty() {
            continue;
        }
        let limits = effect(planned, before, |moment| {
            let trip = moment.plan.trips.first_mut()?;
            trip.cylinders.retain(|cylinder| cylinder.id != *id);
            trip.cylinders.extend(is.cylinder(id).cloned());
            Some(())
        });
        differences.extend(all_of(id, told, &limits));
    }
}

fn lashings(
    planned: &Moment,
    found: &Moment,
    before: &PartNumbers,
    differences: &mut Vec<Difference>,
) {
    let (Some(was), Some(is)) = (planned.trip(), found.trip()) else {
        return;
    };
    for id in names(&was.lashings, &is.lashings, |lashing| &lashing.id) {
        let told: Vec<(DifferenceKind, String)> = match (was.lashing(id), is.lashing(id)) {
            (None, None) => Vec::new(),
            (Some(_), None) => vec![(DifferenceKind::Missing, format!("{id} was left off"))],
            (None, Some(_)) => vec![(DifferenceKind::Added, format!("{id} was not planned"))],
            (Some(was), Some(is)) => one_lashing(was, is),
        };
        if told.is_empty() {
            continue;
        }
        let limits = effect(planned, before, |moment| {
            let trip = moment.plan.trips.first_mut()?;
            trip.lashings.retain(|lashing| lashing.id != *id);
            trip.lashings.extend(is.lashing(id).cloned());
            Some(())
        });
        differences.extend(all_of(id, told, &limits));
    }
}

fn fronts(
    planned: &Moment,
    found: &Moment,
    before: &PartNumbers,
    differences: &mut Vec<Difference>,
) {
    for rack in &planned.plan.boat.racks {
        let Some(other) = found.plan.boat.rack(&rack.id) else {
            continue;
        };
        for front in &rack.fronts {
            let same = |other: &&Front| other.id == front.id;
            let Some(is) = other.fronts.iter().find(same) else {
                continue;
            };
            if front.shut == is.shut {
                continue;
            }
            let limits = effect(planned, before, |moment| {
                let racks = &mut moment.plan.boat.racks;
                let rack = racks.iter_mut().find(|item| item.id == rack.id)?;
                let changed = rack.fronts.iter_mut().find(|item| item.id == front.id)?;
                changed.shut = is.shut;
                Some(())
            });
            let state = |shut: bool| if shut { "shut" } else { "open" };
            differences.push(Difference {
                kind: if is.shut {
                    DifferenceKind::LashingChanged
                } else {
                    DifferenceKind::Opened
                },
                about: front.id.clone(),
                sentence: format!(
                    "{} of {} was to be {}, and was found {}",
                    front.id,
                    rack.id,
                    state(front.shut),
                    state(is.shut)
                ),
                limits,
            });
        }
    }
}

fn gear(planned: &Moment, found: &Moment, differences: &mut Vec<Difference>) {
    let (Some(was), Some(is)) = (planned.trip(), found.trip()) else {
        return;
    };
    let on_floor = |list: &'_ [Gear], id: &Id| -> Option<Gear> {
        let found = list.iter().find(|gear| gear.id == *id && !gear.stowed);
        found.cloned()
    };
    for id in names(&was.gear, &is.gear, |gear| &gear.id) {
        let told = match (on_floor(&was.gear, id), on_floor(&is.gear, id)) {
            (None, Some(_)) => (
                DifferenceKind::Added,
                format!("{id} was found on the floor"),
            ),
            (Some(_), None) => (
                DifferenceKind::Missing,
                format!("{id} was not on the floor"),
            ),
            (Some(a), Some(b)) if a.floor != b.floor || a.deck != b.deck => {
                (DifferenceKind::Moved, format!("{id} was found elsewhere"))
            }
            _ => continue,
        };
        differences.push(Difference {
            kind: told.0,
            about: id.clone(),
            sentence: told.1,
            limits: Vec::new(),
        });
    }
}

fn walkways(before: &PartNumbers, after: &PartNumbers, differences: &mut Vec<Difference>) {
    for was in &before.walkways {
        let same = after.walkways.iter().find(|way| way.walkway == was.walkway);
        let Some(is) = same else { continue };
        for (what, a, b) in [
            ("is clear for", was.clear_m, is.clear_m),
            (
                "is clear of low things for",
                was.clear_of_low_m,
                is.clear_of_low_m,
            ),
        ] {
            if a - b >= SAME_M {
                differences.push(Difference {
                    kind: DifferenceKind::WalkwayNarrowed,
                    about: was.walkway.clone(),
                    sentence: format!(
                        "{} {what} {} instead of {}",
                        was.walkway,
                        words::metres(b),
                        words::metres(a)
                    ),
                    limits: Vec::new(),
                });
            }
        }
    }
}

/// All that differs about one thing, with what it does together.
fn all_of(
    about: &Id,
    told: Vec<(DifferenceKind, String)>,
    limits: &[LimitChange],
) -> impl Iterator<Item = Difference> {
    told.into_iter().map(|(kind, sentence)| Difference {
        kind,
        about: about.clone(),
        sentence,
        limits: limits.to_vec(),
    })
}

/// What one difference alone does: the plan with only that changed.
fn effect(
    planned: &Moment,
    before: &PartNumbers,
    change: impl FnOnce(&mut Moment) -> Option<()>,
) -> Vec<LimitChange> {
    let mut with_it = planned.clone();
    let changed = change(&mut with_it);
    match (changed, with_it.numbers()) {
        (Some(()), Some(after)) => changed_limits(before, &after),
        _ => Vec::new(),
    }
}

fn changed_limits(before: &PartNumbers, after: &PartNumbers) -> Vec<LimitChange> {
    let pairs = before.cylinders.iter().filter_map(|was| {
        let same = |is: &&CylinderNumbers| is.cylinder == was.cylinder;
        Some((was, after.cylinders.iter().find(same)?))
    });
    pairs
        .filter_map(|(was, is)| {
            let (planned, with_it) = (limit_words(&was.limit), limit_words(&is.limit));
            (planned != with_it).then(|| LimitChange {
                cylinder: was.cylinder.clone(),
                planned,
                with_it,
            })
        })
        .collect()
}

/// How far a cylinder holds, in a few words.
pub(super) fn limit_words(limit: &LimitNumbers) -> String {
    let does = limit.way.map_or("goes", words::way);
    let mut text = if limit.goes_at_rest {
        format!("{does} at rest")
    } else if limit.goes_without_roll {
        format!("{does} without any roll")
    } else {
        match (limit.roll_deg, limit.share) {
            (Some(roll), _) => format!("{does} at {} of roll", words::degrees(roll)),
            (None, Some(share)) => format!("{does} at {} of the motion", words::percent(share)),
            (None, None) => format!(
                "holds up to {} of roll",
                words::degrees(LimitNumbers::SEARCHED_ROLL_DEG)
            ),
        }
    };
    if limit.if_unknowns_hold {
        text.push_str(", if what nobody knows holds");
    }
    text
}

#[cfg(test)]
mod tests;
