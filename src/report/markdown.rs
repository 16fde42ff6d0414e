//! Text in Markdown.

use crate::source::clean;

/// A text in which nothing is Markdown or HTML.
pub(super) fn escape(text: &str) -> String {
    let text = clean(text).replace('\n', " ");
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            '\\' | '`' | '*' | '_' | '[' | ']' | '{' | '}' | '#' | '|' | '!' | '~' => {
                out.push('\\');
                out.push(c);
            }
            c => out.push(c),
        }
    }
    // A number or a mark at the beginning would start a list or a heading.
    match out.chars().next() {
        Some('+' | '-' | '=') => format!("\\{out}"),
        _ => out,
    }
}

/// An address as a link, where it is one that can be written so.
pub(super) fn link(at: &str) -> String {
    let web = at.starts_with("https://") || at.starts_with("http://");
    let plain = at
        .chars()
        .all(|c| c.is_ascii_graphic() && !matches!(c, '<' | '>'));
    if web && plain {
        format!("<{at}>")
    } else {
        escape(at)
    }
}
