//! What is varied: one fact of the rig, or of one of its items.

use crate::facts::{
    Day, FactDef, FactId, FactSet, ItemId, Kind, Known, Origin, Scope, Value, Whence, catalogue,
};
use crate::mechanics::{inputs, work_out};
use crate::quantity::{Exact, Interval, Unit};
use crate::rig::count_trailers;
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

/// Finds a fact of a rig by its dotted name. A fact of an item is named with the item between:
/// `load.kiln.position`, `axle.2.rating`; where there is only one item, its name may be left out.
///
/// # Errors
/// A sentence that says what is wrong with the name, with a suggestion where there is one.
pub fn find_subject(facts: &FactSet, name: &str, on: Option<Day>) -> Result<Subject, String> {
    let subject = |item, fact| Subject {
        on,
        ..Subject::of(facts, item, fact)
    };
    if let Some(fact) = catalogue().find(name) {
        let scope = catalogue().def(fact).scope;
        if scope == Scope::Rig {
            return Ok(subject(ItemId::RIG, fact));
        }
        return match facts.items(scope).len() {
            0 => Err(format!(
                "the rig has no {}, so `{name}` has nothing to stand for",
                scope.noun()
            )),
            1 => Ok(subject(ItemId { scope, index: 0 }, fact)),
            _ => Err(format!(
                "the rig has more than one {}; name one of these: {}",
                scope.noun(),
                of_items(facts, fact)
                    .map(|(n, _)| n)
                    .collect::<Vec<_>>()
                    .join(", ")
            )),
        };
    }
    let mut names: Vec<String> = Vec::new();
    for (fact, def) in catalogue().all() {
        if def.scope == Scope::Rig {
            names.push(def.name.to_owned());
            continue;
        }
        for (full, item) in of_items(facts, fact) {
            let as_written = || {
                let prefix = def.scope.prefix()?;
                let own = facts.items(item.scope).get(item.index)?.name.as_str();
                let rest = name.strip_prefix(prefix)?.strip_prefix('.')?;
                let wanted = rest.strip_prefix(own)?;
                Some(def.name.strip_prefix(prefix)? == wanted)
            };
            if full == name || as_written() == Some(true) {
                return Ok(subject(item, fact));
            }
            names.push(full);
        }
    }
    Err(
        match suggest::nearest(name, names.iter().map(String::as_str)) {
            Some(near) => format!("`{name}` is not a fact of this rig; did you mean `{near}`?"),
            None => format!(
                "`{name}` is not a fact of this rig; `pintle facts WORD` searches the vocabulary"
            ),
        },
    )
}

/// The names of a fact of each item.
fn of_items(facts: &FactSet, fact: FactId) -> impl Iterator<Item = (String, ItemId)> {
    let def = catalogue().def(fact);
    let scope = def.scope;
    let rest = scope.prefix().and_then(|p| def.name.strip_prefix(p));
    let stems = facts.stems(scope).into_iter().enumerate();
    stems.map(move |(index, stem)| {
        let name = format!("{stem}{}", rest.unwrap_or_default());
        (name, ItemId { scope, index })
    })
}

impl Subject {
    /// A fact of an item of this rig, on no day.
    #[must_use]
    pub fn of(facts: &FactSet, item: ItemId, fact: FactId) -> Subject {
        Subject {
            item,
            fact,
            name: facts.name_of(item, fact),
            on: None,
        }
    }

    /// The fact's entry in the catalogue.
    #[must_use]
    pub fn def(&self) -> &'static FactDef {
        catalogue().def(self.fact)
    }

    /// Why it cannot be varied, in a sentence; `None` when it can. Numbers, choices and yes/no can,
    /// unless they are only worked out; the day of the trip is the day of the check.
    #[must_use]
    pub fn fault(&self) -> Option<String> {
        let def = self.def();
        if def.origin == Origin::WorkedOut {
            let from = inputs(def.name);
            return Some(if from.is_empty() {
                format!(
                    "`{}` is worked out from other facts; vary one of those",
                    self.name
                )
            } else {
                format!(
                    "`{}` is worked out from {}; vary one of those",
                    self.name,
                    from.join(", ")
                )
            });
        }
        match def.kind {
            Kind::Text => Some(format!(
                "`{}` is text, of which there is no range",
                self.name
            )),
            Kind::Set(_) => Some(format!(
                "`{}` is a set of any of {} words; there is a range of numbers, choices and yes/no",
                self.name,
                def.kind.choices().len()
            )),
            _ if def.name == "trip.on" => Some(
                "the day of the trip is the day of the check; ask for another day with `--on`"
                    .to_owned(),
            ),
            _ => None,
        }
    }

    /// What the rig says of it now.
    #[must_use]
    pub fn now<'f>(&self, facts: &'f FactSet) -> Option<&'f Known> {
        facts.known(self.item, self.fact)
    }

    /// The unit that the rig uses for it, or else for anything of its dimension.
    #[must_use]
    pub fn unit(&self, facts: &FactSet) -> Option<Unit> {
        let written = self.now(facts).and_then(|k| k.unit);
        written.or_else(|| {
            let Kind::Measure(d) = self.def().kind else {
                return None;
            };
            let used = catalogue().of_scope(Scope::Rig).iter();
            used.filter_map(|f| facts.known(ItemId::RIG, *f)?.unit)
                .find(|u| u.dimension() == d)
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
        // What is said of a second trailer brings it into being.
        if self.def().name.starts_with("second_trailer.") {
            count_trailers(&mut facts);
        }
        let _ = work_out(&mut facts, self.on);
        facts
    }

    /// As [`Subject::with`], for a number.
    #[must_use]
    pub fn with_number(&self, stated: &FactSet, x: Exact) -> FactSet {
        self.with(stated, Value::Number(Interval::exactly(x)))
    }
}
