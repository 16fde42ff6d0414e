//! Slips: the small changes to a rule that its cases ought to notice.
//!
//! A slip is made on the compiled program, at every node that comes from the same place of the
//! pack's text: a term defined once and used in many rules is changed in all of them, as an
//! author's slip would.

use crate::engine::{Amount, AmountId, Node, NodeId, Program};
use crate::facts::{FactId, catalogue};
use crate::pack::{AmountType, Comparison};
use crate::quantity::{Exact, Interval, Measure, Unit};
use crate::source::Span;
use std::collections::BTreeMap;

/// What kind of slip it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SlipKind {
    /// A comparison weakened or tightened: at least for more than.
    Comparison,
    /// A number off by the smallest step that the text could mean.
    Number,
    /// A condition that has no effect: always true, or always false.
    Condition,
    /// A member of a list left out.
    Member,
    /// One weight taken for another.
    WeightBasis,
    /// A date off by a day, or left out.
    Date,
}

impl SlipKind {
    /// All kinds.
    pub const ALL: [SlipKind; 6] = [
        SlipKind::Comparison,
        SlipKind::Number,
        SlipKind::Condition,
        SlipKind::Member,
        SlipKind::WeightBasis,
        SlipKind::Date,
    ];

    /// The kind in words.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            SlipKind::Comparison => "comparison",
            SlipKind::Number => "number off by a step",
            SlipKind::Condition => "condition without effect",
            SlipKind::Member => "member left out",
            SlipKind::WeightBasis => "weight basis",
            SlipKind::Date => "date",
        }
    }
}

/// A change to one entry of the program.
#[derive(Clone, Debug)]
pub enum Change {
    /// Nodes that become another node.
    Nodes(Vec<NodeId>, Node),
    /// Amounts that become another amount.
    Amounts(Vec<AmountId>, Amount),
    /// The period of rules, by their place in the program; which of the two; first and last day.
    Period(Vec<usize>, usize, Option<i64>, Option<i64>),
}

/// One slip.
#[derive(Clone, Debug)]
pub struct Slip {
    /// The kind.
    pub kind: SlipKind,
    /// What it would be: "`more_than` 3,000 lb".
    pub would_be: String,
    /// Where the changed words stand.
    pub span: Span,
    /// The change.
    pub change: Change,
    /// The rules that it changes, by their place in the program.
    pub rules: Vec<usize>,
}

/// Every slip in the text of one of the compiled packs.
#[must_use]
pub fn slips(p: &Program, pack: usize) -> Vec<Slip> {
    let mut nodes: BTreeMap<(Span, u8), (Vec<NodeId>, Vec<usize>)> = BTreeMap::new();
    let mut amounts: BTreeMap<(Span, u8), (Vec<AmountId>, Vec<usize>)> = BTreeMap::new();
    for (index, rule) in p.rules.iter().enumerate() {
        for root in [rule.applies, rule.must] {
            p.leaves(root, &mut |leaf| {
                let Some((home, span)) = p.places.get(leaf.0 as usize) else {
                    return;
                };
                if *home != pack {
                    return;
                }
                let entry = nodes.entry((*span, node_tag(p.node(leaf)))).or_default();
                push_new(&mut entry.0, leaf);
                push_new(&mut entry.1, index);
                if let Node::Compare { left, right, .. } = p.node(leaf) {
                    for side in [left, right] {
                        visit_amounts(p, side, &mut |id, span, tag| {
                            let entry = amounts.entry((span, tag)).or_default();
                            push_new(&mut entry.0, id);
                            push_new(&mut entry.1, index);
                        });
                    }
                }
            });
        }
    }
    let mut out = Vec::new();
    for ((span, _), (ids, rules)) in nodes {
        node_slips(p, span, &ids, &rules, &mut out);
    }
    for ((span, _), (ids, rules)) in amounts {
        amount_slips(p, span, &ids, &rules, &mut out);
    }
    period_slips(p, pack, &mut out);
    out
}

fn push_new<T: PartialEq>(list: &mut Vec<T>, item: T) {
    if !list.contains(&item) {
        list.push(item);
    }
}

