//! Every computed number of a trip, part by part: what the checks read, what `snugdown check --format
//! json` prints, and what anybody can hold against numbers of their own.

mod balance;
mod cylinder;
mod deck;
mod fall;
mod fit;
mod going;
mod holding;
mod sea;
pub(in crate::engine) mod sum;
mod walkway;

pub use self::balance::{BalanceNumbers, DeckShare, MassGroup, MassItem};
pub use self::cylinder::{CylinderNumbers, LashingHold, RackHold, Stance};
pub use self::deck::DeckNumbers;
pub use self::fall::{FallNumbers, Struck, StruckKind};
pub use self::fit::{FitKind, FitNumbers, FitThing};
pub use self::going::{Governing, LimitNumbers, Need, NeedKind, Utilisation, Way};
pub(crate) use self::holding::BackingPush;
pub use self::holding::{BackingNumbers, FrontNumbers, LashingNumbers, PointNumbers, RackNumbers};
pub use self::sea::{Crossing, RollPeriodNumbers, SeaNumbers, TimedRoll, WakeNumbers};
pub use self::sum::Sum;
pub use self::walkway::{Intruder, SpotShift, ThingSort, TightSpot, WalkwayNumbers};

use schemars::JsonSchema;
use serde::Serialize;

use crate::layout::{Condition, Id, MotionSource};

/// All computed numbers of one trip.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Assessment {
    /// The trip.
    pub trip: Id,

    /// Its parts, in the order of the day.
    pub parts: Vec<PartNumbers>,
}

/// All computed numbers of one part of the day.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PartNumbers {
    /// The part.
    pub part: Id,

    /// What the boat is doing.
    pub condition: Condition,

    /// The motion that the numbers are for.
    pub motion: MotionNumbers,

    /// What its sea makes of the boat; `None` where no sea is given.
    pub sea: Option<SeaNumbers>,

    /// What a passing wake makes of it; `None` where none is given.
    pub wake: Option<WakeNumbers>,

    /// The cylinders that are on deck, in the order of their names.
    pub cylinders: Vec<CylinderNumbers>,

    /// The racks, in the order of their names.
    pub racks: Vec<RackNumbers>,

    /// The lashings, in the order of their names.
    pub lashings: Vec<LashingNumbers>,

    /// The lashing points in use, in the order of their names.
    pub points: Vec<PointNumbers>,

    /// The fixtures that cylinders lean on, in the order of their names.
    pub backings: Vec<BackingNumbers>,

    /// The walkways, in the order of their names.
    pub walkways: Vec<WalkwayNumbers>,

    /// What the upright cylinders would reach if they went, in the order of their names.
    pub falls: Vec<FallNumbers>,

    /// Mass, area and load of each deck, in the order of their names.
    pub decks: Vec<DeckNumbers>,

    /// What does not fit where it is, deck by deck, in the order of the ways in which it does not,
    /// then of the names.
    pub fit: Vec<FitNumbers>,

    /// How far the stowage (not the boat) is good, and what goes first.
    pub limit: StowageLimit,
}

/// The motion that was used, after everything assumed was filled in.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct MotionNumbers {
    /// Where it comes from.
    pub source: MotionSource,

    /// How they were made, in words, where the program made them.
    pub made_from: Option<String>,

    /// What was assumed because nobody gave it, in words.
    pub assumed: Vec<String>,

    /// Roll to each side, in degrees.
    pub roll_amplitude_deg: f64,

    /// Seconds for a full roll; of a range the shortest.
    pub roll_period_s: f64,

    /// Longest seconds for a full roll where only a range is known: both ends are checked, the worse counts.
    pub longest_roll_period_s: Option<f64>,

    /// Pitch up and down, in degrees.
    pub pitch_amplitude_deg: f64,

    /// Seconds for a full pitch.
    pub pitch_period_s: f64,

    /// Vertical acceleration up and down, in m/s².
    pub vertical_m_s2: f64,

    /// Steady heel in degrees, starboard down positive.
    pub heel_deg: f64,

    /// Steady trim in degrees, bow down positive.
    pub trim_deg: f64,

    /// From which utilisation on a finding is a WARNING, for this source of motion (method, grading).
    pub warning_from: f64,
}

/// How far the stowage (not the boat) is good, and what goes first.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct StowageLimit {
    /// The cylinders in the order in which they go; those that go without roll first, ties by name.
    pub order: Vec<Id>,

    /// The limit of the first to go; `None` if nothing is on deck.
    pub first: Option<LimitNumbers>,
}
