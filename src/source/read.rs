//! Files, standard input and bytes, to text.
//!
//! UTF-8 with or without a mark, and UTF-16 with one, are read; anything else is refused with the place.
//! No more than [`MAX_BYTES`] are ever taken in, so a huge file costs neither time nor memory.

use super::clean::quote;
use super::diagnostic::{Complaint, Complaints};
use super::text::{SourceText, Span};
use std::fs::File;
use std::io::{ErrorKind, Read};
use std::path::Path;

/// The largest input that is read, in bytes.
pub const MAX_BYTES: usize = 4 * 1024 * 1024;

/// The name under which standard input is shown.
pub const STDIN_NAME: &str = "standard input";

/// Reads a file; the path `-` stands for standard input.
///
/// # Errors
/// One complaint: the file is missing, a folder, unreadable, larger than [`MAX_BYTES`], or not text
/// (see [`SourceText::from_bytes`]).
pub fn read_path(path: &Path) -> Result<SourceText, Complaints> {
    if path.as_os_str() == "-" {
        return read_stdin();
    }
    let name = path.to_string_lossy();
    let shown = quote(&name);
    let failed = |error: &std::io::Error| -> Complaints {
        match error.kind() {
            ErrorKind::NotFound => {
                Complaint::error("source::missing-file", format!("there is no file {shown}"))
                    .help("check the spelling, and the folder that the command is run in")
            }
            ErrorKind::IsADirectory => directory(&shown),
            ErrorKind::PermissionDenied => Complaint::error(
                "source::unreadable",
                format!("{shown} may not be read: permission denied"),
            )
            .help("ask for the right to read it, or copy it to a folder of your own"),
            _ => Complaint::error(
                "source::unreadable",
                format!("{shown} cannot be read: {error}"),
            ),
        }
        .into()
    };
    let file = File::open(path).map_err(|e| failed(&e))?;
    let metadata = file.metadata().map_err(|e| failed(&e))?;
    if metadata.is_dir() {
        return Err(directory(&shown).into());
    }
    if metadata.len() > MAX_BYTES as u64 {
        return Err(too_large(&name).into());
    }
    let bytes = bounded(file)
        .map_err(|e| failed(&e))?
        .ok_or_else(|| too_large(&name))?;
    SourceText::from_bytes(&name, bytes)
}

/// Reads standard input to its end.
///
/// # Errors
/// As [`read_path`].
pub fn read_stdin() -> Result<SourceText, Complaints> {
    read_from(STDIN_NAME, std::io::stdin().lock())
}

/// Reads any stream to its end, or until it has given more than [`MAX_BYTES`].
///
/// # Errors
/// As [`read_path`].
pub fn read_from(name: &str, stream: impl Read) -> Result<SourceText, Complaints> {
    let read = bounded(stream).map_err(|error| {
        Complaint::error(
            "source::unreadable",
            format!("{} cannot be read: {error}", quote(name)),
        )
    })?;
    SourceText::from_bytes(name, read.ok_or_else(|| too_large(name))?)
}

/// All of a stream, or `None` when it is longer than the cap.
fn bounded(stream: impl Read) -> std::io::Result<Option<Vec<u8>>> {
    let mut bytes = Vec::new();
    stream.take(MAX_BYTES as u64 + 1).read_to_end(&mut bytes)?;
    Ok((bytes.len() <= MAX_BYTES).then_some(bytes))
}

fn directory(shown: &str) -> Complaint {
    Complaint::error(
        "source::directory",
        format!("{shown} is a folder; a file is needed"),
    )
}

fn too_large(name: &str) -> Complaint {
    let limit = MAX_BYTES / (1024 * 1024);
    Complaint::error(
        "source::too-large",
        format!("{} holds more than {limit} MiB of text", quote(name)),
    )
    .help(format!(
        "files of up to {limit} MiB ({MAX_BYTES} bytes) are read; split a larger one"
    ))
}

impl SourceText {
    /// Decodes bytes: UTF-8, with or without a byte-order mark, or UTF-16 with one.
    ///
    /// Positions are those of the decoded text. Line ends stay as they are written.
    ///
    /// # Errors
    /// One complaint with the place: more than [`MAX_BYTES`], not UTF-8, broken UTF-16, or a NUL byte.
    pub fn from_bytes(name: &str, bytes: Vec<u8>) -> Result<SourceText, Complaints> {
        if bytes.len() > MAX_BYTES {
            return Err(too_large(name).into());
        }
        let source = match bytes.as_slice() {
            [0xFF, 0xFE, rest @ ..] => utf16(name, rest, u16::from_le_bytes)?,
            [0xFE, 0xFF, rest @ ..] => utf16(name, rest, u16::from_be_bytes)?,
            [0xEF, 0xBB, 0xBF, rest @ ..] => utf8(name, rest)?,
            all => utf8(name, all)?,
        };
        match source.text().find('\0') {
            Some(at) => Err(nul(&source, at).into()),
            None => Ok(source),
        }
    }
}

fn utf8(name: &str, bytes: &[u8]) -> Result<SourceText, Complaint> {
    let error = match std::str::from_utf8(bytes) {
        Ok(text) => return Ok(SourceText::from_str(name, text)),
        Err(error) => error,
    };
    // Up to the first bad byte the lossy text has the offsets of the bytes.
    let at = error.valid_up_to();
    let source = SourceText::from_str(name, &String::from_utf8_lossy(bytes));
    let (line, _) = source.line_col(at);
    let byte = bytes.get(at).copied().unwrap_or_default();
    Err(Complaint::error(
        "source::not-utf8",
        format!(
            "{} is not UTF-8 text: byte {at}, in line {line}, is 0x{byte:02X}",
            quote(name)
        ),
    )
    .at(
        &source,
        Span::new(at, at.saturating_add(1)).within(source.text()),
        "no character in UTF-8",
    )
    .help("save the file as UTF-8; an editor calls this its encoding"))
}

fn utf16(name: &str, bytes: &[u8], unit: fn([u8; 2]) -> u16) -> Result<SourceText, Complaint> {
    let (pairs, odd) = bytes.as_chunks::<2>();
    let units = pairs.iter().map(|&pair| unit(pair));
    let mut text = String::with_capacity(bytes.len());
    let mut broken = None;
    for decoded in char::decode_utf16(units) {
        match decoded {
            Ok(c) => text.push(c),
            Err(_) => {
                broken.get_or_insert(text.len());
                text.push(char::REPLACEMENT_CHARACTER);
            }
        }
    }
    if !odd.is_empty() {
        broken.get_or_insert(text.len());
    }
    let source = SourceText::from_str(name, &text);
    let Some(at) = broken else { return Ok(source) };
    let (line, _) = source.line_col(at);
    Err(Complaint::error(
        "source::not-utf16",
        format!(
            "{} is marked as UTF-16, but line {line} is not",
            quote(name)
        ),
    )
    .at(
        &source,
        Span::new(at, at.saturating_add(1)).within(source.text()),
        "half a character",
    )
    .help("save the file as UTF-8"))
}

fn nul(source: &SourceText, at: usize) -> Complaint {
    let (line, column) = source.line_col(at);
    Complaint::error(
        "source::control-character",
        format!("there is a NUL byte in line {line}, column {column}; a text holds none"),
    )
    .at(source, Span::new(at, at.saturating_add(1)), "NUL byte")
    .help("this may be a binary file, or UTF-16 or UTF-32 without its mark; save it as UTF-8")
}
