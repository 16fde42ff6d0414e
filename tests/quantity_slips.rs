//! Slips in written quantities: each is refused, with its kind, its place and what may be meant.

use pintle::quantity::MeasureErrorKind as Kind;
use pintle::quantity::{Dimension, MAX_TEXT, parse_measure};
use rstest::rstest;

#[rstest]
#[case("3000", Dimension::Mass, Kind::MissingUnit, None)]
#[case("0.4", Dimension::Share, Kind::MissingUnit, Some("40%"))]
#[case("40", Dimension::Share, Kind::MissingUnit, Some("40%"))]
#[case("1", Dimension::Share, Kind::MissingUnit, None)]
#[case(
    "3,800 lb to 4,200",
    Dimension::Mass,
    Kind::MissingUnit,
    Some("3,800 lb to 4,200 lb")
)]
#[case(
    "4,000 lb ± 50",
    Dimension::Mass,
    Kind::MissingUnit,
    Some("4,000 lb ± 50 lb")
)]
#[case("6 ft 8", Dimension::Length, Kind::MissingUnit, Some("6 ft 8 in"))]
#[case("6 to 6 ft 8 in", Dimension::Length, Kind::MissingUnit, None)]
#[case("6 ft", Dimension::Mass, Kind::WrongUnitKind, None)]
#[case("2 tons", Dimension::Length, Kind::WrongUnitKind, None)]
#[case("35 lb", Dimension::Pressure, Kind::WrongUnitKind, Some("35 psi"))]
#[case("35lbs", Dimension::Pressure, Kind::WrongUnitKind, Some("35 psi"))]
#[case("15 m", Dimension::Time, Kind::WrongUnitKind, Some("15 min"))]
#[case("55 miles", Dimension::Speed, Kind::WrongUnitKind, Some("55 mph"))]
#[case("2 lb", Dimension::Count, Kind::WrongUnitKind, None)]
#[case("3 pouds", Dimension::Mass, Kind::UnknownUnit, Some("3 pounds"))]
#[case("3 stone", Dimension::Mass, Kind::UnknownUnit, None)]
#[case("3 G", Dimension::Mass, Kind::UnknownUnit, Some("3 g"))]
#[case("2 straps", Dimension::Count, Kind::UnknownUnit, Some("2"))]
#[case(
    "3,000 lb or more",
    Dimension::Mass,
    Kind::UnknownUnit,
    Some("at least 3,000 lb")
)]
#[case("", Dimension::Mass, Kind::NotANumber, None)]
#[case("   ", Dimension::Mass, Kind::NotANumber, None)]
#[case("heavy", Dimension::Mass, Kind::NotANumber, None)]
#[case("lb 5", Dimension::Mass, Kind::NotANumber, None)]
#[case("nan", Dimension::Mass, Kind::NotANumber, None)]
#[case(".nan", Dimension::Mass, Kind::NotANumber, None)]
#[case("1e3 lb", Dimension::Mass, Kind::NotANumber, None)]
#[case("1E+3 lb", Dimension::Mass, Kind::NotANumber, None)]
#[case("0x10 lb", Dimension::Mass, Kind::NotANumber, None)]
#[case("1_500 lb", Dimension::Mass, Kind::NotANumber, Some("1500 lb"))]
#[case("5. lb", Dimension::Mass, Kind::NotANumber, Some("5 lb"))]
#[case("+5 lb", Dimension::Mass, Kind::NotANumber, Some("5 lb"))]
#[case("5/0 in", Dimension::Length, Kind::NotANumber, None)]
#[case("2-16/5 in", Dimension::Length, Kind::NotANumber, None)]
#[case("1 h 30 min", Dimension::Time, Kind::NotANumber, None)]
#[case("6 ft 8 ft", Dimension::Length, Kind::NotANumber, None)]
#[case("٣ lb", Dimension::Mass, Kind::NotANumber, None)]
#[case("inf", Dimension::Mass, Kind::Infinite, None)]
#[case(".inf", Dimension::Mass, Kind::Infinite, None)]
#[case("Infinity lb", Dimension::Mass, Kind::Infinite, None)]
#[case("3 t to inf", Dimension::Mass, Kind::Infinite, Some("at least 3 t"))]
#[case("-5 lb", Dimension::Mass, Kind::Negative, None)]
#[case("\u{2212}2", Dimension::Count, Kind::Negative, None)]
#[case("4 lb ± 200%", Dimension::Mass, Kind::Negative, None)]
#[case("4 in ± -2 in", Dimension::Length, Kind::Negative, None)]
#[case("4 t to 3 t", Dimension::Mass, Kind::RangeReversed, Some("3 t to 4 t"))]
#[case(
    "7 ft to 6 ft 8 in",
    Dimension::Length,
    Kind::RangeReversed,
    Some("6 ft 8 in to 7 ft")
)]
#[case("1234567890123456 lb", Dimension::Mass, Kind::TooLong, None)]
#[case("0.1234567890123 lb", Dimension::Mass, Kind::TooLong, None)]
#[case(
    "999999999999999.999999999999 psi",
    Dimension::Pressure,
    Kind::TooLong,
    None
)]
#[case("2 tons", Dimension::Mass, Kind::Ambiguous, None)]
#[case("2 T", Dimension::Mass, Kind::Ambiguous, None)]
#[case("2 M", Dimension::Length, Kind::Ambiguous, None)]
#[case(
    "about 4,000 lb",
    Dimension::Mass,
    Kind::Ambiguous,
    Some("4,000 lb +/- 5%")
)]
#[case("~4,000 lb", Dimension::Mass, Kind::Ambiguous, Some("4,000 lb +/- 5%"))]
#[case(
    "more than 3 t",
    Dimension::Mass,
    Kind::Ambiguous,
    Some("at least 3 t")
)]
#[case("<= 3 t", Dimension::Mass, Kind::Ambiguous, Some("at most 3 t"))]
#[case(
    "between 3 t and 4 t",
    Dimension::Mass,
    Kind::Ambiguous,
    Some("3 t to 4 t")
)]
#[case(
    "3,800-4,200 lb",
    Dimension::Mass,
    Kind::Ambiguous,
    Some("3,800 to 4,200 lb")
)]
#[case("3 t – 4 t", Dimension::Mass, Kind::Ambiguous, Some("3 t to 4 t"))]
#[case("1 t to 2 t to 3 t", Dimension::Mass, Kind::Ambiguous, None)]
#[case("at least 1 t to 2 t", Dimension::Mass, Kind::Ambiguous, None)]
#[case("40% ± 5%", Dimension::Share, Kind::Ambiguous, Some("35% to 45%"))]
#[case("2.5", Dimension::Count, Kind::NotWhole, None)]
#[case("1/2", Dimension::Count, Kind::NotWhole, None)]
#[case("3 to 4.5", Dimension::Count, Kind::NotWhole, None)]
#[case("1,5 t", Dimension::Mass, Kind::BadGrouping, Some("1.5 t"))]
#[case("3,00 lb", Dimension::Mass, Kind::BadGrouping, Some("3.00 lb"))]
#[case("1,5000 lb", Dimension::Mass, Kind::BadGrouping, None)]
#[case("1234,567 lb", Dimension::Mass, Kind::BadGrouping, None)]
#[case("1.500,5 kg", Dimension::Mass, Kind::BadGrouping, None)]
#[case("1,500 000 kg", Dimension::Mass, Kind::BadGrouping, None)]
#[case("12 34 kg", Dimension::Mass, Kind::BadGrouping, None)]
fn a_slip_is_refused_with_its_kind_and_a_text_that_reads(
    #[case] text: &str,
    #[case] dimension: Dimension,
    #[case] kind: Kind,
    #[case] suggestion: Option<&str>,
) {
    let error = parse_measure(text, dimension).expect_err("a slip");
    assert_eq!(
        (error.kind, error.suggestion.as_deref()),
        (kind, suggestion),
        "{error}"
    );
    assert!(text.get(error.at.clone()).is_some(), "{:?}", error.at);
    assert_eq!(error.expected, dimension.expected());
}

