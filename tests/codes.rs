//! Every complaint has a code that is listed once, and every listed code is used.

use pintle::source::diagnostic::code_faults;
use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

const TABLES: [pintle::source::diagnostic::Codes; 6] = [
    pintle::source::CODES,
    pintle::rig::CODES,
    pintle::pack::CODES,
    pintle::proof::CODES,
    pintle::report::CODES,
    pintle::cli::CODES,
];

/// The code literals in the sources, `codes.rs` and the tables themselves left out.
fn used() -> BTreeSet<String> {
    fn visit(folder: &Path, out: &mut BTreeSet<String>) {
        for entry in fs::read_dir(folder).expect("the sources").flatten() {
            let path = entry.path();
            if path.is_dir() {
                visit(&path, out);
            } else if path.file_name().is_some_and(|n| n != "codes.rs") {
                let text = fs::read_to_string(&path).expect("a source file");
                // The table of the source layer stands in its mod.rs; there each code opens a pair.
                let body = text.split("pub const CODES").next().unwrap_or_default();
                for piece in body.split('"').skip(1).step_by(2) {
                    let is_code = piece.split_once("::").is_some_and(|(a, b)| {
                        [
                            "source", "schema", "read", "rig", "pack", "proof", "report", "cli",
                        ]
                        .contains(&a)
                            && !b.is_empty()
                            && b.chars()
                                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
                    });
                    if is_code {
                        out.insert(piece.to_owned());
                    }
                }
            }
        }
    }
    let mut out = BTreeSet::new();
    visit(
        Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/src")),
        &mut out,
    );
    out
}

#[test]
fn codes_are_unique_well_formed_and_described() {
    assert_eq!(code_faults(&TABLES), Vec::<String>::new());
}

#[test]
fn every_code_used_is_listed_and_every_code_listed_is_used() {
    let listed: BTreeSet<String> = TABLES
        .iter()
        .flat_map(|t| t.iter().map(|(c, _)| (*c).to_owned()))
        .collect();
    let used = used();
    let missing: Vec<&String> = used.difference(&listed).collect();
    let idle: Vec<&String> = listed.difference(&used).collect();
    assert!(missing.is_empty(), "used but not listed: {missing:?}");
    assert!(idle.is_empty(), "listed but not used: {idle:?}");
}
