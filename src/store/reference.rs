//! The fields of the layout file as a page for people, printed from its schema.

use std::fmt::Write as _;

use serde_json::{Map, Value};

/// The page: first the file itself, then each group of fields in the order in which they are met.
pub(super) fn page(schema: &Value) -> String {
    page_after(
        schema,
        "# The fields of the layout file\n\nEvery field with its meaning, unit and range. \
         [The layout file](layout-format.md) says how they go together. Generated from the types that the \
         program reads; run `UPDATE_DOCS=1 cargo test` to renew it.\n\n\
         **Bold** fields must be there. `[x, y]` is a place in metres: x forward of the transom, y to port of \
         the centreline. \"Or not known\" means that the words `\"not known\"` may stand in place of the \
         number.\n",
    )
}

/// The same for another file, behind what stands at its head.
pub(super) fn page_after(schema: &Value, head: &str) -> String {
    let mut page = String::from(head);
    group(&mut page, "The file", schema);
    let none = Map::new();
    let definitions = schema
        .get("$defs")
        .and_then(Value::as_object)
        .unwrap_or(&none);
    for (name, definition) in definitions {
        if name != "Known" {
            group(&mut page, &spaced(name), definition);
        }
    }
    page
}

/// One group of fields, a choice of groups, or a choice of words.
fn group(page: &mut String, title: &str, definition: &Value) {
    write!(page, "\n## {title}\n\n{}\n", description(definition)).ok();
    if definition.get("properties").is_some() {
        fields(page, definition, &[]);
    }
    let Some(choices) = definition.get("oneOf").and_then(Value::as_array) else {
        return;
    };
    let are_words = choices.iter().all(|choice| choice.get("const").is_some());
    if are_words {
        page.push_str("\n| word | meaning |\n| --- | --- |\n");
        for choice in choices {
            let word = choice
                .get("const")
                .and_then(Value::as_str)
                .unwrap_or_default();
            writeln!(page, "| `\"{word}\"` | {} |", description(choice)).ok();
        }
        return;
    }
    for choice in choices {
        // The field that tells the choices apart has one word only.
        let tag = properties(choice)
            .find_map(|(name, field)| Some((name, field.get("const").and_then(Value::as_str)?)));
        if let Some((name, word)) = tag {
            write!(
                page,
                "\n### `\"{name}\": \"{word}\"`\n\n{}\n",
                description(choice)
            )
            .ok();
            fields(page, choice, &[name]);
        }
    }
}

fn fields(page: &mut String, definition: &Value, without: &[&str]) {
    let required = definition.get("required").and_then(Value::as_array);
    let is_required = |name: &str| required.is_some_and(|names| names.iter().any(|it| it == name));
    let mut rows = properties(definition)
        .filter(|(name, _)| !without.contains(name))
        .peekable();
    if rows.peek().is_none() {
        return;
    }
    page.push_str("\n| field | value | meaning |\n| --- | --- | --- |\n");
    for (name, field) in rows {
        let mark = if is_required(name) { "**" } else { "" };
        let (value, meaning) = (value_words(field), description(field));
        writeln!(page, "| {mark}`{name}`{mark} | {value} | {meaning} |").ok();
    }
}

fn properties(definition: &Value) -> impl Iterator<Item = (&str, &Value)> {
    let fields = definition.get("properties").and_then(Value::as_object);
    fields
        .into_iter()
        .flatten()
        .map(|(name, field)| (name.as_str(), field))
}

fn description(schema: &Value) -> String {
    let text = schema
        .get("description")
        .and_then(Value::as_str)
        .unwrap_or_default();
    text.split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
        .replace('|', "\\|")
}

