//! Rows of published tables: hitch classes, tie-downs.

use crate::support::{item, sound};
use pintle::facts::Scope;
use rstest::rstest;

/// COMAR 11.13.08.04 and .10 (after SAE J684): classes up to 2,000, 3,500, 5,000 and 10,000 lb, the
/// bound included; balls 1-7/8 in and 2 in, none for class 4. sizes.com for J684 (2005): chains of
/// 2,000, 3,500 and 5,000 lb, and the GVWR in class 4.
#[rstest]
#[case("2000 lb", "class-1", Some("1.875 in"), Some("2,000 lb"))]
#[case("2001 lb", "class-2", Some("2 in"), Some("3,500 lb"))]
#[case("3500 lb", "class-2", Some("2 in"), Some("3,500 lb"))]
#[case("3501 lb", "class-3", Some("2 in"), Some("5,000 lb"))]
#[case("5000 lb", "class-3", Some("2 in"), Some("5,000 lb"))]
#[case("5001 lb", "class-4", None, Some("5,001 lb"))]
#[case("10000 lb", "class-4", None, Some("10,000 lb"))]
#[case("10001 lb", "class-5", None, None)]
#[case(
    "3000 lb to 4000 lb",
    "class-2 or class-3",
    Some("2 in"),
    Some("3,500 lb to 5,000 lb")
)]
fn j684_classes(
    #[case] weight: &str,
    #[case] class: &str,
    #[case] ball: Option<&str>,
    #[case] chain: Option<&str>,
) {
    let rig = sound(&format!(
        "trailer: {{gross_weight: {weight}, gvwr: {weight}}}"
    ));
    assert_eq!(rig.say("coupling.class_needed"), class);
    for (name, wanted) in [
        ("coupling.class_ball_diameter", ball),
        ("trailer.safety_chains.class_strength", chain),
    ] {
        match wanted {
            Some(wanted) => assert_eq!(rig.say(name), wanted),
            None => assert!(!rig.is_known(name), "{name}: {}", rig.say(name)),
        }
    }
}

/// A newsletter's copy of the class table: tongue weights of 200 or 300 lb in class 1, 300 or 500
/// lb in class 2 (carried, or with a weight-distributing hitch), 15% in classes 3 and 4 with one.
#[rstest]
#[case("class-1", "no", "2,000 lb", Some("200 lb"))]
#[case("class-1", "yes", "2,000 lb", Some("300 lb"))]
#[case("class-2", "no", "3,500 lb", Some("300 lb"))]
#[case("class-2", "yes", "3,500 lb", Some("500 lb"))]
#[case("class-3", "no", "5,000 lb", None)]
#[case("class-3", "yes", "5,000 lb", Some("600 lb"))]
#[case("class-4", "yes", "10,000 lb", Some("600 lb"))]
fn hitch_classes(
    #[case] class: &str,
    #[case] bars: &str,
    #[case] trailer: &str,
    #[case] tongue: Option<&str>,
) {
    let rig = sound(&format!(
        "tow_vehicle: {{hitch: {{class: {class}, weight_distributing: {bars}}}}}\ntrailer: {{gross_weight: 4000 lb}}"
    ));
    assert_eq!(rig.say("tow_vehicle.hitch.class_rating"), trailer);
    match tongue {
        Some(tongue) => assert_eq!(rig.say("tow_vehicle.hitch.class_tongue_rating"), tongue),
        None => assert!(!rig.is_known("tow_vehicle.hitch.class_tongue_rating")),
    }
}

const SIZES: [(&str, &str); 9] = [
    ("1/4 in", "7 mm"),
    ("5/16 in", "8 mm"),
    ("3/8 in", "10 mm"),
    ("7/16 in", "11 mm"),
    ("1/2 in", "13 mm"),
    ("5/8 in", "16 mm"),
    ("3/4 in", "20 mm"),
    ("7/8 in", "22 mm"),
    ("1 in", "25 mm"),
];

fn default_limit(material: &str, size: &str) -> String {
    let rig = sound(&format!(
        "load: [{{tie_downs: [{{material: {material}, size: {size}, marked: no, path: over}}]}}]"
    ));
    let own = rig.say_of(item(Scope::TieDown, 0), "tie_down.default_limit_us");
    assert_eq!(
        rig.say_of(item(Scope::Load, 0), "load.aggregate_limit_us_default"),
        own
    );
    assert_eq!(
        rig.say_of(item(Scope::Load, 0), "load.aggregate_limit_marked"),
        "0 lb"
    );
    own
}

