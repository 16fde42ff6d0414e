//! Values in words.

use super::date::format_day;
use super::kind::{FactDef, Kind};
use super::value::Value;
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// A value in words, numbers in the unit given or else the base unit of their kind.
#[must_use]
pub fn show_value(value: &Value, unit: Option<Unit>, def: &FactDef) -> String {
    match (value, &def.kind) {
        (v, kind) if *v == Value::missing(kind) && !matches!(kind, Kind::Text) => {
            "not known".to_owned()
        }
        (Value::Number(i), Kind::Measure(d)) => {
            let unit = unit
                .filter(|u| u.dimension() == *d)
                .unwrap_or(d.base_unit());
            format_interval(*i, unit)
        }
        (Value::Number(i), Kind::Date) => show_range(*i, |x| {
            x.to_decimal(0)
                .parse()
                .map_or_else(|_| x.to_string(), format_day)
        }),
        (Value::Number(i), _) => show_range(*i, |x| x.to_decimal(0)),
        (Value::OneOf(m), Kind::YesNo) => match *m {
            Value::YES => "yes".to_owned(),
            Value::NO => "no".to_owned(),
            _ => "not known".to_owned(),
        },
        (Value::OneOf(m), kind) => show_members(*m, kind, " or "),
        (Value::Set { has, may }, kind) => match (has, may) {
            (0, 0) => "none".to_owned(),
            (h, m) if h == m => show_members(*h, kind, ", "),
            (h, _) => format!("{} and perhaps more", show_members(*h, kind, ", ")),
        },
    }
}

/// The names of the members of a mask.
#[must_use]
pub fn show_members(mask: u128, kind: &Kind, between: &str) -> String {
    let names: Vec<&str> = kind
        .choices()
        .iter()
        .enumerate()
        .filter(|(i, _)| mask >> i & 1 == 1)
        .map(|(_, c)| c.name)
        .collect();
    names.join(between)
}

/// A range of days or years.
fn show_range(i: Interval, show: impl Fn(Exact) -> String) -> String {
    match (i.lo, i.hi) {
        (Some(a), Some(b)) if a == b => show(a),
        (Some(a), Some(b)) => format!("{} to {}", show(a), show(b)),
        (Some(a), None) => format!("{} or later", show(a)),
        (None, Some(b)) => format!("{} or earlier", show(b)),
        (None, None) => "not known".to_owned(),
    }
}
