//! Evaluates compiled rules, three-valued over ranges, without allocating.

use super::program::{Amount, AmountId, Node, NodeId, Program, RuleCode};
use crate::facts::{Day, FactSet, ItemId, Scope, Tri, Value};
use crate::pack::Comparison;
use crate::quantity::{Compared, Exact, Interval};

/// What is known of a condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Truth {
    /// It does not hold.
    False,
    /// Facts are missing that would tell.
    Unknown,
    /// Somebody has to look.
    Confirm,
    /// It holds.
    True,
}

impl Truth {
    fn negate(self) -> Truth {
        match self {
            Truth::False => Truth::True,
            Truth::True => Truth::False,
            other => other,
        }
    }
}

impl From<Tri> for Truth {
    fn from(t: Tri) -> Truth {
        match t {
            Tri::False => Truth::False,
            Tri::Unknown => Truth::Unknown,
            Tri::True => Truth::True,
        }
    }
}

impl From<Compared> for Truth {
    fn from(c: Compared) -> Truth {
        match c {
            Compared::Always => Truth::True,
            Compared::Never => Truth::False,
            Compared::Sometimes => Truth::Unknown,
        }
    }
}

/// What a rule says of a rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// The rule does not apply.
    DoesNotApply,
    /// It applies and is kept.
    Met,
    /// Somebody has to look.
    Confirm,
    /// A fact is missing.
    Unknown,
    /// It applies and is broken.
    NotMet,
}

impl Outcome {
    /// All outcomes, the gravest first.
    pub const ALL: [Outcome; 5] = [
        Outcome::NotMet,
        Outcome::Unknown,
        Outcome::Confirm,
        Outcome::Met,
        Outcome::DoesNotApply,
    ];

    /// The word in packs and reports.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Outcome::Met => "met",
            Outcome::NotMet => "not-met",
            Outcome::DoesNotApply => "does-not-apply",
            Outcome::Unknown => "unknown",
            Outcome::Confirm => "confirm",
        }
    }

    /// The outcome of that name.
    #[must_use]
    pub fn find(name: &str) -> Option<Outcome> {
        Outcome::ALL.into_iter().find(|o| o.name() == name)
    }
}

/// A rig as a rule sees it: its facts, the item in question, and what was looked at.
#[derive(Clone, Copy)]
pub struct World<'a> {
    /// The facts.
    pub facts: &'a FactSet,
    /// The item a rule with `each` is run for, or the rig.
    pub item: ItemId,
    /// For each look of the program, whether it was seen to be right.
    pub looks: &'a [Option<bool>],
}

/// Evaluates a condition.
#[must_use]
pub fn truth(p: &Program, id: NodeId, w: World<'_>) -> Truth {
    match p.node(id) {
        Node::True => Truth::True,
        Node::All(run) => {
            let mut all = Truth::True;
            for kid in p.run(run) {
                all = all.min(truth(p, *kid, w));
                if all == Truth::False {
                    break;
                }
            }
            all
        }
        Node::Any(run) => {
            let mut any = Truth::False;
            for kid in p.run(run) {
                any = any.max(truth(p, *kid, w));
                if any == Truth::True {
                    break;
                }
            }
            any
        }
        Node::Not(inner) => truth(p, inner, w).negate(),
        Node::Compare { left, by, right } => compare(amount(p, left, w), by, amount(p, right, w)),
        Node::OneOf { fact, members } => match w.facts.value(w.item, fact) {
            Value::OneOf(possible) if possible & !members == 0 => Truth::True,
            Value::OneOf(possible) if possible & members == 0 => Truth::False,
            _ => Truth::Unknown,
        },
        Node::Includes { fact, members } => match w.facts.value(w.item, fact) {
            Value::Set { has, .. } if members & !has == 0 => Truth::True,
            Value::Set { may, .. } if members & !may != 0 => Truth::False,
            _ => Truth::Unknown,
        },
        Node::IncludesAny { fact, members } => match w.facts.value(w.item, fact) {
            Value::Set { has, .. } if members & has != 0 => Truth::True,
            Value::Set { may, .. } if members & may == 0 => Truth::False,
            _ => Truth::Unknown,
        },
        Node::Look(at) => match w.looks.get(at as usize).copied().flatten() {
            Some(true) => Truth::True,
            Some(false) => Truth::False,
            None => Truth::Confirm,
        },
    }
}