/// Tells apart nodes of different form that share a place.
fn node_tag(n: Node) -> u8 {
    match n {
        Node::Compare { .. } => 1,
        Node::OneOf { .. } => 2,
        Node::Includes { .. } => 3,
        Node::IncludesAny { .. } => 4,
        Node::Look(_) => 5,
        _ => 0,
    }
}

fn visit_amounts(p: &Program, id: AmountId, f: &mut dyn FnMut(AmountId, Span, u8)) {
    let Some((amount, _, span)) = p.amount(id) else {
        return;
    };
    match *amount {
        Amount::Literal(_) | Amount::Number(_) => f(id, *span, 1),
        Amount::Fact(_) => f(id, *span, 2),
        Amount::Times(_, a) => {
            f(id, *span, 3);
            visit_amounts(p, a, f);
        }
        Amount::Sum(run) | Amount::Greatest(run) | Amount::Least(run) => {
            for part in p.part_run(run) {
                visit_amounts(p, *part, f);
            }
        }
        Amount::Difference(a, b) => {
            visit_amounts(p, a, f);
            visit_amounts(p, b, f);
        }
        Amount::Steps {
            of, up_to, each, ..
        } => {
            f(id, *span, 4);
            visit_amounts(p, of, f);
            visit_amounts(p, up_to, f);
            visit_amounts(p, each, f);
        }
    }
}

fn node_slips(p: &Program, span: Span, ids: &[NodeId], rules: &[usize], out: &mut Vec<Slip>) {
    let Some(first) = ids.first() else { return };
    let mut add = |kind, would_be: String, node| {
        out.push(Slip {
            kind,
            would_be,
            span,
            change: Change::Nodes(ids.to_vec(), node),
            rules: rules.to_vec(),
        });
    };
    let node = p.node(*first);
    add(SlipKind::Condition, "always true".to_owned(), Node::True);
    add(SlipKind::Condition, "always false".to_owned(), FALSE);
    match node {
        Node::Compare { left, by, right } => {
            let days = matches!(p.amount(left), Some((_, AmountType::Day, _)));
            for other in near(by) {
                let node = Node::Compare {
                    left,
                    by: *other,
                    right,
                };
                // The ids share a place but not their amounts, so each keeps its own.
                add(
                    SlipKind::Comparison,
                    format!("`{}`", other.word(days)),
                    node,
                );
            }
        }
        Node::OneOf { fact, members } => {
            let choices = catalogue().def(fact).kind.choices();
            for (bit, choice) in choices.iter().enumerate() {
                let less = members & !(1 << bit);
                if members >> bit & 1 == 1 && less != 0 {
                    add(
                        SlipKind::Member,
                        format!("without `{}`", choice.name),
                        Node::OneOf {
                            fact,
                            members: less,
                        },
                    );
                }
            }
        }
        Node::Includes { fact, members } | Node::IncludesAny { fact, members } => {
            let any = matches!(node, Node::IncludesAny { .. });
            let choices = catalogue().def(fact).kind.choices();
            for (bit, choice) in choices.iter().enumerate() {
                let less = members & !(1 << bit);
                if members >> bit & 1 == 1 && less != 0 {
                    let node = if any {
                        Node::IncludesAny {
                            fact,
                            members: less,
                        }
                    } else {
                        Node::Includes {
                            fact,
                            members: less,
                        }
                    };
                    add(SlipKind::Member, format!("without `{}`", choice.name), node);
                }
            }
        }
        _ => {}
    }
}

/// A run of no nodes at all, of which none holds.
const FALSE: Node = Node::Any(crate::engine::Run { start: 0, len: 0 });

/// The comparisons that are taken for one another.
fn near(by: Comparison) -> &'static [Comparison] {
    match by {
        Comparison::AtLeast => &[Comparison::MoreThan],
        Comparison::MoreThan => &[Comparison::AtLeast],
        Comparison::AtMost => &[Comparison::LessThan],
        Comparison::LessThan => &[Comparison::AtMost],
        Comparison::Equals => &[Comparison::AtLeast, Comparison::AtMost],
    }
}

