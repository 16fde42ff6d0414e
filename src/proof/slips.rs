//! Slips: the small changes to a rule that its cases ought to notice.
//!
//! A slip is made on the compiled program, at every node that comes from the same place of the
//! pack's text: a term defined once and used in many rules is changed in all of them, as an
//! author's slip would.

use super::change::Change;
use super::number_slips::amount_slips;
use crate::engine::{Amount, AmountId, Node, NodeId, Program};
use crate::facts::catalogue;
use crate::pack::{AmountType, Comparison};
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
