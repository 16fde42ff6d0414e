//! YAML to the tree, within a budget.
//!
//! The tree is built from the events of granit-parser, the parser under serde-saphyr (the dependency
//! `serde_yaml`, which hands it on). Going through serde instead would lose what is needed here: whether
//! a scalar was quoted, whether a collection has brackets, and whether a null was written at all; and
//! the spans of keys. Events carry the byte span and the style of each of these.
//!
//! Nothing recurses on the input: open collections lie on a stack of at most [`MAX_DEPTH`]. An alias is
//! replaced by a copy of what it names, and both copies and originals count against [`MAX_NODES`], so
//! aliases of aliases run into the limit before they take memory.

use super::assemble::{Bare, Builder, Frame, Pending};
use super::clean::quote;
use super::cost::Size;
use super::diagnostic::{Complaint, Complaints};
use super::parser_errors;
use super::text::{SourceText, Span};
use super::tree::{Map, Node, Scalar, Value};
use serde_yaml::granit_parser::{self, Event, Parser, ScalarStyle, StructureStyle, Tag};

/// How deep lists and mappings may be nested.
pub const MAX_DEPTH: usize = 64;
/// How many values and keys a text may hold, aliases counted out in full. Far more than anybody writes
/// by hand; what it bounds most is the errors that a schema check of as many wrong values holds at once.
pub const MAX_NODES: usize = 100_000;
/// How many bytes of text the copies made for aliases may hold together.
pub const MAX_COPIED_BYTES: usize = 8 * 1024 * 1024;
/// After how many complaints a text is read no further.
pub(super) const MAX_COMPLAINTS: usize = 50;

/// The root of the one YAML document in a text.
///
/// # Errors
/// Every complaint found, in the order of the text: not well-formed, empty, several documents, control
/// characters, tags other than those of the core schema, merge keys, keys that are not plain text,
/// duplicate keys, or beyond [`MAX_DEPTH`], [`MAX_NODES`] or [`MAX_COPIED_BYTES`].
pub fn parse(source: &SourceText) -> Result<Node, Complaints> {
    if let Some(complaint) = control_character(source) {
        return Err(complaint.into());
    }
    let mut builder = Builder::new(source);
    let outcome = builder.run();
    let mut complaints = builder.complaints;
    match outcome {
        Err(fatal) => complaints.push(*fatal),
        Ok(()) if complaints.is_empty() => {
            return match builder.root {
                Some(root) if !(root.is_null() && root.span.is_empty()) => Ok(root),
                _ => Err(empty(source).into()),
            };
        }
        Ok(()) => {}
    }
    complaints.sort();
    Err(complaints)
}

fn empty(source: &SourceText) -> Complaint {
    let what = if source.text().trim().is_empty() {
        "is empty"
    } else {
        "holds no value, only comments or marks"
    };
    Complaint::error("source::empty", format!("{} {what}", quote(source.name())))
}

/// The first character that YAML does not admit in a text.
fn control_character(source: &SourceText) -> Option<Complaint> {
    let refused = |c: char| c.is_control() && !matches!(c, '\t' | '\n' | '\r' | '\u{85}');
    let (at, c) = source.text().char_indices().find(|&(_, c)| refused(c))?;
    let span = Span::new(at, at.saturating_add(c.len_utf8()));
    Some(
        Complaint::error(
            "source::control-character",
            format!(
                "there is a control character, U+{:04X}; YAML does not admit it",
                u32::from(c)
            ),
        )
        .at(source, span, "here")
        .help("remove it; inside double quotes it can be written as an escape"),
    )
}

/// A reason to stop at once. Boxed, as it travels in results of small values.
pub(super) type Fatal = Box<Complaint>;