fn amount_slips(p: &Program, span: Span, ids: &[AmountId], rules: &[usize], out: &mut Vec<Slip>) {
    let Some((amount, of, _)) = ids.first().and_then(|id| p.amount(*id)) else {
        return;
    };
    let mut add = |kind, would_be: String, amount| {
        out.push(Slip {
            kind,
            would_be,
            span,
            change: Change::Amounts(ids.to_vec(), amount),
            rules: rules.to_vec(),
        });
    };
    match *amount {
        Amount::Literal(m) => {
            let step = step_of(m.unit);
            for signed in [step, step.neg()] {
                if let Some(interval) = shift(m.interval, signed) {
                    let moved = Measure { interval, ..m };
                    add(SlipKind::Number, moved.show(), Amount::Literal(moved));
                }
            }
        }
        Amount::Number(i) => {
            for signed in [Exact::ONE, Exact::ONE.neg()] {
                if let Some(moved) = shift(i, signed) {
                    add(
                        SlipKind::Number,
                        number_words(moved, *of),
                        Amount::Number(moved),
                    );
                }
            }
        }
        Amount::Fact(fact) => {
            for other in other_bases(fact) {
                add(
                    SlipKind::WeightBasis,
                    format!("`{}`", catalogue().def(other).name),
                    Amount::Fact(other),
                );
            }
        }
        Amount::Times(factor, inner) => {
            let step = Exact::new(1, 100).unwrap_or(Exact::ONE);
            for signed in [step, step.neg()] {
                if let Some(moved) = factor.checked_add(signed) {
                    add(
                        SlipKind::Number,
                        format!("{} times", moved.to_decimal(6)),
                        Amount::Times(moved, inner),
                    );
                }
            }
        }
        Amount::Steps {
            of,
            first,
            up_to,
            then,
            each,
        } => {
            for signed in [Exact::ONE, Exact::ONE.neg()] {
                if let Some(first) = first.checked_add(signed) {
                    let would_be = format!("{} first", first.to_decimal(0));
                    add(
                        SlipKind::Number,
                        would_be,
                        Amount::Steps {
                            of,
                            first,
                            up_to,
                            then,
                            each,
                        },
                    );
                }
            }
        }
        _ => {}
    }
}

fn number_words(i: Interval, of: AmountType) -> String {
    let one = i.lo.or(i.hi).unwrap_or(Exact::ZERO);
    match of {
        AmountType::Day => one
            .to_decimal(0)
            .parse()
            .map_or_else(|_| one.to_string(), crate::facts::format_day),
        _ => one.to_decimal(0),
    }
}

fn shift(i: Interval, by: Exact) -> Option<Interval> {
    let moved = |end: Option<Exact>| match end {
        Some(e) => e.checked_add(by).map(Some),
        None => Some(None),
    };
    Interval::new(moved(i.lo)?, moved(i.hi)?)
}

/// The smallest step that a figure in this unit could be off by, in the base unit.
#[must_use]
pub fn step_of(unit: Unit) -> Exact {
    let step = match unit {
        Unit::Foot | Unit::Yard => Unit::Inch,
        Unit::Meter => Unit::Centimeter,
        Unit::Kilometer => Unit::Kilometer,
        Unit::Tonne => Unit::Kilogram,
        Unit::ShortTon => Unit::Pound,
        other => other,
    };
    step.factor()
}

/// Other weights that one weight is taken for.
fn other_bases(fact: FactId) -> Vec<FactId> {
    const FAMILIES: [&[&str]; 4] = [
        &[
            "trailer.gross_weight",
            "trailer.gvwr",
            "trailer.empty_weight",
            "trailer.registered_weight",
            "trailer.carrying_capacity",
            "trailer.greatest_weight",
        ],
        &[
            "tow_vehicle.gross_weight",
            "tow_vehicle.gvwr",
            "tow_vehicle.curb_weight",
            "tow_vehicle.registered_weight",
        ],
        &[
            "combination.gross_weight",
            "combination.gvwr",
            "combination.registered_weight",
            "combination.greatest_weight",
        ],
        &[
            "trailer.length",
            "trailer.loaded_length",
            "combination.length",
        ],
    ];
    let name = catalogue().def(fact).name;
    let family = FAMILIES.iter().find(|f| f.contains(&name));
    let others = family
        .into_iter()
        .flat_map(|f| f.iter())
        .filter(|n| **n != name);
    others.filter_map(|n| catalogue().find(n)).collect()
}

