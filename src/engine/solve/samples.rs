//! How far the line of a fact's values is looked at, where it is sampled, and in which unit it is told.

use super::cells::is_whole;
use super::crossing::resolution;
use super::subject::Subject;
use super::turners::figure;
use crate::engine::{Amount, Node, Program};
use crate::facts::{FactSet, Kind};
use crate::quantity::{Dimension, Exact, Unit};
use crate::rig::YEARS;
use std::collections::BTreeSet;

/// How many even samples are taken up to twice the greatest figure.
const SAMPLES: i64 = 24;
/// How many years lie between two samples; it divides the years that a rig can state.
const YEAR_STEP: usize = 16;
/// How far beyond that the line is looked at, by powers of four.
const FAR: [i64; 5] = [4, 16, 64, 256, 1024];
/// From how many metres on a length is a distance that is driven.
const FAR_AWAY: i64 = 1_500;

/// Values of the fact at which it is found out what hangs on it: figures, far ends, even steps.
pub(super) fn samples(
    program: &Program,
    rules: &[usize],
    stated: &FactSet,
    subject: &Subject,
    unit: Unit,
) -> Vec<Exact> {
    let kind = &subject.def().kind;
    if matches!(kind, Kind::Year) {
        let years = YEARS.step_by(YEAR_STEP).map(Exact::from_int);
        return years.collect();
    }
    let (figures, _) = figures(program, rules, subject);
    let now = subject
        .now(stated)
        .and_then(|k| k.value.interval().hi)
        .unwrap_or(Exact::ONE);
    let most = figures.last().copied().unwrap_or(Exact::ONE);
    let near = most.max(now).max(default_reach(kind));
    let near = near.checked_mul(Exact::from_int(2)).unwrap_or(near);
    let round = |x: Exact| unit.to_base(unit.from_base(x)?.floor());
    let mut out = BTreeSet::new();
    for i in 0..=SAMPLES {
        let share = Exact::new(i128::from(i), i128::from(SAMPLES)).unwrap_or(Exact::ZERO);
        out.extend(near.checked_mul(share).and_then(round));
    }
    out.insert(near);
    // Beside nothing, where what is divided by the fact is greatest.
    if !is_whole(subject) {
        out.extend(resolution(unit));
    }
    if matches!(kind, Kind::Measure(_)) {
        for by in FAR {
            out.extend(near.checked_mul(Exact::from_int(by)));
        }
    }
    if subject.def().signed {
        let mirrored: Vec<Exact> = out.iter().map(|x| x.neg()).collect();
        out.extend(mirrored);
    }
    out.into_iter().collect()
}

/// Values around what the fact is now, no further off than it is great.
pub(super) fn window(subject: &Subject, now: (Exact, Exact), unit: Unit) -> Vec<Exact> {
    let kind = &subject.def().kind;
    let size = now.0.abs().max(now.1.abs());
    let size = if size == Exact::ZERO {
        default_reach(kind)
    } else {
        size
    };
    let low = now.0.checked_sub(size).unwrap_or(now.0);
    let low = if subject.def().signed {
        low
    } else {
        low.max(Exact::ZERO)
    };
    let high = now.1.checked_add(size).unwrap_or(now.1);
    let mut out = BTreeSet::from([low, now.0, now.1, high]);
    if low == Exact::ZERO && !is_whole(subject) {
        out.extend(resolution(unit).filter(|x| *x < now.0));
    }
    for part in [1, 2] {
        let share = Exact::new(part, 3).and_then(|s| size.checked_mul(s));
        for at in [
            share.and_then(|d| now.0.checked_sub(d)),
            share.and_then(|d| now.1.checked_add(d)),
        ] {
            let round = |x: Exact| unit.to_base(unit.from_base(x)?.floor());
            out.extend(at.and_then(round).filter(|x| low <= *x && *x <= high));
        }
    }
    out.into_iter().collect()
}

/// A few of the samples, enough to see whether anything is worked out from the fact.
pub(super) fn probes(samples: &[Exact]) -> Vec<Exact> {
    let every = (samples.len() / 8).max(1);
    let last = samples.last().copied();
    samples.iter().step_by(every).copied().chain(last).collect()
}

/// The unit to tell the fact in: the rig's, else that of the rules, else the base unit of its kind; for
/// long distances miles or kilometres.
pub(super) fn unit(p: &Program, rules: &[usize], stated: &FactSet, subject: &Subject) -> Unit {
    let Kind::Measure(d) = subject.def().kind else {
        return Unit::One;
    };
    let fits = |u: &Unit| u.dimension() == d;
    let found = subject.unit(stated).filter(fits);
    let (figures, of_rules) = figures(p, rules, subject);
    let unit = found
        .or_else(|| of_rules.filter(fits))
        .unwrap_or(d.base_unit());
    let far = figures
        .last()
        .is_some_and(|x| *x >= Exact::from_int(FAR_AWAY));
    match unit {
        Unit::Foot | Unit::Inch | Unit::Yard if far => Unit::Mile,
        Unit::Meter | Unit::Centimeter | Unit::Millimeter if far => Unit::Kilometer,
        unit => unit,
    }
}

/// The figures that rules compare the fact itself with, in order, and the unit of the first.
fn figures(
    program: &Program,
    rules: &[usize],
    subject: &Subject,
) -> (BTreeSet<Exact>, Option<Unit>) {
    let mut out = BTreeSet::new();
    let mut unit = None;
    for rule in rules.iter().filter_map(|i| program.rules.get(*i)) {
        for root in [rule.applies, rule.must] {
            program.leaves(root, &mut |n| {
                let Node::Compare { left, right, .. } = program.node(n) else {
                    return;
                };
                for (one, other) in [(left, right), (right, left)] {
                    let own = matches!(program.amount(one), Some((Amount::Fact(f), _, _)) if *f == subject.fact);
                    if let (true, Some(i)) = (own, figure(program, other)) {
                        out.extend([i.lo, i.hi].into_iter().flatten());
                        if let Some((Amount::Literal(m), _, _)) = program.amount(other) {
                            unit = unit.or(Some(m.unit));
                        }
                    }
                }
            });
        }
    }
    (out, unit)
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
