//! Working load limits of tie-downs without a marking: the tables of 49 CFR 393.108 (annual
//! edition of 2015, text read). Sizes stand there as a metric and a customary figure that are not
//! equal; either names the row. A size between two rows gives the range between their limits, as
//! the table says nothing of it.

use super::formulas::ratio;
use crate::quantity::{Exact, Interval, Unit};

/// Size in mm, size in sixteenths of an inch, limit in pounds.
type Row = (i64, i64, i64);

#[rustfmt::skip]
const CHAIN_30: &[Row] = &[(7, 4, 1_300), (8, 5, 1_900), (10, 6, 2_650), (11, 7, 3_700), (13, 8, 4_500), (16, 10, 6_900)];
#[rustfmt::skip]
const CHAIN_43: &[Row] = &[(7, 4, 2_600), (8, 5, 3_900), (10, 6, 5_400), (11, 7, 7_200), (13, 8, 9_200), (16, 10, 13_000)];
#[rustfmt::skip]
const CHAIN_70: &[Row] = &[(7, 4, 3_150), (8, 5, 4_700), (10, 6, 6_600), (11, 7, 8_750), (13, 8, 11_300), (16, 10, 15_800)];
#[rustfmt::skip]
const CHAIN_80: &[Row] = &[(7, 4, 3_500), (8, 5, 4_500), (10, 6, 7_100), (13, 8, 12_000), (16, 10, 18_100)];
#[rustfmt::skip]
const CHAIN_100: &[Row] = &[(7, 4, 4_300), (8, 5, 5_700), (10, 6, 8_800), (13, 8, 15_000), (16, 10, 22_600)];
#[rustfmt::skip]
const WEBBING: &[Row] = &[(45, 28, 1_750), (50, 32, 2_000), (75, 48, 3_000), (100, 64, 4_000)];
#[rustfmt::skip]
const WIRE_ROPE: &[Row] = &[(7, 4, 1_400), (8, 5, 2_100), (10, 6, 3_000), (11, 7, 4_100), (13, 8, 5_300), (16, 10, 8_300), (20, 12, 10_900), (22, 14, 16_100), (25, 16, 20_900)];
#[rustfmt::skip]
const MANILA: &[Row] = &[(10, 6, 205), (11, 7, 265), (13, 8, 315), (16, 10, 465), (20, 12, 640), (25, 16, 1_050)];
#[rustfmt::skip]
const POLYPROPYLENE: &[Row] = &[(10, 6, 400), (11, 7, 525), (13, 8, 625), (16, 10, 925), (20, 12, 1_275), (25, 16, 2_100)];
#[rustfmt::skip]
const POLYESTER: &[Row] = &[(10, 6, 555), (11, 7, 750), (13, 8, 960), (16, 10, 1_500), (20, 12, 1_880), (25, 16, 3_300)];
#[rustfmt::skip]
const NYLON: &[Row] = &[(10, 6, 278), (11, 7, 410), (13, 8, 525), (16, 10, 935), (20, 12, 1_420), (25, 16, 2_520)];
#[rustfmt::skip]
const DOUBLE_BRAIDED_NYLON: &[Row] = &[(10, 6, 336), (11, 7, 502), (13, 8, 655), (16, 10, 1_130), (20, 12, 1_840), (25, 16, 3_250)];

/// The table of a material and what it is called there. Chain of unknown grade counts as grade 30,
/// synthetic rope of unknown fibre as polypropylene, wire rope as 6 × 37 with a fibre core.
fn table(material: &str) -> Option<(&'static [Row], &'static str)> {
    Some(match material {
        "chain" => (CHAIN_30, "chain of unknown grade, as grade 30"),
        "chain-30" => (CHAIN_30, "grade 30 chain"),
        "chain-43" => (CHAIN_43, "grade 43 chain"),
        "chain-70" => (CHAIN_70, "grade 70 chain"),
        "chain-80" => (CHAIN_80, "grade 80 chain"),
        "chain-100" => (CHAIN_100, "grade 100 chain"),
        "webbing" => (WEBBING, "synthetic webbing"),
        "wire-rope" => (WIRE_ROPE, "wire rope, as 6 × 37 with fibre core"),
        "manila-rope" => (MANILA, "manila rope"),
        "polypropylene-rope" => (POLYPROPYLENE, "polypropylene rope"),
        "synthetic-rope" => (
            POLYPROPYLENE,
            "synthetic rope of unknown fibre, as polypropylene",
        ),
        "polyester-rope" => (POLYESTER, "polyester rope"),
        "nylon-rope" => (NYLON, "nylon rope"),
        "double-braided-nylon-rope" => (DOUBLE_BRAIDED_NYLON, "double braided nylon rope"),
        _ => return None,
    })
}

/// The limit, in kg, that the tables give for a material and a size, and the table's name; `None`
/// where no table covers the material.
pub(super) fn default_limit(material: &str, size: Interval) -> Option<(Interval, &'static str)> {
    if material == "steel-strapping" {
        return Some((strapping(size), "steel strapping"));
    }
    let (rows, name) = table(material)?;
    Some((look_up(rows, size), name))
}

fn pounds(n: i64) -> Exact {
    Unit::Pound
        .to_base(Exact::from_int(n))
        .unwrap_or(Exact::ZERO)
}

/// The lesser and the greater of a row's two sizes, in m. Those of neighbouring rows never meet.
fn sizes((mm, sixteenths, _): Row) -> (Exact, Exact) {
    let metric = Unit::Millimeter
        .to_base(Exact::from_int(mm))
        .unwrap_or(Exact::ZERO);
    let customary = Unit::Inch
        .to_base(ratio(sixteenths, 16))
        .unwrap_or(Exact::ZERO);
    (metric.min(customary), metric.max(customary))
}

fn look_up(rows: &[Row], size: Interval) -> Interval {
    // At least the limit of the greatest row that is not beyond the least size; at most that of
    // the least row that is not below the greatest size.
    let reached = |at: Exact| {
        rows.iter()
            .filter(|r| sizes(**r).0 <= at)
            .map(|r| pounds(r.2))
            .max()
    };
    let not_passed = |at: Exact| {
        rows.iter()
            .filter(|r| sizes(**r).1 >= at)
            .map(|r| pounds(r.2))
            .min()
    };
    Interval {
        lo: Some(size.lo.and_then(reached).unwrap_or(Exact::ZERO)),
        hi: size.hi.and_then(not_passed),
    }
}

/// By width; the limit goes by the thickness too, which the rig does not state, so the range over
/// all thicknesses of that width.
fn strapping(width: Interval) -> Interval {
    let at = |num, den| Unit::Inch.to_base(ratio(num, den)).unwrap_or(Exact::ZERO);
    let metric = |tenths| {
        Unit::Millimeter
            .to_base(ratio(tenths, 10))
            .unwrap_or(Exact::ZERO)
    };
    let (narrow, wide) = (metric(317), at(2, 1));
    let lo = match width.lo {
        Some(w) if w >= wide => pounds(2_650),
        Some(w) if w >= narrow => pounds(1_190),
        _ => Exact::ZERO,
    };
    let hi = match width.hi {
        Some(w) if w <= at(5, 4) => Some(pounds(1_925)),
        Some(w) if w <= wide => Some(pounds(2_650)),
        _ => None,
    };
    Interval { lo: Some(lo), hi }
}
