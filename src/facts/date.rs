//! Calendar days: `2026-12-01`, a month `2019-06` or a year `2019` that stand for all their days.

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

/// The day as `YYYY-MM-DD`.
#[must_use]
pub fn format_day(day: Day) -> String {
    let date = Date::new(1970, 1, 1).ok().and_then(|epoch| {
        let span = jiff::Span::new().try_days(day).ok()?;
        epoch.checked_add(span).ok()
    });
    date.map_or_else(|| format!("day {day}"), |d| d.to_string())
}
