//! How long it takes to read the packs, to compile them, and to check a rig.
//!
//! Run with `cargo bench`. The ratios to watch, in the same run: `check/all` against `check/one`, and
//! `margins` against `range`. `range/all` answers for a route through every region, which is meant to
//! stay below 100 ms; `range from text/all` is the same with the packs read and compiled first, which is
//! all that `pintle range` does.

use criterion::{Criterion, criterion_group, criterion_main};
use pintle::engine::Ruleset;
use pintle::engine::solve::{find_subject, margins, range};
use pintle::mechanics::work_out;
use pintle::pack::{Library, Region};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use std::hint::black_box;

const RIG: &str = include_str!("../tests/rigs/kiln-trailer.yaml");
const DAY: i64 = 20_788; // 2026-12-01

fn measure(c: &mut Criterion) {
    let library = Library::built_in();
    let all: Vec<&Region> = library
        .regions()
        .into_iter()
        .filter(|r| !r.is_country())
        .collect();
    let one: Vec<&Region> = all.iter().copied().filter(|r| r.code == "US-NE").collect();
    let Ok(rig) = read_rig(&SourceText::from_str("kiln-trailer.yaml", RIG)) else {
        panic!("the demo rig reads");
    };
    let mut facts = rig.facts.clone();
    work_out(&mut facts, Some(DAY));
    c.bench_function("read/all packs", |b| {
        b.iter(|| Library::built_in().all().map(|p| p.len()))
    });
    c.bench_function("read/rig", |b| {
        b.iter(|| read_rig(black_box(&SourceText::from_str("rig", RIG))).is_ok())
    });
    c.bench_function("work out", |b| {
        b.iter(|| work_out(black_box(&mut rig.facts.clone()), Some(DAY)))
    });
    for (name, regions) in [("one", &one), ("all", &all)] {
        c.bench_function(&format!("compile/{name}"), |b| {
            b.iter(|| Ruleset::new(&library, regions, true).is_ok())
        });
        let Ok(rules) = Ruleset::new(&library, regions, true) else {
            panic!("the packs compile");
        };
        let looks = rules.looks(&rig.seen);
        c.bench_function(&format!("outcomes/{name}"), |b| {
            b.iter(|| rules.outcomes(black_box(&facts), &looks, Some(DAY)))
        });
        c.bench_function(&format!("check/{name}"), |b| {
            b.iter(|| rules.check(black_box(&facts), &rig.seen, DAY))
        });
        let Ok(subject) = find_subject(&rig.facts, "trailer.gross_weight", Some(DAY)) else {
            panic!("the fact is there");
        };
        c.bench_function(&format!("range/{name}"), |b| {
            b.iter(|| range(&rules, black_box(&rig.facts), &looks, &subject))
        });
        c.bench_function(&format!("range from text/{name}"), |b| {
            b.iter(|| {
                let library = Library::built_in_rules();
                let rules = Ruleset::new(&library, regions, true).ok()?;
                Some(
                    range(&rules, black_box(&rig.facts), &looks, &subject)
                        .bands
                        .len(),
                )
            })
        });
        c.bench_function(&format!("margins/{name}"), |b| {
            b.iter(|| margins(&rules, black_box(&rig.facts), &facts, &looks, Some(DAY)))
        });
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = measure
}
criterion_main!(benches);
