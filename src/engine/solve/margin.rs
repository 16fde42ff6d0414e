//! How far the rig is from the nearest value at which an outcome turns.

use super::range::{Range, Standing, range};
use super::subject::Subject;
use crate::engine::Ruleset;
use crate::facts::{Day, FactSet, ItemId, Kind, Origin, Value, Whence, catalogue};
use crate::quantity::Exact;
use std::collections::BTreeSet;

/// A turn near to where the rig is.
#[derive(Clone, Debug)]
pub struct Margin {
    /// The fact.
    pub subject: Subject,
    /// What it is now, in the base unit.
    pub now: Exact,
    /// The value at which the rules begin to stand otherwise.
    pub turn: Exact,
    /// Whether they do so at that value already, or only beyond it.
    pub at_turn: bool,
    /// How the rules stand beyond.
    pub beyond: Standing,
    /// The rules that are broken, or open, beyond and not here.
    pub rules: BTreeSet<usize>,
    /// The rules that are broken here and not beyond.
    pub mended: BTreeSet<usize>,
}

impl Margin {
    /// How far off the turn is, as a share of what the fact is now; for sorting.
    #[must_use]
    pub fn nearness(&self) -> f64 {
        let gap = (self.turn.to_f64() - self.now.to_f64()).abs();
        gap / self.now.to_f64().abs().max(1e-9)
    }
}

/// The nearest turns of every number that the rig states, the nearest first.
#[must_use]
pub fn margins(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Vec<Margin> {
    let mut out = Vec::new();
    for subject in changeable(stated, on) {
        let Some(now) = subject
            .now(stated)
            .and_then(|k| k.value.interval().is_exact())
        else {
            continue;
        };
        let found = range(rules, stated, looks, &subject);
        out.extend(turns_around(&found, now));
    }
    out.sort_by(|a, b| a.nearness().total_cmp(&b.nearness()));
    out
}

/// The numbers that a person can change: weights, lengths, speeds, pressures and counts as stated.
fn changeable(stated: &FactSet, on: Option<Day>) -> Vec<Subject> {
    let mut out = Vec::new();
    for (fact, def) in catalogue().all() {
        let varies = matches!(def.kind, Kind::Measure(_)) && def.origin != Origin::WorkedOut;
        let rating =
            def.name.contains("rating") || def.name.ends_with("gvwr") || def.name.ends_with("gcwr");
        if !varies || rating {
            continue;
        }
        for index in 0..stated.items(def.scope).len() {
            let item = ItemId {
                scope: def.scope,
                index,
            };
            let Some(known) = stated.known(item, fact) else {
                continue;
            };
            if matches!(known.whence, Whence::Stated { .. }) {
                let name = match (def.scope.prefix(), stated.items(def.scope).get(index)) {
                    (Some(prefix), Some(i)) => {
                        def.name
                            .replacen(prefix, &format!("{prefix}.{}", i.name), 1)
                    }
                    _ => def.name.to_owned(),
                };
                out.push(Subject {
                    item,
                    fact,
                    name,
                    on,
                });
            }
        }
    }
    out
}

fn turns_around(range: &Range, now: Exact) -> Vec<Margin> {
    let holds = |b: &super::range::Band| match b.value {
        Value::Number(i) => {
            let above =
                i.lo.is_none_or(|lo| lo < now || (lo == now && b.from_included));
            let below =
                i.hi.is_none_or(|hi| now < hi || (hi == now && b.to_included));
            above && below
        }
        _ => false,
    };
    let Some(here) = range.bands.iter().position(holds) else {
        return Vec::new();
    };
    let own = &range.bands[here];
    let Value::Number(i) = own.value else {
        return Vec::new();
    };
    let sides = [
        (i.lo, own.from_included, here.checked_sub(1)),
        (i.hi, own.to_included, Some(here + 1)),
    ];
    let mut out = Vec::new();
    for (end, included, next) in sides {
        let (Some(turn), Some(beyond)) = (end, next.and_then(|n| range.bands.get(n))) else {
            continue;
        };
        out.push(Margin {
            subject: range.subject.clone(),
            now,
            turn,
            at_turn: !included,
            beyond: beyond.standing,
            rules: beyond.rules.difference(&own.rules).copied().collect(),
            mended: own.rules.difference(&beyond.rules).copied().collect(),
        });
    }
    out
}
