//! Input that is broken, huge or made to do harm: refused by the caps, never a panic.

use pintle::source::read::{MAX_BYTES, read_from};
use pintle::source::{
    CODES, Complaints, Node, RenderOptions, Schema, SourceText, Value, check_schema, parse,
    read_path, render,
};
use proptest::prelude::*;
use rstest::rstest;
use std::io::{Read, Write};
use std::path::Path;
use std::sync::LazyLock;

fn code(complaints: &Complaints) -> &'static str {
    complaints.iter().next().map_or("", |c| c.code)
}

/// Levels of lists, each naming the one below it nine times.
fn alias_bomb(levels: usize) -> String {
    let mut text = String::from("l0: &l0 [lol]\n");
    for level in 1..levels {
        let below = format!("*l{}", level - 1);
        text.push_str(&format!(
            "l{level}: &l{level} [{}]\n",
            [below.as_str(); 9].join(", ")
        ));
    }
    text
}

#[rstest]
#[case::lists("[".repeat(10_000), "source::too-deep")]
#[case::closed_lists(format!("{}{}", "[".repeat(10_000), "]".repeat(10_000)), "source::too-deep")]
#[case::mappings("{a: ".repeat(10_000), "source::too-deep")]
#[case::mixed("[{a: ".repeat(10_000), "source::too-deep")]
#[case::dashes("- ".repeat(10_000), "source::too-deep")]
#[case::questions("? ".repeat(10_000), "source::too-deep")]
#[case::steps((0..10_000).map(|n| format!("{}a:\n", " ".repeat(n.min(300)))).collect(), "source::too-deep")]
#[case::just_too_deep(format!("{}{}", "[".repeat(65), "]".repeat(65)), "source::too-deep")]
#[case::block_and_flow(format!("{}{}{}", "- ".repeat(40), "[".repeat(40), "]".repeat(40)), "source::too-deep")]
#[case::alias_too_deep(
    format!("a: &a {}{}\nb: {}*a{}\n", "[".repeat(40), "]".repeat(40), "[".repeat(40), "]".repeat(40)),
    "source::too-deep"
)]
#[case::laughs(alias_bomb(12), "source::too-many")]
#[case::many_aliases(format!("a: &a [1, 2]\nb: [{}]\n", "*a, ".repeat(200_000)), "source::too-many")]
#[case::long_aliases(format!("a: &a {}\nb: [{}]\n", "x".repeat(500_000), "*a, ".repeat(100)), "source::too-many")]
#[case::anchors_in_anchors(
    format!("{}{}{}", "[".repeat(50).replace('[', "&a ["), "1,".repeat(50_000), "]".repeat(50)),
    "source::too-many"
)]
#[case::many_items(format!("[{}]", "1,".repeat(500_000)), "source::too-many")]
#[case::many_keys((0..250_000).map(|n| format!("k{n}: 1\n")).collect(), "source::too-many")]
#[case::long_key(format!("{}: 1", "k".repeat(1_000_000)), "source::yaml")]
fn harm_is_refused(#[case] text: String, #[case] expected: &str) {
    let source = SourceText::from_str("bad.yaml", &text);
    let complaints = parse(&source).expect_err("must be refused");
    assert_eq!(code(&complaints), expected, "{complaints}");
    let shown = render(&complaints, RenderOptions::default());
    assert!(shown.len() < 10_000, "{} bytes shown", shown.len());
}

#[rstest]
#[case::deep(format!("{}{}", "[".repeat(64), "]".repeat(64)))]
#[case::deep_block("- ".repeat(64))]
#[case::aliases(alias_bomb(4))]
#[case::long_text(format!("a: {}", "x".repeat(4_000_000)))]
#[case::long_comment(format!("# {}\na: 1", "x".repeat(4_000_000)))]
#[case::long_list(format!("[{}]", "1, ".repeat(95_000)))]
fn large_but_within_the_limits_is_read(#[case] text: String) {
    let source = SourceText::from_str("big.yaml", &text);
    assert!(parse(&source).is_ok_and(|root| !root.is_null()));
}

#[test]
fn many_complaints_are_cut_off() {
    let text = "a: 1\n".repeat(10_000);
    let complaints = parse(&SourceText::from_str("t", &text)).expect_err("duplicates");
    assert_eq!(complaints.len(), 51);
    let tags = "- !x 1\n".repeat(10_000);
    let complaints = parse(&SourceText::from_str("t", &tags)).expect_err("tags");
    assert_eq!(complaints.len(), 51);
    assert_eq!(
        complaints.iter().last().map(|c| c.code),
        Some("source::more")
    );
}

/// A folder of its own for one test, removed with all in it.
struct Folder(std::path::PathBuf);

impl Folder {
    fn new(name: &str) -> Folder {
        let path = std::env::temp_dir().join(format!("pintle-{}-{name}", std::process::id()));
        std::fs::create_dir_all(&path).expect("a folder for the test");
        Folder(path)
    }

