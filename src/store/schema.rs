//! The JSON Schema of the layout file: derived from the types, with the ranges of the numbers
//! joined in from [`bounds`].

use schemars::schema_for;
use serde_json::{Map, Value, json};

use crate::layout::Plan;
use crate::layout::bounds::{self, Bound};

/// The schema of a layout file.
pub(super) fn layout_schema() -> Value {
    let mut schema = schema_for!(Plan).to_value();
    add_bounds(&mut schema);
    if let Some(object) = schema.as_object_mut() {
        object.insert("title".to_owned(), "Snugdown layout".into());
    }
    schema
}

/// Puts the range and unit of each field into the schema, wherever fields are described.
pub(super) fn add_bounds(schema: &mut Value) {
    match schema {
        Value::Object(object) => {
            if let Some(Value::Object(properties)) = object.get_mut("properties") {
                for (name, field) in properties {
                    if let Some(bound) = bounds::for_field(name) {
                        limit(field, bound);
                    }
                }
            }
            object.values_mut().for_each(add_bounds);
        }
        Value::Array(elements) => elements.iter_mut().for_each(add_bounds),
        _ => {}
    }
}

/// Limits the numbers in one field, those in its lists and alternatives too.
fn limit(field: &mut Value, bound: &Bound) {
    let Value::Object(object) = field else { return };
    if object.get("$ref").and_then(Value::as_str) == Some("#/$defs/Known") {
        // The shared definition cannot carry the range of one field.
        object.remove("$ref");
        object.insert(
            "anyOf".to_owned(),
            json!([{ "type": "number" }, { "const": "not known" }]),
        );
    }
    if is_number(object) {
        for (key, value) in [("minimum", bound.min), ("maximum", bound.max)] {
            if !object.contains_key(key) {
                object.insert(key.to_owned(), value.into());
            }
        }
        if !bound.unit.is_empty() {
            object.insert("x-unit".to_owned(), bound.unit.into());
        }
    }
    if let Some(items) = object.get_mut("items") {
        limit(items, bound);
    }
    for key in ["anyOf", "oneOf", "prefixItems"] {
        if let Some(Value::Array(parts)) = object.get_mut(key) {
            for part in parts {
                limit(part, bound);
            }
        }
    }
}

fn is_number(object: &Map<String, Value>) -> bool {
    match object.get("type") {
        Some(Value::String(name)) => name == "number",
        Some(Value::Array(names)) => names.iter().any(|name| name == "number"),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The fields of a definition, or of one of its alternatives.
    fn field<'s>(schema: &'s Value, definition: &str, name: &str) -> &'s Value {
        &schema["$defs"][definition]["properties"][name]
    }

    #[test]
    fn ranges_reach_every_form_of_number() {
        let schema = layout_schema();
        let beam = field(&schema, "Boat", "beam_m");
        assert_eq!(
            (&beam["minimum"], &beam["maximum"]),
            (&json!(0.5), &json!(30.0))
        );
        assert_eq!(beam["x-unit"], "m");
        let draught = field(&schema, "Boat", "draught_m");
        assert_eq!(draught["minimum"], json!(0.05), "optional: {draught}");
        let limit = field(&schema, "Deck", "load_limit_kg_per_m2");
        assert_eq!(limit["anyOf"][0]["maximum"], json!(20_000.0), "{limit}");
        let outline = field(&schema, "Deck", "outline");
        assert_eq!(
            outline["items"]["items"]["maximum"],
            json!(130.0),
            "{outline}"
        );
        let slack = field(&schema, "Lashing", "slack_m");
        assert!(slack.to_string().contains("\"maximum\":1.0"), "{slack}");
    }

    /// Every number that is not a count has a range: a new field needs a name that tells its unit,
    /// or a line of its own in the table.
    #[test]
    fn no_number_is_without_a_range() {
        fn unlimited(value: &Value, path: &str, found: &mut Vec<String>) {
            match value {
                Value::Object(object) => {
                    if is_number(object)
                        && !(object.contains_key("minimum") && object.contains_key("maximum"))
                        && path != "/$defs/Known/anyOf/0"
                    {
                        found.push(path.to_owned());
                    }
                    for (key, value) in object {
                        unlimited(value, &format!("{path}/{key}"), found);
                    }
                }
                Value::Array(elements) => {
                    for (i, value) in elements.iter().enumerate() {
                        unlimited(value, &format!("{path}/{i}"), found);
                    }
                }
                _ => {}
            }
        }
        let mut found = Vec::new();
        unlimited(&layout_schema(), "", &mut found);
        assert_eq!(found, [""; 0]);
    }
}
