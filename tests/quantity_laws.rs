//! Laws that hold for all quantities, over values that nobody picked.

use num_bigint::BigInt;
use num_rational::BigRational;
use pintle::quantity::{
    Compared, Dimension, Exact, Interval, Unit, format_exact, is_rounded, parse_measure,
};
use proptest::prelude::*;
use proptest::sample::select;
use rstest::rstest;

fn big(value: Exact) -> BigRational {
    BigRational::new(
        BigInt::from(value.numerator()),
        BigInt::from(value.denominator()),
    )
}

/// Small values, where zero and equal ends are common, and values over the whole range.
fn any_exact() -> impl Strategy<Value = Exact> {
    prop_oneof![
        4 => (-8_i128..9, 1_i128..5),
        2 => (-10_i128.pow(12)..10_i128.pow(12), 1..10_i128.pow(6)),
        1 => (any::<i128>(), 1..=i128::MAX),
    ]
    .prop_filter_map("it fits", |(num, den)| Exact::new(num, den))
}

fn any_interval() -> impl Strategy<Value = Interval> {
    let end = || prop::option::weighted(0.85, any_exact());
    (end(), end()).prop_filter_map("in order", |(a, b)| {
        Interval::new(a, b).or_else(|| Interval::new(b, a))
    })
}

/// An interval and one of its values.
fn interval_and_value() -> impl Strategy<Value = (Interval, Exact)> {
    (any_interval(), any_exact(), 0_i128..=4).prop_map(|(interval, free, quarter)| {
        let value = match (interval.lo, interval.hi) {
            (Some(lo), Some(hi)) => {
                let share = Exact::new(quarter, 4).expect("a share");
                let between = (hi.checked_sub(lo))
                    .and_then(|width| width.checked_mul(share))
                    .and_then(|part| lo.checked_add(part));
                between.unwrap_or(lo)
            }
            (Some(lo), None) => free.max(lo),
            (None, Some(hi)) => free.min(hi),
            (None, None) => free,
        };
        (interval, value)
    })
}

fn any_unit() -> impl Strategy<Value = Unit> {
    select(Unit::ALL.to_vec())
}

/// Two units of one dimension.
fn two_units() -> impl Strategy<Value = (Unit, Unit)> {
    any_unit().prop_flat_map(|unit| {
        let same = |other: &Unit| other.dimension() == unit.dimension();
        (
            Just(unit),
            select(Unit::ALL.into_iter().filter(same).collect::<Vec<_>>()),
        )
    })
}

