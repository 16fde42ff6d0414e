//! A whole pack at once: rules that can never apply, rules that contradict or repeat one another,
//! weights that fall between two rules, conditions that follow from others. Each finding comes
//! with a rig that shows it.

use super::given::given;
use super::space::{Space, blank_rig};
use crate::engine::{
    Amount, Compiled, Node, Outcome, Program, RuleCode, RuleFrom, Truth, World, for_each_item,
    outcome, truth,
};
use crate::facts::{FactId, FactSet, catalogue};
use crate::mechanics::work_out;
use crate::pack::{Comparison, Period};
use crate::quantity::{Exact, Interval};
use crate::source::{Complaint, Span};
use std::collections::BTreeSet;

/// How many rigs are tried for one question before it is left open.
const CAP: usize = 20_000;

/// What was noticed about one of the compiled packs. All of it is advice but rules that can never
/// apply and rules that contradict one another.
#[must_use]
pub fn analyse(compiled: &Compiled<'_>, pack: usize) -> Vec<Complaint> {
    let Some(source) = compiled.packs.get(pack) else {
        return Vec::new();
    };
    let p = &compiled.program;
    let own: Vec<&RuleCode> = p
        .rules
        .iter()
        .filter(|r| r.pack == pack && matches!(r.from, RuleFrom::Own { .. }))
        .collect();
    let a = Analysis {
        p,
        compiled,
        text: &source.source,
    };
    let mut out = Vec::new();
    for rule in &own {
        out.extend(a.never_applies(rule));
    }
    for (i, one) in own.iter().enumerate() {
        for other in own.iter().skip(i + 1) {
            if a.comparable(one, other) {
                out.extend(a.contradiction(one, other));
                out.extend(a.repetition(one, other));
                out.extend(a.gap(one, other));
            }
        }
    }
    out
}

struct Analysis<'a, 'p> {
    p: &'a Program,
    compiled: &'a Compiled<'p>,
    text: &'a crate::source::SourceText,
}

impl Analysis<'_, '_> {
    fn span(&self, rule: &RuleCode) -> Span {
        let written = match rule.from {
            RuleFrom::Own { rule: place } => self
                .compiled
                .packs
                .get(rule.pack)
                .and_then(|p| p.rules.get(place)),
            RuleFrom::Adopted { .. } => None,
        };
        written.map_or_else(|| Span::point(0), |r| r.id.span)
    }

    /// Two rules are set against each other when they are in force together, run for the same
    /// items, and ask something of the same fact.
    fn comparable(&self, one: &RuleCode, other: &RuleCode) -> bool {
        one.topic == other.topic
            && one.each == other.each
            && together(&one.periods, &other.periods)
            && !self
                .facts_of(&[one.must])
                .is_disjoint(&self.facts_of(&[other.must]))
    }

    fn facts_of(&self, roots: &[crate::engine::NodeId]) -> BTreeSet<FactId> {
        let mut out = BTreeSet::new();
        for root in roots {
            self.p.leaves(*root, &mut |leaf| {
                self.p.leaf_facts(leaf, &mut |f| {
                    out.insert(f);
                });
            });
        }
        out
    }

    fn never_applies(&self, rule: &RuleCode) -> Option<Complaint> {
        let space = Space::of(&[self.p], &[rule]);
        if !space.complete || space.size(CAP) > CAP {
            return None;
        }
        let mut applies = false;
        let looks = vec![None; self.p.looks.len()];
        space.walk(blank_rig(rule.each), &mut |facts| {
            for_each_item(rule.each, facts, |item| {
                let w = World {
                    facts,
                    item,
                    looks: &looks,
                };
                applies |= truth(self.p, rule.applies, w) != Truth::False;
            });
            !applies
        });
        (!applies).then(|| {
            Complaint::error(
                "proof::never-applies",
                format!("{}: no rig can meet all of its conditions", rule.id),
            )
            .at(self.text, self.span(rule), "never applies")
            .help("one of the conditions shuts out another")
        })
    }

    /// Looks for a rig to which both rules apply and that can keep only one of them, whatever is
    /// done about what they ask for.
    fn contradiction(&self, one: &RuleCode, other: &RuleCode) -> Option<Complaint> {
        let space = Space::of(&[self.p], &[one, other]);
        if !space.complete || space.size(CAP) > CAP {
            return None;
        }
        let asked: BTreeSet<FactId> = self.facts_of(&[one.must, other.must]);
        // A fact that is asked for may stand in an exemption too; it is still free to be put right.
        let (free, conditions) = space.split(|f| asked.contains(&f));
        if free.axes.is_empty() {
            return None;
        }
        let looks = vec![Some(true); self.p.looks.len()];
        let both = |facts: &FactSet| {
            let of = |r| outcome(self.p, r, facts, &looks, None);
            (of(one), of(other))
        };
        let mut witness = None;
        conditions.walk(blank_rig(one.each), &mut |facts| {
            let (mut reached, mut kept) = (false, false);
            free.walk(facts.clone(), &mut |full| {
                let (a, b) = both(full);
                let binds = |o| matches!(o, Outcome::Met | Outcome::NotMet);
                reached |= binds(a) && binds(b);
                kept |= !binds(a) || !binds(b) || (a == Outcome::Met && b == Outcome::Met);
                !kept
            });
            if reached && !kept && possible(facts) {
                witness = Some(given(facts));
            }
            witness.is_none()
        });
        witness.map(|rig| {
            Complaint::error(
                "proof::contradiction",
                format!("{} and {} cannot both be kept", one.id, other.id),
            )
            .at(self.text, self.span(one), "asks one thing")
            .also(self.span(other), "asks the opposite")
            .help(format!("of the rig {rig}"))
        })
    }

