//! JSON Schema complaints: the place, what was expected, the nearest name.

use pintle::source::{
    Complaint, Complaints, RenderOptions, Schema, SourceText, check_schema, parse, render,
};
use rstest::rstest;
use serde_json::json;
use std::sync::LazyLock;

static SCHEMA: LazyLock<Schema> = LazyLock::new(|| {
    let schema = json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "type": "object",
        "required": ["rig", "trailer"],
        "additionalProperties": false,
        "properties": {
            "rig": {"const": 1},
            "name": {"type": "string", "minLength": 1, "maxLength": 40},
            "use": {"enum": ["private", "business", "farm"]},
            "interstate": {"type": "boolean"},
            "trailer": {"$ref": "#/$defs/trailer"},
            "load": {"type": "array", "minItems": 1, "items": {"$ref": "#/$defs/load"}},
            "lamps": {"type": "array", "uniqueItems": true, "items": {"enum": ["tail", "stop", "turn", "plate"]}},
            "when": {"$ref": "#/$defs/when"},
            "terms": {"type": "object", "propertyNames": {"pattern": "^[a-z-]+$", "title": "a name in lower case"}},
            "topics": {"type": "object", "propertyNames": {"enum": ["brakes", "coupling", "lamps-reflectors"]}},
            "dimensions": {"allOf": [{"$ref": "#/$defs/sizes"}], "unevaluatedProperties": false},
            "chains": {"type": "integer", "minimum": 0, "maximum": 4},
            "strap": {"oneOf": [{"const": "over"}, {"const": "direct"}]},
            "old": false
        },
        "$defs": {
            "mass": {"type": "string", "pattern": "[0-9] ?(lb|kg)$", "title": "a mass with its unit, such as 3,000 lb"},
            "sizes": {"properties": {"width": {"type": "string"}, "height": {"type": "string"}}},
            "trailer": {
                "type": "object",
                "required": ["kind", "coupling"],
                "additionalProperties": false,
                "properties": {
                    "kind": {"enum": ["flatbed", "boat", "camper"]},
                    "coupling": {"type": "string"},
                    "gvwr": {"$ref": "#/$defs/mass"},
                    "empty_weight": {"$ref": "#/$defs/mass"}
                }
            },
            "load": {
                "type": "object",
                "required": ["weight"],
                "additionalProperties": false,
                "properties": {"name": {"type": "string"}, "weight": {"$ref": "#/$defs/mass"}}
            },
            "when": {
                "anyOf": [
                    {"$ref": "#/$defs/amount"},
                    {"type": "array", "items": {"$ref": "#/$defs/when"}}
                ]
            },
            "amount": {
                "oneOf": [
                    {"$ref": "#/$defs/mass"},
                    {
                        "type": "object", "additionalProperties": false, "minProperties": 1,
                        "properties": {"at_least": {"$ref": "#/$defs/mass"}, "less_than": {"$ref": "#/$defs/mass"}}
                    }
                ]
            }
        }
    });
    Schema::new(schema).expect("a valid schema")
});

fn check(text: &str) -> Complaints {
    let source = SourceText::from_str("kiln.yaml", text);
    let root = parse(&source).unwrap_or_else(|c| panic!("{c}"));
    check_schema(&source, &root, &SCHEMA)
}

/// Code, marked characters and message of a complaint, and its help.
fn told(complaint: &Complaint) -> String {
    let marked = match (&complaint.source, complaint.span()) {
        (Some(source), Some(span)) => source.slice(span).to_owned(),
        _ => String::new(),
    };
    let help = complaint
        .help
        .as_deref()
        .map(|help| format!(" | {help}"))
        .unwrap_or_default();
    format!(
        "{} at {marked:?}: {}{help}",
        complaint.code, complaint.message
    )
}

const GOOD: &str = "rig: 1\ntrailer: {kind: boat, coupling: ball}\n";

#[test]
fn nothing_to_complain_of() {
    let text =
        format!("{GOOD}when: {{at_least: 3,000 lb}}\nload: [{{weight: 3,100 lb}}]\nlamps: [tail]");
    assert_eq!(check(&text), Complaints::new());
}

