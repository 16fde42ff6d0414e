//! The catalogue: one entry a fact. Everything that names facts is made from it.

mod balance;
mod choices;
mod lamps;
mod load;
mod places;
mod ratings;
mod rig;
mod trailer;
mod tyres;
mod vehicle;

use super::kind::{FactDef, FactId, Kind, Origin, Scope};
use crate::quantity::Dimension;
use std::collections::HashMap;
use std::sync::OnceLock;

const MASS: Kind = Kind::Measure(Dimension::Mass);
const LENGTH: Kind = Kind::Measure(Dimension::Length);
const SPEED: Kind = Kind::Measure(Dimension::Speed);
const PRESSURE: Kind = Kind::Measure(Dimension::Pressure);
const TIME: Kind = Kind::Measure(Dimension::Time);
const ANGLE: Kind = Kind::Measure(Dimension::Angle);
const FORCE: Kind = Kind::Measure(Dimension::Force);
const SHARE: Kind = Kind::Measure(Dimension::Share);
const COUNT: Kind = Kind::Measure(Dimension::Count);

/// An entry without its scope, as the tables below write it.
#[derive(Clone, Copy)]
struct Entry(&'static str, Kind, Origin, &'static str, &'static str, bool);

const fn stated(
    name: &'static str,
    kind: Kind,
    label: &'static str,
    meaning: &'static str,
) -> Entry {
    Entry(name, kind, Origin::Stated, label, meaning, false)
}

const fn either(
    name: &'static str,
    kind: Kind,
    label: &'static str,
    meaning: &'static str,
) -> Entry {
    Entry(name, kind, Origin::Either, label, meaning, false)
}

const fn worked_out(
    name: &'static str,
    kind: Kind,
    label: &'static str,
    meaning: &'static str,
) -> Entry {
    Entry(name, kind, Origin::WorkedOut, label, meaning, false)
}

/// A length that may lie below zero, on the other side of the point that it is measured from.
const fn signed(entry: Entry) -> Entry {
    Entry(entry.0, entry.1, entry.2, entry.3, entry.4, true)
}

const SECTIONS: &[(Scope, &[Entry])] = &[
    (Scope::Rig, rig::RIG),
    (Scope::Rig, vehicle::VEHICLE),
    (Scope::Rig, trailer::TRAILER),
    (Scope::Rig, balance::BALANCE),
    (Scope::Rig, ratings::RATINGS),
    (Scope::Rig, lamps::LAMPS),
    (Scope::Rig, load::LOADING),
    (Scope::Load, load::LOAD),
    (Scope::TieDown, load::TIE_DOWN),
    (Scope::Axle, trailer::AXLE),
    (Scope::VehicleAxle, vehicle::VEHICLE_AXLE),
    (Scope::Tyre, tyres::TYRE),
];

/// The list of all facts, with look-up by name.
pub struct Catalogue {
    facts: Vec<FactDef>,
    local: Vec<usize>,
    of_scope: [Vec<FactId>; Scope::ALL.len()],
    by_name: HashMap<&'static str, FactId>,
}

/// The one catalogue.
#[must_use]
pub fn catalogue() -> &'static Catalogue {
    static ONE: OnceLock<Catalogue> = OnceLock::new();
    ONE.get_or_init(Catalogue::build)
}

impl Catalogue {
    fn build() -> Catalogue {
        let mut c = Catalogue {
            facts: Vec::new(),
            local: Vec::new(),
            of_scope: Default::default(),
            by_name: HashMap::new(),
        };
        for (scope, entries) in SECTIONS {
            for Entry(name, kind, origin, label, meaning, signed) in *entries {
                let Ok(n) = u16::try_from(c.facts.len()) else {
                    break;
                };
                let id = FactId(n);
                c.facts.push(FactDef {
                    name,
                    label,
                    kind: *kind,
                    origin: *origin,
                    meaning,
                    scope: *scope,
                    signed: *signed,
                });
                let list = &mut c.of_scope[*scope as usize];
                c.local.push(list.len());
                list.push(id);
                c.by_name.insert(name, id);
            }
        }
        c
    }

    /// The fact of that name.
    #[must_use]
    pub fn find(&self, name: &str) -> Option<FactId> {
        self.by_name.get(name).copied()
    }

    /// The entry of a fact.
    #[must_use]
    pub fn def(&self, fact: FactId) -> &FactDef {
        &self.facts[fact.index()]
    }

    /// A fact's place among the facts of its scope.
    #[must_use]
    pub fn local(&self, fact: FactId) -> usize {
        self.local[fact.index()]
    }

    /// The facts of one scope, in the order of the tables.
    #[must_use]
    pub fn of_scope(&self, scope: Scope) -> &[FactId] {
        &self.of_scope[scope as usize]
    }

    /// All facts, in the order of the tables.
    pub fn all(&self) -> impl Iterator<Item = (FactId, &FactDef)> {
        self.facts
            .iter()
            .enumerate()
            .filter_map(|(i, d)| u16::try_from(i).ok().map(|i| (FactId(i), d)))
    }
}
