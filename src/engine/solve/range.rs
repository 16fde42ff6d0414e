//! The values of a fact for which no rule is broken.

use super::line::{Line, changed_facts, reads_any};
use super::subject::Subject;
use crate::engine::{Outcome, Ruleset, outcome};
use crate::facts::{Day, FactSet, Kind, Value, show_value};
use crate::quantity::{Dimension, Exact, Interval};
use std::collections::BTreeSet;

/// How the rules stand on a band of values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// No rule is broken.
    Allowed,
    /// No rule is broken as far as is known, but one that this fact bears on is open.
    Unknown,
    /// A rule is broken.
    Broken,
}

/// A band of values on which every rule comes out the same way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Band {
    /// The values: an interval of numbers, or one member of a choice.
    pub value: Value,
    /// Whether the lower end belongs to it.
    pub from_included: bool,
    /// Whether the upper end belongs to it.
    pub to_included: bool,
    /// How the rules stand on it.
    pub standing: Standing,
    /// The rules that are broken, or open, on it: their places in the program.
    pub rules: BTreeSet<usize>,
    /// The rules that are broken just below it.
    pub below: BTreeSet<usize>,
    /// The rules that are broken just above it.
    pub above: BTreeSet<usize>,
}

/// The line of a fact's values, cut into bands.
#[derive(Clone, Debug)]
pub struct Range {
    /// The fact.
    pub subject: Subject,
    /// The bands, from below; like neighbours are joined.
    pub bands: Vec<Band>,
    /// Where no value is allowed: a smallest set of rules of which each value breaks one.
    pub conflict: Vec<usize>,
}

impl Range {
    /// The bands of one standing.
    pub fn of(&self, standing: Standing) -> impl Iterator<Item = &Band> {
        self.bands.iter().filter(move |b| b.standing == standing)
    }

    /// The ends of a band in words; `None` for an open end.
    #[must_use]
    pub fn ends(&self, band: &Band, facts: &FactSet) -> (Option<String>, Option<String>) {
        let def = self.subject.def();
        let unit = self.subject.unit(facts);
        let Value::Number(i) = band.value else {
            let shown = show_value(&band.value, None, def);
            return (Some(shown.clone()), Some(shown));
        };
        let show = |x: Exact| show_value(&Value::Number(Interval::exactly(x)), unit, def);
        (i.lo.map(show), i.hi.map(show))
    }
}

/// Cuts the line of a fact's values into bands on which no rule is broken, some rule is, or some
/// is open. `stated` is the rig before anything is worked out.
#[must_use]
pub fn range(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
) -> Range {
    range_under(rules, bound(rules), stated, looks, subject)
}

/// As [`range`], but under some of the rules only: their places in the program.
#[must_use]
pub fn range_under(
    rules: &Ruleset<'_>,
    which: BTreeSet<usize>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
) -> Range {
    let all: Vec<usize> = which.into_iter().collect();
    let mut solver = Solver {
        rules,
        stated,
        looks,
        on: subject.on,
        subject,
        all,
        fixed: BTreeSet::new(),
    };
    let mut cells = match subject.def().kind {
        Kind::YesNo | Kind::Choice(_) => solver.values(
            (0..members(subject))
                .map(|bit| Value::OneOf(1 << bit))
                .collect(),
        ),
        Kind::Measure(Dimension::Count) => solver.values(whole_numbers(0, 40)),
        Kind::Year => solver.values(whole_numbers(1900, 2060)),
        _ => solver.numbers(),
    };
    solver.judge(&mut cells);
    let mut bands = join(cells);
    neighbours(&mut bands);
    let conflict = if bands.iter().all(|b| b.standing == Standing::Broken) {
        smallest_conflict(&bands)
    } else {
        Vec::new()
    };
    Range {
        subject: subject.clone(),
        bands,
        conflict,
    }
}

