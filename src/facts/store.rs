//! What is known of one rig: a value for each fact, item by item, with where it came from.

use super::catalogue::catalogue;
use super::kind::{FactId, Scope};
use super::value::Value;
use crate::quantity::Unit;

/// Where a value came from.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub enum Whence {
    /// Nothing was said and nothing could be worked out.
    #[default]
    Missing,
    /// Stated in the file, between these byte offsets of its text.
    Stated {
        /// The first byte of the value.
        start: usize,
        /// The byte after it.
        end: usize,
    },
    /// Worked out, with the working in words.
    WorkedOut(String),
}

impl Whence {
    /// The bytes of the text between which it was stated.
    #[must_use]
    pub fn place(&self) -> Option<(usize, usize)> {
        match *self {
            Whence::Stated { start, end } => Some((start, end)),
            _ => None,
        }
    }
}

/// A value with where it came from and how it was written.
#[derive(Clone, Debug)]
pub struct Known {
    /// What is possible.
    pub value: Value,
    /// Where it came from.
    pub whence: Whence,
    /// The unit a person used for it.
    pub unit: Option<Unit>,
    /// The words as written, or a text fact's text.
    pub written: Option<String>,
}

/// One load item, axle, tyre or tie-down.
#[derive(Clone, Debug)]
pub struct Item {
    /// The item that this one belongs to, as an index into the parent scope's items.
    pub parent: Option<usize>,
    /// A name to call it by: "kiln", "axle 2".
    pub name: String,
    lists_tie_downs: bool,
    values: Vec<Known>,
}

/// A scope and the place of an item in it; the rig itself is item 0 of [`Scope::Rig`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ItemId {
    /// The scope.
    pub scope: Scope,
    /// The place in it.
    pub index: usize,
}

impl ItemId {
    /// The rig.
    pub const RIG: ItemId = ItemId {
        scope: Scope::Rig,
        index: 0,
    };
}

/// All that is known of one rig.
#[derive(Clone, Debug)]
pub struct FactSet {
    items: [Vec<Item>; Scope::ALL.len()],
    listed: [bool; Scope::ALL.len()],
}

fn blank(scope: Scope) -> Vec<Known> {
    let known = |f: &FactId| Known {
        value: Value::missing(&catalogue().def(*f).kind),
        whence: Whence::Missing,
        unit: None,
        written: None,
    };
    catalogue().of_scope(scope).iter().map(known).collect()
}

impl Default for FactSet {
    fn default() -> Self {
        Self::new()
    }
}

impl FactSet {
    /// A rig of which nothing is known.
    #[must_use]
    pub fn new() -> FactSet {
        let mut set = FactSet {
            items: Default::default(),
            listed: Default::default(),
        };
        set.items[Scope::Rig as usize].push(Item {
            parent: None,
            name: String::new(),
            lists_tie_downs: false,
            values: blank(Scope::Rig),
        });
        set.listed[Scope::Rig as usize] = true;
        set
    }

    /// Adds an item to a scope and returns its place.
    pub fn push(&mut self, scope: Scope, parent: Option<usize>, name: String) -> ItemId {
        let holder = ItemId {
            scope: scope.parent().unwrap_or(Scope::Rig),
            index: parent.unwrap_or(0),
        };
        self.note_listed(scope, holder);
        let list = &mut self.items[scope as usize];
        list.push(Item {
            parent,
            name,
            lists_tie_downs: false,
            values: blank(scope),
        });
        ItemId {
            scope,
            index: list.len() - 1,
        }
    }

    /// Notes that the file lists the items of a scope that belong to `owner`, even if none are
    /// in the list.
    pub fn note_listed(&mut self, scope: Scope, owner: ItemId) {
        self.listed[scope as usize] = true;
        if scope == Scope::TieDown
            && let Some(item) = self.items[Scope::Load as usize].get_mut(owner.index)
        {
            item.lists_tie_downs = true;
        }
    }

