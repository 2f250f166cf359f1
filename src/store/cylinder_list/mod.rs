//! A list of cylinders from a spreadsheet (CSV, RFC 4180): one row for each, whatever the order of
//! the columns.
//!
//! Headings: `number` (as stamped or painted), `kind`, `gas`, `pressure_bar`, `pressure_psi` or
//! `pressure`, `fill`, `slot` or `place`, `rack`, `stamped_tare_kg`, `boot`, `diver`, `analysed`, and
//! `id` where the crew's name for the cylinder is not its number. Only `kind` and one of `number` and
//! `id` must be there. Columns may be separated by commas, semicolons or tabs.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::document::read_bytes;
use super::fault::{Faults, RawFault, ReadError, locate};
use super::json::decode;
use crate::layout::nearest::{either, nearest};
use crate::layout::validate::contents::own_kinds;
use crate::layout::{Boat, Cylinder, CylinderKind};

mod cells;
mod slots;
mod values;

use cells::{Row, rows};
use slots::Slots;
use values::PSI_IN_BAR;

/// Reads a list of cylinders from a file; see [`cylinder_list`].
pub fn read_cylinder_list(
    path: &Path,
    boat: &Boat,
    own: &[CylinderKind],
) -> Result<Vec<Cylinder>, ReadError> {
    let bytes = read_bytes(path)?;
    Ok(cylinder_list(
        &bytes,
        &path.display().to_string(),
        boat,
        own,
    )?)
}

/// Reads a list of cylinders: kinds by their names in the catalogue or among a trip's `own`, slots
/// by the names painted on the boat's racks. A cylinder without a slot is ashore until it is placed.
///
/// All faults are told at once, by line and column; `name` is what the list is called in them.
pub fn cylinder_list(
    bytes: &[u8],
    name: &str,
    boat: &Boat,
    own: &[CylinderKind],
) -> Result<Vec<Cylinder>, Faults> {
    let faults = |text: &str, raw: Vec<RawFault>| Faults {
        name: name.to_owned(),
        list: locate(text, raw),
    };
    let text = decode(bytes).map_err(|fault| {
        let sound = bytes.get(..fault.offset).unwrap_or_default();
        faults(std::str::from_utf8(sound).unwrap_or_default(), vec![fault])
    })?;
    let mut reader = ListReader {
        columns: Vec::new(),
        own: own_kinds(own),
        slots: Slots::of(boat),
        boat,
        names: BTreeMap::new(),
        taken: BTreeMap::new(),
        cylinders: Vec::new(),
        found: Vec::new(),
    };
    match rows(text) {
        Ok(rows) => reader.read(&rows),
        Err(fault) => reader.found.push(fault),
    }
    if reader.found.is_empty() {
        Ok(reader.cylinders)
    } else {
        Err(faults(text, reader.found))
    }
}

/// What a column holds.
#[derive(Copy, Clone, Debug, PartialEq, Eq)]
enum Column {
    Id,
    Number,
    Kind,
    Gas,
    Pressure,
    PressureBar,
    PressurePsi,
    Fill,
    Slot,
    Rack,
    StampedTare,
    Boot,
    Diver,
    Analysed,
}

/// The headings by which columns are known.
const HEADINGS: &[(&str, Column)] = &[
    ("id", Column::Id),
    ("number", Column::Number),
    ("kind", Column::Kind),
    ("gas", Column::Gas),
    ("pressure_bar", Column::PressureBar),
    ("pressure_psi", Column::PressurePsi),
    ("pressure", Column::Pressure),
    ("fill", Column::Fill),
    ("slot", Column::Slot),
    ("place", Column::Slot),
    ("rack", Column::Rack),
    ("stamped_tare_kg", Column::StampedTare),
    ("boot", Column::Boot),
    ("diver", Column::Diver),
    ("analysed", Column::Analysed),
];

struct ListReader<'a> {
    columns: Vec<Option<Column>>,
    own: BTreeSet<&'a str>,
    slots: Slots<'a>,
    boat: &'a Boat,

    /// The line of each name and of each slot that is taken, to tell of the second.
    names: BTreeMap<String, usize>,
    taken: BTreeMap<(String, String), usize>,
    cylinders: Vec<Cylinder>,
    found: Vec<RawFault>,
}

