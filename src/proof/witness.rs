//! A rig that tells a slip from the rule: near one of the cases, or anywhere in the space of rigs
//! that the rule can tell apart.

use super::cases::PreparedCase;
use super::change::Change;
use super::given::given;
use super::slips::Slip;
use super::space::{Space, blank_rig, set};
use crate::engine::{Program, RuleCode, outcome};
use crate::facts::{Day, FactSet, Whence, catalogue};
use crate::mechanics::work_out;
use std::collections::BTreeMap;

/// How many rigs are tried before the search is given up.
const CAP: usize = 60_000;

/// What the search came to.
#[derive(Clone, Debug)]
pub enum Verdict {
    /// A rig whose outcome the slip changes, as a case would give it.
    Witness {
        /// The facts.
        given: String,
        /// The day.
        on: Option<Day>,
        /// The rule, by its place in the program.
        rule: usize,
    },
    /// No rig that the rules can tell apart comes out otherwise.
    Equivalent,
    /// Neither was found.
    Open,
}

/// Looks for a rig on which the slip changes an outcome.
#[must_use]
pub fn find_witness(
    before: &Program,
    after: &Program,
    slip: &Slip,
    cases: &BTreeMap<usize, Vec<&PreparedCase>>,
) -> Verdict {
    if let Change::Period(_, which, ..) = &slip.change {
        return date_witness(before, after, slip, *which, cases);
    }
    let mut open = false;
    for index in &slip.rules {
        let (Some(old), Some(new)) = (before.rules.get(*index), after.rules.get(*index)) else {
            continue;
        };
        let own = cases.get(index).map_or(&[][..], Vec::as_slice);
        match find_difference((before, old), (after, new), own) {
            Difference::Found(facts) => {
                return Verdict::Witness {
                    given: given(&facts),
                    on: None,
                    rule: *index,
                };
            }
            Difference::None => {}
            Difference::Open => open = true,
        }
    }
    if open {
        Verdict::Open
    } else {
        Verdict::Equivalent
    }
}

/// Whether two rules ever come out otherwise.
#[derive(Clone, Debug)]
pub enum Difference {
    /// For this rig they do.
    Found(Box<FactSet>),
    /// For no rig that they can tell apart.
    None,
    /// No such rig was found, but not every one was tried.
    Open,
}

/// Looks for a rig that two rules judge otherwise, first near some cases, then anywhere.
#[must_use]
pub fn find_difference(
    before: (&Program, &RuleCode),
    after: (&Program, &RuleCode),
    cases: &[&PreparedCase],
) -> Difference {
    let (old, new) = (
        Space::of(&[before.0], &[before.1]),
        Space::of(&[after.0], &[after.1]),
    );
    let space = old.union(new);
    let pair = Pair {
        before: before.0,
        after: after.0,
        old: before.1,
        new: after.1,
        space: &space,
    };
    match pair.near(cases).or_else(|| pair.anywhere()) {
        Some(facts) => Difference::Found(Box::new(facts)),
        None if space.complete && space.size(CAP) <= CAP => Difference::None,
        None => Difference::Open,
    }
}

fn date_witness(
    before: &Program,
    after: &Program,
    slip: &Slip,
    which: usize,
    cases: &BTreeMap<usize, Vec<&PreparedCase>>,
) -> Verdict {
    for index in &slip.rules {
        let (Some(old), Some(new)) = (before.rules.get(*index), after.rules.get(*index)) else {
            continue;
        };
        let ends = [&old.periods[which], &new.periods[which]];
        let days = ends
            .iter()
            .flat_map(|p| [p.from, p.until])
            .flatten()
            .flat_map(|d| [d - 1, d, d + 1]);
        for day in days {
            for case in cases.get(index).into_iter().flatten() {
                let a = outcome(before, old, &case.facts, &case.looks, Some(day));
                let b = outcome(after, new, &case.facts, &case.looks, Some(day));
                if a != b {
                    return Verdict::Witness {
                        given: given(&case.facts),
                        on: Some(day),
                        rule: *index,
                    };
                }
            }
        }
    }
    Verdict::Open
}

/// What was looked at, for each look of either program.
struct Answers {
    before: Vec<Option<bool>>,
    after: Vec<Option<bool>>,
}

struct Pair<'a> {
    before: &'a Program,
    after: &'a Program,
    old: &'a RuleCode,
    new: &'a RuleCode,
    space: &'a Space,
}

impl Pair<'_> {
    fn differs(&self, facts: &FactSet, looks: &Answers) -> bool {
        let old = outcome(self.before, self.old, facts, &looks.before, None);
        let new = outcome(self.after, self.new, facts, &looks.after, None);
        old != new
    }

    /// What was looked at, for both programs: looks are told apart by their keys.
    fn answers(&self, before: &[Option<bool>]) -> Answers {
        let find = |key: &str| self.before.looks.iter().position(|l| l.key == key);
        let after = if self.before.looks.len() == self.after.looks.len() {
            before.to_vec()
        } else {
            let looks = self.after.looks.iter();
            looks
                .map(|l| find(&l.key).and_then(|i| before.get(i).copied().flatten()))
                .collect()
        };
        Answers {
            before: before.to_vec(),
            after,
        }
    }

    /// Whether the rig can exist, and comes out otherwise once all is worked out.
    fn holds_up(&self, facts: &FactSet, looks: &Answers) -> bool {
        let mut worked = facts.clone();
        work_out(&mut worked, None).is_empty() && self.differs(&worked, looks)
    }

    /// Tries each case with one or two facts changed.
    fn near(&self, cases: &[&PreparedCase]) -> Option<FactSet> {
        for case in cases {
            let stated = stated_only(&case.facts);
            let looks = self.answers(&case.looks);
            for (fact, values) in &self.space.axes {
                for value in values {
                    let mut facts = stated.clone();
                    set(&mut facts, *fact, *value);
                    if self.holds_up(&facts, &looks) {
                        return Some(facts);
                    }
                }
            }
        }
        None
    }

    /// Goes through the whole space, or as much of it as the cap allows.
    fn anywhere(&self) -> Option<FactSet> {
        let looks = Answers {
            before: vec![Some(true); self.before.looks.len()],
            after: vec![Some(true); self.after.looks.len()],
        };
        let mut found = None;
        let mut tried = 0;
        self.space.walk(blank_rig(self.old.each), &mut |facts| {
            tried += 1;
            if self.differs(facts, &looks) && self.holds_up(facts, &looks) {
                found = Some(facts.clone());
            }
            found.is_none() && tried <= CAP
        });
        found
    }
}

/// The rig with only what was stated.
fn stated_only(facts: &FactSet) -> FactSet {
    let mut out = facts.clone();
    for (id, def) in catalogue().all() {
        for index in 0..facts.items(def.scope).len() {
            let item = crate::facts::ItemId {
                scope: def.scope,
                index,
            };
            if let Some(k) = facts.known(item, id)
                && matches!(k.whence, Whence::WorkedOut(_))
            {
                out.forget(item, id);
            }
        }
    }
    out
}
