//! The catalogue holds together: names, kinds, choices, and inputs of what is worked out.

use pintle::facts::{Kind, Origin, Scope, catalogue};
use pintle::mechanics::{INPUTS, inputs};
use std::collections::BTreeSet;

#[test]
fn names_are_unique_and_begin_with_their_scope() {
    let mut seen = BTreeSet::new();
    for (id, def) in catalogue().all() {
        assert!(seen.insert(def.name), "{} stands twice", def.name);
        assert_eq!(catalogue().find(def.name), Some(id));
        if let Some(prefix) = def.scope.prefix() {
            assert!(
                def.name.starts_with(&format!("{prefix}.")),
                "{} is said of each {}",
                def.name,
                def.scope.noun()
            );
        }
        let good = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_' || c == '.';
        assert!(def.name.chars().all(good), "{}", def.name);
        assert!(
            !def.label.is_empty() && !def.meaning.is_empty(),
            "{}",
            def.name
        );
    }
}

/// A fact must not also be the stem of others, or a rig file could not write both.
#[test]
fn no_fact_is_the_stem_of_another() {
    for (_, one) in catalogue().all() {
        for (_, other) in catalogue().all() {
            assert!(
                !other.name.starts_with(&format!("{}.", one.name)),
                "{} and {}",
                one.name,
                other.name
            );
        }
    }
}

#[test]
fn choices_are_unique_described_and_few_enough_for_a_mask() {
    for (_, def) in catalogue().all() {
        let names: BTreeSet<&str> = def.kind.choices().iter().map(|c| c.name).collect();
        assert_eq!(names.len(), def.kind.choices().len(), "{}", def.name);
        assert!(names.len() <= 128, "{}", def.name);
        assert!(
            def.kind.choices().iter().all(|c| !c.meaning.is_empty()),
            "{}",
            def.name
        );
        if matches!(def.kind, Kind::Choice(_) | Kind::Set(_)) {
            assert!(names.len() > 1, "{}", def.name);
            assert!(
                !names.contains("none") || matches!(def.kind, Kind::Choice(_)),
                "`none` says that a set is empty: {}",
                def.name
            );
        }
    }
}

#[test]
fn what_is_worked_out_says_from_what() {
    for (_, def) in catalogue()
        .all()
        .filter(|(_, d)| d.origin == Origin::WorkedOut)
    {
        assert!(
            !inputs(def.name).is_empty(),
            "{} has no inputs listed",
            def.name
        );
    }
    for (name, from) in INPUTS {
        assert!(catalogue().find(name).is_some(), "{name}");
        for input in *from {
            let def = catalogue().find(input).map(|f| catalogue().def(f));
            assert!(
                def.is_some(),
                "{name} is worked out from {input}, which is no fact"
            );
        }
    }
}

#[test]
fn every_scope_has_facts() {
    for scope in Scope::ALL {
        assert!(!catalogue().of_scope(scope).is_empty(), "{}", scope.noun());
    }
}
