//! Numbers: whole or not, within their limits, and in which unit they may have been meant.

use jsonc_parser::ast::{NumberLit, Value};

use super::Walk;
use super::describe;
use super::node::{Node, Numbers};
use super::unit_hint::{other_unit, unit_of};

impl Walk<'_> {
    pub(super) fn check_number(&mut self, node: &Node, number: &NumberLit<'_>) {
        let value = Value::NumberLit(number.clone());
        let written = describe::cut(number.value);
        let parsed: f64 = number.value.parse().unwrap_or(f64::INFINITY);
        if !parsed.is_finite() {
            self.fault(
                &value,
                format!("{written} is larger than any number that can be reckoned with"),
                "look for a digit or an exponent too many",
            );
            return;
        }
        let whole: Option<i128> = number.value.parse().ok();
        let takes = |numbers: &&Numbers| numbers.whole.is_none() || whole.is_some();
        let mut kinds = node.numbers.iter().filter(takes).peekable();
        if kinds.peek().is_none() {
            self.fault(
                &value,
                format!("{written} is not a whole number"),
                "write it without a decimal point or exponent",
            );
            return;
        }
        if kinds.any(|numbers| holds(numbers, whole, parsed)) {
            return;
        }
        let Some(numbers) = node.numbers.first() else {
            return;
        };
        let name = self.path.last_name();
        let unit = node.unit.as_deref().or_else(|| unit_of(name)).unwrap_or("");
        let range = describe::range(numbers);
        let guess = other_unit(&written, parsed, unit, |v| {
            numbers.whole.is_none() && numbers.contain(v)
        });
        let help = guess
            .or_else(|| node.hint.clone())
            .unwrap_or_else(|| format!("give a value {}", describe::range_in_words(numbers, unit)));
        let message = if numbers.least == numbers.most && numbers.least.is_some() {
            format!("{written} is not what belongs here ({range})")
        } else {
            let gap = if unit.is_empty() || unit == "°" {
                ""
            } else {
                " "
            };
            format!("{written}{gap}{unit} is out of range ({range})")
        };
        self.fault(&value, message, help);
    }
}

/// Whether a number is one of these; whole numbers are compared exactly, beyond 2^53 too.
fn holds(numbers: &Numbers, whole: Option<i128>, value: f64) -> bool {
    let in_type = match (numbers.whole, whole) {
        (Some((low, high)), Some(whole)) => (low..=high).contains(&whole),
        (Some(_), None) => false,
        (None, _) => true,
    };
    in_type && numbers.contain(value)
}
