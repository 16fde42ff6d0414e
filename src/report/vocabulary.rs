//! The vocabulary: every fact, searchable.

use super::page::{Page, Style, Tone};
use crate::facts::{FactDef, Kind, catalogue};
use serde_json::{Value, json};

/// The facts whose name, label, meaning, kind or choices hold every one of these words, case
/// ignored; all facts when there is no word.
#[must_use]
pub fn find_facts(words: &[String]) -> Vec<&'static FactDef> {
    let words: Vec<String> = words.iter().map(|w| w.to_lowercase()).collect();
    let all = catalogue().all().map(|(_, def)| def);
    all.filter(|def| {
        let text = searched(def);
        words.iter().all(|w| text.contains(w.as_str()))
    })
    .collect()
}

fn searched(def: &FactDef) -> String {
    let choices: Vec<&str> = def
        .kind
        .choices()
        .iter()
        .flat_map(|c| [c.name, c.meaning])
        .collect();
    let parts = [
        def.name,
        def.label,
        def.meaning,
        def.kind.name(),
        def.origin.name(),
        def.scope.noun(),
    ];
    format!("{} {}", parts.join(" "), choices.join(" ")).to_lowercase()
}

/// How a value of the fact is written, by an example.
fn example(def: &FactDef) -> Option<&'static str> {
    match def.kind {
        Kind::Measure(d) => Some(d.example()),
        Kind::Year => Some("2019"),
        Kind::Date => Some("2026-12-01"),
        Kind::YesNo => Some("yes"),
        Kind::Choice(_) | Kind::Set(_) | Kind::Text => None,
    }
}

/// Facts for people.
#[must_use]
pub fn vocabulary_text(facts: &[&FactDef], style: Style) -> String {
    let mut page = Page::new(style);
    for def in facts {
        page.para(0, Tone::Strong, def.name);
        let each = def
            .scope
            .each_name()
            .map_or_else(String::new, |_| format!(", of each {}", def.scope.noun()));
        page.para(
            4,
            Tone::Plain,
            &format!(
                "{} ({}{each}; {}).",
                def.meaning,
                def.kind.name(),
                def.origin.name()
            ),
        );
        if let Some(example) = example(def) {
            page.item(4, "such as  ", example);
        }
        let choices = def.kind.choices();
        let widest = choices.iter().map(|c| c.name.len()).max().unwrap_or(0);
        for choice in choices {
            page.item(6, &format!("{:<widest$}  ", choice.name), choice.meaning);
        }
    }
    page.gap();
    let count = facts.len();
    page.para(
        0,
        Tone::Aside,
        &format!("{count} of {} facts.", catalogue().all().count()),
    );
    page.finish()
}

/// Facts for programs.
#[must_use]
pub fn vocabulary_json(facts: &[&FactDef]) -> Value {
    let fact = |def: &&FactDef| {
        let choices = def
            .kind
            .choices()
            .iter()
            .map(|c| json!({"name": c.name, "meaning": c.meaning}));
        json!({
            "name": def.name,
            "label": def.label,
            "kind": def.kind.name(),
            "of": def.scope.noun(),
            "origin": def.origin.name(),
            "meaning": def.meaning,
            "example": example(def),
            "choices": choices.collect::<Vec<_>>(),
        })
    };
    json!({"facts": facts.iter().map(fact).collect::<Vec<_>>()})
}
