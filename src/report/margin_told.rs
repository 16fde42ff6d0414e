//! Margins: how far the rig is from breaking, or mending, the next rule.

use super::cited::{self, CitedRule, cited};
use super::page::{Page, Tone};
use super::{Detail, Report};
use crate::engine::Ruleset;
use crate::engine::solve::{Margin, distinct};
use crate::facts::{FactSet, Kind, show_value};
use crate::quantity::{Dimension, Exact, Rounding, Unit, format_exact, format_rounded};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// How many margins are told without all detail.
const FEW: usize = 5;

/// One margin, told.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MarginTold {
    /// The fact's dotted name.
    pub fact: String,
    /// What the fact is called, the item's name before it.
    pub label: String,
    /// What it is now.
    pub now: String,
    /// How far off the turn is, rounded to the safe side: down, or up where it only mends.
    pub gap: String,
    /// Whether the fact would have to grow.
    pub upward: bool,
    /// The value at which rules begin to stand otherwise.
    pub turn: String,
    /// Whether they do so at that value already, or only beyond it.
    pub at_turn: bool,
    /// How far beyond it the turn may lie, where it could not be placed exactly.
    pub resolution: Option<String>,
    /// The rules that begin to be broken.
    pub breaks: Vec<CitedRule>,
    /// The rules that begin to be open.
    pub opens: Vec<CitedRule>,
    /// The rules that cease to be broken, and are kept or do not apply.
    pub mends: Vec<CitedRule>,
    /// Whether an earlier margin says the same of a fact that this one is a part of, or holds.
    pub repeats: bool,
    /// Whether it is a matter of a count, or of a size that has to be just what it is, which a
    /// report without all detail leaves out.
    pub slight: bool,
}

/// Margins told, the nearest first.
#[must_use]
pub fn margins_told(margins: &[Margin], rules: &Ruleset<'_>, facts: &FactSet) -> Vec<MarginTold> {
    let kept = distinct(margins);
    // A fact that may neither grow nor shrink has to be just what it is.
    let pinned = |m: &Margin| {
        let same = |o: &&Margin| o.subject == m.subject && o.gap == Exact::ZERO;
        margins.iter().filter(same).count() > 1
    };
    let told = |m: &Margin| {
        let unit = m.unit.unwrap_or(Unit::One);
        let def = m.subject.def();
        let of = |turned: &BTreeSet<usize>| cited(rules, turned.iter().copied());
        let item = facts.called(m.subject.item);
        // What breaks is rounded towards what the fact is now, so that all before it is safe; what only
        // mends is rounded away from it, so that it is enough.
        let mends = m.breaks.is_empty() && m.opens.is_empty();
        let rounding = match m.upward == mends {
            true => Rounding::Up,
            false => Rounding::Down,
        };
        MarginTold {
            fact: m.subject.name.clone(),
            label: if item.is_empty() {
                def.label.to_owned()
            } else {
                format!("{item}: {}", def.label)
            },
            now: show_value(&crate::facts::Value::Number(m.now), Some(unit), def),
            gap: format_rounded(
                m.gap,
                unit,
                if mends { Rounding::Up } else { Rounding::Down },
            ),
            upward: m.upward,
            turn: format_rounded(m.turn, unit, rounding),
            at_turn: m.at_turn,
            resolution: m.resolution.map(|width| format_exact(width, unit)),
            breaks: of(&m.breaks),
            opens: of(&m.opens),
            mends: of(&m.mends),
            slight: matches!(def.kind, Kind::Measure(Dimension::Count)) || pinned(m),
            repeats: !kept.iter().any(|k| std::ptr::eq(*k, m)),
        }
    };
    margins.iter().map(told).collect()
}

/// Margins for programs.
pub(super) fn margins_json(margins: &[MarginTold]) -> Value {
    let ids =
        |rules: &[CitedRule]| -> Vec<String> { rules.iter().flat_map(|r| r.ids.clone()).collect() };
    let one = |m: &MarginTold| {
        json!({
            "fact": m.fact,
            "now": m.now,
            "gap": m.gap,
            "direction": if m.upward { "more" } else { "less" },
            "turn": m.turn,
            "at_turn": m.at_turn,
            "resolution": m.resolution,
            "breaks": ids(&m.breaks),
            "opens": ids(&m.opens),
            "mends": ids(&m.mends),
        })
    };
    Value::Array(margins.iter().map(one).collect())
}

