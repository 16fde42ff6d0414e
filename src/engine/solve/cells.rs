//! The outcome of every rule at each place where something turns, and between.

use super::line::{Bracket, Line, Turns};
use super::samples::{probes, samples, unit, window};
use super::subject::Subject;
use super::turners::reads_any;
use super::worlds::{Worlds, changed_facts};
use crate::engine::{Outcome, Program, Ruleset, outcome};
use crate::facts::{Day, FactSet, Kind, Value};
use crate::quantity::{Dimension, Exact, Interval, Unit};
use std::collections::BTreeSet;

/// A place or a stretch of the line, or one member of a choice.
pub(super) struct Cell {
    pub value: Value,
    pub from_included: bool,
    pub to_included: bool,
    /// The outcome of each rule that hangs on the fact, in the order of [`Cells::rules`].
    pub outcomes: Vec<Outcome>,
}

/// The line cut into cells.
pub(super) struct Cells {
    pub cells: Vec<Cell>,
    /// The rules that hang on the fact, by their places in the program.
    pub rules: Vec<usize>,
    /// Of the others, those that are broken whatever the fact is.
    pub broken_anyway: BTreeSet<usize>,
    /// The width of the widest stretch within which a turn could not be placed.
    pub resolution: Option<Exact>,
    /// The unit to tell numbers in.
    pub unit: Option<Unit>,
}

struct Judge<'a> {
    program: &'a Program,
    looks: &'a [Option<bool>],
    on: Option<Day>,
}

