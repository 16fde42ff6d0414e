//! Adds answers to the text of a rig file, and leaves everything else in it as it stands: order,
//! comments, spacing, the way lines end.

use crate::source::{Complaint, Complaints, Map, Node, SourceText, Span, Value, parse};

/// One step on the way to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// Into a mapping, by its key.
    Key(String),
    /// Into a list, by the place in it.
    Item(usize),
}

/// A value to write.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// A word, a figure, a text.
    Scalar(String),
    /// A list.
    List(Vec<Written>),
    /// A mapping.
    Map(Vec<(String, Written)>),
}

/// The text with a value at a place: in the stead of what stands there, or added to the mapping that
/// it belongs to, which is made where it is missing.
///
/// ```
/// use pintle::rig::{Step, Written, write_value};
/// use pintle::source::SourceText;
///
/// let text = "rig: 1\ntrailer:\n  kind: boat   # on loan\nload: []\n";
/// let path = ["trailer", "gvwr"].map(|k| Step::Key(k.to_owned()));
/// let value = Written::Scalar("3,000 lb".to_owned());
/// let written = write_value(&SourceText::from_str("rig.yaml", text), &path, &value).unwrap();
/// assert_eq!(written, "rig: 1\ntrailer:\n  kind: boat   # on loan\n  gvwr: 3,000 lb\nload: []\n");
/// ```
///
/// # Errors
/// That the text is no YAML, that something else stands on the way, or that the place is only reached
/// by an alias, so that writing there would change more than was asked for.
pub fn write_value(
    source: &SourceText,
    path: &[Step],
    value: &Written,
) -> Result<String, Complaints> {
    let root = parse(source)?;
    let change = find(source, &root, path, value).ok_or_else(|| {
        Complaint::error(
            "rig::write",
            format!("`{}` cannot be written into this file", spoken(path)),
        )
        .help("something else stands on the way to it; write it by hand")
    })?;
    let mut text = source.text().to_owned();
    if text.get(change.at.start..change.at.end).is_some() {
        text.replace_range(change.at.start..change.at.end, &change.text);
    }
    // Nothing but what was asked for may have changed.
    let after = SourceText::from_str(source.name(), &text);
    let mut wanted = plain(&root);
    let good = put(&mut wanted, path, value) && parse(&after).is_ok_and(|n| plain(&n) == wanted);
    if good {
        Ok(text)
    } else {
        Err(Complaint::error(
            "rig::write",
            format!("`{}` cannot be written without changing more", spoken(path)),
        )
        .help("write it by hand")
        .into())
    }
}

fn spoken(path: &[Step]) -> String {
    let step = |s: &Step| match s {
        Step::Key(key) => key.clone(),
        Step::Item(at) => (at + 1).to_string(),
    };
    path.iter().map(step).collect::<Vec<_>>().join(".")
}

/// What to put in the stead of a stretch of the text.
struct Change {
    at: Span,
    text: String,
}

fn find(source: &SourceText, root: &Node, path: &[Step], value: &Written) -> Option<Change> {
    let mut node = root;
    let mut rest = path;
    while let Some((step, after)) = rest.split_first() {
        let next = match (&node.value, step) {
            (Value::Map(map), Step::Key(key)) => map.get(key),
            (Value::Seq(items), Step::Item(at)) => Some(items.get(*at)?),
            (Value::Null, Step::Key(_)) => return fill(source, node, nested(rest, value)?),
            _ => return None,
        };
        match (next, &node.value) {
            (Some(next), _) => {
                // An alias shows the place of what it names.
                let inside = node.span.start <= next.span.start && next.span.end <= node.span.end;
                if !inside && !next.is_null() {
                    return None;
                }
                node = next;
                rest = after;
            }
            (None, Value::Map(map)) => {
                let Step::Key(key) = step else { return None };
                return add(source, node, map, key, &nested(after, value)?);
            }
            _ => return None,
        }
    }
    match node.value {
        Value::Null => fill(source, node, value.clone()),
        _ => Some(Change {
            at: node.span,
            text: flow(value),
        }),
    }
}

/// The value inside of mappings for the steps that are still missing.
fn nested(steps: &[Step], value: &Written) -> Option<Written> {
    steps.iter().rev().try_fold(value.clone(), |inner, step| {
        let Step::Key(key) = step else { return None };
        Some(Written::Map(vec![(key.clone(), inner)]))
    })
}

/// Writes behind a key, or a dash, that has no value yet.
fn fill(source: &SourceText, node: &Node, value: Written) -> Option<Change> {
    let text = source.text();
    let mut at = node.span;
    if at.is_empty() {
        // The place of what is not written may lie before the colon.
        let rest = text.get(at.start..)?;
        let blanks = rest.len() - rest.trim_start_matches([' ', '\t']).len();
        if rest.get(blanks..)?.starts_with(':') {
            at = Span::point(at.start + blanks + 1);
        }
    }
    let before = text.get(..at.start)?;
    let space = if before.ends_with(' ') { "" } else { " " };
    Some(Change {
        at,
        text: format!("{space}{}", flow(&value)),
    })
}

