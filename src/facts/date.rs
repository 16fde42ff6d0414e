//! Calendar days: `2026-12-01`, a month `2019-06` or a year `2019` that stand for all their days.

use crate::quantity::{Dimension, Measure, Unit};
use jiff::civil::Date;

/// A day, counted from 1970-01-01.
pub type Day = i64;

fn epoch_day(d: Date) -> Option<Day> {
    let epoch = Date::new(1970, 1, 1).ok()?;
    d.since(epoch).ok().map(|s| i64::from(s.get_days()))
}

/// Reads one calendar day, `YYYY-MM-DD`.
#[must_use]
pub fn parse_day(text: &str) -> Option<Day> {
    let t = text.trim();
    if t.len() != 10 {
        return None;
    }
    t.parse::<Date>().ok().and_then(epoch_day)
}

/// Reads a day, or a month or a year as the range of its days.
#[must_use]
pub fn parse_days(text: &str) -> Option<(Day, Day)> {
    let t = text.trim();
    if let Some(d) = parse_day(t) {
        return Some((d, d));
    }
    let digits = |s: &str| s.bytes().all(|b| b.is_ascii_digit());
    let (first, last) = match t.len() {
        4 if digits(t) => (format!("{t}-01-01"), format!("{t}-12-31")),
        7 if digits(t.get(..4)?) && t.get(4..5)? == "-" && digits(t.get(5..)?) => {
            let d: Date = format!("{t}-01").parse().ok()?;
            (d.to_string(), d.last_of_month().to_string())
        }
        _ => return None,
    };
    Some((parse_day(&first)?, parse_day(&last)?))
}

/// Today, by the clock and the time zone of this computer.
#[must_use]
pub fn today() -> Day {
    epoch_day(jiff::Zoned::now().date()).unwrap_or(0)
}

/// The day that lies a stretch of time before another. Whole months and years are counted by the
/// calendar, anything else in days, a part of a day as a whole one. `None` when the stretch is no
/// single length of time, or leads beyond the calendar.
#[must_use]
pub fn day_before(day: Day, stretch: &Measure) -> Option<Day> {
    if stretch.unit.dimension() != Dimension::Time {
        return None;
    }
    let length = stretch.interval.is_exact()?;
    let whole = |unit: Unit| {
        let amount = unit.from_base(length)?;
        (amount.floor() == amount).then(|| amount.to_decimal(0).parse::<i64>().ok())?
    };
    let span = match stretch.unit {
        Unit::Month => whole(Unit::Month).map(|n| jiff::Span::new().try_months(n)),
        Unit::Year => whole(Unit::Year).map(|n| jiff::Span::new().try_years(n)),
        _ => None,
    };
    let span = match span {
        Some(span) => span.ok()?,
        None => {
            let days = Unit::Day
                .from_base(length)?
                .ceil()
                .to_decimal(0)
                .parse::<i64>()
                .ok()?;
            jiff::Span::new().try_days(days).ok()?
        }
    };
    let date = Date::new(1970, 1, 1)
        .ok()?
        .checked_add(jiff::Span::new().try_days(day).ok()?)
        .ok()?;
    epoch_day(date.checked_sub(span).ok()?)
}

/// The day as `YYYY-MM-DD`.
#[must_use]
pub fn format_day(day: Day) -> String {
    let date = Date::new(1970, 1, 1).ok().and_then(|epoch| {
        let span = jiff::Span::new().try_days(day).ok()?;
        epoch.checked_add(span).ok()
    });
    date.map_or_else(|| format!("day {day}"), |d| d.to_string())
}
