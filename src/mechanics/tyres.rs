//! Tyres: load capacity against the axle's share, rated speed, pressure of the load range, age.

use super::bench::{Bench, Conflict, fact, joined, whole, zero};
use super::brakes::wheels_of_axles;
use super::ratings::used_of;
use super::tyre_tables::{ST_PRESSURES, load_index, load_range_pressure, st_row, symbol_speed};
use crate::facts::{ItemId, MadeIn, Scope, Value, Whence, format_day, parse_week_code};
use crate::quantity::{Exact, Interval, Unit, format_interval};

pub(super) fn work_out(b: &mut Bench<'_>) {
    let wheels = wheels_of_axles(b);
    let all = Borne::by(b, b.items(Scope::Axle), &wheels);
    for tyre in b.items(Scope::Tyre) {
        speed(b, tyre);
        pressure_of_range(b, tyre);
        age(b, tyre);
        let own = stated_axles(b, tyre).map(|axles| Borne::by(b, axles, &wheels));
        let borne = own.as_ref().unwrap_or(&all);
        capacity(b, tyre, borne.wheels);
        load(b, tyre, borne);
        used_of(b, tyre, "tyre.load_used", "tyre.load", "tyre.capacity");
    }
}

fn amount(unit: Unit, n: i64) -> Exact {
    unit.to_base(Exact::from_int(n)).unwrap_or(Exact::ZERO)
}

fn speed(b: &mut Bench<'_>, tyre: ItemId) {
    let symbol = "tyre.speed_symbol";
    let Some(letter) = b.choice_of(tyre, symbol) else {
        return;
    };
    if let Some(kmh) = symbol_speed(letter) {
        let value = Interval::exactly(amount(Unit::KilometerPerHour, kmh));
        b.put_number(
            tyre,
            "tyre.rated_speed",
            value,
            Unit::KilometerPerHour,
            format!("speed symbol {letter}"),
            &[symbol],
        );
    } else if b.choice_of(tyre, "tyre.type") == Some("st") {
        let value = Interval::exactly(amount(Unit::MilePerHour, 65));
        b.put_number(
            tyre,
            "tyre.rated_speed",
            value,
            Unit::MilePerHour,
            "an ST tyre without a speed symbol".to_owned(),
            &[symbol],
        );
    }
}

fn pressure_of_range(b: &mut Bench<'_>, tyre: ItemId) {
    let range = b.choice_of(tyre, "tyre.load_range");
    let Some((letter, psi)) = range.and_then(|r| Some((r, load_range_pressure(r)?))) else {
        return;
    };
    // What the sidewall says stands before the table.
    if b.choice_of(tyre, "tyre.type") == Some("st") && !b.is_stated(tyre, "tyre.max_pressure") {
        let value = Interval::exactly(amount(Unit::Psi, psi));
        b.put_number(
            tyre,
            "tyre.max_pressure",
            value,
            Unit::Psi,
            format!("ST tyre of load range {letter}"),
            &["tyre.load_range"],
        );
    }
}

fn age(b: &mut Bench<'_>, tyre: ItemId) {
    let code = "tyre.date_code";
    let Some((written, at)) = b.known_of(tyre, code).and_then(|k| {
        let at = match k.whence {
            Whence::Stated { start, end } => Some((start, end)),
            _ => None,
        };
        Some((k.written.clone()?, at))
    }) else {
        return;
    };
    let Ok(made) = parse_week_code(&written) else {
        return;
    };
    let day = b.number("trip.on");
    let seconds = |i: Interval| i.scale(amount(Unit::Day, 1));
    let latest = Interval::exactly(Exact::from_int(made.latest));
    let MadeIn { earliest, .. } = made;
    let made_on = Interval {
        lo: earliest.map(Exact::from_int),
        hi: latest.hi,
    };
    let age = seconds(day.sub(made_on));
    if age.hi.is_some_and(Exact::is_negative) {
        let on = day
            .hi
            .and_then(|d| d.to_decimal(0).parse().ok())
            .map_or_else(String::new, format_day);
        b.conflicts.push(Conflict {
            item: tyre,
            fact: fact(code),
            stated: written,
            computed: format!("a week before the day of the check, {on} (it was {made})"),
            at,
            against: None,
        });
        return;
    }
    if b.is_known(ItemId::RIG, "trip.on") && !b.is_stated(tyre, "tyre.age") {
        b.put_number(
            tyre,
            "tyre.age",
            age.max(zero()),
            Unit::Year,
            made.to_string(),
            &[code, "trip.on"],
        );
    }
}

