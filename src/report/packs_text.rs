//! What the packs hold and what is wrong with them, for people and for programs.

use super::digest::Digest;
use super::finding::topic_name;
use super::page::{Page, Style, Tone};
use super::shelf::{PackSummary, StaleRule};
use crate::facts::{Day, format_day};
use crate::pack::{Reading, Standing, Topic};
use crate::proof::PackCheck;
use serde_json::{Map, Value, json};

fn standing_name(standing: Standing) -> &'static str {
    match standing {
        Standing::Law => "law",
        Standing::Standard => "standard",
        Standing::Practice => "practice",
    }
}

pub(super) fn plural(n: usize, one: &str, many: &str) -> String {
    if n == 1 {
        format!("1 {one}")
    } else {
        format!("{n} {many}")
    }
}

/// The packs of a library, for people.
#[must_use]
pub fn shelf_text(packs: &[PackSummary], style: Style) -> String {
    let mut page = Page::new(style);
    for p in packs {
        let place = p.region.as_deref().unwrap_or(standing_name(p.standing));
        page.para(
            0,
            Tone::Strong,
            &format!("{place}  {} ({} {})", p.title, p.id, p.version),
        );
        let mut counts = vec![
            plural(p.rules, "rule", "rules"),
            plural(p.cases, "case", "cases"),
        ];
        if p.adoptions > 0 {
            counts.push(plural(
                p.adoptions,
                "adoption from another pack",
                "adoptions from other packs",
            ));
        }
        page.para(4, Tone::Plain, &counts.join(", "));
        if !p.topics.is_empty() {
            let topics: Vec<String> = p.topics.iter().map(|t| topic_name(*t)).collect();
            page.item(4, "Topics    ", &topics.join(", "));
        }
        if !p.grades.is_empty() {
            let grades: Vec<String> = p
                .grades
                .iter()
                .map(|(g, n)| format!("{} {n}", g.says()))
                .collect();
            page.item(4, "Sources   ", &grades.join(", "));
        }
        if let Some(oldest) = p.oldest {
            page.item(4, "Oldest reading ", &format_day(oldest));
        }
    }
    page.gap();
    let rules = packs.iter().map(|p| p.rules).sum();
    let cases = packs.iter().map(|p| p.cases).sum();
    page.para(
        0,
        Tone::Plain,
        &format!(
            "{}, {}, {}.",
            plural(packs.len(), "pack", "packs"),
            plural(rules, "rule", "rules"),
            plural(cases, "case", "cases")
        ),
    );
    page.finish()
}

/// The packs of a library, for programs.
#[must_use]
pub fn shelf_json(packs: &[PackSummary]) -> Value {
    let pack = |p: &PackSummary| {
        let grades: Map<String, Value> = p
            .grades
            .iter()
            .map(|(g, n)| (g.name().to_owned(), json!(n)))
            .collect();
        json!({
            "pack": p.id,
            "region": p.region,
            "standing": standing_name(p.standing),
            "title": p.title,
            "version": p.version,
            "rules": p.rules,
            "adoptions": p.adoptions,
            "cases": p.cases,
            "topics": p.topics.iter().map(|t| t.name()).collect::<Vec<_>>(),
            "grades": grades,
            "oldest_reading": p.oldest.map(format_day),
        })
    };
    json!({"packs": packs.iter().map(pack).collect::<Vec<_>>()})
}

/// What the packs say on a topic, for people: one line a rule, region by region.
#[must_use]
pub fn digests_text(topic: Topic, digests: &[Digest], style: Style) -> String {
    let mut page = Page::new(style);
    page.para(
        0,
        Tone::Strong,
        &format!("What is recorded on {}", topic_name(topic)),
    );
    for d in digests {
        page.gap();
        let place = d
            .region
            .as_ref()
            .map_or_else(String::new, |r| format!("{r}  "));
        page.para(0, Tone::Strong, &format!("{place}{}", d.title));
        for rule in &d.rules {
            let from = rule
                .adopted_from
                .as_ref()
                .map_or_else(String::new, |f| format!(" (adopted from: {f})"));
            page.item(2, "- ", &format!("{}{from}", rule.says));
            page.para(
                6,
                Tone::Aside,
                &rule
                    .sources
                    .iter()
                    .map(|(cite, read)| cited(cite, *read))
                    .collect::<Vec<_>>()
                    .join("; "),
            );
        }
        for note in &d.notes {
            page.item(2, "Note: ", note);
        }
    }
    if digests.is_empty() {
        page.para(0, Tone::Plain, "No pack has a rule on it.");
    }
    page.finish()
}

