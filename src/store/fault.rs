//! What is wrong in a file: where, in which field, what, and what to do about it.

use std::fmt;
use std::path::PathBuf;

use super::refusal::{Trying, refused};

/// One thing that is wrong in a file.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Line, counted from 1.
    pub line: usize,

    /// Column in characters, counted from 1.
    pub column: usize,

    /// Which field, as `boat.decks[0].outline[3]`; empty when it is the file as a whole.
    pub field: String,

    /// What is wrong, with the value and the limit.
    pub message: String,

    /// What to do; may be empty.
    pub help: String,
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            line,
            column,
            field,
            message,
            help,
        } = self;
        write!(f, "{line}:{column}: ")?;
        if !field.is_empty() {
            write!(f, "{field}: ")?;
        }
        f.write_str(message)?;
        if !help.is_empty() {
            write!(f, "\n  help: {help}")?;
        }
        Ok(())
    }
}

/// All that is wrong in one file, in the order of the file. Never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Faults {
    /// The file, as the user named it.
    pub name: String,

    /// The faults, sorted by position.
    pub list: Vec<Fault>,
}

impl std::error::Error for Faults {}

impl fmt::Display for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { name, list } = self;
        for (i, fault) in list.iter().enumerate() {
            if i > 0 {
                writeln!(f)?;
            }
            write!(f, "{name}:{fault}")?;
        }
        Ok(())
    }
}

/// Why a file could not be read.
#[derive(Debug, thiserror::Error)]
pub enum ReadError {
    /// The operating system said no.
    #[error("{}: cannot be read: {}", path.display(), refused(source, Trying::ToRead))]
    Io {
        /// Which file.
        path: PathBuf,

        /// Why.
        source: std::io::Error,
    },

    /// The file was read, and something in it is wrong.
    #[error(transparent)]
    Faults(#[from] Faults),
}

impl ReadError {
    /// What is wrong in the file; empty when the file could not be opened at all.
    pub fn faults(&self) -> &[Fault] {
        match self {
            Self::Io { .. } => &[],
            Self::Faults(faults) => &faults.list,
        }
    }
}

/// No more than so many faults are told of one file: beyond that it is another kind of file.
pub(super) const MOST_FAULTS: usize = 500;

/// A fault that knows its place only as a byte of the text.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct RawFault {
    pub(super) offset: usize,
    pub(super) field: String,
    pub(super) message: String,
    pub(super) help: String,
}

impl RawFault {
    /// A fault of the file as a whole, or of its writing, rather than of a field.
    pub(super) fn of_text(
        offset: usize,
        message: impl Into<String>,
        help: impl Into<String>,
    ) -> Self {
        Self {
            offset,
            field: String::new(),
            message: message.into(),
            help: help.into(),
        }
    }
}

/// Sorts faults by their place in the text, drops doubles, and finds their lines and columns.
///
/// One pass over the text, so that a long line with many faults costs no more than a short one.
pub(super) fn locate(text: &str, mut raw: Vec<RawFault>) -> Vec<Fault> {
    raw.sort();
    raw.dedup();
    let is_cut = raw.len() > MOST_FAULTS;
    raw.truncate(MOST_FAULTS);

    let mut place = Place {
        text,
        offset: 0,
        line: 1,
        column: 1,
    };
    let mut located: Vec<Fault> = Vec::with_capacity(raw.len());
    for fault in raw {
        place.move_to(fault.offset);
        located.push(Fault {
            line: place.line,
            column: place.column,
            field: fault.field,
            message: fault.message,
            help: fault.help,
        });
    }
    if is_cut && let Some(last) = located.last_mut() {
        last.field.clear();
        "and more faults from here on".clone_into(&mut last.message);
        "put right those above first".clone_into(&mut last.help);
    }
    located
}

/// The line and column of a byte that only moves forward.
struct Place<'t> {
    text: &'t str,
    offset: usize,
    line: usize,
    column: usize,
}

impl Place<'_> {
    fn move_to(&mut self, offset: usize) {
        let offset = offset.min(self.text.len());
        while self.offset < offset {
            let Some(c) = self.text.get(self.offset..).and_then(|t| t.chars().next()) else {
                return;
            };
            self.offset += c.len_utf8();
            if c == '\n' {
                self.line += 1;
                self.column = 1;
            } else {
                self.column += 1;
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn raw(offset: usize, message: &str) -> RawFault {
        RawFault::of_text(offset, message, "")
    }

    #[test]
    fn faults_come_in_the_order_of_the_file_without_doubles() {
        let text = "ab\nmåst\nx";
        let found = locate(
            text,
            vec![raw(9, "c"), raw(7, "b"), raw(0, "a"), raw(7, "b")],
        );
        let told: Vec<_> = found.iter().map(Fault::to_string).collect();
        // `å` has two bytes and is one column.
        assert_eq!(told, ["1:1: a", "2:4: b", "3:1: c"]);
    }

    #[test]
    fn a_place_beyond_the_end_is_the_end() {
        assert_eq!(locate("ab", vec![raw(99, "x")])[0].to_string(), "1:3: x");
    }

    #[test]
    fn a_flood_of_faults_is_cut_and_says_so() {
        let text = "x".repeat(2 * MOST_FAULTS);
        let found = locate(&text, (0..MOST_FAULTS + 7).map(|i| raw(i, "x")).collect());
        assert_eq!(found.len(), MOST_FAULTS);
        assert_eq!(
            found.last().unwrap().message,
            "and more faults from here on"
        );
    }

    #[test]
    fn a_fault_reads_as_place_field_message_help() {
        let faults = Faults {
            name: "deck.json".to_owned(),
            list: vec![
                Fault {
                    line: 12,
                    column: 7,
                    field: "boat.beam_m".to_owned(),
                    message: "460 m is out of range (0.5 to 60)".to_owned(),
                    help: "is it cm? 460 cm = 4.6 m".to_owned(),
                },
                Fault {
                    line: 13,
                    column: 1,
                    field: String::new(),
                    message: "the file ends too early".to_owned(),
                    help: String::new(),
                },
            ],
        };
        assert_eq!(
            faults.to_string(),
            "deck.json:12:7: boat.beam_m: 460 m is out of range (0.5 to 60)\n  \
             help: is it cm? 460 cm = 4.6 m\n\
             deck.json:13:1: the file ends too early"
        );
    }
}
