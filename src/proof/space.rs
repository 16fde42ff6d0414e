//! The rigs that a rule can tell apart: for each fact that it reads, the values that lie on either
//! side of every comparison.

use super::number_slips::step_of;
use crate::engine::{Amount, AmountId, Node, NodeId, Program, RuleCode, World, amount};
use crate::facts::{FactId, FactSet, ItemId, Kind, Known, Scope, Value, Whence, catalogue};
use crate::pack::AmountType;
use crate::quantity::{Exact, Interval, Unit};
use std::collections::{BTreeMap, BTreeSet};

/// A value to try, with the unit to tell it in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// The value.
    pub value: Value,
    /// The unit of the rule that it is near to.
    pub unit: Option<Unit>,
}

/// The facts that rules read, each with values that stand for all that the rules can tell apart.
#[derive(Clone, Debug, Default)]
pub struct Space {
    /// The facts and their values.
    pub axes: Vec<(FactId, Vec<Candidate>)>,
    /// Whether the values stand for every rig: only where no comparison is between two facts.
    pub complete: bool,
}

/// A value for numbers that rules compare only with one another.
const REFERENCE: i64 = 1000;

impl Space {
    /// The space of some rules; `programs` are the rules as they are, and as a slip leaves them.
    #[must_use]
    pub fn of(programs: &[&Program], rules: &[&RuleCode]) -> Space {
        let mut b = Builder {
            numbers: BTreeMap::new(),
            masks: BTreeMap::new(),
            complete: true,
        };
        for p in programs {
            for rule in rules {
                for root in [rule.applies, rule.must] {
                    p.leaves(root, &mut |leaf| b.leaf(p, leaf));
                }
            }
        }
        b.finish()
    }

    /// How many combinations there are, at most `cap` + 1.
    #[must_use]
    pub fn size(&self, cap: usize) -> usize {
        let mut n: usize = 1;
        for (_, values) in &self.axes {
            n = n.saturating_mul(values.len().max(1));
            if n > cap {
                return cap + 1;
            }
        }
        n
    }
}

impl Space {
    /// Both spaces in one: every value of either.
    #[must_use]
    pub fn union(mut self, other: Space) -> Space {
        for (fact, values) in other.axes {
            match self.axes.iter_mut().find(|(f, _)| *f == fact) {
                Some((_, own)) => {
                    for v in values {
                        if !own.iter().any(|o| o.value == v.value) {
                            own.push(v);
                        }
                    }
                }
                None => self.axes.push((fact, values)),
            }
        }
        self.complete &= other.complete;
        self
    }

    /// Two spaces: of the facts that `wanted` picks, and of the others.
    #[must_use]
    pub fn split(self, wanted: impl Fn(FactId) -> bool) -> (Space, Space) {
        let (yes, no) = self.axes.into_iter().partition(|(f, _)| wanted(*f));
        let space = |axes| Space {
            axes,
            complete: self.complete,
        };
        (space(yes), space(no))
    }

    /// Calls `f` with each combination of the values, set on a rig, until it returns false.
    pub fn walk(&self, mut facts: FactSet, f: &mut dyn FnMut(&FactSet) -> bool) {
        let mut at = vec![0usize; self.axes.len()];
        for (fact, values) in &self.axes {
            match values.first() {
                Some(v) => set(&mut facts, *fact, *v),
                None => return,
            }
        }
        while f(&facts) && self.step(&mut facts, &mut at) {}
    }

    /// Goes on to the next combination, as an odometer counts; false when there is none.
    fn step(&self, facts: &mut FactSet, at: &mut [usize]) -> bool {
        for ((fact, values), place) in self.axes.iter().zip(at) {
            *place += 1;
            if let Some(v) = values.get(*place) {
                set(facts, *fact, *v);
                return true;
            }
            *place = 0;
            if let Some(v) = values.first() {
                set(facts, *fact, *v);
            }
        }
        false
    }
}

/// A rig of which nothing is known, with one item of each scope that rules with this `each` read.
#[must_use]
pub fn blank_rig(each: Option<Scope>) -> FactSet {
    let mut facts = FactSet::new();
    match each {
        Some(Scope::TieDown) => {
            let load = facts.push(Scope::Load, None, "item".to_owned());
            facts.push(Scope::TieDown, Some(load.index), "tie-down".to_owned());
        }
        Some(scope) if scope != Scope::Rig => {
            facts.push(scope, None, "item".to_owned());
        }
        _ => {}
    }
    facts
}

/// Sets a fact of the rig, or of its only item of the fact's scope, as if it had been stated.
pub fn set(facts: &mut FactSet, fact: FactId, candidate: Candidate) {
    let scope = catalogue().def(fact).scope;
    let known = Known {
        value: candidate.value,
        whence: Whence::Stated { start: 0, end: 0 },
        unit: candidate.unit,
        written: None,
    };
    facts.set(ItemId { scope, index: 0 }, fact, known);
}

struct Builder {
    numbers: BTreeMap<FactId, BTreeMap<Exact, Unit>>,
    masks: BTreeMap<FactId, BTreeSet<u128>>,
    complete: bool,
}

