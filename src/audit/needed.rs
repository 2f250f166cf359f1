//! The motion that something needed to go, and how it stands beside what was plausible.

use schemars::JsonSchema;
use serde::Serialize;

use super::compare::limit_words;
use crate::engine::numbers::{CylinderNumbers, LimitNumbers};
use crate::geometry::Elementary as _;
use crate::layout::Id;
use crate::record::{Plausible, PlausibleSource};

/// A number to so many decimals: nothing finer is printed, so that every platform prints the same.
pub(super) fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = 10_f64.whole_power(decimals);
    // No minus before a zero.
    (value * scale).round() / scale + 0.0
}

/// What a cylinder needed to go.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum GoesWith {
    /// Nothing: it goes at rest.
    Nothing,
    /// No roll: pitch, heave, pushes or steady heel are enough.
    NoRoll,
    /// A roll of so many degrees.
    Roll,
    /// More roll than is searched.
    MoreThanSearched,
    /// It was not aboard.
    NotAboard,
}

/// The motion that one cylinder needed in one stowage.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Needed {
    /// What it needed.
    pub with: GoesWith,

    /// The roll to each side, in degrees to a tenth, where roll decides.
    pub roll_deg: Option<f64>,

    /// The same in words: `tips at 11.4° of roll`.
    pub words: String,

    /// Does the number hold only if things hold whose strength nobody knows?
    pub if_unknowns_hold: bool,
}

impl Needed {
    /// Of a cylinder that is aboard, or is not.
    pub(super) fn of(cylinders: &[CylinderNumbers], id: &Id) -> Self {
        let found = cylinders.iter().find(|body| body.cylinder == *id);
        found.map_or_else(
            || Self {
                with: GoesWith::NotAboard,
                roll_deg: None,
                words: "not aboard".to_owned(),
                if_unknowns_hold: false,
            },
            |body| Self::from(&body.limit),
        )
    }

    /// The roll above which it goes: below nothing for one that goes at rest, without end for one that holds.
    pub fn roll_or_end(&self) -> f64 {
        match self.with {
            GoesWith::Nothing => -1.0,
            GoesWith::NoRoll => 0.0,
            GoesWith::Roll => self.roll_deg.unwrap_or(f64::INFINITY),
            GoesWith::MoreThanSearched | GoesWith::NotAboard => f64::INFINITY,
        }
    }

    /// Does it hold through this roll?
    pub fn holds_at(&self, roll_deg: f64) -> bool {
        self.roll_or_end() > roll_deg
    }

    /// As it stands in a narrow column: `11.4°`.
    pub fn short(&self) -> String {
        match self.with {
            GoesWith::Nothing => "at rest".to_owned(),
            GoesWith::NoRoll => "without roll".to_owned(),
            GoesWith::Roll => self.roll_deg.map_or_else(String::new, |deg| {
                let mark = if self.if_unknowns_hold { "?" } else { "" };
                format!("{deg:.1}°{mark}")
            }),
            GoesWith::MoreThanSearched => format!("over {:.0}°", LimitNumbers::SEARCHED_ROLL_DEG),
            GoesWith::NotAboard => "not aboard".to_owned(),
        }
    }
}

impl From<&LimitNumbers> for Needed {
    fn from(limit: &LimitNumbers) -> Self {
        let (with, roll_deg) = if limit.goes_at_rest {
            (GoesWith::Nothing, None)
        } else if limit.goes_without_roll {
            (GoesWith::NoRoll, None)
        } else {
            match limit.roll_deg {
                Some(deg) => (GoesWith::Roll, Some(rounded(deg, 1))),
                None => (GoesWith::MoreThanSearched, None),
            }
        };
        Self {
            with,
            roll_deg,
            words: limit_words(limit),
            if_unknowns_hold: limit.if_unknowns_hold,
        }
    }
}

/// How a needed motion stands beside a plausible range.
#[derive(Copy, Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Beside {
    /// Any motion of the range was enough.
    AnyWasEnough,
    /// The upper part of the range was enough.
    PartWasEnough,
    /// The range does not reach it.
    NotReached,
}

impl Beside {
    /// A needed motion beside a range.
    pub(super) fn of(needed: &Needed, [low, high]: [f64; 2]) -> Self {
        let roll = needed.roll_or_end();
        if roll <= low {
            Self::AnyWasEnough
        } else if roll <= high {
            Self::PartWasEnough
        } else {
            Self::NotReached
        }
    }

    /// As it is printed.
    pub fn words(self) -> &'static str {
        match self {
            Self::AnyWasEnough => "all of it was enough",
            Self::PartWasEnough => "its upper part was enough",
            Self::NotReached => "not reached",
        }
    }
}

/// A plausible range as it is printed, rounded.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct PlausibleRange {
    /// Its name.
    pub id: Id,

    /// What kind of source it is.
    pub source: PlausibleSource,

    /// Who or what says so.
    pub from: String,

    /// Roll to each side, from and to, in degrees to a tenth.
    pub roll_deg: [f64; 2],
}

impl From<&Plausible> for PlausibleRange {
    fn from(plausible: &Plausible) -> Self {
        Self {
            id: plausible.id.clone(),
            source: plausible.source,
            from: plausible.from.clone(),
            roll_deg: plausible.roll_amplitude_deg.map(|deg| rounded(deg, 1)),
        }
    }
}
