//! What stands in a place and what should, in words.

use jsonc_parser::ast::Value;

use super::node::{Node, Numbers};
use crate::layout::nearest::either;

/// A text of the file, short enough to be told.
pub(super) fn cut(text: &str) -> String {
    const MOST: usize = 40;
    if text.chars().count() <= MOST {
        return text.to_owned();
    }
    let mut cut: String = text.chars().take(MOST - 1).collect();
    cut.push('…');
    cut
}

/// What a value is.
pub(super) fn kind(value: &Value<'_>) -> String {
    match value {
        Value::NullKeyword(_) => "null".to_owned(),
        Value::BooleanLit(literal) => literal.value.to_string(),
        Value::NumberLit(number) => format!("the number {}", cut(number.value)),
        Value::StringLit(text) => format!("the text {:?}", cut(&text.value)),
        Value::Array(_) => "a list [ … ]".to_owned(),
        Value::Object(_) => "a group of fields { … }".to_owned(),
    }
}

/// The help for a number that was written as a text: `"17 kg"`.
pub(super) fn as_a_number(node: &Node, value: &Value<'_>) -> Option<String> {
    let Value::StringLit(text) = value else {
        return None;
    };
    if node.numbers.is_empty() {
        return None;
    }
    let number: String = text
        .value
        .trim()
        .chars()
        .take_while(|c| c.is_ascii_digit() || matches!(c, '-' | '.'))
        .collect();
    let parsed: f64 = number.parse().ok()?;
    Some(format!(
        "write the number alone, without quotes and unit: {parsed}"
    ))
}

/// `0.5 to 60`, `at least 0`.
pub(super) fn range(numbers: &Numbers) -> String {
    let whole = numbers.whole.unwrap_or((i128::MIN, i128::MAX));
    // The type's own range is told only where it is what limits.
    let type_least = (whole.0 >= 0 || whole.0 > i128::from(i64::MIN)).then_some(whole.0 as f64);
    let type_most = (whole.1 < i128::from(i64::MAX)).then_some(whole.1 as f64);
    let (type_least, type_most) = match numbers.whole {
        Some(_) => (type_least, type_most),
        None => (None, None),
    };
    let least = tighter(numbers.least, type_least, f64::max);
    let most = tighter(numbers.most, type_most, f64::min);
    match (least, most) {
        (Some(least), Some(most)) if least >= most => format!("{least}"),
        (Some(least), Some(most)) => {
            let above = if numbers.above_least { "above " } else { "" };
            let below = if numbers.below_most { "below " } else { "" };
            format!("{above}{least} to {below}{most}")
        }
        (Some(least), None) if numbers.above_least => format!("above {least}"),
        (Some(least), None) => format!("at least {least}"),
        (None, Some(most)) if numbers.below_most => format!("below {most}"),
        (None, Some(most)) => format!("at most {most}"),
        (None, None) => "as far as numbers go".to_owned(),
    }
}

fn tighter(a: Option<f64>, b: Option<f64>, pick: fn(f64, f64) -> f64) -> Option<f64> {
    match (a, b) {
        (Some(a), Some(b)) => Some(pick(a, b)),
        (a, b) => a.or(b),
    }
}

/// `from 0.5 to 60 m`, `of at least 0 kg`.
pub(super) fn range_in_words(numbers: &Numbers, unit: &str) -> String {
    let range = range(numbers);
    let lead = if range.contains(" to ") { "from" } else { "of" };
    format!("{lead} {}", with_unit(&range, unit))
}

/// `46 m`, `12°`, `0.3`.
pub(super) fn with_unit(number: &str, unit: &str) -> String {
    let gap = if unit.is_empty() || unit == "°" {
        ""
    } else {
        " "
    };
    format!("{number}{gap}{unit}")
}

/// What should stand in a place: `a number or "not known"`.
pub(super) fn expected(node: &Node) -> String {
    let mut kinds: Vec<String> = Vec::new();
    if !node.numbers.is_empty() {
        let whole = node.numbers.iter().all(|numbers| numbers.whole.is_some());
        let kind = if whole { "a whole number" } else { "a number" };
        kinds.push(kind.to_owned());
    }
    match node.text.as_ref().map(|text| &text.words) {
        Some(Some(words)) => kinds.push(either(words.iter().map(String::as_str))),
        Some(None) => kinds.push("a text in double quotes".to_owned()),
        None => {}
    }
    if node.boolean {
        kinds.push("true or false".to_owned());
    }
    if let Some(list) = node.lists.first() {
        kinds.push(match (list.fewest, list.most) {
            (Some(2), Some(2)) => "a list of two, [ …, … ]".to_owned(),
            (Some(3), Some(3)) => "a list of three, [ …, …, … ]".to_owned(),
            _ => "a list [ … ]".to_owned(),
        });
    }
    if !node.fields.is_empty() {
        kinds.push("a group of fields { … }".to_owned());
    }
    if node.null && kinds.is_empty() {
        kinds.push("null".to_owned());
    }
    if kinds.is_empty() {
        return "nothing".to_owned();
    }
    kinds.join(" or ")
}
