//! Deck plans on disk: strict reading with located mistakes, atomic writing.
//!
//! Reading tells everything that is wrong with a file at once, each thing with its line, column and
//! field, and with what to do about it ([`Fault`]). It goes in steps: bytes to text, text to a tree
//! that knows where each value stands (strict JSON, RFC 8259), the tree against the schema derived
//! from the types, and the value against what no schema can say ([`validate()`](crate::layout::validate())).
//! Nothing that passes these steps needs checking again.
//!
//! Saving is atomic ([`write_atomic`]) and stable: a plan has one text, and loading and saving it
//! gives the same bytes.

mod audit_record;
mod carry;
pub mod cylinder_list;
mod document;
pub mod drawing;
mod fault;
mod field_path;
pub mod folder;
mod json;
pub mod motion_log;
pub mod picture;
mod print;
mod reference;
mod refusal;
mod schema;
mod shape;
mod table;
mod version;
mod watch;
mod write;

use std::path::Path;
use std::sync::LazyLock;

use crate::layout::{PLAN_VERSION, Plan, validate};
pub use audit_record::{
    RECORD_SCHEMA_PATH, RecordError, ReferenceError, log_units, open_record, open_record_watched,
    parse_record, record_field_reference, record_schema_text, record_text, reference, save_record,
    sha256_of,
};
pub use carry::carried_over;
use document::{Format, Instead};
pub use fault::{Fault, Faults, ReadError};
pub use refusal::{Trying, in_one_line, refused};
pub use table::csv_text;
pub use version::version_of;
pub use watch::Watch;
pub use write::{WriteError, write_atomic};

static FORMAT: LazyLock<Format> = LazyLock::new(|| {
    Format::new(&schema::layout_schema(), PLAN_VERSION, DEPENDED_ON).or_rather(RECORD_INSTEAD)
});

/// An audit record where a deck plan is wanted.
const RECORD_INSTEAD: Instead = Instead {
    has: "accounts",
    has_not: "boat",
    is: "this is an audit record, not a deck plan",
    help: "`snugdown audit FILE` audits it; in the window it is opened with File, After an incident",
};

/// Fields of one thing that decide whether something in another is a mistake: how far a deck may
/// reach, which slots a rack has, who is on deck. Names and points are never stood in for.
const DEPENDED_ON: &[&str] = &[
    "beam_m",
    "columns",
    "kind",
    "length_overall_m",
    "posture",
    "rows",
    "version",
    "waterline_length_m",
];

/// Where layout files that are shipped find their schema.
pub const SCHEMA_PATH: &str = "../docs/layout.schema.json";

/// Why a plan could not be saved.
#[derive(Debug, thiserror::Error)]
pub enum SaveError {
    /// The plan could not be read again, so that nothing was written. It has numbers out of range,
    /// or names that lead nowhere.
    #[error("not saved, since it could not be opened again:\n{0}")]
    Faults(#[from] Faults),

    /// The file could not be written.
    #[error(transparent)]
    Write(#[from] WriteError),
}

/// Reads a plan from a file.
pub fn read(path: &Path) -> Result<Plan, ReadError> {
    let bytes = document::read_bytes(path)?;
    let name = path.display().to_string();
    Ok(document::from_bytes(&FORMAT, &bytes, &name, validate)?)
}

/// Is it an audit record that lies there, sound or not?
pub fn is_record(path: &Path) -> bool {
    document::is_instead(&FORMAT, path)
}

/// Reads a plan from text; `name` is what the text is called in what is told of it.
pub fn parse(text: &str, name: &str) -> Result<Plan, Faults> {
    document::from_bytes(&FORMAT, text.as_bytes(), name, validate)
}

/// A plan as the text of its file.
///
/// A number that is not finite, which no sound plan holds, becomes `null`.
pub fn to_text(plan: &Plan) -> String {
    print::to_text(plan)
}

/// Saves a plan: all of it or nothing, and only what can be opened again.
pub fn save(plan: &Plan, path: &Path) -> Result<(), SaveError> {
    let text = to_text(plan);
    parse(&text, &path.display().to_string())?;
    Ok(write_atomic(path, text.as_bytes())?)
}

/// The JSON Schema of a layout file, as text: draft 2020-12, with each field's meaning and range.
pub fn schema() -> String {
    print::to_text(&schema::layout_schema())
}

/// The fields of a layout file as a page of the docs (Markdown), from the same schema.
pub fn field_reference() -> String {
    reference::page(&schema::layout_schema())
}

#[cfg(test)]
mod edited;
#[cfg(test)]
mod mutations;
#[cfg(test)]
mod tests;
