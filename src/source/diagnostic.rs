//! Complaints: what is wrong, where, and what was expected.
//!
//! A complaint carries a stable code. Each layer lists its codes in a table of its own ([`Codes`]), and
//! [`code_faults`] checks tables against one another, so that a code means one thing in the whole
//! program.

use super::clean::{clean, is_unsafe};
use super::text::{SourceText, Span};
use miette::{Diagnostic, LabeledSpan, SourceCode};
use std::collections::HashSet;
use std::fmt;

/// A table of complaint codes, each `layer::what-is-wrong`, with one line on what it means.
pub type Codes = &'static [(&'static str, &'static str)];

/// What is wrong with tables of codes: a code that is there twice, is not of the form
/// `layer::what-is-wrong`, or has no description. Empty when all is well.
pub fn code_faults(tables: &[Codes]) -> Vec<String> {
    let mut seen = HashSet::new();
    let mut faults = Vec::new();
    for &(code, meaning) in tables.iter().copied().flatten() {
        let word = |w: &str| {
            !w.is_empty()
                && w.chars()
                    .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
        };
        if !code
            .split_once("::")
            .is_some_and(|(layer, what)| word(layer) && word(what))
        {
            faults.push(format!("{code} is not of the form layer::what-is-wrong"));
        }
        if meaning.trim().is_empty() {
            faults.push(format!("{code} has no description"));
        }
        if !seen.insert(code) {
            faults.push(format!("{code} is declared twice"));
        }
    }
    faults
}

/// How much a complaint weighs. Errors come first when ordered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// The input cannot be used.
    Error,
    /// It can be used, but is likely not what was meant.
    Warning,
    /// A hint.
    Advice,
}

/// A marked place in the source of a complaint.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Label {
    /// The place.
    pub span: Span,
    /// What is to be said of it; may be empty.
    pub text: String,
}

/// One thing that is wrong with an input. The fields hold what was given; whatever is shown is cleaned
/// of characters that could steer a terminal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Complaint {
    /// Stable code, from the table of the layer that complains.
    pub code: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// What is wrong, as one sentence without a full stop.
    pub message: String,
    /// The text that the labels point into.
    pub source: Option<SourceText>,
    /// The places, the decisive one first.
    pub labels: Vec<Label>,
    /// What to do about it.
    pub help: Option<String>,
}

impl Complaint {
    fn new(severity: Severity, code: &'static str, message: impl Into<String>) -> Complaint {
        Complaint {
            code,
            severity,
            message: message.into(),
            source: None,
            labels: Vec::new(),
            help: None,
        }
    }

    /// The input cannot be used.
    pub fn error(code: &'static str, message: impl Into<String>) -> Complaint {
        Complaint::new(Severity::Error, code, message)
    }

    /// The input can be used, but is likely not what was meant.
    pub fn warning(code: &'static str, message: impl Into<String>) -> Complaint {
        Complaint::new(Severity::Warning, code, message)
    }

    /// A hint.
    pub fn advice(code: &'static str, message: impl Into<String>) -> Complaint {
        Complaint::new(Severity::Advice, code, message)
    }

    /// Marks the decisive place: the source is set and the label put before all others.
    pub fn at(mut self, source: &SourceText, span: Span, label: impl Into<String>) -> Complaint {
        self.source = Some(source.clone());
        self.labels.insert(
            0,
            Label {
                span,
                text: label.into(),
            },
        );
        self
    }

    /// Marks a further place in the same source.
    pub fn also(mut self, span: Span, label: impl Into<String>) -> Complaint {
        self.labels.push(Label {
            span,
            text: label.into(),
        });
        self
    }

    /// Says what to do about it.
    pub fn help(mut self, help: impl Into<String>) -> Complaint {
        self.help = Some(help.into());
        self
    }

    /// Says what to do about it, if there is anything to say.
    pub fn maybe_help(mut self, help: Option<String>) -> Complaint {
        self.help = help.or(self.help);
        self
    }

    /// The decisive place.
    pub fn span(&self) -> Option<Span> {
        self.labels.first().map(|label| label.span)
    }

    /// Line and column of the decisive place, both from 1.
    pub fn line_col(&self) -> Option<(usize, usize)> {
        Some(self.source.as_ref()?.line_col(self.span()?.start))
    }
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&clean(&self.message))
    }
}

impl std::error::Error for Complaint {}

