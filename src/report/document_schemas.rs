//! The JSON Schemas (2020-12) of the documents other than the report: ranges, requirements of a route,
//! sheets and comparisons.

use super::schema::{definitions, schema_of};
use super::{COMPARISON_FORMAT, RANGE_FORMAT, SHEET_FORMAT, STRICTEST_FORMAT};
use serde_json::{Map, Value, json};

/// The schema of a range, as `pintle range --format json` prints it.
#[must_use]
pub fn range_schema() -> Value {
    let bands = |of: &str, what: &str| json!({"type": "array", "items": {"$ref": format!("#/$defs/{of}")}, "description": what});
    let properties = json!({
        "range": {"const": RANGE_FORMAT, "description": "The version of the format."},
        "fact": {"type": "string", "description": "The dotted name of the fact, with the item's name in it."},
        "allowed": bands("allowed", "The values for which no rule is broken and none that the fact bears on is open."),
        "unknown": bands("unknown", "The values for which no rule is known to be broken, but a rule that the fact bears on is open for want of other facts."),
        "conflict": ids("Where no value is allowed or unknown: a smallest set of rules of which each value breaks one."),
        "broken_anyway": ids("The rules that are broken whatever the fact is."),
        "open_anyway": ids("The rules that read the fact, or what is worked out from it, and are open whatever it is."),
        "allowed_apart_from_these": bands("allowed", "As `allowed`, the rules left out that are broken whatever the fact is."),
        "unknown_apart_from_these": bands("unknown", "As `unknown`, the rules left out that are broken whatever the fact is."),
        "now": {"type": ["string", "null"], "description": "What the fact is in the rig; null where it is not known."},
        "worked_out": {"type": ["string", "null"], "description": "How the rig's figure is worked out from others; a file that states it beside them has to agree with them. Null where it is stated or not known."},
        "resolution": {"type": ["string", "null"], "description": "How far off an end may lie that could not be placed exactly; both sides of it were looked at. Null: every end is exact."},
        "rules": {"$ref": "#/$defs/rules"},
        "notice": {"$ref": "#/$defs/notice"},
    });
    let band = |more: Value| {
        let mut properties = ends();
        properties.extend(more.as_object().cloned().unwrap_or_default());
        closed(Value::Object(properties))
    };
    let defs = json!({
        "allowed": band(json!({
            "below": ids("The rules that are broken just below."),
            "above": ids("The rules that are broken just above."),
        })),
        "unknown": band(json!({
            "below": ids("The rules that are broken just below."),
            "above": ids("The rules that are broken just above."),
            "rules": ids("The rules that are open."),
        })),
    });
    let what = "The values of one fact of a rig for which no rule of a route is broken, all else as the rig states it.";
    document("The range of a fact", what, properties, defs)
}

/// The schema of the requirements of a route, as `pintle strictest --format json` prints them.
#[must_use]
pub fn strictest_schema() -> Value {
    let bound = |what: &str| {
        let value = json!({"type": "string", "description": what});
        closed(json!({"value": value, "rules": ids("The rules that ask for it.")}))
    };
    let mut requirement = closed(json!({
        "fact": {"type": "string", "description": "The dotted name of the fact."},
        "now": {"type": ["string", "null"], "description": "What the fact is in the rig; null where it is not known."},
        "impossible": {"type": "boolean", "description": "Whether no value satisfies all."},
    }));
    if let Some(properties) = requirement["properties"].as_object_mut() {
        for (key, what) in [
            ("at_least", "The least value, which will do."),
            ("more_than", "The value that it has to exceed."),
            ("at_most", "The greatest value, which will do."),
            ("less_than", "The value that it has to stay below."),
            ("one_of", "The members of a choice that will do."),
            ("with", "The members that a set needs."),
        ] {
            properties.insert(key.to_owned(), bound(what));
        }
    }
    let properties = json!({
        "strictest": {"const": STRICTEST_FORMAT, "description": "The version of the format."},
        "regions": {"type": "array", "items": {"$ref": "#/$defs/place"}, "description": "The regions of the route; `practice` stands for the habits of the trade."},
        "requirements": {"type": "array", "items": {"$ref": "#/$defs/requirement"}, "description": "For each fact the one demand that satisfies every region."},
        "others": ids("Rules that apply and cannot be told as a bound on one fact."),
        "unknown_whether": ids("Rules of which it is not known whether they apply."),
        "rules": {"$ref": "#/$defs/rules"},
        "notice": {"$ref": "#/$defs/notice"},
    });
    let what = "The one set of requirements on a rig that satisfies every region of a route.";
    document(
        "The strictest of a route",
        what,
        properties,
        json!({"requirement": requirement}),
    )
}

/// The schema of a sheet, as `pintle sheet --format json` prints it.
#[must_use]
pub fn sheet_schema() -> Value {
    let mut properties = json!({
        "sheet": {"const": SHEET_FORMAT, "description": "The version of the format."},
    });
    add(&mut properties, sheet_body());
    let what = "What regions ask of a kind of rig, by topic and by bands of weight.";
    document("A requirement sheet", what, properties, sheet_defs())
}

