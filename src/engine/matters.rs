//! Whether an answer could change an outcome.

use super::eval::{Outcome, Truth, World, combine, truth};
use super::program::{Node, NodeId, Program, RuleCode};
use crate::facts::FactId;

/// Beyond so many open conditions they are not tried in every combination; all are taken to matter.
const MOST: usize = 7;

/// Of the facts that a rule is open for want of, those of which some answer, together with answers to
/// the others that can be asked for, would come to another outcome. The order is kept.
pub(super) fn matters(
    p: &Program,
    rule: &RuleCode,
    w: World<'_>,
    missing: &[FactId],
    can_ask: &dyn Fn(FactId) -> bool,
) -> Vec<FactId> {
    let askable: Vec<FactId> = missing.iter().copied().filter(|f| can_ask(*f)).collect();
    let mut leaves: Vec<NodeId> = Vec::new();
    for root in [rule.applies, rule.must] {
        p.leaves(root, &mut |leaf| {
            if !leaves.contains(&leaf)
                && truth(p, leaf, w) == Truth::Unknown
                && reads(p, leaf, &askable)
            {
                leaves.push(leaf);
            }
        });
    }
    // The same condition at several places has one truth.
    let mut distinct: Vec<(Node, Vec<NodeId>)> = Vec::new();
    for leaf in leaves {
        let node = p.node(leaf);
        match distinct.iter_mut().find(|d| d.0 == node) {
            Some(d) => d.1.push(leaf),
            None => distinct.push((node, vec![leaf])),
        }
    }
    if distinct.len() > MOST {
        return askable;
    }
    let all: Vec<Outcome> = (0..1usize << distinct.len())
        .map(|truths| outcome(p, rule, w, &distinct, truths, usize::MAX))
        .collect();
    let tells = |fact: &FactId| {
        let own: usize = distinct
            .iter()
            .enumerate()
            .filter(|(_, d)| d.1.iter().any(|l| reads(p, *l, &[*fact])))
            .fold(0, |bits, (i, _)| bits | 1 << i);
        // Left open, the outcome is another than with some truth of its conditions.
        (0..all.len()).any(|truths| {
            let without = outcome(p, rule, w, &distinct, truths, !own);
            all.get(truths).is_some_and(|with| *with != without)
        })
    };
    askable.iter().copied().filter(tells).collect()
}

/// The facts of all conditions of a rule that are open.
pub(super) fn unsettled(p: &Program, rule: &RuleCode, w: World<'_>) -> Vec<FactId> {
    let mut out = Vec::new();
    for root in [rule.applies, rule.must] {
        p.leaves(root, &mut |leaf| {
            if truth(p, leaf, w) == Truth::Unknown {
                p.leaf_facts(leaf, &mut |fact| {
                    if !out.contains(&fact) && !w.facts.value(w.item, fact).is_settled() {
                        out.push(fact);
                    }
                });
            }
        });
    }
    out
}

fn reads(p: &Program, leaf: NodeId, facts: &[FactId]) -> bool {
    let mut any = false;
    p.leaf_facts(leaf, &mut |f| any |= facts.contains(&f));
    any
}

/// The outcome if those conditions that `known` names had these truths.
fn outcome(
    p: &Program,
    rule: &RuleCode,
    w: World<'_>,
    distinct: &[(Node, Vec<NodeId>)],
    truths: usize,
    known: usize,
) -> Outcome {
    let given = |leaf: NodeId| {
        let at = distinct.iter().position(|d| d.1.contains(&leaf))?;
        let truth = if truths >> at & 1 == 1 {
            Truth::True
        } else {
            Truth::False
        };
        (known >> at & 1 == 1).then_some(truth)
    };
    let applies = with(p, rule.applies, w, &given);
    combine(applies, with(p, rule.must, w, &given), rule.doubt)
}

fn with(p: &Program, id: NodeId, w: World<'_>, given: &dyn Fn(NodeId) -> Option<Truth>) -> Truth {
    match p.node(id) {
        Node::All(run) => {
            let parts = p.run(run).iter().map(|k| with(p, *k, w, given));
            parts.min().unwrap_or(Truth::True)
        }
        Node::Any(run) => {
            let parts = p.run(run).iter().map(|k| with(p, *k, w, given));
            parts.max().unwrap_or(Truth::False)
        }
        Node::Not(inner) => match with(p, inner, w, given) {
            Truth::True => Truth::False,
            Truth::False => Truth::True,
            other => other,
        },
        _ => given(id).unwrap_or_else(|| truth(p, id, w)),
    }
}
