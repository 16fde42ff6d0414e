//! A text as a row of characters, with spaces, signs and quotes in one form and the place of each
//! in the original kept.

use std::ops::Range;

/// A text to read. Positions count characters; [`Text::bytes`] turns them into bytes.
pub(super) struct Text<'a> {
    source: &'a str,
    chars: Vec<(usize, char)>,
}

impl<'a> Text<'a> {
    pub fn new(source: &'a str) -> Text<'a> {
        let chars = source
            .char_indices()
            .map(|(at, c)| (at, plain(c)))
            .collect();
        Text { source, chars }
    }

    /// The whole text without the spaces around it.
    pub fn all(&self) -> Range<usize> {
        self.trim(0..self.chars.len())
    }

    /// The character at `at`, in its plain form.
    pub fn get(&self, at: usize) -> Option<char> {
        self.chars.get(at).map(|(_, c)| *c)
    }

    /// The character at `at` if `range` has it.
    pub fn within(&self, range: &Range<usize>, at: usize) -> Option<char> {
        self.get(at).filter(|_| range.contains(&at))
    }

    /// The first position in `range` from `start` whose character is not among those wanted.
    pub fn skip(&self, range: &Range<usize>, start: usize, wanted: fn(char) -> bool) -> usize {
        let mut at = start;
        while self.within(range, at).is_some_and(wanted) {
            at = at.saturating_add(1);
        }
        at
    }

    pub fn trim(&self, range: Range<usize>) -> Range<usize> {
        let start = self.skip(&range, range.start, |c| c == ' ');
        let mut end = range.end;
        while end > start && self.get(end.saturating_sub(1)) == Some(' ') {
            end = end.saturating_sub(1);
        }
        start..end
    }

    /// The characters of `range`, in their plain forms.
    pub fn plain(&self, range: &Range<usize>) -> String {
        range.clone().filter_map(|at| self.get(at)).collect()
    }

    /// The bytes of the original that `range` stands for.
    pub fn bytes(&self, range: &Range<usize>) -> Range<usize> {
        let byte = |at: usize| {
            self.chars
                .get(at)
                .map_or(self.source.len(), |(byte, _)| *byte)
        };
        byte(range.start)..byte(range.end.max(range.start))
    }

    /// The original text of `range` between backticks, fit for a message.
    pub fn quote(&self, range: &Range<usize>) -> String {
        let original = self.source.get(self.bytes(range)).unwrap_or_default();
        let mut shown: String = original
            .chars()
            .take(40)
            .map(|c| if c.is_control() { '\u{fffd}' } else { c })
            .collect();
        if original.chars().nth(40).is_some() {
            shown.push('…');
        }
        format!("`{shown}`")
    }

    /// The whole text in plain form with `range` replaced.
    pub fn replaced(&self, range: &Range<usize>, new: &str) -> String {
        let all = self.all();
        let before = self.plain(&(all.start..range.start));
        let after = self.plain(&(range.end..all.end));
        format!("{before}{new}{after}").trim().to_owned()
    }

    /// Whether the words of `phrase` stand at `start` of `range`, in any case; the position after
    /// them. A phrase that ends in a letter must end a word.
    pub fn phrase(&self, range: &Range<usize>, start: usize, phrase: &str) -> Option<usize> {
        let mut at = start;
        for (nth, word) in phrase.split(' ').enumerate() {
            if nth > 0 {
                let next = self.skip(range, at, |c| c == ' ');
                if next == at {
                    return None;
                }
                at = next;
            }
            for wanted in word.chars() {
                let found = self.within(range, at)?;
                if found.to_ascii_lowercase() != wanted {
                    return None;
                }
                at = at.saturating_add(1);
            }
        }
        let in_word = phrase.ends_with(char::is_alphabetic)
            && self.within(range, at).is_some_and(char::is_alphanumeric);
        (!in_word).then_some(at)
    }
}

/// One form for characters that mean the same.
fn plain(c: char) -> char {
    match c {
        _ if c.is_whitespace() => ' ',
        '\u{2212}' | '\u{2010}' | '\u{2011}' => '-',
        '\u{2012}' | '\u{2014}' => '\u{2013}',
        '\u{2018}' | '\u{2019}' | '\u{2032}' => '\'',
        '\u{201c}' | '\u{201d}' | '\u{2033}' => '"',
        '\u{ba}' | '\u{2da}' => '°',
        '\u{2044}' | '\u{2215}' => '/',
        _ => c,
    }
}
