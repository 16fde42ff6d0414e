//! Facts written as a case writes them.

use crate::facts::{FactDef, Kind};
use crate::facts::{FactSet, ItemId, Known, Scope, Value, Whence, catalogue, show_value};

/// The stated facts of a rig as a flow mapping: `{trailer.kind: boat, trailer.gross_weight: 3,000 lb}`.
#[must_use]
pub fn given(facts: &FactSet) -> String {
    let mut parts = scope_parts(facts, ItemId::RIG, "");
    for scope in [Scope::Load, Scope::Axle, Scope::VehicleAxle, Scope::Tyre] {
        let count = facts.items(scope).len();
        let list_key = scope.list_key().unwrap_or_default();
        if count == 0 && facts.is_listed(scope, ItemId::RIG) {
            parts.push(format!("{list_key}: []"));
        }
        let flat = count == 1 && facts.items(Scope::TieDown).len() <= 1;
        let mut items = Vec::new();
        for index in 0..count {
            let item = ItemId { scope, index };
            let stem = scope.prefix().unwrap_or_default();
            let strip = if flat { "" } else { stem };
            let mut own = scope_parts(facts, item, strip);
            if scope == Scope::Load {
                let inner: Vec<String> = facts
                    .children(Scope::TieDown, index)
                    .map(|t| format!("{{{}}}", scope_parts(facts, t, "tie_down").join(", ")))
                    .collect();
                if !inner.is_empty() || facts.is_listed(Scope::TieDown, item) {
                    let key = if flat { "load.tie_downs" } else { "tie_downs" };
                    own.push(format!("{key}: [{}]", inner.join(", ")));
                }
            }
            items.push(own);
        }
        if flat {
            parts.extend(items.into_iter().flatten());
        } else if count > 0 {
            let shown: Vec<String> = items
                .iter()
                .map(|i| format!("{{{}}}", i.join(", ")))
                .collect();
            parts.push(format!("{list_key}: [{}]", shown.join(", ")));
        }
    }
    format!("{{{}}}", parts.join(", "))
}

/// `name: value` for each stated fact of an item, names without `strip` and its dot.
fn scope_parts(facts: &FactSet, item: ItemId, strip: &str) -> Vec<String> {
    let mut out = Vec::new();
    for id in catalogue().of_scope(item.scope) {
        let def = catalogue().def(*id);
        if let Some(k) = facts.known(item, *id)
            && matches!(k.whence, Whence::Stated { .. })
        {
            let name = def
                .name
                .strip_prefix(strip)
                .map_or(def.name, |n| n.trim_start_matches('.'));
            out.push(format!("{name}: {}", value_text(k, def)));
        }
    }
    out
}

fn value_text(k: &Known, def: &FactDef) -> String {
    match (&k.written, &k.value, &def.kind) {
        (Some(w), _, _) => w.clone(),
        (None, Value::Set { has: 0, .. }, _) => "none".to_owned(),
        (None, v, Kind::Set(_)) => format!("[{}]", show_value(v, None, def)),
        (None, v, _) => show_value(v, k.unit, def),
    }
}
