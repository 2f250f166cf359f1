//! Published limits: every figure that a check, a page or a sheet refers to, with clause and status.
//!
//! The one table. A figure is a constant first and enters its row from there, so that rule and
//! number cannot part; [`LIMITS`] lists all rows, `docs/limits.md` is printed from it. Rules are
//! retold in plain words: the document decides, not this page.

mod boat;
mod cylinders;
mod handling;
mod securing;
mod walkways;

pub use boat::*;
pub use cylinders::*;
pub use handling::*;
pub use securing::*;
pub use walkways::*;

/// How well a figure is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Read in the document or an official copy of it.
    Verified,
    /// Read in somebody else's rendering of the document.
    VerifiedSecondary,
    /// Follows from other figures by arithmetic or mechanics.
    Derived,
    /// From memory; look it up before relying on it.
    FromMemory,
    /// Common practice or this project's choice, no source.
    CommonPractice,
}

impl Status {
    /// In a few words, for pages and sheets.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Verified => "verified",
            Self::VerifiedSecondary => "verified in a rendering",
            Self::Derived => "derived",
            Self::FromMemory => "from memory",
            Self::CommonPractice => "common practice, no source",
        }
    }
}

/// One number of a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// What it is.
    pub what: &'static str,
    /// The number, in `unit`.
    pub value: f64,
    /// Its unit; empty for a share or a ratio.
    pub unit: &'static str,
}

/// A published rule with its figures.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limit {
    /// Short name, stable.
    pub id: &'static str,
    /// What it says, in our own words.
    pub says: &'static str,
    /// Its figures.
    pub figures: &'static [Figure],
    /// Document and clause.
    pub clause: &'static str,
    /// Edition or year, as far as known.
    pub edition: &'static str,
    /// How well it is known.
    pub status: Status,
    /// Where it was read; empty if it was not.
    pub address: &'static str,
}

impl Limit {
    /// Clause and edition in one line, as a source line of a finding.
    pub fn citation(&self) -> String {
        match (self.edition, self.status) {
            ("", Status::CommonPractice) => self.clause.to_owned(),
            ("", status) => format!("{} ({})", self.clause, status.words()),
            (edition, status) => format!("{}, {edition} ({})", self.clause, status.words()),
        }
    }
}

/// Every limit, by topic.
pub static LIMITS: &[&[&Limit]] = &[
    walkways::ALL,
    securing::ALL,
    cylinders::ALL,
    handling::ALL,
    boat::ALL,
];

/// All limits in the order of the table.
pub fn limits() -> impl Iterator<Item = &'static Limit> {
    LIMITS.iter().copied().flatten().copied()
}

/// A limit by its id.
pub fn limit(id: &str) -> Option<&'static Limit> {
    limits().find(|limit| limit.id == id)
}

/// Declares limits as statics, documents each by what it says, and lists them in `ALL`.
macro_rules! declare_limits {
    ($(
        $name:ident = {
            id: $id:literal,
            says: $says:literal,
            figures: [$(($what:literal, $value:expr, $unit:literal)),* $(,)?],
            clause: $clause:literal,
            edition: $edition:literal,
            status: $status:ident,
            address: $address:literal $(,)?
        }
    )*) => {
        $(
            #[doc = $says]
            pub static $name: $crate::catalogue::published::Limit =
                $crate::catalogue::published::Limit {
                    id: $id,
                    says: $says,
                    figures: &[$($crate::catalogue::published::Figure {
                        what: $what,
                        value: $value,
                        unit: $unit,
                    }),*],
                    clause: $clause,
                    edition: $edition,
                    status: $crate::catalogue::published::Status::$status,
                    address: $address,
                };
        )*
        /// The limits of this topic.
        pub(super) static ALL: &[&$crate::catalogue::published::Limit] = &[$(&$name),*];
    };
}
use declare_limits;

#[cfg(test)]
mod tests;