    fn file(&self, name: &str, bytes: &[u8]) -> std::path::PathBuf {
        let path = self.0.join(name);
        std::fs::write(&path, bytes).expect("a file for the test");
        path
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

#[test]
fn a_hundred_megabytes_are_refused_unread() {
    let folder = Folder::new("large");
    let path = folder.0.join("large.yaml");
    let mut file = std::fs::File::create(&path).expect("a file for the test");
    let chunk = "name: kiln\n".repeat(100_000);
    for _ in 0..95 {
        file.write_all(chunk.as_bytes()).expect("room for the test");
    }
    drop(file);
    assert!(std::fs::metadata(&path).is_ok_and(|m| m.len() > 100_000_000));
    let complaints = read_path(&path).expect_err("too large");
    assert_eq!(code(&complaints), "source::too-large");
}

/// A stream without end that counts what was taken from it.
struct Endless(usize);

impl Read for Endless {
    fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
        buffer.fill(b'a');
        self.0 += buffer.len();
        Ok(buffer.len())
    }
}

#[test]
fn an_endless_stream_is_read_no_further_than_the_cap() {
    let mut stream = Endless(0);
    let complaints = read_from("standard input", &mut stream).expect_err("too large");
    assert_eq!(code(&complaints), "source::too-large");
    assert!(stream.0 <= MAX_BYTES + 1, "{} bytes taken", stream.0);
}

/// A stream that fails.
struct Failing(std::io::ErrorKind);

impl Read for Failing {
    fn read(&mut self, _: &mut [u8]) -> std::io::Result<usize> {
        Err(self.0.into())
    }
}

#[rstest]
#[case(std::io::ErrorKind::PermissionDenied)]
#[case(std::io::ErrorKind::BrokenPipe)]
fn a_stream_that_fails_is_reported(#[case] kind: std::io::ErrorKind) {
    let complaints = read_from("standard input", Failing(kind)).expect_err("it fails");
    assert_eq!(code(&complaints), "source::unreadable");
}

#[test]
fn the_cap_itself_is_admitted() {
    let text = vec![b'#'; MAX_BYTES];
    assert!(SourceText::from_bytes("t", text.clone()).is_ok());
    assert!(read_from("t", text.as_slice()).is_ok());
    assert!(SourceText::from_bytes("t", vec![b'#'; MAX_BYTES + 1]).is_err());
}

fn utf16(text: &str, unit: fn(u16) -> [u8; 2], mark: [u8; 2]) -> Vec<u8> {
    mark.into_iter()
        .chain(text.encode_utf16().flat_map(unit))
        .collect()
}

#[rstest]
#[case::utf8("a: café 窯 5 lb".as_bytes().to_vec())]
#[case::utf8_mark("\u{feff}a: café 窯 5 lb".as_bytes().to_vec())]
#[case::little(utf16("a: café 窯 5 lb", u16::to_le_bytes, [0xFF, 0xFE]))]
#[case::big(utf16("a: café 窯 5 lb", u16::to_be_bytes, [0xFE, 0xFF]))]
#[case::crlf("a: café 窯 5 lb\r\n".as_bytes().to_vec())]
fn encodings_are_read_with_right_places(#[case] bytes: Vec<u8>) {
    let source = SourceText::from_bytes("t", bytes).expect("readable");
    let root = parse(&source).expect("well-formed");
    let node = root.get("a").expect("the key");
    assert_eq!(node.as_str(), Some("café 窯 5 lb"));
    assert_eq!(source.slice(node.span), "café 窯 5 lb");
    assert_eq!(source.line_col(node.span.start), (1, 4));
    assert_eq!(source.line_col(node.span.end), (1, 15));
}

#[rstest]
#[case::latin1(b"a: 1\nb: caf\xe9\n".to_vec(), "source::not-utf8", (2, 7))]
#[case::cut_short(b"a: \xe7\xaa".to_vec(), "source::not-utf8", (1, 4))]
#[case::nul(b"a: 1\nb: \0\n".to_vec(), "source::control-character", (2, 4))]
#[case::utf16_without_mark(b"a\0:\0 \x001\0".to_vec(), "source::control-character", (1, 2))]
#[case::utf32(b"\xff\xfe\0\0a\0\0\0".to_vec(), "source::control-character", (1, 1))]
#[case::half_unit(b"\xff\xfea\0:".to_vec(), "source::not-utf16", (1, 2))]
#[case::half_pair(b"\xfe\xff\0a\xd8\x00\0b".to_vec(), "source::not-utf16", (1, 2))]
fn what_is_not_text_is_refused_with_the_place(
    #[case] bytes: Vec<u8>,
    #[case] expected: &str,
    #[case] place: (usize, usize),
) {
    let complaints = SourceText::from_bytes("t", bytes).expect_err("must be refused");
    assert_eq!(code(&complaints), expected);
    assert_eq!(
        complaints.iter().next().and_then(|c| c.line_col()),
        Some(place)
    );
}

#[test]
fn files_are_read_and_named() {
    let folder = Folder::new("files");
    let good = folder.file("kiln.yaml", b"a: 1\n");
    assert_eq!(
        read_path(&good).map(|s| s.text().to_owned()),
        Ok("a: 1\n".to_owned())
    );
    let missing = read_path(&folder.0.join("no\u{1b}[2Jne.yaml")).expect_err("missing");
    assert_eq!(code(&missing), "source::missing-file");
    assert!(!render(&missing, RenderOptions::default()).contains('\u{1b}'));
    assert_eq!(
        code(&read_path(&folder.0).expect_err("a folder")),
        "source::directory"
    );
    assert_eq!(
        code(&read_path(Path::new("")).expect_err("no name")),
        "source::missing-file"
    );
    let empty = read_path(&folder.file("empty.yaml", b"")).expect("empty files are texts");
    assert_eq!(
        code(&parse(&empty).expect_err("but hold nothing")),
        "source::empty"
    );
}

#[cfg(unix)]
#[test]
fn a_file_without_the_right_to_read_it() {
    use std::os::unix::fs::PermissionsExt;
    let folder = Folder::new("rights");
    let path = folder.file("locked.yaml", b"a: 1\n");
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o000)).expect("rights");
    if std::fs::File::open(&path).is_ok() {
        return; // Somebody who may read everything, as in a container.
    }
    assert_eq!(
        code(&read_path(&path).expect_err("locked")),
        "source::unreadable"
    );
}

