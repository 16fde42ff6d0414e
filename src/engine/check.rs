//! Checks a rig: every rule of every region asked for, on a day.

use super::compile::{Compiled, compile};
use super::eval::{Outcome, World, for_each_item, in_force, outcome, outcome_of_item};
use super::explain::{Explanation, explain};
use super::program::{Program, RuleCode, RuleFrom};
use crate::facts::{Day, FactSet, ItemId, catalogue};
use crate::pack::{Authority, Library, Pack, Region, Rule, Source, Topic};
use crate::rig::Seen;
use crate::source::Complaints;

/// The word that stands for a region where habits of the trade are told.
pub const PRACTICE: &str = "practice";

/// The rules that bind on a route: compiled once, checked as often as wanted.
#[derive(Debug)]
pub struct Ruleset<'l> {
    compiled: Compiled<'l>,
    bindings: Vec<Binding>,
}

/// One region with the rules that bind there.
#[derive(Clone, Debug)]
pub struct Binding {
    /// The region's code, or [`PRACTICE`].
    pub region: String,
    /// The packs that bind there, the region's own first, by their place in the compiled packs.
    pub packs: Vec<usize>,
    /// The rules that bind there, by their place in the program.
    pub rules: Vec<usize>,
}

impl<'l> Ruleset<'l> {
    /// Compiles the rules that bind in these regions.
    ///
    /// # Errors
    /// Complaints about the packs.
    pub fn new(
        library: &'l Library,
        regions: &[&Region],
        practice: bool,
    ) -> Result<Ruleset<'l>, Complaints> {
        library.read_ahead(regions);
        let mut wanted: Vec<(String, Vec<&'l Pack>)> = Vec::new();
        for region in regions {
            wanted.push((region.code.to_owned(), binding_packs(library, region)?));
        }
        if practice {
            let packs = library.practice()?;
            if !packs.is_empty() {
                wanted.push((PRACTICE.to_owned(), packs));
            }
        }
        let mut roots: Vec<&str> = Vec::new();
        for (_, packs) in &wanted {
            roots.extend(packs.iter().map(|p| p.id.value.as_str()));
        }
        let compiled = compile(library.with_references(&roots)?)?;
        let bindings = wanted
            .into_iter()
            .map(|(region, packs)| bind(&compiled, region, &packs))
            .collect();
        Ok(Ruleset { compiled, bindings })
    }

    /// Compiles these packs and what they refer to, bound to no region.
    ///
    /// # Errors
    /// Complaints about the packs.
    pub fn of_packs(library: &'l Library, packs: &[&str]) -> Result<Ruleset<'l>, Complaints> {
        Ok(Ruleset {
            compiled: compile(library.with_references(packs)?)?,
            bindings: Vec::new(),
        })
    }

    /// The compiled rules.
    #[must_use]
    pub fn program(&self) -> &Program {
        &self.compiled.program
    }

    /// The regions with their rules.
    #[must_use]
    pub fn bindings(&self) -> &[Binding] {
        &self.bindings
    }

    /// The compiled packs.
    #[must_use]
    pub fn packs(&self) -> &[&'l Pack] {
        &self.compiled.packs
    }

    /// The rule as its pack writes it.
    #[must_use]
    pub fn rule_of(&self, code: &RuleCode) -> Option<&'l Rule> {
        match code.from {
            RuleFrom::Own { rule } => self.compiled.packs.get(code.pack)?.rules.get(rule),
            RuleFrom::Adopted { pack, rule, .. } => self.compiled.packs.get(pack)?.rules.get(rule),
        }
    }

    /// The sources of a rule: those of the law that adopts it first, then its own.
    #[must_use]
    pub fn sources_of(&self, code: &RuleCode) -> Vec<Source> {
        let mut sources = Vec::new();
        if let RuleFrom::Adopted { adoption, .. } = code.from
            && let Some(a) = self
                .compiled
                .packs
                .get(code.pack)
                .and_then(|p| p.adopts.get(adoption))
        {
            sources.extend(a.sources.iter().cloned());
        }
        if let Some(rule) = self.rule_of(code) {
            sources.extend(rule.sources.iter().cloned());
        }
        sources
    }

