//! Reads rules and adoptions.

use super::condition::read_condition;
use super::keys::{check_keys, each_of, optional_text, required, required_text, spanned};
use super::model::{Adoption, Case, Rule, Spanned};
use super::read::read_definitions;
use super::read_source::{read_period, read_sources};
use super::words::Topic;
use crate::facts::Scope;
use crate::rig::Reader;
use crate::source::{Node, Span};

pub(super) fn read_adoption(r: &mut Reader<'_>, node: &Node) -> Option<Adoption> {
    let map = r.map(node, "an adoption")?;
    check_keys(
        r,
        map,
        &[
            "id", "pack", "rules", "topics", "except", "when", "unless", "redefine", "note",
            "sources", "in_force", "cases",
        ],
        "an adoption",
    );
    let names = |r: &mut Reader<'_>, key: &str| -> Vec<Spanned<String>> {
        let texts = map
            .get(key)
            .and_then(|n| r.texts(n, &format!("`{key}`")))
            .unwrap_or_default();
        texts
            .into_iter()
            .map(|(value, span)| Spanned { value, span })
            .collect()
    };
    let topics = names(r, "topics")
        .into_iter()
        .filter_map(|t| find_topic(r, &t.value, t.span))
        .collect();
    let rules = names(r, "rules");
    let except = names(r, "except");
    let id = required(r, map, "id", "the adoption", node.span).and_then(|n| spanned(r, n, "`id`"));
    let pack =
        required(r, map, "pack", "the adoption", node.span).and_then(|n| spanned(r, n, "`pack`"));
    Some(Adoption {
        rules,
        topics,
        except,
        when: map.get("when").and_then(|n| read_condition(r, n, "`when`")),
        unless: map
            .get("unless")
            .and_then(|n| read_condition(r, n, "`unless`")),
        redefine: map
            .get("redefine")
            .map(|n| read_definitions(r, n))
            .unwrap_or_default(),
        note: optional_text(r, map, "note"),
        sources: read_sources(r, map, node.span),
        in_force: read_period(r, map),
        cases: each_of(r, map, "cases", |_, n| Some(Case { node: n.clone() })),
        id: id?,
        pack: pack?,
        span: node.span,
    })
}

const RULE_KEYS: [&str; 12] = [
    "id", "topic", "says", "note", "doubt", "each", "when", "unless", "must", "sources",
    "in_force", "cases",
];

pub(super) fn read_rule(r: &mut Reader<'_>, node: &Node) -> Option<Rule> {
    let map = r.map(node, "a rule")?;
    check_keys(r, map, &RULE_KEYS, "a rule");
    let id = required(r, map, "id", "the rule", node.span).and_then(|n| spanned(r, n, "`id`"));
    if let Some(id) = &id
        && !is_slug(&id.value)
    {
        r.error(
            "pack::id",
            format!("`{}` is not an id", id.value),
            id.span,
            "expected small letters, digits and hyphens",
        );
    }
    let what = id
        .as_ref()
        .map_or("the rule".to_owned(), |i| format!("rule `{}`", i.value));
    let topic = required(r, map, "topic", &what, node.span)
        .and_then(|n| r.text(n, "`topic`").and_then(|t| find_topic(r, &t, n.span)));
    let says = required_text(r, map, "says", &what, node.span);
    let must =
        required(r, map, "must", &what, node.span).and_then(|n| read_condition(r, n, "`must`"));
    let when = map.get("when").map(|n| read_condition(r, n, "`when`"));
    let unless = map.get("unless").map(|n| read_condition(r, n, "`unless`"));
    let sources = read_sources(r, map, node.span);
    let in_force = read_period(r, map);
    let cases = each_of(r, map, "cases", |_, n| Some(Case { node: n.clone() }));
    let each = map.get("each").and_then(|n| read_each(r, n));
    Some(Rule {
        note: optional_text(r, map, "note"),
        doubt: optional_text(r, map, "doubt"),
        each,
        // A condition that could not be read must not make the rule wider.
        when: match when {
            Some(read) => Some(read?),
            None => None,
        },
        unless: match unless {
            Some(read) => Some(read?),
            None => None,
        },
        must: must?,
        sources,
        in_force,
        cases,
        id: id?,
        topic: topic?,
        says: says?,
        span: node.span,
    })
}

/// Small letters, digits and single hyphens.
#[must_use]
pub fn is_slug(text: &str) -> bool {
    !text.is_empty()
        && text
            .bytes()
            .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
        && !text.starts_with('-')
        && !text.ends_with('-')
}

pub(super) fn find_topic(r: &mut Reader<'_>, text: &str, at: Span) -> Option<Topic> {
    let topic = Topic::find(text);
    if topic.is_none() {
        r.unknown_name(
            "pack::topic",
            format!("`{text}` is no topic"),
            text,
            at,
            Topic::ALL.map(Topic::name),
        );
    }
    topic
}

fn read_each(r: &mut Reader<'_>, node: &Node) -> Option<Scope> {
    let text = r.text(node, "`each`")?;
    let scope = Scope::ALL
        .into_iter()
        .find(|s| s.each_name() == Some(text.as_str()));
    if scope.is_none() {
        let known: Vec<&str> = Scope::ALL.iter().filter_map(|s| s.each_name()).collect();
        r.unknown_name(
            "pack::each",
            format!("`{text}` is nothing to run a rule for"),
            &text,
            node.span,
            known,
        );
    }
    scope
}
