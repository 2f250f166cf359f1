//! A CSV text as rows of cells that know where they stand.

use std::borrow::Cow;

use csv::{ReaderBuilder, StringRecord};

use crate::store::fault::RawFault;

/// One line of the list.
#[derive(Debug)]
pub(super) struct Row<'t> {
    /// The line of the text in which it starts, counted from 1.
    pub(super) line: usize,

    /// The byte at which it starts.
    pub(super) offset: usize,
    pub(super) cells: Vec<Cell<'t>>,
}

/// One value, without the white space around it.
#[derive(Debug)]
pub(super) struct Cell<'t> {
    /// The byte at which it starts, its quote included.
    pub(super) offset: usize,
    pub(super) text: Cow<'t, str>,
}

/// Rows of a list, at most. The largest boats carry some hundred cylinders.
const MOST_ROWS: usize = 20_000;

/// Splits a text into rows; those without any value are left out.
pub(super) fn rows(text: &str) -> Result<Vec<Row<'static>>, RawFault> {
    let separator = separator(text);
    let mut reader = ReaderBuilder::new()
        .delimiter(separator)
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows = Vec::new();
    let mut record = StringRecord::new();
    let (mut line, mut counted) = (1, 0);
    loop {
        match reader.read_record(&mut record) {
            Ok(true) => {}
            Ok(false) => return Ok(rows),
            Err(error) => {
                let at = error.position().map_or(0, |at| clamp(at.byte(), text));
                return Err(RawFault::of_text(
                    at,
                    format!("the line cannot be split into values: {error}"),
                    "save the list as CSV in UTF-8",
                ));
            }
        }
        let at = record.position().map_or(0, |at| clamp(at.byte(), text));
        // A record may be said to start at the line end before it.
        let start = text.get(at..).map_or(at, |rest| {
            text.len() - rest.trim_start_matches(['\r', '\n']).len()
        });
        if rows.len() >= MOST_ROWS {
            return Err(RawFault::of_text(
                start,
                format!("the list has more than {MOST_ROWS} lines"),
                "look whether it is the right file",
            ));
        }
        line += text
            .get(counted..start)
            .map_or(0, |between| between.matches('\n').count());
        counted = start;
        if record.iter().all(|cell| cell.trim().is_empty()) {
            continue;
        }
        let cells = record
            .iter()
            .zip(starts(text, start, separator))
            .map(|(cell, offset)| Cell {
                offset,
                text: Cow::Owned(cell.trim().to_owned()),
            })
            .collect();
        rows.push(Row {
            line,
            offset: start,
            cells,
        });
    }
}

fn clamp(byte: u64, text: &str) -> usize {
    usize::try_from(byte).unwrap_or(text.len()).min(text.len())
}

/// What separates the columns: of comma, semicolon and tab the one that stands most often in the
/// first line.
fn separator(text: &str) -> u8 {
    let first = text
        .lines()
        .find(|line| !line.trim().is_empty())
        .unwrap_or_default();
    let count = |separator: u8| first.bytes().filter(|byte| *byte == separator).count();
    let mut best = b',';
    for other in [b';', b'\t'] {
        if count(other) > count(best) {
            best = other;
        }
    }
    best
}

/// Where the cells of the row that starts at `start` start, one after the other.
fn starts(text: &str, start: usize, separator: u8) -> impl Iterator<Item = usize> {
    let bytes = text.as_bytes();
    let mut next = Some(start);
    std::iter::from_fn(move || {
        let cell = next?;
        let is_blank = |byte: &u8| matches!(byte, b' ' | b'\t') && *byte != separator;
        let mut i = cell;
        // A quote opens a cell only as its very first character; blanks before are skipped in what
        // is told, not in how the cell is read.
        let mut quoted = bytes.get(i) == Some(&b'"');
        if quoted {
            i += 1;
        }
        next = None;
        while let Some(byte) = bytes.get(i) {
            if quoted {
                if *byte == b'"' {
                    if bytes.get(i + 1) == Some(&b'"') {
                        i += 1;
                    } else {
                        quoted = false;
                    }
                }
            } else if *byte == separator {
                next = Some(i + 1);
                break;
            } else if matches!(byte, b'\n' | b'\r') {
                break;
            }
            i += 1;
        }
        let blanks = bytes[cell..].iter().take_while(|b| is_blank(b)).count();
        Some(cell + blanks)
    })
}
