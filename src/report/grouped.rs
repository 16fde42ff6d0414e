//! The same rule, binding in several regions of a route, gathered so that it is told once.

use crate::engine::{Finding, LookAt, Outcome};
use crate::pack::Source;

/// One thing to tell: a rule's finding, and every region in which the same is found.
#[derive(Clone, Debug)]
pub struct Told<'r> {
    /// The findings, in the order of the report; never empty.
    findings: Vec<&'r Finding>,
}

impl<'r> Told<'r> {
    /// The first of the findings; what they have in common can be read from it.
    #[must_use]
    pub fn first(&self) -> Option<&'r Finding> {
        self.findings.first().copied()
    }

    /// The regions, each once.
    #[must_use]
    pub fn regions(&self) -> Vec<&'r str> {
        distinct(self.findings.iter().map(|f| f.region.as_str()))
    }

    /// The full ids of the rules, each once: more than one where several packs adopt the same rule.
    #[must_use]
    pub fn rules(&self) -> Vec<&'r str> {
        distinct(self.findings.iter().map(|f| f.rule.as_str()))
    }

    /// What is to be looked at, each once.
    #[must_use]
    pub fn looks(&self) -> Vec<&'r LookAt> {
        let mut out: Vec<&LookAt> = Vec::new();
        for look in self.findings.iter().flat_map(|f| &f.looks) {
            if !out.iter().any(|l| l.text == look.text) {
                out.push(look);
            }
        }
        out
    }

    /// What the sources leave open, each note once.
    #[must_use]
    pub fn notes(&self) -> Vec<&'r str> {
        distinct(
            self.findings
                .iter()
                .flat_map(|f| &f.notes)
                .map(String::as_str),
        )
    }

    /// The sources, each once.
    #[must_use]
    pub fn sources(&self) -> Vec<&'r Source> {
        distinct(self.findings.iter().flat_map(|f| &f.sources))
    }
}

fn distinct<T: PartialEq>(all: impl Iterator<Item = T>) -> Vec<T> {
    let mut out = Vec::new();
    for one in all {
        if !out.contains(&one) {
            out.push(one);
        }
    }
    out
}

/// The findings of an outcome, the same rule with the same reasons told once. The order is that of
/// the first finding of each.
#[must_use]
pub fn grouped(findings: &[Finding], outcome: Outcome) -> Vec<Told<'_>> {
    let mut out: Vec<Told<'_>> = Vec::new();
    for finding in findings.iter().filter(|f| f.outcome == outcome) {
        match out
            .iter_mut()
            .find(|t| t.first().is_some_and(|f| is_same(f, finding)))
        {
            Some(told) => told.findings.push(finding),
            None => out.push(Told {
                findings: vec![finding],
            }),
        }
    }
    out
}

fn is_same(a: &Finding, b: &Finding) -> bool {
    let texts = |f: &Finding| f.looks.iter().map(|l| l.text.clone()).collect::<Vec<_>>();
    origin(&a.rule) == origin(&b.rule)
        && a.says == b.says
        && a.because == b.because
        && a.missing == b.missing
        && texts(a) == texts(b)
}

/// The rule as the pack that wrote it names it: `us-federal/brakes` of `us-ne/us-federal/brakes`.
#[must_use]
pub(super) fn origin(rule: &str) -> &str {
    match rule.split_once('/') {
        Some((_, rest)) if rest.contains('/') => rest,
        _ => rule,
    }
}
