//! What the solver guarantees: every value inside an allowed band leaves no rule broken, just
//! beyond each end the named rule is broken, and margins agree with ranges.

use pintle::engine::solve::{Range, Standing, Subject, find_subject, margins, range};
use pintle::engine::{Outcome, Ruleset};
use pintle::facts::{FactSet, Value, catalogue};
use pintle::pack::{Library, Region};
use pintle::proof::{Space, set};
use pintle::quantity::{Exact, Interval};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use proptest::prelude::*;
use proptest::test_runner::TestRng;
use rstest::rstest;
use std::collections::BTreeSet;
use std::sync::OnceLock;

fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in)
}

fn pick(rng: &mut TestRng, n: usize) -> usize {
    (rng.next_u64() % (n.max(1) as u64)) as usize
}

/// The rules broken when the fact has a value.
fn broken(
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

fn number(x: Exact) -> Value {
    Value::Number(Interval::exactly(x))
}

/// Values of a band to try: its ends where they belong to it, and places between.
fn inside(band: &pintle::engine::solve::Band) -> Vec<Value> {
    let Value::Number(i) = band.value else {
        return vec![band.value];
    };
    let low = i.lo.unwrap_or(Exact::ZERO);
    let high =
        i.hi.unwrap_or_else(|| low.checked_add(Exact::from_int(5000)).unwrap_or(low));
    let mut out = Vec::new();
    if band.from_included {
        out.push(low);
    }
    if band.to_included && i.hi.is_some() {
        out.push(high);
    }
    for part in [1, 3, 7, 9] {
        let share = Exact::new(part, 10).unwrap_or(Exact::ZERO);
        let at = high
            .checked_sub(low)
            .and_then(|d| d.checked_mul(share))
            .and_then(|d| low.checked_add(d));
        if low != high {
            out.extend(at);
        }
    }
    out.into_iter().map(number).collect()
}

fn check_range(rules: &Ruleset<'_>, stated: &FactSet, subject: &Subject, found: &Range) {
    let tiny = Exact::new(1, 1_000_000).expect("a millionth");
    let whole = matches!(
        subject.def().kind,
        pintle::facts::Kind::Measure(pintle::quantity::Dimension::Count)
            | pintle::facts::Kind::Year
    );
    for band in &found.bands {
        let samples = if whole {
            let Value::Number(i) = band.value else {
                continue;
            };
            vec![i.lo, i.hi].into_iter().flatten().map(number).collect()
        } else {
            inside(band)
        };
        for value in samples {
            let breaks = broken(rules, stated, subject, value);
            if band.standing == Standing::Broken {
                assert!(
                    !breaks.is_empty(),
                    "{}: {value:?} should break a rule",
                    subject.name
                );
            } else {
                assert!(
                    breaks.is_empty(),
                    "{}: {value:?} breaks {breaks:?}",
                    subject.name
                );
            }
        }
        let (Value::Number(i), false) = (band.value, whole) else {
            continue;
        };
        if let Some(high) = i.hi.filter(|_| !band.above.is_empty()) {
            let beyond = if band.to_included {
                high.checked_add(tiny).expect("small")
            } else {
                high
            };
            let breaks = broken(rules, stated, subject, number(beyond));
            assert!(
                band.above.is_subset(&breaks),
                "{} above {high}",
                subject.name
            );
        }
        if let Some(low) = i.lo.filter(|_| !band.below.is_empty()) {
            let beyond = if band.from_included {
                low.checked_sub(tiny).expect("small")
            } else {
                low
            };
            let breaks = broken(rules, stated, subject, number(beyond));
            assert!(
                band.below.is_subset(&breaks),
                "{} below {low}",
                subject.name
            );
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn allowed_values_break_nothing_and_ends_are_where_rules_break(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let regions: Vec<&Region> = library().regions().into_iter().filter(|r| !r.is_country()).collect();
        let region = regions[pick(&mut rng, regions.len())];
        let rules = Ruleset::new(library(), &[region], false).expect("the packs compile");
        let p = rules.program();
        // A random rig from what some of the rules tell apart.
        let mut stated = FactSet::new();
        let mut used = Vec::new();
        for _ in 0..6 {
            let rule = &p.rules[pick(&mut rng, p.rules.len())];
            if rule.each.is_some() {
                continue;
            }
            for (fact, values) in Space::of(&[p], &[rule]).axes {
                if catalogue().def(fact).origin != pintle::facts::Origin::WorkedOut {
                    set(&mut stated, fact, values[pick(&mut rng, values.len())]);
                    used.push(fact);
                }
            }
        }
        if used.is_empty() {
            return Ok(());
        }
        let fact = used[pick(&mut rng, used.len())];
        let subject = find_subject(&stated, catalogue().def(fact).name, None).expect("a fact of the rig");
        if subject.fault().is_some() {
            return Ok(());
        }
        let looks = vec![None; p.looks.len()];
        let found = range(&rules, &stated, &looks, &subject);
        check_range(&rules, &stated, &subject, &found);
        if found.bands.iter().all(|b| b.standing == Standing::Broken) {
            prop_assert!(found.bands.iter().all(|b| b.rules.iter().any(|r| found.conflict.contains(r))));
            prop_assert!(!found.conflict.is_empty());
        }
    }
}

fn rig(text: &str) -> FactSet {
    read_rig(&SourceText::from_str("rig", text))
        .expect("the rig reads")
        .facts
}

/// Neb. Rev. Stat. § 60-6,246(2): a boat trailer without brakes may weigh anything below 3,000 lb.
#[rstest]
#[case(
    "rig: 1\ntrailer: {kind: boat, axles: [{braked: no}]}",
    "2,999.999 lb",
    true
)]
#[case(
    "rig: 1\ntrailer: {kind: boat, axles: [{braked: no}]}",
    "3,000 lb",
    false
)]
fn nebraska_without_brakes_ends_below_3000_lb(
    #[case] text: &str,
    #[case] weight: &str,
    #[case] allowed: bool,
) {
    let nebraska = Region::find("Nebraska").expect("a region");
    let rules = Ruleset::new(library(), &[nebraska], false).expect("the packs compile");
    let stated = rig(text);
    let subject = find_subject(&stated, "trailer.gross_weight", None).expect("a fact");
    let looks = vec![None; rules.program().looks.len()];
    let found = range(&rules, &stated, &looks, &subject);
    let weight = pintle::quantity::parse_measure(weight, pintle::quantity::Dimension::Mass)
        .expect("a weight");
    let x = weight.interval.is_exact().expect("exact");
    let band = found.bands.iter().find(|b| {
        let i = b.value.interval();
        i.contains(x) && (b.from_included || i.lo != Some(x)) && (b.to_included || i.hi != Some(x))
    });
    let standing = band.expect("the line has no holes").standing;
    assert_eq!(standing != Standing::Broken, allowed);
}

#[test]
fn margins_agree_with_the_range() {
    let nebraska = Region::find("Nebraska").expect("a region");
    let rules = Ruleset::new(library(), &[nebraska], false).expect("the packs compile");
    let stated =
        rig("rig: 1\ntrailer: {kind: boat, gross_weight: 2,550 lb, axles: [{braked: no}]}");
    let looks = vec![None; rules.program().looks.len()];
    let mut worked = stated.clone();
    let _ = pintle::mechanics::work_out(&mut worked, None);
    let near = margins(&rules, &stated, &worked, &looks, None);
    let weight = near
        .iter()
        .find(|m| m.subject.name == "trailer.gross_weight")
        .expect("a margin of weight");
    // 3,000 lb less 2,550 lb (Neb. Rev. Stat. § 60-6,246(2)).
    assert_eq!(
        pintle::quantity::format_exact(weight.gap, pintle::quantity::Unit::Pound),
        "450 lb"
    );
    assert_eq!(weight.beyond, Standing::Broken);
    assert!(weight.at_turn);
}
