//! Nodes put together while the parser's events come in: open collections, anchors, the budget.

use super::clean::{is_unsafe, quote};
use super::cost::{Size, measure};
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
    },
    Map {
        flow: bool,
        start: Span,
        anchor: usize,
        map: Map,
        pending: Pending,
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

/// The tree as far as it has been read.
pub(super) struct Builder<'s> {
    pub source: &'s SourceText,
    pub text: &'s str,
    pub stack: Vec<Frame>,
    anchors: HashMap<usize, Anchored>,
    /// Which anchors stand before the value at a place.
    anchor_places: HashMap<Span, Vec<usize>>,
    nodes: usize,
    copied: usize,
    pub documents: usize,
    pub root: Option<Node>,
    pub complaints: Complaints,
}

impl<'s> Builder<'s> {
    /// Nothing read yet.
    pub fn new(source: &'s SourceText) -> Builder<'s> {
        Builder {
            source,
            text: source.text(),
            stack: Vec::new(),
            anchors: HashMap::new(),
            anchor_places: HashMap::new(),
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
        self.push(node, Bare::No);
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
            self.anchor_places
                .entry(node.span)
                .or_default()
                .push(anchor);
            let node = node.clone();
            self.anchors.insert(anchor, Anchored { node, size });
        }
        self.push(node, bare);
        Ok(())
    }

    /// Puts a finished node where it belongs.
    fn push(&mut self, node: Node, bare: Bare) {
        let text = self.text;
        match self.stack.last_mut() {
            None => self.root = Some(node),
            Some(Frame::Seq { flow, items, .. }) => {
                if *flow && bare == Bare::Text {
                    let renewed = items.last_mut().map(|last| join(text, last, &node));
                    if let Some(renewed) = renewed.filter(|renewed| !renewed.is_empty()) {
                        return renewed
                            .into_iter()
                            .for_each(|(old, node)| self.renew(old, node));
                    }
                }
                items.push(node);
            }
            Some(Frame::Map {
                flow, map, pending, ..
            }) => match std::mem::replace(pending, Pending::Key) {
                Pending::Dropped => {}
                Pending::Key => *pending = key(self.source, node, bare, &mut self.complaints),
                Pending::Value(key, key_is_bare) => {
                    if *flow
                        && key_is_bare
                        && bare == Bare::Nothing
                        && let Some(earlier) = map.entries.last_mut().map(|e| &mut e.value)
                        && flow::continues(text, earlier, &key.text, key.span)
                        && !flow::colon_follows(text, key.span)
                    {
                        let old = earlier.span;
                        flow::join(earlier, &key.text, key.span);
                        let whole = earlier.clone();
                        return self.renew(old, whole);
                    }
                    map.entries.push(Entry { key, value: node });
                }
            },
        }
    }

    /// Lets the anchors of a figure's first piece, at its old place, name the whole of it.
    fn renew(&mut self, old: Span, node: Node) {
        let Some(ids) = self.anchor_places.remove(&old) else {
            return;
        };
        for id in &ids {
            let same = |a: &Anchored| {
                std::mem::discriminant(&a.node.value) == std::mem::discriminant(&node.value)
            };
            if let Some(anchored) = self.anchors.get_mut(id).filter(|a| same(a)) {
                *anchored = Anchored {
                    size: measure(&node),
                    node: node.clone(),
                };
            }
        }
        self.anchor_places.insert(node.span, ids);
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

/// Joins a plain scalar of a flow sequence to the item before it when it continues a figure: what
/// changed, each with its old place; nothing when it does not.
fn join(text: &str, last: &mut Node, later: &Node) -> Vec<(Span, Node)> {
    let item_span = last.span;
    let Some(continuation) = later.as_str() else {
        return Vec::new();
    };
    let Some(earlier) = flow::last_written(text, last) else {
        return Vec::new();
    };
    if !flow::continues(text, earlier, continuation, later.span) {
        return Vec::new();
    }
    let old = earlier.span;
    flow::join(earlier, continuation, later.span);
    let mut renewed = vec![(old, earlier.clone())];
    if item_span != old {
        last.span = item_span.to(later.span);
        renewed.push((item_span, last.clone()));
    }
    renewed
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
