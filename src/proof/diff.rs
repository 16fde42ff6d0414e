//! What changed between two versions of a pack: meaning told apart from wording.

use super::cases::{PreparedCase, prepare_cases};
use super::given::given;
use super::witness::{Difference, find_difference};
use crate::engine::{
    Amount, AmountId, Compiled, Node, NodeId, Outcome, Program, RuleCode, RuleFrom, outcome,
};
use crate::pack::Rule;

/// What became of one rule.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RuleChange {
    /// It is new.
    Added,
    /// It is gone.
    Removed,
    /// Some rig comes out otherwise.
    Meaning {
        /// Such a rig, as a case gives it.
        given: String,
        /// What the old rule says of it.
        was: Outcome,
        /// What the new rule says of it.
        is: Outcome,
    },
    /// It is in force on other days.
    Period,
    /// Its conditions changed, and no rig was found that comes out otherwise, but not every one
    /// that they tell apart was tried.
    Open,
    /// Only words, notes, sources, looks or cases changed: the names of the keys.
    Wording(Vec<&'static str>),
}

/// One rule that changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RuleDiff {
    /// The rule's full id.
    pub rule: String,
    /// What became of it.
    pub change: RuleChange,
}

/// Compares a pack in two versions, each compiled with what it refers to. Rules are told apart by
/// their ids; those that did not change are left out.
#[must_use]
pub fn diff(
    old: &Compiled<'_>,
    old_pack: usize,
    new: &Compiled<'_>,
    new_pack: usize,
) -> Vec<RuleDiff> {
    let (before, after) = (rules_of(old, old_pack), rules_of(new, new_pack));
    let (old_cases, _) = prepare_cases(old, old_pack);
    let mut out = Vec::new();
    for (id, (place, code, rule)) in &after {
        let change = match before.iter().find(|(old_id, _)| old_id == id) {
            None => Some(RuleChange::Added),
            Some((_, (_, old_code, old_rule))) => {
                let cases: Vec<&PreparedCase> =
                    old_cases.iter().filter(|c| c.rule == *place).collect();
                compare((old, old_code, old_rule), (new, code, rule), &cases)
            }
        };
        out.extend(change.map(|change| RuleDiff {
            rule: id.clone(),
            change,
        }));
    }
    for (id, _) in before
        .iter()
        .filter(|(id, _)| !after.iter().any(|(new_id, _)| new_id == id))
    {
        out.push(RuleDiff {
            rule: id.clone(),
            change: RuleChange::Removed,
        });
    }
    out
}

/// A rule with its place in the program, as compiled and as written.
type Placed<'c> = (usize, &'c RuleCode, &'c Rule);

fn rules_of<'c>(c: &'c Compiled<'_>, pack: usize) -> Vec<(String, Placed<'c>)> {
    let codes = c
        .program
        .rules
        .iter()
        .enumerate()
        .filter(|(_, r)| r.pack == pack);
    codes
        .filter_map(|(place, code)| {
            let (home, rule) = match code.from {
                RuleFrom::Own { rule } => (pack, rule),
                RuleFrom::Adopted { pack, rule, .. } => (pack, rule),
            };
            let written = c.packs.get(home)?.rules.get(rule)?;
            Some((code.id.clone(), (place, code, written)))
        })
        .collect()
}

type Side<'c, 'p> = (&'c Compiled<'p>, &'c RuleCode, &'c Rule);

fn compare(old: Side<'_, '_>, new: Side<'_, '_>, cases: &[&PreparedCase]) -> Option<RuleChange> {
    let found = if same_code(old, new) {
        Difference::None
    } else {
        find_difference((&old.0.program, old.1), (&new.0.program, new.1), cases)
    };
    if let Difference::Found(facts) = &found {
        // The rig found holds only what is stated; both rules judge it with all worked out.
        let mut worked = (**facts).clone();
        let _ = crate::mechanics::work_out(&mut worked, None);
        let judge = |side: &Side<'_, '_>, seen: Option<bool>| {
            let looks = vec![seen; side.0.program.looks.len()];
            outcome(&side.0.program, side.1, &worked, &looks, None)
        };
        let seen = [Some(true), None, Some(false)]
            .into_iter()
            .find(|s| judge(&old, *s) != judge(&new, *s));
        return Some(RuleChange::Meaning {
            given: given(facts),
            was: judge(&old, seen.flatten()),
            is: judge(&new, seen.flatten()),
        });
    }
    let days = |c: &RuleCode| c.periods.map(|p| (p.from, p.until));
    if days(old.1) != days(new.1) {
        return Some(RuleChange::Period);
    }
    let words = wording(old.2, new.2);
    match (found, words.is_empty()) {
        (Difference::Open, _) => Some(RuleChange::Open),
        (_, false) => Some(RuleChange::Wording(words)),
        _ => None,
    }
}

