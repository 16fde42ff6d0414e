//! The pack's JSON Schema, made from the catalogue and the fixed words.

use super::read::{COMMON_PRACTICE, PACK_FORMAT};
use super::regions::REGIONS;
use super::words::{Comparison, Reading, Topic};
use crate::facts::{Kind, Scope, catalogue};
use crate::source::Schema;
use serde_json::{Map, Value, json};
use std::sync::OnceLock;

/// The JSON Schema (2020-12) of a pack.
#[must_use]
pub fn pack_schema() -> Value {
    let text = json!({"type": "string"});
    let regions: Vec<&str> = REGIONS.iter().map(|r| r.code).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A pack of towing rules",
        "type": "object",
        "required": ["pack", "format", "version", "title"],
        "additionalProperties": false,
        "properties": {
            "pack": {"type": "string", "description": "The pack's id, which is its place: us-ne is rules/us/ne.yaml."},
            "format": {"const": PACK_FORMAT, "description": "The version of the format of the file."},
            "version": {"type": "string", "description": "The pack's own version."},
            "standing": {"enum": ["law", "standard", "practice"], "description": "Law of a region (when left out), a standard that binds only where adopted, or habits of the trade."},
            "region": {"enum": regions, "description": "The region whose law it is, by ISO 3166-2 code."},
            "within": {"type": "string", "description": "The pack of the region that contains this one."},
            "title": {"type": "string", "description": "A name for people."},
            "authority": {
                "type": "object", "additionalProperties": false, "required": ["name"],
                "properties": {"name": text, "web": text},
                "description": "Whom to verify with.",
            },
            "definitions": conditions_by_name("Terms of the pack, each a named condition."),
            "adopts": {"type": "array", "items": {"$ref": "#/$defs/adoption"}, "description": "Rules of other packs that bind here by reference."},
            "rules": {"type": "array", "items": {"$ref": "#/$defs/rule"}},
            "notes": {"type": "array", "items": {
                "type": "object", "additionalProperties": false, "required": ["topic", "text"],
                "properties": {"topic": {"$ref": "#/$defs/topic"}, "text": text, "sources": {"$ref": "#/$defs/sources"}},
            }, "description": "What the sources say that is no duty of a rig, or leave unsettled."},
            "left_out": {"type": "array", "items": {
                "type": "object", "additionalProperties": false, "required": ["provision", "reason"],
                "properties": {"provision": text, "reason": text},
            }, "description": "Provisions that were looked at and left out, with the reason."},
        },
        "$defs": definitions(),
    })
}

/// The schema, compiled once.
#[must_use]
pub fn pack_validator() -> &'static Schema {
    static ONE: OnceLock<Schema> = OnceLock::new();
    ONE.get_or_init(|| {
        Schema::new(pack_schema()).expect("the pack schema is a valid schema; a test holds it")
    })
}

fn conditions_by_name(description: &str) -> Value {
    json!({"type": "object", "additionalProperties": {"$ref": "#/$defs/condition"}, "description": description})
}