/// Whether `interval` holds a value that may be beyond the range of `Exact`.
fn holds(interval: Interval, value: &BigRational) -> bool {
    interval.lo.is_none_or(|lo| big(lo) <= *value) && interval.hi.is_none_or(|hi| *value <= big(hi))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn what_is_printed_without_rounding_reads_as_the_same_value(
        unit in any_unit(),
        amount in prop_oneof![0_i128..=10_000, 0..10_i128.pow(15)],
        scale in select(vec![1_i128, 10, 1_000, 3, 64]),
    ) {
        let scale = if unit == Unit::One { 1 } else { scale };
        let amount = Exact::new(amount, scale).expect("it fits");
        let value = unit.to_base(amount).expect("it fits");
        let text = format_exact(value, unit);
        let read = parse_measure(&text, unit.dimension())
            .map_err(|error| TestCaseError::fail(format!("{text}: {error}")))?;
        let same = read.interval == Interval::exactly(value);
        prop_assert_eq!(same, !is_rounded(value, unit), "{}", text);
    }

    #[test]
    fn what_was_read_is_shown_so_that_it_reads_the_same(
        text in "-?[0-9]{1,3}(,[0-9]{3})?(\\.[0-9]{1,12}|-[0-9]/(16|3|64))? (ft|in|mm|mi)( [0-9]{1,2}(\\.[0-9]{1,4}|-[1-7]/8)? in)?( to [0-9]{1,3},[0-9]{3}(\\.[0-9]{1,12})? (ft|in|mi)| ± [0-9]{1,3} in)?",
    ) {
        let Ok(measure) = parse_measure(&text, Dimension::Length) else { return Ok(()) };
        let exact = [measure.interval.lo, measure.interval.hi].into_iter().flatten().all(|end| {
            let amount = measure.unit.from_base(end).expect("it fits");
            Exact::parse_decimal(&amount.to_decimal(12)) == Some(amount)
        });
        // Two ends in units that have no common decimal may be shown rounded.
        if measure.interval.is_exact().is_none() && !exact {
            return Ok(());
        }
        let again = parse_measure(&measure.show(), Dimension::Length);
        prop_assert_eq!(again.map(|it| it.interval), Ok(measure.interval), "{}", measure.show());
    }

    #[test]
    fn a_change_of_unit_keeps_the_value(
        (from, to) in two_units(),
        num in 0..10_i128.pow(12),
        den in 1_i128..1_000,
    ) {
        let amount = Exact::new(num, den).expect("it fits");
        let there = from.to_base(amount).and_then(|base| to.from_base(base)).expect("it fits");
        let back = to.to_base(there).and_then(|base| from.from_base(base));
        prop_assert_eq!(back, Some(amount));
    }

    #[test]
    fn checked_arithmetic_is_exact_wherever_the_result_fits(a in any_exact(), b in any_exact()) {
        let limit = BigInt::from(i128::MAX);
        let fits = |it: &BigRational| it.numer().magnitude() <= limit.magnitude() && *it.denom() <= limit;
        let mut pairs = vec![
            (a.checked_add(b), big(a) + big(b)),
            (a.checked_sub(b), big(a) - big(b)),
            (a.checked_mul(b), big(a) * big(b)),
        ];
        match b == Exact::ZERO {
            true => prop_assert_eq!(a.checked_div(b), None),
            false => pairs.push((a.checked_div(b), big(a) / big(b))),
        }
        for (ours, truth) in pairs {
            prop_assert_eq!(ours.map(big), Some(truth).filter(fits));
        }
    }

    #[test]
    fn outward_arithmetic_stays_on_its_side_and_near(a in any_exact(), b in any_exact()) {
        let mut rows = vec![
            (a.add_down(b), a.add_up(b), big(a) + big(b)),
            (a.mul_down(b), a.mul_up(b), big(a) * big(b)),
        ];
        if b != Exact::ZERO {
            rows.push((a.div_down(b), a.div_up(b), big(a) / big(b)));
        }
        let one = BigRational::from_integer(1.into());
        for (down, up, truth) in rows {
            if let (Some(down), Some(up)) = (down, up) {
                prop_assert!(big(down) <= truth && truth <= big(up));
                prop_assert!(big(up) - big(down) <= one);
            } else {
                let limit = BigRational::from_integer(BigInt::from(i128::MAX - 1));
                prop_assert!(truth > limit.clone() || truth < -limit);
            }
        }
    }

    #[test]
    fn order_and_whole_numbers_are_those_of_the_numbers(a in any_exact(), b in any_exact()) {
        prop_assert_eq!(a.cmp(&b), big(a).cmp(&big(b)));
        prop_assert_eq!(big(a.floor()), big(a).floor());
        prop_assert_eq!(big(a.ceil()), big(a).ceil());
        prop_assert_eq!(big(-a), -big(a));
    }

    #[test]
    fn floats_are_enclosed(value in any::<f64>()) {
        if let (Some(down), Some(up)) = (Exact::from_f64_down(value), Exact::from_f64_up(value)) {
            let truth = BigRational::from_float(value).expect("finite");
            prop_assert!(big(down) <= truth && truth <= big(up));
        } else {
            prop_assert!(!value.is_finite() || value.abs() > 1e38);
        }
    }

    #[test]
    fn interval_arithmetic_holds_every_result(
        (a, x) in interval_and_value(),
        (b, y) in interval_and_value(),
    ) {
        prop_assert!(a.contains(x) && b.contains(y));
        let (bx, by) = (big(x), big(y));
        prop_assert!(holds(a + b, &(&bx + &by)));
        prop_assert!(holds(a - b, &(&bx - &by)));
        prop_assert!(holds(a * b, &(&bx * &by)));
        prop_assert!(holds(a.scale(y), &(&bx * &by)));
        prop_assert!(holds(-a, &-&bx));
        prop_assert!(a.min(b).contains(x.min(y)));
        prop_assert!(a.max(b).contains(x.max(y)));
        prop_assert!(a.ceil().contains(x.ceil()));
        prop_assert!(a.floor().contains(x.floor()));
        prop_assert!(a.hull(b).contains(x) && a.hull(b).contains(y));
        prop_assert!(a.hull(b).contains_interval(a) && a.hull(b).contains_interval(b));
        if y != Exact::ZERO {
            prop_assert!(holds(a / b, &(&bx / &by)));
        }
        match a.intersect(b) {
            Some(both) => prop_assert_eq!(both.contains(x), b.contains(x)),
            None => prop_assert!(!b.contains(x) && !a.contains(y)),
        }
    }

    #[test]
    fn comparisons_agree_with_samples(
        (a, x) in interval_and_value(),
        (b, y) in interval_and_value(),
    ) {
        let rows = [
            (a.at_least(b), x >= y),
            (a.more_than(b), x > y),
            (a.at_most(b), x <= y),
            (a.less_than(b), x < y),
            (a.equals(b), x == y),
        ];
        for (compared, sample) in rows {
            prop_assert!(compared != Compared::Always || sample);
            prop_assert!(compared != Compared::Never || !sample);
        }
        let (x, y) = (Interval::exactly(x), Interval::exactly(y));
        prop_assert_ne!(x.at_least(y), Compared::Sometimes);
        prop_assert_ne!(x.equals(y), Compared::Sometimes);
    }

    #[test]
    fn no_text_panics_and_every_suggestion_reads(
        text in prop_oneof![
            any::<String>(),
            "(at least |about |-|~|between )?[0-9.,/ ½e_x+-]{0,12} ?(lb|t|ft|'|in|m|pouds|%|°|psi|T)?( to | ± |-|–| and | )?[0-9.,/ -]{0,8} ?(lb|kg|%|in|\"|mph)?",
        ],
        dimension in select(Dimension::ALL.to_vec()),
    ) {
        match parse_measure(&text, dimension) {
            Ok(measure) => {
                prop_assert!(parse_measure(&measure.show(), dimension).is_ok(), "{}", measure.show());
            }
            Err(error) => {
                prop_assert!(text.get(error.at.clone()).is_some());
                prop_assert!(!error.message.is_empty() && !error.expected.is_empty());
                if let Some(suggestion) = error.suggestion {
                    prop_assert!(parse_measure(&suggestion, dimension).is_ok(), "{}", suggestion);
                }
            }
        }
    }
}