/// The rules that bind on the route, each once, by their places in the program.
#[must_use]
pub fn bound(rules: &Ruleset<'_>) -> BTreeSet<usize> {
    let bindings = rules.bindings().iter();
    bindings.flat_map(|b| b.rules.iter().copied()).collect()
}

/// A place or a stretch of the line, with the outcome of every rule on it.
struct Cell {
    value: Value,
    from_included: bool,
    to_included: bool,
    outcomes: Vec<Outcome>,
    standing: Standing,
    rules: BTreeSet<usize>,
}

struct Solver<'a, 'l> {
    rules: &'a Ruleset<'l>,
    stated: &'a FactSet,
    looks: &'a [Option<bool>],
    on: Option<Day>,
    subject: &'a Subject,
    all: Vec<usize>,
    fixed: BTreeSet<usize>,
}

impl Solver<'_, '_> {
    /// Sets aside the rules that the fact does not bear on; those of them that are broken are
    /// broken everywhere.
    fn set_aside(&mut self, dependent: Vec<usize>, fixed: &[usize]) {
        let mut facts = self.stated.clone();
        let _ = crate::mechanics::work_out(&mut facts, self.on);
        let p = self.rules.program();
        let broken = |i: &&usize| {
            p.rules
                .get(**i)
                .is_some_and(|r| outcome(p, r, &facts, self.looks, self.on) == Outcome::NotMet)
        };
        self.fixed = fixed.iter().filter(broken).copied().collect();
        self.all = dependent;
    }

    fn cell(&self, shown: Value, world: &FactSet, from_included: bool, to_included: bool) -> Cell {
        let p = self.rules.program();
        let outcomes = self
            .all
            .iter()
            .filter_map(|i| p.rules.get(*i))
            .map(|r| outcome(p, r, world, self.looks, self.on))
            .collect();
        Cell {
            value: shown,
            from_included,
            to_included,
            outcomes,
            standing: Standing::Allowed,
            rules: BTreeSet::new(),
        }
    }

    /// Each of some values by itself.
    fn values(&mut self, values: Vec<Value>) -> Vec<Cell> {
        let worlds: Vec<FactSet> = values
            .iter()
            .map(|v| self.subject.with(self.stated, *v))
            .collect();
        let changed = changed_facts(worlds.iter());
        let p = self.rules.program();
        let (dependent, fixed): (Vec<usize>, Vec<usize>) =
            self.all.iter().partition(|i| reads_any(p, **i, &changed));
        self.set_aside(dependent, &fixed);
        let pairs = values.iter().zip(&worlds);
        pairs.map(|(v, w)| self.cell(*v, w, true, true)).collect()
    }

    /// Each place where a comparison turns, and the stretches between.
    fn numbers(&mut self) -> Vec<Cell> {
        let mut line = Line::new(self.rules.program(), &self.all, self.stated, self.subject);
        let (dependent, fixed) = line.keep_dependent();
        self.set_aside(dependent, &fixed);
        let turns = line.turns();
        let mut cells = Vec::with_capacity(turns.len() * 2);
        for (i, x) in turns.iter().enumerate() {
            let place = Value::Number(Interval::exactly(*x));
            let world = self.subject.with_number(self.stated, *x);
            cells.push(self.cell(place, &world, true, true));
            if let Some(next) = turns.get(i + 1)
                && let Some(middle) = x
                    .checked_add(*next)
                    .and_then(|s| s.checked_div(Exact::from_int(2)))
                && let Some(stretch) = Interval::new(Some(*x), Some(*next))
            {
                let world = self.subject.with_number(self.stated, middle);
                cells.push(self.cell(Value::Number(stretch), &world, false, false));
            }
        }
        // Beyond the last figure nothing turns any more.
        if let Some(last) = cells.last_mut()
            && let Value::Number(i) = &mut last.value
        {
            i.hi = None;
        }
        cells
    }

