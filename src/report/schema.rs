//! The report's JSON Schema, made from the fixed words.

use super::REPORT_FORMAT;
use super::margin_told::margin_schema;
use crate::engine::{Outcome, PRACTICE};
use crate::pack::{REGIONS, Reading, Topic};
use serde_json::{Value, json};

/// The JSON Schema (2020-12) of a report.
#[must_use]
pub fn report_schema() -> Value {
    let text = json!({"type": "string"});
    let object = json!({
        "type": "object",
        "required": ["report", "rig", "on", "regions", "notice", "packs", "findings", "worked_out", "not_covered", "authorities", "margins"],
        "additionalProperties": false,
        "properties": {
            "report": {"const": REPORT_FORMAT, "description": "The version of the report's format."},
            "rig": {"type": "string", "description": "The rig's name; empty when it has none."},
            "on": {"$ref": "#/$defs/day", "description": "The day the check is made for."},
            "regions": {"type": "array", "items": {"$ref": "#/$defs/region"}, "description": "The regions checked, in the order asked for."},
            "notice": {"type": "string", "minLength": 1, "description": "What the report is not, and the cautions that go with it."},
            "packs": {"type": "array", "items": {"$ref": "#/$defs/pack"}, "description": "The packs used."},
            "findings": {"type": "array", "items": {"$ref": "#/$defs/finding"}, "description": "What each rule says, region by region."},
            "worked_out": {"type": "object", "additionalProperties": {"$ref": "#/$defs/worked_out"}, "description": "Facts that were worked out, by dotted name."},
            "not_covered": {"type": "array", "items": {"$ref": "#/$defs/not_covered"}, "description": "Topics on which no rule of the region is recorded."},
            "authorities": {"type": "array", "items": {"$ref": "#/$defs/authority"}, "description": "For each region, whom to verify with."},
            "margins": {"type": "array", "items": {"$ref": "#/$defs/margin"}, "description": "How far the rig is from the values at which rules begin, or cease, to be broken, the nearest first."},
        },
    });
    let mut defs = definitions();
    let own = json!({
            "finding": {
                "type": "object", "additionalProperties": false,
                "required": ["region", "rule", "topic", "outcome", "says", "because", "missing", "sources", "looks", "note"],
                "properties": {
                    "region": {"$ref": "#/$defs/place"},
                    "rule": {"type": "string", "description": "The rule's full id, its pack first."},
                    "topic": {"$ref": "#/$defs/topic"},
                    "outcome": {"enum": Outcome::ALL.map(Outcome::name)},
                    "says": {"type": "string", "description": "The rule in plain words."},
                    "because": {"type": "array", "items": text, "description": "The conditions that decided, with the values on both sides."},
                    "missing": {"type": "array", "items": text, "description": "The facts that would settle it, the most telling first."},
                    "sources": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/source"}},
                    "looks": {"type": "array", "items": {"$ref": "#/$defs/look"}, "description": "What somebody has to look at."},
                    "note": {"type": ["string", "null"], "description": "What the sources leave open."},
                },
            },
            "look": {
                "type": "object", "additionalProperties": false, "required": ["key", "text"],
                "properties": {"key": {"type": "string", "description": "The key by which a rig's `seen` answers it."}, "text": text},
            },
            "worked_out": {
                "type": "object", "additionalProperties": false, "required": ["value", "working"],
                "properties": {"value": text, "working": text},
            },
            "not_covered": {
                "type": "object", "additionalProperties": false, "required": ["region", "topic"],
                "properties": {"region": {"$ref": "#/$defs/region"}, "topic": {"$ref": "#/$defs/topic"}},
            },
            "margin": margin_schema(),
            "authority": {
                "type": "object", "additionalProperties": false, "required": ["region", "name", "web"],
                "properties": {"region": {"$ref": "#/$defs/region"}, "name": text, "web": {"type": ["string", "null"]}},
            },
    });
    if let (Some(defs), Value::Object(own)) = (defs.as_object_mut(), own) {
        defs.extend(own);
    }
    let what = "What the rules of the places on a route say of one rig on one day. It informs; it gives no advice on law and certifies nothing.";
    schema_of("A report on a towing rig", what, object, defs)
}

/// A schema of this object, with its title, what it is of, and its definitions.
pub(super) fn schema_of(title: &str, what: &str, object: Value, defs: Value) -> Value {
    let mut out = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "description": what,
    });
    if let (Some(out), Value::Object(object)) = (out.as_object_mut(), object) {
        out.extend(object);
        out.insert("$defs".to_owned(), defs);
    }
    out
}

/// What several documents hold: days, regions, topics, packs and sources.
pub(super) fn definitions() -> Value {
    let codes: Vec<&str> = REGIONS.iter().map(|r| r.code).collect();
    let text = json!({"type": "string"});
    json!({
            "day": {"type": "string", "pattern": "^-?[0-9]{4,6}-[0-9]{2}-[0-9]{2}$"},
            "region": {"enum": codes},
            "topic": {"enum": Topic::ALL.map(Topic::name)},
            "pack": {
                "type": "object", "additionalProperties": false, "required": ["pack", "version", "sha256"],
                "properties": {"pack": text, "version": text, "sha256": {"type": "string", "pattern": "^[0-9a-f]{64}$"}},
            },
            "source": {
                "type": "object", "additionalProperties": false, "required": ["cite", "at", "read", "on"],
                "properties": {
                    "cite": text,
                    "at": {"type": ["string", "null"], "description": "The address at which it was read."},
                    "read": {"enum": Reading::ALL.map(Reading::name), "description": "How it was read; none: common practice, no source."},
                    "on": {"anyOf": [{"$ref": "#/$defs/day"}, {"type": "null"}], "description": "The day it was read."},
                },
            },
            "place": {"anyOf": [{"$ref": "#/$defs/region"}, {"const": PRACTICE, "description": "Habits of the trade, which bind nowhere."}]},
    })
}
