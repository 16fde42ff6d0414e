//! Rigs, and what comes out for them.

use pintle::engine::solve::Subject;
use pintle::engine::{Outcome, Ruleset};
use pintle::facts::{FactId, FactSet, Kind, Value, catalogue};
use pintle::pack::Library;
use pintle::proof::{Space, set};
use pintle::quantity::{Dimension, Exact, Interval};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRng};
use std::collections::BTreeSet;
use std::sync::OnceLock;

pub fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

pub fn pick(rng: &mut TestRng, n: usize) -> usize {
    (rng.next_u64() % (n.max(1) as u64)) as usize
}

/// The rules broken when the fact has a value.
pub fn broken(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    subject: &Subject,
    value: Value,
) -> BTreeSet<usize> {
    let facts = subject.with(stated, value);
    let looks = vec![None; rules.program().looks.len()];
    let outcomes = rules.outcomes(&facts, &looks, None);
    let bound: BTreeSet<usize> = rules
        .bindings()
        .iter()
        .flat_map(|b| b.rules.iter().copied())
        .collect();
    outcomes
        .iter()
        .enumerate()
        .filter(|(i, o)| **o == Outcome::NotMet && bound.contains(i))
        .map(|(i, _)| i)
        .collect()
}

pub fn number(x: Exact) -> Value {
    Value::Number(Interval::exactly(x))
}

pub fn is_whole(subject: &Subject) -> bool {
    matches!(
        subject.def().kind,
        Kind::Measure(Dimension::Count) | Kind::Year | Kind::Date
    )
}

/// So many random rigs, the same each time unless `PROPTEST_RNG_SEED` names others.
pub fn tried(cases: u32) -> ProptestConfig {
    let usual = ProptestConfig::with_cases(cases);
    ProptestConfig {
        failure_persistence: None,
        rng_seed: match usual.rng_seed {
            RngSeed::Random => RngSeed::Fixed(6),
            fixed @ RngSeed::Fixed(_) => fixed,
        },
        ..usual
    }
}

/// A random rig from what some of the rules tell apart, and the facts that it states.
pub fn random_rig(rules: &Ruleset<'_>, rng: &mut TestRng) -> (FactSet, Vec<FactId>) {
    let p = rules.program();
    let mut stated = FactSet::new();
    let mut used = Vec::new();
    for _ in 0..6 {
        let rule = &p.rules[pick(rng, p.rules.len())];
        if rule.each.is_some() {
            continue;
        }
        for (fact, values) in Space::of(&[p], &[rule]).axes {
            if catalogue().def(fact).origin != pintle::facts::Origin::WorkedOut {
                set(&mut stated, fact, values[pick(rng, values.len())]);
                used.push(fact);
            }
        }
    }
    (stated, used)
}

/// The demo rig without its slips, for which figures are worked out of many others.
pub fn demo() -> FactSet {
    let text = include_str!("../rigs/kiln-trailer.yaml");
    rig(&text.replace("size: 10 in", "size: 18 in"))
}

pub fn rig(text: &str) -> FactSet {
    read_rig(&SourceText::from_str("rig", text))
        .expect("the rig reads")
        .facts
}
