//! The outcome of every rule at each place where something turns, and between.

use super::line::{Line, Turns, probes, samples, unit};
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

impl Judge<'_> {
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
    let judge = Judge {
        program: rules.program(),
        looks,
        on: subject.on,
    };
    let bound: BTreeSet<usize> = rules
        .bindings()
        .iter()
        .flat_map(|b| b.rules.iter().copied())
        .collect();
    let bound: Vec<usize> = bound.into_iter().collect();
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
    let mut cells = walk(judge, &rules, &worlds, &turns);
    if is_whole(subject) {
        cells = whole(cells);
    }
    // Beyond the last figure nothing turns any more; below the first, only where there is a below.
    if let Some(Value::Number(i)) = cells.last_mut().map(|c| &mut c.value) {
        i.hi = None;
    }
    let resolution = turns
        .brackets
        .iter()
        .filter(|_| !is_whole(subject))
        .filter_map(|b| b.to.checked_sub(b.from))
        .max();
    Cells {
        cells,
        rules,
        broken_anyway,
        resolution,
        unit: Some(unit).filter(|_| matches!(subject.def().kind, Kind::Measure(_))),
    }
}

/// Goes along the line. A rule is asked again only where one of its conditions turns.
fn walk(judge: &Judge<'_>, rules: &[usize], worlds: &Worlds<'_>, turns: &Turns) -> Vec<Cell> {
    let place_of = |rule: &usize| rules.binary_search(rule).ok();
    let mut now: Vec<Outcome> = Vec::new();
    let mut cells = Vec::with_capacity(turns.points.len() * 2);
    let mut points = turns.points.iter().peekable();
    while let Some((x, turning)) = points.next() {
        worlds.at(*x, |facts| {
            if now.is_empty() {
                now = rules.iter().map(|r| judge.outcome(*r, facts)).collect();
            } else {
                again(judge, &mut now, turning, place_of, facts);
            }
        });
        cells.push(Cell {
            value: Value::Number(Interval::exactly(*x)),
            from_included: true,
            to_included: true,
            outcomes: now.clone(),
        });
        let Some((next, _)) = points.peek() else {
            break;
        };
        let middle = x
            .checked_add(**next)
            .and_then(|s| s.checked_div(Exact::from_int(2)));
        let (Some(middle), Some(stretch)) = (middle, Interval::new(Some(*x), Some(**next))) else {
            continue;
        };
        worlds.at(middle, |facts| {
            again(judge, &mut now, turning, place_of, facts)
        });
        let mut outcomes = now.clone();
        // Within a stretch that holds a turn somewhere, the graver of both sides stands.
        for b in turns
            .brackets
            .iter()
            .filter(|b| b.from <= *x && **next <= b.to)
        {
            for rule in &b.rules {
                let ends = [b.from, b.to].map(|e| worlds.at(e, |w| judge.outcome(*rule, w)));
                if let Some(slot) = place_of(rule).and_then(|p| outcomes.get_mut(p)) {
                    *slot = ends.into_iter().fold(*slot, Outcome::max);
                }
            }
        }
        cells.push(Cell {
            value: Value::Number(stretch),
            from_included: false,
            to_included: false,
            outcomes,
        });
    }
    cells
}

fn again(
    judge: &Judge<'_>,
    now: &mut [Outcome],
    turning: &BTreeSet<usize>,
    place_of: impl Fn(&usize) -> Option<usize>,
    facts: &FactSet,
) {
    for rule in turning {
        if let Some(slot) = place_of(rule).and_then(|p| now.get_mut(p)) {
            *slot = judge.outcome(*rule, facts);
        }
    }
}

/// Whether only whole numbers are values: of counts, years and days.
pub(super) fn is_whole(subject: &Subject) -> bool {
    matches!(
        subject.def().kind,
        Kind::Measure(Dimension::Count) | Kind::Year | Kind::Date
    )
}

/// The whole numbers of each cell.
fn whole(cells: Vec<Cell>) -> Vec<Cell> {
    let mut out = Vec::with_capacity(cells.len());
    for mut cell in cells {
        let Value::Number(Interval {
            lo: Some(lo),
            hi: Some(hi),
        }) = cell.value
        else {
            continue;
        };
        let above = |x: Exact| x.floor().checked_add(Exact::ONE);
        let below = |x: Exact| x.ceil().checked_sub(Exact::ONE);
        let from = if cell.from_included {
            Some(lo.ceil())
        } else {
            above(lo)
        };
        let to = if cell.to_included {
            Some(hi.floor())
        } else {
            below(hi)
        };
        if let (Some(from), Some(to)) = (from, to)
            && from <= to
            && let Some(i) = Interval::new(Some(from), Some(to))
        {
            cell.value = Value::Number(i);
            (cell.from_included, cell.to_included) = (true, true);
            out.push(cell);
        }
    }
    out
}
