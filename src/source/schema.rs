//! JSON Schema complaints in plain words.
//!
//! The jsonschema crate decides what is wrong; this finds the place in the text and says what was
//! expected. A sub-schema's `title` is used as a noun phrase for what it takes ("a mass with its unit,
//! such as 3,000 lb"); without one its `description` is, and then its type.

use super::clean::quote;
use super::diagnostic::{Complaint, Complaints, Severity};
use super::suggest;
use super::text::{SourceText, Span};
use super::tree::Node;
use super::{schema_lookup as lookup, schema_words as words};
use jsonschema::{ValidationError, Validator, error::ValidationErrorKind as Kind};
use serde_json::Value as Json;
use std::collections::{HashMap, HashSet};

/// How many complaints of one text are shown.
pub const MAX_COMPLAINTS: usize = 50;
/// How many are put into words before the first [`MAX_COMPLAINTS`] by place are picked.
const MAX_WORDED: usize = 400;
/// How many names or choices a help lists.
const LISTED: usize = 24;
/// In a mapping with more entries than this, names already given are suggested as well.
const LARGE_MAP: usize = 1_000;

/// A JSON Schema, compiled once.
#[derive(Debug)]
pub struct Schema {
    json: Json,
    validator: Validator,
}

impl Schema {
    /// Compiles a schema.
    ///
    /// # Errors
    /// What the jsonschema crate says when it is not a valid schema.
    pub fn new(json: Json) -> Result<Schema, String> {
        let validator = jsonschema::validator_for(&json).map_err(|error| error.to_string())?;
        Ok(Schema { json, validator })
    }

    /// The schema as JSON.
    pub fn json(&self) -> &Json {
        &self.json
    }

    /// The compiled schema.
    pub fn validator(&self) -> &Validator {
        &self.validator
    }
}

/// Checks a tree against a schema. The complaints are ordered by place, no two alike at one place, at most
/// [`MAX_COMPLAINTS`] and then one that counts the rest.
pub fn check_schema(source: &SourceText, root: &Node, schema: &Schema) -> Complaints {
    let json = root.to_json();
    let mut checker = Checker {
        source,
        root,
        schema: &schema.json,
        found: Vec::new(),
        missing: Vec::new(),
        suggested: Vec::new(),
        unworded: 0,
    };
    for error in schema.validator.iter_errors(&json) {
        checker.take(&error, 0);
    }
    checker.finish()
}

struct Checker<'a> {
    source: &'a SourceText,
    root: &'a Node,
    schema: &'a Json,
    found: Vec<Complaint>,
    missing: Vec<Missing>,
    /// Keys that a complaint about a misspelt one already names.
    suggested: Vec<Missing>,
    unworded: usize,
}

/// A required key that is not there: the pointer of its mapping and its name.
#[derive(PartialEq, Eq, Hash)]
struct Missing {
    pointer: String,
    name: String,
}

