//! The day of the check, and build dates from model years.

use super::bench::{Bench, fact};
use crate::facts::{Day, ItemId, Value, format_day, parse_day};
use crate::quantity::{Exact, Interval};

pub(super) fn work_out(b: &mut Bench<'_>, on: Option<Day>) {
    if let Some(day) = on {
        let value = Value::Number(Interval::exactly(Exact::from_int(day)));
        // The day asked for stands over the day that the file states.
        if b.facts
            .value(ItemId::RIG, fact("trip.on"))
            .meet(&value)
            .is_some()
        {
            b.put_of(
                ItemId::RIG,
                "trip.on",
                value,
                None,
                "the day of the check".to_owned(),
                &[],
            );
        }
    }
    built(b, "trailer.model_year", "trailer.built");
    built(b, "tow_vehicle.model_year", "tow_vehicle.built");
    first_registered(b);
}

/// A trailer is not registered before it is built.
fn first_registered(b: &mut Bench<'_>) {
    let (day, from) = ("trailer.first_registered", "trailer.built");
    let earliest = b.number(from).lo;
    if earliest.is_none() || !b.is_known(ItemId::RIG, from) || b.is_known(ItemId::RIG, day) {
        return;
    }
    let working = "not before it was built".to_owned();
    let since = Interval {
        lo: earliest,
        hi: None,
    };
    b.put(day, since, None, working, &[from]);
}

/// A model year is not a calendar year. 49 CFR 565.12 lets the production of a model year run for
/// up to two years; so a model of year N was built between the start of N - 2 and the end of N + 1.
/// (Definition recalled from memory; the range is wide on purpose.)
fn built(b: &mut Bench<'_>, year: &str, built: &str) {
    if !b.is_known(ItemId::RIG, year) || b.is_known(ItemId::RIG, built) {
        return;
    }
    let years = b.number(year);
    let edge = |y: Option<Exact>, plus: i64, month_day: &str| {
        let y = y?.checked_add(Exact::from_int(plus))?.to_decimal(0);
        parse_day(&format!("{y}-{month_day}"))
    };
    let first = edge(years.lo, -2, "01-01");
    let last = edge(years.hi, 1, "12-31");
    let range = Interval::new(first.map(Exact::from_int), last.map(Exact::from_int));
    if let Some(range) = range {
        let show = |d: Option<Day>| d.map_or_else(|| "…".to_owned(), format_day);
        let working = format!(
            "model year, built at some time from {} to {}",
            show(first),
            show(last)
        );
        b.put(built, range, None, working, &[year]);
    }
}
