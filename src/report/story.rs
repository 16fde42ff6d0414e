//! One rule told in full: what it says, when it applies, where it comes from, and its history.

use crate::engine::{
    Finding, Node, NodeId, PRACTICE, RuleCode, RuleFrom, Ruleset, condition_lines, outcome,
};
use crate::facts::{Day, FactSet};
use crate::pack::{Case, Library, Period, Region, Rule, Source, Topic};
use crate::rig::Seen;
use crate::source::{Complaint, Complaints, Value, quote, suggest};

/// Another version of a rule, for other days.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Version {
    /// Its full id.
    pub rule: String,
    /// When it is in force.
    pub period: Period,
    /// What it says.
    pub says: String,
}

/// A rule told in full.
#[derive(Clone, Debug)]
pub struct Story {
    /// The full id.
    pub rule: String,
    /// Where it binds: the title of its pack.
    pub place: String,
    /// The title of the pack that it is adopted from, if it is.
    pub adopted_from: Option<String>,
    /// The topic.
    pub topic: Topic,
    /// The rule in plain words.
    pub says: String,
    /// What an item is called, for a rule that is run for each.
    pub each: Option<&'static str>,
    /// When it applies; always, when empty.
    pub when: Vec<String>,
    /// When it does not apply after all.
    pub unless: Vec<String>,
    /// What must hold.
    pub must: Vec<String>,
    /// What reading the sources leaves open.
    pub notes: Vec<String>,
    /// Why a breach is only for somebody to confirm, if it is.
    pub doubt: Option<String>,
    /// The sources.
    pub sources: Vec<Source>,
    /// The periods in which it is in force; of an adopted rule its own and the adoption's.
    pub periods: Vec<Period>,
    /// Other versions of it in the same pack, the earliest first.
    pub versions: Vec<Version>,
    /// How many cases prove it.
    pub cases: usize,
    /// What it says of a rig, when one was given.
    pub finding: Option<Finding>,
}

/// The full ids of the rules that a name stands for: a full id, or the id of a rule within its pack
/// or packs. Only rules that bind in `regions` are looked at, when there are any.
///
/// # Errors
/// Complaints about the packs, and that there is no such rule, with the nearest that there is.
pub fn find_rules<'l>(
    library: &'l Library,
    name: &str,
    regions: &[&Region],
) -> Result<(Ruleset<'l>, Vec<String>), Complaints> {
    let rules = if regions.is_empty() {
        // A full id leads to its pack; nothing else needs to be read.
        let pack = name
            .split_once('/')
            .map(|(pack, _)| pack)
            .filter(|p| library.source(p).is_some());
        match pack {
            Some(pack) => Ruleset::of_packs(library, &[pack])?,
            None => Ruleset::of_packs(library, &library.ids())?,
        }
    } else {
        Ruleset::new(library, regions, true)?
    };
    let ids: Vec<String> = rules.program().rules.iter().map(|r| r.id.clone()).collect();
    let is_meant = |id: &&String| {
        *id == name
            || id
                .strip_suffix(name)
                .is_some_and(|stem| stem.ends_with('/'))
    };
    let exact: Vec<String> = ids.iter().filter(|id| *id == name).cloned().collect();
    let found = if exact.is_empty() {
        ids.iter().filter(is_meant).cloned().collect()
    } else {
        exact
    };
    if found.is_empty() {
        return Err(no_rule(name, &ids).into());
    }
    Ok((rules, found))
}

fn no_rule(name: &str, ids: &[String]) -> Complaint {
    let short = ids
        .iter()
        .filter_map(|id| id.rsplit_once('/'))
        .map(|(_, last)| last);
    let near = suggest::nearest(name, ids.iter().map(String::as_str).chain(short));
    let help = match near {
        Some(near) => format!("did you mean {}?", quote(near)),
        None => "`pintle check` names the rules that bind a rig; an id is the pack's and the rule's, as in us-ne/brakes".to_owned(),
    };
    Complaint::error(
        "report::unknown-rule",
        format!("there is no rule {}", quote(name)),
    )
    .help(help)
}

/// A rig to explain rules for: its facts, worked out, what was seen, and the day.
#[derive(Clone, Copy, Debug)]
pub struct ForRig<'a> {
    /// The facts.
    pub facts: &'a FactSet,
    /// What was looked at.
    pub seen: &'a Seen,
    /// The day.
    pub on: Day,
}

/// Tells rules in full, by their full ids, and what they say of a rig if one is given.
#[must_use]
pub fn stories(rules: &Ruleset<'_>, ids: &[String], rig: Option<ForRig<'_>>) -> Vec<Story> {
    let codes = rules.program().rules.iter().filter(|r| ids.contains(&r.id));
    codes.filter_map(|code| story(rules, code, rig)).collect()
}

