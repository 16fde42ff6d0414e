//! What changed between two versions of a pack, for people and for programs.

use super::packs_text::plural;
use super::page::{Page, Style, Tone};
use crate::proof::{RuleChange, RuleDiff};
use serde_json::{Value, json};

/// The changes, for people.
#[must_use]
pub fn diff_text(changes: &[RuleDiff], style: Style) -> String {
    let mut page = Page::new(style);
    for c in changes {
        let (tone, word) = match &c.change {
            RuleChange::Added => (Tone::Unknown, "added".to_owned()),
            RuleChange::Removed => (Tone::Broken, "removed".to_owned()),
            RuleChange::Meaning { was, is, .. } => (Tone::Broken, format!("means something else: {} became {}", was.name(), is.name())),
            RuleChange::Period => (Tone::Broken, "in force on other days".to_owned()),
            RuleChange::Open => (Tone::Unknown, "conditions changed; no rig was found that comes out otherwise, but not every one was tried".to_owned()),
            RuleChange::Wording(keys) => (Tone::Plain, format!("only words changed: {}", keys.join(", "))),
        };
        page.toned_item(0, &format!("{}  ", c.rule), tone, &word);
        if let RuleChange::Meaning { given, .. } = &c.change {
            page.para(4, Tone::Plain, &format!("for the rig {given}"));
        }
    }
    page.gap();
    let meaning = changes
        .iter()
        .filter(|c| !matches!(c.change, RuleChange::Wording(_)))
        .count();
    page.para(
        0,
        Tone::Plain,
        &format!(
            "{} changed, {meaning} of them in more than words.",
            plural(changes.len(), "rule", "rules")
        ),
    );
    page.finish()
}

/// The changes, for programs.
#[must_use]
pub fn diff_json(changes: &[RuleDiff]) -> Value {
    let change = |c: &RuleDiff| match &c.change {
        RuleChange::Added => json!({"rule": c.rule, "change": "added"}),
        RuleChange::Removed => json!({"rule": c.rule, "change": "removed"}),
        RuleChange::Meaning { given, was, is } => {
            json!({"rule": c.rule, "change": "meaning", "given": given, "was": was.name(), "is": is.name()})
        }
        RuleChange::Period => json!({"rule": c.rule, "change": "in-force"}),
        RuleChange::Open => json!({"rule": c.rule, "change": "open"}),
        RuleChange::Wording(keys) => json!({"rule": c.rule, "change": "wording", "keys": keys}),
    };
    json!({"diff": 1, "rules": changes.iter().map(change).collect::<Vec<_>>()})
}
