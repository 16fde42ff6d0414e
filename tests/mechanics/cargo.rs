//! Worked examples of cargo securing as their sources publish them, each with the tolerance that the
//! source's rounding allows.

use crate::support::{amount, close, item, middle, plain, sound};
use pintle::facts::Scope;
use pintle::mechanics::formulas::{direct_force, sliding_need, tension_parts, top_over_force};
use pintle::quantity::{Exact, Unit};
use rstest::rstest;

const LB: Unit = Unit::Pound;
const KG: Unit = Unit::Kilogram;

/// GDV, "Securing cargo in road transport", example 4.3: three pallets of 1.0 t, two vertical
/// belts with 2 kN on both sides, friction 0.38, 0.8 g forward, no safety factor. Printed: not
/// adequate, short by just about 40 percent.
#[test]
fn gdv_pallets_under_two_belts() {
    let (mass, friction, c) = (amount("3000", KG), plain("0.38"), plain("0.8"));
    let needed = sliding_need(c, plain("0"), mass);
    close(middle(needed, Unit::Kilonewton), 23.544, 0.0005);
    let rest = middle(sliding_need(c, friction, mass), Unit::Kilonewton);
    let belt = top_over_force(
        plain("2"),
        friction,
        amount("2", Unit::Kilonewton),
        plain("90"),
    );
    let available = 23.544 - rest + 2.0 * middle(belt, Unit::Kilonewton);
    close(available, 14.223, 0.0005);
    close((1.0 - available / 23.544) * 100.0, 39.6, 0.05);
    // With the safety factor of 1.25 that is taken forward today, it is shorter still.
    let rig = sound(
        "load: [{weight: 3000 kg, friction: 38%, tie_downs: [{count: 2, path: over, angle: 90 deg, pretension: 2 kN}]}]",
    );
    let held = rig.value_of(
        item(Scope::Load, 0),
        "load.sliding_held.forward",
        Unit::Percent,
    );
    close(held, 3.04 / (rest * 1.25) * 100.0, 0.001);
    assert!(held < 60.0);
}

/// GDV, "Securing cargo for the road - the facts", ch. 2: one belt, LC 2,500 daN, STF 400 daN,
/// friction 0.3. Tied down it secures at most 240 daN, used directly up to 2,500 daN.
#[test]
fn gdv_one_belt_two_ways() {
    let deca = Unit::Dekanewton;
    let over = top_over_force(plain("2"), plain("0.3"), amount("400", deca), plain("90"));
    assert_eq!(middle(over, deca), 240.0);
    let flat = direct_force(amount("2500", deca), plain("0"), plain("0"), plain("0.3"));
    assert_eq!(middle(flat, deca), 2500.0);
}

/// IRU Academy, revision of EN 12195-1, slide 15: one load in eight sections, sideways. IMO
/// (friction 0.4, k 2, f_s 1.0) 8 lashings, EN 12195-1:2003 (0.28, 1.5, 1.0) 32, the revised
/// standard (0.4, 2, 1.1) 16. Mass and tension are not printed; the needs are as 0.125 to 0.5238
/// to 0.1375, and the printed counts follow for a need between 0.909 and 0.954 of a lashing a
/// section under the first rule.
#[rstest]
#[case(0.92)]
#[case(0.95)]
fn iru_three_rules(#[case] first_need: f64) {
    let need = |friction: &str, k: &str, safety: f64| {
        let weight = amount("1000", KG);
        let force = middle(
            sliding_need(plain("0.5"), plain(friction), weight),
            Unit::Newton,
        );
        let one = top_over_force(
            plain(k),
            plain(friction),
            amount("1", Unit::Newton),
            plain("90"),
        );
        force * safety / middle(one, Unit::Newton)
    };
    let needs = [
        need("0.4", "2", 1.0),
        need("0.28", "1.5", 1.0),
        need("0.4", "2", 1.1),
    ];
    close(needs[1] / needs[0], 0.5238 / 0.125, 0.001);
    close(needs[2] / needs[0], 0.1375 / 0.125, 1e-9);
    let lashings = needs.map(|n| (n / needs[0] * first_need).ceil() * 8.0);
    assert_eq!(lashings, [8.0, 32.0, 16.0]);
}

/// ridertailgate.com, "Tie-down tension and angle", in pounds, rounded to whole ones: 150 lb at 65°
/// pulls 63 sideways, at 45° 106; 251 lb at 65° presses 227 down, 89 lb at 45° 63.
#[rstest]
#[case("150", "65", None, Some(63.0))]
#[case("150", "45", None, Some(106.0))]
#[case("251", "65", Some(227.0), None)]
#[case("89", "45", Some(63.0), None)]
fn strap_components(
    #[case] tension: &str,
    #[case] angle: &str,
    #[case] down: Option<f64>,
    #[case] sideways: Option<f64>,
) {
    let (d, s) = tension_parts(amount(tension, Unit::PoundForce), plain(angle));
    for (found, wanted) in [(d, down), (s, sideways)] {
        if let Some(wanted) = wanted {
            close(middle(found, Unit::PoundForce), wanted, 0.5);
        }
    }
}