fn story(rules: &Ruleset<'_>, code: &RuleCode, rig: Option<ForRig<'_>>) -> Option<Story> {
    let rule = rules.rule_of(code)?;
    let pack = rules.packs().get(code.pack)?;
    let (adopted_from, adopted_cases) = match code.from {
        RuleFrom::Own { .. } => (None, 0),
        RuleFrom::Adopted {
            adoption,
            pack: from,
            ..
        } => {
            let cases = pack
                .adopts
                .get(adoption)
                .map(|a| a.cases.as_slice())
                .unwrap_or_default();
            (
                rules.packs().get(from).map(|p| p.title.clone()),
                naming(cases, &rule.id.value),
            )
        }
    };
    let (when, unless) = parts(rules, code, rule);
    let mut must = Vec::new();
    let _ = condition_lines(rules.program(), code.must, 0, &mut must);
    let own_cases = if adopted_from.is_none() {
        rule.cases.len()
    } else {
        0
    };
    let notes = rules
        .notes_of(code)
        .into_iter()
        .filter(|n| rule.doubt.as_ref() != Some(n));
    Some(Story {
        rule: code.id.clone(),
        place: pack.title.clone(),
        adopted_from,
        topic: code.topic,
        says: rule.says.clone(),
        each: rule.each.map(crate::facts::Scope::noun),
        when,
        unless,
        must,
        notes: notes.collect(),
        doubt: rule.doubt.clone(),
        sources: rules.sources_of(code),
        periods: code
            .periods
            .into_iter()
            .filter(|p| p.from.is_some() || p.until.is_some())
            .collect(),
        versions: versions(rules, code, rule),
        cases: own_cases + adopted_cases,
        finding: rig.map(|r| finding(rules, code, r)),
    })
}

/// How many cases name a rule.
fn naming(cases: &[Case], rule: &str) -> usize {
    let names = |c: &&Case| matches!(c.node.get("rule").map(|n| &n.value), Some(Value::Scalar(s)) if s.text.trim() == rule);
    cases.iter().filter(names).count()
}

fn finding(rules: &Ruleset<'_>, code: &RuleCode, rig: ForRig<'_>) -> Finding {
    let looks = rules.looks(rig.seen);
    let outcome = outcome(rules.program(), code, rig.facts, &looks, Some(rig.on));
    let pack = rules.packs().get(code.pack);
    let region = pack
        .and_then(|p| p.region.as_ref())
        .map_or(PRACTICE, |r| r.value.as_str());
    rules.finding(region, code, outcome, rig.facts, &looks, rig.on)
}

/// The conditions under which a rule applies, and those that exempt from it, in lines.
fn parts(rules: &Ruleset<'_>, code: &RuleCode, rule: &Rule) -> (Vec<String>, Vec<String>) {
    let adoption = match code.from {
        RuleFrom::Adopted { adoption, .. } => rules
            .packs()
            .get(code.pack)
            .and_then(|p| p.adopts.get(adoption)),
        RuleFrom::Own { .. } => None,
    };
    let count =
        |own: bool, adopted: Option<bool>| usize::from(own) + usize::from(adopted == Some(true));
    let whens = count(rule.when.is_some(), adoption.map(|a| a.when.is_some()));
    let exempt = count(rule.unless.is_some(), adoption.map(|a| a.unless.is_some()));
    let p = rules.program();
    // The compiler puts the conditions first and the exemptions, negated, behind them.
    let kids: Vec<NodeId> = match p.node(code.applies) {
        Node::All(run) if whens + exempt > 1 => p.run(run).to_vec(),
        _ => vec![code.applies],
    };
    let (mut when, mut unless) = (Vec::new(), Vec::new());
    for (at, kid) in kids.into_iter().enumerate() {
        match p.node(kid) {
            Node::Not(inner) if at >= whens => {
                let _ = condition_lines(p, inner, 0, &mut unless);
            }
            _ => {
                let _ = condition_lines(p, kid, 0, &mut when);
            }
        }
    }
    (when, unless)
}

/// Other rules of the pack that stand for this one on other days: on the same topic, never in force
/// together with it, and with a source or the beginning of the id in common.
fn versions(rules: &Ruleset<'_>, code: &RuleCode, rule: &Rule) -> Vec<Version> {
    let home = match code.from {
        RuleFrom::Own { .. } => code.pack,
        RuleFrom::Adopted { pack, .. } => pack,
    };
    let Some(pack) = rules.packs().get(home) else {
        return Vec::new();
    };
    let related = |r: &Rule| {
        let (a, b) = (r.id.value.as_str(), rule.id.value.as_str());
        let cited = r.sources.iter().any(|s| {
            rule.sources
                .iter()
                .any(|t| s.cite == t.cite && s.read != crate::pack::Reading::None)
        });
        cited || a.starts_with(b) || b.starts_with(a)
    };
    let others = pack.rules.iter().filter(|r| {
        r.id != rule.id && r.topic == rule.topic && apart(r.in_force, rule.in_force) && related(r)
    });
    let mut versions: Vec<Version> = others
        .map(|r| Version {
            rule: format!("{}/{}", pack.id.value, r.id.value),
            period: r.in_force,
            says: r.says.clone(),
        })
        .collect();
    versions.sort_by_key(|v| v.period.from);
    versions
}

/// Whether no day lies in both periods.
fn apart(a: Period, b: Period) -> bool {
    let before = |x: Period, y: Period| x.until.zip(y.from).is_some_and(|(u, f)| u < f);
    before(a, b) || before(b, a)
}
