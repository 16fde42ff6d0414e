//! Published worked examples solved backward: from the figure that a source arrives at to the one that
//! it starts from.

use pintle::engine::Ruleset;
use pintle::engine::solve::{Band, Range, Standing, find_subject, range};
use pintle::pack::{Library, Region};
use pintle::quantity::Exact;
use pintle::rig::read_rig;
use pintle::source::SourceText;
use rstest::rstest;
use std::sync::OnceLock;

fn library() -> &'static Library {
    static ONE: OnceLock<Library> = OnceLock::new();
    ONE.get_or_init(Library::built_in_rules)
}

/// What is asked of one fact of a rig in Nebraska, the habits of the trade included.
struct Solved {
    range: Range,
    rules: Ruleset<'static>,
    now: Exact,
}

fn solve(rig: &str, fact: &str) -> Solved {
    let nebraska = Region::find("US-NE").expect("a region");
    let rules = Ruleset::new(library(), &[nebraska], true).expect("the packs compile");
    let rig = read_rig(&SourceText::from_str("rig.yaml", rig)).expect("the rig reads");
    let subject = find_subject(&rig.facts, fact, None).expect("a fact");
    let now = subject.now(&rig.facts).expect("it is stated");
    let now = now.value.interval().is_exact().expect("one value");
    let range = range(&rules, &rig.facts, &rules.looks(&rig.seen), &subject);
    Solved { range, rules, now }
}

impl Solved {
    /// The stretch about what the rig states on which this rule is not broken. Its ends belong to it.
    fn kept(&self, rule: &str) -> (Option<String>, Option<String>) {
        let place = self.rules.program().rules.iter();
        let place = place.into_iter().position(|r| r.id == rule);
        let place = place.unwrap_or_else(|| panic!("there is no rule {rule}"));
        let bands = &self.range.apart;
        let keeps = |b: &Band| b.standing != Standing::Broken || !b.rules.contains(&place);
        let own = bands
            .iter()
            .position(|b| b.value.interval().contains(self.now));
        let own = own.expect("the value lies in a band");
        assert!(keeps(&bands[own]) && !self.range.anyway.contains(&place));
        let first = bands[..own].iter().rposition(|b| !keeps(b));
        let last = bands[own..].iter().position(|b| !keeps(b));
        let first = first.map_or(0, |i| i + 1);
        let last = last.map_or(bands.len(), |i| own + i) - 1;
        let told = |end: Option<(String, bool)>| {
            end.map(|(x, included)| {
                assert!(included, "{x} belongs to it");
                x
            })
        };
        let (from, to) = (
            self.range.ends(&bands[first]).0,
            self.range.ends(&bands[last]).1,
        );
        (told(from), told(to))
    }
}

/// Trade press report of a trailer makers' convention talk: ball to suspension 100 in, 800 lb empty
/// with 80 lb on the tongue, 1,700 lb of load centred 88 in behind the ball: 284 lb on the tongue. So
/// behind a hitch that bears 284 lb the load may come forward to 88 in and no further. Of the 2,500 lb
/// 10 percent are 250 lb, which 90 in leave: 80 + 1,700 × (100 − 90) ÷ 100.
#[rstest]
#[case("284 lb", "88 in")]
#[case("250 lb", "90 in")]
#[case("290.8 lb", "87.6 in")]
fn how_far_forward_the_load_may_lie(#[case] rating: &str, #[case] foremost: &str) {
    let rig = |position: &str| {
        format!(
        "rig: 1
tow_vehicle: {{kind: pickup, hitch: {{tongue_rating: {rating}, weight_distributing: no}}}}
trailer: {{kind: flatbed, coupling: ball, empty_weight: 800 lb, empty_tongue_weight: 80 lb, coupler_to_axles: 100 in}}
loading: {{positions_from: coupler}}
load: [{{name: load, kind: general, weight: 1700 lb, position: {position}}}]
"
    )
    };
    let solved = solve(&rig("95 in"), "load.load.position");
    let (from, _) = solved.kept("practice-coupling-up/tongue-within-hitch-rating");
    assert_eq!(from.as_deref(), Some(foremost));
    assert_eq!(solved.range.resolution, None);
    // The last place at which a tenth of the weight is on the tongue is the same whatever the rating.
    let solved = solve(&rig("85 in"), "load.load.position");
    let (_, to) = solved.kept("practice-loading/tongue-at-least-10-percent");
    assert_eq!(to.as_deref(), Some("90 in"));
    assert_eq!(solved.range.resolution, None);
}

/// Trailer parts dealer, "How to determine correct axle position": ball to axle 264 in; 1,025 lb on the
/// tongue and 7,200 lb on the wheels, or 300 lb and 8,200 lb; where must the axle lie for a tenth on the
/// tongue? The centre of gravity stays where it is, so at nine tenths of that distance: 264 × 7,200 ÷
/// 8,225 ÷ 0.9 = 256.778 in, and 264 × 8,200 ÷ 8,500 ÷ 0.9 = 282.980 in. The dealer's rule of first order
/// (6.5 in forward, 17 in back) falls short of the move by a tenth.
#[rstest]
#[case("8,225 lb", 7200.0, 8225.0, "256.778", -6.5)]
#[case("8,500 lb", 8200.0, 8500.0, "282.98", 17.0)]
fn where_the_axle_has_to_lie(
    #[case] weight: &str,
    #[case] wheels: f64,
    #[case] total: f64,
    #[case] place: &str,
    #[case] by_the_shop_rule: f64,
) {
    let centre = 264.0 * wheels / total;
    let rig = format!(
        "rig: 1
tow_vehicle: {{kind: pickup, hitch: {{weight_distributing: no}}}}
trailer: {{kind: flatbed, coupling: ball, empty_weight: 0 lb, empty_tongue_weight: 0 lb, coupler_to_axles: 290 in}}
loading: {{positions_from: coupler}}
load: [{{name: load, kind: general, weight: {weight}, position: {centre:.6} in}}]
"
    );
    let solved = solve(&rig, "trailer.coupler_to_axles");
    let (from, _) = solved.kept("practice-loading/tongue-at-least-10-percent");
    let from = from.expect("an end");
    let least: f64 = from.trim_end_matches(" in").parse().expect("a number");
    let exact: f64 = place.parse().expect("a number");
    // An end is told to a hundredth of an inch, rounded inward.
    let rounded = least - exact;
    assert!(
        (-0.0005..0.0105).contains(&rounded),
        "{from} against {place} in"
    );
    let move_needed = least - 264.0;
    assert!((by_the_shop_rule / move_needed - 0.9).abs() < 0.01);
}