fn between(lo: i64, hi: i64) -> Interval {
    Interval::new(Some(Exact::from_int(lo)), Some(Exact::from_int(hi))).expect("in order")
}

#[rstest]
#[case::inside(between(2, 3) * between(4, 5), between(8, 15))]
#[case::signs(between(-2, 3) * between(-4, 5), between(-12, 15))]
#[case::negative(between(-3, -2) * between(4, 5), between(-15, -8))]
#[case::difference(between(2, 3) - between(4, 5), between(-3, -1))]
#[case::quotient(between(8, 15) / between(2, 4), Interval { lo: Some(Exact::from_int(2)), hi: Exact::new(15, 2) })]
#[case::zero_times_open(between(0, 0) * Interval::everything(), between(0, 0))]
#[case::open_times_positive(
    Interval::starting_at(Exact::from_int(2)) * between(3, 4),
    Interval::starting_at(Exact::from_int(6))
)]
#[case::divisor_reaches_zero(between(6, 8) / between(0, 2), Interval::starting_at(Exact::from_int(3)))]
#[case::divisor_crosses_zero(between(6, 8) / between(-1, 2), Interval::everything())]
#[case::divisor_is_zero(between(6, 8) / between(0, 0), Interval::everything())]
#[case::divisor_is_open(between(6, 8) / Interval::starting_at(Exact::from_int(2)), between(0, 4))]
#[case::lesser(between(2, 9).min(between(4, 5)), between(2, 5))]
#[case::greater_of_open(Interval::everything().max(between(4, 5)), Interval::starting_at(Exact::from_int(4)))]
fn interval_arithmetic_is_as_narrow_as_it_can_be(
    #[case] ours: Interval,
    #[case] expected: Interval,
) {
    assert_eq!(ours, expected);
}

