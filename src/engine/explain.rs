//! Tells why a rule came out as it did: the conditions that decided it, with the values on both
//! sides, and the facts that would settle what is open.

use super::eval::{Outcome, Truth, World, combine, truth};
use super::program::{Amount, AmountId, Node, NodeId, Program, RuleCode};
use super::words::{sentence, show_amount, show_fact};
use crate::facts::{FactId, Scope, catalogue};
use std::collections::BTreeMap;

/// Why a rule came out as it did for one item, or for the rig.
#[derive(Clone, Debug, Default)]
pub struct Explanation {
    /// The conditions that decided, each a sentence.
    pub because: Vec<String>,
    /// For each of these, whether it speaks of the item that the rule is run for, rather than of the
    /// rig as a whole.
    pub of_item: Vec<bool>,
    /// The facts that would settle it, the most telling first.
    pub missing: Vec<FactId>,
    /// How many of these, from the first, may settle it alone.
    pub alone: usize,
    /// What somebody has to look at.
    pub looks: Vec<u32>,
}

/// Explains an outcome.
#[must_use]
pub fn explain(p: &Program, rule: &RuleCode, w: World<'_>) -> Explanation {
    let applies = truth(p, rule.applies, w);
    let must = truth(p, rule.must, w);
    let outcome = combine(applies, must, rule.doubt);
    let mut leaves: Vec<Told> = Vec::new();
    let mut open: Vec<Told> = Vec::new();
    match outcome {
        Outcome::DoesNotApply => decisive(p, rule.applies, w, false, &mut |leaf, negated| {
            leaves.push(Told {
                leaf,
                negated,
                in_must: false,
            })
        }),
        Outcome::Met | Outcome::NotMet => {
            decisive(p, rule.applies, w, false, &mut |leaf, negated| {
                leaves.push(Told {
                    leaf,
                    negated,
                    in_must: false,
                })
            });
            decisive(p, rule.must, w, false, &mut |leaf, negated| {
                leaves.push(Told {
                    leaf,
                    negated,
                    in_must: true,
                })
            });
        }
        Outcome::Unknown | Outcome::Confirm => {
            if applies != Truth::True {
                decisive(p, rule.applies, w, false, &mut |leaf, negated| {
                    open.push(Told {
                        leaf,
                        negated,
                        in_must: false,
                    })
                });
            } else {
                decisive(p, rule.applies, w, false, &mut |leaf, negated| {
                    leaves.push(Told {
                        leaf,
                        negated,
                        in_must: false,
                    })
                });
            }
            if must != Truth::True {
                decisive(p, rule.must, w, false, &mut |leaf, negated| {
                    open.push(Told {
                        leaf,
                        negated,
                        in_must: true,
                    })
                });
            }
        }
    }
    let mut out = Explanation::default();
    let mut told: Vec<(Node, bool)> = Vec::new();
    for leaf in leaves {
        // A fact that a definition names twice is told once.
        let key = (p.node(leaf.leaf), leaf.in_must);
        if !told.contains(&key) {
            told.push(key);
            push_sentence(p, leaf, w, &mut out);
        }
    }
    for leaf in &open {
        match p.node(leaf.leaf) {
            Node::Look(at) => push_new(&mut out.looks, at),
            _ => push_sentence(p, *leaf, w, &mut out),
        }
    }
    if outcome == Outcome::Unknown {
        out.looks.clear();
        (out.missing, out.alone) = missing(p, rule, w, &open);
    }
    out
}

/// The facts that would settle a rule that is open, the most telling first, and how many of them, from
/// the first, may settle it alone; as [`explain`] finds them, without the words.
pub(super) fn wanted(p: &Program, rule: &RuleCode, w: World<'_>) -> (Vec<FactId>, usize) {
    let mut open: Vec<Told> = Vec::new();
    for (root, in_must) in [(rule.applies, false), (rule.must, true)] {
        if truth(p, root, w) != Truth::True {
            decisive(p, root, w, false, &mut |leaf, negated| {
                open.push(Told {
                    leaf,
                    negated,
                    in_must,
                });
            });
        }
    }
    missing(p, rule, w, &open)
}

