//! From the JSON Schema that `schemars` derives from the types (draft 2020-12) to [`Node`]s.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Map, Value};

use super::node::{Fields, List, Node, NodeId, Numbers, Others, Text};

/// What a file must look like.
#[derive(Debug)]
pub(in crate::store) struct Schema {
    nodes: Vec<Node>,
    root: NodeId,
}

impl Schema {
    /// Brings a schema into the form in which it is walked.
    ///
    /// What it cannot express (a type that contains itself directly beside an alternative,
    /// `pattern`, `not`, `if`) is let through, and left to the deserializer.
    pub(in crate::store) fn compile(schema: &Value) -> Self {
        let mut compiler = Compiler {
            definitions: schema.get("$defs").and_then(Value::as_object),
            nodes: Vec::new(),
            by_name: BTreeMap::new(),
        };
        let root = compiler.reserve();
        compiler.nodes[root] = compiler.node(schema);
        Self {
            nodes: compiler.nodes,
            root,
        }
    }

    pub(super) fn root(&self) -> NodeId {
        self.root
    }

    pub(super) fn node(&self, id: NodeId) -> &Node {
        &self.nodes[id]
    }
}

struct Compiler<'s> {
    definitions: Option<&'s Map<String, Value>>,
    nodes: Vec<Node>,
    by_name: BTreeMap<&'s str, NodeId>,
}

impl<'s> Compiler<'s> {
    fn reserve(&mut self) -> NodeId {
        self.nodes.push(Node {
            anything: true,
            ..Node::default()
        });
        self.nodes.len() - 1
    }

    /// A node of its own for a schema; that of a bare reference is shared, so that types may
    /// contain themselves.
    fn id(&mut self, schema: &'s Value) -> NodeId {
        if let Some(object) = schema.as_object()
            && object.keys().all(|key| key == "$ref" || is_annotation(key))
            && let Some(id) = self.target(object)
        {
            return id;
        }
        let id = self.reserve();
        self.nodes[id] = self.node(schema);
        id
    }

    /// The node of the definition that a schema refers to. While it is being compiled, it allows
    /// anything: that ends circles.
    fn target(&mut self, object: &'s Map<String, Value>) -> Option<NodeId> {
        let name = object
            .get("$ref")
            .and_then(Value::as_str)?
            .strip_prefix("#/$defs/")?;
        if let Some(id) = self.by_name.get(name) {
            return Some(*id);
        }
        let target = self.definitions?.get(name)?;
        let id = self.reserve();
        self.by_name.insert(name, id);
        self.nodes[id] = self.node(target);
        Some(id)
    }

    fn node(&mut self, schema: &'s Value) -> Node {
        let Some(object) = schema.as_object() else {
            return Node {
                // `false` allows nothing.
                anything: schema.as_bool() != Some(false),
                ..Node::default()
            };
        };
        let mut node = self.own(object);
        if let Some(id) = self.target(object) {
            node.and(self.nodes[id].clone());
        }
        for part in list(object, "allOf") {
            let part = self.node(part);
            node.and(part);
        }
        for key in ["oneOf", "anyOf"] {
            let branches = list(object, key);
            if branches.len() == 0 {
                continue;
            }
            let mut union = Node::default();
            for branch in branches {
                let branch = self.node(branch);
                union.or(branch);
            }
            node.and(union);
        }
        node
    }

    /// What the schema's own keywords say, without references and combinations.
    fn own(&mut self, object: &'s Map<String, Value>) -> Node {
        let mut node = Node {
            unit: text_of(object, "x-unit"),
            ..Node::default()
        };
        let values: Vec<&Value> = match object.get("const") {
            Some(value) => vec![value],
            None => list(object, "enum").collect(),
        };
        if !values.is_empty() {
            for value in values {
                node.or(constant(value));
            }
            return node;
        }
        let mut types: Vec<&str> = match object.get("type") {
            Some(Value::String(name)) => vec![name],
            Some(Value::Array(names)) => names.iter().filter_map(Value::as_str).collect(),
            _ => Vec::new(),
        };
        if types.is_empty() && object.contains_key("properties") {
            types.push("object");
        }
        if types.is_empty() {
            node.anything = true;
        }
        for name in types {
            match name {
                "null" => node.null = true,
                "boolean" => node.boolean = true,
                "number" => node.numbers.push(numbers(object, None)),
                "integer" => node.numbers.push(numbers(object, Some(holds(object)))),
                "string" => {
                    node.text = Some(Text {
                        words: None,
                        shortest: count(object, "minLength"),
                        longest: count(object, "maxLength"),
                    });
                }
                "array" => {
                    let list = self.list(object);
                    node.lists.push(list);
                }
                "object" => {
                    let fields = self.fields(object);
                    node.fields.push(fields);
                }
                _ => node.anything = true,
            }
        }
        node
    }