impl Builder<'_> {
    fn run(&mut self) -> Result<(), Fatal> {
        let options = granit_parser::options! {
            flow_nesting_limit: MAX_DEPTH,
            block_nesting_limit: MAX_DEPTH,
            emit_comments: false,
        };
        for event in Parser::new_from_str_with_options(self.text, options) {
            let (event, span) =
                event.map_err(|e| Box::new(parser_errors::complaint(self.source, &e)))?;
            let span = span
                .byte_range()
                .map_or(Span::default(), |r| Span::new(r.start, r.end))
                .within(self.text);
            self.event(event, span)?;
            if self.complaints.len() >= MAX_COMPLAINTS {
                let stop = "there may be more; the rest of the text was not read";
                return Err(Box::new(Complaint::advice("source::more", stop)));
            }
        }
        Ok(())
    }

    fn event(&mut self, event: Event<'_>, span: Span) -> Result<(), Fatal> {
        match event {
            Event::DocumentStart(..) => {
                self.documents = self.documents.saturating_add(1);
                if self.documents > 1 {
                    let two = Complaint::error(
                        "source::many-documents",
                        "a second YAML document begins here",
                    )
                    .at(self.source, span, "second document")
                    .help("keep one document in a file; remove the `---`");
                    return Err(Box::new(two));
                }
            }
            Event::Scalar(text, style, anchor, tag) => {
                let (node, bare) = self.scalar(&text, style, tag.as_deref(), span);
                self.count(Size::ONE, span)?;
                self.finish(node, anchor, bare)?;
            }
            Event::SequenceStart(style, anchor, tag) => {
                self.collection_tag(tag.as_deref(), "seq", span);
                self.open(span)?;
                let flow = style == StructureStyle::Flow;
                self.stack.push(Frame::Seq {
                    flow,
                    start: span,
                    anchor,
                    items: Vec::new(),
                });
            }
            Event::MappingStart(style, anchor, tag) => {
                self.collection_tag(tag.as_deref(), "map", span);
                self.open(span)?;
                let flow = style == StructureStyle::Flow;
                let (map, pending) = (Map::default(), Pending::Key);
                self.stack.push(Frame::Map {
                    flow,
                    start: span,
                    anchor,
                    map,
                    pending,
                });
            }
            Event::SequenceEnd | Event::MappingEnd => self.close(span)?,
            Event::Alias(id) => self.alias(id, span)?,
            _ => {}
        }
        Ok(())
    }

    /// The node of a scalar, and how it can take part in a figure.
    fn scalar(
        &mut self,
        text: &str,
        style: ScalarStyle,
        tag: Option<&Tag>,
        span: Span,
    ) -> (Node, Bare) {
        let mut plain = style == ScalarStyle::Plain;
        // The parser gives an unwritten value the text `~` and an empty place.
        let unwritten = plain && span.is_empty() && tag.is_none();
        match tag.map(|tag| tag.core_suffix().map(str::to_owned)) {
            None => {}
            Some(Some(core)) if core == "str" => plain = false,
            Some(Some(core))
                if plain && matches!(core.as_str(), "int" | "float" | "bool" | "null") => {}
            Some(_) => self.refuse_tag(tag, span),
        }
        let mut span = span;
        if matches!(style, ScalarStyle::Literal | ScalarStyle::Folded) {
            let written = self.source.slice(span).trim_end().len();
            span = Span::new(span.start, span.start.saturating_add(written));
        }
        let null =
            plain && (span.is_empty() || matches!(text, "" | "~" | "null" | "Null" | "NULL"));
        let value = if null {
            Value::Null
        } else {
            let text = if span.is_empty() && text == "~" {
                String::new()
            } else {
                text.to_owned()
            };
            Value::Scalar(Scalar { text, plain })
        };
        (
            Node { span, value },
            if unwritten {
                Bare::Nothing
            } else if plain {
                Bare::Text
            } else {
                Bare::No
            },
        )
    }

    fn collection_tag(&mut self, tag: Option<&Tag>, allowed: &str, span: Span) {
        if tag.is_some_and(|tag| tag.core_suffix() != Some(allowed)) {
            self.refuse_tag(tag, span);
        }
    }

    fn refuse_tag(&mut self, tag: Option<&Tag>, span: Span) {
        let tag = tag.map(Tag::original).unwrap_or_default();
        let complaint = Complaint::error(
            "source::tag",
            format!("the tag {} has no meaning here", quote(&tag)),
        )
        .at(self.source, span, "tagged value")
        .help("leave the tag out");
        self.complaints.push(complaint);
    }
}
