//! Date codes of tyres, 49 CFR 574.5(b)(3), and what comes of bad ones.

use crate::support::{item, rig, sound};
use pintle::facts::{Scope, WeekCodeError, format_day, parse_day, parse_week_code};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use rstest::rstest;

/// The regulation's own example (0109) and codes that car makers' manuals and tyre sellers explain;
/// weeks counted from the first Sunday of the year. ISO weeks would give other dates: 4 January
/// 2009 is the last day of its ISO week 1.
#[rstest]
#[case("0109", "2009-01-04", "2009-01-10")]
#[case("2501", "2001-06-24", "2001-06-30")]
#[case("2319", "2019-06-09", "2019-06-15")]
#[case("5012", "2012-12-09", "2012-12-15")]
#[case("0126", "2026-01-04", "2026-01-10")]
#[case("5317", "2017-12-31", "2018-01-06")]
#[case("DOT 4B9Y A1CD 2319", "2019-06-09", "2019-06-15")]
fn four_digits(#[case] code: &str, #[case] first: &str, #[case] last: &str) {
    let made = parse_week_code(code).expect(code);
    assert_eq!(made.earliest.map(format_day), Some(first.to_owned()));
    assert_eq!(format_day(made.latest), last);
}

/// Three digits: made before 2000, the decade open. 317 is week 31 of 1997 or 1987; 031 week 3 of
/// 1991 or 1981; 079 week 7 of 1999 or 1989.
#[rstest]
#[case("317", "1997-08-09")]
#[case("031", "1991-01-26")]
#[case("079", "1999-02-20")]
fn three_digits(#[case] code: &str, #[case] last: &str) {
    let made = parse_week_code(code).expect(code);
    assert_eq!(made.earliest, None);
    assert_eq!(format_day(made.latest), last);
}

#[rstest]
#[case("", WeekCodeError::NotDigits)]
#[case("12", WeekCodeError::NotDigits)]
#[case("12345", WeekCodeError::NotDigits)]
#[case("23 19", WeekCodeError::NotDigits)]
#[case("23/19", WeekCodeError::NotDigits)]
#[case("２３１９", WeekCodeError::NotDigits)]
#[case("0019", WeekCodeError::NoSuchWeek(0))]
#[case("5419", WeekCodeError::NoSuchWeek(54))]
#[case("995", WeekCodeError::NoSuchWeek(99))]
#[case("5319", WeekCodeError::NoWeek53(2019))]
fn bad_codes(#[case] code: &str, #[case] fault: WeekCodeError) {
    assert_eq!(parse_week_code(code), Err(fault));
}

/// A bad code is complained of where it stands; it is not passed over.
#[rstest]
#[case("5419")]
#[case("5319")]
#[case("July 2019")]
fn the_reader_complains(#[case] code: &str) {
    let text = SourceText::from_str(
        "rig.yaml",
        &format!("rig: 1\ntrailer:\n  tyres:\n    - date_code: {code}\n"),
    );
    let complaints = read_rig(&text).expect_err(code);
    let all: Vec<_> = complaints.iter().collect();
    assert_eq!(all.len(), 1);
    assert_eq!(all[0].code, "read::date-code");
    let span = all[0].span().expect("a place");
    assert_eq!(text.slice(span), code);
}

fn aged(code: &str, on: &str) -> crate::support::Rig {
    rig(&format!(
        "trip: {{on: {on}}}\ntrailer: {{tyres: [{{date_code: {code}}}]}}"
    ))
}

/// Code 2319, the week of 9 to 15 June 2019.
#[rstest]
#[case("2319", "2019-06-15", 0, 6)]
#[case("2319", "2019-06-10", 0, 1)]
#[case("2319", "2026-12-01", 2726, 2732)]
fn age(#[case] code: &str, #[case] on: &str, #[case] least: i64, #[case] most: i64) {
    let rig = aged(code, on);
    assert!(rig.conflicts.is_empty());
    let range = rig.range_of(item(Scope::Tyre, 0), "tyre.age");
    let days =
        |x: Option<pintle::quantity::Exact>| x.map(|x| (x.to_f64() / 86_400.0).round() as i64);
    assert_eq!((days(range.lo), days(range.hi)), (Some(least), Some(most)));
}

#[test]
fn age_of_three_digits_is_open_above() {
    let rig = aged("317", "2026-12-01");
    let range = rig.range_of(item(Scope::Tyre, 0), "tyre.age");
    assert_eq!(range.hi, None);
    assert!(
        rig.say_of(item(Scope::Tyre, 0), "tyre.age")
            .starts_with("at least 29")
    );
}

/// A tyre that was made after the day of the check contradicts it, at the place of the code.
#[test]
fn made_after_the_check() {
    let rig = aged("2319", "2019-06-08");
    assert_eq!(rig.conflicts.len(), 1);
    assert_eq!(rig.conflicts[0].stated, "2319");
    assert!(rig.conflicts[0].at.is_some());
    assert!(
        rig.conflicts[0].computed.contains("2019-06-08"),
        "{}",
        rig.conflicts[0].computed
    );
}

#[test]
fn no_day_no_age() {
    let rig = sound("trailer: {tyres: [{date_code: 2319}]}");
    assert!(!rig.is_known_of(item(Scope::Tyre, 0), "tyre.age"));
    assert!(parse_day("2026-12-01").is_some());
}
