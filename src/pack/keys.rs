//! Reading the keys of mappings, with complaints for those that are missing or not known.

use super::model::Spanned;
use crate::rig::Reader;
use crate::source::{Map, Node, Span};

/// Complains of keys that do not belong in a mapping.
pub(super) fn check_keys(r: &mut Reader<'_>, map: &Map, known: &[&str], what: &str) {
    for e in &map.entries {
        if !known.contains(&e.key.text.as_str()) {
            let message = format!("`{}` is not a key of {what}", e.key.text);
            r.unknown_name(
                "pack::unknown-key",
                message,
                &e.key.text,
                e.key.span,
                known.iter().copied(),
            );
        }
    }
}

pub(super) fn required<'m>(
    r: &mut Reader<'_>,
    map: &'m Map,
    key: &str,
    what: &str,
    at: Span,
) -> Option<&'m Node> {
    let found = map.get(key);
    if found.is_none() {
        let first = map.entries.first().map_or(at, |e| e.key.span);
        r.error(
            "pack::missing-key",
            format!("{what} has no `{key}`"),
            first,
            format!("expected `{key}: …` in this mapping"),
        );
    }
    found
}

pub(super) fn required_text(
    r: &mut Reader<'_>,
    map: &Map,
    key: &str,
    what: &str,
    at: Span,
) -> Option<String> {
    let node = required(r, map, key, what, at)?;
    r.text(node, &format!("`{key}`"))
}

pub(super) fn optional_text(r: &mut Reader<'_>, map: &Map, key: &str) -> Option<String> {
    map.get(key).and_then(|n| r.text(n, &format!("`{key}`")))
}

pub(super) fn spanned(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Spanned<String>> {
    r.text(node, what).map(|value| Spanned {
        value,
        span: node.span,
    })
}

/// Reads each item of an optional list.
pub(super) fn each_of<T>(
    r: &mut Reader<'_>,
    map: &Map,
    key: &str,
    mut read: impl FnMut(&mut Reader<'_>, &Node) -> Option<T>,
) -> Vec<T> {
    let Some(node) = map.get(key) else {
        return Vec::new();
    };
    let items = r.list(node, &format!("`{key}`")).unwrap_or_default();
    items.iter().filter_map(|n| read(r, n)).collect()
}
