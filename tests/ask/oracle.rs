//! Somebody who knows all that a rig file says, and answers from it.

use pintle::engine::solve::find_subject;
use pintle::engine::{Asked, Ruleset};
use pintle::facts::{FactSet, Kind, Scope, Value, Whence, catalogue, show_members, show_value};
use pintle::pack::{Library, Region};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use std::sync::OnceLock;

pub const DEMO: &str = include_str!("../rigs/kiln-trailer.yaml");

pub fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

pub fn rules(codes: &[&str]) -> Ruleset<'static> {
    let regions: Vec<&Region> = codes
        .iter()
        .map(|c| Region::find(c).expect("a region"))
        .collect();
    Ruleset::new(library(), &regions, false).expect("the packs compile")
}

pub fn facts(text: &str) -> FactSet {
    read_rig(&SourceText::from_str("rig.yaml", text))
        .expect("the rig reads")
        .facts
}

/// The answer to a question by its name, as a person would type it; `None` when it is not known.
pub fn answer(full: &FactSet, name: &str) -> Option<String> {
    if let Some(list) = list(full, name) {
        return list;
    }
    let subject = find_subject(full, name, None).ok()?;
    let known = full.known(subject.item, subject.fact)?;
    if matches!(known.whence, Whence::Missing) {
        return None;
    }
    let def = catalogue().def(subject.fact);
    if let Some(written) = &known.written {
        return Some(written.clone());
    }
    Some(match (known.value, def.kind) {
        (Value::Set { has: 0, .. }, _) => "none".to_owned(),
        (Value::Set { has, .. }, kind) => show_members(has, &kind, ", "),
        (value, Kind::Choice(_)) => show_value(&value, None, def),
        (value, _) => show_value(&value, known.unit, def),
    })
}

/// The answer to the question for a list; `None` when the name is not that of a list.
fn list(full: &FactSet, name: &str) -> Option<Option<String>> {
    let count = |scope: Scope, index: usize| {
        let key = format!("{}.count", scope.prefix().unwrap_or_default());
        let fact = catalogue().find(&key).expect("a fact");
        let known = full.known(pintle::facts::ItemId { scope, index }, fact);
        known
            .and_then(|k| k.written.clone())
            .unwrap_or_else(|| "1".to_owned())
    };
    let joined = |parts: Vec<String>, between: &str| match parts.is_empty() {
        true => "none".to_owned(),
        false => parts.join(between),
    };
    if let Some(item) = name.strip_suffix(".tie_downs") {
        let stems = full.stems(Scope::Load);
        let load = stems.iter().position(|s| s == item)?;
        let owner = pintle::facts::ItemId {
            scope: Scope::Load,
            index: load,
        };
        if !full.is_listed(Scope::TieDown, owner) {
            return Some(None);
        }
        let own = full.children(Scope::TieDown, load);
        return Some(Some(joined(
            own.map(|i| count(Scope::TieDown, i.index)).collect(),
            " + ",
        )));
    }
    let scope = Scope::ALL
        .into_iter()
        .find(|s| s.list_key() == Some(name))?;
    if !full.is_complete(scope) {
        return Some(None);
    }
    let items = full.items(scope);
    Some(Some(match scope {
        Scope::Load => joined(items.iter().map(|i| i.name.clone()).collect(), ", "),
        Scope::Tyre => joined((0..items.len()).map(|i| count(scope, i)).collect(), " + "),
        _ => items.len().to_string(),
    }))
}

/// The name by which a question is asked.
pub fn name(asked: Asked, stated: &FactSet) -> String {
    asked.name(stated)
}
