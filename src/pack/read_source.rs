//! Reads sources and periods.

use super::keys::{check_keys, optional_text, required, required_text};
use super::model::{Period, Source};
use super::read::COMMON_PRACTICE;
use super::words::Reading;
use crate::facts::parse_day;
use crate::rig::Reader;
use crate::source::{Map, Node, Span, Value};

pub(super) fn read_period(r: &mut Reader<'_>, map: &Map) -> Period {
    let Some(node) = map.get("in_force") else {
        return Period::default();
    };
    let Some(inner) = r.map(node, "`in_force`") else {
        return Period::default();
    };
    check_keys(r, inner, &["from", "until"], "`in_force`");
    let mut day = |key: &str| inner.get(key).and_then(|n| read_one_day(r, n, key));
    let (from, until) = (day("from"), day("until"));
    if let (Some(f), Some(u)) = (from, until)
        && f > u
    {
        r.error(
            "pack::dates-out-of-order",
            "the rule ends before it begins",
            node.span,
            "`until` is earlier than `from`",
        );
    }
    Period {
        from,
        until,
        span: Some(node.span),
    }
}

fn read_one_day(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<i64> {
    let text = r.text(node, what)?;
    let day = parse_day(&text);
    if day.is_none() {
        r.error(
            "read::date",
            format!("`{text}` is not a day"),
            node.span,
            "expected YYYY-MM-DD",
        );
    }
    day
}

pub(super) fn read_sources(r: &mut Reader<'_>, map: &Map, at: Span) -> Vec<Source> {
    let Some(node) = required(r, map, "sources", "the rule", at) else {
        return Vec::new();
    };
    let Some(items) = r.list(node, "`sources`") else {
        return Vec::new();
    };
    if items.is_empty() {
        r.error(
            "pack::no-source",
            "the rule cites nothing",
            node.span,
            format!("expected a source, or `{COMMON_PRACTICE}`"),
        );
    }
    items.iter().filter_map(|n| read_source(r, n)).collect()
}

fn read_source(r: &mut Reader<'_>, node: &Node) -> Option<Source> {
    if let Value::Scalar(s) = &node.value {
        if s.text.trim() == COMMON_PRACTICE {
            return Some(Source {
                cite: COMMON_PRACTICE.to_owned(),
                at: None,
                read: Reading::None,
                on: None,
                as_of: None,
            });
        }
        r.error(
            "pack::source",
            "not a source",
            node.span,
            format!("expected `cite`, `read` and `on`, or the words `{COMMON_PRACTICE}`"),
        );
        return None;
    }
    let map = r.map(node, "a source")?;
    check_keys(r, map, &["cite", "at", "read", "on", "as_of"], "a source");
    let cite = required_text(r, map, "cite", "the source", node.span);
    let grade = required(r, map, "read", "the source", node.span).and_then(|n| {
        let text = r.text(n, "`read`")?;
        let found = Reading::ALL
            .into_iter()
            .find(|g| g.name() == text && *g != Reading::None);
        if found.is_none() {
            r.unknown_name(
                "pack::reading",
                format!("`{text}` is no grade of reading"),
                &text,
                n.span,
                ["text", "excerpt", "secondary", "memory"],
            );
        }
        found
    });
    let on =
        required(r, map, "on", "the source", node.span).and_then(|n| read_one_day(r, n, "`on`"));
    Some(Source {
        cite: cite?,
        at: optional_text(r, map, "at"),
        read: grade?,
        on: Some(on?),
        as_of: optional_text(r, map, "as_of"),
    })
}
