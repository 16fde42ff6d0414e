//! Tie-downs of each load item: how many, how many are needed, their aggregate working load limit.
//!
//! 49 CFR 393.106(d): the limit counts whole for a tie-down that passes over the item to the other
//! side of the vehicle, and half for one fixed to the item or returning to the same side.

use super::bench::{Bench, joined, zero};
use super::default_limits::default_limit;
use super::formulas::ratio;
use crate::facts::{ItemId, Scope, Tri, Value};
use crate::quantity::{Compared, Exact, Interval, Unit, format_interval};

pub(super) const LIMIT: &str = "tie_down.working_load_limit";

pub(super) fn work_out(b: &mut Bench<'_>) {
    for t in b.items(Scope::TieDown) {
        default_of(b, t);
    }
    for load in b.items(Scope::Load) {
        needed_us(b, load);
        if !b.facts.is_listed(Scope::TieDown, load) {
            continue;
        }
        let tie_downs: Vec<ItemId> = b.facts.children(Scope::TieDown, load.index).collect();
        count(b, load, &tie_downs);
        let as_stated = |b: &Bench<'_>, t: ItemId| (b.number_of(t, LIMIT), b.show(t, LIMIT, None));
        aggregate(b, load, &tie_downs, "load.aggregate_limit", &as_stated);
        aggregate(
            b,
            load,
            &tie_downs,
            "load.aggregate_limit_us_default",
            &us_limit,
        );
        aggregate(
            b,
            load,
            &tie_downs,
            "load.aggregate_limit_marked",
            &marked_limit,
        );
    }
}

/// How many tie-downs an entry stands for.
pub(super) fn times(b: &Bench<'_>, tie_down: ItemId) -> Interval {
    b.known_number(tie_down, "tie_down.count")
        .unwrap_or(Interval::exactly(Exact::ONE))
}

/// "3 × " for an entry that stands for three, nothing for one.
pub(super) fn times_word(n: Interval) -> String {
    if n.is_exact() == Some(Exact::ONE) {
        String::new()
    } else {
        format!("{} × ", format_interval(n, Unit::One))
    }
}