fn cited(cite: &str, read: Reading) -> String {
    match read {
        Reading::None => cite.to_owned(),
        read => format!("{cite} ({})", read.says()),
    }
}

/// What the packs say on a topic, for programs.
#[must_use]
pub fn digests_json(topic: Topic, digests: &[Digest]) -> Value {
    let digest = |d: &Digest| {
        let rules = d.rules.iter().map(|r| {
            let sources = r.sources.iter().map(|(cite, read)| json!({"cite": cite, "read": read.name()}));
            json!({"rule": r.id, "says": r.says, "adopted_from": r.adopted_from, "sources": sources.collect::<Vec<_>>()})
        });
        json!({"pack": d.pack, "region": d.region, "title": d.title, "rules": rules.collect::<Vec<_>>(), "notes": d.notes})
    };
    json!({"topic": topic.name(), "packs": digests.iter().map(digest).collect::<Vec<_>>()})
}

/// Rules whose sources were last read before a day, for people.
#[must_use]
pub fn stale_text(before: Day, rules: &[StaleRule], style: Style) -> String {
    let mut page = Page::new(style);
    for rule in rules {
        page.item(
            0,
            &format!("{}  ", format_day(rule.oldest)),
            &format!("{}: {}", rule.id, rule.cite),
        );
        if let Some(at) = &rule.at {
            page.whole(12, at);
        }
    }
    page.gap();
    page.para(
        0,
        Tone::Plain,
        &format!(
            "{} with a source last read before {}.",
            plural(rules.len(), "rule", "rules"),
            format_day(before)
        ),
    );
    page.finish()
}

/// Rules whose sources were last read before a day, for programs.
#[must_use]
pub fn stale_json(before: Day, rules: &[StaleRule]) -> Value {
    let rule = |r: &StaleRule| json!({"rule": r.id, "oldest_reading": format_day(r.oldest), "cite": r.cite, "at": r.at});
    json!({"before": format_day(before), "stale": rules.iter().map(rule).collect::<Vec<_>>()})
}

/// What checking packs came to, for people; the complaints themselves are shown apart.
#[must_use]
pub fn checks_text(checks: &[PackCheck], style: Style) -> String {
    let mut page = Page::new(style);
    for c in checks {
        let name = c.id.as_deref().unwrap_or(&c.file);
        let errors = c.errors();
        let advice = c.complaints.len() - errors;
        let (tone, verdict) = if errors == 0 {
            (Tone::Met, "good")
        } else {
            (Tone::Broken, "WRONG")
        };
        let mut line = format!(
            "{verdict}: {}, {}",
            plural(c.rules, "rule", "rules"),
            plural(c.cases, "case run", "cases run")
        );
        if let Some((made, same)) = c.slips {
            line = format!(
                "{line}, {} made, {same} that change nothing",
                plural(made, "slip", "slips")
            );
        }
        if errors > 0 {
            line = format!("{line}, {}", plural(errors, "complaint", "complaints"));
        }
        if advice > 0 {
            line = format!("{line}, {}", plural(advice, "hint", "hints"));
        }
        page.toned_item(0, &format!("{name}  "), tone, &line);
    }
    let wrong = checks.iter().filter(|c| c.errors() > 0).count();
    let rules = checks.iter().map(|c| c.rules).sum();
    let cases = checks.iter().map(|c| c.cases).sum();
    page.gap();
    page.para(
        0,
        Tone::Plain,
        &format!(
            "{}, {}, {}; {wrong} wrong.",
            plural(checks.len(), "pack", "packs"),
            plural(rules, "rule", "rules"),
            plural(cases, "case run", "cases run")
        ),
    );
    page.finish()
}

/// What checking packs came to, for programs.
#[must_use]
pub fn checks_json(checks: &[PackCheck]) -> Value {
    let complaint = |c: &crate::source::Complaint| {
        let at = c.line_col();
        json!({
            "code": c.code,
            "message": c.message,
            "file": c.source.as_ref().map(|s| s.name().to_owned()),
            "line": at.map(|(line, _)| line),
            "column": at.map(|(_, column)| column),
            "help": c.help,
        })
    };
    let check = |c: &PackCheck| {
        json!({
            "pack": c.id,
            "file": c.file,
            "rules": c.rules,
            "cases": c.cases,
            "slips": c.slips.map(|(made, same)| json!({"made": made, "change_nothing": same})),
            "complaints": c.complaints.iter().map(complaint).collect::<Vec<_>>(),
        })
    };
    json!({"packs": checks.iter().map(check).collect::<Vec<_>>()})
}
