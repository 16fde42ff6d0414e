//! Margins against what comes out on either side, and against ranges.

use crate::support::{is_whole, library, number, pick, random_rig, rig, tried};
use pintle::engine::solve::{Range, Standing, Subject, margins, range};
use pintle::engine::{Outcome, Ruleset};
use pintle::facts::{FactSet, Known, Whence};
use pintle::mechanics::work_out;
use pintle::pack::Region;
use pintle::quantity::Exact;
use proptest::prelude::*;
use std::collections::{BTreeMap, BTreeSet};

/// The rules broken at a place of the line, those left out that are broken everywhere.
fn broken_at(range: &Range, x: Exact) -> Option<BTreeSet<usize>> {
    let band = range.apart.iter().find(|b| {
        let i = b.value.interval();
        i.contains(x) && (b.from_included || i.lo != Some(x)) && (b.to_included || i.hi != Some(x))
    })?;
    Some(match band.standing {
        Standing::Broken => band.rules.clone(),
        _ => BTreeSet::new(),
    })
}

/// How every rule that binds comes out where the fact has this value.
fn outcomes(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    subject: &Subject,
    x: Exact,
) -> BTreeMap<usize, Outcome> {
    let facts = subject.with(stated, number(x));
    let looks = vec![None; rules.program().looks.len()];
    let found = rules.outcomes(&facts, &looks, subject.on);
    let bound = rules.bindings().iter().flat_map(|b| &b.rules);
    bound.map(|r| (*r, found[*r])).collect()
}

/// Whether this value contradicts what else the rig states; no rig file can say so.
fn contradicts(stated: &FactSet, subject: &Subject, x: Exact) -> bool {
    let mut facts = stated.clone();
    let known = Known {
        value: number(x),
        whence: Whence::Stated { start: 0, end: 0 },
        unit: None,
        written: None,
    };
    facts.set(subject.item, subject.fact, known);
    !work_out(&mut facts, subject.on).is_empty()
}

/// Holds each margin of a rig against what comes out on either side of its turn, and against the full
/// range of the same fact.
fn check_margins(rules: &Ruleset<'_>, stated: &FactSet) -> usize {
    let tiny = Exact::new(1, 10_000_000).expect("small");
    let looks = vec![None; rules.program().looks.len()];
    let mut worked = stated.clone();
    if !work_out(&mut worked, None).is_empty() {
        return 0;
    }
    let near = margins(rules, stated, &worked, &looks, None);
    for m in &near {
        let full = range(rules, stated, &looks, &m.subject);
        let whole = is_whole(&m.subject);
        let past = tiny.checked_add(m.resolution.unwrap_or(Exact::ZERO));
        let past = past.expect("small");
        let toward = if m.upward { past } else { past.neg() };
        let start = if m.upward { m.now.hi } else { m.now.lo }.expect("an end");
        let beyond = if m.at_turn {
            m.turn
        } else {
            m.turn.checked_add(toward).expect("small")
        };
        if contradicts(stated, &m.subject, beyond) {
            continue;
        }
        assert!(m.at_turn || !whole, "counts turn at a count: {m:?}");
        let here = outcomes(rules, stated, &m.subject, start);
        let there = outcomes(rules, stated, &m.subject, beyond);
        let of = |is: &dyn Fn(Outcome, Outcome) -> bool| -> BTreeSet<usize> {
            let all = here.iter().filter(|(r, h)| is(**h, there[*r]));
            all.map(|(r, _)| *r).collect()
        };
        use Outcome::{NotMet, Unknown};
        let breaks = of(&|h, t| h != NotMet && t == NotMet);
        let opens = of(&|h, t| h != Unknown && t == Unknown);
        let mends = of(&|h, t| h == NotMet && t != NotMet && t != Unknown);
        let found = (&m.breaks, &m.opens, &m.mends);
        if m.resolution.is_none() {
            assert_eq!((&breaks, &opens, &mends), found, "{m:?}");
        } else {
            // Another rule may turn within the stretch that a turn was placed to.
            assert!(
                found.0.is_subset(&breaks) && found.2.is_subset(&mends),
                "{m:?}"
            );
            assert!(found.1.is_subset(&opens), "{m:?}");
        }
        if full.resolution.is_some() {
            continue;
        }
        // The range says the same of what is broken, and that nothing turns on the way.
        let own = broken_at(&full, start).expect("the line has no holes");
        let then = broken_at(&full, beyond).expect("the line has no holes");
        assert!(breaks.iter().all(|r| then.contains(r)), "{m:?}");
        assert!(mends.iter().all(|r| own.contains(r) && !then.contains(r)));
        for part in [1, 5, 9] {
            let share = Exact::new(part, 10).expect("a share");
            let way = m.turn.checked_sub(start).and_then(|d| d.checked_mul(share));
            let x = way.and_then(|d| start.checked_add(d)).expect("small");
            let x = match (whole, m.upward) {
                (false, _) => x,
                (true, true) => x.floor(),
                (true, false) => x.ceil(),
            };
            assert_eq!(broken_at(&full, x), Some(own.clone()), "{m:?}");
        }
    }
    near.len()
}

#[test]
fn margins_agree_with_ranges_on_the_demo_rig() {
    let regions = ["Nebraska", "Ontario"].map(|r| Region::find(r).expect("a region"));
    let rules = Ruleset::new(library(), &regions, true).expect("the packs compile");
    let stated = rig(include_str!("../rigs/kiln-trailer.yaml"));
    assert!(check_margins(&rules, &stated) > 20);
}

proptest! {
    #![proptest_config(tried(600))]

    #[test]
    fn margins_agree_with_ranges_on_random_rigs(mut rng in any::<u64>().prop_perturb(|_, rng| rng)) {
        let regions: Vec<&Region> = library().regions().into_iter().filter(|r| !r.is_country()).collect();
        let region = regions[pick(&mut rng, regions.len())];
        let rules = Ruleset::new(library(), &[region], false).expect("the packs compile");
        let (stated, _) = random_rig(&rules, &mut rng);
        check_margins(&rules, &stated);
    }
}

#[test]
fn margins_agree_with_the_range() {
    let nebraska = Region::find("Nebraska").expect("a region");
    let rules = Ruleset::new(library(), &[nebraska], false).expect("the packs compile");
    let stated =
        rig("rig: 1\ntrailer: {kind: boat, gross_weight: 2,550 lb, axles: [{braked: no}]}");
    let looks = vec![None; rules.program().looks.len()];
    let mut worked = stated.clone();
    let _ = work_out(&mut worked, None);
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
    assert!(weight.at_turn && !weight.breaks.is_empty());
}
