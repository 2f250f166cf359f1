//! JSON as a person would lay it out, the same for the same value.
//!
//! Two spaces of indent, a newline at the end. A list or a group of fields stands on one line when
//! it fits there and holds at most one further level, points not counted: an outline, a cylinder
//! with its place. Numbers are printed as the shortest text that reads back as the same number; whole ones
//! without a decimal point.

use serde::Serialize;
use serde_json::Value;

/// How far a line may go.
const WIDTH: usize = 100;

/// Prints a value as JSON.
///
/// Types whose maps have keys other than text have no JSON; they come out as `null`. None of ours
/// has such a map.
pub(super) fn to_text<T: Serialize>(value: &T) -> String {
    let value = serde_json::to_value(value).unwrap_or_default();
    let mut out = String::new();
    print(&value, 0, &mut out);
    out.push('\n');
    out
}

fn print(value: &Value, level: usize, out: &mut String) {
    // What stands before a value on its line; the top of the file is always spread out.
    let column = out.len() - out.rfind('\n').map_or(0, |newline| newline + 1);
    if is_leaf(value) || (level > 0 && height(value) <= 2) {
        let mut line = String::new();
        print_in_line(value, &mut line);
        // One more for a comma behind it.
        if is_leaf(value) || column + line.chars().count() < WIDTH {
            out.push_str(&line);
            return;
        }
    }
    match value {
        Value::Array(elements) => {
            out.push('[');
            for (i, element) in elements.iter().enumerate() {
                start_line(i, level + 1, out);
                print(element, level + 1, out);
            }
            out.push('\n');
            indent(level, out);
            out.push(']');
        }
        Value::Object(fields) => {
            out.push('{');
            for (i, (name, field)) in fields.iter().enumerate() {
                start_line(i, level + 1, out);
                print_name(name, out);
                print(field, level + 1, out);
            }
            out.push('\n');
            indent(level, out);
            out.push('}');
        }
        _ => print_in_line(value, out),
    }
}

fn print_in_line(value: &Value, out: &mut String) {
    match value {
        Value::Number(number) => print_number(number, out),
        Value::Array(elements) => {
            out.push('[');
            for (i, element) in elements.iter().enumerate() {
                if i > 0 {
                    out.push_str(", ");
                }
                print_in_line(element, out);
            }
            out.push(']');
        }
        Value::Object(fields) if !fields.is_empty() => {
            out.push_str("{ ");
            for (i, (name, field)) in fields.iter().enumerate() {
                if i > 0 {
                    out.push_str(", ");
                }
                print_name(name, out);
                print_in_line(field, out);
            }
            out.push_str(" }");
        }
        other => out.push_str(&other.to_string()),
    }
}

fn print_number(number: &serde_json::Number, out: &mut String) {
    let text = number.to_string();
    let whole = text.strip_suffix(".0").unwrap_or(&text);
    // There is one zero: the sign of the other is noise of some subtraction.
    out.push_str(if whole == "-0" { "0" } else { whole });
}

fn print_name(name: &str, out: &mut String) {
    out.push_str(&Value::from(name).to_string());
    out.push_str(": ");
}

fn start_line(i: usize, level: usize, out: &mut String) {
    if i > 0 {
        out.push(',');
    }
    out.push('\n');
    indent(level, out);
}

fn indent(level: usize, out: &mut String) {
    out.push_str(&"  ".repeat(level));
}

fn is_leaf(value: &Value) -> bool {
    match value {
        Value::Array(elements) => elements.is_empty(),
        Value::Object(fields) => fields.is_empty(),
        _ => true,
    }
}

/// How many levels of lists and groups stand in each other, lists of numbers not counted; 3 stands
/// for any more.
fn height(value: &Value) -> usize {
    match value {
        Value::Array(elements) if elements.iter().all(Value::is_number) => 0,
        Value::Array(elements) => 1 + tallest(elements.iter()),
        Value::Object(fields) => 1 + tallest(fields.values()),
        _ => 0,
    }
}

fn tallest<'v>(values: impl Iterator<Item = &'v Value>) -> usize {
    let mut tallest = 0;
    for value in values {
        tallest = tallest.max(height(value).min(2));
        if tallest == 2 {
            break;
        }
    }
    tallest
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use serde_json::json;

    #[test]
    fn a_plan_reads_well() {
        let long: Vec<[f64; 2]> = (0..12).map(|i| [f64::from(i) + 0.125, 2.0]).collect();
        let value = json!({
            "name": "Ida \"of\" Bømlo",
            "none": null,
            "decks": [{ "outline": [[0.0, 0.0], [4.0, -0.0], [4.0, 2.5]] }],
            "cylinders": [
                { "number": "12", "at": { "slot": "P3" } },
                { "number": "13", "at": { "lying": { "on": { "at": [1.0, 2.0] } } } },
            ],
            "long": long,
            "nothing": [],
            "no_fields": {},
            "numbers": [1e-7, 1e21, 0.1, 100.0, 3, -2.5e-9],
        });
        let expected = r#"{
  "name": "Ida \"of\" Bømlo",
  "none": null,
  "decks": [
    { "outline": [[0, 0], [4, 0], [4, 2.5]] }
  ],
  "cylinders": [
    { "number": "12", "at": { "slot": "P3" } },
    {
      "number": "13",
      "at": {
        "lying": { "on": { "at": [1, 2] } }
      }
    }
  ],
  "long": [
    [0.125, 2],
    [1.125, 2],
    [2.125, 2],
    [3.125, 2],
    [4.125, 2],
    [5.125, 2],
    [6.125, 2],
    [7.125, 2],
    [8.125, 2],
    [9.125, 2],
    [10.125, 2],
    [11.125, 2]
  ],
  "nothing": [],
  "no_fields": {},
  "numbers": [1e-7, 1e+21, 0.1, 100, 3, -2.5e-9]
}
"#;
        assert_eq!(to_text(&value), expected);
    }

    fn any_json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i32>().prop_map(Value::from),
            prop::num::f64::NORMAL.prop_map(Value::from),
            prop::num::f64::SUBNORMAL.prop_map(Value::from),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(5, 40, 6, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                prop::collection::btree_map(any::<String>(), inner, 0..6)
                    .prop_map(|fields| Value::Object(fields.into_iter().collect())),
            ]
        })
    }

    /// Whole numbers lose their decimal point, which for JSON is no difference.
    fn as_floats(value: Value) -> Value {
        match value {
            Value::Number(number) => number.as_f64().map_or(Value::Null, Value::from),
            Value::Array(elements) => elements.into_iter().map(as_floats).collect(),
            Value::Object(fields) => {
                let fields = fields.into_iter();
                Value::Object(
                    fields
                        .map(|(name, field)| (name, as_floats(field)))
                        .collect(),
                )
            }
            other => other,
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn what_is_printed_reads_back_the_same(value in any_json()) {
            let text = to_text(&value);
            let back: Value = serde_json::from_str(&text).unwrap();
            prop_assert_eq!(to_text(&back), text);
            prop_assert_eq!(as_floats(back), as_floats(value));
        }
    }
}
