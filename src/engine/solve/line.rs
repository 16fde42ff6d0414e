//! The line of a fact's values, and the places on it where a condition turns.

use super::crossing::{Probe, crossing};
use super::subject::Subject;
use super::turners::{Turner, What, reads_any, turners};
use super::worlds::Worlds;
use crate::engine::{Amount, AmountId, Program, Truth, World, amount, truth};
use crate::facts::FactSet;
use crate::quantity::{Exact, Interval, Unit};
use std::collections::{BTreeMap, BTreeSet};

/// How many steps of a count in steps are looked at between two samples.
const STEPS: i64 = 64;

/// Places where conditions turn.
#[derive(Debug, Default)]
pub(super) struct Turns {
    /// Each place, with the rules that may come out otherwise from there on.
    pub points: BTreeMap<Exact, BTreeSet<usize>>,
    /// Stretches within which something turns that could not be placed more closely.
    pub brackets: Vec<Bracket>,
}

/// A stretch within which rules turn, its ends looked at on both sides.
#[derive(Debug)]
pub(super) struct Bracket {
    pub from: Exact,
    pub to: Exact,
    pub rules: BTreeSet<usize>,
}

/// The line that a number is varied on.
pub(super) struct Line<'a> {
    program: &'a Program,
    unit: Unit,
    worlds: &'a Worlds<'a>,
    samples: Vec<Exact>,
    turners: Vec<Turner>,
    /// The rules that read, of all that changes, the varied fact only.
    pub lone: BTreeSet<usize>,
}

impl<'a> Line<'a> {
    /// The line of a fact, and the rules that hang on it.
    pub fn new(
        program: &'a Program,
        rules: &[usize],
        stated: &'a FactSet,
        subject: &Subject,
        worlds: &'a Worlds<'a>,
        samples: Vec<Exact>,
        unit: Unit,
    ) -> (Line<'a>, Vec<usize>) {
        let changed = worlds.changed(&samples);
        let dependent: Vec<usize> = rules
            .iter()
            .copied()
            .filter(|i| reads_any(program, *i, &changed))
            .collect();
        let at = (subject.item, subject.fact);
        let mut derived = changed.clone();
        derived.remove(&subject.fact);
        let lone = dependent.iter().copied();
        let lone = lone.filter(|i| !reads_any(program, *i, &derived)).collect();
        let line = Line {
            program,
            unit,
            worlds,
            samples,
            lone,
            turners: turners(program, &dependent, stated, at, &changed),
        };
        (line, dependent)
    }

    /// Every place where a condition turns.
    pub fn turns(&self) -> Turns {
        let mut turns = Turns::default();
        for t in &self.turners {
            match t.what {
                What::Figure(i) => {
                    for x in [i.lo, i.hi].into_iter().flatten() {
                        turns.at(x, &t.rules);
                    }
                }
                What::Compare(left, right) => {
                    for upper in [false, true] {
                        let probe = |x| self.side(left, right, t, upper, x);
                        self.follow(&probe, &self.kinks(left, right, t), &t.rules, &mut turns);
                    }
                }
                What::Member(node) => {
                    let probe = |x| self.member(node, t, x);
                    self.follow(&probe, &[], &t.rules, &mut turns);
                }
            }
        }
        let (low, high) = (self.samples.first(), self.samples.last());
        turns
            .points
            .retain(|x, _| low.is_some_and(|l| l <= x) && high.is_some_and(|h| x <= h));
        for end in [low, high].into_iter().flatten() {
            turns.at(*end, &BTreeSet::new());
        }
        turns
    }

    /// Notes each place where what the probe finds changes.
    fn follow(
        &self,
        probe: &dyn Fn(Exact) -> Probe,
        kinks: &[Exact],
        rules: &BTreeSet<usize>,
        turns: &mut Turns,
    ) {
        let mut at: Vec<Exact> = self.samples.clone();
        if !kinks.is_empty() {
            at.extend(kinks);
            at.sort_unstable();
            at.dedup();
        }
        let found: Vec<(Exact, Probe)> = at.into_iter().map(|x| (x, probe(x))).collect();
        for pair in found.windows(2) {
            let [a, b] = pair else { continue };
            if a.1.side == b.1.side {
                continue;
            }
            for (from, to) in crossing(probe, *a, *b, self.unit) {
                turns.at(from, rules);
                turns.at(to, rules);
                if from != to {
                    turns.brackets.push(Bracket {
                        from,
                        to,
                        rules: rules.clone(),
                    });
                }
            }
        }
    }

