//! Conditions and values in sentences.

use super::eval::{Truth, World, amount, truth};
use super::explain::{Told, fact_of};
use super::program::{Amount, AmountId, Node, Program};
use crate::facts::{FactId, Whence, catalogue, show_members, show_value};
use crate::pack::AmountType;
use crate::quantity::{Interval, Unit, format_interval};

/// The members of a fact's choice or set, or yes and no.
pub(super) fn members(fact: FactId, mask: u128, between: &str) -> String {
    let def = catalogue().def(fact);
    if def.kind.choices().is_empty() {
        return show_value(&crate::facts::Value::OneOf(mask), None, def);
    }
    // A long list is told by what it leaves out.
    let all = def.kind.choices().len();
    let count = mask.count_ones() as usize;
    if count > 6 && count > all / 2 {
        let rest = !mask & ((1u128 << all) - 1);
        return format!("anything but {}", show_members(rest, &def.kind, " or "));
    }
    show_members(mask, &def.kind, between)
}

/// The unit to tell an amount in: that of the first literal or stated value in it.
fn unit_of(p: &Program, id: AmountId, w: Option<World<'_>>) -> Option<Unit> {
    let (code, _, _) = p.amount(id)?;
    match *code {
        Amount::Literal(m) => Some(m.unit),
        Amount::Number(_) => None,
        Amount::Fact(fact) => {
            let w = w?;
            w.facts.known(w.item, fact).and_then(|k| k.unit)
        }
        Amount::Times(_, a) | Amount::Difference(a, _) => unit_of(p, a, w),
        Amount::Sum(run) | Amount::Greatest(run) | Amount::Least(run) => {
            p.part_run(run).iter().find_map(|a| unit_of(p, *a, w))
        }
        Amount::Steps { .. } => Some(Unit::One),
    }
}

/// An amount in words, without a rig.
pub(super) fn show_amount(p: &Program, id: AmountId) -> String {
    let Some((code, of, _)) = p.amount(id) else {
        return String::new();
    };
    let join = |run, between: &str| {
        let parts: Vec<String> = p.part_run(run).iter().map(|a| show_amount(p, *a)).collect();
        parts.join(between)
    };
    match *code {
        Amount::Literal(m) => m.show(),
        Amount::Number(i) => show_number(i, *of),
        Amount::Fact(fact) => catalogue().def(fact).label.to_owned(),
        Amount::Times(factor, a) => {
            let share = factor < crate::quantity::Exact::ONE;
            let shown = if share {
                format!(
                    "{} of",
                    crate::quantity::format_exact(factor, Unit::Percent)
                )
            } else {
                format!("{} times", factor.to_decimal(6))
            };
            format!("{shown} {}", show_amount(p, a))
        }
        Amount::Sum(run) => format!("{} together", join(run, " and ")),
        Amount::Difference(a, b) => format!("{} less {}", show_amount(p, a), show_amount(p, b)),
        Amount::Greatest(run) => format!("the greatest of {}", join(run, ", ")),
        Amount::Least(run) => format!("the least of {}", join(run, ", ")),
        Amount::Steps {
            of,
            first,
            up_to,
            then,
            each,
        } => {
            let (of, each) = (show_amount(p, of), show_amount(p, each));
            if first == crate::quantity::Exact::ZERO {
                format!(
                    "{} for each {each} of {of} or part of it",
                    then.to_decimal(0)
                )
            } else {
                format!(
                    "{} up to {} of {of}, and {} more for each further {each} or part of it",
                    first.to_decimal(0),
                    show_amount(p, up_to),
                    then.to_decimal(0)
                )
            }
        }
    }
}

fn show_number(i: Interval, of: AmountType) -> String {
    match of {
        AmountType::Measure(d) => format_interval(i, d.base_unit()),
        AmountType::Day => {
            let day = |x: crate::quantity::Exact| {
                x.to_decimal(0)
                    .parse()
                    .map_or_else(|_| x.to_string(), crate::facts::format_day)
            };
            match (i.lo, i.hi) {
                (Some(a), Some(b)) if a != b => format!("{} to {}", day(a), day(b)),
                (Some(a), _) => day(a),
                _ => "any day".to_owned(),
            }
        }
        AmountType::Year => {
            i.lo.map_or_else(|| "any year".to_owned(), |x| x.to_decimal(0))
        }
    }
}

/// A fact's value, with its working where it was worked out, and in the statute's unit too where
/// that differs.
pub(super) fn show_fact(fact: FactId, w: World<'_>, statute: Option<Unit>) -> String {
    let def = catalogue().def(fact);
    let Some(known) = w.facts.known(w.item, fact) else {
        return "not known".to_owned();
    };
    let mut out = show_value(&known.value, known.unit.or(statute), def);
    if out == "not known" {
        return out;
    }
    if let (Some(own), Some(statute)) = (known.unit, statute)
        && own != statute
        && own.dimension() == statute.dimension()
        && own.dimension() != crate::quantity::Dimension::Count
    {
        out = format!("{out} ({})", show_value(&known.value, Some(statute), def));
    }
    if let Whence::WorkedOut(working) = &known.whence
        && !working.is_empty()
    {
        out = format!("{out} = {working}");
    }
    out
}

