//! Reads amounts: literals, facts, and the few forms that combine them.

use super::model::{Amount, AmountKind, AmountType};
use crate::facts::{Kind, catalogue};
use crate::quantity::{Dimension, Exact, parse_measure};
use crate::rig::{Reader, read_days, read_year};
use crate::source::{Map, Node, Value};

/// What a fact of this kind measures, if it is a number at all.
#[must_use]
pub fn amount_type(kind: &Kind) -> Option<AmountType> {
    match kind {
        Kind::Measure(d) => Some(AmountType::Measure(*d)),
        Kind::Year => Some(AmountType::Year),
        Kind::Date => Some(AmountType::Day),
        _ => None,
    }
}

/// What an amount type is called in messages.
#[must_use]
pub fn type_name(of: AmountType) -> &'static str {
    match of {
        AmountType::Measure(d) => d.name(),
        AmountType::Year => "year",
        AmountType::Day => "date",
    }
}

/// Reads the right side of a comparison.
pub fn parse_operand(
    r: &mut Reader<'_>,
    node: &Node,
    of: AmountType,
    what: &str,
) -> Option<Amount> {
    read_amount(r, node, Some(of), what)
}

/// Reads an amount. With `of` given it must measure that; without it, its parts tell.
pub fn read_amount(
    r: &mut Reader<'_>,
    node: &Node,
    of: Option<AmountType>,
    what: &str,
) -> Option<Amount> {
    let amount = match &node.value {
        Value::Map(map) => read_form(r, map, node, of)?,
        _ => read_words(r, node, of, what)?,
    };
    match of {
        Some(want) if want != amount.of => {
            r.error(
                "pack::amount-kind",
                format!(
                    "{what} compares a {} with a {}",
                    type_name(want),
                    type_name(amount.of)
                ),
                node.span,
                format!("expected a {}", type_name(want)),
            );
            None
        }
        _ => Some(amount),
    }
}

/// A literal, a fact, `40% of fact` or `1.5 times fact`.
fn read_words(
    r: &mut Reader<'_>,
    node: &Node,
    of: Option<AmountType>,
    what: &str,
) -> Option<Amount> {
    let text = r.text(node, what)?;
    if let Some((factor, fact)) = split_factor(&text) {
        let Some(factor) = factor else {
            r.error(
                "pack::amount",
                format!("`{text}` is not a share of a fact"),
                node.span,
                "expected `40% of trailer.gvwr` or `1.5 times trailer.gvwr`",
            );
            return None;
        };
        let inner = read_fact(r, node, fact)?;
        return Some(Amount {
            of: inner.of,
            kind: AmountKind::Times(factor, Box::new(inner)),
            span: node.span,
        });
    }
    if text.starts_with(|c: char| c.is_ascii_lowercase()) {
        return read_fact(r, node, &text);
    }
    let (kind, of) = match of {
        Some(AmountType::Year) => (
            AmountKind::Number(read_year(r, node, what)?),
            AmountType::Year,
        ),
        Some(AmountType::Day) => (
            AmountKind::Number(read_days(r, node, what)?),
            AmountType::Day,
        ),
        Some(AmountType::Measure(d)) => (
            AmountKind::Literal(r.measure(node, d, what)?),
            AmountType::Measure(d),
        ),
        None => {
            let any = ALL_DIMENSIONS
                .into_iter()
                .find_map(|d| parse_measure(&text, d).ok().map(|m| (m, d)));
            match any {
                Some((m, d)) => (AmountKind::Literal(m), AmountType::Measure(d)),
                None => {
                    r.error(
                        "pack::amount",
                        format!("`{text}` is not an amount"),
                        node.span,
                        "expected a quantity with its unit, or a fact",
                    );
                    return None;
                }
            }
        }
    };
    Some(Amount {
        kind,
        of,
        span: node.span,
    })
}

const ALL_DIMENSIONS: [Dimension; 9] = [
    Dimension::Mass,
    Dimension::Length,
    Dimension::Speed,
    Dimension::Pressure,
    Dimension::Time,
    Dimension::Angle,
    Dimension::Force,
    Dimension::Share,
    Dimension::Count,
];

/// Splits `40% of x` and `1.5 times x`; the factor is `None` when it cannot be read.
fn split_factor(text: &str) -> Option<(Option<Exact>, &str)> {
    if let Some((share, fact)) = text.split_once(" of ") {
        let factor = parse_measure(share, Dimension::Share)
            .ok()
            .and_then(|m| m.interval.is_exact());
        return Some((factor, fact.trim()));
    }
    let (number, fact) = text.split_once(" times ")?;
    Some((Exact::parse_decimal(number.trim()), fact.trim()))
}

fn read_fact(r: &mut Reader<'_>, node: &Node, name: &str) -> Option<Amount> {
    let Some(fact) = catalogue().find(name) else {
        r.unknown_name(
            "pack::unknown-fact",
            format!("`{name}` is not a fact"),
            name,
            node.span,
            catalogue().all().map(|(_, d)| d.name),
        );
        return None;
    };
    let def = catalogue().def(fact);
    let Some(of) = amount_type(&def.kind) else {
        r.error(
            "pack::amount-kind",
            format!("`{name}` is a {}, not a number", def.kind.name()),
            node.span,
            "expected a number",
        );
        return None;
    };
    Some(Amount {
        kind: AmountKind::Fact(fact),
        of,
        span: node.span,
    })
}

