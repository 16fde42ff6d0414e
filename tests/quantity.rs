//! Quantities: what is read, what is printed, and the factors between units.

use pintle::quantity::{
    Dimension, Exact, Interval, Measure, Rounding, Unit, format_exact, format_interval,
    format_rounded, is_rounded, parse_measure, show_both,
};
use rstest::rstest;

fn exact(text: &str) -> Exact {
    Exact::parse_decimal(text).expect("a decimal")
}

fn read(text: &str, dimension: Dimension) -> Measure {
    parse_measure(text, dimension).unwrap_or_else(|error| panic!("{text:?}: {error}"))
}

fn of(amount: &str, unit: Unit) -> Exact {
    unit.to_base(exact(amount)).expect("it fits")
}

#[rstest]
#[case("3,000 lb", "1360.77711", Dimension::Mass)]
#[case("1.5 short tons", "1360.77711", Dimension::Mass)]
#[case("1360.77711 kg", "1360.77711", Dimension::Mass)]
#[case("3000lb", "1360.77711", Dimension::Mass)]
#[case("3000#", "1360.77711", Dimension::Mass)]
#[case("3,000 LBS.", "1360.77711", Dimension::Mass)]
#[case("1 500 kg", "1500", Dimension::Mass)]
#[case("1\u{a0}500\u{a0}kg", "1500", Dimension::Mass)]
#[case("1\u{2009}500\u{202f}kg", "1500", Dimension::Mass)]
#[case("1,234,567.5 g", "1234.5675", Dimension::Mass)]
#[case("0.45 t", "450", Dimension::Mass)]
#[case(".5 metric ton", "500", Dimension::Mass)]
#[case("1/2 t", "500", Dimension::Mass)]
#[case("16 oz", "0.45359237", Dimension::Mass)]
#[case("6 ft 8 in", "2.032", Dimension::Length)]
#[case("6' 8\"", "2.032", Dimension::Length)]
#[case("6'8\"", "2.032", Dimension::Length)]
#[case("6'-8\"", "2.032", Dimension::Length)]
#[case("6′ 8″", "2.032", Dimension::Length)]
#[case("6\u{2019} 8\u{201d}", "2.032", Dimension::Length)]
#[case("6 feet 8 inches", "2.032", Dimension::Length)]
#[case("6 ft 8-1/2 in", "2.0447", Dimension::Length)]
#[case("8 ft 6 in.", "2.5908", Dimension::Length)]
#[case("2-5/16 in", "0.0587375", Dimension::Length)]
#[case("2 5/16 in", "0.0587375", Dimension::Length)]
#[case("2 5⁄16 in", "0.0587375", Dimension::Length)]
#[case("5/16 in", "0.0079375", Dimension::Length)]
#[case("2½ in", "0.0635", Dimension::Length)]
#[case("½ in", "0.0127", Dimension::Length)]
#[case("-14 in", "-0.3556", Dimension::Length)]
#[case("\u{2212}1 ft 2 in", "-0.3556", Dimension::Length)]
#[case("50 MM", "0.05", Dimension::Length)]
#[case("60 mph", "26.8224", Dimension::Speed)]
#[case("90 km/h", "25", Dimension::Speed)]
#[case("90 kilometres per hour", "25", Dimension::Speed)]
#[case("450 kPa", "450000", Dimension::Pressure)]
#[case("15 min", "900", Dimension::Time)]
#[case("1 year", "31556952", Dimension::Time)]
#[case("12 months", "31556952", Dimension::Time)]
#[case("30°", "30", Dimension::Angle)]
#[case("5 kN", "5000", Dimension::Force)]
#[case("500 daN", "5000", Dimension::Force)]
#[case("40%", "0.4", Dimension::Share)]
#[case("40 %", "0.4", Dimension::Share)]
#[case("12.5 percent", "0.125", Dimension::Share)]
#[case("2", "2", Dimension::Count)]
#[case(" 1,200 ", "1200", Dimension::Count)]
fn an_amount_is_read_exactly(#[case] text: &str, #[case] base: &str, #[case] dimension: Dimension) {
    let measure = read(text, dimension);
    assert_eq!(measure.interval, Interval::exactly(exact(base)));
    assert_eq!(measure.unit.dimension(), dimension);
}

#[rstest]
#[case("3,800 lb to 4,200 lb", Some("3800"), Some("4200"))]
#[case("3,800 to 4,200 lb", Some("3800"), Some("4200"))]
#[case("3800 lb TO 2.1 short tons", Some("3800"), Some("4200"))]
#[case("4,000 lb +/- 5%", Some("3800"), Some("4200"))]
#[case("4,000 lb ±5 %", Some("3800"), Some("4200"))]
#[case("4,000 lb ± 50 lb", Some("3950"), Some("4050"))]
#[case("4,000 ± 50 lb", Some("3950"), Some("4050"))]
#[case("4,000 lb plus or minus 50 lb", Some("3950"), Some("4050"))]
#[case("at least 3 lb", Some("3"), None)]
#[case("At most 200 lb", None, Some("200"))]
fn a_range_is_read_with_both_its_ends(
    #[case] text: &str,
    #[case] lo: Option<&str>,
    #[case] hi: Option<&str>,
) {
    let pounds = |amount: &str| of(amount, Unit::Pound);
    let measure = read(text, Dimension::Mass);
    let expected = Interval {
        lo: lo.map(pounds),
        hi: hi.map(pounds),
    };
    assert_eq!(measure.interval, expected);
    assert_eq!(measure.unit, Unit::Pound);
}

#[rstest]
fn the_examples_of_messages_are_read() {
    for dimension in Dimension::ALL {
        for example in dimension.example().split(" or ") {
            read(example, dimension);
        }
    }
}