    /// Notes on a rule: what the adopting law and the rule's sources leave open.
    #[must_use]
    pub fn notes_of(&self, code: &RuleCode) -> Vec<String> {
        let mut notes = Vec::new();
        if let RuleFrom::Adopted { adoption, .. } = code.from
            && let Some(a) = self
                .compiled
                .packs
                .get(code.pack)
                .and_then(|p| p.adopts.get(adoption))
        {
            notes.extend(a.note.clone());
        }
        if let Some(rule) = self.rule_of(code) {
            notes.extend(rule.doubt.clone());
            notes.extend(rule.note.clone());
        }
        notes
    }

    /// What was looked at, for each look of the program.
    #[must_use]
    pub fn looks(&self, seen: &Seen) -> Vec<Option<bool>> {
        let looks = &self.compiled.program.looks;
        looks.iter().map(|l| seen.get(&l.key).copied()).collect()
    }

    /// The outcome of each rule of the program for a rig.
    #[must_use]
    pub fn outcomes(
        &self,
        facts: &FactSet,
        looks: &[Option<bool>],
        on: Option<Day>,
    ) -> Vec<Outcome> {
        let p = &self.compiled.program;
        p.rules
            .iter()
            .map(|r| outcome(p, r, facts, looks, on))
            .collect()
    }

    /// Checks a rig whose facts have been worked out.
    #[must_use]
    pub fn check(&self, facts: &FactSet, seen: &Seen, on: Day) -> Vec<Finding> {
        let looks = self.looks(seen);
        let outcomes = self.outcomes(facts, &looks, Some(on));
        let mut findings = Vec::new();
        for binding in &self.bindings {
            for index in &binding.rules {
                if let (Some(rule), Some(outcome)) = (
                    self.compiled.program.rules.get(*index),
                    outcomes.get(*index),
                ) {
                    findings.push(self.finding(&binding.region, rule, *outcome, facts, &looks, on));
                }
            }
        }
        findings
    }

    /// Tells one rule's outcome for a rig, with its explanation.
    #[must_use]
    pub fn finding(
        &self,
        region: &str,
        rule: &RuleCode,
        outcome: Outcome,
        facts: &FactSet,
        looks: &[Option<bool>],
        on: Day,
    ) -> Finding {
        let p = &self.compiled.program;
        let mut f = Finding {
            region: region.to_owned(),
            rule: rule.id.clone(),
            topic: rule.topic,
            outcome,
            says: self
                .rule_of(rule)
                .map_or_else(String::new, |r| r.says.clone()),
            because: Vec::new(),
            missing: Vec::new(),
            looks: Vec::new(),
            notes: self.notes_of(rule),
            sources: self.sources_of(rule),
        };
        if !in_force(rule, Some(on)) {
            f.because.push("not in force on that day".to_owned());
            return f;
        }
        let mut any = false;
        for_each_item(rule.each, facts, |item| {
            any = true;
            let w = World { facts, item, looks };
            // Of a rule run for items, those are told that made it what it is.
            if outcome_of_item(p, rule, w) == outcome {
                self.add(&mut f, &explain(p, rule, w), facts, item);
            }
        });
        if !any && let Some(scope) = rule.each {
            f.because.push(format!("there is no {}", scope.noun()));
        }
        f
    }

    fn add(&self, f: &mut Finding, e: &Explanation, facts: &FactSet, item: ItemId) {
        let unlisted = facts.items(item.scope).get(item.index).is_none();
        let name = facts.called(item);
        for (line, of_item) in e.because.iter().zip(&e.of_item) {
            let told = if name.is_empty() || !of_item {
                line.clone()
            } else {
                format!("{name}: {line}")
            };
            if !unlisted && !f.because.contains(&told) {
                f.because.push(told);
            }
        }
        if unlisted && f.outcome == Outcome::Unknown {
            let key = item.scope.list_key().unwrap_or_default().to_owned();
            f.because.push(format!(
                "it is not known whether there is a {}",
                item.scope.noun()
            ));
            if !f.missing.contains(&key) {
                f.missing.push(key);
            }
            return;
        }
        for fact in &e.missing {
            let known = catalogue().def(*fact).name.to_owned();
            if !f.missing.contains(&known) {
                f.missing.push(known);
            }
        }
        for look in &e.looks {
            if let Some(l) = self.compiled.program.looks.get(*look as usize)
                && !f.looks.iter().any(|x| x.key == l.key && x.text == l.text)
            {
                f.looks.push(l.clone());
            }
        }
    }