/// What the axles that a tyre entry may stand on ask of each tyre.
struct Borne {
    /// Wheels on an axle.
    wheels: Option<Interval>,
    /// The weight on a wheel.
    load: Option<Interval>,
    working: String,
}

impl Borne {
    fn by(b: &Bench<'_>, axles: Vec<ItemId>, wheels: &[Interval]) -> Borne {
        let unit = b.mass_unit();
        let on = |a: &ItemId| wheels.get(a.index).copied();
        let share = |a: &ItemId| Some(b.known_number(*a, "axle.weight")?.div(on(a)?));
        let shares: Option<Vec<Interval>> = axles.iter().map(share).collect();
        let words: Vec<String> = axles
            .iter()
            .filter_map(|a| {
                let weight = b.show(*a, "axle.weight", Some(unit));
                let n = format_interval(on(a)?, Unit::One);
                Some(format!("{} {weight} ÷ {n}", b.name(*a)))
            })
            .collect();
        let listed = b.facts.is_complete(Scope::Axle);
        Borne {
            wheels: axles.iter().filter_map(on).reduce(Interval::hull),
            load: shares
                .and_then(|s| s.into_iter().reduce(Interval::hull))
                .filter(|_| listed),
            working: joined(&words, ", "),
        }
    }
}

/// The axles that a tyre entry is stated to stand on. There must be such an axle.
fn stated_axles(b: &mut Bench<'_>, tyre: ItemId) -> Option<Vec<ItemId>> {
    let stated = b.known_number(tyre, "tyre.axle")?;
    let axles = b.items(Scope::Axle);
    if !b.facts.is_complete(Scope::Axle) {
        return Some(Vec::new());
    }
    if let Some(there) = Interval::new(Some(Exact::ONE), whole(axles.len()).hi) {
        let value = Value::Number(there);
        let working = "the axles listed".to_owned();
        b.put_of(tyre, "tyre.axle", value, None, working, &["axle.rating"]);
    }
    let among = |a: &ItemId| {
        let n = whole(a.index.saturating_add(1)).is_exact();
        n.is_some_and(|n| stated.contains(n))
    };
    Some(axles.into_iter().filter(among).collect())
}

/// The load of an index; a range between two of them when the index is a range.
fn by_index(b: &Bench<'_>, tyre: ItemId, name: &str) -> Option<Interval> {
    let index = b.known_number(tyre, name)?;
    let kg = |i: Option<Exact>| load_index(i?.to_decimal(0).parse().ok()?).map(Exact::from_int);
    Interval::new(Some(kg(index.lo)?), Some(kg(index.hi)?))
}

/// The load, kg, that the table gives for an ST size at a pressure: between two columns, between
/// their loads; no more than the last column however high the pressure.
fn by_pressure(row: [Option<i64>; 4], pressure: Interval) -> Interval {
    let columns: Vec<(Exact, Exact)> = ST_PRESSURES
        .into_iter()
        .zip(row)
        .filter_map(|(psi, lb)| Some((amount(Unit::Psi, psi), amount(Unit::Pound, lb?))))
        .collect();
    let last = columns.last().map_or(Exact::ZERO, |c| c.1);
    let reached = |at: Exact| columns.iter().filter(|c| c.0 <= at).map(|c| c.1).max();
    let above = |at: Exact| columns.iter().filter(|c| c.0 >= at).map(|c| c.1).min();
    Interval {
        lo: Some(pressure.lo.and_then(reached).unwrap_or(Exact::ZERO)),
        hi: Some(pressure.hi.and_then(above).unwrap_or(last)),
    }
}

