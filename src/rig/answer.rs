//! Reads what a person types for one fact, into what a rig file would say.

use super::literal::read_known;
use super::reader::Reader;
use super::write::Written;
use crate::facts::{FactDef, Kind};
use crate::source::{Complaint, Node, Scalar, SourceText, Span, Value};

/// Reads an answer: a quantity with its unit or a range of them, a year, a day, yes or no, words of a
/// choice or of a set, or the numbers of these words, counted from one as [`FactDef`] lists them.
///
/// ```
/// use pintle::facts::catalogue;
/// use pintle::rig::{Written, read_answer};
///
/// let weight = catalogue().def(catalogue().find("trailer.gross_weight").unwrap());
/// let read = read_answer(weight, "3,100 to 3,400 lb").unwrap();
/// assert_eq!(read, Written::Scalar("3,100 to 3,400 lb".to_owned()));
/// // A number needs its unit.
/// assert!(read_answer(weight, "3100").is_err());
/// ```
///
/// # Errors
/// One complaint that says what is wrong, and what was expected.
pub fn read_answer(def: &FactDef, text: &str) -> Result<Written, Complaint> {
    let text = text.trim();
    let written = match def.kind {
        Kind::YesNo => Written::Scalar(yes_no(text).to_owned()),
        Kind::Choice(_) | Kind::Set(_) => words(def, text),
        _ => Written::Scalar(text.to_owned()),
    };
    let source = SourceText::from_str("answer", text);
    let mut reader = Reader::new(&source);
    let read = read_known(&mut reader, &node(&written, text), def);
    match (read, reader.complaints.into_iter().next()) {
        (Some(_), None) => Ok(written),
        (_, Some(complaint)) => Err(complaint),
        (None, None) => Err(Complaint::error(
            "read::not-a-value",
            format!("{} needs a value", def.name),
        )),
    }
}

fn yes_no(text: &str) -> &str {
    match text.to_ascii_lowercase().as_str() {
        "y" | "yes" | "yeah" | "yep" | "true" => "yes",
        "n" | "no" | "nope" | "false" => "no",
        _ => text,
    }
}

/// The words of a choice or a set, by name or by number.
fn words(def: &FactDef, text: &str) -> Written {
    let choices = def.kind.choices();
    let word = |w: &str| {
        let by_number = w
            .parse::<usize>()
            .ok()
            .and_then(|n| choices.get(n.checked_sub(1)?));
        let lower = w.to_lowercase().replace(' ', "-");
        let by_name = || choices.iter().find(|c| c.name == lower);
        let found = by_number.or_else(by_name);
        found.map_or_else(|| w.to_owned(), |c| c.name.to_owned())
    };
    let is_one = choices.iter().any(|c| c.name == word(text));
    let parts: Vec<String> = if is_one {
        vec![word(text)]
    } else {
        text.split([',', ';'])
            .flat_map(|p| p.split(" and "))
            .flat_map(|p| p.split(" or "))
            .map(str::trim)
            .filter(|p| !p.is_empty())
            .map(word)
            .collect()
    };
    let is_set = matches!(def.kind, Kind::Set(_));
    match parts.as_slice() {
        [one] if !is_set => Written::Scalar(one.clone()),
        [one] if one.eq_ignore_ascii_case("none") => Written::List(Vec::new()),
        [] if !is_set => Written::Scalar(text.to_owned()),
        _ => Written::List(parts.into_iter().map(Written::Scalar).collect()),
    }
}

/// The answer as it would stand in a file.
fn node(written: &Written, text: &str) -> Node {
    let span = Span::new(0, text.len());
    let value = match written {
        Written::Scalar(s) => Value::Scalar(Scalar {
            text: s.clone(),
            plain: true,
        }),
        Written::List(items) => Value::Seq(items.iter().map(|i| node(i, text)).collect()),
        Written::Map(_) => Value::Null,
    };
    Node { span, value }
}