    /// Topics on which no rule of a region's own pack is recorded.
    #[must_use]
    pub fn not_covered(&self) -> Vec<(String, Topic)> {
        let mut out = Vec::new();
        for b in self.bindings.iter().filter(|b| b.region != PRACTICE) {
            let own: Vec<usize> = b
                .packs
                .iter()
                .copied()
                .filter(|i| {
                    let region = self.compiled.packs.get(*i).and_then(|p| p.region.as_ref());
                    region.is_some_and(|r| r.value == b.region)
                })
                .collect();
            for topic in Topic::ALL.into_iter().filter(|t| *t != Topic::Other) {
                let covered = b
                    .rules
                    .iter()
                    .filter_map(|r| self.compiled.program.rules.get(*r))
                    .any(|r| r.topic == topic && own.contains(&r.pack));
                if !covered {
                    out.push((b.region.clone(), topic));
                }
            }
        }
        out
    }

    /// For each region, whom to verify with.
    #[must_use]
    pub fn authorities(&self) -> Vec<(String, Authority)> {
        let authority = |b: &Binding| {
            let packs = b.packs.iter().filter_map(|i| self.compiled.packs.get(*i));
            packs
                .into_iter()
                .find_map(|p| p.authority.clone())
                .map(|a| (b.region.clone(), a))
        };
        self.bindings.iter().filter_map(authority).collect()
    }
}

/// The packs that bind in a region: its own, and those that it lies within.
fn binding_packs<'l>(library: &'l Library, region: &Region) -> Result<Vec<&'l Pack>, Complaints> {
    let mut packs: Vec<&Pack> = library.of_region(region.code)?;
    let mut next = 0;
    while let Some(pack) = packs.get(next) {
        if let Some(within) = &pack.within
            && library.source(&within.value).is_some()
        {
            let outer = library.pack(&within.value)?;
            if !packs.iter().any(|p| p.id.value == outer.id.value) {
                packs.push(outer);
            }
        }
        next += 1;
    }
    Ok(packs)
}

fn bind(compiled: &Compiled<'_>, region: String, packs: &[&Pack]) -> Binding {
    let place = |p: &&Pack| compiled.packs.iter().position(|c| c.id.value == p.id.value);
    let packs: Vec<usize> = packs.iter().filter_map(place).collect();
    let rules = compiled.program.rules.iter().enumerate();
    let mut rules: Vec<usize> = rules
        .filter(|(_, r)| packs.contains(&r.pack))
        .map(|(i, _)| i)
        .collect();
    rules.sort_by_key(|i| {
        let rule = &compiled.program.rules[*i];
        (packs.iter().position(|p| *p == rule.pack), rule.topic, *i)
    });
    Binding {
        region,
        packs,
        rules,
    }
}

/// What one rule says of one rig in one region.
#[derive(Clone, Debug)]
pub struct Finding {
    /// The region's code, or [`PRACTICE`].
    pub region: String,
    /// The rule's full id.
    pub rule: String,
    /// The topic.
    pub topic: Topic,
    /// The outcome.
    pub outcome: Outcome,
    /// The rule in plain words.
    pub says: String,
    /// The conditions that decided, with the values on both sides.
    pub because: Vec<String>,
    /// The facts that would settle it.
    pub missing: Vec<String>,
    /// What somebody has to look at.
    pub looks: Vec<super::program::LookAt>,
    /// What the sources leave open.
    pub notes: Vec<String>,
    /// Where the rule comes from.
    pub sources: Vec<Source>,
}
