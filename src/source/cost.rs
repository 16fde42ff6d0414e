//! What values cost the budget of a text.

use super::tree::{Node, Value};

/// What a node costs.
#[derive(Clone, Copy, Default)]
pub(super) struct Size {
    /// Values and keys.
    pub nodes: usize,
    /// How many collections lie in one another.
    pub height: usize,
    /// Bytes of text.
    pub bytes: usize,
}

impl Size {
    /// One value without children or copied text.
    pub const ONE: Size = Size {
        nodes: 1,
        height: 0,
        bytes: 0,
    };
}

/// What a copy of a node costs. Recurses no deeper than [`MAX_DEPTH`](super::parse::MAX_DEPTH).
pub(super) fn measure(node: &Node) -> Size {
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
