//! Ways in which a body goes, how much of what holds is used up, and at which motion it goes.

use schemars::JsonSchema;
use serde::{Serialize, Serializer};

use super::Sum;
use crate::engine::words;
use crate::layout::Id;
use crate::mechanics::motion::LoadCase;

/// The way in which a body goes.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Over its edge.
    Tips,
    /// Along the deck.
    Slides,
    /// Off the deck or out of its slot.
    Lifts,
    /// Its foot slides out from under it.
    FootKicksOut,
    /// The edge, rail or front of its rack gives.
    RackGives,
    /// A lashing or its point gives.
    LashingGives,
    /// Across its axis, when lying.
    RollsAway,
    /// Along its axis, when lying.
    SlidesAlong,
    /// Out of the groove between the two below.
    LeavesGroove,
}

/// The load case that governs a number.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Governing {
    /// The load case; written in words: "rolled to starboard, light".
    #[serde(serialize_with = "in_words")]
    #[schemars(with = "String")]
    pub case: LoadCase,

    /// Where the force along the deck points, in degrees from the bow towards port.
    pub towards_deg: f64,

    /// Apparent force along the deck per unit mass, in m/s².
    pub a_h_m_s2: f64,

    /// Apparent force onto the deck per unit mass, in m/s².
    pub a_n_m_s2: f64,
}

impl Governing {
    /// The load case as a crew would say it.
    pub fn case_in_words(&self) -> String {
        words::case(&self.case)
    }
}

fn in_words<S: Serializer>(case: &LoadCase, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(&words::case(case))
}

/// How much of what holds is used up: 1 means it goes. `None` where it cannot be said, because
/// something is not known, or where the question does not arise.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Utilisation {
    /// The way in which it would go.
    pub way: Way,

    /// The number, the worst over all load cases. Infinite is written as `null` with `goes` true.
    pub value: Option<f64>,

    /// Does it go (1 or more)?
    pub goes: bool,

    /// The load case at which it is worst.
    pub governing: Option<Governing>,

    /// The formula with its figures put in, line by line, for "show the sum".
    pub sum: Sum,
}

/// Something nobody knows that would have to be at least this good.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Need {
    /// What it is of: a lashing point, a rack's slot, a front, a lashing, fixings, friction.
    pub what: NeedKind,

    /// The thing's name.
    pub of: Id,

    /// What would be needed: kilonewtons for strengths, a number for friction, metres for slack (at
    /// most).
    pub at_least: f64,
}

/// What is not known.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum NeedKind {
    /// Strength of a lashing point.
    PointStrength,
    /// Strength of a lashing.
    LashingStrength,
    /// How loose a lashing is.
    LashingSlack,
    /// Strength of a rack's slot.
    SlotStrength,
    /// Strength of a rack's front.
    FrontStrength,
    /// Strength of a rack's fixings.
    FixingStrength,
    /// Hold-down of a rack.
    HoldDown,
    /// Strength of what backs it.
    BackingStrength,
    /// Friction underfoot.
    Friction,
    /// Load limit of a shelf or deck.
    LoadLimit,
}

/// The motion at which something goes first.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct LimitNumbers {
    /// The share of the part's whole motion, all terms scaled together, at which it goes; `None` where it
    /// holds up to [`LimitNumbers::SEARCHED_SHARE`].
    pub share: Option<f64>,

    /// The roll to each side at which it goes, the rest of the motion held; `None` where it holds up to
    /// [`LimitNumbers::SEARCHED_ROLL_DEG`] or where roll does not decide.
    pub roll_deg: Option<f64>,

    /// The same at nine tenths of the roll period.
    pub roll_at_short_period_deg: Option<f64>,

    /// Does it go without any roll, from pitch, heave, pushes or steady heel alone?
    pub goes_without_roll: bool,

    /// Does it go at rest, without any motion?
    pub goes_at_rest: bool,

    /// The way in which it goes.
    pub way: Option<Way>,

    /// Does the number hold only if things hold that nobody knows (`needs`)?
    pub if_unknowns_hold: bool,
}

impl LimitNumbers {
    /// The largest share of the motion that is searched.
    pub const SEARCHED_SHARE: f64 = 4.0;

    /// The largest roll that is searched, in degrees.
    pub const SEARCHED_ROLL_DEG: f64 = 60.0;
}