const FORMS: [&str; 6] = ["sum", "difference", "greatest", "least", "times", "steps"];

/// Reads `{sum: […]}` and the other forms.
fn read_form(r: &mut Reader<'_>, map: &Map, node: &Node, of: Option<AmountType>) -> Option<Amount> {
    let Some(head) = map
        .entries
        .iter()
        .find(|e| FORMS.contains(&e.key.text.as_str()))
    else {
        r.error(
            "pack::amount",
            "not an amount",
            node.span,
            format!("expected one of: {}", FORMS.join(", ")),
        );
        return None;
    };
    let keys: &[&str] = match head.key.text.as_str() {
        "times" => &["times", "of"],
        "steps" => &["steps", "first", "up_to", "then", "each"],
        other => &[match other {
            "sum" => "sum",
            "difference" => "difference",
            "greatest" => "greatest",
            _ => "least",
        }],
    };
    for e in &map.entries {
        if !keys.contains(&e.key.text.as_str()) {
            r.unknown_name(
                "pack::unknown-key",
                format!("`{}` is not part of `{}`", e.key.text, head.key.text),
                &e.key.text,
                e.key.span,
                keys.iter().copied(),
            );
        }
    }
    match head.key.text.as_str() {
        "times" => read_times(r, map, node, of),
        "steps" => read_steps(r, map, &head.value, node),
        form => {
            let parts = read_parts(r, &head.value, of)?;
            let of = parts.first()?.of;
            let kind = match form {
                "sum" => AmountKind::Sum(parts),
                "greatest" => AmountKind::Greatest(parts),
                "least" => AmountKind::Least(parts),
                _ => {
                    let pair: Result<[Amount; 2], _> = parts.try_into();
                    let Ok([a, b]) = pair else {
                        r.error(
                            "pack::amount",
                            "a difference has two parts",
                            head.value.span,
                            "expected two amounts",
                        );
                        return None;
                    };
                    AmountKind::Difference(Box::new(a), Box::new(b))
                }
            };
            Some(Amount {
                kind,
                of,
                span: node.span,
            })
        }
    }
}

fn read_parts(r: &mut Reader<'_>, node: &Node, of: Option<AmountType>) -> Option<Vec<Amount>> {
    let items = r.list(node, "the parts")?;
    if items.len() < 2 {
        r.error(
            "pack::amount",
            "two parts at least are needed",
            node.span,
            "expected a list of amounts",
        );
        return None;
    }
    let mut parts: Vec<Amount> = Vec::with_capacity(items.len());
    for item in items {
        let want = of.or_else(|| parts.first().map(|p| p.of));
        parts.push(read_amount(r, item, want, "a part")?);
    }
    Some(parts)
}

fn read_times(
    r: &mut Reader<'_>,
    map: &Map,
    node: &Node,
    of: Option<AmountType>,
) -> Option<Amount> {
    let number = map.get("times")?;
    let text = r.text(number, "`times`")?;
    let share = || {
        parse_measure(&text, Dimension::Share)
            .ok()
            .and_then(|m| m.interval.is_exact())
    };
    let Some(factor) = Exact::parse_decimal(&text).or_else(share) else {
        r.error(
            "pack::amount",
            format!("`{text}` is not a factor"),
            number.span,
            "expected a number such as 1.5, or a share such as 40%",
        );
        return None;
    };
    let Some(inner) = map.get("of") else {
        r.error(
            "pack::amount",
            "`times` needs `of`",
            node.span,
            "expected `of: an amount`",
        );
        return None;
    };
    let inner = read_amount(r, inner, of, "`of`")?;
    Some(Amount {
        of: inner.of,
        kind: AmountKind::Times(factor, Box::new(inner)),
        span: node.span,
    })
}

fn read_steps(r: &mut Reader<'_>, map: &Map, along: &Node, node: &Node) -> Option<Amount> {
    let of = read_amount(r, along, None, "`steps`")?;
    let Some(each) = map.get("each") else {
        r.error(
            "pack::amount",
            "`steps` needs `each`",
            node.span,
            "expected `each: the size of a step`",
        );
        return None;
    };
    let each = read_amount(r, each, Some(of.of), "`each`")?;
    let up_to = match map.get("up_to") {
        Some(n) => read_amount(r, n, Some(of.of), "`up_to`")?,
        None => Amount {
            kind: AmountKind::Times(Exact::ZERO, Box::new(each.clone())),
            of: of.of,
            span: node.span,
        },
    };
    let mut count = |key: &str, default: Exact| match map.get(key) {
        Some(n) => r
            .measure(n, Dimension::Count, key)
            .and_then(|m| m.interval.is_exact()),
        None => Some(default),
    };
    let first = count("first", Exact::ZERO)?;
    let then = count("then", Exact::ONE)?;
    Some(Amount {
        kind: AmountKind::Steps {
            of: Box::new(of),
            first,
            up_to: Box::new(up_to),
            then,
            each: Box::new(each),
        },
        of: AmountType::Measure(Dimension::Count),
        span: node.span,
    })
}
