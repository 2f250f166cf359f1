//! Numbers: whole or not, within their limits, and in which unit they may have been meant.

use jsonc_parser::ast::{NumberLit, Value};

use super::node::{Node, Numbers};
use super::{Walk, describe};
use crate::layout::bounds;

impl Walk<'_> {
    /// Checks a number where numbers are allowed; `value` is the same once more.
    pub(super) fn check_number(&mut self, node: &Node, number: &NumberLit<'_>, value: &Value<'_>) {
        let written = describe::cut(number.value);
        let parsed: f64 = number.value.parse().unwrap_or(f64::INFINITY);
        if !parsed.is_finite() {
            self.fault(
                value,
                format!("{written} is larger than any number that can be reckoned with"),
                "look for a digit or an exponent too many",
            );
            self.repair(node, value);
            return;
        }
        let whole: Option<i128> = number.value.parse().ok();
        let takes = |numbers: &&Numbers| numbers.whole.is_none() || whole.is_some();
        let mut kinds = node.numbers.iter().filter(takes).peekable();
        if kinds.peek().is_none() {
            self.fault(
                value,
                format!("{written} is not a whole number"),
                "write it without a decimal point or exponent",
            );
            self.repair(node, value);
            return;
        }
        if kinds.any(|numbers| holds(numbers, whole, parsed)) {
            return;
        }
        if let Some(numbers) = node.numbers.first() {
            self.out_of_range(node, numbers, &written, parsed, value);
        }
    }

    fn out_of_range(
        &mut self,
        node: &Node,
        numbers: &Numbers,
        written: &str,
        parsed: f64,
        value: &Value<'_>,
    ) {
        let bound = bounds::for_field(self.path.last_name());
        let unit = node
            .unit
            .as_deref()
            .or(bound.map(|bound| bound.unit))
            .unwrap_or_default();
        let range = describe::range(numbers);
        // A length may be meant in millimetres as well as in centimetres.
        let most = if unit == "m" { 2 } else { 1 };
        let guesses: Vec<String> = bound
            .filter(|_| numbers.whole.is_none())
            .iter()
            .flat_map(|bound| bound.mistaken_units(parsed))
            .filter(|(_, converted)| numbers.contain(*converted))
            .take(most)
            .map(|(other, converted)| {
                let converted = describe::with_unit(&three_digits(converted), unit);
                format!("is it {other}? {written} {other} = {converted}")
            })
            .collect();
        let help = if guesses.is_empty() {
            format!("give a value {}", describe::range_in_words(numbers, unit))
        } else {
            guesses.join("; or ")
        };
        let message = if numbers.least == numbers.most && numbers.least.is_some() {
            format!("{written} is not what belongs here ({range})")
        } else {
            let written = describe::with_unit(written, unit);
            format!("{written} is out of range ({range})")
        };
        self.fault(value, message, help);
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

/// A number to three significant digits, without an exponent.
fn three_digits(value: f64) -> String {
    let rounded: f64 = format!("{value:.2e}").parse().unwrap_or(value);
    format!("{rounded}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_digits_are_enough_for_a_hint() {
        assert_eq!(three_digits(206.8427), "207");
        assert_eq!(three_digits(0.00012345), "0.000123");
        assert_eq!(three_digits(14_499.0), "14500");
    }
}
