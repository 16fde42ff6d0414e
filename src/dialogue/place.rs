//! Where in a rig file an answer belongs, and what it becomes there.

use super::session::Refusal;
use crate::engine::Asked;
use crate::facts::{FactSet, ItemId, Scope, catalogue};
use crate::rig::{Step, Written, read_answer};

/// The most items that one answer may list.
const MOST: usize = 100;

/// The steps to what is asked for.
pub(super) fn path(facts: &FactSet, asked: Asked) -> Vec<Step> {
    match asked {
        Asked::Fact(item, fact) => {
            let mut steps = item_path(facts, item);
            let name = catalogue().def(fact).name;
            let rest = match item.scope.prefix() {
                Some(prefix) => name
                    .strip_prefix(prefix)
                    .map_or(name, |r| r.trim_start_matches('.')),
                None => name,
            };
            steps.extend(keys(rest));
            steps
        }
        Asked::List(scope, owner) => {
            let mut steps = item_path(facts, owner);
            steps.extend(keys(scope.list_key().unwrap_or_default()));
            steps
        }
    }
}

fn keys(dotted: &str) -> impl Iterator<Item = Step> + '_ {
    dotted.split('.').map(|k| Step::Key(k.to_owned()))
}

fn item_path(facts: &FactSet, item: ItemId) -> Vec<Step> {
    let Some(key) = item.scope.list_key() else {
        return Vec::new();
    };
    let parent = facts
        .items(item.scope)
        .get(item.index)
        .and_then(|i| i.parent);
    let owner = match (item.scope.parent(), parent) {
        (Some(Scope::Load), Some(index)) => ItemId {
            scope: Scope::Load,
            index,
        },
        _ => ItemId::RIG,
    };
    let mut steps = item_path(facts, owner);
    steps.extend(keys(key));
    let place = match parent {
        Some(p) => facts.children(item.scope, p).position(|c| c == item),
        None => Some(item.index),
    };
    steps.push(Step::Item(place.unwrap_or(item.index)));
    steps
}

/// What an answer becomes in the file.
pub(super) fn value(asked: Asked, answer: &str) -> Result<Written, Refusal> {
    match asked {
        Asked::Fact(_, fact) => {
            read_answer(catalogue().def(fact), answer).map_err(|c| Refusal::from(&c))
        }
        Asked::List(scope, _) => list(scope, answer),
    }
}

/// How a list is answered, in words.
pub(super) fn list_expected(scope: Scope) -> &'static str {
    match scope {
        Scope::Load => "a name for each item, with commas between, such as kiln, wheel; or none",
        Scope::TieDown | Scope::Tyre => {
            "how many there are; where they are not all alike, how many of each kind, such as 2 + 1; or none"
        }
        _ => "how many there are, such as 2; or none",
    }
}

fn list(scope: Scope, answer: &str) -> Result<Written, Refusal> {
    let answer = answer.trim();
    let refuse = |message: &str| Refusal {
        message: message.to_owned(),
        expected: list_expected(scope).to_owned(),
        instead: None,
    };
    if ["none", "no", "0", "empty"].contains(&answer.to_lowercase().as_str()) {
        return Ok(Written::List(Vec::new()));
    }
    let entry =
        |key: &str, text: String| Written::Map(vec![(key.to_owned(), Written::Scalar(text))]);
    if scope == Scope::Load {
        let names: Vec<&str> = answer.split(',').map(str::trim).collect();
        if names.iter().any(|n| n.is_empty()) {
            return Err(refuse("an item has no name"));
        }
        if names.iter().any(|n| n.parse::<f64>().is_ok()) {
            return Err(refuse("an item is named by a word, not by a number"));
        }
        if names.len() > MOST {
            return Err(refuse("so many items are more than one answer can list"));
        }
        let mut lower: Vec<String> = names.iter().map(|n| n.to_lowercase()).collect();
        lower.sort_unstable();
        lower.dedup();
        if lower.len() < names.len() {
            return Err(refuse("two items have the same name"));
        }
        let items = names.into_iter().map(|n| entry("name", n.to_owned()));
        return Ok(Written::List(items.collect()));
    }
    let mut counts = Vec::new();
    for part in answer.split('+') {
        match part.trim().parse::<usize>() {
            Ok(n @ 1..=MOST) => counts.push(n),
            _ => return Err(refuse("that is no count")),
        }
    }
    let items = match scope {
        Scope::TieDown | Scope::Tyre => counts
            .into_iter()
            .map(|n| entry("count", n.to_string()))
            .collect(),
        _ => {
            let all = counts.into_iter().fold(0, usize::saturating_add);
            if all > MOST {
                return Err(refuse("that is no count"));
            }
            vec![Written::Map(Vec::new()); all]
        }
    };
    Ok(Written::List(items))
}