    /// A rule is open on a cell only if the fact bears on it: if it comes out otherwise elsewhere.
    fn judge(&self, cells: &mut [Cell]) {
        let bears: Vec<bool> = (0..self.all.len())
            .map(|r| {
                let first = cells.first().and_then(|c| c.outcomes.get(r));
                cells.iter().any(|c| c.outcomes.get(r) != first)
            })
            .collect();
        for cell in cells {
            let of = |wanted: Outcome, only_bearing: bool| -> BTreeSet<usize> {
                let pairs = cell.outcomes.iter().zip(&self.all).zip(&bears);
                pairs
                    .filter(|((o, _), b)| **o == wanted && (**b || !only_bearing))
                    .map(|((_, r), _)| *r)
                    .collect()
            };
            let mut broken = of(Outcome::NotMet, false);
            broken.extend(&self.fixed);
            let open = of(Outcome::Unknown, true);
            (cell.standing, cell.rules) = if !broken.is_empty() {
                (Standing::Broken, broken)
            } else if !open.is_empty() {
                (Standing::Unknown, open)
            } else {
                (Standing::Allowed, BTreeSet::new())
            };
        }
    }
}

/// How many members the subject's choice has; a yes/no has two.
fn members(subject: &Subject) -> usize {
    match subject.def().kind {
        Kind::Choice(c) => c.len(),
        _ => 2,
    }
}

fn whole_numbers(from: i64, to: i64) -> Vec<Value> {
    (from..=to)
        .map(|n| Value::Number(Interval::exactly(Exact::from_int(n))))
        .collect()
}

/// Joins neighbours that stand alike, for the same rules.
fn join(cells: Vec<Cell>) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    for cell in cells {
        if let Some(last) = bands.last_mut()
            && last.standing == cell.standing
            && last.rules == cell.rules
            && let (Value::Number(a), Value::Number(b)) = (&mut last.value, cell.value)
        {
            a.hi = b.hi;
            last.to_included = cell.to_included;
            continue;
        }
        bands.push(Band {
            value: cell.value,
            from_included: cell.from_included,
            to_included: cell.to_included,
            standing: cell.standing,
            rules: cell.rules,
            below: BTreeSet::new(),
            above: BTreeSet::new(),
        });
    }
    bands
}

/// For numbers, which rules are broken on either side of each band.
fn neighbours(bands: &mut [Band]) {
    let broken: Vec<BTreeSet<usize>> = bands
        .iter()
        .map(|b| {
            if b.standing == Standing::Broken {
                b.rules.clone()
            } else {
                BTreeSet::new()
            }
        })
        .collect();
    for (i, band) in bands.iter_mut().enumerate() {
        if matches!(band.value, Value::Number(_)) {
            band.below = i
                .checked_sub(1)
                .and_then(|j| broken.get(j))
                .cloned()
                .unwrap_or_default();
            band.above = broken.get(i + 1).cloned().unwrap_or_default();
        }
    }
}

/// A smallest set of rules of which every band breaks one: by size, the first that does.
fn smallest_conflict(bands: &[Band]) -> Vec<usize> {
    let mut sets: Vec<&BTreeSet<usize>> = bands.iter().map(|b| &b.rules).collect();
    sets.sort_by_key(|s| s.len());
    sets.dedup();
    let most = sets.len();
    for size in 1..=most {
        if let Some(found) = hit(&sets, &mut Vec::new(), size) {
            return found;
        }
    }
    Vec::new()
}

fn hit(sets: &[&BTreeSet<usize>], chosen: &mut Vec<usize>, left: usize) -> Option<Vec<usize>> {
    let Some(open) = sets.iter().find(|s| !s.iter().any(|r| chosen.contains(r))) else {
        return Some(chosen.clone());
    };
    if left == 0 {
        return None;
    }
    for rule in *open {
        chosen.push(*rule);
        if let Some(found) = hit(sets, chosen, left - 1) {
            return Some(found);
        }
        chosen.pop();
    }
    None
}
