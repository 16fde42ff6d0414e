//! The one set of requirements that satisfies every region of a route.

use crate::engine::{
    Node, NodeId, Program, Ruleset, Truth, World, amount, for_each_item, in_force, truth,
};
use crate::facts::{Day, FactId, FactSet, ItemId, Value, catalogue};
use crate::pack::Comparison;
use crate::quantity::Exact;
use std::collections::{BTreeMap, BTreeSet};

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

impl Demand {
    /// Whether nothing can satisfy it: the least lies above the most, or no member is left.
    #[must_use]
    pub fn is_impossible(&self) -> bool {
        let crossed = match (&self.least, &self.most) {
            (Some((a, a_in, _)), Some((b, b_in, _))) => a > b || (a == b && !(*a_in && *b_in)),
            _ => false,
        };
        crossed || self.members.as_ref().is_some_and(|m| m.0 == 0)
    }
}

/// What the rules of a route ask for, taken together.
#[derive(Clone, Debug, Default)]
pub struct Requirements {
    /// Bounds on one fact each, the strictest kept.
    pub demands: Vec<Demand>,
    /// Rules that apply, of which a part can be satisfied in more than one way, depends on facts that
    /// are not known, or is to be looked at; by their places in the program.
    pub others: Vec<usize>,
    /// Rules of which it is not known whether they apply.
    pub open: Vec<usize>,
}

/// What every rule that surely applies asks, fact by fact, the strictest kept. `facts` have all
/// worked out; `looks` are as [`Ruleset::looks`] gives them.
///
/// ```
/// use pintle::engine::{Ruleset, solve::strictest};
/// use pintle::mechanics::work_out;
/// use pintle::pack::{Library, Region};
/// use pintle::rig::read_rig;
/// use pintle::source::SourceText;
///
/// let library = Library::built_in();
/// let route = ["US-NE", "US-CO"].map(|code| Region::find(code).unwrap());
/// let rules = Ruleset::new(&library, &route, false).unwrap();
/// let rig = read_rig(&SourceText::from_str("rig.yaml", "rig: 1\ntrailer: {coupling: ball}")).unwrap();
/// let mut facts = rig.facts.clone();
/// work_out(&mut facts, None);
/// let found = strictest(&rules, &facts, &rules.looks(&rig.seen), None);
/// assert!(!found.open.is_empty());
/// ```
#[must_use]
pub fn strictest(
    rules: &Ruleset<'_>,
    facts: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Requirements {
    let p = rules.program();
    let mut out = Requirements::default();
    let mut found: BTreeMap<(ItemId, FactId), Demand> = BTreeMap::new();
    for index in bound(rules) {
        let Some(rule) = p.rules.get(index).filter(|r| in_force(r, on)) else {
            continue;
        };
        let (mut whole, mut open) = (true, false);
        for_each_item(rule.each, facts, |item| {
            let w = World { facts, item, looks };
            let phantom = facts.items(item.scope).get(item.index).is_none();
            match truth(p, rule.applies, w) {
                Truth::True if rule.doubt => whole = false,
                Truth::True if !phantom => {
                    whole &= each_demand(p, rule.must, w, false, &mut |fact, ask| {
                        let scope = catalogue().def(fact).scope;
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
                Truth::False => {}
                _ => open = true,
            }
        });
        if !whole {
            out.others.push(index);
        }
        if open {
            out.open.push(index);
        }
    }
    out.demands = found.into_values().collect();
    out
}

/// Every rule that binds somewhere, once.
fn bound(rules: &Ruleset<'_>) -> BTreeSet<usize> {
    let all = rules.bindings().iter();
    all.flat_map(|b| b.rules.iter().copied()).collect()
}

enum Ask {
    Least(Exact, bool),
    Most(Exact, bool),
    Members(u128),
    Includes(u128),
}

/// Calls `f` with each requirement that must hold whatever else does. Whether these are all that
/// the condition asks for.
fn each_demand(
    p: &Program,
    id: NodeId,
    w: World<'_>,
    negated: bool,
    f: &mut dyn FnMut(FactId, Ask),
) -> bool {
    match (p.node(id), negated) {
        (Node::True, false) => true,
        (Node::All(run), false) | (Node::Any(run), true) => {
            let mut whole = true;
            for kid in p.run(run) {
                whole &= each_demand(p, *kid, w, negated, f);
            }
            whole
        }
        (Node::All(run), true) | (Node::Any(run), false) => match p.run(run) {
            [only] => each_demand(p, *only, w, negated, f),
            _ => false,
        },
        (Node::Not(inner), _) => each_demand(p, inner, w, !negated, f),
        (Node::Compare { left, by, right }, _) => {
            let Some((crate::engine::Amount::Fact(fact), _, _)) = p.amount(left) else {
                return false;
            };
            let Some(value) = amount(p, right, w).is_exact() else {
                return false;
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
                (Comparison::Equals, true) => return false,
            };
            f(*fact, ask);
            true
        }
        (Node::OneOf { fact, members }, false) => {
            f(fact, Ask::Members(members));
            true
        }
        (Node::OneOf { fact, members }, true) => {
            match Value::missing(&catalogue().def(fact).kind) {
                Value::OneOf(all) => {
                    f(fact, Ask::Members(all & !members));
                    true
                }
                _ => false,
            }
        }
        (Node::Includes { fact, members }, false) => {
            f(fact, Ask::Includes(members));
            true
        }
        _ => false,
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
                if !by.contains(&rule) {
                    by.push(rule);
                }
            }
        },
        Ask::Includes(m) => match &mut d.includes {
            None => d.includes = Some((m, vec![rule])),
            Some((old, by)) => {
                *old |= m;
                if !by.contains(&rule) {
                    by.push(rule);
                }
            }
        },
    }
}
