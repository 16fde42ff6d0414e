//! How far the rig is from the nearest value at which a rule begins, or ceases, to be broken.

use super::cells::{Cell, Cells, near};
use super::subject::Subject;
use super::turners::reads_any;
use super::worlds::changed_facts;
use crate::engine::{Outcome, Ruleset};
use crate::facts::{Day, FactId, FactSet, ItemId, Kind, Known, Origin, Value, Whence, catalogue};
use crate::mechanics::{INPUTS, work_out};
use crate::quantity::{Exact, Interval, Unit};
use rayon::prelude::*;
use std::collections::BTreeSet;

/// A turn near to where the rig is.
#[derive(Clone, Debug)]
pub struct Margin {
    /// The fact.
    pub subject: Subject,
    /// What it is now, in the base unit.
    pub now: Interval,
    /// The unit to tell it in.
    pub unit: Option<Unit>,
    /// The value at which the rules begin to stand otherwise.
    pub turn: Exact,
    /// Whether they do so at that value already, or only beyond it.
    pub at_turn: bool,
    /// Whether it lies above what the fact is now.
    pub upward: bool,
    /// How far off it is, in the base unit.
    pub gap: Exact,
    /// As [`super::Range::resolution`]: how far beyond it the turn may lie where it could not be placed
    /// exactly.
    pub resolution: Option<Exact>,
    /// The rules that are broken from there on and not here: their places in the program.
    pub breaks: BTreeSet<usize>,
    /// The rules that are open from there on and not here.
    pub opens: BTreeSet<usize>,
    /// The rules that are broken here, and from there on neither broken nor open.
    pub mends: BTreeSet<usize>,
    /// Whether one of these rules names the fact itself.
    pub direct: bool,
}

impl Margin {
    /// How far off the turn is, as a share of what the fact is now or at the turn, whichever is
    /// greater; for sorting.
    #[must_use]
    pub fn nearness(&self) -> f64 {
        let size = self.now.hi.or(self.now.lo).unwrap_or(Exact::ONE);
        let size = size.to_f64().abs().max(self.turn.to_f64().abs());
        self.gap.to_f64() / size.max(1e-9)
    }
}

/// The nearest turns of every number that a person can change, the nearest first, no turn further
/// off than the number is great. `stated` is the rig before anything is worked out, `facts` the same
/// with all worked out.
///
/// ```
/// use pintle::engine::{Ruleset, solve::margins};
/// use pintle::mechanics::work_out;
/// use pintle::pack::{Library, Region};
/// use pintle::quantity::{Unit, format_exact};
/// use pintle::rig::read_rig;
/// use pintle::source::SourceText;
///
/// let library = Library::built_in();
/// let rules = Ruleset::new(&library, &[Region::find("US-NE").unwrap()], false).unwrap();
/// let text = "rig: 1\ntrailer: {kind: boat, gross_weight: 2,550 lb, axles: [{braked: no}]}";
/// let rig = read_rig(&SourceText::from_str("rig.yaml", text)).unwrap();
/// let mut facts = rig.facts.clone();
/// work_out(&mut facts, None);
/// let near = margins(&rules, &rig.facts, &facts, &rules.looks(&rig.seen), None);
/// // 450 lb more and Nebraska asks for brakes (Neb. Rev. Stat. § 60-6,246(2)).
/// let weight = near.iter().find(|m| m.subject.name == "trailer.gross_weight").unwrap();
/// assert_eq!(format_exact(weight.gap, Unit::Pound), "450 lb");
/// ```
#[must_use]
pub fn margins(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    facts: &FactSet,
    looks: &[Option<bool>],
    on: Option<Day>,
) -> Vec<Margin> {
    let subjects = changeable(facts, on);
    let alone = alone(stated, facts, &subjects, on);
    let p = rules.program();
    let mut read: BTreeSet<FactId> = BTreeSet::new();
    for rule in rules.bindings().iter().flat_map(|b| &b.rules) {
        if let Some(rule) = p.rules.get(*rule) {
            for root in [rule.applies, rule.must] {
                p.leaves(root, &mut |leaf| {
                    p.leaf_facts(leaf, &mut |f| {
                        read.insert(f);
                    });
                });
            }
        }
    }
    let of = |subject: &Subject, alone: bool| {
        if alone && !read.contains(&subject.fact) {
            return Vec::new();
        }
        let now = subject.now(facts).map(|k| k.value.interval());
        let Some((now, (low, high))) = now.and_then(|i| Some((i, (i.lo?, i.hi?)))) else {
            return Vec::new();
        };
        let base = alone.then_some(facts);
        let cells = near(rules, stated, looks, subject, (low, high), base, &is_turn);
        around(rules, &cells, subject, now)
    };
    // Each fact is looked at by itself, so they are shared out among the processors.
    let all: Vec<(&Subject, bool)> = subjects.iter().zip(alone).collect();
    let found = all.par_iter().flat_map_iter(|(s, alone)| of(s, *alone));
    let mut out: Vec<Margin> = found.collect();
    out.sort_by(|a, b| a.nearness().total_cmp(&b.nearness()));
    out
}

