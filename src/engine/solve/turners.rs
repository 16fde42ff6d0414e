//! What can turn along the line: each distinct comparison or condition, with the rules that hold it.
//! Many regions ask the same thing, so it is looked at once for all of them.

use crate::engine::{Amount, AmountId, Node, NodeId, Program, for_each_item};
use crate::facts::{FactId, FactSet, ItemId, Scope, catalogue};
use crate::quantity::{Exact, Interval};
use std::collections::{BTreeSet, HashMap};

/// What can turn.
#[derive(Clone, Copy, Debug)]
pub(super) enum What {
    /// A comparison of the varied fact itself with a figure.
    Figure(Interval),
    /// Any other comparison.
    Compare(AmountId, AmountId),
    /// Whether a choice, a yes/no or a set is as wanted.
    Member(NodeId),
}

/// Something that can turn, and where it matters.
#[derive(Clone, Debug)]
pub(super) struct Turner {
    pub what: What,
    pub item: ItemId,
    /// Whether of all that changes it reads the varied fact only.
    pub lone: bool,
    /// The rules that hold it, by their places in the program.
    pub rules: BTreeSet<usize>,
}

/// What makes two conditions the same, wherever they stand.
#[derive(Clone, PartialEq, Eq, Hash)]
enum Form {
    Figure(Interval),
    Fact(FactId),
    Times(Exact, u32),
    Sum(Vec<u32>),
    Difference(u32, u32),
    Greatest(Vec<u32>),
    Least(Vec<u32>),
    Steps(u32, Exact, u32, Exact, u32),
    Nothing,
    Compare(u32, u32, ItemId),
    Member(FactId, u128, u8, ItemId),
}

/// Gathers the turners of some rules.
pub(super) struct Gather<'a> {
    program: &'a Program,
    subject: (ItemId, FactId),
    changed: &'a BTreeSet<FactId>,
    forms: HashMap<Form, u32>,
    amounts: HashMap<AmountId, u32>,
    turners: Vec<Turner>,
    at: HashMap<Form, usize>,
}

/// Every distinct condition of these rules that reads one of the changed facts.
pub(super) fn turners(
    program: &Program,
    rules: &[usize],
    stated: &FactSet,
    subject: (ItemId, FactId),
    changed: &BTreeSet<FactId>,
) -> Vec<Turner> {
    let mut g = Gather {
        program,
        subject,
        changed,
        forms: HashMap::new(),
        amounts: HashMap::new(),
        turners: Vec::new(),
        at: HashMap::new(),
    };
    for index in rules {
        let Some(rule) = program.rules.get(*index) else {
            continue;
        };
        let mut leaves = BTreeSet::new();
        for root in [rule.applies, rule.must] {
            program.leaves(root, &mut |n| {
                leaves.insert(n);
            });
        }
        for leaf in leaves {
            let (reads, of_item) = g.reads(leaf);
            if !reads {
                continue;
            }
            if of_item {
                for_each_item(rule.each, stated, |item| g.add(leaf, item, *index));
            } else {
                g.add(leaf, ItemId::RIG, *index);
            }
        }
    }
    g.turners
}