impl<'a> Judge<'a> {
    fn new(rules: &'a Ruleset<'_>, looks: &'a [Option<bool>], subject: &Subject) -> Judge<'a> {
        Judge {
            program: rules.program(),
            looks,
            on: subject.on,
        }
    }

    fn outcome(&self, rule: usize, facts: &FactSet) -> Outcome {
        let rule = self.program.rules.get(rule);
        rule.map_or(Outcome::DoesNotApply, |r| {
            outcome(self.program, r, facts, self.looks, self.on)
        })
    }

    fn broken(&self, rules: impl Iterator<Item = usize>, facts: &FactSet) -> BTreeSet<usize> {
        rules
            .filter(|r| self.outcome(*r, facts) == Outcome::NotMet)
            .collect()
    }
}

/// Cuts the line of a fact's values where the rules that bind turn.
pub(super) fn cells(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
) -> Cells {
    let judge = Judge::new(rules, looks, subject);
    let bound = bound(rules);
    match subject.def().kind {
        Kind::YesNo => members(&judge, &bound, stated, subject, 2),
        Kind::Choice(c) => members(&judge, &bound, stated, subject, c.len()),
        _ => numbers(&judge, &bound, stated, subject),
    }
}

/// Each member of a choice by itself.
fn members(
    judge: &Judge<'_>,
    bound: &[usize],
    stated: &FactSet,
    subject: &Subject,
    count: usize,
) -> Cells {
    let values: Vec<Value> = (0..count).map(|bit| Value::OneOf(1 << bit)).collect();
    let worlds: Vec<FactSet> = values.iter().map(|v| subject.with(stated, *v)).collect();
    let changed = changed_facts(worlds.iter());
    let (rules, others): (Vec<usize>, Vec<usize>) = bound
        .iter()
        .partition(|i| reads_any(judge.program, **i, &changed));
    let one = |(value, world): (&Value, &FactSet)| Cell {
        value: *value,
        from_included: true,
        to_included: true,
        outcomes: rules.iter().map(|r| judge.outcome(*r, world)).collect(),
    };
    let cells = values.iter().zip(&worlds).map(one).collect();
    let broken_anyway = worlds
        .first()
        .map(|w| judge.broken(others.into_iter(), w))
        .unwrap_or_default();
    Cells {
        cells,
        rules,
        broken_anyway,
        resolution: None,
        unit: None,
    }
}

/// Each place where a comparison turns, and the stretches between.
fn numbers(judge: &Judge<'_>, bound: &[usize], stated: &FactSet, subject: &Subject) -> Cells {
    let unit = unit(judge.program, bound, stated, subject);
    let at = samples(judge.program, bound, stated, subject, unit);
    let worlds = Worlds::new(subject, stated, &probes(&at));
    let first = at.first().copied().unwrap_or(Exact::ZERO);
    let (line, rules) = Line::new(judge.program, bound, stated, subject, &worlds, at, unit);
    let hangs: BTreeSet<usize> = rules.iter().copied().collect();
    let others = bound.iter().copied().filter(|r| !hangs.contains(r));
    let broken_anyway = worlds.at(first, |w| judge.broken(others, w));
    let turns = line.turns();
    let walk = Walk {
        judge,
        rules: &rules,
        worlds: &worlds,
        lone: &line.lone,
        turns: &turns,
    };
    let mut cells = walk.along(turns.points.iter(), |_| false);
    if is_whole(subject) {
        cells = cells.iter().filter_map(whole).collect();
    }
    // Beyond the last figure nothing turns any more.
    if let Some(Value::Number(i)) = cells.last_mut().map(|c| &mut c.value) {
        i.hi = None;
    }
    let resolution = walk.resolution().filter(|_| !is_whole(subject));
    Cells {
        cells,
        rules,
        broken_anyway,
        resolution,
        unit: Some(unit).filter(|_| matches!(subject.def().kind, Kind::Measure(_))),
    }
}

/// Goes along the line.
struct Walk<'a, 'w> {
    judge: &'a Judge<'a>,
    rules: &'a [usize],
    worlds: &'a Worlds<'w>,
    lone: &'a BTreeSet<usize>,
    turns: &'a Turns,
}

impl Walk<'_, '_> {
    /// The cells at these places and between, in their order, until `enough` says so. A rule is asked
    /// again only where one of its conditions turns.
    fn along<'p>(
        &self,
        points: impl Iterator<Item = (&'p Exact, &'p BTreeSet<usize>)>,
        mut enough: impl FnMut(&Cell) -> bool,
    ) -> Vec<Cell> {
        let mut now: Vec<Outcome> = Vec::new();
        let mut cells = Vec::new();
        let mut points = points.peekable();
        while let Some((x, turning)) = points.next() {
            if now.is_empty() {
                now = self.rules.iter().map(|r| self.outcome(*r, *x)).collect();
            } else {
                self.again(&mut now, turning, *x);
            }
            cells.push(Cell {
                value: Value::Number(Interval::exactly(*x)),
                from_included: true,
                to_included: true,
                outcomes: now.clone(),
            });
            if cells.last().is_some_and(&mut enough) {
                break;
            }
            let Some((next, _)) = points.peek() else {
                break;
            };
            let (low, high) = ((*x).min(**next), (*x).max(**next));
            let middle = low
                .checked_add(high)
                .and_then(|s| s.checked_div(Exact::from_int(2)));
            let (Some(middle), Some(stretch)) = (middle, Interval::new(Some(low), Some(high)))
            else {
                continue;
            };
            self.again(&mut now, turning, middle);
            let mut outcomes = now.clone();
            self.blur(&mut outcomes, low, high);
            cells.push(Cell {
                value: Value::Number(stretch),
                from_included: false,
                to_included: false,
                outcomes,
            });
            if cells.last().is_some_and(&mut enough) {
                break;
            }
        }
        cells
    }

    /// Within a stretch that holds a turn somewhere, the graver of both sides stands.
    fn blur(&self, outcomes: &mut [Outcome], low: Exact, high: Exact) {
        let brackets = self.turns.brackets.iter();
        for b in brackets.filter(|b| b.from <= low && high <= b.to) {
            for rule in &b.rules {
                let ends = [b.from, b.to].map(|x| self.outcome(*rule, x));
                if let Some(slot) = self.place_of(rule).and_then(|p| outcomes.get_mut(p)) {
                    *slot = ends.into_iter().fold(*slot, Outcome::max);
                }
            }
        }
    }

    /// The width of the widest stretch within which a rule comes out otherwise at an unknown place.
    fn resolution(&self) -> Option<Exact> {
        let turns = |b: &&Bracket| {
            let mut rules = b.rules.iter();
            rules.any(|r| self.outcome(*r, b.from) != self.outcome(*r, b.to))
        };
        let brackets = self.turns.brackets.iter().filter(turns);
        brackets.filter_map(|b| b.to.checked_sub(b.from)).max()
    }

