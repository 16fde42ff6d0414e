//! The bench at which facts are worked out: reading, writing, and catching contradictions.

use crate::facts::{FactId, FactSet, ItemId, Known, Scope, Tri, Value, Whence, catalogue};
use crate::quantity::{Exact, Interval, Unit, format_interval};

/// A stated value that what was stated elsewhere contradicts.
#[derive(Clone, Debug)]
pub struct Conflict {
    /// The item.
    pub item: ItemId,
    /// The fact.
    pub fact: FactId,
    /// What was stated, in words.
    pub stated: String,
    /// What comes out instead, in words, with its working.
    pub computed: String,
    /// Where the stated value stands.
    pub at: Option<(usize, usize)>,
    /// Where a value that contradicts it stands.
    pub against: Option<(usize, usize)>,
}

/// Facts being worked out.
pub(super) struct Bench<'a> {
    pub facts: &'a mut FactSet,
    pub conflicts: Vec<Conflict>,
}

/// The fact of that name.
///
/// # Panics
/// If the catalogue has no such fact; the names are written in this program, and a test works out
/// every one of them.
pub(super) fn fact(name: &str) -> FactId {
    catalogue()
        .find(name)
        .unwrap_or_else(|| panic!("the catalogue has no fact `{name}`"))
}

impl<'a> Bench<'a> {
    pub fn new(facts: &'a mut FactSet) -> Self {
        Bench {
            facts,
            conflicts: Vec::new(),
        }
    }

    /// What is known of a fact of an item.
    pub fn known_of(&self, item: ItemId, name: &str) -> Option<&Known> {
        self.facts.known(item, fact(name))
    }

    /// The range of a number of an item.
    pub fn number_of(&self, item: ItemId, name: &str) -> Interval {
        self.facts.value(item, fact(name)).interval()
    }

    /// The range of a number of the rig.
    pub fn number(&self, name: &str) -> Interval {
        self.number_of(ItemId::RIG, name)
    }

    /// A yes/no of an item.
    pub fn yes_of(&self, item: ItemId, name: &str) -> Tri {
        self.facts.value(item, fact(name)).truth()
    }

    /// A yes/no of the rig.
    pub fn yes(&self, name: &str) -> Tri {
        self.yes_of(ItemId::RIG, name)
    }

