//! The rig file's JSON Schema, made from the catalogue.

use super::RIG_FORMAT;
use crate::facts::{FactDef, Kind, Origin, Scope, catalogue};
use crate::quantity::Dimension;
use crate::source::Schema;
use serde_json::{Map, Value, json};
use std::sync::OnceLock;

/// The JSON Schema (2020-12) of a rig file.
#[must_use]
pub fn rig_schema() -> Value {
    let mut root = group(Scope::Rig, "");
    root.insert(
        "rig".to_owned(),
        json!({"enum": [RIG_FORMAT, RIG_FORMAT.to_string()], "description": "The version of the format of the file."}),
    );
    root.insert(
        "name".to_owned(),
        json!({"type": ["string", "number"], "description": "What to call the rig in reports."}),
    );
    root.insert("seen".to_owned(), json!({
        "type": "object",
        "description": "What somebody has looked at: the id of a rule, or of one of its looks, with yes (as it should be) or no.",
        "additionalProperties": yes_no(),
    }));
    if let Some(Value::Object(trip)) = root.get_mut("trip").and_then(|t| t.get_mut("properties")) {
        trip.insert(
            "regions".to_owned(),
            json!({
                "description": "The regions of the trip, by ISO 3166-2 code or by name.",
                "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}],
            }),
        );
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A towing rig",
        "description": "A towing vehicle, its trailer, the load and the trip. Whatever is left out is unknown, never assumed.",
        "type": "object",
        "required": ["rig"],
        "additionalProperties": false,
        "properties": root,
    })
}

/// The schema, compiled once.
#[must_use]
pub fn rig_validator() -> &'static Schema {
    static ONE: OnceLock<Schema> = OnceLock::new();
    ONE.get_or_init(|| {
        Schema::new(rig_schema()).expect("the rig schema is a valid schema; a test holds it")
    })
}

/// The properties of everything of a scope whose name begins with a prefix.
fn group(scope: Scope, prefix: &str) -> Map<String, Value> {
    let mut out = Map::new();
    for (_, def) in catalogue().all() {
        if def.scope != scope || def.origin == Origin::WorkedOut {
            continue;
        }
        let Some(rest) = def.name.strip_prefix(prefix) else {
            continue;
        };
        match rest.split_once('.') {
            None => {
                out.insert(rest.to_owned(), value_schema(def));
            }
            Some((head, _)) if !out.contains_key(head) => {
                let inner = group(scope, &format!("{prefix}{head}."));
                out.insert(head.to_owned(), object(inner));
            }
            Some(_) => {}
        }
    }
    add_lists(scope, prefix, &mut out);
    out
}

/// Adds the lists of items that belong to a scope.
fn add_lists(scope: Scope, prefix: &str, out: &mut Map<String, Value>) {
    for child in Scope::ALL.into_iter().filter(|s| s.parent() == Some(scope)) {
        let (Some(key), Some(own)) = (child.list_key(), child.prefix()) else {
            continue;
        };
        let at = if scope == Scope::Rig {
            key.strip_prefix(prefix)
        } else {
            Some(key)
        };
        let Some(at) = at.filter(|a| !a.contains('.')) else {
            continue;
        };
        let items = object(group(child, &format!("{own}.")));
        out.insert(at.to_owned(), json!({"type": "array", "description": format!("One entry for each {}.", child.noun()), "items": items}));
    }
}

fn object(properties: Map<String, Value>) -> Value {
    json!({"type": "object", "additionalProperties": false, "properties": properties})
}

fn yes_no() -> Value {
    json!({"enum": [true, false, "yes", "no"]})
}

/// The schema of one fact's value.
pub fn value_schema(def: &FactDef) -> Value {
    let names: Vec<&str> = def.kind.choices().iter().map(|c| c.name).collect();
    let mut schema = match def.kind {
        Kind::Measure(Dimension::Count) => {
            json!({"type": ["integer", "string"], "examples": [2, "2 to 4"]})
        }
        Kind::Measure(d) => json!({"type": "string", "examples": [d.example()]}),
        Kind::Year => json!({"type": ["integer", "string"], "examples": [2019]}),
        Kind::Date => json!({"type": ["string", "integer"], "examples": ["2026-12-01"]}),
        Kind::YesNo => yes_no(),
        Kind::Choice(_) => {
            json!({"anyOf": [{"enum": names}, {"type": "array", "items": {"enum": names}, "minItems": 1}]})
        }
        Kind::Set(_) => {
            let mut or_none = names.clone();
            or_none.push("none");
            json!({"anyOf": [{"enum": or_none}, {"type": "array", "items": {"enum": names}}]})
        }
        Kind::Text => json!({"type": ["string", "integer", "number"]}),
    };
    if let Some(o) = schema.as_object_mut() {
        o.insert(
            "description".to_owned(),
            json!(format!("{} ({}).", def.meaning, def.kind.name())),
        );
    }
    schema
}
