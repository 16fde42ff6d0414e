//! The facts that were worked out, with their values and the working.

use crate::facts::{FactSet, ItemId, Kind, Scope, Whence, catalogue, show_value};
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
        for (index, stem) in facts.stems(scope).iter().enumerate() {
            add(facts, ItemId { scope, index }, stem, &mut out);
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