/// For each fact, whether nothing else is worked out from it, as far as doubling it, making it great
/// and making it nothing tells. Facts that are not listed as inputs are tried together.
fn alone(stated: &FactSet, facts: &FactSet, subjects: &[Subject], on: Option<Day>) -> Vec<bool> {
    let listed: BTreeSet<&str> = INPUTS
        .iter()
        .flat_map(|(_, from)| from.iter().copied())
        .collect();
    let mut out = vec![false; subjects.len()];
    let free: Vec<usize> = (0..subjects.len())
        .filter(|i| {
            subjects
                .get(*i)
                .is_some_and(|s| !listed.contains(s.def().name))
        })
        .collect();
    let mut open = vec![free];
    while let Some(group) = open.pop() {
        let of: Vec<&Subject> = group.iter().filter_map(|i| subjects.get(*i)).collect();
        if [0, 2, 64]
            .into_iter()
            .all(|by| leaves_rest(stated, facts, &of, by, on))
        {
            for i in group {
                if let Some(slot) = out.get_mut(i) {
                    *slot = true;
                }
            }
        } else if group.len() > 1 {
            let (left, right) = group.split_at(group.len() / 2);
            open.push(left.to_vec());
            open.push(right.to_vec());
        }
    }
    out
}

/// Whether all but these facts stays as it is when each of them is multiplied.
fn leaves_rest(
    stated: &FactSet,
    facts: &FactSet,
    subjects: &[&Subject],
    by: i64,
    on: Option<Day>,
) -> bool {
    let mut changed = stated.clone();
    let mut own: BTreeSet<FactId> = BTreeSet::new();
    for subject in subjects {
        own.insert(subject.fact);
        let Some(known) = subject.now(facts) else {
            continue;
        };
        let scaled = known.value.interval().scale(Exact::from_int(by));
        let scaled = if scaled.is_exact() == Some(Exact::ZERO) {
            Interval::exactly(Exact::from_int(by))
        } else {
            scaled
        };
        let value = Value::Number(scaled);
        let known = Known {
            value,
            whence: Whence::Stated { start: 0, end: 0 },
            ..known.clone()
        };
        changed.set(subject.item, subject.fact, known);
    }
    let _ = work_out(&mut changed, on);
    changed_facts([facts, &changed].into_iter()).is_subset(&own)
}

/// Of margins that say the same, because one fact is a part of another, the one whose fact the
/// rules name; the order is kept.
#[must_use]
pub fn distinct(margins: &[Margin]) -> Vec<&Margin> {
    let alike = |a: &Margin, b: &Margin| {
        a.gap == b.gap
            && a.upward == b.upward
            && (&a.breaks, &a.opens, &a.mends) == (&b.breaks, &b.opens, &b.mends)
            && a.subject.def().kind.name() == b.subject.def().kind.name()
    };
    let mut out: Vec<&Margin> = Vec::new();
    for margin in margins {
        match out.iter_mut().find(|m| alike(m, margin)) {
            Some(kept) if margin.direct && !kept.direct => *kept = margin,
            Some(_) => {}
            None => out.push(margin),
        }
    }
    out
}

/// Parts of the names of figures that are as built, or as the maker rates them.
const AS_BUILT: [&str; 25] = [
    "seats",
    "rating",
    "max_pressure",
    "placard",
    "gvwr",
    "gcwr",
    "payload",
    "load_limit",
    "load_index",
    "capacity",
    "coupler_to",
    "wheelbase",
    "empty_",
    "curb_weight",
    "wheels",
    "hitch.overhang",
    "kingpin",
    "width_over",
    "body_length",
    "trailer.length",
    "tow_vehicle.length",
    "ball_",
    "lamp_height",
    "reflector_height",
    "axle_count",
];