impl Diagnostic for Complaint {
    fn code<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        Some(Box::new(self.code))
    }

    fn severity(&self) -> Option<miette::Severity> {
        Some(match self.severity {
            Severity::Error => miette::Severity::Error,
            Severity::Warning => miette::Severity::Warning,
            Severity::Advice => miette::Severity::Advice,
        })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help
            .as_deref()
            .map(|help| Box::new(clean(help)) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.as_ref().map(|source| source as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let source = self.source.as_ref()?;
        Some(Box::new(self.labels.iter().enumerate().map(
            move |(n, label)| {
                let span = source.marked(label.span);
                let text: String = label
                    .text
                    .chars()
                    .map(|c| if is_unsafe(c) { '\u{FFFD}' } else { c })
                    .collect();
                let text = (!text.is_empty()).then_some(text);
                if n == 0 {
                    LabeledSpan::new_primary_with_span(text, (span.start, span.len()))
                } else {
                    LabeledSpan::new_with_span(text, (span.start, span.len()))
                }
            },
        )))
    }
}

/// Several complaints about one or more inputs, to be shown together.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Complaints(pub Vec<Complaint>);

impl Complaints {
    /// None yet.
    pub fn new() -> Complaints {
        Complaints::default()
    }

    /// Adds one.
    pub fn push(&mut self, complaint: Complaint) {
        self.0.push(complaint);
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// All of them, in order.
    pub fn iter(&self) -> std::slice::Iter<'_, Complaint> {
        self.0.iter()
    }

    /// Whether any is an error.
    pub fn has_errors(&self) -> bool {
        self.iter().any(|c| c.severity == Severity::Error)
    }

    /// Orders them by the decisive place, those without a place last; the order among equals stays.
    pub fn sort(&mut self) {
        self.0
            .sort_by_key(|c| (c.span().is_none(), c.span().map(|s| s.start)));
    }

    /// `Ok` with the value when none is an error, and the complaints otherwise. Warnings beside a value
    /// are handed over with it.
    ///
    /// # Errors
    /// The complaints, when one of them is an error.
    pub fn or<T>(self, value: T) -> Result<(T, Complaints), Complaints> {
        if self.has_errors() {
            Err(self)
        } else {
            Ok((value, self))
        }
    }
}

impl From<Complaint> for Complaints {
    fn from(complaint: Complaint) -> Complaints {
        Complaints(vec![complaint])
    }
}

impl FromIterator<Complaint> for Complaints {
    fn from_iter<I: IntoIterator<Item = Complaint>>(complaints: I) -> Complaints {
        Complaints(complaints.into_iter().collect())
    }
}

impl Extend<Complaint> for Complaints {
    fn extend<I: IntoIterator<Item = Complaint>>(&mut self, complaints: I) {
        self.0.extend(complaints);
    }
}

impl IntoIterator for Complaints {
    type Item = Complaint;
    type IntoIter = std::vec::IntoIter<Complaint>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.into_iter()
    }
}

impl<'a> IntoIterator for &'a Complaints {
    type Item = &'a Complaint;
    type IntoIter = std::slice::Iter<'a, Complaint>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl fmt::Display for Complaints {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.0.as_slice() {
            [] => f.write_str("no complaint"),
            [only] => only.fmt(f),
            [first, rest @ ..] => write!(f, "{first} (and {} more)", rest.len()),
        }
    }
}

impl std::error::Error for Complaints {}

impl Diagnostic for Complaints {
    fn related<'a>(&'a self) -> Option<Box<dyn Iterator<Item = &'a dyn Diagnostic> + 'a>> {
        Some(Box::new(self.iter().map(|c| c as &dyn Diagnostic)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use rstest::rstest;

    #[test]
    fn the_codes_of_this_layer_are_in_order() {
        assert_eq!(code_faults(&[super::super::CODES]), Vec::<String>::new());
    }

    #[rstest]
    #[case(&[("a::b", "x"), ("a::b", "y")], "a::b is declared twice")]
    #[case(&[("a:b", "x")], "a:b is not of the form layer::what-is-wrong")]
    #[case(&[("a::b", " ")], "a::b has no description")]
    fn faults_are_found(#[case] table: Codes, #[case] fault: &str) {
        assert_eq!(code_faults(&[table]), [fault]);
    }

    #[test]
    fn warnings_do_not_refuse() {
        let mut all = Complaints::from(Complaint::warning("a::b", "odd"));
        assert!(all.clone().or(1).is_ok());
        all.push(Complaint::error("a::c", "wrong"));
        assert_eq!(all.to_string(), "odd (and 1 more)");
        assert!(all.or(1).is_err());
    }
}
