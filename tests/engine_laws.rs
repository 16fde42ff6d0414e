//! What the engine guarantees for every rule of the built-in packs, whatever is known of a rig:
//! more knowledge never turns one decided outcome into another, a range's outcome is that of every
//! value in it, and the unit that a figure is written in never matters.

use pintle::engine::{Compiled, Outcome, compile, outcome};
use pintle::facts::{FactId, FactSet, ItemId, Kind, Known, Value, Whence, catalogue};
use pintle::pack::Library;
use pintle::proof::{Candidate, Space, blank_rig, set};
use pintle::quantity::{Interval, Unit, parse_measure};
use proptest::prelude::*;
use proptest::test_runner::TestRng;
use rstest::rstest;
use std::sync::OnceLock;

/// All built-in packs, compiled once for all tests.
fn compiled() -> &'static Compiled<'static> {
    static LIBRARY: OnceLock<Library> = OnceLock::new();
    static ALL: OnceLock<Compiled<'static>> = OnceLock::new();
    ALL.get_or_init(|| {
        let library = LIBRARY.get_or_init(Library::built_in);
        let ids = library.ids();
        let packs = library
            .with_references(&ids)
            .expect("the built-in packs read");
        compile(packs).expect("the built-in packs compile")
    })
}

fn decided(o: Outcome) -> bool {
    matches!(o, Outcome::Met | Outcome::NotMet | Outcome::DoesNotApply)
}

/// The facts that a rule reads, each with the values that it tells apart.
fn axes(rule: usize) -> Vec<(FactId, Vec<Candidate>)> {
    let c = compiled();
    Space::of(&[&c.program], &[&c.program.rules[rule]]).axes
}

/// The outcome of a rule for a rig of which these facts are known.
fn outcome_for(rule: usize, known: &[(FactId, Value)]) -> Outcome {
    let c = compiled();
    let code = &c.program.rules[rule];
    let mut facts: FactSet = blank_rig(code.each);
    for (fact, value) in known {
        let candidate = Candidate {
            value: *value,
            unit: None,
        };
        set(&mut facts, *fact, candidate);
    }
    let looks = vec![None; c.program.looks.len()];
    outcome(&c.program, code, &facts, &looks, None)
}

/// A value that leaves several open: the range, the choice or the set around some of them.
fn widen(a: Value, b: Value) -> Value {
    match (a, b) {
        (Value::Number(x), Value::Number(y)) => Value::Number(x.hull(y)),
        (Value::OneOf(x), Value::OneOf(y)) => Value::OneOf(x | y),
        (Value::Set { has: h1, may: m1 }, Value::Set { has: h2, may: m2 }) => Value::Set {
            has: h1 & h2,
            may: m1 | m2,
        },
        _ => a,
    }
}

fn pick(rng: &mut TestRng, n: usize) -> usize {
    (rng.next_u64() % (n.max(1) as u64)) as usize
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    /// Each fact is left out, given as a range, or given exactly; then the missing ones are filled
    /// in and the ranges narrowed. What was decided stays as it was.
    #[test]
    fn more_knowledge_never_turns_a_decided_outcome(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let rule = pick(&mut rng, compiled().program.rules.len());
        let mut less = Vec::new();
        let mut more = Vec::new();
        for (fact, values) in axes(rule) {
            let exact = values[pick(&mut rng, values.len())].value;
            let other = values[pick(&mut rng, values.len())].value;
            more.push((fact, exact));
            match pick(&mut rng, 3) {
                0 => {}
                1 => less.push((fact, widen(exact, other))),
                _ => less.push((fact, exact)),
            }
        }
        let before = outcome_for(rule, &less);
        let after = outcome_for(rule, &more);
        let id = &compiled().program.rules[rule].id;
        prop_assert!(!decided(before) || before == after, "{id}: {before:?} became {after:?}");
    }

    /// The outcome of a range, where it is decided, is that of each value in it.
    #[test]
    fn a_ranges_outcome_is_that_of_every_value_in_it(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let rule = pick(&mut rng, compiled().program.rules.len());
        let axes = axes(rule);
        if axes.is_empty() {
            return Ok(());
        }
        let wide = pick(&mut rng, axes.len());
        let mut known: Vec<(FactId, Value)> = axes.iter().map(|(f, v)| (*f, v[pick(&mut rng, v.len())].value)).collect();
        let values = &axes[wide].1;
        let (a, b) = (values[pick(&mut rng, values.len())].value, values[pick(&mut rng, values.len())].value);
        known[wide].1 = widen(a, b);
        let over_range = outcome_for(rule, &known);
        if !decided(over_range) {
            return Ok(());
        }
        for sample in values {
            let inside = known[wide].1.meet(&sample.value) == Some(sample.value);
            if inside {
                let mut one = known.clone();
                one[wide].1 = sample.value;
                let id = &compiled().program.rules[rule].id;
                prop_assert_eq!(outcome_for(rule, &one), over_range, "{}", id);
            }
        }
    }

    /// A figure written in another unit of its dimension, exactly, gives the same outcome.
    #[test]
    fn units_never_change_an_outcome(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let rule = pick(&mut rng, compiled().program.rules.len());
        let mut one = Vec::new();
        let mut other = Vec::new();
        for (fact, values) in axes(rule) {
            let value = values[pick(&mut rng, values.len())].value;
            one.push((fact, value));
            other.push((fact, rewritten(fact, value, &mut rng)));
        }
        prop_assert_eq!(outcome_for(rule, &one), outcome_for(rule, &other));
    }
}