/// Whether two rules were compiled to the same conditions.
fn same_code(old: Side<'_, '_>, new: Side<'_, '_>) -> bool {
    let (p, q) = (&old.0.program, &new.0.program);
    old.1.each == new.1.each
        && old.1.doubt == new.1.doubt
        && same_node(p, old.1.applies, q, new.1.applies)
        && same_node(p, old.1.must, q, new.1.must)
}

fn same_node(p: &Program, a: NodeId, q: &Program, b: NodeId) -> bool {
    match (p.node(a), q.node(b)) {
        (Node::All(x), Node::All(y)) | (Node::Any(x), Node::Any(y)) => {
            let (x, y) = (p.run(x), q.run(y));
            x.len() == y.len() && x.iter().zip(y).all(|(a, b)| same_node(p, *a, q, *b))
        }
        (Node::Not(x), Node::Not(y)) => same_node(p, x, q, y),
        (
            Node::Compare { left, by, right },
            Node::Compare {
                left: other_left,
                by: other,
                right: other_right,
            },
        ) => {
            by == other
                && same_amount(p, left, q, other_left)
                && same_amount(p, right, q, other_right)
        }
        (Node::Look(x), Node::Look(y)) => {
            let look = |p: &Program, at: u32| p.looks.get(at as usize).cloned();
            look(p, x) == look(q, y)
        }
        (Node::Look(_), _) | (_, Node::Look(_)) => false,
        (x, y) => x == y,
    }
}

fn same_amount(p: &Program, a: AmountId, q: &Program, b: AmountId) -> bool {
    let (Some((x, of, _)), Some((y, other, _))) = (p.amount(a), q.amount(b)) else {
        return false;
    };
    let run = |x, y| {
        let (x, y): (&[AmountId], &[AmountId]) = (p.part_run(x), q.part_run(y));
        x.len() == y.len() && x.iter().zip(y).all(|(a, b)| same_amount(p, *a, q, *b))
    };
    of == other
        && match (*x, *y) {
            (Amount::Times(f, x), Amount::Times(g, y)) => f == g && same_amount(p, x, q, y),
            (Amount::Sum(x), Amount::Sum(y))
            | (Amount::Greatest(x), Amount::Greatest(y))
            | (Amount::Least(x), Amount::Least(y)) => run(x, y),
            (Amount::Difference(a, b), Amount::Difference(c, d)) => {
                same_amount(p, a, q, c) && same_amount(p, b, q, d)
            }
            (
                Amount::Steps {
                    of,
                    first,
                    up_to,
                    then,
                    each,
                },
                Amount::Steps {
                    of: other,
                    first: f,
                    up_to: u,
                    then: t,
                    each: e,
                },
            ) => {
                first == f
                    && then == t
                    && same_amount(p, of, q, other)
                    && same_amount(p, up_to, q, u)
                    && same_amount(p, each, q, e)
            }
            (x, y) => x == y,
        }
}

fn wording(old: &Rule, new: &Rule) -> Vec<&'static str> {
    let mut out = Vec::new();
    let mut note = |changed: bool, key| {
        if changed {
            out.push(key);
        }
    };
    note(old.topic != new.topic, "topic");
    note(old.says != new.says, "says");
    note(old.note != new.note, "note");
    note(old.doubt != new.doubt, "doubt");
    note(old.sources != new.sources, "sources");
    note(old.cases.len() != new.cases.len(), "cases");
    out
}
