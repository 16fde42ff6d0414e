//! The text of a pack without its cases.
//!
//! Cases are half of what the packs hold, and only proving, listing and explaining them needs them. A
//! check reads the packs that are built in, whose cases were tried when they were, without.

use super::model::Pack;
use super::read::read_pack_tree;
use crate::source::{Complaints, SourceText, parse};

/// Reads a pack without its cases.
///
/// # Errors
/// As [`super::read_pack`].
pub(super) fn read_without_cases(source: &SourceText) -> Result<Pack, Complaints> {
    let root = parse(&without_cases(source))?;
    read_pack_tree(source, &root)
}

/// The text with every line of its cases blank; each other character stays in its place, so spans and
/// line numbers are those of the whole text, but that a rule ends
/// before its cases.
///
/// It goes by the layout: a key `cases:` alone on its line, and the lines below that are further in or
/// are items of a list beside it. Packs from outside are read whole.
fn without_cases(source: &SourceText) -> SourceText {
    let mut out = String::with_capacity(source.text().len());
    let mut within: Option<usize> = None;
    for line in source.text().split_inclusive('\n') {
        let inner = line.trim_start_matches(' ');
        let indent = line.len().saturating_sub(inner.len());
        let written = !inner.trim_end().is_empty();
        within = match within {
            Some(key) if !written || indent > key || (indent == key && inner.starts_with("- ")) => {
                Some(key)
            }
            _ => (inner.trim_end() == "cases:").then_some(indent),
        };
        if within.is_some() && written {
            let end = line.trim_end_matches(['\r', '\n']);
            out.extend(std::iter::repeat_n(' ', end.len()));
            out.push_str(line.get(end.len()..).unwrap_or_default());
        } else {
            out.push_str(line);
        }
    }
    SourceText::from_str(source.name(), &out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pack::Library;

    /// Of every built-in pack all but the cases comes out the same, with its places in the text.
    #[test]
    fn built_in_packs_lose_their_cases_and_nothing_else() {
        let library = Library::built_in();
        let mut cases = 0;
        for pack in library.all().expect("the built-in packs read") {
            let bare = read_without_cases(&pack.source).expect("it reads without");
            let mut whole = pack.clone();
            for (rule, bare) in whole.rules.iter_mut().zip(&bare.rules) {
                cases += rule.cases.len();
                rule.cases.clear();
                // What ends with its cases ends where they begin.
                rule.span.end = bare.span.end;
            }
            for (adoption, bare) in whole.adopts.iter_mut().zip(&bare.adopts) {
                cases += adoption.cases.len();
                adoption.cases.clear();
                adoption.span.end = bare.span.end;
            }
            let same = format!("{bare:?}") == format!("{whole:?}");
            assert!(same, "{}", pack.id.value);
        }
        assert!(cases > 10_000);
    }
}
