//! Answers written into the text of a rig file.

use pintle::rig::{Step, Written, read_rig, write_value};
use pintle::source::SourceText;
use proptest::prelude::*;
use rstest::rstest;

fn path(dotted: &str) -> Vec<Step> {
    let step = |s: &str| match s.parse() {
        Ok(at) => Step::Item(at),
        Err(_) => Step::Key(s.to_owned()),
    };
    dotted.split('.').map(step).collect()
}

fn write(text: &str, at: &str, value: &str) -> Result<String, String> {
    let value = Written::Scalar(value.to_owned());
    write_value(&SourceText::from_str("rig", text), &path(at), &value)
        .map_err(|c| c.0[0].message.clone())
}

#[rstest]
#[case::at_the_end("rig: 1\n", "use", "private", "rig: 1\nuse: private\n")]
#[case::no_last_line_feed("rig: 1", "use", "private", "rig: 1\nuse: private")]
#[case::comment_kept(
    "rig: 1 # one\n# after\n",
    "use",
    "private",
    "rig: 1 # one\nuse: private\n# after\n"
)]
#[case::new_mapping(
    "rig: 1\n",
    "trailer.brakes",
    "surge",
    "rig: 1\ntrailer:\n  brakes: surge\n"
)]
#[case::into_a_mapping(
    "trailer:\n    kind: boat # mine\n\nrig: 1\n",
    "trailer.gvwr",
    "3,000 lb",
    "trailer:\n    kind: boat # mine\n    gvwr: 3,000 lb\n\nrig: 1\n"
)]
#[case::behind_a_nested_one(
    "trailer:\n  coupler:\n    locked: yes\nrig: 1\n",
    "trailer.kind",
    "boat",
    "trailer:\n  coupler:\n    locked: yes\n  kind: boat\nrig: 1\n"
)]
#[case::into_braces(
    "trailer: {kind: boat}\nrig: 1\n",
    "trailer.gvwr",
    "3 t",
    "trailer: {kind: boat, gvwr: 3 t}\nrig: 1\n"
)]
#[case::into_braces_with_commas(
    "trailer: {kind: boat}\nrig: 1\n",
    "trailer.gvwr",
    "3,000 lb",
    "trailer: {kind: boat, gvwr: \"3,000 lb\"}\nrig: 1\n"
)]
#[case::into_braces_over_lines(
    "trailer: {\n  kind: boat, # mine\n}\nrig: 1\n",
    "trailer.gvwr",
    "3 t",
    "trailer: {\n  kind: boat, gvwr: 3 t, # mine\n}\nrig: 1\n"
)]
#[case::into_empty_braces(
    "load:\n  - {}\nrig: 1\n",
    "load.0.weight",
    "90 lb",
    "load:\n  - {weight: 90 lb}\nrig: 1\n"
)]
#[case::into_an_item(
    "load:\n- name: kiln\n- name: wheel\nrig: 1\n",
    "load.0.weight",
    "90 lb",
    "load:\n- name: kiln\n  weight: 90 lb\n- name: wheel\nrig: 1\n"
)]
#[case::behind_a_key_without_value(
    "trailer:\nrig: 1\n",
    "trailer.kind",
    "boat",
    "trailer: {kind: boat}\nrig: 1\n"
)]
#[case::in_the_stead_of(
    "rig: 1\nuse: private # so far\n",
    "use",
    "business",
    "rig: 1\nuse: business # so far\n"
)]
#[case::line_ends_kept(
    "rig: 1\r\ntrailer:\r\n  kind: boat\r\n",
    "trailer.brakes",
    "surge",
    "rig: 1\r\ntrailer:\r\n  kind: boat\r\n  brakes: surge\r\n"
)]
#[case::quotes_where_needed("rig: 1\n", "name", "a: b # c", "rig: 1\nname: \"a: b # c\"\n")]
#[case::block_text(
    "name: |\n  Kiln\nrig: 1\n",
    "use",
    "farm",
    "name: |\n  Kiln\nrig: 1\nuse: farm\n"
)]
fn an_answer_is_written(
    #[case] text: &str,
    #[case] at: &str,
    #[case] value: &str,
    #[case] wanted: &str,
) {
    assert_eq!(write(text, at, value).as_deref(), Ok(wanted));
}

#[rstest]
#[case::something_else("trailer: 3\nrig: 1\n", "trailer.kind")]
#[case::no_such_item("load: []\nrig: 1\n", "load.0.weight")]
#[case::an_alias("load: [&a {name: kiln}, *a]\nrig: 1\n", "load.1.weight")]
#[case::no_yaml("rig: [1\n", "use")]
fn what_cannot_be_written_is_refused(#[case] text: &str, #[case] at: &str) {
    assert!(write(text, at, "90 lb").is_err());
}

proptest! {
    #[test]
    fn any_text_reads_back_as_it_was_written(value in "[^\\x00-\\x08\\x0b-\\x1f\\x7f]{1,40}", in_braces in any::<bool>()) {
        let text = if in_braces { "rig: 1\ntrailer: {kind: boat}\n" } else { "rig: 1\ntrailer:\n  kind: boat\n" };
        if let Ok(written) = write(text, "trailer.note", &value) {
            let source = SourceText::from_str("rig", &written);
            let root = pintle::source::parse(&source).expect("YAML");
            let note = root.get("trailer").and_then(|t| t.get("note"));
            prop_assert_eq!(note.and_then(|n| n.as_str()).map(str::trim), Some(value.trim()));
        }
    }

    #[test]
    fn writing_never_panics_and_never_loses_a_comment(text in "(rig: 1\n)?([a-z]{1,5}: ?(\\{[a-z: ,]{0,9}\\}|\\[[a-z, ]{0,6}\\]|[a-z#\"' ]{0,8})\n){0,6}", at in "[a-c](\\.[a-c0-1]){0,2}") {
        if let Ok(written) = write(&text, &at, "9 lb") {
            let count = |t: &str| t.matches(" #").count();
            prop_assert!(count(&written) + 1 >= count(&text));
            let _ = read_rig(&SourceText::from_str("rig", &written));
        }
    }
}