#[rstest]
#[case::apart(between(4, 5), between(1, 3), Compared::Always, Compared::Always)]
#[case::touching(between(3, 5), between(1, 3), Compared::Always, Compared::Sometimes)]
#[case::equal(between(3, 3), between(3, 3), Compared::Always, Compared::Never)]
#[case::overlapping(between(2, 5), between(1, 3), Compared::Sometimes, Compared::Sometimes)]
#[case::touching_below(between(1, 3), between(3, 5), Compared::Sometimes, Compared::Never)]
#[case::below(between(1, 2), between(3, 5), Compared::Never, Compared::Never)]
#[case::open_below(
    Interval::ending_at(Exact::from_int(5)),
    between(1, 3),
    Compared::Sometimes,
    Compared::Sometimes
)]
fn at_least_and_more_than_part_at_equal_ends(
    #[case] a: Interval,
    #[case] b: Interval,
    #[case] at_least: Compared,
    #[case] more_than: Compared,
) {
    assert_eq!((a.at_least(b), a.more_than(b)), (at_least, more_than));
    assert_eq!((b.at_most(a), b.less_than(a)), (at_least, more_than));
}

#[rstest]
#[case("1360.77711", Some((136_077_711, 100_000)))]
#[case("-0.5", Some((-1, 2)))]
#[case(".5", Some((1, 2)))]
#[case("007", Some((7, 1)))]
#[case("", None)]
#[case(".", None)]
#[case("5.", None)]
#[case("-", None)]
#[case("1e3", None)]
#[case("1,000", None)]
#[case("1/2", None)]
#[case("--1", None)]
#[case("999999999999999999999999999999999999999999", None)]
#[case("0.0000000000000000000000000000000000000001", None)]
fn a_plain_decimal_is_read_or_refused(#[case] text: &str, #[case] value: Option<(i128, i128)>) {
    assert_eq!(
        Exact::parse_decimal(text),
        value.and_then(|(num, den)| Exact::new(num, den))
    );
}

#[rstest]
#[case(1, 8, 3, "0.125")]
#[case(1, 8, 2, "0.12")]
#[case(3, 8, 2, "0.38")]
#[case(-1, 8, 2, "-0.12")]
#[case(2, 3, 4, "0.6667")]
#[case(-1, 1_000, 2, "0")]
#[case(5, 2, 0, "2")]
#[case(7, 2, 0, "4")]
#[case(1200, 1, 2, "1200")]
fn decimals_are_rounded_half_to_even(
    #[case] num: i128,
    #[case] den: i128,
    #[case] digits: u32,
    #[case] text: &str,
) {
    assert_eq!(
        Exact::new(num, den)
            .map(|it| it.to_decimal(digits))
            .as_deref(),
        Some(text)
    );
}

#[rstest]
#[case(i128::MIN, 1, false)]
#[case(i128::MIN, i128::MIN, true)]
#[case(i128::MIN, 2, true)]
#[case(1, i128::MIN, false)]
#[case(i128::MAX, -1, true)]
#[case(1, 0, false)]
fn the_ends_of_the_range_do_not_overflow(#[case] num: i128, #[case] den: i128, #[case] fits: bool) {
    let value = Exact::new(num, den);
    assert_eq!(value.is_some(), fits);
    if let Some(value) = value {
        assert_eq!(value.neg().neg(), value);
        assert_eq!(big(value), BigRational::new(num.into(), den.into()));
    }
}