fn capacity(b: &mut Bench<'_>, tyre: ItemId, wheels: Option<Interval>) {
    let two = Interval::exactly(Exact::from_int(2));
    let single = wheels == Some(two);
    let mut unit = b.unit_of(tyre, "tyre.load_limit").unwrap_or(Unit::Pound);
    let mut words: Vec<String> = Vec::new();
    let marked = match (
        b.known_number(tyre, "tyre.load_limit"),
        by_index(b, tyre, "tyre.load_index"),
    ) {
        (Some(limit), _) => {
            words.push(format!(
                "sidewall {}",
                b.show(tyre, "tyre.load_limit", Some(unit))
            ));
            Some(limit)
        }
        (None, Some(by)) => {
            words.push(format!(
                "load index {}: {}",
                format_interval(b.number_of(tyre, "tyre.load_index"), Unit::One),
                format_interval(by, Unit::Kilogram)
            ));
            Some(by)
        }
        (None, None) => None,
    };
    // In dual fitment a tyre carries less than the marked single load.
    let pair = by_index(b, tyre, "tyre.load_index_dual").or(marked.map(|m| Interval {
        lo: Some(Exact::ZERO),
        hi: m.hi,
    }));
    if !single {
        words.push("dual fitment".to_owned());
    }
    let size = b
        .known_of(tyre, "tyre.size")
        .and_then(|k| k.written.clone());
    let row = size.as_deref().and_then(st_row);
    let pressure = b.known_number(tyre, "tyre.pressure");
    let full = b.known_number(tyre, "tyre.max_pressure");
    let by_table = |fitted: Option<Interval>| {
        let at = pressure.or(full.filter(|_| fitted.is_none()))?;
        Some((at, by_pressure(row?, at)))
    };
    let of = |fitted: Option<Interval>, single: bool| match (fitted, by_table(fitted)) {
        (Some(a), Some((_, t))) => Some(a.min(t)),
        (Some(a), None) => Some(a),
        (None, Some((_, t))) if single => Some(t),
        (None, Some((_, t))) => Some(Interval {
            lo: Some(Exact::ZERO),
            hi: t.hi,
        }),
        (None, None) => None,
    };
    let may_be_single = wheels.is_none_or(|w| w.contains(Exact::from_int(2)));
    let value = match (may_be_single, single) {
        (_, true) => of(marked, true),
        (false, _) => of(pair, false),
        (true, false) => of(marked, true)
            .zip(of(pair, false))
            .map(|(one, two)| one.hull(two)),
    };
    let Some(value) = value else { return };
    let fitted = if may_be_single { marked } else { pair };
    if let Some((at, t)) = by_table(fitted) {
        let size = size.as_deref().unwrap_or("its size");
        let (at, t) = (
            format_interval(at, Unit::Psi),
            format_interval(t, Unit::Pound),
        );
        words.push(format!("{size} at {at}: {t}"));
        if fitted.is_none() {
            unit = Unit::Pound;
        }
    }
    b.put_number(
        tyre,
        "tyre.capacity",
        value,
        unit,
        words.join("; "),
        &["tyre.load_limit", "tyre.load_index"],
    );
}

fn load(b: &mut Bench<'_>, tyre: ItemId, borne: &Borne) {
    let Some(load) = borne.load else { return };
    let unit = b.unit_in("axle.weight").unwrap_or(Unit::Pound);
    let value = Value::Number(load.max(zero()));
    let from = ["axle.weight", "axle.wheels"];
    b.put_of(
        tyre,
        "tyre.load",
        value,
        Some(unit),
        borne.working.clone(),
        &from,
    );
}
