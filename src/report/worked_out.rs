//! The facts that were worked out, with their values and the working.

use crate::facts::{FactSet, Item, ItemId, Kind, Scope, Whence, catalogue, show_value};
use crate::quantity::Dimension;

/// One fact that was worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkedOut {
    /// The dotted name; that of an item's fact holds the item's name: `load.kiln.aggregate_limit`.
    pub name: String,
    /// A short name for sentences, the item's name before it.
    pub label: String,
    /// What the number measures; `None` for what is no quantity.
    pub of: Option<Dimension>,
    /// The value in words, in the unit that the rig uses.
    pub value: String,
    /// How it was worked out; may be empty.
    pub working: String,
}

/// Every fact that was worked out, the rig's own first, then item by item.
#[must_use]
pub fn worked_out(facts: &FactSet) -> Vec<WorkedOut> {
    let mut out = Vec::new();
    for scope in Scope::ALL {
        let mut taken: Vec<String> = Vec::new();
        for (index, item) in facts.items(scope).iter().enumerate() {
            let stem = stem(facts, scope, index, item, &mut taken);
            add(facts, ItemId { scope, index }, &stem, &mut out);
        }
    }
    out
}

fn add(facts: &FactSet, item: ItemId, stem: &str, out: &mut Vec<WorkedOut>) {
    for fact in catalogue().of_scope(item.scope) {
        let def = catalogue().def(*fact);
        let Some(known) = facts.known(item, *fact) else {
            continue;
        };
        let Whence::WorkedOut(working) = &known.whence else {
            continue;
        };
        let (name, label) = match item.scope.prefix() {
            None => (def.name.to_owned(), def.label.to_owned()),
            Some(prefix) => {
                let rest = def.name.strip_prefix(prefix).unwrap_or(def.name);
                (
                    format!("{stem}{rest}"),
                    format!("{}: {}", facts.called(item), def.label),
                )
            }
        };
        out.push(WorkedOut {
            name,
            label,
            of: match def.kind {
                Kind::Measure(d) => Some(d),
                _ => None,
            },
            value: show_value(&known.value, known.unit, def),
            working: working.clone(),
        });
    }
}

/// The first part of the names of an item's facts, unlike that of any other item of the scope.
fn stem(
    facts: &FactSet,
    scope: Scope,
    index: usize,
    item: &Item,
    taken: &mut Vec<String>,
) -> String {
    let Some(prefix) = scope.prefix() else {
        return String::new();
    };
    let place = item.parent.map_or(index, |p| {
        facts
            .children(scope, p)
            .position(|c| c.index == index)
            .unwrap_or(index)
    });
    let own = slug(&item.name, scope, place);
    let owner = item
        .parent
        .and_then(|p| Some((p, facts.items(Scope::Load).get(p)?)));
    let stem = match owner {
        Some((p, load)) => format!("load.{}.{prefix}.{own}", slug(&load.name, Scope::Load, p)),
        None => format!("{prefix}.{own}"),
    };
    let mut unique = stem.clone();
    let mut n = index + 1;
    while taken.contains(&unique) {
        unique = format!("{stem}-{n}");
        n += 1;
    }
    taken.push(unique.clone());
    unique
}

/// An item's name as a part of a dotted name; its number where it was given no name.
fn slug(name: &str, scope: Scope, place: usize) -> String {
    let plain = name.strip_prefix(scope.noun()).map_or(name, str::trim);
    let mut out = String::new();
    for c in plain.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    let out = out.trim_end_matches('-');
    if out.is_empty() {
        (place + 1).to_string()
    } else {
        out.to_owned()
    }
}
