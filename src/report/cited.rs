//! Rules told by their places in a program: what they say, where they bind, and their sources.

use super::finding::{citation, region_name, topic_name};
use super::json::source;
use super::page::{Page, Tone};
use crate::engine::Ruleset;
use crate::pack::{Source, Topic};
use serde_json::{Map, Value, json};

/// A rule, or several that say the same, with the regions in which they bind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CitedRule {
    /// The full ids, each once.
    pub ids: Vec<String>,
    /// The regions, by code, or [`crate::engine::PRACTICE`].
    pub regions: Vec<String>,
    /// The topic.
    pub topic: Topic,
    /// What they say.
    pub says: String,
    /// Where they come from.
    pub sources: Vec<Source>,
}

/// The rules at these places of the program, those that say the same told as one.
#[must_use]
pub fn cited(rules: &Ruleset<'_>, at: impl IntoIterator<Item = usize>) -> Vec<CitedRule> {
    let mut out: Vec<CitedRule> = Vec::new();
    for index in at {
        let Some(code) = rules.program().rules.get(index) else {
            continue;
        };
        let says = rules
            .rule_of(code)
            .map_or_else(String::new, |r| r.says.clone());
        let binds = rules.bindings().iter().filter(|b| b.rules.contains(&index));
        let regions: Vec<String> = binds.map(|b| b.region.clone()).collect();
        let sources = rules.sources_of(code);
        if let Some(same) = out.iter_mut().find(|c| c.says == says) {
            same.ids.push(code.id.clone());
            let more = |all: &[String], r: &String| !all.contains(r);
            for region in regions {
                if more(&same.regions, &region) {
                    same.regions.push(region);
                }
            }
            for source in sources {
                if !same.sources.contains(&source) {
                    same.sources.push(source);
                }
            }
            continue;
        }
        out.push(CitedRule {
            ids: vec![code.id.clone()],
            regions,
            topic: code.topic,
            says,
            sources,
        });
    }
    out
}

/// The ids of the rules at these places.
pub(super) fn ids<'r>(
    rules: &'r Ruleset<'_>,
    at: impl IntoIterator<Item = &'r usize>,
) -> Vec<&'r str> {
    at.into_iter()
        .filter_map(|i| rules.program().rules.get(*i))
        .map(|r| r.id.as_str())
        .collect()
}

/// The rules for programs, by id.
pub(super) fn rules_json(rules: &Ruleset<'_>, at: impl IntoIterator<Item = usize>) -> Value {
    let mut out = Map::new();
    for rule in at.into_iter().flat_map(|i| cited(rules, [i])) {
        for id in &rule.ids {
            out.insert(
                id.clone(),
                json!({
                    "regions": rule.regions,
                    "topic": rule.topic.name(),
                    "says": rule.says,
                    "sources": rule.sources.iter().map(source).collect::<Vec<_>>(),
                }),
            );
        }
    }
    Value::Object(out)
}

/// Sets rules, each with where it binds and its citation; beyond `most` they are only counted.
pub(super) fn set(page: &mut Page, indent: usize, told: &[CitedRule], most: usize) {
    for rule in told.iter().take(most) {
        page.item(indent, "- ", &rule.says);
        let regions: Vec<&str> = rule.regions.iter().map(|r| region_name(r)).collect();
        let ids = match rule.ids.as_slice() {
            [first, _, _, _, ..] => format!("{first} and {} more", rule.ids.len() - 1),
            few => few.join(", "),
        };
        let place = format!("{}: {ids} ({})", regions.join(", "), topic_name(rule.topic));
        page.para(indent + 2, Tone::Aside, &place);
        let cites: Vec<String> = rule.sources.iter().map(citation).collect();
        page.item(indent + 2, "Source  ", &cites.join("; "));
    }
    if told.len() > most {
        let more = format!("and {} more; `--all` tells them", told.len() - most);
        page.item(indent, "- ", &more);
    }
}
