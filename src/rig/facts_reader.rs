//! Reads the facts of a rig from nested or dotted keys.

use super::literal::read_known;
use super::reader::Reader;
use crate::facts::{FactSet, ItemId, Origin, Scope, catalogue};
use crate::source::{Entry, Map, Node, Value};

/// Keys that a reader of a whole rig handles itself, by their dotted path.
pub type Extra<'a> = &'a mut dyn FnMut(&mut Reader<'_>, &str, &Entry) -> bool;

/// Reads all facts in a mapping into a set. `extra` gets first look at each key.
pub fn read_facts(r: &mut Reader<'_>, map: &Map, extra: Extra<'_>) -> FactSet {
    let mut facts = FactSet::new();
    read_map(r, map, "", ItemId::RIG, &mut facts, extra);
    facts
}

fn read_map(
    r: &mut Reader<'_>,
    map: &Map,
    prefix: &str,
    item: ItemId,
    facts: &mut FactSet,
    extra: Extra<'_>,
) {
    for entry in &map.entries {
        let path = if prefix.is_empty() {
            entry.key.text.clone()
        } else {
            format!("{prefix}.{}", entry.key.text)
        };
        if item == ItemId::RIG && extra(r, &path, entry) {
            continue;
        }
        read_entry(r, entry, &path, item, facts, extra);
    }
}

fn read_entry(
    r: &mut Reader<'_>,
    entry: &Entry,
    path: &str,
    item: ItemId,
    facts: &mut FactSet,
    extra: Extra<'_>,
) {
    if let Some(scope) = listed_scope(path, item.scope) {
        // `load` names both the list and the facts of a single item, as a pack's cases write them.
        if !(matches!(entry.value.value, Value::Map(_)) && path == "load") {
            read_list(r, &entry.value, scope, item, facts, extra);
            return;
        }
    }
    let id = catalogue().find(path);
    if let Some(id) = id {
        let def = catalogue().def(id);
        if def.origin == Origin::WorkedOut {
            r.error_help(
                "read::worked-out",
                format!("`{path}` is worked out, not stated"),
                entry.key.span,
                "cannot be stated",
                format!("leave it out; it means: {}", def.meaning),
            );
            return;
        }
        if let Some(target) = target(def.scope, item, facts) {
            if let Some(known) = read_known(r, &entry.value, def) {
                facts.set(target, id, known);
            }
            return;
        }
    }
    let inner = format!("{path}.");
    let is_group = catalogue()
        .all()
        .any(|(_, d)| d.name.starts_with(&inner) && reachable(d.scope, item.scope));
    if is_group {
        if let Some(map) = r.map(&entry.value, &format!("`{path}`")) {
            read_map(r, map, path, item, facts, extra);
        }
        return;
    }
    unknown_key(r, entry, path, item);
}

/// Whether facts of a scope may be written inside an item: its own, and at the rig's level those
/// of a single load item, axle, tyre or tie-down.
fn reachable(scope: Scope, at: Scope) -> bool {
    scope == at || at == Scope::Rig || scope.parent() == Some(at)
}

/// The item that a fact is to be set on: the one being read, or the first of its scope, made when
/// there is none.
fn target(scope: Scope, item: ItemId, facts: &mut FactSet) -> Option<ItemId> {
    if scope == item.scope {
        return Some(item);
    }
    if !reachable(scope, item.scope) {
        return None;
    }
    if facts.items(scope).is_empty() {
        let parent = match scope.parent() {
            Some(Scope::Load) => Some(target(Scope::Load, item, facts)?.index),
            _ => None,
        };
        return Some(facts.push(scope, parent, name_of(scope, 0)));
    }
    Some(ItemId { scope, index: 0 })
}

/// The scope whose items a key lists, seen from an item.
fn listed_scope(path: &str, at: Scope) -> Option<Scope> {
    Scope::ALL.into_iter().find(|s| {
        let Some(key) = s.list_key() else {
            return false;
        };
        match s.parent() {
            Some(Scope::Rig) => at == Scope::Rig && path == key,
            Some(p) => {
                (at == p || at == Scope::Rig)
                    && p.prefix().is_some_and(|x| path == format!("{x}.{key}"))
            }
            None => false,
        }
    })
}

fn read_list(
    r: &mut Reader<'_>,
    node: &Node,
    scope: Scope,
    owner: ItemId,
    facts: &mut FactSet,
    extra: Extra<'_>,
) {
    let what = format!("the list of {}s", scope.noun());
    let Some(nodes) = r.list(node, &what) else {
        return;
    };
    let parent = match scope.parent() {
        Some(Scope::Load) => target(Scope::Load, owner, facts).map(|i| i.index),
        _ => None,
    };
    let holder = parent.map_or(ItemId::RIG, |index| ItemId {
        scope: Scope::Load,
        index,
    });
    facts.note_listed(scope, holder);
    for node in nodes {
        let name = match &node.value {
            Value::Map(m) => m.get("name").and_then(|n| match &n.value {
                Value::Scalar(s) if !s.text.trim().is_empty() => Some(s.text.trim().to_owned()),
                _ => None,
            }),
            _ => None,
        };
        let name = name.unwrap_or_else(|| name_of(scope, facts.items(scope).len()));
        let item = facts.push(scope, parent, name);
        if let Some(map) = r.map(node, &format!("a {}", scope.noun())) {
            read_map(
                r,
                map,
                scope.prefix().unwrap_or_default(),
                item,
                facts,
                extra,
            );
        }
    }
}

fn name_of(scope: Scope, index: usize) -> String {
    format!("{} {}", scope.noun(), index + 1)
}

fn unknown_key(r: &mut Reader<'_>, entry: &Entry, path: &str, item: ItemId) {
    let stem = path.rsplit_once('.').map_or("", |(s, _)| s);
    let mut near: Vec<String> = Vec::new();
    for (_, d) in catalogue().all() {
        if d.origin == Origin::WorkedOut || !reachable(d.scope, item.scope) {
            continue;
        }
        let rest = if stem.is_empty() {
            Some(d.name)
        } else {
            d.name.strip_prefix(stem).and_then(|x| x.strip_prefix('.'))
        };
        if let Some(rest) = rest {
            let step = if entry.key.text.contains('.') {
                rest
            } else {
                rest.split('.').next().unwrap_or(rest)
            };
            if !near.iter().any(|n| n == step) {
                near.push(step.to_owned());
            }
        }
    }
    if item == ItemId::RIG && stem.is_empty() {
        near.extend(["rig", "name", "seen"].map(str::to_owned));
    }
    let place = if stem.is_empty() {
        "a rig".to_owned()
    } else {
        format!("`{stem}`")
    };
    let message = format!("`{}` is not a key of {place}", entry.key.text);
    r.unknown_name(
        "read::unknown-key",
        message,
        &entry.key.text,
        entry.key.span,
        near.iter().map(String::as_str),
    );
}
