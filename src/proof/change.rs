//! Changes to a compiled program, made and taken back.

use crate::engine::{Amount, AmountId, Node, NodeId, Program};

/// A change to one entry of the program.
#[derive(Clone, Debug)]
pub enum Change {
    /// Nodes that become another node.
    Nodes(Vec<NodeId>, Node),
    /// Amounts that become another amount.
    Amounts(Vec<AmountId>, Amount),
    /// The period of rules, by their place in the program; which of the two; first and last day.
    Period(Vec<usize>, usize, Option<i64>, Option<i64>),
}

/// Makes a change and returns what undoes it.
pub fn apply(p: &mut Program, change: &Change) -> Vec<Undo> {
    let mut undo = Vec::new();
    match change {
        Change::Nodes(ids, node) => {
            for id in ids {
                if let Some(slot) = p.nodes.get_mut(id.0 as usize) {
                    undo.push(Undo::Node(*id, *slot));
                    *slot = match (*slot, *node) {
                        // Only the comparison is changed; the sides are the node's own.
                        (Node::Compare { left, right, .. }, Node::Compare { by, .. }) => {
                            Node::Compare { left, by, right }
                        }
                        (_, node) => node,
                    };
                }
            }
        }
        Change::Amounts(ids, amount) => {
            for id in ids {
                if let Some(slot) = p.amounts.get_mut(id.0 as usize) {
                    undo.push(Undo::Amount(*id, slot.0));
                    slot.0 = match (slot.0, *amount) {
                        (Amount::Times(_, inner), Amount::Times(factor, _)) => {
                            Amount::Times(factor, inner)
                        }
                        (
                            Amount::Steps {
                                of,
                                up_to,
                                then,
                                each,
                                ..
                            },
                            Amount::Steps { first, .. },
                        ) => Amount::Steps {
                            of,
                            first,
                            up_to,
                            then,
                            each,
                        },
                        (_, amount) => amount,
                    };
                }
            }
        }
        Change::Period(rules, which, from, until) => {
            for index in rules {
                if let Some(period) = p
                    .rules
                    .get_mut(*index)
                    .and_then(|r| r.periods.get_mut(*which))
                {
                    undo.push(Undo::Period(*index, *which, *period));
                    period.from = *from;
                    period.until = *until;
                }
            }
        }
    }
    undo
}

/// What one entry of the program was before a change.
#[derive(Clone, Debug)]
pub enum Undo {
    /// A node.
    Node(NodeId, Node),
    /// An amount.
    Amount(AmountId, Amount),
    /// A rule's period.
    Period(usize, usize, crate::pack::Period),
}

/// Takes a change back.
pub fn revert(p: &mut Program, undo: Vec<Undo>) {
    for u in undo {
        match u {
            Undo::Node(id, node) => {
                if let Some(slot) = p.nodes.get_mut(id.0 as usize) {
                    *slot = node;
                }
            }
            Undo::Amount(id, amount) => {
                if let Some(slot) = p.amounts.get_mut(id.0 as usize) {
                    slot.0 = amount;
                }
            }
            Undo::Period(rule, which, period) => {
                if let Some(slot) = p.rules.get_mut(rule).and_then(|r| r.periods.get_mut(which)) {
                    *slot = period;
                }
            }
        }
    }
}
