//! The walk over a file's tree that finds everything in it that does not have the shape of the
//! type: unknown, missing and doubled fields, wrong kinds of value, unknown words, numbers out of
//! range, lists of the wrong length.
//!
//! A deserializer stops at the first fault; this does not. The type stays the only description of
//! the format: the walk follows the JSON Schema derived from it.

mod compile;
mod describe;
mod node;
mod number;
mod repair;
mod variant;

use std::collections::BTreeSet;

use jsonc_parser::ast::{Array, Object, Value};
use jsonc_parser::common::Ranged as _;

pub(super) use compile::Schema;
use node::{Fields, List, Node, NodeId, Others, Text};
pub(super) use repair::{DependedOn, Repairs};

use super::fault::{MOST_FAULTS, RawFault};
use super::field_path::{FieldPath, Step};
use crate::layout::nearest::{either, nearest};

/// What the walk over a file found.
#[derive(Debug, Default)]
pub(super) struct Findings {
    pub(super) faults: Vec<RawFault>,

    /// How to make the value out all the same.
    pub(super) repairs: Repairs,
}

impl Findings {
    /// Keeps a fault, unless there are so many that it would not be told anyway.
    fn push(&mut self, fault: RawFault) {
        if !self.is_full() {
            self.faults.push(fault);
        }
    }

    fn is_full(&self) -> bool {
        self.faults.len() >= 2 * MOST_FAULTS
    }
}

/// Holds a file's tree against the schema. Fields that are `depended_on` are not stood in for where
/// they are wrong.
pub(super) fn examine(schema: &Schema, depended_on: DependedOn, root: &Value<'_>) -> Findings {
    let mut walk = Walk {
        schema,
        depended_on,
        path: FieldPath::default(),
        found: Findings::default(),
        probing: 0,
    };
    walk.check(schema.root(), root);
    walk.found
}

struct Walk<'s> {
    schema: &'s Schema,
    depended_on: DependedOn,
    path: FieldPath,
    found: Findings,

    /// How many alternatives are being tried at the moment, one inside the other.
    probing: usize,
}

