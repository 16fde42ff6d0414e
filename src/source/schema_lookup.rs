//! What a schema says, looked up: the names, kinds and phrases at a schema path.

use super::clean::quote;
use serde_json::Value as Json;

/// How far references are followed.
const FOLLOWED: usize = 8;

/// How a text is called.
pub const TEXT: &str = "a text";

/// The schema part that holds the keyword at a schema path.
pub fn parent<'s>(schema: &'s Json, path: &str) -> Option<&'s Json> {
    schema.pointer(path.rsplit_once('/')?.0)
}

/// The noun phrase of a schema part: its title, else its description, references followed.
pub fn titled(schema: &Json, part: &Json, depth: usize) -> Option<String> {
    let text = |key: &str| {
        part.get(key)
            .and_then(Json::as_str)
            .map(|text| text.trim_end_matches('.').to_owned())
    };
    text("title").or_else(|| text("description")).or_else(|| {
        let target = target(schema, part).filter(|_| depth < FOLLOWED)?;
        titled(schema, target, depth.saturating_add(1))
    })
}

fn target<'s>(schema: &'s Json, part: &Json) -> Option<&'s Json> {
    schema.pointer(part.get("$ref")?.as_str()?.strip_prefix('#')?)
}

/// The kinds of value that a schema part takes, each in words: its noun phrase, or what its type,
/// choices, reference or alternatives say.
pub fn kinds(schema: &Json, part: &Json, depth: usize) -> Vec<String> {
    if let Some(title) = titled(schema, part, depth) {
        return vec![title];
    }
    let found = types(schema, part, depth);
    if !found.is_empty() || depth >= FOLLOWED {
        return found;
    }
    let deeper = depth.saturating_add(1);
    if let Some(target) = target(schema, part) {
        return kinds(schema, target, deeper);
    }
    let mut all: Vec<String> = Vec::new();
    for keyword in ["anyOf", "oneOf"] {
        for branch in part
            .get(keyword)
            .and_then(Json::as_array)
            .into_iter()
            .flatten()
        {
            for kind in kinds(schema, branch, deeper) {
                if !all.contains(&kind) {
                    all.push(kind);
                }
            }
        }
    }
    all
}

/// The types that a schema part names, or its choices.
pub fn types(schema: &Json, part: &Json, depth: usize) -> Vec<String> {
    let word = |name: &str| {
        match name {
            "string" => TEXT,
            "integer" => "a whole number",
            "number" => "a number",
            "boolean" => "true or false",
            "array" => "a list",
            "object" => "a mapping",
            "null" => "nothing",
            other => other,
        }
        .to_owned()
    };
    let quoted = |options: &Json| texts(options).iter().map(|text| quote(text)).collect();
    match (part.get("type"), part.get("enum"), part.get("const")) {
        (Some(Json::String(name)), ..) => vec![word(name)],
        (Some(Json::Array(names)), ..) => names.iter().filter_map(Json::as_str).map(word).collect(),
        (_, Some(options), _) => quoted(options),
        (_, _, Some(value)) => quoted(&Json::Array(vec![value.clone()])),
        _ => match target(schema, part) {
            Some(target) if depth < FOLLOWED => types(schema, target, depth.saturating_add(1)),
            _ => Vec::new(),
        },
    }
}

/// The names that a mapping may hold by the schema part whose keyword is at a path.
pub fn allowed_names(schema: &Json, path: &str) -> Vec<String> {
    let mut names = Vec::new();
    if let Some(part) = parent(schema, path) {
        collect_names(schema, part, 0, &mut names);
    }
    names
}

fn collect_names(schema: &Json, part: &Json, depth: usize, names: &mut Vec<String>) {
    if depth > FOLLOWED {
        return;
    }
    let properties = part.get("properties").and_then(Json::as_object);
    for name in properties
        .into_iter()
        .flat_map(|properties| properties.keys())
    {
        if !names.contains(name) {
            names.push(name.clone());
        }
    }
    if let Some(options) = part
        .get("propertyNames")
        .map(|p| target(schema, p).unwrap_or(p))
        .and_then(|p| p.get("enum"))
    {
        names.extend(texts(options));
    }
    let deeper = depth.saturating_add(1);
    if let Some(target) = target(schema, part) {
        collect_names(schema, target, deeper, names);
    }
    for keyword in ["allOf", "anyOf", "oneOf"] {
        for branch in part
            .get(keyword)
            .and_then(Json::as_array)
            .into_iter()
            .flatten()
        {
            collect_names(schema, branch, deeper, names);
        }
    }
    for keyword in ["then", "else"] {
        if let Some(branch) = part.get(keyword) {
            collect_names(schema, branch, deeper, names);
        }
    }
}

/// The members of a JSON list as texts.
pub fn texts(options: &Json) -> Vec<String> {
    let text = |value: &Json| {
        value
            .as_str()
            .map_or_else(|| value.to_string(), str::to_owned)
    };
    options
        .as_array()
        .map(|all| all.iter().map(text).collect())
        .unwrap_or_default()
}

/// Names in backticks, `a`, `b` and `c`, cut to a number that can be read.
pub fn list(names: &[&str], most: usize) -> String {
    let quoted: Vec<String> = names.iter().take(most).map(|name| quote(name)).collect();
    let more = names.len().saturating_sub(most);
    match quoted.as_slice() {
        all if more > 0 => format!("{} and {more} more", all.join(", ")),
        [a, b] => format!("{a} and {b}"),
        [rest @ .., last] if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        all => all.concat(),
    }
}

/// Kinds joined by "or".
pub fn or(kinds: &[String]) -> String {
    match kinds {
        [] => "what can stand here".to_owned(),
        [only] => only.clone(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

pub fn counted(limit: u64, what: &str) -> String {
    if limit == 1 {
        format!("one {what}")
    } else {
        format!("{limit} {what}s")
    }
}
