//! Nodes put together while the parser's events come in: open collections, anchors, the budget.

use super::clean::{is_unsafe, quote};
use super::diagnostic::{Complaint, Complaints};
use super::parse::{Fatal, MAX_COMPLAINTS, MAX_COPIED_BYTES, MAX_DEPTH, MAX_NODES};
use super::text::{SourceText, Span};
use super::tree::{Entry, Key, Map, Node, Value};
use super::{flow, parser_errors};
use std::collections::HashMap;

/// A collection that is not closed yet.
pub(super) enum Frame {
    Seq {
        flow: bool,
        start: Span,
        anchor: usize,
        items: Vec<Node>,
        last_anchor: usize,
    },
    Map {
        flow: bool,
        start: Span,
        anchor: usize,
        map: Map,
        pending: Pending,
        last_anchor: usize,
    },
}

/// What a mapping waits for.
pub(super) enum Pending {
    Key,
    Value(Key, bool),
    /// The value of a key that was refused; it is read and dropped.
    Dropped,
}

/// A node that aliases can name, and what a copy of it costs.
struct Anchored {
    node: Node,
    size: Size,
}

/// What a node costs.
#[derive(Clone, Copy, Default)]
pub(super) struct Size {
    nodes: usize,
    height: usize,
    bytes: usize,
}

/// The tree as far as it has been read.
pub(super) struct Builder<'s> {
    pub source: &'s SourceText,
    pub text: &'s str,
    pub stack: Vec<Frame>,
    anchors: HashMap<usize, Anchored>,
    nodes: usize,
    copied: usize,
    pub documents: usize,
    pub root: Option<Node>,
    pub complaints: Complaints,
}

impl Size {
    /// One value without children or copied text.
    pub const ONE: Size = Size {
        nodes: 1,
        height: 0,
        bytes: 0,
    };
}

impl<'s> Builder<'s> {
    /// Nothing read yet.
    pub fn new(source: &'s SourceText) -> Builder<'s> {
        Builder {
            source,
            text: source.text(),
            stack: Vec::new(),
            anchors: HashMap::new(),
            nodes: 0,
            copied: 0,
            documents: 0,
            root: None,
            complaints: Complaints::new(),
        }
    }

    /// Makes sure that one more collection may be opened, and counts it.
    pub fn open(&mut self, span: Span) -> Result<(), Fatal> {
        if self.stack.len() >= MAX_DEPTH {
            return Err(Box::new(parser_errors::too_deep(self.source, span)));
        }
        self.count(Size::ONE, span)
    }

    /// Charges the budget.
    pub fn count(&mut self, size: Size, span: Span) -> Result<(), Fatal> {
        self.nodes = self.nodes.saturating_add(size.nodes);
        self.copied = self.copied.saturating_add(size.bytes);
        if self.nodes <= MAX_NODES && self.copied <= MAX_COPIED_BYTES {
            return Ok(());
        }
        let message =
            format!("the text holds more than {MAX_NODES} values, aliases counted out in full");
        let complaint = Complaint::error("source::too-many", message)
            .at(self.source, span, "the limit is passed here")
            .help("split the file; write out what aliases repeat only where it is needed");
        Err(Box::new(complaint))
    }

    /// Puts a copy of what an alias names in its place.
    pub fn alias(&mut self, id: usize, span: Span) -> Result<(), Fatal> {
        let Some(anchored) = self.anchors.get(&id) else {
            let complaint = Complaint::error(
                "source::self-reference",
                "this alias stands inside the value it names",
            )
            .at(self.source, span, "the value would hold itself");
            return Err(Box::new(complaint));
        };
        let size = anchored.size;
        if self.stack.len().saturating_add(size.height) > MAX_DEPTH {
            return Err(Box::new(parser_errors::too_deep(self.source, span)));
        }
        self.count(size, span)?;
        let Some(node) = self.anchors.get(&id).map(|anchored| anchored.node.clone()) else {
            return Ok(());
        };
        self.push(node, 0, Bare::No);
        Ok(())
    }

    /// Closes the innermost open collection.
    pub fn close(&mut self, end: Span) -> Result<(), Fatal> {
        let (node, anchor) = match self.stack.pop() {
            None => return Ok(()),
            Some(Frame::Seq {
                flow,
                start,
                anchor,
                items,
                ..
            }) => {
                let last = items.last().map(|item| item.span);
                let span = self.extent(flow, start, last, end);
                (
                    Node {
                        span,
                        value: Value::Seq(items),
                    },
                    anchor,
                )
            }
            Some(Frame::Map {
                flow,
                start,
                anchor,
                map,
                ..
            }) => {
                self.duplicates(&map);
                let last = map
                    .entries
                    .last()
                    .map(|entry| entry.key.span.to(entry.value.span));
                let span = self.extent(flow, start, last, end);
                (
                    Node {
                        span,
                        value: Value::Map(map),
                    },
                    anchor,
                )
            }
        };
        self.finish(node, anchor, Bare::No)
    }

    /// From the start of a collection to its closing bracket, or to its last value where it has none.
    fn extent(&self, flow: bool, start: Span, last: Option<Span>, end: Span) -> Span {
        let bracketed = flow
            && matches!(self.source.slice(end), "]" | "}")
            && matches!(self.source.slice(start), "[" | "{");
        let close = if bracketed {
            end.end
        } else {
            last.map_or(start.end, |last| last.end)
        };
        Span::new(start.start, close).within(self.text)
    }

    /// Notes the anchor of a finished node and puts the node where it belongs.
    pub fn finish(&mut self, node: Node, anchor: usize, bare: Bare) -> Result<(), Fatal> {
        if anchor != 0 {
            let size = measure(&node);
            self.count(size, node.span)?;
            self.anchors.insert(
                anchor,
                Anchored {
                    node: node.clone(),
                    size,
                },
            );
        }
        self.push(node, anchor, bare);
        Ok(())
    }

    /// Puts a finished node where it belongs.
    fn push(&mut self, node: Node, anchor: usize, bare: Bare) {
        let text = self.text;
        let mut joined: Option<(usize, Node)> = None;
        match self.stack.last_mut() {
            None => self.root = Some(node),
            Some(Frame::Seq {
                flow,
                items,
                last_anchor,
                ..
            }) => {
                if *flow
                    && bare == Bare::Text
                    && let Some(later) = node.as_str()
                    && let Some(earlier) = items
                        .last_mut()
                        .and_then(|last| flow::last_written(text, last))
                    && flow::continues(text, earlier, later, node.span)
                {
                    flow::join(earlier, later, node.span);
                    joined = Some((*last_anchor, earlier.clone()));
                    if let Some(last) = items.last_mut() {
                        last.span = last.span.to(node.span);
                    }
                } else {
                    items.push(node);
                    *last_anchor = anchor;
                }
            }
            Some(Frame::Map {
                flow,
                map,
                pending,
                last_anchor,
                ..
            }) => match std::mem::replace(pending, Pending::Key) {
                Pending::Dropped => {}
                Pending::Key => *pending = key(self.source, node, bare, &mut self.complaints),
                Pending::Value(key, key_is_bare) => {
                    if *flow
                        && key_is_bare
                        && bare == Bare::Nothing
                        && let Some(earlier) = map.entries.last_mut().map(|entry| &mut entry.value)
                        && flow::continues(text, earlier, &key.text, key.span)
                        && !flow::colon_follows(text, key.span)
                    {
                        flow::join(earlier, &key.text, key.span);
                        joined = Some((*last_anchor, earlier.clone()));
                    } else {
                        map.entries.push(Entry { key, value: node });
                        *last_anchor = anchor;
                    }
                }
            },
        }
        // What was anchored is the whole figure, not its first piece.
        if let Some((anchor, node)) = joined
            && let Some(anchored) = self.anchors.get_mut(&anchor)
        {
            *anchored = Anchored {
                size: measure(&node),
                node,
            };
        }
    }

    fn duplicates(&mut self, map: &Map) {
        let mut seen: HashMap<&str, Span> = HashMap::with_capacity(map.len());
        for entry in map {
            match seen.get(entry.key.text.as_str()) {
                None => {
                    seen.insert(&entry.key.text, entry.key.span);
                }
                Some(&first) => {
                    if self.complaints.len() >= MAX_COMPLAINTS {
                        return;
                    }
                    let name = quote(&entry.key.text);
                    let complaint = Complaint::error(
                        "source::duplicate-key",
                        format!("{name} is given twice in one mapping"),
                    )
                    .at(self.source, entry.key.span, "given again here")
                    .also(first, "first given here")
                    .help("keep one of the two");
                    self.complaints.push(complaint);
                }
            }
        }
    }
}

/// How a scalar can take part in a figure that a comma has split.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Bare {
    /// A plain scalar written here.
    Text,
    /// A value that is not written.
    Nothing,
    /// Anything else: quoted, a collection, an alias.
    No,
}

