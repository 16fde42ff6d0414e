//! Text with positions, and diagnostics.
//!
//! The lowest room of the house but for quantities: it turns a file into text that knows its places
//! ([`SourceText`]), the text into a tree whose every node knows where it was written ([`Node`]), and
//! what is wrong with either into complaints that point at the characters ([`Complaint`]). It knows
//! nothing of rigs, packs or facts.
//!
//! | module | concern |
//! |---|---|
//! | [`text`] | a named text, spans in it, lines and columns |
//! | [`read`] | files, standard input and bytes, to text; encodings and the size cap |
//! | [`mod@parse`] | YAML to the tree, within a budget |
//! | [`flow`] | figures with thousands commas inside `{}` and `[]` |
//! | [`tree`] | the tree itself, and its JSON form |
//! | [`schema`] | JSON Schema complaints in plain words |
//! | [`suggest`] | the nearest right name |
//! | [`diagnostic`] | complaints and their codes |
//! | [`mod@render`] | complaints as a person sees them |
//! | [`mod@clean`] | nothing from an input may steer the terminal |

mod assemble;
pub mod clean;
mod cost;
pub mod diagnostic;
pub mod flow;
pub mod parse;
mod parser_errors;
pub mod read;
pub mod render;
pub mod schema;
mod schema_lookup;
mod schema_words;
pub mod suggest;
pub mod text;
pub mod tree;

pub use clean::{clean, quote};
pub use diagnostic::{Codes, Complaint, Complaints, Label, Severity};
pub use parse::parse;
pub use read::{MAX_BYTES, read_path, read_stdin};
pub use render::{RenderOptions, render};
pub use schema::{Schema, check_schema};
pub use text::{SourceText, Span};
pub use tree::{Entry, Key, Map, Node, Scalar, Value};

/// The codes of the complaints this layer makes, each with what it means.
pub const CODES: Codes = &[
    ("source::missing-file", "no file with this name"),
    (
        "source::directory",
        "a folder stands where a file is needed",
    ),
    ("source::unreadable", "the file cannot be read"),
    ("source::too-large", "the text is longer than the size cap"),
    ("source::not-utf8", "the bytes are not UTF-8 text"),
    (
        "source::not-utf16",
        "the bytes are marked as UTF-16 but are not",
    ),
    (
        "source::control-character",
        "a NUL byte or other control character in the text",
    ),
    ("source::empty", "the text holds no YAML value"),
    ("source::tab", "a tab used for indentation"),
    ("source::yaml", "the text is not well-formed YAML"),
    ("source::too-deep", "nested deeper than the limit"),
    (
        "source::too-many",
        "more values than the limit, aliases counted out in full",
    ),
    (
        "source::self-reference",
        "an alias inside the value that it names",
    ),
    (
        "source::many-documents",
        "more than one YAML document in the text",
    ),
    ("source::tag", "a YAML tag that has no meaning here"),
    ("source::merge-key", "the merge key `<<`"),
    ("source::key", "a key that is not plain text, or is missing"),
    ("source::duplicate-key", "the same key twice in one mapping"),
    ("source::more", "how many further complaints are not shown"),
    (
        "schema::unknown-key",
        "a key that the schema does not know here",
    ),
    ("schema::missing-key", "a key that the schema requires"),
    ("schema::choice", "a value outside the choices"),
    ("schema::kind", "a value of the wrong kind"),
    (
        "schema::form",
        "a text that is not written in the form asked for",
    ),
    (
        "schema::bounds",
        "a number, text, list or mapping outside its bounds",
    ),
    ("schema::repeated", "the same item twice in a list"),
    ("schema::other", "another rule of the schema is broken"),
];
