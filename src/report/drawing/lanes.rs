//! Where an item of the load may lie: the solver's answer for its position, to be drawn.

use super::scene::{Datum, Lane, Scene};
use super::{in_units, range_of};
use crate::engine::Ruleset;
use crate::engine::solve::{Standing, Subject, range};
use crate::facts::{Day, FactSet, ItemId, Scope, Value, catalogue, show_value};
use crate::quantity::Interval;
use crate::report::Units;

/// The most items that lanes are drawn for.
const MOST: usize = 8;

impl Scene {
    /// Adds to each item with a stated position the places where no rule is broken. `stated` is the
    /// rig before anything is worked out, `facts` after it.
    pub fn with_lanes(
        mut self,
        rules: &Ruleset<'_>,
        stated: &FactSet,
        facts: &FactSet,
        looks: &[Option<bool>],
        on: Option<Day>,
        units: Option<Units>,
    ) -> Scene {
        let datum = Datum::read(facts, range_of(facts, ItemId::RIG, "trailer.coupler_to_deck"));
        let Some(fact) = catalogue().find("load.position") else {
            return self;
        };
        for (index, item) in self.load.iter_mut().enumerate().take(MOST) {
            let id = ItemId {
                scope: Scope::Load,
                index,
            };
            if range_of(facts, id, "load.position").is_none() {
                continue;
            }
            let subject = Subject {
                item: id,
                fact,
                name: format!("load.{}.position", item.name),
                on,
            };
            item.lane = lane(rules, stated, looks, &subject, datum, units);
        }
        self
    }
}

/// The lane of one item; nothing where no rule turns with its place.
fn lane(
    rules: &Ruleset<'_>,
    stated: &FactSet,
    looks: &[Option<bool>],
    subject: &Subject,
    datum: Datum,
    units: Option<Units>,
) -> Option<Lane> {
    let found = range(rules, stated, looks, subject);
    if found.bands.len() < 2 {
        return None;
    }
    let shift = datum.shift()?.to_f64();
    let bands = found.bands.iter().map(|b| {
        let i = b.value.interval();
        let end = |x: Option<crate::quantity::Exact>| x.map(|x| x.to_f64() + shift);
        (end(i.lo), end(i.hi), b.standing)
    });
    let unit = subject.unit(stated);
    let show = |i: Interval| {
        let own = show_value(&Value::Number(i), unit, subject.def());
        match unit.and_then(|u| in_units(i, u, units)) {
            Some(other) => format!("{own} ({other})"),
            None => own,
        }
    };
    let of = |standing| {
        let words: Vec<String> = found.of(standing).map(|b| show(b.value.interval())).collect();
        words.join("; ")
    };
    let (allowed, open) = (of(Standing::Allowed), of(Standing::Unknown));
    let words = match (allowed.as_str(), open.as_str()) {
        ("", "") => "every place breaks a rule".to_owned(),
        ("", open) => format!("open at {open}; every other place breaks a rule"),
        (allowed, "") => format!("no rule is broken at {allowed}"),
        (allowed, open) => format!("no rule is broken at {allowed}; open at {open}"),
    };
    Some(Lane {
        bands: bands.collect(),
        words,
    })
}
