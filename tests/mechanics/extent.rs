//! Dates, second trailers, widths and heights that follow from others.

use crate::support::{close, rig, sound};
use pintle::facts::{ItemId, catalogue, parse_day};
use pintle::quantity::{Exact, Unit};
use rstest::rstest;

const LB: Unit = Unit::Pound;

/// A trailer is not registered before it is built; a day of registration that is stated stands.
#[rstest]
#[case("built: 1990-05-01", Some("1990-05-01"))]
#[case("model_year: 1990", Some("1988-01-01"))]
#[case("width: 8 ft", None)]
#[case("built: 1990-05-01, first_registered: 1985-03-02", Some("1985-03-02"))]
fn no_registration_before_the_build(#[case] trailer: &str, #[case] earliest: Option<&str>) {
    let rig = sound(&format!("trailer: {{{trailer}}}"));
    let fact = catalogue()
        .find("trailer.first_registered")
        .expect("a fact");
    let lo = rig.facts.value(ItemId::RIG, fact).interval().lo;
    let day = |text| Exact::from_int(parse_day(text).expect("a day"));
    assert_eq!(lo, earliest.map(day));
}

/// What is towed behind the first trailer counts with the combination; of a third one nothing can be said.
#[rstest]
#[case("trailers: 2", Some(9_400.0), Some(10_500.0))]
#[case("trailers: 3", None, None)]
#[case("load_area_length: 40 ft", None, None)]
fn a_second_trailer_counts(
    #[case] said: &str,
    #[case] weight: Option<f64>,
    #[case] rating: Option<f64>,
) {
    let rig = sound(&format!(
        "tow_vehicle: {{gvwr: 5,000 lb, gross_weight: 4,000 lb}}\n\
         trailer: {{gvwr: 3,000 lb, gross_weight: 2,900 lb}}\n\
         second_trailer: {{gvwr: 2,500 lb, gross_weight: 2,500 lb}}\n\
         combination: {{{said}}}"
    ));
    for (name, least, most) in [
        ("combination.gross_weight", 9_400.0, weight),
        ("combination.gvwr", 10_500.0, rating),
        ("combination.greatest_weight", 10_500.0, rating),
    ] {
        let fact = catalogue().find(name).expect("a fact");
        let found = rig.facts.value(ItemId::RIG, fact).interval();
        let pounds = |x: Exact| LB.from_base(x).expect("small").to_f64();
        close(pounds(found.lo.expect("an end")), least, 1e-9);
        assert_eq!(found.hi.map(|x| pounds(x).round()), most, "{name}");
    }
}

/// A load wider than the trailer is said to be contradicts it; where nothing is said it is at least so wide.
#[test]
fn a_trailer_is_no_narrower_than_its_load() {
    let load = "load: [{width: 100 in}, {width: 126 in}]";
    let fact = catalogue().find("trailer.width").expect("a fact");
    let open = sound(load).facts.value(ItemId::RIG, fact).interval();
    let inch = Unit::Inch.to_base(Exact::ONE).expect("an inch");
    assert_eq!(
        (open.lo, open.hi),
        (inch.checked_mul(Exact::from_int(126)), None)
    );
    let narrow = rig(&format!("trailer: {{width: 96 in}}\n{load}"));
    assert_eq!(narrow.conflicts.len(), 1);
    assert!(
        sound(&format!("trailer: {{width: 126 in}}\n{load}"))
            .conflicts
            .is_empty()
    );
}

/// The trailer is no higher than the highest part of the rig, and is that part where the vehicle is lower.
#[rstest]
#[case("combination: {height: 14 ft}", None, Some(14))]
#[case(
    "combination: {height: 14 ft}\ntow_vehicle: {height: 7 ft}",
    Some(14),
    Some(14)
)]
#[case(
    "combination: {height: 14 ft}\ntow_vehicle: {height: 14 ft}",
    None,
    Some(14)
)]
#[case(
    "combination: {height: 13 ft to 14 ft}\ntow_vehicle: {height: 7 ft}",
    Some(13),
    Some(14)
)]
#[case("tow_vehicle: {height: 7 ft}", None, None)]
fn the_highest_part_of_the_rig(
    #[case] said: &str,
    #[case] lo: Option<i64>,
    #[case] hi: Option<i64>,
) {
    let fact = catalogue().find("trailer.height").expect("a fact");
    let found = sound(said).facts.value(ItemId::RIG, fact).interval();
    let feet = |n: i64| Unit::Foot.to_base(Exact::from_int(n)).expect("feet");
    assert_eq!((found.lo, found.hi), (lo.map(feet), hi.map(feet)));
}
