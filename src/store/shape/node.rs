//! A JSON Schema brought into the form in which a tree is walked: for each kind of value, what is
//! allowed.
//!
//! What a schema says in many ways (`$ref`, `oneOf`, `anyOf`, `type` lists, `const`, `enum`) comes
//! out as one [`Node`]: an `Option<f64>` is a node that allows null and numbers, an enum without
//! fields is a node with words, an enum with fields is a node with several [`Fields`].

use std::collections::BTreeSet;

/// A node of a [`super::compile::Schema`].
pub(super) type NodeId = usize;

/// What is allowed in one place.
#[derive(Clone, Debug, Default)]
pub(super) struct Node {
    /// Anything at all; the rest is then without meaning.
    pub(super) anything: bool,
    pub(super) null: bool,
    pub(super) boolean: bool,
    pub(super) numbers: Vec<Numbers>,
    pub(super) text: Option<Text>,
    pub(super) lists: Vec<List>,
    pub(super) fields: Vec<Fields>,

    /// The unit of its numbers (`x-unit`).
    pub(super) unit: Option<String>,
}

/// Which numbers are allowed.
#[derive(Clone, Debug, Default)]
pub(super) struct Numbers {
    /// Whole numbers only, of this range: what the type can hold.
    pub(super) whole: Option<(i128, i128)>,
    pub(super) least: Option<f64>,
    pub(super) most: Option<f64>,

    /// The limit itself is not allowed.
    pub(super) above_least: bool,
    pub(super) below_most: bool,
}

/// Which texts are allowed.
#[derive(Clone, Debug, Default)]
pub(super) struct Text {
    /// One of these; `None` is any text.
    pub(super) words: Option<Vec<String>>,
    pub(super) shortest: Option<usize>,
    pub(super) longest: Option<usize>,
}

/// Which lists are allowed.
#[derive(Clone, Debug, Default)]
pub(super) struct List {
    /// What the first elements are, one by one.
    pub(super) first: Vec<NodeId>,

    /// What the elements after them are; `None` is anything.
    pub(super) rest: Option<NodeId>,
    pub(super) fewest: Option<usize>,
    pub(super) most: Option<usize>,
}

/// Which fields an object has.
#[derive(Clone, Debug, Default)]
pub(super) struct Fields {
    /// Known fields, in the order of the type.
    pub(super) known: Vec<(String, NodeId)>,
    pub(super) required: BTreeSet<String>,
    pub(super) others: Others,
}

/// What holds for fields that are not known by name.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Others {
    /// They may be anything.
    #[default]
    Anything,

    /// There may be none.
    Refused,

    /// Each is such a value.
    Each(NodeId),
}

impl Numbers {
    /// Whether a number lies within the limits.
    pub(super) fn contain(&self, value: f64) -> bool {
        let Self {
            whole,
            least,
            most,
            above_least,
            below_most,
        } = *self;
        let above = least.is_none_or(|least| value > least || (value >= least && !above_least));
        let below = most.is_none_or(|most| value < most || (value <= most && !below_most));
        let holds = whole.is_none_or(|(low, high)| low as f64 <= value && value <= high as f64);
        above && below && holds
    }
}

impl Fields {
    /// The node of a known field.
    pub(super) fn get(&self, name: &str) -> Option<NodeId> {
        let known = self.known.iter().find(|(known, _)| known == name);
        known.map(|(_, id)| *id)
    }
}

impl Node {
    /// Allows what the other allows as well.
    pub(super) fn or(&mut self, other: Self) {
        let Self {
            anything,
            null,
            boolean,
            numbers,
            text,
            lists,
            fields,
            unit,
        } = other;
        self.anything |= anything;
        self.null |= null;
        self.boolean |= boolean;
        self.numbers.extend(numbers);
        self.lists.extend(lists);
        self.fields.extend(fields);
        self.text = match (self.text.take(), text) {
            (Some(a), Some(b)) => Some(a.or(b)),
            (a, b) => a.or(b),
        };
        self.unit = self.unit.take().or(unit);
    }

    /// Requires what the other requires as well. Meant for the parts of one struct (`allOf`, fields
    /// beside a `$ref`): fields are joined; for other kinds the narrower of the two stands.
    pub(super) fn and(&mut self, other: Self) {
        if self.anything {
            let unit = self.unit.take();
            *self = other;
            self.unit = unit.or(self.unit.take());
            return;
        }
        if other.anything {
            return;
        }
        self.null &= other.null;
        self.boolean &= other.boolean;
        if other.numbers.is_empty() {
            self.numbers.clear();
        }
        if other.text.is_none() {
            self.text = None;
        }
        if other.lists.is_empty() {
            self.lists.clear();
        }
        let mut joined = Vec::with_capacity(self.fields.len() * other.fields.len());
        for ours in &self.fields {
            for theirs in &other.fields {
                joined.push(ours.clone().join(theirs.clone()));
            }
        }
        self.fields = joined;
    }
}

impl Text {
    fn or(self, other: Self) -> Self {
        let words = match (self.words, other.words) {
            (Some(mut a), Some(b)) => {
                a.extend(b);
                Some(a)
            }
            _ => None,
        };
        Self {
            words,
            shortest: None,
            longest: None,
        }
    }
}

impl Fields {
    fn join(mut self, other: Self) -> Self {
        for (name, id) in other.known {
            if self.get(&name).is_none() {
                self.known.push((name, id));
            }
        }
        self.required.extend(other.required);
        if self.others == Others::Anything {
            self.others = other.others;
        }
        self
    }
}