    fn list(&mut self, object: &'s Map<String, Value>) -> List {
        List {
            first: list(object, "prefixItems")
                .map(|item| self.id(item))
                .collect(),
            rest: object.get("items").map(|items| self.id(items)),
            fewest: count(object, "minItems"),
            most: count(object, "maxItems"),
        }
    }

    fn fields(&mut self, object: &'s Map<String, Value>) -> Fields {
        let mut known = Vec::new();
        if let Some(properties) = object.get("properties").and_then(Value::as_object) {
            for (name, schema) in properties {
                known.push((name.clone(), self.id(schema)));
            }
        }
        let required: BTreeSet<String> = list(object, "required")
            .filter_map(Value::as_str)
            .map(str::to_owned)
            .collect();
        let others = object
            .get("additionalProperties")
            .or_else(|| object.get("unevaluatedProperties"));
        let patterns = object.get("patternProperties").and_then(Value::as_object);
        let others = match patterns.and_then(|p| p.values().next()).or(others) {
            Some(Value::Bool(false)) => Others::Refused,
            Some(each @ Value::Object(_)) => Others::Each(self.id(each)),
            _ => Others::Anything,
        };
        Fields {
            known,
            required,
            others,
        }
    }
}

/// Keywords that say nothing about what is allowed.
fn is_annotation(key: &str) -> bool {
    matches!(
        key,
        "title" | "description" | "default" | "examples" | "deprecated" | "readOnly" | "writeOnly"
    )
}

fn constant(value: &Value) -> Node {
    let mut node = Node::default();
    match value {
        Value::Null => node.null = true,
        Value::Bool(_) => node.boolean = true,
        Value::Number(number) => node.numbers.push(Numbers {
            whole: number.as_i64().map(|n| (n.into(), n.into())),
            least: number.as_f64(),
            most: number.as_f64(),
            ..Numbers::default()
        }),
        Value::String(word) => {
            node.text = Some(Text {
                words: Some(vec![word.clone()]),
                ..Text::default()
            });
        }
        Value::Array(_) | Value::Object(_) => node.anything = true,
    }
    node
}

fn numbers(object: &Map<String, Value>, whole: Option<(i128, i128)>) -> Numbers {
    let number = |key| object.get(key).and_then(Value::as_f64);
    let least = number("minimum");
    let most = number("maximum");
    let above = number("exclusiveMinimum");
    let below = number("exclusiveMaximum");
    Numbers {
        whole,
        least: above.or(least),
        most: below.or(most),
        above_least: above.is_some(),
        below_most: below.is_some(),
    }
}

/// The range of the integer type behind a schema.
fn holds(object: &Map<String, Value>) -> (i128, i128) {
    match object.get("format").and_then(Value::as_str) {
        Some("uint8") => (0, u8::MAX.into()),
        Some("uint16") => (0, u16::MAX.into()),
        Some("uint32") => (0, u32::MAX.into()),
        Some("uint64" | "uint") => (0, u64::MAX.into()),
        Some("int8") => (i8::MIN.into(), i8::MAX.into()),
        Some("int16") => (i16::MIN.into(), i16::MAX.into()),
        Some("int32") => (i32::MIN.into(), i32::MAX.into()),
        _ => (i64::MIN.into(), i64::MAX.into()),
    }
}

fn list<'s>(object: &'s Map<String, Value>, key: &str) -> std::slice::Iter<'s, Value> {
    let list = object.get(key).and_then(Value::as_array);
    list.map(|list| list.iter()).unwrap_or_default()
}

fn count(object: &Map<String, Value>, key: &str) -> Option<usize> {
    let count = object.get(key).and_then(Value::as_u64)?;
    usize::try_from(count).ok()
}

fn text_of(object: &Map<String, Value>, key: &str) -> Option<String> {
    object.get(key).and_then(Value::as_str).map(str::to_owned)
}
