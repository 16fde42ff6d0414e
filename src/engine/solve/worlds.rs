//! The rig at places along the line of a fact's values, worked out once each.

use super::subject::Subject;
use crate::facts::{FactId, FactSet, ItemId, Known, Value, Whence, catalogue};
use crate::quantity::{Exact, Interval};
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// How many rigs are kept; beyond that they are worked out anew.
const KEPT: usize = 1024;

/// The rig for any value of the fact.
pub(super) struct Worlds<'a> {
    subject: &'a Subject,
    stated: &'a FactSet,
    kept: RefCell<BTreeMap<Exact, Rc<FactSet>>>,
    /// One rig in which only the fact itself is changed.
    only: RefCell<FactSet>,
    /// Whether nothing else is worked out from the fact.
    alone: bool,
}

impl<'a> Worlds<'a> {
    /// Of a fact of a rig as stated. `probes` are values far and near, at which it is found out
    /// whether anything else is worked out from the fact.
    pub fn new(subject: &'a Subject, stated: &'a FactSet, probes: &[Exact]) -> Worlds<'a> {
        let first = probes.first().copied().unwrap_or(Exact::ZERO);
        let facts = subject.with_number(stated, first);
        let mut worlds = Worlds {
            subject,
            stated,
            kept: RefCell::new(BTreeMap::from([(first, Rc::new(facts.clone()))])),
            only: RefCell::new(facts),
            alone: false,
        };
        let changed = worlds.changed(probes);
        worlds.alone = changed.iter().all(|f| *f == subject.fact);
        worlds
    }

    /// Of a fact from which nothing else is worked out, of a rig all worked out.
    pub fn alone(subject: &'a Subject, stated: &'a FactSet, facts: &FactSet) -> Worlds<'a> {
        Worlds {
            subject,
            stated,
            kept: RefCell::default(),
            only: RefCell::new(facts.clone()),
            alone: true,
        }
    }

    /// Whether nothing else is worked out from the fact.
    pub fn is_alone(&self) -> bool {
        self.alone
    }

    /// What `f` finds of the rig in which the fact has this value.
    pub fn at<R>(&self, x: Exact, f: impl FnOnce(&FactSet) -> R) -> R {
        if self.alone {
            return self.only_at(x, f);
        }
        f(&self.worked_out(x))
    }

    /// The same, for what reads nothing that is worked out from the fact.
    pub fn only_at<R>(&self, x: Exact, f: impl FnOnce(&FactSet) -> R) -> R {
        let mut facts = self.only.borrow_mut();
        let known = Known {
            value: Value::Number(Interval::exactly(x)),
            whence: Whence::Stated { start: 0, end: 0 },
            unit: None,
            written: None,
        };
        facts.set(self.subject.item, self.subject.fact, known);
        f(&facts)
    }

    fn worked_out(&self, x: Exact) -> Rc<FactSet> {
        if let Some(found) = self.kept.borrow().get(&x) {
            return Rc::clone(found);
        }
        let made = Rc::new(self.subject.with_number(self.stated, x));
        let mut kept = self.kept.borrow_mut();
        if kept.len() < KEPT {
            kept.insert(x, Rc::clone(&made));
        }
        made
    }

    /// The facts that are not the same at all of these values; the varied one is always among them.
    pub fn changed(&self, at: &[Exact]) -> BTreeSet<FactId> {
        let mut out = BTreeSet::from([self.subject.fact]);
        if self.is_alone() {
            return out;
        }
        let rigs: Vec<Rc<FactSet>> = at.iter().map(|x| self.worked_out(*x)).collect();
        out.extend(changed_facts(rigs.iter().map(Rc::as_ref)));
        out
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