/// What may stand in a field: `number, 0.05 to 30 m, or not known`.
fn value_words(schema: &Value) -> String {
    if let Some(target) = schema.get("$ref").and_then(Value::as_str) {
        let name = target.rsplit('/').next().unwrap_or_default();
        if name == "Known" {
            return "number, or not known".to_owned();
        }
        let title = spaced(name);
        let anchor = title.to_lowercase().replace(' ', "-");
        return format!("[{}](#{anchor})", title.to_lowercase());
    }
    for key in ["anyOf", "oneOf"] {
        if let Some(parts) = schema.get(key).and_then(Value::as_array) {
            let parts = parts
                .iter()
                .filter(|part| part.get("type").is_none_or(|kind| kind != "null"));
            return parts.map(value_words).collect::<Vec<_>>().join(", or ");
        }
    }
    if let Some(word) = schema.get("const").and_then(Value::as_str) {
        return if word == "not known" {
            word.to_owned()
        } else {
            format!("`\"{word}\"`")
        };
    }
    let kinds = match schema.get("type") {
        Some(Value::Array(names)) => names.iter().filter_map(Value::as_str).collect(),
        Some(Value::String(name)) => vec![name.as_str()],
        _ => Vec::new(),
    };
    let kind = kinds.into_iter().find(|kind| *kind != "null");
    match kind {
        Some("array") => list_words(schema),
        Some("number") => format!("number{}", range_words(schema)),
        Some("integer") => format!("whole number{}", range_words(schema)),
        Some("boolean") => "`true` or `false`".to_owned(),
        Some("string") => "text".to_owned(),
        _ => String::new(),
    }
}

fn list_words(schema: &Value) -> String {
    let bound = |key: &str| schema.get(key).and_then(Value::as_u64);
    let Some(items) = schema.get("items") else {
        return "list".to_owned();
    };
    let is_number = items.get("type").is_some_and(|kind| kind == "number");
    match (bound("minItems"), bound("maxItems")) {
        (Some(2), Some(2)) if is_number => format!("`[x, y]`{}", range_words(items)),
        (Some(least), Some(most)) if least == most => {
            format!("list of {least}: {}", value_words(items))
        }
        (Some(least), None) => format!("list of {least} or more: {}", value_words(items)),
        _ => format!("list of {}", value_words(items)),
    }
}

/// `, 0.05 to 30 m`.
fn range_words(schema: &Value) -> String {
    let bound = |key: &str| schema.get(key).and_then(Value::as_f64);
    let unit = schema
        .get("x-unit")
        .and_then(Value::as_str)
        .unwrap_or_default();
    match (bound("minimum"), bound("maximum")) {
        (Some(least), Some(most)) => format!(", {least} to {most} {unit}").trim_end().to_owned(),
        _ => String::new(),
    }
}

/// `LashingPoint` as `Lashing point`.
fn spaced(name: &str) -> String {
    let mut words = String::new();
    for (index, c) in name.chars().enumerate() {
        if index > 0 && c.is_uppercase() {
            words.push(' ');
            words.extend(c.to_lowercase());
        } else {
            words.push(c);
        }
    }
    words
}

#[cfg(test)]
mod tests {
    use super::super::schema::layout_schema;
    use super::*;

    #[test]
    fn every_group_and_field_of_the_schema_is_on_the_page() {
        let schema = layout_schema();
        let page = page(&schema);
        let definitions = schema["$defs"].as_object().unwrap();
        assert!(definitions.len() > 30, "only {} groups", definitions.len());
        for (name, definition) in definitions {
            if name != "Known" {
                assert!(
                    page.contains(&format!("\n## {}\n", spaced(name))),
                    "{name} is missing"
                );
            }
            let choices = definition.get("oneOf").and_then(Value::as_array);
            for group in choices.into_iter().flatten().chain([definition]) {
                for (field, schema) in properties(group) {
                    let is_told = page.contains(&format!("`{field}`"))
                        || (schema.get("const").is_some()
                            && page.contains(&format!("`\"{field}\": ")));
                    assert!(is_told, "{name}.{field} is missing");
                    let is_known = schema.get("const").is_some() || !value_words(schema).is_empty();
                    assert!(is_known, "{name}.{field}: nothing is said of its value");
                }
            }
        }
    }

    #[test]
    fn ranges_units_and_not_known_are_told() {
        let page = page(&layout_schema());
        for row in [
            "| **`beam_m`** | number, 0.5 to 30 m | Greatest beam in metres. |",
            "| `load_limit_kg_per_m2` | number, 10 to 20000 kg/m², or not known |",
            "| **`outline`** | list of 3 or more: `[x, y]`, -20 to 130 m |",
            "| `\"twin_hull\"` | Two hulls side by side. |",
            "### `\"how\": \"in_slot\"`",
        ] {
            assert!(page.contains(row), "{row}\nis not in\n{page}");
        }
    }
}
