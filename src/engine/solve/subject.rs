//! What is varied: one fact of the rig, or of one of its items.

use crate::facts::{
    Day, FactDef, FactId, FactSet, ItemId, Known, Origin, Scope, Value, Whence, catalogue,
};
use crate::mechanics::work_out;
use crate::quantity::{Exact, Interval, Unit};
use crate::source::suggest;

/// A fact of an item, to be varied.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Subject {
    /// The item.
    pub item: ItemId,
    /// The fact.
    pub fact: FactId,
    /// The name it was asked for by: `trailer.gross_weight`, `load.kiln.position`.
    pub name: String,
    /// The day of the check.
    pub on: Option<Day>,
}

/// Finds a fact of a rig by name. A fact of an item is named with the item between:
/// `load.kiln.position`; where there is only one item, its name may be left out.
///
/// # Errors
/// A sentence that says what is wrong with the name, with a suggestion where there is one.
pub fn find_subject(facts: &FactSet, name: &str, on: Option<Day>) -> Result<Subject, String> {
    let subject = |item, fact, name: &str| Subject {
        item,
        fact,
        name: name.to_owned(),
        on,
    };
    if let Some(fact) = catalogue().find(name) {
        let scope = catalogue().def(fact).scope;
        let items = facts.items(scope);
        return match items.len() {
            _ if scope == Scope::Rig => Ok(subject(ItemId::RIG, fact, name)),
            0 => Err(format!(
                "the rig has no {}, so `{name}` has nothing to stand for",
                scope.noun()
            )),
            1 => Ok(subject(ItemId { scope, index: 0 }, fact, name)),
            _ => {
                let names: Vec<&str> = items.iter().map(|i| i.name.as_str()).collect();
                Err(format!(
                    "the rig has several; put the name of one of them in: {}",
                    names.join(", ")
                ))
            }
        };
    }
    for scope in Scope::ALL {
        let Some(rest) = scope
            .prefix()
            .and_then(|p| name.strip_prefix(p))
            .and_then(|r| r.strip_prefix('.'))
        else {
            continue;
        };
        for (index, item) in facts.items(scope).iter().enumerate() {
            let Some(own) = rest
                .strip_prefix(item.name.as_str())
                .and_then(|r| r.strip_prefix('.'))
            else {
                continue;
            };
            let full = format!("{}.{own}", scope.prefix().unwrap_or_default());
            if let Some(fact) = catalogue().find(&full) {
                return Ok(subject(ItemId { scope, index }, fact, name));
            }
        }
    }
    let known = catalogue().all().map(|(_, d)| d.name);
    Err(match suggest::nearest(name, known) {
        Some(near) => format!("`{name}` is not a fact; did you mean `{near}`?"),
        None => format!("`{name}` is not a fact; `pintle facts WORD` searches the vocabulary"),
    })
}

impl Subject {
    /// The fact's entry in the catalogue.
    #[must_use]
    pub fn def(&self) -> &'static FactDef {
        catalogue().def(self.fact)
    }

    /// Whether it can be varied: text cannot, and what is only worked out follows from the rest.
    #[must_use]
    pub fn can_vary(&self) -> bool {
        self.def().origin != Origin::WorkedOut
            && !matches!(self.def().kind, crate::facts::Kind::Text)
    }

    /// What the rig says of it now.
    #[must_use]
    pub fn now<'f>(&self, facts: &'f FactSet) -> Option<&'f Known> {
        facts.known(self.item, self.fact)
    }

    /// The unit to tell it in: the one it was written in, or else the base unit of its kind.
    #[must_use]
    pub fn unit(&self, facts: &FactSet) -> Option<Unit> {
        let written = self.now(facts).and_then(|k| k.unit);
        let any_mass = || {
            let crate::facts::Kind::Measure(d) = self.def().kind else {
                return None;
            };
            let used = catalogue().of_scope(Scope::Rig).iter();
            used.filter_map(|f| facts.known(ItemId::RIG, *f)?.unit)
                .find(|u| u.dimension() == d)
        };
        written.or_else(any_mass).or_else(|| match self.def().kind {
            crate::facts::Kind::Measure(d) => Some(d.base_unit()),
            _ => None,
        })
    }

    /// The rig as stated but for this fact, which has the value given, and all worked out anew.
    /// What the value contradicts gives way to it.
    #[must_use]
    pub fn with(&self, stated: &FactSet, value: Value) -> FactSet {
        let mut facts = stated.clone();
        let unit = self.unit(stated);
        let known = Known {
            value,
            whence: Whence::Stated { start: 0, end: 0 },
            unit,
            written: None,
        };
        facts.set(self.item, self.fact, known);
        let _ = work_out(&mut facts, self.on);
        facts
    }

    /// As [`Subject::with`], for a number.
    #[must_use]
    pub fn with_number(&self, stated: &FactSet, x: Exact) -> FactSet {
        self.with(stated, Value::Number(Interval::exactly(x)))
    }
}
