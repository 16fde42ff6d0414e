//! The range of a fact, for people and for programs.

use super::cited::{self, cited, ids, rules_json};
use super::finding::region_name;
use super::json::notice;
use super::notice::NOTICE;
use super::page::{Page, Style, Tone};
use super::{CheckDay, Detail};
use crate::engine::Ruleset;
use crate::engine::solve::{Band, Range, Standing};
use crate::facts::{FactSet, Kind, Value as FactValue, Whence, format_day, show_value};
use crate::quantity::format_exact;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// The version of the format of a range for programs.
pub const RANGE_FORMAT: u32 = 1;

/// How many rules are told at one end without all detail.
const FEW: usize = 4;

/// The range for programs: the values for which no rule is broken, with the rules that stop them at
/// either end; those for which something is unknown; and where nothing is allowed, the rules in
/// conflict.
///
/// ```
/// use pintle::engine::{Ruleset, solve::{find_subject, range}};
/// use pintle::pack::{Library, Region};
/// use pintle::report::range_json;
/// use pintle::rig::read_rig;
/// use pintle::source::SourceText;
///
/// let library = Library::built_in();
/// let rules = Ruleset::new(&library, &[Region::find("US-NE").unwrap()], false).unwrap();
/// let text = "rig: 1\ntrailer: {kind: boat, axles: [{braked: no}]}";
/// let rig = read_rig(&SourceText::from_str("rig.yaml", text)).unwrap();
/// let weight = find_subject(&rig.facts, "trailer.gross_weight", None).unwrap();
/// let found = range(&rules, &rig.facts, &rules.looks(&rig.seen), &weight);
/// let json = range_json(&found, &rules, &rig.facts);
/// assert_eq!(json["range"], 1);
/// assert_eq!(json["fact"], "trailer.gross_weight");
/// ```
#[must_use]
pub fn range_json(range: &Range, rules: &Ruleset<'_>, facts: &FactSet) -> Value {
    let mut used: BTreeSet<usize> = range.anyway.clone();
    used.extend(range.conflict.iter().chain(&range.open));
    for band in range.bands.iter().chain(&range.apart) {
        used.extend(band.below.iter().chain(&band.above));
        if band.standing == Standing::Unknown {
            used.extend(&band.rules);
        }
    }
    let allowed = |bands: &[Band]| -> Vec<Value> {
        let of = bands.iter().filter(|b| b.standing == Standing::Allowed);
        of.map(|b| allowed_json(range, b, rules)).collect()
    };
    let unknown = |bands: &[Band]| -> Vec<Value> {
        let of = bands.iter().filter(|b| b.standing == Standing::Unknown);
        let one = |b: &Band| {
            let mut out = allowed_json(range, b, rules);
            out["rules"] = json!(ids(rules, &b.rules));
            out
        };
        of.map(one).collect()
    };
    json!({
        "range": RANGE_FORMAT,
        "fact": range.subject.name,
        "allowed": allowed(&range.bands),
        "unknown": unknown(&range.bands),
        "conflict": ids(rules, &range.conflict),
        "broken_anyway": ids(rules, &range.anyway),
        "open_anyway": ids(rules, &range.open),
        "allowed_apart_from_these": allowed(&range.apart),
        "unknown_apart_from_these": unknown(&range.apart),
        "now": now(range, facts),
        "worked_out": working(range, facts),
        "resolution": resolution(range),
        "rules": rules_json(rules, used),
        "notice": notice(),
    })
}

fn ends_json(range: &Range, band: &Band) -> Value {
    let (from, to) = range.ends(band);
    json!({
        "from": from.as_ref().map(|e| &e.0),
        "to": to.as_ref().map(|e| &e.0),
        "from_included": from.is_some_and(|e| e.1),
        "to_included": to.is_some_and(|e| e.1),
    })
}

fn allowed_json(range: &Range, band: &Band, rules: &Ruleset<'_>) -> Value {
    let mut out = ends_json(range, band);
    out["below"] = json!(ids(rules, &band.below));
    out["above"] = json!(ids(rules, &band.above));
    out
}

fn now(range: &Range, facts: &FactSet) -> Option<String> {
    let known = range.subject.now(facts)?;
    let def = range.subject.def();
    let missing = known.value == FactValue::missing(&def.kind);
    (!missing).then(|| show_value(&known.value, known.unit.or(range.unit), def))
}

/// How the rig's figure is worked out, where it is not stated.
fn working(range: &Range, facts: &FactSet) -> Option<String> {
    match &range.subject.now(facts)?.whence {
        Whence::WorkedOut(working) => Some(working.clone()),
        _ => None,
    }
}

fn resolution(range: &Range) -> Option<String> {
    let width = range.resolution?;
    Some(match range.unit {
        Some(unit) => format_exact(width, unit),
        None => width.to_string(),
    })
}