/// The schema of one margin.
pub(super) fn margin_schema() -> Value {
    let text = json!({"type": "string"});
    let rules = |what: &str| json!({"type": "array", "items": text, "description": what});
    json!({
        "type": "object", "additionalProperties": false,
        "required": ["fact", "now", "gap", "direction", "turn", "at_turn", "resolution", "breaks", "opens", "mends"],
        "properties": {
            "fact": {"type": "string", "description": "The fact's dotted name."},
            "now": {"type": "string", "description": "What it is now."},
            "gap": {"type": "string", "description": "How far off the turn is, rounded to the safe side: down, or up where it only mends."},
            "direction": {"enum": ["more", "less"], "description": "Whether the fact would have to grow or to shrink."},
            "turn": {"type": "string", "description": "The value at which rules begin to stand otherwise."},
            "at_turn": {"type": "boolean", "description": "Whether they do so at that value already, or only beyond it."},
            "resolution": {"type": ["string", "null"], "description": "How far beyond it the turn may lie, where it could not be placed exactly."},
            "breaks": rules("The rules that begin to be broken."),
            "opens": rules("The rules that are then unknown."),
            "mends": rules("The rules that cease to be broken."),
        },
    })
}

/// The margins to tell, the nearest few or all, and how many more there are.
pub(super) fn shown(report: &Report) -> (Vec<&MarginTold>, usize) {
    let all = report.detail == Detail::All;
    let told = |m: &&MarginTold| all || !(m.repeats || m.slight);
    let mut shown: Vec<&MarginTold> = report.margins.iter().filter(told).collect();
    if all {
        return (shown, 0);
    }
    // What mends something is told first: it is what somebody can do.
    shown.sort_by_key(|m| m.mends.is_empty());
    let mends = shown.iter().filter(|m| !m.mends.is_empty()).count();
    let most = FEW + mends.min(FEW);
    let more = shown.len().saturating_sub(most);
    shown.truncate(most);
    (shown, more)
}

/// Sets the margins: the nearest few, or all.
pub(super) fn set(page: &mut Page, report: &Report) {
    let all = report.detail == Detail::All;
    let (shown, more) = shown(report);
    if shown.is_empty() {
        return;
    }
    let heading = match shown.first() {
        Some(first) if !all && !first.mends.is_empty() => "MARGINS, WHAT MENDS FIRST",
        _ => "MARGINS, THE NEAREST FIRST",
    };
    page.heading(Tone::Strong, heading);
    page.para(
        0,
        Tone::Aside,
        "For each figure the next value at which a rule turns, no further off than the figure is great.",
    );
    for m in shown {
        page.item(0, "  - ", &sentence(m));
        for (word, rules) in [
            ("then broken:", &m.breaks),
            ("then unknown:", &m.opens),
            ("then no longer broken:", &m.mends),
        ] {
            if !rules.is_empty() {
                page.para(4, Tone::Plain, word);
                cited::set(page, 6, rules, if all { usize::MAX } else { 1 });
            }
        }
    }
    if more > 0 {
        let more = format!("and {more} more; `--all` tells them");
        page.item(0, "  - ", &more);
    }
}

fn sentence(m: &MarginTold) -> String {
    format!("{}: {}", m.label, left(m))
}

/// How much is left, in words: "450 lb more (at 3,000 lb or more; 2,550 lb now)".
pub(super) fn left(m: &MarginTold) -> String {
    let more = if m.upward { "more" } else { "less" };
    let zero = m.gap.starts_with("0 ") || m.gap == "0" || m.gap == "0%";
    if zero {
        return format!("{} now, with nothing to spare: any {more} turns it", m.now);
    }
    let place = match (m.at_turn, m.upward) {
        (true, true) => format!("at {} or more", m.turn),
        (true, false) => format!("at {} or less", m.turn),
        (false, true) => format!("beyond {}", m.turn),
        (false, false) => format!("below {}", m.turn),
    };
    format!("{} {more} ({place}; {} now)", m.gap, m.now)
}
