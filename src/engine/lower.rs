//! Turns a pack's conditions and amounts into nodes of a program.

use super::compile::{PLACEHOLDER, circular, readable};
use super::program::{Amount, AmountId, LookAt, Node, NodeId, Program, Run};
use crate::facts::{FactId, Scope, catalogue};
use crate::pack::{self, AmountKind, Condition, ConditionKind, Definition, Pack};
use crate::source::{Complaint, Span, suggest};

/// A pack whose terms are in use, with terms that the adopting pack replaces.
#[derive(Clone, Copy)]
struct Frame<'a> {
    pack: usize,
    redefine: &'a [Definition],
    redefined_in: usize,
}

pub(super) struct Lower<'a, 'p> {
    packs: &'a [&'p Pack],
    pub program: Program,
    pub complaints: Vec<Complaint>,
    frames: Vec<Frame<'a>>,
    rule: String,
    each: Option<Scope>,
    depth: usize,
}

/// How deep definitions may refer to one another.
const MAX_DEPTH: usize = 32;

impl<'a, 'p> Lower<'a, 'p> {
    pub fn new(packs: &'a [&'p Pack]) -> Self {
        Lower {
            packs,
            program: Program::default(),
            complaints: Vec::new(),
            frames: Vec::new(),
            rule: String::new(),
            each: None,
            depth: 0,
        }
    }

    /// Starts on a rule of a pack.
    pub fn begin(&mut self, pack: usize, rule: &str, each: Option<Scope>) {
        self.frames.clear();
        self.frames.push(Frame {
            pack,
            redefine: &[],
            redefined_in: pack,
        });
        rule.clone_into(&mut self.rule);
        self.each = each;
        self.depth = 0;
    }

    /// Reads conditions in the terms of another pack from here on.
    pub fn enter(&mut self, pack: usize, redefine: &'a [Definition], redefined_in: usize) {
        self.frames.push(Frame {
            pack,
            redefine,
            redefined_in,
        });
    }

    /// Goes back to the terms before.
    pub fn leave(&mut self) {
        self.frames.pop();
    }

    fn frame(&self) -> Frame<'a> {
        self.frames.last().copied().unwrap_or(Frame {
            pack: 0,
            redefine: &[],
            redefined_in: 0,
        })
    }

    fn pack(&self) -> &'p Pack {
        self.packs[self.frame().pack]
    }

    pub(super) fn error(
        &mut self,
        code: &'static str,
        message: String,
        span: Span,
        label: &str,
        help: Option<String>,
    ) {
        let mut c = Complaint::error(code, message).at(&self.pack().source, span, label);
        if let Some(h) = help {
            c = c.help(h);
        }
        self.complaints.push(c);
    }

    /// Complains of a reference that leads nowhere.
    pub fn dangling<'n>(
        &mut self,
        pack: &Pack,
        what: &str,
        name: &str,
        span: Span,
        known: impl Iterator<Item = &'n str>,
    ) {
        let mut c = Complaint::error("pack::dangling", format!("there is no {what} `{name}`")).at(
            &pack.source,
            span,
            "leads nowhere",
        );
        if let Some(near) = suggest::nearest(name, known) {
            c = c.help(format!("did you mean `{near}`?"));
        }
        self.complaints.push(c);
    }

    /// Complains of definitions that refer to themselves.
    pub fn check_definitions(&mut self, index: usize) {
        let pack = self.packs[index];
        if let Some(d) = circular(&pack.definitions) {
            self.complaints.push(
                Complaint::error(
                    "pack::circular",
                    format!("the definition `{}` refers to itself", d.name.value),
                )
                .at(&pack.source, d.name.span, "goes round in a circle"),
            );
        }
    }

    fn add(&mut self, node: Node, span: Span) -> NodeId {
        let id = NodeId(self.program.nodes.len() as u32);
        self.program.nodes.push(node);
        self.program.places.push((self.frame().pack, span));
        id
    }

    fn add_run(&mut self, kids: &[NodeId]) -> Run {
        let start = self.program.kids.len() as u32;
        self.program.kids.extend_from_slice(kids);
        Run {
            start,
            len: kids.len() as u32,
        }
    }

    pub fn optional(&mut self, condition: Option<&Condition>) -> Option<NodeId> {
        condition.map(|c| self.condition(c))
    }

    /// All of `when` and none of `unless`.
    pub fn applies(
        &mut self,
        when: &[Option<NodeId>],
        unless: &[Option<NodeId>],
        span: Span,
    ) -> NodeId {
        let mut kids: Vec<NodeId> = when.iter().flatten().copied().collect();
        for exempt in unless.iter().flatten() {
            let (pack, place) = self.program.places[exempt.0 as usize];
            let id = self.add(Node::Not(*exempt), place);
            self.program.places[id.0 as usize].0 = pack;
            kids.push(id);
        }
        match kids[..] {
            [] => self.add(Node::True, span),
            [one] => one,
            _ => {
                let run = self.add_run(&kids);
                self.add(Node::All(run), span)
            }
        }
    }

    /// Lowers a condition.
    pub fn condition(&mut self, c: &Condition) -> NodeId {
        let node = match &c.kind {
            ConditionKind::All(parts) => Node::All(self.conditions(parts)),
            ConditionKind::Any(parts) => Node::Any(self.conditions(parts)),
            ConditionKind::Not(inner) => Node::Not(self.condition(inner)),
            ConditionKind::Defined(name) => return self.defined(name, c.span),
            ConditionKind::Compare { left, by, right } => {
                self.check_compare(left, right, c.span);
                Node::Compare {
                    left: self.amount(left),
                    by: *by,
                    right: self.amount(right),
                }
            }
            ConditionKind::OneOf { fact, members, .. } => {
                self.check_scope(*fact, c.span);
                Node::OneOf {
                    fact: *fact,
                    members: *members,
                }
            }
            ConditionKind::Includes { fact, members } => {
                self.check_scope(*fact, c.span);
                Node::Includes {
                    fact: *fact,
                    members: *members,
                }
            }
            ConditionKind::IncludesAny { fact, members } => {
                self.check_scope(*fact, c.span);
                Node::IncludesAny {
                    fact: *fact,
                    members: *members,
                }
            }
            ConditionKind::Look(look) => {
                let key = match &look.key {
                    Some(k) => format!("{}/{k}", self.rule),
                    None => self.rule.clone(),
                };
                self.program.looks.push(LookAt {
                    key,
                    text: look.text.clone(),
                });
                Node::Look((self.program.looks.len() - 1) as u32)
            }
        };
        if let Node::All(run) = node {
            self.check_bounds(run, c.span);
        }
        self.add(node, c.span)
    }

    fn conditions(&mut self, parts: &[Condition]) -> Run {
        let kids: Vec<NodeId> = parts.iter().map(|p| self.condition(p)).collect();
        self.add_run(&kids)
    }

    /// Puts the meaning of a defined term in its place.
    fn defined(&mut self, name: &str, span: Span) -> NodeId {
        if self.depth >= MAX_DEPTH {
            return self.add(PLACEHOLDER, span);
        }
        let frame = self.frame();
        let packs = self.packs;
        let (home, term) = match name.split_once('/') {
            Some((pack, term)) => match packs.iter().position(|p| p.id.value == pack) {
                Some(i) => (i, term),
                None => {
                    let here = self.pack();
                    self.dangling(
                        here,
                        "pack",
                        pack,
                        span,
                        packs.iter().map(|p| p.id.value.as_str()),
                    );
                    return self.add(PLACEHOLDER, span);
                }
            },
            None => (frame.pack, name),
        };
        let replaced = frame
            .redefine
            .iter()
            .find(|d| home == frame.pack && d.name.value == term);
        let own = || {
            packs[home]
                .definitions
                .iter()
                .find(|d| d.name.value == term)
        };
        let (at, definition) = match (replaced, own()) {
            (Some(d), _) => (frame.redefined_in, d),
            (None, Some(d)) => (home, d),
            (None, None) => {
                let here = self.pack();
                let known = packs[home]
                    .definitions
                    .iter()
                    .map(|d| d.name.value.as_str());
                self.dangling(here, "definition", name, span, known);
                return self.add(PLACEHOLDER, span);
            }
        };
        // A term that was replaced is read in the adopting pack's own terms.
        let redefine = if at == frame.pack {
            frame.redefine
        } else {
            &[]
        };
        self.depth += 1;
        self.enter(at, redefine, frame.redefined_in);
        let id = self.condition(&definition.condition);
        self.leave();
        self.depth -= 1;
        id
    }

    fn check_scope(&mut self, fact: FactId, span: Span) {
        let def = catalogue().def(fact);
        if !readable(def.scope, self.each) {
            let each = def.scope.each_name().unwrap_or_default();
            let message = format!(
                "`{}` is said of each {}, but the rule `{}` is not run for each",
                def.name,
                def.scope.noun(),
                self.rule
            );
            self.error(
                "pack::scope",
                message,
                span,
                "which one?",
                Some(format!("add `each: {each}` to the rule")),
            );
        }
    }

    fn check_compare(&mut self, left: &pack::Amount, right: &pack::Amount, span: Span) {
        if left.of != right.of {
            let message = format!(
                "a {} is compared with a {}",
                pack::type_name(left.of),
                pack::type_name(right.of)
            );
            self.error(
                "pack::amount-kind",
                message,
                span,
                "these do not compare",
                None,
            );
        }
        if matches!((&left.kind, &right.kind), (AmountKind::Fact(a), AmountKind::Fact(b)) if a == b)
        {
            self.error(
                "pack::impossible",
                "a fact is compared with itself".to_owned(),
                span,
                "always the same",
                None,
            );
        }
    }

    fn amount(&mut self, a: &pack::Amount) -> AmountId {
        let code = match &a.kind {
            AmountKind::Literal(m) => Amount::Literal(*m),
            AmountKind::Number(i) => Amount::Number(*i),
            AmountKind::Fact(fact) => {
                self.check_scope(*fact, a.span);
                Amount::Fact(*fact)
            }
            AmountKind::Times(factor, inner) => Amount::Times(*factor, self.amount(inner)),
            AmountKind::Sum(parts) => Amount::Sum(self.amounts(parts)),
            AmountKind::Greatest(parts) => Amount::Greatest(self.amounts(parts)),
            AmountKind::Least(parts) => Amount::Least(self.amounts(parts)),
            AmountKind::Difference(x, y) => Amount::Difference(self.amount(x), self.amount(y)),
            AmountKind::Steps {
                of,
                first,
                up_to,
                then,
                each,
            } => Amount::Steps {
                of: self.amount(of),
                first: *first,
                up_to: self.amount(up_to),
                then: *then,
                each: self.amount(each),
            },
        };
        let id = AmountId(self.program.amounts.len() as u32);
        self.program.amounts.push((code, a.of, a.span));
        id
    }

    fn amounts(&mut self, parts: &[pack::Amount]) -> Run {
        let ids: Vec<AmountId> = parts.iter().map(|p| self.amount(p)).collect();
        let start = self.program.parts.len() as u32;
        self.program.parts.extend_from_slice(&ids);
        Run {
            start,
            len: ids.len() as u32,
        }
    }
}
