//! Complaints as SARIF 2.1.0 (OASIS), for tools that annotate a change at the line.

use super::CODES as REPORT_CODES;
use crate::source::diagnostic::Codes;
use crate::source::{Complaint, Complaints, Severity, SourceText, Span, clean};
use serde_json::{Value, json};

/// The tables whose codes the log describes.
const TABLES: [Codes; 5] = [
    crate::source::CODES,
    crate::rig::CODES,
    crate::pack::CODES,
    crate::proof::CODES,
    REPORT_CODES,
];

/// A SARIF log of one run with these complaints.
#[must_use]
pub fn sarif(complaints: &Complaints) -> Value {
    let used = |code: &str| complaints.iter().any(|c| c.code == code);
    let described = TABLES
        .iter()
        .flat_map(|t| t.iter())
        .filter(|(code, _)| used(code));
    let rules: Vec<Value> = described
        .map(|(code, meaning)| json!({"id": code, "shortDescription": {"text": meaning}}))
        .collect();
    let results: Vec<Value> = complaints.iter().map(result).collect();
    json!({
        "$schema": "https://json.schemastore.org/sarif-2.1.0.json",
        "version": "2.1.0",
        "runs": [{
            "tool": {"driver": {
                "name": "pintle",
                "semanticVersion": env!("CARGO_PKG_VERSION"),
                "rules": rules,
            }},
            "columnKind": "unicodeCodePoints",
            "results": results,
        }],
    })
}

fn result(c: &Complaint) -> Value {
    let level = match c.severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Advice => "note",
    };
    let text = match &c.help {
        Some(help) => format!("{}\n{}", clean(&c.message), clean(help)),
        None => clean(&c.message).into_owned(),
    };
    let mut out = json!({"ruleId": c.code, "level": level, "message": {"text": text}});
    let Some(source) = &c.source else {
        return out;
    };
    let mut places = c
        .labels
        .iter()
        .map(|l| (location(source, l.span), clean(&l.text).into_owned()));
    if let Some((place, _)) = places.next() {
        out["locations"] = json!([{"physicalLocation": place}]);
    }
    let related: Vec<Value> = places
        .enumerate()
        .map(|(id, (place, text))| json!({"id": id, "physicalLocation": place, "message": {"text": text}}))
        .collect();
    if !related.is_empty() {
        out["relatedLocations"] = Value::Array(related);
    }
    out
}

fn location(source: &SourceText, span: Span) -> Value {
    let (start_line, start_column) = source.line_col(span.start);
    let (end_line, end_column) = source.line_col(span.end.max(span.start));
    json!({
        "artifactLocation": {"uri": uri(source.name())},
        "region": {
            "startLine": start_line, "startColumn": start_column,
            "endLine": end_line, "endColumn": end_column,
        },
    })
}

/// A path as a URI reference: forward slashes, and what a URI cannot hold written as `%XX`.
fn uri(path: &str) -> String {
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~/".contains(&b);
    path.replace('\\', "/")
        .bytes()
        .map(|b| {
            if plain(b) {
                char::from(b).to_string()
            } else {
                format!("%{b:02X}")
            }
        })
        .collect()
}