#[rstest]
#[case::unknown_key(
    "nmae: x",
    "schema::unknown-key at \"nmae\": `nmae` is not known here | did you mean `name`?"
)]
#[case::far_from_any(
    "zebra: x",
    "schema::unknown-key at \"zebra\": `zebra` is not known here | names that can stand here: `name`, `use`, `interstate`, `load`, `lamps`, `when`, `terms`, `topics`, `dimensions`, `chains`, `strap` and `old`"
)]
#[case::choice(
    "use: bussiness",
    "schema::choice at \"bussiness\": `use` cannot be `bussiness` | did you mean `business`? the choices are `private`, `business` and `farm`"
)]
#[case::choice_case(
    "use: Private",
    "schema::choice at \"Private\": `use` cannot be `Private` | did you mean `private`? the choices are `private`, `business` and `farm`"
)]
#[case::choice_in_list(
    "lamps: [tail, brake]",
    "schema::choice at \"brake\": item 2 of `lamps` cannot be `brake` | the choices are `tail`, `stop`, `turn` and `plate`"
)]
#[case::kind(
    "interstate: maybe",
    "schema::kind at \"maybe\": `interstate` is a text, not true or false"
)]
#[case::number_for_text(
    "name: 12",
    "schema::kind at \"12\": `name` is a bare number, not a text | if it is meant as a text, put it in quotes"
)]
#[case::nothing_for_text("name:", "schema::kind at \"\": `name` is nothing, not a text")]
#[case::list_for_text("name: [a]", "schema::kind at \"[a]\": `name` is a list, not a text")]
#[case::empty_text("name: ''", "schema::bounds at \"''\": `name` must not be empty")]
#[case::empty_list(
    "load: []",
    "schema::bounds at \"[]\": `load` must list at least one item"
)]
#[case::bounds("chains: 7", "schema::bounds at \"7\": `chains` must be at most 4")]
#[case::negative("chains: -1", "schema::bounds at \"-1\": `chains` must be at least 0")]
#[case::fraction(
    "chains: 1.5",
    "schema::kind at \"1.5\": `chains` is a bare number, not a whole number"
)]
#[case::missing_in_item(
    "load: [{name: kiln}]",
    "schema::missing-key at \"name\": `weight` is missing from item 1 of `load`"
)]
#[case::repeated(
    "lamps: [tail, stop, tail]",
    "schema::repeated at \"tail\": `lamps` names the same item twice"
)]
#[case::not_allowed("old: 1", "schema::other at \"1\": `old` cannot stand here")]
#[case::form(
    "load: [{weight: 3100}]",
    "schema::kind at \"3100\": `weight` is a bare number, not a mass with its unit, such as 3,000 lb"
)]
#[case::no_unit(
    "load: [{weight: heavy}]",
    "schema::form at \"heavy\": `weight` is `heavy`, not a mass with its unit, such as 3,000 lb"
)]
#[case::branch(
    "when: {at_lest: 3,000 lb}",
    "schema::unknown-key at \"at_lest\": `at_lest` is not known in `when` | did you mean `at_least`?"
)]
#[case::branch_deep(
    "when: [{at_least: x lbs}]",
    "schema::form at \"x lbs\": `at_least` is `x lbs`, not a mass with its unit, such as 3,000 lb"
)]
#[case::branch_form(
    "when: heavy",
    "schema::form at \"heavy\": `when` is `heavy`, not a mass with its unit, such as 3,000 lb"
)]
#[case::no_branch(
    "when: true",
    "schema::kind at \"true\": `when` is `true`, not a mass with its unit, such as 3,000 lb, a mapping or a list"
)]
#[case::constants(
    "strap: ovre",
    "schema::choice at \"ovre\": `strap` cannot be `ovre` | did you mean `over`? the choices are `over` and `direct`"
)]
#[case::name_pattern(
    "terms: {Big One: 1}",
    "schema::form at \"Big One\": `Big One` is not a name in lower case"
)]
#[case::name_choice(
    "topics: {brake: 1}",
    "schema::unknown-key at \"brake\": `brake` is not known in `topics` | did you mean `brakes`?"
)]
#[case::unevaluated(
    "dimensions: {widht: 8 ft}",
    "schema::unknown-key at \"widht\": `widht` is not known in `dimensions` | did you mean `width`?"
)]
fn one_complaint(#[case] line: &str, #[case] expected: &str) {
    let complaints = check(&format!("{GOOD}{line}\n"));
    assert_eq!(complaints.iter().map(told).collect::<Vec<_>>(), [expected]);
}