    fn repetition(&self, one: &RuleCode, other: &RuleCode) -> Option<Complaint> {
        let space = Space::of(&[self.p], &[one, other]);
        if !space.complete || space.size(CAP) > CAP {
            return None;
        }
        let looks = vec![None; self.p.looks.len()];
        let (mut same, mut binds) = (true, false);
        space.walk(blank_rig(one.each), &mut |facts| {
            let a = outcome(self.p, one, facts, &looks, None);
            same &= a == outcome(self.p, other, facts, &looks, None);
            binds |= a != Outcome::DoesNotApply;
            same
        });
        (same && binds && self.looks_of(one) == self.looks_of(other)).then(|| {
            Complaint::advice(
                "proof::repetition",
                format!("{} and {} say the same of every rig", one.id, other.id),
            )
            .at(self.text, self.span(one), "this")
            .also(self.span(other), "and this")
            .help("one rule with both sources is enough")
        })
    }

    fn looks_of(&self, rule: &RuleCode) -> Vec<&str> {
        let mut out = Vec::new();
        for root in [rule.applies, rule.must] {
            self.p.leaves(root, &mut |leaf| {
                if let Node::Look(at) = self.p.node(leaf)
                    && let Some(l) = self.p.looks.get(at as usize)
                {
                    out.push(l.text.as_str());
                }
            });
        }
        out
    }

    /// A figure at which one rule has just ended and the next not yet begun.
    fn gap(&self, one: &RuleCode, other: &RuleCode) -> Option<Complaint> {
        let (a, b) = (self.bounds(one), self.bounds(other));
        for (low, high) in [(&a, &b), (&b, &a)] {
            for (fact, ends_by, end, span) in low
                .iter()
                .filter(|x| matches!(x.1, Comparison::LessThan | Comparison::AtMost))
            {
                for (same, begins_by, begin, next) in high
                    .iter()
                    .filter(|x| matches!(x.1, Comparison::MoreThan | Comparison::AtLeast))
                {
                    if fact != same {
                        continue;
                    }
                    let between = match (ends_by, begins_by) {
                        (Comparison::LessThan, Comparison::MoreThan) => begin >= end,
                        _ => begin > end,
                    };
                    let near = begin
                        .checked_sub(*end)
                        .zip(end.checked_mul(Exact::new(1, 50)?))
                        .is_some_and(|(d, limit)| d <= limit);
                    if between && near {
                        return self.told_gap(one, other, *fact, (*end, *begin), (*span, *next));
                    }
                }
            }
        }
        None
    }

    fn told_gap(
        &self,
        one: &RuleCode,
        other: &RuleCode,
        fact: FactId,
        ends: (Exact, Exact),
        spans: (Span, Span),
    ) -> Option<Complaint> {
        let def = catalogue().def(fact);
        let shown = crate::facts::show_value(
            &crate::facts::Value::Number(Interval::new(Some(ends.0), Some(ends.1))?),
            self.unit_at(spans.0),
            def,
        );
        Some(
            Complaint::advice("proof::gap", format!("{} and {}: {} of {shown} falls between them", one.id, other.id, def.label))
                .at(self.text, spans.0, "one band ends here")
                .also(spans.1, "the next begins here")
                .help(format!("the rig {{{}: {shown}}} is under neither; if the text leaves that gap, say so in a note", def.name)),
        )
    }

    fn unit_at(&self, span: Span) -> Option<crate::quantity::Unit> {
        self.p.amounts.iter().find_map(|(a, _, s)| match a {
            Amount::Literal(m) if span.start <= s.start && s.end <= span.end => Some(m.unit),
            _ => None,
        })
    }

    /// The literal bounds in a rule's conditions.
    fn bounds(&self, rule: &RuleCode) -> Vec<(FactId, Comparison, Exact, Span)> {
        let mut out = Vec::new();
        self.p.leaves(rule.applies, &mut |leaf| {
            let Node::Compare { left, by, right } = self.p.node(leaf) else {
                return;
            };
            if let (Some((Amount::Fact(fact), _, _)), Some((Amount::Literal(m), _, _))) =
                (self.p.amount(left), self.p.amount(right))
                && let (Some(value), Some((_, span))) =
                    (m.interval.is_exact(), self.p.places.get(leaf.0 as usize))
            {
                out.push((*fact, by, value, *span));
            }
        });
        out
    }
}

/// Whether there is a day on which both are in force.
fn together(one: &[Period; 2], other: &[Period; 2]) -> bool {
    let all = || one.iter().chain(other);
    let from = all().filter_map(|p| p.from).max();
    let until = all().filter_map(|p| p.until).min();
    from.zip(until).is_none_or(|(f, u)| f <= u)
}

/// Whether a rig with these facts can exist.
fn possible(facts: &FactSet) -> bool {
    work_out(&mut facts.clone(), None).is_empty()
}