impl ListReader<'_> {
    fn read(&mut self, rows: &[Row<'_>]) {
        let Some((head, rows)) = rows.split_first() else {
            self.found.push(RawFault::of_text(
                0,
                "the list is empty",
                "begin with a line of headings, such as number,kind,gas,pressure_bar,slot",
            ));
            return;
        };
        self.read_headings(head);
        if self.found.is_empty() {
            for row in rows {
                self.read_row(row);
            }
        }
    }

    fn read_headings(&mut self, head: &Row<'_>) {
        for cell in &head.cells {
            let written = plain_heading(&cell.text);
            let known = HEADINGS.iter().find(|(heading, _)| *heading == written);
            let column = known.map(|(_, column)| *column);
            if written.is_empty() {
                // An empty column at the edge of the sheet.
            } else if column.is_none() {
                let headings = || HEADINGS.iter().map(|(heading, _)| *heading);
                let guess = nearest(&written, headings())
                    .map_or(String::new(), |meant| format!("; did you mean {meant:?}?"));
                self.fault(
                    cell.offset,
                    "",
                    format!("unknown heading {:?}{guess}", cell.text),
                    format!("the headings are {}", either(headings())),
                );
            } else if self.columns.contains(&column) {
                self.fault(
                    cell.offset,
                    "",
                    format!("the heading {:?} says the same as one before it", cell.text),
                    "keep one of the two columns",
                );
            }
            self.columns.push(column);
        }
        let has = |column| self.columns.contains(&Some(column));
        let mut missing = Vec::new();
        if !has(Column::Kind) {
            missing.push("a heading \"kind\" is missing");
        }
        if !has(Column::Number) && !has(Column::Id) {
            missing.push("a heading \"number\" is missing");
        }
        for message in missing {
            self.fault(
                head.offset,
                "",
                message,
                "name the columns in the first line",
            );
        }
    }

    fn read_row(&mut self, row: &Row<'_>) {
        for cell in row.cells.iter().skip(self.columns.len()) {
            if !cell.text.is_empty() {
                self.fault(
                    cell.offset,
                    "",
                    format!("the value {:?} stands under no heading", cell.text),
                    "put a value that holds a separator in double quotes",
                );
            }
        }
        let cell = |column: Column| {
            let index = self.columns.iter().position(|c| *c == Some(column))?;
            let cell = row.cells.get(index)?;
            (!cell.text.is_empty()).then(|| (cell.offset, cell.text.to_string()))
        };
        let number = cell(Column::Number);
        let kind = cell(Column::Kind);
        let gas = cell(Column::Gas);
        let fill = cell(Column::Fill);
        let pressures = [
            (cell(Column::PressureBar), Some(1.0)),
            (cell(Column::PressurePsi), Some(PSI_IN_BAR)),
            (cell(Column::Pressure), None),
        ];
        let tare = cell(Column::StampedTare);
        let boot = cell(Column::Boot);
        let (slot, rack) = (cell(Column::Slot), cell(Column::Rack));
        let diver = cell(Column::Diver).map(|(_, text)| text);
        let analysed = cell(Column::Analysed).map(|(_, text)| text);
        let Some((id_at, id)) = cell(Column::Id).or_else(|| number.clone()) else {
            self.fault(
                row.offset,
                "number",
                "the cylinder has no number",
                "write the number stamped or painted on it",
            );
            return;
        };

        if let Some(line) = self.names.insert(id.clone(), row.line) {
            self.fault(
                id_at,
                "number",
                format!("the number {id:?} stands in line {line} too"),
                "give each cylinder a number of its own",
            );
        }
        let kind = self.kind(kind, row.offset);
        let placing = self.placing(slot, rack);
        let mut cylinder = Cylinder::new(&id, &kind, placing);
        cylinder.number = number.map(|(_, text)| text);
        if let Some(gas) = self.gas(gas) {
            cylinder.gas = gas;
        }
        if let Some((at, text)) = fill {
            cylinder.fill = self.fill(at, &text);
        }
        for (pressure, unit) in pressures {
            if let Some((at, text)) = pressure {
                cylinder.pressure_bar = self.pressure(at, &text, unit);
            }
        }
        if let Some((at, text)) = tare {
            let text = text.strip_suffix("kg").map_or(text.as_str(), str::trim);
            cylinder.stamped_tare_kg = self.number("stamped_tare_kg", at, text, 1.0);
        }
        if let Some((at, text)) = boot {
            cylinder.boot = self.yes(at, &text);
        }
        cylinder.diver = diver;
        cylinder.analysed = analysed;
        self.cylinders.push(cylinder);
    }

    fn fault(
        &mut self,
        offset: usize,
        field: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.found.push(RawFault {
            offset,
            field: field.to_owned(),
            message: message.into(),
            help: help.into(),
        });
    }
}

/// A heading or word without what people write differently: `Pressure (bar)` is `pressure_bar`.
fn plain_heading(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.trim().chars().take(64) {
        if c.is_alphanumeric() {
            plain.extend(c.to_lowercase());
        } else if matches!(c, ' ' | '_' | '-' | '/' | '(') && !plain.ends_with('_') {
            plain.push('_');
        }
    }
    let end = plain.trim_end_matches('_').len();
    plain.truncate(end);
    plain
}

#[cfg(test)]
mod tests;
