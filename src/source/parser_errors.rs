//! What the YAML parser objects to, in words that help.

use super::diagnostic::Complaint;
use super::parse::MAX_DEPTH;
use super::text::{SourceText, Span};
use serde_yaml::granit_parser::{ErrorKind, ScanError};

/// The complaint for an error of the parser. What the parser itself said is kept in the help.
pub fn complaint(source: &SourceText, error: &ScanError) -> Complaint {
    let text = source.text();
    let at = error
        .marker()
        .byte_offset()
        .unwrap_or(text.len())
        .min(text.len());
    let kind = error.kind();
    if *kind == ErrorKind::RecursionLimitExceeded {
        return too_deep(source, Span::new(at, at.saturating_add(1)));
    }
    if let Some(tab) = tab_near(source, at, kind) {
        return Complaint::error(
            "source::tab",
            "a tab is used for indentation; YAML takes only spaces there",
        )
        .at(source, tab, "tab")
        .help("replace each tab at the beginning of a line by spaces");
    }
    let (message, advice) = words(kind);
    let said = format!("the YAML parser says: {}", error.info());
    let help = if advice.is_empty() {
        said
    } else {
        format!("{advice}\n{said}")
    };
    let span = Span::new(at, at.saturating_add(1)).within(text);
    Complaint::error("source::yaml", message)
        .at(source, span, "here")
        .help(help)
}

/// The complaint for a value nested deeper than [`MAX_DEPTH`].
pub fn too_deep(source: &SourceText, span: Span) -> Complaint {
    Complaint::error(
        "source::too-deep",
        format!("the text is nested more than {MAX_DEPTH} deep"),
    )
    .at(source, span, "one level too many")
}

/// The tab that an error is about: in the indentation of its line; for an error that names tabs or
/// speaks of indentation, also of the written line after or before it; and for one that names tabs,
/// anywhere in its line.
fn tab_near(source: &SourceText, at: usize, kind: &ErrorKind) -> Option<Span> {
    use ErrorKind as E;
    let names_tabs = matches!(
        kind,
        E::TabNotAllowed
            | E::TabInBlockIndentation
            | E::TabInIndentation
            | E::TabInPlainScalar
            | E::TabAtBlockScalarStart
    );
    let text = source.text();
    let tab_in = |offset: usize| {
        let span = source.line_span(offset);
        let line = source.slice(span);
        let indent = line.len().saturating_sub(line.trim_start().len());
        let tab = span.start.saturating_add(line.get(..indent)?.find('\t')?);
        Some(Span::new(tab, tab.saturating_add(1)))
    };
    let line = source.line_span(at);
    let found = tab_in(at);
    if found.is_some() || !(names_tabs || is_indentation(kind)) {
        return found;
    }
    let rest = text.get(line.end..).unwrap_or_default();
    let next = text.len().saturating_sub(rest.trim_start().len());
    let previous = text.get(..line.start).unwrap_or_default().trim_end().len();
    tab_in(next).or_else(|| tab_in(previous)).or_else(|| {
        let tab = line
            .start
            .saturating_add(source.slice(line).find('\t').filter(|_| names_tabs)?);
        Some(Span::new(tab, tab.saturating_add(1)))
    })
}

fn is_indentation(kind: &ErrorKind) -> bool {
    use ErrorKind as E;
    matches!(
        kind,
        E::InvalidIndentation
            | E::ExpectedBlockMappingKey
            | E::ExpectedBlockSequenceEntry
            | E::InvalidBlockScalarIndent
            | E::InvalidFlowScalarIndent
            | E::InvalidQuotedScalarIndent
    )
}

fn words(kind: &ErrorKind) -> (&'static str, &'static str) {
    use ErrorKind as E;
    match kind {
        E::MappingValueNotAllowed => (
            "a `:` cannot stand here",
            "if it belongs to a text, put the text in quotes; if a new line begins here, align it with the lines it belongs to",
        ),
        E::UnclosedQuotedScalar => ("a quote is opened here and never closed", ""),
        E::UnclosedFlowCollection { .. }
        | E::UnexpectedEofFlowSequence
        | E::UnexpectedEofFlowMapping
        | E::UnexpectedEofImplicitFlowMapping => ("a bracket is opened here and never closed", ""),
        E::MisplacedFlowCollectionEnd => ("a bracket is closed here that was never opened", ""),
        E::MismatchedFlowCollectionEnd { .. } => (
            "the bracket opened here is closed by one of another kind",
            "`[` is closed by `]`, and `{` by `}`",
        ),
        E::ExpectedFlowMappingSeparator | E::ExpectedFlowSequenceSeparator => {
            ("a comma or the closing bracket is missing before this", "")
        }
        kind if is_indentation(kind) => (
            "this line does not line up with the lines around it",
            "lines that belong together begin in the same column",
        ),
        E::SimpleKeyExpected | E::InvalidSimpleKey => (
            "a `:` is missing after a key, or the key is too long",
            "a key and its `:` stand on one line: `key: value`",
        ),
        E::BlockSequenceEntryNotAllowed | E::BlockEntryInFlowCollection => (
            "a list item with `-` cannot begin here",
            "begin a list on a line of its own, below its key",
        ),
        E::UnknownAnchor => (
            "this alias names an anchor that is not set before it",
            "`*name` needs `&name` earlier in the text",
        ),
        E::UnexpectedCharacter {
            character: '@' | '`',
        } => (
            "a text cannot begin with this character",
            "put the text in quotes",
        ),
        E::UnexpectedCharacter { character: '%' } => {
            ("a text cannot begin with `%`", "put the text in quotes")
        }
        E::CommentNotSeparated => ("a comment needs a space before its `#`", ""),
        E::UnknownQuotedScalarEscape
        | E::InvalidQuotedScalarHexEscape
        | E::InvalidUnicodeEscape
        | E::InvalidLowSurrogate
        | E::InvalidLowSurrogateHexEscape
        | E::MissingLowSurrogate
        | E::UnpairedLowSurrogate => (
            "this backslash begins no escape that YAML knows",
            "write `\\\\` for a backslash, or use single quotes",
        ),
        E::UndeclaredTagHandle => ("this tag is not declared", "leave the tag out"),
        _ => ("this is not well-formed YAML", ""),
    }
}