    /// Whether the file lists the items of a scope that belong to `owner`; if not, how many there
    /// are is unknown.
    #[must_use]
    pub fn is_listed(&self, scope: Scope, owner: ItemId) -> bool {
        match (scope, owner.scope) {
            (Scope::TieDown, Scope::Load) => {
                let item = self.items(Scope::Load).get(owner.index);
                item.is_some_and(|i| i.lists_tie_downs)
            }
            _ => self.listed[scope as usize],
        }
    }

    /// Whether all items of a scope that the rig has are in the file.
    #[must_use]
    pub fn is_complete(&self, scope: Scope) -> bool {
        match scope {
            Scope::TieDown => {
                self.is_complete(Scope::Load)
                    && self.items(Scope::Load).iter().all(|i| i.lists_tie_downs)
            }
            _ => self.listed[scope as usize],
        }
    }

    /// The items of a scope.
    #[must_use]
    pub fn items(&self, scope: Scope) -> &[Item] {
        &self.items[scope as usize]
    }

    /// The items of a scope that belong to one item of its parent scope.
    pub fn children(&self, scope: Scope, parent: usize) -> impl Iterator<Item = ItemId> + '_ {
        self.items(scope)
            .iter()
            .enumerate()
            .filter(move |(_, i)| i.parent == Some(parent))
            .map(move |(index, _)| ItemId { scope, index })
    }

    /// What to call an item in a sentence: its name, that of the item it belongs to before it, and an
    /// unnamed one by its number there. Empty for the rig, and for an item that is not listed.
    #[must_use]
    pub fn called(&self, item: ItemId) -> String {
        let Some(own) = self.items(item.scope).get(item.index) else {
            return String::new();
        };
        let Some((parent, load)) = own
            .parent
            .and_then(|p| Some((p, self.items(Scope::Load).get(p)?)))
        else {
            return own.name.clone();
        };
        let place = self.children(item.scope, parent).position(|c| c == item);
        let unnamed = own.name.starts_with(item.scope.noun());
        match place {
            Some(at) if unnamed => format!("{}, {} {}", load.name, item.scope.noun(), at + 1),
            _ => format!("{}, {}", load.name, own.name),
        }
    }

    /// What is known of a fact of an item. A fact of an outer scope is looked up in the item that
    /// this one belongs to. `None` when the fact is not said of such an item.
    #[must_use]
    pub fn known(&self, item: ItemId, fact: FactId) -> Option<&Known> {
        let want = catalogue().def(fact).scope;
        let at = match (want, item.scope) {
            (w, s) if w == s => item,
            (Scope::Rig, _) => ItemId::RIG,
            (Scope::Load, Scope::TieDown) => ItemId {
                scope: Scope::Load,
                index: self.items(Scope::TieDown).get(item.index)?.parent?,
            },
            _ => return None,
        };
        let found = self.items(at.scope).get(at.index)?;
        found.values.get(catalogue().local(fact))
    }

    /// The value of a fact, as for [`FactSet::known`]; missing when it is not said of such an item.
    #[must_use]
    pub fn value(&self, item: ItemId, fact: FactId) -> Value {
        self.known(item, fact)
            .map_or_else(|| Value::missing(&catalogue().def(fact).kind), |k| k.value)
    }

    /// Sets a fact of an item of the fact's own scope. Returns false if there is no such item.
    pub fn set(&mut self, item: ItemId, fact: FactId, known: Known) -> bool {
        let slot = self.items[item.scope as usize]
            .get_mut(item.index)
            .filter(|_| catalogue().def(fact).scope == item.scope)
            .and_then(|i| i.values.get_mut(catalogue().local(fact)));
        match slot {
            Some(s) => {
                *s = known;
                true
            }
            None => false,
        }
    }

    /// Makes a fact of an item missing again.
    pub fn forget(&mut self, item: ItemId, fact: FactId) {
        let known = Known {
            value: Value::missing(&catalogue().def(fact).kind),
            whence: Whence::Missing,
            unit: None,
            written: None,
        };
        self.set(item, fact, known);
    }
}
