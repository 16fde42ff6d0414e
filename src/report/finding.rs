//! One finding, or several alike, for people.

use super::grouped::{Told, origin};
use super::page::{Page, Tone};
use super::working::Workings;
use crate::engine::{Finding, LookAt, Outcome, PRACTICE};
use crate::facts::{Scope, catalogue, format_day};
use crate::pack::{Reading, Region, Source, Topic};

/// How many ids of rules are named one by one.
const NAMED: usize = 3;

/// A region's name for people.
pub(super) fn region_name(code: &str) -> &str {
    if code == PRACTICE {
        "common practice"
    } else {
        Region::name_of(code)
    }
}

/// A topic's name for people.
pub(super) fn topic_name(topic: Topic) -> String {
    match topic {
        Topic::LampsReflectors => "lamps and reflectors".to_owned(),
        other => other.name().replace('-', " "),
    }
}

/// A fact for people: what it is called, and the name to state it by. `listed` names such as
/// `trailer.axles` stand for a list of items.
pub(super) fn fact_name(name: &str) -> String {
    if let Some(id) = catalogue().find(name) {
        return format!("{} ({name})", catalogue().def(id).label);
    }
    let listed = Scope::ALL.into_iter().find(|s| s.list_key() == Some(name));
    match listed {
        Some(scope) => format!("each {} ({name})", scope.noun()),
        None => name.to_owned(),
    }
}

/// What an outcome is called in headings.
pub(super) fn heading(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::NotMet => "BROKEN",
        Outcome::Unknown => "UNKNOWN",
        Outcome::Confirm => "TO LOOK AT",
        Outcome::Met => "MET",
        Outcome::DoesNotApply => "DOES NOT APPLY",
    }
}

/// The tone of an outcome.
pub(super) fn tone(outcome: Outcome) -> Tone {
    match outcome {
        Outcome::NotMet => Tone::Broken,
        Outcome::Unknown => Tone::Unknown,
        Outcome::Confirm => Tone::Look,
        Outcome::Met => Tone::Met,
        Outcome::DoesNotApply => Tone::Aside,
    }
}

/// Sets one finding in full.
pub(super) fn set(page: &mut Page, number: usize, told: &Told<'_>, workings: &mut Workings<'_>) {
    let Some(first) = told.first() else { return };
    let label = format!("{number:>2}. ");
    let indent = label.len();
    page.toned_item(0, &label, Tone::Strong, &first.says);
    page.item(indent, "In        ", &regions(told));
    let rule = format!("{} ({})", rule_names(told), topic_name(first.topic));
    page.item(indent, "Rule      ", &rule);
    let because = reasons(first, workings);
    if first.outcome == Outcome::Confirm && !because.is_empty() {
        page.item(indent, "Because   ", &because.join("; "));
    } else {
        lines(page, indent, "Because ", because.iter().map(String::as_str));
    }
    let missing: Vec<String> = first.missing.iter().map(|m| fact_name(m)).collect();
    lines(page, indent, "Find out", missing.iter().map(String::as_str));
    looks(page, indent, &first.rule, told.looks().into_iter());
    lines(page, indent, "Note    ", told.notes().into_iter());
    sources(page, indent, told.sources().into_iter());
}

/// Sets what somebody has to look at, without the reasons and the addresses.
pub(super) fn set_look(page: &mut Page, number: usize, told: &Told<'_>) {
    let Some(first) = told.first() else { return };
    let label = format!("{number:>2}. ");
    let indent = label.len();
    page.toned_item(0, &label, Tone::Strong, &first.says);
    let topic = topic_name(first.topic);
    let rule = format!("{} ({topic}): {}", rule_names(told), regions(told));
    page.para(indent, Tone::Aside, &rule);
    looks(page, indent, &first.rule, told.looks().into_iter());
    lines(page, indent, "Note    ", told.notes().into_iter());
    let cites: Vec<String> = told.sources().into_iter().map(citation).collect();
    page.item(indent, "Source    ", &cites.join("; "));
}

