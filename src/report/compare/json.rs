//! The comparison for programs.

use super::{COMPARISON_FORMAT, Comparison};
use crate::engine::survey::{Lack, Lacking};
use crate::report::sheet::{ends, sheet_json};
use serde_json::{Value, json};

/// The comparison as one JSON document: the sheet of each region for the topic, and the stretches of
/// gross weight on which the lack of what the topic is about breaks a rule.
#[must_use]
pub fn comparison_json(c: &Comparison) -> Value {
    let lack = c.lack.as_ref().map(|lack| {
        let regions = lack
            .regions
            .iter()
            .map(|(region, stretches)| json!({"region": region, "bands": stretches.iter().map(|s| stretch(c, s)).collect::<Vec<_>>()}));
        json!({"what": lack.what, "taken": lack.taken, "regions": regions.collect::<Vec<_>>()})
    });
    let mut out = json!({"comparison": COMPARISON_FORMAT, "topic": c.topic.name()});
    if let (Some(out), Value::Object(mut sheet)) = (out.as_object_mut(), sheet_json(&c.sheet)) {
        sheet.remove("sheet");
        out.extend(sheet);
        out.insert("without".to_owned(), lack.unwrap_or(Value::Null));
    }
    out
}

fn stretch(c: &Comparison, l: &Lacking) -> Value {
    let mut out = ends(&l.at);
    let outcome = match l.lack {
        Lack::Fine => "fine",
        Lack::Open => "open",
        Lack::Broken => "broken",
    };
    out.insert("outcome".to_owned(), json!(outcome));
    out.insert("rules".to_owned(), json!(c.ids_of(std::slice::from_ref(l))));
    Value::Object(out)
}
