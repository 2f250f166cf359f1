//! What was found otherwise than planned, and what each difference does to the limit.

mod carry;
mod describe;
mod lists;

pub use self::carry::DifferentThing;
pub(in crate::audit) use self::carry::carry;

use schemars::JsonSchema;
use serde::Serialize;

use super::Moment;
use super::trial::Trial;
use crate::checks::words;
use crate::engine::numbers::{CylinderNumbers, LimitNumbers};
use crate::layout::{Id, Point};

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
    /// Upright, and nothing secured it that was to.
    Unsecured,
    /// Of another kind.
    OtherKind,
    /// With other gas, pressure, kit, boot, mass or marking.
    OtherState,
    /// A lashing or front that was to be shut is open.
    Opened,
    /// A lashing that is looser.
    Slacker,
    /// A lashing or front that runs, reaches round or is made otherwise.
    LashingChanged,
    /// A walkway with less room.
    WalkwayNarrowed,
    /// Something of the boat herself, which no crew moves: another layout was drawn, or measured better.
    BoatDiffers,
}

impl DifferenceKind {
    /// As it stands in a table.
    pub fn words(self) -> &'static str {
        match self {
            Self::Missing => "missing",
            Self::Added => "added",
            Self::Moved => "moved",
            Self::Turned => "turned",
            Self::PlacedOtherwise => "placed otherwise",
            Self::Unsecured => "unsecured",
            Self::OtherKind => "other kind",
            Self::OtherState => "other state",
            Self::Opened => "opened",
            Self::Slacker => "slacker",
            Self::LashingChanged => "lashing changed",
            Self::WalkwayNarrowed => "walkway narrowed",
            Self::BoatDiffers => "boat differs",
        }
    }
}

/// The limit of a cylinder before and after, in words: `tips at 17.3° of roll`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LimitChange {
    /// The cylinder.
    pub cylinder: Id,

    /// As planned.
    pub planned: String,

    /// With this difference alone.
    pub with_it: String,
}

/// The limit of a cylinder as found, and with one difference undone, in words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub struct LimitUndone {
    /// The cylinder.
    pub cylinder: Id,

    /// As found.
    pub found: String,

    /// With this one difference undone.
    pub without_it: String,
}

/// Something that was found otherwise than planned.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Difference {
    /// In what it differs.
    pub kind: DifferenceKind,

    /// What sort of thing it is.
    pub thing: DifferentThing,

    /// The thing; a front stands with its rack, as `rack/front`.
    pub about: Id,

    /// What differs, in one sentence.
    pub sentence: String,

    /// Where it was to be, in metres to the millimetre, for what has a place.
    pub from: Option<Point>,

    /// Where it was found, in metres to the millimetre.
    pub to: Option<Point>,

    /// What this one difference does to the limit of cylinders, where it changes it: the plan with it alone.
    pub limits: Vec<LimitChange>,

    /// What undoing this one difference would have done: the stowage as found without it.
    pub undone: Vec<LimitUndone>,
}

/// A stowage as found, held against the one that was planned.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Comparison {
    /// What differs, by thing.
    pub differences: Vec<Difference>,

    /// The limit of every cylinder that both have, where all differences together change it.
    pub limits: Vec<LimitChange>,
}

/// A difference that was seen, before anything is computed of it.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    thing: DifferentThing,
    about: Id,
    kind: DifferenceKind,
    sentence: String,
    from: Option<Point>,
    to: Option<Point>,
}

impl Seen {
    fn new(thing: DifferentThing, about: &Id, kind: DifferenceKind, sentence: String) -> Self {
        Self {
            thing,
            about: about.clone(),
            kind,
            sentence,
            from: None,
            to: None,
        }
    }

    fn at(mut self, from: Option<Point>, to: Option<Point>) -> Self {
        let to_mm = |point: Point| point.map(|value| (value * 1000.0).round() / 1000.0);
        self.from = from.map(to_mm);
        self.to = to.map(to_mm);
        self
    }
}

/// Compares what was found with what was planned.
pub fn compare(planned: &Moment, found: &Moment) -> Comparison {
    let (Some(mut was), Some(mut is)) = (Trial::of(planned), Trial::of(found)) else {
        return Comparison::default();
    };
    let (Some(before), Some(after)) = (was.numbers().cloned(), is.numbers().cloned()) else {
        return Comparison::default();
    };
    let mut seen = lists::all(planned, found, &before, &after);
    seen.sort_by(|a, b| {
        let key = |it: &Seen| (it.about.clone(), it.thing, it.kind);
        key(a).cmp(&key(b))
    });
    let mut differences: Vec<Difference> = Vec::with_capacity(seen.len());
    for item in seen {
        // All that differs about one thing goes and comes together.
        let same = |old: &&Difference| old.about == item.about && old.thing == item.thing;
        let (limits, undone) = match differences.last().filter(same) {
            Some(old) => (old.limits.clone(), old.undone.clone()),
            None => (
                with_it_alone(&mut was, (planned, found), &item, &before.cylinders),
                without_it(&mut is, (planned, found), &item, &after.cylinders),
            ),
        };
        differences.push(Difference {
            kind: item.kind,
            thing: item.thing,
            about: item.about,
            sentence: item.sentence,
            from: item.from,
            to: item.to,
            limits,
            undone,
        });
    }
    Comparison {
        differences,
        limits: changed(&before.cylinders, &after.cylinders)
            .map(|(cylinder, planned, with_it)| LimitChange {
                cylinder,
                planned,
                with_it,
            })
            .collect(),
    }
}

/// The plan with one difference alone.
fn with_it_alone(
    trial: &mut Trial,
    (planned, found): (&Moment, &Moment),
    item: &Seen,
    before: &[CylinderNumbers],
) -> Vec<LimitChange> {
    let mut with_it = planned.clone();
    if carry(found, &mut with_it, item.thing, &item.about).is_none() {
        return Vec::new();
    }
    let after = trial.cylinders_of(&with_it);
    changed(before, &after)
        .map(|(cylinder, planned, with_it)| LimitChange {
            cylinder,
            planned,
            with_it,
        })
        .collect()
}

/// The stowage as found with one difference undone.
fn without_it(
    trial: &mut Trial,
    (planned, found): (&Moment, &Moment),
    item: &Seen,
    after: &[CylinderNumbers],
) -> Vec<LimitUndone> {
    let mut undone = found.clone();
    if carry(planned, &mut undone, item.thing, &item.about).is_none() {
        return Vec::new();
    }
    let without = trial.cylinders_of(&undone);
    changed(after, &without)
        .map(|(cylinder, found, without_it)| LimitUndone {
            cylinder,
            found,
            without_it,
        })
        .collect()
}

/// Cylinders that both have and whose limit differs, with both limits in words.
fn changed<'a>(
    before: &'a [CylinderNumbers],
    after: &'a [CylinderNumbers],
) -> impl Iterator<Item = (Id, String, String)> + 'a {
    before.iter().filter_map(|was| {
        let is = after.iter().find(|is| is.cylinder == was.cylinder)?;
        let (a, b) = (limit_words(&was.limit), limit_words(&is.limit));
        (a != b).then(|| (was.cylinder.clone(), a, b))
    })
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