fn period_slips(p: &Program, pack: usize, out: &mut Vec<Slip>) {
    let mut seen: BTreeMap<Span, (Vec<usize>, usize)> = BTreeMap::new();
    for (index, rule) in p.rules.iter().enumerate() {
        for (which, period) in rule.periods.iter().enumerate() {
            // A rule's own period stands in the pack that wrote it, an adoption's in the adopting one.
            let home = match rule.from {
                crate::engine::RuleFrom::Adopted { pack, .. } if which == 0 => pack,
                _ => rule.pack,
            };
            if let (Some(span), true) = (period.span, home == pack) {
                seen.entry(span)
                    .or_insert((Vec::new(), which))
                    .0
                    .push(index);
            }
        }
    }
    for (span, (rules, which)) in seen {
        let Some(period) = rules
            .first()
            .and_then(|r| p.rules.get(*r))
            .map(|r| r.periods[which])
        else {
            continue;
        };
        let mut add = |would_be: String, from, until| {
            out.push(Slip {
                kind: SlipKind::Date,
                would_be,
                span,
                change: Change::Period(rules.clone(), which, from, until),
                rules: rules.clone(),
            });
        };
        for by in [1, -1] {
            if let Some(f) = period.from {
                add(
                    format!("from {}", crate::facts::format_day(f + by)),
                    Some(f + by),
                    period.until,
                );
            }
            if let Some(u) = period.until {
                add(
                    format!("until {}", crate::facts::format_day(u + by)),
                    period.from,
                    Some(u + by),
                );
            }
        }
    }
}

/// Makes a change and returns what undoes it.
pub fn apply(p: &mut Program, change: &Change) -> Vec<Undo> {
    let mut undo = Vec::new();
    match change {
        Change::Nodes(ids, node) => {
            for id in ids {
                if let Some(slot) = p.nodes.get_mut(id.0 as usize) {
                    undo.push(Undo::Node(*id, *slot));
                    *slot = match (*slot, *node) {
                        // Only the comparison is changed; the sides are the node's own.
                        (Node::Compare { left, right, .. }, Node::Compare { by, .. }) => {
                            Node::Compare { left, by, right }
                        }
                        (_, node) => node,
                    };
                }
            }
        }
        Change::Amounts(ids, amount) => {
            for id in ids {
                if let Some(slot) = p.amounts.get_mut(id.0 as usize) {
                    undo.push(Undo::Amount(*id, slot.0));
                    slot.0 = match (slot.0, *amount) {
                        (Amount::Times(_, inner), Amount::Times(factor, _)) => {
                            Amount::Times(factor, inner)
                        }
                        (
                            Amount::Steps {
                                of,
                                up_to,
                                then,
                                each,
                                ..
                            },
                            Amount::Steps { first, .. },
                        ) => Amount::Steps {
                            of,
                            first,
                            up_to,
                            then,
                            each,
                        },
                        (_, amount) => amount,
                    };
                }
            }
        }
        Change::Period(rules, which, from, until) => {
            for index in rules {
                if let Some(period) = p
                    .rules
                    .get_mut(*index)
                    .and_then(|r| r.periods.get_mut(*which))
                {
                    undo.push(Undo::Period(*index, *which, *period));
                    period.from = *from;
                    period.until = *until;
                }
            }
        }
    }
    undo
}

/// What one entry of the program was before a change.
#[derive(Clone, Debug)]
pub enum Undo {
    /// A node.
    Node(NodeId, Node),
    /// An amount.
    Amount(AmountId, Amount),
    /// A rule's period.
    Period(usize, usize, crate::pack::Period),
}

/// Takes a change back.
pub fn revert(p: &mut Program, undo: Vec<Undo>) {
    for u in undo {
        match u {
            Undo::Node(id, node) => {
                if let Some(slot) = p.nodes.get_mut(id.0 as usize) {
                    *slot = node;
                }
            }
            Undo::Amount(id, amount) => {
                if let Some(slot) = p.amounts.get_mut(id.0 as usize) {
                    slot.0 = amount;
                }
            }
            Undo::Period(rule, which, period) => {
                if let Some(slot) = p.rules.get_mut(rule).and_then(|r| r.periods.get_mut(which)) {
                    *slot = period;
                }
            }
        }
    }
}
