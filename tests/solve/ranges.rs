//! What is found for a range holds at and between its ends.

use crate::support::{broken, demo, is_whole, library, number, pick, random_rig, rig, tried};
use pintle::engine::Ruleset;
use pintle::engine::solve::{Range, Standing, Subject, find_subject, range};
use pintle::facts::{FactSet, ItemId, Value, Whence, catalogue};
use pintle::mechanics::work_out;
use pintle::pack::Region;
use pintle::quantity::Exact;
use proptest::prelude::*;
use rstest::rstest;

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
    let tiny = Exact::new(1, 100_000).expect("small");
    // An end that could not be placed exactly is drawn in by no more than the resolution.
    let wide = found.resolution.unwrap_or(Exact::ZERO);
    let tiny = tiny.checked_add(wide).expect("small");
    let whole = is_whole(subject);
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
            // Within the resolution of an end the graver of both sides is told.
            let near_end = |x: Exact| {
                let i = band.value.interval();
                [i.lo, i.hi].into_iter().flatten().any(|end| {
                    x.checked_sub(end).is_some_and(|d| d.abs() <= wide) && wide != Exact::ZERO
                })
            };
            if band.standing == Standing::Broken {
                if value.interval().is_exact().is_some_and(near_end) {
                    continue;
                }
                assert!(
                    band.rules.is_subset(&breaks),
                    "{}: {value:?} breaks {breaks:?}, not {:?}",
                    subject.name,
                    band.rules
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
            let beyond = if band.to_included || found.resolution.is_some() {
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
            let beyond = if band.from_included || found.resolution.is_some() {
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
    #![proptest_config(tried(600))]

    #[test]
    fn allowed_values_break_nothing_and_ends_are_where_rules_break(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let regions: Vec<&Region> = library().regions().into_iter().filter(|r| !r.is_country()).collect();
        let region = regions[pick(&mut rng, regions.len())];
        let rules = Ruleset::new(library(), &[region], false).expect("the packs compile");
        let p = rules.program();
        let (stated, used) = random_rig(&rules, &mut rng);
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

proptest! {
    #![proptest_config(tried(60))]

    #[test]
    fn ranges_hold_where_much_is_worked_out(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let regions: Vec<&Region> = library().regions().into_iter().filter(|r| !r.is_country()).collect();
        let region = regions[pick(&mut rng, regions.len())];
        let rules = Ruleset::new(library(), &[region], true).expect("the packs compile");
        let stated = demo();
        let mut worked = stated.clone();
        let _ = work_out(&mut worked, None);
        // Any fact of the rig or of an item of which something is known.
        let mut known = Vec::new();
        for (fact, def) in catalogue().all() {
            for index in 0..worked.items(def.scope).len() {
                let item = ItemId { scope: def.scope, index };
                let some = worked.known(item, fact).is_some_and(|k| k.whence != Whence::Missing);
                let name = worked.name_of(item, fact);
                let subject = Subject { item, fact, name, on: None };
                if some && subject.fault().is_none() {
                    known.push(subject);
                }
            }
        }
        let subject = &known[pick(&mut rng, known.len())];
        let looks = vec![None; rules.program().looks.len()];
        let found = range(&rules, &stated, &looks, subject);
        check_range(&rules, &stated, subject, &found);
    }
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
