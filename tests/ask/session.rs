use crate::oracle::{DEMO, answer, facts, name, rules};
use pintle::dialogue::Session;
use pintle::engine::{Question, Ruleset};
use pintle::facts::{Origin, Scope, catalogue, parse_day};
use pintle::report::{CheckDay, Detail, Report, print_json, report_json};
use pintle::rig::read_rig;
use pintle::source::SourceText;
use rstest::rstest;

fn day() -> CheckDay {
    CheckDay::asked(parse_day("2026-12-01").expect("a day"))
}

/// Another rig than the demo: a boat on a light trailer without brakes, lent to a friend.
const BOAT: &str = "rig: 1
use: private
interstate: no
tow_vehicle: {kind: car, curb_weight: 3,400 lb, people_weight: 300 lb, gear_weight: 0 lb, gvwr: 4,600 lb, mirrors: [left, right, inside]}
trailer:
  kind: boat
  coupling: ball
  gross_weight: 2,550 lb
  gvwr: 2,900 lb
  brakes: none
  axles: [{rating: 2,900 lb, braked: no, wheels: 2}]
  lamps: [tail, stop, turn, plate]
  safety_chains: {count: 2, crossed: yes, strength: 5,000 lb}
load: []
trip: {speed: 55 mph, on: 2026-12-01}
";

/// Asks from nothing, picking by `pick` among the open questions, until nothing matters any more.
fn run<'r>(
    rules: &'r Ruleset<'static>,
    full: &str,
    pick: &dyn Fn(&[Question], &Session<'_, '_>) -> usize,
) -> (Session<'r, 'static>, usize) {
    let known = facts(full);
    let empty = SourceText::from_str("rig.yaml", "rig: 1\n");
    let mut session = Session::new(rules, &empty, day()).expect("an empty rig");
    let mut asked = 0;
    loop {
        let open = session.questions();
        if open.is_empty() {
            return (session, asked);
        }
        let question = &open[pick(&open, &session)];
        let told = name(question.asked, session.stated());
        match answer(&known, &told) {
            Some(text) => session
                .answer(question.asked, &text)
                .unwrap_or_else(|e| panic!("{told}: {text}: {e:?}")),
            None => session.dont_know(question.asked),
        }
        asked += 1;
        assert!(asked < 1000, "the questions end");
    }
}

#[rstest]
#[case::kiln(DEMO, &["US-NE", "US-CO"])]
#[case::boat(BOAT, &["US-NE", "CA-ON"])]
fn what_is_not_asked_does_not_matter(#[case] full: &str, #[case] codes: &[&str]) {
    let rules = rules(codes);
    let (session, asked) = run(&rules, full, &|_, _| 0);
    let outcomes = |text: &str| {
        let rig = read_rig(&SourceText::from_str("rig.yaml", text)).expect("a rig");
        let facts = pintle::report::facts_on(&rig, day()).expect("no contradiction");
        rules.outcomes(&facts, &rules.looks(&Default::default()), Some(day().day))
    };
    let (short, whole) = (outcomes(session.text()), outcomes(full));
    for (at, rule) in rules.program().rules.iter().enumerate() {
        let bound = rules.bindings().iter().any(|b| b.rules.contains(&at));
        assert!(
            !bound || short[at] == whole[at],
            "{}: {:?} of the answers, {:?} of the whole rig",
            rule.id,
            short[at],
            whole[at]
        );
    }
    // Fewer than half of the facts that a rig like it can state are asked for.
    let known = facts(full);
    let can_state: usize = catalogue()
        .all()
        .filter(|(_, d)| d.origin != Origin::WorkedOut)
        .map(|(_, d)| {
            if d.scope == Scope::Rig {
                1
            } else {
                known.items(d.scope).len()
            }
        })
        .sum();
    assert!(
        asked * 2 < can_state,
        "{asked} of {can_state} were asked for"
    );
}

/// An order that does not look at what is open: the first in it that is.
fn fixed(rank: impl Fn(&str) -> u64) -> impl Fn(&[Question], &Session<'_, '_>) -> usize {
    move |open, session| {
        let ranks = open.iter().enumerate();
        let best = ranks.min_by_key(|(_, q)| rank(&name(q.asked, session.stated())));
        best.map_or(0, |(i, _)| i)
    }
}