    /// What `f` finds of the rig at a value, as far as a turner reads it.
    fn at<R>(&self, t: &Turner, x: Exact, f: impl FnOnce(&FactSet) -> R) -> R {
        if t.lone {
            self.worlds.only_at(x, f)
        } else {
            self.worlds.at(x, f)
        }
    }

    /// One end of the difference of two amounts, and its sign.
    fn side(&self, left: AmountId, right: AmountId, t: &Turner, upper: bool, x: Exact) -> Probe {
        let i = self.at(t, x, |facts| {
            let w = World {
                facts,
                item: t.item,
                looks: &[],
            };
            amount(self.program, left, w).sub(amount(self.program, right, w))
        });
        let end = if upper { i.hi } else { i.lo };
        let side = match end {
            Some(y) => y.cmp(&Exact::ZERO) as i8,
            None if upper => 1,
            None => -1,
        };
        Probe { side, end }
    }

    fn member(&self, node: crate::engine::NodeId, t: &Turner, x: Exact) -> Probe {
        let truth = self.at(t, x, |facts| {
            let w = World {
                facts,
                item: t.item,
                looks: &[],
            };
            truth(self.program, node, w)
        });
        let side = match truth {
            Truth::False => -1,
            Truth::True => 1,
            _ => 0,
        };
        Probe { side, end: None }
    }

    /// The places at which counts in steps within a comparison step up.
    fn kinks(&self, left: AmountId, right: AmountId, t: &Turner) -> Vec<Exact> {
        let mut steps = Vec::new();
        for id in [left, right] {
            self.find_steps(id, &mut steps);
        }
        let mut out = Vec::new();
        for (of, up_to, each) in steps {
            let quotient = |x: Exact| {
                self.at(t, x, |facts| {
                    let w = World {
                        facts,
                        item: t.item,
                        looks: &[],
                    };
                    let p = self.program;
                    let beyond = amount(p, of, w).sub(amount(p, up_to, w));
                    beyond.div(amount(p, each, w))
                })
            };
            for ends in [|i: Interval| i.lo, |i: Interval| i.hi] {
                let found: Vec<(Exact, Option<Exact>)> = self
                    .samples
                    .iter()
                    .map(|x| (*x, ends(quotient(*x))))
                    .collect();
                for pair in found.windows(2) {
                    if let [(a, Some(ya)), (b, Some(yb))] = pair {
                        out.extend(whole_between((*a, *ya), (*b, *yb)));
                    }
                }
            }
        }
        out
    }

    fn find_steps(&self, id: AmountId, out: &mut Vec<(AmountId, AmountId, AmountId)>) {
        match self.program.amount(id).map(|a| a.0) {
            Some(Amount::Steps {
                of, up_to, each, ..
            }) => out.push((of, up_to, each)),
            Some(Amount::Times(_, inner)) => self.find_steps(inner, out),
            Some(Amount::Difference(a, b)) => {
                self.find_steps(a, out);
                self.find_steps(b, out);
            }
            Some(Amount::Sum(run) | Amount::Greatest(run) | Amount::Least(run)) => {
                for part in self.program.part_run(run) {
                    self.find_steps(*part, out);
                }
            }
            _ => {}
        }
    }
}

impl Turns {
    fn at(&mut self, x: Exact, rules: &BTreeSet<usize>) {
        self.points.entry(x).or_default().extend(rules);
    }
}

/// Where a straight line between two places passes whole numbers.
fn whole_between(a: (Exact, Exact), b: (Exact, Exact)) -> Vec<Exact> {
    let mut out = Vec::new();
    let (low, high) = (a.1.min(b.1), a.1.max(b.1));
    let mut k = low.ceil();
    for _ in 0..STEPS {
        if k > high || low == high {
            break;
        }
        let at = || {
            let share = k.checked_sub(a.1)?.checked_div(b.1.checked_sub(a.1)?)?;
            a.0.checked_add(b.0.checked_sub(a.0)?.checked_mul(share)?)
        };
        out.extend(at());
        let Some(next) = k.checked_add(Exact::ONE) else {
            break;
        };
        k = next;
    }
    out
}