/// Compares two ranges.
#[must_use]
pub fn compare(left: Interval, by: Comparison, right: Interval) -> Truth {
    match by {
        Comparison::AtLeast => left.at_least(right),
        Comparison::MoreThan => left.more_than(right),
        Comparison::AtMost => left.at_most(right),
        Comparison::LessThan => left.less_than(right),
        Comparison::Equals => left.equals(right),
    }
    .into()
}

/// The range of an amount.
#[must_use]
pub fn amount(p: &Program, id: AmountId, w: World<'_>) -> Interval {
    let Some((code, _, _)) = p.amount(id) else {
        return Interval::everything();
    };
    let fold = |run, f: fn(Interval, Interval) -> Interval| {
        let mut parts = p.part_run(run).iter().map(|a| amount(p, *a, w));
        let first = parts.next().unwrap_or(Interval::everything());
        parts.fold(first, f)
    };
    match *code {
        Amount::Literal(m) => m.interval,
        Amount::Number(i) => i,
        Amount::Fact(fact) => w.facts.value(w.item, fact).interval(),
        Amount::Times(factor, inner) => amount(p, inner, w).scale(factor),
        Amount::Sum(run) => fold(run, Interval::add),
        Amount::Difference(a, b) => amount(p, a, w).sub(amount(p, b, w)),
        Amount::Greatest(run) => fold(run, Interval::max),
        Amount::Least(run) => fold(run, Interval::min),
        Amount::Steps {
            of,
            first,
            up_to,
            then,
            each,
        } => {
            let beyond = amount(p, of, w).sub(amount(p, up_to, w));
            let steps = beyond.div(amount(p, each, w)).ceil();
            let more = steps.max(Interval::exactly(Exact::ZERO)).scale(then);
            Interval::exactly(first).add(more)
        }
    }
}

/// Combines whether a rule applies with whether it is kept.
#[must_use]
pub fn combine(applies: Truth, must: Truth, doubt: bool) -> Outcome {
    match (applies, must) {
        (Truth::False, _) => Outcome::DoesNotApply,
        (Truth::Unknown, _) | (_, Truth::Unknown) => Outcome::Unknown,
        (Truth::Confirm, _) | (_, Truth::Confirm) => Outcome::Confirm,
        (Truth::True, Truth::False) if doubt => Outcome::Confirm,
        (Truth::True, Truth::False) => Outcome::NotMet,
        (Truth::True, Truth::True) => Outcome::Met,
    }
}

/// Whether a rule is in force on a day; without a day it is taken to be.
#[must_use]
pub fn in_force(rule: &RuleCode, on: Option<Day>) -> bool {
    on.is_none_or(|d| rule.periods.iter().all(|p| p.contains(d)))
}

/// The outcome of a rule for one item, or for the rig.
#[must_use]
pub fn outcome_of_item(p: &Program, rule: &RuleCode, w: World<'_>) -> Outcome {
    let applies = truth(p, rule.applies, w);
    if applies == Truth::False {
        return Outcome::DoesNotApply;
    }
    combine(applies, truth(p, rule.must, w), rule.doubt)
}

/// The outcome of a rule for a rig: for a rule with `each`, the gravest among its items.
#[must_use]
pub fn outcome(
    p: &Program,
    rule: &RuleCode,
    facts: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Outcome {
    if !in_force(rule, on) {
        return Outcome::DoesNotApply;
    }
    let mut gravest = Outcome::DoesNotApply;
    for_each_item(rule.each, facts, |item| {
        let w = World { facts, item, looks };
        gravest = gravest.max(outcome_of_item(p, rule, w));
    });
    gravest
}

/// Calls `f` with each item that a rule is run for. Where the file does not list such items, one
/// item of which nothing is known stands for those there may be.
pub fn for_each_item(each: Option<Scope>, facts: &FactSet, mut f: impl FnMut(ItemId)) {
    let Some(scope) = each else {
        return f(ItemId::RIG);
    };
    let items = facts.items(scope);
    for index in 0..items.len() {
        f(ItemId { scope, index });
    }
    if !facts.is_complete(scope) {
        f(ItemId {
            scope,
            index: items.len(),
        });
    }
}