#[rstest]
#[case::root("name: x", &["schema::missing-key at \"name\": `rig` and `trailer` are missing"])]
#[case::inner("rig: 1\ntrailer: {gvwr: 1 kg}", &["schema::missing-key at \"trailer\": `kind` and `coupling` are missing from `trailer`"])]
#[case::misspelt_and_missing("rig: 1\ntrailer: {knid: boat, coupling: ball}", &["schema::unknown-key at \"knid\": `knid` is not known in `trailer` | did you mean `kind`?"])]
#[case::newer("rig: 2\ntrailer: {kind: boat, coupling: ball}", &["schema::choice at \"2\": `rig` cannot be `2`"])]
#[case::not_a_mapping("- 1", &["schema::kind at \"- 1\": the text is a list, not a mapping"])]
fn whole_texts(#[case] text: &str, #[case] expected: &[&str]) {
    assert_eq!(check(text).iter().map(told).collect::<Vec<_>>(), expected);
}

#[test]
fn several_in_one_run_in_the_order_of_the_text() {
    let complaints = check("rig: 1\nuse: fram\ntrailer:\n  kind: bot\n  gvwr: big\nnmae: x\n");
    let places: Vec<(usize, &str)> = complaints
        .iter()
        .filter_map(|c| Some((c.line_col()?.0, c.code)))
        .collect();
    let expected = [
        (2, "schema::choice"),
        (3, "schema::missing-key"),
        (4, "schema::choice"),
        (5, "schema::form"),
        (6, "schema::unknown-key"),
    ];
    assert_eq!(places, expected);
}

#[test]
fn many_are_cut_off_and_counted() {
    let items: String = (0..1_000)
        .map(|n| format!("  - {{weight: w{n}}}\n"))
        .collect();
    let complaints = check(&format!("{GOOD}load:\n{items}"));
    assert_eq!(complaints.len(), 51);
    let last = complaints
        .iter()
        .last()
        .map(|c| (c.code, c.message.as_str()));
    assert_eq!(last, Some(("source::more", "and 950 more like these")));
    let keys: String = (0..1_000).map(|n| format!("zebra{n}: 1\n")).collect();
    let complaints = check(&format!("{GOOD}{keys}"));
    assert_eq!(
        complaints.iter().last().map(|c| c.message.as_str()),
        Some("and 950 more like these")
    );
}

#[test]
fn items_that_are_equal_in_another_way_are_found() {
    let schema = Schema::new(json!({"uniqueItems": true})).expect("a valid schema");
    for text in ["[{a: 1, b: 2}, {b: 2, a: 1}]", "[1, 1.0]"] {
        let source = SourceText::from_str("t", text);
        let root = parse(&source).unwrap_or_else(|c| panic!("{c}"));
        let complaints = check_schema(&source, &root, &schema);
        let codes: Vec<&str> = complaints.iter().map(|c| c.code).collect();
        assert_eq!(codes, ["schema::repeated"], "{text}");
        assert!(complaints.iter().all(|c| c.span().is_some()));
    }
}

#[test]
fn an_invalid_schema_is_refused() {
    assert!(Schema::new(json!({"type": "wood"})).is_err());
}

#[test]
fn what_a_person_sees() {
    let complaints = check(
        "rig: 1\nuse: bussiness\ntrailer:\n  kind: boat\n  coupling: ball\n  gwvr: 7,000 lb\n",
    );
    let shown = render(
        &complaints,
        RenderOptions {
            color: false,
            width: 80,
            unicode: true,
        },
    );
    insta::assert_snapshot!(shown, @r"
    schema::choice

      × `use` cannot be `bussiness`
       ╭─[kiln.yaml:2:6]
     1 │ rig: 1
     2 │ use: bussiness
       ·      ────┬────
       ·          ╰── not one of the choices
     3 │ trailer:
       ╰────
      help: did you mean `business`? the choices are `private`, `business` and
            `farm`

    schema::unknown-key

      × `gwvr` is not known in `trailer`
       ╭─[kiln.yaml:6:3]
     5 │   coupling: ball
     6 │   gwvr: 7,000 lb
       ·   ──┬─
       ·     ╰── not a name that can stand here
       ╰────
      help: did you mean `gvwr`?
    ");
}
