//! Reads the value of one fact.

use super::reader::Reader;
use crate::facts::{FactDef, Kind, Known, Value, Whence, parse_days, parse_week_code};
use crate::quantity::{Exact, Interval};
use crate::source::{Node, Span};

/// The calendar years that a rig can state.
pub const YEARS: std::ops::RangeInclusive<i64> = 1800..=2200;

/// Reads a fact's value, or notes what is wrong with it.
pub fn read_known(r: &mut Reader<'_>, node: &Node, def: &FactDef) -> Option<Known> {
    let mut unit = None;
    let value = match def.kind {
        Kind::Measure(d) => {
            let m = r.measure(node, d, def.name)?;
            unit = Some(m.unit);
            let below = |end: Option<Exact>| end.is_some_and(|x| x < Exact::ZERO);
            if !def.signed && (below(m.interval.lo) || below(m.interval.hi)) {
                let message = format!("{}: a length below zero", def.name);
                let help =
                    "expected a length of zero or more; it is measured in one direction only";
                r.error_help("read::quantity", message, node.span, "here", help);
                return None;
            }
            // `at most 200 lb` leaves the lower end open; no weight is below zero.
            let possible = match def.signed {
                true => Interval::everything(),
                false => Interval::non_negative(),
            };
            Value::Number(m.interval.intersect(possible).unwrap_or(m.interval))
        }
        Kind::Year => Value::Number(read_year(r, node, def.name)?),
        Kind::Date => Value::Number(read_days(r, node, def.name)?),
        Kind::YesNo => Value::yes_no(r.yes_no(node, def.name)?),
        Kind::Choice(_) => Value::OneOf(members(r, node, def)?),
        Kind::Set(_) => {
            let m = if is_none_word(node) {
                0
            } else {
                members(r, node, def)?
            };
            Value::Set { has: m, may: m }
        }
        Kind::Text => {
            let scalar = r.scalar(node, def.name)?;
            check_text(r, node, &scalar.text, def)?;
            Value::OneOf(1)
        }
    };
    let written = match &node.value {
        crate::source::Value::Scalar(s) => Some(s.text.trim().to_owned()),
        _ => None,
    };
    let Span { start, end } = node.span;
    Some(Known {
        value,
        whence: Whence::Stated { start, end },
        unit,
        written,
    })
}

/// A text whose words must make sense: the date code of a tyre.
fn check_text(r: &mut Reader<'_>, node: &Node, text: &str, def: &FactDef) -> Option<()> {
    if def.name != "tyre.date_code" {
        return Some(());
    }
    match parse_week_code(text) {
        Ok(_) => Some(()),
        Err(e) => {
            r.error_help("read::date-code", format!("{}: {e}", def.name), node.span, "not a date code", "expected the last digits of the DOT number: two for the week (01 to 53), then two for the year, such as 2319; only the last digit of the year on tyres made before 2000, such as 317");
            None
        }
    }
}

/// An empty list or the word `none` says that a set is empty.
fn is_none_word(node: &Node) -> bool {
    match &node.value {
        crate::source::Value::Seq(s) => s.is_empty(),
        crate::source::Value::Scalar(s) => s.text.trim() == "none",
        _ => false,
    }
}

/// The bits of the members named, one or a list.
pub fn members(r: &mut Reader<'_>, node: &Node, def: &FactDef) -> Option<u128> {
    let choices = def.kind.choices();
    let mut bits = 0;
    let mut good = true;
    for (word, span) in r.texts(node, def.name)? {
        match choices.iter().position(|c| c.name == word) {
            Some(i) => bits |= 1 << i,
            None => {
                good = false;
                let message = format!("`{word}` is not a value of {}", def.name);
                r.unknown_name(
                    "read::unknown-choice",
                    message,
                    &word,
                    span,
                    choices.iter().map(|c| c.name),
                );
            }
        }
    }
    good.then_some(bits)
}

/// Reads a calendar year, or `2015 to 2019`.
pub fn read_year(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Interval> {
    let scalar = r.scalar(node, what)?;
    let year = |t: &str| {
        let t = t.trim();
        (t.len() == 4)
            .then(|| t.parse::<i64>().ok())?
            .filter(|y| YEARS.contains(y))
    };
    let text = scalar.text.trim();
    let (a, b) = text.split_once(" to ").unwrap_or((text, text));
    match (year(a), year(b)) {
        (Some(a), Some(b)) if a <= b => {
            Interval::new(Some(Exact::from_int(a)), Some(Exact::from_int(b)))
        }
        _ => {
            r.error_help(
                "read::year",
                format!("{what} is a calendar year"),
                node.span,
                "not a year",
                "expected four digits, such as 2019, or a range such as 2015 to 2019",
            );
            None
        }
    }
}

/// Reads a day, a month, a year, or a range of these.
pub fn read_days(r: &mut Reader<'_>, node: &Node, what: &str) -> Option<Interval> {
    let scalar = r.scalar(node, what)?;
    let text = scalar.text.trim();
    let days = match text.split_once(" to ") {
        Some((a, b)) => parse_days(a).zip(parse_days(b)).map(|(a, b)| (a.0, b.1)),
        None => parse_days(text),
    };
    match days {
        Some((a, b)) if a <= b => Interval::new(Some(Exact::from_int(a)), Some(Exact::from_int(b))),
        Some(_) => {
            r.error_help(
                "read::date",
                format!("{what}: the range ends before it begins"),
                node.span,
                "wrong way round",
                "write the earlier day first",
            );
            None
        }
        None => {
            r.error_help("read::date", format!("{what} is a date"), node.span, "not a date", "expected YYYY-MM-DD, or a month YYYY-MM or a year YYYY that stands for all its days");
            None
        }
    }
}