impl Walk<'_> {
    fn check(&mut self, id: NodeId, value: &Value<'_>) {
        // More would not be told; a wrong file of a million numbers should not fill the memory.
        if self.found.is_full() {
            return;
        }
        let node = self.schema.node(id);
        if node.anything {
            return;
        }
        match value {
            Value::NullKeyword(_) if node.null => {}
            Value::BooleanLit(_) if node.boolean => {}
            Value::NumberLit(number) if !node.numbers.is_empty() => {
                self.check_number(node, number, value);
            }
            Value::StringLit(text) => match &node.text {
                Some(allowed) => self.check_text(node, allowed, &text.value, value),
                None => self.wrong_kind(node, value),
            },
            Value::Array(array) => match node.lists.as_slice() {
                [] => self.wrong_kind(node, value),
                [list] => self.check_list(list, array),
                lists => {
                    let list = self.best(lists, |walk, list| walk.check_list(list, array));
                    self.check_list(list, array);
                }
            },
            Value::Object(object) => match node.fields.as_slice() {
                [] => self.wrong_kind(node, value),
                [fields] => self.check_fields(fields, object),
                variants => {
                    if let Some(fields) = self.variant(variants, object) {
                        self.check_fields(fields, object);
                    }
                }
            },
            _ => self.wrong_kind(node, value),
        }
    }

    fn check_text(&mut self, node: &Node, allowed: &Text, written: &str, value: &Value<'_>) {
        if let Some(words) = &allowed.words {
            if words.iter().any(|word| word == written) {
                return;
            }
            let known = || words.iter().map(String::as_str);
            let meant = nearest(written, known());
            let guess = meant.map_or(String::new(), |word| format!("; did you mean {word:?}?"));
            let help = format!("write {}", either(known()));
            let written = describe::cut(written);
            self.fault(value, format!("unknown word {written:?}{guess}"), help);
            self.repair(node, value);
            return;
        }
        let length = written.chars().count();
        if allowed.shortest.is_some_and(|shortest| length < shortest) {
            self.fault(value, "the text is too short", "write a text here");
        }
        if let Some(longest) = allowed.longest
            && length > longest
        {
            self.fault(
                value,
                format!("the text has {length} characters"),
                format!("at most {longest} fit here"),
            );
        }
    }

    fn check_list(&mut self, list: &List, array: &Array<'_>) {
        let length = array.elements.len();
        let too_few = list.fewest.is_some_and(|fewest| length < fewest);
        let too_many = list.most.is_some_and(|most| length > most);
        if too_few || too_many {
            let wanted = match (list.fewest, list.most) {
                (Some(fewest), Some(most)) if fewest == most => format!("{fewest}"),
                (Some(fewest), Some(most)) => format!("{fewest} to {most}"),
                (Some(fewest), None) => format!("at least {fewest}"),
                (None, Some(most)) => format!("at most {most}"),
                (None, None) => String::new(),
            };
            let field = self.path.to_string();
            self.found.push(RawFault {
                offset: array.start(),
                field,
                message: format!("the list has {length} values, not {wanted}"),
                help: match list.most {
                    Some(2) if list.fewest == Some(2) => "write a point as [x, y]".to_owned(),
                    Some(3) if list.fewest == Some(3) => "write a point as [x, y, z]".to_owned(),
                    _ => format!("give {wanted} values"),
                },
            });
        }
        for (i, element) in array.elements.iter().enumerate() {
            if let Some(id) = list.first.get(i).copied().or(list.rest) {
                self.down(Step::Index(i), |walk| walk.check(id, element));
            }
        }
    }

    fn check_fields(&mut self, fields: &Fields, object: &Object<'_>) {
        let mut seen: BTreeSet<&str> = BTreeSet::new();
        let mut meant: BTreeSet<&str> = BTreeSet::new();
        for property in &object.properties {
            let name = property.name.as_str();
            if !seen.insert(name) {
                self.found.repairs.dropped.insert(property.start());
                self.fault_at_field(
                    property.start(),
                    name,
                    format!("the field {:?} is given twice", describe::cut(name)),
                    "keep one of the two",
                );
                continue;
            }
            let id = match (fields.get(name), fields.others) {
                (Some(id), _) | (None, Others::Each(id)) => id,
                (None, Others::Anything) => continue,
                (None, Others::Refused) => {
                    let at = property.start();
                    let known = self.unknown_field(fields, object, at, name);
                    let repairs = &mut self.found.repairs;
                    match known {
                        // The first of two slips for the same field counts.
                        Some(known) if fields.required.contains(known) && meant.insert(known) => {
                            repairs.renamed.insert(at, known.to_owned());
                        }
                        _ => {
                            repairs.dropped.insert(at);
                        }
                    }
                    continue;
                }
            };
            self.down(Step::Field(name.to_owned()), |walk| {
                walk.check(id, &property.value);
            });
        }
        for (name, id) in &fields.known {
            // A slip in a name is one fault, not an unknown field and a missing one.
            if fields.required.contains(name)
                && !seen.contains(name.as_str())
                && !meant.contains(name.as_str())
            {
                let wanted = describe::expected(self.schema.node(*id));
                self.fault_at_field(
                    object.start(),
                    name,
                    format!("the field {name:?} is missing"),
                    format!("add \"{name}\": {wanted}"),
                );
                let (path, node) = (self.path.field(name), self.schema.node(*id));
                let repairs = &mut self.found.repairs;
                repairs.add(&path, object.start(), node, self.depended_on);
            }
        }
    }

    /// Tells of an unknown field; returns the known one that was meant, if that can be guessed.
    fn unknown_field<'f>(
        &mut self,
        fields: &'f Fields,
        object: &Object<'_>,
        offset: usize,
        name: &str,
    ) -> Option<&'f str> {
        if self.found.is_full() {
            return None;
        }
        let free = fields.known.iter().map(|(known, _)| known.as_str());
        let meant = nearest(name, free.filter(|known| object.get(known).is_none()));
        let guess = meant.map_or(String::new(), |known| format!("; did you mean {known:?}?"));
        let known = either(fields.known.iter().map(|(known, _)| known.as_str()));
        let help = if known.is_empty() {
            "take it out; no fields belong here".to_owned()
        } else {
            format!("the fields here are {known}")
        };
        self.fault_at_field(
            offset,
            name,
            format!("unknown field {:?}{guess}", describe::cut(name)),
            help,
        );
        meant
    }

    fn wrong_kind(&mut self, node: &Node, value: &Value<'_>) {
        let wanted = describe::expected(node);
        let found = describe::kind(value);
        let help = describe::as_a_number(node, value).unwrap_or_else(|| format!("write {wanted}"));
        self.fault(value, format!("{found} where {wanted} should be"), help);
        self.repair(node, value);
    }

    /// Stands in for the value at the current path.
    fn repair(&mut self, node: &Node, value: &Value<'_>) {
        let depended_on = self.depended_on;
        let Findings { repairs, .. } = &mut self.found;
        repairs.replace(&self.path, value, node, depended_on);
    }

    /// Goes one step down, and back up again.
    fn down(&mut self, step: Step, work: impl FnOnce(&mut Self)) {
        self.path.0.push(step);
        work(self);
        self.path.0.pop();
    }

    /// A fault of the value at the current path.
    fn fault(&mut self, value: &Value<'_>, message: impl Into<String>, help: impl Into<String>) {
        self.found.push(RawFault {
            offset: value.start(),
            field: self.path.to_string(),
            message: message.into(),
            help: help.into(),
        });
    }

    /// A fault of a field of the object at the current path.
    fn fault_at_field(
        &mut self,
        offset: usize,
        name: &str,
        message: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.found.push(RawFault {
            offset,
            field: self.path.field(&describe::cut(name)).to_string(),
            message: message.into(),
            help: help.into(),
        });
    }
}

#[cfg(test)]
mod tests;
