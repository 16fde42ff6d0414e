//! The places on the line of a fact's values where some comparison turns.

use super::subject::Subject;
use crate::engine::{Amount, AmountId, Node, NodeId, Program, World, amount, for_each_item};
use crate::facts::{FactId, FactSet, ItemId, Kind, catalogue};
use crate::quantity::{Dimension, Exact, Interval, Unit};
use std::collections::BTreeSet;

/// How many samples are taken where thresholds are not written on the fact itself.
const SAMPLES: i64 = 48;

/// How often a turn that is not on a straight line is halved down.
const HALVINGS: u32 = 40;

/// A comparison of one rule, for one item.
#[derive(Clone, Copy)]
struct Leaf {
    left: AmountId,
    right: AmountId,
    item: ItemId,
}

/// The line that a number is varied on.
pub(super) struct Line<'a> {
    program: &'a Program,
    rules: Vec<usize>,
    stated: &'a FactSet,
    subject: &'a Subject,
    literals: BTreeSet<Exact>,
    worlds: Vec<(Exact, FactSet)>,
}

impl<'a> Line<'a> {
    /// The line of a fact, with the rig worked out at samples along it.
    pub fn new(
        program: &'a Program,
        rules: &[usize],
        stated: &'a FactSet,
        subject: &'a Subject,
    ) -> Line<'a> {
        let mut line = Line {
            program,
            rules: rules.to_vec(),
            stated,
            subject,
            literals: BTreeSet::new(),
            worlds: Vec::new(),
        };
        line.literals = line.find_literals();
        let (low, high) = line.ends();
        let mut samples: BTreeSet<Exact> = line
            .literals
            .iter()
            .copied()
            .filter(|x| low <= *x && *x <= high)
            .collect();
        samples.extend([low, high]);
        for i in 0..=SAMPLES {
            let share = Exact::new(i128::from(i), i128::from(SAMPLES)).unwrap_or(Exact::ZERO);
            let at = high
                .checked_sub(low)
                .and_then(|d| d.checked_mul(share))
                .and_then(|d| low.checked_add(d));
            samples.extend(at.and_then(|x| line.rounded(x)));
        }
        line.worlds = samples
            .into_iter()
            .map(|x| (x, subject.with_number(stated, x)))
            .collect();
        line
    }

    /// Keeps only rules that read a fact which the line changes, and returns them with the others.
    pub fn keep_dependent(&mut self) -> (Vec<usize>, Vec<usize>) {
        let worlds = self.worlds.iter().map(|(_, w)| w);
        let changed = changed_facts(worlds);
        let program = self.program;
        let (dependent, fixed): (Vec<usize>, Vec<usize>) = self
            .rules
            .iter()
            .partition(|i| reads_any(program, **i, &changed));
        self.rules.clone_from(&dependent);
        (dependent, fixed)
    }

    /// The least and the greatest value looked at. Nothing lies below the least; what lies above
    /// the greatest is like it.
    pub fn ends(&self) -> (Exact, Exact) {
        let most = self.literals.last().copied().unwrap_or(Exact::ONE);
        let now = self
            .subject
            .now(self.stated)
            .and_then(|k| k.value.interval().hi)
            .unwrap_or(Exact::ONE);
        let floor = default_reach(&self.subject.def().kind);
        let high = most.max(now).max(floor);
        let high = high.checked_mul(Exact::from_int(2)).unwrap_or(high);
        let low = match self.subject.def().kind {
            Kind::Measure(Dimension::Length | Dimension::Angle) => self.lowest(),
            _ => Exact::ZERO,
        };
        (low, high)
    }

    /// Positions and overhangs may be negative; most lengths are not.
    fn lowest(&self) -> Exact {
        if self.subject.def().name.ends_with("position") {
            Exact::from_int(-10)
        } else {
            Exact::ZERO
        }
    }

    /// The figures that rules compare the fact itself with.
    fn find_literals(&self) -> BTreeSet<Exact> {
        let mut out = BTreeSet::new();
        for leaf in self.compare_nodes() {
            let Node::Compare { left, right, .. } = self.program.node(leaf) else {
                continue;
            };
            for (one, other) in [(left, right), (right, left)] {
                if let (Some((Amount::Fact(f), _, _)), Some(value)) =
                    (self.program.amount(one), literal(self.program, other))
                    && *f == self.subject.fact
                {
                    out.extend([value.lo, value.hi].into_iter().flatten());
                }
            }
        }
        out
    }

    fn compare_nodes(&self) -> Vec<NodeId> {
        let mut out = Vec::new();
        for rule in self.rules.iter().filter_map(|i| self.program.rules.get(*i)) {
            for root in [rule.applies, rule.must] {
                self.program.leaves(root, &mut |n| out.push(n));
            }
        }
        out.sort_unstable();
        out.dedup();
        out
    }

    fn leaves(&self) -> Vec<Leaf> {
        let mut out = Vec::new();
        for rule in self.rules.iter().filter_map(|i| self.program.rules.get(*i)) {
            for_each_item(rule.each, self.stated, |item| {
                for root in [rule.applies, rule.must] {
                    self.program.leaves(root, &mut |n| {
                        if let Node::Compare { left, right, .. } = self.program.node(n) {
                            out.push(Leaf { left, right, item });
                        }
                    });
                }
            });
        }
        out
    }

    /// Every place where a comparison turns, in order, both ends of the line among them.
    pub fn turns(&self) -> Vec<Exact> {
        let (low, high) = self.ends();
        let inside = |x: &Exact| low <= *x && *x <= high;
        let mut points: BTreeSet<Exact> = self.literals.iter().copied().filter(inside).collect();
        points.extend([low, high]);
        for leaf in self.leaves() {
            if self.is_direct(leaf) {
                continue;
            }
            let values: Vec<Interval> = self
                .worlds
                .iter()
                .map(|(_, w)| self.difference(leaf, w))
                .collect();
            if values.windows(2).all(|v| v[0] == v[1]) {
                continue;
            }
            for i in 1..self.worlds.len() {
                for end in [low_end, high_end] {
                    if let (Some(a), Some(b)) = (end(&values[i - 1]), end(&values[i])) {
                        points.extend(self.crossing(
                            leaf,
                            (self.worlds[i - 1].0, a),
                            (self.worlds[i].0, b),
                            end,
                        ));
                    }
                }
            }
        }
        points.into_iter().collect()
    }

    /// A sample on a round figure of the unit in use, so that the numbers stay small.
    fn rounded(&self, x: Exact) -> Option<Exact> {
        let unit = self.subject.unit(self.stated).unwrap_or(Unit::One);
        unit.to_base(unit.from_base(x)?.floor())
    }

    /// A comparison of the fact itself with a figure turns at the figure.
    fn is_direct(&self, leaf: Leaf) -> bool {
        let own = |id| matches!(self.program.amount(id), Some((Amount::Fact(f), _, _)) if *f == self.subject.fact);
        (own(leaf.left) && literal(self.program, leaf.right).is_some())
            || (own(leaf.right) && literal(self.program, leaf.left).is_some())
    }

    fn difference(&self, leaf: Leaf, facts: &FactSet) -> Interval {
        let w = World {
            facts,
            item: leaf.item,
            looks: &[],
        };
        amount(self.program, leaf.left, w).sub(amount(self.program, leaf.right, w))
    }

    /// Where the difference passes zero between two places: exactly where it is a straight line,
    /// else halved down.
    fn crossing(
        &self,
        leaf: Leaf,
        a: (Exact, Exact),
        b: (Exact, Exact),
        end: fn(&Interval) -> Option<Exact>,
    ) -> Vec<Exact> {
        let sign = |y: Exact| y.cmp(&Exact::ZERO);
        if sign(a.1) == sign(b.1) {
            return Vec::new();
        }
        let at = |x: Exact| end(&self.difference(leaf, &self.subject.with_number(self.stated, x)));
        let straight = || {
            let run = b.0.checked_sub(a.0)?;
            let rise = b.1.checked_sub(a.1)?;
            a.0.checked_sub(a.1.checked_mul(run)?.checked_div(rise)?)
        };
        if let Some(x) = straight()
            && at(x) == Some(Exact::ZERO)
        {
            return vec![x];
        }
        let (mut low, mut high) = (a, b);
        for _ in 0..HALVINGS {
            let middle = low
                .0
                .checked_add(high.0)
                .and_then(|s| s.checked_div(Exact::from_int(2)));
            let Some((x, y)) = middle.and_then(|x| Some((x, at(x)?))) else {
                break;
            };
            if sign(y) == sign(low.1) {
                low = (x, y);
            } else {
                high = (x, y);
            }
        }
        vec![low.0, high.0]
    }
}

