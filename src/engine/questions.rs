//! Which question matters next: the facts that would settle most of what is undecided.

use super::check::Ruleset;
use super::eval::{Outcome, Truth, World, for_each_item, in_force, outcome_of_item, truth};
use super::explain::wanted;
use super::matters::{matters, unsettled};
use crate::facts::{Day, FactId, FactSet, ItemId, Origin, Scope, catalogue};
use crate::mechanics::{inputs, work_out};
use crate::pack::Standing;
use crate::quantity::Exact;
use std::collections::{BTreeMap, BTreeSet};

/// What to ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Asked {
    /// A fact of the rig or of one of its items.
    Fact(ItemId, FactId),
    /// The list of the items of a scope that belong to an item: is there a load, what axles?
    List(Scope, ItemId),
}

impl Asked {
    /// The dotted name of what is asked for, with the item's name in it where there is one.
    #[must_use]
    pub fn name(&self, facts: &FactSet) -> String {
        match *self {
            Asked::Fact(item, fact) => facts.name_of(item, fact),
            Asked::List(scope, owner) => {
                let key = scope.list_key().unwrap_or_default();
                match facts.stems(owner.scope).get(owner.index) {
                    Some(stem) if owner.scope != Scope::Rig => format!("{stem}.{key}"),
                    _ => key.to_owned(),
                }
            }
        }
    }
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
    /// How much it is worth: a rule that it may settle alone counts most, another less; the law more
    /// than a habit, and what may yet be broken more than what is kept in any case.
    pub worth: u32,
}

/// What a rule that a fact may settle alone is worth, against one that needs more.
const ALONE: u32 = 60;

/// What a rule is worth that somebody can settle by looking.
const LOOKED: u32 = 1;

/// How much a rule counts: one of the law, a habit of the trade, and one that is kept in any case, of
/// which it is only open whether it applies.
const LAW: u32 = 24;
const HABIT: u32 = 6;
const KEPT: u32 = 1;

/// How far it is asked for what a fact is worked out from, and for what that is worked out from.
const DEPTH: usize = 4;

/// Questions about a rig, the most telling first; none when no answer could change an outcome.
/// `stated` is the rig before anything is worked out; `skip` holds what was asked already. A fact
/// that was asked for in vain is asked for by what it is worked out from.
///
/// ```
/// use pintle::engine::{Ruleset, questions};
/// use pintle::facts::FactSet;
/// use pintle::pack::{Library, Region};
///
/// let library = Library::built_in();
/// let rules = Ruleset::new(&library, &[Region::find("US-NE").unwrap()], false).unwrap();
/// let looks = vec![None; rules.program().looks.len()];
/// let asked = questions(&rules, &FactSet::new(), &looks, None, &Default::default());
/// // The first question bears on more rules than the last.
/// assert!(asked[0].worth >= asked[asked.len() - 1].worth);
/// ```
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
    let bound: BTreeSet<usize> = rules
        .bindings()
        .iter()
        .flat_map(|b| b.rules.iter().copied())
        .collect();
    let mut found: BTreeMap<Asked, Question> = BTreeMap::new();
    let ask = Ask {
        facts: &facts,
        skip,
    };
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
            let outcome = outcome_of_item(p, rule, w);
            if !matches!(outcome, Outcome::Unknown | Outcome::Confirm) {
                return;
            }
            let confirm = outcome == Outcome::Confirm;
            let counts = match rules.packs().get(rule.pack).map(|p| p.standing) {
                _ if truth(p, rule.must, w) == Truth::True => KEPT,
                Some(Standing::Practice) => HABIT,
                _ => LAW,
            };
            if facts.items(item.scope).get(item.index).is_none() {
                for asked in ask.lists(item.scope) {
                    let worth = if confirm { LOOKED } else { ALONE };
                    note(&mut found, asked, index, !confirm, worth * counts);
                }
                return;
            }
            let can_ask = |fact: FactId| !ask.fact(item, fact, 0).is_empty();
            if confirm {
                // What may be looked at may be settled by facts as well.
                for fact in matters(p, rule, w, &unsettled(p, rule, w), &can_ask) {
                    for asked in ask.fact(item, fact, 0) {
                        note(&mut found, asked, index, false, LOOKED * counts);
                    }
                }
                return;
            }
            let (missing, alone) = wanted(p, rule, w);
            let telling = matters(p, rule, w, &missing, &can_ask);
            let share = ALONE
                / u32::try_from(telling.len())
                    .unwrap_or(ALONE)
                    .clamp(1, ALONE);
            for fact in telling {
                let alone = missing.iter().take(alone).any(|f| *f == fact);
                let worth = if alone { ALONE } else { share };
                for asked in ask.fact(item, fact, 0) {
                    note(&mut found, asked, index, alone, worth * counts);
                }
            }
        });
    }
    let mut out: Vec<Question> = found.into_values().collect();
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
        q.worth = q.worth.saturating_add(worth);
    }
    if alone {
        q.settles.insert(rule);
    }
}