static SCHEMA: LazyLock<Schema> = LazyLock::new(|| {
    let schema = serde_json::json!({
        "type": "object", "required": ["a"], "additionalProperties": false,
        "properties": {
            "a": {"anyOf": [{"type": "string", "pattern": "lb$"}, {"type": "object", "required": ["b"]}]},
            "b": {"type": "array", "items": {"enum": ["x", "y"]}, "uniqueItems": true}
        }
    });
    Schema::new(schema).expect("a valid schema")
});

/// Every span lies inside the text on whole characters.
fn assert_spans(node: &Node, text: &str) {
    let whole = |span: pintle::source::Span| text.get(span.start..span.end).is_some();
    assert!(whole(node.span), "{:?}", node.span);
    match &node.value {
        Value::Seq(items) => items.iter().for_each(|item| assert_spans(item, text)),
        Value::Map(map) => map.iter().for_each(|entry| {
            assert!(whole(entry.key.span), "{:?}", entry.key);
            assert_spans(&entry.value, text);
        }),
        Value::Null | Value::Scalar(_) => {}
    }
}

/// Reads, checks and shows whatever it is given.
fn exercise(source: &SourceText) {
    let complaints = match parse(source) {
        Ok(root) => {
            assert_spans(&root, source.text());
            check_schema(source, &root, &SCHEMA)
        }
        Err(complaints) => {
            assert!(complaints.has_errors());
            complaints
        }
    };
    for complaint in &complaints {
        assert!(
            CODES.iter().any(|(code, _)| *code == complaint.code),
            "{}",
            complaint.code
        );
        for label in &complaint.labels {
            assert!(
                source
                    .text()
                    .get(label.span.start..label.span.end)
                    .is_some(),
                "{label:?}"
            );
        }
    }
    let shown = render(
        &complaints,
        RenderOptions {
            color: false,
            width: 80,
            unicode: false,
        },
    );
    assert!(
        !shown.contains('\u{1b}') && !shown.contains("Failed to read"),
        "{shown}"
    );
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1_000, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        match SourceText::from_bytes("t", bytes) {
            Ok(source) => exercise(&source),
            Err(complaints) => { render(&complaints, RenderOptions::default()); }
        }
    }

    #[test]
    fn any_text(text in any::<String>()) {
        exercise(&SourceText::from_str("t", &text));
    }

    #[test]
    fn anything_like_yaml(
        pieces in proptest::collection::vec(
            prop_oneof![
                Just("a"), Just("b"), Just(": "), Just(":"), Just("\n"), Just("\r\n"), Just("\r"), Just("  "),
                Just("\t"), Just("- "), Just("? "), Just("["), Just("]"), Just("{"), Just("}"), Just(","),
                Just("&x "), Just("*x"), Just("!!str "), Just("!t "), Just("'"), Just("\""), Just("\\e"),
                Just("|\n"), Just(">-\n"), Just("#"), Just(" # c"), Just("---\n"), Just("...\n"), Just("<<"),
                Just("3"), Just("500"), Just(",000 lb"), Just("~"), Just("null"), Just("窯"), Just("\u{feff}"),
                Just("%YAML 1.2\n"), Just("%TAG ! x\n"), Just("\u{85}"), Just("\u{2028}"), Just("@"), Just("`"),
            ],
            0..40,
        ),
    ) {
        exercise(&SourceText::from_str("t", &pieces.concat()));
    }
}
