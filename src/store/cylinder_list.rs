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
use crate::catalogue::{Catalogue, gases};
use crate::layout::bounds;
use crate::layout::nearest::{either, nearest};
use crate::layout::validate::contents::{find_kind, own_kinds};
use crate::layout::{Boat, Cylinder, CylinderKind, Fill, Placing};

mod cells;
use cells::{Row, rows};

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

    /// The kind's name in the catalogue; it may be written by its name for people too.
    fn kind(&mut self, cell: Option<(usize, String)>, row: usize) -> String {
        let Some((at, text)) = cell else {
            self.fault(
                row,
                "kind",
                "the cylinder has no kind",
                "write a name of the catalogue, or one of the boat's own kinds",
            );
            return String::new();
        };
        let catalogue = Catalogue::built_in();
        let kinds = catalogue.kinds().iter().map(|kind| (&kind.id, &kind.name));
        let twins = catalogue.twins().iter().map(|twin| (&twin.id, &twin.name));
        let by_name = kinds
            .chain(twins)
            .find(|(_, name)| name.eq_ignore_ascii_case(&text));
        if let Some((id, _)) = by_name {
            return id.clone();
        }
        if let Err(help) = find_kind(&text, &self.own) {
            let message = format!("there is no kind of cylinder called {text:?}");
            self.fault(at, "kind", message, help);
        }
        text
    }

    fn gas(&mut self, cell: Option<(usize, String)>) -> Option<String> {
        let (at, text) = cell?;
        if let Err(error) = gases::parse(&text) {
            let help = format!("write the gas as one of {}", gases::EXAMPLES.join(", "));
            self.fault(at, "gas", error.to_string(), help);
            return None;
        }
        Some(text)
    }

    fn fill(&mut self, at: usize, text: &str) -> Fill {
        match plain_heading(text).as_str() {
            "full" => Fill::Full,
            "part_used" | "part" => Fill::PartUsed,
            "empty" => Fill::Empty,
            _ => {
                self.fault(
                    at,
                    "fill",
                    format!("unknown word {text:?}"),
                    "write \"full\", \"part used\" or \"empty\"",
                );
                Fill::Full
            }
        }
    }

    fn yes(&mut self, at: usize, text: &str) -> bool {
        match plain_heading(text).as_str() {
            "yes" | "y" | "x" | "true" | "1" => true,
            "no" | "n" | "false" | "0" | "-" => false,
            _ => {
                let message = format!("unknown word {text:?}");
                self.fault(at, "boot", message, "write \"yes\" or \"no\"");
                false
            }
        }
    }

    /// A pressure in bar: `200`, `200 bar`, `3000 psi`. A unit in the cell goes before that of the
    /// heading; without either it is bar.
    fn pressure(&mut self, at: usize, text: &str, heading: Option<f64>) -> Option<f64> {
        let split = text.find(|c: char| c.is_alphabetic()).unwrap_or(text.len());
        let (number, unit) = text.split_at(split);
        let factor = match unit.trim().to_lowercase().as_str() {
            "" => heading.unwrap_or(1.0),
            "bar" => 1.0,
            "psi" => PSI_IN_BAR,
            _ => {
                self.fault(
                    at,
                    "pressure_bar",
                    format!("unknown unit {unit:?}"),
                    "write the pressure in bar, or with its unit: 200 bar, 3000 psi",
                );
                return None;
            }
        };
        self.number("pressure_bar", at, number.trim(), factor)
    }

    /// A number in the range of the field, after conversion to its unit.
    fn number(&mut self, field: &str, at: usize, text: &str, factor: f64) -> Option<f64> {
        let point = text.replacen(',', ".", 1);
        let Some(written) = point.parse::<f64>().ok().filter(|v| v.is_finite()) else {
            self.fault(
                at,
                field,
                format!("{text:?} is not a number"),
                "write digits, as 200 or 14.3",
            );
            return None;
        };
        let value = written * factor;
        let Some(bound) = bounds::for_field(field) else {
            return Some(value);
        };
        if bound.holds(value) {
            // Converted readings to a tenth: a gauge shows no more.
            let converted = factor.to_bits() != 1.0_f64.to_bits();
            return Some(if converted {
                (value * 10.0).round() / 10.0
            } else {
                value
            });
        }
        let unit = bound.unit;
        let help = match bound.mistaken_unit(value) {
            Some((other, converted)) => {
                format!("is it {other}? {text} {other} = {converted:.0} {unit}")
            }
            None => format!("give a value from {} to {} {unit}", bound.min, bound.max),
        };
        self.fault(
            at,
            field,
            format!(
                "{} {unit} is out of range ({} to {})",
                value, bound.min, bound.max
            ),
            help,
        );
        None
    }

    fn placing(&mut self, slot: Option<(usize, String)>, rack: Option<(usize, String)>) -> Placing {
        let Some((at, slot)) = slot else {
            if let Some((at, rack)) = rack {
                self.fault(
                    at,
                    "rack",
                    format!("the rack {rack:?} is named, but no slot of it"),
                    "name the slot too",
                );
            }
            return Placing::Ashore;
        };
        match plain_heading(&slot).as_str() {
            "ashore" => return Placing::Ashore,
            "in_water" | "in_the_water" => return Placing::InWater,
            _ => {}
        }
        let found = match rack {
            Some((rack_at, rack)) => self.slot_of(&rack, rack_at, &slot, at),
            None => self.slot_of_any(&slot, at),
        };
        let Some(rack) = found else {
            return Placing::Ashore;
        };
        let line = self.cylinders.len();
        if let Some(earlier) = self.taken.insert((rack.clone(), slot.clone()), line) {
            let other = self.cylinders.get(earlier).map_or("", |other| &other.id);
            let message = format!("the slot {slot:?} of {rack:?} is taken already, by {other:?}");
            self.fault(at, "slot", message, "give the cylinder another slot");
        }
        Placing::InSlot { rack, slot }
    }

    fn slot_of(
        &mut self,
        rack: &str,
        rack_at: usize,
        slot: &str,
        slot_at: usize,
    ) -> Option<String> {
        if self.boat.rack(rack).is_none() {
            let names = self.boat.racks.iter().map(|rack| rack.id.as_str());
            let help = nearest(rack, names).map_or_else(
                || "take one of the boat's racks".to_owned(),
                |meant| format!("did you mean {meant:?}?"),
            );
            let message = format!("there is no rack called {rack:?}");
            self.fault(rack_at, "rack", message, help);
            return None;
        }
        if !self.slots.racks_with(slot).contains(&rack) {
            let message = format!("the rack {rack:?} has no slot {slot:?}");
            let help = self.slots.help(slot);
            self.fault(slot_at, "slot", message, help);
            return None;
        }
        Some(rack.to_owned())
    }

    fn slot_of_any(&mut self, slot: &str, at: usize) -> Option<String> {
        match self.slots.racks_with(slot) {
            [rack] => Some((*rack).to_owned()),
            [] => {
                let help = self.slots.help(slot);
                self.fault(at, "slot", format!("no rack has a slot {slot:?}"), help);
                None
            }
            racks => {
                let message = format!(
                    "more than one rack has a slot {slot:?}: {}",
                    either(racks.iter().copied())
                );
                self.fault(at, "slot", message, "name the rack in a column \"rack\"");
                None
            }
        }
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

/// 1 psi in bar (NIST SP 811, appendix B.8: 6.894757 kPa).
const PSI_IN_BAR: f64 = 0.068_947_57;

/// Slots by the names painted on them.
struct Slots<'a>(BTreeMap<String, Vec<&'a str>>);

impl<'a> Slots<'a> {
    fn of(boat: &'a Boat) -> Self {
        let mut slots: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for rack in &boat.racks {
            for slot in rack.slots() {
                slots.entry(slot.name).or_default().push(&rack.id);
            }
        }
        Self(slots)
    }

    fn racks_with(&self, slot: &str) -> &[&'a str] {
        self.0.get(slot).map_or(&[], Vec::as_slice)
    }

    fn help(&self, slot: &str) -> String {
        nearest(slot, self.0.keys().map(String::as_str)).map_or_else(
            || "write a name that is painted on a slot, \"ashore\" or \"in water\"".to_owned(),
            |meant| format!("did you mean {meant:?}?"),
        )
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
