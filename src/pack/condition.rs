//! Reads conditions: `when`, `unless`, `must` and definitions.

use super::amount::{amount_type, parse_operand, read_amount};
use super::model::{Amount, AmountKind, AmountType, Condition, ConditionKind, Look};
use super::words::Comparison;
use crate::facts::{FactDef, FactId, Kind, catalogue};
use crate::rig::{Reader, members};
use crate::source::{Entry, Map, Node, Span, Value};

/// Reads a condition: a mapping all of whose lines must hold.
pub fn read_condition(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Condition> {
    let map = r.map(node, what)?;
    if map.entries.is_empty() {
        r.error_help(
            "pack::empty-condition",
            format!("{what} is empty"),
            node.span,
            "nothing here",
            "leave the key out, or write a condition",
        );
        return None;
    }
    if let Some(left) = map.get("amount") {
        return read_amount_line(r, map, left, node.span);
    }
    let mut parts = Vec::with_capacity(map.entries.len());
    let mut good = true;
    for entry in &map.entries {
        match read_line(r, entry) {
            Some(c) => parts.push(c),
            None => good = false,
        }
    }
    good.then(|| all_of(parts, node.span))
}

fn all_of(mut parts: Vec<Condition>, span: Span) -> Condition {
    if parts.len() == 1
        && let Some(one) = parts.pop()
    {
        return one;
    }
    Condition {
        kind: ConditionKind::All(parts),
        span,
    }
}

/// Reads one line of a condition.
fn read_line(r: &mut Reader<'_>, entry: &Entry) -> Option<Condition> {
    let span = Span {
        start: entry.key.span.start,
        end: entry.value.span.end.max(entry.key.span.end),
    };
    let kind = match entry.key.text.as_str() {
        "all" => ConditionKind::All(read_list(r, &entry.value, "`all`")?),
        "any" => ConditionKind::Any(read_list(r, &entry.value, "`any`")?),
        "not" => ConditionKind::Not(Box::new(read_condition(r, &entry.value, "`not`")?)),
        "is" => return read_is(r, &entry.value, span, false),
        "is_not" => return read_is(r, &entry.value, span, true),
        "look" => return read_look(r, &entry.value, span),
        name => return read_fact_line(r, entry, name, span),
    };
    Some(Condition { kind, span })
}

fn read_list(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Vec<Condition>> {
    let items = r.list(node, what)?;
    if items.is_empty() {
        r.error(
            "pack::empty-condition",
            format!("{what} is empty"),
            node.span,
            "expected conditions",
        );
        return None;
    }
    let read: Vec<Option<Condition>> = items
        .iter()
        .map(|n| read_condition(r, n, "a condition"))
        .collect();
    read.into_iter().collect()
}

fn read_is(r: &mut Reader<'_>, node: &Node, span: Span, negate: bool) -> Option<Condition> {
    let mut parts: Vec<Condition> = Vec::new();
    for (name, at) in r.texts(node, "the name of a definition")? {
        let defined = Condition {
            kind: ConditionKind::Defined(name),
            span: at,
        };
        parts.push(if negate {
            Condition {
                kind: ConditionKind::Not(Box::new(defined)),
                span: at,
            }
        } else {
            defined
        });
    }
    Some(all_of(parts, span))
}

fn read_look(r: &mut Reader<'_>, node: &Node, span: Span) -> Option<Condition> {
    let look = |text: String, key: Option<String>, span: Span| Condition {
        kind: ConditionKind::Look(Look { key, text }),
        span,
    };
    match &node.value {
        Value::Map(map) => {
            let text = map.get("text").and_then(|n| r.text(n, "what to look for"));
            let key = map.get("key").and_then(|n| r.text(n, "the look's key"));
            for e in &map.entries {
                if !matches!(e.key.text.as_str(), "text" | "key") {
                    r.unknown_name(
                        "pack::unknown-key",
                        format!("`{}` is not a key of a look", e.key.text),
                        &e.key.text,
                        e.key.span,
                        ["text", "key"],
                    );
                }
            }
            if text.is_none() {
                r.error(
                    "pack::look",
                    "a look needs `text`",
                    node.span,
                    "expected `text: what to look for`",
                );
            }
            Some(look(text?, key, span))
        }
        _ => {
            let texts = r.texts(node, "a look")?;
            let parts: Vec<Condition> =
                texts.into_iter().map(|(t, at)| look(t, None, at)).collect();
            (!parts.is_empty()).then(|| all_of(parts, span))
        }
    }
}

/// Reads `fact: value` or `fact: {comparison: value, …}`.
fn read_fact_line(r: &mut Reader<'_>, entry: &Entry, name: &str, span: Span) -> Option<Condition> {
    let Some(fact) = catalogue().find(name) else {
        let words = ["all", "any", "not", "is", "is_not", "look", "amount"];
        let known = catalogue().all().map(|(_, d)| d.name).chain(words);
        r.unknown_name(
            "pack::unknown-fact",
            format!("`{name}` is not a fact"),
            name,
            entry.key.span,
            known,
        );
        return None;
    };
    let def = catalogue().def(fact);
    if matches!(def.kind, Kind::Text) {
        r.error(
            "pack::text-fact",
            format!("`{name}` is free text; no rule can read it"),
            entry.key.span,
            "not for conditions",
        );
        return None;
    }
    let Value::Map(map) = &entry.value.value else {
        return read_plain(r, &entry.value, fact, def, span);
    };
    if map.entries.is_empty() {
        r.error(
            "pack::empty-condition",
            format!("nothing is said of `{name}`"),
            entry.value.span,
            "expected a comparison",
        );
        return None;
    }
    let left = Amount {
        kind: AmountKind::Fact(fact),
        of: amount_type(&def.kind).unwrap_or(AmountType::Year),
        span: entry.key.span,
    };
    let read: Vec<Option<Condition>> = map
        .entries
        .iter()
        .map(|e| match def.kind.is_ordered() {
            true => read_compare(r, &left, e),
            false => read_membership(r, fact, def, e),
        })
        .collect();
    let parts: Option<Vec<Condition>> = read.into_iter().collect();
    Some(all_of(parts?, span))
}

/// `fact: value` means that it equals the value.
fn read_plain(
    r: &mut Reader<'_>,
    node: &Node,
    fact: FactId,
    def: &FactDef,
    span: Span,
) -> Option<Condition> {
    let kind = match def.kind {
        Kind::YesNo => ConditionKind::OneOf {
            fact,
            members: if r.yes_no(node, def.name)? { 2 } else { 1 },
            plain: true,
        },
        Kind::Choice(_) => ConditionKind::OneOf {
            fact,
            members: members(r, node, def)?,
            plain: true,
        },
        Kind::Set(_) => ConditionKind::Includes {
            fact,
            members: members(r, node, def)?,
        },
        _ => {
            let of = amount_type(&def.kind)?;
            ConditionKind::Compare {
                left: Box::new(Amount {
                    kind: AmountKind::Fact(fact),
                    of,
                    span,
                }),
                by: Comparison::Equals,
                right: Box::new(parse_operand(r, node, of, def.name)?),
            }
        }
    };
    Some(Condition { kind, span })
}

fn read_compare(r: &mut Reader<'_>, left: &Amount, entry: &Entry) -> Option<Condition> {
    let days = left.of == AmountType::Day;
    let Some(by) = comparison(&entry.key.text, days) else {
        let message = format!(
            "`{}` does not compare {}",
            entry.key.text,
            if days { "days" } else { "numbers" }
        );
        r.unknown_name(
            "pack::comparison",
            message,
            &entry.key.text,
            entry.key.span,
            COMPARISONS.map(|c| c.word(days)),
        );
        return None;
    };
    let right = parse_operand(r, &entry.value, left.of, &entry.key.text)?;
    Some(Condition {
        span: Span {
            start: entry.key.span.start,
            end: entry.value.span.end,
        },
        kind: ConditionKind::Compare {
            left: Box::new(left.clone()),
            by,
            right: Box::new(right),
        },
    })
}

const COMPARISONS: [Comparison; 5] = [
    Comparison::AtLeast,
    Comparison::MoreThan,
    Comparison::AtMost,
    Comparison::LessThan,
    Comparison::Equals,
];

fn comparison(word: &str, days: bool) -> Option<Comparison> {
    COMPARISONS.into_iter().find(|c| c.word(days) == word)
}

fn read_membership(
    r: &mut Reader<'_>,
    fact: FactId,
    def: &FactDef,
    entry: &Entry,
) -> Option<Condition> {
    let word = entry.key.text.as_str();
    let allowed: &[&str] = match def.kind {
        Kind::YesNo => &["equals"],
        Kind::Choice(_) => &["equals", "one_of", "none_of"],
        _ => &["includes", "one_of", "none_of"],
    };
    if !allowed.contains(&word) {
        let message = format!(
            "`{word}` does not suit `{}`, which is a {}",
            def.name,
            def.kind.name()
        );
        r.unknown_name(
            "pack::comparison",
            message,
            word,
            entry.key.span,
            allowed.iter().copied(),
        );
        return None;
    }
    if matches!(def.kind, Kind::YesNo) {
        return read_plain(r, &entry.value, fact, def, entry.value.span);
    }
    let members = members(r, &entry.value, def)?;
    let span = Span {
        start: entry.key.span.start,
        end: entry.value.span.end,
    };
    let kind = match (word, &def.kind) {
        ("includes", _) => ConditionKind::Includes { fact, members },
        (_, Kind::Set(_)) => ConditionKind::IncludesAny { fact, members },
        _ => ConditionKind::OneOf {
            fact,
            members,
            plain: word == "equals",
        },
    };
    let condition = Condition { kind, span };
    Some(if word == "none_of" {
        Condition {
            span,
            kind: ConditionKind::Not(Box::new(condition)),
        }
    } else {
        condition
    })
}

/// Reads `{amount: …, at_least: …}`.
fn read_amount_line(r: &mut Reader<'_>, map: &Map, left: &Node, span: Span) -> Option<Condition> {
    let left = read_amount(r, left, None, "`amount`")?;
    let others: Vec<&Entry> = map
        .entries
        .iter()
        .filter(|e| e.key.text != "amount")
        .collect();
    if others.is_empty() {
        r.error(
            "pack::comparison",
            "an `amount` needs a comparison beside it",
            span,
            "such as `at_least: 10,001 lb`",
        );
        return None;
    }
    let read: Vec<Option<Condition>> = others
        .into_iter()
        .map(|e| read_compare(r, &left, e))
        .collect();
    let parts: Option<Vec<Condition>> = read.into_iter().collect();
    Some(all_of(parts?, span))
}
