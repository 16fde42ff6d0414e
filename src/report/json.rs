//! The report for programs.

use super::margin_told::margins_json;
use super::notice::{CAUTIONS, NOTICE};
use super::{REPORT_FORMAT, Report};
use crate::engine::Finding;
use crate::facts::format_day;
use crate::pack::Source;
use crate::source::clean::is_unsafe;
use serde_json::{Map, Value, json};
use std::fmt::Write as _;

/// The report as one JSON document, as the report's schema describes it. The keys come in a fixed
/// order.
#[must_use]
pub fn report_json(report: &Report) -> Value {
    let packs = report
        .packs
        .iter()
        .map(|p| json!({"pack": p.id, "version": p.version, "sha256": p.sha256}));
    let worked_out = report.worked_out.iter().map(|w| {
        (
            w.name.clone(),
            json!({"value": w.value, "working": w.working}),
        )
    });
    let not_covered = report
        .not_covered
        .iter()
        .map(|(region, topic)| json!({"region": region, "topic": topic.name()}));
    let authorities = report
        .authorities
        .iter()
        .map(|(region, a)| json!({"region": region, "name": a.name, "web": a.web}));
    json!({
        "report": REPORT_FORMAT,
        "rig": report.rig,
        "on": format_day(report.on.day),
        "regions": report.regions,
        "notice": notice(),
        "packs": packs.collect::<Vec<_>>(),
        "findings": report.findings.iter().map(finding).collect::<Vec<_>>(),
        "worked_out": worked_out.collect::<Map<_, _>>(),
        "not_covered": not_covered.collect::<Vec<_>>(),
        "authorities": authorities.collect::<Vec<_>>(),
        "margins": margins_json(&report.margins),
    })
}

/// The notice with the cautions.
pub(super) fn notice() -> String {
    format!("{NOTICE} {}", CAUTIONS.join(" "))
}

pub(super) fn finding(f: &Finding) -> Value {
    json!({
        "region": f.region,
        "rule": f.rule,
        "topic": f.topic.name(),
        "outcome": f.outcome.name(),
        "says": f.says,
        "because": f.because,
        "missing": f.missing,
        "sources": f.sources.iter().map(source).collect::<Vec<_>>(),
        "looks": f.looks.iter().map(|l| json!({"key": l.key, "text": l.text})).collect::<Vec<_>>(),
        "note": if f.notes.is_empty() { Value::Null } else { Value::from(f.notes.join(" ")) },
    })
}

pub(super) fn source(s: &Source) -> Value {
    json!({"cite": s.cite, "at": s.at, "read": s.read.name(), "on": s.on.map(format_day)})
}

/// A JSON document as text, indented, ended by a line feed. Characters that could steer a terminal
/// are written as escapes, which a reader of JSON undoes.
#[must_use]
pub fn print_json(value: &Value) -> String {
    let text = serde_json::to_string_pretty(value).unwrap_or_default();
    let mut out = String::with_capacity(text.len() + 1);
    for c in text.chars() {
        if c != '\n' && is_unsafe(c) {
            let mut units = [0u16; 2];
            for unit in c.encode_utf16(&mut units) {
                // Writing to a String cannot fail.
                let _ = write!(out, "\\u{unit:04x}");
            }
        } else {
            out.push(c);
        }
    }
    out.push('\n');
    out
}
