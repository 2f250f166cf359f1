//! Values of single cells.

use super::{ListReader, plain_heading};
use crate::catalogue::{Catalogue, gases};
use crate::layout::validate::contents::find_kind;
use crate::layout::{Fill, bounds};

/// 1 psi in bar (NIST SP 811, appendix B.8: 6.894757 kPa).
pub(super) const PSI_IN_BAR: f64 = 0.068_947_57;

impl ListReader<'_> {
    /// The kind's name in the catalogue; it may be written by its name for people too.
    pub(super) fn kind(&mut self, cell: Option<(usize, String)>, row: usize) -> String {
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

    pub(super) fn gas(&mut self, cell: Option<(usize, String)>) -> Option<String> {
        let (at, text) = cell?;
        if let Err(error) = gases::parse(&text) {
            let help = format!("write the gas as one of {}", gases::EXAMPLES.join(", "));
            self.fault(at, "gas", error.to_string(), help);
            return None;
        }
        Some(text)
    }

    pub(super) fn fill(&mut self, at: usize, text: &str) -> Fill {
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

    pub(super) fn yes(&mut self, at: usize, text: &str) -> bool {
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
    pub(super) fn pressure(&mut self, at: usize, text: &str, heading: Option<f64>) -> Option<f64> {
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
    pub(super) fn number(
        &mut self,
        field: &str,
        at: usize,
        text: &str,
        factor: f64,
    ) -> Option<f64> {
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
}
