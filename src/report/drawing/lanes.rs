//! Where an item of the load may lie: the solver's answer for its position, to be drawn.

use super::scene::{Datum, Lane, Scene};
use super::{in_units, range_of};
use crate::engine::Ruleset;
use crate::engine::solve::{Standing, Subject, range};
use crate::facts::{Day, FactSet, ItemId, Scope, Value, catalogue, show_value};
use crate::quantity::{Exact, Interval};
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
        let datum = Datum::read(
            facts,
            range_of(facts, ItemId::RIG, "trailer.coupler_to_deck"),
        );
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
    let anyhow = found.anyway.len();
    if found.apart.len() < 2 {
        return None;
    }
    let shift = datum.shift()?.to_f64();
    let mut bands: Vec<(Option<f64>, Option<f64>, Standing)> = Vec::new();
    let mut spans: Vec<(Interval, Standing)> = Vec::new();
    let end = |x: Option<Exact>| x.map(|x| x.to_f64() + shift);
    for band in &found.apart {
        let i = band.value.interval();
        match (bands.last_mut(), spans.last_mut()) {
            (Some(drawn), Some(span)) if drawn.2 == band.standing => {
                drawn.1 = end(i.hi);
                span.0.hi = i.hi;
            }
            _ => {
                bands.push((end(i.lo), end(i.hi), band.standing));
                spans.push((i, band.standing));
            }
        }
    }
    let unit = subject.unit(stated);
    let show = |i: Interval| {
        let own = show_value(&Value::Number(i), unit, subject.def());
        match unit.and_then(|u| in_units(i, u, units)) {
            Some(other) => format!("{own} ({other})"),
            None => own,
        }
    };
    let of = |standing| {
        let spans = spans.iter().filter(|(_, s)| *s == standing);
        let words: Vec<String> = spans.map(|(i, _)| show(*i)).collect();
        words.join("; ")
    };
    let (allowed, open) = (of(Standing::Allowed), of(Standing::Unknown));
    let words = match (allowed.as_str(), open.as_str()) {
        ("", "") => "every place breaks a rule".to_owned(),
        ("", open) => format!("open at {open}; every other place breaks a rule"),
        (allowed, "") => format!("no rule is broken at {allowed}"),
        (allowed, open) => format!("no rule is broken at {allowed}; open at {open}"),
    };
    let words = match anyhow {
        0 => words,
        1 => format!("{words} (one rule is broken wherever it lies)"),
        n => format!("{words} ({n} rules are broken wherever it lies)"),
    };
    Some(Lane { bands, words })
}