    fn again(&self, now: &mut [Outcome], turning: &BTreeSet<usize>, x: Exact) {
        for rule in turning {
            if let Some(slot) = self.place_of(rule).and_then(|p| now.get_mut(p)) {
                *slot = self.outcome(*rule, x);
            }
        }
    }

    fn outcome(&self, rule: usize, x: Exact) -> Outcome {
        let of = |facts: &FactSet| self.judge.outcome(rule, facts);
        if self.lone.contains(&rule) {
            self.worlds.only_at(x, of)
        } else {
            self.worlds.at(x, of)
        }
    }

    fn place_of(&self, rule: &usize) -> Option<usize> {
        self.rules.binary_search(rule).ok()
    }
}

/// The cells around what the fact is now, on either side up to the first that is a turn from what it
/// is now, no further off than the fact is great. `alone` is the rig with all worked out where nothing
/// is worked out from the fact.
pub(super) fn near(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
    now: (Exact, Exact),
    alone: Option<&FactSet>,
    is_turn: &dyn Fn(&[Outcome], &[Outcome]) -> bool,
) -> Cells {
    let judge = Judge::new(rules, looks, subject);
    let bound = bound(rules);
    let unit = unit(judge.program, &bound, stated, subject);
    let at = window(subject, now, unit);
    let worlds = match alone {
        Some(facts) => Worlds::alone(subject, stated, facts),
        None => Worlds::new(subject, stated, &probes(&at)),
    };
    let (line, dependent) = Line::new(judge.program, &bound, stated, subject, &worlds, at, unit);
    let mut turns = line.turns();
    turns.points.entry(now.0).or_default();
    let walk = Walk {
        judge: &judge,
        rules: &dependent,
        worlds: &worlds,
        lone: &line.lone,
        turns: &turns,
    };
    let whole_only = is_whole(subject);
    let mut first: Option<Vec<Outcome>> = None;
    let mut enough = |cell: &Cell| {
        if whole_only && whole(cell).is_none() {
            return false;
        }
        match &first {
            None => {
                first = Some(cell.outcomes.clone());
                false
            }
            Some(first) => is_turn(first, &cell.outcomes),
        }
    };
    let up = walk.along(turns.points.range(now.0..), &mut enough);
    let down = walk.along(turns.points.range(..=now.0).rev(), &mut enough);
    let mut cells: Vec<Cell> = down.into_iter().skip(1).collect();
    cells.reverse();
    cells.extend(up);
    if whole_only {
        cells = cells.iter().filter_map(whole).collect();
    }
    let resolution = walk.resolution().filter(|_| !whole_only);
    Cells {
        cells,
        rules: dependent,
        broken_anyway: BTreeSet::new(),
        resolution,
        unit: Some(unit).filter(|_| matches!(subject.def().kind, Kind::Measure(_))),
    }
}

/// Every rule that binds somewhere, once.
fn bound(rules: &Ruleset<'_>) -> Vec<usize> {
    let all = rules.bindings().iter();
    let all: BTreeSet<usize> = all.flat_map(|b| b.rules.iter().copied()).collect();
    all.into_iter().collect()
}

/// Whether only whole numbers are values: of counts, years and days.
pub(super) fn is_whole(subject: &Subject) -> bool {
    matches!(
        subject.def().kind,
        Kind::Measure(Dimension::Count) | Kind::Year | Kind::Date
    )
}

/// The whole numbers of a cell, if there are any.
fn whole(cell: &Cell) -> Option<Cell> {
    let Value::Number(Interval {
        lo: Some(lo),
        hi: Some(hi),
    }) = cell.value
    else {
        return None;
    };
    let from = match cell.from_included {
        true => lo.ceil(),
        false => lo.floor().checked_add(Exact::ONE)?,
    };
    let to = match cell.to_included {
        true => hi.floor(),
        false => hi.ceil().checked_sub(Exact::ONE)?,
    };
    if from > to {
        return None;
    }
    Some(Cell {
        value: Value::Number(Interval::new(Some(from), Some(to))?),
        from_included: true,
        to_included: true,
        outcomes: cell.outcomes.clone(),
    })
}