fn definitions() -> Value {
    let text = json!({"type": "string"});
    let topics = Topic::ALL.map(Topic::name);
    let grades: Vec<&str> = Reading::ALL
        .into_iter()
        .filter(|g| *g != Reading::None)
        .map(Reading::name)
        .collect();
    let each: Vec<&str> = Scope::ALL.iter().filter_map(|s| s.each_name()).collect();
    let day = json!({"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"});
    let names =
        json!({"anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]});
    json!({
        "topic": {"enum": topics},
        "period": {
            "type": "object", "additionalProperties": false,
            "properties": {"from": day, "until": day},
            "description": "First and last day in force.",
        },
        "source": {"anyOf": [
            {"const": COMMON_PRACTICE},
            {
                "type": "object", "additionalProperties": false, "required": ["cite", "read", "on"],
                "properties": {
                    "cite": text, "at": text, "read": {"enum": grades}, "on": day,
                    "as_of": {"type": ["string", "integer"]},
                },
            },
        ]},
        "sources": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/source"}},
        "case": {
            "type": "object", "additionalProperties": false, "required": ["given", "expect"],
            "properties": {
                "given": {"type": "object", "description": "The facts, by dotted name or nested as in a rig file."},
                "expect": {"enum": ["met", "not-met", "does-not-apply", "unknown", "confirm"]},
                "on": day,
                "seen": {"anyOf": [{"enum": [true, false, "yes", "no"]}, {"type": "object", "additionalProperties": {"enum": [true, false, "yes", "no"]}}]},
                "rule": {"type": "string", "description": "In an adoption: the adopted rule's id."},
                "note": text,
            },
        },
        "cases": {"type": "array", "items": {"$ref": "#/$defs/case"}},
        "rule": {
            "type": "object", "additionalProperties": false,
            "required": ["id", "topic", "says", "must", "sources"],
            "properties": {
                "id": {"type": "string", "pattern": "^[a-z0-9]+(-[a-z0-9]+)*$"},
                "topic": {"$ref": "#/$defs/topic"},
                "says": {"type": "string", "description": "The rule in plain words of our own."},
                "note": {"type": "string", "description": "What the sources leave open; shown with the finding."},
                "doubt": {"type": "string", "description": "Why a breach of this rule is only for somebody to confirm."},
                "each": {"enum": each, "description": "Run the rule for each of these."},
                "when": {"$ref": "#/$defs/condition"},
                "unless": {"$ref": "#/$defs/condition"},
                "must": {"$ref": "#/$defs/condition"},
                "sources": {"$ref": "#/$defs/sources"},
                "in_force": {"$ref": "#/$defs/period"},
                "cases": {"$ref": "#/$defs/cases"},
            },
        },
        "adoption": {
            "type": "object", "additionalProperties": false, "required": ["id", "pack", "sources"],
            "properties": {
                "id": text, "pack": text, "rules": names,
                "topics": {"anyOf": [{"$ref": "#/$defs/topic"}, {"type": "array", "items": {"$ref": "#/$defs/topic"}}]},
                "except": names,
                "when": {"$ref": "#/$defs/condition"}, "unless": {"$ref": "#/$defs/condition"},
                "redefine": conditions_by_name("Terms of the adopted pack that mean something else here."),
                "note": text, "sources": {"$ref": "#/$defs/sources"},
                "in_force": {"$ref": "#/$defs/period"}, "cases": {"$ref": "#/$defs/cases"},
            },
        },
        "amount": {"anyOf": [
            {"type": ["string", "integer"]},
            {"type": "object", "additionalProperties": false, "minProperties": 1, "properties": {
                "sum": {"$ref": "#/$defs/amounts"}, "greatest": {"$ref": "#/$defs/amounts"},
                "least": {"$ref": "#/$defs/amounts"}, "difference": {"$ref": "#/$defs/amounts"},
                "times": {"type": ["string", "number"]}, "of": {"$ref": "#/$defs/amount"},
                "steps": {"$ref": "#/$defs/amount"}, "first": {"type": "integer"},
                "up_to": {"$ref": "#/$defs/amount"}, "then": {"type": "integer"},
                "each": {"$ref": "#/$defs/amount"},
            }},
        ]},
        "amounts": {"type": "array", "minItems": 2, "items": {"$ref": "#/$defs/amount"}},
        "numbers": comparisons(false),
        "days": comparisons(true),
        "condition": condition(&names),
    })
}

fn comparisons(days: bool) -> Value {
    use Comparison::{AtLeast, AtMost, Equals, LessThan, MoreThan};
    let mut properties = Map::new();
    for c in [AtLeast, MoreThan, AtMost, LessThan, Equals] {
        properties.insert(c.word(days).to_owned(), json!({"$ref": "#/$defs/amount"}));
    }
    json!({"anyOf": [
        {"type": ["string", "integer"]},
        {"type": "object", "additionalProperties": false, "minProperties": 1, "properties": properties},
    ]})
}

/// A condition: the joining words, and every fact with the comparisons that suit its kind.
fn condition(names: &Value) -> Value {
    let mut p = Map::new();
    let list = json!({"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/condition"}});
    p.insert("all".to_owned(), list.clone());
    p.insert("any".to_owned(), list);
    p.insert("not".to_owned(), json!({"$ref": "#/$defs/condition"}));
    p.insert("is".to_owned(), names.clone());
    p.insert("is_not".to_owned(), names.clone());
    p.insert("look".to_owned(), json!({"anyOf": [
        names,
        {"type": "object", "additionalProperties": false, "required": ["text"], "properties": {"text": {"type": "string"}, "key": {"type": "string"}}},
    ]}));
    p.insert("amount".to_owned(), json!({"$ref": "#/$defs/amount"}));
    for word in ["at_least", "more_than", "at_most", "less_than", "equals"] {
        p.insert(word.to_owned(), json!({"$ref": "#/$defs/amount"}));
    }
    for (_, def) in catalogue().all() {
        let words: Vec<&str> = def.kind.choices().iter().map(|c| c.name).collect();
        let one_or_more = json!({"anyOf": [{"enum": words}, {"type": "array", "minItems": 1, "items": {"enum": words}}]});
        let mut schema = match def.kind {
            Kind::Text => continue,
            Kind::Date => json!({"$ref": "#/$defs/days"}),
            Kind::Measure(_) | Kind::Year => json!({"$ref": "#/$defs/numbers"}),
            Kind::YesNo => {
                json!({"anyOf": [{"enum": [true, false, "yes", "no"]}, {"type": "object", "additionalProperties": false, "properties": {"equals": {"enum": [true, false, "yes", "no"]}}}]})
            }
            Kind::Choice(_) => members(&one_or_more, &["equals", "one_of", "none_of"]),
            Kind::Set(_) => members(&one_or_more, &["includes", "one_of", "none_of"]),
        };
        if let Some(o) = schema.as_object_mut() {
            o.insert(
                "description".to_owned(),
                json!(format!("{} ({}).", def.meaning, def.kind.name())),
            );
        }
        p.insert(def.name.to_owned(), schema);
    }
    json!({"type": "object", "additionalProperties": false, "minProperties": 1, "properties": p})
}

fn members(values: &Value, words: &[&str]) -> Value {
    let mut p = Map::new();
    for word in words {
        p.insert((*word).to_owned(), values.clone());
    }
    let mut any = values
        .get("anyOf")
        .and_then(Value::as_array)
        .cloned()
        .unwrap_or_default();
    any.push(json!({"type": "object", "additionalProperties": false, "minProperties": 1, "properties": p}));
    json!({"anyOf": any})
}