/// The values of a band in words: "more than 2,999 lb and at most 7,000 lb".
#[must_use]
pub fn band_words(range: &Range, band: &Band) -> String {
    if !range.subject.def().kind.is_ordered() {
        return show_value(&band.value, None, range.subject.def());
    }
    let year = matches!(range.subject.def().kind, Kind::Year);
    match range.ends(band) {
        (None, None) => "any value".to_owned(),
        (None, Some((to, true))) if year => format!("{to} or earlier"),
        (None, Some((to, true))) => format!("at most {to}"),
        (None, Some((to, false))) => format!("less than {to}"),
        (Some((from, true)), None) if year => format!("{from} or later"),
        (Some((from, true)), None) => format!("at least {from}"),
        (Some((from, false)), None) => format!("more than {from}"),
        (Some((from, true)), Some((to, true))) if from == to => format!("{from} and nothing else"),
        (Some((from, true)), Some((to, true))) => format!("from {from} to {to}"),
        (Some((from, a)), Some((to, b))) => format!(
            "{} {from} and {} {to}",
            if a { "at least" } else { "more than" },
            if b { "at most" } else { "less than" }
        ),
    }
}

/// The range for people. `facts` are the rig's with all worked out.
#[must_use]
pub fn range_text(
    range: &Range,
    rules: &Ruleset<'_>,
    facts: &FactSet,
    on: CheckDay,
    detail: Detail,
    style: Style,
) -> String {
    let most = detail.most(FEW);
    let mut page = Page::new(style);
    let def = range.subject.def();
    let title = format!("{}: {}", range.subject.name, def.label);
    page.para(0, Tone::Strong, &title);
    if let Some(now) = now(range, facts) {
        page.item(0, "Now      ", &now);
    }
    let regions: Vec<&str> = rules
        .bindings()
        .iter()
        .map(|b| region_name(&b.region))
        .collect();
    page.item(0, "Checked  ", &regions.join(", "));
    let day = format!("{} ({})", format_day(on.day), on.origin());
    page.item(0, "Day      ", &day);
    if !range.anyway.is_empty() {
        page.heading(Tone::Broken, "BROKEN, WHATEVER THIS IS");
        cited::set(
            &mut page,
            2,
            &cited(rules, range.anyway.iter().copied()),
            most,
        );
    }
    let heading = match range.anyway.is_empty() {
        true => "NO RULE IS BROKEN",
        false => "NO OTHER RULE IS BROKEN",
    };
    let of = |standing| range.apart.iter().filter(move |b| b.standing == standing);
    page.heading(Tone::Met, heading);
    if of(Standing::Allowed).next().is_none() {
        let none = match of(Standing::Unknown).next() {
            Some(_) => "with no value for certain; as far as is known with those below",
            None => "with no value",
        };
        page.para(2, Tone::Plain, none);
    }
    for band in of(Standing::Allowed) {
        page.para(2, Tone::Strong, &band_words(range, band));
        stops(&mut page, band, rules, most);
    }
    if of(Standing::Unknown).next().is_some() {
        page.heading(Tone::Unknown, "UNKNOWN, FOR WANT OF FACTS");
    }
    for band in of(Standing::Unknown) {
        page.para(2, Tone::Strong, &band_words(range, band));
        let open = cited(rules, band.rules.iter().copied());
        cited::set(&mut page, 4, &open, most);
        stops(&mut page, band, rules, most.min(2));
    }
    if !def.kind.is_ordered() && of(Standing::Broken).next().is_some() {
        page.heading(Tone::Broken, "BREAKS A RULE");
        for band in of(Standing::Broken) {
            page.para(2, Tone::Strong, &band_words(range, band));
            cited::set(
                &mut page,
                4,
                &cited(rules, band.rules.iter().copied()),
                most.min(2),
            );
        }
    }
    if !range.open.is_empty() {
        page.heading(Tone::Unknown, "OPEN FOR WANT OF FACTS, WHATEVER THIS IS");
        cited::set(
            &mut page,
            2,
            &cited(rules, range.open.iter().copied()),
            most.min(2),
        );
    }
    if !range.conflict.is_empty() && range.anyway.is_empty() {
        let head = "NOTHING WORKS: no value keeps all of these";
        page.heading(Tone::Broken, head);
        cited::set(
            &mut page,
            2,
            &cited(rules, range.conflict.iter().copied()),
            usize::MAX,
        );
    }
    page.gap();
    if let Some(width) = resolution(range) {
        let told = format!(
            "An end that could not be solved exactly lies within {width} of the figure told; both sides of it were checked."
        );
        page.para(0, Tone::Plain, &told);
    }
    page.para(
        0,
        Tone::Aside,
        "All else is taken as the rig file states it.",
    );
    if let Some(working) = working(range, facts) {
        let told = format!(
            "In this rig it is worked out ({working}); a file that states another figure beside these contradicts itself. To get there, change what it is worked out from, and ask for the range of that."
        );
        page.para(0, Tone::Aside, &told);
    }
    page.para(0, Tone::Strong, NOTICE);
    page.finish()
}

/// The rules that are broken just beyond either end of a band.
fn stops(page: &mut Page, band: &Band, rules: &Ruleset<'_>, most: usize) {
    for (word, side) in [("below it:", &band.below), ("above it:", &band.above)] {
        if !side.is_empty() {
            page.para(4, Tone::Plain, word);
            cited::set(page, 6, &cited(rules, side.iter().copied()), most);
        }
    }
}