/// A leaf to tell of.
#[derive(Clone, Copy)]
pub(super) struct Told {
    pub leaf: NodeId,
    /// Whether it stands under an odd number of `not`.
    pub negated: bool,
    /// Whether it is part of what must hold, rather than of when the rule applies.
    pub in_must: bool,
}

fn push_new<T: PartialEq>(list: &mut Vec<T>, item: T) {
    if !list.contains(&item) {
        list.push(item);
    }
}

fn push_sentence(p: &Program, told: Told, w: World<'_>, out: &mut Explanation) {
    let text = sentence(p, told, w);
    if text.is_empty() || out.because.contains(&text) {
        return;
    }
    let mut of_item = matches!(p.node(told.leaf), Node::Look(_));
    p.leaf_facts(told.leaf, &mut |fact| {
        of_item |= catalogue().def(fact).scope != Scope::Rig;
    });
    out.because.push(text);
    out.of_item.push(of_item);
}

/// Calls `f` with the leaves that make a condition what it is: of a false `all` those that are
/// false, of an open one those that are open, and so on.
fn decisive(p: &Program, id: NodeId, w: World<'_>, negated: bool, f: &mut dyn FnMut(NodeId, bool)) {
    let own = truth(p, id, w);
    match p.node(id) {
        Node::True => {}
        Node::All(run) | Node::Any(run) => {
            let is_any = matches!(p.node(id), Node::Any(_));
            for kid in p.run(run) {
                let t = truth(p, *kid, w);
                if t == own || (own == Truth::Unknown && t == Truth::Confirm) {
                    decisive(p, *kid, w, negated, f);
                    if is_any && own == Truth::True {
                        return;
                    }
                }
            }
        }
        Node::Not(inner) => decisive(p, inner, w, !negated, f),
        _ => f(id, negated),
    }
}

/// The facts of the open leaves: first those that alone can settle the outcome, then those that
/// stand in most leaves.
fn missing(p: &Program, rule: &RuleCode, w: World<'_>, open: &[Told]) -> (Vec<FactId>, usize) {
    let mut of_fact: BTreeMap<FactId, Vec<NodeId>> = BTreeMap::new();
    for leaf in open {
        p.leaf_facts(leaf.leaf, &mut |fact| {
            if !w.facts.value(w.item, fact).is_settled() {
                of_fact.entry(fact).or_default().push(leaf.leaf);
            }
        });
    }
    let mut ranked: Vec<(bool, usize, FactId)> = of_fact
        .iter()
        .map(|(fact, leaves)| {
            (
                !settles_alone(p, rule, w, leaves),
                usize::MAX - leaves.len(),
                *fact,
            )
        })
        .collect();
    ranked.sort();
    let alone = ranked.iter().filter(|r| !r.0).count();
    (ranked.into_iter().map(|(_, _, fact)| fact).collect(), alone)
}

/// Whether some truth of these leaves decides the rule, all else as it is.
fn settles_alone(p: &Program, rule: &RuleCode, w: World<'_>, leaves: &[NodeId]) -> bool {
    [Truth::True, Truth::False].into_iter().any(|t| {
        let applies = truth_with(p, rule.applies, w, leaves, t);
        let must = truth_with(p, rule.must, w, leaves, t);
        combine(applies, must, rule.doubt) != Outcome::Unknown
    })
}

/// The truth of a condition if these leaves had that truth.
fn truth_with(p: &Program, id: NodeId, w: World<'_>, leaves: &[NodeId], t: Truth) -> Truth {
    match p.node(id) {
        Node::All(run) => p
            .run(run)
            .iter()
            .map(|k| truth_with(p, *k, w, leaves, t))
            .min()
            .unwrap_or(Truth::True),
        Node::Any(run) => p
            .run(run)
            .iter()
            .map(|k| truth_with(p, *k, w, leaves, t))
            .max()
            .unwrap_or(Truth::False),
        Node::Not(inner) => match truth_with(p, inner, w, leaves, t) {
            Truth::True => Truth::False,
            Truth::False => Truth::True,
            other => other,
        },
        _ if leaves.contains(&id) => t,
        _ => truth(p, id, w),
    }
}

