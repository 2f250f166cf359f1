//! From bytes to a value of some type, or to all that is wrong with them.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged as _;
use serde::de::DeserializeOwned;

use super::fault::{Fault, Faults, RawFault, ReadError, locate};
use super::field_path::FieldPath;
use super::json;
use super::shape::{self, DependedOn, Schema};
use crate::layout::Mistake;

/// What files of some kind look like.
#[derive(Debug)]
pub(super) struct Format {
    schema: Schema,

    /// The newest version that can be read; it stands in the field `version`.
    version: u32,

    /// Fields on whose value it depends whether something else is a mistake.
    depended_on: DependedOn,

    /// The kind of file that is most easily taken for this one.
    instead: Option<Instead>,
}

/// A file of another kind, which is told as such in place of all that is strange about it.
#[derive(Copy, Clone, Debug)]
pub(super) struct Instead {
    /// A field that it has.
    pub(super) has: &'static str,
    /// A field that it has not, and the wanted kind has.
    pub(super) has_not: &'static str,
    /// What it is.
    pub(super) is: &'static str,
    /// What to do with it.
    pub(super) help: &'static str,
}

impl Instead {
    fn is_it(&self, root: &Value<'_>) -> bool {
        let has = |name| {
            root.as_object()
                .is_some_and(|fields| fields.get(name).is_some())
        };
        has(self.has) && !has(self.has_not)
    }
}

impl Format {
    pub(super) fn new(schema: &serde_json::Value, version: u32, depended_on: DependedOn) -> Self {
        Self {
            depended_on,
            instead: None,
            schema: Schema::compile(schema),
            version,
        }
    }

    /// The same, with the kind of file that is most easily taken for one of it.
    pub(super) fn or_rather(mut self, instead: Instead) -> Self {
        self.instead = Some(instead);
        self
    }

    /// What to say of a file that a later program has written, in place of all that is strange
    /// about it.
    fn too_new(&self, root: &Value<'_>) -> Option<RawFault> {
        let version = &root.as_object()?.get("version")?.value;
        let number: u64 = version.as_number_lit()?.value.parse().ok()?;
        (number > u64::from(self.version)).then(|| RawFault {
            offset: version.start(),
            field: "version".to_owned(),
            message: format!(
                "the file is of version {number}, and this program reads up to {}",
                self.version
            ),
            help: "open it with a newer program".to_owned(),
        })
    }
}

/// Reads a file's bytes, no more than a plan can have.
pub(super) fn read_bytes(path: &Path) -> Result<Vec<u8>, ReadError> {
    let mut bytes = Vec::new();
    // One byte more than the limit is enough for the limit to be noticed; an endless device file
    // ends here too.
    File::open(path)
        .and_then(|file| {
            file.take(json::MOST_BYTES as u64 + 1)
                .read_to_end(&mut bytes)
        })
        .map_err(|source| ReadError::Io {
            path: path.to_owned(),
            source,
        })?;
    Ok(bytes)
}

/// Reads a value: its syntax, its shape, and then what `mistakes` finds in it.
///
/// Shape and mistakes are told together wherever the value can be made out in spite of the faults
/// of shape, see [`shape::Repairs`]; numbers out of range are taken as they are.
pub(super) fn from_bytes<T: DeserializeOwned>(
    format: &Format,
    bytes: &[u8],
    name: &str,
    mistakes: impl FnOnce(&T) -> Vec<Mistake>,
) -> Result<T, Faults> {
    let faults = |list| Faults {
        name: name.to_owned(),
        list,
    };
    let text = json::decode(bytes).map_err(|fault| {
        // The part before the fault is text, and gives it its line and column.
        let sound = bytes.get(..fault.offset).unwrap_or_default();
        let sound = std::str::from_utf8(sound).unwrap_or_default();
        faults(locate(sound, vec![fault]))
    })?;
    let root = json::parse(text).map_err(|fault| faults(locate(text, vec![fault])))?;
    if let Some(Instead { is, help, .. }) = format.instead.filter(|it| it.is_it(&root)) {
        let fault = RawFault::of_text(root.start(), is, help);
        return Err(faults(locate(text, vec![fault])));
    }
    if let Some(fault) = format.too_new(&root) {
        return Err(faults(locate(text, vec![fault])));
    }
    let shape::Findings {
        faults: mut found,
        repairs,
    } = shape::examine(&format.schema, format.depended_on, &root);

    let value = if found.is_empty() {
        match serde_json::from_str::<T>(text) {
            Ok(value) => value,
            Err(error) => return Err(faults(vec![unforeseen(&error)])),
        }
    } else {
        match serde_json::from_value::<T>(repairs.apply(&root)) {
            Ok(value) => value,
            Err(_) => return Err(faults(locate(text, found))),
        }
    };
    for Mistake {
        field,
        message,
        help,
    } in mistakes(&value)
    {
        let path = FieldPath::parse(&field);
        if repairs.touch(&path) || found.iter().any(|fault| fault.field == field) {
            continue;
        }
        found.push(RawFault {
            offset: path.find(&root),
            field,
            message,
            help,
        });
    }
    if found.is_empty() {
        Ok(value)
    } else {
        Err(faults(locate(text, found)))
    }
}

/// Is a file of the kind that is most easily taken for one of this format?
pub(super) fn is_instead(format: &Format, path: &Path) -> bool {
    let bytes = read_bytes(path).unwrap_or_default();
    let root = json::decode(&bytes).and_then(json::parse);
    root.is_ok_and(|root| format.instead.is_some_and(|it| it.is_it(&root)))
}

/// What the deserializer refuses though the schema allows it: the type says more than its schema.
fn unforeseen(error: &serde_json::Error) -> Fault {
    let text = error.to_string();
    let message = text
        .rsplit_once(" at line ")
        .map_or(text.as_str(), |(message, _)| message);
    Fault {
        line: error.line().max(1),
        column: error.column().max(1),
        field: String::new(),
        message: message.to_owned(),
        help: String::new(),
    }
}
