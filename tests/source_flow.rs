//! Figures with thousands commas inside brackets.

use pintle::source::{Node, SourceText, Value, parse};
use proptest::prelude::*;
use rstest::rstest;

fn line(node: &Node) -> String {
    match &node.value {
        Value::Null => "~".to_owned(),
        Value::Scalar(s) if s.plain => s.text.clone(),
        Value::Scalar(s) => format!("{:?}", s.text),
        Value::Seq(items) => format!(
            "[{}]",
            items.iter().map(line).collect::<Vec<_>>().join("; ")
        ),
        Value::Map(map) => {
            let entries = map
                .iter()
                .map(|e| format!("{}={}", e.key.text, line(&e.value)));
            format!("{{{}}}", entries.collect::<Vec<_>>().join("; "))
        }
    }
}

fn read(text: &str) -> String {
    match parse(&SourceText::from_str("t", text)) {
        Ok(root) => line(&root),
        Err(complaints) => complaints
            .iter()
            .map(|c| c.code)
            .collect::<Vec<_>>()
            .join(" "),
    }
}

#[rstest]
#[case("{rating: 3,500 lb, braked: true}", "{rating=3,500 lb; braked=true}")]
#[case("{a: 3,500 lb, b: 4,500 lb}", "{a=3,500 lb; b=4,500 lb}")]
#[case("{a: 12,345,678 lb}", "{a=12,345,678 lb}")]
#[case("{a: 3,000 lb to 4,000 lb}", "{a=3,000 lb to 4,000 lb}")]
#[case("{a: 3,000-4,000 lb}", "{a=3,000-4,000 lb}")]
#[case("{a: about 3,000 lb}", "{a=about 3,000 lb}")]
#[case("{a: 4,000 lb +/- 5%, b: 1}", "{a=4,000 lb +/- 5%; b=1}")]
#[case("{a: 1,360.77711 kg}", "{a=1,360.77711 kg}")]
#[case("{a: 3,000}", "{a=3,000}")]
#[case("{a: 3,000lb}", "{a=3,000lb}")]
#[case(
    "{at_least: 3,000 lb, less_than: 6,500 lb}",
    "{at_least=3,000 lb; less_than=6,500 lb}"
)]
#[case("{a: 3,000 lb # note\n}", "{a=3,000 lb}")]
#[case("{a: {b: 3,000 lb}, c: [4,000 lb]}", "{a={b=3,000 lb}; c=[4,000 lb]}")]
#[case("- {a: 3,500 lb}\n- {a: 3,500 lb}", "[{a=3,500 lb}; {a=3,500 lb}]")]
#[case("[3,000 lb, 4,000 lb]", "[3,000 lb; 4,000 lb]")]
#[case("[12,345,678 lb]", "[12,345,678 lb]")]
#[case("[3,000 lb to 4,000 lb, x]", "[3,000 lb to 4,000 lb; x]")]
#[case("[1,200]", "[1,200]")]
#[case("[w: 3,000 lb, v: 2]", "[{w=3,000 lb}; {v=2}]")]
#[case("{a: &x 3,000 lb, b: *x}", "{a=3,000 lb; b=3,000 lb}")]
#[case("[&x 3,000 lb, *x]", "[3,000 lb; 3,000 lb]")]
#[case("{a: &x 12,345,678 lb, b: *x}", "{a=12,345,678 lb; b=12,345,678 lb}")]
#[case("[w: &v 3,000 lb, *v]", "[{w=3,000 lb}; 3,000 lb]")]
#[case("[&x w: 3,000 lb, *x]", "[{w=3,000 lb}; w]")]
#[case("&m {a: &x 3,000 lb}", "{a=3,000 lb}")]
#[case(
    "a: &m [&x 3,000 lb]\nb: *m\nc: *x",
    "{a=[3,000 lb]; b=[3,000 lb]; c=3,000 lb}"
)]
#[case("a: 3,000 lb", "{a=3,000 lb}")]
fn joined(#[case] text: &str, #[case] expected: &str) {
    assert_eq!(read(text), expected);
}

