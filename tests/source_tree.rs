//! The YAML tree: what is read, where it was written, and what is refused.

use pintle::source::{Complaints, Node, SourceText, Value, parse};
use rstest::rstest;

fn read(text: &str) -> Result<Node, Complaints> {
    parse(&SourceText::from_str("t.yaml", text))
}

fn good(text: &str) -> Node {
    read(text).unwrap_or_else(|c| panic!("{text:?}: {c}"))
}

/// A tree on one line: plain texts bare, others in quotes, null as `~`.
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

#[rstest]
#[case("a: 3,000 lb", "{a=3,000 lb}")]
#[case(
    "a: 012\nb: 1.0\nc: yes\nd: 1e3\ne: 0x1F",
    "{a=012; b=1.0; c=yes; d=1e3; e=0x1F}"
)]
#[case("a: 2026-12-01", "{a=2026-12-01}")]
#[case("a: '1'\nb: \"x\\ty\"", "{a=\"1\"; b=\"x\\ty\"}")]
#[case(
    "a:\nb: ~\nc: null\nd: ''\ne: nullable",
    "{a=~; b=~; c=~; d=\"\"; e=nullable}"
)]
#[case("a: one\n  two", "{a=one two}")]
#[case("a: |\n  one\n  two\n", "{a=\"one\\ntwo\\n\"}")]
#[case("- 1\n- [2, {b: 3}]\n-", "[1; [2; {b=3}]; ~]")]
#[case("a: &x 5 lb\nb: *x", "{a=5 lb; b=5 lb}")]
#[case(
    "a: &x {w: [1, 2]}\nb: *x\nc: [*x]",
    "{a={w=[1; 2]}; b={w=[1; 2]}; c=[{w=[1; 2]}]}"
)]
#[case("&k a: 1\nb: *k", "{a=1; b=a}")]
#[case(
    "a: !!str 12\nb: !!int 3\nc: !!map {}\nd: !!seq []",
    "{a=\"12\"; b=3; c={}; d=[]}"
)]
#[case("'a b': 1\n? c\n: 2", "{a b=1; c=2}")]
#[case("null: 1", "{null=1}")]
#[case("a: 1\r\nb:\r\n  - 2\r\n", "{a=1; b=[2]}")]
#[case("\u{feff}a: 1", "{a=1}")]
#[case("# note\n---\na: 1 # note\n...\n", "{a=1}")]
#[case("a:\t1", "{a=1}")]
#[case("just text", "just text")]
fn reads(#[case] text: &str, #[case] expected: &str) {
    assert_eq!(line(&good(text)), expected);
}

/// The refused text, the code, and the marked characters of each label, in order.
#[rstest]
#[case::again("a: 1\nb: 2\na: 3\n", "source::duplicate-key", &["a", "a"])]
#[case::again_quoted("a: 1\n'a': 3\n", "source::duplicate-key", &["'a'", "a"])]
#[case::again_in_flow("{a: 1, b: {c: 1, c: 2}}", "source::duplicate-key", &["c", "c"])]
#[case::tab("a:\n\tb: 1\n", "source::tab", &["\t"])]
#[case::tab_deeper("a:\n  b: 1\n\tc: 2\n", "source::tab", &["\t"])]
#[case::tab_after_spaces("a:\n  \tb: 1\n  c: 2\n", "source::tab", &["\t"])]
#[case::tab_list("a:\n\t- 1\n", "source::tab", &["\t"])]
#[case::colon("a: b: c", "source::yaml", &[":"])]
#[case::quote("a: \"open", "source::yaml", &["\""])]
#[case::bracket("a: [1, 2", "source::yaml", &["["])]
#[case::other_bracket("a: [1, 2}", "source::yaml", &["["])]
#[case::at_sign("a: @home", "source::yaml", &["@"])]
#[case::anchor("a: *none", "source::yaml", &["*"])]
#[case::documents("a: 1\n---\nb: 2\n", "source::many-documents", &["---"])]
#[case::tag("a: !inch 3", "source::tag", &["3"])]
#[case::tag_mismatch("a: !!map 3", "source::tag", &["3"])]
#[case::merge("a: &x {b: 1}\nc:\n  <<: *x\n", "source::merge-key", &["<<"])]
#[case::no_key("a: 1\n: 2\n", "source::key", &[""])]
#[case::list_key("{[a]: 1}", "source::key", &["[a]"])]
#[case::hidden_key("\"a\\u200b\": 1", "source::key", &["\"a\\u200b\""])]
#[case::itself("a: &x [1, *x]", "source::self-reference", &["*x"])]
#[case::nul("a: \0", "source::control-character", &["\0"])]
#[case::escape("a: \u{1b}[31m", "source::control-character", &["\u{1b}"])]
#[case::c1("a: \u{9b}31m", "source::control-character", &["\u{9b}"])]
#[case::empty("", "source::empty", &[])]
#[case::blank(" \n\n", "source::empty", &[])]
#[case::comments("# nothing\n", "source::empty", &[])]
#[case::marks("---\n", "source::empty", &[])]
fn refuses(#[case] text: &str, #[case] code: &str, #[case] marked: &[&str]) {
    let complaints = read(text).expect_err("must be refused");
    let first = complaints.iter().next().expect("one complaint");
    assert_eq!(first.code, code, "{complaints}");
    let source = SourceText::from_str("t.yaml", text);
    let places: Vec<&str> = first
        .labels
        .iter()
        .map(|label| source.slice(label.span))
        .collect();
    assert_eq!(places, marked, "{complaints}");
}

