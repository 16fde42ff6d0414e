//! Tie-downs of each load item: how many, and their aggregate working load limit.
//!
//! 49 CFR 393.106(d): the limit counts whole for a tie-down that passes over the item to the other
//! side of the vehicle, and half for one fixed to the item or returning to the same side.

use super::bench::{Bench, zero};
use crate::facts::{ItemId, Scope, Tri, Value};
use crate::quantity::{Exact, Interval, Unit, format_interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    for load in b.items(Scope::Load) {
        if !b.facts.is_listed(Scope::TieDown, load) {
            continue;
        }
        let tie_downs: Vec<ItemId> = b.facts.children(Scope::TieDown, load.index).collect();
        count(b, load, &tie_downs);
        aggregate(b, load, &tie_downs);
    }
}

/// How many tie-downs an entry stands for.
fn times(b: &Bench<'_>, tie_down: ItemId) -> Interval {
    if b.is_known(tie_down, "tie_down.count") {
        b.number_of(tie_down, "tie_down.count")
    } else {
        Interval::exactly(Exact::ONE)
    }
}

fn count(b: &mut Bench<'_>, load: ItemId, tie_downs: &[ItemId]) {
    let mut all = zero();
    let mut unmarked = zero();
    for t in tie_downs {
        let n = times(b, *t);
        all = all.add(n);
        unmarked = unmarked.add(match b.yes_of(*t, "tie_down.marked") {
            Tri::False => n,
            Tri::True => zero(),
            Tri::Unknown => zero().hull(n),
        });
    }
    let listed = || "the tie-downs listed".to_owned();
    b.put_of(
        load,
        "load.tie_down_count",
        Value::Number(all),
        None,
        listed(),
        &["tie_down.working_load_limit"],
    );
    b.put_of(
        load,
        "load.unmarked_tie_downs",
        Value::Number(unmarked),
        None,
        listed(),
        &["tie_down.marked"],
    );
}

/// The share of its limit that a tie-down counts for.
fn share(b: &Bench<'_>, tie_down: ItemId) -> (Interval, &'static str) {
    let half = Exact::new(1, 2).unwrap_or(Exact::ZERO);
    match b.choice_of(tie_down, "tie_down.path") {
        Some("over") => (Interval::exactly(Exact::ONE), ""),
        Some(_) => (Interval::exactly(half), "half of "),
        None => (
            Interval::exactly(half).hull(Interval::exactly(Exact::ONE)),
            "half or all of ",
        ),
    }
}

fn aggregate(b: &mut Bench<'_>, load: ItemId, tie_downs: &[ItemId]) {
    let mut total = zero();
    let mut words = Vec::new();
    let mut unit = None;
    for t in tie_downs {
        let own = b.number_of(*t, "tie_down.working_load_limit");
        let n = times(b, *t);
        let (part, word) = share(b, *t);
        total = total.add(own.mul(part).mul(n));
        let known = b
            .known_of(*t, "tie_down.working_load_limit")
            .and_then(|k| k.unit);
        unit = unit.or(known);
        let shown = b.show(*t, "tie_down.working_load_limit", known);
        let times = if n.is_exact() == Some(Exact::ONE) {
            String::new()
        } else {
            format!("{} × ", format_interval(n, Unit::One))
        };
        words.push(format!("{times}{word}{shown}"));
    }
    let unit = unit.unwrap_or(Unit::Pound);
    let working = if words.is_empty() {
        "no tie-downs".to_owned()
    } else {
        format!("{} = {}", words.join(" + "), format_interval(total, unit))
    };
    b.put_of(
        load,
        "load.aggregate_limit",
        Value::Number(total),
        Some(unit),
        working,
        &["tie_down.working_load_limit"],
    );
}