    /// The one member that a choice of an item can be, if it is settled.
    pub fn choice_of(&self, item: ItemId, name: &str) -> Option<&'static str> {
        let id = fact(name);
        let Value::OneOf(mask) = self.facts.value(item, id) else {
            return None;
        };
        let choices = catalogue().def(id).kind.choices();
        (mask.count_ones() == 1)
            .then(|| choices.get(mask.trailing_zeros() as usize).map(|c| c.name))
            .flatten()
    }

    /// Whether anything was stated or worked out of a fact.
    pub fn is_known(&self, item: ItemId, name: &str) -> bool {
        self.known_of(item, name)
            .is_some_and(|k| k.whence != Whence::Missing)
    }

    /// The items of a scope.
    pub fn items(&self, scope: Scope) -> Vec<ItemId> {
        (0..self.facts.items(scope).len())
            .map(|index| ItemId { scope, index })
            .collect()
    }

    /// The name of an item.
    pub fn name(&self, item: ItemId) -> &str {
        self.facts
            .items(item.scope)
            .get(item.index)
            .map_or("", |i| i.name.as_str())
    }

    /// The unit that a person used for a fact, or else for any of these.
    pub fn unit(&self, names: &[&str]) -> Option<Unit> {
        names
            .iter()
            .find_map(|n| self.known_of(ItemId::RIG, n).and_then(|k| k.unit))
    }

    /// A number in words: "empty 1,650 lb", in the unit it was written in.
    pub fn show(&self, item: ItemId, name: &str, unit: Option<Unit>) -> String {
        let Some(k) = self.known_of(item, name) else {
            return "not known".to_owned();
        };
        match (k.whence == Whence::Missing, k.unit.or(unit)) {
            (true, _) | (_, None) => "not known".to_owned(),
            (false, Some(u)) => format_interval(k.value.interval(), u),
        }
    }

    /// The range of a number of an item, if anything is known of it.
    pub fn known_number(&self, item: ItemId, name: &str) -> Option<Interval> {
        self.is_known(item, name)
            .then(|| self.number_of(item, name))
    }

    /// Whether a fact of an item was stated.
    pub fn is_stated(&self, item: ItemId, name: &str) -> bool {
        self.known_of(item, name)
            .is_some_and(|k| matches!(k.whence, Whence::Stated { .. }))
    }

    /// The unit that a person used for a fact of an item.
    pub fn unit_of(&self, item: ItemId, name: &str) -> Option<Unit> {
        self.known_of(item, name).and_then(|k| k.unit)
    }

    /// The unit that a person used for a fact of any item of its scope.
    pub fn unit_in(&self, name: &str) -> Option<Unit> {
        let scope = catalogue().def(fact(name)).scope;
        let items = 0..self.facts.items(scope).len();
        items
            .into_iter()
            .find_map(|index| self.unit_of(ItemId { scope, index }, name))
    }

    /// The unit that a person used for most weights of the rig; pounds when there are none.
    pub fn mass_unit(&self) -> Unit {
        let names = [
            "trailer.gross_weight",
            "trailer.empty_weight",
            "trailer.gvwr",
            "trailer.tongue_weight",
            "tow_vehicle.gvwr",
        ];
        self.unit(&names)
            .or_else(|| self.unit_in("load.weight"))
            .unwrap_or(Unit::Pound)
    }

    /// Sets a number of an item, worked out from the facts named in `from`.
    pub fn put_number(
        &mut self,
        item: ItemId,
        name: &str,
        value: Interval,
        unit: Unit,
        working: String,
        from: &[&str],
    ) {
        self.put_of(item, name, Value::Number(value), Some(unit), working, from);
    }

    /// Sets a number of the rig, worked out from the facts named in `from`.
    pub fn put(
        &mut self,
        name: &str,
        value: Interval,
        unit: Option<Unit>,
        working: String,
        from: &[&str],
    ) {
        self.put_of(ItemId::RIG, name, Value::Number(value), unit, working, from);
    }

    /// Sets a yes/no of the rig.
    pub fn put_yes(&mut self, name: &str, value: Tri, working: String, from: &[&str]) {
        self.put_of(
            ItemId::RIG,
            name,
            Value::from_tri(value),
            None,
            working,
            from,
        );
    }

    /// Sets a fact of an item, unless it was stated; a stated one must agree.
    pub fn put_of(
        &mut self,
        item: ItemId,
        name: &str,
        value: Value,
        unit: Option<Unit>,
        working: String,
        from: &[&str],
    ) {
        let id = fact(name);
        let def = catalogue().def(id);
        if value == Value::missing(&def.kind) {
            return;
        }
        let Some(old) = self.facts.known(item, id) else {
            return;
        };
        let unit = old.unit.or(unit);
        match (&old.whence, old.value.meet(&value)) {
            (Whence::Missing, Some(met)) => {
                self.set(item, id, met, unit, Whence::WorkedOut(working));
            }
            (_, Some(met)) if met != old.value => {
                // What was known is narrowed, not replaced.
                let (whence, unit) = (old.whence.clone(), unit);
                self.set(item, id, met, unit, whence);
            }
            (_, Some(_)) => {}
            (_, None) => {
                let conflict = Conflict {
                    item,
                    fact: id,
                    stated: show_value(&old.value, old.unit.or(unit), id),
                    computed: format!("{} ({working})", show_value(&value, unit, id)),
                    at: old.whence.place(),
                    against: from.iter().find_map(|n| self.place_of(item, n)),
                };
                self.conflicts.push(conflict);
            }
        }
    }

    /// Where a fact of an item, or of the rig, was stated.
    fn place_of(&self, item: ItemId, name: &str) -> Option<(usize, usize)> {
        let id = fact(name);
        let own = self.facts.known(item, id).and_then(|k| k.whence.place());
        own.or_else(|| {
            let scope = catalogue().def(id).scope;
            let mut items = (0..self.facts.items(scope).len()).map(|index| ItemId { scope, index });
            items.find_map(|i| self.facts.known(i, id).and_then(|k| k.whence.place()))
        })
    }

    fn set(&mut self, item: ItemId, id: FactId, value: Value, unit: Option<Unit>, whence: Whence) {
        let written = self.facts.known(item, id).and_then(|k| k.written.clone());
        let known = Known {
            value,
            whence,
            unit,
            written,
        };
        self.facts.set(item, id, known);
    }
}

/// A value in words, for messages.
fn show_value(value: &Value, unit: Option<Unit>, id: FactId) -> String {
    let def = catalogue().def(id);
    crate::facts::show_value(value, unit, def)
}

/// Zero, exactly.
pub(super) fn zero() -> Interval {
    Interval::exactly(Exact::ZERO)
}

/// A whole number, exactly.
pub(super) fn whole(n: usize) -> Interval {
    Interval::exactly(Exact::from_int(i64::try_from(n).unwrap_or(i64::MAX)))
}

/// The parts of a sum in words: the first dozen, then how many more there are.
pub(super) fn joined(words: &[String], between: &str) -> String {
    const MOST: usize = 12;
    let shown = words.get(..MOST).unwrap_or(words).join(between);
    match words.len().checked_sub(MOST) {
        Some(more) if more > 0 => format!("{shown}{between}{more} more"),
        _ => shown,
    }
}
