//! A named text that knows its places.

use super::clean;
use miette::{MietteError, MietteSpanContents, SourceCode, SourceSpan, SpanContents};
use std::fmt;
use std::sync::{Arc, OnceLock};

/// The longest line, in bytes, that a snippet shows whole; a longer one is shown as a window around
/// the place.
const LONG_LINE: usize = 240;
/// How much of a long line is shown on either side of the place, in bytes.
const WINDOW: usize = 60;
/// The longest stretch, in bytes, of one snippet.
const LONGEST_SNIPPET: usize = 4_000;

/// A stretch of a text: byte offsets, the end not included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Span {
    /// Offset of the first byte.
    pub start: usize,
    /// Offset after the last byte.
    pub end: usize,
}

impl Span {
    /// From `start` up to but not including `end`; empty at `start` when `end` is before it.
    pub fn new(start: usize, end: usize) -> Span {
        Span {
            start,
            end: end.max(start),
        }
    }

    /// The empty stretch at an offset.
    pub fn point(at: usize) -> Span {
        Span { start: at, end: at }
    }

    /// The stretch from the start of this one to the end of the other.
    pub fn to(self, other: Span) -> Span {
        Span::new(self.start, other.end)
    }

    /// How many bytes it holds.
    pub fn len(self) -> usize {
        self.end.saturating_sub(self.start)
    }

    /// Whether it holds no byte.
    pub fn is_empty(self) -> bool {
        self.len() == 0
    }

    /// This stretch brought inside a text: clamped to its length and widened to whole characters.
    pub fn within(self, text: &str) -> Span {
        let mut start = self.start.min(text.len());
        while !text.is_char_boundary(start) {
            start -= 1;
        }
        let mut end = self.end.clamp(start, text.len());
        while !text.is_char_boundary(end) {
            end += 1;
        }
        Span { start, end }
    }
}

/// A text with the name of where it came from. Cloning is cheap: clones share the text.
///
/// All offsets, lines and columns are places in the decoded text: a byte-order mark is not part of it,
/// and what was UTF-16 counts as the UTF-8 it became.
#[derive(Clone)]
pub struct SourceText {
    inner: Arc<Inner>,
}

struct Inner {
    name: String,
    text: Arc<str>,
    /// The text as it may be shown, with the same offsets, made when first asked for; `None` when
    /// that is the text itself.
    shown: OnceLock<Option<String>>,
    /// Offsets at which lines start, worked out when first asked for.
    lines: OnceLock<Vec<u32>>,
}

impl SourceText {
    /// A text that is already decoded. The name is made safe to show.
    #[allow(clippy::should_implement_trait)] // Two arguments; not the trait's function.
    pub fn from_str(name: &str, text: &str) -> SourceText {
        let name = clean::clean(name).replace('\n', "\\n");
        let inner = Inner {
            name,
            text: Arc::from(text),
            shown: OnceLock::new(),
            lines: OnceLock::new(),
        };
        SourceText {
            inner: Arc::new(inner),
        }
    }

    /// Where the text came from, safe to show.
    pub fn name(&self) -> &str {
        &self.inner.name
    }

    /// The text as it was read.
    pub fn text(&self) -> &str {
        &self.inner.text
    }

    /// The text, shared.
    pub fn shared(&self) -> Arc<str> {
        Arc::clone(&self.inner.text)
    }

    /// What stands at a span; what of it lies inside the text, when it reaches outside.
    pub fn slice(&self, span: Span) -> &str {
        let span = span.within(self.text());
        self.text().get(span.start..span.end).unwrap_or_default()
    }

    /// Line and column of an offset, both from 1, the column in characters.
    pub fn line_col(&self, offset: usize) -> (usize, usize) {
        let at = Span::point(offset).within(self.text()).start;
        let line = self.line_of(at);
        let start = self.line_start(line);
        let column = self
            .text()
            .get(start..at)
            .unwrap_or_default()
            .chars()
            .count();
        (line.saturating_add(1), column.saturating_add(1))
    }

    /// The span of the line that an offset is in, without its line break.
    pub fn line_span(&self, offset: usize) -> Span {
        let at = Span::point(offset).within(self.text()).start;
        let line = self.line_of(at);
        let start = self.line_start(line);
        let whole = self
            .text()
            .get(start..self.line_end(line))
            .unwrap_or_default();
        Span::new(
            start,
            start.saturating_add(whole.trim_end_matches(['\r', '\n']).len()),
        )
    }

    /// The text as it may be shown: the same length, nothing in it that can steer a terminal.
    pub(super) fn shown(&self) -> &str {
        let make = || clean::same_length(self.text());
        let shown = self.inner.shown.get_or_init(make);
        shown.as_deref().unwrap_or(&self.inner.text)
    }

    fn lines(&self) -> &[u32] {
        self.inner.lines.get_or_init(|| {
            let breaks = self.text().bytes().enumerate().filter(|&(_, b)| b == b'\n');
            std::iter::once(0)
                .chain(breaks.filter_map(|(at, _)| u32::try_from(at.saturating_add(1)).ok()))
                .collect()
        })
    }

    /// The number, from 0, of the line that an offset is in.
    fn line_of(&self, offset: usize) -> usize {
        let offset = u32::try_from(offset).unwrap_or(u32::MAX);
        self.lines()
            .partition_point(|&start| start <= offset)
            .saturating_sub(1)
    }