#[rstest]
#[case::space("[1, 200]", "[1; 200]")]
#[case::space_in_map("{a: 3, 500 lb}", "{a=3; 500 lb=~}")]
#[case::line_break("{a: 3,\n500 lb}", "{a=3; 500 lb=~}")]
#[case::comment("{a: 3, # note\n500 lb}", "{a=3; 500 lb=~}")]
#[case::valued("{a: 3,500 lb: x}", "{a=3; 500 lb=x}")]
#[case::colon_without_value("{a: 3,500 lb: }", "{a=3; 500 lb=~}")]
#[case::colon_after_comment("{a: 3,500 lb # note\n : }", "{a=3; 500 lb=~}")]
#[case::written_null("{a: 3,500 lb: ~}", "{a=3; 500 lb=~}")]
#[case::written_null_word("{a: 3,500 lb: null}", "{a=3; 500 lb=~}")]
#[case::question_mark("{a: 3,? 500 lb}", "{a=3; 500 lb=~}")]
#[case::quoted_key("{a: 3,\"500 lb\"}", "{a=3; 500 lb=~}")]
#[case::quoted_value("{a: \"3\",500 lb}", "{a=\"3\"; 500 lb=~}")]
#[case::two_digits("{a: 3,50 lb}", "{a=3; 50 lb=~}")]
#[case::four_digits("{a: 3,5000 lb}", "{a=3; 5000 lb=~}")]
#[case::full_figure("{a: 4000,500 lb}", "{a=4000; 500 lb=~}")]
#[case::broken_groups("{a: 1,23,456 lb}", "{a=1; 23=~; 456 lb=~}")]
#[case::zero("[0,500 lb]", "[0; 500 lb]")]
#[case::leading_zero("[05,500 lb]", "[05; 500 lb]")]
#[case::decimal("[1.5,000 lb]", "[1.5; 000 lb]")]
#[case::fraction("[2-5/16,000 in]", "[2-5/16; 000 in]")]
#[case::unit_between("[500 lb,750 lb]", "[500 lb; 750 lb]")]
#[case::word("[axle2,500 lb]", "[axle2; 500 lb]")]
#[case::date("[2026-12-01,500]", "[2026-12-01; 500]")]
#[case::key_only("{3,500 lb}", "{3=~; 500 lb=~}")]
#[case::pair_in_list("[3,000 lb: x]", "[3; {000 lb=x}]")]
#[case::quoted_items("[\"3\",000 lb]", "[\"3\"; 000 lb]")]
#[case::collection_before("[[3],000 lb]", "[[3]; 000 lb]")]
#[case::braces_before("[{a: 3},000 lb]", "[{a=3}; 000 lb]")]
#[case::alias_before("[&x 3, *x,500 lb]", "[3; 3; 500 lb]")]
#[case::alias_after("{z: &x 500 lb, a: [3,*x]}", "{z=500 lb; a=[3; 500 lb]}")]
#[case::anchored_after("[3,&x 500 lb]", "[3; 500 lb]")]
#[case::tagged_after("[3,!!str 500 lb]", "[3; \"500 lb\"]")]
#[case::null_before("{a: ,500 lb}", "{a=~; 500 lb=~}")]
fn left_alone(#[case] text: &str, #[case] expected: &str) {
    assert_eq!(read(text), expected);
}

#[rstest]
#[case("{rating: 3,500 lb, braked: true}", "/rating", "3,500 lb")]
#[case("{a: 12,345,678 lb}", "/a", "12,345,678 lb")]
#[case("[3,000 lb to 4,000 lb, 1]", "/0", "3,000 lb to 4,000 lb")]
#[case("[w: 3,000 lb]", "/0", "w: 3,000 lb")]
#[case("[w: 3,000 lb]", "/0/w", "3,000 lb")]
fn the_joined_figure_spans_all_its_pieces(
    #[case] text: &str,
    #[case] at: &str,
    #[case] written: &str,
) {
    let source = SourceText::from_str("t", text);
    let root = parse(&source).expect("well-formed");
    let (_, node) = root.at_pointer(at).expect("the pointer leads somewhere");
    assert_eq!(source.slice(node.span), written);
}

#[test]
fn duplicates_are_judged_after_joining() {
    assert_eq!(
        read("{a: 3,500 lb, b: 4,500 lb, a: 1}"),
        "source::duplicate-key"
    );
}

/// A whole number with a comma before each group of three digits.
fn grouped(number: u64) -> String {
    let digits = number.to_string();
    let mut out = String::new();
    for (n, digit) in digits.chars().enumerate() {
        if n > 0 && (digits.len() - n).is_multiple_of(3) {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

proptest! {
    #[test]
    fn any_grouped_figure_reads_the_same_in_a_block_and_in_brackets(
        numbers in proptest::collection::vec(1u64..10_000_000_000, 1..6),
        unit in "(| lb| kg|lb|\\.5 kg| lb to 2,000 lb)",
    ) {
        let figures: Vec<String> = numbers.iter().map(|n| format!("{}{unit}", grouped(*n))).collect();
        let pair = |(n, figure): (usize, &String)| format!("k{n}: {figure}");
        let pairs: Vec<String> = figures.iter().enumerate().map(pair).collect();
        let block = read(&pairs.join("\n"));
        prop_assert_eq!(read(&format!("{{{}}}", pairs.join(", "))), block);
        prop_assert_eq!(read(&format!("[{}]", figures.join(", "))), format!("[{}]", figures.join("; ")));
    }
}
