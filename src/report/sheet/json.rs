//! The sheet for programs.

use super::{Entry, Ladder, RegionSheet, SHEET_FORMAT, Sheet, TopicSheet};
use crate::engine::survey::{Asks, Stretch};
use crate::facts::{catalogue, format_day};
use crate::quantity::format_exact;
use crate::report::json::source;
use crate::report::notice::{CAUTIONS, NOTICE};
use serde_json::{Map, Value, json};

/// The sheet as one JSON document: region by region its rules, and by topic the rules that bind at
/// any weight and those of each band.
#[must_use]
pub fn sheet_json(sheet: &Sheet) -> Value {
    let kind = sheet
        .kind
        .iter()
        .map(|(fact, value)| (catalogue().def(*fact).name.to_owned(), json!(value)));
    let packs = sheet
        .packs
        .iter()
        .map(|p| json!({"pack": p.id, "version": p.version, "sha256": p.sha256}));
    json!({
        "sheet": SHEET_FORMAT,
        "on": format_day(sheet.on.day),
        "kind": kind.collect::<Map<_, _>>(),
        "notice": format!("{NOTICE} {}", CAUTIONS.join(" ")),
        "packs": packs.collect::<Vec<_>>(),
        "regions": sheet.regions.iter().map(region).collect::<Vec<_>>(),
    })
}

fn region(r: &RegionSheet) -> Value {
    json!({
        "region": r.region,
        "authority": r.authority.as_ref().map(|a| json!({"name": a.name, "web": a.web})),
        "rules": r.entries.iter().enumerate().map(|(n, e)| entry(n, e, r)).collect::<Vec<_>>(),
        "topics": r.topics.iter().map(topic).collect::<Vec<_>>(),
        "not_covered": r.not_covered.iter().map(|t| t.name()).collect::<Vec<_>>(),
        "left_out": r.left_out,
    })
}

fn entry(n: usize, e: &Entry, r: &RegionSheet) -> Value {
    let sources = e.sources.iter().filter_map(|s| r.sources.get(*s));
    let facts = e.depends_on.iter().map(|f| catalogue().def(*f).name);
    json!({
        "number": n + 1,
        "rules": e.rules,
        "says": e.says,
        "asks": asks_name(e.asks),
        "depends_on": facts.collect::<Vec<_>>(),
        "when": e.when,
        "looks": e.looks,
        "notes": e.notes,
        "doubt": e.doubt,
        "sources": sources.map(source).collect::<Vec<_>>(),
    })
}

fn topic(t: &TopicSheet) -> Value {
    let numbers: Vec<usize> = t.always.iter().map(|at| at + 1).collect();
    json!({
        "topic": t.topic.name(),
        "at_any_weight": numbers,
        "by_weight": t.ladders.iter().map(ladder).collect::<Vec<_>>(),
    })
}

fn ladder(l: &Ladder) -> Value {
    let band = |b: &super::LadderBand| {
        let asked = b
            .entries
            .iter()
            .map(|(at, asks)| json!({"number": at + 1, "asks": asks_name(*asks)}));
        let mut out = ends(&b.at);
        out.insert("rules".to_owned(), asked.collect());
        Value::Object(out)
    };
    json!({
        "fact": catalogue().def(l.axis).name,
        "bands": l.bands.iter().map(band).collect::<Vec<_>>(),
    })
}

/// The ends of a band; an open end is null.
pub(in crate::report) fn ends(at: &Stretch) -> Map<String, Value> {
    let end = |e: Option<(crate::quantity::Exact, crate::quantity::Unit)>| {
        e.map_or(Value::Null, |(x, unit)| json!(format_exact(x, unit)))
    };
    let mut out = Map::new();
    out.insert("from".to_owned(), end(at.from));
    out.insert("from_included".to_owned(), json!(at.from_included));
    out.insert("to".to_owned(), end(at.to));
    out.insert("to_included".to_owned(), json!(at.to_included));
    out
}

/// The word for what is asked.
fn asks_name(asks: Asks) -> &'static str {
    match asks {
        Asks::Nothing => "nothing",
        Asks::Perhaps => "perhaps",
        Asks::Surely => "surely",
        Asks::Barred => "not-allowed",
    }
}