fn count(b: &mut Bench<'_>, load: ItemId, tie_downs: &[ItemId]) {
    let mut all = zero();
    let mut unmarked = zero();
    for t in tie_downs {
        let n = times(b, *t);
        all = all.add(n);
        unmarked = unmarked.add(match marked(b, *t) {
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
        &[LIMIT],
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
    let half = ratio(1, 2);
    match b.choice_of(tie_down, "tie_down.path") {
        Some("over") => (Interval::exactly(Exact::ONE), ""),
        Some(_) => (Interval::exactly(half), "half of "),
        None => (
            Interval::exactly(half).hull(Interval::exactly(Exact::ONE)),
            "half or all of ",
        ),
    }
}

/// A tie-down's limit, kg, and in words.
type Limit<'f> = &'f dyn Fn(&Bench<'_>, ItemId) -> (Interval, String);

fn aggregate(b: &mut Bench<'_>, load: ItemId, tie_downs: &[ItemId], name: &str, limit: Limit<'_>) {
    let mut total = zero();
    let mut words = Vec::new();
    for t in tie_downs {
        let (own, shown) = limit(b, *t);
        let n = times(b, *t);
        let (part, word) = share(b, *t);
        total = total.add(own.mul(part).mul(n));
        words.push(format!("{}{word}{shown}", times_word(n)));
    }
    let unit = tie_downs
        .iter()
        .find_map(|t| b.unit_of(*t, LIMIT))
        .unwrap_or(Unit::Pound);
    let working = if words.is_empty() {
        "no tie-downs".to_owned()
    } else {
        format!(
            "{} = {}",
            joined(&words, " + "),
            format_interval(total, unit)
        )
    };
    b.put_number(load, name, total, unit, working, &[LIMIT]);
}

fn default_of(b: &mut Bench<'_>, t: ItemId) {
    let Some(size) = b.known_number(t, "tie_down.size") else {
        return;
    };
    let Some(material) = b.choice_of(t, "tie_down.material") else {
        return;
    };
    if let Some((limit, table)) = default_limit(material, size) {
        let shown = b.show(t, "tie_down.size", None);
        let working = format!("{table}, {shown}, by the table of 49 CFR 393.108");
        b.put_number(
            t,
            "tie_down.default_limit_us",
            limit,
            Unit::Pound,
            working,
            &["tie_down.size"],
        );
    }
}

/// Whether a tie-down carries a marking; a stated limit is the marked one unless it is said that
/// there is no marking.
fn marked(b: &Bench<'_>, t: ItemId) -> Tri {
    match b.yes_of(t, "tie_down.marked") {
        Tri::Unknown if b.is_known(t, LIMIT) && !b.is_known(t, "tie_down.marked") => Tri::True,
        other => other,
    }
}

/// Marked: as marked; unmarked: by the US tables.
fn us_limit(b: &Bench<'_>, t: ItemId) -> (Interval, String) {
    let (stated, default) = (
        b.number_of(t, LIMIT),
        b.number_of(t, "tie_down.default_limit_us"),
    );
    let by_table = || {
        format!(
            "{} by the table",
            b.show(t, "tie_down.default_limit_us", None)
        )
    };
    match marked(b, t) {
        Tri::True => (stated, b.show(t, LIMIT, None)),
        Tri::False => (default, by_table()),
        Tri::Unknown => (stated.hull(default), "not known".to_owned()),
    }
}

/// Marked: as marked; unmarked: nothing.
fn marked_limit(b: &Bench<'_>, t: ItemId) -> (Interval, String) {
    let stated = b.number_of(t, LIMIT);
    match marked(b, t) {
        Tri::True => (stated, b.show(t, LIMIT, None)),
        Tri::False => (zero(), "nothing (unmarked)".to_owned()),
        Tri::Unknown => (zero().hull(stated), "not known".to_owned()),
    }
}

/// 49 CFR 393.110: not blocked forward, one tie-down up to 5 ft and 1,100 lb, two up to 10 ft, one
/// more for each further 10 ft or part of it; blocked forward, one for each 10 ft or part of it.
fn needed_us(b: &mut Bench<'_>, load: ItemId) {
    let Some(length) = b.known_number(load, "load.length") else {
        return;
    };
    let blocked = b.yes_of(load, "load.blocked_forward");
    let feet = |n: i64| Unit::Foot.to_base(Exact::from_int(n)).unwrap_or(Exact::ONE);
    let whole = |n: i64| Interval::exactly(Exact::from_int(n));
    let tens = |x: Interval| x.div(Interval::exactly(feet(10))).ceil();
    let when_blocked = tens(length).max(whole(1));
    let beyond = length.sub(Interval::exactly(feet(10))).max(zero());
    let long = whole(2).add(tens(beyond));
    let light = Unit::Pound
        .to_base(Exact::from_int(1_100))
        .unwrap_or(Exact::ZERO);
    let weight = b
        .number_of(load, "load.weight")
        .at_most(Interval::exactly(light));
    let short = length.at_most(Interval::exactly(feet(5)));
    let free = match (short, weight) {
        (Compared::Never, _) | (_, Compared::Never) => long,
        (Compared::Always, Compared::Always) => whole(1),
        _ => long.hull(whole(1)),
    };
    let (needed, how) = match blocked {
        Tri::True => (
            when_blocked,
            "blocked forward: one for each 10 ft or part of it",
        ),
        Tri::False => (
            free,
            "not blocked forward: one up to 5 ft and 1,100 lb, else two, and one more for each 10 ft or part of it beyond the first 10 ft",
        ),
        Tri::Unknown => (when_blocked.hull(free), "blocked forward or not"),
    };
    let unit = b.unit_of(load, "load.weight").unwrap_or(Unit::Pound);
    let working = format!(
        "{} long, {}; {how}",
        b.show(load, "load.length", None),
        b.show(load, "load.weight", Some(unit))
    );
    b.put_of(
        load,
        "load.tie_downs_needed_us",
        Value::Number(needed),
        None,
        working,
        &["load.length"],
    );
}