/// What may be asked for.
struct Ask<'a> {
    facts: &'a FactSet,
    skip: &'a BTreeSet<Asked>,
}

impl Ask<'_> {
    fn open(&self, asked: Asked) -> Option<Asked> {
        (!self.skip.contains(&asked)).then_some(asked)
    }

    /// The lists that would tell whether there is such an item.
    fn lists(&self, scope: Scope) -> Vec<Asked> {
        let facts = self.facts;
        let lists = match scope {
            Scope::TieDown if facts.is_complete(Scope::Load) => {
                let loads = (0..facts.items(Scope::Load).len()).map(|index| ItemId {
                    scope: Scope::Load,
                    index,
                });
                let open = loads.filter(|l| !facts.is_listed(Scope::TieDown, *l));
                open.map(|l| Asked::List(scope, l)).collect()
            }
            Scope::TieDown => vec![Asked::List(Scope::Load, ItemId::RIG)],
            _ if facts.is_complete(scope) => Vec::new(),
            _ => vec![Asked::List(scope, ItemId::RIG)],
        };
        lists.into_iter().filter_map(|a| self.open(a)).collect()
    }

    /// What to ask for a missing fact: itself where it can be stated and was not asked for, else
    /// what it is worked out from.
    fn fact(&self, item: ItemId, fact: FactId, depth: usize) -> Vec<Asked> {
        let def = catalogue().def(fact);
        let at = match def.scope {
            scope if scope == item.scope => item,
            Scope::Load => match self.facts.items(item.scope).get(item.index) {
                // A tie-down's rule may speak of the item that it holds.
                Some(i) if item.scope == Scope::TieDown => ItemId {
                    scope: Scope::Load,
                    index: i.parent.unwrap_or(0),
                },
                _ => ItemId::RIG,
            },
            _ => ItemId::RIG,
        };
        if def.scope != at.scope {
            return self.of_each(item, def.scope, fact, depth);
        }
        if self.facts.value(at, fact).is_settled() {
            return Vec::new();
        }
        if def.origin != Origin::WorkedOut
            && let Some(asked) = self.open(Asked::Fact(at, fact))
        {
            return vec![asked];
        }
        if depth > DEPTH {
            return Vec::new();
        }
        let mut out: Vec<Asked> = Vec::new();
        let names = inputs(def.name).iter();
        let names = names.filter(|n| !n.starts_with("second_trailer.") || self.has_second());
        for input in names.filter_map(|n| catalogue().find(n)) {
            out.extend(self.fact(at, input, depth + 1));
        }
        out
    }

    /// Whether there surely is a second trailer, of which sums ask.
    fn has_second(&self) -> bool {
        let count = catalogue().find("combination.trailers");
        let least = count.and_then(|c| self.facts.value(ItemId::RIG, c).interval().lo);
        least.is_some_and(|n| n >= Exact::from_int(2))
    }

    /// A fact of items below this one: asked for of each, or the list of them.
    fn of_each(&self, item: ItemId, scope: Scope, fact: FactId, depth: usize) -> Vec<Asked> {
        let of_load = scope.parent() == Some(Scope::Load) && item.scope == Scope::Load;
        let (own, listed): (Vec<ItemId>, bool) = if of_load {
            let own = self.facts.children(scope, item.index).collect();
            (own, self.facts.is_listed(scope, item))
        } else {
            let count = self.facts.items(scope).len();
            let own = (0..count).map(|index| ItemId { scope, index }).collect();
            (own, self.facts.is_complete(scope))
        };
        if !listed {
            return match of_load {
                true => self.open(Asked::List(scope, item)).into_iter().collect(),
                false => self.lists(scope),
            };
        }
        let each = own.into_iter();
        each.flat_map(|i| self.fact(i, fact, depth + 1)).collect()
    }
}
