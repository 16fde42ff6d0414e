//! Which question matters next: the facts that would settle most of what is undecided.

use super::check::Ruleset;
use super::eval::{Outcome, World, for_each_item, in_force, outcome_of_item};
use super::explain::explain;
use crate::facts::{Day, FactId, FactSet, ItemId, Origin, Scope, catalogue};
use crate::mechanics::{inputs, work_out};
use std::collections::{BTreeMap, BTreeSet};

/// What to ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Asked {
    /// A fact of the rig or of one of its items.
    Fact(ItemId, FactId),
    /// The list of the items of a scope that belong to an item: is there a load, what axles?
    List(Scope, ItemId),
}

/// A question, with what hangs on it.
#[derive(Clone, Debug)]
pub struct Question {
    /// What to ask for.
    pub asked: Asked,
    /// The rules that are open for want of it, by their places in the program.
    pub rules: BTreeSet<usize>,
    /// Of these, the rules that it may settle by itself.
    pub settles: BTreeSet<usize>,
    /// How much it is worth: a rule that it may settle alone counts one, another less.
    pub worth: u32,
}

impl Question {
    /// The dotted name of what is asked for, with the item's name in it where there is one.
    #[must_use]
    pub fn name(&self, facts: &FactSet) -> String {
        match self.asked {
            Asked::List(scope, owner) => {
                let key = scope.list_key().unwrap_or_default();
                match facts.items(owner.scope).get(owner.index) {
                    Some(i) if owner.scope != Scope::Rig => {
                        format!(
                            "{}.{}.{key}",
                            owner.scope.prefix().unwrap_or_default(),
                            i.name
                        )
                    }
                    _ => key.to_owned(),
                }
            }
            Asked::Fact(item, fact) => {
                let name = catalogue().def(fact).name;
                match (item.scope.prefix(), facts.items(item.scope).get(item.index)) {
                    (Some(prefix), Some(i)) => {
                        name.replacen(prefix, &format!("{prefix}.{}", i.name), 1)
                    }
                    _ => name.to_owned(),
                }
            }
        }
    }
}

/// What a rule that a fact may settle alone is worth, against one that needs more.
const ALONE: u32 = 60;

/// Questions about a rig, the most telling first; none when no answer could change an outcome.
/// `stated` is the rig before anything is worked out; `skip` holds what was already asked in vain.
#[must_use]
pub fn questions(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
    skip: &BTreeSet<Asked>,
) -> Vec<Question> {
    let mut facts = stated.clone();
    let _ = work_out(&mut facts, on);
    let p = rules.program();
    let mut found: BTreeMap<Asked, Question> = BTreeMap::new();
    let mut bound: BTreeSet<usize> = BTreeSet::new();
    bound.extend(
        rules
            .bindings()
            .iter()
            .flat_map(|b| b.rules.iter().copied()),
    );
    for index in bound {
        let Some(rule) = p.rules.get(index).filter(|r| in_force(r, on)) else {
            continue;
        };
        for_each_item(rule.each, &facts, |item| {
            let w = World {
                facts: &facts,
                item,
                looks,
            };
            if outcome_of_item(p, rule, w) != Outcome::Unknown {
                return;
            }
            if facts.items(item.scope).get(item.index).is_none() {
                for asked in lists_to_ask(&facts, item.scope) {
                    note(&mut found, asked, index, true, ALONE);
                }
                return;
            }
            let e = explain(p, rule, w);
            let share = ALONE
                / u32::try_from(e.missing.len().max(1))
                    .unwrap_or(ALONE)
                    .clamp(1, ALONE);
            for (place, fact) in e.missing.iter().enumerate() {
                let alone = e.alone > place;
                for asked in to_ask(&facts, item, *fact, 0) {
                    note(
                        &mut found,
                        asked,
                        index,
                        alone,
                        if alone { ALONE } else { share },
                    );
                }
            }
        });
    }
    let mut out: Vec<Question> = found
        .into_values()
        .filter(|q| !skip.contains(&q.asked))
        .collect();
    out.sort_by_key(|q| (std::cmp::Reverse(q.worth), q.asked));
    out
}

fn note(found: &mut BTreeMap<Asked, Question>, asked: Asked, rule: usize, alone: bool, worth: u32) {
    let q = found.entry(asked).or_insert(Question {
        asked,
        rules: BTreeSet::new(),
        settles: BTreeSet::new(),
        worth: 0,
    });
    if q.rules.insert(rule) {
        q.worth += worth;
    }
    if alone {
        q.settles.insert(rule);
    }
}

/// The lists that would tell whether there is such an item.
fn lists_to_ask(facts: &FactSet, scope: Scope) -> Vec<Asked> {
    match scope {
        Scope::TieDown if facts.is_complete(Scope::Load) => {
            let loads = (0..facts.items(Scope::Load).len()).map(|index| ItemId {
                scope: Scope::Load,
                index,
            });
            let open = loads.filter(|l| !facts.is_listed(Scope::TieDown, *l));
            open.map(|l| Asked::List(scope, l)).collect()
        }
        Scope::TieDown => vec![Asked::List(Scope::Load, ItemId::RIG)],
        _ => vec![Asked::List(scope, ItemId::RIG)],
    }
}

/// What to ask for a missing fact: itself where it can be stated, else what it is worked out from.
fn to_ask(facts: &FactSet, item: ItemId, fact: FactId, depth: usize) -> Vec<Asked> {
    let def = catalogue().def(fact);
    let at = if def.scope == item.scope {
        item
    } else {
        ItemId::RIG
    };
    if def.origin != Origin::WorkedOut {
        if def.scope == Scope::Rig || def.scope == item.scope {
            return vec![Asked::Fact(at, fact)];
        }
        // A fact of items below this one: ask for it of each, or for the list.
        let own: Vec<ItemId> = match def.scope.parent() {
            Some(Scope::Load) if item.scope == Scope::Load => {
                facts.children(def.scope, item.index).collect()
            }
            _ => (0..facts.items(def.scope).len())
                .map(|index| ItemId {
                    scope: def.scope,
                    index,
                })
                .collect(),
        };
        if own.is_empty() {
            return lists_to_ask(facts, def.scope);
        }
        let open = own
            .into_iter()
            .filter(|i| !facts.value(*i, fact).is_settled());
        return open.map(|i| Asked::Fact(i, fact)).collect();
    }
    if depth > 4 {
        return Vec::new();
    }
    let mut out: Vec<Asked> = Vec::new();
    for name in inputs(def.name) {
        if let Some(input) = catalogue().find(name)
            && !facts.value(at, input).is_settled()
        {
            out.extend(to_ask(facts, at, input, depth + 1));
        }
    }
    out
}
