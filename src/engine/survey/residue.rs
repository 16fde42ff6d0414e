//! What is left of a rule's conditions once the kind of rig is known.

use crate::engine::eval::{Truth, World, truth};
use crate::engine::explain::condition_lines;
use crate::engine::program::{Node, NodeId, Program, RuleCode, Run};
use crate::facts::{FactId, FactSet, ItemId};

/// What decides whether a rule binds, and what it asks, where the kind of rig leaves that open.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Residue {
    /// The open conditions in words, set in by two blanks a level; empty when none is open.
    pub when: Vec<String>,
    /// The facts that they read, each once.
    pub facts: Vec<FactId>,
    /// What must be seen to: the things to look at, by their places in the program.
    pub looks: Vec<u32>,
}

/// The conditions of a rule that these facts leave open. `scratch` is a copy of the program, to which
/// the shortened conditions are added.
#[must_use]
pub fn residue(p: &Program, scratch: &mut Program, rule: &RuleCode, facts: &FactSet) -> Residue {
    let item = rule
        .each
        .map_or(ItemId::RIG, |scope| ItemId { scope, index: 0 });
    let w = World {
        facts,
        item,
        looks: &[],
    };
    let mut out = Residue::default();
    if let Some(open) = shorten(p, scratch, rule.applies, w) {
        let _ = condition_lines(scratch, open, 0, &mut out.when);
        scratch.leaves(open, &mut |leaf| {
            scratch.leaf_facts(leaf, &mut |fact| {
                if !out.facts.contains(&fact) {
                    out.facts.push(fact);
                }
            });
        });
    }
    // What can no longer turn the duty is not worth a look.
    if let Some(open) = shorten(p, scratch, rule.must, w) {
        scratch.leaves(open, &mut |leaf| {
            if let Node::Look(at) = scratch.node(leaf)
                && !out.looks.contains(&at)
            {
                out.looks.push(at);
            }
        });
    }
    out
}

/// The condition without the parts that are settled; nothing when all of it is.
fn shorten(p: &Program, scratch: &mut Program, id: NodeId, w: World<'_>) -> Option<NodeId> {
    if matches!(truth(p, id, w), Truth::True | Truth::False) {
        return None;
    }
    match p.node(id) {
        Node::All(run) | Node::Any(run) => {
            let kids: Vec<NodeId> = p.run(run).to_vec();
            let open: Vec<NodeId> = kids
                .into_iter()
                .filter_map(|kid| shorten(p, scratch, kid, w))
                .collect();
            if let [one] = open.as_slice() {
                return Some(*one);
            }
            let run = Run {
                start: u32::try_from(scratch.kids.len()).ok()?,
                len: u32::try_from(open.len()).ok()?,
            };
            scratch.kids.extend(open);
            let node = if matches!(p.node(id), Node::Any(_)) {
                Node::Any(run)
            } else {
                Node::All(run)
            };
            add(scratch, node)
        }
        Node::Not(inner) => {
            let inner = shorten(p, scratch, inner, w)?;
            add(scratch, Node::Not(inner))
        }
        _ => Some(id),
    }
}

fn add(scratch: &mut Program, node: Node) -> Option<NodeId> {
    let id = NodeId(u32::try_from(scratch.nodes.len()).ok()?);
    scratch.nodes.push(node);
    Some(id)
}