/// Sets one finding without notes and addresses, on as few lines as tell it; its reasons only where
/// workings are handed over.
pub(super) fn set_short(page: &mut Page, told: &Told<'_>, workings: Option<&mut Workings<'_>>) {
    let Some(first) = told.first() else { return };
    page.item(0, "  - ", &first.says);
    let place = format!(
        "{} ({}): {}",
        rule_names(told),
        topic_name(first.topic),
        regions(told)
    );
    page.para(4, Tone::Aside, &place);
    let because = workings.map(|w| reasons(first, w)).unwrap_or_default();
    if !because.is_empty() {
        page.item(4, "Because ", &because.join("; "));
    }
    let cites: Vec<String> = told.sources().into_iter().map(citation).collect();
    page.item(4, "Source  ", &cites.join("; "));
}

fn regions(told: &Told<'_>) -> String {
    let names: Vec<&str> = told.regions().into_iter().map(region_name).collect();
    names.join(", ")
}

/// What is to be looked at. Where the rule's id is not the key that answers it, the key is told too.
pub(super) fn looks<'l>(
    page: &mut Page,
    indent: usize,
    rule: &str,
    looks: impl Iterator<Item = &'l LookAt>,
) {
    let look = |l: &LookAt| {
        if l.key == rule {
            l.text.clone()
        } else {
            format!("{} [{}]", l.text, l.key)
        }
    };
    let looks: Vec<String> = looks.map(look).collect();
    lines(page, indent, "Look    ", looks.iter().map(String::as_str));
}

/// How a rig says that something was seen.
pub(super) fn seen_hint(key: &str) -> String {
    format!(
        "Write what was seen into the rig file under the rule's id, or the name in brackets: `seen: {{{key}: yes}}`, or `no`."
    )
}

/// The conditions that decided: each working told once in a report, and what a fact is not told on
/// one line.
fn reasons(finding: &Finding, workings: &mut Workings<'_>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for line in &finding.because {
        let line = workings.cut(line);
        let start = line.find(", not ").map(|at| at + ", not ".len());
        let same = start
            .and_then(|at| line.get(..at))
            .and_then(|prefix| out.iter_mut().find(|o| o.starts_with(prefix)));
        match (same, start.and_then(|at| line.get(at..))) {
            (Some(before), Some(rest)) => before.push_str(&format!(", not {rest}")),
            _ => out.push(line),
        }
    }
    out
}

/// The ids of the rules; many that adopt one and the same are counted.
fn rule_names(told: &Told<'_>) -> String {
    let rules = told.rules();
    match rules.as_slice() {
        // What is to be answered by its id is named by it.
        [first, ..] if rules.len() > NAMED && told.looks().is_empty() => {
            format!("{}, adopted by {} packs", origin(first), rules.len())
        }
        _ => rules.join(", "),
    }
}

/// Sets lines behind one label.
pub(super) fn lines<'t>(
    page: &mut Page,
    indent: usize,
    label: &str,
    texts: impl Iterator<Item = &'t str>,
) {
    let mut label = format!("{label}  ");
    for text in texts {
        page.item(indent, &label, text);
        label = " ".repeat(label.len());
    }
}

/// Sets sources, each with its grade and day, and its address to copy.
pub(super) fn sources<'s>(
    page: &mut Page,
    indent: usize,
    sources: impl Iterator<Item = &'s Source>,
) {
    let mut label = "Source    ".to_owned();
    for source in sources {
        page.item(indent, &label, &citation(source));
        label = " ".repeat(label.len());
        if let Some(at) = &source.at {
            page.whole(indent + label.len(), at);
        }
    }
}

/// A citation with its evidence grade in words, the day it was read, and the age of the copy.
pub(super) fn citation(source: &Source) -> String {
    if source.read == Reading::None {
        return source.cite.clone();
    }
    let mut out = format!("{} ({}", source.cite, source.read.says());
    if let Some(on) = source.on {
        out.push_str(&format!(", {}", format_day(on)));
    }
    if let Some(edition) = &source.as_of {
        out.push_str(&format!("; as of {edition}"));
    }
    out.push(')');
    out
}
