use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{Error as _, Unexpected};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A number, or the honest answer that nobody has it.
///
/// In the file it is the number or the words `"not known"`. Not known is a value of its own: a check
/// that needs it says what would be needed and how to find out, and never counts it as passed.
#[derive(Copy, Clone, Debug, Default, PartialEq)]
pub enum Known {
    /// Somebody measured it, or a marking says it.
    Value(f64),

    /// Nobody has it.
    #[default]
    NotKnown,
}

/// How [`Known::NotKnown`] is written.
const NOT_KNOWN: &str = "not known";

impl Known {
    /// The number, if there is one.
    pub fn value(self) -> Option<f64> {
        match self {
            Self::Value(value) => Some(value),
            Self::NotKnown => None,
        }
    }

    /// Does nobody have it?
    pub fn is_not_known(&self) -> bool {
        matches!(self, Self::NotKnown)
    }
}

impl From<f64> for Known {
    fn from(value: f64) -> Self {
        Self::Value(value)
    }
}

impl Serialize for Known {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Value(value) => value.serialize(serializer),
            Self::NotKnown => NOT_KNOWN.serialize(serializer),
        }
    }
}

impl<'de> Deserialize<'de> for Known {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        #[derive(Deserialize)]
        #[serde(untagged)]
        enum Either {
            Number(f64),
            Words(String),
        }
        match Either::deserialize(deserializer)? {
            Either::Number(value) => Ok(Self::Value(value)),
            Either::Words(words) if words == NOT_KNOWN => Ok(Self::NotKnown),
            Either::Words(words) => Err(D::Error::invalid_value(
                Unexpected::Str(&words),
                &"a number or \"not known\"",
            )),
        }
    }
}

impl JsonSchema for Known {
    fn schema_name() -> Cow<'static, str> {
        "Known".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "A number, or \"not known\" where nobody has it.",
            "anyOf": [{ "type": "number" }, { "const": NOT_KNOWN }]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_forms_round_trip() {
        for (text, value) in [
            ("2.5", Known::Value(2.5)),
            ("\"not known\"", Known::NotKnown),
        ] {
            assert_eq!(serde_json::from_str::<Known>(text).unwrap(), value);
            assert_eq!(serde_json::to_string(&value).unwrap(), text);
        }
    }

    #[test]
    fn other_words_are_refused() {
        let err = serde_json::from_str::<Known>("\"unknown\"").unwrap_err();
        assert!(err.to_string().contains("not known"), "{err}");
    }
}
