//! The one set of requirements that satisfies every region of a route, for people and for programs.

use super::cited::{self, cited, ids, rules_json};
use super::finding::region_name;
use super::json::notice;
use super::notice::NOTICE;
use super::page::{Page, Style, Tone};
use super::{CheckDay, Detail};
use crate::engine::Ruleset;
use crate::engine::solve::{Demand, Requirements, Subject};
use crate::facts::{
    FactSet, Kind, Value as FactValue, catalogue, format_day, show_members, show_value,
};
use crate::quantity::{Interval, Rounding, Unit, format_rounded, is_rounded};
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The version of the format of the requirements for programs.
pub const STRICTEST_FORMAT: u32 = 1;

/// How many rules are told in one place without all detail.
const FEW: usize = 3;

/// One bound of a demand, in words, with the rules that ask for it.
struct Bound<'d> {
    words: &'static str,
    value: String,
    rules: &'d [usize],
}

/// The requirements for programs.
#[must_use]
pub fn strictest_json(found: &Requirements, rules: &Ruleset<'_>, facts: &FactSet) -> Value {
    let mut used: BTreeSet<usize> = found.others.iter().chain(&found.open).copied().collect();
    let requirements: Vec<Value> = found
        .demands
        .iter()
        .map(|d| {
            let mut out = json!({
                "fact": facts.name_of(d.item, d.fact),
                "now": now(d, facts),
                "impossible": d.is_impossible(),
            });
            for bound in bounds(d, facts, rules) {
                used.extend(bound.rules);
                out[bound.words.replace(' ', "_")] =
                    json!({"value": bound.value, "rules": ids(rules, bound.rules)});
            }
            out
        })
        .collect();
    let regions = rules.bindings().iter().map(|b| b.region.as_str());
    json!({
        "strictest": STRICTEST_FORMAT,
        "regions": regions.collect::<Vec<_>>(),
        "requirements": requirements,
        "others": ids(rules, &found.others),
        "unknown_whether": ids(rules, &found.open),
        "rules": rules_json(rules, used),
        "notice": notice(),
    })
}

fn now(d: &Demand, facts: &FactSet) -> Option<String> {
    let def = catalogue().def(d.fact);
    let known = facts.known(d.item, d.fact)?;
    (known.value != FactValue::missing(&def.kind))
        .then(|| show_value(&known.value, known.unit, def))
}

fn bounds<'d>(d: &'d Demand, facts: &FactSet, rules: &Ruleset<'_>) -> Vec<Bound<'d>> {
    let def = catalogue().def(d.fact);
    let mut out = Vec::new();
    for (bound, plain, strict, rounding) in [
        (&d.least, "at least", "more than", Rounding::Up),
        (&d.most, "at most", "less than", Rounding::Down),
    ] {
        if let Some((x, included, by)) = bound {
            let unit = unit(d, by, facts, rules);
            // A figure that had to be rounded is rounded to the side that keeps the rule.
            let rounded = unit.is_some_and(|u| is_rounded(*x, u));
            out.push(Bound {
                words: if *included || rounded { plain } else { strict },
                value: match (unit, def.kind) {
                    (Some(unit), Kind::Measure(_)) => format_rounded(*x, unit, rounding),
                    _ => show_value(&FactValue::Number(Interval::exactly(*x)), unit, def),
                },
                rules: by,
            });
        }
    }
    if let Some((members, by)) = &d.members {
        let value = match (def.kind, *members) {
            (_, 0) => "nothing".to_owned(),
            (Kind::YesNo, m) => show_value(&FactValue::OneOf(m), None, def),
            (kind, m) => show_members(m, &kind, " or "),
        };
        out.push(Bound {
            words: "one of",
            value,
            rules: by,
        });
    }
    if let Some((members, by)) = &d.includes {
        out.push(Bound {
            words: "with",
            value: show_members(*members, &def.kind, ", "),
            rules: by,
        });
    }
    out
}

/// The unit of the rig, or else that of the rule.
fn unit(d: &Demand, by: &[usize], facts: &FactSet, rules: &Ruleset<'_>) -> Option<Unit> {
    let own = facts.known(d.item, d.fact).and_then(|k| k.unit);
    own.or_else(|| {
        let p = rules.program();
        let mut found = None;
        for rule in by.iter().filter_map(|i| p.rules.get(*i)) {
            p.leaves(rule.must, &mut |leaf| {
                if let crate::engine::Node::Compare { left, right, .. } = p.node(leaf)
                    && let Some((crate::engine::Amount::Fact(f), _, _)) = p.amount(left)
                    && *f == d.fact
                    && let Some((crate::engine::Amount::Literal(m), _, _)) = p.amount(right)
                {
                    found = found.or(Some(m.unit));
                }
            });
        }
        // What is compared with another fact is told in a unit that the rig uses.
        found.or_else(|| Subject::of(facts, d.item, d.fact).unit(facts))
    })
}

/// The requirements for people. `facts` are the rig's with all worked out.
#[must_use]
pub fn strictest_text(
    found: &Requirements,
    rules: &Ruleset<'_>,
    facts: &FactSet,
    on: CheckDay,
    detail: Detail,
    style: Style,
) -> String {
    let most = detail.most(FEW);
    let mut page = Page::new(style);
    page.para(0, Tone::Strong, "What satisfies every region of the route");
    let regions: Vec<&str> = rules
        .bindings()
        .iter()
        .map(|b| region_name(&b.region))
        .collect();
    page.item(0, "Route  ", &regions.join(", "));
    page.item(
        0,
        "Day    ",
        &format!("{} ({})", format_day(on.day), on.origin()),
    );
    page.heading(
        Tone::Strong,
        &format!("REQUIREMENTS ({})", found.demands.len()),
    );
    for d in &found.demands {
        let def = catalogue().def(d.fact);
        let item = facts.called(d.item);
        let label = if item.is_empty() {
            def.label.to_owned()
        } else {
            format!("{item}: {}", def.label)
        };
        let told: Vec<Bound<'_>> = bounds(d, facts, rules);
        let words: Vec<String> = told
            .iter()
            .map(|b| match b.words {
                "one of" => b.value.clone(),
                words => format!("{words} {}", b.value),
            })
            .collect();
        let now = now(d, facts).map_or_else(|| "not known".to_owned(), |n| format!("{n} now"));
        let tone = if d.is_impossible() {
            Tone::Broken
        } else {
            Tone::Strong
        };
        let line = format!("{label}: {} ({now})", words.join(" and "));
        page.toned_item(0, "  - ", tone, &line);
        if d.is_impossible() {
            page.para(4, Tone::Broken, "Nothing satisfies all of these together.");
        }
        for bound in told {
            cited::set(
                &mut page,
                4,
                &cited(rules, bound.rules.iter().copied()),
                most,
            );
        }
    }
    for (heading, list) in [
        (
            "ASKED FOR BESIDES, IN MORE THAN ONE WAY OR TO BE LOOKED AT",
            &found.others,
        ),
        ("NOT KNOWN WHETHER THEY APPLY", &found.open),
    ] {
        let told = cited(rules, list.iter().copied());
        if !told.is_empty() {
            page.heading(Tone::Unknown, &format!("{heading} ({})", told.len()));
            let many = if heading.starts_with("ASKED") {
                usize::MAX
            } else {
                most
            };
            cited::set(&mut page, 2, &told, many);
        }
    }
    page.gap();
    page.para(0, Tone::Strong, NOTICE);
    page.finish()
}
