//! Where a value comes from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Where a value comes from, best first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Provenance {
    /// Measured or stamped on the thing itself.
    Own,
    /// Read in a published table or rule.
    DataTable,
    /// Computed from other values.
    Computed,
    /// From memory of what is usual; not read anywhere.
    Memory,
    /// A cautious assumption, because nothing was found.
    Assumed,
}

impl Provenance {
    /// In a few words, for screen and sheet.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Own => "your own",
            Self::DataTable => "from a data table",
            Self::Computed => "computed",
            Self::Memory => "from memory",
            Self::Assumed => "assumed",
        }
    }

    /// As [`Provenance::words`], with what to do about a mass or a length that nobody has read.
    pub const fn words_for_measure(self) -> &'static str {
        match self {
            Self::Memory => "from memory: weigh yours",
            Self::Assumed => "assumed: measure yours",
            Self::Own | Self::DataTable | Self::Computed => self.words(),
        }
    }
}

/// A value and where it comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sourced<T> {
    /// The value, in the unit that the field's name says.
    pub value: T,
    /// Where it comes from.
    pub provenance: Provenance,
}

impl<T> Sourced<T> {
    /// A value with its provenance.
    pub const fn new(value: T, provenance: Provenance) -> Self {
        Self { value, provenance }
    }
}

/// Least, usual and greatest value of something that differs from piece to piece.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Spread {
    /// Least value met.
    pub least: f64,
    /// What is taken unless another value is given.
    pub typical: f64,
    /// Greatest value met.
    pub most: f64,
}

/// Least and greatest value of something without a typical one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bounds {
    /// Least value.
    pub least: f64,
    /// Greatest value.
    pub most: f64,
}

/// Something that was read, or a statement that nothing was.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Source {
    /// Short name by which values refer to it.
    pub id: String,
    /// What it is and how it was read.
    pub title: String,
    /// Where it was found.
    pub address: Option<String>,
}