fn scrambled(seed: u64) -> impl Fn(&str) -> u64 {
    move |name| {
        let start = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0xcbf2_9ce4_8422_2325;
        name.bytes().fold(start, |h, b| {
            (h ^ u64::from(b)).wrapping_mul(0x0100_0000_01b3)
        })
    }
}

#[rstest]
#[case::kiln(DEMO, &["US-NE"])]
#[case::boat(BOAT, &["US-NE"])]
fn the_chosen_order_needs_no_more_questions_than_a_fixed_one(
    #[case] full: &str,
    #[case] codes: &[&str],
) {
    let rules = rules(codes);
    let (_, chosen) = run(&rules, full, &|_, _| 0);
    let place = |name: &str| {
        let all = catalogue().all().position(|(_, d)| d.name == name);
        all.unwrap_or(usize::MAX / 2) as u64
    };
    let mut counts = vec![
        run(&rules, full, &fixed(place)).1,
        run(&rules, full, &fixed(move |n| u64::MAX - place(n))).1,
    ];
    for seed in 1..=4 {
        counts.push(run(&rules, full, &fixed(scrambled(seed))).1);
    }
    assert!(
        counts.iter().all(|n| chosen <= *n),
        "{chosen} against {counts:?}"
    );
}

#[test]
fn the_last_report_is_that_of_the_file() {
    let rules = rules(&["US-NE"]);
    let (session, _) = run(&rules, BOAT, &|_, _| 0);
    let of_session = session.report(Detail::All).expect("a report");
    let rig = read_rig(&SourceText::from_str("other.yaml", session.text())).expect("a rig");
    let of_file = Report::new(&rig, &rules, day(), Detail::All)
        .and_then(|r| r.with_margins(&rig, &rules))
        .expect("a report");
    assert_eq!(
        print_json(&report_json(&of_session)),
        print_json(&report_json(&of_file))
    );
}

#[test]
fn a_bad_answer_changes_nothing_and_says_what_was_expected() {
    let rules = rules(&["US-NE"]);
    let text = SourceText::from_str(
        "rig.yaml",
        "rig: 1\ntrailer: {kind: boat, empty_weight: 900 lb}\nload: []\n",
    );
    let mut session = Session::new(&rules, &text, day()).expect("a rig");
    let weight = catalogue().find("trailer.gvwr").expect("a fact");
    let asked = pintle::engine::Asked::Fact(pintle::facts::ItemId::RIG, weight);
    for (bad, expected) in [
        ("3000", "lb"),
        ("heavy", "3,000 lb"),
        ("10 ft", "mass"),
        ("-3 lb", ""),
        ("\u{1b}[2J", ""),
    ] {
        let refusal = session.answer(asked, bad).expect_err(bad);
        assert!(
            refusal.expected.contains(expected) || refusal.message.contains(expected),
            "{bad}: {refusal:?}"
        );
    }
    assert_eq!(session.text(), text.text());
    session.answer(asked, "2,900 lb").expect("a good answer");
    let gross = catalogue().find("trailer.gross_weight").expect("a fact");
    let gross = pintle::engine::Asked::Fact(pintle::facts::ItemId::RIG, gross);
    let refusal = session
        .answer(gross, "2,000 lb")
        .expect_err("900 lb and no load weigh 900 lb");
    assert!(refusal.message.contains("gross"), "{refusal:?}");
    assert!(session.back());
    assert_eq!(session.text(), text.text());
}

#[test]
fn a_fact_asked_for_in_vain_is_asked_for_by_what_it_is_worked_out_from() {
    let rules = rules(&["US-NE"]);
    let text = SourceText::from_str("rig.yaml", "rig: 1\nuse: private\ntrailer: {kind: boat}\n");
    let mut session = Session::new(&rules, &text, day()).expect("a rig");
    let open = |s: &Session<'_, '_>, wanted: &str| {
        let all = s.questions().into_iter();
        all.map(|q| q.asked)
            .find(|a| name(*a, s.stated()) == wanted)
    };
    assert_eq!(open(&session, "trailer.empty_weight"), None);
    let gross = open(&session, "trailer.gross_weight").expect("it is asked for");
    session.dont_know(gross);
    assert_eq!(open(&session, "trailer.gross_weight"), None);
    assert!(open(&session, "trailer.empty_weight").is_some());
}