    fn line_start(&self, line: usize) -> usize {
        self.lines()
            .get(line)
            .map_or(self.text().len(), |&at| at as usize)
    }

    /// The offset after the line break of a line.
    fn line_end(&self, line: usize) -> usize {
        self.line_start(line.saturating_add(1))
    }

    /// The part of a span that a snippet marks: its first line, and of a long one the beginning. An
    /// empty place after the last line break moves to the end of the last written line.
    pub(super) fn marked(&self, span: Span) -> Span {
        let text = self.text();
        let mut span = span.within(text);
        if span.is_empty() && span.start == text.len() {
            span = Span::point(text.trim_end().len());
        }
        let end = span.end.min(self.line_span(span.start).end.max(span.start));
        let end = end.min(span.start.saturating_add(LONG_LINE));
        Span::new(span.start, end).within(text)
    }
}

impl fmt::Debug for SourceText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "SourceText({}, {} bytes)",
            self.name(),
            self.text().len()
        )
    }
}

impl PartialEq for SourceText {
    fn eq(&self, other: &SourceText) -> bool {
        Arc::ptr_eq(&self.inner, &other.inner)
            || (self.name() == other.name() && self.text() == other.text())
    }
}

impl Eq for SourceText {}

/// Snippets for miette, from the text as it may be shown. Lines are found by binary search, and a long
/// line yields a window around the place, so a snippet stays small whatever the text.
impl SourceCode for SourceText {
    fn read_span<'a>(
        &'a self,
        span: &SourceSpan,
        before: usize,
        after: usize,
    ) -> Result<Box<dyn SpanContents<'a> + 'a>, MietteError> {
        let end = span
            .offset()
            .checked_add(span.len())
            .ok_or(MietteError::OutOfBounds)?;
        if end > self.text().len() || span.len() > LONGEST_SNIPPET {
            return Err(MietteError::OutOfBounds);
        }
        let place = Span::new(span.offset(), end).within(self.text());
        let first = self.line_of(place.start);
        let last = self.line_of(if place.is_empty() {
            place.end
        } else {
            place.end.saturating_sub(1)
        });

        let mut from = self.line_start(first);
        let mut top = first;
        if before == 0 {
            from = place.start;
        } else if place.start.saturating_sub(from) > LONG_LINE {
            from = Span::point(place.start.saturating_sub(WINDOW))
                .within(self.text())
                .start;
        } else {
            while top > 0 && first.saturating_sub(top) < before {
                let above = self.line_start(top.saturating_sub(1));
                if from.saturating_sub(above) > LONG_LINE {
                    break;
                }
                top = top.saturating_sub(1);
                from = above;
            }
        }

        let mut to = self.line_end(last);
        let mut bottom = last;
        if to.saturating_sub(place.end) > LONG_LINE {
            to = Span::point(place.end.saturating_add(WINDOW))
                .within(self.text())
                .end;
        } else {
            while bottom.saturating_sub(last) < after {
                let below = self.line_end(bottom.saturating_add(1));
                if below == to || below.saturating_sub(to) > LONG_LINE {
                    break;
                }
                bottom = bottom.saturating_add(1);
                to = below;
            }
        }

        let column = if before == 0 {
            self.line_col(place.start).1.saturating_sub(1)
        } else {
            0
        };
        let data = self
            .shown()
            .as_bytes()
            .get(from..to)
            .ok_or(MietteError::OutOfBounds)?;
        let lines = bottom.saturating_sub(top).saturating_add(1);
        let at = SourceSpan::from((from, to.saturating_sub(from)));
        Ok(Box::new(MietteSpanContents::new_named(
            self.name().to_owned(),
            data,
            at,
            top,
            column,
            lines,
        )))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[rstest]
    #[case("a: 1\nb: 2\n", 5, (2, 1))]
    #[case("a: 1\r\nb: 2\r\n", 9, (2, 4))]
    #[case("caf\u{e9}: x", 7, (1, 7))]
    #[case("", 0, (1, 1))]
    #[case("a\n", 2, (2, 1))]
    #[case("a", 999, (1, 2))]
    fn lines_and_columns(#[case] text: &str, #[case] at: usize, #[case] expected: (usize, usize)) {
        assert_eq!(SourceText::from_str("t", text).line_col(at), expected);
    }

    #[test]
    fn a_span_is_widened_to_whole_characters() {
        assert_eq!(Span::new(1, 2).within("\u{7aaf}x"), Span::new(0, 3));
        assert_eq!(Span::new(7, 3).within("ab"), Span::new(2, 2));
    }

    #[test]
    fn names_are_safe_to_show() {
        assert_eq!(
            SourceText::from_str("a\u{1b}[2J\nb", "").name(),
            "a\\u{1b}[2J\\nb"
        );
    }

    #[rstest]
    #[case(Span::new(0, 20), Span::new(0, 6))]
    #[case(Span::new(7, 9), Span::new(7, 9))]
    #[case(Span::point(18), Span::point(17))]
    fn marks_stay_on_one_line(#[case] span: Span, #[case] expected: Span) {
        let source = SourceText::from_str("t", "first:\nsecond: ab\n");
        assert_eq!(source.marked(span), expected);
    }
}
