//! Compiles packs: resolves definitions and adoptions, checks that every rule makes sense, and
//! flattens all of it into one [`Program`].

use super::lower::Lower;
use super::program::{Node, Program, RuleCode, RuleFrom};
use crate::facts::Scope;
use crate::pack::{Adoption, Condition, Definition, Pack, Period, Rule};
use crate::source::{Complaint, Complaints, Span};
use std::collections::{HashMap, HashSet};

/// Packs compiled together, with those that they refer to.
#[derive(Debug)]
pub struct Compiled<'p> {
    /// The packs.
    pub packs: Vec<&'p Pack>,
    /// What was made of them.
    pub program: Program,
}

/// Compiles packs. `packs` must hold every pack that one of them adopts from or lies within.
///
/// # Errors
/// Every complaint: references that lead nowhere, duplicate ids, facts of an item in a rule that
/// is not run for items, conditions that can never hold.
pub fn compile<'p>(packs: Vec<&'p Pack>) -> Result<Compiled<'p>, Complaints> {
    let mut complaints = Vec::new();
    let program = {
        let mut c = Compiler {
            packs: &packs,
            lower: Lower::new(&packs),
        };
        for index in 0..packs.len() {
            c.pack(index);
        }
        complaints.append(&mut c.lower.complaints);
        c.lower.program
    };
    if complaints.is_empty() {
        Ok(Compiled { packs, program })
    } else {
        Err(Complaints(complaints))
    }
}

struct Compiler<'a, 'p: 'a> {
    packs: &'a [&'p Pack],
    lower: Lower<'a, 'p>,
}