impl Builder {
    fn leaf(&mut self, p: &Program, leaf: NodeId) {
        match p.node(leaf) {
            Node::Compare { left, right, .. } => {
                self.compare(p, left, right);
                self.compare(p, right, left);
            }
            Node::OneOf { fact, members }
            | Node::Includes { fact, members }
            | Node::IncludesAny { fact, members } => {
                self.masks.entry(fact).or_default().insert(members);
            }
            _ => {}
        }
    }

    /// Values of the left side's facts around the right side.
    fn compare(&mut self, p: &Program, left: AmountId, right: AmountId) {
        let mut facts = Vec::new();
        p.amount_facts(left, &mut |f| facts.push(f));
        let Some((code, of, _)) = p.amount(right) else {
            return;
        };
        let (value, unit) = match code {
            Amount::Literal(m) => (m.interval, m.unit),
            Amount::Number(i) => (*i, Unit::One),
            _ => {
                if !facts.is_empty() {
                    self.complete = false;
                }
                (self.at_reference(p, right), unit_for(*of))
            }
        };
        let plain = matches!(p.amount(left), Some((Amount::Fact(_), _, _)));
        if !plain && !facts.is_empty() {
            self.complete = false;
        }
        let step = step_of(unit);
        for fact in facts {
            let around = self.numbers.entry(fact).or_default();
            for end in [value.lo, value.hi].into_iter().flatten() {
                for near in [
                    Some(end),
                    end.checked_add(step),
                    end.checked_add(step.neg()),
                ]
                .into_iter()
                .flatten()
                {
                    around.insert(near, unit);
                }
            }
        }
    }

    /// The value of an amount when every fact in it has the reference value.
    fn at_reference(&mut self, p: &Program, id: AmountId) -> Interval {
        let mut facts = FactSet::new();
        let load = facts.push(Scope::Load, None, String::new());
        facts.push(Scope::TieDown, Some(load.index), String::new());
        for scope in [Scope::Axle, Scope::VehicleAxle, Scope::Tyre] {
            facts.push(scope, None, String::new());
        }
        let mut item = ItemId::RIG;
        let reference = Exact::from_int(REFERENCE);
        let mut read = Vec::new();
        p.amount_facts(id, &mut |f| read.push(f));
        for fact in read {
            let def = catalogue().def(fact);
            let unit = match def.kind {
                Kind::Measure(d) => d.base_unit(),
                _ => Unit::One,
            };
            let value = unit.to_base(reference).unwrap_or(reference);
            let candidate = Candidate {
                value: Value::Number(Interval::exactly(value)),
                unit: Some(unit),
            };
            set(&mut facts, fact, candidate);
            self.numbers.entry(fact).or_default().insert(value, unit);
            if def.scope != Scope::Rig {
                item = ItemId {
                    scope: def.scope,
                    index: 0,
                };
            }
        }
        amount(
            p,
            id,
            World {
                facts: &facts,
                item,
                looks: &[],
            },
        )
    }

    fn finish(self) -> Space {
        let mut axes = Vec::new();
        for (fact, values) in self.numbers {
            let missing = Value::missing(&catalogue().def(fact).kind).interval();
            let possible = values.into_iter().filter(|(v, _)| missing.contains(*v));
            let values: Vec<Candidate> = possible
                .map(|(v, unit)| Candidate {
                    value: Value::Number(Interval::exactly(v)),
                    unit: Some(unit),
                })
                .collect();
            axes.push((fact, values));
        }
        for (fact, masks) in self.masks {
            axes.push((fact, members(fact, &masks)));
        }
        Space {
            axes,
            complete: self.complete,
        }
    }
}

fn unit_for(of: AmountType) -> Unit {
    match of {
        AmountType::Measure(d) => d.base_unit(),
        _ => Unit::One,
    }
}

/// One member for each group that the masks tell apart; for sets, what holds each mask, none of
/// it, and all of it but one.
fn members(fact: FactId, masks: &BTreeSet<u128>) -> Vec<Candidate> {
    let kind = &catalogue().def(fact).kind;
    let plain = |value| Candidate { value, unit: None };
    match kind {
        Kind::YesNo => [true, false].map(|b| plain(Value::yes_no(b))).to_vec(),
        Kind::Choice(choices) => {
            let mut groups: BTreeMap<Vec<bool>, u128> = BTreeMap::new();
            for bit in 0..choices.len() {
                let signature = masks.iter().map(|m| m >> bit & 1 == 1).collect();
                groups.entry(signature).or_insert(1 << bit);
            }
            groups
                .into_values()
                .map(|bit| plain(Value::OneOf(bit)))
                .collect()
        }
        _ => {
            let mut sets: BTreeSet<u128> = BTreeSet::from([0]);
            let all = masks.iter().fold(0, |a, m| a | m);
            sets.insert(all);
            for mask in masks {
                sets.insert(*mask);
                for bit in (0..128).filter(|b| mask >> b & 1 == 1) {
                    sets.insert(1 << bit);
                    sets.insert(mask & !(1 << bit));
                    sets.insert(all & !(1 << bit));
                }
            }
            sets.into_iter()
                .map(|m| plain(Value::Set { has: m, may: m }))
                .collect()
        }
    }
}