#[test]
fn several_complaints_come_in_one_run_and_in_order() {
    let complaints = read("a: 1\na: 2\nb: !x 1\nc:\n  <<: {}\n  d: 1\n  d: 2\n").expect_err("four");
    let codes: Vec<&str> = complaints.iter().map(|c| c.code).collect();
    let expected = [
        "source::duplicate-key",
        "source::tag",
        "source::merge-key",
        "source::duplicate-key",
    ];
    assert_eq!(codes, expected);
    let lines: Vec<usize> = complaints
        .iter()
        .filter_map(|c| Some(c.line_col()?.0))
        .collect();
    assert_eq!(lines, [2, 3, 5, 7]);
}

#[rstest]
#[case("a: 3,000 lb # note", "/a", "3,000 lb")]
#[case(
    "a:\n  - b: 1\n    c: [x, y]\n\n# end\n",
    "/a",
    "- b: 1\n    c: [x, y]"
)]
#[case(
    "a:\n  - b: 1\n    c: [x, y]\n\n# end\n",
    "/a/0",
    "b: 1\n    c: [x, y]"
)]
#[case("a:\n  - b: 1\n    c: [x, y]\n\n# end\n", "/a/0/c", "[x, y]")]
#[case("a: {b: 'q r'}", "/a", "{b: 'q r'}")]
#[case("a: {b: 'q r'}", "/a/b", "'q r'")]
#[case("a: |\n  one\n  two\n\nb: 1", "/a", "one\n  two")]
#[case("a: \n  b:\nc: 1", "/a/b", "")]
#[case("caf\u{e9}: 窯 5 lb\nb: ü", "/b", "ü")]
#[case("a: 1\r\nb: two\r\n", "/b", "two")]
#[case("'a/b': {'c~d': 7}", "/a~1b/c~0d", "7")]
fn spans_hold_what_was_written(#[case] text: &str, #[case] pointer: &str, #[case] written: &str) {
    let root = good(text);
    let (_, node) = root
        .at_pointer(pointer)
        .expect("the pointer leads somewhere");
    assert_eq!(SourceText::from_str("t", text).slice(node.span), written);
}

#[test]
fn json_keeps_texts_and_reads_plain_words() {
    let text = "a: true\nb: 'true'\nc: 12\nd: -3.5\ne: 012\nf: 1e3\ng: ~\nh: yes\ni: 3,000\nj: 99999999999999999999\nk: 1.\nl: 2026-12-01\nm: '7'\nn: 18446744073709551615";
    let expected = serde_json::json!({
        "a": true, "b": "true", "c": 12, "d": -3.5, "e": "012", "f": "1e3", "g": null, "h": "yes",
        "i": "3,000", "j": "99999999999999999999", "k": "1.", "l": "2026-12-01", "m": "7",
        "n": 18_446_744_073_709_551_615_u64
    });
    assert_eq!(good(text).to_json(), expected);
}

#[test]
fn maps_keep_their_order_and_find_their_keys() {
    let root = good("z: 1\na: 2\nm: 3");
    let map = root.as_map().expect("a mapping");
    assert_eq!(map.keys().collect::<Vec<_>>(), ["z", "a", "m"]);
    assert_eq!(root.get("a").and_then(Node::as_str), Some("2"));
    assert!(root.get("b").is_none());
}
