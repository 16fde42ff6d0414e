//! The words for what a schema asks for.

use super::clean::quote;
use super::diagnostic::Complaint;
use super::schema_lookup::{TEXT, counted, kinds, list, or, parent, texts, titled, types};
use super::suggest;
use super::text::{SourceText, Span};
use super::tree::Node;
use jsonschema::{ValidationError, error::ValidationErrorKind as Kind};
use serde_json::Value as Json;

/// How many choices are listed.
const LISTED: usize = 24;

/// One error of a value, in words.
pub fn complaint(
    source: &SourceText,
    schema: &Json,
    error: &ValidationError<'_>,
    name: Option<&str>,
    node: &Node,
) -> Complaint {
    let name = name.unwrap_or("the text");
    let found = shown(node);
    let wanted =
        parent(schema, error.schema_path().as_str()).and_then(|part| titled(schema, part, 0));
    let expected = |fallback: String| wanted.clone().unwrap_or(fallback);
    let at = |code, message: String, label: String| {
        Complaint::error(code, message).at(source, node.span, label)
    };
    let bounds = |asked: String| {
        at(
            "schema::bounds",
            format!("{name} must {asked}"),
            format!("found {found}"),
        )
    };
    match error.kind() {
        Kind::Enum { options } => {
            let choices = texts(options);
            choice(source, name, node, &choices)
        }
        Kind::Constant { expected_value } => choice(
            source,
            name,
            node,
            &texts(&Json::Array(vec![expected_value.as_ref().clone()])),
        ),
        Kind::Type { .. } => {
            let part = parent(schema, error.schema_path().as_str());
            let kinds = part.map(|part| types(schema, part, 0)).unwrap_or_default();
            // Quotes help only where any text will do.
            let takes_text = kinds.iter().any(|kind| kind == TEXT)
                && part.is_some_and(|part| part.get("pattern").is_none());
            let plain = node.as_scalar().is_some_and(|scalar| scalar.plain);
            let help = (takes_text && plain && !node.to_json().is_string())
                .then(|| "if it is meant as a text, put it in quotes".to_owned());
            let wanted = expected(or(&kinds));
            at(
                "schema::kind",
                format!("{name} is {}, not {wanted}", node.kind()),
                format!("expected {wanted}"),
            )
            .maybe_help(help)
        }
        Kind::Pattern { .. } | Kind::Format { .. } => {
            let wanted = expected("another form of text".to_owned());
            at(
                "schema::form",
                format!("{name} is {found}, not {wanted}"),
                format!("expected {wanted}"),
            )
        }
        Kind::Minimum { limit } => bounds(format!("be at least {limit}")),
        Kind::Maximum { limit } => bounds(format!("be at most {limit}")),
        Kind::ExclusiveMinimum { limit } => bounds(format!("be more than {limit}")),
        Kind::ExclusiveMaximum { limit } => bounds(format!("be less than {limit}")),
        Kind::MinLength { limit: 1 } => bounds("not be empty".to_owned()),
        Kind::MinLength { limit } => bounds(format!("have at least {limit} characters")),
        Kind::MaxLength { limit } => bounds(format!("have at most {limit} characters")),
        Kind::MinItems { limit } => bounds(format!("list at least {}", counted(*limit, "item"))),
        Kind::MaxItems { limit } => bounds(format!("list at most {}", counted(*limit, "item"))),
        Kind::AdditionalItems { limit } => bounds(format!("list at most {limit} items")),
        Kind::MinProperties { limit } => {
            bounds(format!("hold at least {}", counted(*limit, "line")))
        }
        Kind::MaxProperties { limit } => {
            bounds(format!("hold at most {}", counted(*limit, "line")))
        }
        Kind::FalseSchema => at(
            "schema::other",
            format!("{name} cannot stand here"),
            "not allowed here".to_owned(),
        ),
        Kind::OneOfMultipleValid { .. } => {
            let wanted = expected("one thing".to_owned());
            at(
                "schema::other",
                format!("{name} can be read in more than one way"),
                format!("expected {wanted}"),
            )
        }
        Kind::Not { .. } | Kind::Contains => {
            let wanted = expected("something else".to_owned());
            at(
                "schema::other",
                format!("{name} cannot be {found}"),
                format!("expected {wanted}"),
            )
        }
        _ => {
            // The crate's words hold the value in full; the place shows it.
            let said = error.masked_with("the value").to_string();
            let said: String = said.chars().take(200).collect();
            at(
                "schema::other",
                format!("{name} does not fit: {said}"),
                expected("does not fit".to_owned()),
            )
        }
    }
}

