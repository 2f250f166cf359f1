//! Holds a JSON value against a JSON Schema: the few words of draft 2020-12 that the program's schemas use.
//!
//! A word that is not known here fails, so that nothing is passed over.

use std::collections::BTreeSet;

use serde_json::{Map, Value};

/// Where the value does not fit; empty if it does.
pub(crate) fn misfits(schema: &Value, value: &Value) -> Vec<String> {
    let mut found = Vec::new();
    let walk = Walk { root: schema };
    walk.hold(schema, value, "$", &mut found);
    found
}

struct Walk<'s> {
    root: &'s Value,
}

impl Walk<'_> {
    fn hold(&self, schema: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
        let Value::Object(words) = schema else {
            if *schema != Value::Bool(true) {
                found.push(format!("{at}: nothing fits"));
            }
            return;
        };
        for (word, wanted) in words {
            match word.as_str() {
                "$ref" => {
                    let pointer = wanted.as_str().unwrap().strip_prefix('#').unwrap();
                    let target = self.root.pointer(pointer);
                    let target = target.unwrap_or_else(|| panic!("{pointer} leads nowhere"));
                    self.hold(target, value, at, found);
                }
                "type" => {
                    let names = wanted
                        .as_array()
                        .cloned()
                        .unwrap_or_else(|| vec![wanted.clone()]);
                    if !names
                        .iter()
                        .any(|name| has_type(value, name.as_str().unwrap()))
                    {
                        found.push(format!("{at}: {value} is not of type {wanted}"));
                    }
                }
                "const" if value != wanted => found.push(format!("{at}: {value} is not {wanted}")),
                "enum" if !wanted.as_array().unwrap().contains(value) => {
                    found.push(format!("{at}: {value} is none of {wanted}"));
                }
                "anyOf" | "oneOf" => {
                    let fits = |part: &&Value| {
                        let mut inside = Vec::new();
                        self.hold(part, value, at, &mut inside);
                        inside.is_empty()
                    };
                    let fitting = wanted.as_array().unwrap().iter().filter(fits).count();
                    if fitting == 0 || (word == "oneOf" && fitting > 1) {
                        found.push(format!("{at}: {value} fits {fitting} of {wanted}"));
                    }
                }
                "minimum" if value.as_f64() < wanted.as_f64() && value.is_number() => {
                    found.push(format!("{at}: {value} is less than {wanted}"));
                }
                "maximum" if value.as_f64() > wanted.as_f64() && value.is_number() => {
                    found.push(format!("{at}: {value} is more than {wanted}"));
                }
                // Looked at below.
                "properties" | "required" | "additionalProperties" | "items" | "prefixItems"
                | "minItems" | "maxItems"
                // Fits, as it did not fail above.
                | "const" | "enum" | "minimum" | "maximum"
                // Says nothing of the value.
                | "description" | "title" | "format" | "$schema" | "$defs" | "default" | "x-unit" => {}
                unknown => panic!("{at}: the word {unknown:?} of the schema is not known here"),
            }
        }
        match value {
            Value::Object(fields) => self.hold_object(words, fields, at, found),
            Value::Array(items) => self.hold_array(words, items, at, found),
            _ => {}
        }
    }

    fn hold_object(
        &self,
        words: &Map<String, Value>,
        fields: &Map<String, Value>,
        at: &str,
        found: &mut Vec<String>,
    ) {
        let none = Map::new();
        let properties = words
            .get("properties")
            .and_then(Value::as_object)
            .unwrap_or(&none);
        for (name, field) in fields {
            let here = format!("{at}.{name}");
            let schema = properties.get(name).or(words.get("additionalProperties"));
            match schema {
                Some(schema) => self.hold(schema, field, &here, found),
                // The program's own objects are described whole.
                None if !properties.is_empty() => found.push(format!("{here} is not described")),
                None => {}
            }
        }
        let required = words
            .get("required")
            .and_then(Value::as_array)
            .into_iter()
            .flatten();
        let present: BTreeSet<&str> = fields.keys().map(String::as_str).collect();
        for name in required {
            if !present.contains(name.as_str().unwrap()) {
                found.push(format!("{at}.{} is missing", name.as_str().unwrap()));
            }
        }
    }

    fn hold_array(
        &self,
        words: &Map<String, Value>,
        items: &[Value],
        at: &str,
        found: &mut Vec<String>,
    ) {
        let first = words
            .get("prefixItems")
            .and_then(Value::as_array)
            .cloned()
            .unwrap_or_default();
        for (index, item) in items.iter().enumerate() {
            let here = format!("{at}[{index}]");
            if let Some(schema) = first.get(index).or_else(|| words.get("items")) {
                self.hold(schema, item, &here, found);
            }
        }
        let length = items.len() as u64;
        let bound = |word: &str| words.get(word).and_then(Value::as_u64);
        if bound("minItems").is_some_and(|least| length < least)
            || bound("maxItems").is_some_and(|most| length > most)
        {
            found.push(format!("{at}: {length} elements"));
        }
    }
}

fn has_type(value: &Value, name: &str) -> bool {
    match name {
        "null" => value.is_null(),
        "boolean" => value.is_boolean(),
        "integer" => value.is_u64() || value.is_i64(),
        "number" => value.is_number(),
        "string" => value.is_string(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        unknown => panic!("unknown type {unknown}"),
    }
}

#[test]
fn the_walk_finds_what_does_not_fit() {
    let schema = serde_json::json!({
        "type": "object",
        "properties": { "a": { "type": "number", "minimum": 0 }, "b": { "$ref": "#/$defs/word" } },
        "required": ["a"],
        "$defs": { "word": { "anyOf": [{ "enum": ["x"] }, { "type": "null" }] } }
    });
    let misfits = |value| misfits(&schema, &value);
    assert!(misfits(serde_json::json!({ "a": 1.5, "b": "x" })).is_empty());
    for wrong in [
        serde_json::json!({ "a": -1 }),
        serde_json::json!({ "a": null }),
        serde_json::json!({ "b": "x" }),
        serde_json::json!({ "a": 1, "b": "y" }),
        serde_json::json!({ "a": 1, "c": 1 }),
        serde_json::json!([]),
    ] {
        assert!(!misfits(wrong.clone()).is_empty(), "{wrong} passed");
    }
}
