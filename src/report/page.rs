//! Lines that fit a width, with or without colours.
//!
//! Whatever a person reads goes through a [`Page`]. It cleans every text of characters that could
//! steer a terminal, so that no escape sequence from a file gets out.

use crate::source::clean;
use anstyle::{AnsiColor, Style as Ansi};
use textwrap::{Options, WordSeparator, WordSplitter, WrapAlgorithm, wrap};

/// How a page is set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    /// The greatest number of columns.
    pub width: usize,
    /// Whether to use colours. Nothing is told by colour alone.
    pub color: bool,
}

impl Default for Style {
    fn default() -> Style {
        Style {
            width: 80,
            color: false,
        }
    }
}

/// What a piece of text is, for its colour.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// Nothing special.
    Plain,
    /// Titles and what a rule says.
    Strong,
    /// A broken rule.
    Broken,
    /// Something unknown.
    Unknown,
    /// Something to look at.
    Look,
    /// A rule that is met.
    Met,
    /// Labels and asides.
    Aside,
}

impl Tone {
    fn ansi(self) -> Ansi {
        let colored = |c: AnsiColor| Ansi::new().bold().fg_color(Some(c.into()));
        match self {
            Tone::Plain => Ansi::new(),
            Tone::Strong => Ansi::new().bold(),
            Tone::Broken => colored(AnsiColor::Red),
            Tone::Unknown => colored(AnsiColor::Yellow),
            Tone::Look => colored(AnsiColor::Cyan),
            Tone::Met => colored(AnsiColor::Green),
            Tone::Aside => Ansi::new().dimmed(),
        }
    }
}

/// The least width that lines are set to.
const NARROWEST: usize = 30;

/// A page being set.
#[derive(Clone, Debug)]
pub struct Page {
    style: Style,
    text: String,
}

impl Page {
    /// An empty page.
    #[must_use]
    pub fn new(style: Style) -> Page {
        Page {
            style,
            text: String::new(),
        }
    }

    /// The text, every line ended.
    #[must_use]
    pub fn finish(self) -> String {
        self.text
    }

    /// An empty line.
    pub fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A heading.
    pub fn heading(&mut self, tone: Tone, text: &str) {
        self.gap();
        self.block(0, "", tone, text);
    }

    /// A paragraph, set in by some columns.
    pub fn para(&mut self, indent: usize, tone: Tone, text: &str) {
        self.block(indent, "", tone, text);
    }

    /// A paragraph behind a label; the lines after the first are set in as deep as the text.
    pub fn item(&mut self, indent: usize, label: &str, text: &str) {
        self.block(indent, label, Tone::Plain, text);
    }

    /// A paragraph behind a label, in a tone.
    pub fn toned_item(&mut self, indent: usize, label: &str, tone: Tone, text: &str) {
        self.block(indent, label, tone, text);
    }

    /// A line that is never broken, such as an address to copy.
    pub fn whole(&mut self, indent: usize, text: &str) {
        self.text.push_str(&" ".repeat(indent));
        self.text.push_str(&one_line(text));
        self.text.push('\n');
    }

    /// A line of pieces, each in its tone; never broken.
    pub fn row(&mut self, cells: &[(String, Tone)]) {
        let line: String = cells
            .iter()
            .map(|(cell, tone)| self.paint(*tone, &one_line(cell)))
            .collect();
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }

    /// Whether a line of that many columns fits.
    #[must_use]
    pub fn fits(&self, columns: usize) -> bool {
        columns <= self.width()
    }

    fn width(&self) -> usize {
        self.style.width.max(NARROWEST)
    }

    fn block(&mut self, indent: usize, label: &str, tone: Tone, text: &str) {
        let label = one_line(label);
        let text = one_line(text);
        let indent = indent.min(self.width() / 2);
        let first = " ".repeat(indent);
        // A label that would leave no room stands alone.
        let hang = indent + textwrap::core::display_width(&label);
        let rest = " ".repeat(hang.min(self.width() / 2));
        let lead = " ".repeat(hang);
        let options = Options::new(self.width())
            .initial_indent(&lead)
            .subsequent_indent(&rest)
            .wrap_algorithm(WrapAlgorithm::FirstFit)
            .word_separator(WordSeparator::AsciiSpace)
            .word_splitter(WordSplitter::NoHyphenation);
        for (n, line) in wrap(&text, options).iter().enumerate() {
            let cut = if n == 0 { hang } else { rest.len() };
            let body = line.get(cut..).unwrap_or_default();
            if n == 0 {
                self.text.push_str(&first);
                let label = self.paint(Tone::Aside, &label);
                self.text.push_str(&label);
            } else {
                self.text.push_str(&rest);
            }
            let body = self.paint(tone, body);
            self.text.push_str(&body);
            let end = self.text.trim_end_matches(' ').len();
            self.text.truncate(end);
            self.text.push('\n');
        }
    }

    fn paint(&self, tone: Tone, text: &str) -> String {
        if !self.style.color || text.is_empty() || tone == Tone::Plain {
            return text.to_owned();
        }
        let ansi = tone.ansi();
        format!("{ansi}{text}{ansi:#}")
    }
}

/// A text on one line, cleaned.
fn one_line(text: &str) -> String {
    clean(text).replace('\n', " ")
}
