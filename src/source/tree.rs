//! A YAML text as a tree whose every node knows where it was written.
//!
//! Scalars keep their text as written: `3,000 lb`, `012`, `1.0` and `yes` are text here, never converted.
//! Where an alias stood, the tree holds a copy of what it names, with the places of the original.

use super::text::Span;
use serde_json::{Map as JsonMap, Number, Value as Json};

/// A value and where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Node {
    /// The value's own characters: quotes and brackets included, tags and anchors not. Empty, and just
    /// after the key or dash, for a null that is not written.
    pub span: Span,
    /// What stands there.
    pub value: Value,
}

/// What a node holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Value {
    /// Nothing, `~` or a plain `null`.
    Null,
    /// A text.
    Scalar(Scalar),
    /// A list.
    Seq(Vec<Node>),
    /// A mapping.
    Map(Map),
}

/// A text as written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Scalar {
    /// The text: escapes of quoted texts resolved, lines folded as YAML says, otherwise untouched.
    pub text: String,
    /// Whether it was written without quotes and not as a block.
    pub plain: bool,
}

/// A mapping, in the order of the text. No key is there twice.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Map {
    /// Keys and values.
    pub entries: Vec<Entry>,
}

/// One line of a mapping.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The name.
    pub key: Key,
    /// What it is given.
    pub value: Node,
}

/// The name of an entry and where it was written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Key {
    /// The name's text.
    pub text: String,
    /// Its place, quotes included.
    pub span: Span,
}

impl Map {
    /// The value of a key.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.entry(key).map(|entry| &entry.value)
    }

    /// The entry of a key.
    pub fn entry(&self, key: &str) -> Option<&Entry> {
        self.entries.iter().find(|entry| entry.key.text == key)
    }

    /// All entries in the order of the text.
    pub fn iter(&self) -> std::slice::Iter<'_, Entry> {
        self.entries.iter()
    }

    /// All keys in the order of the text.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.iter().map(|entry| entry.key.text.as_str())
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is no entry.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }
}

impl<'a> IntoIterator for &'a Map {
    type Item = &'a Entry;
    type IntoIter = std::slice::Iter<'a, Entry>;

    fn into_iter(self) -> Self::IntoIter {
        self.iter()
    }
}

impl Node {
    /// Whether nothing stands here.
    pub fn is_null(&self) -> bool {
        matches!(self.value, Value::Null)
    }

    /// The text, if this is one.
    pub fn as_str(&self) -> Option<&str> {
        self.as_scalar().map(|scalar| scalar.text.as_str())
    }

    /// The scalar, if this is one.
    pub fn as_scalar(&self) -> Option<&Scalar> {
        if let Value::Scalar(scalar) = &self.value {
            Some(scalar)
        } else {
            None
        }
    }

    /// The items, if this is a list.
    pub fn as_seq(&self) -> Option<&[Node]> {
        if let Value::Seq(items) = &self.value {
            Some(items)
        } else {
            None
        }
    }

    /// The mapping, if this is one.
    pub fn as_map(&self) -> Option<&Map> {
        if let Value::Map(map) = &self.value {
            Some(map)
        } else {
            None
        }
    }

    /// The value of a key, if this is a mapping that has it.
    pub fn get(&self, key: &str) -> Option<&Node> {
        self.as_map()?.get(key)
    }

    /// What kind of thing stands here, in words.
    pub fn kind(&self) -> &'static str {
        match &self.value {
            Value::Null => "nothing",
            Value::Seq(_) => "a list",
            Value::Map(_) => "a mapping",
            Value::Scalar(scalar) => match scalar.to_json() {
                Json::Bool(_) => "true or false",
                Json::Number(_) => "a bare number",
                _ => "a text",
            },
        }
    }

    /// The JSON form, for validation: a plain `true` or `false` is a boolean, a plain number as JSON
    /// writes it (no leading zero, no exponent) a number, nothing is null; every other scalar, and all
    /// that is quoted, is a string.
    pub fn to_json(&self) -> Json {
        match &self.value {
            Value::Null => Json::Null,
            Value::Scalar(scalar) => scalar.to_json(),
            Value::Seq(items) => Json::Array(items.iter().map(Node::to_json).collect()),
            Value::Map(map) => {
                let entries = map
                    .iter()
                    .map(|entry| (entry.key.text.clone(), entry.value.to_json()));
                Json::Object(entries.collect::<JsonMap<_, _>>())
            }
        }
    }

    /// The node at a JSON pointer (RFC 6901), and the key it is the value of if its parent is a mapping.
    pub fn at_pointer(&self, pointer: &str) -> Option<(Option<&Key>, &Node)> {
        let mut found: (Option<&Key>, &Node) = (None, self);
        for part in pointer.split('/').skip(1) {
            let part = part.replace("~1", "/").replace("~0", "~");
            found = match &found.1.value {
                Value::Map(map) => map
                    .entry(&part)
                    .map(|entry| (Some(&entry.key), &entry.value))?,
                Value::Seq(items) => (None, items.get(part.parse::<usize>().ok()?)?),
                _ => return None,
            };
        }
        Some(found)
    }
}

impl Scalar {
    fn to_json(&self) -> Json {
        let text = self.text.as_str();
        match text {
            "true" if self.plain => Json::Bool(true),
            "false" if self.plain => Json::Bool(false),
            _ if self.plain => {
                number(text).map_or_else(|| Json::String(text.to_owned()), Json::Number)
            }
            _ => Json::String(text.to_owned()),
        }
    }
}

/// The number that a plain text is, if JSON would write it so and it fits.
fn number(text: &str) -> Option<Number> {
    let unsigned = text.strip_prefix('-').unwrap_or(text);
    let (whole, fraction) = unsigned
        .split_once('.')
        .map_or((unsigned, None), |(w, f)| (w, Some(f)));
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
    if !digits(whole) || (whole.len() > 1 && whole.starts_with('0')) || !fraction.is_none_or(digits)
    {
        return None;
    }
    if fraction.is_some() {
        return Number::from_f64(text.parse().ok()?);
    }
    let signed = || text.parse::<i64>().ok().map(Number::from);
    signed().or_else(|| text.parse::<u64>().ok().map(Number::from))
}