/// The schema of a comparison, as `pintle compare --format json` prints it.
#[must_use]
pub fn comparison_schema() -> Value {
    let mut properties = json!({
        "comparison": {"const": COMPARISON_FORMAT, "description": "The version of the format."},
        "topic": {"$ref": "#/$defs/topic"},
    });
    add(&mut properties, sheet_body());
    let without = closed(json!({
        "what": {"type": "string", "description": "What the topic is about, and is taken to be missing."},
        "taken": {"type": "string", "description": "What is taken besides."},
        "regions": {"type": "array", "items": closed(json!({
            "region": {"$ref": "#/$defs/region"},
            "bands": {"type": "array", "items": {"$ref": "#/$defs/lacking"}},
        }))},
    }));
    let without = json!({"anyOf": [without, {"type": "null"}], "description": "The stretches of gross weight on which the lack of it breaks a rule; null where the topic has no such thing."});
    add(&mut properties, json!({"without": without}));
    let mut lacking = ends();
    let outcome = json!({"enum": ["fine", "open", "broken"]});
    lacking.insert("outcome".to_owned(), outcome);
    lacking.insert("rules".to_owned(), ids("The rules that say so."));
    let mut defs = sheet_defs();
    add(
        &mut defs,
        json!({"lacking": closed(Value::Object(lacking))}),
    );
    let what = "Regions set side by side on one topic.";
    document("A comparison of regions", what, properties, defs)
}

fn sheet_body() -> Value {
    json!({
        "on": {"$ref": "#/$defs/day", "description": "The day the rules are those of."},
        "kind": {"type": "object", "additionalProperties": {"type": "string"}, "description": "What is known of the rig: facts by dotted name."},
        "notice": {"$ref": "#/$defs/notice"},
        "packs": {"type": "array", "items": {"$ref": "#/$defs/pack"}, "description": "The packs used."},
        "regions": {"type": "array", "items": {"$ref": "#/$defs/sheet_region"}},
    })
}

fn sheet_defs() -> Value {
    let text = json!({"type": "string"});
    let list =
        |items: Value, what: &str| json!({"type": "array", "items": items, "description": what});
    let number = json!({"type": "integer", "minimum": 1});
    let asks = json!({"enum": ["nothing", "perhaps", "surely", "not-allowed"], "description": "Whether the rule binds such a rig."});
    let mut band = ends();
    let asked = closed(json!({"number": number, "asks": asks}));
    band.insert(
        "rules".to_owned(),
        list(asked, "The rules on this band, by number."),
    );
    let ladder = closed(json!({
        "fact": {"type": "string", "description": "The weight that the bands are of."},
        "bands": {"type": "array", "items": closed(Value::Object(band))},
    }));
    let rule = closed(json!({
        "number": number, "rules": ids("The full ids."), "says": text, "asks": asks,
        "depends_on": list(text.clone(), "The facts on which it hangs whether it binds."),
        "when": list(text.clone(), "The conditions in words, further in for what belongs to the line above."),
        "looks": list(text.clone(), "What somebody has to look at."),
        "notes": list(text.clone(), "What the sources leave open."),
        "doubt": {"type": "boolean", "description": "Whether the law itself is in doubt."},
        "sources": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/source"}},
    }));
    let topic = closed(json!({
        "topic": {"$ref": "#/$defs/topic"},
        "at_any_weight": list(number.clone(), "The rules that bind at any weight, by number."),
        "by_weight": list(ladder, "For each weight that rules compare, its bands."),
    }));
    json!({
        "sheet_region": closed(json!({
            "region": {"$ref": "#/$defs/place"},
            "authority": {"anyOf": [closed(json!({"name": text, "web": {"type": ["string", "null"]}})), {"type": "null"}]},
            "rules": {"type": "array", "items": rule},
            "topics": {"type": "array", "items": topic},
            "not_covered": list(json!({"$ref": "#/$defs/topic"}), "Topics on which no rule is recorded."),
            "left_out": {"type": "integer", "minimum": 0, "description": "How many rules of the region cannot bind such a rig."},
        })),
    })
}

/// The ends of a stretch of values.
fn ends() -> Map<String, Value> {
    let end = |which: &str| json!({"type": ["string", "null"], "description": format!("The {which} end, with its unit; null where it is open.")});
    let included = |which: &str| json!({"type": "boolean", "description": format!("Whether the {which} end belongs to it.")});
    let all = json!({
        "from": end("lower"), "to": end("upper"),
        "from_included": included("lower"), "to_included": included("upper"),
    });
    all.as_object().cloned().unwrap_or_default()
}

fn ids(what: &str) -> Value {
    json!({"type": "array", "items": {"type": "string"}, "description": what})
}

/// An object that has all of these properties and no others.
fn closed(properties: Value) -> Value {
    let names: Vec<&String> = properties
        .as_object()
        .into_iter()
        .flatten()
        .map(|p| p.0)
        .collect();
    json!({"type": "object", "additionalProperties": false, "required": names, "properties": properties})
}

fn add(to: &mut Value, more: Value) {
    if let (Some(to), Value::Object(more)) = (to.as_object_mut(), more) {
        to.extend(more);
    }
}

fn document(title: &str, what: &str, properties: Value, defs: Value) -> Value {
    let mut all = definitions();
    add(&mut all, defs);
    let rule = closed(json!({
        "regions": {"type": "array", "items": {"$ref": "#/$defs/place"}, "description": "Where it binds."},
        "topic": {"$ref": "#/$defs/topic"},
        "says": {"type": "string", "description": "The rule in plain words."},
        "sources": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/source"}},
    }));
    add(
        &mut all,
        json!({
            "rules": {"type": "object", "additionalProperties": rule, "description": "The rules named, by full id."},
            "notice": {"type": "string", "minLength": 1, "description": "What the document is not, and the cautions that go with it."},
        }),
    );
    schema_of(title, what, closed(properties), all)
}
