//! What the rules ask of a kind of rig rather than of one rig: which of them can bind at all, and
//! along a line of weights, from which weight to which.
//!
//! Nothing but the kind is known, so everything else is left open, and a rule that may bind is told
//! apart from one that surely does.

mod axis;
mod lacking;
mod residue;

pub use axis::{Stretch, WEIGHT_AXES, axis_of, stretches};
pub use lacking::{Lack, Lacking, lacking};
pub use residue::{Residue, residue};

use super::check::Ruleset;
use super::eval::{Truth, World, for_each_item, in_force, truth};
use super::program::{Program, RuleCode};
use crate::facts::{Day, FactId, FactSet, ItemId, Known, Value, Whence, catalogue};
use crate::mechanics::work_out;
use crate::quantity::{Interval, Unit};

/// What a rule asks of a kind of rig.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Asks {
    /// It does not bind, or is kept whatever else is so.
    Nothing,
    /// It binds some rigs of the kind, depending on facts that are left open.
    Perhaps,
    /// It binds every rig of the kind.
    Surely,
    /// It binds, and no rig of the kind can keep it.
    Barred,
}

/// A stretch of a line of weights with what each of some rules asks on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// The weights.
    pub at: Stretch,
    /// What each rule asks, in the order in which the rules were given.
    pub asks: Vec<Asks>,
}

/// What a rule asks where these facts are known; all else is open.
#[must_use]
pub fn asks(p: &Program, rule: &RuleCode, facts: &FactSet, on: Option<Day>) -> Asks {
    if !in_force(rule, on) {
        return Asks::Nothing;
    }
    let mut most = Asks::Nothing;
    for_each_item(rule.each, facts, |item| {
        let w = World {
            facts,
            item,
            looks: &[],
        };
        // Where the items are not listed there may be none.
        let listed = facts.items(item.scope).get(item.index).is_some();
        let one = match (truth(p, rule.applies, w), truth(p, rule.must, w)) {
            (Truth::False, _) | (_, Truth::True) => Asks::Nothing,
            (Truth::True, Truth::False) if listed => Asks::Barred,
            (Truth::True, _) if listed => Asks::Surely,
            _ => Asks::Perhaps,
        };
        most = most.max(one);
    });
    most
}

/// The facts with one weight known to lie between two ends, and what follows from it.
#[must_use]
pub fn at_weight(facts: &FactSet, axis: FactId, weights: Interval, on: Option<Day>) -> FactSet {
    let mut at = facts.clone();
    let asked = facts.value(ItemId::RIG, axis).interval();
    let value = Value::Number(weights.intersect(asked).unwrap_or(weights));
    state(&mut at, axis, value, None);
    let _ = work_out(&mut at, on);
    // What is only worked out would be worked out anew.
    state(&mut at, axis, value, None);
    at
}

fn state(facts: &mut FactSet, fact: FactId, value: Value, unit: Option<Unit>) {
    let known = Known {
        value,
        whence: Whence::Stated { start: 0, end: 0 },
        unit,
        written: None,
    };
    let item = ItemId {
        scope: catalogue().def(fact).scope,
        index: 0,
    };
    facts.set(item, fact, known);
}

/// What some rules ask along a line of weights. Neighbouring stretches on which all of them ask the
/// same are one band.
#[must_use]
pub fn bands(
    rules: &Ruleset<'_>,
    which: &[usize],
    kind: &FactSet,
    axis: FactId,
    on: Option<Day>,
) -> Vec<Band> {
    let p = rules.program();
    let mut out: Vec<Band> = Vec::new();
    for at in stretches(p, which, kind, axis) {
        let facts = at_weight(kind, axis, at.inner(), on);
        let asked = which.iter().filter_map(|i| p.rules.get(*i));
        let asks: Vec<Asks> = asked.map(|r| asks(p, r, &facts, on)).collect();
        match out.last_mut() {
            Some(last) if last.asks == asks => last.at = last.at.joined(at),
            _ => out.push(Band { at, asks }),
        }
    }
    out
}