/// A value that fits none of the alternatives.
pub fn no_branch(
    source: &SourceText,
    schema: &Json,
    error: &ValidationError<'_>,
    context: &[Vec<ValidationError<'static>>],
    name: Option<&str>,
    node: &Node,
) -> Complaint {
    let shown_name = name.unwrap_or("the text");
    let mut choices: Vec<String> = Vec::new();
    let only_choices = context.iter().all(|branch| {
        branch.iter().all(|inner| {
            match inner.kind() {
                Kind::Enum { options } => choices.extend(texts(options)),
                Kind::Constant { expected_value } => {
                    choices.extend(texts(&Json::Array(vec![expected_value.as_ref().clone()])));
                }
                _ => return false,
            }
            inner.instance_path() == error.instance_path()
        })
    });
    if only_choices && !choices.is_empty() {
        return choice(source, shown_name, node, &choices);
    }
    let path = error.schema_path().as_str();
    let own = parent(schema, path).and_then(|part| titled(schema, part, 0));
    let wanted = own.unwrap_or_else(|| {
        or(&parent(schema, path)
            .map(|part| kinds(schema, part, 0))
            .unwrap_or_default())
    });
    let meant = node
        .as_str()
        .and_then(|text| suggest::phrase(text, choices.iter().map(String::as_str)));
    Complaint::error(
        "schema::kind",
        format!("{shown_name} is {}, not {wanted}", shown(node)),
    )
    .at(source, node.span, format!("expected {wanted}"))
    .maybe_help(meant)
}

/// The alternative that was most likely meant: the one whose shape fits and whose errors lie deepest.
pub fn relevant_branch<'e>(
    error: &ValidationError<'_>,
    context: &'e [Vec<ValidationError<'static>>],
) -> Option<&'e [ValidationError<'static>]> {
    let own = error.instance_path().as_str().len();
    let here = |inner: &ValidationError<'static>| inner.instance_path().as_str().len() <= own;
    let fitting: Vec<&Vec<ValidationError<'static>>> = context
        .iter()
        .filter(|branch| !branch.is_empty() && !misfits(branch, own))
        .collect();
    if let [only] = fitting.as_slice() {
        return Some(only);
    }
    // Of several that fit, those wrong only further inside are nearer than those wrong here.
    let inside: Vec<&&Vec<ValidationError<'static>>> = fitting
        .iter()
        .filter(|branch| !branch.iter().any(here))
        .collect();
    let candidates: Vec<&Vec<ValidationError<'static>>> = if inside.is_empty() {
        let mapping = error.instance().is_object();
        if !mapping {
            return None;
        }
        fitting
    } else {
        inside.into_iter().copied().collect()
    };
    let weight = |branch: &&Vec<ValidationError<'static>>| {
        branch
            .iter()
            .map(|inner| match inner.kind() {
                Kind::AdditionalProperties { unexpected } => unexpected.len().saturating_mul(2),
                _ => 1,
            })
            .sum::<usize>()
    };
    let best = candidates.iter().map(weight).min()?;
    let mut ties = candidates
        .into_iter()
        .filter(|branch| weight(branch) == best);
    match (ties.next(), ties.next()) {
        (Some(only), None) => Some(only),
        _ => None,
    }
}

/// Whether a branch takes another kind of value altogether; one made of alternatives does so when all of
/// them do. `own` is the length of the value's pointer.
fn misfits(branch: &[ValidationError<'static>], own: usize) -> bool {
    branch
        .iter()
        .filter(|inner| inner.instance_path().as_str().len() <= own)
        .any(|inner| match inner.kind() {
            Kind::Type { .. } | Kind::FalseSchema => true,
            Kind::AnyOf { context } | Kind::OneOfNotValid { context } => {
                context.iter().all(|branch| misfits(branch, own))
            }
            _ => false,
        })
}

/// A name that is not written as the schema asks of names.
pub fn misformed_name(
    source: &SourceText,
    schema: &Json,
    inner: &ValidationError<'_>,
    name: &str,
    span: Span,
) -> Complaint {
    let part = parent(schema, inner.schema_path().as_str());
    let wanted = part
        .and_then(|part| titled(schema, part, 0))
        .unwrap_or_else(|| "a name that can stand here".to_owned());
    Complaint::error("schema::form", format!("{} is not {wanted}", quote(name))).at(
        source,
        span,
        format!("expected {wanted}"),
    )
}

fn choice(source: &SourceText, name: &str, node: &Node, choices: &[String]) -> Complaint {
    let listed: Vec<&str> = choices.iter().map(String::as_str).collect();
    let label = match listed.as_slice() {
        [only] => format!("expected {}", quote(only)),
        _ => "not one of the choices".to_owned(),
    };
    let meant = node
        .as_str()
        .and_then(|text| suggest::phrase(text, listed.iter().copied()));
    let all = match listed.as_slice() {
        [] | [_] => String::new(),
        many => format!("the choices are {}", list(many, LISTED)),
    };
    let help = [meant.unwrap_or_default(), all]
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(" ");
    Complaint::error(
        "schema::choice",
        format!("{name} cannot be {}", shown(node)),
    )
    .at(source, node.span, label)
    .maybe_help((!help.is_empty()).then_some(help))
}

/// A value as a complaint names it.
fn shown(node: &Node) -> String {
    match node.as_scalar() {
        Some(scalar) if scalar.text.is_empty() => "an empty text".to_owned(),
        Some(scalar) => quote(&scalar.text),
        None => node.kind().to_owned(),
    }
}
