//! Which of several alternatives an object is meant to be.

use jsonc_parser::ast::{Object, Value};
use jsonc_parser::common::Ranged;

use super::node::Fields;
use super::{Findings, Walk, describe};
use crate::layout::nearest::{either, nearest};

impl<'s> Walk<'s> {
    /// Picks the alternative by its tag, or by its only field, or by trying them all. When the tag
    /// is wrong, that is told, and nothing else about the object can be said.
    pub(super) fn variant(
        &mut self,
        variants: &'s [Fields],
        object: &Object<'_>,
    ) -> Option<&'s Fields> {
        if let Some(tag) = self.tag(variants) {
            return self.by_tag(tag, variants, object);
        }
        if let Some(names) = only_fields(variants) {
            let found = names
                .iter()
                .zip(variants)
                .find(|(name, _)| object.get(name).is_some());
            if let Some((_, fields)) = found {
                return Some(fields);
            }
            let first = object.properties.first();
            let offset = first.map_or(object.start(), Ranged::start);
            let written = first.map_or("", |property| property.name.as_str());
            let guess = nearest(written, names.iter().copied())
                .map_or(String::new(), |name| format!("; did you mean {name:?}?"));
            let message = match first {
                Some(_) => format!("unknown field {:?}{guess}", describe::cut(written)),
                None => "a field is missing".to_owned(),
            };
            let help = format!("write {}", either(names.iter().copied()));
            self.fault_at_field(offset, written, message, help);
            return None;
        }
        Some(self.best(variants, |walk, fields| walk.check_fields(fields, object)))
    }

    /// The field that tells the alternatives apart: in each of them required, with one word.
    fn tag(&self, variants: &'s [Fields]) -> Option<&'s str> {
        let mut candidates = variants
            .first()?
            .known
            .iter()
            .map(|(name, _)| name.as_str());
        candidates.find(|name| {
            let mut words: Vec<&str> = Vec::with_capacity(variants.len());
            let each_has_words = variants.iter().all(|fields| {
                let own = self.tag_words(fields, name);
                words.extend(own.iter().map(String::as_str));
                !own.is_empty()
            });
            let count = words.len();
            words.sort_unstable();
            words.dedup();
            each_has_words && words.len() == count
        })
    }

    /// The words that a field takes in an alternative where it is required.
    fn tag_words(&self, fields: &'s Fields, name: &str) -> &'s [String] {
        let required = fields.required.contains(name);
        let text = fields
            .get(name)
            .filter(|_| required)
            .and_then(|id| self.schema.node(id).text.as_ref());
        let words = text.and_then(|text| text.words.as_deref());
        words.unwrap_or_default()
    }

    fn by_tag(
        &mut self,
        tag: &'s str,
        variants: &'s [Fields],
        object: &Object<'_>,
    ) -> Option<&'s Fields> {
        let all = || {
            variants
                .iter()
                .flat_map(|fields| self.tag_words(fields, tag))
                .map(String::as_str)
        };
        let Some(property) = object.get(tag) else {
            let help = format!("add \"{tag}\": {}", either(all()));
            let message = format!("the field {tag:?} is missing");
            self.fault_at_field(object.start(), tag, message, help);
            return None;
        };
        let help = format!("write {}", either(all()));
        let Value::StringLit(text) = &property.value else {
            let found = describe::kind(&property.value);
            let message = format!("{found} where a word should be");
            self.fault_at_field(property.value.start(), tag, message, help);
            return None;
        };
        let word: &str = &text.value;
        let known = variants
            .iter()
            .find(|fields| self.tag_words(fields, tag).iter().any(|w| w == word));
        if known.is_none() {
            let guess = nearest(word, all())
                .map_or(String::new(), |word| format!("; did you mean {word:?}?"));
            let message = format!("unknown word {:?}{guess}", describe::cut(word));
            self.fault_at_field(property.value.start(), tag, message, help);
        }
        known
    }

    /// The alternative that fits with the fewest faults, the first of equals.
    pub(super) fn best<'v, V>(
        &mut self,
        variants: &'v [V],
        check: impl Fn(&mut Self, &V),
    ) -> &'v V {
        // Trying alternatives inside alternatives multiplies; no type of ours nests them so deep.
        const MOST_PROBING: usize = 3;
        let mut best = (usize::MAX, &variants[0]);
        if self.probing >= MOST_PROBING {
            return best.1;
        }
        self.probing += 1;
        for variant in variants {
            let kept = std::mem::take(&mut self.found);
            check(self, variant);
            let Findings { faults, .. } = std::mem::replace(&mut self.found, kept);
            if faults.len() < best.0 {
                best = (faults.len(), variant);
            }
        }
        self.probing -= 1;
        best.1
    }
}

/// The single field of each alternative, where each has one of its own (`{"circle": …}`).
fn only_fields(variants: &[Fields]) -> Option<Vec<&str>> {
    let mut names: Vec<&str> = Vec::with_capacity(variants.len());
    for fields in variants {
        let [(name, _)] = fields.known.as_slice() else {
            return None;
        };
        if !fields.required.contains(name) || names.contains(&name.as_str()) {
            return None;
        }
        names.push(name);
    }
    Some(names)
}