#[rstest]
#[case("3,800 lb to 4,2000 lb", "4,2000", Dimension::Mass)]
#[case("3,000 pouds", "pouds", Dimension::Mass)]
#[case("  −5\u{a0}ft ± 3 lb", "lb", Dimension::Length)]
#[case("about 3 t", "about", Dimension::Mass)]
#[case("3 t to 4", "4", Dimension::Mass)]
fn an_error_points_at_the_fault(
    #[case] text: &str,
    #[case] place: &str,
    #[case] dimension: Dimension,
) {
    let error = parse_measure(text, dimension).expect_err("a slip");
    assert_eq!(text.get(error.at.clone()), Some(place), "{error}");
}

#[test]
fn a_wrong_kind_of_unit_names_both_kinds() {
    let error = parse_measure("6 ft", Dimension::Mass).expect_err("a slip");
    assert!(
        error.message.contains("length") && error.message.contains("a mass"),
        "{error}"
    );
}

#[test]
fn an_ambiguous_ton_is_explained() {
    let error = parse_measure("2 tons", Dimension::Mass).expect_err("a slip");
    assert!(error.message.contains("`short ton` or `t`"), "{error}");
}

#[test]
fn a_text_longer_than_the_limit_is_refused() {
    let longest = format!("{:>MAX_TEXT$}", "3 lb");
    assert!(parse_measure(&longest, Dimension::Mass).is_ok());
    let error = parse_measure(&format!(" {longest}"), Dimension::Mass).expect_err("too long");
    assert_eq!(error.kind, Kind::TooLong);
}
