//! The dotted names by which the facts of a rig are told: `trailer.gross_weight`, and with an item
//! between, `load.kiln.position`, `axle.2.rating`, `load.kiln.tie_down.1.angle`.

use super::catalogue::catalogue;
use super::kind::{FactId, Scope};
use super::store::{FactSet, Item, ItemId};

impl FactSet {
    /// The first part of the names of the facts of each item of a scope, unlike that of any other.
    /// Empty for the rig itself.
    #[must_use]
    pub fn stems(&self, scope: Scope) -> Vec<String> {
        let mut taken: Vec<String> = Vec::new();
        for (index, item) in self.items(scope).iter().enumerate() {
            let stem = self.stem(scope, index, item);
            let mut unique = stem.clone();
            let mut n = index + 1;
            while taken.contains(&unique) {
                unique = format!("{stem}-{n}");
                n += 1;
            }
            taken.push(unique);
        }
        taken
    }

    /// The dotted name of a fact of an item.
    #[must_use]
    pub fn name_of(&self, item: ItemId, fact: FactId) -> String {
        let name = catalogue().def(fact).name;
        match (item.scope.prefix(), self.stems(item.scope).get(item.index)) {
            (Some(prefix), Some(stem)) => {
                format!("{stem}{}", name.strip_prefix(prefix).unwrap_or(name))
            }
            _ => name.to_owned(),
        }
    }

    fn stem(&self, scope: Scope, index: usize, item: &Item) -> String {
        let Some(prefix) = scope.prefix() else {
            return String::new();
        };
        let place = item.parent.map_or(index, |p| {
            self.children(scope, p)
                .position(|c| c.index == index)
                .unwrap_or(index)
        });
        let own = slug(&item.name, scope, place);
        let owner = item.parent;
        match owner.and_then(|p| self.stems(Scope::Load).into_iter().nth(p)) {
            Some(load) => format!("{load}.{prefix}.{own}"),
            None => format!("{prefix}.{own}"),
        }
    }
}

/// An item's name as a part of a dotted name; its number where it was given no name.
fn slug(name: &str, scope: Scope, place: usize) -> String {
    let plain = name.strip_prefix(scope.noun()).map_or(name, str::trim);
    // A number that the reader gave counts through the whole load; it is told among its fellows.
    if plain.len() < name.len() && plain.parse::<usize>().is_ok() {
        return place.saturating_add(1).to_string();
    }
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
