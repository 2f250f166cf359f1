//! Making a value out in spite of its faults, so that what no schema can say is told with them.
//!
//! Unknown and doubled fields are left out; a misspelt name of a needed field is taken for it; a
//! number, a word or a yes-or-no that is missing or wrong is stood in for by one that is allowed.
//! Nothing is then told of the thing that holds the stand-in, nor is anything stood in for on which
//! other things depend: what is told must be true.

use std::collections::{BTreeMap, BTreeSet};

use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged as _;
use serde_json::Value as Json;

use super::node::{Node, Numbers};
use crate::store::field_path::{FieldPath, Step};

/// How a tree must be changed so that its value can be made out. Places are bytes of the text.
#[derive(Debug, Default)]
pub(in crate::store) struct Repairs {
    /// Properties that are left out, by where they start.
    pub(super) dropped: BTreeSet<usize>,

    /// Properties with another name than the one that is written.
    pub(super) renamed: BTreeMap<usize, String>,

    /// Values that others stand in for.
    values: BTreeMap<usize, Json>,

    /// Fields that are added to the object that starts there.
    added: BTreeMap<usize, Vec<(String, Json)>>,

    /// The things that hold a stand-in.
    touched: Vec<FieldPath>,
}

/// What must not be stood in for.
pub(in crate::store) type DependedOn = &'static [&'static str];

impl Repairs {
    /// Stands in for the value at a path, if that is possible and harmless.
    pub(super) fn replace(
        &mut self,
        path: &FieldPath,
        value: &Value<'_>,
        node: &Node,
        depended_on: DependedOn,
    ) {
        if let Some(stand_in) = stand_in(path, node, depended_on) {
            self.values.insert(value.start(), stand_in);
            self.touched.push(holder(path));
        }
    }

    /// Stands in for a field that is missing in the object that starts at `object`.
    pub(super) fn add(
        &mut self,
        path: &FieldPath,
        object: usize,
        node: &Node,
        depended_on: DependedOn,
    ) {
        if let Some(stand_in) = stand_in(path, node, depended_on)
            && let Some(Step::Field(name)) = path.0.last()
        {
            let added = self.added.entry(object).or_default();
            added.push((name.clone(), stand_in));
            self.touched.push(holder(path));
        }
    }

    /// Does a field belong to a thing that holds a stand-in?
    pub(in crate::store) fn touch(&self, field: &FieldPath) -> bool {
        let touched = self.touched.iter();
        touched.into_iter().any(|path| field.0.starts_with(&path.0))
    }

    /// The tree as plain JSON, with everything repaired.
    pub(in crate::store) fn apply(&self, value: &Value<'_>) -> Json {
        if let Some(stand_in) = self.values.get(&value.start()) {
            return stand_in.clone();
        }
        match value {
            Value::NullKeyword(_) => Json::Null,
            Value::BooleanLit(literal) => literal.value.into(),
            Value::StringLit(text) => text.value.as_ref().into(),
            Value::NumberLit(number) => number
                .value
                .parse::<serde_json::Number>()
                .map_or(Json::Null, Json::Number),
            Value::Array(array) => {
                let elements = array.elements.iter();
                elements.map(|element| self.apply(element)).collect()
            }
            Value::Object(object) => {
                let kept = object.properties.iter();
                let kept = kept.filter(|property| !self.dropped.contains(&property.start()));
                let kept = kept.map(|property| {
                    let written = property.name.as_str();
                    let name = self.renamed.get(&property.start());
                    let name = name.map_or(written, String::as_str).to_owned();
                    (name, self.apply(&property.value))
                });
                let added = self.added.get(&object.start()).into_iter().flatten();
                kept.chain(added.cloned()).collect()
            }
        }
    }
}

/// The element of a list that a field belongs to; the field itself where it is in none.
fn holder(path: &FieldPath) -> FieldPath {
    let last_index = path
        .0
        .iter()
        .rposition(|step| matches!(step, Step::Index(_)));
    let end = last_index.map_or(path.0.len(), |index| index + 1);
    FieldPath(path.0.iter().take(end).cloned().collect())
}

/// An allowed value for a place: a number, a word, a yes-or-no or nothing.
fn stand_in(path: &FieldPath, node: &Node, depended_on: DependedOn) -> Option<Json> {
    // An element of a list of numbers is a corner of something.
    let Some(Step::Field(name)) = path.0.last() else {
        return None;
    };
    if depended_on.contains(&name.as_str()) {
        return None;
    }
    if node.null {
        return Some(Json::Null);
    }
    if let Some(numbers) = node.numbers.first() {
        return Some(number(numbers));
    }
    if node.boolean {
        return Some(false.into());
    }
    let words = node.text.as_ref()?.words.as_ref()?;
    words.first().map(|word| word.as_str().into())
}

/// The allowed number that is nearest to nothing.
fn number(numbers: &Numbers) -> Json {
    let nearest = 0.0_f64
        .max(numbers.least.unwrap_or(f64::NEG_INFINITY))
        .min(numbers.most.unwrap_or(f64::INFINITY));
    if numbers.whole.is_none() {
        return nearest.into();
    }
    #[expect(
        clippy::cast_possible_truncation,
        reason = "counts are small, and a wrong stand-in is refused by the deserializer"
    )]
    (nearest.ceil() as i64).into()
}
