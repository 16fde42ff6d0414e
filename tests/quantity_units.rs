//! The factors between units, against published and independent figures.

use pintle::quantity::{Exact, Unit};
use rstest::rstest;
use serde_json::Value;

/// NIST Special Publication 811 (2008), appendix B: factors that it marks as exact, and the
/// definitions they follow from. The figures were written down from memory of that table.
#[rstest]
#[case(Unit::Pound, "0.45359237")]
#[case(Unit::Ounce, "0.028349523125")]
#[case(Unit::ShortTon, "907.18474")]
#[case(Unit::Tonne, "1000")]
#[case(Unit::Inch, "0.0254")]
#[case(Unit::Foot, "0.3048")]
#[case(Unit::Yard, "0.9144")]
#[case(Unit::Mile, "1609.344")]
#[case(Unit::MilePerHour, "0.44704")]
#[case(Unit::FootPerSecond, "0.3048")]
#[case(Unit::PoundForce, "4.4482216152605")]
#[case(Unit::Bar, "100000")]
#[case(Unit::Hour, "3600")]
#[case(Unit::Day, "86400")]
fn factors_marked_exact_by_nist_sp_811_appendix_b_are_held_exactly(
    #[case] unit: Unit,
    #[case] base: &str,
) {
    assert_eq!(Some(unit.factor()), Exact::parse_decimal(base));
}

/// NIST Special Publication 811 (2008), appendix B: factors given to seven digits, each within
/// half a unit of its last digit. The figures were written down from memory of that table.
#[rstest]
#[case(Unit::Pound, 0.453_592_4, 0.000_000_05)]
#[case(Unit::Ounce, 0.028_349_52, 0.000_000_005)]
#[case(Unit::ShortTon, 907.184_7, 0.000_05)]
#[case(Unit::KilometerPerHour, 0.277_777_8, 0.000_000_05)]
#[case(Unit::Psi, 6_894.757, 0.000_5)]
#[case(Unit::PoundForce, 4.448_222, 0.000_000_5)]
fn factors_agree_with_the_seven_digits_of_nist_sp_811_appendix_b(
    #[case] unit: Unit,
    #[case] base: f64,
    #[case] half_a_unit: f64,
) {
    let off = (unit.factor().to_f64() - base).abs();
    assert!(off <= half_a_unit, "{unit:?}: {off}");
}

#[test]
fn a_psi_is_a_pound_force_on_a_square_inch() {
    let inch = Unit::Inch.factor();
    let area = inch.checked_mul(inch).expect("it fits");
    assert_eq!(
        Unit::PoundForce.factor().checked_div(area),
        Some(Unit::Psi.factor())
    );
    assert!((Unit::Psi.factor().to_f64() - 6_894.757_293_168_361).abs() < 1e-11);
}

/// `data/units_reference.json` holds what Pint, a units library of its own, made of the same
/// amounts; `data/units_reference.py` says how it was recorded.
#[test]
fn every_unit_converts_as_an_independent_library_does() {
    let reference: Value =
        serde_json::from_str(include_str!("data/units_reference.json")).expect("JSON");
    let records = reference["records"].as_array().expect("records");
    let mut checked = Vec::new();
    for record in records {
        let symbol = record["unit"].as_str().expect("a unit");
        let unit = Unit::ALL
            .into_iter()
            .find(|unit| unit.symbol() == symbol)
            .unwrap_or_else(|| panic!("no unit {symbol}"));
        let amounts = record["amounts"].as_array().expect("amounts");
        let in_base = record["in_base"].as_array().expect("conversions");
        assert_eq!(amounts.len(), in_base.len());
        for (amount, theirs) in amounts.iter().zip(in_base) {
            let amount = amount
                .as_str()
                .and_then(Exact::parse_decimal)
                .expect("a decimal");
            let theirs = theirs.as_f64().expect("a number");
            let ours = unit.to_base(amount).expect("it fits").to_f64();
            let relative = ((ours - theirs) / theirs).abs();
            assert!(relative <= 1e-12, "{symbol}: {ours} and {theirs}");
        }
        checked.push(unit);
    }
    let left: Vec<Unit> = Unit::ALL
        .into_iter()
        .filter(|unit| !checked.contains(unit))
        .collect();
    assert_eq!(left, [Unit::One]);
}
