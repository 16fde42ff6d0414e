//! How long it takes to read the packs, to compile them, and to check a rig.
//!
//! Run with `cargo bench`. The ratio to watch is `check/all` against `check/one` in the same run.

use criterion::{Criterion, criterion_group, criterion_main};
use pintle::engine::Ruleset;
use pintle::engine::solve::{find_subject, range};
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
    }
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(20);
    targets = measure
}
criterion_main!(benches);
