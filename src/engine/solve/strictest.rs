//! The one set of requirements that satisfies every region of a route.

use crate::engine::{
    Node, NodeId, Program, Ruleset, Truth, World, amount, for_each_item, in_force, truth,
};
use crate::facts::{Day, FactId, FactSet, ItemId, Value};
use crate::pack::Comparison;
use crate::quantity::{Exact, Interval};
use std::collections::BTreeMap;

/// What the rules that apply ask of one fact, taken together.
#[derive(Clone, Debug)]
pub struct Demand {
    /// The item.
    pub item: ItemId,
    /// The fact.
    pub fact: FactId,
    /// The least that satisfies all, with the rules that ask for it and whether it is itself enough.
    pub least: Option<(Exact, bool, Vec<usize>)>,
    /// The most that satisfies all, likewise.
    pub most: Option<(Exact, bool, Vec<usize>)>,
    /// Of a choice or a yes/no: the members that satisfy all, with the rules that narrow it.
    pub members: Option<(u128, Vec<usize>)>,
    /// Of a set: the members that must be in it, with the rules that ask for them.
    pub includes: Option<(u128, Vec<usize>)>,
}

/// What every rule that surely applies asks, fact by fact, the strictest kept. Only requirements
/// that stand on their own are told; a choice between two ways to comply is left to its rule.
#[must_use]
pub fn strictest(
    rules: &Ruleset<'_>,
    facts: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Vec<Demand> {
    let p = rules.program();
    let mut found: BTreeMap<(ItemId, FactId), Demand> = BTreeMap::new();
    let mut bound: Vec<usize> = rules
        .bindings()
        .iter()
        .flat_map(|b| b.rules.iter().copied())
        .collect();
    bound.sort_unstable();
    bound.dedup();
    for index in bound {
        let Some(rule) = p.rules.get(index).filter(|r| in_force(r, on) && !r.doubt) else {
            continue;
        };
        for_each_item(rule.each, facts, |item| {
            let w = World { facts, item, looks };
            if truth(p, rule.applies, w) == Truth::True {
                each_demand(p, rule.must, w, false, &mut |fact, ask| {
                    let scope = crate::facts::catalogue().def(fact).scope;
                    let at = if scope == item.scope {
                        item
                    } else {
                        ItemId::RIG
                    };
                    let demand = found.entry((at, fact)).or_insert(Demand {
                        item: at,
                        fact,
                        least: None,
                        most: None,
                        members: None,
                        includes: None,
                    });
                    tighten(demand, ask, index);
                });
            }
        });
    }
    found.into_values().collect()
}

enum Ask {
    Least(Exact, bool),
    Most(Exact, bool),
    Members(u128),
    Includes(u128),
}

/// Calls `f` with each requirement that must hold whatever else does.
fn each_demand(
    p: &Program,
    id: NodeId,
    w: World<'_>,
    negated: bool,
    f: &mut dyn FnMut(FactId, Ask),
) {
    match (p.node(id), negated) {
        (Node::All(run), false) | (Node::Any(run), true) => {
            for kid in p.run(run) {
                each_demand(p, *kid, w, negated, f);
            }
        }
        (Node::Not(inner), _) => each_demand(p, inner, w, !negated, f),
        (Node::Compare { left, by, right }, _) => {
            let Some((crate::engine::Amount::Fact(fact), _, _)) = p.amount(left) else {
                return;
            };
            let wanted: Interval = amount(p, right, w);
            let Some(value) = wanted.is_exact() else {
                return;
            };
            let ask = match (by, negated) {
                (Comparison::AtLeast, false) | (Comparison::LessThan, true) => {
                    Ask::Least(value, true)
                }
                (Comparison::MoreThan, false) | (Comparison::AtMost, true) => {
                    Ask::Least(value, false)
                }
                (Comparison::AtMost, false) | (Comparison::MoreThan, true) => {
                    Ask::Most(value, true)
                }
                (Comparison::LessThan, false) | (Comparison::AtLeast, true) => {
                    Ask::Most(value, false)
                }
                (Comparison::Equals, false) => {
                    f(*fact, Ask::Least(value, true));
                    Ask::Most(value, true)
                }
                (Comparison::Equals, true) => return,
            };
            f(*fact, ask);
        }
        (Node::OneOf { fact, members }, false) => f(fact, Ask::Members(members)),
        (Node::OneOf { fact, members }, true) => {
            let missing = Value::missing(&crate::facts::catalogue().def(fact).kind);
            if let Value::OneOf(all) = missing {
                f(fact, Ask::Members(all & !members));
            }
        }
        (Node::Includes { fact, members }, false) => f(fact, Ask::Includes(members)),
        _ => {}
    }
}

fn tighten(d: &mut Demand, ask: Ask, rule: usize) {
    let number = |slot: &mut Option<(Exact, bool, Vec<usize>)>,
                  value: Exact,
                  included: bool,
                  upper: bool| match slot {
        None => *slot = Some((value, included, vec![rule])),
        Some((old, was, by)) => {
            let stricter = if upper { value < *old } else { value > *old }
                || (value == *old && *was && !included);
            if stricter {
                *slot = Some((value, included, vec![rule]));
            } else if value == *old && included == *was && !by.contains(&rule) {
                by.push(rule);
            }
        }
    };
    match ask {
        Ask::Least(v, included) => number(&mut d.least, v, included, false),
        Ask::Most(v, included) => number(&mut d.most, v, included, true),
        Ask::Members(m) => match &mut d.members {
            None => d.members = Some((m, vec![rule])),
            Some((old, by)) => {
                *old &= m;
                by.push(rule);
            }
        },
        Ask::Includes(m) => match &mut d.includes {
            None => d.includes = Some((m, vec![rule])),
            Some((old, by)) => {
                *old |= m;
                by.push(rule);
            }
        },
    }
}