/// Takes a node as the key of the next entry, or complains of it.
fn key(source: &SourceText, node: Node, bare: Bare, complaints: &mut Complaints) -> Pending {
    let span = node.span;
    let complaint = match node.value {
        Value::Scalar(scalar) if bare == Bare::Text && scalar.text == "<<" => {
            Complaint::error("source::merge-key", "the merge key `<<` is not read")
                .at(source, span, "merge key")
                .help("write the lines out where they are needed; a reader then sees what holds")
        }
        Value::Scalar(scalar) => {
            if scalar.text.chars().any(is_unsafe) {
                complaints.push(
                    Complaint::error("source::key", "a key holds a character that cannot be seen")
                        .at(source, span, "this key"),
                );
            }
            return Pending::Value(
                Key {
                    text: scalar.text,
                    span,
                },
                bare == Bare::Text,
            );
        }
        Value::Null if !span.is_empty() => {
            return Pending::Value(
                Key {
                    text: source.slice(span).to_owned(),
                    span,
                },
                true,
            );
        }
        Value::Null => Complaint::error("source::key", "a key is missing before the `:`")
            .at(source, span, "here"),
        Value::Seq(_) | Value::Map(_) => Complaint::error(
            "source::key",
            "a key must be a plain text, not a list or a mapping",
        )
        .at(source, span, "this key"),
    };
    complaints.push(complaint);
    Pending::Dropped
}

/// What a copy of a node costs. Recurses no deeper than [`MAX_DEPTH`].
fn measure(node: &Node) -> Size {
    let mut size = Size {
        nodes: 1,
        height: 0,
        bytes: node.as_str().map_or(0, str::len),
    };
    let mut add = |child: Size, own: usize| {
        size.nodes = size
            .nodes
            .saturating_add(child.nodes)
            .saturating_add(usize::from(own > 0));
        size.bytes = size.bytes.saturating_add(child.bytes).saturating_add(own);
        size.height = size.height.max(child.height.saturating_add(1));
    };
    match &node.value {
        Value::Seq(items) => items.iter().for_each(|item| add(measure(item), 0)),
        Value::Map(map) => map
            .iter()
            .for_each(|entry| add(measure(&entry.value), entry.key.text.len().max(1))),
        Value::Null | Value::Scalar(_) => {}
    }
    if size.height == 0 && matches!(node.value, Value::Seq(_) | Value::Map(_)) {
        size.height = 1;
    }
    size
}
