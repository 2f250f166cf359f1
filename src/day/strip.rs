//! Each part of the day in a few figures: what the strip along the top of the window shows, and `snugdown day`.

use std::collections::BTreeSet;

use schemars::JsonSchema;
use serde::Serialize;

use super::work::{PartWork, StepKind, Work};
use crate::checks::digest::first_to_go;
use crate::checks::{Digest, Finding, Signal, words};
use crate::engine::Assessor;
use crate::engine::numbers::{LimitNumbers, MotionNumbers, PartNumbers, Stance};
use crate::layout::{
    Condition, DayState, Fill, Id, MotionSource, Part, Placing, Posture, Role, Trip,
};

/// The signal words, gravest first.
const SIGNALS: [Signal; 4] = [
    Signal::Danger,
    Signal::Warning,
    Signal::Caution,
    Signal::Notice,
];

/// How many there are to put right of each signal word; what was taken on is not counted.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct SignalCount {
    /// DANGER.
    pub danger: usize,
    /// WARNING.
    pub warning: usize,
    /// CAUTION.
    pub caution: usize,
    /// NOTICE.
    pub notice: usize,
}

impl SignalCount {
    /// How many of this signal word.
    pub fn of(&self, signal: Signal) -> usize {
        match signal {
            Signal::Danger => self.danger,
            Signal::Warning => self.warning,
            Signal::Caution => self.caution,
            Signal::Notice => self.notice,
        }
    }

    /// The gravest of which there is any.
    pub fn gravest(&self) -> Option<Signal> {
        SIGNALS.into_iter().find(|signal| self.of(*signal) > 0)
    }

    /// `2 DANGER, 1 CAUTION`, or `nothing`.
    pub fn in_words(&self) -> String {
        let some = SIGNALS.into_iter().filter(|signal| self.of(*signal) > 0);
        let words: Vec<String> = some
            .map(|signal| format!("{} {signal}", self.of(signal)))
            .collect();
        if words.is_empty() {
            "nothing".to_owned()
        } else {
            words.join(", ")
        }
    }

    /// Of what is to put right in a part of the day, or in all of it.
    pub(super) fn of_findings(findings: &[Finding], part: Option<&str>) -> Self {
        let mut count = Self::default();
        for signal in Digest::signals_of(findings, part) {
            match signal {
                Signal::Danger => count.danger += 1,
                Signal::Warning => count.warning += 1,
                Signal::Caution => count.caution += 1,
                Signal::Notice => count.notice += 1,
            }
        }
        count
    }
}

/// What goes first in a part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct FirstToGo {
    /// The cylinder.
    pub cylinder: Id,

    /// At which roll, in degrees; `None` where roll does not decide.
    pub roll_deg: Option<f64>,

    /// At which share of the part's whole motion; `None` where it holds as far as is searched.
    pub share: Option<f64>,

    /// Does it go within the part's motion?
    pub goes: bool,

    /// In a few words: `P6 at 12.0° of roll`.
    pub words: String,
}

/// Cylinders of a part by how full they are and where.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct CylinderCount {
    /// Aboard and full.
    pub full: usize,
    /// Aboard and part used.
    pub part_used: usize,
    /// Aboard and empty.
    pub empty: usize,
    /// Of those aboard: in slots of racks, upright.
    pub in_racks: usize,
    /// Of those aboard: standing on deck outside racks.
    pub standing: usize,
    /// Of those aboard: lying.
    pub lying: usize,
    /// Of those aboard: on divers' backs or in hands.
    pub on_people: usize,
    /// In the water.
    pub in_water: usize,
    /// Not aboard.
    pub ashore: usize,
}

/// People of a part by where they are.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Away {
    /// On deck.
    pub on_deck: usize,
    /// In the water.
    pub in_water: usize,
    /// Below or in the house.
    pub below: usize,
    /// Ashore.
    pub ashore: usize,
    /// Of those on deck: crew, mate or skipper, who can do something.
    pub hands: usize,
}

/// What changed from the part before.
#[derive(Copy, Clone, Debug, Default, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Changed {
    /// Cylinders that moved.
    pub moved: usize,
    /// Straps, cords, fronts and lashings that are opened, for good or for a moment.
    pub opened: usize,
    /// That are shut.
    pub shut: usize,
    /// Gear that is stowed or moved.
    pub gear: usize,
    /// People who go elsewhere.
    pub people: usize,
    /// Cylinders that stand unsecured for a moment while something is open for others.
    pub unsecured_meanwhile: usize,
}

impl Changed {
    fn of(work: &PartWork) -> Self {
        let things = |kinds: &[StepKind]| -> usize {
            let steps = work.steps.iter().filter(|step| kinds.contains(&step.kind));
            steps.map(|step| step.things.len()).sum()
        };
        let mut meanwhile: Vec<&Id> = work
            .steps
            .iter()
            .flat_map(|step| step.unsecured_meanwhile.iter().map(|left| &left.cylinder))
            .collect();
        meanwhile.sort();
        meanwhile.dedup();
        Self {
            moved: things(&[
                StepKind::LayDown,
                StepKind::Away,
                StepKind::IntoSlot,
                StepKind::Move,
            ]),
            opened: things(&[StepKind::Open]),
            shut: things(&[StepKind::Shut]),
            gear: things(&[StepKind::Gear]),
            people: things(&[StepKind::Person]),
            unsecured_meanwhile: meanwhile.len(),
        }
    }

    /// Is nothing different?
    pub fn is_nothing(&self) -> bool {
        *self == Self::default()
    }
}

