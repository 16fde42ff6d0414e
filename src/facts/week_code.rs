//! The date code on a tyre's sidewall: the last digits of its DOT number.
//!
//! 49 CFR 574.5(b)(3): two digits for the week and two for the year of making. A week runs from
//! Sunday to Saturday; week 01 is the first full calendar week of the year, so `0109` is 4 to 10
//! January 2009. Tyres made before 2000 carry three digits, two for the week and one for the year
//! of a decade that is left open.

use super::date::{Day, format_day};
use jiff::civil::{Date, Weekday};
use std::fmt;

/// The days on which a tyre can have been made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MadeIn {
    /// The first of them; `None` where a three-digit code leaves the decade open.
    pub earliest: Option<Day>,
    /// The last of them.
    pub latest: Day,
}

/// Why a date code cannot be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum WeekCodeError {
    /// It is not three or four digits.
    NotDigits,
    /// The first two digits are no week from 01 to 53.
    NoSuchWeek(u8),
    /// The year has no week 53.
    NoWeek53(i16),
}

impl fmt::Display for WeekCodeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WeekCodeError::NotDigits => {
                f.write_str("a date code is four digits, or three on a tyre made before 2000")
            }
            WeekCodeError::NoSuchWeek(week) => write!(
                f,
                "a year has no week {week:02}; the code begins with the week, 01 to 53"
            ),
            WeekCodeError::NoWeek53(year) => write!(f, "{year} has 52 full weeks, no week 53"),
        }
    }
}

/// Reads a date code such as `2319` (week 23 of 2019) or `317` (week 31 of 1997 or of an earlier
/// year that ends in 7). A whole DOT number is read by its last group: `DOT 4B9Y A1C 2319`.
///
/// # Errors
/// The text is not such a code, or there is no such week.
pub fn parse_week_code(text: &str) -> Result<MadeIn, WeekCodeError> {
    let t = text.trim();
    let code = match t.get(..3) {
        Some(dot) if dot.eq_ignore_ascii_case("dot") => t.split_whitespace().last().unwrap_or(t),
        _ => t,
    };
    if !(3..=4).contains(&code.len()) || !code.bytes().all(|b| b.is_ascii_digit()) {
        return Err(WeekCodeError::NotDigits);
    }
    let (week, year) = code.split_at(2);
    let week: u8 = week.parse().map_err(|_| WeekCodeError::NotDigits)?;
    let digits: i16 = year.parse().map_err(|_| WeekCodeError::NotDigits)?;
    if !(1..=53).contains(&week) {
        return Err(WeekCodeError::NoSuchWeek(week));
    }
    if year.len() == 2 {
        let first = first_day(2000 + digits, week).ok_or(WeekCodeError::NoWeek53(2000 + digits))?;
        return Ok(MadeIn {
            earliest: Some(first),
            latest: first + 6,
        });
    }
    let decades = [1990, 1980, 1970];
    let latest = decades
        .into_iter()
        .find_map(|d| first_day(d + digits, week));
    latest
        .map(|first| MadeIn {
            earliest: None,
            latest: first + 6,
        })
        .ok_or(WeekCodeError::NoWeek53(1990 + digits))
}

/// The Sunday on which a week of a year begins; `None` when the year has no such week.
fn first_day(year: i16, week: u8) -> Option<Day> {
    let start = first_sunday(year)?;
    let first = start + 7 * (i64::from(week) - 1);
    (first < first_sunday(year.checked_add(1)?)?).then_some(first)
}

fn first_sunday(year: i16) -> Option<Day> {
    let new_year = Date::new(year, 1, 1).ok()?;
    let sunday = match new_year.weekday() {
        Weekday::Sunday => new_year,
        _ => new_year.nth_weekday(1, Weekday::Sunday).ok()?,
    };
    let epoch = Date::new(1970, 1, 1).ok()?;
    sunday.since(epoch).ok().map(|s| i64::from(s.get_days()))
}

impl fmt::Display for MadeIn {
    /// `made in the week from 2019-06-09 to 2019-06-15`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.earliest {
            Some(first) => write!(
                f,
                "made in the week from {} to {}",
                format_day(first),
                format_day(self.latest)
            ),
            None => write!(
                f,
                "made by {}, or in that week of an earlier decade",
                format_day(self.latest)
            ),
        }
    }
}
