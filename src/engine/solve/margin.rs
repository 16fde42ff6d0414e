//! How far the rig is from the nearest value at which a rule begins, or ceases, to be broken.

use super::range::{Band, Range, Standing, range};
use super::subject::Subject;
use super::turners::reads_any;
use crate::engine::Ruleset;
use crate::facts::{Day, FactSet, ItemId, Kind, Origin, Value, Whence, catalogue};
use crate::quantity::{Exact, Interval, Unit};
use std::collections::BTreeSet;

/// A turn near to where the rig is.
#[derive(Clone, Debug)]
pub struct Margin {
    /// The fact.
    pub subject: Subject,
    /// What it is now, in the base unit.
    pub now: Interval,
    /// The unit to tell it in.
    pub unit: Option<Unit>,
    /// The value at which the rules begin to stand otherwise.
    pub turn: Exact,
    /// Whether they do so at that value already, or only beyond it.
    pub at_turn: bool,
    /// Whether it lies above what the fact is now.
    pub upward: bool,
    /// How far off it is, in the base unit.
    pub gap: Exact,
    /// How the rules stand beyond, those left out that are broken whatever the fact is.
    pub beyond: Standing,
    /// The rules that are broken, or open, beyond and not here.
    pub rules: BTreeSet<usize>,
    /// The rules that are broken here and not beyond.
    pub mended: BTreeSet<usize>,
    /// Whether one of these rules names the fact itself.
    pub direct: bool,
}

impl Margin {
    /// How far off the turn is, as a share of what the fact is now; for sorting.
    #[must_use]
    pub fn nearness(&self) -> f64 {
        let size = self.now.hi.or(self.now.lo).unwrap_or(Exact::ONE);
        self.gap.to_f64() / size.to_f64().abs().max(1e-9)
    }
}

/// The nearest turns of every number that a person can change, the nearest first. `stated` is the
/// rig before anything is worked out, `facts` the same with all worked out.
#[must_use]
pub fn margins(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    facts: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Vec<Margin> {
    let mut out = Vec::new();
    for subject in changeable(facts, on) {
        let Some(now) = subject.now(facts).map(|k| k.value.interval()) else {
            continue;
        };
        out.extend(around(rules, &range(rules, stated, looks, &subject), now));
    }
    out.sort_by(|a, b| a.nearness().total_cmp(&b.nearness()));
    out
}

/// Of margins that say the same, because one fact is a part of another, the one whose fact the
/// rules name; the order is kept.
#[must_use]
pub fn distinct(margins: &[Margin]) -> Vec<&Margin> {
    let alike = |a: &Margin, b: &Margin| {
        a.gap == b.gap
            && a.upward == b.upward
            && a.rules == b.rules
            && a.mended == b.mended
            && a.subject.def().kind.name() == b.subject.def().kind.name()
    };
    let mut out: Vec<&Margin> = Vec::new();
    for margin in margins {
        match out.iter_mut().find(|m| alike(m, margin)) {
            Some(kept) if margin.direct && !kept.direct => *kept = margin,
            Some(_) => {}
            None => out.push(margin),
        }
    }
    out
}

/// The numbers that a person can change: weights, lengths, speeds, pressures and counts that are
/// known, ratings left out.
fn changeable(facts: &FactSet, on: Option<Day>) -> Vec<Subject> {
    let mut out = Vec::new();
    for (fact, def) in catalogue().all() {
        let varies = matches!(def.kind, Kind::Measure(_)) && def.origin != Origin::WorkedOut;
        let rating = [
            "rating",
            "gvwr",
            "gcwr",
            "payload",
            "load_limit",
            "load_index",
        ]
        .iter()
        .any(|w| def.name.contains(w) && !def.name.contains("working"));
        if !varies || rating {
            continue;
        }
        for index in 0..facts.items(def.scope).len() {
            let item = ItemId {
                scope: def.scope,
                index,
            };
            let known = facts.known(item, fact);
            if known.is_some_and(|k| k.whence != Whence::Missing) {
                out.push(Subject {
                    item,
                    fact,
                    name: facts.name_of(item, fact),
                    on,
                });
            }
        }
    }
    out
}

/// Whether a band holds all of these values.
fn holds(band: &Band, now: Interval) -> bool {
    let Value::Number(i) = band.value else {
        return false;
    };
    let above = match (i.lo, now.lo) {
        (None, _) => true,
        (Some(lo), Some(n)) => lo < n || (lo == n && band.from_included),
        (Some(_), None) => false,
    };
    let below = match (i.hi, now.hi) {
        (None, _) => true,
        (Some(hi), Some(n)) => n < hi || (n == hi && band.to_included),
        (Some(_), None) => false,
    };
    above && below
}

fn around(rules: &Ruleset<'_>, range: &Range, now: Interval) -> Vec<Margin> {
    let bands = &range.apart;
    let Some(here) = bands.iter().position(|b| holds(b, now)) else {
        return Vec::new();
    };
    let Some(own) = bands.get(here) else {
        return Vec::new();
    };
    let i = own.value.interval();
    let sides = [
        (false, i.lo, now.lo, own.from_included, here.checked_sub(1)),
        (true, i.hi, now.hi, own.to_included, Some(here + 1)),
    ];
    let mut out = Vec::new();
    for (upward, end, from, included, next) in sides {
        let (Some(turn), Some(from), Some(beyond)) = (end, from, next.and_then(|n| bands.get(n)))
        else {
            continue;
        };
        let Some(gap) = turn.checked_sub(from).map(Exact::abs) else {
            continue;
        };
        let new: BTreeSet<usize> = beyond.rules.difference(&own.rules).copied().collect();
        let mended: BTreeSet<usize> = match own.standing {
            Standing::Broken => own.rules.difference(&beyond.rules).copied().collect(),
            _ => BTreeSet::new(),
        };
        if new.is_empty() && mended.is_empty() {
            continue;
        }
        let named = BTreeSet::from([range.subject.fact]);
        let direct = new
            .iter()
            .chain(&mended)
            .any(|r| reads_any(rules.program(), *r, &named));
        out.push(Margin {
            subject: range.subject.clone(),
            now,
            unit: range.unit,
            turn,
            at_turn: !included,
            upward,
            gap,
            beyond: beyond.standing,
            rules: new,
            mended,
            direct,
        });
    }
    out
}