/// One part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PartCell {
    /// The part.
    pub part: Id,

    /// What the crew call it.
    pub name: String,

    /// What the boat is doing.
    pub condition: Condition,

    /// How long it lasts, in hours.
    pub duration_h: Option<f64>,

    /// Is nobody on deck?
    pub nobody_on_deck: bool,

    /// Roll to each side, in degrees.
    pub roll_amplitude_deg: f64,

    /// Seconds for a full roll.
    pub roll_period_s: f64,

    /// Where the motion comes from.
    pub motion_source: MotionSource,

    /// Who is where.
    pub people: Away,

    /// The cylinders.
    pub cylinders: CylinderCount,

    /// What changed from the part before.
    pub changed: Changed,

    /// How much there is to put right in this part.
    pub to_put_right: SignalCount,

    /// What goes first; `None` where nothing is on deck.
    pub first: Option<FirstToGo>,
}

/// The day in a row.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct DayStrip {
    /// Its parts, in their order.
    pub parts: Vec<PartCell>,

    /// How much there is to put right in the whole day; what stands in several parts is counted once.
    pub to_put_right: SignalCount,
}

impl DayStrip {
    /// Of a trip that was assessed and checked; `work` is its work on deck.
    pub fn of(trip: &Trip, assessor: &Assessor, findings: &[Finding], work: &Work) -> Self {
        let parts = trip
            .parts
            .iter()
            .zip(&assessor.assessment().parts)
            .zip(assessor.days())
            .zip(&work.parts);
        let parts = parts.map(|(((part, numbers), day), work)| PartCell {
            to_put_right: SignalCount::of_findings(findings, Some(&part.id)),
            ..PartCell::of(part, numbers, day, work)
        });
        Self {
            parts: parts.collect(),
            to_put_right: SignalCount::of_findings(findings, None),
        }
    }
}

impl PartCell {
    fn of(part: &Part, numbers: &PartNumbers, day: &DayState, work: &PartWork) -> Self {
        let MotionNumbers {
            source,
            roll_amplitude_deg,
            roll_period_s,
            ..
        } = &numbers.motion;
        Self {
            part: part.id.clone(),
            name: part.name.clone().unwrap_or_else(|| part.id.clone()),
            condition: part.condition,
            duration_h: part.duration_h,
            nobody_on_deck: part.nobody_on_deck,
            roll_amplitude_deg: *roll_amplitude_deg,
            roll_period_s: *roll_period_s,
            motion_source: *source,
            people: people(part, day),
            cylinders: cylinders(numbers, day),
            changed: Changed::of(work),
            to_put_right: SignalCount::default(),
            first: first(numbers),
        }
    }
}

fn people(part: &Part, day: &DayState) -> Away {
    let mut away = Away::default();
    for person in day.people.iter().map(|state| &state.person) {
        match person.posture {
            Posture::InWater => away.in_water += 1,
            Posture::Below => away.below += 1,
            Posture::Ashore => away.ashore += 1,
            _ if part.nobody_on_deck => away.below += 1,
            _ => {
                away.on_deck += 1;
                if matches!(person.role, Role::Crew | Role::Mate | Role::Skipper) {
                    away.hands += 1;
                }
            }
        }
    }
    away
}

fn cylinders(numbers: &PartNumbers, day: &DayState) -> CylinderCount {
    let in_cradles = numbers.cylinders.iter();
    let in_cradles = in_cradles.filter(|item| item.stance == Stance::InCradle);
    let in_cradles: BTreeSet<&Id> = in_cradles.map(|item| &item.cylinder).collect();
    let mut count = CylinderCount::default();
    for cylinder in day.cylinders.iter().map(|state| &state.cylinder) {
        match cylinder.placing {
            Placing::InWater => count.in_water += 1,
            Placing::Ashore => count.ashore += 1,
            _ => match cylinder.fill {
                Fill::Full => count.full += 1,
                Fill::PartUsed => count.part_used += 1,
                Fill::Empty => count.empty += 1,
            },
        }
        match cylinder.placing {
            Placing::InSlot { .. } => {
                let lies = in_cradles.contains(&cylinder.id);
                *(if lies {
                    &mut count.lying
                } else {
                    &mut count.in_racks
                }) += 1;
            }
            Placing::Standing { .. }
            | Placing::UpsideDown { .. }
            | Placing::Filling { .. }
            | Placing::Hanging { .. } => count.standing += 1,
            Placing::Lying { .. } | Placing::InCrate { .. } => count.lying += 1,
            Placing::HeldByHand { .. } | Placing::OnDiver { .. } => count.on_people += 1,
            Placing::InWater | Placing::Ashore => {}
        }
    }
    count
}

/// What goes first in this part, and when.
pub(super) fn first(numbers: &PartNumbers) -> Option<FirstToGo> {
    let cylinder = first_to_go(numbers)?;
    let limit = &cylinder.limit;
    let goes = limit.goes_at_rest
        || limit.goes_without_roll
        || limit.share.is_some_and(|share| share <= 1.0);
    Some(FirstToGo {
        cylinder: cylinder.cylinder.clone(),
        roll_deg: limit.roll_deg,
        share: limit.share,
        goes,
        words: first_in_words(&cylinder.cylinder, limit),
    })
}

fn first_in_words(id: &str, limit: &LimitNumbers) -> String {
    match (
        limit.goes_at_rest,
        limit.goes_without_roll,
        limit.roll_deg,
        limit.share,
    ) {
        (true, ..) => format!("{id} at rest"),
        (_, true, ..) => format!("{id} without any roll"),
        (_, _, Some(roll), _) => format!("{id} at {} of roll", words::degrees(roll)),
        (_, _, None, Some(share)) => format!("{id} at {} of the motion", words::percent(share)),
        (_, _, None, None) => format!(
            "all hold to {} of roll",
            words::degrees(LimitNumbers::SEARCHED_ROLL_DEG)
        ),
    }
}