/// A condition in plain words, without a rig: "gross weight of the trailer at least 3,000 lb".
#[must_use]
pub fn condition_lines(p: &Program, id: NodeId, depth: usize, out: &mut Vec<String>) -> bool {
    let pad = "  ".repeat(depth);
    match p.node(id) {
        Node::True => false,
        Node::All(_) => joined(p, id, depth, "all of these:", out),
        Node::Any(_) => joined(p, id, depth, "at least one of these:", out),
        Node::Not(inner) => match p.node(inner) {
            Node::Any(_) => joined(p, inner, depth, "none of these:", out),
            Node::All(_) => joined(p, inner, depth, "not all of these together:", out),
            Node::Not(twice) => condition_lines(p, twice, depth, out),
            _ => {
                let mut line = Vec::new();
                let told = condition_lines(p, inner, 0, &mut line);
                // "kind of trailer: boat" becomes "kind of trailer: not boat".
                let negated = |l: &String| {
                    l.split_once(": ").map_or_else(
                        || format!("not {l}"),
                        |(name, wants)| format!("{name}: not {wants}"),
                    )
                };
                out.extend(line.iter().map(|l| format!("{pad}{}", negated(l))));
                told
            }
        },
        Node::Compare { left, by, right } => {
            let days = matches!(p.amount(left), Some((_, crate::pack::AmountType::Day, _)));
            let (l, r) = (show_amount(p, left), show_amount(p, right));
            out.push(format!("{pad}{l}: {} {r}", by.says(days)));
            true
        }
        Node::OneOf { fact, members } => {
            out.push(format!(
                "{pad}{}: {}",
                catalogue().def(fact).label,
                super::words::members(fact, members, " or ")
            ));
            true
        }
        Node::Includes { fact, members } => {
            out.push(format!(
                "{pad}{} with {}",
                catalogue().def(fact).label,
                super::words::members(fact, members, " and ")
            ));
            true
        }
        Node::IncludesAny { fact, members } => {
            out.push(format!(
                "{pad}{} with {}",
                catalogue().def(fact).label,
                super::words::members(fact, members, " or ")
            ));
            true
        }
        Node::Look(at) => {
            if let Some(look) = p.looks.get(at as usize) {
                out.push(format!("{pad}look: {}", look.text));
            }
            true
        }
    }
}

/// The parts of a condition below a line that says how they are joined. Parts that are joined in the
/// same way themselves stand on one level with the others.
fn joined(p: &Program, id: NodeId, depth: usize, how: &str, out: &mut Vec<String>) -> bool {
    fn parts(p: &Program, id: NodeId, all: bool, into: &mut Vec<NodeId>) {
        match p.node(id) {
            Node::All(run) if all => p.run(run).iter().for_each(|kid| parts(p, *kid, all, into)),
            Node::Any(run) if !all => p.run(run).iter().for_each(|kid| parts(p, *kid, all, into)),
            Node::True if all => {}
            _ => into.push(id),
        }
    }
    let mut kids = Vec::new();
    parts(p, id, matches!(p.node(id), Node::All(_)), &mut kids);
    out.push(format!("{}{how}", "  ".repeat(depth)));
    for kid in kids {
        let _ = condition_lines(p, kid, depth + 1, out);
    }
    true
}

/// The value of the fact that an amount is, in words with its working; nothing for other amounts.
pub(super) fn fact_of(p: &Program, id: AmountId) -> Option<FactId> {
    match p.amount(id)?.0 {
        Amount::Fact(fact) => Some(fact),
        _ => None,
    }
}

/// A fact's value with its working, for lists of values.
#[must_use]
pub fn value_with_working(fact: FactId, w: World<'_>) -> String {
    show_fact(fact, w, None)
}
