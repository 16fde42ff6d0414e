//! Lines of weights, and the places on them at which a rule may turn.

use crate::engine::{Amount, AmountId, Node, NodeId, Program, RuleCode};
use crate::facts::{FactId, FactSet, ItemId, catalogue};
use crate::quantity::{Exact, Interval, Unit};
use std::collections::BTreeMap;

/// The weights by which rules sort rigs, those first by which a rule is told where it reads several.
pub const WEIGHT_AXES: [&str; 14] = [
    "trailer.gross_weight",
    "trailer.greatest_weight",
    "trailer.gvwr",
    "trailer.registered_weight",
    "trailer.empty_weight",
    "trailer.load_weight",
    "trailer.carrying_capacity",
    "combination.gross_weight",
    "combination.greatest_weight",
    "combination.gvwr",
    "combination.registered_weight",
    "tow_vehicle.gross_weight",
    "tow_vehicle.gvwr",
    "tow_vehicle.registered_weight",
];

/// A stretch of a line of weights, in kilograms. An end that is `None` is open: from nothing, or
/// without limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The lower end, with the unit of the rule that turns there.
    pub from: Option<(Exact, Unit)>,
    /// Whether the lower end belongs to it.
    pub from_included: bool,
    /// The upper end, likewise.
    pub to: Option<(Exact, Unit)>,
    /// Whether the upper end belongs to it.
    pub to_included: bool,
}

impl Stretch {
    /// The weights on it, a thousandth less at an end that has a rule's figure. What holds for all of
    /// these holds on the stretch, whatever else may turn there.
    #[must_use]
    pub fn inner(&self) -> Interval {
        let thousandth = Exact::new(1, 1000).unwrap_or(Exact::ZERO);
        let (from, to) = (self.from.map(|e| e.0), self.to.map(|e| e.0));
        if from.is_some() && from == to {
            return Interval { lo: from, hi: to };
        }
        let low = from.unwrap_or(Exact::ZERO);
        let wide = to.and_then(|to| to.checked_sub(low)).unwrap_or(Exact::ONE);
        let margin = wide.checked_mul(thousandth).unwrap_or(Exact::ZERO);
        Interval {
            lo: match from {
                Some(from) => from.checked_add(margin),
                None => Some(Exact::ZERO),
            },
            hi: to.and_then(|to| to.checked_sub(margin)),
        }
    }

    /// Whether a weight lies on it.
    #[must_use]
    pub fn contains(&self, x: Exact) -> bool {
        let above = self
            .from
            .is_none_or(|(lo, _)| lo < x || (lo == x && self.from_included));
        let below = self
            .to
            .is_none_or(|(hi, _)| x < hi || (hi == x && self.to_included));
        above && below
    }

    /// This stretch and the one that follows it.
    #[must_use]
    pub fn joined(self, next: Stretch) -> Stretch {
        Stretch {
            to: next.to,
            to_included: next.to_included,
            ..self
        }
    }
}

/// The weight by which a rule is told: the first of [`WEIGHT_AXES`] that it compares with a figure
/// and on which `varies` says that it asks now one thing, now another.
#[must_use]
pub fn axis_of(
    p: &Program,
    rule: &RuleCode,
    mut varies: impl FnMut(FactId) -> bool,
) -> Option<FactId> {
    let axes = WEIGHT_AXES.iter().filter_map(|n| catalogue().find(n));
    axes.into_iter()
        .filter(|axis| !figures(p, rule, *axis).is_empty())
        .find(|axis| varies(*axis))
}

/// The stretches into which the figures of some rules cut a line of weights: each figure by itself,
/// and what lies between. Those stay away that the kind of rig leaves no weight on; the ends of what
/// is asked for are no figures of a rule, so the outermost stretches stay open.
#[must_use]
pub fn stretches(p: &Program, which: &[usize], kind: &FactSet, axis: FactId) -> Vec<Stretch> {
    let asked = kind.value(ItemId::RIG, axis).interval();
    let rules = which.iter().filter_map(|i| p.rules.get(*i));
    let mut cuts: BTreeMap<Exact, Unit> = BTreeMap::new();
    for rule in rules {
        cuts.extend(figures(p, rule, axis));
    }
    cuts.retain(|x, _| *x > Exact::ZERO && asked.contains(*x));
    let cuts: Vec<(Exact, Unit)> = cuts.into_iter().collect();
    let mut out = Vec::with_capacity(cuts.len() * 2 + 1);
    let mut from = None;
    for cut in &cuts {
        out.push(Stretch {
            from,
            from_included: from.is_none(),
            to: Some(*cut),
            to_included: false,
        });
        out.push(Stretch {
            from: Some(*cut),
            from_included: true,
            to: Some(*cut),
            to_included: true,
        });
        from = Some(*cut);
    }
    out.push(Stretch {
        from,
        from_included: from.is_none(),
        to: None,
        to_included: true,
    });
    out.retain(|s| touches(s, asked));
    if let Some(first) = out.first_mut() {
        (first.from, first.from_included) = (None, true);
    }
    if let Some(last) = out.last_mut() {
        (last.to, last.to_included) = (None, true);
    }
    out
}

/// Whether some weight that is asked for lies on a stretch.
fn touches(s: &Stretch, asked: Interval) -> bool {
    let above = match (s.to, asked.lo) {
        (Some((to, _)), Some(lo)) => lo < to || (lo == to && s.to_included),
        _ => true,
    };
    let below = match (s.from, asked.hi) {
        (Some((from, _)), Some(hi)) => from < hi || (from == hi && s.from_included),
        _ => true,
    };
    above && below
}

/// The figures with which a rule compares a fact, each with its unit.
fn figures(p: &Program, rule: &RuleCode, fact: FactId) -> BTreeMap<Exact, Unit> {
    let mut out = BTreeMap::new();
    for root in [rule.applies, rule.must] {
        p.leaves(root, &mut |leaf| figures_of(p, leaf, fact, &mut out));
    }
    out
}

fn figures_of(p: &Program, leaf: NodeId, fact: FactId, out: &mut BTreeMap<Exact, Unit>) {
    let Node::Compare { left, right, .. } = p.node(leaf) else {
        return;
    };
    let is_fact =
        |id: AmountId| matches!(p.amount(id), Some((Amount::Fact(f), _, _)) if *f == fact);
    for (side, other) in [(left, right), (right, left)] {
        if is_fact(side)
            && let Some((Amount::Literal(m), _, _)) = p.amount(other)
        {
            let ends = [m.interval.lo, m.interval.hi].into_iter().flatten();
            out.extend(ends.map(|x| (x, m.unit)));
        }
    }
}
