//! Where a field is: `boat.decks[0].outline[3]`, from the top of the file.

use std::fmt;

use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged as _;

/// One step down from the top of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Step {
    /// To the field of this name.
    Field(String),

    /// To the element of this index, counted from 0.
    Index(usize),
}

/// The steps from the top of the file to a value.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct FieldPath(pub(super) Vec<Step>);

impl FieldPath {
    /// The path of a field of the value at this path.
    pub(super) fn field(&self, name: &str) -> Self {
        let mut steps = self.0.clone();
        steps.push(Step::Field(name.to_owned()));
        Self(steps)
    }

    /// Reads a path as it is printed. What cannot be read ends it: the path then leads to the
    /// value around the place.
    pub(super) fn parse(text: &str) -> Self {
        let mut steps = Vec::new();
        let mut rest = text;
        while !rest.is_empty() {
            if let Some(after) = rest.strip_prefix('[') {
                if after.starts_with('"') {
                    let mut names = serde_json::Deserializer::from_str(after).into_iter::<String>();
                    let Some(Ok(name)) = names.next() else { break };
                    let Some(after) = after
                        .get(names.byte_offset()..)
                        .and_then(|after| after.strip_prefix(']'))
                    else {
                        break;
                    };
                    steps.push(Step::Field(name));
                    rest = after;
                } else {
                    let Some((index, after)) = after.split_once(']') else {
                        break;
                    };
                    let Ok(index) = index.parse() else { break };
                    steps.push(Step::Index(index));
                    rest = after;
                }
            } else {
                rest = rest.strip_prefix('.').unwrap_or(rest);
                let end = rest.find(['.', '[']).unwrap_or(rest.len());
                if end == 0 {
                    break;
                }
                steps.push(Step::Field(rest[..end].to_owned()));
                rest = &rest[end..];
            }
        }
        Self(steps)
    }

    /// The byte at which the value at this path starts or, if it is not in the file, the deepest
    /// value on the way to it that is.
    pub(super) fn find(&self, root: &Value<'_>) -> usize {
        let mut value = root;
        for step in &self.0 {
            let next = match (step, value) {
                (Step::Field(name), Value::Object(object)) => {
                    object.get(name).map(|property| &property.value)
                }
                (Step::Index(index), Value::Array(array)) => array.elements.get(*index),
                _ => None,
            };
            let Some(next) = next else { break };
            value = next;
        }
        value.start()
    }

    /// The last step that has a name: the field whose unit the value is in.
    pub(super) fn last_name(&self) -> &str {
        let name = self.0.iter().rev().find_map(|step| match step {
            Step::Field(name) => Some(name.as_str()),
            Step::Index(_) => None,
        });
        name.unwrap_or_default()
    }
}

impl fmt::Display for FieldPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (i, step) in self.0.iter().enumerate() {
            match step {
                Step::Index(index) => write!(f, "[{index}]")?,
                Step::Field(name) if is_plain(name) => {
                    let dot = if i == 0 { "" } else { "." };
                    write!(f, "{dot}{name}")?;
                }
                Step::Field(name) => {
                    let quoted = serde_json::Value::from(name.as_str());
                    write!(f, "[{quoted}]")?;
                }
            }
        }
        Ok(())
    }
}

fn is_plain(name: &str) -> bool {
    !name.is_empty()
        && name
            .chars()
            .all(|c| c.is_alphanumeric() || matches!(c, '_' | '$' | '-'))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_path_leads_to_its_value_or_to_what_is_around_it() {
        let text = r#"{"boat": {"decks": [{"z_m": 1}, {"a b": [7, 8]}]}}"#;
        let root = jsonc_parser::parse_to_ast(text, &Default::default(), &Default::default())
            .unwrap()
            .value
            .unwrap();
        for (path, found) in [
            ("boat.decks[0].z_m", "1}"),
            (r#"boat.decks[1]["a b"][1]"#, "8]"),
            ("boat.decks[1].outline[3]", r#"{"a b""#),
            ("boat.decks[9]", r#"[{"z_m""#),
            ("boat.decks[x]", r#"[{"z_m""#),
            ("", r#"{"boat""#),
            ("trips[0].name", r#"{"boat""#),
        ] {
            let at = FieldPath::parse(path).find(&root);
            assert!(
                text[at..].starts_with(found),
                "{path} led to {}",
                &text[at..]
            );
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(200))]

        #[test]
        fn what_is_printed_is_read_back(steps in prop::collection::vec(
            prop_oneof![
                "[a-z_$]{1,6}".prop_map(Step::Field),
                any::<String>().prop_map(Step::Field),
                any::<usize>().prop_map(Step::Index),
            ],
            0..6,
        )) {
            let path = FieldPath(steps);
            prop_assert_eq!(FieldPath::parse(&path.to_string()), path);
        }

        #[test]
        fn any_text_can_be_tried_as_a_path(text in any::<String>()) {
            let path = FieldPath::parse(&text);
            prop_assert!(path.0.len() <= text.len());
        }
    }
}