/// Schmitz Cargobull, lashing pages: from 75° full effect, from 30° twice as many straps. At 30°
/// the sine is one half, so just twice as many.
#[test]
fn twice_as_many_straps_at_thirty_degrees() {
    let force = |angle: &str| {
        middle(
            top_over_force(plain("2"), plain("0.3"), plain("1"), plain(angle)),
            Unit::One,
        )
    };
    assert_eq!(force("90") / force("30"), 2.0);
    assert!(force("90") / force("75") < 1.04);
}

/// A van fitter's manual after EN 12195-1: an item stands by itself where the distance to the
/// tipping edge over the height of its centre of gravity exceeds 0.8 forward, 0.6 sideways, 0.5
/// rearward.
#[rstest]
#[case("forward", "0.8 m", true)]
#[case("forward", "0.79 m", false)]
#[case("sideways", "0.6 m", true)]
#[case("sideways", "0.59 m", false)]
#[case("rearward", "0.5 m", true)]
#[case("rearward", "0.49 m", false)]
fn tipping_coefficients(#[case] way: &str, #[case] edge: &str, #[case] stands: bool) {
    let place = match way {
        "forward" => "front",
        "rearward" => "rear",
        _ => "side",
    };
    let rig = sound(&format!(
        "load: [{{weight: 100 kg, centre_height: 1 m, tipping_edge: {{{place}: {edge}}}, tie_downs: []}}]"
    ));
    let held = rig.range_of(item(Scope::Load, 0), &format!("load.tipping_held.{way}"));
    assert_eq!(held.lo == Some(Exact::ONE), stands);
    assert_eq!(held.hi == Some(Exact::ZERO), !stands);
}

fn aggregate(weight: &str, tie_downs: &str) -> f64 {
    let rig = sound(&format!(
        "load: [{{weight: {weight}, tie_downs: [{tie_downs}]}}]"
    ));
    rig.value_of(item(Scope::Load, 0), "load.aggregate_limit_us_default", LB)
}

/// ACMOC (owners' club) after talking to a Highway Patrol officer: four 3/8 in chains from trailer
/// to machine. Grade 70 (6,600 lb) counts 3,300 lb each, 13,200 lb, enough for 26,400 lb; unmarked
/// counts as grade 30 (2,650 lb), 5,300 lb, enough for 10,600 lb; 14,000 lb needs 7,000 lb.
#[rstest]
#[case(
    "{count: 4, material: chain-70, marked: yes, working_load_limit: 6600 lb, path: direct}",
    13_200.0,
    26_400.0
)]
#[case(
    "{count: 4, material: chain-70, size: 3/8 in, marked: no, path: direct}",
    13_200.0,
    26_400.0
)]
#[case(
    "{count: 4, material: chain, size: 3/8 in, marked: no, path: direct}",
    5_300.0,
    10_600.0
)]
fn chains_on_a_machine(#[case] chains: &str, #[case] limit: f64, #[case] cargo: f64) {
    let found = aggregate("14000 lb", chains);
    assert_eq!((found, found * 2.0), (limit, cargo));
    assert_eq!(found >= 7_000.0, limit >= 7_000.0);
}

/// Insurance broker's summary of 49 CFR 393.106: 30,000 lb need an aggregate of 15,000 lb. Five
/// 3,000 lb webs over the load just make it.
#[test]
fn half_of_thirty_thousand() {
    assert_eq!(
        aggregate(
            "30000 lb",
            "{count: 5, working_load_limit: 3000 lb, path: over}"
        ),
        15_000.0
    );
}

/// US Navy equipment operator manual: one and a half times the weight; a 55,000 lb crawler needs
/// 82,500 lb, met by eight half-inch chains of 11,000 lb, not by seven.
#[test]
fn navy_chains() {
    let chains = |n: usize| {
        aggregate(
            "55000 lb",
            &format!("{{count: {n}, working_load_limit: 11000 lb, path: over}}"),
        )
    };
    assert!(chains(8) >= 1.5 * 55_000.0 && chains(7) < 1.5 * 55_000.0);
}

/// Summary of the New Zealand truck loading code, 10 t of load: two chains of 10 t without a
/// headboard (twice the weight), 5 t with one (once), 7.5 t with a low one (one and a half times).
#[rstest]
#[case("10 t", 2.0)]
#[case("5 t", 1.0)]
#[case("7.5 t", 1.5)]
fn new_zealand_chains(#[case] each: &str, #[case] factor: f64) {
    let rig = sound(&format!(
        "load: [{{weight: 10 t, tie_downs: [{{count: 2, working_load_limit: {each}, path: over}}]}}]"
    ));
    close(
        rig.value_of(item(Scope::Load, 0), "load.aggregate_limit", KG),
        factor * 10_000.0,
        0.0,
    );
}