/// The left or right side of a comparison with its value for a rig.
fn show_side(p: &Program, id: AmountId, w: World<'_>, other: Option<Unit>) -> String {
    if let Some(fact) = fact_of(p, id) {
        return show_fact(fact, w, other);
    }
    let value = amount(p, id, w);
    let unit = unit_of(p, id, Some(w)).or(other);
    match (p.amount(id), unit) {
        (Some((Amount::Literal(m), _, _)), _) => m.show(),
        (Some((_, of @ (AmountType::Day | AmountType::Year), _)), _) => show_number(value, *of),
        (_, Some(unit)) => format_interval(value, unit),
        (Some((_, of, _)), None) => show_number(value, *of),
        (None, None) => String::new(),
    }
}

/// A leaf as a sentence: what it says, and what the rig has.
pub(super) fn sentence(p: &Program, told: Told, w: World<'_>) -> String {
    let t = truth(p, told.leaf, w);
    match p.node(told.leaf) {
        Node::Compare { left, by, right } => {
            let days = matches!(p.amount(left), Some((_, AmountType::Day, _)));
            let statute = unit_of(p, right, Some(w));
            let name = show_amount(p, left);
            let has = show_side(p, left, w, statute);
            let wants = match p.amount(right) {
                Some((Amount::Literal(m), _, _)) => m.show(),
                Some((Amount::Number(i), of, _)) => show_number(*i, *of),
                _ => format!(
                    "{} ({})",
                    show_amount(p, right),
                    show_side(p, right, w, unit_of(p, left, Some(w)))
                ),
            };
            format!(
                "{name} {has}: {}",
                verdict(t, told, &format!("{} {wants}", by.says(days)))
            )
        }
        Node::OneOf { fact, members: m } => {
            let wants = members(fact, m, " or ");
            let label = catalogue().def(fact).label;
            member_sentence(label, &show_fact(fact, w, None), t, told, &wants)
        }
        Node::Includes { fact, members: m } => {
            let wants = members(fact, m, " and ");
            let label = catalogue().def(fact).label;
            set_sentence(label, &show_fact(fact, w, None), t, told, &wants)
        }
        Node::IncludesAny { fact, members: m } => {
            let wants = members(fact, m, " or ");
            let label = catalogue().def(fact).label;
            set_sentence(label, &show_fact(fact, w, None), t, told, &wants)
        }
        Node::Look(at) => p
            .looks
            .get(at as usize)
            .map_or_else(String::new, |l| match t {
                Truth::True => format!("seen: {}", l.text),
                Truth::False => format!("seen, and not so: {}", l.text),
                _ => format!("to look at: {}", l.text),
            }),
        _ => String::new(),
    }
}

/// A yes/no or a choice as a sentence: what it is, and what it has to be where that differs.
fn member_sentence(label: &str, has: &str, t: Truth, told: Told, wants: &str) -> String {
    match (t, told.in_must, told.negated) {
        (Truth::True, true, true) => format!("{label}: {has}, must not be {wants}"),
        (Truth::False, true, false) => format!("{label}: {has}, must be {wants}"),
        (Truth::True, _, _) => format!("{label}: {has}"),
        // Of a yes or no there is nothing more to say.
        _ if wants == "yes" || wants == "no" => format!("{label}: {has}"),
        (Truth::False, _, _) => format!("{label}: {has}, not {wants}"),
        _ => format!("{label}: {has}; {wants}?"),
    }
}

/// A set as a sentence: what is in it, and what has to be.
fn set_sentence(label: &str, has: &str, t: Truth, told: Told, wants: &str) -> String {
    match (t, told.in_must, told.negated) {
        (Truth::True, true, true) => format!("{label}: {has}; must not include {wants}"),
        (Truth::False, true, false) => format!("{label}: {has}; must include {wants}"),
        (Truth::True, _, _) => format!("{label}: {has}; with {wants}"),
        (Truth::False, _, _) => format!("{label}: {has}; without {wants}"),
        _ => format!("{label}: {has}; with {wants}?"),
    }
}

fn verdict(t: Truth, told: Told, wants: &str) -> String {
    match (t, told.in_must, told.negated) {
        (Truth::True, true, true) => format!("must not be {wants}"),
        (Truth::False, true, false) => format!("must be {wants}"),
        (Truth::True, _, _) => format!("{wants}, yes"),
        (Truth::False, _, _) => format!("not {wants}"),
        _ => format!("{wants}?"),
    }
}
