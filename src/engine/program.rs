//! Compiled rules: flat tables that are evaluated without allocating.

use crate::facts::{FactId, Scope};
use crate::pack::{AmountType, Comparison, Period, Topic};
use crate::quantity::{Exact, Interval, Measure};
use crate::source::Span;

/// The place of a node in a [`Program`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(pub u32);

/// The place of an amount in a [`Program`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct AmountId(pub u32);

/// A run of entries in one of the program's lists of children.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Run {
    /// The first.
    pub start: u32,
    /// How many.
    pub len: u32,
}

/// A condition.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Node {
    /// Always true.
    True,
    /// All of a run of nodes.
    All(Run),
    /// One at least of a run of nodes.
    Any(Run),
    /// The opposite.
    Not(NodeId),
    /// A comparison.
    Compare {
        /// The left side.
        left: AmountId,
        /// The comparison.
        by: Comparison,
        /// The right side.
        right: AmountId,
    },
    /// A yes/no or a choice is among these members.
    OneOf {
        /// The fact.
        fact: FactId,
        /// The members.
        members: u128,
    },
    /// A set holds all of these.
    Includes {
        /// The fact.
        fact: FactId,
        /// The members.
        members: u128,
    },
    /// A set holds one at least of these.
    IncludesAny {
        /// The fact.
        fact: FactId,
        /// The members.
        members: u128,
    },
    /// Something to look at, by its place in [`Program::looks`].
    Look(u32),
}

/// An amount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount {
    /// A literal quantity.
    Literal(Measure),
    /// A literal year, or days.
    Number(Interval),
    /// A fact.
    Fact(FactId),
    /// A multiple.
    Times(Exact, AmountId),
    /// A sum.
    Sum(Run),
    /// A difference.
    Difference(AmountId, AmountId),
    /// The greatest.
    Greatest(Run),
    /// The least.
    Least(Run),
    /// A count in steps.
    Steps {
        /// What is counted along.
        of: AmountId,
        /// The count up to `up_to`.
        first: Exact,
        /// What `first` covers.
        up_to: AmountId,
        /// How many more for each step.
        then: Exact,
        /// The size of a step.
        each: AmountId,
    },
}

/// Something to look at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LookAt {
    /// The key under which a rig says that it was seen: the rule's id, or that with a name behind.
    pub key: String,
    /// What to look for.
    pub text: String,
}

/// Where a compiled rule comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RuleFrom {
    /// The pack's own rule at this place.
    Own {
        /// The place in the pack's rules.
        rule: usize,
    },
    /// A rule that the pack adopts.
    Adopted {
        /// The place in the pack's adoptions.
        adoption: usize,
        /// The pack adopted from, by its place in the compiled packs.
        pack: usize,
        /// The place in that pack's rules.
        rule: usize,
    },
}

/// One compiled rule.
#[derive(Clone, Debug)]
pub struct RuleCode {
    /// The full id: `us-ne/brakes-recreational-two-wheels`.
    pub id: String,
    /// The pack that makes it bind, by its place in the compiled packs.
    pub pack: usize,
    /// Where it comes from.
    pub from: RuleFrom,
    /// The topic.
    pub topic: Topic,
    /// The items it runs for.
    pub each: Option<Scope>,
    /// When it applies.
    pub applies: NodeId,
    /// What must hold.
    pub must: NodeId,
    /// Whether a breach is only for somebody to confirm.
    pub doubt: bool,
    /// The periods that must all contain the day.
    pub periods: [Period; 2],
}

/// Compiled rules and all that they are made of.
#[derive(Clone, Debug, Default)]
pub struct Program {
    /// The conditions.
    pub nodes: Vec<Node>,
    /// Where each condition stands: the pack, and the place in its text.
    pub places: Vec<(usize, Span)>,
    /// The runs of nodes.
    pub kids: Vec<NodeId>,
    /// The amounts, with what they measure and where they stand.
    pub amounts: Vec<(Amount, AmountType, Span)>,
    /// The runs of amounts.
    pub parts: Vec<AmountId>,
    /// The looks.
    pub looks: Vec<LookAt>,
    /// The rules.
    pub rules: Vec<RuleCode>,
}

impl Program {
    /// A node; a place outside the program reads as always true.
    #[must_use]
    pub fn node(&self, id: NodeId) -> Node {
        self.nodes.get(id.0 as usize).copied().unwrap_or(Node::True)
    }

    /// An amount; `None` outside the program.
    #[must_use]
    pub fn amount(&self, id: AmountId) -> Option<&(Amount, AmountType, Span)> {
        self.amounts.get(id.0 as usize)
    }

    /// The nodes of a run.
    #[must_use]
    pub fn run(&self, run: Run) -> &[NodeId] {
        let start = run.start as usize;
        self.kids
            .get(start..start + run.len as usize)
            .unwrap_or(&[])
    }

    /// The amounts of a run.
    #[must_use]
    pub fn part_run(&self, run: Run) -> &[AmountId] {
        let start = run.start as usize;
        self.parts
            .get(start..start + run.len as usize)
            .unwrap_or(&[])
    }

    /// Calls `f` with each fact that an amount reads.
    pub fn amount_facts(&self, id: AmountId, f: &mut dyn FnMut(FactId)) {
        let Some((amount, _, _)) = self.amount(id) else {
            return;
        };
        match *amount {
            Amount::Literal(_) | Amount::Number(_) => {}
            Amount::Fact(fact) => f(fact),
            Amount::Times(_, a) => self.amount_facts(a, f),
            Amount::Sum(run) | Amount::Greatest(run) | Amount::Least(run) => {
                for part in self.part_run(run) {
                    self.amount_facts(*part, f);
                }
            }
            Amount::Difference(a, b) => {
                self.amount_facts(a, f);
                self.amount_facts(b, f);
            }
            Amount::Steps {
                of, up_to, each, ..
            } => {
                self.amount_facts(of, f);
                self.amount_facts(up_to, f);
                self.amount_facts(each, f);
            }
        }
    }

    /// Calls `f` with each fact that a leaf reads; nothing for a node that is not a leaf.
    pub fn leaf_facts(&self, id: NodeId, f: &mut dyn FnMut(FactId)) {
        match self.node(id) {
            Node::Compare { left, right, .. } => {
                self.amount_facts(left, f);
                self.amount_facts(right, f);
            }
            Node::OneOf { fact, .. }
            | Node::Includes { fact, .. }
            | Node::IncludesAny { fact, .. } => f(fact),
            _ => {}
        }
    }

    /// Calls `f` with each leaf below a node, looks among them.
    pub fn leaves(&self, id: NodeId, f: &mut dyn FnMut(NodeId)) {
        match self.node(id) {
            Node::True => {}
            Node::All(run) | Node::Any(run) => {
                for kid in self.run(run) {
                    self.leaves(*kid, f);
                }
            }
            Node::Not(inner) => self.leaves(inner, f),
            _ => f(id),
        }
    }
}