/// The value written out in some unit of its dimension and read again, where that unit can write
/// it in full.
fn rewritten(fact: FactId, value: Value, rng: &mut TestRng) -> Value {
    let Kind::Measure(dimension) = catalogue().def(fact).kind else {
        return value;
    };
    let units: Vec<Unit> = Unit::ALL
        .into_iter()
        .filter(|u| u.dimension() == dimension)
        .collect();
    let unit = units[pick(rng, units.len())];
    let Some(exact) = value.interval().is_exact().and_then(|x| unit.from_base(x)) else {
        return value;
    };
    let text = format!("{} {}", exact.to_decimal(12), unit.symbol());
    match parse_measure(&text, dimension) {
        Ok(m) if m.interval == value.interval() => Value::Number(m.interval),
        _ => value,
    }
}

/// 3,000 lb, 1.5 short tons and 1,360.77711 kg are the same weight (1 lb = 0.45359237 kg, exact by
/// the international agreement of 1959; NIST SP 811, appendix B).
#[rstest]
#[case("3,000 lb", Outcome::NotMet)]
#[case("1.5 short tons", Outcome::NotMet)]
#[case("1360.77711 kg", Outcome::NotMet)]
#[case("1.36077711 t", Outcome::NotMet)]
#[case("48,000 oz", Outcome::NotMet)]
#[case("1360.77710 kg", Outcome::DoesNotApply)]
#[case("2,999.9999 lb", Outcome::DoesNotApply)]
#[case("2,900 lb to 3,100 lb", Outcome::Unknown)]
#[case("3,000 lb to 3,100 lb", Outcome::NotMet)]
#[case("3,100 lb +/- 1%", Outcome::NotMet)]
#[case("2,950 lb +/- 2%", Outcome::Unknown)]
fn a_threshold_does_not_flip_with_the_unit(#[case] weight: &str, #[case] expected: Outcome) {
    let c = compiled();
    let rule = c
        .program
        .rules
        .iter()
        .find(|r| r.id == "us-ne/brakes-recreational-two-wheels")
        .expect("the rule");
    let fact = |n: &str| catalogue().find(n).expect("the fact");
    let mut facts = FactSet::new();
    let mut say = |name: &str, value: Value| {
        let known = Known {
            value,
            whence: Whence::Stated { start: 0, end: 0 },
            unit: None,
            written: None,
        };
        assert!(facts.set(ItemId::RIG, fact(name), known));
    };
    let weight = parse_measure(weight, pintle::quantity::Dimension::Mass).expect("a weight");
    say("trailer.gross_weight", Value::Number(weight.interval));
    say(
        "trailer.braked_wheels",
        Value::Number(Interval::exactly(pintle::quantity::Exact::ZERO)),
    );
    let boat = catalogue()
        .def(fact("trailer.kind"))
        .kind
        .choices()
        .iter()
        .position(|c| c.name == "boat")
        .expect("boats");
    say("trailer.kind", Value::OneOf(1 << boat));
    let looks = vec![None; c.program.looks.len()];
    assert_eq!(outcome(&c.program, rule, &facts, &looks, None), expected);
}