/// The facts whose value is not the same in every one of these rigs.
pub(super) fn changed_facts<'f>(mut worlds: impl Iterator<Item = &'f FactSet>) -> BTreeSet<FactId> {
    let mut changed = BTreeSet::new();
    let Some(first) = worlds.next() else {
        return changed;
    };
    for world in worlds {
        for (fact, def) in catalogue().all() {
            if changed.contains(&fact) {
                continue;
            }
            let mut items = (0..first.items(def.scope).len()).map(|index| ItemId {
                scope: def.scope,
                index,
            });
            if items.any(|i| first.value(i, fact) != world.value(i, fact)) {
                changed.insert(fact);
            }
        }
    }
    changed
}

/// Whether a rule reads one of these facts.
pub(super) fn reads_any(p: &Program, rule: usize, facts: &BTreeSet<FactId>) -> bool {
    let mut reads = false;
    if let Some(rule) = p.rules.get(rule) {
        for root in [rule.applies, rule.must] {
            p.leaves(root, &mut |leaf| {
                p.leaf_facts(leaf, &mut |f| reads |= facts.contains(&f))
            });
        }
    }
    reads
}

fn low_end(i: &Interval) -> Option<Exact> {
    i.lo
}

fn high_end(i: &Interval) -> Option<Exact> {
    i.hi
}

/// The value of an amount that is written out.
fn literal(p: &Program, id: AmountId) -> Option<Interval> {
    match p.amount(id)?.0 {
        Amount::Literal(m) => Some(m.interval),
        Amount::Number(i) => Some(i),
        _ => None,
    }
}

/// A value of each kind beyond what rigs reach, in the base unit, so that a line without figures
/// has a length too.
fn default_reach(kind: &Kind) -> Exact {
    Exact::from_int(match kind {
        Kind::Measure(Dimension::Mass) => 20_000,
        Kind::Measure(Dimension::Length) => 15,
        Kind::Measure(Dimension::Speed) => 40,
        Kind::Measure(Dimension::Pressure) => 1_000_000,
        Kind::Measure(Dimension::Time) => 3600,
        Kind::Measure(Dimension::Angle) => 90,
        Kind::Measure(Dimension::Force) => 50_000,
        Kind::Measure(Dimension::Share) => 2,
        Kind::Measure(Dimension::Count) => 12,
        Kind::Year => 2050,
        Kind::Date => 30_000,
        _ => 1,
    })
}
