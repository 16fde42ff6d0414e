//! Collects complaints while a file is read, so that several are told in one run.

use crate::quantity::{Dimension, Measure, MeasureError, parse_measure};
use crate::source::{Complaint, Complaints, Map, Node, Scalar, SourceText, Span, Value, suggest};

/// A file being read, and what is wrong with it so far.
pub struct Reader<'a> {
    /// The file.
    pub source: &'a SourceText,
    /// What is wrong.
    pub complaints: Vec<Complaint>,
}

impl<'a> Reader<'a> {
    /// Starts on a file.
    #[must_use]
    pub fn new(source: &'a SourceText) -> Reader<'a> {
        Reader {
            source,
            complaints: Vec::new(),
        }
    }

    /// Notes an error at a place.
    pub fn error(
        &mut self,
        code: &'static str,
        message: impl Into<String>,
        at: Span,
        label: impl Into<String>,
    ) -> &mut Complaint {
        self.complaints
            .push(Complaint::error(code, message).at(self.source, at, label));
        let last = self.complaints.len() - 1;
        &mut self.complaints[last]
    }

    /// Notes an error with advice.
    pub fn error_help(
        &mut self,
        code: &'static str,
        message: impl Into<String>,
        at: Span,
        label: impl Into<String>,
        help: impl Into<String>,
    ) {
        self.complaints.push(
            Complaint::error(code, message)
                .at(self.source, at, label)
                .help(help),
        );
    }

    /// The mapping in a node, or a complaint that says what was wanted.
    pub fn map<'n>(&mut self, node: &'n Node, what: &str) -> Option<&'n Map> {
        match &node.value {
            Value::Map(m) => Some(m),
            _ => {
                self.error(
                    "read::not-a-mapping",
                    format!("{what} must be a mapping"),
                    node.span,
                    format!("expected `key: value` lines, found {}", node.kind()),
                );
                None
            }
        }
    }

    /// The list in a node, or a complaint that says what was wanted.
    pub fn list<'n>(&mut self, node: &'n Node, what: &str) -> Option<&'n [Node]> {
        match &node.value {
            Value::Seq(s) => Some(s),
            _ => {
                self.error(
                    "read::not-a-list",
                    format!("{what} must be a list"),
                    node.span,
                    format!("expected `- item` lines, found {}", node.kind()),
                );
                None
            }
        }
    }

    /// The scalar in a node, or a complaint that says what was wanted.
    pub fn scalar<'n>(&mut self, node: &'n Node, what: &str) -> Option<&'n Scalar> {
        match &node.value {
            Value::Scalar(s) if !s.text.trim().is_empty() => Some(s),
            _ => {
                self.error(
                    "read::not-a-value",
                    format!("{what} must be a single value"),
                    node.span,
                    format!("expected a value, found {}", node.kind()),
                );
                None
            }
        }
    }

    /// The text in a node, trimmed.
    pub fn text(&mut self, node: &Node, what: &str) -> Option<String> {
        self.scalar(node, what).map(|s| s.text.trim().to_owned())
    }

    /// A node that is one text or a list of texts, with the place of each.
    pub fn texts(&mut self, node: &Node, what: &str) -> Option<Vec<(String, Span)>> {
        match &node.value {
            Value::Seq(items) => {
                let mut out = Vec::with_capacity(items.len());
                for item in items {
                    out.push((self.text(item, what)?, item.span));
                }
                Some(out)
            }
            _ => Some(vec![(self.text(node, what)?, node.span)]),
        }
    }

    /// A yes or no.
    pub fn yes_no(&mut self, node: &Node, what: &str) -> Option<bool> {
        let scalar = self.scalar(node, what)?;
        match scalar.text.trim().to_ascii_lowercase().as_str() {
            "yes" | "true" => Some(true),
            "no" | "false" => Some(false),
            other => {
                let label = format!("expected `yes` or `no`, found `{other}`");
                self.error(
                    "read::not-yes-no",
                    format!("{what} is yes or no"),
                    node.span,
                    label,
                );
                None
            }
        }
    }

    /// A quantity of a dimension.
    pub fn measure(&mut self, node: &Node, dimension: Dimension, what: &str) -> Option<Measure> {
        let scalar = self.scalar(node, what)?;
        match parse_measure(&scalar.text, dimension) {
            Ok(m) => Some(m),
            Err(e) => {
                self.measure_error(node, &scalar.text, &e, what);
                None
            }
        }
    }

    /// Notes why a quantity cannot be read, at the characters at fault.
    pub fn measure_error(&mut self, node: &Node, text: &str, error: &MeasureError, what: &str) {
        // Inside a plain scalar the offsets of the text are those of the file.
        let slice = self.source.slice(node.span);
        let span = match slice.find(text) {
            Some(offset) if !error.at.is_empty() => Span {
                start: node.span.start + offset + error.at.start,
                end: node.span.start + offset + error.at.end,
            },
            _ => node.span,
        };
        let mut help = format!("expected {}", error.expected);
        if let Some(s) = &error.suggestion {
            help = format!("{help}; {s}");
        }
        let message = format!("{what}: {}", error.message);
        self.error_help("read::quantity", message, span, "here", help);
    }

    /// Notes a name that is not known, with the nearest that is.
    pub fn unknown_name<'w>(
        &mut self,
        code: &'static str,
        message: String,
        name: &str,
        at: Span,
        known: impl IntoIterator<Item = &'w str>,
    ) {
        let known: Vec<&str> = known.into_iter().collect();
        let help = match suggest::nearest(name, known.iter().copied()) {
            Some(near) => format!("did you mean `{near}`?"),
            None if known.len() <= 24 => format!("known here: {}", known.join(", ")),
            None => "`pintle facts WORD` searches the vocabulary".to_owned(),
        };
        self.error_help(code, message, at, "not known", help);
    }
}

/// Adds complaints about places that nothing was said of yet.
pub fn add_unless_covered(complaints: &mut Vec<Complaint>, more: Complaints) {
    let covered: Vec<Span> = complaints.iter().filter_map(Complaint::span).collect();
    let touches = |a: Span, b: Span| a.start <= b.end && b.start <= a.end;
    for c in more.0 {
        if !c
            .span()
            .is_some_and(|s| covered.iter().any(|o| touches(s, *o)))
        {
            complaints.push(c);
        }
    }
}