/// 49 CFR 393.108, tables (annual edition of 2015, text read): limits in pounds for the sizes from
/// 1/4 in (7 mm) on, 0 where the table has none. Grade 80 at 5/16 in stands below grade 70.
#[rstest]
#[case("chain-30", &[1300, 1900, 2650, 3700, 4500, 6900])]
#[case("chain", &[1300, 1900, 2650, 3700, 4500, 6900])]
#[case("chain-43", &[2600, 3900, 5400, 7200, 9200, 13000])]
#[case("chain-70", &[3150, 4700, 6600, 8750, 11300, 15800])]
#[case("chain-80", &[3500, 4500, 7100, 0, 12000, 18100])]
#[case("chain-100", &[4300, 5700, 8800, 0, 15000, 22600])]
#[case("wire-rope", &[1400, 2100, 3000, 4100, 5300, 8300, 10900, 16100, 20900])]
#[case("manila-rope", &[0, 0, 205, 265, 315, 465, 640, 0, 1050])]
#[case("polypropylene-rope", &[0, 0, 400, 525, 625, 925, 1275, 0, 2100])]
#[case("synthetic-rope", &[0, 0, 400, 525, 625, 925, 1275, 0, 2100])]
#[case("polyester-rope", &[0, 0, 555, 750, 960, 1500, 1880, 0, 3300])]
#[case("nylon-rope", &[0, 0, 278, 410, 525, 935, 1420, 0, 2520])]
#[case("double-braided-nylon-rope", &[0, 0, 336, 502, 655, 1130, 1840, 0, 3250])]
fn default_limits(#[case] material: &str, #[case] limits: &[u32]) {
    for ((inches, millimetres), limit) in SIZES.iter().zip(limits) {
        if *limit == 0 {
            continue;
        }
        let text = limit.to_string();
        let wanted = match text.len() {
            ..=3 => format!("{text} lb"),
            n => format!("{},{} lb", &text[..n - 3], &text[n - 3..]),
        };
        assert_eq!(default_limit(material, inches), wanted);
        assert_eq!(default_limit(material, millimetres), wanted);
    }
}

/// The same tables, webbing by width; a size between two rows lies between their limits, and steel
/// strapping between those of its thicknesses.
#[rstest]
#[case("webbing", "1-3/4 in", "1,750 lb")]
#[case("webbing", "45 mm", "1,750 lb")]
#[case("webbing", "2 in", "2,000 lb")]
#[case("webbing", "50 mm", "2,000 lb")]
#[case("webbing", "3 in", "3,000 lb")]
#[case("webbing", "75 mm", "3,000 lb")]
#[case("webbing", "4 in", "4,000 lb")]
#[case("webbing", "100 mm", "4,000 lb")]
#[case("webbing", "2.5 in", "2,000 lb to 3,000 lb")]
#[case("webbing", "1 in", "0 lb to 1,750 lb")]
#[case("webbing", "5 in", "at least 4,000 lb")]
#[case("chain-80", "7/16 in", "7,100 lb to 12,000 lb")]
#[case("steel-strapping", "1-1/4 in", "1,190 lb to 1,925 lb")]
#[case("steel-strapping", "2 in", "2,650 lb")]
fn default_limits_by_width(#[case] material: &str, #[case] size: &str, #[case] wanted: &str) {
    assert_eq!(default_limit(material, size), wanted);
}

/// 49 CFR 393.110 (annual edition of 2015, text read), at the bounds and past them.
#[rstest]
#[case("5 ft", "1100 lb", "no", 1)]
#[case("5 ft", "1101 lb", "no", 2)]
#[case("5 ft 1 in", "100 lb", "no", 2)]
#[case("10 ft", "9000 lb", "no", 2)]
#[case("10 ft 1 in", "100 lb", "no", 3)]
#[case("20 ft", "100 lb", "no", 3)]
#[case("20 ft 1 in", "100 lb", "no", 4)]
#[case("1 ft", "9000 lb", "yes", 1)]
#[case("10 ft", "9000 lb", "yes", 1)]
#[case("10 ft 1 in", "100 lb", "yes", 2)]
#[case("20 ft", "100 lb", "yes", 2)]
#[case("30 ft 1 in", "100 lb", "yes", 4)]
fn tie_downs_by_length_and_weight(
    #[case] length: &str,
    #[case] weight: &str,
    #[case] blocked: &str,
    #[case] needed: u32,
) {
    let rig = sound(&format!(
        "load: [{{length: {length}, weight: {weight}, blocked_forward: {blocked}}}]"
    ));
    assert_eq!(
        rig.say_of(item(Scope::Load, 0), "load.tie_downs_needed_us"),
        needed.to_string()
    );
}