/// Adds an entry to a mapping.
fn add(source: &SourceText, node: &Node, map: &Map, key: &str, value: &Written) -> Option<Change> {
    let text = source.text();
    let is_flow = text.as_bytes().get(node.span.start) == Some(&b'{');
    let last = map.entries.last();
    if is_flow {
        let entry = format!("{}: {}", scalar(key, true), flow(value));
        return Some(match last {
            Some(last) => Change {
                at: Span::point(last.value.span.end.max(last.key.span.end)),
                text: format!(", {entry}"),
            },
            None => Change {
                at: Span::point(node.span.start + 1),
                text: entry,
            },
        });
    }
    let (first, last) = (map.entries.first()?, last?);
    let column = source.line_col(first.key.span.start).1.saturating_sub(1);
    let indent = " ".repeat(column);
    let newline = if text.contains("\r\n") { "\r\n" } else { "\n" };
    let end = deepest_end(text, &last.value).max(last.key.span.end);
    let lines = block(key, value, &indent, newline);
    // Behind the last line of the mapping, its comment kept with it.
    let from = text.get(end..)?;
    let at_line_start = end > 0 && text.get(..end)?.ends_with('\n');
    if at_line_start {
        return Some(Change {
            at: Span::point(end),
            text: format!("{lines}{newline}"),
        });
    }
    let stop = from.find('\n').map_or(text.len(), |n| end + n);
    let stop = if text.get(..stop)?.ends_with('\r') {
        stop - 1
    } else {
        stop
    };
    Some(Change {
        at: Span::point(stop),
        text: format!("{newline}{lines}"),
    })
}

/// Where the last thing written in a value ends.
fn deepest_end(text: &str, node: &Node) -> usize {
    let bracketed = matches!(text.as_bytes().get(node.span.start), Some(b'{' | b'['));
    match &node.value {
        Value::Map(map) if !bracketed => match map.entries.last() {
            Some(e) => deepest_end(text, &e.value).max(e.key.span.end),
            None => node.span.start,
        },
        Value::Seq(items) if !bracketed => match items.last() {
            Some(item) => deepest_end(text, item),
            None => node.span.start,
        },
        _ => node.span.end,
    }
}

/// An entry as lines of their own, without the last line feed.
fn block(key: &str, value: &Written, indent: &str, newline: &str) -> String {
    let key = scalar(key, false);
    match value {
        Written::Scalar(text) => format!("{indent}{key}: {}", scalar(text, false)),
        Written::Map(entries) if !entries.is_empty() => {
            let inner = format!("{indent}  ");
            let lines = entries.iter().map(|(k, v)| block(k, v, &inner, newline));
            let lines: Vec<String> = lines.collect();
            format!("{indent}{key}:{newline}{}", lines.join(newline))
        }
        Written::List(items) if items.iter().any(|i| matches!(i, Written::Map(_))) => {
            let lines = items.iter().map(|i| match i {
                Written::Map(entries) if !entries.is_empty() => {
                    let inner = format!("{indent}    ");
                    let lines = entries.iter().map(|(k, v)| block(k, v, &inner, newline));
                    let text = lines.collect::<Vec<_>>().join(newline);
                    format!("{indent}  - {}", text.trim_start())
                }
                other => format!("{indent}  - {}", flow(other)),
            });
            let lines: Vec<String> = lines.collect();
            format!("{indent}{key}:{newline}{}", lines.join(newline))
        }
        other => format!("{indent}{key}: {}", flow(other)),
    }
}

/// A value on one line.
fn flow(value: &Written) -> String {
    match value {
        Written::Scalar(text) => scalar(text, true),
        Written::List(items) => {
            let items: Vec<String> = items.iter().map(flow).collect();
            format!("[{}]", items.join(", "))
        }
        Written::Map(entries) => {
            let entry = |(k, v): &(String, Written)| format!("{}: {}", scalar(k, true), flow(v));
            let entries: Vec<String> = entries.iter().map(entry).collect();
            format!("{{{}}}", entries.join(", "))
        }
    }
}

/// A text as YAML, in quotes where it would else be read as something different.
fn scalar(text: &str, in_flow: bool) -> String {
    let starts = text.chars().next().is_some_and(char::is_alphanumeric);
    let safe = |c: char| c.is_alphanumeric() || " .,%/+-_()'\"°".contains(c);
    let plain = starts
        && text.chars().all(safe)
        && !text.ends_with(' ')
        && !(in_flow && text.contains(','))
        && !["null", "true", "false"].contains(&text.to_lowercase().as_str());
    if plain {
        return text.to_owned();
    }
    let mut out = String::from("\"");
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push_str(&format!("\\u{:04x}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// A tree without places, to compare.
fn plain(node: &Node) -> Written {
    match &node.value {
        Value::Null => Written::Map(Vec::new()),
        Value::Scalar(s) => Written::Scalar(s.text.trim().to_owned()),
        Value::Seq(items) if items.is_empty() => Written::List(Vec::new()),
        Value::Seq(items) => Written::List(items.iter().map(plain).collect()),
        Value::Map(map) => {
            let entry = |e: &crate::source::Entry| (e.key.text.clone(), plain(&e.value));
            Written::Map(map.iter().map(entry).collect())
        }
    }
}

/// Puts a value into a tree without places. Whether it could be put there.
fn put(tree: &mut Written, path: &[Step], value: &Written) -> bool {
    let Some((step, rest)) = path.split_first() else {
        *tree = trimmed_value(value);
        return true;
    };
    match (tree, step) {
        (Written::Map(entries), Step::Key(key)) => {
            if let Some((_, inner)) = entries.iter_mut().find(|(k, _)| k == key) {
                return put(inner, rest, value);
            }
            let mut inner = Written::Map(Vec::new());
            let good = put(&mut inner, rest, value);
            entries.push((key.clone(), inner));
            good
        }
        (Written::List(items), Step::Item(at)) => {
            items.get_mut(*at).is_some_and(|i| put(i, rest, value))
        }
        _ => false,
    }
}

fn trimmed_value(value: &Written) -> Written {
    match value {
        Written::Scalar(text) => Written::Scalar(text.trim().to_owned()),
        other => other.clone(),
    }
}