impl Gather<'_> {
    /// Whether a leaf reads a changed fact, and whether it speaks of an item.
    fn reads(&self, leaf: NodeId) -> (bool, bool) {
        let (mut reads, mut of_item) = (false, false);
        self.program.leaf_facts(leaf, &mut |f| {
            reads |= self.changed.contains(&f);
            of_item |= catalogue().def(f).scope != Scope::Rig;
        });
        (reads, of_item)
    }

    /// Whether a leaf reads a changed fact other than the varied one.
    fn reads_derived(&self, leaf: NodeId) -> bool {
        let mut reads = false;
        self.program.leaf_facts(leaf, &mut |f| {
            reads |= f != self.subject.1 && self.changed.contains(&f);
        });
        reads
    }

    fn add(&mut self, leaf: NodeId, item: ItemId, rule: usize) {
        let (form, what) = match self.program.node(leaf) {
            Node::Compare { left, right, .. } => {
                let what = match (self.own_figure(left, right), self.own_figure(right, left)) {
                    (Some(i), _) | (_, Some(i)) if self.is_own(item) => What::Figure(i),
                    _ => What::Compare(left, right),
                };
                (
                    Form::Compare(self.amount(left), self.amount(right), item),
                    what,
                )
            }
            Node::OneOf { fact, members } => {
                (Form::Member(fact, members, 0, item), What::Member(leaf))
            }
            Node::Includes { fact, members } => {
                (Form::Member(fact, members, 1, item), What::Member(leaf))
            }
            Node::IncludesAny { fact, members } => {
                (Form::Member(fact, members, 2, item), What::Member(leaf))
            }
            _ => return,
        };
        let lone = !self.reads_derived(leaf);
        let turners = &mut self.turners;
        let place = *self.at.entry(form).or_insert_with(|| {
            turners.push(Turner {
                what,
                item,
                lone,
                rules: BTreeSet::new(),
            });
            turners.len() - 1
        });
        if let Some(t) = turners.get_mut(place) {
            t.rules.insert(rule);
        }
    }

    /// Whether a fact of this item, or of the item it lies in, is the varied one.
    fn is_own(&self, item: ItemId) -> bool {
        self.subject.0 == item || self.subject.0 == ItemId::RIG
    }

    /// The figure that the varied fact is compared with, when one side is the fact and the other
    /// is written out.
    fn own_figure(&self, one: AmountId, other: AmountId) -> Option<Interval> {
        match self.program.amount(one)?.0 {
            Amount::Fact(f) if f == self.subject.1 => figure(self.program, other),
            _ => None,
        }
    }

    /// The number of an amount's form.
    fn amount(&mut self, id: AmountId) -> u32 {
        if let Some(known) = self.amounts.get(&id) {
            return *known;
        }
        let form = match self.program.amount(id).map(|a| a.0) {
            None => Form::Nothing,
            Some(Amount::Literal(m)) => Form::Figure(m.interval),
            Some(Amount::Number(i)) => Form::Figure(i),
            Some(Amount::Fact(f)) => Form::Fact(f),
            Some(Amount::Times(by, of)) => Form::Times(by, self.amount(of)),
            Some(Amount::Sum(run)) => Form::Sum(self.run(run)),
            Some(Amount::Greatest(run)) => Form::Greatest(self.run(run)),
            Some(Amount::Least(run)) => Form::Least(self.run(run)),
            Some(Amount::Difference(a, b)) => Form::Difference(self.amount(a), self.amount(b)),
            Some(Amount::Steps {
                of,
                first,
                up_to,
                then,
                each,
            }) => Form::Steps(
                self.amount(of),
                first,
                self.amount(up_to),
                then,
                self.amount(each),
            ),
        };
        let next = u32::try_from(self.forms.len()).unwrap_or(u32::MAX);
        let number = *self.forms.entry(form).or_insert(next);
        self.amounts.insert(id, number);
        number
    }

    fn run(&mut self, run: crate::engine::Run) -> Vec<u32> {
        let parts = self.program.part_run(run).to_vec();
        parts.into_iter().map(|a| self.amount(a)).collect()
    }
}

/// The value of an amount that is written out.
pub(super) fn figure(p: &Program, id: AmountId) -> Option<Interval> {
    match p.amount(id)?.0 {
        Amount::Literal(m) => Some(m.interval),
        Amount::Number(i) => Some(i),
        _ => None,
    }
}

/// Whether a rule reads one of these facts.
pub(super) fn reads_any(p: &Program, rule: usize, facts: &BTreeSet<FactId>) -> bool {
    let mut reads = false;
    if let Some(rule) = p.rules.get(rule) {
        for root in [rule.applies, rule.must] {
            p.leaves(root, &mut |leaf| {
                p.leaf_facts(leaf, &mut |f| reads |= facts.contains(&f));
            });
        }
    }
    reads
}