impl<'a, 'p: 'a> Compiler<'a, 'p> {
    fn pack(&mut self, index: usize) {
        let pack = self.packs[index];
        self.unique(
            pack,
            "definition",
            pack.definitions
                .iter()
                .map(|d| (&d.name.value, d.name.span)),
        );
        self.unique(
            pack,
            "rule",
            pack.rules.iter().map(|r| (&r.id.value, r.id.span)),
        );
        self.unique(
            pack,
            "adoption",
            pack.adopts.iter().map(|a| (&a.id.value, a.id.span)),
        );
        if let Some(within) = &pack.within {
            self.find_pack(pack, &within.value, within.span);
        }
        self.lower.check_definitions(index);
        for (n, rule) in pack.rules.iter().enumerate() {
            self.own_rule(index, n, rule);
        }
        for (n, adoption) in pack.adopts.iter().enumerate() {
            self.adoption(index, n, adoption);
        }
    }

    fn unique<'n>(
        &mut self,
        pack: &Pack,
        what: &str,
        names: impl Iterator<Item = (&'n String, Span)>,
    ) {
        let mut first: HashMap<&str, Span> = HashMap::new();
        for (name, span) in names {
            if let Some(earlier) = first.insert(name, span) {
                self.lower.complaints.push(
                    Complaint::error(
                        "pack::duplicate-id",
                        format!("the {what} `{name}` stands twice"),
                    )
                    .at(&pack.source, span, "again here")
                    .also(earlier, "first here")
                    .help("give one of them another name"),
                );
            }
        }
    }

    fn find_pack(&mut self, pack: &Pack, id: &str, span: Span) -> Option<usize> {
        let found = self.packs.iter().position(|p| p.id.value == id);
        if found.is_none() {
            let names = self.packs.iter().map(|p| p.id.value.as_str());
            self.lower.dangling(pack, "pack", id, span, names);
        }
        found
    }

    fn own_rule(&mut self, index: usize, place: usize, rule: &Rule) {
        let pack = self.packs[index];
        let id = format!("{}/{}", pack.id.value, rule.id.value);
        self.lower.begin(index, &id, rule.each);
        let when = self.lower.optional(rule.when.as_ref());
        let unless = self.lower.optional(rule.unless.as_ref());
        let applies = self.lower.applies(&[when], &[unless], rule.span);
        let must = self.lower.condition(&rule.must);
        self.lower.program.rules.push(RuleCode {
            id,
            pack: index,
            from: RuleFrom::Own { rule: place },
            topic: rule.topic,
            each: rule.each,
            applies,
            must,
            doubt: rule.doubt.is_some(),
            periods: [rule.in_force, Period::default()],
        });
    }

    fn adoption(&mut self, index: usize, place: usize, adoption: &'a Adoption) {
        let pack = self.packs[index];
        let Some(from) = self.find_pack(pack, &adoption.pack.value, adoption.pack.span) else {
            return;
        };
        let other = self.packs[from];
        let ids = || other.rules.iter().map(|r| r.id.value.as_str());
        for named in adoption.rules.iter().chain(&adoption.except) {
            if !ids().any(|id| id == named.value) {
                self.lower
                    .dangling(pack, "rule", &named.value, named.span, ids());
            }
        }
        for term in &adoption.redefine {
            if !other
                .definitions
                .iter()
                .any(|d| d.name.value == term.name.value)
            {
                let names = other.definitions.iter().map(|d| d.name.value.as_str());
                self.lower
                    .dangling(pack, "definition", &term.name.value, term.name.span, names);
            }
        }
        let named = |list: &[crate::pack::Spanned<String>], rule: &Rule| {
            list.iter().any(|n| n.value == rule.id.value)
        };
        let mut any = false;
        for (n, rule) in other.rules.iter().enumerate() {
            let wanted = (adoption.rules.is_empty() || named(&adoption.rules, rule))
                && (adoption.topics.is_empty() || adoption.topics.contains(&rule.topic))
                && !named(&adoption.except, rule);
            if wanted {
                any = true;
                let which = RuleFrom::Adopted {
                    adoption: place,
                    pack: from,
                    rule: n,
                };
                self.adopted_rule(index, adoption, which, from, rule);
            }
        }
        if !any {
            self.lower.complaints.push(
                Complaint::error(
                    "pack::adopts-nothing",
                    format!("`{}` adopts no rule", adoption.id.value),
                )
                .at(&pack.source, adoption.id.span, "nothing is left"),
            );
        }
    }

    fn adopted_rule(
        &mut self,
        index: usize,
        adoption: &'a Adoption,
        which: RuleFrom,
        from: usize,
        rule: &Rule,
    ) {
        let id = format!(
            "{}/{}/{}",
            self.packs[index].id.value, self.packs[from].id.value, rule.id.value
        );
        self.lower.begin(index, &id, rule.each);
        let here_when = self.lower.optional(adoption.when.as_ref());
        let here_unless = self.lower.optional(adoption.unless.as_ref());
        self.lower.enter(from, &adoption.redefine, index);
        let when = self.lower.optional(rule.when.as_ref());
        let unless = self.lower.optional(rule.unless.as_ref());
        let must = self.lower.condition(&rule.must);
        self.lower.leave();
        let applies = self
            .lower
            .applies(&[here_when, when], &[here_unless, unless], rule.span);
        self.lower.program.rules.push(RuleCode {
            id,
            pack: index,
            from: which,
            topic: rule.topic,
            each: rule.each,
            applies,
            must,
            doubt: rule.doubt.is_some(),
            periods: [rule.in_force, adoption.in_force],
        });
    }
}

/// Names used by a condition, for finding circles among definitions.
pub(super) fn circular(definitions: &[Definition]) -> Option<&Definition> {
    fn names<'c>(c: &'c Condition, out: &mut Vec<&'c str>) {
        use crate::pack::ConditionKind as K;
        match &c.kind {
            K::All(parts) | K::Any(parts) => parts.iter().for_each(|p| names(p, out)),
            K::Not(inner) => names(inner, out),
            K::Defined(name) => out.push(name),
            _ => {}
        }
    }
    fn reaches<'d>(
        at: &'d Definition,
        target: &str,
        all: &'d [Definition],
        seen: &mut HashSet<&'d str>,
    ) -> bool {
        let mut used = Vec::new();
        names(&at.condition, &mut used);
        used.into_iter().any(|name| {
            name == target
                || (seen.insert(name)
                    && all
                        .iter()
                        .find(|d| d.name.value == name)
                        .is_some_and(|d| reaches(d, target, all, seen)))
        })
    }
    definitions
        .iter()
        .find(|d| reaches(d, &d.name.value, definitions, &mut HashSet::new()))
}

/// Whether facts of a scope can be read in a rule that is run for items of another.
pub(super) fn readable(fact: Scope, rule: Option<Scope>) -> bool {
    let rule = rule.unwrap_or(Scope::Rig);
    fact == Scope::Rig || fact == rule || rule.parent() == Some(fact)
}

/// A node that is always true, where a part could not be compiled; the complaint stops the program
/// from being used.
pub(super) const PLACEHOLDER: Node = Node::True;