/// The numbers that a person can change: weights, lengths, speeds, pressures and counts that are
/// known; ratings, and what is as it was built, left out.
fn changeable(facts: &FactSet, on: Option<Day>) -> Vec<Subject> {
    let mut out = Vec::new();
    for (fact, def) in catalogue().all() {
        let varies = matches!(def.kind, Kind::Measure(_)) && def.origin != Origin::WorkedOut;
        let built = |w: &&str| def.name.contains(*w) && !def.name.contains("working");
        let built = AS_BUILT.iter().any(built);
        if !varies || built {
            continue;
        }
        for index in 0..facts.items(def.scope).len() {
            let item = ItemId {
                scope: def.scope,
                index,
            };
            // What is worked out to be nothing is not there to be changed.
            let is_there = |k: &Known| match k.whence {
                Whence::Missing => false,
                Whence::Stated { .. } => true,
                Whence::WorkedOut(_) => k.value.interval().is_exact() != Some(Exact::ZERO),
            };
            if facts.known(item, fact).is_some_and(is_there) {
                out.push(Subject {
                    on,
                    ..Subject::of(facts, item, fact)
                });
            }
        }
    }
    out
}

/// How a rule turns from one place to the next.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Turned {
    Breaks,
    Opens,
    Mends,
}

/// What is told of a rule that comes out so here and so there; nothing of one that is settled there as
/// kept, or as of no concern, having been open here.
fn turned(here: Outcome, there: Outcome) -> Option<Turned> {
    match (here, there) {
        (Outcome::NotMet, Outcome::NotMet) | (Outcome::Unknown, Outcome::Unknown) => None,
        (_, Outcome::NotMet) => Some(Turned::Breaks),
        (_, Outcome::Unknown) => Some(Turned::Opens),
        (Outcome::NotMet, _) => Some(Turned::Mends),
        _ => None,
    }
}

/// Whether anything is told of the way from one place to the other.
fn is_turn(here: &[Outcome], there: &[Outcome]) -> bool {
    let mut pairs = here.iter().zip(there);
    pairs.any(|(h, t)| turned(*h, *t).is_some())
}

/// Whether a cell holds a value that lies within `now`.
fn meets(cell: &Cell, now: Interval) -> bool {
    let Value::Number(i) = cell.value else {
        return false;
    };
    let reaches =
        |end: Option<Exact>, included: bool, other: Option<Exact>, up: bool| match (end, other) {
            (Some(e), Some(o)) if e == o => included,
            (Some(e), Some(o)) => (e > o) == up,
            _ => true,
        };
    reaches(i.hi, cell.to_included, now.lo, true)
        && reaches(i.lo, cell.from_included, now.hi, false)
}

/// The nearest turn on either side.
fn around(rules: &Ruleset<'_>, found: &Cells, subject: &Subject, now: Interval) -> Vec<Margin> {
    let cells = &found.cells;
    let Some(first) = cells.iter().position(|c| meets(c, now)) else {
        return Vec::new();
    };
    let last = cells.iter().rposition(|c| meets(c, now)).unwrap_or(first);
    let (below, rest) = cells.split_at(first);
    let (here, above) = rest.split_at((last + 1).saturating_sub(first).min(rest.len()));
    let Some(own) = here.first().map(|c| &c.outcomes) else {
        return Vec::new();
    };
    // Of what is known as a range that holds a turn there is no telling how far that is.
    if here
        .iter()
        .any(|c| is_turn(own, &c.outcomes) || is_turn(&c.outcomes, own))
    {
        return Vec::new();
    }
    let turn = |c: &&Cell| is_turn(own, &c.outcomes);
    let sides = [
        (false, below.iter().rev().find(turn), now.lo),
        (true, above.iter().find(turn), now.hi),
    ];
    let told = |(upward, cell, from): (bool, Option<&Cell>, Option<Exact>)| {
        let (cell, from) = (cell?, from?);
        let i = cell.value.interval();
        let (turn, at_turn) = match upward {
            true => (i.lo?, cell.from_included),
            false => (i.hi?, cell.to_included),
        };
        let of = |wanted: Turned| -> BTreeSet<usize> {
            let pairs = own.iter().zip(&cell.outcomes).zip(&found.rules);
            pairs
                .filter(|((h, t), _)| turned(**h, **t) == Some(wanted))
                .map(|(_, rule)| *rule)
                .collect()
        };
        let (breaks, opens, mends) = (of(Turned::Breaks), of(Turned::Opens), of(Turned::Mends));
        let named = BTreeSet::from([subject.fact]);
        let mut all = breaks.iter().chain(&opens).chain(&mends);
        Some(Margin {
            direct: all.any(|r| reads_any(rules.program(), *r, &named)),
            subject: subject.clone(),
            now,
            unit: found.unit,
            turn,
            at_turn,
            upward,
            gap: turn.checked_sub(from)?.abs(),
            resolution: found.resolution,
            breaks,
            opens,
            mends,
        })
    };
    sides.into_iter().filter_map(told).collect()
}