impl Checker<'_> {
    fn take(&mut self, error: &ValidationError<'_>, depth: usize) {
        if self.found.len().saturating_add(self.missing.len()) >= MAX_WORDED {
            self.unworded = self.unworded.saturating_add(1);
            return;
        }
        let pointer = error.instance_path().as_str();
        match error.kind() {
            Kind::AdditionalProperties { unexpected }
            | Kind::UnevaluatedProperties { unexpected } => {
                let allowed = lookup::allowed_names(self.schema, error.schema_path().as_str());
                for name in unexpected {
                    self.unknown_key(pointer, name, &allowed);
                }
            }
            Kind::PropertyNames { error: inner } => {
                let name = inner.instance().as_str().unwrap_or_default().to_owned();
                let mut allowed = lookup::allowed_names(self.schema, error.schema_path().as_str());
                if let Kind::Enum { options } = inner.kind() {
                    allowed.extend(lookup::texts(options));
                }
                if !allowed.is_empty() {
                    return self.unknown_key(pointer, &name, &allowed);
                }
                let (_, node) = self.place(pointer);
                let span = key_span(node, &name);
                let complaint = words::misformed_name(self.source, self.schema, inner, &name, span);
                self.found.push(complaint);
            }
            Kind::Required { property } => {
                let name = property.as_str().unwrap_or_default().to_owned();
                self.missing.push(Missing {
                    pointer: pointer.to_owned(),
                    name,
                });
            }
            Kind::AnyOf { context } | Kind::OneOfNotValid { context } => {
                match words::relevant_branch(error, context).filter(|_| depth < 16) {
                    Some(branch) => branch
                        .iter()
                        .for_each(|inner| self.take(inner, depth.saturating_add(1))),
                    None => self.no_branch(error, context),
                }
            }
            Kind::UniqueItems => self.repeated(pointer),
            _ => {
                let (key, node) = self.place(pointer);
                let complaint =
                    words::complaint(self.source, self.schema, error, key.as_deref(), node);
                self.found.push(complaint);
            }
        }
    }

    /// The name of the key that a pointer leads to, or of the list it is an item of, and the node.
    fn place(&self, pointer: &str) -> (Option<String>, &Node) {
        let (key, node) = self.root.at_pointer(pointer).unwrap_or((None, self.root));
        let name = key.map(|key| quote(&key.text)).or_else(|| {
            let (list, item) = pointer.rsplit_once('/')?;
            let number = item.parse::<usize>().ok()?.checked_add(1)?;
            let (key, _) = self.root.at_pointer(list)?;
            Some(match key {
                Some(key) => format!("item {number} of {}", quote(&key.text)),
                None => format!("item {number}"),
            })
        });
        (name, node)
    }

    fn unknown_key(&mut self, pointer: &str, name: &str, allowed: &[String]) {
        if self.found.len() >= MAX_WORDED {
            self.unworded = self.unworded.saturating_add(1);
            return;
        }
        let (inside, node) = self.place(pointer);
        let map = node.as_map();
        let span = key_span(node, name);
        let whereabouts = inside.map_or_else(|| "here".to_owned(), |inside| format!("in {inside}"));
        let free: Vec<&str> = allowed
            .iter()
            .map(String::as_str)
            .filter(|name| map.is_none_or(|map| map.len() > LARGE_MAP || map.get(name).is_none()))
            .collect();
        let meant = suggest::nearest(name, free.iter().copied());
        let listed = lookup::list(&free, LISTED);
        let help = match meant {
            Some(meant) => Some(format!("did you mean {}?", quote(meant))),
            None if free.is_empty() => None,
            None => Some(format!("names that can stand here: {listed}")),
        };
        let message = format!("{} is not known {whereabouts}", quote(name));
        let complaint = Complaint::error("schema::unknown-key", message)
            .at(self.source, span, "not a name that can stand here")
            .maybe_help(help);
        if let Some(meant) = meant {
            // The misspelt key is the missing one; to say both would be to say it twice.
            self.suggested.push(Missing {
                pointer: pointer.to_owned(),
                name: meant.to_owned(),
            });
        }
        self.found.push(complaint);
    }

    fn no_branch(
        &mut self,
        error: &ValidationError<'_>,
        context: &[Vec<ValidationError<'static>>],
    ) {
        let (key, node) = self.place(error.instance_path().as_str());
        let complaint = words::no_branch(
            self.source,
            self.schema,
            error,
            context,
            key.as_deref(),
            node,
        );
        self.found.push(complaint);
    }

    fn repeated(&mut self, pointer: &str) {
        let (key, node) = self.place(pointer);
        let name = key.unwrap_or_else(|| "the list".to_owned());
        let mut first: HashMap<Json, Span> = HashMap::new();
        let twice = node.as_seq().unwrap_or_default().iter().find_map(|item| {
            first
                .insert(item.to_json(), item.span)
                .map(|first| (first, item.span))
        });
        let message = format!("{name} names the same item twice");
        let complaint = Complaint::error("schema::repeated", message);
        let complaint = match twice {
            Some((first, again)) => complaint
                .at(self.source, again, "again here")
                .also(first, "first here"),
            // Equal only as numbers, such as 1 and 1.0.
            None => complaint.at(self.source, node.span, "in this list"),
        };
        self.found.push(complaint);
    }

    /// Required keys that are not there, one complaint a mapping.
    fn word_missing(&mut self) {
        let suggested: HashSet<Missing> = std::mem::take(&mut self.suggested).into_iter().collect();
        let missing: Vec<Missing> = std::mem::take(&mut self.missing)
            .into_iter()
            .filter(|missing| !suggested.contains(missing))
            .collect();
        let mut groups: Vec<(&str, Vec<&str>)> = Vec::new();
        for missing in &missing {
            match groups
                .iter_mut()
                .find(|(pointer, _)| *pointer == missing.pointer)
            {
                Some((_, names)) => names.push(&missing.name),
                None => groups.push((&missing.pointer, vec![&missing.name])),
            }
        }
        for (pointer, mut names) in groups {
            names.dedup();
            let (inside, node) = self.place(pointer);
            let (key, _) = self.root.at_pointer(pointer).unwrap_or((None, self.root));
            let first_key = node
                .as_map()
                .and_then(|map| map.entries.first())
                .map(|entry| entry.key.span);
            let span = key.map(|key| key.span).or(first_key).unwrap_or(node.span);
            let verb = if names.len() == 1 { "is" } else { "are" };
            let whereabouts = inside.map_or_else(String::new, |inside| format!(" from {inside}"));
            let message = format!(
                "{} {verb} missing{whereabouts}",
                lookup::list(&names, LISTED)
            );
            let label = if names.len() == 1 {
                "it belongs here"
            } else {
                "they belong here"
            };
            self.found
                .push(Complaint::error("schema::missing-key", message).at(
                    self.source,
                    span,
                    label,
                ));
        }
    }

    fn finish(mut self) -> Complaints {
        self.word_missing();
        let mut complaints = Complaints(self.found);
        complaints.sort();
        let mut seen = HashSet::new();
        complaints.0.retain(|c| seen.insert((c.span(), c.code)));
        let more = complaints
            .len()
            .saturating_sub(MAX_COMPLAINTS)
            .saturating_add(self.unworded);
        complaints.0.truncate(MAX_COMPLAINTS);
        if more > 0 {
            let mut rest = Complaint::error("source::more", format!("and {more} more like these"));
            rest.severity = Severity::Advice;
            complaints.push(rest);
        }
        complaints
    }
}

/// The place of a key in a mapping, or the mapping's own.
fn key_span(node: &Node, name: &str) -> Span {
    node.as_map()
        .and_then(|map| map.entry(name))
        .map_or(node.span, |entry| entry.key.span)
}