/// A machine on a flatbed of a carrier.
fn machine(weight: &str, tie_downs: &str) -> String {
    format!(
        "rig: 1
use: business
interstate: yes
tow_vehicle: {{kind: truck, gvwr: 26,000 lb}}
trailer: {{kind: flatbed, coupling: ball}}
load:
  - {{name: machine, kind: machine, weight: {weight}, length: 9 ft, secured: yes, blocked_forward: no, contained: no, tie_downs: [{{{tie_downs}}}]}}
"
    )
}

/// An owners' club's account of what a highway patrol officer told of 49 CFR 393.102 to 393.108: four
/// chains from the trailer to the machine count for half; of grade 70 (6,600 lb) they make 13,200 lb,
/// enough for 26,400 lb; unmarked they count as grade 30 (2,650 lb), 5,300 lb, enough for 10,600 lb.
#[rstest]
#[case(
    "count: 4, material: chain-70, working_load_limit: 6,600 lb, marked: yes, path: direct",
    "26,400 lb"
)]
#[case(
    "count: 4, material: chain, size: 3/8 in, marked: no, path: direct",
    "10,600 lb"
)]
fn the_heaviest_machine_that_chains_hold(#[case] chains: &str, #[case] heaviest: &str) {
    let solved = solve(&machine("9,000 lb", chains), "load.machine.weight");
    let (_, to) = solved.kept("us-federal/aggregate-working-load-limit");
    assert_eq!(to.as_deref(), Some(heaviest));
    assert_eq!(solved.range.resolution, None);
}

/// The same account: a machine of 14,000 lb needs 7,000 lb. An insurance broker's summary of 49 CFR
/// 393.106: 30,000 lb need 15,000 lb. So two chains that go over, or four that count for half, need
/// 3,500 lb or 7,500 lb each.
#[rstest]
#[case("14,000 lb", "count: 2, path: over", "3,500 lb")]
#[case("14,000 lb", "count: 4, path: direct", "3,500 lb")]
#[case("30,000 lb", "count: 2, path: over", "7,500 lb")]
#[case("30,000 lb", "count: 4, path: direct", "7,500 lb")]
fn the_least_limit_of_each_chain(#[case] weight: &str, #[case] chains: &str, #[case] least: &str) {
    let chains = format!("{chains}, marked: yes, working_load_limit: 9,000 lb");
    let fact = "load.machine.tie_down.1.working_load_limit";
    let solved = solve(&machine(weight, &chains), fact);
    let (from, _) = solved.kept("us-federal/aggregate-working-load-limit");
    assert_eq!(from.as_deref(), Some(least));
}

/// Of chains of grade 70, 3/8 in (6,600 lb), 30,000 lb need three where they go over (19,800 lb; two
/// are 13,200 lb), and five where they count for half (16,500 lb; four are 13,200 lb).
#[rstest]
#[case("over", "3")]
#[case("direct", "5")]
fn how_many_chains(#[case] path: &str, #[case] least: &str) {
    let chains = format!("count: 6, path: {path}, marked: yes, working_load_limit: 6,600 lb");
    let solved = solve(
        &machine("30,000 lb", &chains),
        "load.machine.tie_down.1.count",
    );
    let (from, _) = solved.kept("us-federal/aggregate-working-load-limit");
    assert_eq!(from.as_deref(), Some(least));
}

/// Trailer parts dealer's summary of 49 CFR 393.48(d): with surge brakes a vehicle of 6,000 lb draws up
/// to 10,500 lb (1.75 of its rating), one of 15,000 lb up to 18,750 lb (1.25).
#[rstest]
#[case("6,000 lb", "10,500 lb")]
#[case("15,000 lb", "18,750 lb")]
fn the_heaviest_trailer_with_surge_brakes(#[case] vehicle: &str, #[case] heaviest: &str) {
    let rig = format!(
        "rig: 1
use: business
interstate: yes
tow_vehicle: {{kind: truck, gvwr: {vehicle}}}
trailer: {{kind: flatbed, coupling: ball, gvwr: 10,002 lb, brakes: surge}}
load: []
"
    );
    let solved = solve(&rig, "trailer.gvwr");
    let (rule, _) = solved
        .range
        .apart
        .iter()
        .flat_map(|b| &b.above)
        .map(|at| (solved.rules.program().rules[*at].id.clone(), at))
        .find(|(id, _)| id.contains("surge"))
        .expect("a rule on surge brakes ends the range");
    let (_, to) = solved.kept(&rule);
    assert_eq!(to.as_deref(), Some(heaviest));
}