#[rstest]
fn every_spelling_is_read_as_its_unit() {
    for unit in Unit::ALL {
        for name in unit.names() {
            assert_eq!(Unit::find(name), Some(unit), "{name}");
            let measure = read(&format!("3 {name}"), unit.dimension());
            assert_eq!(
                (measure.unit, measure.interval.lo),
                (unit, unit.to_base(exact("3")))
            );
        }
    }
}

#[rstest]
fn every_dimension_has_a_base_and_smallest_units_of_its_own() {
    for dimension in Dimension::ALL {
        let base = dimension.base_unit();
        let one = if dimension == Dimension::Share {
            exact("0.01")
        } else {
            Exact::ONE
        };
        assert_eq!((base.dimension(), base.factor()), (dimension, one));
        for unit in dimension.smallest_units() {
            assert_eq!(unit.dimension(), dimension);
        }
    }
}

#[rstest]
#[case("3,000 lb")]
#[case("1,360.77711 kg")]
#[case("0.5 lb")]
#[case("6 ft 8 in")]
#[case("-6 ft 8 in")]
#[case("6 ft 8.5 in")]
#[case("6 ft 8-1/2 in")]
#[case("2-5/16 in")]
#[case("5/16 in")]
#[case("-1/3 in")]
#[case("3,100 lb to 3,400 lb")]
#[case("6 ft 8 in to 7 ft")]
#[case("at least 3 t")]
#[case("at most 200 lb")]
#[case("1.5 short tons")]
#[case("1 short ton")]
#[case("1 year")]
#[case("10 years")]
#[case("11.4%")]
#[case("30 deg")]
#[case("2 to 4")]
fn a_measure_is_shown_as_it_was_written(#[case] text: &str) {
    let shown = Dimension::ALL
        .into_iter()
        .find_map(|it| Some(parse_measure(text, it).ok()?.show()));
    assert_eq!(shown.as_deref(), Some(text));
}

#[rstest]
#[case("6' 8\"", Dimension::Length, "6 ft 8 in")]
#[case("6 ft 14 in", Dimension::Length, "7 ft 2 in")]
#[case("6 ft 8 in +/- 3%", Dimension::Length, "6 ft 5.6 in to 6 ft 10.4 in")]
#[case("6 ft 0 in", Dimension::Length, "6 ft")]
#[case("2 4/16 in", Dimension::Length, "2-1/4 in")]
#[case("3 ft to 40 in", Dimension::Length, "36 in to 40 in")]
#[case("4000 lb ± 5%", Dimension::Mass, "3,800 lb to 4,200 lb")]
#[case("2,000 lb to 2,000 lb", Dimension::Mass, "2,000 lb")]
fn a_measure_is_shown_in_one_form(
    #[case] text: &str,
    #[case] dimension: Dimension,
    #[case] shown: &str,
) {
    assert_eq!(read(text, dimension).show(), shown);
}

#[rstest]
#[case("1360.77711", Unit::Pound, "3,000 lb", false)]
#[case("1360.77711", Unit::Kilogram, "1,360.8 kg", true)]
#[case("1400", Unit::Pound, "3,086.5 lb", true)]
#[case("1400", Unit::Tonne, "1.4 t", false)]
#[case("907.18474", Unit::ShortTon, "1 short ton", false)]
#[case("1234567", Unit::Kilogram, "1,234,567 kg", false)]
#[case("0.114", Unit::Percent, "11.4%", false)]
#[case("0.11444", Unit::Percent, "11.444%", false)]
#[case("0.114444", Unit::Percent, "11.4%", true)]
#[case("2.032", Unit::Foot, "6.67 ft", true)]
#[case("2.032", Unit::Inch, "80 in", false)]
#[case("0.00001234", Unit::Kilogram, "0.000012 kg", true)]
#[case("0.0009999", Unit::Tonne, "0.000001 t", true)]
#[case("0", Unit::Pound, "0 lb", false)]
#[case("-0.5", Unit::Meter, "-0.5 m", false)]
#[case("86400", Unit::Day, "1 day", false)]
#[case("4", Unit::One, "4", false)]
fn an_amount_is_printed_exactly_where_it_is_short(
    #[case] base: &str,
    #[case] unit: Unit,
    #[case] text: &str,
    #[case] rounded: bool,
) {
    assert_eq!(format_exact(exact(base), unit), text);
    assert_eq!(is_rounded(exact(base), unit), rounded);
}

#[rstest]
#[case(Rounding::HalfEven, "3,086.5 lb")]
#[case(Rounding::Down, "3,086.4 lb")]
#[case(Rounding::Up, "3,086.5 lb")]
fn a_limit_can_be_rounded_to_the_safe_side(#[case] rounding: Rounding, #[case] text: &str) {
    assert_eq!(format_rounded(exact("1400"), Unit::Pound, rounding), text);
}

#[test]
fn ends_that_print_alike_are_printed_once() {
    let (lo, hi) = (exact("1.0000001"), exact("1.0000002"));
    let interval = Interval::new(Some(lo), Some(hi)).expect("in order");
    assert_eq!(format_interval(interval, Unit::Kilogram), "1 kg");
    assert_eq!(
        format_interval(Interval::everything(), Unit::Kilogram),
        "any mass"
    );
}

#[test]
fn two_systems_of_units_are_shown_side_by_side() {
    let mass = exact("1400");
    assert_eq!(
        show_both(mass, Unit::Kilogram, Unit::Pound),
        "1,400 kg (3,086.5 lb)"
    );
    assert_eq!(show_both(mass, Unit::Kilogram, Unit::Kilogram), "1,400 kg");
    assert_eq!(
        read("1400 kg", Dimension::Mass).show_in(Unit::Pound),
        "3,086.5 lb"
    );
}
