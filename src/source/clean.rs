//! Keeping what an input says from steering what shows it.
//!
//! A file may hold escape sequences, line breaks in names, or characters that reverse the direction of
//! the text. Whatever part of an input reaches a person goes through here first.

use std::borrow::Cow;
use std::fmt::Write as _;

/// The most characters of an input that [`quote`] repeats.
const QUOTED_CHARS: usize = 60;

/// Whether a character can move the cursor, hide or reorder text: control characters, direction
/// marks, zero-width characters and line separators.
pub fn is_unsafe(c: char) -> bool {
    c.is_control()
        || matches!(c,
            '\u{00AD}' | '\u{061C}' | '\u{180E}' | '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}'
            | '\u{2060}'..='\u{206F}' | '\u{FEFF}' | '\u{FFF9}'..='\u{FFFB}' | '\u{E0000}'..='\u{E007F}')
}

/// The text with every unsafe character written out, `\u{1b}` for an escape; line feeds stay and a tab
/// becomes a space.
pub fn clean(text: &str) -> Cow<'_, str> {
    if !text.chars().any(|c| c != '\n' && is_unsafe(c)) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        match c {
            '\n' => out.push('\n'),
            '\t' => out.push(' '),
            c if is_unsafe(c) => escape(c, &mut out),
            c => out.push(c),
        }
    }
    Cow::Owned(out)
}

/// A piece of an input between backticks, on one line, cleaned and cut to a length that can be read.
pub fn quote(text: &str) -> String {
    let mut out = String::from("`");
    for (n, c) in text.chars().enumerate() {
        if n == QUOTED_CHARS {
            out.push_str("...");
            break;
        }
        match c {
            '\n' => out.push_str("\\n"),
            '\t' => out.push(' '),
            c if is_unsafe(c) => escape(c, &mut out),
            c => out.push(c),
        }
    }
    out.push('`');
    out
}

fn escape(c: char, out: &mut String) {
    // Writing to a String cannot fail.
    let _ = write!(out, "\\u{{{:x}}}", u32::from(c));
}

/// The text with unsafe characters replaced by visible ones of the same length in UTF-8, so that every
/// span into the original is right in the copy; `None` when nothing has to be replaced.
pub(super) fn same_length(text: &str) -> Option<String> {
    let mut chars = text.char_indices().peekable();
    let mut out: Option<String> = None;
    while let Some((at, c)) = chars.next() {
        let keep = match c {
            '\n' | '\t' => true,
            '\r' => chars.peek().is_some_and(|&(_, next)| next == '\n'),
            c => !is_unsafe(c),
        };
        if keep {
            if let Some(out) = &mut out {
                out.push(c);
            }
            continue;
        }
        let out = out.get_or_insert_with(|| text.get(..at).unwrap_or_default().to_owned());
        out.push_str(match c.len_utf8() {
            1 => "?",
            2 => "\u{BF}",
            3 => "\u{FFFD}",
            _ => "?\u{FFFD}",
        });
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use rstest::rstest;

    #[rstest]
    #[case("kiln", "kiln")]
    #[case("a\u{1b}[31mb", "a\\u{1b}[31mb")]
    #[case("one\ntwo\tthree\r", "one\ntwo three\\u{d}")]
    #[case("\u{202e}abc", "\\u{202e}abc")]
    #[case("caf\u{e9} 窯", "caf\u{e9} 窯")]
    fn cleans(#[case] from: &str, #[case] to: &str) {
        assert_eq!(clean(from), to);
    }

    #[rstest]
    #[case("a\nb", "`a\\nb`")]
    #[case("\u{7}", "`\\u{7}`")]
    fn quotes(#[case] from: &str, #[case] to: &str) {
        assert_eq!(quote(from), to);
    }

    #[test]
    fn long_quotes_are_cut() {
        assert_eq!(quote(&"x".repeat(100_000)).len(), QUOTED_CHARS + 5);
    }

    proptest! {
        #[test]
        fn same_length_keeps_every_offset(text in "\\PC*|[\\x00-\\x20\u{202e}\u{85}\u{e0001}a-c\r\n]*") {
            let shown = same_length(&text).unwrap_or_else(|| text.clone());
            prop_assert_eq!(shown.len(), text.len());
            prop_assert!(text.char_indices().all(|(at, _)| shown.is_char_boundary(at)));
            prop_assert!(!shown.replace("\r\n", "\n").chars().any(|c| c != '\n' && c != '\t' && is_unsafe(c)));
        }
    }
}
